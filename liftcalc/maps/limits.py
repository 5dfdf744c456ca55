"""Where a machine can lift: allowed load over reach and height, over slew and reach, over height.

Every map is cut into cells, and the value of a cell holds anywhere inside it: the least found on
a finer lattice, less what may hide between its samples (``cells``). A cell that holds a place
which cannot be taken has no value but a reason. All loads come from ``sweep``, and so from the
same arithmetic as ``check``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from liftcalc.evaluation.lift import Lift, back_limits
from liftcalc.evaluation.sweep import sweep
from liftcalc.machines.joint_limits import refuse
from liftcalc.maps import cell_bounds
from liftcalc.maps.axes import count_of, edges, lattice, padded, reaches, size_of
from liftcalc.maps.cell_bounds import PAD, Floats, Indices, Masks
from liftcalc.maps.reach_limits import (
    arm_at,
    nowhere,
    posed_back,
    posed_front,
    span_back,
    span_front,
    uneven,
)
from liftcalc.maps.unreachable import Reason, reasons_of
from liftcalc.requests.limits import Steps
from liftcalc.shown import Shown

FINE = 0.0125
"""Spacing of the lattice under a map of the back end, at most [m]."""
FINE_FRONT = 0.005
"""Spacing of the heights under a curve of the front end, at most [m]."""
FINE_SLEW = math.radians(1.0)
"""Spacing of the slews under a plan map, at most [rad]."""
DENSE = 0.001
"""Spacing at which a line of reaches is searched for places that cannot be taken, at most [m].

