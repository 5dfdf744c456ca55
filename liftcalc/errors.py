"""What can go wrong, in one small tree.

``LiftcalcError`` is the root. ``InputError`` carries one or more ``Fault`` records, so that
everything wrong with a request is said at once. ``PoseError`` is the input error of a machine
that cannot stand as asked. Functions of arrays never raise these for single elements: they
return NaN and a reason mask; see ``physics``.
"""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Self

_UNPRINTABLE = ("Cc", "Cf", "Co", "Cs", "Zl", "Zp")
"""Unicode's categories of what steers a terminal, hides, breaks a line or cannot be written."""


def printable(text: str, most: int | None = None) -> str:
    """Somebody else's text, safe to show: "?" for what is no letter, cut to ``most`` letters."""
    plain = "".join("?" if unicodedata.category(x) in _UNPRINTABLE else x for x in text)
    return plain if most is None or len(plain) <= most else f"{plain[: most - 1]}…"


def did_you_mean(name: str, known: Iterable[str], *, most: int = 1, cutoff: float = 0.4) -> str:
    """The known names nearest to one that is not, as a question; empty where none comes near."""
    near = difflib.get_close_matches(name.lower(), list(known), n=most, cutoff=cutoff)
    return f"did you mean {' or '.join(near)}?" if near else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing wrong with an input: what was given, what was understood, what would be right.

    ``field`` is the option or value in the user's words; ``file`` and ``key`` place it in a
    file when it came from one.
    """

    field: str
    given: str
    wanted: str
    understood: str = ""
    fix: str = ""
    file: str = ""
    key: str = ""

    @property
    def options(self) -> list[str]:
        """The options that ``field`` names: one, or several joined by "and" or "or"."""
        return re.split(" and | or ", self.field)

    def __str__(self) -> str:
        where = ""
        if self.file:
            where = f"{self.file}, " + (f"key {self.key}: " if self.key else "")
        elif self.key:
            where = f"key {self.key}: "
        parts = [f"{where}{self.field}: given {self.given}"]
        if self.understood:
            parts.append(f"understood as {self.understood}")
        parts.append(f"wanted {self.wanted}")
        if self.fix:
            parts.append(self.fix)
        return printable("; ".join(parts) + ".")


class LiftcalcError(Exception):
    """Root of everything this package raises on purpose."""


class InputError(LiftcalcError):
    """One or more faults in what was given; ``faults`` lists them all."""

    def __init__(self, faults: Fault | Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = (faults,) if isinstance(faults, Fault) else tuple(faults)
        if not self.faults:
            raise ValueError("an InputError needs at least one Fault")
        super().__init__(str(self))

    @classmethod
    def of(
        cls, *, field: str, given: str, wanted: str, understood: str = "", fix: str = "", **at: str
    ) -> Self:
        """The error of one fault; ``at`` is its file and key."""
        return cls(
            Fault(field=field, given=given, wanted=wanted, understood=understood, fix=fix, **at)
        )

    def __str__(self) -> str:
        if len(self.faults) == 1:
            return str(self.faults[0])
        lines = [f"{len(self.faults)} things need putting right:"]
        lines += [f"  {number}. {fault}" for number, fault in enumerate(self.faults, 1)]
        return "\n".join(lines)


def raise_any(faults: Iterable[Fault]) -> None:
    """Raise one ``InputError`` with all of them, if there is any."""
    if listed := tuple(faults):
        raise InputError(listed)


class PoseError(InputError):
    """The machine cannot stand, reach or hold as asked; the faults say which link or ram."""


class Gather:
    """Collects faults from several readings, then raises them together.

    Use as a context manager; inside it, ``with gather:`` blocks swallow an ``InputError`` and
    keep its faults, so that the next field is still read.
    """

    def __init__(self) -> None:
        self.faults: list[Fault] = []

    def __enter__(self) -> Gather:
        return self

    def __exit__(self, kind: object, error: BaseException | None, trace: object) -> bool:
        if isinstance(error, InputError):
            self.faults.extend(error.faults)
            return True
        return False

    def raise_any(self) -> None:
        """Raise one ``InputError`` with everything gathered, if there is anything."""
        raise_any(self.faults)
