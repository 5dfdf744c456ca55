"""The whole machine as it stands: every lump in the machine frame, its supports and lines."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np

from liftcalc.errors import Fault, InputError
from liftcalc.machines.arm import Arm, LinkMass
from liftcalc.machines.back_arm import back_arm
from liftcalc.machines.front_arm import front_arm, reach_front
from liftcalc.machines.lookup import attachment
from liftcalc.machines.schema import Attachment, ByIdentity, LiftPoint, Machine
from liftcalc.physics.plane import Point, Real, place
from liftcalc.physics.tipping import Line, Support, ring

Stance = Literal["wheels", "stabilisers", "stabilisers and bucket"]
"""What the machine stands on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PointMass:
    """A mass [kg] at a point of the machine frame [m]."""

    name: str
    mass: float
    x: Real
    y: Real
    z: Real


@dataclass(frozen=True, slots=True, kw_only=True)
class Chassis:
    """The chassis as derived from the weights: mass [kg] and place fore and aft [m]."""

    mass: float
    x: float


def back_point(
    machine: Machine, at: Point, *, slew: Real, sideshift: Real
) -> tuple[Real, Real, Real]:
    """A point of the back end's plane in the machine frame [m].

    ``slew`` is 0 straight back and positive toward the machine's left [rad]; ``sideshift`` moves
    the slew axis to the left [m].
    """
    return (
        machine.back.slew_axis_x - at.u * np.cos(slew),
        sideshift + at.u * np.sin(slew),
        at.w + 0.0 * np.asarray(slew)[()],
    )


def front_point(at: Point) -> tuple[Real, Real, Real]:
    """A point of the front end's plane in the machine frame [m]."""
    return at.u, 0.0 * np.asarray(at.u)[()], at.w


def _front_lumps(lumps: tuple[LinkMass, ...]) -> list[PointMass]:
    made = []
    for lump in lumps:
        x, y, z = front_point(lump.at)
        made.append(PointMass(name=lump.name, mass=lump.mass, x=x, y=y, z=z))
    return made


def _back_lumps(
    machine: Machine, lumps: tuple[LinkMass, ...], *, slew: Real, sideshift: Real
) -> list[PointMass]:
    made = []
    for lump in lumps:
        x, y, z = back_point(machine, lump.at, slew=slew, sideshift=sideshift)
        made.append(PointMass(name=lump.name, mass=lump.mass, x=x, y=y, z=z))
    carriage = machine.back.carriage
    made.append(
        PointMass(
            name="kingpost and carriage",
            mass=carriage.mass,
            x=float(carriage.x),
            y=sideshift,
            z=float(carriage.z),
        )
    )
    return made


def travel_front(machine: Machine, tool: Attachment) -> Arm:
    """The front end as carried in travel: its pin at the stated height, or as near as it goes."""
    travel = machine.front.travel
    rise = float(travel.pin_height - machine.front.arm_pivot[1]) / machine.front.arm.length
    return front_arm(
        machine,
        tool=tool,
        point=tool.lift_point[0],
        arm_angle=float(np.arcsin(rise)),
        tilt=float(travel.tilt),
    )


def travel_back(machine: Machine, tool: Attachment) -> Arm:
    """The back end folded as in travel."""
    travel = machine.back.travel
    return back_arm(
        machine,
        tool=tool,
        point=tool.lift_point[0],
        boom_angle=float(travel.boom_angle),
        dipper_angle=float(travel.dipper_angle),
        curl=float(travel.curl),
    )


def pressed_front(machine: Machine, tool: Attachment) -> Arm:
    """The front end with its attachment's contact point on the ground.

    The machine is taken to stay at the height it has on its tyres; pressed up it would stand a
    little higher, which overstates stability on a slope by the rise over the width of the base.

    Raises
    ------
    InputError
        When the attachment has nothing to press on the ground with, or the arms do not get there.
    """
    if tool.ground_contact is None:
        raise InputError(
            Fault(
                field="stance",
                given=f"the {tool.name} pressed on the ground",
                wanted="a front bucket that can carry the machine on its floor",
                fix="fit a bucket at the front, or stand on the stabilisers and the front axle",
            )
        )
    contact = LiftPoint(name="ground", at=tool.ground_contact, wll=tool.mass, hold="hangs")
    arm = reach_front(machine, tool=tool, point=contact, height=0.0, tilt=0.0)
    arm.refuse()
    return arm


@lru_cache(maxsize=64)
def _derive(holder: ByIdentity) -> Chassis:
    machine = holder.machine
    tools = (attachment(machine, end="front"), attachment(machine, end="back"))
    lumps = (
        _front_lumps(travel_front(machine, tools[0]).lumps)
        + _back_lumps(machine, travel_back(machine, tools[1]).lumps, slew=0.0, sideshift=0.0)
        + _fixed_lumps(machine, weighed=True)
    )
    rest = sum(lump.mass for lump in lumps)
    mass = machine.weights.total - rest
    moment = (
        machine.weights.front_axle
        * machine.wheels.wheelbase
        * (machine.weights.total / (machine.weights.front_axle + machine.weights.rear_axle))
    )
    x = (moment - sum(lump.mass * lump.x for lump in lumps)) / mass if mass > 0 else float("nan")
    if not (mass > 0 and -1.0 < x < machine.wheels.wheelbase + 0.5):
        raise InputError(
            Fault(
                field="weights",
                given=f"total {machine.weights.total.text}, parts of {rest:.0f} kg",
                understood=f"a chassis of {mass:.0f} kg at x = {x:.2f} m",
                wanted="parts lighter than the whole, and a chassis between its axles",
                fix="weigh the axles in the travel pose of the file, and check the link masses",
                file=machine.name,
                key="weights",
            )
        )
    return Chassis(mass=float(mass), x=float(x))


