"""Effective gravity, moments and tipping."""

from __future__ import annotations

import sympy as sp

from liftcalc.derivations.formula import Formula, Step, Word
from liftcalc.derivations.timber_mass import PLANNING

STANDARD_GRAVITY = sp.Float("9.80665")

SLOPE = Word(name="slope", letter="s", unit="rad", meaning="slope of the ground")
HEADING = Word(
    name="heading",
    letter="h",
    unit="rad",
    meaning="uphill direction in the machine frame: 0 nose uphill, +90° left side uphill",
)
ACC = tuple(
    Word(name=f"acceleration_{a}", letter=f"a_{a}", unit="m/s²", meaning=f"own acceleration, {d}")
    for a, d in (("x", "forward"), ("y", "left"), ("z", "up"))
)
GRAVITY = tuple(
    Word(name=f"gravity_{a}", letter=f"g_{a}", unit="m/s²", meaning=f"effective gravity, {d}")
    for a, d in (("x", "forward"), ("y", "left"), ("z", "up"))
)
GX, GY, GZ = (word.symbol for word in GRAVITY)
s, h = SLOPE.symbol, HEADING.symbol

EFFECTIVE_GRAVITY = Formula(
    name="effective_gravity",
    title="Effective gravity in the machine frame",
    given=(SLOPE, HEADING, *ACC),
    steps=(
        Step(
            word=GRAVITY[0],
            expression=-STANDARD_GRAVITY * sp.sin(s) * sp.cos(h) - ACC[0].symbol,
            why="gravity along the machine, less its own acceleration",
        ),
        Step(
            word=GRAVITY[1],
            expression=-STANDARD_GRAVITY * sp.sin(s) * sp.sin(h) - ACC[1].symbol,
            why="gravity across the machine, less its own acceleration",
        ),
        Step(
            word=GRAVITY[2],
            expression=-STANDARD_GRAVITY * sp.cos(s) - ACC[2].symbol,
            why="gravity square to the ground, less its own acceleration",
        ),
    ),
    source="d'Alembert's principle; standard gravity, CGPM 1901",
    error="exact for a steady acceleration; a sudden one swings a hanging load twice as far",
    # Without its own acceleration the machine feels exactly standard gravity.
    proofs=(
        sum(((g.symbol + a.symbol) ** 2 for g, a in zip(GRAVITY, ACC, strict=True)), sp.Integer(0))
        - STANDARD_GRAVITY**2,
    ),
)


def vector(name: str, letter: str, meaning: str) -> tuple[Word, Word, Word]:
    """Three words for a point or direction."""
    axes = (("x", "forward"), ("y", "left"), ("z", "up"))
    return tuple(  # type: ignore[return-value]
        Word(name=f"{name}_{a}", letter=f"{letter}_{a}", unit="m", meaning=f"{meaning}, {d}")
        for a, d in axes
    )


START = vector("start", "P", "start of the tipping line")
END = vector("end", "Q", "end of the tipping line")
WEIGHT_AT = vector("point", "r", "point where a weight acts")
P = sp.Matrix([w.symbol for w in START])
Q = sp.Matrix([w.symbol for w in END])
R = sp.Matrix([w.symbol for w in WEIGHT_AT])
G = sp.Matrix([GX, GY, GZ])
LINE_LENGTH = Word(name="line_length", letter="e", unit="m", meaning="length of the tipping line")
UNIT_MOMENT = Word(
    name="unit_moment",
    letter="k",
    unit="N·m/kg",
    meaning="moment about the tipping line of one kilogram, positive when it holds down",
)

LINE_MOMENT = Formula(
    name="line_moment",
    title="Moment of one kilogram about a tipping line",
    given=(*WEIGHT_AT, *START, *END, *GRAVITY),
    steps=(
        Step(
            word=LINE_LENGTH,
            expression=sp.sqrt(sum((q - p) ** 2 for p, q in zip(P, Q, strict=True))),
            why="length of the line from its start to its end",
        ),
        Step(
            word=UNIT_MOMENT,
            expression=((R - P).cross(G)).dot(Q - P) / LINE_LENGTH.symbol,
            why="(r − P) × g along the line; with the supports to its right it holds down when "
            "positive",
        ),
    ),
    source="moment of a force about a line, any text on statics",
    error="exact for a rigid machine on unyielding ground; measured tip angles are 1 to 4 % "
    "smaller (Majdan et al. 2021), so it overstates stability by that much",
    # The moment does not change when the start slides along the line.
    proofs=(
        ((R - P).cross(G)).dot(Q - P) - ((R - (P + sp.Symbol("t") * (Q - P))).cross(G)).dot(Q - P),
    ),
)

