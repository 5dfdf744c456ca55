"""The worked figures that a lesson is about, out of all those of its answer."""

from __future__ import annotations

from liftcalc.evaluation.answer import Answer
from liftcalc.school.exercise import Exercise
from liftcalc.school.quantities import PARTS_OF, part
from liftcalc.working.rows import Section
from liftcalc.working.steps import worked_out

_ABOUT: dict[str, tuple[str, ...]] = {
    "tipping load": ("tipping ",),
    "which line": ("tipping ",),
    "sling load": ("sling",),
    "pad force": ("greatest force on the ",),
    "pad pressure": ("greatest force on the ",),
    "which foot": ("greatest force on the ",),
    "log mass": ("volume of", "density", "likely mass", "planning mass"),
    "likely mass": ("volume of", "density", "likely mass"),
    "balance point": ("balance point",),
}
"""How the titles of the sections begin that work out what is asked, in small letters."""


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
    sections = worked_out(answer)
    titles = _titles(question.asks, answer)
    found = tuple(each for each in sections if each.title.lower().startswith(titles))
    if question.asks == "pad force":
        found = tuple(each for each in found if "stabiliser" in each.title) or found
    return found or sections[:1]


def _titles(asks: str, answer: Answer) -> tuple[str, ...]:
    if asks in _ABOUT:
        return _ABOUT[asks]
    if asks in {"which ram", "ram load"}:
        return (part("which ram", answer).lower(),)
    if asks.removesuffix(" load").endswith((" ram", " rams")):
        return (asks.removesuffix(" load"),)
    if asks in PARTS_OF and asks != "what stops it":
        return (part(asks, answer).lower(),)
    return (answer.governing.title.lower(), answer.governing.name.lower())
