"""Asking for many poses at once gives what asking for each alone gives."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftcalc.errors import PoseError
from liftcalc.evaluation.answer import Answer, Criterion
from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.sweep import Sweep, sweep
from liftcalc.machines.schema import Plate
from liftcalc.site.ground import ground
from liftcalc.site.motion import Motion
from tests.circumstances import beset
from tests.helpers import lift, like, span, tried
from tests.property.test_safety import some_lift


def other_side(name: str) -> str:
    swapped = name.replace("left", "RIGHT").replace("right", "left")
    return swapped.replace("RIGHT", "right")


def title(criterion: Criterion) -> str:
    """How a sweep names a criterion: it does not tell one row of a plate from another."""
    return "plate" if criterion.name == "plate" else criterion.title


def same(found: Sweep, i: int, j: int, answer: Answer | None) -> None:
    """One pose of a sweep against what ``check`` says of it alone; None where it is refused."""
    allowed, governs, stopped = found.allowed[i, j], found.governs[i, j], found.stopped[i, j]
    if answer is None:
        assert math.isnan(allowed)
        assert governs == -1
        assert stopped >= 0
        return
    assert stopped == -1
    if answer.lift.pull.share == found.lift.pull.share:
        assert allowed == pytest.approx(answer.allowed, rel=1e-9, abs=1e-9)
    else:
        # With the least on the hook: a map tells what would hang there with the most.
        log = (allowed - found.lift.rigging) / found.lift.pull.share
        assert max(log, 0.0) == pytest.approx(answer.heaviest_log, rel=1e-9, abs=1e-9)
    least = min(each.allowed for each in answer.criteria)
    near = {title(each) for each in answer.criteria if each.allowed <= least * (1 + 1e-9) + 1e-9}
    # A carried log may lie to either side, a turn go either way: left and right may tie.
    said = found.criteria[governs]
    assert said in near | {other_side(each) for each in near}


def alone(base: Lift, **at: float) -> Answer | None:
    try:
        return check(replace(base, **at))
    except PoseError:
        return None


def compare(base: Lift, rng: np.random.Generator) -> int:
    """Hold both against each other at some places; how many of them can be reached."""
    size = span(base.machine)
    height = size * rng.uniform(-0.1, 0.9, 5)
    back = base.end == "back"
    reach = size * rng.uniform(0.2, 1.0, 5) if back else None
    slew = np.array([-1.0, 0.0, 0.7]) if back else 0.0
    found = tried(lambda: sweep(base, reach=reach, height=height, slew=slew))
    if found is None:
        # Refused as a whole, for what no place would mend: the other end, or the sling.
        for up in (0.15, 0.25, 0.4):
            at = {"height": up * size} | ({"reach": 0.6 * size, "slew": 0.0} if back else {})
            assert tried(lambda at=at: check(replace(base, **at))) is None
        return 0
    for i, up in enumerate(height):
        for j, turn in enumerate(found.slew):
            at = {"height": float(up)}
            if back:
                at |= {"reach": float(reach[i]), "slew": float(turn)}
            same(found, i, j, alone(base, **at))
    return int((found.stopped < 0).sum())


@given(st.integers(0, 10_000))
def test_a_sweep_is_the_checks_one_by_one(seed: int) -> None:
    base = some_lift(seed)
    rng = np.random.default_rng(seed)
    size, number = span(base.machine), base.machine.weights.total
    plates = tuple(
        Plate(end=base.end, load=like(number, kg), reach=like(number, out * size))
        for out, kg in ((0.5, 1500.0), (0.8, 900.0))
    )
    if rng.integers(2):
        base = replace(base, machine=base.machine.model_copy(update={"plate": plates}))
    base = replace(
        base,
        swing=rng.choice([0.0, 0.1]),
        gauge=rng.choice([None, 1.5e7]),
        plate=rng.choice([None, 800.0]),
    )
    if rng.integers(2):
        # So strong a lift point that tipping governs, and a log well off its balance.
        strong = base.point.model_copy(update={"wll": like(number, 3e4)})
        base = replace(base, point=strong, plate=None, off_centre=rng.uniform(-0.8, 0.8))
    compare(base, rng)


@given(st.integers(0, 10**6))
def test_and_so_it_is_with_everything_that_bears_on_a_lift(seed: int) -> None:
    rng = np.random.default_rng(seed)
    compare(beset(some_lift(seed), rng), rng)


@given(st.integers(0, 10**6))
def test_and_in_wind(seed: int) -> None:
    rng = np.random.default_rng(seed)
    base = beset(some_lift(seed), rng)
    compare(replace(base, wind=rng.uniform(0.5, 15.0)), rng)


def test_every_kind_of_criterion_governs_somewhere_and_is_the_same_there() -> None:
    """Or the comparisons above might never have been of it."""
    seen: set[str] = set()
    done: set[tuple[str, str]] = set()
    # In the last seven a wheel stays too light, a corner of a pressed bucket sinks first, or the
    # pads slide; before them is one that slips on its way.
    slips = lift(end="front", tool="pallet forks", travelling=True)
    slips = replace(slips, motion=Motion(friction=0.15, speed=0.5, sinkage=0.1))
    for seed in (-1, *range(200), 206, 252, 333, 335, 356, 429, 457):
        rng = np.random.default_rng(abs(seed))
        base = slips if seed < 0 else beset(some_lift(seed), rng)
        size, back = span(base.machine), base.end == "back"
        height, reach = size * rng.uniform(0.0, 0.7, 40), size * rng.uniform(0.3, 0.9, 40)
        where = {"reach": reach, "slew": np.array([-1.0, 0.3])} if back else {}
        found = tried(
            lambda base=base, height=height, where=where: sweep(base, height=height, **where)
        )
        if found is None:
            continue
        for number in set(np.unique(found.governs)) - {-1}:
            name = found.criteria[number]
            here = np.argwhere((found.governs == number) & (found.allowed > 0))
            if (name, base.stance) in done or not len(here):
                seen.add(name)
                continue
            for i, j in here[:3]:
                at = {"height": float(height[i])}
                if back:
                    at |= {"reach": float(reach[i]), "slew": float(found.slew[j])}
                same(found, i, j, alone(base, **at))
            seen.add(name)
            done.add((name, base.stance))
    wanted = {
        "tipping",
        "boom ram",
        "dipper ram",
        "lift ram",
        "ground under the left stabiliser",
        "ground under the left bucket corner",
        "axle rating (front",
        "axle rating (rear",
        "grip on the ground (pads)",
        "grip on the ground (braked wheels)",
        "least axle load",
        "traction",
        "sling",
        "hook",
        "lift point",
        "grip (",
        "overhead wires",
        "edge",
        "people",
    }
    assert not {each for each in wanted if not any(one.startswith(each) for one in seen)}, seen


def test_pads_between_two_tipping_lines_are_the_same() -> None:
    """On stabilisers and a pressed bucket either of two lines may bound what a pad carries."""
    base = lift(
        "standard-sideshift",
        other="wide front shovel",
        tool="lifting hook",
        stance="stabilisers and bucket",
        ground=ground("stiff clay"),
        mat=0.5,
    )
    strong = like(base.machine.weights.total, 3e4)
    base = replace(base, point=base.point.model_copy(update={"wll": strong}))
    reach, slew = np.linspace(2.0, 4.5, 6), np.linspace(-1.4, 1.4, 7)
    found = sweep(base, reach=reach, height=np.full(6, 1.2), slew=slew)
    governed = 0
    for i, out in enumerate(reach):
        for j, turn in enumerate(slew):
            same(found, i, j, alone(base, reach=float(out), height=1.2, slew=float(turn)))
            name = found.criteria[found.governs[i, j]]
            governed += name.startswith("ground") and found.allowed[i, j] > 0
    assert governed > 10
