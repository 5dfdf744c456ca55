"""How high must the lift point be for the log's underside to be at a height?"""

from __future__ import annotations

import math
from dataclasses import replace

from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift

ROUNDS = 8
"""How often the height is put right for a bucket that turns as the arm rises."""


def with_underside(lift: Lift, *, height: float) -> Lift:
    """The lift with its lift point as high as it must be for the log's lowest point [m].

    Parameters
    ----------
    lift : Lift
        Its own height does not matter.
    height : float
        Of the underside of the log above the ground, hanging level [m].

    Returns
    -------
    Lift
        Slings are taken at the length that hangs lowest, so the lift point is never too low.

    Raises
    ------
    InputError
        When the machine cannot get there, or the sling cannot go round the log.
    """
    # A first guess within reach of every end; the gap from point to underside hardly varies.
    posed = replace(lift, height=height + _guess(lift))
    for _ in range(ROUNDS):
        gap = height - check(posed).lowest
        if abs(gap) < 1e-9:
            break
        posed = replace(posed, height=posed.height + gap)
    return posed


def _guess(lift: Lift) -> float:
    drop = float(lift.point.drop or 0.0)
    if lift.point.hold != "hangs":
        return lift.log.largest_diameter / 2 if lift.point.hold == "gripped" else 0.0
    if lift.tool.mount == "hangs":
        return drop + lift.log.largest_diameter
    return drop + max(0.0, lift.sling.length - math.pi * lift.log.least_diameter)
