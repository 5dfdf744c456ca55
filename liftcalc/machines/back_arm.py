"""The back end in a pose: boom and dipper on a slewing kingpost, bucket on its four-bar.

The lift point is fast to the dipper, so the arm has two links: the boom, and the forearm from the
knuckle straight to the lift point. All that the dipper carries is told in the forearm's frame,
which is the dipper's turned by a fixed angle.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

from liftcalc.machines.arm import (
    GROUND,
    Arm,
    Joint,
    LinkMass,
    LinkOutline,
    RamStand,
    link_joint,
    link_mass,
    on_link,
    outline_of,
    places_of_load,
    ram_stand,
    spot,
    tilt_joint,
    tool_mass,
    tool_spot,
)
from liftcalc.machines.joint_limits import JointLimit, dead_centre, ram_limit
from liftcalc.machines.number import plain
from liftcalc.machines.remembered import remembered
from liftcalc.machines.schema import Attachment, Back, LiftPoint, Machine
from liftcalc.physics import formulas
from liftcalc.physics.functions import Real, cos, hypot, sin
from liftcalc.physics.joints import FourBar, Tilt, tilt_from_ram
from liftcalc.physics.plane import ORIGIN, Frame, Point, some_of, turned
from liftcalc.physics.wrench import LEAST


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
    curl : float
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
    hand = back_hand(machine, tool, point, curl)
    boom = turned(origin=spot(back.foot_pin), angle=boom_angle)
    forearm = hand.dipper.turn_back(Point(cos(dipper_angle), sin(dipper_angle)))
    links = _links(back, hand, boom, forearm, elbow=boom.turn_back(forearm))
    return back_on_links(machine, links, radius=radius, stops=links.limits(back))


class EndEffector(NamedTuple):
    """An attachment as it stands on the dipper, whatever the dipper does.

    ``dipper`` and ``frame``, the attachment's own, are told in the forearm's frame, in which the
    lift point lies ``second`` along the X axis [m].
    """

    tool: Attachment
    point: LiftPoint
    dipper: Frame
    frame: Frame
    second: float
    tilt: Tilt | None = None
    bar: FourBar | None = None


@remembered(maxsize=256)
def back_hand(machine: Machine, tool: Attachment, point: LiftPoint, curl: float) -> EndEffector:
    """An attachment on the dipper with a share of the bucket ram's stroke out [-]."""
    frame = Frame(Point(plain(machine.back.dipper.length), 0.0), 1.0, 0.0)
    bar = tilt = None
    if tool.mount == "pins":
        ram = machine.back.bucket_ram
        bar = ram.four_bar(pivot=frame.origin)
        tilt = tilt_from_ram(bar, ram_length=ram.closed + curl * (ram.open - ram.closed))
        frame = turned(origin=frame.origin, angle=tilt.angle)
    lift = tool_spot(tool, frame, point.at)
    second = hypot(lift.u, lift.w)
    # The forearm is the dipper's X axis turned to the lift point, so the dipper is turned back.
    dipper = Frame(ORIGIN, lift.u / second, -lift.w / second)
    return EndEffector(tool, point, dipper, dipper.carry(frame), second, tilt, bar)


class BackLinks(NamedTuple):
    """The back end as two links, two rams and an end effector, before anything is weighed.

    ``forearm`` is its direction; ``span`` is from foot pin to lift point, where the links were
    sought by it [m].
    """

    hand: EndEffector
    boom: Frame
    forearm: Point
    boom_ram: RamStand
    dipper_ram: RamStand
    span: Real = None

    def some(self, rows: Any) -> BackLinks:
        """The links at some of their places, the end effector being the same at all."""
        return BackLinks(self.hand, *(some_of(each, rows) for each in self[1:]))

    def limits(self, back: Back) -> tuple[JointLimit, ...]:
        """What may stop the links from standing so."""
        found = [
            ram_limit("boom ram", back.boom_ram, self.boom_ram.ram_length),
            ram_limit("dipper ram", back.dipper_ram, self.dipper_ram.ram_length),
            dead_centre("boom ram", back.boom_ram, self.boom_ram.moment_arm),
            dead_centre("dipper ram", back.dipper_ram, self.dipper_ram.moment_arm),
        ]
        if self.hand.tilt is not None:
            # Where the four-bar cannot close the angle is NaN, and so is what is needed.
            needs = self.hand.tilt.ram_length + 0.0 * self.hand.tilt.angle
            found.insert(0, ram_limit("bucket ram", back.bucket_ram, needs))
        if self.span is not None:
            first, second = plain(back.boom.length), self.hand.second
            span = JointLimit(
                name="reach of boom and dipper",
                needs=self.span,
                least=abs(first - second),
                most=first + second,
                short="inside the folded arm",
                long="beyond the straight arm",
                advice=("go farther out or higher", "bring the machine or the load nearer"),
            )
            found.insert(0, span)
        return tuple(found)


