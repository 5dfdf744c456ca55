"""What a machine does that a person can see or read in a brochure, for figures in arrays."""

from __future__ import annotations

from typing import Any

import numpy as np

from liftcalc.factors import RAM_SHARE, TIPPING_SHARE
from liftcalc.family.loads_of_rams import least_ram_load, pressure_to_hold, ram_force, ram_load
from liftcalc.machines.arm import Arm
from liftcalc.machines.assembly import (
    FRONT_PLANE,
    EndPlane,
    assemble,
    back_plane,
    total_mass,
    travel_back,
    travel_front,
)
from liftcalc.machines.back_arm import back_arm, reach_back
from liftcalc.machines.front_arm import front_arm, reach_front
from liftcalc.machines.lookup import attachment
from liftcalc.machines.number import plain
from liftcalc.machines.schema import Attachment, EndName, LinkRam, Machine
from liftcalc.machines.supports import Stance
from liftcalc.physics.functions import Real, cos, hypot, sin
from liftcalc.physics.joints import link_angle, tilt_from_ram
from liftcalc.physics.plane import Point

TEETH = 0.583
"""Nose pin to the teeth of the digging bucket, as a share of the dipper [-]; all shipped ones."""
JUST = 1e-6
"""Short of the end of a stroke, so that rounding does not pass it [rad]."""
_STROKES = np.linspace(0.0, 1.0, 9)


def _angle(ram: LinkRam, *, pivot: Point, length: Real) -> Real:
    return link_angle(
        ram_length=plain(length),
        pivot=pivot,
        base_pin=Point(*map(plain, ram.base)),
        rod_pin=Point(*map(plain, ram.rod_pin)),
        side=ram.side,
    )


def boom_ends(machine: Machine) -> tuple[Real, Real]:
    """Lowest and highest angle of the boom [rad]."""
    ram, foot = machine.back.boom_ram, Point(*map(plain, machine.back.foot_pin))
    up, down = (ram.open, ram.closed) if ram.lengthens == "up" else (ram.closed, ram.open)
    return _angle(ram, pivot=foot, length=down), _angle(ram, pivot=foot, length=up)


def stretched_out(machine: Machine) -> Real:
    """Angle of the dipper to the boom, stretched out as far as it goes [rad]."""
    ram = machine.back.dipper_ram
    out = ram.open if ram.lengthens == "up" else ram.closed
    return _angle(ram, pivot=Point(plain(machine.back.boom.length), 0.0), length=out)


def arms_up(machine: Machine) -> Real:
    """Highest angle of the loader arms [rad]."""
    ram = machine.front.lift_ram
    up = ram.open if ram.lengthens == "up" else ram.closed
    return _angle(ram, pivot=Point(*map(plain, machine.front.arm_pivot)), length=up)


def hinge_height(machine: Machine) -> Real:
    """Height of the front hinge pin with the arms up [m]."""
    return machine.front.arm_pivot[1] + machine.front.arm.length * sin(arms_up(machine))


def dig_depth(machine: Machine) -> Real:
    """How far below the ground the teeth go, dipper and bucket hanging plumb [m]."""
    back, (low, _) = machine.back, boom_ends(machine)
    return back.dipper.length * (1 + TEETH) - back.foot_pin[1] - back.boom.length * sin(low)


def reach_on_ground(machine: Machine) -> Real:
    """How far from the slew axis the teeth reach on the ground, bucket in line [m]."""
    back, out = machine.back, stretched_out(machine)
    outer = back.dipper.length * (1 + TEETH)
    whole = hypot(back.boom.length + outer * cos(out), outer * sin(out))
    return back.foot_pin[0] + np.sqrt(whole**2 - plain(back.foot_pin[1]) ** 2)


def highest_nose(machine: Machine) -> Real:
    """Height of the nose pin, boom up and dipper stretched [m]."""
    back, (_, high) = machine.back, boom_ends(machine)
    out = high + stretched_out(machine)
    return back.foot_pin[1] + back.boom.length * sin(high) + back.dipper.length * sin(out)


def bucket_force(machine: Machine) -> Real:
    """Greatest force at the teeth as the bucket curls [N]."""
    ram, length = machine.back.bucket_ram, machine.back.dipper.length
    shape = (-1, *(1 for _ in np.shape(ram.closed)))
    lengths = ram.closed + _STROKES.reshape(shape) * (ram.open - ram.closed)
    tilt = tilt_from_ram(ram.four_bar(pivot=Point(plain(length), 0.0)), ram_length=lengths)
    arm = np.max(np.abs(tilt.moment_arm), axis=0)
    return _push(machine, ram) * arm / (TEETH * length)


def dipper_force(machine: Machine) -> Real:
    """Greatest force at the teeth as the dipper folds, bucket in line [N]."""
    ram, back = machine.back.dipper_ram, machine.back
    # Never longer than from the joint to the nearer pin, which the ram is square to on its way.
    arm = hypot(*ram.rod_pin)
    return _push(machine, ram) * arm / (back.dipper.length * (1 + TEETH))


def _push(machine: Machine, ram: Any) -> Real:
    oil = machine.hydraulics
    return ram_force(ram, pressure=oil.working_pressure, efficiency=oil.efficiency).push


def loader_lift(machine: Machine) -> Real:
    """What the lift rams carry at the hinge pin, arms up [kg], beside the tool that is fitted."""
    tool = attachment(machine, end="front")
    arm = front_arm(
        machine, tool=tool, point=tool.lift_point[0], arm_angle=arms_up(machine) - JUST, tilt=0.0
    )
    return ram_load(arm.joints[0], at=arm.tool_origin, hydraulics=machine.hydraulics)


