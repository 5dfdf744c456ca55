"""On how steep a slope could this lift still be made?"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np

from liftcalc.evaluation.answer import Reached
from liftcalc.evaluation.capacity import plane_gravity, ram_capacity
from liftcalc.evaluation.check import reach
from liftcalc.evaluation.clearances import allowed_by, clearances
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.linear_criteria import LinearCriterion, criterion_capacity, linear_criteria
from liftcalc.evaluation.log_position import LogPosition, below, lowest
from liftcalc.evaluation.rated_chart import plate_limit
from liftcalc.evaluation.ratings import rated
from liftcalc.factors import LEVEL_LIMIT, RAM_SHARE, TIPPING_SHARE
from liftcalc.physics.plane import Real
from liftcalc.physics.wrench import about
from liftcalc.questions.search import Detail, InverseAnswer, tried

PER_DEGREE = 10
"""Slopes tried on a degree."""
MOST = 300
"""Steepest slope that is tried, in tenths of a degree: past it a machine slides or rolls anyhow."""
HEADINGS = 120
"""Directions of uphill that are tried all round, one each three degrees."""
CLOSER = 1440
"""Directions at the answer itself, one each quarter degree."""


def steepest_slope(lift: Lift, *, heading: float | None = None) -> InverseAnswer:
    """Steepest slope on which a lift still passes, every gentler one passing too.

    Parameters
    ----------
    lift : Lift
        Its own slope does not matter; its accelerations do.
    heading : float or None
        Uphill direction in the machine frame [rad]; None tries all round and takes the worst.

    Returns
    -------
    Turned
        Slope [rad], rounded down to a tenth of a degree. Everything that ``check`` counts is in
        it, sliding on the ground's friction too; a machine that was levelled is taken as not
        levelled, since it is the slope under its feet that is asked for.

    Raises
    ------
    InputError
        When the machine cannot stand so on the level.
    """
    around = heading is None
    headings = _around(HEADINGS) if heading is None else np.array([heading])
    question = "steepest slope for this lift, " + (
        "uphill whichever way is worst" if around else "uphill as stated"
    )
    posed = reach(_on(lift, 0.0, 0.0))
    steps = np.radians(np.arange(MOST + 1) / PER_DEGREE)
    passing = np.all(_passing(lift, posed, steps[:, np.newaxis], headings), axis=1)
    step = MOST if passing.all() else int(np.argmin(passing)) - 1
    while step >= 0 and around:
        if np.all(_passing(lift, posed, steps[step], _around(CLOSER))):
            break
        step -= 1
    if step < 0:
        level = tried(_on(lift, 0.0, float(headings[0])))
        return InverseAnswer(
            question=question,
            value=None,
            kind="slope",
            rounding="down",
            stopped_by=level.stopped_by,
            at=level,
            notes=("It does not pass even on level ground.",),
        )
    value = float(steps[step])
    at = tried(_on(lift, value, _worst(lift, posed, value, headings)))
    if step == MOST:
        return InverseAnswer(
            question=question,
            value=value,
            kind="slope",
            rounding="down",
            stopped_by="nothing up to 30°, the steepest that is tried",
            at=at,
            notes=_notes(lift, value),
        )
    past = _worst(lift, posed, float(steps[step + 1]), headings)
    beyond = tried(_on(lift, float(steps[step + 1]), past))
    return InverseAnswer(
        question=question,
        value=value,
        kind="slope",
        rounding="down",
        stopped_by=beyond.stopped_by,
        at=at,
        beyond=beyond,
        beyond_value=float(steps[step + 1]),
        details=(Detail(name="uphill then (0° ahead, 90° to the left)", value=past, kind="angle"),),
        notes=_notes(lift, value),
    )


def _notes(lift: Lift, slope: float) -> tuple[str, ...]:
    said = []
    if slope > LEVEL_LIMIT:
        said.append(
            "Ratings assume level ground within 1 %. This is where the model stops, not a slope "
            "to work on: level the machine."
        )
    if lift.site.levelled:
        said.append(
            "Taken as not levelled. Really brought level within 1 % on its pads the machine itself "
            "does not feel the slope, but the ground under its pads does."
        )
    where = lift.ground.name if lift.ground else "unknown ground"
    said.append(
        f"Sliding is in it with a friction of {lift.friction:.2f}"
        + ("." if lift.motion.friction is not None else f", careful for {where}.")
    )
    if lift.stance == "wheels":
        said.append("Tyres that sink on the downhill side steepen the slope: that is not in it.")
    elif lift.ground is None or lift.ground.allowed is None:
        said.append("Sinking is not in it: say what ground the pads stand on.")
    if lift.point.hold == "hangs" and not lift.swings:
        said.append("A load that swings downhill is not in it: give a swing to have that.")
    return tuple(said)


def _passing(lift: Lift, posed: Reached, slope: Real, heading: Real) -> Any:
    """Where the lift passes; what is not a number does not."""
    allowed = allowed_on_slopes(lift, posed, slope=slope, heading=heading)
    return (allowed >= _needed(lift, slope=slope)) & (allowed > 0)


def allowed_on_slopes(lift: Lift, posed: Reached, *, slope: Real, heading: Real) -> Any:
    """Allowed load of a posed lift over slopes and headings [kg]; arrays broadcast.

    The arithmetic of ``check`` over gravity instead of over places, every way the machine may
    brake and turn; tests hold the two equal. The machine counts as not levelled.
    """
    log = below(lift)
    least: Any = min(each.capacity for each in rated(lift, log))
    plate = plate_limit(lift, reach=np.asarray(posed.reach))
    if plate is not None:
        least = np.minimum(least, plate)
    for way in lift.ways:
        site = replace(way.site, slope=slope, heading=heading, levelled=False)
        least = np.minimum(least, _one_way(replace(way, site=site), posed, log))
    return least


def _one_way(lift: Lift, posed: Reached, log: LogPosition) -> Any:
    """Least of what depends on the slope, on a site of arrays that holds all the motion."""
    gravity = lift.site.gravity
    lean = _lean(lift, reach=posed.reach)
    level, _ = lowest(lift, log, asked=posed.asked[2], load_at=posed.arm.load_at)
    least: Any = np.inf
    for each in clearances(
        lift,
        log,
        arm=posed.arm,
        reach=posed.reach,
        height=float(posed.asked[2]),
        lean=lean,
        lowest=level,
    ):
        least = np.minimum(least, allowed_by(each))
    along_u, along_w = plane_gravity(posed.arm, gravity=gravity, slew=lift.slew)
    for at in posed.arm.load_places:
        for joint in posed.arm.joints:
            held = ram_capacity(
                joint,
                load_at=at,
                gravity_u=along_u,
                gravity_w=along_w,
                hydraulics=lift.machine.hydraulics,
                gauge=lift.gauge,
                swing=lean,
                hung=lift.hung,
            ).capacity
            least = np.minimum(least, RAM_SHARE.value * held)
    wholes, loads = tuple(set(posed.wholes)), tuple(set(posed.loads))
    for demand in (*tipping(lift, posed), *linear_criteria(lift, posed.standing, gravity=gravity)):
        fails = criterion_capacity(
            demand, wholes=wholes, loads=loads, gravity=gravity, lean=lean, hung=lift.hung
        ).capacity
        least = np.minimum(least, demand.share.value * fails)
    return least


def tipping(lift: Lift, posed: Reached) -> tuple[LinearCriterion, ...]:
    """The tipping lines of a posed lift, each as a demand with the share of the duty."""
    return tuple(
        LinearCriterion(
            name="tipping",
            where=line.name,
            ways=(((about(line), 0.0),),),
            share=TIPPING_SHARE[lift.duty],
        )
        for line in posed.standing.lines
    )


def _each(lift: Lift, slope: Real, of: Callable[[Lift], float]) -> Real:
    """Something of the lift at every slope; only where a log is drawn does it change with it."""
    if not lift.taken.way.startswith("drawn"):
        return of(replace(lift, site=replace(lift.site, slope=0.0)))
    steps, back = np.unique(np.asarray(slope), return_inverse=True)
    found = [of(replace(lift, site=replace(lift.site, slope=float(each)))) for each in steps]
    return np.array(found)[back].reshape(np.shape(slope))[()]


def _lean(lift: Lift, *, reach: float) -> Real:
    return _each(lift, lift.site.slope, lambda each: float(each.lean(reach=reach)))


def _needed(lift: Lift, *, slope: Real) -> Real:
    return _each(lift, slope, lambda each: each.needed)


def _around(count: int) -> np.ndarray[Any, np.dtype[np.float64]]:
    return np.linspace(-math.pi, math.pi, count, endpoint=False)


def _worst(
    lift: Lift, posed: Reached, slope: float, headings: np.ndarray[Any, np.dtype[np.float64]]
) -> float:
    """The heading that allows least at a slope [rad]."""
    if headings.size > 1:
        headings = _around(CLOSER)
    allowed = allowed_on_slopes(lift, posed, slope=slope, heading=headings)
    return float(headings[int(np.argmin(np.broadcast_to(allowed, headings.shape)))])


def _on(lift: Lift, slope: float, heading: float) -> Lift:
    return replace(lift, site=replace(lift.site, slope=slope, heading=heading, levelled=False))
