"""Slings and chain, and how a log hangs in them."""

from __future__ import annotations

from collections import namedtuple

from liftcalc.physics.formula import formula, step
from liftcalc.physics.functions import Real, asin, atan2, circumference, cos, minimum, ratio, tan

SizedLeg = namedtuple("SizedLeg", "single_leg")
SlungLeg = namedtuple("SlungLeg", "sling_capacity")
TaggedLeg = namedtuple("TaggedLeg", "single_leg")
BasketAngle = namedtuple("BasketAngle", "basket_half_angle")
Basket = namedtuple("Basket", "basket_factor basket_capacity")
LegShares = namedtuple("LegShares", "larger_share")
Legs = namedtuple("Legs", "leg_factor")
LegAngle = namedtuple("LegAngle", "free_leg included_angle")
TwoLegs = namedtuple("TwoLegs", "leg_factor legs_worth two_leg_capacity")
PartOnLeg = namedtuple("PartOnLeg", "part_capacity")
LegTension = namedtuple("LegTension", "leg_tension")
TwoPointShares = namedtuple("TwoPointShares", "mass_on_one mass_on_two")
OffBalance = namedtuple("OffBalance", "hang_angle")
LevelMiss = namedtuple("LevelMiss", "balance_miss")

HANGS = "exact for a sling that leaves the top of the log and does not slip"


@formula(
    source="Queensland doggers' guide",
    error="of sound gear, unworn and without kinks or knots; overstates what is left in worn gear",
)
def sized_leg(*, gear_size: Real, size_rule: Real) -> SizedLeg:
    """Working load limit of one straight leg by its size."""
    single_leg = step(
        size_rule * (1000 * gear_size) ** 2,
        "strength goes as the section, so as the size in millimetres, squared",
    )
    return SizedLeg(single_leg)


@formula(
    source="the factor's own source, see rigging.gear",
    error="of an angle of choke over 120°; overstates a choke that was beaten down",
)
def slung_leg(*, single_leg: Real, mode_factor: Real) -> SlungLeg:
    """Load that one sling holds as slung."""
    sling_capacity = step(
        mode_factor * single_leg, "a choke bends and squeezes the sling, so that less of it is left"
    )
    return SlungLeg(sling_capacity)


@formula(
    source="EN 818-4, marking of slings, from memory",
    error="understates a leg of a sling whose tag was rounded down",
)
def tagged_leg(*, sling_tag: Real, uniform_factor: Real) -> TaggedLeg:
    """Working load limit of one straight leg of a sling of two by its tag."""
    single_leg = step(
        sling_tag / uniform_factor,
        "the tag is that of the whole sling, which is so many straight legs by its uniform rating",
    )
    return TaggedLeg(single_leg)


@formula(
    source="geometry of a loop round a cylinder that hangs from one point",
    error="overstates below 60°, by which the load is understated by 4 % for a sling of five "
    "diameters and by 17 % at most; exact at 60°, and means nothing beyond",
)
def basket_angle(*, sling_length: Real, largest_diameter: Real) -> BasketAngle:
    """Half the angle between the two parts of a sling as a basket under a log."""
    half_angle = step(
        atan2(largest_diameter, sling_length - 5 * circumference(largest_diameter) / 6),
        "sling over diameter is 90° + φ + cot φ; φ itself is taken as 60°, which is more",
    )
    return BasketAngle(half_angle)


@formula(
    source="geometry; EN 818-4 and EN 1492, uniform rating, from memory",
    error="exact for parts that share alike",
)
def basket(
    *, single_leg: Real, basket_half_angle: Real, uniform_factor: Real, bend_factor: Real
) -> Basket:
    """Load that one sling holds as a basket under a log."""
    factor = step(
        minimum(2 * cos(basket_half_angle), uniform_factor),
        "two parts hold, each only with what of it points up, up to the uniform rating",
    )
    capacity = step(
        bend_factor * factor * single_leg, "each part holds as much as one straight leg, bent"
    )
    return Basket(factor, capacity)


