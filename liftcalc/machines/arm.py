"""The pose of an end: where its links, rams and lift point stand, and what stops it.

Both ends become the same record, ``Arm``, in the plane of the end (u outward, w up). Angles and
lengths may be arrays: one arm is then a whole grid of poses. A pose that a link or ram cannot
take is not an error here but a ``Stop`` whose ``broken`` mask says where; ``refuse`` turns the
stops of a single pose into an error.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from liftcalc.machines.schema import (
    Attachment,
    EndName,
    LiftPoint,
    Link,
    LinkRam,
    Machine,
    Ram,
    TiltRam,
)
from liftcalc.machines.stops import Stop, ram_stop, refuse
from liftcalc.physics import written
from liftcalc.physics.joints import (
    FourBar,
    Tilt,
    link_angle,
    tilt_from_angle,
    tilt_from_ram,
)
from liftcalc.physics.plane import Point, Real, place


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneLump:
    """A mass [kg] at a point of the end's plane [m]."""

    name: str
    mass: float
    at: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """A joint of an end, its ram as it stands, and the lumps that the ram carries.

    ``moment_arm`` is dℓ/dθ of the link the joint turns; for an attachment it includes the
    four-bar. ``pivot``, ``base_pin`` and ``rod_pin`` are in the plane of the end.
    """

    name: str
    ram: Ram
    pivot: Point
    base_pin: Point
    rod_pin: Point
    ram_length: Real
    moment_arm: Real
    lumps: tuple[PlaneLump, ...]
    tilt: Tilt | None = None
    bar: FourBar | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A link as drawn: from its inner to its outer pin, with the rocker parts between."""

    name: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Arm:
    """An end in a pose; everything in its plane.

    ``load_places`` lists every place where the load's weight may act, the likeliest first.
    """

    end: EndName
    lumps: tuple[PlaneLump, ...]
    joints: tuple[Joint, ...]
    drawn: tuple[Drawn, ...]
    tool: Attachment
    tool_origin: Point
    tool_angle: Real
    lift_at: Point
    load_places: tuple[Point, ...]
    stops: tuple[Stop, ...]

    @property
    def load_at(self) -> Point:
        """The likeliest place where the load's weight acts."""
        return self.load_places[0]

    def refuse(self) -> None:
        """Raise ``PoseError`` with every stop that a single pose breaks."""
        refuse(self.stops, end=self.end)


def _link_joint(
    name: str,
    ram: LinkRam,
    *,
    pivot: Point,
    base_origin: Point,
    base_angle: Real,
    link_angle: Real,
    lumps: tuple[PlaneLump, ...],
) -> Joint:
    """A joint whose ram pins straight to the link it turns."""
    base = place(origin=base_origin, angle=base_angle, at=Point(*ram.base))
    tip = place(origin=pivot, angle=link_angle, at=Point(*ram.rod_pin))
    stand = written.ram_geometry(
        pivot_u=pivot.u, pivot_w=pivot.w,
        base_pin_u=base.u, base_pin_w=base.w,
        rod_pin_u=tip.u, rod_pin_w=tip.w,
    )  # fmt: skip
    return Joint(
        name=name,
        ram=ram,
        pivot=pivot,
        base_pin=base,
        rod_pin=tip,
        ram_length=stand.ram_length,
        moment_arm=stand.moment_arm,
        lumps=lumps,
    )


def _tilt_joint(
    name: str,
    ram: TiltRam,
    tilt: Tilt,
    bar: FourBar,
    *,
    origin: Point,
    angle: Real,
    pivot: Point,
    lumps: tuple[PlaneLump, ...],
) -> tuple[Joint, Drawn]:
    """The attachment's joint, driven through its four-bar; and the rocker and link as drawn."""

    def stand(at: Point) -> Point:
        return place(origin=origin, angle=angle, at=at)

    joint = Joint(
        name=name,
        ram=ram,
        pivot=pivot,
        base_pin=stand(Point(*ram.base)),
        rod_pin=stand(tilt.ram_pin),
        ram_length=tilt.ram_length,
        moment_arm=tilt.moment_arm,
        lumps=lumps,
        tilt=tilt,
        bar=bar,
    )
    rocker = (Point(*ram.rocker_pivot), tilt.ram_pin, tilt.rocker_pin, tilt.link_pin)
    return joint, Drawn(name=f"{name} linkage", points=tuple(stand(each) for each in rocker))


def _link_lump(name: str, link: Link, origin: Point, angle: Real) -> PlaneLump:
    at = place(origin=origin, angle=angle, at=Point(*link.cog))
    return PlaneLump(name=name, mass=link.mass, at=at)


def load_places(point: LiftPoint, *, radius: float) -> tuple[Point, ...]:
    """Where the load's weight may act, in the attachment's frame [m].

    A hanging or gripped load acts at the lift point. A cradled log of this radius [m] lies on the
    floor at the load centre or against the heel, whichever is farther out. How it rolls is not
    known, and a thicker log must never do better for lying farther back in a rolled-back
    attachment: every corner between load centre, heel, floor and log axis is given, to be tried.
    """
    floor = Point(*point.at)
    if point.hold != "cradled" or radius == 0:
        return (floor,)
    outs = sorted({floor.u, max(floor.u, (point.heel or 0.0) + radius)}, reverse=True)
    return tuple(Point(out, floor.w + up) for out in outs for up in (radius, 0.0))


