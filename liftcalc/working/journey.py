"""The worked steps of slope, journey and lean."""

from __future__ import annotations

import math

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.lift import Lift
from liftcalc.working.rows import Row, Section, bracketed, figure, plain_row, rows_of, section_of


def turn_section(answer: Answer, asked: Lift) -> Section | None:
    """Turning and braking as they come into gravity, the way that allows least."""
    site = answer.lift.site
    if not (answer.journey or asked.motion.braking):
        return None
    rows = tuple(row for each in answer.journey for row in rows_of(each))
    turn, ahead = (each.result for each in answer.journey) if answer.journey else (0.0, 0.0)
    for axis, said, whole, size in (
        (
            "along the machine",
            asked.site.acceleration_forward,
            site.acceleration_forward,
            asked.motion.braking + ahead,
        ),
        ("to its left", asked.site.acceleration_left, site.acceleration_left, turn),
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
    return section_of(answer.reached.gravity_worked)


def lean_section(answer: Answer) -> Section | None:
    """How far the load may lean: every part of it, and their sum."""
    swing, shaken, slewing, pull, total = answer.reached.leaning
    if not total:
        return None
    rows: tuple[Row, ...] = ()
    parts = [float(swing)] if swing else []
    if shaken is not None:
        # The first lean is in the effective gravity; from rest it swings through as much again.
        rows += rows_of(shaken)[:1]
        parts.append(float(shaken.steps.lean))
    if slewing is not None:
        rows += rows_of(slewing)
        parts.append(slewing.result)
    if pull:
        parts.append(float(pull))
    numbers = " + ".join(figure(each) for each in parts)
    rows += (
        plain_row(
            "lean of the load",
            numbers,
            f"{figure(float(total))} rad",
            letters=r"\alpha = \sum \alpha_i",
            why=f"swing that was said, shaking, slewing and the pull of a drawn log, together; "
            f"{math.degrees(float(total)):.1f}°, never more than 90°",
        ),
    )
    return Section(title="Lean of the load", rows=rows, source="pendulum; parts taken together")


def pull_sections(answer: Answer) -> tuple[Section, ...]:
    """What of the log comes on the hook, where it is not lifted whole and free."""
    lift = answer.lift
    if lift.taken.way == "whole" and lift.taken.breakout == 1.0:
        return ()
    return tuple(section_of(each) for each in lift.pull.worked)
