"""Density of wood and bark, by moisture."""

from __future__ import annotations

import sympy as sp

from liftcalc.derivations.formula import Formula, Step, Word
from liftcalc.derivations.timber_shape import VOLUME

GRAVITY = Word(
    name="basic_gravity",
    letter="G_b",
    unit="-",
    meaning="basic specific gravity of the wood: dry mass over green volume, water being 1",
)
MOISTURE = Word(name="moisture", letter="M", unit="-", meaning="water over dry mass of the wood")
CELL_WALL = Word(
    name="cell_wall_gravity", letter="G_0", unit="-", meaning="specific gravity of wood substance"
)
CEILING = Word(
    name="moisture_ceiling", letter=r"M_{\max}", unit="-", meaning="most moisture the wood can hold"
)
FIBRE = Word(
    name="fibre_saturation", letter="M_f", unit="-", meaning="moisture below which wood shrinks"
)
SHRINKAGE = Word(
    name="shrinkage", letter="S", unit="-", meaning="volume lost by shrinking over green volume"
)
SHRUNKEN = Word(
    name="shrunken_gravity",
    letter="G_M",
    unit="-",
    meaning="dry mass over the volume at the present moisture, water being 1",
)
OPEN_DENSITY = Word(
    name="open_density", letter=r"\rho_M", unit="kg/m³", meaning="density by moisture, no ceiling"
)
SATURATED = Word(
    name="saturated_density", letter=r"\rho_s", unit="kg/m³", meaning="density with every pore full"
)
WOOD = Word(name="wood_density", letter=r"\rho_w", unit="kg/m³", meaning="density of the wood")

HANDBOOK = "Wood Handbook, FPL-GTR-190 (2010), chapter 4"
G, M, G0, MF = GRAVITY.symbol, MOISTURE.symbol, CELL_WALL.symbol, FIBRE.symbol
CELL_WALL_STEP = Step(
    word=CELL_WALL, expression=sp.Float("1.54", 3), why="specific gravity of wood substance"
)
_CEILING = 1 / G - 1 / G0
CEILING_STEP = Step(
    word=CEILING, expression=_CEILING, why="the pores are what the substance leaves free"
)
SATURATED_STEP = Step(
    word=SATURATED,
    expression=1000 * G * (1 + CEILING.symbol),
    why="density of the wood when it holds all the water it can",
)
_SATURATED_CLOSED = 1000 * (1 + G * (1 - 1 / G0))

SATURATED_DENSITY = Formula(
    name="saturated_density",
    title="Density of saturated wood",
    given=(GRAVITY,),
    steps=(CELL_WALL_STEP, CEILING_STEP, SATURATED_STEP),
    source=f"{HANDBOOK}, eq. 4-3",
    error="an upper bound of the density of wood of this basic gravity",
    # Put in before the numbers are, so that the proof is of letters.
    proofs=(
        sp.simplify(1000 * G * (1 + _CEILING) - _SATURATED_CLOSED),
        sp.simplify(_CEILING - (G0 - G) / (G0 * G)),
    ),
)

WOOD_DENSITY = Formula(
    name="wood_density",
    title="Density of wood by its moisture",
    given=(GRAVITY, MOISTURE),
    steps=(
        Step(word=FIBRE, expression=sp.Float("0.3", 1), why="wood shrinks below this moisture"),
        Step(
            word=SHRINKAGE,
            expression=sp.Float("0.265", 3) * G * sp.Max(0, 1 - M / MF),
            why="loss of volume below fibre saturation, none above it",
        ),
        Step(
            word=SHRUNKEN,
            expression=G / (1 - SHRINKAGE.symbol),
            why="a log taped when dry has shrunk: the same dry mass stands in less volume",
        ),
        Step(
            word=OPEN_DENSITY,
            expression=1000 * SHRUNKEN.symbol * (1 + M),
            why="dry mass and water together",
        ),
        CELL_WALL_STEP,
        CEILING_STEP,
        SATURATED_STEP,
        Step(
            word=WOOD,
            expression=sp.Min(OPEN_DENSITY.symbol, SATURATED.symbol),
            why="never more than saturated",
        ),
    ),
    source=f"{HANDBOOK}, eq. 4-3, 4-13 and 4-14",
    error=(
        "none from the rule above 30 % moisture; below it the volume is taken as measured on the "
        "dry log, which overstates one measured green and dried since"
    ),
)

