"""Slips of hand and unit in a machine file that is sound: named, with what was meant."""

from __future__ import annotations

import re

import numpy as np
import pytest

from liftcalc.family.draw import draw, one
from liftcalc.family.kind import machine_kind
from liftcalc.family.unlikely import UnlikelyFigure, unlikely
from liftcalc.machines.files import load, parse, shipped_folder
from liftcalc.machines.validation import sound
from tests.helpers import MACHINES

NAME = "standard-sideshift"
KIND = machine_kind(NAME)
TEXT = (shipped_folder() / f"{NAME}.toml").read_text(encoding="utf-8")


def slipped(table: str, line: str, wrong: str) -> tuple[UnlikelyFigure, ...]:
    """What is said of the shipped file with one line of a table wrong; it must still be read."""
    before, head, after = TEXT.partition(f"[{table}]")
    assert head
    assert re.search(rf"^{re.escape(line)}$", after, re.M), line
    machine = parse(before + head + after.replace(line, wrong, 1), file="mine.toml")
    return unlikely(machine, KIND)


@pytest.mark.parametrize(
    ("table", "line", "wrong", "words", "slip", "likely"),
    [
        ("back", 'slew_axis_x = "-1.05 m"', 'slew_axis_x = "1.05 m"',
         "slew axis behind the pads", "sign lost", 0.17),
        ("back.boom_ram", 'bore = "130 mm"', 'bore = "152 mm"',
         "bore of the boom ram", "barrel outside", 0.130),
        ("back.dipper_ram", 'bore = "115 mm"', 'bore = "135 mm"',
         "bore of the dipper ram", "barrel outside", 0.115),
        ("front.lift_ram", 'bore = "101 mm"', 'bore = "118 mm"',
         "bore of the lift rams", "barrel outside", 0.101),
        ("front.lift_ram", "count = 2", "count = 4", "count of the lift ram", "count", 2),
        ("hydraulics", 'working_pressure = "220 bar"', 'working_pressure = "320 bar"',
         "working pressure", "", 222e5),
        ("hydraulics", 'working_pressure = "220 bar"', 'working_pressure = "220 psi"',
         "working pressure", "psi for bar", 220e5),
        ("weights", 'front_axle = "3200 kg"\nrear_axle = "4800 kg"',
         'front_axle = "4800 kg"\nrear_axle = "3200 kg"',
         "share of it on the front axle", "axles swapped", 0.4),
        ("stabilisers", 'pad_spread = "2.3 m"', 'pad_spread = "3.2 m"', "across the pads", "", 2.3),
        ("back", 'sideshift_limit = "0.55 m"', 'sideshift_limit = "5.5 m"',
         "sideshift, each way", "decimal point", 0.55),
        ("wheels", 'wheelbase = "2.15 m"', 'wheelbase = "7.05 m"',
         "wheelbase", "feet for metres", 2.15),
        ("wheels", 'rear_radius = "0.7 m"', 'rear_radius = "1.4 m"',
         "height of the rear hub", "diameter for radius", 0.7),
        ("back.boom", 'mass = "430 kg"', 'mass = "948 kg"',
         "weight of the boom", "pounds for kilograms", 430),
        ("back.bucket_ram", 'lengthens = "down"', 'lengthens = "up"',
         "lengthens of the bucket ram", "lengthens", 0),
        ("front.tilt_ram", 'lengthens = "down"', 'lengthens = "up"',
         "lengthens of the tilt ram", "lengthens", 0),
        ("back.boom_ram", 'lengthens = "down"', 'lengthens = "up"',
         "lengthens of the boom ram", "lengthens", 0),
        ("back.dipper_ram", 'lengthens = "down"', 'lengthens = "up"',
         "lengthens of the dipper ram", "lengthens", 0),
    ],
)  # fmt: skip
def test_a_slip_is_named_first_with_what_was_meant(
    table: str, line: str, wrong: str, words: str, *, slip: str, likely: float
) -> None:
    found = slipped(table, line, wrong)
    assert found
    assert (found[0].words, found[0].slip) == (words, slip)
    assert found[0].likely == pytest.approx(likely, rel=0.12)


@pytest.mark.parametrize("name", MACHINES)
def test_nothing_is_said_of_a_shipped_machine(name: str) -> None:
    assert unlikely(load(name), machine_kind(name)) == ()


def test_little_is_said_of_members_at_random() -> None:
    """Of 120 sound machines at most one in eight hears of a figure, and hardly one of two."""
    said = []
    for name in MACHINES:
        kind = machine_kind(name)
        drawn = draw(kind, count=30, seed=12).machine
        said += [len(unlikely(one(drawn, row), kind)) for row in range(30)]
    assert np.mean(np.array(said) > 0) <= 1 / 8
    assert np.mean(np.array(said) > 1) <= 0.02


def test_a_consequence_can_be_looked_at() -> None:
    """The sign lost: the kingpost would stand ahead of the rear axle. Swapped: a heavy nose."""
    axis = slipped("back", 'slew_axis_x = "-1.05 m"', 'slew_axis_x = "1.05 m"')[0].seen
    assert axis is not None
    assert axis.given == pytest.approx(-1.05, abs=0.01)
    assert axis.likely == pytest.approx(1.0, abs=0.1)
    swapped = slipped(
        "weights",
        'front_axle = "3200 kg"\nrear_axle = "4800 kg"',
        'front_axle = "4800 kg"\nrear_axle = "3200 kg"',
    )[0].seen
    assert swapped is not None
    assert (swapped.given, swapped.likely) == pytest.approx((4800, 3200), rel=1e-6)


def test_most_of_these_are_sound_files_today() -> None:
    """What a file is refused for need not be named: this is for what no rule refuses."""
    for table, line, wrong in (
        ("back", 'slew_axis_x = "-1.05 m"', 'slew_axis_x = "1.05 m"'),
        ("hydraulics", 'working_pressure = "220 bar"', 'working_pressure = "320 bar"'),
        ("front.lift_ram", "count = 2", "count = 4"),
    ):
        before, head, after = TEXT.partition(f"[{table}]")
        sound(parse(before + head + after.replace(line, wrong, 1), file="x"), file="x")
