"""Tolerances of a machine's figures come into the answer: of one exactly, of several together."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift, Untyped
from liftcalc.evaluation.sweep import sweep
from liftcalc.evaluation.tolerances import with_tolerances
from liftcalc.machines.number import Number
from liftcalc.machines.schema import Machine
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from tests.helpers import lift, load, rebuilt, with_machine

TOTAL, BORE, PRESSURE = "weights.total", "back.boom_ram.bore", "hydraulics.working_pressure"
FIGURES = {TOTAL: 400.0, BORE: 0.005, PRESSURE: 10e5, "back.boom.mass": 40.0,
           "wheels.rear_track": 0.03, "back.boom_ram.base.0": 0.01}  # fmt: skip


def toleranced(machine: Machine, **off: float) -> Machine:
    """The machine with no tolerance but those of some figures, by key."""

    def change(key: str, number: Number) -> float:
        return number

    made = rebuilt(machine, change)
    return _set(made, off, value=False)


def moved(machine: Machine, **off: float) -> Machine:
    """The machine with some figures changed by so much, and no tolerance."""
    return _set(machine, off, value=True)


def _set(table: Any, off: dict[str, float], *, value: bool, path: str = "") -> Any:
    if isinstance(table, Number):
        by = off.get(path, 0.0)
        return Number(
            table + by if value else float(table), kind=table.kind, source=table.source,
            text=table.text, tolerance=0.0 if value else by,
        )  # fmt: skip
    if isinstance(table, tuple):
        return tuple(
            _set(each, off, value=value, path=f"{path}.{number}")
            for number, each in enumerate(table)
        )
    if hasattr(type(table), "model_fields"):
        return table.model_copy(
            update={
                name: _set(
                    getattr(table, name), off, value=value, path=f"{path}.{name}" if path else name
                )
                for name in type(table).model_fields
            }
        )
    return table


def by(asked: Lift, machine: Machine) -> Lift:
    return with_machine(asked, machine, exact=False)


LIFTS = {
    "back": lift(tool="lifting hook", slew=1.2, reach=4.1, height=2.4, swing=0.05),
    "front": lift(end="front", tool="pallet forks", height=1.0),
    "carried": lift(
        end="front",
        tool="front lifting hook",
        height=2.0,
        travelling=True,
        motion=Motion(friction=0.3),
        site=Site(slope=0.15, heading=1.5),
    ),
}


def allowed(asked: Lift) -> dict[str, float]:
    """By name the least that a kind of criterion allows; one line of several tips first."""
    found: dict[str, float] = {}
    for each in check(asked).criteria:
        key = each.name if each.kind == "tipping" else each.title
        found[key] = min(found.get(key, math.inf), each.allowed)
    return found


@pytest.mark.parametrize("key", FIGURES)
@pytest.mark.parametrize("asked", LIFTS.values(), ids=LIFTS)
def test_one_figure_costs_what_its_worse_end_does(asked: Lift, key: str) -> None:
    """Held against checks of two machines that have the figure there."""
    machine, off = load("standard-sideshift"), FIGURES[key]
    told = allowed(by(asked, toleranced(machine, **{key: off})))
    ends = [allowed(by(asked, moved(machine, **{key: side}))) for side in (0.0, off, -off)]
    for name, kilograms in told.items():
        assert kilograms == pytest.approx(min(each[name] for each in ends), rel=1e-9), name


@pytest.mark.parametrize("asked", LIFTS.values(), ids=LIFTS)
def test_no_tolerance_changes_nothing(asked: Lift) -> None:
    machine = toleranced(load("standard-sideshift"))
    assert allowed(by(asked, machine)) == allowed(replace(by(asked, machine), exact=True))


@pytest.mark.parametrize("asked", LIFTS.values(), ids=LIFTS)
def test_more_tolerance_never_helps_and_the_favourable_end_never_hurts(asked: Lift) -> None:
    machine, before = load("standard-sideshift"), None
    exact = allowed(by(asked, toleranced(machine)))
    for share in (0.0, 0.3, 1.0, 2.0):
        one = by(asked, toleranced(machine, **{key: share * off for key, off in FIGURES.items()}))
        careful, hopeful = allowed(one), allowed(replace(one, hopeful=frozenset({"machine"})))
        for name, kilograms in careful.items():
            assert kilograms <= exact[name] * (1 + 1e-12)
            assert hopeful[name] >= exact[name] * (1 - 1e-12)
            assert before is None or kilograms <= before[name] * (1 + 1e-12)
        before = careful


@pytest.mark.parametrize("asked", LIFTS.values(), ids=LIFTS)
@pytest.mark.parametrize("hopeful", [(), ("machine",)])
def test_a_sweep_has_the_tolerances_of_a_check(asked: Lift, hopeful: tuple[Untyped, ...]) -> None:
    toleranced_lift = by(asked, toleranced(load("standard-sideshift"), **FIGURES))
    asked = replace(toleranced_lift, hopeful=frozenset(hopeful))
    found = sweep(asked, reach=asked.reach, height=asked.height, slew=asked.slew)
    answer = check(asked)
    assert float(found.allowed[0, 0]) == pytest.approx(answer.allowed, rel=1e-9)
    assert answer.allowed != check(replace(asked, exact=True)).allowed


def test_a_machine_that_cannot_be_lifts_nothing() -> None:
    """Eight tonnes, or nearly none at all: lighter than its own parts."""
    asked = by(LIFTS["back"], toleranced(load("standard-sideshift"), **{TOTAL: 7900.0}))
    assert check(asked).allowed == 0
    assert not check(asked).passes


def test_figures_err_one_by_one() -> None:
    """One over allowed, as the root of the sum of squares; by hand for two figures."""
    told, ends = [1000.0, np.inf], [([800.0, np.inf], [1300.0, 500.0]), ([900.0, np.inf], None)]
    first, second = with_tolerances(told, ends[:1])
    assert first == pytest.approx(800.0)
    assert second == pytest.approx(500.0)
    both, _ = with_tolerances(told, [ends[0], (ends[1][0], ends[1][0])])
    used = 1 / 1000 + math.hypot(1 / 800 - 1 / 1000, 1 / 900 - 1 / 1000)
    assert both == pytest.approx(1 / used)
    assert with_tolerances(told, ends)[0] == 0.0
    assert with_tolerances(told, ends[:1], hopeful=True)[0] == pytest.approx(1300.0)
