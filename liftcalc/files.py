"""A person's own files: read within bounds, and written all of them or none, none by halves."""

from __future__ import annotations

import os
import stat
import tempfile
import tomllib
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from liftcalc.errors import InputError, did_you_mean

LARGEST = 2_000_000
"""Bytes that are read of a file at most; what this project reads is far smaller."""
UNKNOWN_KEY = "a key that is not known"
DEEPEST = 20
"""Tables within tables that are read at most; what this project reads has four."""


def ordinary(path: str, flags: int) -> int:
    """The ``opener`` of ``open`` that takes ordinary files only.

    Nobody knows whether a pipe or a device ever ends; it is opened without waiting for that.
    """
    handle = os.open(path, flags | getattr(os, "O_NONBLOCK", 0), 0o666)
    if stat.S_ISREG(os.fstat(handle).st_mode):
        return handle
    os.close(handle)
    raise OSError(None, "it is no ordinary file")


@contextmanager
def refusing(path: str | Path, *, field: str, wanted: str) -> Iterator[None]:
    """What goes wrong with a file inside, as an ``InputError`` with a fault of that field."""
    try:
        yield
    except (OSError, ValueError) as error:
        # A text may hold what no name of a file can: then it is a ValueError.
        why = str(getattr(error, "strerror", None) or "no name of a file").lower()
        raise InputError.of(field=field, given=f'"{path}"', understood=why, wanted=wanted) from None


def read_file(
    path: str | Path, *, field: str, wanted: str, most: int = LARGEST, absent: bytes | None = None
) -> bytes:
    """All of an ordinary file, or ``absent`` where there is none.

    Raises ``InputError`` when it cannot be read, or holds more than ``most`` bytes: no more of it
    is then read.
    """
    with refusing(path, field=field, wanted=wanted):
        try:
            with open(path, "rb", opener=ordinary) as file:
                content = file.read(most + 1)
        except FileNotFoundError:
            if absent is None:
                raise
            return absent
        if len(content) > most:
            raise OSError(None, f"more than {most // 1000} kB")
        return content


def read_toml(
    content: bytes | str, *, field: str, wanted: str, fix: str = "", file: str = ""
) -> dict[str, Any]:
    """The table of a TOML file from its content.

    Raises ``InputError`` when it is no text in UTF-8, no TOML, or tables lie deeper in tables than
    anybody writes.
    """
    try:
        text = content if isinstance(content, str) else content.decode("utf-8-sig")
        table = tomllib.loads(text)
        if not _deep(table):
            return table
        why = "too many tables within tables"
    except UnicodeDecodeError:
        why = "not text in UTF-8"
    except tomllib.TOMLDecodeError as error:
        why = f"{error}"
    except (ValueError, RecursionError):
        # A number of very many digits is the one, brackets without end are the other.
        why = "it cannot be read"
    raise InputError.of(
        field=field,
        given="text that is not TOML",
        understood=why,
        wanted=wanted,
        fix=fix,
        file=file,
    )


def _deep(table: Any) -> bool:
    level = [table]
    for _ in range(DEEPEST):
        level = [
            inner
            for outer in level
            if isinstance(outer, dict | list)
            for inner in (outer.values() if isinstance(outer, dict) else outer)
        ]
    return bool(level)


def kind_of(name: str, kinds: tuple[str, ...]) -> str:
    """The kind of a file by its ending, or an ``InputError``."""
    kind = Path(name).suffix.lower().removeprefix(".")
    if kind in kinds:
        return kind
    raise InputError.of(
        field="save",
        given=f'"{name}"',
        wanted="a file name that ends in " + ", ".join(f".{each}" for each in kinds),
    )


@contextmanager
def drawing(kind: str) -> Iterator[None]:
    """Refuse a picture of a kind in words where what draws it is not installed."""
    try:
        yield
    except ModuleNotFoundError as error:
        raise InputError.of(
            field="save",
            given=f"a .{kind} file",
            wanted=f"{error.name}, which draws pictures",
            fix="pip install 'liftcalc[figures]', or save a table: .csv",
        ) from None


def write_all(files: list[tuple[str, bytes]]) -> None:
    """Write files beside their places first, and put them there once all are whole.

    Raises ``InputError`` when one cannot be written; then none is changed.
    """
    waiting: list[tuple[Path, Path]] = []
    name = ""
    try:
        for name, content in files:
            place = Path(name)
            handle, beside = tempfile.mkstemp(
                dir=place.parent, prefix=f".{place.name}.", suffix=".part"
            )
            waiting.append((Path(beside), place))
            with os.fdopen(handle, "wb") as out:
                out.write(content)
            if place.is_dir():
                raise IsADirectoryError(None, "it is a folder")
        for beside_path, place in waiting:
            name = str(place)
            # mkstemp's files are for the owner's eyes only; these are for everyone's, as usual.
            beside_path.chmod(0o666 & ~_mask())
            beside_path.replace(place)
    except (OSError, ValueError) as error:
        raise InputError.of(
            field="save",
            given=f'"{name}"',
            wanted="a place that can be written to",
            understood=str(getattr(error, "strerror", None) or error).lower(),
        ) from None
    finally:
        for beside_path, _ in waiting:
            beside_path.unlink(missing_ok=True)


def _mask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def no_such(field: str, name: str, known: Iterable[str]) -> InputError:
    """The error of a name that is neither among the shipped ones nor the path of a file."""
    return InputError.of(
        field=field,
        given=f'"{name}"',
        wanted=f"one of {', '.join(known)}, or the path of a .toml file",
        fix=did_you_mean(name, known, most=2) or "no name comes near",
    )
