"""The school in a terminal: the course, an exercise, its mark, a summary, as lines of text."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from datetime import datetime
from itertools import groupby

from liftcalc.reports.text import wrapped
from liftcalc.school.animation import steps
from liftcalc.school.exercise import Exercise
from liftcalc.school.lesson import CAUTION, Lesson
from liftcalc.school.marking import Marked
from liftcalc.school.practice import Judgement, next_drill, span
from liftcalc.school.record import Kept
from liftcalc.units import System, show

NO_CERTIFICATE = (
    "This is a record of practice. It is not a qualification, and no certificate is issued."
)
BIAS = (
    "Bias is how far guesses are off on the whole, the mean of ln(guess/true); above zero they are "
    "high. Unsafe is the share of attempts that erred on the unsafe side."
)
OR_CHANGE = ', or a change such as "-20 %"'
LINES = 120
"""Letters of a line of a summary at most, so that a damaged record cannot flood a terminal."""


def course(lessons: Iterable[Lesson]) -> list[str]:
    """Every lesson by part, with its aim."""
    lines = ["The course. Run one with 'liftcalc school lesson NAME', or 'liftcalc school drill'."]
    for part, some in groupby(lessons, key=lambda each: each.part):
        lines += ["", part[0].upper() + part[1:]]
        for each in some:
            drill = " (drill)" if each.drill else ""
            lines += [f"  {each.id:<26}{each.title}{drill}", f"{'':28}{each.aim}"]
    return [*lines, "", *wrapped(CAUTION)]


def exercise_lines(exercise: Exercise, system: System) -> list[str]:
    """An exercise before the prediction: nothing of its answer."""
    lesson = exercise.lesson
    lines = [f"{lesson.title}  [{lesson.id}, seed {exercise.seed}]", lesson.aim, ""]
    lines += wrapped(exercise.story)
    lines += [f"  - {each}" for each in exercise.listed]
    if exercise.chart:
        lines += ["", f"  {'reach':>12}{'load':>14}"]
        for row in exercise.chart:
            reach = show(row.reach, "length", system)
            load = show(row.load, "mass", system, "down")
            lines.append(f"  {reach:>12}{load:>14}")
    if exercise.move:
        lines += ["", *wrapped(f"Now: {exercise.move}")]
    lines += ["", *wrapped(exercise.question)]
    for number, each in enumerate(exercise.choices):
        first, *rest = wrapped(each.text)
        lines += [f"  {chr(ord('a') + number)}. {first}", *(f"     {line}" for line in rest)]
    return lines


def prompt(exercise: Exercise) -> str:
    """What is asked for, and in what it may be typed."""
    key = exercise.key
    if key is None:
        return f"Your prediction, a to {chr(ord('a') + len(exercise.choices) - 1)}: "
    if key.place:
        return f"Your prediction, a length such as 2.5 m (bare: {key.unit}): "
    change = OR_CHANGE if key.start is not None else ""
    return f"Your prediction with its unit (bare: {key.unit}){change}: "


def marked_lines(
    exercise: Exercise, marked: Marked, system: System, *, working: Iterable[str]
) -> list[str]:
    """The mark, the move in steps, the explanation, the working, and what to do then."""
    lines = ["", *wrapped(f"{'+' if marked.right else 'x'} {marked.said}")]
    side = "on the unsafe side" if marked.unsafe else "not on the unsafe side"
    lines.append(f"  score {marked.score:.2f} of 1, {'right' if marked.right else side}")
    moved = steps(exercise, system=system)
    if moved:
        lines += ["", "The move, step by step"]
        wide = max(len(each.words) for each in moved) + 2
        lines += [f"  {each.words:<{wide}}{each.figure}" for each in moved]
    lines.append("")
    for text in exercise.explanation:
        lines += wrapped(text)
    return [*lines, *working, "", "At the machine", *wrapped(exercise.do), "", *wrapped(CAUTION)]


def summary_lines(kept: Kept, judged: Sequence[Judgement], *, now: datetime) -> list[str]:
    """Where judgement errs, skill by skill, and what to practise next."""
    lines = [
        span(kept.attempts),
        NO_CERTIFICATE,
        "",
        f"  {'skill':<24}{'tries':>6}{'score':>7}{'bias':>8}{'unsafe':>8}  box",
    ]
    for each in judged:
        bias = "-" if each.bias is None else f"{100 * math.expm1(each.bias):+.0f} %"
        lines += [
            f"  {each.skill[:23]:<24}{each.attempts:>6}{each.score:>7.2f}{bias:>8}"
            f"{100 * each.unsafe:>6.0f} %  {each.box} of 5, due {each.due.date().isoformat()}",
            f"{'':4}{each.said}"[:LINES],
        ]
    drill = next_drill(kept.attempts, now=now, seed=0)
    lines += ["", f"Next: {drill.lesson.title}. {drill.why}"]
    lines += ["", *wrapped(BIAS)]
    lines += [f"  {each}"[:LINES] for each in kept.unread]
    return [*lines, "", *wrapped(CAUTION)]
