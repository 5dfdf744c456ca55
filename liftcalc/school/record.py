"""The learner's record: a local file the user names, a line an attempt, and nothing else."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from liftcalc.school.exercise import Exercise
from liftcalc.school.marking import Marked

VERSION = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Attempt:
    """One attempt.

    ``at`` is when, with its time zone; ``machine`` the name in the machine's file, never a path.
    ``error`` is ln(given/true) of a number, None of a choice or place.
    """

    at: datetime
    lesson: str
    skill: str
    drill: bool
    seed: int
    machine: str
    given: str
    key: str
    unit: str
    error: float | None
    score: float
    unsafe: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What a file holds: its attempts, oldest first, and what of it could not be read."""

    attempts: tuple[Attempt, ...]
    unread: tuple[str, ...]


def attempt(exercise: Exercise, marked: Marked, *, at: datetime) -> Attempt:
    """An attempt to keep."""
    raise NotImplementedError


def keep(path: str | Path, attempts: Attempt | Iterable[Attempt]) -> None:
    """Add attempts to the end of a file; make it where there is none.

    Raises
    ------
    InputError
        When the file cannot be written, or is not a record of this kind.
    """
    raise NotImplementedError


def kept(path: str | Path) -> Kept:
    """The attempts in a file; a file that is not there yet holds none.

    Raises
    ------
    InputError
        When it cannot be read at all.
    """
    raise NotImplementedError


def csv_of(attempts: Iterable[Attempt]) -> str:
    """Attempts as CSV, a heading and a line each."""
    raise NotImplementedError