HOLDING = Word(
    name="holding_moment",
    letter="M_0",
    unit="N·m",
    meaning="moment of the machine about the tipping line, positive when it holds down",
)
LOAD_MOMENT = Word(
    name="load_unit_moment",
    letter="k_L",
    unit="N·m/kg",
    meaning="moment about the tipping line of one kilogram of load",
)
TIPPING = Word(
    name="tipping_load", letter="m_T", unit="kg", meaning="load at which the machine just tips"
)
TIPPING_LOAD = Formula(
    name="tipping_load",
    title="Tipping load of one line",
    given=(HOLDING, LOAD_MOMENT),
    steps=(
        Step(
            word=TIPPING,
            expression=HOLDING.symbol / (-LOAD_MOMENT.symbol),
            why="the load whose moment equals that of the machine: M₀ + m·k = 0",
        ),
    ),
    source="equilibrium of moments",
    error="exact for a rigid machine; means something only where M₀ > 0 and k < 0, see "
    "`physics.tipping.load_at_tipping`",
    proofs=(HOLDING.symbol + TIPPING.symbol * LOAD_MOMENT.symbol,),
)

SPAN = Word(name="span", letter="D", unit="m", meaning="distance from the foot pin to the target")
FIRST = Word(name="first_length", letter="L_1", unit="m", meaning="length of the first link")
SECOND = Word(name="second_length", letter="L_2", unit="m", meaning="length of the second link")
TARGET_U = Word(name="target_u", letter="u", unit="m", meaning="target, outward of the foot pin")
TARGET_W = Word(name="target_w", letter="w", unit="m", meaning="target, above the foot pin")
SQUARE = Word(name="span_square", letter="D^2", unit="m²", meaning="square of that distance")
LENGTHS_SQUARE = Word(
    name="lengths_square", letter="S", unit="m²", meaning="squares of both links, together"
)
LENGTHS_PRODUCT = Word(
    name="lengths_product", letter="T", unit="m²", meaning="twice the product of both links"
)
ALONG, ACROSS = (
    Word(name=name, letter=letter, unit="m", meaning=f"far end of the folded arm, {way}")
    for name, letter, way in (
        ("far_along", "a", "along its first link"),
        ("far_across", "b", "square to its first link"),
    )
)
ELBOW_COS = Word(name="elbow_cosine", letter="c_e", unit="-", meaning="cosine between the links")
ELBOW_SIN = Word(name="elbow_sine", letter="s_e", unit="-", meaning="sine between the links")
FIRST_COS, FIRST_SIN, SECOND_COS, SECOND_SIN = (
    Word(
        name=f"{link}_{part}", letter=f"{part[0]}_{number}", unit="-",
        meaning=f"{part} of the {link} link above horizontal",
    )
    for link, number in (("first", 1), ("second", 2))
    for part in ("cosine", "sine")
)  # fmt: skip
u, w, l1, l2 = TARGET_U.symbol, TARGET_W.symbol, FIRST.symbol, SECOND.symbol
ce, se = ELBOW_COS.symbol, ELBOW_SIN.symbol
c1, s1, c2, s2 = (x.symbol for x in (FIRST_COS, FIRST_SIN, SECOND_COS, SECOND_SIN))
TWO_LINK = Formula(
    name="two_link",
    title="Directions of a two-link arm that reaches a point, knuckle up",
    given=(TARGET_U, TARGET_W, FIRST, SECOND),
    steps=(
        Step(word=SQUARE, expression=u**2 + w**2, why="distance to the target, squared"),
        Step(word=SPAN, expression=sp.sqrt(SQUARE.symbol), why="distance to the target"),
        Step(word=LENGTHS_SQUARE, expression=l1**2 + l2**2, why="the span of a square elbow"),
        Step(word=LENGTHS_PRODUCT, expression=2 * l1 * l2, why="what the elbow adds at most"),
        Step(
            word=ELBOW_COS,
            expression=(SQUARE.symbol - LENGTHS_SQUARE.symbol) / LENGTHS_PRODUCT.symbol,
            why="law of cosines; outside −1…1 the arm cannot reach",
        ),
        Step(
            word=ELBOW_SIN,
            expression=-sp.sqrt(1 - ce**2),
            why="the second link turns down from the first; no real value out of reach",
        ),
        Step(word=ALONG, expression=l1 + l2 * ce, why="both links, along the first"),
        Step(word=ACROSS, expression=l2 * se, why="the second link, square to the first"),
        Step(
            word=FIRST_COS,
            expression=(u * ALONG.symbol + w * ACROSS.symbol) / SQUARE.symbol,
            why="the folded arm turned until its far end is the target",
        ),
        Step(
            word=FIRST_SIN,
            expression=(w * ALONG.symbol - u * ACROSS.symbol) / SQUARE.symbol,
            why="the same, for the sine",
        ),
        Step(word=SECOND_COS, expression=(u - l1 * c1) / l2, why="from the knuckle to the target"),
        Step(word=SECOND_SIN, expression=(w - l1 * s1) / l2, why="the same, upward"),
    ),
    source="law of cosines",
    error="exact for rigid links and pins without play",
    proofs=(
        # Both are directions, and the turn from first to second is the elbow's.
        c1**2 + s1**2 - 1,
        c2**2 + s2**2 - 1,
        c1 * c2 + s1 * s2 - ce,
        c1 * s2 - s1 * c2 - se,
    ),
)

