"""Volume and balance point of a log, and what the hook carries when one end is lifted."""

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
BALANCE = Word(
    name="balance_from_butt", letter="x_G", unit="m", meaning="balance point of the log, from butt"
)


def area(diameter: Word) -> sp.Expr:
    """Area of a circle."""
    return sp.pi * diameter.symbol**2 / 4


BUTT_STEP = Step(
    word=BUTT_AREA, expression=area(BUTT), why="section at the butt, taken as a circle"
)
MIDDLE_STEP = Step(word=MIDDLE_AREA, expression=area(MIDDLE), why="section at mid length")
TOP_STEP = Step(word=TOP_AREA, expression=area(TOP), why="section at the top end")
SECTIONS = (BUTT_STEP, MIDDLE_STEP, TOP_STEP)
A0, AM, A1, L = BUTT_AREA.symbol, MIDDLE_AREA.symbol, TOP_AREA.symbol, LENGTH.symbol

# Shapes to prove the rules against. The neiloid's section goes as the cube of a line, so its ends
# are written as cubes.
_x, _a, _c = sp.symbols("x a c", positive=True)
_D0, _D1 = BUTT.symbol, TOP.symbol
_CONE_SECTION = sp.pi / 4 * (_D0 + (_D1 - _D0) * _x / L) ** 2
_CONE = sp.integrate(_CONE_SECTION, (_x, 0, L))
_PARABOLOID = sp.integrate(A0 + (A1 - A0) * _x / L, (_x, 0, L))
_NEILOID = sp.integrate((_a + (_c - _a) * _x / L) ** 3, (_x, 0, L))
_QUADRATIC = (
    A0 * (1 - _x / L) * (1 - 2 * _x / L)
    + AM * 4 * _x / L * (1 - _x / L)
    + A1 * _x / L * (2 * _x / L - 1)
)  # the section through all three measured ones

_NEWTON = L / 6 * (A0 + 4 * AM + A1)
_SMALIAN = L / 2 * (A0 + A1)
_MEAN = (_D0 + _D1) / 2

NEWTON_VOLUME = Formula(
    name="newton_volume",
    title="Volume of a log from three diameters",
    given=(BUTT, MIDDLE, TOP, LENGTH),
    steps=(
        *SECTIONS,
        Step(
            word=VOLUME,
            expression=_NEWTON,
            why="Newton's rule: exact where the section varies as a cubic of the length or less",
        ),
    ),
    source="Newton's (prismoidal) rule, any text on forest measurement",
    error="exact for cylinder, cone, paraboloid and neiloid; of either sign on an uneven stem",
    proofs=(
        _NEWTON.subs(AM, sp.pi * _MEAN**2 / 4) - _CONE,
        _NEWTON.subs(AM, (A0 + A1) / 2) - _PARABOLOID,
        _NEWTON.subs({A0: _a**3, AM: ((_a + _c) / 2) ** 3, A1: _c**3}) - _NEILOID,
    ),
)

TWO_END_VOLUME = Formula(
    name="two_end_volume",
    title="Volume of a log from its two ends",
    given=(BUTT, TOP, LENGTH),
    steps=(
        BUTT_STEP,
        TOP_STEP,
        Step(
            word=VOLUME,
            expression=_SMALIAN,
            why="Smalian's rule: the mean of the end sections along the whole length",
        ),
    ),
    source="Smalian's rule, any text on forest measurement",
    error=(
        "exact for a paraboloid; overstates a cone by π·L·(d_0 − d_1)²/24 and a neiloid (flared "
        "butt) by more; understates only a log that bulges beyond a paraboloid between its ends"
    ),
    proofs=(
        _SMALIAN - _PARABOLOID,
        _SMALIAN - _CONE - sp.pi * L * (_D0 - _D1) ** 2 / 24,
        # A sum of terms that are never negative: Smalian is never below a neiloid.
        _SMALIAN.subs({A0: _a**3, A1: _c**3}) - _NEILOID - L / 4 * (_a + _c) * (_a - _c) ** 2,
    ),
)

MIDDLE_VOLUME = Formula(
    name="middle_volume",
    title="Volume of a log from its middle",
    given=(MIDDLE, LENGTH),
    steps=(
        MIDDLE_STEP,
        Step(
            word=VOLUME,
            expression=L * AM,
            why="Huber's rule: the middle section along the whole length",
        ),
    ),
    source="Huber's rule, any text on forest measurement",
    error=(
        "exact for a paraboloid; understates a cone by π·L·(d_0 − d_1)²/48 and a flared butt by "
        "more, so a spread of its own must go with it"
    ),
    proofs=(
        L * AM.subs(AM, (A0 + A1) / 2) - _PARABOLOID,
        _CONE - L * sp.pi * _MEAN**2 / 4 - sp.pi * L * (_D0 - _D1) ** 2 / 48,
    ),
)

