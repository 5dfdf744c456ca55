"""The whole machine as it stands: every mass in the machine frame, its supports and lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from typing import NamedTuple

import numpy as np

from liftcalc.errors import InputError
from liftcalc.machines.arm import Arm, LinkMass
from liftcalc.machines.back_arm import back_arm
from liftcalc.machines.front_arm import front_arm, reach_front
from liftcalc.machines.lookup import attachment
from liftcalc.machines.number import plain
from liftcalc.machines.remembered import remembered
from liftcalc.machines.schema import Attachment, EndName, LiftPoint, Machine
from liftcalc.machines.supports import Stance, supports, tipping_lines
from liftcalc.physics.functions import Real, asin, cos, sin
from liftcalc.physics.plane import Point
from liftcalc.physics.reactions import Bound, bounds_on
from liftcalc.physics.tipping import Line, Support
from liftcalc.physics.wrench import Vector, WrenchFunctional, moment_about


class PointMass(NamedTuple):
    """A mass [kg] at a point of the machine frame [m]."""

    name: str
    mass: Real
    x: Real
    y: Real
    z: Real


@dataclass(frozen=True, slots=True, kw_only=True)
class Chassis:
    """The chassis as derived from the weights: mass [kg] and place fore and aft [m]."""

    mass: Real
    x: Real


class EndPlane(NamedTuple):
    """Where the plane of an end stands in the machine frame: its origin [m], and outward [-]."""

    x: Real
    y: Real
    out_x: Real
    out_y: Real

    def point(self, at: Point) -> Vector:
        """A point of the plane in the machine frame [m]."""
        return self.x + self.out_x * at.u, self.y + self.out_y * at.u, at.w


FRONT_PLANE = EndPlane(0.0, 0.0, 1.0, 0.0)


def back_plane(machine: Machine, *, slew: Real, sideshift: Real) -> EndPlane:
    """The plane of the back end.

    ``slew`` is 0 straight back and positive toward the machine's left [rad]; ``sideshift`` moves
    the slew axis to the left [m].
    """
    return EndPlane(plain(machine.back.slew_axis_x), sideshift, -cos(slew), sin(slew))


def back_point(machine: Machine, at: Point, *, slew: Real, sideshift: Real) -> Vector:
    """A point of the back end's plane in the machine frame [m]."""
    return back_plane(machine, slew=slew, sideshift=sideshift).point(at)


def front_point(at: Point) -> Vector:
    """A point of the front end's plane in the machine frame [m]."""
    return FRONT_PLANE.point(at)


def end_masses(lumps: Sequence[LinkMass], plane: EndPlane) -> tuple[PointMass, ...]:
    """The masses of an end in the machine frame."""
    return tuple(PointMass(each.name, each.mass, *plane.point(each.at)) for each in lumps)


def travel_front(machine: Machine, tool: Attachment) -> Arm:
    """The front end as carried in travel: its pin at the stated height, or as near as it goes."""
    travel = machine.front.travel
    rise = plain(travel.pin_height - machine.front.arm_pivot[1]) / plain(machine.front.arm.length)
    return front_arm(
        machine, tool=tool, point=tool.lift_point[0], arm_angle=asin(rise), tilt=plain(travel.tilt)
    )


def travel_back(machine: Machine, tool: Attachment) -> Arm:
    """The back end folded as in travel."""
    travel = machine.back.travel
    return back_arm(
        machine,
        tool=tool,
        point=tool.lift_point[0],
        boom_angle=plain(travel.boom_angle),
        dipper_angle=plain(travel.dipper_angle),
        curl=plain(travel.curl),
    )


def pressed_front(machine: Machine, tool: Attachment) -> Arm:
    """The front end with its attachment's contact point on the ground.

    The machine is taken to stay at the height it has on its tyres; pressed up it would stand a
    little higher, which overstates stability on a slope by the rise over the width of the base.

    Raises ``InputError`` when the attachment has nothing to press on the ground with, or the arms
    of the one machine do not get there.
    """
    if tool.ground_contact is None:
        raise InputError.of(
            field="stance",
            given=f"{tool.name} pressed on the ground",
            wanted="a front bucket that can carry the machine on its floor",
            fix="fit a bucket at the front, or stand on the stabilisers and the front axle",
        )
    # Not read again: figures may be arrays.
    contact = LiftPoint.model_construct(name="ground", at=tool.ground_contact, hold="hangs")
    arm = reach_front(machine, tool=tool, point=contact, height=0.0, tilt=0.0)
    beyond = reduce(np.logical_or, (stop.violated for stop in arm.stops))
    if np.ndim(beyond) == 0:
        arm.refuse()
        return arm
    # Of sampled machines those that do not get there weigh no number, and are allowed none.
    unknown = np.where(beyond, np.nan, 1.0)
    return arm._replace(lumps=tuple(each._replace(mass=each.mass * unknown) for each in arm.lumps))


