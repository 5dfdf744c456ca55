"""The pose of an end: where its links, rams and lift point stand, and what stops it.

Both ends become the same record, ``Arm``, in the plane of the end (u outward, w up). Angles and
lengths may be arrays: one arm is then a whole grid of poses. A pose that a link or ram cannot
take is not an error here but a ``Stop`` whose ``broken`` mask says where; ``refuse`` turns the
stops of a single pose into an error.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from liftcalc.machines.schema import (
    Attachment,
    Back,
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
from liftcalc.physics.plane import Frame, Point, Real, turned
from liftcalc.physics.written import RamGeometry


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneLump:
    """A mass [kg] at a point of the end's plane [m]."""

    name: str
    mass: float
    at: Point


class Carried(NamedTuple):
    """What a joint carries: mass [kg] and first moments in the plane of the end [kg·m]."""

    mass: Real
    first: Point

    def with_lump(self, lump: PlaneLump) -> Carried:
        """The same with one lump more."""
        return Carried(
            self.mass + lump.mass,
            Point(
                self.first.u + lump.mass * lump.at.u,
                self.first.w + lump.mass * lump.at.w,
            ),
        )


NOTHING = Carried(0.0, Point(0.0, 0.0))
GROUND = Frame(Point(0.0, 0.0), 1.0, 0.0)
"""The plane of the end itself, for rams that stand on the machine."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """A joint of an end, its ram as it stands, and the lumps that the ram carries.

    ``moment_arm`` is dℓ/dθ of the link the joint turns; for an attachment it includes the
    four-bar. ``pivot`` is in the plane of the end. The ram's pins are told in the frames of the
    links that hold them.
    """

    name: str
    ram: Ram
    pivot: Point
    base: tuple[Frame, Point]
    rod: tuple[Frame, Point]
    ram_length: Real
    moment_arm: Real
    lumps: tuple[PlaneLump, ...]
    carried: Carried
    tilt: Tilt | None = None
    bar: FourBar | None = None

    @property
    def base_pin(self) -> Point:
        """Where the ram's base pin stands in the plane of the end [m]."""
        frame, at = self.base
        return frame.place(at)

    @property
    def rod_pin(self) -> Point:
        """Where the pin of the rod stands in the plane of the end [m]."""
        frame, at = self.rod
        return frame.place(at)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A link as drawn: from its inner to its outer pin, or the rocker parts, in its own frame."""

    name: str
    frame: Frame
    at: tuple[Point, ...]

    @property
    def points(self) -> tuple[Point, ...]:
        """The same in the plane of the end [m]."""
        return tuple(self.frame.place(each) for each in self.at)


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
    tool_frame: Frame
    lift_at: Point
    load_places: tuple[Point, ...]
    stops: tuple[Stop, ...]

    @property
    def tool_origin(self) -> Point:
        """Where the attachment's own pin stands [m]."""
        return self.tool_frame.origin

    @property
    def tool_angle(self) -> Real:
        """Direction of the attachment's own X axis above horizontal [rad]."""
        return self.tool_frame.angle

    @property
    def load_at(self) -> Point:
        """The likeliest place where the load's weight acts."""
        return self.load_places[0]

    def refuse(self) -> None:
        """Raise ``PoseError`` with every stop that a single pose breaks."""
        refuse(self.stops, end=self.end)


def _ram_geometry(ram: LinkRam, *, base: Frame, link: Frame) -> RamGeometry:
    """Length and moment arm of a ram between two links."""
    base_pin, rod_pin = base.place(Point(*ram.base)), link.place(Point(*ram.rod_pin))
    return written.ram_geometry(
        pivot_u=link.origin.u, pivot_w=link.origin.w,
        base_pin_u=base_pin.u, base_pin_w=base_pin.w,
        rod_pin_u=rod_pin.u, rod_pin_w=rod_pin.w,
    )  # fmt: skip


def _link_joint(
    name: str, ram: LinkRam, stand: RamGeometry, *, base: Frame, link: Frame,
    lumps: tuple[PlaneLump, ...], carried: Carried,
) -> Joint:  # fmt: skip
    """A joint whose ram pins straight to the link it turns."""
    return Joint(
        name=name, ram=ram, pivot=link.origin, base=(base, Point(*ram.base)),
        rod=(link, Point(*ram.rod_pin)), ram_length=stand.ram_length,
        moment_arm=stand.moment_arm, lumps=lumps, carried=carried,
    )  # fmt: skip


