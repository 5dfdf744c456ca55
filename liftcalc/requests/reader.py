"""Reads the typed texts of a record by the table: every fault at once, and what was understood."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, TypeVar, get_args

from liftcalc import units
from liftcalc.errors import Fault, Gather, InputError, did_you_mean
from liftcalc.requests.fields import fields_of, names_of
from liftcalc.requests.sections import Situation
from liftcalc.requests.table import Field
from liftcalc.site.ground import ground, taken_as
from liftcalc.timber.measure import UNTOLD_TOLERANCE, Extra, State, Weighed
from liftcalc.timber.species import find

NONE = ("none", "no")
UNMARKED = ("unmarked", "no mark")
NOT_KNOWN = "not known"
"""What says that nothing is said: of anything that may be left out."""
HEAVIEST = 40_000.0
"""Of what a scale may have said of a log [kg]."""
"""What says of a thing that there is none of it."""
LATER = ("attachment", "lift point")
"""Kinds that only a machine can tell: they are read once it is known."""
Option = TypeVar("Option", bound=str)
Made = TypeVar("Made")


@dataclass(slots=True)
class FieldReader:
    """Reads the fields of a record; keeps values, echoes and faults.

    ``values`` has what was read by field: a number [SI], an option, a flag, a thing looked up;
    None where nothing was said or it was refused. ``records`` has the same by the record of the
    lift that it goes into. With ``added`` only those fields are read that the record adds to the
    one it extends, for both ends of a comparison alike.
    """

    request: Any
    added: bool = False
    gather: Gather = field(default_factory=Gather)
    echoes: list[tuple[str, str]] = field(default_factory=list)
    values: dict[str, Any] = field(default_factory=dict)
    fields: dict[str, Field] = field(default_factory=dict)
    records: dict[str, dict[str, Any]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Read all there is."""
        record: type = type(self.request)
        known = names_of(record.__bases__[0]) if self.added else ()
        for row in fields_of(record):
            if row.name in known or (self.added and row.of):
                continue
            self.fields[row.name] = row
            value = self.values[row.name] = self._read(row)
            if value is not None:
                into, name = row.target
                self.records.setdefault(into, {})[name] = value
        lacking = [row for row in self.fields.values() if row.needed and not self.text(row.name)]
        if lacking:
            typed = {name: getattr(self.request, name) for name in names_of(record)}
            chosen = {n: self.values[n] or "" for n, row in self.fields.items() if row.options}
            situation = Situation(said=typed | chosen)
            for row in lacking:
                if row.needed and row.needed.holds(situation):
                    self.fault(row.name, given="nothing", wanted=row.wanted)

    def _read(self, row: Field) -> Any:
        if row.kind == "flag":
            return getattr(self.request, row.name)
        text = self.text(row.name) or str(row.default)
        if row.kind in LATER:
            return text
        if text or row.kind == "machine":
            with self.gather:
                # A machine at hand is more than its name.
                given = getattr(self.request, row.name) if row.kind == "machine" else text
                value, echo = read_text(row, given)
                self.echoes.append((row.option, echo))
                return value
        return None

    def text(self, name: str) -> str:
        """What was typed, without blanks round it; nothing where it is not known."""
        return said(getattr(self.request, name))

    def number(self, name: str) -> float | None:
        """A quantity [SI]."""
        value = self.values[name]
        assert value is None or isinstance(value, float | int)
        return value

    def chosen(self, name: str, options: tuple[Option, ...]) -> Option | None:
        """One of some options, or None."""
        return next((each for each in options if each == self.values[name]), None)

    def said_of(self, record: str) -> dict[str, Any]:
        """What was said of a record of the lift, by its names there."""
        return self.records.get(record, {})

    def made(self, record: Callable[..., Made], name: str, **other: Any) -> Made:
        """A record of the lift from what was said of it; as nobody said anything, if refused."""
        with self.gather:
            return record(**self.said_of(name) | other)
        return record()

    def unread(self, *names: str) -> bool:
        """Whether something was said of any that could not be read; that is a fault already."""
        return any(self.text(name) and self.values[name] is None for name in names)

    def fault(self, name: str, *, given: str = "", wanted: str, fix: str = "") -> None:
        """Note a fault and read on; given is what was typed, if nothing else."""
        self.gather.faults.append(
            Fault(
                field=name.replace("_", "-"),
                given=given or f'"{self.text(name)}"',
                wanted=wanted,
                fix=fix,
            )
        )


def said(text: Any) -> str:
    """What a text says, without blanks round it; nothing where it says that it is not known."""
    plain = str(text).strip()
    return "" if plain.casefold() == NOT_KNOWN else plain