def back_arm(
    machine: Machine,
    *,
    tool: Attachment,
    point: LiftPoint,
    boom_angle: Real,
    dipper_angle: Real,
    curl: Real,
    radius: float = 0.0,
) -> Arm:
    """The back end with boom and dipper at these angles above horizontal.

    Parameters
    ----------
    machine : Machine
    tool, point : Attachment, LiftPoint
    boom_angle, dipper_angle : float or array
        Above horizontal, outward [rad].
    curl : float or array
        Share of the bucket ram's stroke that is out [-].
    radius : float
        Of the log [m]; matters only to a cradled one.

    Returns
    -------
    Arm
        Exact for rigid links; play in pins and flexing of the boom are not modelled and
        understate the reach at which the load hangs.
    """
    back = machine.back
    foot = Point(*back.foot_pin)
    elbow = place(origin=foot, angle=boom_angle, at=Point(back.boom.length, 0.0))
    nose = place(origin=elbow, angle=dipper_angle, at=Point(back.dipper.length, 0.0))
    ram = back.bucket_ram
    drawn = [Drawn(name="boom", points=(foot, elbow)), Drawn(name="dipper", points=(elbow, nose))]
    stops = []
    tool_angle = dipper_angle
    tilt = bar = None
    if tool.mount == "pins":
        bar = ram.four_bar(pivot=Point(back.dipper.length, 0.0))
        tilt = tilt_from_ram(bar, ram_length=ram.closed + curl * (ram.open - ram.closed))
        tool_angle = dipper_angle + tilt.angle
        # Where the four-bar cannot close the angle is NaN, and so is what is needed.
        stops.append(ram_stop("bucket ram", ram, tilt.ram_length + 0.0 * tilt.angle))
    lift_at, load_at, tool_lump = _tool(tool, point, nose, tool_angle, radius)
    dipper = (_link_lump("dipper", back.dipper, elbow, dipper_angle), tool_lump)
    boom = (_link_lump("boom", back.boom, foot, boom_angle), *dipper)
    joints = [
        _link_joint(
            "boom ram", back.boom_ram, pivot=foot, base_origin=Point(0.0, 0.0), base_angle=0.0,
            link_angle=boom_angle, lumps=boom,
        ),
        _link_joint(
            "dipper ram", back.dipper_ram, pivot=elbow, base_origin=foot, base_angle=boom_angle,
            link_angle=dipper_angle, lumps=dipper,
        ),
    ]  # fmt: skip
    stops += [ram_stop(joint.name, joint.ram, joint.ram_length) for joint in joints]
    if tilt is not None and bar is not None:
        joint, linkage = _tilt_joint(
            "bucket ram", ram, tilt, bar, origin=elbow, angle=dipper_angle, pivot=nose,
            lumps=(tool_lump,),
        )  # fmt: skip
        joints.append(joint)
        drawn.append(linkage)
    return Arm(
        end="back", lumps=boom, joints=tuple(joints), drawn=tuple(drawn), tool=tool,
        tool_origin=nose, tool_angle=tool_angle, lift_at=lift_at, load_places=load_at,
        stops=tuple(stops),
    )  # fmt: skip


def _tool(
    tool: Attachment, point: LiftPoint, pin: Point, angle: Real, radius: float
) -> tuple[Point, tuple[Point, ...], PlaneLump]:
    """Lift point, places where the load may act and lump of an attachment whose pin stands here."""
    if tool.mount == "hangs":
        # A pendulum: it and its load act at the pin they hang from, whatever the angle.
        return pin, (pin,), PlaneLump(name=tool.name, mass=tool.mass, at=pin)
    lift_at = place(origin=pin, angle=angle, at=Point(*point.at))
    load_at = tuple(
        place(origin=pin, angle=angle, at=at) for at in load_places(point, radius=radius)
    )
    cog = place(origin=pin, angle=angle, at=Point(*tool.cog))
    return lift_at, load_at, PlaneLump(name=tool.name, mass=tool.mass, at=cog)


