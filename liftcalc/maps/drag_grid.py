"""A grid that travels with a drawing: what is allowed at the hook while somebody drags it.

Between taking the hook and letting it go nobody asks the model, so the drawing carries a small
map with it: cells over the places of the lift point, each with a load that ``check`` does not go
below anywhere inside the cell. It is made as the maps of ``limits`` are, on a wider lattice, so
that it is made anew with every answer.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal, TypeVar

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.possible import OFF_GROUND
from liftcalc.evaluation.sweep import sweep
from liftcalc.evaluation.turning import back_limits
from liftcalc.machines.joint_limits import refuse
from liftcalc.maps import cell_bounds
from liftcalc.maps.axes import edges, lattice
from liftcalc.maps.cell_bounds import Floats, Masks
from liftcalc.maps.limits import LOWEST, Cells, limits_front
from liftcalc.maps.reach_limits import span_back
from liftcalc.maps.samples import GROUND, Samples, plan_samples, side_samples
from liftcalc.requests.limits import Steps

View = Literal["side", "plan"]

ACROSS = 60
"""Cells either way, at most."""
PARTS, TURN_PARTS = 4, 3
"""Parts that a cell is cut into along a length, and in slew; its floor is sought on these."""
CENTIMETRE = 0.01
"""Edges of cells lie at whole centimetres, so that a place can be said in them [m]."""
ROUGH = 64
"""Places along reach and along height at which the extent of a grid is sought first."""
SPACING = 0.02
"""Size of cells in height at the front end [m]: one line of them, so they may be small."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DragGrid(Cells):
    """Cells over reach and, as ``view`` says, height or slew; for the back end.

    ``reach`` (n + 1,) and ``other`` (m + 1,) are the equally spaced edges of the (n, m) cells
    [m, m or rad]. ``allowed`` is in whole kilograms, rounded down; see `Cells`.
    """

    view: View
    reach: Floats
    other: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class DragCurve(Cells):
    """Cells over height, for the front end, whose arms decide the reach.

    ``height`` (n + 1,) are the equally spaced edges of the (n,) cells [m] and ``reach`` (n + 1,)
    where the arms put the lift point there, ahead of the front axle [m]; NaN beside cells that
    cannot be reached. ``allowed`` is in whole kilograms, rounded down; see `Cells`.
    """

    height: Floats
    reach: Floats


Grid = TypeVar("Grid", DragGrid, DragCurve)


def drag_grid(lift: Lift, *, view: View) -> DragGrid | DragCurve:
    """What is allowed at every place where a drawing can show the hook.

    Parameters
    ----------
    lift : Lift
        Its slew is that of a side view, its height that of a plan view.
    view : {"side", "plan"}
        Reach and height, or reach and slew. The front end only goes up and down: it has the same
        curve in both.

    Returns
    -------
    DragGrid or DragCurve
        At most 60 cells either way. No value is above the allowed load of ``check`` anywhere in
        its cell: understates, by a few per cent. A bound and not an answer: for worse inputs it
        may lie nearer to the truth, but never above it. NaN where some of the cell cannot be
        reached; ``reasons`` say why.

    Raises
    ------
    PoseError
        When slew or sideshift are past their limits, or the attachment cannot stand at its tilt.
    InputError
        When the stance does not go with the attachment.
    """
    if lift.end == "front":
        return _curve(lift)
    refuse(back_limits(lift, slew=lift.slew), end="back")
    return _side(lift) if view == "side" else _plan(lift)


def _nothing_on_the_ground(grid: Grid) -> Grid:
    """A grid that allows nothing where the log lies on the ground, as ``check`` does."""
    if grid.lift.loads_only:
        return grid
    return replace(
        grid,
        criteria=(*grid.criteria, f"{OFF_GROUND[0]} ({OFF_GROUND[1]})"),
        kinds=(*grid.kinds, *GROUND),
        allowed=np.where(grid.on_ground, 0.0, grid.allowed),
        governs=np.where(grid.on_ground, len(grid.criteria), grid.governs),
    )


def _curve(lift: Lift) -> DragCurve:
    found = limits_front(lift, steps=Steps(height=SPACING))
    parts = (found.heights.size - 1) // found.allowed.size
    at_edges = found.reaches[::parts].copy()
    at_edges[~(np.append(found.reached, False) | np.append(False, found.reached))] = np.nan
    return _nothing_on_the_ground(
        DragCurve(
            lift=lift,
            for_log=True,
            criteria=found.criteria,
            kinds=found.kinds,
            reasons=found.reasons,
            governs=found.governs,
            allowed=np.floor(found.allowed),
            stopped=found.stopped,
            clear=found.clear,
            height=found.height,
            reach=at_edges,
        )
    )


def _side(lift: Lift) -> DragGrid:
    """Reach by height at the slew of the lift."""
    out, top = span_back(lift)
    rough = np.linspace(0.0, out, ROUGH), np.linspace(LOWEST, top, ROUGH)
    first, second = (each.ravel() for each in np.meshgrid(*rough, indexing="ij"))
    looked = sweep(lift, reach=first, height=second, slew=lift.slew).allowed
    taken = ~np.isnan(looked.reshape(ROUGH, ROUGH))
    reach = _window(rough[0], np.asarray(taken.any(axis=1)), lowest=0.0)
    height = _window(rough[1], np.asarray(taken.any(axis=0)), lowest=LOWEST)
    samples = side_samples(lift, lattice(reach, PARTS), lattice(height, PARTS))
    return _grid(lift, samples, (PARTS, PARTS), view="side", cuts=(reach, height))


def _plan(lift: Lift) -> DragGrid:
    """Reach by slew at the height of the lift, between the slew limits."""
    out, _ = span_back(lift)
    rough = np.linspace(0.0, out, ROUGH**2)
    looked = sweep(lift, reach=rough, height=np.full(rough.size, lift.height), slew=0.0).allowed
    reach = _window(rough, ~np.isnan(looked[:, 0]), lowest=0.0)
    limit = float(lift.machine.back.slew_limit)
    slew = np.linspace(-limit, limit, ACROSS + 1)
    samples = plan_samples(lift, lattice(reach, PARTS), lattice(slew, TURN_PARTS))
    return _grid(lift, samples, (PARTS, TURN_PARTS), view="plan", cuts=(reach, slew))


def _grid(
    lift: Lift,
    samples: Samples,
    counts: tuple[int, int],
    *,
    view: View,
    cuts: tuple[Floats, Floats],
) -> DragGrid:
    floor = samples.floor()
    allowed, governs = cell_bounds.blocks(floor.load, floor.governs, counts)
    return _nothing_on_the_ground(
        DragGrid(
            lift=lift,
            for_log=True,
            view=view,
            criteria=samples.criteria,
            kinds=samples.kinds,
            reasons=samples.reasons,
            allowed=np.floor(allowed),
            governs=governs,
            stopped=samples.commonest(counts, allowed),
            clear=cell_bounds.whole(floor.clear, counts),
            reach=cuts[0],
            other=cuts[1],
        )
    )


def _window(line: Floats, taken: Masks, *, lowest: float) -> Floats:
    """Edges of cells that reach past the first and the last place that can be reached."""
    at = np.flatnonzero(taken)
    step = float(line[1] - line[0])
    low, high = (line[at[0]], line[at[-1]]) if at.size else (line[0], line[-1])
    low, high = max(lowest, float(low) - step), float(high) + step
    size = CENTIMETRE * math.ceil((high - low) / CENTIMETRE / (ACROSS - 1))
    return edges(size * math.floor(low / size), high, size)
