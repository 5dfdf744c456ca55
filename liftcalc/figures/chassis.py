"""The chassis as an honest schematic: tyres, axles, pivots and pads true, the body round them.

The body is made of the machine's own figures (wheelbase, tyres, arm pivot, slew axis, seat), so
that another machine looks like another; its outline is nobody's product.
"""

from __future__ import annotations

import math

from liftcalc.evaluation.answer import Answer
from liftcalc.figures.scene import Disc, Mark, Path, Role, Spot, around, box, line, polygon
from liftcalc.machines.schema import Machine

TYRE_WIDTH = 0.55
"""Width of a tyre over its radius [-]; schematic."""
RAISED = 0.45
"""Share of the rear tyre's height at which a raised pad is drawn; schematic."""
HEAD_ROOM = 1.0
"""From a seated driver's centre of mass up to the roof [m]; schematic."""


def tyres_side(machine: Machine) -> list[Mark]:
    """Both wheels seen from the side, on the ground at their true places."""
    wheels = machine.wheels
    made: list[Mark] = []
    for name, x, radius in (
        ("rear tyre", 0.0, float(wheels.rear_radius)),
        ("front tyre", float(wheels.wheelbase), float(wheels.front_radius)),
    ):
        made += [
            Disc(role="tyre", centre=(x, radius), radius=radius, name=name),
            Disc(role="rim", centre=(x, radius), radius=0.56 * radius, name=name),
            Disc(role="tyre", centre=(x, radius), radius=0.16 * radius, name="hub"),
        ]
    return made


def _seat(machine: Machine) -> tuple[float, float]:
    for each in machine.carried:
        if each.name == "operator":
            return float(each.at[0]), float(each.at[2])
    return 0.25 * float(machine.wheels.wheelbase), 2.3 * float(machine.wheels.rear_radius)


def body_side(machine: Machine) -> list[Mark]:
    """Frame, bonnet, cab, seat and mudguard."""
    wheels = machine.wheels
    base = float(wheels.wheelbase)
    front, rear = float(wheels.front_radius), float(wheels.rear_radius)
    pivot_x, pivot_z = (float(each) for each in machine.front.arm_pivot)
    back, nose = float(machine.stabilisers.x) - 0.05, base + 0.95 * front
    belly, deck = 0.85 * front, 1.32 * rear
    seat_x, seat_z = _seat(machine)
    roof = seat_z + HEAD_ROOM
    bonnet = min(deck + 0.72 * (pivot_z - deck) + 0.1, pivot_z)
    post = pivot_x - 0.16
    rear_post = max(back + 0.18, seat_x - 1.05)
    cab = ((rear_post, deck), (rear_post + 0.06, roof), (post - 0.18, roof), (post, deck))
    left, right = rear_post - 0.1, post - 0.02
    top = ((left, roof), (left + 0.04, roof + 0.1), (right - 0.06, roof + 0.1), (right, roof))
    glass = (
        (rear_post + 0.1, deck + 0.35 * (roof - deck)),
        (rear_post + 0.14, roof - 0.12),
        (post - 0.27, roof - 0.12),
        (post - 0.14, deck + 0.35 * (roof - deck)),
    )
    return [
        polygon("body", cab, name="cab"),
        polygon("glass", glass, name="cab"),
        *_seat_side(seat_x, deck, seat_z),
        polygon("body", top, name="roof"),
        polygon(
            "body",
            (
                (post, deck),
                (post + 0.02, bonnet + 0.06),
                (nose - 0.25 * front, bonnet - 0.12),
                (nose, bonnet - 0.12 - 0.3 * front),
                (nose, deck - 0.25 * front),
                (post, 0.9 * deck),
            ),
            name="bonnet",
        ),
        polygon(
            "frame",
            (
                (back, belly),
                (back, deck),
                (post + 0.1, deck),
                (post + 0.25, 0.86 * deck),
                (nose - 0.05, 0.86 * deck),
                (nose - 0.05, belly + 0.1),
                (base - 1.25 * front, belly),
            ),
            name="frame",
        ),
        polygon("body", _guard(rear), name="mudguard"),
    ]


def tower_side(machine: Machine) -> list[Mark]:
    """The upright that carries the loader arms and the foot of their rams."""
    pivot_x, pivot_z = (float(each) for each in machine.front.arm_pivot)
    ram_x, ram_z = (float(each) for each in machine.front.lift_ram.base)
    deck = 1.0 * float(machine.wheels.rear_radius)
    wide = 0.13
    left, right = min(pivot_x, ram_x) - wide, max(pivot_x, ram_x) + wide
    return [
        polygon(
            "frame",
            (
                (left - 0.05, min(deck, ram_z - wide)),
                (pivot_x - wide, pivot_z),
                (pivot_x - 0.6 * wide, pivot_z + 0.9 * wide),
                (pivot_x + 0.6 * wide, pivot_z + 0.9 * wide),
                (pivot_x + wide, pivot_z),
                (right, ram_z),
                (right + 0.05, min(deck, ram_z - wide)),
            ),
            name="loader tower",
        )
    ]


def _seat_side(x: float, deck: float, z: float) -> list[Mark]:
    pan = z - 0.28
    back = ((x - 0.26, pan + 0.55), (x - 0.18, pan + 0.56), (x - 0.14, pan + 0.1))
    cushion = ((x + 0.24, pan + 0.1), (x + 0.24, pan), (x - 0.24, pan))
    return [
        box("lug", (x - 0.11, deck), (x + 0.11, pan), "seat"),
        polygon("tyre", (*back, *cushion), name="seat"),
    ]


