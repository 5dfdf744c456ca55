"""On how steep a slope could this lift still be made?"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np

from liftcalc.answers.answer import Reached
from liftcalc.answers.capacity import line_capacity, plane_gravity, ram_capacity
from liftcalc.answers.check import reach
from liftcalc.answers.lift import Lift
from liftcalc.answers.plates import plate_limit
from liftcalc.answers.search import Detail, Turned, tried
from liftcalc.machines.standing import Standing, stand
from liftcalc.physics.plane import Real
from liftcalc.rules import LEVEL_LIMIT, RAM_SHARE, TIPPING_SHARE
from liftcalc.site.ground import Site

PER_DEGREE = 10
"""Slopes tried on a degree."""
MOST = 300
"""Steepest slope that is tried, in tenths of a degree: past it a machine slides or rolls anyhow."""
HEADINGS = 120
"""Directions of uphill that are tried all round, one each three degrees."""
CLOSER = 1440
"""Directions at the answer itself, one each quarter degree."""


def steepest_slope(lift: Lift, *, heading: float | None = None) -> Turned:
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
        Slope [rad], rounded down to a tenth of a degree. Tipping, rams, lift point and plate
        only: sliding and sinking are not modelled and may come first.

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
    need = lift.needed
    steps = np.radians(np.arange(MOST + 1) / PER_DEGREE)
    allowed = allowed_on_slopes(lift, posed, slope=steps[:, np.newaxis], heading=headings)
    failing = ~np.all((allowed >= need) & (allowed > 0), axis=1)
    step = int(np.argmax(failing)) - 1 if failing.any() else MOST
    while step >= 0 and around:
        close = _around(CLOSER)
        fine = allowed_on_slopes(lift, posed, slope=steps[step], heading=close)
        if np.all((fine >= need) & (fine > 0)):
            break
        step -= 1
    if step < 0:
        level = tried(_on(lift, 0.0, float(headings[0])))
        return Turned(
            question=question, value=None, kind="slope", rounding="down",
            stopped_by=level.stopped_by, at=level,
            notes=("It does not pass even on level ground.",),
        )  # fmt: skip
    worst = _worst(lift, posed, steps[step], headings)
    at = tried(_on(lift, float(steps[step]), worst))
    if step == MOST:
        return Turned(
            question=question, value=float(steps[step]), kind="slope", rounding="down",
            stopped_by="nothing up to 30°, the steepest that is tried", at=at, notes=_NOTES,
        )  # fmt: skip
    past = _worst(lift, posed, steps[step + 1], headings)
    beyond = tried(_on(lift, float(steps[step + 1]), past))
    return Turned(
        question=question, value=float(steps[step]), kind="slope", rounding="down",
        stopped_by=beyond.stopped_by, at=at, beyond=beyond, beyond_value=float(steps[step + 1]),
        details=(Detail(name="uphill then (0° ahead, 90° to the left)", value=past, kind="angle"),),
        notes=(*(_LEVEL if steps[step] > LEVEL_LIMIT else ()), *_NOTES),
    )  # fmt: skip


_LEVEL = (
    "Ratings assume level ground within 1 %. This is where the model stops, not a slope to work "
    "on: level the machine.",
)
_NOTES = (
    "Sliding, sinking and a load that swings downhill are not in it (give a swing to have that).",
)


def allowed_on_slopes(lift: Lift, posed: Reached, *, slope: Real, heading: Real) -> Any:
    """Allowed load of a posed lift over slopes and headings [kg]; arrays broadcast.

    The arithmetic of ``check`` over gravity instead of over places; tests hold the two equal.
    """
    gravity = replace(lift.site, slope=slope, heading=heading).gravity
    along_u, along_w = plane_gravity(posed.arm, gravity=gravity, slew=lift.slew)
    least: Any = float(lift.point.wll)
    plate = plate_limit(lift, reach=np.asarray(posed.reach))
    if plate is not None:
        least = np.minimum(least, plate)
    for at in posed.arm.load_places:
        for joint in posed.arm.joints:
            held = ram_capacity(
                joint, load_at=at, gravity_u=along_u, gravity_w=along_w,
                hydraulics=lift.machine.hydraulics, gauge=lift.gauge, swing=lift.lean,
                hung=lift.hung,
            ).capacity  # fmt: skip
            least = np.minimum(least, RAM_SHARE.value * held)
        for standing in _standings(lift, posed):
            for side in {lift.side_room, -lift.side_room}:
                x, y, z = lift.in_machine(at)
                for line in standing.lines:
                    tips = line_capacity(
                        line, whole=standing.whole, load=(x, y + side, z), gravity=gravity,
                        swing=posed.lean, hung=lift.hung,
                    ).tipping_load  # fmt: skip
                    least = np.minimum(least, TIPPING_SHARE[lift.duty].value * tips)
    return least


def _standings(lift: Lift, posed: Reached) -> list[Standing]:
    """With tanks full and without what may be used up."""
    ends = (posed.other, posed.arm) if lift.end == "back" else (posed.arm, posed.other)
    return [
        stand(
            lift.machine, front=ends[0], back=ends[1],
            slew=lift.slew if lift.end == "back" else 0.0, sideshift=lift.sideshift,
            stance=lift.stance, operator=lift.operator, full=full,
        )
        for full in (True, False)
    ]  # fmt: skip


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
    site = Site(
        slope=slope, heading=heading, acceleration_forward=lift.site.acceleration_forward,
        acceleration_left=lift.site.acceleration_left,
    )  # fmt: skip
    return replace(lift, site=site)
