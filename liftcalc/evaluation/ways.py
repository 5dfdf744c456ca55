"""Every way that a lift may go: its journey put into its site, its unseen slopes, its pulls."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from liftcalc.machines.number import plain
from liftcalc.physics import formulas
from liftcalc.physics.functions import Real, is_zero
from liftcalc.physics.worked import Worked, work
from liftcalc.site.motion import ROLLOVER_SHARE

if TYPE_CHECKING:
    from liftcalc.evaluation.lift import Lift


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
    """The lift on every slope that may be there unseen.

    Of all directions four are tried, steeper by √2: no slope within the range leans the
    machine farther to any side.
    """
    if not lift.level_within or not is_zero(lift.site.slope):
        return (lift,)
    steep = math.atan(math.sqrt(2) * math.tan(lift.level_within))
    return tuple(
        replace(lift, site=replace(lift.site, slope=steep, heading=way))
        for way in (0.0, math.pi / 2, math.pi, -math.pi / 2)
    )


def _both_ways(size: Real) -> tuple[Real, ...]:
    return (size,) if is_zero(size) else (-size, size)
