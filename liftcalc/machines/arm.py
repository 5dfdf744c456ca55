"""The pose of an end: where its links, rams and lift point stand, and what stops it.

Both ends become the same record, ``Arm``, in the plane of the end (u outward, w up). Angles and
lengths may be arrays: one arm is then a whole grid of poses. A pose that a link or ram cannot
take is not an error here but a ``JointLimit`` whose ``violated`` mask says where; ``refuse`` turns
the limits of a single pose into an error.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

import numpy as np

from liftcalc.machines.joint_limits import JointLimit, refuse
from liftcalc.machines.number import plain
from liftcalc.machines.schema import Attachment, EndName, LiftPoint, Link, LinkRam, Ram, TiltRam
from liftcalc.physics import formulas
from liftcalc.physics.functions import Real, maximum
from liftcalc.physics.joints import FourBar, Tilt, link_angle
from liftcalc.physics.plane import ORIGIN, Frame, Point
from liftcalc.physics.worked import Worked, work


class LinkMass(NamedTuple):
    """A mass [kg] at a point of a link [m]."""

    name: str
    mass: Real
    frame: Frame
    spot: Point

    @property
    def at(self) -> Point:
        """Where it is in the plane of the end [m]."""
        return self.frame.place(self.spot)


def spot(pair: tuple[Real, Real]) -> Point:
    """A point of a machine file in plain numbers."""
    return Point(plain(pair[0]), plain(pair[1]))


class CarriedMass(NamedTuple):
    """What a joint carries: mass [kg] and first moments in the plane of the end [kg·m]."""

    mass: Real
    first: Point

    def and_also(self, other: CarriedMass) -> CarriedMass:
        """Both together."""
        first = Point(self.first.u + other.first.u, self.first.w + other.first.w)
        return CarriedMass(self.mass + other.mass, first)


def on_link(frame: Frame, *lumps: LinkMass) -> CarriedMass:
    """The masses of one link, summed in its frame and turned once."""
    mass, first_u, first_w = 0.0, 0.0, 0.0
    for lump in lumps:
        mass = mass + lump.mass
        first_u = first_u + lump.mass * lump.spot.u
        first_w = first_w + lump.mass * lump.spot.w
    out, up = frame.turn(Point(first_u, first_w))
    return CarriedMass(mass, Point(mass * frame.origin.u + out, mass * frame.origin.w + up))


GROUND = Frame(ORIGIN, 1.0, 0.0)
"""The plane of the end itself, for rams that stand on the machine."""


class Joint(NamedTuple):
    """A joint of an end, its ram as it stands, and the masses that the ram carries.

    ``moment_arm`` is dℓ/dθ of the link the joint turns; for an attachment it includes the
    four-bar. ``pivot`` is in the plane of the end. The ram's pins are told in the frames of the
    links that hold them. ``worked`` is how length and arm were found; ``moves`` whether the ram
    raises the load, or only holds it.
    """

    name: str
    ram: Ram
    pivot: Point
    base: tuple[Frame, Point]
    rod: tuple[Frame, Point]
    ram_length: Real
    moment_arm: Real
    lumps: tuple[LinkMass, ...]
    carried: CarriedMass
    worked: tuple[Worked, ...] = ()
    moves: bool = False
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


class LinkOutline(NamedTuple):
    """A link as drawn: from its inner to its outer pin, or the rocker parts, in its own frame."""

    link: Literal["boom", "dipper", "loader arms", "linkage"]
    frame: Frame
    at: tuple[Point, ...]

    @property
    def points(self) -> tuple[Point, ...]:
        """The same in the plane of the end [m]."""
        return tuple(self.frame.place(each) for each in self.at)


class Arm(NamedTuple):
    """An end in a pose; everything in its plane.

    ``fitted`` is the frame of the attachment, told in that of the ``carrier``. ``load_places``
    lists every place where the load's weight may act, the likeliest first. One is made for every
    pose, so it is a named tuple, as its parts are: that costs least.
    """

    end: EndName
    lumps: tuple[LinkMass, ...]
    joints: tuple[Joint, ...]
    drawn: tuple[LinkOutline, ...]
    tool: Attachment
    carrier: Frame
    fitted: Frame
    lift_at: Point
    load_places: tuple[Point, ...]
    stops: tuple[JointLimit, ...]

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
        """Raise ``PoseError`` with every limit that a single pose breaks."""
        refuse(self.stops, end=self.end)


class RamStand(NamedTuple):
    """Length and moment arm of a ram [m], and how they were found."""

    ram_length: Real
    moment_arm: Real
    worked: tuple[Worked, ...]


def ram_stand(ram: LinkRam, *, turn: Point, joint: Point, on: Frame = GROUND) -> RamStand:
    """A ram as it stands, in the frame of its base.

    ``turn`` is the direction of the link that the rod holds on to, ``joint`` where that turns;
    ``on`` the frame of the rod's pin told in that of the link.
    """
    base, rod = spot(ram.base), on.place(spot(ram.rod_pin))
    found = work(
        "ram on its link",
        formulas.ram_on_link,
        base_from_joint_u=base.u - joint.u,
        base_from_joint_w=base.w - joint.w,
        rod_on_link_u=rod.u,
        rod_on_link_w=rod.w,
        turn_cosine=turn.u,
        turn_sine=turn.w,
    )
    return RamStand(found.steps.ram_length, found.steps.moment_arm, (found,))


def link_joint(
    name: str,
    ram: LinkRam,
    stand: RamStand,
    *,
    base: Frame,
    link: Frame,
    lumps: tuple[LinkMass, ...],
    carried: CarriedMass,
    on: Frame = GROUND,
    moves: bool = False,
) -> Joint:
    """A joint whose ram pins straight to the link it turns."""
    return Joint(
        name=name,
        ram=ram,
        pivot=link.origin,
        base=(base, spot(ram.base)),
        rod=(link, on.place(spot(ram.rod_pin))),
        ram_length=stand.ram_length,
        moment_arm=stand.moment_arm,
        lumps=lumps,
        carried=carried,
        worked=stand.worked,
        moves=moves,
    )


def tilt_joint(
    name: str,
    ram: TiltRam,
    tilt: Tilt,
    bar: FourBar,
    *,
    link: Frame,
    pivot: Point,
    lump: LinkMass,
    on: Frame = GROUND,
) -> tuple[Joint, LinkOutline]:
    """The attachment's joint, driven through its four-bar; and the rocker and link as drawn."""
    joint = Joint(
        name=name,
        ram=ram,
        pivot=pivot,
        base=(link, on.place(spot(ram.base))),
        rod=(link, on.place(tilt.ram_pin)),
        ram_length=tilt.ram_length,
        moment_arm=tilt.moment_arm,
        lumps=(lump,),
        carried=on_link(lump.frame, lump),
        worked=tilt.worked,
        tilt=tilt,
        bar=bar,
    )
    rocker = (spot(ram.rocker_pivot), tilt.ram_pin, tilt.rocker_pin, tilt.link_pin)
    return joint, LinkOutline("linkage", link, tuple(on.place(each) for each in rocker))


