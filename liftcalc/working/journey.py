"""The worked steps of slope, journey and lean."""

from __future__ import annotations

import math

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.lift import Lift
from liftcalc.physics import formulas
from liftcalc.physics.worked import work
from liftcalc.site.motion import ROLLOVER_SHARE
from liftcalc.working.rows import Row, Section, bracketed, figure, plain_row, rows_of, section_of


def turn_section(answer: Answer, asked: Lift) -> Section | None:
    """Turning and braking as they come into gravity, the way that allows least."""
    motion, site = asked.motion, answer.lift.site
    if not (motion.turning or motion.braking):
        return None
    rows: tuple[Row, ...] = ()
    ahead = 0.0
    if motion.turning and motion.turn_radius is not None:
        turn = work(
            "Turn",
            formulas.turning,
            speed=motion.speed,
            turn_radius=motion.turn_radius,
            rollover_share=ROLLOVER_SHARE,
        )
        thrown = work(
            "Turn",
            formulas.turning_ahead,
            turn_rate=float(turn.steps.turn_rate),
            ahead=2 * float(asked.machine.wheels.wheelbase),
            rollover_share=ROLLOVER_SHARE,
        )
        ahead = thrown.result
        rows += rows_of(turn) + rows_of(thrown)
    for axis, said, whole, size in (
        (
            "along the machine",
            asked.site.acceleration_forward,
            site.acceleration_forward,
            motion.braking + ahead,
        ),
        ("to its left", asked.site.acceleration_left, site.acceleration_left, motion.turning),
    ):
        sign = "+" if float(whole) >= float(said) else "−"
        rows += (
            plain_row(
                f"acceleration {axis}",
                f"{bracketed(float(said))} {sign} {figure(size)}",
                f"{figure(float(whole))} m/s²",
                letters=r"a \pm \Delta a",
                why="braking, backing and both sides are tried; this is the way that allows least",
            ),
        )
    return Section(title="Journey: what braking and turning add", rows=rows, source="kinematics")


def gravity_section(answer: Answer) -> Section:
    """Slope and acceleration as one gravity."""
    site = answer.lift.site
    return section_of(
        work(
            "Ground",
            formulas.effective_gravity,
            slope=0.0 if site.levelled else float(site.slope),
            heading=float(site.heading),
            acceleration_x=float(site.acceleration_forward),
            acceleration_y=float(site.acceleration_left),
            acceleration_z=0.0,
        )
    )


def lean_section(answer: Answer) -> Section | None:
    """How far the load may lean: every part of it, and their sum."""
    lift, reached = answer.lift, answer.reached
    if not reached.lean:
        return None
    rows: tuple[Row, ...] = ()
    parts = [float(lift.swing)] if lift.swing else []
    shaken = float(lift.site.acceleration)
    if shaken:
        from_rest = work("Shaken", formulas.swing_from_rest, steady_acceleration=shaken)
        # The first lean is in the effective gravity; from rest it swings through as much again.
        rows += rows_of(from_rest)[:1]
        parts.append(float(from_rest.steps.lean))
    motion = lift.motion
    if motion.slew_speed and motion.slew_stop is not None and lift.end == "back":
        slewing = work(
            "Slewing",
            formulas.slewing_swing,
            hook_reach=float(reached.reach),
            slew_speed=motion.slew_speed,
            slew_stop=motion.slew_stop,
            swings_added=1.0,
        )
        rows += rows_of(slewing)
        parts.append(slewing.result)
    if lift.pull.lean:
        parts.append(lift.pull.lean)
    numbers = " + ".join(figure(each) for each in parts)
    rows += (
        plain_row(
            "lean of the load",
            numbers,
            f"{figure(float(reached.lean))} rad",
            letters=r"\alpha = \sum \alpha_i",
            why=f"swing that was said, shaking, slewing and the pull of a drawn log, together; "
            f"{math.degrees(float(reached.lean)):.1f}°, never more than 90°",
        ),
    )
    return Section(title="Lean of the load", rows=rows, source="pendulum; parts taken together")


def pull_sections(answer: Answer) -> tuple[Section, ...]:
    """What of the log comes on the hook, where it is not lifted whole and free."""
    lift = answer.lift
    if lift.taken.way == "whole" and lift.taken.breakout == 1.0:
        return ()
    return tuple(section_of(each) for each in lift.pull.worked)
