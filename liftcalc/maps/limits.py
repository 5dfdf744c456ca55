"""Where a machine can lift: allowed load over reach and height, over slew and reach, over height.

Every map is cut into cells, and the value of a cell holds anywhere inside it: the least found on
a finer lattice, less what may hide between its samples (``cell_bounds``). A cell of which any
part cannot be reached has no value but a reason. All loads come from ``sweep``, and so from the
same arithmetic as ``check``. Where a log was given, a cell also says whether that log is off the
ground there: until it is, it is not lifted.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.turning import back_limits
from liftcalc.machines.joint_limits import refuse
from liftcalc.maps import cell_bounds
from liftcalc.maps.axes import cell_size, edges, lattice, parts_of_cell, reaches
from liftcalc.maps.cell_bounds import PAD, Floats, Indices, Kind, Masks
from liftcalc.maps.reach_limits import (
    nothing_reached,
    posed_back,
    posed_front,
    span_back,
    span_front,
    uneven,
)
from liftcalc.maps.samples import Samples, front_samples, plan_samples, side_samples
from liftcalc.maps.unreachable import Reason
from liftcalc.remarks import Remark
from liftcalc.requests.limits import Steps
from liftcalc.shown import Shown

FINE = 0.0125
"""Spacing of the lattice under a map of the back end, at most [m]."""
FINE_FRONT = 0.005
"""Spacing of the heights under a curve of the front end, at most [m]."""
FINE_SLEW = math.radians(1.0)
"""Spacing of the slews under a plan map, at most [rad]."""
SLEW_STEP = math.radians(5.0)
"""Size of cells in slew when none is asked for [rad]."""
LOWEST = -1.0
"""Lowest lift point that is mapped when nothing else is asked for [m]: a little down a bank."""
ON_GROUND = "log still on the ground"
"""What is said of a cell in which this log is not lifted yet, whatever the machine could hold."""
Across = Literal["height", "slew"]
View = Literal["side", "plan", "curve"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cells:
    """Cells of a map, or of a curve, with what holds anywhere inside each.

    Attributes
    ----------
    lift : Lift
        What does not vary.
    criteria, kinds : tuple of str
        Titles and kinds of the criteria, in the order that ``governs`` counts.
    reasons : tuple of Reason
        In the order that ``stopped`` counts.
    allowed : array
        Least allowed load anywhere in the cell [kg]; NaN where some of it cannot be reached.
        Understates.
    governs : array
        Index of the criterion that sets it, where it is least; −1 where there is none.
    stopped : array
        Index of the commonest reason in and round the cell; −1 where ``allowed`` has a value.
    clear : array
        Whether the log of the lift, level or off its balance, is sure to be off the ground anywhere
        in the cell; everywhere, where no log was given.
    for_log : bool
        Whether the lift's log was asked about, or only stands in for one.
    """

    lift: Lift
    for_log: bool
    criteria: tuple[str, ...]
    kinds: tuple[str, ...]
    reasons: tuple[Reason, ...]
    allowed: Floats
    governs: Indices
    stopped: Indices
    clear: Masks

    @property
    def reached(self) -> Masks:
        """Where the end gets to all of the cell."""
        return ~np.isnan(self.allowed)

    @property
    def heaviest_log(self) -> Floats:
        """Heaviest planning mass of a log that would pass [kg]; NaN where there is no value."""
        return heaviest(self.lift, self.allowed)

    @property
    def passes(self) -> Masks:
        """Where the log of the lift is off the ground and allowed anywhere in the cell."""
        with np.errstate(invalid="ignore"):
            enough = (self.allowed >= self.lift.needed) & (self.allowed > 0)
        return np.asarray(enough & self.clear)

    @property
    def on_ground(self) -> Masks:
        """Where the end gets to the cell, but somewhere in it the log still lies on the ground."""
        return np.asarray(self.reached & ~self.clear)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lattice:
    """The finer lattice under a map, for drawing.

    ``floor`` (nodes) is never above the allowed load anywhere in the cells round a node, so that
    a contour through it stays inside the region it names; ``clear`` (nodes) says whether the log
    is off the ground in all of them; ``governs`` is for each cell.
    """

    reach: Floats
    other: Floats
    floor: Floats
    clear: Masks
    governs: Indices


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class LimitMap(Shown, Cells):
    """A map of the back end: cells over reach and, as ``across`` says, height or slew.

    ``reach`` (n + 1,) and ``other`` (m + 1,) are the edges of the (n, m) cells [m, m or rad];
    ``at`` is what stays: the slew [rad] of a side map, the height [m] of a plan map.
    """

    across: Across
    at: float
    reach: Floats
    other: Floats
    lattice: Lattice

    @property
    def view(self) -> View:
        """Where it is seen from."""
        return "side" if self.across == "height" else "plan"


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class BackLimits(Shown):
    """Limits of the back end.

    Attributes
    ----------
    lift : Lift
        Posed at a place that can be taken: the one asked for, or one of ours.
    side, plan : LimitMap
        Reach by height at the slew of the lift; reach by slew at its height.
    alike : bool
        Whether left and right of the plan map are mirror images.
    uneven : tuple of Remark
        What makes them differ.
    """

    lift: Lift
    side: LimitMap
    plan: LimitMap
    alike: bool
    uneven: tuple[Remark, ...]

    @property
    def maps(self) -> tuple[LimitMap, LimitMap]:
        """Every map there is."""
        return self.side, self.plan

    @property
    def for_log(self) -> bool:
        """Whether the lift's log was asked about, or only stands in for one."""
        return self.side.for_log


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class FrontLimits(Shown, Cells):
    """Limits of the front end with one attachment: cells over height, and the reach that follows.

    ``height`` (n + 1,) are the edges of the cells [m]; ``reach_least`` and ``reach_most`` (n,)
    say where ahead of the front axle the arms put the lift point in a cell [m]. ``heights``,
    ``reaches``, ``floor``, ``fine_clear`` (k,) are the finer nodes for drawing, see `Lattice`, and
    ``fine_governs`` (k − 1,) what governs between them. ``lift`` is posed at a height that can be
    taken.
    """

    height: Floats
    reach_least: Floats
    reach_most: Floats
    heights: Floats
    reaches: Floats
    floor: Floats
    fine_clear: Masks
    fine_governs: Indices

    @property
    def view(self) -> View:
        """A curve is seen from nowhere."""
        return "curve"


