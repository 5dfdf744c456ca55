"""How far out, and how high, can this log be lifted?"""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Literal

import numpy as np

from liftcalc.errors import InputError
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.sweep import Sweep, sweep
from liftcalc.machines.schema import Machine
from liftcalc.questions.search import Detail, InverseAnswer, Outcome, passing_run, tried
from liftcalc.remarks import Remark, near, up

PER_METRE = 1000
"""Places tried on a metre: one each millimetre."""
SHOWN = 10
"""Places in a whole centimetre, which answers are rounded to."""
Along = Literal["reach", "height"]


def greatest_reach(lift: Lift) -> InverseAnswer:
    """Greatest reach of the back end with this log, at the lift's height and slew.

    Parameters
    ----------
    lift : Lift
        Its own reach does not matter.

    Returns
    -------
    InverseAnswer
        Reach from the slew axis [m], rounded down to a centimetre. The way out starts at the
        reach where most is allowed and ends at the first millimetre that fails, so that every
        place between passes; places farther out that pass again are not counted.

    Raises
    ------
    InputError
        At the front end, where the arms decide the reach at a height.
    """
    if lift.end == "front":
        raise InputError.of(
            field="reach of the front end",
            given="a question for the greatest reach",
            wanted="the back end",
            fix="at the front the arms decide the reach at a height: ask how high, or check "
            "the lift to see the reach that follows",
        )
    return _greatest(lift, "reach")


def greatest_height(lift: Lift) -> InverseAnswer:
    """Greatest height of the lift point with this log, at the lift's reach and slew.

    At the front the reach follows from the height. Found and rounded as ``greatest_reach``.
    """
    return _greatest(lift, "height")


def _greatest(lift: Lift, along: Along) -> InverseAnswer:
    steps = _steps(lift.machine, along)
    swept = _swept(lift, along, steps / PER_METRE)
    passing = swept.passes[:, 0]
    start = int(np.argmax(np.nan_to_num(swept.allowed[:, 0], nan=-1.0)))
    run = passing_run(passing, start=start)
    answer = partial(
        InverseAnswer, question=Remark("greatest", along=along), kind="length", rounding="down"
    )
    if run is None or steps[run[1]] // SHOWN * SHOWN < steps[run[0]]:
        best = tried(_at(lift, along, float(steps[start]) / PER_METRE))
        return answer(
            value=None,
            stopped_by=best.stopped_by,
            at=best,
            notes=(_nowhere(along, best, float(steps[start]) / PER_METRE),),
        )
    value = int(steps[run[1]] // SHOWN) * SHOWN / PER_METRE
    beyond_value = (int(steps[run[1]]) + 1) / PER_METRE
    at, beyond = tried(_at(lift, along, value)), tried(_at(lift, along, beyond_value))
    nearest = int(-(-steps[run[0]] // SHOWN)) * SHOWN / PER_METRE
    return answer(
        value=value,
        stopped_by=beyond.stopped_by,
        at=at,
        beyond=beyond,
        beyond_value=beyond_value,
        details=(
            Detail(name=Remark("unbroken_from", along=along), figure=up(nearest, "length")),
            *_follows(lift, at),
        ),
        notes=_again(passing, run, steps, along),
    )


def _follows(lift: Lift, at: Outcome) -> tuple[Detail, ...]:
    if lift.end == "back" or at.answer is None:
        return ()
    reach = at.answer.reached.reach
    return (Detail(name=Remark("reach_there"), figure=near(reach, "length")),)


def _steps(machine: Machine, along: Along) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    """Every millimetre that any end could get to, as whole numbers."""
    back, front = machine.back, machine.front
    tools = max(
        float(np.hypot(*point.at)) for tool in machine.attachment for point in tool.lift_point
    )
    arms = max(float(back.boom.length + back.dipper.length), float(front.arm.length)) + tools
    pivot = back.foot_pin[0] if along == "reach" else max(back.foot_pin[1], front.arm_pivot[1])
    # No lift point that is asked for is in the ground.
    return np.arange(int((arms + float(pivot)) * PER_METRE) + 2)


def _swept(lift: Lift, along: Along, places: np.ndarray[tuple[int], np.dtype[np.float64]]) -> Sweep:
    slew = np.array([lift.slew])
    if along == "reach":
        return sweep(lift, reach=places, height=np.full(places.size, lift.height), slew=slew)
    if lift.end == "front":
        return sweep(lift, height=places)
    if lift.reach is None:
        raise InputError.of(field="reach", given="nothing", wanted="a reach from the slew axis")
    return sweep(lift, reach=np.full(places.size, lift.reach), height=places, slew=slew)


def _at(lift: Lift, along: Along, value: float) -> Lift:
    if along == "reach":
        return replace(lift, reach=value)
    # At the front a reach that was asked for belongs to another height.
    return replace(lift, height=value, reach=lift.reach if lift.end == "back" else None)


def _nowhere(along: Along, best: Outcome, value: float) -> Remark:
    other = "height" if along == "reach" else "reach"
    if best.answer is None:
        return Remark("gets_nowhere", other=other)
    at, lacks = near(value, "length"), up(-best.margin, "mass")
    return Remark("passes_nowhere", along=along, other=other, at=at, lacks=lacks)


def _again(
    passing: np.ndarray[tuple[int], np.dtype[np.bool_]],
    run: tuple[int, int],
    steps: np.ndarray[tuple[int], np.dtype[np.int64]],
    along: Along,
) -> tuple[Remark, ...]:
    beyond = np.flatnonzero(passing[run[1] + 1 :])
    if not beyond.size:
        return ()
    first = steps[run[1] + 1 + int(beyond[0])] / PER_METRE
    return (Remark("passes_again", at=near(first, "length"), along=along),)
