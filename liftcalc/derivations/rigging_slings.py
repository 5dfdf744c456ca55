"""Slings and chain, and how a log hangs in them."""

from __future__ import annotations

import sympy as sp

from liftcalc.derivations.formula import Formula, Step, Word
from liftcalc.derivations.timber_shape import BALANCE, LOG_MASS

SIZE = Word(
    name="gear_size", letter="d_g", unit="m", meaning="diameter of a chain's bar or of a rope"
)
RULE = Word(
    name="size_rule", letter="c_g", unit="kg/mm²", meaning="load for a square millimetre of size²"
)
SINGLE = Word(
    name="single_leg", letter="m_1", unit="kg", meaning="working load limit of one straight leg"
)
SIZED_LEG = Formula(
    name="sized_leg",
    title="Working load limit of one straight leg by its size",
    given=(SIZE, RULE),
    steps=(
        Step(
            word=SINGLE,
            expression=RULE.symbol * (1000 * SIZE.symbol) ** 2,
            why="strength goes as the section, so as the size in millimetres, squared",
        ),
    ),
    source="Queensland doggers' guide",
    error="of sound gear, unworn and without kinks or knots; overstates what is left in worn gear",
)

MODE = Word(
    name="mode_factor", letter="f_m", unit="-", meaning="share of a straight leg that is left"
)
SLUNG = Word(
    name="sling_capacity", letter="m_S", unit="kg", meaning="load that the sling holds as slung"
)
SLUNG_LEG = Formula(
    name="slung_leg",
    title="Load that one sling holds as slung",
    given=(SINGLE, MODE),
    steps=(
        Step(
            word=SLUNG,
            expression=MODE.symbol * SINGLE.symbol,
            why="a choke bends and squeezes the sling, so that less of it is left",
        ),
    ),
    source="the factor's own source, see rigging.gear",
    error="of an angle of choke over 120°; overstates a choke that was beaten down",
)

SLING_LENGTH = Word(
    name="sling_length", letter=r"\ell_s", unit="m", meaning="length of the sling or of one leg"
)
THICKEST = Word(
    name="largest_diameter", letter="D_L", unit="m", meaning="largest diameter of the log"
)
BASKET_HALF = Word(
    name="basket_half_angle",
    letter=r"\beta_b",
    unit="rad",
    meaning="half the angle between the two parts of a basket, from above",
)
BASKET_FACTOR = Word(
    name="basket_factor", letter="f_b", unit="-", meaning="straight legs that a basket is worth"
)
BASKET_CAPACITY = Word(
    name="basket_capacity", letter="m_B", unit="kg", meaning="load that a basket holds"
)
BASKET = Formula(
    name="basket",
    title="Load that one sling holds as a basket under a log",
    given=(SINGLE, SLING_LENGTH, THICKEST),
    steps=(
        Step(
            word=BASKET_HALF,
            expression=sp.atan2(
                THICKEST.symbol, SLING_LENGTH.symbol - sp.Rational(5, 6) * sp.pi * THICKEST.symbol
            ),
            why="sling over diameter is 90° + φ + cot φ; φ itself is taken as 60°, which is more",
        ),
        Step(
            word=BASKET_FACTOR,
            expression=2 * sp.cos(BASKET_HALF.symbol),
            why="two parts hold, each only with what of it points up",
        ),
        Step(
            word=BASKET_CAPACITY,
            expression=BASKET_FACTOR.symbol * SINGLE.symbol,
            why="each part holds as much as one straight leg",
        ),
    ),
    source="geometry of a loop round a cylinder that hangs from one point",
    error="overstates the angle below 60° and is exact there; the load is understated by 4 % for a "
    "sling of five diameters, by 17 % at most; means something up to 60° only; rope bent round a "
    "thin log holds less",
)

SPREAD = Word(name="leg_spread", letter="w_s", unit="m", meaning="two legs apart along the log")
MISS = Word(
    name="balance_miss",
    letter="e_m",
    unit="m",
    meaning="how far the balance point lies from where it was aimed",
)
LARGER = Word(
    name="larger_share", letter="s_1", unit="-", meaning="share of the leg that carries more"
)
LEG_SHARES = Formula(
    name="leg_shares",
    title="Share of the leg that carries more",
    given=(SPREAD, MISS),
    steps=(
        Step(
            word=LARGER,
            expression=sp.Min(1, sp.Rational(1, 2) + MISS.symbol / SPREAD.symbol),
            why="moments about the other leg; with the balance point outside both, one carries all",
        ),
    ),
    source="statics",
    error="overstates: a log free to tip moves its balance point toward the other leg",
)