def chassis(machine: Machine) -> Chassis:
    """Mass and place of the chassis that make the whole machine weigh as its axles did."""
    return _derive(ByIdentity(machine))


def _fixed_lumps(machine: Machine, *, weighed: bool | None = None) -> list[PointMass]:
    """Legs and carried things; only those weighed, when asked."""
    legs = machine.stabilisers
    made = [
        PointMass(
            name="stabiliser legs",
            mass=legs.legs_mass,
            x=float(legs.x),
            y=0.0,
            z=float(legs.legs_height),
        )
    ]
    for each in machine.carried:
        if weighed is None or each.weighed == weighed:
            x, y, z = (float(part) for part in each.at)
            made.append(PointMass(name=each.name, mass=each.mass, x=x, y=y, z=z))
    return made


def total_mass(lumps: tuple[PointMass, ...]) -> PointMass:
    """All lumps as one, at their common centre of gravity; exact for every moment."""
    mass = sum(lump.mass for lump in lumps)

    def centre(axis: str) -> Real:
        # The fixed lumps first, as one number: on a grid only the arm's are arrays.
        moments = [lump.mass * getattr(lump, axis) for lump in lumps]
        fixed = sum(float(each) for each in moments if np.ndim(each) == 0)
        return sum((each for each in moments if np.ndim(each)), fixed) / mass

    return PointMass(name="machine", mass=mass, x=centre("x"), y=centre("y"), z=centre("z"))


@dataclass(frozen=True, slots=True, kw_only=True)
class MachineState:
    """The machine without its load: lumps, supports and tipping lines, in the machine frame."""

    lumps: tuple[PointMass, ...]
    supports: tuple[Support, ...]
    lines: tuple[Line, ...]

    @property
    def whole(self) -> PointMass:
        """The machine as one mass."""
        return total_mass(self.lumps)


def _support(name: str, x: float, y: float, z: float = 0.0) -> Support:
    return Support(name=name, x=float(x), y=float(y), z=float(z))


def supports(machine: Machine, *, stance: Stance, front: Arm) -> tuple[Support, ...]:
    """What the machine stands on.

    An oscillating front axle holds at its pin only: its stops are never credited. The rear tyres
    are not counted beside the stabilisers, and a pressed bucket replaces the front axle: leaving
    a support out understates stability.
    """
    wheels, legs = machine.wheels, machine.stabilisers
    base = wheels.wheelbase
    half_front = wheels.front_track / 2
    axle = (
        (_support("front-axle pin", base, 0.0, wheels.axle_pin_height),)
        if wheels.front_axle_oscillates
        else (
            _support("left front tyre", base, half_front),
            _support("right front tyre", base, -half_front),
        )
    )
    if stance == "wheels":
        half_rear = wheels.rear_track / 2
        return (
            _support("left rear tyre", 0.0, half_rear),
            _support("right rear tyre", 0.0, -half_rear),
            *axle,
        )
    half = legs.pad_spread / 2
    pads = (_support("left stabiliser", legs.x, half), _support("right stabiliser", legs.x, -half))
    if stance == "stabilisers":
        return (*pads, *axle)
    contact = front.tool.ground_contact
    assert contact is not None  # pressed_front has refused the others
    edge = place(origin=front.tool_origin, angle=front.tool_angle, at=Point(*contact))
    half_width = front.tool.width / 2
    return (
        *pads,
        _support("left bucket corner", edge.u, half_width),
        _support("right bucket corner", edge.u, -half_width),
    )


_PAIRS = {
    "rear tyre": "over the rear axle",
    "front tyre": "over the front axle",
    "stabiliser": "over both stabilisers",
    "bucket corner": "over the pressed bucket",
}


def _line_name(line: Line) -> str:
    """A name an operator would use for a tipping line."""
    one, two = line.start.name, line.end.name
    kinds = {name.removeprefix("left ").removeprefix("right ") for name in (one, two)}
    if len(kinds) == 1:
        return _PAIRS[kinds.pop()]
    # The rear support first, so that left and right lines read alike.
    back, front = sorted((line.start, line.end), key=lambda s: s.x)
    return f"{back.name} to {front.name}"


def tipping_lines(
    machine: Machine, *, stance: Stance, standing_on: tuple[Support, ...]
) -> tuple[Line, ...]:
    """The lines the machine may tip about, named.

    With an oscillating axle the pin is where the machine leans sideways and the front tyres are
    where it tips forward, so the line through the front tyre contacts is added.
    """
    lines = list(ring(standing_on))
    wheels = machine.wheels
    if wheels.front_axle_oscillates and stance != "stabilisers and bucket":
        half = wheels.front_track / 2
        lines.append(
            Line(
                name="",
                start=_support("left front tyre", wheels.wheelbase, half),
                end=_support("right front tyre", wheels.wheelbase, -half),
            )
        )
    return tuple(Line(name=_line_name(x), start=x.start, end=x.end) for x in lines)


def stand(
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
    Standing
        Lumps whose places may be arrays. Tyres are part of the chassis.
    """
    body = chassis(machine)
    gone = {each.name for each in machine.carried if each.used_up and not full}
    if not operator:
        gone.add("operator")
    aboard = [lump for lump in _fixed_lumps(machine) if lump.name not in gone]
    lumps = (
        PointMass(
            name="chassis", mass=body.mass, x=body.x, y=0.0, z=float(machine.chassis.cog_height)
        ),
        *aboard,
        *_front_lumps(front.lumps),
        *_back_lumps(machine, back.lumps, slew=slew, sideshift=sideshift),
    )
    standing_on = supports(machine, stance=stance, front=front)
    lines = tipping_lines(machine, stance=stance, standing_on=standing_on)
    return MachineState(lumps=lumps, supports=standing_on, lines=lines)
