"""Which machines of many can be: their linkages close, their rams can be built, they weigh so."""

from __future__ import annotations

from functools import reduce
from typing import Any

import numpy as np
from numpy.typing import NDArray

from liftcalc.family.loads_of_rams import least_ram_load
from liftcalc.machines.arm import spot
from liftcalc.machines.assembly import (
    assemble,
    chassis_of,
    pressed_front,
    total_mass,
    travel_back,
    travel_front,
)
from liftcalc.machines.front_arm import reach_front
from liftcalc.machines.lookup import attachment
from liftcalc.machines.schema import LiftPoint, LinkRam, Machine, TiltRam
from liftcalc.physics.joints import tilt_from_angle, tilt_from_ram
from liftcalc.physics.plane import ORIGIN, Point, distance

Mask = NDArray[np.bool_]
_STROKES = np.linspace(0.0, 1.0, 9)
BELOW_GROUND = 0.03
"""How far below the wheels' ground a front bucket presses at least [m]; judgement."""
LONGEST = 1.95
"""Open to closed length of a ram that can be built: beyond two its rod does not fit into it [-]."""


def closes(machine: Machine) -> Mask:
    """Where machines whose figures are arrays can be, as ``validation.sound`` asks of one.

    A linkage is looked at with its ram at nine lengths from closed to open: nothing that turns
    back within an eighth of the stroke is found.
    """
    back, front = machine.back, machine.front
    with np.errstate(invalid="ignore", divide="ignore"):
        tests = [
            _link(back.boom_ram, Point(*back.foot_pin)),
            _link(back.dipper_ram, Point(back.boom.length, 0.0)),
            _link(front.lift_ram, Point(*front.arm_pivot)),
            _tilt(back.bucket_ram, back.dipper.length),
            _tilt(front.tilt_ram, front.arm.length),
            *_travel(machine),
        ]
    return np.asarray(reduce(np.logical_and, tests))


def _built(ram: Any) -> Mask:
    built: Mask = (ram.closed < ram.open) & (ram.open < LONGEST * ram.closed)
    return np.asarray(built & (ram.rod < ram.bore))


def _link(ram: LinkRam, pivot: Point) -> Mask:
    """Whether a ram closes its triangle without ever passing dead centre."""
    near = distance(start=Point(*ram.base), end=pivot)
    far = distance(start=ORIGIN, end=Point(*ram.rod_pin))
    meets: Mask = (ram.closed > abs(near - far)) & (ram.open < near + far)
    return _built(ram) & meets


def _tilt(ram: TiltRam, length: Any) -> Mask:
    """Whether a four-bar closes and turns one way over the whole stroke."""
    shape = (-1, *(1 for _ in np.shape(ram.closed)))
    lengths = ram.closed + _STROKES.reshape(shape) * (ram.open - ram.closed)
    bar = ram.four_bar(pivot=Point(length, 0.0))
    tilt = tilt_from_ram(bar, ram_length=lengths)
    one_way = np.ptp(np.sign(tilt.moment_arm), axis=0) == 0
    again = tilt_from_angle(bar, angle=tilt.angle).ram_length
    one_length: Mask = np.all(np.abs(again - lengths) < 1e-6, axis=0)
    return np.asarray(_built(ram) & one_way & one_length)


def _travel(machine: Machine) -> list[Mask]:
    """Whether the travel pose is within the strokes, and the weights leave a chassis."""
    arms = (
        travel_front(machine, attachment(machine, end="front")),
        travel_back(machine, attachment(machine, end="back")),
    )
    found = [~np.asarray(stop.violated) for arm in arms for stop in arm.stops]
    body = chassis_of(machine)
    within = (body.x > -1.0) & (body.x < machine.wheels.wheelbase + 0.5)
    low = 0.5 * machine.wheels.rear_radius
    pin = machine.wheels.axle_pin_height < 2 * machine.wheels.front_radius
    return [*found, (body.mass > 0) & within, machine.chassis.cog_height > low, pin]


def clears_its_wheels(machine: Machine) -> Mask:
    """Whether the pressed front bucket lifts the front off its wheels, on the stabilisers.

    With the back end as in travel, a fact of the trade. A twentieth is asked for above balance,
    and that the bucket goes on a little below where the wheels stood.
    """
    tool = next(each for each in machine.attachment if each.ground_contact and each.end == "front")
    assert tool.ground_contact is not None
    front = pressed_front(machine, tool)
    back = travel_back(machine, attachment(machine, end="back"))
    stands = assemble(machine, front=front, back=back, slew=0.0, sideshift=0.0, stance="wheels")
    at = front.carrier.carry(front.fitted).place(spot(tool.ground_contact))
    whole, pads = total_mass(stands.lumps), machine.stabilisers.x
    needed = whole.mass * (whole.x - pads) / (at.u - pads)
    presses = least_ram_load(front, at=at, machine=machine, upward=True) > 1.05 * needed
    contact = LiftPoint.model_construct(name="ground", at=tool.ground_contact, hold="hangs")
    lower = reach_front(machine, tool=tool, point=contact, height=-BELOW_GROUND, tilt=0.0)
    return reduce(np.logical_and, (~stop.violated for stop in lower.stops), presses)
