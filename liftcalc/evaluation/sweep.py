"""The allowed load over many poses at once.

A sweep takes N places in the plane of the end and, at the back, S slews, and gives N × S answers.
It goes through them in tiles small enough for a processor's cache, so that memory and the time
for a pose do not grow with their number. What depends on the place alone is computed once for all
slews, and a place that the arm cannot take is left when that is known. All criteria are those of
the one evaluator.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import reduce
from typing import Any

import numpy as np
from numpy.typing import NDArray

from liftcalc.evaluation.evaluator import Evaluator
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.posed_lift import COUNT, Floats, Indices
from liftcalc.evaluation.turning import back_limits
from liftcalc.machines.joint_limits import JointLimit
from liftcalc.physics.functions import Real, is_zero
from liftcalc.shown import Shown

Masks = NDArray[np.bool_]
BLOCK = 24576
"""Places posed at a time: their arrays of 192 kB stay in the cache."""
TILE = 65536
"""Poses answered at a time, places × slews: fewer arrays live then, so they may be larger."""


def blocks(count: int, size: int) -> Iterator[slice]:
    """Slices of so many, one after the other."""
    for start in range(0, count, size):
        yield slice(start, min(start + size, count))


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
    criteria, kinds : tuple of str
        Titles and kinds of the criteria, in the order that ``governs`` counts.
    stops : tuple of str
        Names of what can make a pose unreachable, in the order that ``stopped`` counts.
    allowed : (N, S) array
        Least allowed load over all criteria [kg]; NaN where the pose cannot be taken.
    governs : (N, S) array
        Index of the criterion that sets it; −1 where the pose cannot be taken.
    stopped : (N, S) array
        Index of the first limit that is passed; −1 where none is.
    """

    lift: Lift
    reach: Floats
    height: Floats
    slew: Floats
    criteria: tuple[str, ...]
    kinds: tuple[str, ...]
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


def sweep(
    lift: Lift, *, reach: Real = None, height: Real, slew: Real = 0.0, apart: Collection[str] = ()
) -> Sweep:
    """Allowed load at every place and slew.

    Parameters
    ----------
    lift : Lift
        What does not vary.
    reach, height : (N,) array
        Places of the lift point [m]; ``reach`` is for the back end only.
    slew : (S,) array
        Slews [rad]; for the back end only.
    apart : collection of str
        Kinds of what is impossible that are left out: see `Evaluator`.

    Returns
    -------
    Sweep
        Errors are those of ``check``; a pose that cannot be taken is NaN with its limit. Of all
        ways to brake and turn the one that allows least counts, pose by pose.
    """
    # A place beyond all numbers is one that cannot be reached.
    with np.errstate(over="ignore"):
        return reduce(
            _worse,
            (
                _as_for(lift, _sweep(way, reach=reach, height=height, slew=slew, apart=apart))
                for way in lift.ways
            ),
        )


def _as_for(lift: Lift, found: Sweep) -> Sweep:
    """A way's loads as what the lift itself would have on its hook with the same log [kg]."""
    scale = lift.pull.share / found.lift.pull.share
    if scale == 1:
        return replace(found, lift=lift)
    log = (found.allowed - lift.rigging) * scale
    return replace(found, lift=lift, allowed=np.maximum(log + lift.rigging, 0.0))


def _worse(one: Sweep, two: Sweep) -> Sweep:
    """The worse of two sweeps of the same poses, pose by pose.

    Some criteria are there one way only, so what governs is counted anew in those of both.
    """
    kinds = dict(zip((*one.criteria, *two.criteria), (*one.kinds, *two.kinds), strict=True))
    names = tuple(kinds)

    def counted(each: Sweep) -> Indices:
        places = [names.index(name) for name in each.criteria]
        # Where nothing governs the count is −1, which takes the −1 put at the end.
        return np.array([*places, -1], dtype=COUNT)[each.governs]

    lower = two.allowed < one.allowed
    return replace(
        one,
        criteria=names,
        kinds=tuple(kinds.values()),
        allowed=np.minimum(one.allowed, two.allowed),
        governs=np.where(lower, counted(two), counted(one)),
    )


def _sweep(lift: Lift, *, reach: Real, height: Real, slew: Real, apart: Collection[str]) -> Sweep:
    """A sweep of one site that holds all the motion there is."""
    heights = np.atleast_1d(np.asarray(height, dtype=float))
    back = lift.end == "back"
    reaches = np.atleast_1d(np.asarray(reach, dtype=float)) if back else np.empty(heights.size)
    slews = np.atleast_1d(np.asarray(slew if back else 0.0, dtype=float))
    turning = back_limits(lift, slew=slews) if back else ()
    evaluator = Evaluator(lift, slew=slews[:, np.newaxis], apart=apart)
    level = is_zero(evaluator.gravity[0]) and is_zero(evaluator.gravity[1])
    # Slews are the rows while answers are found, so that neighbouring places lie together.
    shape = slews.size, heights.size
    allowed, governs = np.full(shape, np.nan), np.full(shape, -1, dtype=COUNT)
    first = np.empty(heights.size, dtype=COUNT)
    names: tuple[str, ...] = ()
    for places in blocks(heights.size, BLOCK):
        posed = evaluator.posed(reaches[places], heights[places])
        names = tuple(limit.name for limit in posed.limits)
        if not back:
            reaches[places] = posed.reach
        first[places] = _first_violated(posed.limits, posed.reach.size, number=len(turning))
        taken = np.flatnonzero(first[places] < 0)
        if not taken.size:
            continue
        arm = posed.arm(taken)
        # On level ground no slew changes what is not linear.
        flat = evaluator.flat(arm, evaluator.lean(arm)) if level else None
        for rows in blocks(slews.size, max(1, TILE // taken.size)):
            least = evaluator.at_slews(rows).least(arm, flat=flat)
            _put(allowed[rows, places], taken, least.load)
            _put(governs[rows, places], taken, np.where(np.isnan(least.load), -1, least.which))
    # The same limits at every slew, but for slews that are themselves beyond theirs.
    stopped = np.broadcast_to(first, shape)
    unturned = _first_violated(turning, slews.size)[:, np.newaxis]
    beyond = unturned[:, 0] >= 0
    if beyond.any():
        allowed[beyond], governs[beyond] = np.nan, -1
        stopped = np.where(unturned >= 0, unturned, stopped)
    return Sweep(
        lift=lift,
        reach=reaches,
        height=heights,
        slew=slews,
        criteria=tuple(title for _, title in evaluator.titles),
        kinds=tuple(kind for kind, _ in evaluator.titles),
        stops=(*(limit.name for limit in turning), *names),
        allowed=allowed.T,
        governs=governs.T,
        stopped=stopped.T,
    )


def _put(block: Any, columns: NDArray[np.intp], values: Any) -> None:
    """Values into some columns of a block; row by row where rows are few, which is faster."""
    values = np.broadcast_to(values, (len(block), len(columns)))
    if len(block) < len(columns):
        for row, each in zip(block, values, strict=True):
            row[columns] = each
    else:
        block[:, columns] = values


def _first_violated(limits: Iterable[JointLimit], size: int, *, number: int = 0) -> Indices:
    """Which limit is the first that is passed, counted from ``number``; −1 where none is."""
    kept, first = np.ones(size, dtype=bool), np.full(size, number, dtype=COUNT)
    for limit in limits:
        kept &= np.logical_not(limit.violated)
        first += kept  # one more is kept before the first that is passed
    return np.where(kept, COUNT(-1), first)
