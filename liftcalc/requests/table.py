"""A row of the table of fields: all that is known of one thing that may be typed.

The table itself is in ``fields``; commands, pages, readers, saved lifts and ``docs/options.md``
follow from it.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING, Any, Literal

from liftcalc import units
from liftcalc.errors import Fault, did_you_mean
from liftcalc.requests.sections import Section, Situation, When

if TYPE_CHECKING:  # a log is weighed without machines
    from liftcalc.machines.schema import EndName

NamedKind = Literal[
    "choice", "flag", "machine", "attachment", "lift point", "species", "bark", "moisture",
    "extra", "ground", "weighed", "faults",
]  # fmt: skip
"""What is typed by name: one of some options, yes or no, or something that has to be looked up."""
Kind = units.Kind | NamedKind

ABOVE_ZERO = 1e-9
"""Least of what has to be more than nothing, in any unit."""
SHOWN = 60
"""As much of a refused text is said back [characters]."""
_ROW = "row"


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One row.

    Attributes
    ----------
    name : str
        In the records and in files; the option is written with hyphens.
    section, kind, label, how
        Where it stands, what is read from it, what it is called, and how to measure or say it.
    low, high : float
        Bounds of a quantity [SI].
    options : tuple of str
        What may be chosen.
    shown : mapping
        Options that are shown in other words.
    only_back : tuple of str
        Options that the front end has not.
    default : str or bool
        What it is when it is not said.
    usual : str
        The option that is taken, and told as assumed, when none is said.
    example : str
    none : bool
        Whether "none" may be said; it is read as without end.
    look : tuple of str
        Label and advice of the question, before it, whether there is such a thing at all.
    needed : When or None
        When it may not be left out.
    to : str
        Record of the lift that it goes into, where that is another than its section's; after a
        point its name there, where that is another.
    only : When or None
        When it applies, beside what its section says.
    argument : bool
        Whether it stands in a command without its name.
    each_end : bool
        Whether a page keeps it for each end by itself.
    of, end : str
        The field of ``LiftRequest`` that it stands for, and of which end, where it is of one of
        two ends.
    beside : bool
        Whether a page has it beside the one before it.
    telling : bool
        Whether an option says by itself what it is about.
    """

    name: str = ""
    section: Section
    kind: Kind
    label: str
    how: str
    low: float = 0.0
    high: float = 0.0
    options: tuple[str, ...] = ()
    shown: Mapping[str, str] = field(default_factory=dict)
    only_back: tuple[str, ...] = ()
    default: str | bool = ""
    usual: str = ""
    example: str = ""
    none: bool = False
    look: tuple[str, str] = ("", "")
    needed: When | None = None
    to: str = ""
    only: When | None = None
    argument: bool = False
    each_end: bool = False
    of: str = ""
    end: Literal["", "front", "back", "other"] = ""
    beside: bool = False
    telling: bool = False

    @property
    def option(self) -> str:
        """The name that options, echoes and faults use."""
        return self.name.replace("_", "-")

    @property
    def target(self) -> tuple[str, str]:
        """The record of the lift that it goes into, if any, and its name there."""
        record, _, name = (self.to or self.section.to).partition(".")
        return record, name or self.name

    @property
    def conditions(self) -> tuple[When, ...]:
        """All that has to hold for it to apply."""
        return tuple(each for each in (self.section.when, self.only) if each is not None)

    def applies(self, situation: Situation) -> bool:
        """Whether it means anything there."""
        return all(each.holds(situation) for each in self.conditions)

    @property
    def bounds(self) -> str:
        """What is accepted, in words."""
        if self.kind == "faults":
            return f"none, or any of {', '.join(self.options)}"
        if self.options:
            return f"one of {', '.join(self.options)}"
        if self.low == self.high:
            return ""
        low = "more than zero" if self.low == ABOVE_ZERO else _brief(self.low, self.kind)
        high = _brief(self.high, self.kind)
        said = f"{low} and at most {high}" if self.low == ABOVE_ZERO else f"{low} to {high}"
        if self.none and self.kind == "mass":
            return f"{said}, or none, or unmarked"
        return f"{said}, or none" if self.none else said

    @property
    def wanted(self) -> str:
        """What is lacking where it must be said and is not."""
        return self.bounds if self.options else f"the {self.label.lower()}, such as {self.such_as}"

    @property
    def such_as(self) -> str:
        """An example in quotation marks, or several."""
        return f'"{self.example}"' if self.example else units.EXAMPLES.get(self.kind, "")

    @property
    def advice(self) -> str:
        """How to say it; with the example where it ends in a colon."""
        return f"{self.how} {self.example}." if self.how.endswith(":") else self.how


def _brief(value: float, kind: Any) -> str:
    """A bound with no more places than it needs; a ratio as a bare number."""
    shown = f"{value:g}" if kind == "ratio" else units.show(value, kind)
    return re.sub(r"\.0+(?!\d)|(\.\d*[1-9])0+(?!\d)", r"\1", shown).replace("-", "−")


def row(section: Section, kind: Kind, label: str, how: str, **more: Any) -> Any:
    """A field of a record, with its row; ``most`` is a bound of what must be more than nothing."""
    if "most" in more:
        more |= {"low": ABOVE_ZERO, "high": more.pop("most")}
    made = Field(section=section, kind=kind, label=label, how=how, **more)
    return field(default=made.default, metadata={_ROW: made})


def again(record: type, name: str, **other: Any) -> Any:
    """A row of another record, with something of it said otherwise."""
    made = dataclasses.replace(field_of(record, name), name="", **other)
    return field(default=made.default, metadata={_ROW: made})


def of_end(end: EndName, record: type, name: str) -> Any:
    """A row of a record that another holds for one of two ends."""
    return again(record, name, label=f"{field_of(record, name).label}, {end} end", of=name, end=end)


@cache
def rows(record: type) -> tuple[Field, ...]:
    """The rows of a record, as they were declared."""
    return tuple(
        dataclasses.replace(each.metadata[_ROW], name=each.name)
        for each in dataclasses.fields(record)
    )


def field_of(record: type, name: str) -> Field:
    """One row."""
    return next(each for each in rows(record) if each.name == name)


def unknown_name(name: str, known: Iterable[str], *, wanted: str, file: str = "") -> Fault:
    """The fault of a name that no field has, with the one it is nearest to."""
    return Fault(
        field=shortened(name),
        given="a name that is not known",
        wanted=wanted,
        fix=did_you_mean(name[:SHOWN], known, cutoff=0.6) or "leave it out",
        file=file,
    )


def shortened(text: str) -> str:
    """As much of a refused text as is said back."""
    return text if len(text) <= SHOWN else f"{text[:SHOWN]} …"