FREE = Word(
    name="free_leg", letter=r"\ell_f", unit="m", meaning="what a choke leaves of a leg's length"
)
INCLUDED = Word(
    name="included_angle", letter=r"\theta_s", unit="rad", meaning="angle between two legs"
)
LEG_FACTOR = Word(
    name="leg_factor", letter=r"f_\ell", unit="-", meaning="straight legs that two legs are worth"
)
TWO_LEG = Word(
    name="two_leg_capacity", letter="m_{2}", unit="kg", meaning="load that two legs hold"
)
FACTOR_STEP = Step(
    word=LEG_FACTOR,
    expression=2 * sp.cos(INCLUDED.symbol / 2),
    why="two legs hold, each only with what of it points up",
)
LEGS = Formula(
    name="legs",
    title="Straight legs that two equal legs are worth",
    given=(INCLUDED,),
    steps=(FACTOR_STEP,),
    source="geometry; Queensland doggers' guide",
    error="exact for equal shares; not for use beyond 120°",
)
TWO_LEGS = Formula(
    name="two_legs",
    title="Load that two legs hold, each choked round the log",
    given=(SINGLE, MODE, SLING_LENGTH, THICKEST, SPREAD, LARGER),
    steps=(
        Step(
            word=FREE,
            expression=SLING_LENGTH.symbol - sp.pi * THICKEST.symbol,
            why="once round the thickest part of the log goes into the choke",
        ),
        Step(
            word=INCLUDED,
            expression=2 * sp.asin(SPREAD.symbol / (2 * FREE.symbol)),
            why="two equal legs and the log between them",
        ),
        FACTOR_STEP,
        Step(
            word=TWO_LEG,
            expression=MODE.symbol * SINGLE.symbol * LEG_FACTOR.symbol / (2 * LARGER.symbol),
            why="the leg that carries more decides; with equal shares both count in full",
        ),
    ),
    source="geometry; Queensland doggers' guide",
    error="overstates the angle by taking the thickest part; overstates the tension of the worse "
    "leg where the log is free to tip; not for use beyond 120°",
    # At the capacity the worse leg has just the tension that a choked leg may have.
    proofs=(
        LARGER.symbol * TWO_LEG.symbol / sp.cos(INCLUDED.symbol / 2) - MODE.symbol * SINGLE.symbol,
    ),
)

HUNG = Word(name="hung_mass", letter="m_W", unit="kg", meaning="mass that hangs on the legs")
CARRIED = Word(
    name="leg_share", letter=r"s_\ell", unit="-", meaning="share of the weight on one leg"
)
LEAN = Word(name="leg_lean", letter=r"\alpha_\ell", unit="rad", meaning="leg off the plumb line")
TENSION = Word(
    name="leg_tension",
    letter=r"T_\ell",
    unit="kg",
    meaning="tension of a leg, as the mass that it would hold straight",
)
LEG_TENSION = Formula(
    name="leg_tension",
    title="Tension of a leg that leans",
    given=(HUNG, CARRIED, LEAN),
    steps=(
        Step(
            word=TENSION,
            expression=CARRIED.symbol * HUNG.symbol / sp.cos(LEAN.symbol),
            why="what points up of the tension carries the leg's share",
        ),
    ),
    source="statics",
    error="exact",
)

