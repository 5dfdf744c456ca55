"""Slips in facts as they are typed: named with what was meant; and facts that contradict."""

from __future__ import annotations

import numpy as np
import pytest

from liftcalc.family.draw import draw, one
from liftcalc.family.fact import Told
from liftcalc.family.facts import FACTS
from liftcalc.family.kind import machine_kind
from liftcalc.family.posterior import doubt
from liftcalc.family.unlikely_facts import unlikely_facts
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
    ("told", "slip", "likely"),
    [
        ([Told(key="boom_ram_bore", value=0.155), *TRIED], "barrel outside", 0.130),
        ([Told(key="working_pressure", value=220 * 6894.8)], "psi for bar", 220e5),
        ([Told(key="working_pressure", value=320e5)], "", 220e5),
        ([Told(key="front_axle", value=4800.0), Told(key="rear_axle", value=3200.0)],
         "axles swapped", 3200.0),
        ([Told(key="pad_spread", value=3.2)], "", 2.3),
        ([Told(key="sideshift", value=5.5)], "decimal point", 0.55),
        ([Told(key="total", value=17600.0)], "pounds for kilograms", 8000.0),
        ([Told(key="rear_hub", value=1.4)], "diameter for radius", 0.7),
        ([Told(key="hinge_height", value=11.3)], "feet for metres", 3.44),
    ],
)  # fmt: skip
def test_a_slip_is_named_with_what_was_meant(told: list[Told], slip: str, likely: float) -> None:
    rest = [each for each in SOUND if each.key != told[0].key]
    found = unlikely_facts(KIND, [*rest, *told])
    named = next(each for each in found if each.name == told[0].key)
    assert named.slip == slip
    assert found[0].name in {each.key for each in told}
    assert named.likely == pytest.approx(likely, rel=0.08)


def test_a_fact_that_the_others_contradict_is_named_with_what_they_say() -> None:
    """Axles of 3200 and 4800 kg, and a whole of 8600, which by itself is nothing special."""
    told = [
        Told(key="front_axle", value=3200.0),
        Told(key="rear_axle", value=4800.0),
        Told(key="total_weighed", value=8600.0),
    ]
    found = unlikely_facts(KIND, told)
    assert len(found) == 1
    likely = {"front_axle": 3800.0, "rear_axle": 5400.0, "total_weighed": 8000.0}
    assert found[0].likely == pytest.approx(likely[found[0].name], rel=0.02)


def test_little_is_said_of_sound_facts() -> None:
    """Of three members told by 25 facts each, at most one fact in fifty is named."""
    random, drawn = np.random.default_rng(6), draw(KIND, count=3, seed=21).machine
    keys = [key for key, each in FACTS.items() if not each.asks][:25]
    named = 0
    for row in range(3):
        machine, told = one(drawn, row), []
        for key in keys:
            exact = float(FACTS[key].predict(machine, Told(key=key, value=0.0), 0.0))
            off = doubt(Told(key=key, value=exact)) * random.standard_normal()
            told.append(Told(key=key, value=exact + off))
        named += len(unlikely_facts(KIND, told))
    assert named <= 3 * 25 / 50


def test_a_consequence_is_told_of_what_was_typed() -> None:
    seen = unlikely_facts(KIND, [Told(key="working_pressure", value=320e5)])[0].seen
    assert seen is not None
    assert seen.given != pytest.approx(seen.likely, rel=0.01)
