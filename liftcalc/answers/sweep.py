"""The allowed load over many poses at once: the arithmetic of ``check``, on arrays.

A sweep takes N places in the plane of the end and, at the back, S slews, and gives N × S answers.
It goes through them in tiles small enough for a processor's cache, so that memory and the time
for a pose do not grow with their number. What depends on the place alone is computed once for all
slews, and a place that the arm cannot take is left when that is known. Nothing here decides
anything that ``check`` does not decide alike: a test holds the two equal.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import reduce
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from liftcalc.answers.capacity import (
    Vector,
    line_moment_of_load,
    plane_gravity,
    ram_capacity,
)
from liftcalc.answers.lift import Lift, back_stops
from liftcalc.answers.plates import plate_limit
from liftcalc.machines.arm import Arm
from liftcalc.machines.back_arm import back_hand, back_on_links, reach_links
from liftcalc.machines.front_arm import reach_front
from liftcalc.machines.standing import (
    back_point,
    combined,
    front_point,
    pressed_front,
    stand,
    travel_back,
    travel_front,
)
from liftcalc.machines.stops import Stop
from liftcalc.physics.plane import Point, Real
from liftcalc.physics.tipping import Line, coefficients, load_at_tipping
from liftcalc.rules import RAM_SHARE, TIPPING_SHARE

BLOCK = 24576
"""Places posed at a time: their arrays of 192 kB stay in the cache."""
TILE = 65536
"""Poses answered at a time, places × slews: fewer arrays live then, so they may be larger."""

Floats = NDArray[np.float64]
Indices = NDArray[np.int16]
COUNT = np.int16
"""Criteria and stops are few."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sweep:
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
    heights = np.atleast_1d(np.asarray(height, dtype=float))
    back = lift.end == "back"
    reaches = np.atleast_1d(np.asarray(reach, dtype=float)) if back else np.empty(heights.size)
    slews = np.atleast_1d(np.asarray(slew if back else 0.0, dtype=float))
    turning = back_stops(lift, slew=slews) if back else ()
    steps = _Steps(lift, slews, sample=(reaches[:1], heights[:1]))
    # Slews are the rows while answers are found, so that neighbouring places lie together.
    shape = slews.size, heights.size
    allowed, governs = np.full(shape, np.nan), np.full(shape, -1, dtype=COUNT)
    first = np.empty(heights.size, dtype=COUNT)
    for places in _blocks(heights.size, BLOCK):
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
        lift=lift, reach=reaches, height=heights, slew=slews, criteria=steps.criteria,
        stops=(*(stop.name for stop in turning), *steps.stops),
        allowed=allowed.T, governs=governs.T, stopped=stopped.T,
    )  # fmt: skip


def _blocks(count: int, size: int) -> Iterator[slice]:
    for start in range(0, count, size):
        yield slice(start, min(start + size, count))


def _put(block: Any, columns: NDArray[np.intp], values: Any) -> None:
    """Values into some columns of a block; row by row where rows are few, which is faster."""
    if len(block) < len(columns):
        for row, each in zip(block, values, strict=True):
            row[columns] = each
    else:
        block[:, columns] = values


def _first_broken(stops: Iterable[Stop], size: int, *, number: int = 0) -> Indices:
    """Which stop is the first that is passed, counted from ``number``; −1 where none is."""
    kept, first = np.ones(size, dtype=bool), np.full(size, number, dtype=COUNT)
    for stop in stops:
        kept &= ~stop.broken
        first += kept  # one more is kept before the first that is passed
    return np.where(kept, COUNT(-1), first)


