"""Lesson files: where they are, how they are read, and what is said when one is wrong."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from liftcalc.files import no_such, read_file, read_toml
from liftcalc.school.lesson import PARTS, Lesson
from liftcalc.school.reading import lesson_of

LARGEST = 100_000
"""Bytes of a lesson file; more is no lesson."""


def shipped() -> dict[str, Path]:
    """The shipped lesson files by id."""
    folder = Path(__file__).with_name("lessons")
    return {path.stem: path for path in sorted(folder.glob("*.toml"))}


@cache
def lessons() -> tuple[Lesson, ...]:
    """The shipped lessons, part by part and in order."""
    found = [load_lesson(path) for path in shipped().values()]
    return tuple(sorted(found, key=lambda each: (PARTS.index(each.part), each.order, each.id)))


def lesson(id: str) -> Lesson:  # noqa: A002 - the file's own word
    """A shipped lesson by its id, or one of the user's own by the path of its file.

    Raises ``InputError`` when there is none such; near names are suggested.
    """
    if id.endswith(".toml"):
        return load_lesson(id)
    known = {each.id: each for each in lessons()}
    plain = "-".join(id.lower().replace("_", " ").replace("-", " ").split())
    if plain in known:
        return known[plain]
    raise no_such("lesson", id, known)


def load_lesson(path: str | Path) -> Lesson:
    """A lesson from a file, shipped or the user's own.

    Raises ``InputError`` with one fault for everything wrong, by file and key.
    """
    path = Path(path)
    content = read_file(
        path,
        field="lesson file",
        wanted=f"a TOML file of a lesson that can be read, at most {LARGEST // 1000} kB",
        most=LARGEST,
    )
    raw = read_toml(
        content,
        field="lesson file",
        wanted="a TOML file of a lesson",
        fix="mend that line; docs/school.md shows the form",
        file=path.name,
    )
    return lesson_of(raw, id=path.stem, file=path.name)
