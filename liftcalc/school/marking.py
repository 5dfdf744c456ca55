"""How near a prediction came, and whether it erred on the unsafe side."""

from __future__ import annotations

from dataclasses import dataclass

from liftcalc.school.exercise import Exercise
from liftcalc.units import System


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked:
    """A prediction as marked.

    ``score`` is 0 to 1; ``right`` whether it counts as right; ``unsafe`` whether it erred on the
    unsafe side by more than the tolerance. ``error`` is ln(given/true) [-] of a number, given −
    true [m] of a place, None of a choice. ``given`` and ``key`` are texts to show and to keep;
    ``said`` is what to tell the learner.
    """

    score: float
    right: bool
    unsafe: bool
    error: float | None
    given: str
    key: str
    unit: str
    said: str


def mark(exercise: Exercise, given: str | float, *, system: System = "metric") -> Marked:
    """Mark a prediction.

    Parameters
    ----------
    exercise : Exercise
    given : str or float
        Of a choice: its text, or its number counted from 1. Of a number or a place: text with its
        unit; a bare number in text is in ``exercise.key.unit``; a float is SI. Where the value
        before the move was told, a change such as "-20 %" is read as such.

    Raises
    ------
    InputError
        When what was given is none of the choices, or no number above zero.
    """
    raise NotImplementedError