class _Steps:
    """What a sweep prepares once, and does for every tile.

    A tipping line's moment is linear in the place of a mass, and every mass of the lifting end
    lies in its plane: so is every moment in the first moments of the end, u and w, with one
    factor for each slew. The rest of the machine is a constant for each line.
    """

    def __init__(self, lift: Lift, slews: Floats, *, sample: tuple[Floats, Floats]) -> None:
        self.lift = lift
        self.gravity = lift.site.gravity
        self.level = self.gravity[0] == 0 and self.gravity[1] == 0
        self.slew = slews[:, np.newaxis]
        if lift.end == "back":
            pressed = lift.stance == "stabilisers and bucket"
            other = (pressed_front if pressed else travel_front)(lift.machine, lift.other_tool)
            origin = back_point(lift.machine, Point(0.0, 0.0), slew=0.0, sideshift=lift.sideshift)
            out = -np.cos(self.slew), np.sin(self.slew)
        else:
            other = travel_back(lift.machine, lift.other_tool)
            origin, out = front_point(Point(0.0, 0.0)), (np.ones((1, 1)), np.zeros((1, 1)))
        self.plane = _Plane(origin[0], origin[1], *out)
        self.hand = (
            back_hand(lift.machine, tool=lift.tool, point=lift.point, curl=lift.curl)
            if lift.end == "back"
            else None
        )
        # The arm matters here only by the names of its parts: any place will do.
        look = self.look(*sample)
        arm = look.arm(slice(None))
        self.stops = tuple(stop.name for stop in look.stops)
        self.lines = self._line_forms(arm, other)
        flat = [joint.name for joint in arm.joints] + [f"lift point ({lift.point.name})"]
        if plate_limit(lift, reach=arm.lift_at.u) is not None:
            flat.append("plate")
        self.criteria = (*(f"tipping {line.name}" for line in self.lines.lines), *flat)

    def look(self, reach: Floats, height: Floats) -> _Look:
        """The lifting end at (N,) places; the reach matters at the back only."""
        lift, machine = self.lift, self.lift.machine
        radius = lift.log.largest_diameter / 2
        if self.hand is not None:
            links = reach_links(machine, self.hand, reach=reach, height=height)
            return _Look(
                reach,
                links.stops(machine.back),
                lambda rows: back_on_links(machine, links.some(rows), radius=radius),
            )

        def front(height: Floats) -> Arm:
            return reach_front(
                machine, tool=lift.tool, point=lift.point, height=height, tilt=lift.tilt,
                radius=radius,
            )  # fmt: skip

        arm = front(height)
        out = arm.lift_at.u - machine.wheels.wheelbase
        return _Look(out, arm.stops, lambda rows: front(height[rows]))

    def _line_forms(self, arm: Arm, other: Arm) -> _LineForms:
        """The tipping lines as linear forms in the plane of the lifting end."""
        lift, plane = self.lift, self.plane
        front, back = (other, arm) if lift.end == "back" else (arm, other)
        standings = [
            stand(
                lift.machine, front=front, back=back, slew=0.0, sideshift=lift.sideshift,
                stance=lift.stance, operator=lift.operator, full=full,
            )
            for full in (True, False)
        ]  # fmt: skip
        moving = {lump.name for lump in arm.lumps}
        rests = [
            combined(tuple(lump for lump in each.lumps if lump.name not in moving))
            for each in standings
        ]
        lines = standings[0].lines
        forms = [coefficients(line, gravity=self.gravity) for line in lines]
        rows = [
            (
                form.z,
                form.x * plane.x + form.y * plane.y + form.fixed,
                abs(form.y) * lift.side_room,
                min(
                    float(x.mass * (form.x * x.x + form.y * x.y + form.z * x.z + form.fixed))
                    for x in rests
                ),
            )
            for form in forms
        ]
        up, base, side, rest = np.array(rows, dtype=float).T[:, :, np.newaxis]
        out = np.array([form.x * plane.out_x + form.y * plane.out_y for form in forms])
        return _LineForms(lines, out[:, :, 0], up, base, side, rest)

    def answers(self, arm: Arm, places: int) -> Iterator[tuple[slice, Floats, Indices]]:
        """Rows of slews, with the least allowed load there and what governs; rows × places."""
        share = TIPPING_SHARE[self.lift.duty].value
        moments = self.lines.moments(arm, level=self.level)
        flat = self._flat(arm, slice(None)) if self.level else None
        for rows in _blocks(len(self.slew), max(1, TILE // places)):
            ratio, line = self._tipping(arm, moments, rows)
            # The ratio is in units of the moment that holds; a share of that may be used.
            tips = load_at_tipping(holding_moment=share, load_unit_moment=ratio)
            fixed, which = flat or self._flat(arm, rows)
            least = np.minimum(tips, fixed)
            # What does not tip is counted after the lines: the greater number is the one to tell.
            governs = np.maximum((fixed < tips) * which, line)
            if np.isnan(least.min()):
                # A linkage that cannot close is a stop; nothing unnamed may become a number.
                governs[np.isnan(least)] = -1
            yield rows, least, governs

    def _flat(self, arm: Arm, rows: slice) -> tuple[Floats, Indices]:
        """Least allowed load of all that does not tip, and which: rams, lift point, plate."""
        lift = self.lift
        gravity_u, gravity_w = (
            (0.0, self.gravity[2])
            if self.level
            else plane_gravity(arm, gravity=self.gravity, slew=self.slew[rows])
        )
        each: list[Floats] = []
        for joint in arm.joints:
            capacities = [
                ram_capacity(
                    joint, load_at=at, gravity_u=gravity_u, gravity_w=gravity_w,
                    hydraulics=lift.machine.hydraulics, gauge=lift.gauge, swing=lift.lean,
                    hung=lift.hung,
                ).capacity
                for at in arm.load_places
            ]  # fmt: skip
            each.append(reduce(np.minimum, capacities))
        held, ram = _least(each)
        each = [RAM_SHARE.value * held, np.asarray(float(lift.point.wll))]
        ahead = 0.0 if lift.end == "back" else lift.machine.wheels.wheelbase
        plate = plate_limit(lift, reach=arm.lift_at.u - ahead)
        if plate is not None:
            each.append(plate)
        least, other = _least(each)
        which = np.where(other == 0, ram, other + COUNT(len(arm.joints) - 1))
        return least, which + COUNT(len(self.lines.lines))

    def _tipping(self, arm: Arm, moments: _Moments, rows: slice) -> tuple[Floats, Indices]:
        """Most moment that one kilogram tips with over the least that holds, and on which line.

        Over all lines the least of k/M₀: k is negative where the load tips. It is minus infinity
        where the machine does not even stand empty.
        """
        first_u = arm.joints[0].carried.first.u
        shape = len(self.slew[rows]), len(first_u)
        least, which = np.zeros(shape), np.zeros(shape, dtype=COUNT)
        for number, line in enumerate(self.lines.lines):
            if self.lift.lean == 0 and moments.idle[number, rows].all():
                continue
            out = self.lines.out[number, rows, np.newaxis]
            tips: Real = None
            for place, fixed in zip(arm.load_places, moments.loads, strict=True):
                each = (
                    self._swung(line, place, rows)
                    if self.lift.lean
                    else out * place.u + fixed[number]
                )
                tips = each if tips is None else np.minimum(tips, each)
            holds = out * first_u
            holds += moments.rest[number]
            if self.lift.hung:
                # What hangs has one place for the load; it leans with it.
                still = out * arm.load_at.u + moments.loads[0][number]
                holds = holds + self.lift.hung * (tips - still)
            with np.errstate(divide="ignore", invalid="ignore"):
                ratio = tips / holds
            if self.lift.lean or not moments.stands[number, rows].all():
                ratio = np.where(holds <= 0, -np.inf, ratio)
            # The last line that is worse than all before it is the worst.
            np.maximum(which, (ratio < least) * COUNT(number), out=which)
            np.minimum(least, ratio, out=least)
        return least, which

    def _swung(self, line: Line, at: Point, rows: slice) -> Real:
        """Moment of a hanging load that swings the worst way."""
        load = self.plane.place(at, rows)
        return line_moment_of_load(line, load=load, gravity=self.gravity, swing=self.lift.lean)


class _Look(NamedTuple):
    """The lifting end at some places: its reach, its stops, and its arm at rows of them."""

    reach: Floats
    stops: tuple[Stop, ...]
    arm: Callable[[Any], Arm]


class _Plane(NamedTuple):
    """Where the plane of the end stands: its origin, and the direction outward for each slew."""

    x: Real
    y: Real
    out_x: Real
    out_y: Real

    def place(self, at: Point, rows: slice) -> Vector:
        return self.x + self.out_x[rows] * at.u, self.y + self.out_y[rows] * at.u, at.w


class _LineForms(NamedTuple):
    """The tipping lines as linear forms in the plane of the end; a row for each line.

    The moment of one kilogram is ``out`` (a column for each slew) times how far outward it is,
    ``up`` times its height and ``base``; ``side`` less where a carried log lies off its balance.
    ``rest`` is the moment of all that does not move.
    """

    lines: tuple[Line, ...]
    out: Floats
    up: Floats
    base: Floats
    side: Floats
    rest: Floats

    def moments(self, arm: Arm, *, level: bool) -> _Moments:
        """What an arm adds that no slew changes, and what that tells of all slews."""
        carried = arm.joints[0].carried
        still = self.base * carried.mass + self.rest
        rest = still if level else self.up * carried.first.w + still
        fixed = self.base - self.side
        loads = tuple(fixed if level else self.up * at.w + fixed for at in arm.load_places)
        stands = self._lowest(carried.first.u, rest) > 0
        helps = [
            self._lowest(at.u, each) >= 0 for at, each in zip(arm.load_places, loads, strict=True)
        ]
        return _Moments(rest, loads, stands, np.logical_and.reduce([stands, *helps]))

    def _lowest(self, u: Floats, fixed: Floats) -> Floats:
        """No more than the least of out·u + fixed over all places; lines × slews."""
        ends = np.minimum(self.out * u.min(), self.out * u.max())
        return np.asarray(ends + fixed.min(axis=1, keepdims=True))


class _Moments(NamedTuple):
    """Moments about the lines that no slew changes, and what they tell; a row for each line.

    ``rest`` is of all but the load, ``loads`` of one kilogram of it at each place it may lie.
    ``stands`` says at which slews the machine surely stands empty at every place, ``idle`` at
    which no load tips it over the line either.
    """

    rest: Floats
    loads: tuple[Floats, ...]
    stands: NDArray[np.bool_]
    idle: NDArray[np.bool_]


def _least(each: Iterable[Floats]) -> tuple[Floats, Indices]:
    """The least of some loads and which it is, counted from 0; NaN stays NaN."""
    loads = iter(each)
    least = next(loads)
    which: Indices = np.zeros(np.shape(least), dtype=COUNT)
    for number, load in enumerate(loads, 1):
        # The last that is less than all before it is the least.
        which = np.maximum(which, (load < least) * COUNT(number))
        least = np.minimum(least, load)
    return least, which