def _guard(radius: float) -> list[Spot]:
    """A mudguard over the rear tyre, from low behind to the step in front."""
    turns = [math.radians(165 - step * 11.5) for step in range(13)]
    outer, inner = (around((0.0, radius), far * radius, turns) for far in (1.16, 1.06))
    return [*outer, *reversed(inner)]


def stabiliser_side(machine: Machine, *, down: bool) -> list[Mark]:
    """The near leg: down on its pad, or drawn up out of the way."""
    legs = machine.stabilisers
    x, half = float(legs.x), float(legs.pad_length) / 2
    top = 1.75 * float(machine.wheels.rear_radius)
    foot = 0.0 if down else RAISED * float(machine.wheels.rear_radius)
    return [
        box("barrel", (x - 0.05, foot + 0.06), (x + 0.05, top - 0.1), "stabiliser"),
        box("stabiliser", (x - 0.1, max(foot + 0.3, 0.5 * top)), (x + 0.1, top), "stabiliser"),
        polygon(
            "stabiliser",
            (
                (x - half, foot),
                (x - half, foot + 0.04),
                (x - 0.09, foot + 0.12),
                (x + 0.09, foot + 0.12),
                (x + half, foot + 0.04),
                (x + half, foot),
            ),
            name="pad",
        ),
    ]


def kingpost_side(machine: Machine) -> list[Mark]:
    """Kingpost on the slew axis, from below the boom foot to the pin of the boom ram."""
    axis = float(machine.back.slew_axis_x)
    foot_u, foot_w = (float(each) for each in machine.back.foot_pin)
    ram_u, ram_w = (float(each) for each in machine.back.boom_ram.base)
    low, high = sorted((foot_w, ram_w))
    inner = float(machine.stabilisers.x)
    pad = 0.09
    outer = axis - max(foot_u, ram_u) - pad
    return [
        box("frame", (axis - 0.02, low - 0.2), (inner + 0.04, high + 0.12), "carriage"),
        polygon(
            "kingpost",
            (
                (axis + 0.07, low - 0.26),
                (outer, low - 0.16),
                (axis - foot_u - pad, foot_w + pad),
                (axis - ram_u - pad, ram_w + pad),
                (axis + 0.09, high + 0.14),
            ),
            name="kingpost",
        ),
    ]


def tyres_plan(machine: Machine) -> list[Mark]:
    """Four wheels seen from above, at their true tracks."""
    wheels = machine.wheels
    made: list[Mark] = []
    for name, x, radius, track in (
        ("rear", 0.0, float(wheels.rear_radius), float(wheels.rear_track)),
        ("front", float(wheels.wheelbase), float(wheels.front_radius), float(wheels.front_track)),
    ):
        half = TYRE_WIDTH * radius / 2
        for side, y in (("left", track / 2), ("right", -track / 2)):
            made.append(
                _rounded("tyre", (x, y), long=radius, wide=half, name=f"{side} {name} tyre")
            )
        made.append(line("rod", (x, -track / 2), (x, track / 2), name=f"{name} axle"))
    return made


def _rounded(role: Role, at: Spot, *, long: float, wide: float, name: str) -> Path:
    """A rectangle with its corners cut, by its middle and half its sides."""
    x, y = at
    cut = 0.35 * wide
    return polygon(
        role,
        (
            (x - long, y - wide + cut),
            (x - long + cut, y - wide),
            (x + long - cut, y - wide),
            (x + long, y - wide + cut),
            (x + long, y + wide - cut),
            (x + long - cut, y + wide),
            (x - long + cut, y + wide),
            (x - long, y + wide - cut),
        ),
        name=name,
    )


def body_plan(machine: Machine) -> list[Mark]:
    """Frame, bonnet and roof seen from above."""
    wheels = machine.wheels
    base = float(wheels.wheelbase)
    front, rear = float(wheels.front_radius), float(wheels.rear_radius)
    inside = float(wheels.front_track) / 2 - TYRE_WIDTH * front / 2
    pivot_x = float(machine.front.arm_pivot[0])
    back, nose = float(machine.stabilisers.x) - 0.05, base + 0.95 * front
    seat_x, _ = _seat(machine)
    half = 0.72 * inside
    rear_post, post = max(back + 0.08, seat_x - 1.15), pivot_x - 0.18
    cab_half = float(wheels.rear_track) / 2 - 0.1 * rear
    return [
        box("frame", (back, -0.5 * inside), (nose - 0.05, 0.5 * inside), "frame"),
        polygon(
            "body",
            (
                (pivot_x - 0.2, -half),
                (nose - 0.2, -0.8 * half),
                (nose, -0.55 * half),
                (nose, 0.55 * half),
                (nose - 0.2, 0.8 * half),
                (pivot_x - 0.2, half),
            ),
            name="bonnet",
        ),
        _rounded(
            "body",
            ((rear_post + post) / 2, 0.0),
            long=(post - rear_post) / 2,
            wide=cab_half,
            name="roof",
        ),
    ]


def stabilisers_plan(answer: Answer) -> list[Mark]:
    """Both legs and their pads, on the ground or drawn up."""
    made = pads_plan(answer.lift.machine)
    return made if answer.lift.stance != "wheels" else made[:1]


def pads_plan(machine: Machine) -> list[Mark]:
    """The beam of the legs, and both pads on the ground."""
    legs = machine.stabilisers
    x, y = float(legs.x), float(legs.pad_spread) / 2
    along, across = float(legs.pad_length) / 2, float(legs.pad_width) / 2
    return [
        box("stabiliser", (x - 0.09, -y), (x + 0.09, y), "stabiliser beam"),
        *(
            box("stabiliser", (x - along, side * y - across), (x + along, side * y + across), "pad")
            for side in (1, -1)
        ),
    ]
