"""Slips in facts as they are typed, held against what was told before, with what was meant."""

from __future__ import annotations

import numpy as np
import pytest

from liftcalc.family.draw import draw, one
from liftcalc.family.fact import Told
from liftcalc.family.facts import FACTS
from liftcalc.family.kind import machine_kind
from liftcalc.family.posterior import doubt, posterior
from liftcalc.family.unlikely_fact import unlikely_fact
from liftcalc.machines.files import load

KIND = machine_kind("standard-sideshift")
SOUND = (
    Told(key="total", value=8000.0),
    Told(key="wheelbase", value=2.15),
    Told(key="boom_length", value=2.7),
)
TRIED = (
    Told(key="relief_gauge", value=220e5),
    Told(key="stall_back", value=2323.0, reach=3.5, height=0.5),
    Told(key="foot_to_boom_ram_base", value=0.45),
    Told(key="foot_to_boom_ram_pin", value=1.603),
    Told(key="boom_ram_closed", value=1.285),
    Told(key="boom_ram_open", value=2.02),
)
"""What the shipped machine of the class answers."""


def test_the_trial_is_that_of_the_shipped_machine() -> None:
    machine = load("standard-sideshift")
    for told in TRIED:
        wanted = pytest.approx(told.value, rel=0.02)
        assert float(FACTS[told.key].predict(machine, told, 0.0)) == wanted, told.key


@pytest.mark.parametrize(
    ("key", "value", "slip", "likely"),
    [
        ("boom_ram_bore", 0.155, "barrel outside", 0.130),
        ("working_pressure", 220 * 6894.8, "psi for bar", 220e5),
        ("working_pressure", 320e5, "", 220e5),
        ("front_axle", 4800.0, "axles swapped", 3200.0),
        ("rear_axle", 3200.0, "axles swapped", 4800.0),
        ("pad_spread", 3.2, "", 2.3),
        ("sideshift", 5.5, "decimal point", 0.55),
        ("total", 17600.0, "pounds for kilograms", 8000.0),
        ("rear_hub", 1.4, "diameter for radius", 0.7),
        ("hinge_height", 11.3, "feet for metres", 3.44),
    ],
)
def test_a_slip_is_named_with_what_was_meant(
    key: str, value: float, slip: str, likely: float
) -> None:
    before = [each for each in SOUND if each.key != key]
    if key == "boom_ram_bore":  # bores differ much: only what the ram lifts tells of one
        before += TRIED
    found = unlikely_fact(posterior(KIND, before, count=500), Told(key=key, value=value))
    assert found is not None
    assert found.slip == slip
    assert found.likely == pytest.approx(likely, rel=0.08)


def test_little_is_said_of_sound_facts() -> None:
    """Of 40 members, each told by 30 facts with their slips: fewer than one fact in a hundred."""
    random, drawn = np.random.default_rng(6), draw(KIND, count=40, seed=21).machine
    family = posterior(KIND, count=500)
    keys = [key for key, each in FACTS.items() if not each.asks][:30]
    named = 0
    for row in range(40):
        machine = one(drawn, row)
        for key in keys:
            exact = float(FACTS[key].predict(machine, Told(key=key, value=0.0), 0.0))
            off = doubt(Told(key=key, value=exact)) * random.standard_normal()
            named += unlikely_fact(family, Told(key=key, value=exact + off)) is not None
    assert named <= 12
