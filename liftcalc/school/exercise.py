"""A lesson posed: a scene from a seed, its answers, the question with its key, the explanation."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from liftcalc.answers.answer import Answer
from liftcalc.answers.asked import Asked
from liftcalc.school.lesson import Lesson
from liftcalc.units import Kind, System

Side = Literal["over", "under", "neither"]
"""The unsafe side of an error: a capacity guessed over, a load or force guessed under."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One choice: its text, whether it is right, whether taking it errs on the unsafe side."""

    text: str
    right: bool
    unsafe: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """The number asked for.

    ``value`` and ``start``, what it was before the move where that is told, are in SI; ``kind``
    is how units are read and shown, ``unit`` the one that a bare number is taken in and ``factor``
    that unit in SI. ``tolerance`` and ``half`` are logarithms of a ratio [-], or lengths [m] where
    ``place`` is true; see ``marking.mark``. ``low`` and ``high`` [SI] are a sensible range to offer
    for a slider or a drag; they do not give the answer away.
    """

    value: float
    start: float | None
    kind: Kind
    unit: str
    factor: float
    tolerance: float
    half: float
    unsafe: Side
    place: bool
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartRow:
    """One row of an invented chart: reach [m] and load [kg] as printed."""

    reach: float
    load: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Exercise:
    """A lesson posed on one machine with one seed.

    ``asked`` and ``asked_after`` are the words of the scene, which any page or command can ask
    again; ``before`` and ``after`` what the model says of them (``after`` is None where nothing is
    moved). Either ``choices`` or ``key`` is there. ``story``, ``question``, ``move`` and
    ``explanation`` are plain text with all figures filled in; ``explanation`` must not be shown
    before the prediction is made. ``chart`` is the invented chart of a lesson on reading one.
    """

    lesson: Lesson
    seed: int
    machine: str
    asked: Asked
    asked_after: Asked | None
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
    """Pose a lesson.

    Parameters
    ----------
    lesson : Lesson
    seed : int
        The same seed gives the same exercise, on the same machine and model.
    machine : str or None
        Name of a shipped machine or path of the user's own file; None: a shipped one by the seed.
    system : {"metric", "imperial"}
        How quantities are written.

    Returns
    -------
    Exercise

    Raises
    ------
    InputError
        When no scene of the lesson suits the machine: after a bounded number of draws.
    """
    raise NotImplementedError