def _stretched_level(machine: Machine) -> Arm:
    """The back end stretched out with its nose as high as its foot pin, a hook on it."""
    tool = back_hook(machine)
    boom, out = machine.back.boom.length, stretched_out(machine) - JUST
    low = np.arctan2(
        machine.back.dipper.length * sin(out), boom + machine.back.dipper.length * cos(out)
    )
    return back_arm(
        machine,
        tool=tool,
        point=tool.lift_point[0],
        boom_angle=-low,
        dipper_angle=-low + out,
        curl=0.5,
    )


def lift_at_full_reach(machine: Machine) -> Real:
    """What boom and dipper rams carry at the nose pin, stretched out level, no bucket [kg]."""
    arm = _stretched_level(machine)
    return least_ram_load(arm, at=arm.tool_origin, machine=machine) + plain(arm.tool.mass)


def boom_lift(machine: Machine) -> Real:
    """What the boom ram alone carries there [kg]."""
    arm = _stretched_level(machine)
    load = ram_load(arm.joints[0], at=arm.tool_origin, hydraulics=machine.hydraulics)
    return load + plain(arm.tool.mass)


def back_hook(machine: Machine) -> Attachment:
    """The tool that hangs a load straight on the nose: a hook, and no bucket."""
    tools = [each for each in machine.attachment if each.end == "back"]
    return next((each for each in tools if each.mount == "nose"), tools[0])


def front_hook(machine: Machine) -> Attachment:
    """The lightest tool of the front end that a load hangs on."""
    tools = [
        each
        for each in machine.attachment
        if each.end == "front" and each.mount == "pins" and each.lift_point[0].hold == "hangs"
    ]
    return tools[0] if tools else attachment(machine, end="front")


def posed(machine: Machine, *, end: EndName, reach: Real, height: Real) -> Arm:
    """The hook of an end at a place [m]; at the front the arms decide the reach."""
    if end == "back":
        tool = back_hook(machine)
        return reach_back(
            machine, tool=tool, point=tool.lift_point[0], reach=reach, height=height, curl=0.5
        )
    tool = front_hook(machine)
    return reach_front(machine, tool=tool, point=tool.lift_point[0], height=height, tilt=0.0)


def _whole(machine: Machine, arm: Arm, stance: Stance) -> Any:
    """All masses as one, one end posed and the other as in travel, nobody on board."""
    front, back = arm, arm
    if arm.end == "back":
        front = travel_front(machine, attachment(machine, end="front"))
    else:
        back = travel_back(machine, attachment(machine, end="back"))
    state = assemble(
        machine, front=front, back=back, slew=0.0, sideshift=0.0, stance=stance, operator=True
    )
    return total_mass(state.lumps)


def front_axle_load(machine: Machine, *, reach: Real, height: Real) -> Real:
    """What the front axle carries with the back hook straight out there, on wheels [kg]."""
    whole = _whole(machine, posed(machine, end="back", reach=reach, height=height), "wheels")
    return whole.mass * whole.x / machine.wheels.wheelbase


def _plane(machine: Machine, end: EndName) -> EndPlane:
    return FRONT_PLANE if end == "front" else back_plane(machine, slew=0.0, sideshift=0.0)


def tipping_load(machine: Machine, *, end: EndName, reach: Real, height: Real) -> Real:
    """Load on the hook that just lightens the far wheels on level ground [kg].

    Straight back over the stabilisers, or straight ahead over the front wheels.
    """
    arm = posed(machine, end=end, reach=reach, height=height)
    whole = _whole(machine, arm, "stabilisers" if end == "back" else "wheels")
    x, _, _ = _plane(machine, end).point(arm.lift_at)
    line = machine.stabilisers.x if end == "back" else machine.wheels.wheelbase
    return whole.mass * (whole.x - line) / (line - x)


def stalling_load(machine: Machine, *, end: EndName, reach: Real, height: Real) -> Real:
    """Load on the hook at which the first ram stalls [kg]."""
    arm = posed(machine, end=end, reach=reach, height=height)
    return least_ram_load(arm, at=arm.lift_at, machine=machine)


def rated_load(machine: Machine, *, end: EndName, reach: Real, height: Real) -> Real:
    """What a chart would rate the end for there [kg]: the lesser of shares of tipping and rams.

    Those of ISO 10567 and ISO 14397-1; makers state seldom what they counted.
    """
    tips = tipping_load(machine, end=end, reach=reach, height=height)
    stalls = stalling_load(machine, end=end, reach=reach, height=height)
    share = TIPPING_SHARE["stabilisers" if end == "back" else "standing"].value
    return np.minimum(share * tips, RAM_SHARE.value * stalls)


def boom_pressure(machine: Machine, *, reach: Real, height: Real, load: float) -> Real:
    """Pressure in the boom ram that holds a load on the back hook there [Pa]."""
    arm = posed(machine, end="back", reach=reach, height=height)
    efficiency = plain(machine.hydraulics.efficiency)
    return pressure_to_hold(arm.joints[0], at=arm.lift_at, load=load, efficiency=efficiency)


def lift_pressure(machine: Machine, *, height: Real, load: float) -> Real:
    """Pressure in the lift rams that holds a load on the front hook at a height [Pa]."""
    arm = posed(machine, end="front", reach=None, height=height)
    efficiency = plain(machine.hydraulics.efficiency)
    return pressure_to_hold(arm.joints[0], at=arm.lift_at, load=load, efficiency=efficiency)
