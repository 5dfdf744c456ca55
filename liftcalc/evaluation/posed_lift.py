"""A lift ready for any pose: its criteria as linear forms, its rams, and what must be kept."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator
from functools import reduce
from typing import Any, NamedTuple, Self

import numpy as np
from numpy.typing import NDArray

from liftcalc.evaluation.clearances import clearances, swept
from liftcalc.evaluation.grip_in_plan import grip_in_plan
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.linear_criteria import linear_criteria, sideways
from liftcalc.evaluation.log_position import log_position
from liftcalc.evaluation.obstacle import over_obstacle
from liftcalc.evaluation.plane_forms import Case, Held, PlaneForm, Rule
from liftcalc.evaluation.possible import Stop, possible
from liftcalc.evaluation.rams import RamCapacity, plane_gravity, ram_capacity, ram_force
from liftcalc.evaluation.rated_chart import plate_limits
from liftcalc.evaluation.ratings import ratings_of
from liftcalc.machines.arm import Arm
from liftcalc.machines.assembly import FRONT_PLANE, EndPlane, back_plane, fixed_part
from liftcalc.machines.back_arm import back_hand, back_on_links, reach_back, reach_links
from liftcalc.machines.front_arm import reach_front
from liftcalc.machines.joint_limits import JointLimit
from liftcalc.machines.number import plain
from liftcalc.physics.functions import Real, is_zero, maximum, minimum
from liftcalc.physics.plane import Point
from liftcalc.physics.wrench import Vector, WrenchFunctional, load_at_failure, pushed
from liftcalc.site.clearance import Clearance
from liftcalc.site.hazards import Hazards, circle, keep_out

Floats = NDArray[np.float64]
Indices = NDArray[np.int16]
COUNT = np.int16  # criteria and limits are few


class Posed(NamedTuple):
    """The lifting end at (N,) places: its reach, its limits, and its arm at rows of them."""

    reach: Real
    limits: tuple[JointLimit, ...]
    arm: Callable[[Any], Arm]


def pose_of(lift: Lift, reach: Real, height: Real) -> Arm:
    """The lifting end with its lift point at a reach and a height [m].

    At the front the arms decide the reach.
    """
    radius = lift.log.largest_diameter / 2
    if lift.end == "back":
        return reach_back(
            lift.machine,
            tool=lift.tool,
            point=lift.point,
            reach=reach,
            height=height,
            curl=lift.curl,
            radius=radius,
        )
    return reach_front(
        lift.machine, tool=lift.tool, point=lift.point, height=height, tilt=lift.tilt, radius=radius
    )


class PosedLift:
    """A lift on a site that holds all its motion, ready for any pose.

    Parameters
    ----------
    lift : Lift
        What does not vary; its place is not looked at, and neither is its slew where ``slew`` is
        given. Accelerations, slope and heading of its site may be arrays, and so may figures of
        its machine, of what is fitted and of the lift point: masses, weights, sizes, places of
        pins and supports, rams, pressures, ratings. One figure for all samples have the drop to
        the hook and the force of a jaw, which say how the log is held, and the reach of a chart's
        rows. Which supports the machine tips over is that of the mean of all samples.
    slew : float or (S, 1) array, optional
        Of the back end [rad].
    apart : collection of str
        Kinds of what is impossible that are left out: whoever asks tells them apart.
    """

    def __init__(self, lift: Lift, *, slew: Real = None, apart: Collection[str] = ()) -> None:
        self.lift, self.apart = lift, apart
        self.swings, self.hung = lift.swings, lift.hung
        self.gravity_worked = lift.site.gravity_worked
        x, y, z = self.gravity_worked.steps
        self.gravity: Vector = (x, y, z)
        self.fixed = fixed_part(
            lift.machine,
            end=lift.end,
            other_tool=lift.other_tool,
            stance=lift.stance,
            sideshift=lift.sideshift,
            operator=lift.operator,
            others=lift.others,
        )
        self.slew = lift.slew if slew is None else slew
        self.plane = self._plane()
        self.log = log_position(lift)
        self.ratings = ratings_of(lift, self.log)
        self.plates = plate_limits(lift)
        made = linear_criteria(lift, self.fixed, gravity=self.gravity)
        self.criteria = (*made, *over_obstacle(lift, self.fixed), *grip_in_plan(lift, self.fixed))
        self.rules = tuple(
            Rule(criterion, tuple(self._form(*term, criterion.gravity) for term in way))
            for criterion in self.criteria
            for way in criterion.ways
        )

    def _plane(self) -> EndPlane:
        if self.lift.end == "front":
            return FRONT_PLANE
        return back_plane(self.lift.machine, slew=self.slew, sideshift=self.lift.sideshift)

    def _form(
        self, functional: WrenchFunctional, constant: Real, under: Vector | None
    ) -> PlaneForm:
        gravity = under or self.gravity
        x, y, z, fixed = functional.of_place(gravity)
        plane = self.plane
        rests = tuple(
            mass * (x * at_x + y * at_y + z * at_z + fixed) + constant
            for _, mass, at_x, at_y, at_z in self.fixed.masses
        )
        return PlaneForm(
            functional,
            x * plane.out_x + y * plane.out_y,
            z,
            x * plane.x + y * plane.y + fixed,
            y,
            rests,
            reduce(minimum, rests),
            gravity,
        )

    def at_slews(self, rows: slice) -> Self:
        """The same at some rows of its slews."""
        if self.lift.end == "front":
            return self
        some = object.__new__(type(self))
        some.__dict__.update(self.__dict__)
        some.slew = np.asarray(self.slew)[rows]
        some.plane = some._plane()
        some.rules = tuple(
            rule._replace(
                forms=tuple(form._replace(out=np.asarray(form.out)[rows]) for form in rule.forms)
            )
            for rule in self.rules
        )
        return some

    def pose(self, reach: Real, height: Real) -> Arm:
        """The lifting end with its lift point at a reach and a height [m].

        At the front the arms decide the reach.
        """
        return pose_of(self.lift, reach, height)

    def posed(self, reach: Floats, height: Floats) -> Posed:
        """The lifting end at (N,) places, weighed only at the rows of them that are asked for."""
        if self.lift.end == "front":
            arm = self.pose(None, height)
            return Posed(self.reach(arm), arm.stops, lambda rows: self.pose(None, height[rows]))
        machine = self.lift.machine
        hand = back_hand(machine, self.lift.tool, self.lift.point, self.lift.curl)
        links = reach_links(machine, hand, reach=reach, height=height)
        radius = self.lift.log.largest_diameter / 2
        return Posed(
            reach,
            links.limits(machine.back),
            lambda rows: back_on_links(machine, links.some(rows), radius=radius),
        )

    def reach(self, arm: Arm) -> Real:
        """Of the lift point from the slew axis, or ahead of the front axle [m]."""
        if self.lift.end == "back":
            return arm.lift_at.u
        return arm.lift_at.u - plain(self.lift.machine.wheels.wheelbase)

    def lean(self, arm: Arm) -> Real:
        """How far the load may lean at most [rad]."""
        return self.lift.lean(reach=self.reach(arm)) if self.swings else 0.0

    def places(self, arm: Arm) -> tuple[Point, ...]:
        """Everywhere the load may act in the plane of the end, play out and in as well [m]."""
        stray = self.lift.condition.stray
        if not stray:
            return arm.load_places
        return tuple(
            Point(at.u + out, at.w) for at in arm.load_places for out in (0.0, stray, -stray)
        )

    # Criteria that are linear in the forces

    def held(self, rule: Rule, arm: Arm, lean: Real, case: Case | None = None) -> tuple[Held, ...]:
        """Every form of a rule on a posed machine, in one case or in the worst of all."""
        side_pull, forces = rule.criterion.side_pull, self.lift.level_forces
        pulls = side_pull and self.swings
        aside = sideways(gravity=self.gravity, lean=lean) if pulls else 0.0
        places, side = ((case.at,), case.side) if case else (self.places(arm), None)
        # A level force takes the worst place of all, whichever the case.
        loads = self.loads(self.places(arm)) if forces else ()
        found = []
        for form in rule.forms:
            takes = self.taken(form, places[0], lean, side)
            for place in places[1:]:
                takes = minimum(takes, self.taken(form, place, lean, side))
            rest = form.rests[case.state] if case else form.rest
            holding = form.carried(arm.joints[0].carried) + rest
            if not is_zero(self.hung):
                # What hangs has one place for the load; it leans with it.
                holding = holding + self.hung * (takes - form.at(arm.load_at))
            if forces:
                holding = holding + sum(pushed(forces, form.functional, loads, aside=side_pull))
            adds = takes - aside if pulls else takes
            if rule.criterion.surely:
                holding = holding + rule.criterion.surely * maximum(adds, 0.0)
            found.append(Held(holding, adds, takes))
        return tuple(found)

    def loads(self, places: Iterable[Point], side: float | None = None) -> tuple[Vector, ...]:
        """Where the load may act in the machine frame, to a side as for ``taken`` [m]."""
        room = self.lift.side_room
        sides = (side,) if side is not None else dict.fromkeys((room, -room))
        at = (self.plane.point(place) for place in places)
        return tuple((x, y + each, z) for x, y, z in at for each in sides)

    def taken(self, form: PlaneForm, at: Point, lean: Real, side: float | None = None) -> Real:
        """A form of one kilogram of load at a place, as far to a side as it may lie off it [m].

        With a ``side`` just there; without, to whichever side is worse.
        """
        room = self.lift.side_room
        if self.swings:
            x, y, z = self.plane.point(at)
            sides = (side,) if side is not None else (room, -room) if room else (0.0,)
            swung = (
                form.functional.unit(x=x, y=y + each, z=z, gravity=form.gravity, swing=lean)
                for each in sides
            )
            return reduce(minimum, swung)
        if not room:
            return form.at(at)
        return form.at(at) + (form.left * side if side is not None else -abs(form.left) * room)

    def fails(self, rule: Rule, arm: Arm, lean: Real) -> Real:
        """Load at which a rule fails [kg]."""
        holding, per_kilogram, _ = zip(*self.held(rule, arm, lean), strict=True)
        return load_at_failure(holding=holding, per_kilogram=per_kilogram)

    # All others

    def rams(self, arm: Arm, lean: Real) -> Iterator[tuple[RamCapacity, ...]]:
        """For every joint its ram's capacity with the load at each place where it may lie."""
        level = is_zero(self.gravity[0]) and is_zero(self.gravity[1])
        gravity_u, gravity_w = (
            (0.0, self.gravity[2])
            if level
            else plane_gravity(arm, gravity=self.gravity, slew=self.slew)
        )
        for joint in arm.joints:
            force = ram_force(
                joint,
                hydraulics=self.lift.machine.hydraulics,
                gauge=self.lift.gauge,
                worn=self.lift.condition.ram_share,
            )
            yield tuple(
                ram_capacity(
                    joint,
                    force=force,
                    load_at=at,
                    gravity_u=gravity_u,
                    gravity_w=gravity_w,
                    swing=lean,
                    hung=self.hung,
                    pushed=self.lift.push_on_load,
                )
                for at in self.places(arm)
            )

    def clearances(self, arm: Arm, lean: Real) -> tuple[Clearance, ...]:
        """Distances to keep."""
        if self.lift.hazards == Hazards() and self.lift.taken.way != "one end":
            return ()
        return clearances(
            self.lift, self.log, arm=arm, reach=self.reach(arm), lean=self._aside(lean)
        )

    def stops(self, arm: Arm, lean: Real) -> tuple[Stop, ...]:
        """All that may depend on the slew and is not linear: people, and what is impossible."""
        beyond = swept(self.lift, slew=self.slew, reach=self.reach(arm))
        people = circle(self.lift.hazards, keep_out=self.keep_out(arm, lean), swept=beyond)
        found = possible(self, arm, self._aside(lean))
        return tuple(
            each for each in (people, *found) if each is not None and each.kind not in self.apart
        )

    def _aside(self, lean: Real) -> Real:
        """How far the load may come off the plumb line, blown aside as well [rad]."""
        blown = self.lift.blown
        return lean if blown is None else minimum(lean + blown.steps.peak_swing, math.pi / 2)

    def keep_out(self, arm: Arm, lean: Real) -> Any:
        """The circle round the point below the hook that people stay out of, as worked."""
        # From the height where it hangs: a thicker log, lower by its thickness, falls no less far.
        falls = arm.lift_at.w - float(self.lift.point.drop or 0.0)
        lean = self._aside(lean)
        return keep_out(far_end=self.log.far_end, drop=self.log.middle, lean=lean, lowest=falls)