@remembered(maxsize=64)
def chassis(machine: Machine) -> Chassis:
    """Mass and place of the chassis that make the whole machine weigh as its axles did.

    Raises ``InputError`` when the parts are heavier than the whole, or the chassis would lie beyond
    its axles. Of sampled machines those have NaN: they weigh no number, and are allowed none.
    """
    found, base = chassis_of(machine), plain(machine.wheels.wheelbase)
    sound = (found.mass > 0) & (found.x > -1.0) & (found.x < base + 0.5)
    if np.ndim(sound):
        unknown = np.where(sound, 1.0, np.nan)
        return Chassis(mass=found.mass * unknown, x=found.x)
    if not sound:
        weights = machine.weights
        raise InputError.of(
            field="weights",
            given=f"total {weights.total.text}, parts of {weights.total - found.mass:.0f} kg",
            understood=f"a chassis of {found.mass:.0f} kg at x = {found.x:.2f} m",
            wanted="parts lighter than the whole, and a chassis between its axles",
            fix="weigh the axles in the travel pose of the file, and check the link masses",
            file=machine.name,
            key="weights",
        )
    return found


def chassis_of(machine: Machine) -> Chassis:
    """Mass and place of the chassis as they come out, whether it can be or not."""
    front, back = attachment(machine, end="front"), attachment(machine, end="back")
    straight = back_plane(machine, slew=0.0, sideshift=0.0)
    lumps = (
        *end_masses(travel_front(machine, front).lumps, FRONT_PLANE),
        *end_masses(travel_back(machine, back).lumps, straight),
        _carriage(machine, 0.0),
        *_aboard(machine, weighed=True),
    )
    weights, base = machine.weights, plain(machine.wheels.wheelbase)
    total, front_axle = plain(weights.total), plain(weights.front_axle)
    rest = total_mass(lumps)
    mass = total - rest.mass
    # What the axles add up to may differ a little from the total: their ratio counts.
    moment = front_axle * base * (total / (front_axle + plain(weights.rear_axle)))
    x = (moment - rest.mass * rest.x) / np.where(mass > 0, mass, np.nan)[()]
    return Chassis(mass=plain(mass), x=plain(x))


def _carriage(machine: Machine, sideshift: Real) -> PointMass:
    carriage = machine.back.carriage
    x, z = plain(carriage.x), plain(carriage.z)
    return PointMass("kingpost and carriage", plain(carriage.mass), x, sideshift, z)


def _aboard(machine: Machine, *, weighed: bool | None = None) -> list[PointMass]:
    """Legs and carried things; only those weighed, when asked."""
    legs = machine.stabilisers
    x, z = plain(legs.x), plain(legs.legs_height)
    made = [PointMass("stabiliser legs", plain(legs.legs_mass), x, 0.0, z)]
    for each in machine.carried:
        if weighed is None or each.weighed == weighed:
            at = (plain(part) for part in each.at)
            made.append(PointMass(each.name, plain(each.mass), *at))
    return made


def total_mass(masses: Sequence[PointMass]) -> PointMass:
    """All masses as one, at their common centre of gravity; exact for every moment."""
    mass, x, y, z = 0.0, 0.0, 0.0, 0.0
    for _, each, at_x, at_y, at_z in masses:
        mass, x, y, z = mass + each, x + each * at_x, y + each * at_y, z + each * at_z
    return PointMass("machine", mass, x / mass, y / mass, z / mass)


@dataclass(frozen=True, slots=True, kw_only=True)
class FixedPart:
    """All of a machine that does not move with the pose of the end that lifts.

    Attributes
    ----------
    other : Arm
        The end that does not lift, folded or pressed down.
    states : tuple of tuples of PointMass
        Its masses in every state the machine may be in: with full tanks, and empty.
    masses : tuple of PointMass
        Each state as one mass.
    supports, lines
        What the machine stands on, and the lines it may tip about.
    moments : tuple of WrenchFunctional
        About each line.
    bounds : tuple
        For each support what bounds its force, see ``reactions.bounds_on``.
    front_axle, back_supports : WrenchFunctional or None
        What the front axle, and all that stands behind it, carry [N]; None on a pressed bucket.
    """

    other: Arm
    states: tuple[tuple[PointMass, ...], ...]
    masses: tuple[PointMass, ...]
    supports: tuple[Support, ...]
    lines: tuple[Line, ...]
    moments: tuple[WrenchFunctional, ...]
    bounds: tuple[tuple[tuple[Bound, ...], ...], ...]
    front_axle: WrenchFunctional | None
    back_supports: WrenchFunctional | None


