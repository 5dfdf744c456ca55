"""Points of a machine that a tape finds, each on the part that holds it: pins, hubs, pads."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal, NamedTuple

from liftcalc.machines.arm import spot
from liftcalc.machines.number import plain
from liftcalc.machines.schema import Machine, Ram
from liftcalc.physics.functions import Real
from liftcalc.physics.plane import ORIGIN, Point, distance

Part = Literal["chassis", "kingpost", "boom", "dipper", "loader arm", "ram"]


class NamedPoint(NamedTuple):
    """A point that can be seen on the machine, in the plane of the part that holds it [m].

    Of the chassis that is the machine frame seen from the side, u forward; of the kingpost the
    plane of the back end, u outward from the slew axis; of a link its own frame.
    """

    words: str
    part: Part
    at: Callable[[Machine], Point]


def _outer(length: Real) -> Point:
    return Point(plain(length), 0.0)


POINTS: dict[str, NamedPoint] = {
    "rear hub": NamedPoint(
        "middle of the rear hub", "chassis", lambda m: Point(0.0, plain(m.wheels.rear_radius))
    ),
    "front hub": NamedPoint(
        "middle of the front hub",
        "chassis",
        lambda m: Point(plain(m.wheels.wheelbase), plain(m.wheels.front_radius)),
    ),
    "arm pivot": NamedPoint(
        "loader arm's pivot on the chassis", "chassis", lambda m: spot(m.front.arm_pivot)
    ),
    "lift ram base": NamedPoint(
        "lift ram's pin on the chassis", "chassis", lambda m: spot(m.front.lift_ram.base)
    ),
    "arm pivot on the arm": NamedPoint("loader arm's pivot", "loader arm", lambda _: ORIGIN),
    "hinge pin": NamedPoint(
        "hinge pin of the front tool", "loader arm", lambda m: _outer(m.front.arm.length)
    ),
    "lift ram pin": NamedPoint(
        "lift ram's pin on the arm", "loader arm", lambda m: spot(m.front.lift_ram.rod_pin)
    ),
    "tilt ram base": NamedPoint(
        "tilt ram's pin on the arm", "loader arm", lambda m: spot(m.front.tilt_ram.base)
    ),
    "bell-crank pivot": NamedPoint(
        "pivot of the bell-crank", "loader arm", lambda m: spot(m.front.tilt_ram.rocker_pivot)
    ),
    "foot pin": NamedPoint("boom's foot pin", "kingpost", lambda m: spot(m.back.foot_pin)),
    "boom ram base": NamedPoint(
        "boom ram's pin on the kingpost", "kingpost", lambda m: spot(m.back.boom_ram.base)
    ),
    "foot pin on the boom": NamedPoint("boom's foot pin", "boom", lambda _: ORIGIN),
    "knuckle": NamedPoint(
        "pin between boom and dipper", "boom", lambda m: _outer(m.back.boom.length)
    ),
    "boom ram pin": NamedPoint(
        "boom ram's pin on the boom", "boom", lambda m: spot(m.back.boom_ram.rod_pin)
    ),
    "dipper ram base": NamedPoint(
        "dipper ram's pin on the boom", "boom", lambda m: spot(m.back.dipper_ram.base)
    ),
    "knuckle on the dipper": NamedPoint("pin between boom and dipper", "dipper", lambda _: ORIGIN),
    "nose pin": NamedPoint(
        "pin of the bucket at the dipper's nose", "dipper", lambda m: _outer(m.back.dipper.length)
    ),
    "dipper ram pin": NamedPoint(
        "dipper ram's pin on the dipper", "dipper", lambda m: spot(m.back.dipper_ram.rod_pin)
    ),
    "bucket ram base": NamedPoint(
        "bucket ram's pin on the dipper", "dipper", lambda m: spot(m.back.bucket_ram.base)
    ),
    "lever pivot": NamedPoint(
        "pivot of the tipping lever", "dipper", lambda m: spot(m.back.bucket_ram.rocker_pivot)
    ),
}
"""Each by its name; a joint has two, one on either part."""

RAMS: dict[str, Callable[[Machine], Ram]] = {
    "boom ram": lambda m: m.back.boom_ram,
    "dipper ram": lambda m: m.back.dipper_ram,
    "bucket ram": lambda m: m.back.bucket_ram,
    "lift ram": lambda m: m.front.lift_ram,
    "tilt ram": lambda m: m.front.tilt_ram,
}


def between(machine: Machine, one: str, other: str) -> Real:
    """Distance between two points of one part [m]."""
    first, second = POINTS[one], POINTS[other]
    assert first.part == second.part, (one, other)
    return distance(start=first.at(machine), end=second.at(machine))
