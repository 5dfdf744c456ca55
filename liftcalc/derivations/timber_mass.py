"""Mass of a log: low, likely and the one to plan on."""

from __future__ import annotations

import sympy as sp

from liftcalc.derivations.formula import Formula, Step, Word
from liftcalc.derivations.timber_density import BARK_MASS, Z_STEP, Z
from liftcalc.derivations.timber_shape import LENGTH, VOLUME

L = LENGTH.symbol
ERROR = Word(
    name="diameter_error", letter=r"\delta_d", unit="m", meaning="one sigma of a taped diameter"
)
SHAPE = Word(
    name="shape_spread", letter=r"\sigma_f", unit="-", meaning="one sigma of the volume rule"
)
EQUIVALENT = Word(
    name="equivalent_diameter",
    letter="d_e",
    unit="m",
    meaning="diameter of the cylinder of the same length and volume",
)
VOLUME_SPREAD = Word(
    name="volume_spread", letter=r"\sigma_V", unit="-", meaning="one sigma of the volume"
)
VOLUME_DOUBT = Formula(
    name="volume_doubt",
    title="How far the volume may be out",
    given=(VOLUME, LENGTH, ERROR, SHAPE),
    steps=(
        Step(
            word=EQUIVALENT,
            expression=sp.sqrt(4 * VOLUME.symbol / (sp.pi * L)),
            why="one diameter to stand for all that were taped",
        ),
        Step(
            word=VOLUME_SPREAD,
            expression=sp.sqrt((2 * ERROR.symbol / EQUIVALENT.symbol) ** 2 + SHAPE.symbol**2),
            why="volume goes as the square of the diameter; all tapes taken to err together",
        ),
    ),
    source="propagation of small errors",
    error="overstates the spread where the errors of the tapes differ; length taken as exact",
)

DENSITY = Word(
    name="likely_density", letter=r"\rho", unit="kg/m³", meaning="likely density of what was taped"
)
HIGH = Word(
    name="high_density",
    letter=r"\rho_h",
    unit="kg/m³",
    meaning="higher density that a source gives for the species, or the likely one",
)
CAP = Word(
    name="densest_density",
    letter=r"\rho_c",
    unit="kg/m³",
    meaning="density that what was taped cannot pass",
)
DENSITY_SPREAD = Word(
    name="density_spread", letter=r"\sigma_\rho", unit="-", meaning="one sigma of the density"
)
GUESS = Word(
    name="guess_spread", letter=r"\sigma_g", unit="-", meaning="one sigma of bark and extras"
)
SHARE = Word(
    name="added_share", letter="e", unit="-", meaning="extras stated as a share of the log's mass"
)
ADDED = Word(name="added_mass", letter="m_e", unit="kg", meaning="extras stated as a mass")
MASS_SPREAD = Word(
    name="mass_spread", letter=r"\sigma_m", unit="-", meaning="one sigma of volume × density"
)
UPPER_VOLUME = Word(
    name="upper_volume", letter="V^+", unit="m³", meaning="upper 95 % value of the volume"
)
STEM = Word(name="stem_mass", letter="m_s", unit="kg", meaning="wood and bark, without extras")
LOW_STEM = Word(name="low_stem_mass", letter="m_s^-", unit="kg", meaning="low stem mass")
HIGH_STEM = Word(name="high_stem_mass", letter="m_s^+", unit="kg", meaning="upper stem mass")
LOW_GUESS = Word(name="low_guess", letter="q^-", unit="-", meaning="factor on bark and extras, low")
HIGH_GUESS = Word(
    name="high_guess", letter="q^+", unit="-", meaning="factor on bark and extras, high"
)
LIKELY = Word(name="likely_mass", letter="m", unit="kg", meaning="likely mass of the log")
LOW = Word(name="low_mass", letter="m^-", unit="kg", meaning="low mass of the log")
PLANNING = Word(name="planning_mass", letter="m^+", unit="kg", meaning="mass to plan the lift on")

V, RHO, B = VOLUME.symbol, DENSITY.symbol, BARK_MASS.symbol
SPREAD_STEP = Step(
    word=MASS_SPREAD,
    expression=sp.sqrt(DENSITY_SPREAD.symbol**2 + VOLUME_SPREAD.symbol**2),
    why="density and volume err independently",
)
MASS_SOURCE = "propagation of small errors, normal distribution"
SPREADS = (VOLUME_SPREAD, DENSITY_SPREAD, GUESS)
LIKELY_LOG = Formula(
    name="likely_log",
    title="Likely mass of the log",
    given=(VOLUME, DENSITY, BARK_MASS, SHARE, ADDED),
    steps=(
        Step(word=STEM, expression=V * RHO + B, why="wood and bark"),
        Step(
            word=LIKELY,
            expression=STEM.symbol * (1 + SHARE.symbol) + ADDED.symbol,
            why="with what sticks to it or grows on it",
        ),
    ),
    source="mass = volume × density",
    error="that of its volume and density",
)
LOW_LOG = Formula(
    name="low_log",
    title="Low mass of the log",
    given=(VOLUME, DENSITY, BARK_MASS, SHARE, ADDED, *SPREADS),
    steps=(
        Z_STEP,
        SPREAD_STEP,
        Step(word=LOW_GUESS, expression=1 - Z.symbol * GUESS.symbol, why="lower 5 % of a guess"),
        Step(
            word=LOW_STEM,
            expression=V * RHO * (1 - Z.symbol * MASS_SPREAD.symbol) + B * LOW_GUESS.symbol,
            why="lower 5 % value: nineteen logs in twenty are heavier",
        ),
        Step(
            word=LOW,
            expression=LOW_STEM.symbol * (1 + SHARE.symbol * LOW_GUESS.symbol)
            + ADDED.symbol * LOW_GUESS.symbol,
            why="with the extras at their low value",
        ),
    ),
    source=MASS_SOURCE,
    error="for information only; no lift may count on a log being this light",
)
PLANNING_LOG = Formula(
    name="planning_log",
    title="Mass to plan the lift on",
    given=(VOLUME, DENSITY, HIGH, CAP, BARK_MASS, SHARE, ADDED, *SPREADS),
    steps=(
        Z_STEP,
        SPREAD_STEP,
        Step(
            word=UPPER_VOLUME,
            expression=V * (1 + Z.symbol * VOLUME_SPREAD.symbol),
            why="upper 95 % value of the volume",
        ),
        Step(word=HIGH_GUESS, expression=1 + Z.symbol * GUESS.symbol, why="upper 95 % of a guess"),
        Step(
            word=HIGH_STEM,
            expression=sp.Min(
                sp.Max(
                    V * RHO * (1 + Z.symbol * MASS_SPREAD.symbol), UPPER_VOLUME.symbol * HIGH.symbol
                ),
                UPPER_VOLUME.symbol * CAP.symbol,
            )
            + B * HIGH_GUESS.symbol,
            why="upper 95 % value, at least what the sources report, at most saturated",
        ),
        Step(
            word=PLANNING,
            expression=HIGH_STEM.symbol * (1 + SHARE.symbol * HIGH_GUESS.symbol)
            + ADDED.symbol * HIGH_GUESS.symbol,
            why="with the extras at their high value",
        ),
    ),
    source=MASS_SOURCE,
    error="overstates nineteen logs in twenty",
)

FORMULAS = (VOLUME_DOUBT, LIKELY_LOG, LOW_LOG, PLANNING_LOG)
