"""Reactions of the ground."""

from __future__ import annotations

from liftcalc.derivations.formula import Formula, Step, Word
from liftcalc.derivations.mechanics import HOLDING, LOAD_MOMENT

PRESSING = Word(
    name="pressing_moment",
    letter=r"M_\ell",
    unit="N·m",
    meaning="moment of all weights about the line across from a support",
)
SUPPORT_LEVER = Word(
    name="support_lever",
    letter=r"d_\ell",
    unit="m",
    meaning="moment about that line of a unit force up at the support",
)
SUPPORT_FORCE_WORD = Word(
    name="support_force",
    letter="N_i",
    unit="N",
    meaning="greatest force of the ground on a support",
)
BOUND = "no other support pulls, so they only take moment off it; the least over the lines counts"

SUPPORT_FORCE = Formula(
    name="support_force",
    title="Greatest force on a support, whatever the ground's stiffness",
    given=(PRESSING, SUPPORT_LEVER),
    steps=(
        Step(
            word=SUPPORT_FORCE_WORD,
            expression=PRESSING.symbol / SUPPORT_LEVER.symbol,
            why=f"about a line that the machine may tip over, across from the support: {BOUND}",
        ),
    ),
    source="duality of linear programmes: the least bound is also reached",
    error="overstates the force wherever the ground shares the load more evenly",
    proofs=(SUPPORT_FORCE_WORD.symbol * SUPPORT_LEVER.symbol - PRESSING.symbol,),
)

FORCE_LIMIT = Word(
    name="force_limit", letter=r"N_{\max}", unit="N", meaning="greatest force allowed on a support"
)
ROOM = Word(
    name="moment_room",
    letter=r"a_\ell",
    unit="N·m",
    meaning="moment about the line that a load may add before the support's limit",
)
LIMIT_LOAD = Word(
    name="force_limit_load",
    letter=r"m_\ell",
    unit="kg",
    meaning="load at which the line lets the support have more than its limit",
)
FORCE_LIMIT_LOAD = Formula(
    name="force_limit_load",
    title="Load at which a support comes to its limit",
    given=(HOLDING, LOAD_MOMENT, SUPPORT_LEVER, FORCE_LIMIT),
    steps=(
        Step(
            word=ROOM,
            expression=FORCE_LIMIT.symbol * SUPPORT_LEVER.symbol - HOLDING.symbol,
            why="moment of the limit about the line, less that of the machine",
        ),
        Step(
            word=LIMIT_LOAD,
            expression=ROOM.symbol / LOAD_MOMENT.symbol,
            why="the load that fills it: M₀ + m·k = N·d",
        ),
    ),
    source="equilibrium of moments",
    error="understates the load, as the force on the support is overstated; see "
    "`physics.reactions.carried` and, for several lines, `physics.forms.load_at_failure`",
    proofs=(
        HOLDING.symbol
        + LIMIT_LOAD.symbol * LOAD_MOMENT.symbol
        - FORCE_LIMIT.symbol * SUPPORT_LEVER.symbol,
    ),
)

AXES = (("x", "forward"), ("y", "left"), ("z", "up"))
FORCE = tuple(
    Word(name=f"force_{a}", letter=f"F_{a}", unit="N", meaning=f"force of all weights, {d}")
    for a, d in AXES
)
MOMENT = tuple(
    Word(
        name=f"moment_{a}",
        letter=f"M_{a}",
        unit="N·m",
        meaning=f"moment of all weights about the origin, round the axis {d}",
    )
    for a, d in AXES
)
BACK_X = Word(name="back_x", letter="x_b", unit="m", meaning="the two back supports, forward")
LEFT_Y = Word(name="left_y", letter="y_l", unit="m", meaning="left back support, left")
RIGHT_Y = Word(name="right_y", letter="y_r", unit="m", meaning="right back support, left")
PIN_X = Word(name="pin_x", letter="x_p", unit="m", meaning="pin of the axle, forward")
PIN_Z = Word(name="pin_height", letter="h_p", unit="m", meaning="pin of the axle above the ground")
PIN_BASE = Word(name="pin_base", letter="D_p", unit="m", meaning="back supports to the pin")
PIN_UP = Word(name="pin_up", letter="N_p", unit="N", meaning="force of the axle on its pin, up")
PIN_LEFT = Word(
    name="pin_left", letter="Q_p", unit="N", meaning="force of the axle on its pin, left"
)
BACK_UP = Word(name="back_up", letter="N_b", unit="N", meaning="force on both back supports, up")
TURNING = Word(
    name="turning_moment",
    letter="T_b",
    unit="N·m",
    meaning="moment of sideways forces about the back supports, that turns the machine in plan",
)
ROLL_SHARE = Word(
    name="roll_factor",
    letter="c_b",
    unit="-",
    meaning="how much the force along the machine stiffens the roll over the pin",
)
BACK_ROLL = Word(
    name="back_roll",
    letter="B_b",
    unit="N·m",
    meaning="moment of the back supports' forces up about the middle",
)
LEFT_UP, RIGHT_UP = (
    Word(name=f"{side}_up", letter=f"N_{side[0]}", unit="N", meaning=f"force on the {side} back "
         "support, up")
    for side in ("left", "right")
)  # fmt: skip
BACK_LEFT = Word(
    name="back_left", letter="Q_b", unit="N", meaning="force on both back supports, left"
)
FX, FY, FZ = (word.symbol for word in FORCE)
MX, MY, MZ = (word.symbol for word in MOMENT)
x_b, y_l, y_r = BACK_X.symbol, LEFT_Y.symbol, RIGHT_Y.symbol
x_p, h_p, D = PIN_X.symbol, PIN_Z.symbol, PIN_BASE.symbol
N_p, Q_p, N_b, Q_b = PIN_UP.symbol, PIN_LEFT.symbol, BACK_UP.symbol, BACK_LEFT.symbol
N_l, N_r = LEFT_UP.symbol, RIGHT_UP.symbol
ALONG = tuple(-FX * up / N_b for up in (N_l, N_r))
"""Of the force along the machine each back support takes as much as it carries."""