def _tilt_joint(
    name: str, ram: TiltRam, tilt: Tilt, bar: FourBar, *, link: Frame, pivot: Point,
    lump: PlaneLump,
) -> tuple[Joint, Drawn]:  # fmt: skip
    """The attachment's joint, driven through its four-bar; and the rocker and link as drawn."""
    joint = Joint(
        name=name, ram=ram, pivot=pivot, base=(link, Point(*ram.base)), rod=(link, tilt.ram_pin),
        ram_length=tilt.ram_length, moment_arm=tilt.moment_arm, lumps=(lump,),
        carried=NOTHING.with_lump(lump), tilt=tilt, bar=bar,
    )  # fmt: skip
    rocker = (Point(*ram.rocker_pivot), tilt.ram_pin, tilt.rocker_pin, tilt.link_pin)
    return joint, Drawn(name=f"{name} linkage", frame=link, at=rocker)


def _link_lump(name: str, link: Link, frame: Frame) -> PlaneLump:
    return PlaneLump(name=name, mass=link.mass, at=frame.place(Point(*link.cog)))


def _drawn_link(name: str, link: Link, frame: Frame) -> Drawn:
    return Drawn(name=name, frame=frame, at=(Point(0.0, 0.0), Point(link.length, 0.0)))


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
    boom = turned(origin=Point(*back.foot_pin), angle=boom_angle)
    dipper = turned(origin=boom.along(back.boom.length), angle=dipper_angle)
    links = _BackLinks(boom, dipper, _hand(machine, tool, curl))
    return _back(machine, tool, point, links, radius=radius)


class _Hand(NamedTuple):
    """How the attachment stands on the dipper: its frame in the dipper's, and its linkage."""

    frame: Frame
    tilt: Tilt | None = None
    bar: FourBar | None = None


def _hand(machine: Machine, tool: Attachment, curl: Real) -> _Hand:
    nose = Point(machine.back.dipper.length, 0.0)
    if tool.mount != "pins":
        return _Hand(Frame(nose, 1.0, 0.0))
    ram = machine.back.bucket_ram
    bar = ram.four_bar(pivot=nose)
    tilt = tilt_from_ram(bar, ram_length=ram.closed + curl * (ram.open - ram.closed))
    return _Hand(turned(origin=nose, angle=tilt.angle), tilt, bar)


class _BackLinks(NamedTuple):
    """The back end as two links and a hand, before anything is known of masses and rams."""

    boom: Frame
    dipper: Frame
    hand: _Hand


def _back_rams(back: Back, links: _BackLinks) -> tuple[RamGeometry, RamGeometry]:
    """Boom and dipper ram as they stand."""
    return (
        _ram_geometry(back.boom_ram, base=GROUND, link=links.boom),
        _ram_geometry(back.dipper_ram, base=links.boom, link=links.dipper),
    )


def _back_stops(back: Back, hand: _Hand, *, boom: Real, dipper: Real) -> tuple[Stop, ...]:
    """Strokes that the back end's links need, with boom and dipper ram of these lengths."""
    stops = (
        ram_stop("boom ram", back.boom_ram, boom),
        ram_stop("dipper ram", back.dipper_ram, dipper),
    )
    if hand.tilt is None:
        return stops
    # Where the four-bar cannot close the angle is NaN, and so is what is needed.
    needs = hand.tilt.ram_length + 0.0 * hand.tilt.angle
    return (ram_stop("bucket ram", back.bucket_ram, needs), *stops)


def _back(
    machine: Machine, tool: Attachment, point: LiftPoint, links: _BackLinks, *, radius: float
) -> Arm:
    """The back end with its links standing so."""
    back = machine.back
    boom, dipper, hand = links
    fitted = dipper.carry(hand.frame)
    lift_at, load_at, tool_lump = _tool(tool, point, fitted, radius)
    outer = (_link_lump("dipper", back.dipper, dipper), tool_lump)
    lumps = (_link_lump("boom", back.boom, boom), *outer)
    beyond = NOTHING.with_lump(tool_lump).with_lump(outer[0])
    boom_ram, dipper_ram = _back_rams(back, links)
    joints = [
        _link_joint(
            "boom ram", back.boom_ram, boom_ram, base=GROUND, link=boom, lumps=lumps,
            carried=beyond.with_lump(lumps[0]),
        ),
        _link_joint(
            "dipper ram", back.dipper_ram, dipper_ram, base=boom, link=dipper, lumps=outer,
            carried=beyond,
        ),
    ]  # fmt: skip
    drawn = [_drawn_link("boom", back.boom, boom), _drawn_link("dipper", back.dipper, dipper)]
    if hand.tilt is not None and hand.bar is not None:
        joint, linkage = _tilt_joint(
            "bucket ram", back.bucket_ram, hand.tilt, hand.bar, link=dipper,
            pivot=fitted.origin, lump=tool_lump,
        )  # fmt: skip
        joints.append(joint)
        drawn.append(linkage)
    stops = _back_stops(back, hand, boom=boom_ram.ram_length, dipper=dipper_ram.ram_length)
    return Arm(
        end="back", lumps=lumps, joints=tuple(joints), drawn=tuple(drawn), tool=tool,
        tool_frame=fitted, lift_at=lift_at, load_places=load_at, stops=stops,
    )  # fmt: skip


