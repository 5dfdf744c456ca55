"""Every way that a lift may go: its journey put into its site, its unseen slopes, its pulls."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from liftcalc.factors import LEVEL_LIMIT
from liftcalc.machines.number import plain
from liftcalc.physics import formulas
from liftcalc.physics.functions import Real, atan, atan2, cos, hypot, is_zero, sin, tan
from liftcalc.physics.worked import Worked, work
from liftcalc.site.motion import ROLLOVER_SHARE

if TYPE_CHECKING:
    from liftcalc.evaluation.lift import Lift
    from liftcalc.site.site import Site


def turned(lift: Lift) -> tuple[Worked, ...]:
    """What a turn asks of the machine to the side and along it; none where none was said."""
    motion = lift.motion
    if motion.turn_radius is None or not motion.speed:
        return ()
    turn = work(
        "turn",
        formulas.turning,
        speed=motion.speed,
        turn_radius=motion.turn_radius,
        rollover_share=ROLLOVER_SHARE,
    )
    ahead = work(
        "turn",
        formulas.turning_ahead,
        turn_rate=turn.steps.turn_rate,
        # No front end holds its load farther ahead of its axle than the wheelbase is long.
        ahead=2 * plain(lift.machine.wheels.wheelbase),
        rollover_share=ROLLOVER_SHARE,
    )
    return turn, ahead


def every_way(lift: Lift) -> tuple[Lift, ...]:
    """The lift with its journey put into its site, every way it may go: the worst counts.

    A log drawn with one end up pulls most or least down. Turn and braking may come either way;
    in a turn the nose swings round the rear axle, which throws the load forward.
    """
    motion, turn = lift.motion, 0.0
    brake: Real = motion.braking
    if lift.journey:
        round_it, ahead = lift.journey
        turn, brake = round_it.steps.planned_turning, brake + ahead.steps.rearward_in_turn
    if is_zero(turn) and is_zero(brake):
        return tuple(
            each if taken == lift.taken else replace(each, taken=taken)
            for each in _slopes(lift)
            for taken in lift.taken.states
        )
    rest = replace(motion, turn_radius=None, braking=0.0)
    steady = is_zero(motion.braking)
    return tuple(
        replace(
            each,
            taken=taken,
            motion=rest,
            braked=0.0 if steady else np.copysign(motion.braking, forward),
            site=replace(
                each.site,
                acceleration_forward=each.site.acceleration_forward + forward,
                acceleration_left=each.site.acceleration_left + left,
            ),
        )
        for each in _slopes(lift)
        for taken in lift.taken.states
        for forward in _both_ways(brake)
        for left in _both_ways(turn)
    )


def _slopes(lift: Lift) -> tuple[Lift, ...]:
    """The lift on every slope that may be there unseen, or come as a tyre or stabiliser gives way.

    Of all directions four are tried, steeper by √2: no slope within the range leans the
    machine farther to any side.
    """
    if not is_zero(lift.sunk):
        unsunk = replace(lift, level_within=0.0)
        unseen = math.tan(lift.level_within) if is_zero(lift.site.slope) else 0.0
        # A slope that only may be there is none of the ground's.
        within = lift.level_within or (LEVEL_LIMIT if is_zero(lift.site.slope) else 0.0)
        return tuple(
            replace(unsunk, level_within=within, site=each)
            for each in leaning(lift.site, by=unseen + lift.sunk)
        )
    if not lift.level_within or not is_zero(lift.site.slope):
        return (lift,)
    steep = math.atan(math.sqrt(2) * math.tan(lift.level_within))
    return tuple(replace(lift, site=replace(lift.site, slope=steep, heading=way)) for way in ROUND)


ROUND = (0.0, math.pi / 2, math.pi, -math.pi / 2)
"""Headings of slopes that stand for all [rad]."""


def leaning(site: Site, *, by: Real) -> tuple[Site, ...]:
    """The site, and the same leaning by as much more as something gives way, whichever way [-].

    A machine that was levelled is level no longer, but has to stand on its slope as well.
    """
    steep, heading = (0.0, 0.0) if site.levelled else (tan(site.slope), site.heading)
    more = math.sqrt(2) * by
    ahead = [steep * cos(heading) + more * math.cos(way) for way in ROUND]
    left = [steep * sin(heading) + more * math.sin(way) for way in ROUND]
    return site, *(
        replace(site, slope=atan(hypot(x, y)), heading=atan2(y, x), levelled=False)
        for x, y in zip(ahead, left, strict=True)
    )


def _both_ways(size: Real) -> tuple[Real, ...]:
    return (size,) if is_zero(size) else (-size, size)
