"""Density of wood and bark, by moisture."""

from __future__ import annotations

from collections import namedtuple

from liftcalc.physics.formula import formula, step
from liftcalc.physics.functions import Real, maximum, minimum

SaturatedDensity = namedtuple(
    "SaturatedDensity", "cell_wall_gravity moisture_ceiling saturated_density"
)
WoodDensity = namedtuple(
    "WoodDensity",
    "fibre_saturation shrinkage shrunken_gravity open_density cell_wall_gravity moisture_ceiling "
    "saturated_density wood_density",
)
DensestWood = namedtuple(
    "DensestWood", "upper_point upper_gravity cell_wall_gravity densest_wood_density"
)
BarkUnder = namedtuple("BarkUnder", "bark_density bark_mass")
OverBarkBlend = namedtuple("OverBarkBlend", "bark_density blend_density over_bark_density")

HANDBOOK = "Wood Handbook, FPL-GTR-190 (2010), chapter 4"
BARK = "Miles & Smith 2009 (USDA NRS-38) define the three bark figures"


def upper_point() -> Real:
    """95 % point of the normal distribution, as a step [-]."""
    return step(1.645, "one log in twenty lies beyond, on that side")


def _cell_wall() -> Real:
    return step(1.54, "specific gravity of wood substance")


@formula(
    source=f"{HANDBOOK}, eq. 4-3",
    error="an upper bound of the density of wood of this basic gravity",
)
def saturated_density(*, basic_gravity: Real) -> SaturatedDensity:
    """Density of saturated wood."""
    cell_wall = _cell_wall()
    ceiling = step(
        1 / basic_gravity - 1 / cell_wall, "the pores are what the substance leaves free"
    )
    density = step(
        1000 * basic_gravity * (1 + ceiling),
        "density of the wood when it holds all the water it can",
    )
    return SaturatedDensity(cell_wall, ceiling, density)


@formula(
    source=f"{HANDBOOK}, eq. 4-3, 4-13 and 4-14",
    error="none from the rule above 30 % moisture; below it the volume is taken as measured on the "
    "dry log, which overstates one measured green and dried since",
)
def wood_density(*, basic_gravity: Real, moisture: Real) -> WoodDensity:
    """Density of wood by its moisture."""
    fibre_saturation = step(0.3, "wood shrinks below this moisture")
    shrinkage = step(
        0.265 * basic_gravity * maximum(0, 1 - moisture / fibre_saturation),
        "loss of volume below fibre saturation, none above it",
    )
    shrunken_gravity = step(
        basic_gravity / (1 - shrinkage),
        "a log taped when dry has shrunk: the same dry mass stands in less volume",
    )
    open_density = step(1000 * shrunken_gravity * (1 + moisture), "dry mass and water together")
    saturated = saturated_density(basic_gravity=basic_gravity)
    density = step(minimum(open_density, saturated.saturated_density), "never more than saturated")
    return WoodDensity(
        fibre_saturation, shrinkage, shrunken_gravity, open_density, *saturated, density
    )


@formula(
    source=f"{HANDBOOK}, eq. 4-3",
    error="overstates the density of any wood but the densest and wettest of the species",
)
def densest_wood(*, basic_gravity: Real, gravity_spread: Real) -> DensestWood:
    """The densest that wood of this species can be."""
    point = upper_point()
    upper_gravity = step(
        basic_gravity * (1 + point * gravity_spread),
        "the basic gravity itself varies from tree to tree",
    )
    cell_wall = _cell_wall()
    density = step(
        1000 * (1 + upper_gravity * (1 - 1 / cell_wall)), "every pore of that wood full of water"
    )
    return DensestWood(point, upper_gravity, cell_wall, density)


def _bark_density(gravity: Real, moisture: Real) -> Real:
    return step(1000 * gravity * (1 + moisture), "dry bark and its water")


@formula(source=BARK, error="overstates a log that has been peeled or has lost bark")
def bark_under(
    *, volume: Real, bark_share: Real, bark_gravity: Real, bark_moisture: Real
) -> BarkUnder:
    """Mass of the bark of a log measured under bark."""
    bark_density = _bark_density(bark_gravity, bark_moisture)
    bark_mass = step(volume * bark_share * bark_density, "bark volume as a share of the wood's")
    return BarkUnder(bark_density, bark_mass)


@formula(
    source=BARK,
    error="overstates where the bark is lighter than the wood; never understates for the bark",
)
def over_bark_blend(
    *, wood_density: Real, bark_share: Real, bark_gravity: Real, bark_moisture: Real
) -> OverBarkBlend:
    """Density of a log measured over bark."""
    bark_density = _bark_density(bark_gravity, bark_moisture)
    blend = step(
        (wood_density + bark_share * bark_density) / (1 + bark_share),
        "wood and bark shared over the volume of both",
    )
    density = step(maximum(wood_density, blend), "light bark earns no benefit, dense bark counts")
    return OverBarkBlend(bark_density, blend, density)