def _tool(
    tool: Attachment, point: LiftPoint, frame: Frame, radius: float
) -> tuple[Point, tuple[Point, ...], PlaneLump]:
    """Lift point, places where the load may act and lump of an attachment that stands so."""
    if tool.mount == "hangs":
        # A pendulum: it and its load act at the pin they hang from, whatever the angle.
        pin = frame.origin
        return pin, (pin,), PlaneLump(name=tool.name, mass=tool.mass, at=pin)
    lift_at = frame.place(Point(*point.at))
    places = load_places(point, radius=radius)
    load_at = tuple(lift_at if at == point.at else frame.place(at) for at in places)
    return lift_at, load_at, _tool_lump(tool, frame)


def _tool_lump(tool: Attachment, frame: Frame) -> PlaneLump:
    return PlaneLump(name=tool.name, mass=tool.mass, at=frame.place(Point(*tool.cog)))


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
    links, span = _reaching(machine, tool, point, reach=reach, height=height, curl=curl)
    posed = _back(machine, tool, point, links, radius=radius)
    if np.ndim(span.needs) == 0 and span.broken:
        return _with_stops(posed, (span,))
    return _with_stops(posed, (span, *posed.stops))


def reach_back_stops(
    machine: Machine, *, tool: Attachment, point: LiftPoint, reach: Real, height: Real, curl: Real
) -> tuple[Stop, ...]:
    """The stops of ``reach_back`` alone: what a grid asks before it asks anything else."""
    links, span = _reaching(machine, tool, point, reach=reach, height=height, curl=curl)
    boom, dipper = _back_rams(machine.back, links)
    return span, *_back_stops(
        machine.back, links.hand, boom=boom.ram_length, dipper=dipper.ram_length
    )


def _reaching(
    machine: Machine, tool: Attachment, point: LiftPoint, *, reach: Real, height: Real, curl: Real
) -> tuple[_BackLinks, Stop]:
    """The links that bring the lift point to a place, and the stop of their reach."""
    back, hand = machine.back, _hand(machine, tool, curl)
    lift = hand.frame.origin if tool.mount == "hangs" else hand.frame.place(Point(*point.at))
    second = np.hypot(lift.u, lift.w)
    foot = Point(*back.foot_pin)
    with np.errstate(invalid="ignore", divide="ignore"):
        found = written.two_link(
            target_u=reach - foot.u,
            target_w=height - foot.w,
            first_length=back.boom.length,
            second_length=second,
        )
    boom = Frame(foot, found.first_cosine, found.first_sine)
    to_lift = Frame(boom.along(back.boom.length), found.second_cosine, found.second_sine)
    # The second link runs from the knuckle to the lift point, which may lie off the dipper's axis.
    off_axis = Frame(Point(0.0, 0.0), lift.u / second, -lift.w / second)
    span = Stop(
        name="reach of boom and dipper",
        needs=found.span,
        least=float(np.abs(back.boom.length - second)),
        most=float(back.boom.length + second),
        short="go farther out or higher: the load would be inside the folded arm",
        long="bring the machine or the load nearer",
    )
    return _BackLinks(boom, to_lift.carry(off_axis), hand), span


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
    front, ram = machine.front, machine.front.tilt_ram
    arms = turned(origin=Point(*front.arm_pivot), angle=arm_angle)
    fitted = turned(origin=arms.along(front.arm.length), angle=tilt)
    bar = ram.four_bar(pivot=Point(front.arm.length, 0.0))
    rolled = tilt_from_angle(bar, angle=tilt - arm_angle)
    lift_at, load_at, tool_lump = _tool(tool, point, fitted, radius)
    lumps = (_link_lump("loader arms", front.arm, arms), tool_lump)
    lift = _link_joint(
        "lift rams", front.lift_ram, _ram_geometry(front.lift_ram, base=GROUND, link=arms),
        base=GROUND, link=arms, lumps=lumps,
        carried=NOTHING.with_lump(tool_lump).with_lump(lumps[0]),
    )  # fmt: skip
    joint, linkage = _tilt_joint(
        "tilt rams", ram, rolled, bar, link=arms, pivot=fitted.origin, lump=tool_lump
    )
    hanging = tool.mount == "hangs"
    stops = [ram_stop("lift rams", front.lift_ram, lift.ram_length)]
    if not hanging:
        stops.append(ram_stop("tilt rams", ram, rolled.ram_length))
    return Arm(
        end="front", lumps=lumps, joints=(lift,) if hanging else (lift, joint),
        drawn=(_drawn_link("loader arms", front.arm, arms), linkage), tool=tool,
        tool_frame=fitted, lift_at=lift_at, load_places=load_at, stops=tuple(stops),
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
        up = turned(origin=up, angle=tilt).place(Point(*point.at))
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
