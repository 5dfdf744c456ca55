"""The machine's own plate or chart: what it allows at a reach. It always caps the answer."""

from __future__ import annotations

from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from liftcalc.evaluation.lift import Lift
from liftcalc.machines.lookup import attachment
from liftcalc.machines.number import plain
from liftcalc.machines.schema import Plate
from liftcalc.physics.functions import Real, maximum
from liftcalc.remarks import Phrase, near

PlateKind = Literal["given", "any reach", "chart"]


def _net(lift: Lift, row: Plate) -> Real:
    """What a rating leaves below what is fitted [kg]; a lighter attachment is not credited."""
    fitted = plain(lift.tool.mass)
    if row.rated_with is not None:
        fitted = fitted - plain(attachment(lift.machine, end=row.end, name=row.rated_with).mass)
    return maximum(0.0, plain(row.load) - maximum(fitted, 0.0))


class PlateLimit(NamedTuple):
    """What the plate allows: one load at every reach, or the rows of a chart, nearest first.

    Of a chart's rows the first one at least as far out counts; farther out than its last row the
    chart gives no load. What is fitted comes off, as far as it is heavier than what was rated.
    ``outs`` [m] and ``loads`` [kg] are arrays, of sampled machines with a column for each in
    ``loads``; a load that holds at any reach has no ``outs``.
    """

    kind: PlateKind
    outs: NDArray[np.float64]
    loads: NDArray[np.float64]

    def row(self, reach: Real) -> Real:
        """The first row at least as far out; past the last one where there is none."""
        return np.searchsorted(self.outs, np.asarray(reach) - 1e-9)

    def allowed(self, reach: Real) -> Real:
        """What it allows at a reach [kg]: nothing farther out than its last row."""
        if self.kind != "chart":
            return self.loads[0]
        samples = np.ix_(*map(np.arange, self.loads.shape[1:]))
        return self.loads[(self.row(reach), *samples)]

    def where(self, reach: float) -> str:
        """Which of its values counts at one reach, in words."""
        if self.kind != "chart":
            return WHERE[self.kind]
        row = int(self.row(reach))
        if row == len(self.outs):
            return WHERE["chart"]
        return Phrase("at {reach}", reach=near(self.outs[row], "length"))


WHERE: dict[PlateKind, str] = {
    "given": "as given",
    "any reach": "at any reach",
    "chart": "gives no load this far out",
}


def plate_limits(lift: Lift) -> tuple[PlateLimit, ...]:
    """All that plate and chart allow this end, from the request and from the file."""
    none = np.empty(0)
    found = [] if lift.plate is None else [PlateLimit("given", none, np.array([lift.plate]))]
    rows = [row for row in lift.machine.plate if row.end == lift.end]
    found += [
        PlateLimit("any reach", none, np.array([_net(lift, row)]))
        for row in rows
        if row.reach is None
    ]
    chart = sorted(
        ((row.reach, _net(lift, row)) for row in rows if row.reach is not None),
        # At one reach the least counts; of sampled machines the charts are alike.
        key=lambda each: (float(each[0]), np.min(each[1])),
    )
    if chart:
        outs, loads = zip(*chart, strict=True)
        far = np.array(outs, dtype=float)
        found.append(PlateLimit("chart", far, np.array([*loads, 0.0 * loads[0]])))
    return tuple(found)
