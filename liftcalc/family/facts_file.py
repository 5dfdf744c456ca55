"""A machine's file of facts: its class, and whatever is known of it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any, get_args

import numpy as np

from liftcalc.errors import Fault, Gather, InputError, did_you_mean
from liftcalc.family.fact import Told
from liftcalc.family.facts import FACTS, fact
from liftcalc.family.kind import BoomRam, MachineKind, Mount, machine_kind
from liftcalc.family.known import KnownMachine
from liftcalc.family.posterior import posterior
from liftcalc.family.telling import placed, told_facts
from liftcalc.family.unlikely import LOOK, Seen
from liftcalc.family.unlikely_fact import UnlikelyFact, unlikely_fact
from liftcalc.files import UNKNOWN_KEY
from liftcalc.machines.number import Number
from liftcalc.machines.schema import Plate
from liftcalc.machines.validation import sound
from liftcalc.units import show

NAMES = ("name", "title", "note")
CHOICES: dict[str, tuple[str, ...]] = {"mount": get_args(Mount), "boom_ram": get_args(BoomRam)}
"""What else of how it is built can be told, beside the class."""
KEYS = ("class", *CHOICES, *NAMES, *FACTS)
RATED = {"rated_back": "back", "rated_front": "front"}
"""Facts that are rows of the machine's own plate, and so cap every answer too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FactsFile:
    """A file of facts as read: the kind of machine, what is told of it, and what it is called."""

    kind: MachineKind
    told: tuple[Told, ...]
    named: Mapping[str, str]


def facts_of(raw: Mapping[str, Any], *, file: str) -> FactsFile:
    """What a table of facts tells; raises ``InputError`` with every fault by file and key."""
    gather, kind = Gather(), None
    with gather:
        kind = machine_kind(
            str(raw.get("class", "")),
            **{key: _choice(raw, key, gather) for key in CHOICES},  # type: ignore[arg-type]
        )
    for key in raw:
        if key not in KEYS:
            with gather:
                raise InputError.of(
                    field=key,
                    given=UNKNOWN_KEY,
                    wanted="class, a name, or a fact of the machine",
                    fix=did_you_mean(key, KEYS, most=2) or "'liftcalc machine facts' lists them",
                )
    with gather:
        told = told_facts({key: raw[key] for key in raw if key in FACTS})
    if gather.faults or kind is None:
        raise InputError(placed(gather.faults, file))
    stem = file.rpartition("/")[2].removesuffix(".toml")
    named = {"name": stem, **{key: str(raw[key]) for key in NAMES if key in raw}}
    return FactsFile(kind=kind, told=told, named=named)


def _choice(raw: Mapping[str, Any], key: str, gather: Gather) -> str | None:
    given = raw.get(key)
    if given is not None and given not in CHOICES[key]:
        with gather:
            raise InputError.of(
                field=key,
                given=f"{given!r:.60}",
                wanted=" or ".join(f'"{each}"' for each in CHOICES[key]),
            )
        return None
    return given


@lru_cache(maxsize=32)
def _ensemble(kind: MachineKind, told: tuple[Told, ...]) -> Any:
    with np.errstate(all="ignore"):  # facts of no machine lead far out before they are refused
        return posterior(kind, told)


def known(read: FactsFile) -> KnownMachine:
    """The machine that a file of facts tells.

    With no fact of its own it is an invented one of its class. Raises ``InputError`` for facts
    that no machine of the class has.
    """
    anybody = _ensemble(read.kind, ())
    # Who tells how sure a figure is has looked at it twice.
    doubtful = (each for each in read.told if each.tolerance is None)
    slips = tuple(filter(None, (unlikely_fact(anybody, each) for each in doubtful)))
    try:
        found = _ensemble(read.kind, read.told)
    except InputError as error:
        raise InputError([_fault(each) for each in slips] or error.faults) from None
    pattern = read.kind.pattern
    named = {
        "title": f"{read.named['name']}, a {pattern.title[0].lower()}{pattern.title[1:]}",
        **read.named,
    }
    plate = (*pattern.plate, *(_plate(each) for each in read.told if each.key in RATED))
    made = KnownMachine.of(found, slips, **named, plate=plate, invented=not read.told)
    sound(made, file=named["name"])
    return made


LOOK_AT = (
    (("boom_ram_bore", "dipper_ram_bore", "working_pressure", "relief_gauge"), "boom"),
    (("lift_ram_bore", "tilt_ram_bore"), "loader"),
    (("bucket_ram_bore",), "curl"),
    (("boom_length", "dipper_length"), "reach"),
    (("arm_length", "arm_pivot_height"), "hinge"),
)
"""What to look at where facts are unlikely: by what of ``unlikely.LOOK`` they change most."""


def seen(read: FactsFile, slip: UnlikelyFact) -> Seen:
    """What to look at to tell a fact as told from the likely one: medians of machines by either.

    The fact itself where nothing else shows it.
    """
    key = slip.told.key
    by_fact = Seen(fact(key).question, slip.told.value, slip.likely, fact(key).unit)
    name = next((look for facts, look in LOOK_AT if key in facts), None)
    if name is None:
        return by_fact
    words, does, unit = LOOK[name]
    likely = tuple(
        replace(each, value=slip.likely) if each == slip.told else each for each in read.told
    )
    with np.errstate(all="ignore"):
        found = [
            float(np.nanmedian(does(_ensemble(read.kind, told).machine)))
            for told in (read.told, likely)
        ]
    return Seen(words, found[0], found[1], unit) if np.all(np.isfinite(found)) else by_fact


def _fault(slip: UnlikelyFact) -> Fault:
    unit = fact(slip.told.key).unit
    return Fault(
        field=slip.told.key,
        given=show(slip.told.value, unit),
        understood=slip.slip,
        wanted=f"what a machine of the class has, such as {show(slip.likely, unit)}",
        fix="look at the unit and the decimal point, or measure it again",
    )


def written(raw: Mapping[str, Any]) -> str:
    """The text of a file that tells these facts, each with its question beside it."""
    lines = [f"{key} = {_text(raw[key])}" for key in ("name", "title", "note") if key in raw]
    lines += [f"{key} = {_text(raw[key])}" for key in ("class", *CHOICES) if key in raw]
    lines += [f"{key} = {_text(raw[key])}  # {FACTS[key].question}" for key in FACTS if key in raw]
    return "\n".join([*lines, ""])


def _text(value: Any) -> str:
    """A text, or a list of them, as TOML writes it: basic strings are those of JSON."""
    return json.dumps(value, ensure_ascii=False)


def _plate(told: Told) -> Plate:
    """A row of the machine's own plate as a fact tells it."""

    def number(value: float, text: str) -> Number:
        return Number(value, kind="published", source="told of the machine", text=text)

    return Plate.model_construct(
        end=RATED[told.key],
        load=number(told.value, f"{told.value:.0f} kg"),
        reach=None if told.reach is None else number(told.reach, f"{told.reach:.2f} m"),
        rated_with=None,
    )
