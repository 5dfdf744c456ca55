"""A table of a lesson's file: reads its keys and keeps every fault."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

from liftcalc.errors import Fault, printable
from liftcalc.files import UNKNOWN_KEY

TEXT = 1500
"""Letters of one text at most."""


@dataclass(slots=True)
class LessonTable:
    """One table of the file: reads its keys, keeps every fault."""

    raw: dict[str, Any]
    file: str
    path: str
    faults: list[Fault] = field(default_factory=list)

    def fault(self, key: str, *, given: str, wanted: str, fix: str = "") -> None:
        """Keep what is wrong with a key."""
        whole = f"{self.path}.{key}".strip(".")
        self.faults.append(
            Fault(
                field=key or "lesson",
                given=given,
                wanted=wanted,
                fix=fix,
                file=self.file,
                key=whole or "(top)",
            )
        )

    def only(self, known: Iterable[str]) -> None:
        """A fault for every key that is not known."""
        for key in self.raw:
            if key not in known:
                self.fault(
                    key,
                    given=UNKNOWN_KEY,
                    wanted=f"only {', '.join(known)}",
                    fix="check the spelling",
                )

    def text(self, key: str, *, default: str | None = None) -> str:
        """A text in one line; empty where it is none."""
        value = self.raw.get(key, default)
        if not isinstance(value, str) or (default is None and not value.strip()):
            self.fault(key, given=brief(value), wanted="a text")
            return ""
        plain = value.replace("\n", " ").replace("\t", " ")
        if len(plain) > TEXT or printable(plain) != plain:
            self.fault(
                key,
                given=brief(value),
                wanted=f"at most {TEXT} letters, none of them a control character",
            )
            return ""
        return " ".join(plain.split())

    def one_of(self, key: str, options: Sequence[str], *, default: str | None = None) -> str:
        """One of some texts."""
        value = self.text(key, default=default)
        if value and value not in options:
            self.fault(key, given=f'"{value}"', wanted=f"one of {', '.join(options)}")
        return value

    def number(self, key: str, pattern: re.Pattern[str], *, default: str, wanted: str) -> float:
        """A number that a pattern finds, a share or centimetres as 1 or metres."""
        value = self.raw.get(key, default)
        found = pattern.match(value) if isinstance(value, str) else None
        if not found:
            self.fault(key, given=brief(value), wanted=wanted)
            return 0.0
        return float(found[1]) * (0.01 if found[0].strip().endswith(("%", "cm")) else 1.0)

    def whole(self, key: str) -> int:
        """A whole number from 0 to 999."""
        value = self.raw.get(key)
        if not isinstance(value, int) or isinstance(value, bool) or not 0 <= value < 1000:
            self.fault(key, given=brief(value), wanted="a whole number from 0 to 999")
            return 0
        return value

    def truth(self, key: str) -> bool:
        """Whether a key is true; false where it is not there."""
        value = self.raw.get(key, False)
        if not isinstance(value, bool):
            self.fault(key, given=brief(value), wanted="true or false")
        return value is True

    def names(self, key: str) -> tuple[str, ...]:
        """A list of texts."""
        value = self.raw.get(key, [])
        if not isinstance(value, list) or not all(isinstance(each, str) for each in value):
            self.fault(key, given=brief(value), wanted="a list of texts")
            return ()
        return tuple(value)

    def table(self, key: str) -> LessonTable:
        """A table inside this one."""
        value = self.raw.get(key, {})
        if not isinstance(value, dict):
            self.fault(key, given=brief(value), wanted=f"a table, [{key}]")
            value = {}
        return self.inside(value, key)

    def tables(self, key: str) -> list[LessonTable]:
        """A list of tables inside this one."""
        value = self.raw.get(key, [])
        if not isinstance(value, list) or not all(isinstance(each, dict) for each in value):
            self.fault(key, given=brief(value), wanted=f"tables, [[{key}]]")
            return []
        return [self.inside(each, f"{key}[{number}]") for number, each in enumerate(value)]

    def inside(self, raw: dict[str, Any], key: str) -> LessonTable:
        """A table inside this one, with its faults kept here."""
        return LessonTable(
            raw=raw, file=self.file, path=f"{self.path}.{key}".strip("."), faults=self.faults
        )


def brief(value: Any) -> str:
    """What was given, in a few letters that are safe to show."""
    return "nothing" if value is None else f'"{printable(str(value)[:60])}"'
