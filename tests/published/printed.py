"""A number as a source prints it: it carries half a unit in its last place."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Printed:
    """``Printed("0.1336", source="...")``; ``relative`` widens it, with a ``reason``."""

    text: str
    source: str = ""
    relative: float = 0.0
    reason: str = ""

    def __post_init__(self) -> None:
        if self.relative and not self.reason:
            raise ValueError("a wider tolerance needs a reason")

    @property
    def value(self) -> float:
        return float(self.text)

    @property
    def half_unit(self) -> float:
        mantissa, _, exponent = self.text.lower().partition("e")
        places = len(mantissa.partition(".")[2])
        return 0.5 * 10.0 ** (int(exponent or 0) - places)

    def agrees(self, ours: float) -> bool:
        allowed = max(self.half_unit, abs(self.value) * self.relative) * (1 + 1e-9)
        return abs(ours - self.value) <= allowed

    def __eq__(self, other: object) -> bool:
        return isinstance(other, int | float) and self.agrees(float(other))

    __hash__ = None  # type: ignore[assignment]
