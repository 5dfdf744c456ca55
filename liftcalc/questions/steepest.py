"""On how steep a slope could this lift still be made?"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import partial
from typing import Any

import numpy as np

from liftcalc.evaluation.check import reach
from liftcalc.evaluation.evaluator import Evaluator
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.ways import leaning
from liftcalc.factors import LEVEL_LIMIT
from liftcalc.machines.arm import Arm
from liftcalc.physics.functions import Real, is_zero
from liftcalc.questions.search import Detail, InverseAnswer, tried
from liftcalc.remarks import Remark, near

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
    InverseAnswer
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
    question = Remark("steepest_any" if around else "steepest_stated")
    answer = partial(InverseAnswer, question=question, kind="slope", rounding="down")
    arm = reach(_on(lift, 0.0, 0.0)).arm
    steps = np.radians(np.arange(MOST + 1) / PER_DEGREE)
    passing = np.all(_passing(lift, arm, steps[:, np.newaxis], headings), axis=1)
    step = MOST if passing.all() else int(np.argmin(passing)) - 1
    while step >= 0 and around:
        if np.all(_passing(lift, arm, steps[step], _around(CLOSER))):
            break
        step -= 1
    if step < 0:
        level = tried(_on(lift, 0.0, float(headings[0])))
        stops = level.stopped_by
        return answer(value=None, stopped_by=stops, at=level, notes=(Remark("not_on_level"),))
    value = float(steps[step])
    at, notes = tried(_on(lift, value, _worst(lift, arm, value, headings))), _notes(lift, value)
    if step == MOST:
        gentler = Remark("nothing_up_to", slope=near(value, "slope"))
        return answer(value=value, stopped_by=gentler, at=at, notes=notes)
    past = _worst(lift, arm, float(steps[step + 1]), headings)
    beyond = tried(_on(lift, float(steps[step + 1]), past))
    return answer(
        value=value,
        stopped_by=beyond.stopped_by,
        at=at,
        beyond=beyond,
        beyond_value=float(steps[step + 1]),
        details=(Detail(name=Remark("uphill_then"), figure=near(past, "angle")),),
        notes=notes,
    )


def _notes(lift: Lift, slope: float) -> tuple[Remark, ...]:
    level, friction = near(math.tan(LEVEL_LIMIT), "ratio"), lift.friction
    said = [Remark("model_stops", level=level)] if slope > LEVEL_LIMIT else []
    if lift.site.levelled:
        said.append(Remark("as_unlevelled", level=level))
    if lift.motion.friction is not None:
        said.append(Remark("slides_as_given", friction=friction))
    else:
        ground = lift.ground.name if lift.ground else "unknown ground"
        said.append(Remark("slides_as_usual", friction=friction, ground=ground))
    if lift.stance == "wheels":
        said.append(Remark("tyres_steepen"))
    elif lift.ground is None or not lift.ground.presumed:
        said.append(Remark("sinking_uncounted"))
    if lift.point.hold == "hangs" and not lift.swings:
        said.append(Remark("swing_uncounted"))
    return tuple(said)


def _passing(lift: Lift, arm: Arm, slope: Real, heading: Real) -> Any:
    """Where the lift passes; what is not a number does not."""
    allowed = allowed_on_slopes(lift, arm, slope=slope, heading=heading)
    return (allowed >= _needed(lift, slope)) & (allowed > 0)


def allowed_on_slopes(lift: Lift, arm: Arm, *, slope: Real, heading: Real) -> Any:
    """Allowed load of a posed lift over slopes and headings [kg]; arrays broadcast.

    Every way the machine may brake and turn; the machine counts as not levelled.
    """
    if not lift.taken.skidded:
        return _allowed(lift, arm, slope, heading)
    # What a skidded log pulls changes with the slope, one slope at a time.
    steps, back = np.unique(np.asarray(slope), return_inverse=True)
    each = np.stack([_allowed(lift, arm, float(step), heading) for step in steps])
    shape = np.broadcast_shapes(np.shape(slope), np.shape(heading))
    rows = np.broadcast_to(back.reshape(np.shape(slope)), shape)
    columns = np.broadcast_to(np.arange(np.size(heading)).reshape(np.shape(heading)), shape)
    return each.reshape(steps.size, -1)[rows, columns]


def _allowed(lift: Lift, arm: Arm, slope: Real, heading: Real) -> Any:
    least: Any = np.inf
    for way in lift.ways:
        told = replace(way.site, slope=slope, heading=heading, levelled=False)
        for site in (told,) if is_zero(lift.sunk) else leaning(told, by=lift.sunk):
            found = Evaluator(replace(way, site=site)).least(arm).load
            if way.pull.share != lift.pull.share:
                # As what the lift itself would have on its hook with the same log.
                scale = replace(lift, site=site).pull.share / replace(way, site=site).pull.share
                found = np.maximum((found - lift.rigging) * scale + lift.rigging, 0.0)
            least = np.minimum(least, np.broadcast_to(found, np.broadcast(slope, heading).shape))
    return least


def _needed(lift: Lift, slope: Real) -> Real:
    """What the lift point must be allowed at every slope [kg]; a skidded log's pull changes."""
    if not lift.taken.skidded:
        return replace(lift, site=replace(lift.site, slope=0.0)).needed
    steps, back = np.unique(np.asarray(slope), return_inverse=True)
    needed = [replace(lift, site=replace(lift.site, slope=float(each))).needed for each in steps]
    return np.array(needed)[back].reshape(np.shape(slope))[()]


def _around(count: int) -> np.ndarray[Any, np.dtype[np.float64]]:
    return np.linspace(-math.pi, math.pi, count, endpoint=False)


def _worst(
    lift: Lift, arm: Arm, slope: float, headings: np.ndarray[Any, np.dtype[np.float64]]
) -> float:
    """The heading that allows least at a slope [rad]."""
    if headings.size > 1:
        headings = _around(CLOSER)
    allowed = allowed_on_slopes(lift, arm, slope=slope, heading=headings)
    return float(headings[int(np.argmin(np.broadcast_to(allowed, headings.shape)))])


def _on(lift: Lift, slope: float, heading: float) -> Lift:
    return replace(lift, site=replace(lift.site, slope=slope, heading=heading, levelled=False))
