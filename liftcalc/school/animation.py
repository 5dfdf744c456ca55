"""The move of a lesson in steps: the scene's words on the way, each answered by the model."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

from liftcalc.errors import InputError
from liftcalc.evaluation.answer import Answer
from liftcalc.requests.fields import LiftRequest
from liftcalc.school.exercise import Exercise
from liftcalc.school.quantities import MEASURES, UnfitError
from liftcalc.school.sampling import QUANTITY, answered, written
from liftcalc.school.templates import word
from liftcalc.units import System

STEPS = 7
"""Steps that a move is shown in, with its start and its end."""
FROM_NOTHING = frozenset({"slope", "braking", "slew_speed", "off_centre", "swing", "sinkage"})
"""Fields that count as zero while they are not said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step: the words that are moved with what they are now, the answer, and the figure."""

    words: str
    answer: Answer
    figure: str


def steps(exercise: Exercise, *, system: System = "metric", count: int = STEPS) -> tuple[Step, ...]:
    """The move from before to after in steps; only its two ends where nothing in it is a number.

    Empty where nothing is moved. A step that the machine cannot take is left out. It tells the
    answer, so it must not be shown before the prediction is made.
    """
    before, after = exercise.asked, exercise.asked_after
    if after is None or exercise.after is None:
        return ()
    moved = [
        each.name
        for each in fields(LiftRequest)
        if getattr(before, each.name) != getattr(after, each.name)
    ]
    made: list[Step] = []
    halves = any(_parted(name, before, after) for name in moved)
    shares = [n / (count - 1) for n in range(count)] if halves else [0.0, 1.0]
    for share in shares:
        asked = _between(before, after, moved, share)
        try:
            answer = answered(asked)
            figure = _figure(exercise, answer, system)
        except (InputError, UnfitError):
            continue
        made.append(Step(words=_words(asked, moved, system), answer=answer, figure=figure))
    return tuple(made)


def _parted(name: str, before: LiftRequest, after: LiftRequest) -> tuple[float, float, str] | None:
    """Start, end and unit of a word that is a number and can be moved in steps."""
    start, end = getattr(before, name), getattr(after, name)
    if not (isinstance(start, str) and isinstance(end, str)):
        return None
    last = QUANTITY.match(end)
    if last is None:
        return None
    unit = last[2] or ""
    if not start and name in FROM_NOTHING:
        return 0.0, float(last[1]), unit
    first = QUANTITY.match(start)
    if first is None or (first[2] or "") != unit:
        return None
    return float(first[1]), float(last[1]), unit


def _between(
    before: LiftRequest, after: LiftRequest, moved: list[str], share: float
) -> LiftRequest:
    if share <= 0:
        return before
    if share >= 1:
        return after
    said = {}
    for name in moved:
        parted = _parted(name, before, after)
        said[name] = getattr(after, name)
        if parted is not None:
            start, end, unit = parted
            said[name] = written(round(start + share * (end - start), 2), unit)
    return replace(before, **said)


def _words(asked: LiftRequest, moved: list[str], system: System) -> str:
    return ", ".join(
        f"{name.replace('_', ' ')} {word(asked, name, system) or 'none'}" for name in moved
    )


def _figure(exercise: Exercise, answer: Answer, system: System) -> str:
    """What is asked, as it is at this step."""
    asks = exercise.lesson.question.asks
    if asks in MEASURES:
        measure = MEASURES[asks]
        return f"{asks} {measure.shown(measure.of(answer), system)}"
    return f"stopped first by {answer.governs}"
