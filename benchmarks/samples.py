"""20 000 machines by one lift: how long, and how many times sooner than a loop of checks."""

from __future__ import annotations

from benchmarks.maps import bare
from benchmarks.timing import in_turn
from liftcalc.errors import PoseError
from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.sampled import PlaceDoubt, by_machine, sampled
from liftcalc.family.draw import draw, one
from liftcalc.family.kind import machine_kind

COUNT = 20_000
LOOPED = 300
"""Machines of the loop: more than are remembered, so that each is met as if for the first time."""
ROUNDS = 3
MOST, TIMES = 150.0, 500.0


def allowed(lift: Lift) -> float:
    try:
        return check(lift).allowed
    except PoseError:
        return 0.0


def measure() -> list[dict[str, object]]:
    """Time of all samples, and how many times sooner they are than one by one."""
    machine = draw(machine_kind("standard-sideshift"), count=COUNT, seed=1).machine
    asked = bare(attachment="lifting hook")
    lifts = [by_machine(asked, one(machine, row)) for row in range(LOOPED)]
    together, looped = in_turn(
        lambda: sampled(asked, machine, place=PlaceDoubt()).careful,
        lambda: [allowed(each) for each in lifts],
        rounds=ROUNDS,
    )
    return [
        {
            "name": "20 000 samples of one check",
            "ratio": round(1000 * together, 1),
            "limit": MOST,
            "unit": "ms, at most",
        },
        {
            "name": "20 000 samples over a loop of checks",
            "ratio": round(looped / LOOPED * COUNT / together),
            "limit": TIMES,
            "unit": "times sooner, at least",
        },
    ]
