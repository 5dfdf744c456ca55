"""Mass of a log: low, likely and the one to plan on."""

from __future__ import annotations

from collections import namedtuple

from liftcalc.physics.formula import formula, step
from liftcalc.physics.formulas.timber_density import upper_point
from liftcalc.physics.functions import Real, circle_diameter, maximum, minimum, ratio, sqrt

VolumeDoubt = namedtuple("VolumeDoubt", "equivalent_diameter volume_spread")
LikelyLog = namedtuple("LikelyLog", "stem_mass likely_mass")
LowLog = namedtuple("LowLog", "upper_point mass_spread low_guess low_stem_mass low_mass")
PlanningLog = namedtuple(
    "PlanningLog", "upper_point mass_spread upper_volume high_guess high_stem_mass planning_mass"
)

WeighedLog = namedtuple("WeighedLog", "likely_mass low_mass planning_mass")

SMALL_ERRORS = "propagation of small errors, normal distribution"


@formula(
    source="propagation of small errors",
    error="overstates the spread where the errors of the tapes differ; length taken as exact",
)
def volume_doubt(
    *, volume: Real, log_length: Real, diameter_error: Real, shape_spread: Real
) -> VolumeDoubt:
    """How far the volume may be out."""
    equivalent_diameter = step(
        circle_diameter(volume / log_length), "one diameter to stand for all that were taped"
    )
    volume_spread = step(
        sqrt(ratio(2 * diameter_error, equivalent_diameter) ** 2 + shape_spread**2),
        "volume goes as the square of the diameter; all tapes taken to err together",
    )
    return VolumeDoubt(equivalent_diameter, volume_spread)


def _mass_spread(density_spread: Real, volume_spread: Real) -> Real:
    return step(sqrt(density_spread**2 + volume_spread**2), "density and volume err independently")


@formula(source="mass = volume × density", error="that of its volume and density")
def likely_log(
    *, volume: Real, likely_density: Real, bark_mass: Real, added_share: Real, added_mass: Real
) -> LikelyLog:
    """Likely mass of the log."""
    stem = step(volume * likely_density + bark_mass, "wood and bark")
    likely = step(stem * (1 + added_share) + added_mass, "with what sticks to it or grows on it")
    return LikelyLog(stem, likely)


@formula(
    source=SMALL_ERRORS, error="for information only; no lift may count on a log being this light"
)
def low_log(
    *,
    volume: Real,
    likely_density: Real,
    bark_mass: Real,
    added_share: Real,
    added_mass: Real,
    volume_spread: Real,
    density_spread: Real,
    guess_spread: Real,
) -> LowLog:
    """Low mass of the log."""
    point = upper_point()
    spread = _mass_spread(density_spread, volume_spread)
    guess = step(1 - point * guess_spread, "lower 5 % of a guess")
    stem = step(
        volume * likely_density * (1 - point * spread) + bark_mass * guess,
        "lower 5 % value: nineteen logs in twenty are heavier",
    )
    low = step(
        stem * (1 + added_share * guess) + added_mass * guess, "with the extras at their low value"
    )
    return LowLog(point, spread, guess, stem, low)


@formula(source=SMALL_ERRORS, error="overstates nineteen logs in twenty")
def planning_log(
    *,
    volume: Real,
    likely_density: Real,
    high_density: Real,
    densest_density: Real,
    bark_mass: Real,
    added_share: Real,
    added_mass: Real,
    volume_spread: Real,
    density_spread: Real,
    guess_spread: Real,
) -> PlanningLog:
    """Mass to plan the lift on."""
    point = upper_point()
    spread = _mass_spread(density_spread, volume_spread)
    upper_volume = step(volume * (1 + point * volume_spread), "upper 95 % value of the volume")
    guess = step(1 + point * guess_spread, "upper 95 % of a guess")
    stem = step(
        minimum(
            maximum(volume * likely_density * (1 + point * spread), upper_volume * high_density),
            upper_volume * densest_density,
        )
        + bark_mass * guess,
        "upper 95 % value, at least what the sources report, at most saturated",
    )
    planning = step(
        stem * (1 + added_share * guess) + added_mass * guess, "with the extras at their high value"
    )
    return PlanningLog(point, spread, upper_volume, guess, stem, planning)


@formula(source="a scale's reading and its tolerance", error="that of the tolerance told")
def weighed_log(*, scale_reading: Real, scale_tolerance: Real) -> WeighedLog:
    """Mass of a log that was weighed."""
    likely = step(scale_reading, "weighed beats taped")
    low = step(maximum(scale_reading - scale_tolerance, 0.0), "as light as the scale allows")
    planning = step(scale_reading + scale_tolerance, "as heavy as the scale allows")
    return WeighedLog(likely, low, planning)
