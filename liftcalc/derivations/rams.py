"""Rams, the four-bar, and what a joint can carry. All in the plane of the link: u out, w up."""

from __future__ import annotations

import sympy as sp

from liftcalc.derivations.formula import Formula, Step, Word


def point(name: str, letter: str, meaning: str) -> tuple[Word, Word]:
    """Two words for a point in the plane of a linkage."""
    return (
        Word(name=f"{name}_u", letter=f"{letter}_u", unit="m", meaning=f"{meaning}, outward"),
        Word(name=f"{name}_w", letter=f"{letter}_w", unit="m", meaning=f"{meaning}, up"),
    )


BORE = Word(name="bore", letter="D_b", unit="m", meaning="bore of the ram")
ROD = Word(name="rod", letter="D_r", unit="m", meaning="diameter of the rod")
COUNT = Word(name="count", letter="n", unit="-", meaning="number of equal rams side by side")
PRESSURE = Word(name="pressure", letter="p", unit="Pa", meaning="pressure at the ram")
EFFICIENCY = Word(
    name="efficiency", letter=r"\eta", unit="-", meaning="share of the pressure that lifts"
)
BORE_AREA = Word(name="bore_area", letter="A_b", unit="m²", meaning="full area of the piston")
RING_AREA = Word(name="ring_area", letter="A_r", unit="m²", meaning="piston less rod")
PUSH = Word(name="push", letter="F_+", unit="N", meaning="greatest push of the rams")
PULL = Word(name="pull", letter="F_-", unit="N", meaning="greatest pull of the rams")

RAM_FORCE = Formula(
    name="ram_force",
    title="Push and pull of a ram",
    given=(BORE, ROD, COUNT, PRESSURE, EFFICIENCY),
    steps=(
        Step(
            word=BORE_AREA, expression=sp.pi * BORE.symbol**2 / 4, why="area that the oil pushes on"
        ),
        Step(
            word=RING_AREA,
            expression=BORE_AREA.symbol - sp.pi * ROD.symbol**2 / 4,
            why="area that the oil pulls on: the rod takes its share away",
        ),
        Step(
            word=PUSH,
            expression=COUNT.symbol * PRESSURE.symbol * EFFICIENCY.symbol * BORE_AREA.symbol,
            why="push = number · pressure · efficiency · area",
        ),
        Step(
            word=PULL,
            expression=COUNT.symbol * PRESSURE.symbol * EFFICIENCY.symbol * RING_AREA.symbol,
            why="pull = number · pressure · efficiency · ring area",
        ),
    ),
    source="Esposito, Fluid Power with Applications, chapter 6",
    error="back pressure is in the efficiency; a full relief pressure that the pump no longer "
    "gives overstates capacity",
)

PIVOT = point("pivot", "c", "joint")
BASE = point("base_pin", "b", "pin of the ram on its base")
TIP = point("rod_pin", "t", "pin of the rod")
ALONG_RAM = point("ram", r"\Delta", "from the ram's base pin to its rod pin")
RAM_LENGTH = Word(name="ram_length", letter=r"\ell", unit="m", meaning="ram from pin to pin")
ARM = Word(
    name="moment_arm",
    letter="r",
    unit="m",
    meaning="moment arm of the ram, dℓ/dθ, positive when it lengthens as the link turns up",
)
cu, cw = (word.symbol for word in PIVOT)
bu, bw = (word.symbol for word in BASE)
tu, tw = (word.symbol for word in TIP)
du, dw = (word.symbol for word in ALONG_RAM)
_turn = sp.Symbol("turn", real=True)
_turned = (
    cu + (tu - cu) * sp.cos(_turn) - (tw - cw) * sp.sin(_turn),
    cw + (tu - cu) * sp.sin(_turn) + (tw - cw) * sp.cos(_turn),
)
_length_turned = sp.sqrt((_turned[0] - bu) ** 2 + (_turned[1] - bw) ** 2)

RAM_GEOMETRY = Formula(
    name="ram_geometry",
    title="Length and moment arm of a ram",
    given=(*PIVOT, *BASE, *TIP),
    steps=(
        Step(word=ALONG_RAM[0], expression=tu - bu, why="from pin to pin, outward"),
        Step(word=ALONG_RAM[1], expression=tw - bw, why="from pin to pin, up"),
        Step(word=RAM_LENGTH, expression=sp.sqrt(du**2 + dw**2), why="from pin to pin"),
        Step(
            word=ARM,
            expression=(dw * (tu - cu) - du * (tw - cw)) / RAM_LENGTH.symbol,
            why="square distance from the joint to the line of the ram, signed: dℓ/dθ",
        ),
    ),
    source="virtual work: the moment of a force F along the ram is F·dℓ/dθ",
    error="exact for rigid links and pins without play",
    proofs=(
        # The moment arm is the derivative of the length as the rod pin turns about the joint.
        ARM.symbol - sp.diff(_length_turned, _turn).subs(_turn, 0),
    ),
)

