"""One evaluator over sampled machines, their figures in arrays, gives what each alone gives."""

from __future__ import annotations

from dataclasses import fields, replace
from functools import lru_cache
from typing import Any

import numpy as np
import pytest

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check
from liftcalc.evaluation.evaluator import Evaluator
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.turning import back_limits
from liftcalc.machines.files import load
from liftcalc.machines.number import Number
from liftcalc.machines.schema import Machine, Plate, Table
from tests.circumstances import beset
from tests.helpers import like, perturbed, rebuilt, tried, with_machine
from tests.property.test_safety import some_lift
from tests.property.test_sweep_equals_check import other_side, title

SAMPLES = 50
SINGLE = ("drop", "jaw_force")
"""What an evaluator has one figure of: how the log hangs, and what a jaw presses with."""


@lru_cache(maxsize=4)
def samples(name: str) -> tuple[Machine, ...]:
    """Valid machines near a shipped one: every length, mass, force and pressure a little off."""
    rng, shipped = np.random.default_rng(1), load(name)
    single: dict[str, float] = {}

    def kept(path: str, number: Number) -> float:
        return single.setdefault(path, number) if path.endswith(SINGLE) else number

    rebuilt(shipped, kept)
    return tuple(rebuilt(perturbed(shipped, rng, 0.01), kept) for _ in range(SAMPLES))


def stacked(tables: list[Any]) -> Any:
    """Tables of one kind as one whose differing figures are arrays; not validated."""
    one = tables[0]
    if isinstance(one, Number):
        figures = np.array([float(each) for each in tables])
        return one if np.all(figures == figures[0]) else figures
    if isinstance(one, tuple):
        return tuple(stacked(list(each)) for each in zip(*tables, strict=True))
    if isinstance(one, Table):
        names = type(one).model_fields
        return one.model_copy(
            update={name: stacked([getattr(each, name) for each in tables]) for name in names}
        )
    assert all(each == one for each in tables)
    return one


def of_all(lifts: list[Lift]) -> Lift:
    """One lift with the machines of all; in nothing else they differ."""
    one = lifts[0]
    tables = [each.name for each in fields(Lift) if isinstance(getattr(one, each.name), Table)]
    assert set(tables) == {"machine", "tool", "point", "other_tool"}
    rest = {name: getattr(one, name) for name in tables}
    assert all(replace(each, **rest) == one for each in lifts)
    return replace(
        one, **{name: stacked([getattr(each, name) for each in lifts]) for name in tables}
    )


def by(base: Lift, machine: Machine) -> Lift:
    """The same lift by another machine that has the same attachments, with a chart of its own."""
    number = machine.weights.total
    chart = tuple(
        Plate(end=base.end, load=like(number, share * number), reach=like(number, out))
        for out, share in ((2.0, 0.4), (3.0, 0.3), (6.0, 0.25))
    )
    machine = machine.model_copy(update={"plate": chart})
    return with_machine(base, machine)


def least_of(lift: Lift) -> tuple[Any, Any]:
    """Allowed load and name of what governs, for every sample; NaN where it cannot stand so."""
    loads, names = np.full(SAMPLES, np.inf), np.full(SAMPLES, "", dtype=object)
    for way in lift.ways:
        evaluator = Evaluator(way)
        arm = evaluator.pose(way.reach, way.height)
        load, which = evaluator.least(arm)
        turning = back_limits(way, slew=way.slew) if way.end == "back" else ()
        for stop in (*turning, *arm.stops):
            load = np.where(stop.violated, np.nan, load)
        titles = np.array([name for _, name in evaluator.titles], dtype=object)
        names = np.where(load < loads, titles[which], names)
        loads = np.minimum(load, loads)
    return loads, names


def governing(answer: Answer) -> set[str]:
    """Titles of the criteria that allow the least, or so nearly that only rounding tells them."""
    least = answer.allowed * (1 + 1e-9) + 1e-9
    return {title(each) for each in answer.criteria if each.allowed <= least}


SEEDS = (1, 2, 3, 12, 20, 32, 34, 54, 70, 80, 88, 92, 101, 113, 206, 218, 354, 394)
"""Both ends, every stance, and every kind that governs among the first 400."""


def compared(seed: int) -> list[str]:
    """Hold one evaluator of all samples against the checks of each; the kinds that governed."""
    base = some_lift(seed)
    name = ("standard-sideshift", "small-tractor")[seed % 2]
    lifts = [beset(by(base, each), np.random.default_rng(seed)) for each in samples(name)]
    answers = [tried(lambda each=each: check(each)) for each in lifts]
    found = tried(lambda: least_of(of_all(lifts)))
    if found is None:  # refused as a whole, for what no figure would mend
        assert all(each is None for each in answers)
        return []
    governed = []
    for one, kilograms, governs in zip(answers, found[0], found[1], strict=True):
        if one is None:
            assert np.isnan(kilograms), seed
            continue
        assert kilograms == pytest.approx(one.allowed, rel=1e-9, abs=1e-9), seed
        # A carried log may lie to either side, a turn go either way: left and right may tie.
        said = governing(one)
        assert governs in said | {other_side(each) for each in said}, seed
        governed.append(one.governing.kind)
    return governed


def test_samples_are_the_checks_one_by_one() -> None:
    """Whatever bears on a lift, by either end."""
    governed = [kind for seed in SEEDS for kind in compared(seed)]
    assert len(governed) > 500
    ground = {"ground under a tyre", "ground under a pad", "grip", "traction"}
    gear = {"hook", "hitch", "shackle", "sling", "jaw", "lift point"}
    wanted = {"tipping", "ram", "axle rating", "least axle load", "plate"}
    assert wanted | ground | gear <= set(governed)