def reach_back(
    machine: Machine,
    *,
    tool: Attachment,
    point: LiftPoint,
    reach: Real,
    height: Real,
    curl: Real,
    radius: float = 0.0,
) -> Arm:
    """The back end with its lift point at a reach from the slew axis and a height [m].

    Closed form, knuckle up: the tilt of the attachment is fixed by ``curl``, so the lift point is
    fast to the dipper and the arm has two links.
    """
    back = machine.back
    nose = Point(back.dipper.length, 0.0)
    lift = nose
    if tool.mount == "pins":
        ram = back.bucket_ram
        bar = ram.four_bar(pivot=nose)
        tilt = tilt_from_ram(bar, ram_length=ram.closed + curl * (ram.open - ram.closed))
        lift = place(origin=nose, angle=tilt.angle, at=Point(*point.at))
    elif tool.mount == "nose":
        lift = place(origin=nose, angle=0.0, at=Point(*point.at))
    second = np.hypot(lift.u, lift.w)
    foot = Point(*back.foot_pin)
    with np.errstate(invalid="ignore"):
        arm = written.two_link(
            target_u=reach - foot.u,
            target_w=height - foot.w,
            first_length=back.boom.length,
            second_length=second,
        )
    dipper_angle = arm.first_angle + arm.second_angle - np.arctan2(lift.w, lift.u)
    posed = back_arm(
        machine, tool=tool, point=point, boom_angle=arm.first_angle, dipper_angle=dipper_angle,
        curl=curl, radius=radius,
    )  # fmt: skip
    span = Stop(
        name="reach of boom and dipper",
        needs=arm.span,
        least=float(np.abs(back.boom.length - second)),
        most=float(back.boom.length + second),
        short="go farther out or higher: the load would be inside the folded arm",
        long="bring the machine or the load nearer",
    )
    if np.ndim(arm.span) == 0 and span.broken:
        return _with_stops(posed, (span,))
    return _with_stops(posed, (span, *posed.stops))


def _with_stops(arm: Arm, stops: tuple[Stop, ...]) -> Arm:
    return replace(arm, stops=stops)


def front_arm(
    machine: Machine,
    *,
    tool: Attachment,
    point: LiftPoint,
    arm_angle: Real,
    tilt: Real,
    radius: float = 0.0,
) -> Arm:
    """The front end with its arms at an angle and its attachment tilted so to the horizontal.

    Parameters
    ----------
    machine : Machine
    tool, point : Attachment, LiftPoint
    arm_angle, tilt : float or array
        Above horizontal, forward [rad]. A tilt above zero is rolled back.
    radius : float
        Of the log [m]; matters only to a cradled one.
    """
    front = machine.front
    pivot = Point(*front.arm_pivot)
    pin = place(origin=pivot, angle=arm_angle, at=Point(front.arm.length, 0.0))
    ram = front.tilt_ram
    bar = ram.four_bar(pivot=Point(front.arm.length, 0.0))
    turned = tilt_from_angle(bar, angle=tilt - arm_angle)
    lift_at, load_at, tool_lump = _tool(tool, point, pin, tilt, radius)
    arms = (_link_lump("loader arms", front.arm, pivot, arm_angle), tool_lump)
    lift = _link_joint(
        "lift rams", front.lift_ram, pivot=pivot, base_origin=Point(0.0, 0.0), base_angle=0.0,
        link_angle=arm_angle, lumps=arms,
    )  # fmt: skip
    joint, linkage = _tilt_joint(
        "tilt rams", ram, turned, bar, origin=pivot, angle=arm_angle, pivot=pin, lumps=(tool_lump,)
    )
    hanging = tool.mount == "hangs"
    stops = [ram_stop("lift rams", front.lift_ram, lift.ram_length)]
    if not hanging:
        stops.append(ram_stop("tilt rams", ram, turned.ram_length))
    return Arm(
        end="front", lumps=arms, joints=(lift,) if hanging else (lift, joint),
        drawn=(Drawn(name="loader arms", points=(pivot, pin)), linkage), tool=tool,
        tool_origin=pin, tool_angle=tilt, lift_at=lift_at, load_places=load_at, stops=tuple(stops),
    )  # fmt: skip


def reach_front(
    machine: Machine,
    *,
    tool: Attachment,
    point: LiftPoint,
    height: Real,
    tilt: Real,
    radius: float = 0.0,
) -> Arm:
    """The front end with its lift point at a height [m]; the reach follows from the arms."""
    front = machine.front
    pivot = Point(*front.arm_pivot)
    up = Point(0.0, 0.0)
    if tool.mount != "hangs":
        up = place(origin=up, angle=tilt, at=Point(*point.at))
    rise = height - up.w - pivot.w
    with np.errstate(invalid="ignore"):
        arm_angle = np.arcsin(rise / front.arm.length)
    posed = front_arm(
        machine, tool=tool, point=point, arm_angle=arm_angle, tilt=tilt, radius=radius
    )
    pin_height = Stop(
        name="height of the attachment pin",
        needs=height - up.w + 0.0 * np.asarray(tilt)[()],
        least=pivot.w - front.arm.length,
        most=pivot.w + front.arm.length,
        short="the arms do not go so low",
        long="the arms do not go so high",
    )
    if np.ndim(arm_angle) == 0 and pin_height.broken:
        return _with_stops(posed, (pin_height,))
    return _with_stops(posed, (pin_height, *posed.stops))


def angle_range(ram: LinkRam, *, pivot: Point, base_pin: Point) -> tuple[float, float]:
    """Angles of a link with its ram fully closed and fully open, low to high [rad]."""
    ends = [
        float(
            link_angle(
                ram_length=float(length),
                pivot=pivot,
                base_pin=base_pin,
                rod_pin=Point(*ram.rod_pin),
                side=ram.side,
            )
        )
        for length in (ram.closed, ram.open)
    ]
    return min(ends), max(ends)
