"""What to practise next, and where judgement errs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from liftcalc.school.lesson import Lesson
from liftcalc.school.record import Attempt

BOX_DAYS = (0.0, 1.0, 3.0, 7.0, 21.0)
"""Days that a skill rests in each of five boxes before it is due again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drill:
    """The drill to do next: a lesson, a fresh seed, and why in plain words."""

    lesson: Lesson
    seed: int
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """How one skill stands.

    ``attempts`` counts them; ``score`` is their mean. ``bias`` is the mean of ln(given/true) [-]:
    above zero guesses are high; None where nothing was guessed in numbers. ``spread`` is the mean
    of its size. ``unsafe`` is the share of attempts on the unsafe side. ``trend`` is the mean score
    of the later half of the attempts less that of the earlier half; None of fewer than four.
    ``box`` is 1 to 5; ``due`` when it is to be practised again. ``said`` tells it in plain words.
    """

    skill: str
    attempts: int
    score: float
    bias: float | None
    spread: float | None
    unsafe: float
    trend: float | None
    box: int
    due: datetime
    said: str


def next_drill(
    attempts: Sequence[Attempt], *, now: datetime, seed: int,
    among: Sequence[Lesson] | None = None,
) -> Drill:  # fmt: skip
    """The drill to do next.

    Parameters
    ----------
    attempts : sequence of Attempt
    now : datetime
        With its time zone.
    seed : int
        Breaks ties and draws the drill's own seed.
    among : sequence of Lesson or None
        Lessons to choose from; None: the shipped drills.
    """
    raise NotImplementedError


def judgement(attempts: Sequence[Attempt]) -> tuple[Judgement, ...]:
    """How every skill that was tried stands, the one that most needs practice first."""
    raise NotImplementedError
