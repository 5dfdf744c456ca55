"""The machine as it should stand for its picture: from the side, both attachments on the ground."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from liftcalc.errors import InputError
from liftcalc.family.picture_points import POINTS, pins_of
from liftcalc.figures import chassis
from liftcalc.figures.linkage_shapes import outlines, transformed
from liftcalc.figures.scene import WIDE, Scene, Spot, extent, line
from liftcalc.machines.arm import Arm
from liftcalc.machines.assembly import pressed_front
from liftcalc.machines.back_arm import reach_back
from liftcalc.machines.lookup import attachment
from liftcalc.machines.number import plain
from liftcalc.machines.schema import LiftPoint, Machine
from liftcalc.physics.plane import Point

ROOM = 0.4
"""Free width round the machine [m]."""
SUNK = 0.02
"""How far a corner may be drawn below the ground [m]."""


class PictureGuide(NamedTuple):
    """The drawing, and where in it [m] each point is that can be clicked in a picture."""

    scene: Scene
    spots: dict[str, Spot]


def picture_guide(machine: Machine) -> PictureGuide:
    """Draw a machine with its front to the right, as it stands for its picture."""
    front = pressed_front(machine, attachment(machine, end="front"))
    back = _bucket_down(machine)
    axis = plain(machine.back.slew_axis_x)

    def behind(at: Spot) -> Spot:
        return axis - at[0], at[1]

    marks = [
        *chassis.kingpost_side(machine),
        *(transformed(mark, behind) for mark in outlines(back, machine)),
        *chassis.body_side(machine),
        *chassis.stabiliser_side(machine, down=True),
        *chassis.tyres_side(machine),
        *chassis.tower_side(machine),
        *outlines(front, machine),
    ]
    left, right, _, top = extent(marks)
    ground = line("ground", (left - ROOM, 0.0), (right + ROOM, 0.0))
    em = (right - left + 2.0 * ROOM) / WIDE
    scene = Scene(
        title=machine.title,
        about=f"{machine.title} from the side, front to the right, both attachments on the ground.",
        marks=(ground, *marks),
        labels=(),
        left=left - ROOM,
        right=right + ROOM,
        bottom=-em,
        top=top + em,
        em=em,
        notes=(),
        caution="",
    )
    return PictureGuide(scene, _spots(machine, front, back))


def _spots(machine: Machine, front: Arm, back: Arm) -> dict[str, Spot]:
    wheels, legs = machine.wheels, machine.stabilisers
    base, axis = plain(wheels.wheelbase), plain(machine.back.slew_axis_x)
    pad = plain(legs.x) - plain(legs.pad_length) / 2.0
    spots: dict[str, Spot] = {
        "rear hub": (0.0, plain(wheels.rear_radius)),
        "front hub": (base, plain(wheels.front_radius)),
        "rear tyre": (0.0, 0.0),
        "front tyre": (base, 0.0),
        "near pad": (pad, 0.0),
        "far pad": (pad, 0.0),
        "shovel tip": _foremost(front),
    }
    tooth = _foremost(back)
    spots["bucket tooth"] = (axis - tooth[0], tooth[1])
    spots |= {name: (float(at.u), float(at.w)) for name, at in pins_of(front).items()}
    spots |= {name: (axis - float(at.u), float(at.w)) for name, at in pins_of(back).items()}
    return {name: spots[name] for name in POINTS}


def _corners(arm: Arm) -> list[Spot]:
    frame = arm.carrier.carry(arm.fitted)
    placed = (frame.place(Point(plain(x), plain(y))) for x, y in arm.tool.outline)
    return [(float(at.u), float(at.w)) for at in placed]


def _foremost(arm: Arm) -> Spot:
    """The corner on the ground that is farthest out."""
    return max(at for at in _corners(arm) if at[1] < SUNK)


def _bucket_down(machine: Machine) -> Arm:
    """The back end well stretched, a corner of its attachment on the ground and none below it."""
    tool = attachment(machine, end="back")
    far = plain(machine.back.boom.length) + plain(machine.back.dipper.length)
    for share in (0.85, 0.75, 0.65, 0.55):
        for curl in (0.3, 0.5, 0.1, 0.7, 0.9):
            for corner in tool.outline:
                touching = LiftPoint.model_construct(name="ground", at=corner, hold="hangs")
                arm = reach_back(
                    machine, tool=tool, point=touching, reach=share * far, height=0.0, curl=curl
                )
                clear = min(at[1] for at in _corners(arm)) > -SUNK
                if clear and not any(np.any(each.violated) for each in arm.stops):
                    return arm
    raise InputError.of(
        field="machine",
        given=f"a back end of {machine.title} that does not reach the ground",
        wanted="a machine whose bucket can be laid down",
    )