FROM_JOINT = point("base_from_joint", "b", "pin of the ram on its base, from the joint")
ON_LINK = point("rod_on_link", "t", "pin of the rod, from the joint, in the frame of its link")
TURN_COS = Word(name="turn_cosine", letter="c", unit="-", meaning="cosine of the turn of the link")
TURN_SIN = Word(name="turn_sine", letter="s", unit="-", meaning="sine of the turn of the link")
RADII = Word(
    name="radii_square", letter="K", unit="m²", meaning="squares of both pins' distance from joint"
)
INNER = Word(name="pins_inner", letter="A", unit="m²", meaning="inner product of the two pins")
OUTER = Word(name="pins_outer", letter="B", unit="m²", meaning="outer product of the two pins")
(fu, fw), (lu, lw) = (tuple(word.symbol for word in pair) for pair in (FROM_JOINT, ON_LINK))
tc, ts = TURN_COS.symbol, TURN_SIN.symbol
_pin = (tc * lu - ts * lw, ts * lu + tc * lw)
_angled = {tc: sp.cos(_turn), ts: sp.sin(_turn)}

RAM_ON_LINK = Formula(
    name="ram_on_link",
    title="Length and moment arm of a ram, by the turn of the link it holds",
    given=(*FROM_JOINT, *ON_LINK, TURN_COS, TURN_SIN),
    steps=(
        Step(
            word=RADII, expression=fu**2 + fw**2 + lu**2 + lw**2,
            why="the two pins stay as far from the joint, however the link turns",
        ),
        Step(word=INNER, expression=fu * lu + fw * lw, why="what a turn of nought brings together"),
        Step(word=OUTER, expression=fw * lu - fu * lw, why="what a quarter turn brings together"),
        Step(
            word=RAM_LENGTH,
            expression=sp.sqrt(RADII.symbol - 2 * INNER.symbol * tc - 2 * OUTER.symbol * ts),
            why="law of cosines",
        ),
        Step(
            word=ARM,
            expression=(INNER.symbol * ts - OUTER.symbol * tc) / RAM_LENGTH.symbol,
            why="its derivative by the turn: dℓ/dθ",
        ),
    ),
    source="law of cosines; virtual work",
    error="exact for rigid links and pins without play",
    proofs=(
        # The length is that between the pins, where cosine and sine are those of one angle.
        RAM_LENGTH.symbol**2
        - ((_pin[0] - fu) ** 2 + (_pin[1] - fw) ** 2)
        + (tc**2 + ts**2 - 1) * (lu**2 + lw**2),
        # The moment arm is the derivative of the length: ℓ·r is that of its square over two.
        sp.diff(((_pin[0] - fu) ** 2 + (_pin[1] - fw) ** 2).subs(_angled) / 2, _turn)
        - (INNER.symbol * ts - OUTER.symbol * tc).subs(_angled),
    ),
)  # fmt: skip

ONE = point("first", "p", "centre of the first circle")
TWO = point("second", "q", "centre of the second circle")
RADIUS_ONE = Word(name="first_radius", letter="R_1", unit="m", meaning="radius of the first circle")
RADIUS_TWO = Word(
    name="second_radius", letter="R_2", unit="m", meaning="radius of the second circle"
)
SIDE = Word(
    name="side",
    letter=r"\sigma",
    unit="-",
    meaning="+1 for the crossing to the left of the line between the centres, −1 right of it",
)
BETWEEN = Word(name="between", letter="D", unit="m", meaning="distance between the centres")
ALONG = Word(name="along", letter="a", unit="m", meaning="first centre to the common chord")
OFF = Word(name="off", letter="f", unit="m", meaning="half the common chord")
CROSS_U = Word(name="crossing_u", letter="x_u", unit="m", meaning="crossing of circles, outward")
CROSS_W = Word(name="crossing_w", letter="x_w", unit="m", meaning="crossing of circles, up")
(pu, pw), (qu, qw) = (tuple(word.symbol for word in pair) for pair in (ONE, TWO))
r1, r2 = RADIUS_ONE.symbol, RADIUS_TWO.symbol
_distance, _a, _f = BETWEEN.symbol, ALONG.symbol, OFF.symbol

CIRCLE_CROSSING = Formula(
    name="circle_crossing",
    title="Where two links of known length meet",
    given=(*ONE, RADIUS_ONE, *TWO, RADIUS_TWO, SIDE),
    steps=(
        Step(
            word=BETWEEN,
            expression=sp.sqrt((qu - pu) ** 2 + (qw - pw) ** 2),
            why="distance between the two pins that are known",
        ),
        Step(
            word=ALONG,
            expression=(_distance**2 + r1**2 - r2**2) / (2 * _distance),
            why="law of cosines along the line between them",
        ),
        Step(
            word=OFF,
            expression=sp.sqrt(r1**2 - _a**2),
            why="square to it; no real value when the linkage cannot close",
        ),
        Step(
            word=CROSS_U,
            expression=pu + (_a * (qu - pu) - SIDE.symbol * _f * (qw - pw)) / _distance,
            why="from the first pin, along and square to the line",
        ),
        Step(
            word=CROSS_W,
            expression=pw + (_a * (qw - pw) + SIDE.symbol * _f * (qu - pu)) / _distance,
            why="the same, upward",
        ),
    ),
    source="plane geometry",
    error="exact for rigid links and pins without play",
    # Either crossing lies on both circles: what is left over vanishes with side² = 1.
    proofs=tuple(
        (CROSS_U.symbol - cu_) ** 2
        + (CROSS_W.symbol - cw_) ** 2
        - radius**2
        - _f**2 * (SIDE.symbol**2 - 1)
        for cu_, cw_, radius in ((pu, pw, r1), (qu, qw, r2))
    ),
)