def _links(
    back: Back, hand: EndEffector, boom: Frame, forearm: Point, *, elbow: Point, span: Real = None
) -> BackLinks:
    """Both rams as they stand; ``elbow`` is the forearm's direction seen from the boom."""
    knuckle = Point(plain(back.boom.length), 0.0)
    boom_ram = ram_stand(back.boom_ram, turn=boom.axis, joint=boom.origin)
    dipper_ram = ram_stand(back.dipper_ram, turn=elbow, joint=knuckle, on=hand.dipper)
    return BackLinks(hand, boom, forearm, boom_ram, dipper_ram, span)


def reach_links(machine: Machine, hand: EndEffector, *, reach: Real, height: Real) -> BackLinks:
    """The links that bring a lift point to a reach from the slew axis and a height [m].

    Closed form, knuckle up.
    """
    back = machine.back
    foot = spot(back.foot_pin)
    out = reach - foot.u
    with np.errstate(invalid="ignore", divide="ignore"):
        found = formulas.two_link(
            # At the foot pin itself there is no direction: any will do, it is out of reach.
            target_u=(out or LEAST) if out.__class__ is float else out,
            target_w=height - foot.w,
            first_length=plain(back.boom.length),
            second_length=hand.second,
        )
    boom = Frame(foot, found.first_cosine, found.first_sine)
    forearm = Point(found.second_cosine, found.second_sine)
    elbow = Point(found.elbow_cosine, found.elbow_sine)
    return _links(back, hand, boom, forearm, elbow=elbow, span=found.span)


def back_on_links(
    machine: Machine, links: BackLinks, *, radius: float, stops: tuple[JointLimit, ...] = ()
) -> Arm:
    """The back end on links that stand so, for a log of a radius [m]; with limits it is told."""
    back, hand, boom = machine.back, links.hand, links.boom
    forearm = Frame(boom.along(plain(back.boom.length)), *links.forearm)
    tool = tool_mass(hand.tool, link=forearm, fitted=hand.frame)
    dipper = link_mass("dipper", back.dipper, forearm, on=hand.dipper)
    lumps = (link_mass("boom", back.boom, boom), dipper, tool)
    joints = _link_joints(back, links, forearm, lumps)
    drawn: tuple[LinkOutline, ...] = (
        outline_of("boom", back.boom, boom),
        outline_of("dipper", back.dipper, forearm, on=hand.dipper),
    )
    if hand.tilt is not None and hand.bar is not None:
        joint, linkage = tilt_joint(
            "bucket ram",
            back.bucket_ram,
            hand.tilt,
            hand.bar,
            link=forearm,
            pivot=forearm.place(hand.frame.origin),
            lump=tool,
            on=hand.dipper,
        )
        joints, drawn = (*joints, joint), (*drawn, linkage)
    at = forearm.along(hand.second)
    return Arm(
        end="back",
        lumps=lumps,
        joints=joints,
        drawn=drawn,
        tool=hand.tool,
        carrier=forearm,
        fitted=hand.frame,
        lift_at=at,
        load_places=places_of_load(
            hand.tool, hand.point, link=forearm, fitted=hand.frame, lift_at=at, radius=radius
        ),
        stops=stops,
    )


def _link_joints(
    back: Back, links: BackLinks, forearm: Frame, lumps: tuple[LinkMass, ...]
) -> tuple[Joint, ...]:
    """The joints of boom and dipper; the masses are those of boom, dipper and attachment."""
    boom, *others = lumps
    beyond = on_link(forearm, *others)
    return (
        link_joint(
            "boom ram",
            back.boom_ram,
            links.boom_ram,
            base=GROUND,
            link=links.boom,
            lumps=lumps,
            carried=beyond.and_also(on_link(links.boom, boom)),
            moves=True,
        ),
        link_joint(
            "dipper ram",
            back.dipper_ram,
            links.dipper_ram,
            base=links.boom,
            link=forearm,
            lumps=lumps[1:],
            carried=beyond,
            on=links.hand.dipper,
        ),
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
    hand = back_hand(machine, tool, point, curl)
    links = reach_links(machine, hand, reach=reach, height=height)
    span, *strokes = links.limits(machine.back)
    # Out of reach, a single pose has nothing to say of rams.
    alone = np.ndim(span.needs) == 0 and span.violated
    return back_on_links(
        machine, links, radius=radius, stops=(span,) if alone else (span, *strokes)
    )
