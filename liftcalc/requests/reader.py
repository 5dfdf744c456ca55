"""Reads one typed text after the other and keeps every fault, echo and assumption."""

from __future__ import annotations

import difflib
import math
from dataclasses import dataclass, field

from liftcalc import units
from liftcalc.errors import Fault, Gather, InputError

NONE = ("none", "no")
"""What says of a thing that there is none of it."""


@dataclass(slots=True)
class FieldReader:
    """Reads one text after the other; keeps echoes, faults and what had to be assumed."""

    gather: Gather = field(default_factory=Gather)
    echoes: list[tuple[str, str]] = field(default_factory=list)
    assumed: list[str] = field(default_factory=list)

    def number(
        self,
        name: str,
        text: str,
        kind: units.Kind,
        *,
        low: float = -math.inf,
        high: float = math.inf,
        bounds: str = "",
    ) -> float | None:
        """A quantity between bounds [SI], or None when nothing was said or it was refused."""
        if not text.strip():
            return None
        with self.gather:
            read = units.read(text, kind, field=name)
            if not low <= read.value <= high:
                raise InputError(
                    Fault(field=name, given=f'"{text}"', understood=read.echo, wanted=bounds)
                )
            self.echoes.append((name, read.echo))
            return read.value
        return None

    def positive(self, name: str, text: str, kind: units.Kind, *, high: float) -> float | None:
        """A quantity above zero, up to a bound."""
        return self.number(
            name,
            text,
            kind,
            low=1e-9,
            high=high,
            bounds=f"more than zero and at most {units.show(high, kind)}",
        )

    def choice(self, name: str, text: str, options: tuple[str, ...]) -> str | None:
        """One of some words, forgiving of case, hyphens and plus signs."""
        plain = " ".join(text.lower().replace("-", " ").replace("+", " and ").split())
        if plain in options:
            self.echoes.append((name, plain))
            return plain
        near = difflib.get_close_matches(plain, options, n=1, cutoff=0.4)
        self.gather.faults.append(
            Fault(
                field=name,
                given=f'"{text}"' if text.strip() else "nothing",
                wanted=f"one of {', '.join(options)}",
                fix=f"did you mean {near[0]}?" if near else "",
            )
        )
        return None

    def or_assume(self, value: float | None, default: float, said: str) -> float:
        """The value, or a default that is then listed as assumed."""
        if value is not None:
            return value
        self.assumed.append(said)
        return default

    def fault(self, name: str, *, given: str, wanted: str, fix: str = "") -> None:
        """Note a fault and read on."""
        self.gather.faults.append(Fault(field=name, given=given, wanted=wanted, fix=fix))
