"""Lean, swing, resistance and speed on the move; how far a swinging log comes."""

from __future__ import annotations

import sympy as sp

from liftcalc.derivations.formula import Formula, Step, Word
from liftcalc.derivations.mechanics import STANDARD_GRAVITY

ACCELERATION = Word(
    name="steady_acceleration",
    letter="a",
    unit="m/s²",
    meaning="acceleration of the point that a load hangs from, square to plumb",
)
LEAN = Word(name="lean", letter=r"\lambda", unit="rad", meaning="lean of a hanging load from plumb")
PEAK = Word(
    name="peak_swing",
    letter=r"\lambda_p",
    unit="rad",
    meaning="farthest lean from plumb, swinging from rest",
)
a, lean = ACCELERATION.symbol, LEAN.symbol

SWING_FROM_REST = Formula(
    name="swing_from_rest",
    title="Swing of a hanging load after a sudden steady acceleration",
    given=(ACCELERATION,),
    steps=(
        Step(
            word=LEAN,
            expression=sp.atan(a / STANDARD_GRAVITY),
            why="the load would hang still along gravity less the acceleration",
        ),
        Step(
            word=PEAK,
            expression=2 * lean,
            why="from rest it swings through that lean, as far again",
        ),
    ),
    source="equilibrium and energy of a pendulum, any text on dynamics",
    error="exact for a pendulum without damping; an acceleration that grows slowly swings less, so "
    "it overstates; a load that swings already can swing farther",
    # Energy: what the acceleration gives over the swing is what the rise takes,
    # g(1 − cos 2λ) = a sin 2λ, with the double angles written out.
    proofs=(2 * STANDARD_GRAVITY * sp.sin(lean) ** 2 - 2 * a * sp.sin(lean) * sp.cos(lean),),
)

SPEED = Word(name="speed", letter="v", unit="m/s", meaning="speed of travel")
TURN_RADIUS = Word(
    name="turn_radius",
    letter="R",
    unit="m",
    meaning="radius of the turn, at the middle of the rear axle",
)
ROLLOVER_SHARE = Word(
    name="rollover_share",
    letter=r"\kappa",
    unit="-",
    meaning="real rollover threshold over that of a rigid machine",
)
TURN_RATE = Word(name="turn_rate", letter=r"\dot\psi", unit="rad/s", meaning="rate of turn")
TURNING = Word(
    name="turning_acceleration",
    letter="a_R",
    unit="m/s²",
    meaning="acceleration toward the inside of the turn",
)
PLANNED_TURNING = Word(
    name="planned_turning",
    letter="a_R^+",
    unit="m/s²",
    meaning="acceleration that stands for the turn of a rigid machine",
)
TURNING_FORMULA = Formula(
    name="turning",
    title="Acceleration of a turn",
    given=(SPEED, TURN_RADIUS, ROLLOVER_SHARE),
    steps=(
        Step(
            word=TURN_RATE,
            expression=SPEED.symbol / TURN_RADIUS.symbol,
            why="the machine turns as fast as it goes round",
        ),
        Step(
            word=TURNING,
            expression=SPEED.symbol * TURN_RATE.symbol,
            why="v²/R, the same along the whole length of the machine",
        ),
        Step(
            word=PLANNED_TURNING,
            expression=TURNING.symbol / ROLLOVER_SHARE.symbol,
            why="tyres and frame give: real machines go over sooner than rigid ones",
        ),
    ),
    source="kinematics; the share is vehicle practice",
    error="exact for a steady turn; overstates for stiff tyres; the outer tyre's turning circle in "
    "place of the radius at the rear axle understates",
    proofs=(TURNING.symbol - TURN_RATE.symbol**2 * TURN_RADIUS.symbol,),
)

