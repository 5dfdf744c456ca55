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
from liftcalc.physics.plane import ORIGIN, Frame, Point, Real, turned
from liftcalc.physics.written import RamGeometry


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneLump:
    """A mass [kg] at a point of a link [m]."""

    name: str
    mass: float
    frame: Frame
    spot: Point

    @property
    def at(self) -> Point:
        """Where it is in the plane of the end [m]."""
        return self.frame.place(self.spot)


class Carried(NamedTuple):
    """What a joint carries: mass [kg] and first moments in the plane of the end [kg·m]."""

    mass: float
    first: Point

    def with_link(self, frame: Frame, *lumps: PlaneLump) -> Carried:
        """The same with the lumps of one link more, summed in its frame and turned once."""
        mass = sum(lump.mass for lump in lumps)
        turned = frame.turn(
            Point(
                sum(lump.mass * lump.spot.u for lump in lumps),
                sum(lump.mass * lump.spot.w for lump in lumps),
            )
        )
        return Carried(
            self.mass + mass,
            Point(
                self.first.u + (mass * frame.origin.u + turned.u),
                self.first.w + (mass * frame.origin.w + turned.w),
            ),
        )


NOTHING = Carried(0.0, ORIGIN)
GROUND = Frame(ORIGIN, 1.0, 0.0)
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

    ``fitted`` is the frame of the attachment, told in that of the ``carrier``. ``load_places``
    lists every place where the load's weight may act, the likeliest first.
    """

    end: EndName
    lumps: tuple[PlaneLump, ...]
    joints: tuple[Joint, ...]
    drawn: tuple[Drawn, ...]
    tool: Attachment
    carrier: Frame
    fitted: Frame
    lift_at: Point
    load_places: tuple[Point, ...]
    stops: tuple[Stop, ...]

    @property
    def tool_origin(self) -> Point:
        """Where the attachment's own pin stands [m]."""
        return self.carrier.place(self.fitted.origin)

    @property
    def tool_angle(self) -> Real:
        """Direction of the attachment's own X axis above horizontal [rad]."""
        return self.carrier.carry(self.fitted).angle

    @property
    def load_at(self) -> Point:
        """The likeliest place where the load's weight acts."""
        return self.load_places[0]

    def refuse(self) -> None:
        """Raise ``PoseError`` with every stop that a single pose breaks."""
        refuse(self.stops, end=self.end)


def _ram_geometry(ram: LinkRam, *, turn: Frame, joint: Point) -> RamGeometry:
    """Length and moment arm of a ram, in the frame of its base with the joint as origin.

    ``turn`` is that of the link the rod holds on to, ``joint`` where it turns; both told there.
    """
    rod_pin = turn.turn(Point(*ram.rod_pin))
    return written.ram_geometry(
        pivot_u=0.0, pivot_w=0.0,
        base_pin_u=ram.base[0] - joint.u, base_pin_w=ram.base[1] - joint.w,
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
        carried=NOTHING.with_link(lump.frame, lump), tilt=tilt, bar=bar,
    )  # fmt: skip
    rocker = (Point(*ram.rocker_pivot), tilt.ram_pin, tilt.rocker_pin, tilt.link_pin)
    return joint, Drawn(name=f"{name} linkage", frame=link, at=rocker)


def _link_lump(name: str, link: Link, frame: Frame) -> PlaneLump:
    return PlaneLump(name=name, mass=link.mass, frame=frame, spot=Point(*link.cog))


def _drawn_link(name: str, link: Link, frame: Frame) -> Drawn:
    return Drawn(name=name, frame=frame, at=(ORIGIN, Point(link.length, 0.0)))


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
    hand = back_hand(machine, tool=tool, point=point, curl=curl)
    return back_on_links(machine, _links(machine.back, hand, boom, dipper), radius=radius)


class Hand(NamedTuple):
    """An attachment as it stands on the dipper, whatever the dipper does.

    ``frame`` and ``lift``, the lift point, are told in the dipper's frame.
    """

    tool: Attachment
    point: LiftPoint
    frame: Frame
    lift: Point
    tilt: Tilt | None = None
    bar: FourBar | None = None


