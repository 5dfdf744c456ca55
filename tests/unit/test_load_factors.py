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
    JOLT,
    OBSTACLE,
    RAM_SHARE,
    TIPPING_SHARE,
    WALKING_PACE,
    Duty,
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


@pytest.mark.parametrize("duty", DUTIES)
@pytest.mark.parametrize("kind", KINDS)
def test_the_jolt_is_held_by_a_share_or_counted_and_never_both(kind: str, duty: Duty) -> None:
    """With the standard's share every kind that a load decides holds at least the jolt."""
    counts = load_factor(kind, duty=duty)
    assert counts.source in SOURCES
    assert str(counts.why)
    assert 1.0 <= counts.value <= JOLT[duty]
    share = {"tipping": TIPPING_SHARE[duty].value, "ram": RAM_SHARE.value}.get(kind)
    if share is not None:
        assert counts.value / share >= JOLT[duty] - 1e-12
        assert counts.value == pytest.approx(max(1.0, JOLT[duty] * share))


@pytest.mark.parametrize("duty", DUTIES)
@pytest.mark.parametrize("kind", [*KINDS, "a kind of tomorrow"])
def test_moving_is_never_easier_than_standing(kind: str, duty: Duty) -> None:
    moving = load_factor(kind, duty="travelling").value
    assert moving >= load_factor(kind, duty=duty).value


def test_a_kind_that_nobody_listed_has_all_of_the_jolt() -> None:
    for duty in DUTIES:
        assert load_factor("a kind of tomorrow", duty=duty).value == JOLT[duty]


def test_the_jolt_on_the_move_by_its_own_mechanics() -> None:
    """A rigid wheel's axle rolled over the edge of a step in time, smoothed as half a cosine."""
    radius = 0.45
    run = math.sqrt(radius**2 - (radius - OBSTACLE) ** 2)
    time = np.linspace(0.0, run / WALKING_PACE, 10_001)
    height = OBSTACLE / 2 * (1 - np.cos(np.pi * time / time[-1])) / 2
    step = time[1] - time[0]
    most = np.max(np.diff(height, 2)) / step**2
    assert 1 + (1 - 1 / 8) * most / G0 == pytest.approx(JOLT["travelling"], abs=0.01)


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
