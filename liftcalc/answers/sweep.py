"""The allowed load over many poses at once: the arithmetic of ``check``, on arrays.

A sweep takes N places in the plane of the end and, at the back, S slews, and gives N × S answers.
It goes through them in blocks small enough for a processor's cache, so that memory and the time
for a pose do not grow with their number. What depends on the place alone is computed once for all
slews. Nothing here decides anything that ``check`` does not decide alike: a test holds the two
equal.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from liftcalc.answers.capacity import (
    Vector,
    line_moment_of_load,
    plane_gravity,
    ram_capacity,
)
from liftcalc.answers.lift import Lift
from liftcalc.answers.plates import plate_limit
from liftcalc.machines.arm import Arm, reach_back, reach_front
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
from liftcalc.physics.tipping import Coefficients, Line, coefficients, load_at_tipping
from liftcalc.rules import RAM_SHARE, TIPPING_SHARE

BLOCK = 8192
"""Poses in a block: its arrays of 64 kB stay in the cache and in the allocator's own store."""

Floats = NDArray[np.float64]
Indices = NDArray[np.int16]


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
    reaches = np.atleast_1d(np.asarray(reach, dtype=float)) if back else np.empty(0)
    slews = np.atleast_1d(np.asarray(slew if back else 0.0, dtype=float))
    shape = heights.size, slews.size
    allowed = np.empty(shape)
    governs, stopped = np.empty(shape, dtype=np.int16), np.empty(shape, dtype=np.int16)
    found = reaches if back else np.empty(shape[0])
    steps = _Steps(lift, slews)
    for rows in _blocks(*shape):
        arm = steps.arm(reaches[rows] if back else None, heights[rows])
        steps.answer(arm, allowed[rows], governs[rows], stopped[rows])
        if not back:
            found[rows] = (arm.lift_at.u - lift.machine.wheels.wheelbase)[:, 0]
    return Sweep(
        lift=lift, reach=found, height=heights, slew=slews, criteria=steps.criteria,
        stops=steps.stops, allowed=allowed, governs=governs, stopped=stopped,
    )  # fmt: skip