FIRST, SECOND = (
    Word(name=f"{order}_offset", letter=f"a_{n}", unit="m",
         meaning=f"foot of the {order} leg from the plumb line, along the level")
    for order, n in (("first", 1), ("second", 2))
)  # fmt: skip
ABOVE = Word(name="hook_height", letter="h_k", unit="m", meaning="hook above the feet of the legs")
FIRST_TENSION, SECOND_TENSION = (
    Word(name=f"{order}_tension", letter=f"T_{n}", unit="kg",
         meaning=f"tension of the {order} leg, as the mass that it would hold straight")
    for order, n in (("first", 1), ("second", 2))
)  # fmt: skip
_a, _b, _h, _W = FIRST.symbol, SECOND.symbol, ABOVE.symbol, HUNG.symbol
UNEQUAL_LEGS = Formula(
    name="unequal_legs",
    title="Tension of two legs with the balance point off their middle",
    given=(HUNG, FIRST, SECOND, ABOVE),
    steps=(
        Step(
            word=FIRST_TENSION,
            expression=_W * _b / (_a + _b) * sp.sqrt(_a**2 + _h**2) / _h,
            why="moments about the second leg's foot, then along the leg",
        ),
        Step(
            word=SECOND_TENSION,
            expression=_W * _a / (_a + _b) * sp.sqrt(_b**2 + _h**2) / _h,
            why="moments about the first leg's foot, then along the leg",
        ),
    ),
    source="statics",
    error="exact for a load that hangs level with its balance point under the hook",
    proofs=(
        # Level pulls cancel; upward pulls carry the weight.
        FIRST_TENSION.symbol * _a / sp.sqrt(_a**2 + _h**2)
        - SECOND_TENSION.symbol * _b / sp.sqrt(_b**2 + _h**2),
        FIRST_TENSION.symbol * _h / sp.sqrt(_a**2 + _h**2)
        + SECOND_TENSION.symbol * _h / sp.sqrt(_b**2 + _h**2)
        - _W,
    ),
)

AT_ONE, AT_TWO = (
    Word(name=f"at_{number}", letter=f"x_{n}", unit="m",
         meaning=f"{order} carrier, along the log from its butt")
    for number, order, n in (("one", "first", 1), ("two", "second", 2))
)  # fmt: skip
ON_ONE, ON_TWO = (
    Word(name=f"mass_on_{number}", letter=f"m_{{c{n}}}", unit="kg",
         meaning=f"mass that the {order} carrier holds")
    for number, order, n in (("one", "first", 1), ("two", "second", 2))
)  # fmt: skip
_x, _x1, _x2, _m = BALANCE.symbol, AT_ONE.symbol, AT_TWO.symbol, LOG_MASS.symbol
TWO_POINT_SHARES = Formula(
    name="two_point_shares",
    title="What each of two carriers of a log holds",
    given=(LOG_MASS, BALANCE, AT_ONE, AT_TWO),
    steps=(
        Step(
            word=ON_ONE,
            expression=_m * (_x2 - _x) / (_x2 - _x1),
            why="moments about the second carrier",
        ),
        Step(
            word=ON_TWO,
            expression=_m * (_x - _x1) / (_x2 - _x1),
            why="moments about the first carrier",
        ),
    ),
    source="statics",
    error="exact for a level log; one that slopes puts more on the lower carrier when held at its "
    "underside",
    proofs=(
        ON_ONE.symbol + ON_TWO.symbol - _m,
        ON_ONE.symbol * _x1 + ON_TWO.symbol * _x2 - _m * _x,
    ),
)

DEPTH = Word(
    name="hang_depth",
    letter="h_G",
    unit="m",
    meaning="balance point below the point about which the log turns",
)
HANG = Word(
    name="hang_angle", letter=r"\theta_h", unit="rad", meaning="log off the level as it hangs"
)
OFF_BALANCE = Formula(
    name="off_balance",
    title="Angle at which a log hangs that is slung off its balance point",
    given=(MISS, DEPTH),
    steps=(
        Step(
            word=HANG,
            expression=sp.atan2(MISS.symbol, DEPTH.symbol),
            why="it turns until its balance point is under the sling",
        ),
    ),
    source="statics",
    error="exact for a sling that leaves the top of the log and does not slip",
)
LEVEL_MISS = Formula(
    name="level_miss",
    title="How far from the balance point a log may be slung",
    given=(HANG, DEPTH),
    steps=(
        Step(
            word=MISS,
            expression=DEPTH.symbol * sp.tan(HANG.symbol),
            why="the hang angle turned round",
        ),
    ),
    source="statics",
    error="exact for a sling that leaves the top of the log and does not slip",
    proofs=(sp.tan(sp.atan(MISS.symbol / DEPTH.symbol)) * DEPTH.symbol - MISS.symbol,),
)

FORMULAS = (
    SIZED_LEG,
    SLUNG_LEG,
    BASKET,
    LEG_SHARES,
    LEGS,
    TWO_LEGS,
    LEG_TENSION,
    UNEQUAL_LEGS,
    TWO_POINT_SHARES,
    OFF_BALANCE,
    LEVEL_MISS,
)
