"""What a sweep prepares once and does for every tile: every criterion, linear where it can be.

``sweep`` says what a sweep is; this is its arithmetic.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import reduce
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from liftcalc.evaluation.capacity import Vector, plane_gravity, ram_capacity
from liftcalc.evaluation.clearances import allowed_by, clearances
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.linear_criteria import linear_criteria, sideways
from liftcalc.evaluation.log_position import below, lowest
from liftcalc.evaluation.rated_chart import plate_limit
from liftcalc.evaluation.ratings import rated
from liftcalc.factors import RAM_SHARE, TIPPING_SHARE
from liftcalc.machines.arm import Arm
from liftcalc.machines.assembly import (
    back_point,
    front_point,
    pressed_front,
    stand,
    total_mass,
    travel_back,
    travel_front,
)
from liftcalc.machines.back_arm import back_hand, back_on_links, reach_links
from liftcalc.machines.front_arm import reach_front
from liftcalc.machines.joint_limits import JointLimit
from liftcalc.physics.plane import Point, Real
from liftcalc.physics.tipping import load_at_tipping
from liftcalc.physics.wrench import WrenchFunctional, about, load_at_failure
from liftcalc.site.hazards import Clearance, Hazards

TILE = 65536
"""Poses answered at a time, places × slews: fewer arrays live then, so they may be larger."""

Floats = NDArray[np.float64]
Indices = NDArray[np.int16]
COUNT = np.int16
"""Criteria and stops are few."""


def blocks(count: int, size: int) -> Iterator[slice]:
    """Slices of so many, one after the other."""
    for start in range(0, count, size):
        yield slice(start, min(start + size, count))


class Kernel:
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
        self.log = below(lift)
        self.rated = rated(lift, self.log)
        self.rules, self.forms = self._rules(arm, other)
        flat = [joint.name for joint in arm.joints] + [
            f"{each.name} {each.where}".strip() for each in self.rated
        ]
        if plate_limit(lift, reach=arm.lift_at.u) is not None:
            flat.append("plate")
        flat += [
            f"{each.name} ({each.where})"
            for each in self._clear(arm, lift.lean(reach=arm.lift_at.u))
        ]
        self.criteria = (*(each.title for each in self.rules), *flat)

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
                machine,
                tool=lift.tool,
                point=lift.point,
                height=height,
                tilt=lift.tilt,
                radius=radius,
            )

        arm = front(height)
        out = arm.lift_at.u - machine.wheels.wheelbase
        return _Look(out, arm.stops, lambda rows: front(height[rows]))

    def _rules(self, arm: Arm, other: Arm) -> tuple[tuple[_Rule, ...], _Forms]:
        """Tipping lines, then demands, and all their forms in the plane of the lifting end."""
        lift, plane = self.lift, self.plane
        front, back = (other, arm) if lift.end == "back" else (arm, other)
        standings = [
            stand(
                lift.machine,
                front=front,
                back=back,
                slew=0.0,
                sideshift=lift.sideshift,
                stance=lift.stance,
                operator=lift.operator,
                full=full,
            )
            for full in (True, False)
        ]
        moving = {lump.name for lump in arm.lumps}
        rests = [
            total_mass(tuple(lump for lump in each.lumps if lump.name not in moving))
            for each in standings
        ]
        share = TIPPING_SHARE[lift.duty].value
        asked = linear_criteria(lift, standings[0], gravity=self.gravity)
        forms = [(about(line), 0.0) for line in standings[0].lines]
        rules = [
            _Rule(f"tipping {line.name}", share, False, (number,))
            for number, line in enumerate(standings[0].lines)
        ]
        for each in asked:
            for way in each.ways:
                own = tuple(range(len(forms), len(forms) + len(way)))
                rules.append(
                    _Rule(f"{each.name} {each.where}".strip(), each.share.value, each.pulled, own)
                )
                forms += way
        linear = [form.coefficients(gravity=self.gravity) for form, _ in forms]
        rows = [
            (
                form.z,
                form.x * plane.x + form.y * plane.y + form.fixed,
                abs(form.y) * lift.side_room,
                constant
                + min(
                    float(x.mass * (form.x * x.x + form.y * x.y + form.z * x.z + form.fixed))
                    for x in rests
                ),
            )
            for form, (_, constant) in zip(linear, forms, strict=True)
        ]
        up, base, side, rest = np.array(rows, dtype=float).T[:, :, np.newaxis]
        out = np.array([form.x * plane.out_x + form.y * plane.out_y for form in linear])
        whole = tuple(form for form, _ in forms)
        return tuple(rules), _Forms(whole, out[:, :, 0], up, base, side, rest)

    def answers(self, arm: Arm, places: int) -> Iterator[tuple[slice, Floats, Indices]]:
        """Rows of slews, with the least allowed load there and what governs; rows × places."""
        share = TIPPING_SHARE[self.lift.duty].value
        moments = self.forms.moments(arm, level=self.level)
        lean = self.lift.lean(reach=arm.lift_at.u)
        flat = self._flat(arm, lean, slice(None)) if self.level else None
        for rows in blocks(len(self.slew), max(1, TILE // places)):
            ratio, rule = self._ruled(arm, moments, lean, rows)
            # The ratio is in units of the moment that holds; a share of that may be used.
            tips = load_at_tipping(holding_moment=share, load_unit_moment=ratio)
            fixed, which = flat or self._flat(arm, lean, rows)
            least = np.minimum(tips, fixed)
            # What no form decides is counted after the rules: the greater number is told.
            governs = np.maximum((fixed < tips) * which, rule)
            if np.isnan(least.min()):
                # A linkage that cannot close is a stop; nothing unnamed may become a number.
                governs[np.isnan(least)] = -1
            yield rows, least, governs

    def _flat(self, arm: Arm, lean: Real, rows: slice) -> tuple[Floats, Indices]:
        """Least allowed load of all that is no form, and which: rams, ratings, plate, distances."""
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
                    joint,
                    load_at=at,
                    gravity_u=gravity_u,
                    gravity_w=gravity_w,
                    hydraulics=lift.machine.hydraulics,
                    gauge=lift.gauge,
                    swing=lean,
                    hung=lift.hung,
                ).capacity
                for at in arm.load_places
            ]
            each.append(reduce(np.minimum, capacities))
        held, ram = _least(each)
        each = [RAM_SHARE.value * held, *(np.asarray(one.capacity) for one in self.rated)]
        plate = plate_limit(lift, reach=self._reach(arm))
        if plate is not None:
            each.append(plate)
        each += [allowed_by(one) for one in self._clear(arm, lean)]
        least, other = _least(each)
        which = np.where(other == 0, ram, other + COUNT(len(arm.joints) - 1))
        return least, which + COUNT(len(self.rules))

    def _reach(self, arm: Arm) -> Floats:
        ahead = 0.0 if self.lift.end == "back" else self.lift.machine.wheels.wheelbase
        return np.asarray(arm.lift_at.u - ahead)

    def _clear(self, arm: Arm, lean: Real) -> tuple[Clearance, ...]:
        """Distances to keep, at every place."""
        if self.lift.hazards == Hazards() and self.lift.taken.way != "one end":
            return ()
        level, _ = lowest(self.lift, self.log, asked=arm.lift_at.w, load_at=arm.load_at)
        return clearances(
            self.lift,
            self.log,
            arm=arm,
            reach=self._reach(arm),
            height=arm.lift_at.w,
            lean=lean,
            lowest=level,
        )

    def _ruled(
        self, arm: Arm, moments: _Moments, lean: Real, rows: slice
    ) -> tuple[Floats, Indices]:
        """Most that one kilogram takes over the least that holds, and by which rule.

        Over all rules the least of k/M₀, a rule with another share than tipping's in proportion:
        k is negative where the load takes. It is minus infinity where the rule does not even hold
        for the machine alone.
        """
        share = TIPPING_SHARE[self.lift.duty].value
        shape = len(self.slew[rows]), len(arm.joints[0].carried.first.u)
        least, which = np.zeros(shape), np.zeros(shape, dtype=COUNT)
        for number, rule in enumerate(self.rules):
            if not self.lift.swings and any(moments.idle[one, rows].all() for one in rule.forms):
                continue
            if len(rule.forms) == 1:
                ratio = self._ratio(arm, moments, rule, lean, rows)
                if rule.share != share:
                    ratio = ratio * (share / rule.share)
            else:
                both = [
                    self._moments(arm, moments, one, rule=rule, lean=lean, rows=rows)
                    for one in rule.forms
                ]
                takes, holds = zip(*both, strict=True)
                fails = load_at_failure(holding=holds, per_kilogram=takes)
                with np.errstate(divide="ignore"):
                    ratio = -share / (rule.share * fails)
            # The last rule that is worse than all before it is the worst.
            np.maximum(which, (ratio < least) * COUNT(number), out=which)
            np.minimum(least, ratio, out=least)
        return least, which

    def _ratio(self, arm: Arm, moments: _Moments, rule: _Rule, lean: Real, rows: slice) -> Floats:
        takes, holds = self._moments(arm, moments, rule.forms[0], rule=rule, lean=lean, rows=rows)
        with np.errstate(divide="ignore", invalid="ignore"):
            ratio = takes / holds
        if self.lift.swings or not moments.stands[rule.forms[0], rows].all():
            ratio = np.where(holds <= 0, -np.inf, ratio)
        return np.asarray(ratio)

    def _moments(
        self, arm: Arm, moments: _Moments, number: int, *, rule: _Rule, lean: Real, rows: slice
    ) -> tuple[Floats, Floats]:
        """A form of one kilogram of load where that is least, and of the machine without it."""
        swings = self.lift.swings
        out = self.forms.out[number, rows, np.newaxis]
        takes: Real = None
        for place, fixed in zip(arm.load_places, moments.loads, strict=True):
            each = (
                self._swung(self.forms.whole[number], place, lean, rows)
                if swings
                else out * place.u + fixed[number]
            )
            takes = each if takes is None else np.minimum(takes, each)
        holds = out * arm.joints[0].carried.first.u
        holds += moments.rest[number]
        if self.lift.hung:
            # What hangs has one place for the load; it leans with it.
            still = out * arm.load_at.u + moments.loads[0][number]
            holds = holds + self.lift.hung * (takes - still)
        if rule.pulled and swings:
            takes = takes - sideways(gravity=self.gravity, lean=lean)
        return takes, holds

    def _swung(self, form: WrenchFunctional, at: Point, lean: Real, rows: slice) -> Real:
        """A form of a hanging kilogram that swings the worst way."""
        x, y, z = self.plane.place(at, rows)
        return form.unit(x=x, y=y, z=z, gravity=self.gravity, swing=lean)


class _Rule(NamedTuple):
    """A tipping line or a demand: its title, share, whether a leaning load pulls, its forms."""

    title: str
    share: float
    pulled: bool
    forms: tuple[int, ...]


class _Look(NamedTuple):
    """The lifting end at some places: its reach, its stops, and its arm at rows of them."""

    reach: Floats
    stops: tuple[JointLimit, ...]
    arm: Callable[[Any], Arm]


class _Plane(NamedTuple):
    """Where the plane of the end stands: its origin, and the direction outward for each slew."""

    x: Real
    y: Real
    out_x: Real
    out_y: Real

    def place(self, at: Point, rows: slice) -> Vector:
        return self.x + self.out_x[rows] * at.u, self.y + self.out_y[rows] * at.u, at.w


class _Forms(NamedTuple):
    """All forms, linear in the plane of the end; a row for each.

    A form of one kilogram is ``out`` (a column for each slew) times how far outward it is,
    ``up`` times its height and ``base``; ``side`` less where a carried log lies off its balance.
    ``rest`` is that of all that does not move, with the form's constant.
    """

    whole: tuple[WrenchFunctional, ...]
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
    """Forms as far as no slew changes them, and what they tell; a row for each form.

    ``rest`` is of all but the load, ``loads`` of one kilogram of it at each place it may lie.
    ``stands`` says at which slews the form surely holds for the empty machine at every place,
    ``idle`` at which no load takes from it either.
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
