"""Centre of gravity from two weighings: level, and with one axle raised."""

from __future__ import annotations

import sympy as sp

from liftcalc.derivations.formula import Formula, Step, Word

WHEELBASE = Word(name="wheelbase", letter="L_w", unit="m", meaning="rear axle to front axle, level")
FRONT_RADIUS = Word(
    name="front_radius", letter="r_f", unit="m", meaning="front axle above the ground, level"
)
REAR_RADIUS = Word(
    name="rear_radius", letter="r_r", unit="m", meaning="rear axle above the ground, level"
)
RAISE = Word(
    name="raise_height",
    letter="H",
    unit="m",
    meaning="front tyres raised above the rear tyres; negative when the rear is raised",
)
WHOLE = Word(name="whole_mass", letter="W", unit="kg", meaning="mass of the whole machine")
LEVEL = Word(
    name="front_level", letter="R_{f0}", unit="kg", meaning="mass on the front axle, level"
)
RAISED = Word(
    name="front_raised",
    letter="R_{f1}",
    unit="kg",
    meaning="mass on the front axle with one axle raised",
)
COG_AHEAD = Word(
    name="cog_ahead",
    letter="x_c",
    unit="m",
    meaning="centre of gravity of the whole machine, ahead of the rear axle",
)
COG_HEIGHT = Word(
    name="cog_up",
    letter="z_c",
    unit="m",
    meaning="centre of gravity of the whole machine above the ground, level",
)
STEP_UP = Word(
    name="axle_step", letter="d_r", unit="m", meaning="front axle above the rear axle, level"
)
PITCH = Word(
    name="pitch",
    letter=r"\theta",
    unit="rad",
    meaning="how far the machine is pitched nose up by raising an axle",
)
FRONT_AHEAD = Word(
    name="front_ahead",
    letter="x_f",
    unit="m",
    meaning="front axle ahead of the rear axle along the ground, pitched",
)

L, d, H, W = WHEELBASE.symbol, STEP_UP.symbol, RAISE.symbol, WHOLE.symbol
ahead, up, theta, x_f = COG_AHEAD.symbol, COG_HEIGHT.symbol, PITCH.symbol, FRONT_AHEAD.symbol
level, raised, r_r = LEVEL.symbol, RAISED.symbol, REAR_RADIUS.symbol

PITCHED = (
    Step(word=STEP_UP, expression=FRONT_RADIUS.symbol - r_r, why="unequal tyres"),
    Step(
        word=PITCH,
        expression=sp.asin((d + H) / sp.sqrt(L**2 + d**2)) - sp.atan2(d, L),
        why="the front axle ends up so high: r_r + L sin θ + (r_f − r_r) cos θ = r_f + H",
    ),
    Step(
        word=FRONT_AHEAD,
        expression=L * sp.cos(theta) - d * sp.sin(theta),
        why="the line between the axles, pitched",
    ),
)
SOURCE = "statics of a machine on two axles; the textbook form has tyres of one size"
ERROR = (
    "exact for tyres that squash alike in both weighings and a machine whose wheels roll freely; a "
    "tyre that squashes more when the other axle is raised, fuel that runs back, or an axle's own "
    "springs are not in it"
)
# The axle must come to stand where it was raised to.
STANDS = L * sp.sin(theta) + d * sp.cos(theta) - d - H

COG_BY_WEIGHING = Formula(
    name="cog_by_weighing",
    title="Centre of gravity from a level weighing and one with an axle raised",
    given=(WHEELBASE, FRONT_RADIUS, REAR_RADIUS, RAISE, WHOLE, LEVEL, RAISED),
    steps=(
        Step(word=COG_AHEAD, expression=L * level / W, why="level: moments about the rear axle"),
        *PITCHED,
        Step(
            word=COG_HEIGHT,
            expression=r_r + (ahead * sp.cos(theta) - raised * x_f / W) / sp.sin(theta),
            why="pitched: moments about the rear tyres, the weight's arm being "
            "x_c cos θ − (z_c − r_r) sin θ",
        ),
    ),
    source=SOURCE,
    error=ERROR,
    proofs=(STANDS, raised * x_f - W * (ahead * sp.cos(theta) - (up - r_r) * sp.sin(theta))),
)

WEIGHING_OF_COG = Formula(
    name="weighing_of_cog",
    title="What the front axle weighs, level and with an axle raised",
    given=(WHEELBASE, FRONT_RADIUS, REAR_RADIUS, RAISE, WHOLE, COG_AHEAD, COG_HEIGHT),
    steps=(
        Step(word=LEVEL, expression=W * ahead / L, why="level: moments about the rear axle"),
        *PITCHED,
        Step(
            word=RAISED,
            expression=W * (ahead * sp.cos(theta) - (up - r_r) * sp.sin(theta)) / x_f,
            why="pitched: moments about the rear tyres",
        ),
    ),
    source=SOURCE,
    error=ERROR,
    proofs=(STANDS,),
)

REST_MASS = Word(
    name="rest_mass", letter="m_o", unit="kg", meaning="all lumps of the machine but the chassis"
)
REST_MOMENT = Word(
    name="rest_moment",
    letter="S_o",
    unit="kg·m",
    meaning="sum over those lumps of mass times height",
)
CHASSIS_HEIGHT = Word(
    name="chassis_height",
    letter="z_b",
    unit="m",
    meaning="centre of gravity of the chassis above the ground",
)
CHASSIS_BY_WEIGHING = Formula(
    name="chassis_by_weighing",
    title="Height of the chassis that makes the whole machine's come out so",
    given=(WHOLE, COG_HEIGHT, REST_MASS, REST_MOMENT),
    steps=(
        Step(
            word=CHASSIS_HEIGHT,
            expression=(W * up - REST_MOMENT.symbol) / (W - REST_MASS.symbol),
            why="what the other lumps leave of the whole's moment, over what they leave of its "
            "mass",
        ),
    ),
    source="definition of the centre of gravity",
    error="exact; carries every error of the other lumps' masses and heights, enlarged by whole "
    "mass over chassis mass",
    proofs=((W - REST_MASS.symbol) * CHASSIS_HEIGHT.symbol + REST_MOMENT.symbol - W * up,),
)

FORMULAS = (COG_BY_WEIGHING, WEIGHING_OF_COG, CHASSIS_BY_WEIGHING)
