"""The learner's record: a local file the user names, a line an attempt, and nothing else.

Each line is a JSON object that begins with the version of its form. Lines are only ever added. A
line that was cut short when a machine was switched off is passed over and told.
"""

from __future__ import annotations

import csv
import io
import json
import math
import os
from collections.abc import Iterable
from dataclasses import dataclass, fields
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from liftcalc.errors import InputError, printable
from liftcalc.files import ordinary, read_file, refusing
from liftcalc.school.exercise import Exercise
from liftcalc.school.marking import Marked

VERSION = 1
MARK = "liftcalc school"
"""Key of the version, first in every line: what tells a record from any other file."""
WANTED = "a record of this school, or a new file in a folder that can be written"
LONGEST = 400
"""Letters that are kept of a text at most."""
FARTHEST = 20.0
"""Greatest error that is recorded, as ln(guess/true): larger ones are cut to it [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Attempt:
    """One attempt.

    ``at`` is when, with its time zone; ``machine`` the name in the machine's file, never a path.
    ``error`` is ln(given/true) of a number, None of a choice or place. Every text is printable.
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


COLUMNS = tuple(each.name for each in fields(Attempt))


def attempt(exercise: Exercise, marked: Marked, *, at: datetime) -> Attempt:
    """An attempt to keep."""
    lesson = exercise.lesson
    return Attempt(
        at=_zoned(at),
        lesson=printable(lesson.id, LONGEST),
        skill=printable(lesson.skill, LONGEST),
        drill=lesson.drill,
        seed=exercise.seed,
        machine=printable(exercise.machine, LONGEST),
        given=printable(marked.given, LONGEST),
        key=printable(marked.key, LONGEST),
        unit=marked.unit,
        error=None if marked.error is None else _bounded(marked.error),
        score=marked.score,
        unsafe=marked.unsafe,
    )


def _bounded(error: float) -> float:
    return min(max(error, -FARTHEST), FARTHEST)


def _zoned(at: datetime) -> datetime:
    if at.tzinfo is None:
        raise InputError.of(field="time", given=str(at), wanted="a time with its time zone")
    return at.astimezone(UTC).replace(microsecond=0)


def _line(each: Attempt) -> str:
    told: dict[str, Any] = {MARK: VERSION}
    for name in COLUMNS:
        value = getattr(each, name)
        told[name] = value.isoformat() if isinstance(value, datetime) else value
    return json.dumps(told, ensure_ascii=False, allow_nan=False)


def lines(attempts: Iterable[Attempt]) -> str:
    """Attempts as the lines of a record."""
    return "".join(f"{_line(each)}\n" for each in attempts)


def keep(path: str | Path, attempts: Attempt | Iterable[Attempt]) -> None:
    """Add attempts to the end of a file; make it where there is none.

    Raises ``InputError`` when the file cannot be written, or is not a record of this kind: it is
    left as it is.
    """
    new = [attempts] if isinstance(attempts, Attempt) else list(attempts)
    if not new:
        return
    text = lines(new)
    with refusing(path, field="record", wanted=WANTED), open(path, "a+b", opener=ordinary) as file:
        file.seek(0)
        start = file.read(64).lstrip()
        if start and not start.startswith(f'{{"{MARK}"'.encode()[: len(start)]):
            raise OSError(None, "a file of another kind")
        if file.seek(0, os.SEEK_END):
            file.seek(-1, os.SEEK_END)
            # A line that was cut short gets its own end, so that the next one begins anew.
            text = text if file.read(1) == b"\n" else f"\n{text}"
        file.write(text.encode())


def kept(path: str | Path) -> Kept:
    """The attempts in a file; a file that is not there yet holds none.

    Raises ``InputError`` when it cannot be read at all, or is too large.
    """
    return read(read_file(path, field="record", wanted=WANTED, absent=b""))


def read(content: bytes) -> Kept:
    """The attempts in the content of a file."""
    text = content.decode("utf-8", errors="replace")
    found, unread = [], []
    for number, line in enumerate(text.split("\n"), 1):
        if line.strip():
            try:
                found.append(_attempt(json.loads(line)))
            except (ValueError, KeyError, TypeError, RecursionError, OverflowError) as error:
                unread.append(f"line {number} was passed over: {printable(_why(error))}")
    found.sort(key=lambda each: each.at)
    return Kept(attempts=tuple(found), unread=tuple(unread))


def _why(error: Exception) -> str:
    return "it is cut short or damaged" if isinstance(error, json.JSONDecodeError) else str(error)


def _attempt(raw: Any) -> Attempt:
    """An attempt from its line; ValueError, KeyError or TypeError where it is none."""
    if not isinstance(raw, dict) or MARK not in raw:
        raise ValueError("it is no line of a record")
    if raw[MARK] != VERSION:
        raise ValueError(f"it is of version {raw[MARK]!r:.20}, and this reads {VERSION}")
    texts = {
        name: _text(raw[name]) for name in ("lesson", "skill", "machine", "given", "key", "unit")
    }
    at = datetime.fromisoformat(_text(raw["at"]))
    if at.tzinfo is None:
        raise ValueError("its time has no time zone")
    if not 2000 <= at.year < 3000:
        raise ValueError("its time is far off")
    seed, drill, unsafe = raw["seed"], raw["drill"], raw["unsafe"]
    if type(seed) is not int or type(drill) is not bool or type(unsafe) is not bool:
        raise ValueError("a value is of the wrong kind")
    score, error = _number(raw["score"]), raw["error"]
    if not 0 <= score <= 1:
        raise ValueError("its score is not from 0 to 1")
    return Attempt(
        at=at.astimezone(UTC),
        seed=seed,
        drill=drill,
        unsafe=unsafe,
        score=score,
        error=None if error is None else _bounded(_number(error)),
        **texts,
    )


def _text(value: Any) -> str:
    if not isinstance(value, str) or len(value) > LONGEST:
        raise ValueError("a text is none, or too long")
    return printable(value)


def _number(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not math.isfinite(value):
        raise ValueError("a number is none")
    return float(value)


def csv_of(attempts: Iterable[Attempt]) -> str:
    """Attempts as CSV, a heading and a line each, for a spreadsheet.

    A text that a spreadsheet would take for a formula is led by an apostrophe.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for each in attempts:
        writer.writerow([_cell(getattr(each, name)) for name in COLUMNS])
    return out.getvalue()


def _cell(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime):
        return value.isoformat()
    if isinstance(value, float):
        return f"{value:.4f}"
    text = printable(str(value))
    return f"'{text}" if isinstance(value, str) and text.lstrip()[:1] in tuple("=+-@") else text