_BALANCE = L * (2 * AM + A1) / (A0 + 4 * AM + A1)
BALANCE_STEP = Step(
    word=BALANCE,
    expression=_BALANCE,
    why="Simpson's rule on the first moment of the section, over the volume",
)
BALANCE_POINT = Formula(
    name="balance_point",
    title="Balance point of a log from three diameters",
    given=(BUTT, MIDDLE, TOP, LENGTH),
    steps=(*SECTIONS, BALANCE_STEP),
    source="first moment of area by Simpson's rule",
    error=(
        "exact for cylinder, paraboloid and cone of even density; puts the balance point of a "
        "neiloid too near the butt, by 0.033 of the length for one that runs to a point and by "
        "less when cut short; wetter sapwood or a denser butt is not counted"
    ),
    proofs=(
        _BALANCE - sp.integrate(_x * _QUADRATIC, (_x, 0, L)) / sp.integrate(_QUADRATIC, (_x, 0, L)),
    ),
)
TWO_END_BALANCE_POINT = Formula(
    name="two_end_balance_point",
    title="Balance point of a log from its two ends",
    given=(BUTT, TOP, LENGTH),
    steps=(
        Step(word=MIDDLE, expression=_MEAN, why="straight taper between the ends"),
        *SECTIONS,
        BALANCE_STEP,
    ),
    source="first moment of a cone frustum",
    error=(
        "exact for a cone frustum of even density; a flared butt balances nearer the butt, a "
        "log that bulges in the middle nearer its middle"
    ),
    proofs=(_BALANCE - sp.integrate(_x * _CONE_SECTION, (_x, 0, L)) / _CONE,),
)
MIDDLE_BALANCE_POINT = Formula(
    name="middle_balance_point",
    title="Balance point of a log from its middle alone",
    given=(LENGTH,),
    steps=(
        Step(word=BALANCE, expression=L / 2, why="without taper the log balances at mid length"),
    ),
    source="symmetry of a cylinder",
    error="too far from the butt for every log that tapers",
)

PLATE = Word(name="root_plate_mass", letter="m_p", unit="kg", meaning="mass of the root plate")
TRUNK = Word(
    name="trunk_mass", letter="m_t", unit="kg", meaning="mass of the log without its root plate"
)
PLATE_BALANCE = Word(
    name="balance_with_plate",
    letter="x_P",
    unit="m",
    meaning="balance point of the log and its root plate, from butt",
)
ROOT_PLATE_BALANCE = Formula(
    name="root_plate_balance",
    title="Balance point of a log with its root plate",
    given=(TRUNK, BALANCE, PLATE),
    steps=(
        Step(
            word=PLATE_BALANCE,
            expression=TRUNK.symbol * BALANCE.symbol / (TRUNK.symbol + PLATE.symbol),
            why="moments about the butt, the plate taken at the butt face",
        ),
    ),
    source="statics",
    error="too far from the butt: the plate's own centre lies beyond the butt face",
)

LOG_MASS = Word(name="log_mass", letter="m_L", unit="kg", meaning="mass of the log")
GROUND_BALANCE = Word(
    name="balance_from_ground_end",
    letter="x_E",
    unit="m",
    meaning="balance point from the end that stays on the ground",
)
GROUND_HOOK = Word(
    name="hook_from_ground_end",
    letter="h_E",
    unit="m",
    meaning="hook along the log from the end that stays on the ground",
)
BREAKOUT = Word(
    name="breakout_factor",
    letter="k_e",
    unit="-",
    meaning="multiplier for a bedded or stuck log, 1 when it lies free",
)
HOOK_SHARE = Word(
    name="hook_share", letter="h_s", unit="-", meaning="share of the log's weight on the hook"
)
HOOK_MASS = Word(
    name="hook_mass", letter="m_h", unit="kg", meaning="mass whose weight the hook carries"
)
ONE_END_LIFTED = Formula(
    name="one_end_lifted",
    title="What the hook carries when one end is lifted",
    given=(LOG_MASS, GROUND_BALANCE, GROUND_HOOK, BREAKOUT),
    steps=(
        Step(
            word=HOOK_SHARE,
            expression=GROUND_BALANCE.symbol / GROUND_HOOK.symbol,
            why="moments about the end on the ground; the angle of the log cancels",
        ),
        Step(
            word=HOOK_MASS,
            expression=LOG_MASS.symbol * HOOK_SHARE.symbol * BREAKOUT.symbol,
            why="and what frees it from its bed",
        ),
    ),
    source="statics",
    error=(
        "exact for a thin log; thickness moves it either way by about radius over length as the "
        "log rises; no breakout factor is standard"
    ),
)

FORMULAS = (
    NEWTON_VOLUME,
    TWO_END_VOLUME,
    MIDDLE_VOLUME,
    BALANCE_POINT,
    TWO_END_BALANCE_POINT,
    MIDDLE_BALANCE_POINT,
    ROOT_PLATE_BALANCE,
    ONE_END_LIFTED,
)