AHEAD = Word(
    name="ahead", letter="x", unit="m", meaning="point of the machine, ahead of the rear axle"
)
FORWARD_PULL = Word(
    name="rearward_in_turn",
    letter="a_F",
    unit="m/s²",
    meaning="acceleration of that point toward the rear axle while turning",
)
TURNING_AHEAD = Formula(
    name="turning_ahead",
    title="What a turn pulls forward on a point ahead of the rear axle",
    given=(TURN_RATE, AHEAD, ROLLOVER_SHARE),
    steps=(
        Step(
            word=FORWARD_PULL,
            expression=TURN_RATE.symbol**2 * AHEAD.symbol / ROLLOVER_SHARE.symbol,
            why="the nose swings round the rear axle; taken larger by the same share as the turn",
        ),
    ),
    source="kinematics of a rigid body",
    error="exact for a steady turn, but for the share, which overstates",
)

ACCELERATION_LIMIT = Word(
    name="acceleration_limit",
    letter=r"a_{\max}",
    unit="m/s²",
    meaning="acceleration to the side at which a rigid machine reaches its limit",
)
GREATEST_SPEED = Word(
    name="greatest_speed", letter=r"v_{\max}", unit="m/s", meaning="speed at which it gets there"
)
SPEED_AT_ROLLOVER = Formula(
    name="speed_at_rollover",
    title="Speed at which a turn takes the machine to its limit",
    given=(ACCELERATION_LIMIT, TURN_RADIUS, ROLLOVER_SHARE),
    steps=(
        Step(
            word=GREATEST_SPEED,
            expression=sp.sqrt(
                ROLLOVER_SHARE.symbol * ACCELERATION_LIMIT.symbol * TURN_RADIUS.symbol
            ),
            why="v²/(κR) is the limit",
        ),
    ),
    source="kinematics; the share is vehicle practice",
    error="understates for stiff tyres; holds for smooth ground, a bump takes the machine over "
    "sooner",
    proofs=(
        GREATEST_SPEED.symbol**2 / (ROLLOVER_SHARE.symbol * TURN_RADIUS.symbol)
        - ACCELERATION_LIMIT.symbol,
    ),
)

HOOK_REACH = Word(
    name="hook_reach",
    letter="r_h",
    unit="m",
    meaning="hook from the slew axis, or ahead of the front axle",
)
SLEW_SPEED = Word(name="slew_speed", letter=r"\omega", unit="rad/s", meaning="rate of slewing")
SLEW_STOP = Word(
    name="slew_stop", letter="t_s", unit="s", meaning="time in which slewing starts or stops"
)
SLEWING_UP = Word(
    name="slewing_acceleration",
    letter="a_t",
    unit="m/s²",
    meaning="acceleration of the hook along its circle",
)
START_STOP = Word(
    name="start_stop_swing",
    letter=r"\lambda_t",
    unit="rad",
    meaning="swing when slewing starts or stops",
)
OUTWARD_LEAN = Word(
    name="outward_lean",
    letter=r"\lambda_r",
    unit="rad",
    meaning="lean away from the slew axis while slewing",
)
SLEW_SWING = Word(
    name="slewing_swing", letter=r"\lambda_s", unit="rad", meaning="lean to plan slewing on"
)
SWINGS_ADDED = Word(
    name="swings_added",
    letter="n_s",
    unit="-",
    meaning="1 when the load hangs quiet before slewing stops, 2 when it still swings from the "
    "start",
)
r, omega = HOOK_REACH.symbol, SLEW_SPEED.symbol
SLEWING_SWING = Formula(
    name="slewing_swing",
    title="Swing of a hanging load when the back end slews",
    given=(HOOK_REACH, SLEW_SPEED, SLEW_STOP, SWINGS_ADDED),
    steps=(
        Step(
            word=SLEWING_UP,
            expression=omega * r / SLEW_STOP.symbol,
            why="the hook gains or loses its speed along the circle in that time",
        ),
        Step(
            word=START_STOP,
            expression=2 * sp.atan(SLEWING_UP.symbol / STANDARD_GRAVITY),
            why="twice the lean, as after any sudden acceleration",
        ),
        Step(
            word=OUTWARD_LEAN,
            expression=sp.atan(omega**2 * r / STANDARD_GRAVITY),
            why="what turns in a circle is pulled inward only by leaning outward",
        ),
        Step(
            word=SLEW_SWING,
            expression=SWINGS_ADDED.symbol * START_STOP.symbol + OUTWARD_LEAN.symbol,
            why="all at once and in one direction",
        ),
    ),
    source="energy of a pendulum; statics of a conical one",
    error="overstates: the leans along the circle and away from the axis are square to each other "
    "and are added as if they were not; with 1, a stop while the load still swings from the start "
    "is understated",
)

