"""Lean, swing, resistance and speed on the move; how far a swinging log comes."""

from __future__ import annotations

from collections import namedtuple

from liftcalc.physics.formula import formula, step
from liftcalc.physics.functions import Real, atan, cos, sin, sqrt
from liftcalc.units import G0

SwingFromRest = namedtuple("SwingFromRest", "lean peak_swing")
SwingPull = namedtuple("SwingPull", "swing_pull")
Turning = namedtuple("Turning", "turn_rate turning_acceleration planned_turning")
TurningAhead = namedtuple("TurningAhead", "rearward_in_turn")
SpeedAtRollover = namedtuple("SpeedAtRollover", "greatest_speed")
SlewingSwing = namedtuple(
    "SlewingSwing", "slewing_acceleration start_stop_swing outward_lean slewing_swing"
)
TravelResistance = namedtuple("TravelResistance", "resistance_share travel_resistance")
FarthestPoint = namedtuple("FarthestPoint", "swung_out farthest_point")
ExclusionRadius = namedtuple("ExclusionRadius", "swung_out exclusion_radius")

INCH = 0.0254


@formula(
    source="equilibrium and energy of a pendulum, any text on dynamics",
    error="exact for a pendulum without damping; an acceleration that grows slowly swings less, so "
    "it overstates; a load that swings already can swing farther",
)
def swing_from_rest(*, steady_acceleration: Real) -> SwingFromRest:
    """Swing of a hanging load after a sudden steady acceleration."""
    lean = step(
        atan(steady_acceleration / G0),
        "the load would hang still along gravity less the acceleration",
    )
    peak_swing = step(2 * lean, "from rest it swings through that lean, as far again")
    return SwingFromRest(lean, peak_swing)


@formula(
    source="conservation of energy on a circle",
    error="exact for a pendulum let go at its swing, its hook at rest",
)
def swing_pull(*, swing: Real) -> SwingPull:
    """Pull of a swinging load as it passes below its hook."""
    most = step(3 - 2 * cos(swing), "its weight, and what bends its path: v²/l = 2g(1 − cos θ)")
    return SwingPull(most)


@formula(
    source="kinematics; the share is vehicle practice",
    error="exact for a steady turn; overstates for stiff tyres; the outer tyre's turning circle in "
    "place of the radius at the rear axle understates",
)
def turning(*, speed: Real, turn_radius: Real, rollover_share: Real) -> Turning:
    """Acceleration of a turn."""
    turn_rate = step(speed / turn_radius, "the machine turns as fast as it goes round")
    acceleration = step(speed * turn_rate, "v²/R, the same along the whole length of the machine")
    planned_turning = step(
        acceleration / rollover_share,
        "tyres and frame give: real machines go over sooner than rigid ones",
    )
    return Turning(turn_rate, acceleration, planned_turning)


@formula(
    source="kinematics of a rigid body",
    error="exact for a steady turn, but for the share, which overstates",
)
def turning_ahead(*, turn_rate: Real, ahead: Real, rollover_share: Real) -> TurningAhead:
    """What a turn pulls forward on a point ahead of the rear axle."""
    rearward = step(
        turn_rate**2 * ahead / rollover_share,
        "the nose swings round the rear axle; taken larger by the same share as the turn",
    )
    return TurningAhead(rearward)


@formula(
    source="kinematics; the share is vehicle practice",
    error="understates for stiff tyres; holds for smooth ground, a bump takes the machine over "
    "sooner",
)
def speed_at_rollover(
    *, acceleration_limit: Real, turn_radius: Real, rollover_share: Real
) -> SpeedAtRollover:
    """Speed at which a turn takes the machine to its limit."""
    greatest_speed = step(
        sqrt(rollover_share * acceleration_limit * turn_radius), "v²/(κR) is the limit"
    )
    return SpeedAtRollover(greatest_speed)


@formula(
    source="energy of a pendulum; statics of a conical one",
    error="overstates: the leans along the circle and away from the axis are square to each other "
    "and are added as if they were not; with 1, a stop while the load still swings from the start "
    "is understated",
)
def slewing_swing(
    *, hook_reach: Real, slew_speed: Real, slew_stop: Real, swings_added: Real
) -> SlewingSwing:
    """Swing of a hanging load when the back end slews."""
    acceleration = step(
        slew_speed * hook_reach / slew_stop,
        "the hook gains or loses its speed along the circle in that time",
    )
    start_stop_swing = step(
        2 * atan(acceleration / G0), "twice the lean, as after any sudden acceleration"
    )
    outward_lean = step(
        atan(slew_speed**2 * hook_reach / G0),
        "what turns in a circle is pulled inward only by leaning outward",
    )
    swing = step(swings_added * start_stop_swing + outward_lean, "all at once and in one direction")
    return SlewingSwing(acceleration, start_stop_swing, outward_lean, swing)


@formula(
    source="earth-moving handbooks",
    error="of either sign: an average of pneumatic tyres on earth; on a steep grade the sine is "
    "less than the grade, which overstates",
)
def travel_resistance(*, sinkage: Real, grade: Real, travelling_mass: Real) -> TravelResistance:
    """Resistance to travel."""
    resistance_share = step(
        0.02 + 0.015 * sinkage / INCH + grade,
        "2 % rolling, 1.5 % for every inch of sinkage, 1 % for every per cent of grade",
    )
    resistance = step(resistance_share * travelling_mass * G0, "that share of the weight")
    return TravelResistance(resistance_share, resistance)


def _swung_out(hanging_drop: Real, lean: Real) -> Real:
    return step(
        hanging_drop * sin(lean), "the log moves out by its drop times the sine of its lean"
    )


@formula(
    source="geometry",
    error="overstates: a log that hangs tipped, or points elsewhere, does not come so far",
)
def farthest_point(
    *, hook_reach: Real, far_end: Real, hanging_drop: Real, lean: Real
) -> FarthestPoint:
    """How far out a swinging log comes."""
    swung_out = _swung_out(hanging_drop, lean)
    farthest = step(
        hook_reach + far_end + swung_out,
        "the log may turn on its sling until it points straight out",
    )
    return FarthestPoint(swung_out, farthest)


@formula(
    source="geometry; the allowance for a fall is common practice, no source",
    error="overstates on level ground; on a slope a dropped log can roll farther downhill",
)
def exclusion_radius(
    *, far_end: Real, lowest_height: Real, hanging_drop: Real, lean: Real
) -> ExclusionRadius:
    """Circle that people stay out of."""
    swung_out = _swung_out(hanging_drop, lean)
    radius = step(
        far_end + swung_out + lowest_height,
        "where the log can swing, and as much farther as it can fall: it topples or rolls",
    )
    return ExclusionRadius(swung_out, radius)