def heaviest(lift: Lift, allowed: Floats) -> Floats:
    """Heaviest planning mass that an allowed load leaves for a log [kg]."""
    return np.asarray(np.maximum(0.0, (allowed - lift.rigging) / lift.pull.share))


def limits_back(lift: Lift, *, steps: Steps | None = None, for_log: bool = True) -> BackLimits:
    """Where the back end can lift.

    Parameters
    ----------
    lift : Lift
        Its slew is that of the side map, its height that of the plan map. A reach, where it has
        one, only poses the machine for drawings.
    steps : Steps, optional
        Size of cells; chosen from the machine's own reach where not said.
    for_log : bool
        Whether the log of the lift was asked about.

    Returns
    -------
    BackLimits

    Raises
    ------
    PoseError
        When slew or sideshift are past their limits, or nothing can be reached at the height.
    """
    steps = steps or Steps()
    refuse(back_limits(lift, slew=lift.slew), end="back")
    posed = posed_back(lift)
    out, top = span_back(lift)
    size = steps.reach or cell_size(out)
    reach = edges(0.0, out, size)
    height = edges(_or(steps.lowest, LOWEST), top, steps.height or size)
    side = _side(lift, reach, height, for_log)
    plan = _plan(lift, reach, steps.slew or SLEW_STEP, for_log)
    alike = bool(
        np.allclose(plan.lattice.floor, plan.lattice.floor[:, ::-1], rtol=1e-9, equal_nan=True)
    )
    return BackLimits(
        lift=posed, side=side, plan=plan, alike=alike, uneven=() if alike else uneven(lift)
    )


def limits_front(lift: Lift, *, steps: Steps | None = None, for_log: bool = True) -> FrontLimits:
    """Where the front end can lift with its attachment: see `limits_back`.

    Raises ``PoseError`` when the attachment cannot stand at this tilt at any height that is mapped.
    """
    steps = steps or Steps()
    low, top = span_front(lift)
    size = steps.height or cell_size(top)
    height = edges(max(_or(steps.lowest, LOWEST), size * math.floor(low / size)), top, size)
    count = parts_of_cell(height, FINE_FRONT)
    heights = lattice(height, count)
    samples, found = front_samples(lift, heights)
    floor = samples.floor()
    clear = floor.clear | (not for_log)
    allowed, governs = cell_bounds.blocks(floor.load, floor.governs, (count,))
    keep = _reached(allowed, axis=0)
    if keep is None:
        raise nothing_reached(lift, samples.stopped, samples.reasons)
    least, most = reaches(found.reach, count)
    near = slice(keep.start * count, keep.stop * count + 1)
    return FrontLimits(
        lift=posed_front(lift, found),
        for_log=for_log,
        criteria=samples.criteria,
        kinds=samples.kinds,
        reasons=samples.reasons,
        allowed=allowed[keep],
        governs=governs[keep],
        stopped=samples.commonest((count,), allowed)[keep],
        clear=cell_bounds.whole(clear, (count,))[keep],
        height=height[keep.start : keep.stop + 1],
        reach_least=least[keep],
        reach_most=most[keep],
        heights=heights[near],
        reaches=found.reach[PAD:-PAD][near],
        floor=cell_bounds.nodes(floor.load)[near],
        fine_clear=cell_bounds.nodes(clear)[near],
        fine_governs=floor.governs[near.start : near.stop - 1],
    )