def _blocks(places: int, slews: int) -> Iterator[slice]:
    size = max(1, BLOCK // slews)
    for start in range(0, places, size):
        yield slice(start, min(start + size, places))


class _Steps:
    """What a sweep prepares once, and does for every block.

    A tipping line's moment is linear in the place of a mass, and every mass of the lifting end
    lies in its plane: so is every moment in the first moments of the end, u and w, with one
    factor for each slew. The rest of the machine is a constant for each line.
    """

    def __init__(self, lift: Lift, slews: Floats) -> None:
        self.lift, self.slew = lift, slews[np.newaxis, :]
        self.gravity = lift.site.gravity
        self.level = self.gravity[0] == 0 and self.gravity[1] == 0
        if lift.end == "back":
            pressed = lift.stance == "stabilisers and bucket"
            self.other = (pressed_front if pressed else travel_front)(lift.machine, lift.other_tool)
            origin = back_point(lift.machine, Point(0.0, 0.0), slew=0.0, sideshift=lift.sideshift)
            out = -np.cos(self.slew), np.sin(self.slew)
        else:
            self.other = travel_back(lift.machine, lift.other_tool)
            origin, out = front_point(Point(0.0, 0.0)), (np.ones((1, 1)), np.zeros((1, 1)))
        self.plane = _Plane(origin[0], origin[1], *out)
        self.lines: tuple[_LineForm, ...] = ()
        self.criteria: tuple[str, ...] = ()
        self.stops: tuple[str, ...] = ()

    def arm(self, reach: Floats | None, height: Floats) -> Arm:
        """The lifting end at the places of a block, as columns."""
        lift, radius = self.lift, self.lift.log.largest_diameter / 2
        up = height[:, np.newaxis]
        if reach is None:
            return reach_front(
                lift.machine, tool=lift.tool, point=lift.point, height=up, tilt=lift.tilt,
                radius=radius,
            )  # fmt: skip
        return reach_back(
            lift.machine, tool=lift.tool, point=lift.point, reach=reach[:, np.newaxis],
            height=up, curl=lift.curl, radius=radius,
        )  # fmt: skip

    def answer(self, arm: Arm, allowed: Floats, governs: Indices, stopped: Indices) -> None:
        """Fill a block: least allowed load, what governs, what stops."""
        if not self.lines:
            self._prepare(arm)
        tipping, flat = list(self._tipping(arm)), list(self._flat(arm))
        self.criteria = tuple(name for name, _ in (*tipping, *flat))
        # What depends on the place alone is settled on the columns, before any slew.
        least, which = _least([each for _, each in flat], first=len(tipping))
        allowed[:], governs[:] = least, which
        for number in range(len(tipping) - 1, -1, -1):
            each = tipping[number][1]
            np.copyto(governs, number, where=each <= allowed)
            np.minimum(allowed, each, out=allowed)
        own = () if self.lift.end == "front" else back_stops(self.lift, slew=self.slew)
        stops = (*own, *arm.stops)
        self.stops = tuple(stop.name for stop in stops)
        stopped[:] = -1
        for number in range(len(stops) - 1, -1, -1):
            broken = stops[number].broken
            if broken.any():
                np.copyto(stopped, number, where=broken)
        # A linkage that cannot close is a stop of its own ram; nothing unnamed may stay a number.
        gone = (stopped >= 0) | np.isnan(allowed)
        np.copyto(allowed, np.nan, where=gone)
        np.copyto(governs, -1, where=gone)

    def _prepare(self, arm: Arm) -> None:
        """The tipping lines as linear forms; the arm matters here only by what it is not."""
        lift = self.lift
        moving = {lump.name for lump in arm.lumps}
        front, back = (self.other, arm) if lift.end == "back" else (arm, self.other)
        forms = []
        standings = [
            stand(
                lift.machine, front=front, back=back, slew=0.0, sideshift=lift.sideshift,
                stance=lift.stance, operator=lift.operator, full=full,
            )
            for full in (True, False)
        ]  # fmt: skip
        rests = [
            combined(tuple(lump for lump in each.lumps if lump.name not in moving))
            for each in standings
        ]
        for line in standings[0].lines:
            form = coefficients(line, gravity=self.gravity)
            rest = min(
                float(
                    each.mass * (form.x * each.x + form.y * each.y + form.z * each.z + form.fixed)
                )
                for each in rests
            )
            forms.append(_LineForm(line, form, rest))
        self.lines = tuple(forms)

    def _flat(self, arm: Arm) -> Iterator[tuple[str, Floats]]:
        """Allowed loads that do not tip: rams, lift point, plate."""
        lift = self.lift
        gravity_u, gravity_w = (
            (0.0, self.gravity[2])
            if self.level
            else plane_gravity(arm, gravity=self.gravity, slew=self.slew)
        )
        for joint in arm.joints:
            held: Floats | None = None
            for at in arm.load_places:
                each = ram_capacity(
                    joint, load_at=at, gravity_u=gravity_u, gravity_w=gravity_w,
                    hydraulics=lift.machine.hydraulics, gauge=lift.gauge, swing=lift.lean,
                ).capacity  # fmt: skip
                held = each if held is None else np.minimum(held, each)
            yield joint.name, RAM_SHARE.value * np.asarray(held)
        yield f"lift point ({lift.point.name})", np.asarray(float(lift.point.wll))
        ahead = 0.0 if lift.end == "back" else lift.machine.wheels.wheelbase
        limit = plate_limit(lift, reach=arm.lift_at.u - ahead)
        if limit is not None:
            yield "plate", limit

    def _tipping(self, arm: Arm) -> Iterator[tuple[str, Floats]]:
        """Allowed load of each tipping line: least moment that holds over most that tips."""
        lift, plane = self.lift, self.plane
        share = TIPPING_SHARE[lift.duty].value
        mass = sum(lump.mass for lump in arm.lumps)
        first_u = sum(lump.mass * lump.at.u for lump in arm.lumps)
        first_w = sum(lump.mass * lump.at.w for lump in arm.lumps)
        for line, form, rest in self.lines:
            out = form.x * plane.out_x + form.y * plane.out_y
            base = form.x * plane.x + form.y * plane.y + form.fixed
            holding = out * first_u + (form.z * first_w + (base * mass + rest))
            tips: Real = None
            for at in arm.load_places:
                each = (
                    out * at.u + (form.z * at.w + (base - abs(form.y) * lift.side_room))
                    if lift.lean == 0
                    else self._swung(line, at)
                )
                tips = each if tips is None else np.minimum(tips, each)
            load = load_at_tipping(holding_moment=holding, load_unit_moment=tips)
            yield f"tipping {line.name}", share * load

    def _swung(self, line: Line, at: Point) -> Real:
        """Moment of a hanging load that swings the worst way."""
        load = self.plane.place(at)
        return line_moment_of_load(line, load=load, gravity=self.gravity, swing=self.lift.lean)


class _Plane(NamedTuple):
    """Where the plane of the end stands: its origin, and the direction outward for each slew."""

    x: Real
    y: Real
    out_x: Real
    out_y: Real

    def place(self, at: Point) -> Vector:
        return self.x + self.out_x * at.u, self.y + self.out_y * at.u, at.w


class _LineForm(NamedTuple):
    """A tipping line, its moment as a linear form, and the moment of all that does not move."""

    line: Line
    form: Coefficients
    rest: float


def _least(each: list[Floats], *, first: int) -> tuple[Floats, Indices]:
    """The least of some criteria and which it is, counted from ``first``; NaN stays NaN."""
    least = each[0]
    which = np.full(np.shape(least), first, dtype=np.int16)
    for number, other in enumerate(each[1:], first + 1):
        which = np.where(other < least, np.int16(number), which)
        least = np.minimum(least, other)
    return least, which


def back_stops(lift: Lift, *, slew: Real) -> tuple[Stop, ...]:
    """Limits of the back end's slew and sideshift."""
    back = lift.machine.back
    return (
        Stop(name="slew", needs=np.abs(slew), least=0.0, most=back.slew_limit, unit="rad"),
        Stop(name="sideshift", needs=abs(lift.sideshift), least=0.0,
             most=max(float(back.sideshift_limit), 0.0)),
    )  # fmt: skip
