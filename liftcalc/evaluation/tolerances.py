"""What the tolerances of a machine's figures take off what it can do.

Every figure goes to either end of its tolerance alone, and the machine so changed is evaluated as
any other. What a criterion then uses more, for a kilogram, is taken from all figures together as
the root of the sum of squares, since they are measured one by one and do not err together. Used is
one over allowed: of one figure the outcome is exact, and none is ever taken below nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.machines.files import numbers
from liftcalc.machines.lookup import attachment, lift_point
from liftcalc.machines.number import Number
from liftcalc.machines.remembered import remembered
from liftcalc.machines.schema import Machine, Table
from liftcalc.physics.functions import Real

SMALLEST = 1e-3
"""Share of itself that a figure keeps whatever its tolerance: none comes to nothing or less."""


def at_their_ends(lift: Lift) -> tuple[tuple[Lift, ...], ...]:
    """For each figure that has a tolerance and bears on a lift, the lift with it at both ends."""
    if lift.exact:
        return ()
    found = _machines(lift.machine, lift.tool.name, lift.other_tool.name)
    return tuple(tuple(by_machine(lift, machine) for machine in ends) for ends in found)


@remembered(maxsize=64)
def _machines(machine: Machine, *fitted: str) -> tuple[tuple[Machine, ...], ...]:
    return tuple(
        tuple(_with(machine, key, end) for end in _ends(number))
        for key, number in numbers(machine)
        if number.tolerance > 0
        and (
            not key.startswith("attachment[")
            or any(key.startswith(f"attachment[{name}]") for name in fitted)
        )
    )


def _ends(number: Number) -> tuple[Number, ...]:
    low, high = number - number.tolerance, number + number.tolerance
    least = SMALLEST * number
    return tuple(
        Number(each, kind=number.kind, source=number.source, text=number.text)
        for each in (max(low, least) if number > 0 else low, high)
    )


def _with(table: Any, key: str, number: Number, path: str = "") -> Any:
    """A table with the figure of one key changed; not validated anew."""
    if path == key:
        return number
    if isinstance(table, Table):
        for name in type(table).model_fields:
            inner = f"{path}.{name}" if path else name
            if key == inner or key.startswith((f"{inner}.", f"{inner}[")):
                changed = _with(getattr(table, name), key, number, inner)
                return table.model_copy(update={name: changed})
    if isinstance(table, tuple):
        made = list(table)
        for place, each in enumerate(table):
            inner = f"{path}[{getattr(each, 'name', '') or place}]"
            if key == inner or key.startswith((f"{inner}.", f"{inner}[")):
                made[place] = _with(each, key, number, inner)
        return tuple(made)
    return table


def by_machine(lift: Lift, machine: Machine) -> Lift:
    """The same lift by another machine, or by many, that has the same attachments."""
    tool = attachment(machine, end=lift.end, name=lift.tool.name)
    named = {each.name: each for each in machine.attachment}
    return replace(
        lift,
        machine=machine,
        tool=tool,
        point=lift_point(tool, name=lift.point.name),
        other_tool=named.get(lift.other_tool.name, lift.other_tool),
        others=tuple(each and named.get(each.name, each) for each in lift.others),
        exact=True,
    )


def with_tolerances(
    told: Sequence[Real], ends: Iterable[Sequence[Sequence[Real] | None]], *, hopeful: bool = False
) -> list[Real]:
    """What criteria allow [kg] where figures may lie at the ends of their tolerances.

    Parameters
    ----------
    told : sequence of float or array
        What each allows with every figure as it is told.
    ends : iterable of sequences
        For each figure what they allow with it at either end; None or NaN where the machine cannot
        be, or stand, so.
    hopeful : bool
        Whether the tolerances go the favourable way: then what each adds is added, as the root of
        the sum of squares.

    Returns
    -------
    list of float or array
        Never more than ``told``, or never less where hopeful. More of a tolerance never raises it
        while what is allowed goes one way with the figure.
    """
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        squares: list[Any] = [0.0 for _ in told]
        for pair in ends:
            for number, allowed in enumerate(told):
                both = [None if each is None else each[number] for each in pair]
                squares[number] = squares[number] + _off(allowed, both, hopeful) ** 2
        return [
            _together(allowed, square, hopeful)
            for allowed, square in zip(told, squares, strict=True)
        ]


def _off(allowed: Real, ends: Sequence[Real | None], hopeful: bool) -> Any:
    """How much more a figure may allow [kg], or more of it be used for a kilogram [1/kg]."""
    if hopeful:
        most = allowed
        for end in ends:
            most = np.fmax(most, -np.inf if end is None else end)
        return np.where(np.isinf(allowed), 0.0, most - allowed)
    used = most = 1 / np.asarray(allowed, dtype=float)
    for end in ends:
        one = np.inf if end is None else 1 / np.maximum(end, 0.0)
        most = np.maximum(most, np.where(np.isnan(one), np.inf, one))
    return np.where(np.isinf(used), 0.0, most - used)


def _together(allowed: Real, square: Any, hopeful: bool) -> Real:
    if hopeful:
        return np.where(square > 0, allowed + np.sqrt(square), allowed)[()]
    used = 1 / np.asarray(allowed, dtype=float)
    return np.where(square > 0, 1 / (used + np.sqrt(square)), allowed)[()]
