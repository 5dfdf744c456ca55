"""The back end in a pose: boom and dipper on a slewing kingpost, bucket on its four-bar."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

from liftcalc.machines.arm import (
    GROUND,
    Arm,
    RamStand,
    drawn_link,
    link_joint,
    link_lump,
    on_link,
    places_of_load,
    ram_stand,
    spot,
    tilt_joint,
    tool_lump,
    tool_spot,
)
from liftcalc.machines.joint_limits import JointLimit, dead_centre, ram_limit
from liftcalc.machines.schema import Attachment, Back, LiftPoint, Machine
from liftcalc.physics import formulas
from liftcalc.physics.joints import FourBar, Tilt, tilt_from_ram
from liftcalc.physics.plane import ORIGIN, Frame, Point, Real, some_of, turned


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
    boom = turned(origin=spot(back.foot_pin), angle=boom_angle)
    dipper = Point(np.cos(dipper_angle), np.sin(dipper_angle))
    hand = back_hand(machine, tool=tool, point=point, curl=curl)
    links = _links(back, hand, boom, dipper)
    return back_on_links(machine, links, radius=radius, stops=links.stops(back))


class EndEffector(NamedTuple):
    """An attachment as it stands on the dipper, whatever the dipper does.

    ``frame`` and ``lift``, the lift point, are told in the dipper's frame.
    """

    tool: Attachment
    point: LiftPoint
    frame: Frame
    lift: Point
    tilt: Tilt | None = None
    bar: FourBar | None = None


def back_hand(machine: Machine, *, tool: Attachment, point: LiftPoint, curl: Real) -> EndEffector:
    """An attachment on the dipper with a share of the bucket ram's stroke out [-]."""
    frame = Frame(Point(machine.back.dipper.length, 0.0), 1.0, 0.0)
    bar = tilt = None
    if tool.mount == "pins":
        ram = machine.back.bucket_ram
        bar = ram.four_bar(pivot=frame.origin)
        tilt = tilt_from_ram(bar, ram_length=ram.closed + curl * (ram.open - ram.closed))
        frame = turned(origin=frame.origin, angle=tilt.angle)
    return EndEffector(tool, point, frame, tool_spot(tool, frame, point.at), tilt, bar)


class BackLinks(NamedTuple):
    """The back end as two links, two rams and a hand, before anything is weighed.

    ``dipper`` is its direction; ``span`` is from foot pin to lift point, where the links were
    sought by it [m].
    """

    hand: EndEffector
    boom: Frame
    dipper: Point
    boom_ram: RamStand
    dipper_ram: RamStand
    span: Real = None

    def some(self, rows: Any) -> BackLinks:
        """The links at some of their places, the hand being the same at all."""
        return BackLinks(self.hand, *(some_of(each, rows) for each in self[1:]))

    def stops(self, back: Back) -> tuple[JointLimit, ...]:
        """What may stop the links from standing so."""
        stops = [
            ram_limit("boom ram", back.boom_ram, self.boom_ram.ram_length),
            ram_limit("dipper ram", back.dipper_ram, self.dipper_ram.ram_length),
            dead_centre("boom ram", back.boom_ram, self.boom_ram.moment_arm),
            dead_centre("dipper ram", back.dipper_ram, self.dipper_ram.moment_arm),
        ]
        if self.hand.tilt is not None:
            # Where the four-bar cannot close the angle is NaN, and so is what is needed.
            needs = self.hand.tilt.ram_length + 0.0 * self.hand.tilt.angle
            stops.insert(0, ram_limit("bucket ram", back.bucket_ram, needs))
        if self.span is not None:
            second = float(np.hypot(*self.hand.lift))
            span = JointLimit(
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
    back: Back, hand: EndEffector, boom: Frame, dipper: Point, *, span: Real = None
) -> BackLinks:
    return BackLinks(
        hand,
        boom,
        dipper,
        ram_stand(back.boom_ram, turn=boom.axis, joint=boom.origin),
        ram_stand(back.dipper_ram, turn=boom.turn_back(dipper), joint=Point(back.boom.length, 0.0)),
        span,
    )


def reach_links(machine: Machine, hand: EndEffector, *, reach: Real, height: Real) -> BackLinks:
    """The links that bring a lift point to a reach from the slew axis and a height [m].

    Closed form, knuckle up: the lift point is fast to the dipper, so the arm has two links.
    """
    back = machine.back
    foot, second = spot(back.foot_pin), np.hypot(*hand.lift)
    with np.errstate(invalid="ignore", divide="ignore"):
        found = formulas.two_link(
            target_u=reach - foot.u,
            target_w=height - foot.w,
            first_length=float(back.boom.length),
            second_length=second,
        )
    boom = Frame(foot, found.first_cosine, found.first_sine)
    # The second link runs from the knuckle to the lift point, which may lie off the dipper's axis.
    off_axis = Frame(ORIGIN, hand.lift.u / second, hand.lift.w / second)
    dipper = off_axis.turn_back(Point(found.second_cosine, found.second_sine))
    return _links(back, hand, boom, dipper, span=found.span)


def back_on_links(
    machine: Machine, links: BackLinks, *, radius: float, stops: tuple[JointLimit, ...] = ()
) -> Arm:
    """The back end on links that stand so, for a log of a radius [m]; with the stops it is told."""
    back, hand = machine.back, links.hand
    boom = links.boom
    dipper = Frame(boom.along(float(back.boom.length)), *links.dipper)
    tool = tool_lump(hand.tool, link=dipper, fitted=hand.frame)
    outer = (link_lump("dipper", back.dipper, dipper), tool)
    lumps = (link_lump("boom", back.boom, boom), *outer)
    beyond = on_link(dipper, *outer)
    joints = [
        link_joint(
            "boom ram",
            back.boom_ram,
            links.boom_ram,
            base=GROUND,
            link=boom,
            lumps=lumps,
            carried=beyond.and_also(on_link(boom, lumps[0])),
        ),
        link_joint(
            "dipper ram",
            back.dipper_ram,
            links.dipper_ram,
            base=boom,
            link=dipper,
            lumps=outer,
            carried=beyond,
        ),
    ]
    drawn = [drawn_link("boom", back.boom, boom), drawn_link("dipper", back.dipper, dipper)]
    if hand.tilt is not None and hand.bar is not None:
        joint, linkage = tilt_joint(
            "bucket ram",
            back.bucket_ram,
            hand.tilt,
            hand.bar,
            link=dipper,
            pivot=dipper.along(hand.frame.origin.u),
            lump=tool,
        )
        joints.append(joint)
        drawn.append(linkage)
    lift_at = dipper.place(hand.lift)
    return Arm(
        end="back",
        lumps=lumps,
        joints=tuple(joints),
        drawn=tuple(drawn),
        tool=hand.tool,
        carrier=dipper,
        fitted=hand.frame,
        lift_at=lift_at,
        load_places=places_of_load(
            hand.tool, hand.point, link=dipper, fitted=hand.frame, lift_at=lift_at, radius=radius
        ),
        stops=stops,
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
    span, *strokes = links.stops(machine.back)
    # Out of reach, a single pose has nothing to say of rams.
    alone = np.ndim(span.needs) == 0 and span.broken
    return back_on_links(
        machine, links, radius=radius, stops=(span,) if alone else (span, *strokes)
    )
