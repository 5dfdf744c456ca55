"""Centre of gravity from two weighings: level, and with one axle raised."""

from __future__ import annotations

from collections import namedtuple

from liftcalc.physics.formula import formula, step
from liftcalc.physics.functions import Real, asin, atan2, cos, ratio, sin, sqrt

CogByWeighing = namedtuple("CogByWeighing", "cog_ahead axle_step pitch front_ahead cog_up")
WeighingOfCog = namedtuple("WeighingOfCog", "front_level axle_step pitch front_ahead front_raised")
ChassisByWeighing = namedtuple("ChassisByWeighing", "chassis_height")

SOURCE = "statics of a machine on two axles; the textbook form has tyres of one size"
ERROR = (
    "exact for tyres that squash alike in both weighings and a machine whose wheels roll freely; a "
    "tyre that squashes more when the other axle is raised, fuel that runs back, or an axle's own "
    "springs are not in it"
)


def _pitched(
    wheelbase: Real, front_radius: Real, rear_radius: Real, raise_height: Real
) -> tuple[Real, Real, Real]:
    """Step between the axles, pitch, and how far ahead the front axle then stands."""
    axle_step = step(front_radius - rear_radius, "unequal tyres")
    pitch = step(
        asin((axle_step + raise_height) / sqrt(wheelbase**2 + axle_step**2))
        - atan2(axle_step, wheelbase),
        "the front axle ends up so high: r_r + L sin θ + (r_f − r_r) cos θ = r_f + H",
    )
    front_ahead = step(
        wheelbase * cos(pitch) - axle_step * sin(pitch), "the line between the axles, pitched"
    )
    return axle_step, pitch, front_ahead


@formula(source=SOURCE, error=ERROR)
def cog_by_weighing(
    *,
    wheelbase: Real,
    front_radius: Real,
    rear_radius: Real,
    raise_height: Real,
    whole_mass: Real,
    front_level: Real,
    front_raised: Real,
) -> CogByWeighing:
    """Centre of gravity from a level weighing and one with an axle raised."""
    cog_ahead = step(wheelbase * front_level / whole_mass, "level: moments about the rear axle")
    axle_step, pitch, front_ahead = _pitched(wheelbase, front_radius, rear_radius, raise_height)
    cog_up = step(
        rear_radius
        + ratio(cog_ahead * cos(pitch) - front_raised * front_ahead / whole_mass, sin(pitch)),
        "pitched: moments about the rear tyres, the weight's arm being "
        "x_c cos θ − (z_c − r_r) sin θ",
    )
    return CogByWeighing(cog_ahead, axle_step, pitch, front_ahead, cog_up)


@formula(source=SOURCE, error=ERROR)
def weighing_of_cog(
    *,
    wheelbase: Real,
    front_radius: Real,
    rear_radius: Real,
    raise_height: Real,
    whole_mass: Real,
    cog_ahead: Real,
    cog_up: Real,
) -> WeighingOfCog:
    """What the front axle weighs, level and with an axle raised."""
    front_level = step(whole_mass * cog_ahead / wheelbase, "level: moments about the rear axle")
    axle_step, pitch, front_ahead = _pitched(wheelbase, front_radius, rear_radius, raise_height)
    front_raised = step(
        whole_mass * (cog_ahead * cos(pitch) - (cog_up - rear_radius) * sin(pitch)) / front_ahead,
        "pitched: moments about the rear tyres",
    )
    return WeighingOfCog(front_level, axle_step, pitch, front_ahead, front_raised)


@formula(
    source="definition of the centre of gravity",
    error="exact; carries every error of the other lumps' masses and heights, enlarged by whole "
    "mass over chassis mass",
)
def chassis_by_weighing(
    *, whole_mass: Real, cog_up: Real, rest_mass: Real, rest_moment: Real
) -> ChassisByWeighing:
    """Height of the chassis that makes the whole machine's come out so."""
    chassis_height = step(
        (whole_mass * cog_up - rest_moment) / (whole_mass - rest_mass),
        "what the other lumps leave of the whole's moment, over what they leave of its mass",
    )
    return ChassisByWeighing(chassis_height)