CAPACITY = Word(
    name="capacity", letter="m_C", unit="kg", meaning="load at which a criterion is reached"
)
SHARE = Word(name="share", letter="f", unit="-", meaning="share of the capacity that may be used")
ALLOWED = Word(name="allowed", letter="m_A", unit="kg", meaning="allowed load on the lift point")
RIGGING = Word(
    name="rigging_mass", letter="m_R", unit="kg", meaning="chain, sling and hook below the point"
)
LOAD_FACTOR = Word(name="load_factor", letter=r"\varphi", unit="-", meaning="load factor")
LEFT = Word(name="left_for_log", letter="m_N", unit="kg", meaning="allowed load less the rigging")
USE = Word(name="utilisation", letter="u", unit="-", meaning="share of the allowed load used")
HEAVIEST = Word(
    name="heaviest_log", letter="m_H", unit="kg", meaning="heaviest log the criterion allows"
)
ALLOWED_LOAD = Formula(
    name="allowed_load",
    title="Allowed load of a criterion",
    given=(CAPACITY, SHARE),
    steps=(
        Step(
            word=ALLOWED,
            expression=SHARE.symbol * CAPACITY.symbol,
            why="only a share of the capacity may be used",
        ),
    ),
    source="the share's own source, see rules",
    error="exact",
)
UTILISATION = Formula(
    name="utilisation",
    title="Utilisation of a criterion",
    given=(ALLOWED, RIGGING, LOAD_FACTOR, PLANNING),
    steps=(
        Step(
            word=LEFT,
            expression=ALLOWED.symbol - RIGGING.symbol,
            why="the rigging hangs on the lift point too",
        ),
        Step(
            word=HEAVIEST,
            expression=LEFT.symbol / LOAD_FACTOR.symbol,
            why="the log pulls harder than it weighs when it is moved",
        ),
        Step(
            word=USE,
            expression=LOAD_FACTOR.symbol * PLANNING.symbol / LEFT.symbol,
            why="what the log asks, over what is left for it",
        ),
    ),
    source="definition",
    error="the load factor is on the log only, the rigging is light",
    proofs=(USE.symbol * HEAVIEST.symbol - PLANNING.symbol,),
)

FORMULAS = (EFFECTIVE_GRAVITY, LINE_MOMENT, TIPPING_LOAD, TWO_LINK, ALLOWED_LOAD, UTILISATION)