A plan map is one level cut. Where it only grazes such places a gap shorter than this may be
missed: there a ram is past its stop by less than a thousandth of a millimetre.
"""
SLEW_STEP = math.radians(5.0)
"""Size of cells in slew when none is asked for [rad]."""
LOWEST = -1.0
"""Lowest lift point that is mapped when nothing else is asked for [m]: a little down a bank."""
Across = Literal["height", "slew"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cells:
    """Cells of a map, or of a curve, with what holds anywhere inside each.

    Attributes
    ----------
    lift : Lift
        What does not vary.
    criteria : tuple of str
        Names, in the order that ``governs`` counts.
    reasons : tuple of Reason
        In the order that ``stopped`` counts.
    allowed : array
        Least allowed load anywhere in the cell [kg]; NaN where some of it cannot be reached.
        Understates.
    governs : array
        Index of the criterion that sets it, where it is least; −1 where there is none.
    stopped : array
        Index of the commonest reason in and round the cell; −1 where ``allowed`` has a value.
    """

    lift: Lift
    criteria: tuple[str, ...]
    reasons: tuple[Reason, ...]
    allowed: Floats
    governs: Indices
    stopped: Indices

    @property
    def heaviest_log(self) -> Floats:
        """Heaviest planning mass of a log that would pass [kg]; NaN where there is no value."""
        return heaviest(self.lift, self.allowed)

    @property
    def passes(self) -> Masks:
        """Where the log of the lift may be lifted anywhere in the cell."""
        with np.errstate(invalid="ignore"):
            return np.asarray((self.allowed >= self.lift.needed) & (self.allowed > 0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Lattice:
    """The finer lattice under a map, for drawing.

    ``floor`` (nodes) is never above the allowed load anywhere in the cells round a node, so that
    a contour through it stays inside the region it names; ``governs`` is for each of its cells.
    """

    reach: Floats
    other: Floats
    floor: Floats
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


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class BackLimits(Shown):
    """Limits of the back end.

    Attributes
    ----------
    lift : Lift
        Posed at a place that can be taken: the one asked for, or one of ours.
    for_log : bool
        Whether the lift's log was asked about, or only stands in for one.
    side, plan : LimitMap
        Reach by height at the slew of the lift; reach by slew at its height.
    alike : bool
        Whether left and right of the plan map are mirror images.
    uneven : tuple of str
        What makes them differ, in words.
    """

    lift: Lift
    for_log: bool
    side: LimitMap
    plan: LimitMap
    alike: bool
    uneven: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class FrontLimits(Shown, Cells):
    """Limits of the front end with one attachment: cells over height, and the reach that follows.

    ``height`` (n + 1,) are the edges of the cells [m]; ``reach_least`` and ``reach_most`` (n,)
    say where ahead of the front axle the arms put the lift point in a cell [m]. ``heights``,
    ``reaches``, ``floor`` (k,) are the finer nodes for drawing and ``fine_governs`` (k − 1,) what
    governs between them. ``lift`` is posed at a height that can be taken.
    """

    for_log: bool
    height: Floats
    reach_least: Floats
    reach_most: Floats
    heights: Floats
    reaches: Floats
    floor: Floats
    fine_governs: Indices


def heaviest(lift: Lift, allowed: Floats) -> Floats:
    """Heaviest planning mass that an allowed load leaves for a log [kg]."""
    return np.asarray(np.maximum(0.0, (allowed - lift.rigging) / lift.per_log))


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
    size = steps.reach or size_of(out)
    reach = edges(0.0, out, size)
    side = _side(lift, reach, edges(_or(steps.lowest, LOWEST), top, steps.height or size))
    plan = _plan(lift, reach, steps.slew or SLEW_STEP)
    alike = bool(
        np.allclose(plan.lattice.floor, plan.lattice.floor[:, ::-1], rtol=1e-9, equal_nan=True)
    )
    return BackLimits(
        lift=posed,
        for_log=for_log,
        side=side,
        plan=plan,
        alike=alike,
        uneven=() if alike else uneven(lift),
    )


def limits_front(lift: Lift, *, steps: Steps | None = None, for_log: bool = True) -> FrontLimits:
    """Where the front end can lift with its attachment: see `limits_back`.

    Raises
    ------
    PoseError
        When the attachment cannot stand at this tilt at any height that is mapped.
    """
    steps = steps or Steps()
    low, top = span_front(lift)
    size = steps.height or size_of(top)
    height = edges(max(_or(steps.lowest, LOWEST), size * math.floor(low / size)), top, size)
    count = math.ceil(size / FINE_FRONT)
    heights = lattice(height, count)
    found = sweep(lift, height=padded(heights))
    samples, which = found.allowed[:, 0], found.governs[:, 0]
    said, reasons = reasons_of(arm_at(lift, None, found.height), (found.stopped[:, 0],))
    floor, fine = cell_bounds.floors(samples), cell_bounds.governing(samples, which)
    fine = np.where(np.isnan(floor), np.int16(-1), fine)
    allowed, governs = cell_bounds.blocks(floor, fine, (count,))
    keep = _reached(allowed, axis=0)
    if keep is None:
        raise nowhere(lift, said, reasons)
    stopped = np.where(np.isnan(allowed), cell_bounds.commonest(said, (count,), len(reasons)), -1)
    least, most = reaches(found.reach, count)
    near = slice(keep.start * count, keep.stop * count + 1)
    return FrontLimits(
        lift=posed_front(lift, found),
        for_log=for_log,
        criteria=found.criteria,
        reasons=reasons,
        allowed=allowed[keep],
        governs=governs[keep],
        stopped=stopped[keep],
        height=height[keep.start : keep.stop + 1],
        reach_least=least[keep],
        reach_most=most[keep],
        heights=heights[near],
        reaches=found.reach[PAD:-PAD][near],
        floor=cell_bounds.nodes(floor)[near],
        fine_governs=fine[near.start : near.stop - 1],
    )


def _side(lift: Lift, reach: Floats, height: Floats) -> LimitMap:
    """Reach by height at the slew of the lift."""
    counts = count_of(reach, FINE), count_of(height, FINE)
    outs, ups = lattice(reach, counts[0]), lattice(height, counts[1])
    first, second = (each.ravel() for each in np.meshgrid(padded(outs), padded(ups), indexing="ij"))
    found = sweep(lift, reach=first, height=second, slew=lift.slew)
    shape = outs.size + 2 * PAD, ups.size + 2 * PAD
    said, reasons = reasons_of(arm_at(lift, first, second), (found.stopped[:, 0],), skip=2)
    made = _made(
        found.allowed.reshape(shape),
        found.governs.reshape(shape),
        said.reshape(shape),
        reasons=len(reasons),
        counts=counts,
    )
    return _trimmed(
        LimitMap(
            lift=lift,
            across="height",
            at=lift.slew,
            reach=reach,
            other=height,
            lattice=Lattice(
                reach=outs, other=ups, floor=cell_bounds.nodes(made.floor), governs=made.fine
            ),
            criteria=found.criteria,
            reasons=reasons,
            allowed=made.allowed,
            governs=made.governs,
            stopped=made.stopped,
        ),
        counts,
    )


def _plan(lift: Lift, reach: Floats, step: float) -> LimitMap:
    """Reach by slew at the height of the lift, between the slew limits."""
    limit = float(lift.machine.back.slew_limit)
    slew = np.linspace(-limit, limit, 2 * math.ceil(limit / step - 1e-9) + 1)
    counts = count_of(reach, FINE), count_of(slew, FINE_SLEW)
    outs, turns = lattice(reach, counts[0]), lattice(slew, counts[1])
    line = padded(outs)
    found = around(lift, line=line, turns=turns)
    reasons = found.reasons
    made = _made(found.samples, found.governs, found.said, reasons=len(reasons), counts=counts)
    # Drawn from above a side of a cell is straight and cuts a little off the ring inside it.
    ring = np.pad(made.floor, ((1, 1), (0, 0)), constant_values=np.inf)
    shy = np.minimum(np.minimum(ring[:-2], ring[2:]), made.floor)
    trimmed = _trimmed(
        LimitMap(
            lift=lift,
            across="slew",
            at=lift.height,
            reach=reach,
            other=slew,
            lattice=Lattice(
                reach=outs, other=turns, floor=cell_bounds.nodes(shy), governs=made.fine
            ),
            criteria=found.criteria,
            reasons=reasons,
            allowed=made.allowed,
            governs=made.governs,
            stopped=made.stopped,
        ),
        counts,
    )
    if np.isnan(trimmed.allowed).all():
        raise nowhere(lift, found.said[:, 0], reasons)
    return trimmed


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    floor: Floats
    fine: Indices
    allowed: Floats
    governs: Indices
    stopped: Indices


def _made(
    samples: Floats, which: Indices, said: Indices, *, reasons: int, counts: tuple[int, ...]
) -> _Made:
    """Floors on the lattice and in the cells, what governs there, and what stops."""
    floor, fine = cell_bounds.floors(samples), cell_bounds.governing(samples, which)
    fine = np.where(np.isnan(floor), np.int16(-1), fine)
    allowed, governs = cell_bounds.blocks(floor, fine, counts)
    stopped = np.where(np.isnan(allowed), cell_bounds.commonest(said, counts, reasons), -1)
    return _Made(floor=floor, fine=fine, allowed=allowed, governs=governs, stopped=stopped)


def _trimmed(made: LimitMap, counts: tuple[int, int]) -> LimitMap:
    """The map without the far rows and columns in which nothing can be reached."""
    whole = tuple(slice(0, size) for size in made.allowed.shape)
    rows = _reached(made.allowed, axis=0) or whole[0]
    columns = (_reached(made.allowed, axis=1) if made.across == "height" else None) or whole[1]
    both = rows, columns
    fine = tuple(slice(k.start * n, k.stop * n) for k, n in zip(both, counts, strict=True))
    grid = tuple(slice(k.start, k.stop + 1) for k in fine)
    lattice = made.lattice
    return replace(
        made,
        allowed=made.allowed[both],
        governs=made.governs[both],
        stopped=made.stopped[both],
        reach=made.reach[rows.start : rows.stop + 1],
        other=made.other[columns.start : columns.stop + 1],
        lattice=Lattice(
            reach=lattice.reach[grid[0]],
            other=lattice.other[grid[1]],
            floor=lattice.floor[grid],
            governs=lattice.governs[fine],
        ),
    )


def _reached(allowed: Floats, *, axis: int) -> slice | None:
    """From the first to the last row that can be reached anywhere, and one more at each side."""
    others = tuple(each for each in range(allowed.ndim) if each != axis)
    rows = np.flatnonzero(~np.isnan(allowed).all(axis=others))
    if not rows.size:
        return None
    return slice(max(0, int(rows[0]) - 1), min(allowed.shape[axis], int(rows[-1]) + 2))


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """Allowed loads over a padded line of reaches and all slews, with two samples beyond each end.

    ``samples`` [kg], ``governs`` and ``said`` (which of ``reasons``) are (reaches, slews).
    """

    criteria: tuple[str, ...]
    reasons: tuple[Reason, ...]
    samples: Floats
    governs: Indices
    said: Indices


def around(lift: Lift, *, line: Floats, turns: Floats) -> Around:
    """Allowed loads at the height of the lift, at a padded line of reaches [m] and slews [rad]."""
    heights = np.full(line.size, lift.height)
    found = sweep(lift, reach=line, height=heights, slew=turns)
    gone = gaps(lift, line)
    # Past its limits the slew has no samples: the load is carried on straight, which adds no dip.
    beyond = ((0, 0), (PAD, PAD))
    samples = np.pad(found.allowed, beyond, mode="reflect", reflect_type="odd")
    samples[gone] = np.nan
    arm = arm_at(lift, line, heights)
    said, reasons = reasons_of(arm, (found.stopped[:, turns.size // 2],), skip=2, gone=gone)
    return Around(
        criteria=found.criteria,
        reasons=reasons,
        samples=samples,
        governs=np.pad(found.governs, beyond, mode="edge"),
        said=np.repeat(said[:, np.newaxis], samples.shape[1], axis=1),
    )


def gaps(lift: Lift, line: Floats) -> Masks:
    """Nodes of a line of reaches beside which, on either side, something cannot be reached."""
    parts = math.ceil((line[1] - line[0]) / DENSE)
    dense = np.linspace(line[0], line[-1], (line.size - 1) * parts + 1)
    found = sweep(lift, reach=dense, height=np.full(dense.size, lift.height), slew=0.0)
    broken = np.isnan(found.allowed[:, 0])
    between = broken[:-1].reshape(-1, parts).any(axis=1) | broken[parts::parts]
    return np.asarray(np.append(between, broken[-1]) | np.append(broken[0], between))


def _or(value: float | None, default: float) -> float:
    return default if value is None else value