def link_mass(name: str, link: Link, frame: Frame, *, on: Frame = GROUND) -> LinkMass:
    """A link's mass where its frame stands; ``on`` is the link's own frame told in that."""
    return LinkMass(name, plain(link.mass), frame, on.place(spot(link.cog)))


def outline_of(
    name: Literal["boom", "dipper", "loader arms"], link: Link, frame: Frame, *, on: Frame = GROUND
) -> LinkOutline:
    """A link as drawn where its frame stands."""
    return LinkOutline(name, frame, (ORIGIN, on.along(plain(link.length))))


def load_places(point: LiftPoint, *, radius: float) -> tuple[Point, ...]:
    """Where the load's weight may act, in the attachment's frame [m].

    A hanging or gripped load acts at the lift point. A cradled log of this radius [m] lies on the
    floor at the load centre or against the heel, whichever is farther out. How it rolls is not
    known, and a thicker log must never do better for lying farther back in a rolled-back
    attachment: every corner between load centre, heel, floor and log axis is given, to be tried.
    """
    floor = spot(point.at)
    if point.hold != "cradled" or radius == 0:
        return (floor,)
    far = maximum(floor.u, plain(0.0 if point.heel is None else point.heel) + radius)
    outs = (far, floor.u) if np.any(far > floor.u) else (floor.u,)
    return tuple(Point(out, floor.w + up) for out in outs for up in (radius, 0.0))


def tool_spot(tool: Attachment, fitted: Frame, at: tuple[Real, Real]) -> Point:
    """A point of an attachment, told in the frame of the link it is fitted to.

    One that hangs is a pendulum: it and its load act at the pin they hang from, whatever the angle.
    """
    return fitted.origin if tool.mount == "hangs" else fitted.place(spot(at))


def tool_mass(tool: Attachment, *, link: Frame, fitted: Frame) -> LinkMass:
    """An attachment's mass, told in the frame of the link it is fitted to."""
    return LinkMass(tool.name, plain(tool.mass), link, tool_spot(tool, fitted, tool.cog))


def places_of_load(
    tool: Attachment, point: LiftPoint, *, link: Frame, fitted: Frame, lift_at: Point, radius: float
) -> tuple[Point, ...]:
    """Every place where the load may act, in the plane of the end."""
    if tool.mount == "hangs":
        return (lift_at,)
    *others, _ = load_places(point, radius=radius)  # the last is the lift point itself
    return (*(link.place(fitted.place(each)) for each in others), lift_at)


def angle_range(ram: LinkRam, *, pivot: Point, base_pin: Point) -> tuple[float, float]:
    """Angles of a link with its ram fully closed and fully open, low to high [rad]."""
    ends = [
        float(
            link_angle(
                ram_length=float(length),
                pivot=pivot,
                base_pin=base_pin,
                rod_pin=spot(ram.rod_pin),
                side=ram.side,
            )
        )
        for length in (ram.closed, ram.open)
    ]
    return min(ends), max(ends)