def read_text(row: Field, text: str) -> tuple[Any, str]:
    """What a text says by its row, and the echo of it; or an ``InputError``."""
    if row.none and text.lower() in NONE:
        return math.inf, NONE[0]
    if row.none and row.kind == "mass" and text.lower() in UNMARKED:
        return 0.0, "no mark on it: not for lifting"
    named = _NAMED.get(row.kind)
    return named(row, text) if named else _quantity(row, text)


def _quantity(row: Field, text: str) -> tuple[float, str]:
    kind: Any = row.kind
    read = units.read(text, kind, field=row.option)
    if row.low < row.high and not row.low <= read.value <= row.high:
        raise InputError.of(
            field=row.option, given=f'"{text}"', understood=read.echo, wanted=row.bounds
        )
    return read.value, read.echo


def _option(row: Field, text: str) -> tuple[str, str]:
    """One of some words, forgiving of case, hyphens and plus signs."""
    plain = " ".join(text.lower().replace("-", " ").replace("+", " and ").split())
    if plain in row.options:
        return plain, plain
    fix = did_you_mean(plain, row.options)
    raise InputError.of(field=row.option, given=f'"{text}"', wanted=row.bounds, fix=fix)


def _several(row: Field, text: str) -> tuple[tuple[str, ...], str]:
    """Any of some words, parted by commas; or none of them."""
    if text.casefold() in NONE:
        return (), NONE[0]
    found = dict.fromkeys(_option(row, each)[0] for each in text.split(",") if each.strip())
    return tuple(found), ", ".join(found)


def _looked_up(row: Field, text: str) -> tuple[Any, str]:
    if row.kind == "species":
        species = find(text, field=row.option)
        return species, str(species)
    if row.kind == "ground":
        return ground(text), taken_as(text)
    from liftcalc.family.files import load  # noqa: PLC0415 - a log is weighed without machines

    return (machine := load(text)), machine.title


def _bark(row: Field, text: str) -> tuple[bool, str]:
    """Whether the diameters were taken over the bark."""
    side, _ = _option(row, text.casefold().replace("-", " ").removesuffix(" bark"))
    return side == "over", f"measured {side} bark{'' if side == 'over' else '; bark is added'}"


def _moisture(row: Field, text: str) -> tuple[State | float, str]:
    plain = "-".join(text.casefold().replace("-", " ").split())
    for state in get_args(State):
        if plain == state:
            return state, state
    wanted = 'fresh, part-dry or soaked, or water over dry mass such as "85 %"'
    fix = "" if any(letter.isdigit() for letter in text) else "use one of those"
    ratio = _either(row, text, "ratio", wanted, fix)
    return ratio.value, f"{100 * ratio.value:g} % of dry mass"


def _extra(row: Field, text: str) -> tuple[Extra, str]:
    share = "%" in text or "percent" in text
    wanted = 'a mass such as "40 kg", or a share of the log\'s own mass such as "5 %"'
    read = _either(row, text, "ratio" if share else "mass", wanted)
    if share:
        return Extra(share=read.value), f"{100 * read.value:g} % of the log's own mass"
    return Extra(mass=read.value), read.echo


def read_weighed(text: str, field: str = "mass") -> tuple[Weighed, str]:
    """A mass and how far it may be out: "640 kg ± 20 kg", or "640 kg ± 3 %"."""
    said, plus_minus, tolerance = text.replace("+/-", "±").replace("+-", "±").partition("±")
    read = units.read(said.strip(), "mass", field=field)
    within = UNTOLD_TOLERANCE * read.value
    if plus_minus:
        kind: units.Kind = "ratio" if "%" in tolerance else "mass"
        told = units.read(tolerance.strip(), kind, field=field).value
        within = told * read.value if kind == "ratio" else told
    if not 0 < read.value <= HEAVIEST or not 0 <= within < read.value:
        wanted = f"a mass up to {HEAVIEST:g} kg and less than all of it as tolerance"
        raise InputError.of(field=field, given=f'"{text}"', wanted=wanted)
    return Weighed(mass=read.value, tolerance=within), f"{read.echo} ± {within:.3g} kg"


def _either(row: Field, text: str, kind: units.Kind, wanted: str, fix: str = "") -> units.Quantity:
    """A quantity that is only one of what may be said: a fault tells all of it."""
    try:
        return units.read(text, kind, field=row.option)
    except InputError as error:
        first = error.faults[0]
        raise InputError(dataclasses.replace(first, wanted=wanted, fix=fix or first.fix)) from None


_NAMED: dict[str, Callable[[Field, str], tuple[Any, str]]] = {
    "choice": _option,
    "faults": _several,
    "machine": _looked_up,
    "species": _looked_up,
    "ground": _looked_up,
    "bark": _bark,
    "moisture": _moisture,
    "extra": _extra,
    "weighed": lambda row, text: read_weighed(text, row.option),
}
"""How what is no plain quantity is read."""
