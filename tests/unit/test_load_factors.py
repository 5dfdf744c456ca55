"""Each doubt counts once: what a load counts for in every kind of criterion."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import get_args

import numpy as np
import pytest

from liftcalc.evaluation.answer import CriterionKind
from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.sweep import sweep
from liftcalc.factors import (
    BRIEFLY,
    HELD,
    JOLT,
    SLOWLY_YIELDING,
    STUMP,
    WALKING,
    Duty,
    jolt_on_the_way,
    load_factor,
)
from liftcalc.rigging.lift_mode import LiftMode
from liftcalc.site.ground import ground
from liftcalc.site.site import Site
from liftcalc.sources import SOURCES
from liftcalc.units import G0
from tests.helpers import lift

DUTIES: tuple[Duty, ...] = get_args(Duty)
KINDS = tuple(kind for each in get_args(CriterionKind) for kind in (get_args(each) or (each,)))


WAY = {"speed": 1.1, "stump": 0.1}
ON_THE_WAY = jolt_on_the_way(speed=1.1, stump=0.1)


@pytest.mark.parametrize("duty", DUTIES)
@pytest.mark.parametrize("kind", [*KINDS, "a kind of tomorrow"])
def test_the_jolt_is_held_by_what_is_kept_back_or_counted_and_never_both(
    kind: str, duty: Duty
) -> None:
    """Each with a reason; and who moves never has it easier than who stands."""
    counts = load_factor(kind, duty=duty, **WAY)
    assert counts.source in SOURCES
    assert str(counts.why)
    jolt = ON_THE_WAY if duty == "travelling" and kind not in BRIEFLY else JOLT
    held = duty in HELD.get(kind, ((),))[0]
    if kind not in SLOWLY_YIELDING or duty != "travelling":
        assert counts.value == (1.0 if held else jolt)
    assert held or JOLT <= counts.value <= jolt
    assert load_factor(kind, duty="travelling", **WAY).value >= counts.value


def test_what_holds_the_jolt_names_a_kind_that_there_is() -> None:
    assert {*HELD, *BRIEFLY} <= set(KINDS)


PEAKS = {
    # speed [m/s], height [m]: greatest of the hardest tyre, an axle, what the load hangs on
    (0.5, 0.10): (1.43, 1.25, 1.21),
    (0.8, 0.10): (1.53, 1.38, 1.47),
    (1.1, 0.10): (1.60, 1.52, 1.54),
    (1.39, 0.10): (1.80, 1.57, 1.57),
    (1.67, 0.10): (1.88, 1.68, 1.69),
    (0.5, 0.15): (1.56, 1.38, 1.34),
    (0.8, 0.15): (1.74, 1.54, 1.67),
    (1.1, 0.15): (1.91, 1.82, 1.91),
    (1.39, 0.15): (2.07, 1.95, 2.14),
    (1.67, 0.15): (2.26, 1.97, 2.07),
}
"""Peaks over the forces at rest in ``dynamics``: 40 carries each, over a stump by one wheel."""


@pytest.mark.parametrize("at", PEAKS)
def test_the_jolt_on_the_way_is_no_less_than_any_simulated_peak(at: tuple[float, float]) -> None:
    speed, stump = at
    counted = jolt_on_the_way(speed=speed, stump=stump)
    assert max(PEAKS[at]) <= counted <= max(PEAKS[at]) + 0.2


def test_an_axle_lifted_by_a_step_in_time_is_jolted_no_more() -> None:
    """A rigid wheel of 0.45 m rolled over a step, smoothed as half a cosine, in its own mechanics.

    Tyres that give take some of it; the steady twist of the machine comes on top. Faster than an
    easy walk a rigid wheel would leave the ground, and a tyre swallows the edge.
    """
    radius, speed = 0.45, 1.1
    for stump in STUMP:
        run = math.sqrt(radius**2 - (radius - stump) ** 2)
        time = np.linspace(0.0, run / speed, 10_001)
        height = stump / 2 * (1 - np.cos(np.pi * time / time[-1])) / 2
        most = np.max(np.diff(height, 2)) / (time[1] - time[0]) ** 2
        assert 1 + most / G0 <= jolt_on_the_way(speed=speed, stump=stump)


def test_a_speed_that_nobody_said_is_the_fastest_walk() -> None:
    said, unsaid = (
        load_factor("axle", duty="travelling", speed=speed, stump=0.1) for speed in (WALKING, 0.0)
    )
    assert said == unsaid


BEDDED = (1.0, 1.05, 1.1, 1.3, 2.0, 3.0)
LIFTS = {
    "back": lift(ground=ground("dense gravel"), site=Site(slope=math.radians(2))),
    "front": lift(end="front", site=Site(slope=math.radians(2))),
    "carried": lift(end="front", travelling=True),
}


@pytest.mark.parametrize("asked", LIFTS.values(), ids=LIFTS)
def test_breakout_and_jolt_do_not_come_together(asked: Lift) -> None:
    """A stuck log counts by the greater, in every criterion, and more of it never helps."""
    asked = replace(asked, sling=replace(asked.sling, mass=40.0))
    free = check(asked)
    before = free.heaviest_log
    for breakout in BEDDED:
        stuck = check(replace(asked, taken=LiftMode(breakout=breakout)))
        for one, other in zip(free.criteria, stuck.criteria, strict=True):
            if one.clearance is None:
                assert other.load_factor.value == max(one.load_factor.value, breakout)
                assert other.allowed <= one.allowed
        assert stuck.heaviest_log <= before
        before = stuck.heaviest_log


@pytest.mark.parametrize("asked", LIFTS.values(), ids=LIFTS)
@pytest.mark.parametrize("breakout", [1.0, 1.5])
def test_a_sweep_counts_as_a_check_does(asked: Lift, breakout: float) -> None:
    asked = replace(asked, taken=LiftMode(breakout=breakout))
    swept = sweep(asked, reach=asked.reach, height=asked.height, slew=asked.slew)
    assert float(swept.allowed[0, 0]) == pytest.approx(check(asked).allowed, rel=1e-9)


def test_capacity_needed_over_likely_mass() -> None:
    """Of a log that taping plans with 1.19 of its likely mass: 1.6 on pads, 2.4 at the front."""
    for name, most in (("back", 1.6), ("front", 2.4), ("carried", 2.4)):
        one = check(LIFTS[name]).criteria[0]
        assert one.kind == "tipping"
        assert 1.19 * one.load_factor.value / one.share.value <= most
