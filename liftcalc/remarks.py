"""What an answer has to say beside its figures: a code with its values, no sentence.

A remark is made where the fact is known and decided by as a code; ``reports.words`` puts it into
words, once, in either system of units.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Any, Self, TypeAlias

from liftcalc.errors import Fault
from liftcalc.units import Kind, Rounding, System, show


@dataclass(frozen=True, slots=True)
class Figure:
    """A number of a remark [SI], what it is, which way it is rounded and to how many places."""

    value: float
    kind: Kind
    rounding: Rounding = "near"
    places: int | None = None

    def words(self, system: System = "metric", places: int | None = None) -> str:
        """The number and its unit."""
        return show(
            self.value,
            self.kind,
            system=system,
            rounding=self.rounding,
            places=self.places if places is None else places,
        )


def near(value: Any, kind: Kind, places: int | None = None) -> Figure:
    """A figure to be rounded to the nearest."""
    return Figure(float(value), kind, places=places)


def up(value: Any, kind: Kind) -> Figure:
    """A load, or what is needed: never shown smaller than it is."""
    return Figure(float(value), kind, "up")


def down(value: Any, kind: Kind) -> Figure:
    """A capacity, or what there is: never shown larger than it is."""
    return Figure(float(value), kind, "down")


class Phrase(str):
    """A name, or a part of a fault, with figures in it: a text in metric, and `words` in either.

    Figures, texts and other phrases stand in its pattern by name, in braces.
    """

    __slots__ = ("pattern", "values")
    pattern: str
    values: dict[str, Figure | str]

    def __new__(cls, pattern: str, /, **values: Figure | str) -> Self:
        """Fill a pattern."""
        made = super().__new__(cls, _filled(pattern, values, "metric"))
        made.pattern, made.values = pattern, values
        return made

    def __getnewargs_ex__(self) -> tuple[tuple[str], dict[str, Figure | str]]:
        return (self.pattern,), self.values

    def words(self, system: System = "metric") -> str:
        """What is said."""
        return _filled(self.pattern, self.values, system)


def _filled(pattern: str, values: dict[str, Figure | str], system: System) -> str:
    return pattern.format(
        **{
            name: each.words(system) if isinstance(each, Figure | Phrase) else each
            for name, each in values.items()
        }
    )


def worded(fault: Fault, system: System) -> Fault:
    """The fault with its figures in a system of units."""
    parts = {each.name: getattr(fault, each.name) for each in fields(fault)}
    return replace(
        fault, **{name: x.words(system) for name, x in parts.items() if isinstance(x, Phrase)}
    )


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
