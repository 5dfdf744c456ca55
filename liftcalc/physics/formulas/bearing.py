"""What ground carries under a pad, and what a tyre carries in a shallow rut."""

from __future__ import annotations

from collections import namedtuple

from liftcalc.physics.formula import formula, step
from liftcalc.physics.functions import Real, exp, maximum, pi_beside, power, sin, tan

BearingOfClay = namedtuple("BearingOfClay", "bearing_number ultimate_pressure")
BearingOfSand = namedtuple(
    "BearingOfSand", "surcharge_number weight_number pad_shape level_factor ultimate_pressure"
)
PadPressure = namedtuple("PadPressure", "pad_pressure")
ForceByProof = namedtuple("ForceByProof", "force_by_proof")
TyreInRut = namedtuple("TyreInRut", "tyre_deflection mobility_number tyre_load")

UPRIGHT = "a level share of the force up to a third; beyond it understates"


@formula(
    source="EN 1997-1 annex D.3, undrained, with no soil beside the pad (from memory); the level "
    "share put in at failure",
    error="understates a pad that has sunk in; exact for " + UPRIGHT,
)
def bearing_of_clay(
    *, shear_strength: Real, pad_width: Real, pad_length: Real, level_share: Real
) -> BearingOfClay:
    """Pressure at which soil that holds its water gives way under a pad on its surface."""
    number = step(
        (pi_beside(shear_strength) + 2) * (1 + pad_width / (5 * pad_length)),
        "a strip breaks out at (π + 2) times the shear strength, a square at 1.2 times that",
    )
    ultimate = step(
        maximum(number * (1 - level_share * number / 4), 0.0) * shear_strength,
        "a force that leans has less left: inclination factor ½(1 + √(1 − H/(A·c))), solved for "
        "the pressure at which it gives way",
    )
    return BearingOfClay(number, ultimate)


@formula(
    source="EN 1997-1 annex D.4, drained, with no soil beside the pad (from memory); inclination "
    "with its greatest exponent, of a strip",
    error="understates a pad that has sunk in, and a square one under a force that leans",
)
def bearing_of_sand(
    *, friction_angle: Real, soil_weight: Real, pad_width: Real, pad_length: Real, level_share: Real
) -> BearingOfSand:
    """Pressure at which sand or gravel gives way under a pad on its surface."""
    turn = tan(friction_angle)
    surcharge = step(
        exp(pi_beside(friction_angle) * turn)
        * (1 + sin(friction_angle))
        / (1 - sin(friction_angle)),
        "what soil beside the pad would count for; the fraction is tan²(45° + φ/2)",
    )
    number = step(
        2 * (surcharge - 1) * turn, "what the weight of the soil under the pad counts for"
    )
    shape = step(1 - 3 * pad_width / (10 * pad_length), "0.7 for a square")
    leans = step(
        maximum(1 - level_share, 0.0) ** 3, "a force that leans pushes less soil to the side"
    )
    ultimate = step(
        soil_weight * pad_width * number * shape * leans / 2, "it grows with the width of the pad"
    )
    return BearingOfSand(surcharge, number, shape, leans, ultimate)


@formula(
    source="working-platform practice uses 1.5 to 2 (from memory); 2 at the careful end, 1 at the "
    "favourable one",
    error="none of its own",
)
def pad_pressure(*, ultimate_pressure: Real, bearing_factor: Real) -> PadPressure:
    """Pressure allowed under a pad that stands for minutes."""
    return PadPressure(step(ultimate_pressure / bearing_factor, "the explicit factor"))


@formula(
    source="common practice, no source: 1.25",
    error="understates where the pad stood longer or under more; overstates after rain, and at "
    "another place or pad: it is proved there no longer",
)
def force_by_proof(*, proved_force: Real, proof_factor: Real) -> ForceByProof:
    """Force allowed under a pad that stood under a proved one for minutes and did not sink."""
    return ForceByProof(step(proved_force / proof_factor, "less than it stood under"))


@formula(
    source="rut depth by mobility number of MacLaurin 1990, z/d = 0.224/N^1.25, as soil models of "
    "forestry quote it (from memory)",
    error="an average of trials, of either sign: both ends of rut and strength are put in; drawn "
    "from soils that hold water, taken for sand and gravel too",
)
def tyre_in_rut(
    *,
    cone_index: Real,
    tyre_width: Real,
    tyre_diameter: Real,
    contact_length: Real,
    rut_depth: Real,
) -> TyreInRut:
    """Load under which a tyre makes a rut so deep."""
    deflection = step(
        contact_length**2 / (4 * tyre_diameter), "a chord of the tyre, as long as it bears"
    )
    number = step(
        power(0.224 * tyre_diameter / rut_depth, 0.8),
        "the least mobility number that keeps the rut",
    )
    load = step(
        cone_index * power(tyre_width * tyre_diameter, 0.8) * power(deflection, 0.4) / number,
        "N = C·b^0.8·d^0.8·δ^0.4/W",
    )
    return TyreInRut(deflection, number, load)
