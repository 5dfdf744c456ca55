"""Facts as a person writes them: "7400 kg", "4.10 m ± 2 cm", "900 kg, reach 4.2 m, height 1 m"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from liftcalc import units
from liftcalc.errors import Gather, InputError, did_you_mean
from liftcalc.family.fact import Fact, Told
from liftcalc.family.facts import fact
from liftcalc.unit_names import EXAMPLES

PLACES: dict[str, units.Kind] = {"reach": "length", "height": "length", "load": "mass"}
"""What a fact of the hook says beside its value."""
PLACED = {"reach": "3.6 m", "height": "0.5 m", "load": "600 kg"}
SUCH_AS = {
    "total": "7400 kg",
    "_rating": "6500 kg",
    "_axle": "3100 kg",
    "_bore": "110 mm",
    "_rod": "60 mm",
    "pad_length": "42 cm",
    "pad_width": "36 cm",
    "nose_height": "4.5 m",
    "hinge_height": "3.4 m",
    "_height": "1.4 m",
    "_hub": "70 cm",
    "wheelbase": "2.15 m",
    "_track": "1.75 m",
    "_behind": "95 cm",
    "foot_": "62 cm",
    "knuckle_": "94 cm",
    "_ram_": "1.45 m",
}
"""Answers of a size that is usual, by parts of the keys of facts, the first that fits."""
_OFF = re.compile(r"\s*(?:±|\+/-|\+-)\s*")
_NEXT = re.compile(r"\s*[,;]\s+(?=[A-Za-z])")
_NAMED = re.compile(r"([A-Za-z]+)[\s=:]+(.+)")


def example(asked: Fact) -> str:
    """How an answer to a fact is written."""
    usual = EXAMPLES[asked.unit].split('"')[1]
    given = next((each for part, each in SUCH_AS.items() if part in asked.key), usual)
    return ", ".join((given, *(f"{name} {PLACED[name]}" for name in asked.asks)))


def told_fact(key: str, text: object) -> Told:
    """One fact from its text; raises ``InputError`` with all that is wrong with it."""
    asked = fact(key)
    if not isinstance(text, str):
        raise InputError.of(
            field=key,
            given=repr(text)[:60],
            wanted=f'text with its unit, such as "{example(asked)}"',
            fix="write it in quotes",
        )
    first, *rest = _NEXT.split(text.strip())
    value, *off = _OFF.split(first)
    gather, given = Gather(), dict[str, Any]()
    with gather:
        given["value"] = units.read(value, asked.unit, field=key).value
    for each in off[:1]:
        with gather:
            given["tolerance"] = _tolerance(each, asked, given.get("value"))
    for each in rest:
        with gather:
            name, read = _place(each, asked)
            given[name] = read
    lacking = [name for name in asked.asks if name not in given]
    if lacking and not gather.faults:
        with gather:
            raise InputError.of(
                field=key,
                given=f'"{text}"',
                wanted=f"the {' and the '.join(lacking)} of the hook too",
                fix=f'write it so: "{example(asked)}"',
            )
    gather.raise_any()
    return Told(key=key, **given)


def _tolerance(text: str, asked: Fact, value: float | None) -> float:
    """A tolerance with its own unit, or as a share of the value."""
    kind: units.Kind = "ratio" if text.rstrip().endswith("%") else asked.unit
    read = units.read(text, kind, field=asked.key).value * (
        abs(value or 1.0) if kind == "ratio" and asked.unit != "ratio" else 1.0
    )
    if read < 0:
        raise InputError.of(
            field=asked.key,
            given=f'"± {text}"',
            wanted="a tolerance above zero",
            fix="drop the minus sign",
        )
    return read


def _place(text: str, asked: Fact) -> tuple[str, float]:
    found = _NAMED.fullmatch(text)
    name = found.group(1).lower() if found else ""
    if found is None or name not in PLACES:
        raise InputError.of(
            field=asked.key,
            given=f'"{text}"',
            wanted="after the value only reach, height or load, each with its figure",
            fix=did_you_mean(name, PLACES) or f'write it so: "{example(asked)}"',
        )
    return name, units.read(found.group(2), PLACES[name], field=f"{name} of {asked.key}").value


def told_facts(texts: Mapping[str, Any], *, file: str = "") -> tuple[Told, ...]:
    """Facts from their texts, one or a list of several each.

    Raises ``InputError`` with every fault of every fact.
    """
    gather, told = Gather(), []
    for key, given in texts.items():
        for text in given if isinstance(given, list) else (given,):
            with gather:
                told.append(told_fact(key, text))
    if gather.faults:
        raise InputError(placed(gather.faults, file))
    return tuple(told)


def placed(faults: Iterable[Any], file: str) -> list[Any]:
    """Faults with the file and the key that they are of."""
    return [
        replace(each, file=file, key=each.key or each.field.rpartition(" ")[2]) for each in faults
    ]
