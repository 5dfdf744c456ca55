"""``sweep`` of tipping and rams against the same fused by hand, on maps of a million poses.

Both are checked equal on every map before anything is timed. Both start from the lift and end
with the same three arrays. Compiling is not counted.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from benchmarks.fused import Fused
from benchmarks.maps import SHEET, SOLID, Map, bare
from benchmarks.timing import in_turn
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.sweep import Sweep, sweep

LIMIT = 2.0
ROUNDS = 9
HOOK, BUCKET = "lifting hook", "digging bucket"


def equal(ours: Sweep, theirs: tuple[Any, Any, Any]) -> None:
    """Raise unless both say the same: loads to 1e-9, what governs and what stops."""
    allowed, governs, stopped = theirs
    np.testing.assert_allclose(ours.allowed, allowed, rtol=1e-9, atol=1e-9, equal_nan=True)
    np.testing.assert_array_equal(ours.stopped, stopped)
    np.testing.assert_array_equal(ours.governs < 0, governs < 0)
    differ = int((ours.governs != governs).sum())
    # Where two criteria allow the same to the last digits, either may be named.
    if differ > 1e-5 * governs.size:
        raise AssertionError(f"another criterion governs at {differ} of {governs.size} poses")


def over(asked: Lift, where: Map) -> float:
    """Time of the sweep over that of the fused loop."""

    def ours() -> Sweep:
        return sweep(asked, reach=where.reach, height=where.height, slew=where.slew)

    def theirs() -> tuple[Any, Any, Any]:
        return Fused(asked)(reach=where.reach, height=where.height, slew=where.slew)

    equal(ours(), theirs())
    one, other = in_turn(ours, theirs, rounds=ROUNDS)
    return one / other


def measure() -> list[dict[str, object]]:
    """One row for each map and attachment."""
    cases = [(tool, where, "", LIMIT) for tool in (HOOK, BUCKET) for where in (SOLID, SHEET)]
    cases.append((BUCKET, SOLID, "6 deg", LIMIT))
    return [
        {
            "name": f"{tool}, {where.name}{', on a slope' if slope else ''}: over fused numba",
            "ratio": round(
                over(bare(attachment=tool, slope=slope, uphill=slope and "70 deg"), where), 3
            ),
            "limit": limit,
            "unit": "processor time ratio, at most",
        }
        for tool, where, slope, limit in cases
    ]
