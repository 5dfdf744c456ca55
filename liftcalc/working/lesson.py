"""The worked figures that a lesson is about, out of all those of its answer."""

from __future__ import annotations

from liftcalc.evaluation.answer import Answer, CriterionKind
from liftcalc.school.exercise import Exercise
from liftcalc.school.quantities import part
from liftcalc.working.criteria import criterion_section
from liftcalc.working.ground_forces import pad_sections
from liftcalc.working.rows import Section, section_of
from liftcalc.working.steps import worked_out

_MASS = (
    "newton_volume",
    "two_end_volume",
    "middle_volume",
    "wood_density",
    "saturated_density",
    "over_bark_blend",
    "likely_log",
)
_OF_THE_LOG: dict[str, tuple[str, ...]] = {
    "log mass": (*_MASS, "planning_log"),
    "likely mass": _MASS,
    "balance point": ("balance_point", "two_end_balance_point", "middle_balance_point"),
}
"""Formulas that work out what is asked of the log."""
_PADS = ("pad force", "pad pressure", "which foot")
_OF_A_KIND: dict[str, CriterionKind] = {
    "tipping load": "tipping",
    "which line": "tipping",
    "sling load": "sling",
}


def is_worked(exercise: Exercise) -> bool:
    """Whether a lesson has a working: of a list nothing is worked out."""
    return exercise.lesson.question.asks != "what is missing"


def lesson_sections(exercise: Exercise) -> tuple[Section, ...]:
    """The working of what a lesson asks, before its move or after it.

    What has no section of its own, such as a reach that is searched for, is told by the working of
    what would stop the lift.
    """
    question = exercise.lesson.question
    if not is_worked(exercise):
        return ()
    moved = question.of == "after" and exercise.after is not None
    answer = exercise.after if moved and exercise.after is not None else exercise.before
    return _about(question.asks, answer) or worked_out(answer)[:1]


def _about(asks: str, answer: Answer) -> tuple[Section, ...]:
    """The sections that work out what is asked."""
    if asks in _OF_THE_LOG:
        used = answer.lift.log.worked
        return tuple(section_of(each) for each in used if each.formula in _OF_THE_LOG[asks])
    if asks in _PADS:
        return pad_sections(answer, corners=asks != "pad force")
    ram = part("which ram", answer) if asks in ("which ram", "ram load") else ""
    named = tuple(
        each
        for each in answer.criteria
        if each.kind == _OF_A_KIND.get(asks)
        or (each.kind == "ram" and (each.name == ram or f"{each.name} load" == asks))
    )
    return tuple(criterion_section(answer, each) for each in named or (answer.governing,))
