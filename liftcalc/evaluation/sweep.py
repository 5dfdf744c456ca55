"""The allowed load over many poses at once: the arithmetic of ``check``, on arrays.

A sweep takes N places in the plane of the end and, at the back, S slews, and gives N × S answers.
It goes through them in tiles small enough for a processor's cache, so that memory and the time
for a pose do not grow with their number. What depends on the place alone is computed once for all
slews, and a place that the arm cannot take is left when that is known. Nothing here decides
anything that ``check`` does not decide alike: a test holds the two equal.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import reduce
from typing import Any

import numpy as np
from numpy.typing import NDArray

from liftcalc.evaluation.kernel import COUNT, Floats, Indices, Kernel, blocks
from liftcalc.evaluation.lift import Lift, back_limits
from liftcalc.machines.joint_limits import JointLimit
from liftcalc.physics.plane import Real
from liftcalc.shown import Shown

Masks = NDArray[np.bool_]
BLOCK = 24576
"""Places posed at a time: their arrays of 192 kB stay in the cache."""


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class Sweep(Shown):
    """Allowed loads over poses.

    Attributes
    ----------
    lift : Lift
        The request; its own reach, height and slew are replaced by those of the sweep.
    reach, height : (N,) array
        Of the lift point [m]; at the front the reach follows from the height.
    slew : (S,) array
        [rad]; one zero at the front.
    criteria : tuple of str
        Names, in the order that ``governs`` counts.
    stops : tuple of str
        Names of what can make a pose unreachable, in the order that ``stopped`` counts.
    allowed : (N, S) array
        Least allowed load over all criteria [kg]; NaN where the pose cannot be taken.
    governs : (N, S) array
        Index of the criterion that sets it; −1 where the pose cannot be taken.
    stopped : (N, S) array
        Index of the first stop that is passed; −1 where none is.
    """

    lift: Lift
    reach: Floats
    height: Floats
    slew: Floats
    criteria: tuple[str, ...]
    stops: tuple[str, ...]
    allowed: Floats
    governs: Indices
    stopped: Indices

    @property
    def passes(self) -> Masks:
        """Where every criterion allows the log; not where the pose cannot be taken."""
        return np.asarray((self.allowed >= self.lift.needed) & (self.allowed > 0))

    def columns(self) -> dict[str, NDArray[Any]]:
        """A row for each place at each slew, as columns that name their unit."""
        places, slews = self.allowed.shape
        # −1, none, finds the last.
        criteria = np.array([*self.criteria, ""], dtype=object)
        stops = np.array([*self.stops, ""], dtype=object)
        return {
            "reach_m": np.repeat(self.reach, slews),
            "height_m": np.repeat(self.height, slews),
            "slew_rad": np.tile(self.slew, places),
            "allowed_kg": self.allowed.ravel(),
            "passes": self.passes.ravel(),
            "governs": criteria[self.governs.ravel()],
            "stopped_by": stops[self.stopped.ravel()],
        }

    def to_frame(self) -> Any:
        """The columns as a DataFrame of pandas.

        Raises
        ------
        ModuleNotFoundError
            Where pandas is not installed.
        """
        try:
            import pandas  # noqa: PLC0415 - nothing else here needs it
        except ModuleNotFoundError:
            raise ModuleNotFoundError(
                "to_frame() needs pandas, which is not installed; columns() does without"
            ) from None
        return pandas.DataFrame(self.columns())


def sweep(lift: Lift, *, reach: Real = None, height: Real, slew: Real = 0.0) -> Sweep:
    """Allowed load at every place and slew.

    Parameters
    ----------
    lift : Lift
        What does not vary.
    reach, height : (N,) array
        Places of the lift point [m]; ``reach`` is for the back end only.
    slew : (S,) array
        Slews [rad]; for the back end only.

    Returns
    -------
    Sweep
        Errors are those of ``check``; a pose that cannot be taken is NaN with its stop.
    """
    one, *others = (_sweep(way, reach=reach, height=height, slew=slew) for way in lift.ways)
    return reduce(_worse, others, one)


def _worse(one: Sweep, two: Sweep) -> Sweep:
    """The worse of two sweeps of the same poses, pose by pose.

    Some criteria are there one way only, so what governs is counted anew in those of both.
    """
    names = tuple(dict.fromkeys((*one.criteria, *two.criteria)))

    def counted(each: Sweep) -> Indices:
        places = [names.index(name) for name in each.criteria]
        # −1, nothing governs, finds the last.
        return np.array([*places, -1], dtype=COUNT)[each.governs]

    lower = two.allowed < one.allowed
    return replace(
        one,
        criteria=names,
        allowed=np.minimum(one.allowed, two.allowed),
        governs=np.where(lower, counted(two), counted(one)),
    )


def _sweep(lift: Lift, *, reach: Real, height: Real, slew: Real) -> Sweep:
    """A sweep of one site that holds all the motion there is."""
    heights = np.atleast_1d(np.asarray(height, dtype=float))
    back = lift.end == "back"
    reaches = np.atleast_1d(np.asarray(reach, dtype=float)) if back else np.empty(heights.size)
    slews = np.atleast_1d(np.asarray(slew if back else 0.0, dtype=float))
    turning = back_limits(lift, slew=slews) if back else ()
    steps = Kernel(lift, slews, sample=(reaches[:1], heights[:1]))
    # Slews are the rows while answers are found, so that neighbouring places lie together.
    shape = slews.size, heights.size
    allowed, governs = np.full(shape, np.nan), np.full(shape, -1, dtype=COUNT)
    first = np.empty(heights.size, dtype=COUNT)
    for places in blocks(heights.size, BLOCK):
        look = steps.look(reaches[places], heights[places])
        if not back:
            reaches[places] = look.reach
        first[places] = _first_broken(look.stops, look.reach.size, number=len(turning))
        taken = np.flatnonzero(first[places] < 0)
        if taken.size:
            for rows, least, which in steps.answers(look.arm(taken), taken.size):
                _put(allowed[rows, places], taken, least)
                _put(governs[rows, places], taken, which)
    # The same stops at every slew, but for slews that are themselves beyond their stop.
    stopped = np.broadcast_to(first, shape)
    unturned = _first_broken(turning, slews.size)[:, np.newaxis]
    beyond = unturned[:, 0] >= 0
    if beyond.any():
        allowed[beyond], governs[beyond] = np.nan, -1
        stopped = np.where(unturned >= 0, unturned, stopped)
    return Sweep(
        lift=lift,
        reach=reaches,
        height=heights,
        slew=slews,
        criteria=steps.criteria,
        stops=(*(stop.name for stop in turning), *steps.stops),
        allowed=allowed.T,
        governs=governs.T,
        stopped=stopped.T,
    )


def _put(block: Any, columns: NDArray[np.intp], values: Any) -> None:
    """Values into some columns of a block; row by row where rows are few, which is faster."""
    if len(block) < len(columns):
        for row, each in zip(block, values, strict=True):
            row[columns] = each
    else:
        block[:, columns] = values


def _first_broken(stops: Iterable[JointLimit], size: int, *, number: int = 0) -> Indices:
    """Which stop is the first that is passed, counted from ``number``; −1 where none is."""
    kept, first = np.ones(size, dtype=bool), np.full(size, number, dtype=COUNT)
    for stop in stops:
        kept &= ~stop.broken
        first += kept  # one more is kept before the first that is passed
    return np.where(kept, COUNT(-1), first)
