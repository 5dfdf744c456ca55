"""Lesson files: where they are, how they are read, and what is said when one is wrong."""

from __future__ import annotations

from pathlib import Path

from liftcalc.school.lesson import Lesson


def lessons() -> tuple[Lesson, ...]:
    """The shipped lessons, part by part and in order."""
    raise NotImplementedError


def load_lesson(path: str | Path) -> Lesson:
    """A lesson from a file of the user's own.

    Raises
    ------
    InputError
        With one fault for everything wrong, by file and key.
    """
    raise NotImplementedError


def lesson(id: str) -> Lesson:  # noqa: A002 - the file's own word
    """A shipped lesson by its id, or one of the user's own by the path of its file.

    Raises
    ------
    InputError
        When there is none such; near names are suggested.
    """
    raise NotImplementedError
