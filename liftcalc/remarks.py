"""What an answer has to say beside its figures: a code with its values, no sentence.

A remark is made where the fact is known and decided by as a code; ``reports.words`` puts it into
words, once, in either system of units.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, TypeAlias

from liftcalc.units import Kind, Rounding, System


@dataclass(frozen=True, slots=True)
class Figure:
    """A number of a remark [SI], what it is, and which way it is rounded."""

    value: float
    kind: Kind
    rounding: Rounding = "near"


def near(value: Any, kind: Kind) -> Figure:
    """A figure to be rounded to the nearest."""
    return Figure(float(value), kind)


def up(value: Any, kind: Kind) -> Figure:
    """A load, or what is needed: never shown smaller than it is."""
    return Figure(float(value), kind, "up")


def down(value: Any, kind: Kind) -> Figure:
    """A capacity, or what there is: never shown larger than it is."""
    return Figure(float(value), kind, "down")


@dataclass(frozen=True, slots=True, init=False)
class Remark:
    """Something to be said.

    Attributes
    ----------
    code : str
        What is said; ``reports.words`` has its words.
    values : tuple of pairs
        What it is said of, by name: a figure, a count or plain number, a name that stands for
        itself, another remark, or several of these.
    """

    code: str
    values: tuple[tuple[str, Value], ...]

    def __init__(self, code: str, /, **values: Value) -> None:
        object.__setattr__(self, "code", code)
        object.__setattr__(self, "values", tuple(values.items()))

    def __getitem__(self, name: str) -> Any:
        """The value of a name."""
        return dict(self.values)[name]

    def words(self, system: System = "metric") -> str:
        """What is said."""
        from liftcalc.reports.words import text  # noqa: PLC0415 - loaded when somebody looks

        return text(self, system)

    def __str__(self) -> str:
        """Its words, metric."""
        return self.words()


Words = str | Remark
"""A name, which stands for itself, or a remark."""
Value: TypeAlias = "str | int | float | Figure | Remark | tuple[Value, ...]"
