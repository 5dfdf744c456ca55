"""The front end in a pose: loader arms on the chassis, attachment on its tilt linkage."""

from __future__ import annotations

import numpy as np

from liftcalc.machines.arm import (
    GROUND,
    Arm,
    Joint,
    LinkMass,
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
from liftcalc.machines.joint_limits import FARTHER, JointLimit, dead_centre, ram_limit
from liftcalc.machines.number import plain
from liftcalc.machines.schema import Attachment, LiftPoint, LinkRam, Machine
from liftcalc.physics.functions import Real, asin
from liftcalc.physics.joints import tilt_from_angle
from liftcalc.physics.plane import ORIGIN, Frame, Point, turned


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
    arms = turned(origin=spot(front.arm_pivot), angle=arm_angle)
    length = plain(front.arm.length)
    fitted = turned(origin=arms.along(length), angle=tilt)
    bar = ram.four_bar(pivot=Point(length, 0.0))
    rolled = tilt_from_angle(bar, angle=tilt - arm_angle)
    lump = tool_mass(tool, link=GROUND, fitted=fitted)
    lumps = (link_mass("loader arms", front.arm, arms), lump)
    lift = _lift_joint(front.lift_ram, arms, lumps)
    joint, linkage = tilt_joint(
        "tilt rams", ram, rolled, bar, link=arms, pivot=fitted.origin, lump=lump
    )
    # What hangs is a pendulum, whatever the tilt.
    joints = (lift,) if tool.mount == "hangs" else (lift, joint)
    lift_at = tool_spot(tool, fitted, point.at)
    return Arm(
        end="front",
        lumps=lumps,
        joints=joints,
        drawn=(outline_of("loader arms", front.arm, arms), linkage),
        tool=tool,
        carrier=GROUND,
        fitted=fitted,
        lift_at=lift_at,
        load_places=places_of_load(
            tool, point, link=GROUND, fitted=fitted, lift_at=lift_at, radius=radius
        ),
        stops=(
            ram_limit(lift.name, lift.ram, lift.ram_length),
            dead_centre(lift.name, front.lift_ram, lift.moment_arm),
            *(ram_limit(each.name, each.ram, each.ram_length) for each in joints[1:]),
        ),
    )


def _lift_joint(ram: LinkRam, arms: Frame, lumps: tuple[LinkMass, LinkMass]) -> Joint:
    """The joint of the arms; the masses are those of arms and attachment."""
    return link_joint(
        "lift rams",
        ram,
        ram_stand(ram, turn=arms.axis, joint=arms.origin),
        base=GROUND,
        link=arms,
        lumps=lumps,
        moves=True,
        carried=on_link(GROUND, lumps[1]).and_also(on_link(arms, lumps[0])),
    )


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
    pivot = spot(front.arm_pivot)
    up = ORIGIN
    if tool.mount != "hangs":
        up = turned(origin=up, angle=tilt).place(spot(point.at))
    length = plain(front.arm.length)
    with np.errstate(invalid="ignore"):
        arm_angle = asin((height - up.w - pivot.w) / length)
    posed = front_arm(
        machine, tool=tool, point=point, arm_angle=arm_angle, tilt=tilt, radius=radius
    )
    short, long = FARTHER["lift rams"]
    pin_height = JointLimit(
        name="height of the attachment pin",
        needs=height - up.w + 0.0 * tilt,
        least=pivot.w - length,
        most=pivot.w + length,
        short=short,
        long=long,
    )
    if np.ndim(arm_angle) == 0 and pin_height.violated:
        return posed._replace(stops=(pin_height,))
    return posed._replace(stops=(pin_height, *posed.stops))