Z = Word(name="upper_point", letter="z", unit="-", meaning="95 % point of the normal distribution")
GRAVITY_SPREAD = Word(
    name="gravity_spread", letter=r"\sigma_G", unit="-", meaning="one sigma of the basic gravity"
)
UPPER_GRAVITY = Word(
    name="upper_gravity", letter="G_b^+", unit="-", meaning="upper 95 % value of the basic gravity"
)
DENSEST = Word(
    name="densest_wood_density",
    letter=r"\rho_s^+",
    unit="kg/m³",
    meaning="saturated density of the upper basic gravity",
)
Z_STEP = Step(
    word=Z, expression=sp.Float("1.645", 4), why="one log in twenty lies beyond, on that side"
)
DENSEST_WOOD = Formula(
    name="densest_wood",
    title="The densest that wood of this species can be",
    given=(GRAVITY, GRAVITY_SPREAD),
    steps=(
        Z_STEP,
        Step(
            word=UPPER_GRAVITY,
            expression=G * (1 + Z.symbol * GRAVITY_SPREAD.symbol),
            why="the basic gravity itself varies from tree to tree",
        ),
        CELL_WALL_STEP,
        Step(
            word=DENSEST,
            expression=_SATURATED_CLOSED.subs(G, UPPER_GRAVITY.symbol),
            why="every pore of that wood full of water",
        ),
    ),
    source=f"{HANDBOOK}, eq. 4-3",
    error="overstates the density of any wood but the densest and wettest of the species",
)

BARK_SHARE = Word(
    name="bark_share", letter="b", unit="-", meaning="volume of bark over volume of wood"
)
BARK_GRAVITY = Word(
    name="bark_gravity", letter="G_k", unit="-", meaning="basic specific gravity of the bark"
)
BARK_MOISTURE = Word(
    name="bark_moisture", letter="M_k", unit="-", meaning="water over dry mass of the bark"
)
BARK_DENSITY = Word(
    name="bark_density", letter=r"\rho_k", unit="kg/m³", meaning="density of the bark"
)
BARK_MASS = Word(
    name="bark_mass", letter="m_k", unit="kg", meaning="mass of bark not in the measured volume"
)
BLEND = Word(
    name="blend_density", letter=r"\rho_b", unit="kg/m³", meaning="wood and bark, over all volume"
)
OVER_BARK = Word(
    name="over_bark_density",
    letter=r"\rho_o",
    unit="kg/m³",
    meaning="density that goes with a volume over bark",
)
BARK_DENSITY_STEP = Step(
    word=BARK_DENSITY,
    expression=1000 * BARK_GRAVITY.symbol * (1 + BARK_MOISTURE.symbol),
    why="dry bark and its water",
)
BARK_SOURCE = "Miles & Smith 2009 (USDA NRS-38) define the three bark figures"
BARK_UNDER = Formula(
    name="bark_under",
    title="Mass of the bark of a log measured under bark",
    given=(VOLUME, BARK_SHARE, BARK_GRAVITY, BARK_MOISTURE),
    steps=(
        BARK_DENSITY_STEP,
        Step(
            word=BARK_MASS,
            expression=VOLUME.symbol * BARK_SHARE.symbol * BARK_DENSITY.symbol,
            why="bark volume as a share of the wood's",
        ),
    ),
    source=BARK_SOURCE,
    error="overstates a log that has been peeled or has lost bark",
)
OVER_BARK_BLEND = Formula(
    name="over_bark_blend",
    title="Density of a log measured over bark",
    given=(WOOD, BARK_SHARE, BARK_GRAVITY, BARK_MOISTURE),
    steps=(
        BARK_DENSITY_STEP,
        Step(
            word=BLEND,
            expression=(WOOD.symbol + BARK_SHARE.symbol * BARK_DENSITY.symbol)
            / (1 + BARK_SHARE.symbol),
            why="wood and bark shared over the volume of both",
        ),
        Step(
            word=OVER_BARK,
            expression=sp.Max(WOOD.symbol, BLEND.symbol),
            why="light bark earns no benefit, dense bark counts",
        ),
    ),
    source=BARK_SOURCE,
    error="overstates where the bark is lighter than the wood; never understates for the bark",
)

FORMULAS = (SATURATED_DENSITY, WOOD_DENSITY, DENSEST_WOOD, BARK_UNDER, OVER_BARK_BLEND)