def back_hand(machine: Machine, *, tool: Attachment, point: LiftPoint, curl: Real) -> Hand:
    """An attachment on the dipper with a share of the bucket ram's stroke out [-]."""
    frame = Frame(Point(machine.back.dipper.length, 0.0), 1.0, 0.0)
    bar = tilt = None
    if tool.mount == "pins":
        ram = machine.back.bucket_ram
        bar = ram.four_bar(pivot=frame.origin)
        tilt = tilt_from_ram(bar, ram_length=ram.closed + curl * (ram.open - ram.closed))
        frame = turned(origin=frame.origin, angle=tilt.angle)
    return Hand(tool, point, frame, _tool_spot(tool, frame, point.at), tilt, bar)


class BackLinks(NamedTuple):
    """The back end as two links, two rams and a hand, before anything is weighed.

    ``span`` is from foot pin to lift point, where the links were sought by it [m].
    """

    hand: Hand
    boom: Frame
    dipper: Frame
    boom_ram: RamGeometry
    dipper_ram: RamGeometry
    span: Real = None

    def stops(self, back: Back) -> tuple[Stop, ...]:
        """What may stop the links from standing so."""
        stops = [
            ram_stop("boom ram", back.boom_ram, self.boom_ram.ram_length),
            ram_stop("dipper ram", back.dipper_ram, self.dipper_ram.ram_length),
        ]
        if self.hand.tilt is not None:
            # Where the four-bar cannot close the angle is NaN, and so is what is needed.
            needs = self.hand.tilt.ram_length + 0.0 * self.hand.tilt.angle
            stops.insert(0, ram_stop("bucket ram", back.bucket_ram, needs))
        if self.span is not None:
            second = float(np.hypot(*self.hand.lift))
            span = Stop(
                name="reach of boom and dipper",
                needs=self.span,
                least=abs(back.boom.length - second),
                most=back.boom.length + second,
                short="go farther out or higher: the load would be inside the folded arm",
                long="bring the machine or the load nearer",
            )
            stops.insert(0, span)
        return tuple(stops)


def _links(
    back: Back, hand: Hand, boom: Frame, dipper: Frame, *, span: Real = None
) -> BackLinks:  # fmt: skip
    return BackLinks(
        hand, boom, dipper,
        _ram_geometry(back.boom_ram, turn=boom, joint=boom.origin),
        _ram_geometry(
            back.dipper_ram, turn=Frame(ORIGIN, *boom.turn_back(dipper.axis)),
            joint=Point(back.boom.length, 0.0),
        ),
        span,
    )  # fmt: skip


def reach_links(machine: Machine, hand: Hand, *, reach: Real, height: Real) -> BackLinks:
    """The links that bring a lift point to a reach from the slew axis and a height [m].

    Closed form, knuckle up: the lift point is fast to the dipper, so the arm has two links.
    """
    back = machine.back
    foot, second = Point(*back.foot_pin), np.hypot(*hand.lift)
    with np.errstate(invalid="ignore", divide="ignore"):
        found = written.two_link(
            target_u=reach - foot.u, target_w=height - foot.w, first_length=back.boom.length,
            second_length=second,
        )  # fmt: skip
    boom = Frame(foot, found.first_cosine, found.first_sine)
    # The second link runs from the knuckle to the lift point, which may lie off the dipper's axis.
    off_axis = Frame(ORIGIN, hand.lift.u / second, hand.lift.w / second)
    direction = off_axis.turn_back(Point(found.second_cosine, found.second_sine))
    dipper = Frame(boom.along(back.boom.length), *direction)
    return _links(back, hand, boom, dipper, span=found.span)