SINKAGE = Word(name="sinkage", letter="z_s", unit="m", meaning="how deep the tyres sink")
GRADE = Word(name="grade", letter="i_g", unit="-", meaning="rise over run of the way uphill")
RESISTANCE_SHARE = Word(
    name="resistance_share", letter="c_R", unit="-", meaning="resistance to travel over the weight"
)
TRAVELLING_MASS = Word(
    name="travelling_mass", letter="m_v", unit="kg", meaning="machine and all that it carries"
)
RESISTANCE = Word(name="travel_resistance", letter="F_R", unit="N", meaning="resistance to travel")
TRAVEL_RESISTANCE = Formula(
    name="travel_resistance",
    title="Resistance to travel",
    given=(SINKAGE, GRADE, TRAVELLING_MASS),
    steps=(
        Step(
            word=RESISTANCE_SHARE,
            expression=sp.Rational(2, 100)
            + sp.Rational(15, 1000) * SINKAGE.symbol / sp.Float("0.0254")
            + GRADE.symbol,
            why="2 % rolling, 1.5 % for every inch of sinkage, 1 % for every per cent of grade",
        ),
        Step(
            word=RESISTANCE,
            expression=RESISTANCE_SHARE.symbol * TRAVELLING_MASS.symbol * STANDARD_GRAVITY,
            why="that share of the weight",
        ),
    ),
    source="earth-moving handbooks",
    error="of either sign: an average of pneumatic tyres on earth; on a steep grade the sine is "
    "less than the grade, which overstates",
)

FAR_END = Word(
    name="far_end", letter="b_L", unit="m", meaning="far end of the log from where it is held"
)
DROP = Word(
    name="hanging_drop", letter="h_d", unit="m", meaning="middle of the log below the lift point"
)
SWUNG_OUT = Word(
    name="swung_out", letter="w_s", unit="m", meaning="how far the log swings out sideways"
)
FARTHEST = Word(
    name="farthest_point",
    letter="r_f",
    unit="m",
    meaning="farthest that any of the log comes, from where reach is measured",
)
_SWUNG = Step(
    word=SWUNG_OUT,
    expression=DROP.symbol * sp.sin(LEAN.symbol),
    why="the log moves out by its drop times the sine of its lean",
)
FARTHEST_POINT = Formula(
    name="farthest_point",
    title="How far out a swinging log comes",
    given=(HOOK_REACH, FAR_END, DROP, LEAN),
    steps=(
        _SWUNG,
        Step(
            word=FARTHEST,
            expression=HOOK_REACH.symbol + FAR_END.symbol + SWUNG_OUT.symbol,
            why="the log may turn on its sling until it points straight out",
        ),
    ),
    source="geometry",
    error="overstates: a log that hangs tipped, or points elsewhere, does not come so far",
)

LOWEST = Word(
    name="lowest_height", letter="z_L", unit="m", meaning="lowest point of the log above the ground"
)
CIRCLE = Word(
    name="exclusion_radius",
    letter="r_x",
    unit="m",
    meaning="radius of the circle, round the point below the hook, that people stay out of",
)
EXCLUSION_RADIUS = Formula(
    name="exclusion_radius",
    title="Circle that people stay out of",
    given=(FAR_END, LOWEST, DROP, LEAN),
    steps=(
        _SWUNG,
        Step(
            word=CIRCLE,
            expression=FAR_END.symbol + SWUNG_OUT.symbol + LOWEST.symbol,
            why="where the log can swing, and as much farther as it can fall: it topples or rolls",
        ),
    ),
    source="geometry; the allowance for a fall is common practice, no source",
    error="overstates on level ground; on a slope a dropped log can roll farther downhill",
)

FORMULAS = (
    SWING_FROM_REST,
    TURNING_FORMULA,
    TURNING_AHEAD,
    SPEED_AT_ROLLOVER,
    SLEWING_SWING,
    TRAVEL_RESISTANCE,
    FARTHEST_POINT,
    EXCLUSION_RADIUS,
)