def _side(lift: Lift, reach: Floats, height: Floats, for_log: bool) -> LimitMap:
    """Reach by height at the slew of the lift."""
    counts = parts_of_cell(reach, FINE), parts_of_cell(height, FINE)
    samples = side_samples(lift, lattice(reach, counts[0]), lattice(height, counts[1]))
    return _map(lift, samples, counts, across="height", cuts=(reach, height), for_log=for_log)


def _plan(lift: Lift, reach: Floats, step: float, for_log: bool) -> LimitMap:
    """Reach by slew at the height of the lift, between the slew limits."""
    limit = float(lift.machine.back.slew_limit)
    slew = np.linspace(-limit, limit, 2 * math.ceil(limit / step - 1e-9) + 1)
    counts = parts_of_cell(reach, FINE), parts_of_cell(slew, FINE_SLEW)
    samples = plan_samples(lift, lattice(reach, counts[0]), lattice(slew, counts[1]))
    made = _map(lift, samples, counts, across="slew", cuts=(reach, slew), for_log=for_log)
    if not made.reached.any():
        raise nothing_reached(lift, samples.stopped[:, 0], samples.reasons)
    return made


def _map(
    lift: Lift,
    samples: Samples,
    counts: tuple[int, int],
    *,
    across: Across,
    cuts: tuple[Floats, Floats],
    for_log: bool,
) -> LimitMap:
    """A map, cut to the rows and columns in which something can be reached."""
    floor = samples.floor()
    clear = floor.clear | (not for_log)
    allowed, governs = cell_bounds.blocks(floor.load, floor.governs, counts)
    rows = _reached(allowed, axis=0) or slice(0, allowed.shape[0])
    columns = (_reached(allowed, axis=1) if across == "height" else None) or slice(
        0, allowed.shape[1]
    )
    keep = rows, columns
    fine = tuple(slice(k.start * n, k.stop * n) for k, n in zip(keep, counts, strict=True))
    grid = tuple(slice(k.start, k.stop + 1) for k in fine)
    drawn = _ringed if across == "slew" else np.asarray
    return LimitMap(
        lift=lift,
        for_log=for_log,
        across=across,
        at=lift.slew if across == "height" else lift.height,
        reach=cuts[0][rows.start : rows.stop + 1],
        other=cuts[1][columns.start : columns.stop + 1],
        lattice=Lattice(
            reach=lattice(cuts[0], counts[0])[grid[0]],
            other=lattice(cuts[1], counts[1])[grid[1]],
            floor=cell_bounds.nodes(drawn(floor.load))[grid],
            clear=cell_bounds.nodes(drawn(clear))[grid],
            governs=floor.governs[fine],
        ),
        criteria=samples.criteria,
        kinds=samples.kinds,
        reasons=samples.reasons,
        allowed=allowed[keep],
        governs=governs[keep],
        stopped=samples.commonest(counts, allowed)[keep],
        clear=cell_bounds.whole(clear, counts)[keep],
    )


def _ringed(cells: NDArray[Kind]) -> NDArray[Kind]:
    """The least of each cell of a plan and of the rings inside and outside of it.

    Drawn from above a side of a cell is straight and cuts a little off the ring inside it.
    """
    ring = np.pad(cells, ((1, 1), (0, 0)), constant_values=np.inf)
    return np.asarray(np.minimum(np.minimum(ring[:-2], ring[2:]), cells))


def _reached(allowed: Floats, *, axis: int) -> slice | None:
    """From the first to the last row that can be reached anywhere, and one more at each side."""
    others = tuple(number for number in range(allowed.ndim) if number != axis)
    rows = np.flatnonzero(~np.isnan(allowed).all(axis=others))
    if not rows.size:
        return None
    return slice(max(0, int(rows[0]) - 1), min(allowed.shape[axis], int(rows[-1]) + 2))


def _or(value: float | None, default: float) -> float:
    return default if value is None else value
