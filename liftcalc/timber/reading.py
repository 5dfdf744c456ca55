"""A log from the words a person types, with an echo of what was understood."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TypeVar, get_args

from liftcalc import units
from liftcalc.errors import Fault, Gather, InputError
from liftcalc.timber.measure import NOTHING, Extra, Extras, LogMeasure, State, measure_faults
from liftcalc.timber.species import find
from liftcalc.timber.table import Species

Value = TypeVar("Value")

BARK = {"over": True, "over bark": True, "under": False, "under bark": False}
"""What may be said of the bark."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogReading:
    """A measure, and for each field what was understood."""

    measure: LogMeasure
    echoes: tuple[tuple[str, str], ...]


@dataclass(slots=True)
class _Reader:
    """Reads field after field, keeping faults, echoes and the user's own words."""

    gather: Gather = field(default_factory=Gather)
    echoes: list[tuple[str, str]] = field(default_factory=list)
    said: dict[str, str] = field(default_factory=dict)
    unread: set[str] = field(default_factory=set)

    def read(
        self, name: str, text: str | None, way: Callable[[str, str], tuple[Value, str]]
    ) -> Value | None:
        """What ``way`` makes of the text; None where none was given or it cannot be read."""
        if text is None:
            return None
        self.said[name] = text
        with self.gather:
            value, echo = way(text, name)
            self.echoes.append((name, echo))
            return value
        self.unread.add(name)
        return None


def read_log(
    *,
    species: str,
    length: str,
    butt: str | None = None,
    mid: str | None = None,
    top: str | None = None,
    bark: str = "over",
    moisture: str = "fresh",
    ice: str | None = None,
    mud: str | None = None,
    root_plate: str | None = None,
    limbs: str | None = None,
) -> LogReading:
    """Read a log as typed.

    Parameters
    ----------
    species : str
        Common or botanical name.
    length, butt, mid, top : str
        With units; a diameter may be a girth.
    bark : str
        ``over`` or ``under``: how the diameters were taken.
    moisture : str
        ``fresh``, ``part-dry``, ``soaked``, or water over dry mass such as ``"85 %"``.
    ice, mud, root_plate, limbs : str
        Each a mass (``"40 kg"``) or a share of the log's own mass (``"5 %"``).

    Returns
    -------
    LogReading
        The measure and the echoes, in the order of the parameters.

    Raises
    ------
    InputError
        With every fault of every field, the fields named as the parameters are, with hyphens.
    """
    reader = _Reader()
    tree = reader.read("species", species, _species)
    long = reader.read("length", length, _length)
    thick = {
        name: reader.read(name, text, _diameter)
        for name, text in (("butt", butt), ("mid", mid), ("top", top))
    }
    over_bark = reader.read("bark", bark, _bark)
    water = reader.read("moisture", moisture, _moisture)
    carried = Extras(
        ice=reader.read("ice", ice, _extra) or NOTHING,
        mud=reader.read("mud", mud, _extra) or NOTHING,
        root_plate=reader.read("root-plate", root_plate, _extra) or NOTHING,
        limbs=reader.read("limbs", limbs, _extra) or NOTHING,
    )
    diameters = {"butt": thick["butt"], "middle": thick["mid"], "top": thick["top"]}
    reader.gather.faults += measure_faults(
        length=long,
        **diameters,
        moisture=water,
        extras=carried,
        said=reader.said,
        unread=frozenset(reader.unread & {"butt", "mid", "top"}),
    )
    reader.gather.raise_any()
    # Nothing is None here: what could not be read has raised.
    assert tree is not None
    assert long is not None
    assert over_bark is not None
    assert water is not None
    measure = LogMeasure(
        species=tree, length=long, **diameters, over_bark=over_bark, moisture=water, extras=carried
    )
    return LogReading(measure=measure, echoes=tuple(reader.echoes))


def _species(text: str, name: str) -> tuple[Species, str]:
    found = find(text, field=name)
    return found, str(found)


def _length(text: str, name: str) -> tuple[float, str]:
    quantity = units.read(text, "length", field=name)
    return quantity.value, quantity.echo


def _diameter(text: str, name: str) -> tuple[float, str]:
    quantity = units.read(text, "diameter", field=name)
    return quantity.value, quantity.echo


def _bark(text: str, name: str) -> tuple[bool, str]:
    said = " ".join(text.casefold().replace("-", " ").split())
    if said not in BARK:
        fault = Fault(
            field=name,
            given=f'"{text}"',
            wanted="over or under",
            fix="say how the diameters were taken: over the bark or under it",
        )
        raise InputError(fault)
    over = BARK[said]
    return over, "measured over bark" if over else "measured under bark; bark is added"


def _moisture(text: str, name: str) -> tuple[State | float, str]:
    said = "-".join(text.casefold().replace("-", " ").split())
    for state in get_args(State):
        if said == state:
            return state, state
    try:
        quantity = units.read(text, "ratio", field=name)
    except InputError as error:
        fault = Fault(
            field=name,
            given=f'"{text}"',
            understood=error.faults[0].understood,
            wanted='fresh, part-dry or soaked, or water over dry mass such as "85 %"',
            fix=error.faults[0].fix if any(c.isdigit() for c in text) else "use one of those",
        )
        raise InputError(fault) from None
    return quantity.value, f"{100 * quantity.value:g} % of dry mass"


def _extra(text: str, name: str) -> tuple[Extra, str]:
    share = "%" in text or "percent" in text
    try:
        quantity = units.read(text, "ratio" if share else "mass", field=name)
    except InputError as error:
        fault = Fault(
            field=name,
            given=f'"{text}"',
            understood=error.faults[0].understood,
            wanted='a mass such as "40 kg", or a share of the log\'s own mass such as "5 %"',
            fix=error.faults[0].fix,
        )
        raise InputError(fault) from None
    if share:
        return Extra(share=quantity.value), f"{100 * quantity.value:g} % of the log's own mass"
    return Extra(mass=quantity.value), quantity.echo
