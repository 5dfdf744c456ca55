"""An invented rated chart: what the model allows over the back, row by row, as a chart prints it.

It is made for the lesson and for no machine. Reading it is the skill; the figures are the model's.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.sweep import sweep
from liftcalc.school.quantities import UnfitError

ROW = 0.25
"""Spacing of the rows [m]."""
PRINTED = 10.0
"""Loads are printed in whole tens of kilograms, rounded down [kg]."""
LEAST_ROWS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartRow:
    """One row of an invented chart: reach [m] and load [kg] as printed."""

    reach: float
    load: float


def chart(lift: Lift) -> tuple[ChartRow, ...]:
    """Allowed loads at the lift's height and slew, at whole rows of reach.

    Every load is rounded down. Rows farther out never allow more than nearer ones: where the
    model does, the chart prints the lesser, as a chart for the field would.
    """
    arm = lift.machine.back.boom.length + lift.machine.back.dipper.length
    reaches = ROW * np.arange(1, int(1.5 * float(arm) / ROW))
    found = sweep(lift, reach=reaches, height=np.full(reaches.size, lift.height), slew=lift.slew)
    allowed = found.allowed[:, 0]
    taken = np.flatnonzero(~np.isnan(allowed) & (np.nan_to_num(allowed) >= PRINTED))
    # Only the unbroken run of rows from the farthest inward.
    while taken.size > 1 and np.any(np.diff(taken) > 1):
        taken = taken[int(np.argmax(np.diff(taken) > 1)) + 1 :]
    loads = np.minimum.accumulate(allowed[taken])
    rows = tuple(
        ChartRow(reach=float(reaches[i]), load=PRINTED * math.floor(load / PRINTED + 1e-9))
        for i, load in zip(taken, loads, strict=True)
    )
    if len(rows) < LEAST_ROWS:
        raise UnfitError("too few rows for a chart")
    return rows


def row_that_counts(rows: tuple[ChartRow, ...], *, reach: float) -> int:
    """Number of the row for a reach between rows: the one farther out.

    Raises ``UnfitError`` when the reach is not between two rows that tell different loads.
    """
    for number in range(1, len(rows)):
        near, far = rows[number - 1], rows[number]
        if near.reach < reach < far.reach:
            if near.load - far.load < 2 * PRINTED:
                raise UnfitError("both rows tell much the same")
            return number
    raise UnfitError("the reach is not between two rows")
