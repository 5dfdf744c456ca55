"""Machine files: where they are, how they are read, and what is said when one is wrong."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from liftcalc.errors import Fault, InputError, printable
from liftcalc.files import UNKNOWN_KEY, no_such, read_file, read_toml
from liftcalc.machines.number import Number
from liftcalc.machines.remembered import remembered
from liftcalc.machines.schema import Machine, Table
from liftcalc.machines.validation import sound

LARGEST = 200_000
"""Bytes of a machine file; the shipped ones have fewer than 7000."""
_QUANTITY = re.compile(r"^\s*[-+−]?[\d.]|^\s*[-+]?(nan|inf)", re.IGNORECASE)


def shipped_folder() -> Path:
    """The folder of the shipped machine files, in a wheel or in a checkout."""
    package = Path(__file__).parents[1]
    inside = package / "shipped_machines"
    return inside if inside.is_dir() else package.parent / "machines"


def shipped_names() -> list[str]:
    """Names of the shipped machines."""
    return sorted(path.stem for path in shipped_folder().glob("*.toml"))


def spread(table: Any, kind: str | None = None, source: str | None = None) -> Any:
    """Give every figure its own kind and source, taken from the nearest table that states them."""
    if isinstance(table, list):
        return [spread(each, kind, source) for each in table]
    table = _plain(table)
    if isinstance(table, str) and _QUANTITY.match(table):
        return {"value": table, "kind": kind, "source": source}
    if not isinstance(table, dict):
        return table
    if "value" in table:
        return {"kind": kind, "source": source, **table}
    kind, source = table.get("kind", kind), _plain(table.get("source", source))
    return {
        key: _plain(each) if key in {"name", "title", "note"} else spread(each, kind, source)
        for key, each in table.items()
        if key not in {"kind", "source"}
    }


def _plain(value: Any) -> Any:
    """A text on one line and safe to show; anything else as it is."""
    return printable(" ".join(value.split())) if isinstance(value, str) else value


def table_of(text: str | bytes, *, file: str) -> dict[str, Any]:
    """The table of a machine file from its text; raises ``InputError`` where it is no TOML."""
    return read_toml(
        text,
        field="machine file",
        wanted="a TOML file of a machine",
        fix="mend that line; the shipped files in machines/ show the form",
        file=file,
    )


def parse(text: str | bytes, *, file: str) -> Machine:
    """A machine from the text of its file.

    Raises ``InputError`` with one fault for every key that is wrong, by file and key.
    """
    try:
        return Machine.model_validate(spread(table_of(text, file=file)))
    except ValidationError as error:
        raise InputError([_fault(each, file) for each in _causes(error)]) from None


def _causes(error: ValidationError) -> list[Any]:
    """Every error but that of a list called too short only since what it holds is wrong."""
    found: list[Any] = list(error.errors())

    def holds_another(place: tuple[Any, ...]) -> bool:
        return any(each["loc"][: len(place)] == place != each["loc"] for each in found)

    return [e for e in found if e["type"] != "too_short" or not holds_another(e["loc"])]


def _fault(error: Any, file: str) -> Fault:
    key = ".".join(str(part) for part in error["loc"]) or "(top)"
    field = str(error["loc"][-1]) if error["loc"] else "machine"
    if error["type"] == "liftcalc":
        said = error["ctx"]
        return Fault(
            field=field,
            given=said["given"],
            understood=said["understood"],
            wanted=said["wanted"],
            fix=said["fix"],
            file=file,
            key=key,
        )
    if error["type"] == "missing":
        given, wanted, fix = "nothing", "this key", "add it; the shipped files show the form"
    elif error["type"] == "extra_forbidden":
        given, wanted, fix = UNKNOWN_KEY, "only known keys", "check the spelling"
    else:
        given, wanted, fix = repr(error["input"])[:60], error["msg"], ""
    return Fault(field=field, given=given, wanted=wanted, fix=fix, file=file, key=key)


def content_of(path: Path) -> bytes:
    """What a machine file holds; raises ``InputError`` where it cannot be read."""
    return read_file(
        path, field="machine file", wanted="a TOML file of a machine that can be read", most=LARGEST
    )


@lru_cache(maxsize=32)
def _read(path: Path, _stamp: int) -> Machine:
    machine = parse(content_of(path), file=path.name)
    sound(machine, file=path.name)
    return machine


_sound = remembered(maxsize=64)(sound)


class InHand(str):
    """The name of a machine that is at hand already, for who asks by name.

    It may be another than its file has, so it is validated as a file is: once, since no table of a
    machine can be changed in place.
    """

    __slots__ = ("machine",)
    machine: Machine

    def __new__(cls, machine: Machine) -> InHand:
        """The name of a machine, with the machine."""
        _sound(machine, file=machine.name)
        made = super().__new__(cls, machine.name)
        made.machine = machine
        return made


def found(name: str | Path) -> Path | None:
    """The file of a machine by the name of a shipped one or by its path; None for one in hand.

    Raises ``InputError`` when there is no such machine: near names are suggested.
    """
    if isinstance(name, InHand):
        return None
    if not isinstance(name, str | Path):
        raise no_such("machine", f"{name!r:.60}", shipped_names())
    path, name = Path(name), str(name)
    if path.suffix != ".toml" and "/" not in name and "\\" not in name:
        wanted = "-".join(name.lower().replace("_", " ").replace(",", " ").split())
        path = shipped_folder() / f"{wanted}.toml"
    # A name may be too long for a file's: that is no file either.
    if not os.path.isfile(path):
        raise no_such("machine", name, shipped_names())
    return path


def load(name: str | Path) -> Machine:
    """A machine by the name of a shipped one, or by the path of a file of all its figures.

    Raises ``InputError`` as ``found``, or when its file is wrong. Who takes a file of facts as well
    asks ``family.files``.
    """
    if isinstance(name, InHand):
        return name.machine
    path = found(name)
    assert path is not None
    return _read(path.resolve(), path.stat().st_mtime_ns)


def numbers(table: Any, path: str = "") -> Iterator[tuple[str, Number]]:
    """Every figure of a machine with its key."""
    if isinstance(table, Number):
        yield path, table
    elif isinstance(table, Table):
        for key in type(table).model_fields:
            yield from numbers(getattr(table, key), f"{path}.{key}" if path else key)
    elif isinstance(table, tuple):
        for number, each in enumerate(table):
            label = getattr(each, "name", "") or str(number)
            yield from numbers(each, f"{path}[{label}]")


@remembered(maxsize=64)
def kinds(machine: Machine) -> tuple[tuple[str, str], ...]:
    """Key and kind of every figure of a machine."""
    return tuple((key, number.kind) for key, number in numbers(machine))
