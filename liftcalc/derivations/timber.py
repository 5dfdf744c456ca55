"""Volume, balance and density of a log."""

from __future__ import annotations

import sympy as sp

from liftcalc.derivations.formula import Formula, Step, Word

BUTT = Word(name="butt_diameter", letter="d_0", unit="m", meaning="diameter at the butt")
MIDDLE = Word(name="middle_diameter", letter="d_m", unit="m", meaning="diameter at mid length")
TOP = Word(name="top_diameter", letter="d_1", unit="m", meaning="diameter at the top end")
LENGTH = Word(name="log_length", letter="L", unit="m", meaning="length of the log")
BUTT_AREA = Word(name="butt_area", letter="A_0", unit="m²", meaning="section at the butt")
MIDDLE_AREA = Word(name="middle_area", letter="A_m", unit="m²", meaning="section at mid length")
TOP_AREA = Word(name="top_area", letter="A_1", unit="m²", meaning="section at the top end")
VOLUME = Word(name="volume", letter="V", unit="m³", meaning="volume of the log")


def area(diameter: Word) -> sp.Expr:
    """Area of a circle."""
    return sp.pi * diameter.symbol**2 / 4


SECTIONS = (
    Step(word=BUTT_AREA, expression=area(BUTT), why="section at the butt, taken as a circle"),
    Step(word=MIDDLE_AREA, expression=area(MIDDLE), why="section at mid length"),
    Step(word=TOP_AREA, expression=area(TOP), why="section at the top end"),
)
A0, AM, A1, L = BUTT_AREA.symbol, MIDDLE_AREA.symbol, TOP_AREA.symbol, LENGTH.symbol

NEWTON_VOLUME = Formula(
    name="newton_volume",
    title="Volume of a log from three diameters",
    given=(BUTT, MIDDLE, TOP, LENGTH),
    steps=(
        *SECTIONS,
        Step(
            word=VOLUME,
            expression=L / 6 * (A0 + 4 * AM + A1),
            why="Newton's rule: exact where the section varies as a cubic of the length or less",
        ),
    ),
    source="Newton's (prismoidal) rule, any text on forest measurement",
    error="exact for cylinder, cone, paraboloid and neiloid; of either sign on an uneven stem",
)

FORMULAS = (NEWTON_VOLUME,)