def back_on_links(machine: Machine, links: BackLinks, *, radius: float) -> Arm:
    """The back end on links that stand so, for a log of a radius [m]."""
    back, hand = machine.back, links.hand
    boom, dipper = links.boom, links.dipper
    tool = _tool_lump(hand.tool, link=dipper, fitted=hand.frame)
    outer = (_link_lump("dipper", back.dipper, dipper), tool)
    lumps = (_link_lump("boom", back.boom, boom), *outer)
    beyond = NOTHING.with_link(dipper, *outer)
    joints = [
        _link_joint(
            "boom ram", back.boom_ram, links.boom_ram, base=GROUND, link=boom, lumps=lumps,
            carried=beyond.with_link(boom, lumps[0]),
        ),
        _link_joint(
            "dipper ram", back.dipper_ram, links.dipper_ram, base=boom, link=dipper, lumps=outer,
            carried=beyond,
        ),
    ]  # fmt: skip
    drawn = [_drawn_link("boom", back.boom, boom), _drawn_link("dipper", back.dipper, dipper)]
    if hand.tilt is not None and hand.bar is not None:
        joint, linkage = _tilt_joint(
            "bucket ram", back.bucket_ram, hand.tilt, hand.bar, link=dipper,
            pivot=dipper.place(hand.frame.origin), lump=tool,
        )  # fmt: skip
        joints.append(joint)
        drawn.append(linkage)
    lift_at = dipper.place(hand.lift)
    return Arm(
        end="back", lumps=lumps, joints=tuple(joints), drawn=tuple(drawn), tool=hand.tool,
        carrier=dipper, fitted=hand.frame, lift_at=lift_at,
        load_places=_load_places(
            hand.tool, hand.point, link=dipper, fitted=hand.frame, lift_at=lift_at, radius=radius
        ),
        stops=links.stops(back),
    )  # fmt: skip


def _tool_spot(tool: Attachment, fitted: Frame, at: tuple[float, float]) -> Point:
    """A point of an attachment, told in the frame of the link it is fitted to.

    One that hangs is a pendulum: it and its load act at the pin they hang from, whatever the angle.
    """
    return fitted.origin if tool.mount == "hangs" else fitted.place(Point(*at))


def _tool_lump(tool: Attachment, *, link: Frame, fitted: Frame) -> PlaneLump:
    spot = _tool_spot(tool, fitted, tool.cog)
    return PlaneLump(name=tool.name, mass=tool.mass, frame=link, spot=spot)


def _load_places(
    tool: Attachment, point: LiftPoint, *, link: Frame, fitted: Frame, lift_at: Point, radius: float
) -> tuple[Point, ...]:
    """Every place where the load may act, in the plane of the end."""
    if tool.mount == "hangs":
        return (lift_at,)
    return tuple(
        lift_at if at == point.at else link.place(fitted.place(at))
        for at in load_places(point, radius=radius)
    )


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
    """The back end with its lift point at a reach from the slew axis and a height [m]."""
    hand = back_hand(machine, tool=tool, point=point, curl=curl)
    links = reach_links(machine, hand, reach=reach, height=height)
    arm = back_on_links(machine, links, radius=radius)
    span = arm.stops[0]
    if np.ndim(span.needs) == 0 and span.broken:
        return _with_stops(arm, (span,))
    return arm


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
    lump = _tool_lump(tool, link=GROUND, fitted=fitted)
    lumps = (_link_lump("loader arms", front.arm, arms), lump)
    lift = _link_joint(
        "lift rams", front.lift_ram, _ram_geometry(front.lift_ram, turn=arms, joint=arms.origin),
        base=GROUND, link=arms, lumps=lumps,
        carried=NOTHING.with_link(GROUND, lump).with_link(arms, lumps[0]),
    )  # fmt: skip
    joint, linkage = _tilt_joint(
        "tilt rams", ram, rolled, bar, link=arms, pivot=fitted.origin, lump=lump
    )
    hanging = tool.mount == "hangs"
    stops = [ram_stop("lift rams", front.lift_ram, lift.ram_length)]
    if not hanging:
        stops.append(ram_stop("tilt rams", ram, rolled.ram_length))
    lift_at = _tool_spot(tool, fitted, point.at)
    return Arm(
        end="front", lumps=lumps, joints=(lift,) if hanging else (lift, joint),
        drawn=(_drawn_link("loader arms", front.arm, arms), linkage), tool=tool,
        carrier=GROUND, fitted=fitted, lift_at=lift_at,
        load_places=_load_places(
            tool, point, link=GROUND, fitted=fitted, lift_at=lift_at, radius=radius
        ),
        stops=tuple(stops),
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
    up = ORIGIN
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