@formula(
    source="statics",
    error="overstates: a log free to tip moves its balance point toward the other leg",
)
def leg_shares(*, leg_spread: Real, balance_miss: Real) -> LegShares:
    """Share of the leg that carries more."""
    larger_share = step(
        minimum(1, 0.5 + balance_miss / leg_spread),
        "moments about the other leg; with the balance point outside both, one carries all",
    )
    return LegShares(larger_share)


@formula(
    source="geometry; Queensland doggers' guide",
    error="exact for equal shares; not for use beyond 120°",
)
def legs(*, included_angle: Real) -> Legs:
    """Straight legs that two equal legs are worth."""
    return Legs(
        step(2 * cos(included_angle / 2), "two legs hold, each only with what of it points up")
    )


@formula(source="geometry", error="overstates the angle by taking the thickest part of the log")
def leg_angle(*, sling_length: Real, largest_diameter: Real, leg_spread: Real) -> LegAngle:
    """Angle between two legs, each choked round the log."""
    free_leg = step(
        sling_length - circumference(largest_diameter),
        "once round the thickest part of the log goes into the choke",
    )
    included_angle = step(
        2 * asin(ratio(leg_spread, 2 * free_leg)), "two equal legs and the log between them"
    )
    return LegAngle(free_leg, included_angle)


@formula(
    source="geometry; Queensland doggers' guide; EN 818-4, uniform rating, from memory",
    error="overstates the tension of the worse leg where the log is free to tip; not for use "
    "beyond 120°",
)
def two_legs(
    *,
    single_leg: Real,
    mode_factor: Real,
    included_angle: Real,
    larger_share: Real,
    uniform_factor: Real,
) -> TwoLegs:
    """Load that two legs hold, each choked round the log."""
    (leg_factor,) = legs(included_angle=included_angle)
    legs_worth = step(
        minimum(leg_factor / (2 * larger_share), uniform_factor),
        "the leg that carries more decides, up to the uniform rating",
    )
    capacity = step(mode_factor * single_leg * legs_worth, "each leg is choked")
    return TwoLegs(leg_factor, legs_worth, capacity)


@formula(source="statics", error="exact for the leg's share")
def part_on_leg(*, part_limit: Real, larger_share: Real, included_angle: Real) -> PartOnLeg:
    """Load that hangs on two legs when a part of the leg that carries more is at its limit."""
    return PartOnLeg(
        step(
            part_limit * cos(included_angle / 2) / larger_share,
            "a leg that leans is pulled by more than it carries",
        )
    )


@formula(source="statics", error="exact")
def leg_tension(*, hung_mass: Real, leg_share: Real, leg_lean: Real) -> LegTension:
    """Tension of a leg that leans."""
    tension = step(
        leg_share * hung_mass / cos(leg_lean),
        "what points up of the tension carries the leg's share",
    )
    return LegTension(tension)


@formula(
    source="statics",
    error="exact for a level log; one that slopes puts more on the lower carrier when held at its "
    "underside",
)
def two_point_shares(
    *, log_mass: Real, balance_from_butt: Real, at_one: Real, at_two: Real
) -> TwoPointShares:
    """What each of two carriers of a log holds."""
    mass_on_one = step(
        log_mass * (at_two - balance_from_butt) / (at_two - at_one),
        "moments about the second carrier",
    )
    mass_on_two = step(
        log_mass * (balance_from_butt - at_one) / (at_two - at_one),
        "moments about the first carrier",
    )
    return TwoPointShares(mass_on_one, mass_on_two)


@formula(source="statics", error=HANGS)
def off_balance(*, balance_miss: Real, hang_depth: Real) -> OffBalance:
    """Angle at which a log hangs that is slung off its balance point."""
    hang_angle = step(
        atan2(balance_miss, hang_depth), "it turns until its balance point is under the sling"
    )
    return OffBalance(hang_angle)


@formula(source="statics", error=HANGS)
def level_miss(*, hang_angle: Real, hang_depth: Real) -> LevelMiss:
    """How far from the balance point a log may be slung."""
    return LevelMiss(step(hang_depth * tan(hang_angle), "the hang angle turned round"))