CRANK = point("crank_pivot", "a", "pivot of the rocker")
CRANK_PIN = point("crank_pin", "j", "pin of the rocker and the link")
LOAD_PIN = point("link_pin", "k", "pin of the link on the attachment")
RATIO = Word(
    name="velocity_ratio",
    letter="i",
    unit="-",
    meaning="turn of the rocker for one turn of the attachment",
)
(au, aw), (ju, jw), (ku, kw) = (
    tuple(word.symbol for word in pair) for pair in (CRANK, CRANK_PIN, LOAD_PIN)
)

FOUR_BAR_RATIO = Formula(
    name="four_bar_ratio",
    title="Velocity ratio of the attachment's four-bar",
    given=(*PIVOT, *CRANK, *CRANK_PIN, *LOAD_PIN),
    steps=(
        Step(
            word=RATIO,
            expression=((ku - cu) * (kw - jw) - (kw - cw) * (ku - ju))
            / ((ju - au) * (kw - jw) - (jw - aw) * (ku - ju)),
            why="both ends of the link move equally fast along it",
        ),
    ),
    source="velocity along a rigid link, any text on mechanisms",
    error="exact for rigid links and pins without play",
    proofs=(
        # Speeds of the two pins along the link: equal when the rocker turns `ratio` as fast.
        sp.Matrix([-(kw - cw), ku - cu]).dot(sp.Matrix([ku - ju, kw - jw]))
        - RATIO.symbol * sp.Matrix([-(jw - aw), ju - au]).dot(sp.Matrix([ku - ju, kw - jw])),
    ),
)

LINKS = Word(
    name="links_moment",
    letter=r"M_\ell",
    unit="N·m",
    meaning="moment of the links' own weight about the joint, positive turning up",
)
LOAD_UNIT = Word(
    name="joint_unit_moment",
    letter="k_L",
    unit="N·m/kg",
    meaning="moment about the joint of one kilogram of load, positive turning up",
)
PUSHING = Word(name="pushing_moment", letter="M_P", unit="N·m", meaning="moment of a full push")
PULLING = Word(name="pulling_moment", letter="M_Q", unit="N·m", meaning="moment of a full pull")
UPWARD = Word(name="upward_moment", letter="M_+", unit="N·m", meaning="greatest moment turning up")
DOWNWARD = Word(
    name="downward_moment", letter="M_-", unit="N·m", meaning="greatest moment turning down"
)
UP_LEFT = Word(
    name="upward_left", letter="M_{+}'", unit="N·m", meaning="upward moment left for a load"
)
DOWN_LEFT = Word(
    name="downward_left", letter="M_{-}'", unit="N·m", meaning="downward moment left for a load"
)
JOINT = Word(name="joint_load", letter="m_J", unit="kg", meaning="load that the joint can carry")
_k = LOAD_UNIT.symbol

JOINT_LOAD = Formula(
    name="joint_load",
    title="Load that a joint's ram can carry",
    given=(PUSH, PULL, ARM, LINKS, LOAD_UNIT),
    steps=(
        Step(
            word=PUSHING,
            expression=PUSH.symbol * ARM.symbol,
            why="force times moment arm, positive turning up",
        ),
        Step(
            word=PULLING, expression=-PULL.symbol * ARM.symbol, why="the same, the other way round"
        ),
        Step(
            word=UPWARD,
            expression=sp.Max(PUSHING.symbol, PULLING.symbol),
            why="pushing or pulling, whichever turns the link up",
        ),
        Step(
            word=DOWNWARD,
            expression=-sp.Min(PUSHING.symbol, PULLING.symbol),
            why="the other of the two turns it down",
        ),
        Step(
            word=UP_LEFT,
            expression=UPWARD.symbol + LINKS.symbol,
            why="what is left upward once the links' own weight is carried",
        ),
        Step(
            word=DOWN_LEFT, expression=DOWNWARD.symbol - LINKS.symbol, why="what is left downward"
        ),
        Step(
            word=JOINT,
            expression=sp.Max(UP_LEFT.symbol / -_k, DOWN_LEFT.symbol / _k),
            why="a load that turns the joint down uses the upward moment, and the other way round",
        ),
    ),
    source="equilibrium of moments about the joint",
    error="pin friction is not credited; means something only where both moments left are above "
    "zero, see `physics.joints.load_at_stall`",
)

FORMULAS = (RAM_FORCE, RAM_GEOMETRY, RAM_ON_LINK, CIRCLE_CROSSING, FOUR_BAR_RATIO, JOINT_LOAD)