@remembered(maxsize=256)
def fixed_part(
    machine: Machine,
    *,
    end: EndName,
    other_tool: Attachment,
    stance: Stance,
    sideshift: float,
    operator: bool | None,
    others: tuple[Attachment, ...] = (),
) -> FixedPart:
    """All of a machine that does not move with the end that lifts; remembered.

    Whether somebody sits in the seat may be unknown (None), and so may what hangs at the other end:
    ``others`` are what it may be beside ``other_tool``. The machine then has a state of each.

    Raises ``InputError`` when the stance does not go with the other end's attachment.
    """
    plane = FRONT_PLANE
    if end == "front":
        plane = back_plane(machine, slew=0.0, sideshift=sideshift)
    other, *rest = _other_ends(machine, (other_tool, *others), end=end, stance=stance)
    fitted = (other.lumps, *(each.lumps for each in rest))
    states = tuple(
        (
            *_body(machine, operator=seated, full=full),
            *end_masses(lumps, plane),
            _carriage(machine, sideshift),
        )
        for lumps in fitted
        for seated in ((True, False) if operator is None else (operator,))
        for full in (True, False)
    )
    # Of the front arm only a pressed bucket bears, and then it is the other end.
    standing_on = supports(machine, stance=stance, front=other)
    lines = tipping_lines(machine, stance=stance, standing_on=standing_on)
    moments = tuple(moment_about(each) for each in lines)
    across = sorted(
        (float(np.mean(line.start.x)), moment)
        for line, moment in zip(lines, moments, strict=True)
        if line.start.kind == line.end.kind
    )
    wheeled = stance != "stabilisers and bucket"
    rear, base = standing_on[0].x, plain(machine.wheels.wheelbase)
    return FixedPart(
        other=other,
        states=states,
        masses=tuple(total_mass(each) for each in states),
        supports=standing_on,
        lines=lines,
        moments=moments,
        bounds=tuple(bounds_on(each, lines=lines, moments=moments) for each in standing_on),
        front_axle=_over(across[0][1], x=base) if wheeled else None,
        back_supports=_over(across[-1][1], x=rear) if wheeled else None,
    )


def _other_ends(
    machine: Machine, tools: tuple[Attachment, ...], *, end: EndName, stance: Stance
) -> tuple[Arm, ...]:
    """The end that does not lift, with each of some attachments."""
    posed = travel_back if end == "front" else travel_front
    if stance == "stabilisers and bucket":
        posed = pressed_front
    return tuple(posed(machine, each) for each in tools)


def _over(moment: WrenchFunctional, *, x: Real) -> WrenchFunctional:
    """A moment about an axle's line as the force on the other axle, at x [N]."""
    lever = moment.unit(x=x, y=0.0, z=0.0, gravity=(0.0, 0.0, -1.0))
    return WrenchFunctional().plus(moment, 1.0 / lever)


def _body(machine: Machine, *, operator: bool, full: bool) -> tuple[PointMass, ...]:
    """Chassis, legs and what is aboard; without the operator and what is used up, where asked."""
    body = chassis(machine)
    gone = {each.name for each in machine.carried if each.used_up and not full}
    if not operator:
        gone.add("operator")
    height = plain(machine.chassis.cog_height)
    return (
        PointMass("chassis", body.mass, body.x, 0.0, height),
        *(each for each in _aboard(machine) if each.name not in gone),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class MachineState:
    """The machine without its load: masses, supports and tipping lines, in the machine frame."""

    lumps: tuple[PointMass, ...]
    supports: tuple[Support, ...]
    lines: tuple[Line, ...]

    @property
    def whole(self) -> PointMass:
        """The machine as one mass."""
        return total_mass(self.lumps)


def assemble(
    machine: Machine,
    *,
    front: Arm,
    back: Arm,
    slew: Real,
    sideshift: Real,
    stance: Stance,
    operator: bool = True,
    full: bool = True,
) -> MachineState:
    """The machine with both ends posed.

    Parameters
    ----------
    machine : Machine
    front, back : Arm
        Both ends as they stand.
    slew : float or array
        Of the back end [rad].
    sideshift : float
        Of the slew axis to the left [m].
    stance : Stance
    operator : bool
        Whether somebody of 75 kg (ISO 6016) sits in the seat, where the file places one.
    full : bool
        Whether what can be used up (fuel) is still aboard.

    Returns
    -------
    MachineState
        Masses whose places may be arrays. Tyres are part of the chassis.
    """
    plane = back_plane(machine, slew=slew, sideshift=sideshift)
    standing_on = supports(machine, stance=stance, front=front)
    return MachineState(
        lumps=(
            *_body(machine, operator=operator, full=full),
            *end_masses(front.lumps, FRONT_PLANE),
            *end_masses(back.lumps, plane),
            _carriage(machine, sideshift),
        ),
        supports=standing_on,
        lines=tipping_lines(machine, stance=stance, standing_on=standing_on),
    )
