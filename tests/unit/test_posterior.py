"""What is left of the family by facts: against closed forms, and against hidden machines."""

from __future__ import annotations

import math

import numpy as np
import pytest

from liftcalc.errors import InputError
from liftcalc.family.draw import draw, one
from liftcalc.family.fact import Told
from liftcalc.family.facts import FACTS
from liftcalc.family.kind import machine_kind
from liftcalc.family.parameters import STANDARD_MASS
from liftcalc.family.posterior import FARTHER, WIDENED, answered, doubt, posterior
from liftcalc.machines.schema import Machine
from liftcalc.machines.validation import sound

KIND = machine_kind("standard-centre-mount")


def test_assimilations_count_a_fact_once() -> None:
    assert sum(1 / each for each in WIDENED) == pytest.approx(1.0, abs=1e-12)


def test_one_taped_length_gives_the_closed_form() -> None:
    """Normal variates, a logarithm linear in them, one measurement: conditioning in one line.

    Of the wheelbase itself, and of the mass and the rear track, which it tells of by the size only.
    """
    size = KIND.of.spread / 3
    mean = math.log(KIND.of.mass / STANDARD_MASS) / 3
    own = {"wheelbase": (0.68, 0.025), "total": (3.0, 0.04), "rear_track": (1.05, 0.05)}
    median = {"wheelbase": 2.15, "total": 7900.0, "rear_track": 1.75}
    told = Told(key="wheelbase", value=2.25, tolerance=0.01)
    found = posterior(KIND, [told], count=8000, seed=1).machine
    figures = {
        "wheelbase": found.wheels.wheelbase,
        "total": found.weights.total,
        "rear_track": found.wheels.rear_track,
    }
    power, spread = own["wheelbase"]
    spread_of_base = FARTHER * math.hypot(power * size, spread)
    noise = 0.01 / 2.25
    known = spread_of_base**2 + noise**2
    surprise = math.log(2.25 / median["wheelbase"]) - power * mean
    for name, (exponent, other) in own.items():
        together = (FARTHER * size) ** 2 * exponent * power
        before = FARTHER * math.hypot(exponent * size, other)
        if name == "wheelbase":
            together = spread_of_base**2
        wanted = math.log(median[name]) + exponent * mean + together / known * surprise
        after = math.sqrt(before**2 - together**2 / known)
        logs = np.log(figures[name])
        assert np.std(logs) == pytest.approx(after, rel=0.06), name
        # Members that cannot be are left out, which moves the rest by less than a tenth of this.
        assert np.mean(logs) == pytest.approx(wanted, abs=0.1 * before), name


def test_nothing_told_is_the_whole_family() -> None:
    found, drawn = posterior(KIND, count=4000, seed=1), draw(KIND, count=4000, seed=1)
    assert np.std(found.latent) == pytest.approx(FARTHER * np.std(drawn.latent), rel=0.02)
    assert found.misfit.size == 0


def told_of(machine: Machine, keys: tuple[str, ...], random: np.random.Generator) -> list[Told]:
    """What somebody would tell of a machine, each off by its own doubt."""
    found = []
    for key in keys:
        asked = Told(key=key, value=0.0, reach=3.6, height=0.5, load=600.0)
        exact = float(FACTS[key].predict(machine, asked, random.standard_normal()))
        off = doubt(Told(key=key, value=exact)) * random.standard_normal()
        found.append(Told(key=key, value=exact + off, reach=3.6, height=0.5, load=600.0))
    return found


PLATE = ("total", "rated_back", "working_pressure", "dig_depth", "hinge_height", "boom_ram_bore")
TAPE = ("front_axle", "rear_axle", "wheelbase", "pads_behind", "slew_axis_behind", "boom_length",
        "dipper_length", "foot_to_boom_ram_base", "foot_to_boom_ram_pin", "boom_ram_open",
        "boom_ram_closed")  # fmt: skip
SHOWN = ("stall_back", "balance_back", "balance_front", "front_axle_stretched")


def test_hidden_machines_lie_within_what_is_left() -> None:
    """Of 24 machines the middle nine tenths of four answers hold the truth, about so often.

    With nothing, plate and brochure, or tape and weighbridge told; fewer than 75 of 96 would come
    of a right spread once in ten thousand. More facts leave less, on the whole.
    """
    random = np.random.default_rng(11)
    hidden = draw(KIND, count=24, seed=8).machine
    widths = []
    for keys in ((), PLATE, PLATE + TAPE):
        held, width = 0, []
        for row in range(24):
            machine = one(hidden, row)
            found = posterior(KIND, told_of(machine, keys, random), count=300, seed=row)
            place = [Told(key=key, value=0.0, reach=3.6, height=0.5) for key in SHOWN]
            answers = answered(found.machine, place, np.zeros((300, 4)))
            truth = [float(FACTS[each.key].predict(machine, each, 0.0)) for each in place]
            low, high = np.nanquantile(answers, [0.05, 0.95], axis=0)
            held += int(np.sum((low <= truth) & (truth <= high)))
            width.append((high - low) / truth)
        assert held >= 75, keys
        widths.append(np.mean(width))
    assert widths[0] > 1.5 * widths[1] > 2 * widths[2]


def test_the_same_seed_gives_the_same_answer() -> None:
    told = [Told(key="wheelbase", value=2.2), Told(key="total", value=7900.0)]
    first, again = (posterior(KIND, told, count=100, seed=3) for _ in range(2))
    assert np.array_equal(first.latent, again.latent)


def test_what_is_left_are_machines() -> None:
    """The most typical is a machine by itself, and answers as told."""
    told = [Told(key="boom_length", value=2.85), Told(key="wheelbase", value=2.25)]
    found = posterior(KIND, told, count=200, seed=3)
    machine = found.typical
    sound(machine, file="typical")
    assert machine.back.boom.length == pytest.approx(2.85, abs=0.03)
    assert np.all(np.abs(found.misfit) < 2)


def test_a_fact_that_contradicts_the_others_stands_out() -> None:
    told = [
        Told(key="front_axle", value=3100.0),
        Told(key="rear_axle", value=4600.0),
        Told(key="total_weighed", value=8600.0),
    ]
    found = posterior(KIND, told, count=300, seed=3)
    assert np.max(np.abs(found.misfit)) > 3


def test_facts_of_no_machine_are_refused() -> None:
    told = [Told(key="boom_length", value=0.4), Told(key="boom_ram_open", value=3.5)]
    with pytest.raises(InputError, match="facts of one machine"):
        posterior(KIND, told, count=200)
