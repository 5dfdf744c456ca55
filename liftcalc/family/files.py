"""Files of a machine: all its figures, or its class and any facts of it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import Any

from liftcalc.machines import files
from liftcalc.machines.schema import Machine


def load(name: str | Path) -> Machine:
    """A machine by the name of a shipped one, or by the path of a file of figures or of facts.

    Raises ``InputError`` when there is no such machine (near names are suggested) or its file is
    wrong.
    """
    path = files.found(name)
    if path is None:
        return files.load(name)
    return _read(path.resolve(), path.stat().st_mtime_ns)


@lru_cache(maxsize=32)
def _read(path: Path, _stamp: int) -> Machine:
    if path.parent == files.shipped_folder():
        return files.load(path)
    raw = files.table_of(files.content_of(path), file=path.name)
    if not is_of_facts(raw):
        return files.load(path)
    from liftcalc.family.facts_file import facts_of, known  # noqa: PLC0415 - a figures' file starts sooner

    return known(facts_of(raw, file=path.name))


def is_of_facts(raw: Mapping[str, Any]) -> bool:
    """Whether a file tells facts and not all figures of a machine, which stand in tables."""
    flat = not any(isinstance(each, dict) for each in raw.values())
    return "class" in raw or (bool(raw) and flat)
