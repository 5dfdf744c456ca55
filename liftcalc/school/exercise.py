"""A lesson posed: a scene from a seed, its answers, the question with its key, the explanation."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from liftcalc.errors import InputError
from liftcalc.evaluation.answer import Answer
from liftcalc.family.files import load
from liftcalc.requests.fields import LiftRequest
from liftcalc.school import sampling
from liftcalc.school.chart import ChartRow
from liftcalc.school.lesson import Lesson, When
from liftcalc.school.quantities import MEASURES, UnfitError
from liftcalc.school.question_builder import Choice, DrawnScene, Key, asking
from liftcalc.school.templates import Filler
from liftcalc.units import System

__all__ = ["ChartRow", "Choice", "Exercise", "Key", "pose"]

DRAWS = 200
"""Scenes that are drawn at most before a lesson is said not to suit a machine."""
STILL = 1e-6
"""A change smaller than this counts as none [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Exercise:
    """A lesson posed on one machine with one seed.

    ``asked`` and ``asked_after`` are the words of the scene, which any page or command can ask
    again; ``before`` and ``after`` what the model says of them (``after`` is None where nothing is
    moved). Either ``choices`` or ``key`` is there. ``story``, ``question``, ``move`` and
    ``explanation`` are plain text with all figures filled in; ``explanation`` must not be shown
    before the prediction is made. ``chart`` is the invented chart of a lesson on reading one,
    ``listed`` what a lesson tells as a list, such as the walk-round that somebody made.
    """

    lesson: Lesson
    seed: int
    machine: str
    asked: LiftRequest
    asked_after: LiftRequest | None
    before: Answer
    after: Answer | None
    story: str
    question: str
    move: str
    choices: tuple[Choice, ...]
    key: Key | None
    chart: tuple[ChartRow, ...]
    listed: tuple[str, ...]
    explanation: tuple[str, ...]
    do: str


def pose(
    lesson: Lesson, *, seed: int, machine: str | None = None, system: System = "metric"
) -> Exercise:
    """Pose a lesson; the same seed gives the same exercise, on the same machine and model.

    ``machine`` is a shipped machine's name or the path of the user's own file; without it the seed
    draws a shipped one. ``system`` is how quantities are written; in metric, words of the scene are
    as the lesson's file has them. Raises ``InputError`` when the machine file is wrong, or when in
    ``DRAWS`` draws no scene of the lesson suits the machine: the last reason is told.
    """
    if machine is not None:
        load(machine)
    why = ""
    for turn in range(DRAWS):
        # A text as seed gives the same draws on every machine and version.
        rng = Random(f"{lesson.id} {seed} {turn}")
        try:
            return _posed(lesson, seed=seed, machine=machine, system=system, rng=rng)
        except (InputError, UnfitError) as refused:
            why = str(refused)
    raise InputError.of(
        field="lesson",
        given=f'"{lesson.id}" on {machine or "the shipped machines"}',
        understood=f"{DRAWS} scenes drawn; the last was refused: {why}",
        wanted="a machine that can take its scenes",
        fix="take another lesson or another machine",
        file=lesson.file,
        key="scene",
    )


def _posed(
    lesson: Lesson, *, seed: int, machine: str | None, system: System, rng: Random
) -> Exercise:
    asked = sampling.scene(lesson, machine=machine, rng=rng)
    before = sampling.answered(asked)
    _governs(lesson.good.governs, before)
    asked_after = sampling.changed(asked, lesson.move, rng=rng) if lesson.move else None
    after = None if asked_after is None else sampling.answered(asked_after)
    if after is not None:
        _governs(lesson.good.governs_after, after)
    drawn = DrawnScene(
        lesson=lesson, asked=asked, before=before, after=after, system=system, rng=rng
    )
    effect = effect_of(lesson, before, after)
    made = asking(drawn)
    words = Filler(
        asked=asked,
        asked_after=asked_after,
        before=before,
        after=after,
        system=system,
        extra={"answer": made.answer, **made.slots},
    )
    return Exercise(
        lesson=lesson,
        seed=seed,
        machine=before.lift.machine.name,
        asked=asked,
        asked_after=asked_after,
        before=before,
        after=after,
        story=words.fill(lesson.story),
        question=words.fill(lesson.question.text),
        move=words.fill(lesson.move_text),
        choices=made.choices,
        key=made.key,
        chart=made.chart,
        listed=made.listed,
        explanation=(
            *(words.fill(each.text) for each in lesson.explain if each.when in effect),
            *made.told,
        ),
        do=lesson.do,
    )


def _governs(wanted: tuple[str, ...], answer: Answer) -> None:
    """Refuse a scene in which something other than the lesson's subject governs."""
    if wanted and answer.governing.name not in wanted:
        raise UnfitError(f"{answer.governs} stops it, not {' or '.join(wanted)}")


def effect_of(lesson: Lesson, before: Answer, after: Answer | None) -> frozenset[When]:
    """Which sentences are true: how what is asked changes, and whether something else stops it.

    Raises ``UnfitError`` when the change is neither none nor as great as the lesson wants it.
    """
    told: set[When] = {"always"}
    if after is None:
        return frozenset(told)
    told.add("the same stops it" if before.governs == after.governs else "another stops it")
    if lesson.question.asks in MEASURES:
        measure = MEASURES[lesson.question.asks]
        change = measure.of(after) / measure.of(before) - 1
        if abs(change) < STILL:
            told.add("stays")
        else:
            told.add("rises" if change > 0 else "falls")
        if abs(change) < lesson.good.change and not (
            "stays" in told and lesson.question.kind == "choose"
        ):
            raise UnfitError("the move changes too little")
    return frozenset(told)
