"""Reactions of the ground."""

from __future__ import annotations

from collections import namedtuple

from liftcalc.physics.formula import formula, step
from liftcalc.physics.functions import Real, ratio

SupportForce = namedtuple("SupportForce", "support_force")
ThreeSupports = namedtuple(
    "ThreeSupports",
    "pin_base pin_up back_up turning_moment roll_factor back_roll left_up right_up pin_left "
    "back_left",
)
AxleTyres = namedtuple("AxleTyres", "left_tyre right_tyre")


@formula(
    source="duality of linear programmes: the least bound is also reached",
    error="overstates the force wherever the ground shares the load more evenly",
)
def support_force(*, pressing_moment: Real, support_lever: Real) -> SupportForce:
    """Greatest force on a support, whatever the ground's stiffness."""
    force = step(
        pressing_moment / support_lever,
        "about a line that the machine may tip over, across from the support: no other support "
        "pulls, so they only take moment off it; the least over the lines counts",
    )
    return SupportForce(force)


@formula(
    source="equilibrium of a rigid body",
    error="exact for wheels that roll freely and a force along the machine shared by the back "
    "supports as they carry; one of them may hold it all, see `support_force`",
)
def three_supports(
    *,
    force_x: Real,
    force_y: Real,
    force_z: Real,
    moment_x: Real,
    moment_y: Real,
    moment_z: Real,
    back_x: Real,
    left_y: Real,
    right_y: Real,
    pin_x: Real,
    pin_height: Real,
) -> ThreeSupports:
    """Two back supports on the ground, and a front axle that rolls freely under its pin."""
    base = step(pin_x - back_x, "distance along the machine")
    pin_up = step(
        (moment_y + back_x * force_z) / base,
        "moments about the back supports; wheels that roll take no force along the machine",
    )
    back_up = step(-force_z - pin_up, "what is left of the weight")
    turning = step(
        back_x * force_y - moment_z, "moments in plan about the back supports, of the weights alone"
    )
    factor = step(
        1 + ratio(pin_height * force_x, back_up * base),
        "the back support that carries more also holds more along the machine, which turns the "
        "nose and so presses sideways on the pin",
    )
    roll = step(
        ratio(pin_height * turning / base - moment_x, factor),
        "moments in roll, the pin's sideways force put in",
    )
    left_up = step(
        (roll - right_y * back_up) / (left_y - right_y),
        "both give that moment and, together, the force on both",
    )
    right_up = step(back_up - left_up, "the rest")
    pin_left = step(
        (turning - force_x * ratio(roll, back_up)) / base, "moments in plan about the back supports"
    )
    back_left = step(-force_y - pin_left, "the rest")
    in_roll = (turning, factor, roll, left_up, right_up)
    return ThreeSupports(base, pin_up, back_up, *in_roll, pin_left, back_left)


@formula(
    source="moments about the pin of the axle",
    error="exact for an axle without weight of its own; a tyre below zero means that the axle "
    "turns against its stop",
)
def axle_tyres(*, pin_up: Real, pin_left: Real, pin_height: Real, front_track: Real) -> AxleTyres:
    """Tyres of an oscillating axle."""
    left_tyre = step(
        pin_up / 2 - pin_left * pin_height / front_track,
        "half each, less what the sideways force of the ground, below the pin, takes over",
    )
    right_tyre = step(pin_up - left_tyre, "the rest")
    return AxleTyres(left_tyre, right_tyre)
