"""The machine's own plate or chart: what it allows at a reach. It always caps the answer."""

from __future__ import annotations

from typing import Any

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.machines.lookup import attachment
from liftcalc.machines.schema import Plate
from liftcalc.physics.plane import Real


def _net(lift: Lift, row: Plate) -> float:
    """What a rating leaves below what is fitted [kg]; a lighter attachment is not credited."""
    fitted = float(lift.tool.mass)
    if row.rated_with is not None:
        fitted -= attachment(lift.machine, end=row.end, name=row.rated_with).mass
    return max(0.0, float(row.load) - max(fitted, 0.0))


def plate_loads(lift: Lift, distance: float) -> list[tuple[str, float]]:
    """What the plate or chart allows at one reach [kg], from the request and from the file.

    Of a chart's rows the first one at least as far out counts; farther out than its last row the
    chart gives no load. What is fitted comes off, as far as it is heavier than what was rated.
    """
    found = [] if lift.plate is None else [("as given", lift.plate)]
    for load in loads_at_any_reach(lift):
        found.append(("at any reach", load))
    chart = chart_rows(lift)
    if chart:
        covering = [(out, load) for out, load in chart if out >= distance - 1e-9]
        found.append(
            (f"at {covering[0][0]:.2f} m", covering[0][1])
            if covering
            else ("gives no load this far out", 0.0)
        )
    return found


def loads_at_any_reach(lift: Lift) -> list[float]:
    """Plate values that hold at every reach, below what is fitted [kg]."""
    return [
        _net(lift, row) for row in lift.machine.plate if row.end == lift.end and row.reach is None
    ]


def chart_rows(lift: Lift) -> list[tuple[float, float]]:
    """Rows of the chart: reach [m] and load below what is fitted [kg], nearest first."""
    return sorted(
        (float(row.reach), _net(lift, row))
        for row in lift.machine.plate
        if row.end == lift.end and row.reach is not None
    )


def plate_limit(lift: Lift, *, reach: Real) -> Any:
    """The least of all plate values at each reach [kg], or None where there is no plate at all."""
    caps: list[Any] = [np.asarray(load) for load in loads_at_any_reach(lift)]
    if lift.plate is not None:
        caps.append(np.asarray(lift.plate))
    chart = chart_rows(lift)
    if chart:
        outs = np.array([out for out, _ in chart])
        loads = np.array([load for _, load in chart] + [0.0])
        caps.append(loads[np.searchsorted(outs, np.asarray(reach) - 1e-9)])
    return np.minimum.reduce(np.broadcast_arrays(*caps)) if caps else None
