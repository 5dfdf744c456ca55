"""The study of hidden machines counts right, and its outsiders are outside."""

from __future__ import annotations

import itertools

import numpy as np
import pytest

from liftcalc.family.draw import draw, one
from liftcalc.family.facts import FACTS
from liftcalc.family.figures import latents
from liftcalc.family.kind import machine_kind
from liftcalc.family.read_back import figures_of
from liftcalc.machines.validation import sound
from studies.fit import LEVELS, Outcome, kept, table
from studies.outside import drawn
from studies.readings import readings

KIND = machine_kind("standard-sideshift")


def outcome(truth: float, low: float = 900.0, careful: float = 890.0, level: int = 0) -> Outcome:
    return Outcome(
        inside=True,
        level=level,
        lift="front",
        truth=truth,
        low=low,
        middle=1000.0,
        high=1200.0,
        careful=careful,
    )


def test_shares_are_counted() -> None:
    """Four of one level: one below, one above, one below the careful end too."""
    found = [outcome(1000.0), outcome(895.0), outcome(1300.0), outcome(800.0)]
    (row,) = table(found)
    assert row["level"] == LEVELS[0]
    assert (row["coverage"], row["optimistic"], row["lifts"]) == (0.25, 0.25, 4)
    assert row["half_width"] == pytest.approx(0.15)
    assert row["careful"] == pytest.approx(
        np.mean([0.89, 890 / 895, 890 / 1300, 890 / 800]), abs=1e-4
    )
    assert row["held"] == {"coverage": False, "half_width": True, "optimistic": False}


def test_too_much_is_a_broken_promise_as_well() -> None:
    """Inside the family an interval that always covers is too wide."""
    good = {"from": "inside", "coverage": 0.9, "half_width": 0.1, "optimistic": 0.05}
    assert all(kept(good, 2).values())
    assert not kept(good | {"coverage": 1.0}, 2)["coverage"]
    assert kept(good | {"coverage": 1.0, "from": "outside"}, 2)["coverage"]
    assert not kept(good, 3)["half_width"]


def test_outsiders_are_machines_and_no_members() -> None:
    """Sound by the rules of files; off the medians far more than members, all figures together."""
    random = np.random.default_rng(4)

    def far(machine: object) -> float:
        with np.errstate(invalid="ignore"):  # what no member can have is no number
            known = latents(KIND, figures_of(machine, pattern=KIND.pattern))  # type: ignore[arg-type]
        return float(np.sqrt(np.nanmean(np.clip(known, -10, 10) ** 2)))

    members = draw(KIND, count=4, seed=1).machine
    inside = np.mean([far(one(members, row)) for row in range(4)])
    outsiders = [drawn(random, KIND.of.name) for _ in range(4)]
    for machine in outsiders:
        sound(machine, file="drawn")
    assert np.mean([far(machine) for machine in outsiders]) > 1.6 * inside


def test_each_level_tells_what_the_one_before_told_and_more() -> None:
    machine = one(draw(KIND, count=1, seed=3).machine, 0)
    found = readings(machine, KIND, 5)
    assert [len(found[0]), len(found)] == [0, len(LEVELS)]
    for fewer, more in itertools.pairwise(found):
        assert more[: len(fewer)] == fewer
        assert len(more) > len(fewer) + 5
    assert {each.key for each in found[-1]} <= set(FACTS)
    assert readings(machine, KIND, 5) == found