THREE_SUPPORTS = Formula(
    name="three_supports",
    title="Two back supports on the ground, and a front axle that rolls freely under its pin",
    given=(*FORCE, *MOMENT, BACK_X, LEFT_Y, RIGHT_Y, PIN_X, PIN_Z),
    steps=(
        Step(word=PIN_BASE, expression=x_p - x_b, why="distance along the machine"),
        Step(
            word=PIN_UP,
            expression=(MY + x_b * FZ) / D,
            why="moments about the back supports; wheels that roll take no force along the machine",
        ),
        Step(word=BACK_UP, expression=-FZ - N_p, why="what is left of the weight"),
        Step(
            word=TURNING,
            expression=x_b * FY - MZ,
            why="moments in plan about the back supports, of the weights alone",
        ),
        Step(
            word=ROLL_SHARE,
            expression=1 + h_p * FX / (N_b * D),
            why="the back support that carries more also holds more along the machine, which turns "
            "the nose and so presses sideways on the pin",
        ),
        Step(
            word=BACK_ROLL,
            expression=(h_p * TURNING.symbol / D - MX) / ROLL_SHARE.symbol,
            why="moments in roll, the pin's sideways force put in",
        ),
        Step(
            word=LEFT_UP,
            expression=(BACK_ROLL.symbol - y_r * N_b) / (y_l - y_r),
            why="both give that moment and, together, the force on both",
        ),
        Step(word=RIGHT_UP, expression=N_b - N_l, why="the rest"),
        Step(
            word=PIN_LEFT,
            expression=(TURNING.symbol - FX * BACK_ROLL.symbol / N_b) / D,
            why="moments in plan about the back supports",
        ),
        Step(word=BACK_LEFT, expression=-FY - Q_p, why="the rest"),
    ),
    source="equilibrium of a rigid body",
    error="exact for wheels that roll freely and a force along the machine shared by the back "
    "supports as they carry; one of them may hold it all, see `support_force`",
    proofs=(
        N_l + N_r + N_p + FZ,
        ALONG[0] + ALONG[1] + FX,
        Q_b + Q_p + FY,
        y_l * N_l + y_r * N_r - h_p * Q_p + MX,
        -x_b * (N_l + N_r) - x_p * N_p + MY,
        x_b * Q_b + x_p * Q_p - y_l * ALONG[0] - y_r * ALONG[1] + MZ,
    ),
)

TRACK = Word(name="front_track", letter="t_f", unit="m", meaning="track of the front axle")
LEFT_TYRE, RIGHT_TYRE = (
    Word(name=f"{side}_tyre", letter=f"N_{{f{side[0]}}}", unit="N", meaning=f"force on the {side} "
         "tyre of an oscillating axle, up")
    for side in ("left", "right")
)  # fmt: skip
AXLE_TYRES = Formula(
    name="axle_tyres",
    title="Tyres of an oscillating axle",
    given=(PIN_UP, PIN_LEFT, PIN_Z, TRACK),
    steps=(
        Step(
            word=LEFT_TYRE,
            expression=N_p / 2 - Q_p * h_p / TRACK.symbol,
            why="half each, less what the sideways force of the ground, below the pin, takes over",
        ),
        Step(word=RIGHT_TYRE, expression=N_p - LEFT_TYRE.symbol, why="the rest"),
    ),
    source="moments about the pin of the axle",
    error="exact for an axle without weight of its own; a tyre below zero means that the axle "
    "turns against its stop",
    proofs=(
        (LEFT_TYRE.symbol - RIGHT_TYRE.symbol) * TRACK.symbol / 2 + Q_p * h_p,
        LEFT_TYRE.symbol + RIGHT_TYRE.symbol - N_p,
    ),
)

FORMULAS: tuple[Formula, ...] = (SUPPORT_FORCE, FORCE_LIMIT_LOAD, THREE_SUPPORTS, AXLE_TYRES)
