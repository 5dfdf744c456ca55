"""What a program gives, as the texts that a person would have typed: the reader stays the only one.

A number is in SI base units (m, kg, Pa, rad, s, V) and loses no digit on the way; a quantity of
pint is brought to them; a text stays as it is. What cannot be written is a fault like any other.
"""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import wraps
from numbers import Real
from pathlib import Path
from typing import Any, TypeVar, cast

import numpy as np

from liftcalc.errors import Gather, InputError
from liftcalc.machines.files import InHand
from liftcalc.machines.schema import Machine
from liftcalc.requests.table import Field, rows, unknown_name

Function = TypeVar("Function", bound=Callable[..., Any])

UNITS: dict[str, tuple[str, str]] = {
    "length": ("m", "meter"),
    "diameter": ("m", "meter"),
    "mass": ("kg", "kilogram"),
    "extra": ("kg", "kilogram"),
    "weighed": ("kg", "kilogram"),
    "force": ("N", "newton"),
    "pressure": ("Pa", "pascal"),
    "angle": ("rad", "radian"),
    "slope": ("rad", "radian"),
    "acceleration": ("m/s2", "meter/second**2"),
    "speed": ("m/s", "meter/second"),
    "turn rate": ("rad/s", "radian/second"),
    "creep": ("m/s", "meter/second"),
    "time": ("s", "second"),
    "voltage": ("V", "volt"),
    "ratio": ("", "dimensionless"),
    "moisture": ("", "dimensionless"),
}
"""SI unit of a number by the kind of its field: as it is typed, and as pint has it."""
SHORT_TON = re.compile(r"(?<!metric_)ton\b")
"""Pint's ton is the short one; whoever wrote it may have meant another."""


def written(record: type, given: Mapping[str, object], gather: Gather) -> dict[str, Any]:
    """What was given for the fields of a record of ``fields``, as the record holds it.

    Each is, by name of the field, a number [SI], a quantity, a text, a bool for a flag, a
    ``Machine`` or its path; None is not said. ``gather`` takes a fault for each that cannot be
    written, and for each name that the record has not.
    """
    known = {each.name: each for each in rows(record)}
    texts = {}
    for name, value in given.items():
        with gather:
            if name not in known:
                raise InputError(unknown_name(name, known, wanted="names of what can be said"))
            if value is not None:
                texts[name] = _written(known[name], value)
    return texts


def _written(row: Field, value: Any) -> str | bool:
    flag = isinstance(value, bool | np.bool_)
    if flag and row.kind == "flag":
        return bool(value)
    if isinstance(value, Machine) and row.kind == "machine":
        return InHand(value)
    if isinstance(value, Path) and row.kind == "machine":
        return str(value)
    if isinstance(value, str) and row.kind != "flag":
        return value
    if row.kind in UNITS and not flag:
        unit, pint_unit = UNITS[row.kind]
        if isinstance(value, Real):
            return in_si(value, unit)
        if hasattr(value, "to_root_units") and np.ndim(value.magnitude) == 0:
            number = magnitude(value, pint_unit)
            # What it is instead, the reader tells.
            return str(value) if number is None else in_si(number, unit)
    wanted = "True or False" if row.kind == "flag" else row.wanted or "a text"
    if row.kind in UNITS:
        wanted = f"a number in {UNITS[row.kind][0] or 'parts of one'}, a quantity, or {wanted}"
    raise InputError.of(field=row.name, given=f"{value!r:.60}", wanted=wanted)


def in_si(value: Any, unit: str) -> str:
    """A number with its unit, every digit of it, as the reader reads it back."""
    return f"{np.format_float_positional(float(value), trim='-')} {unit}".rstrip()


def magnitude(quantity: Any, unit: str) -> Any:
    """Magnitude of a quantity of pint in a unit; None where it is of another kind.

    To pint an angle is a plain number and a hertz is a radian a second; not here.
    """
    alike = type(quantity)(1.0, unit).to_root_units().units == quantity.to_root_units().units
    if not alike or SHORT_TON.search(str(quantity.units)):
        return None
    return quantity.to(unit).magnitude


def takes(record: type) -> Callable[[Function], Function]:
    """Tell ``help`` and completion which fields of a record a function takes by their names.

    A fault names an argument as it is given: with underscores, where an option has hyphens.
    """

    def tell(function: Function) -> Function:
        @wraps(function)
        def told(*args: Any, **given: Any) -> Any:
            try:
                return function(*args, **given)
            except InputError as error:
                named = [replace(each, field=each.field.replace("-", "_")) for each in error.faults]
                raise type(error)(named) from None

        signature = inspect.signature(function)
        own = [each for each in signature.parameters.values() if each.kind != each.VAR_KEYWORD]
        fields = [each for each in rows(record) if each.name not in signature.parameters]
        by_name = inspect.Parameter.KEYWORD_ONLY
        named = [inspect.Parameter(each.name, by_name, default=None) for each in fields]
        # Read by inspect; a callable has no such attribute for a type checker.
        vars(told)["__signature__"] = signature.replace(parameters=[*own, *named])
        doc = f"{inspect.getdoc(function)}\n\nOther Parameters\n----------------\n"
        said = (each for each in rows(record) if f"\n{each.name} : " not in doc)
        doc += "\n".join(f"{each.name} : {_kind(each)}\n    {each.advice}" for each in said)
        told.__doc__ = doc
        return cast(Function, told)

    return tell


def _kind(row: Field) -> str:
    unit = UNITS.get(row.kind, ("",))[0]
    options = f" {{{', '.join(row.options)}}}" if row.options else ""
    return f"{row.kind} [{unit}]" if unit else f"{row.kind}{options}"
