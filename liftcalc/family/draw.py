"""Members drawn at random, and one of many as a machine of its own."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

import numpy as np

from liftcalc.family.closing import clears_its_wheels, closes
from liftcalc.family.figures import Floats
from liftcalc.family.kind import MachineKind
from liftcalc.family.member import members
from liftcalc.family.parameters import variates
from liftcalc.machines.number import Number
from liftcalc.machines.schema import Machine, Table

SOURCE = "a member of the family of its class: not measured"


class Drawn(NamedTuple):
    """Variates of members (N, k), the machines they are, and what share of those drawn can be."""

    latent: Floats
    machine: Machine
    share: float


def draw(kind: MachineKind, *, count: int, seed: int) -> Drawn:
    """Members of a kind that can be; the same for the same seed.

    Those that cannot be, or that cannot press themselves off their wheels, are drawn again: the
    spreads are those of the machines that are left, a little narrower than the table of parameters
    says.
    """
    random, found, tried = np.random.default_rng(seed), np.empty((0, variates(kind))), 0
    while len(found) < count:
        latent = random.standard_normal((2 * count, variates(kind)))
        made = members(kind, latent)
        with np.errstate(invalid="ignore"):
            found = np.vstack([found, latent[closes(made) & clears_its_wheels(made)]])
        tried += len(latent)
    latent = found[:count]
    return Drawn(latent, members(kind, latent), len(found) / tried)


def each_figure(table: Any, change: Callable[[Any], Any]) -> Any:
    """A machine with every figure changed; not validated anew."""
    if isinstance(table, float | np.ndarray):
        return change(table)
    if isinstance(table, tuple):
        return tuple(each_figure(each, change) for each in table)
    if isinstance(table, Table):
        names = type(table).model_fields
        return table.model_copy(
            update={name: each_figure(getattr(table, name), change) for name in names}
        )
    return table


def some(machine: Machine, rows: Any) -> Machine:
    """Some of many machines, still as one whose figures are arrays."""
    return each_figure(machine, lambda each: each[rows] if np.ndim(each) else each)  # type: ignore[no-any-return]


def one(machine: Machine, row: int) -> Machine:
    """One of many machines as a machine of its own; raises what its file would."""

    def single(figure: Any) -> Number:
        value = float(figure[row]) if np.ndim(figure) else figure
        if isinstance(value, Number):
            return value
        return Number(value, kind="assumed", source=SOURCE, text=f"{value:.5g} (SI)")

    found = each_figure(machine, single)
    return Machine.model_validate(_read(found))


def _read(table: Any) -> Any:
    if isinstance(table, tuple):
        return tuple(map(_read, table))
    if isinstance(table, Table):
        return {name: _read(getattr(table, name)) for name in type(table).model_fields}
    return table
