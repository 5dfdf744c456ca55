"""What a machine stands on, by its stance, and the lines that it may tip about."""

from __future__ import annotations

from typing import Literal

import numpy as np

from liftcalc.machines.arm import Arm
from liftcalc.machines.number import plain
from liftcalc.machines.schema import Machine
from liftcalc.physics.functions import Real
from liftcalc.physics.plane import Point, place
from liftcalc.physics.tipping import Line, Support, SupportKind, ring

Stance = Literal["wheels", "stabilisers", "stabilisers and bucket"]
"""What the machine stands on."""

SUPPORTS: dict[SupportKind, str] = {
    "rear tyre": "rear tyre",
    "front tyre": "front tyre",
    "axle pin": "front-axle pin",
    "pad": "stabiliser",
    "corner": "bucket corner",
}
"""What each kind of support is called."""


def supports(machine: Machine, *, stance: Stance, front: Arm) -> tuple[Support, ...]:
    """What the machine stands on.

    An oscillating front axle holds at its pin only: its stops are never credited. The rear tyres
    are not counted beside the stabilisers, and a pressed bucket replaces the front axle: leaving
    a support out understates stability.
    """
    wheels, legs = machine.wheels, machine.stabilisers
    if stance == "wheels":
        back = _pair("rear tyre", 0.0, plain(wheels.rear_track))
    else:
        back = _pair("pad", plain(legs.x), plain(legs.pad_spread))
    if stance != "stabilisers and bucket":
        base, height = plain(wheels.wheelbase), plain(wheels.axle_pin_height)
        if wheels.front_axle_oscillates:
            return (*back, Support(SUPPORTS["axle pin"], base, 0.0, height, "axle pin"))
        return (*back, *_pair("front tyre", base, plain(wheels.front_track)))
    contact = front.tool.ground_contact
    assert contact is not None  # pressed_front has refused the others
    at = Point(plain(contact[0]), plain(contact[1]))
    edge = place(origin=front.tool_origin, angle=front.tool_angle, at=at)
    return (*back, *_pair("corner", edge.u, plain(front.tool.width)))


def _pair(kind: SupportKind, x: Real, apart: Real) -> tuple[Support, Support]:
    """A left and a right support so far apart [m]."""
    name = SUPPORTS[kind]
    return (
        Support(f"left {name}", x, apart / 2, 0.0, kind),
        Support(f"right {name}", x, -apart / 2, 0.0, kind),
    )


_PAIRS: dict[SupportKind, str] = {
    "rear tyre": "over the rear axle",
    "front tyre": "over the front axle",
    "pad": "over both stabilisers",
    "corner": "over the pressed bucket",
}


def _named(line: Line) -> Line:
    """The line by a name an operator would use."""
    one, two = line.start, line.end
    if one.kind == two.kind:
        return line._replace(name=_PAIRS[one.kind])
    # The rear support first, so that left and right lines read alike.
    back, front = sorted((one, two), key=lambda support: float(np.mean(support.x)))
    return line._replace(name=f"{back.name} to {front.name}")


def tipping_lines(
    machine: Machine, *, stance: Stance, standing_on: tuple[Support, ...]
) -> tuple[Line, ...]:
    """The lines the machine may tip about, named.

    With an oscillating axle the pin is where the machine leans sideways and the front tyres are
    where it tips forward, so the line through the front tyre contacts is added. Of supports that
    are arrays the hull is that of their means.
    """
    named = {each.name: each for each in standing_on}
    means = [
        each._replace(x=float(np.mean(each.x)), y=float(np.mean(each.y))) for each in standing_on
    ]
    lines = [Line(each.name, named[each.start.name], named[each.end.name]) for each in ring(means)]
    wheels = machine.wheels
    if wheels.front_axle_oscillates and stance != "stabilisers and bucket":
        tyres = _pair("front tyre", plain(wheels.wheelbase), plain(wheels.front_track))
        lines.append(Line("", *tyres))
    return tuple(_named(each) for each in lines)
