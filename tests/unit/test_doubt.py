"""Where doubt comes from, and what a fact is worth: closed forms, and what telling it gives."""

from __future__ import annotations

import math

import numpy as np
import pytest

from liftcalc.evaluation.sampled import PlaceDoubt, sampled
from liftcalc.family.fact import Told
from liftcalc.family.facts import FACTS
from liftcalc.family.kind import machine_kind
from liftcalc.family.posterior import answered, doubt, posterior
from liftcalc.judgement.doubt import explained, next_facts, rise, shares
from tests.helpers import lift

KIND = machine_kind("standard-centre-mount")
ASKED = lift("standard-centre-mount", tool="digging bucket", reach=3.5, height=1.0)


def test_shares_of_a_plane_are_its_slopes_squared() -> None:
    """3a + 4b of even spreads: 9 to 16; noise of 5 halves both; idle inputs have nothing."""
    random = np.random.default_rng(0)
    a, b, noise = random.standard_normal((3, 20000))
    idle = random.standard_normal((20000, 60))
    inputs = {"a": a[:, None], "b": b[:, None], "idle": idle}
    found = dict(explained(3 * a + 4 * b + 5 * noise, inputs))
    assert found["a"] == pytest.approx(9 / 50, abs=0.01)
    assert found["b"] == pytest.approx(16 / 50, abs=0.01)
    assert found["idle"] == pytest.approx(0.0, abs=0.01)
    assert found["rest"] == pytest.approx(25 / 50, abs=0.02)
    assert sum(found.values()) == pytest.approx(1.0)


def test_a_reading_is_worth_what_it_narrows() -> None:
    """Of two normal figures with correlation r the spread falls to √(1 − r²): 1.645 of it rises."""
    random = np.random.default_rng(1)
    one, other = random.standard_normal((2, 100_000))
    for r in (0.0, 0.5, 0.9):
        answer = 1000 + 100 * (r * one + math.sqrt(1 - r**2) * other)
        wanted = 1.645 * 100 * (1 - math.sqrt(1 - r**2))
        assert rise(answer, one) == pytest.approx(wanted, abs=1.5)
    assert rise(answer, np.ones(100_000)) == 0


def test_what_is_told_already_and_what_cannot_help_are_not_asked() -> None:
    told = [Told(key="total", value=7700.0)]
    known = posterior(KIND, told, count=600, seed=2)
    found = next_facts(known, [sampled(ASKED, known.machine, place=PlaceDoubt())])
    by_key = {each.key: each.worth for each in found}
    assert "total" not in by_key
    assert [each.worth for each in found] == sorted(by_key.values(), reverse=True)
    # At a boom that stalls: a trial tells most, and the front end nothing to speak of.
    assert by_key["stall_back"] > 5 * max(
        by_key.get("hinge_height", 0), by_key.get("lift_ram_bore", 0)
    )
    again = next_facts(known, [sampled(ASKED, known.machine, place=PlaceDoubt())])
    assert found == again


def test_shares_of_a_lift_that_stalls_lie_in_its_rams() -> None:
    known = posterior(KIND, [Told(key="total", value=7700.0)], count=1500, seed=2)
    found = dict(shares(known, sampled(ASKED, known.machine, place=PlaceDoubt())))
    assert sum(found.values()) == pytest.approx(1.0)
    assert found["bores"] > found["weights"]
    assert found["bores"] > found["stance"]


def test_a_fact_is_worth_what_telling_it_gives_on_average() -> None:
    """Told of 40 members in turn, each with its slip: the mean rise of the lower end."""
    known = posterior(KIND, [Told(key="total", value=7700.0)], count=600, seed=2)
    before = sampled(ASKED, known.machine).range()[0]
    reckoned = {x.key: x.worth for x in next_facts(known, [sampled(ASKED, known.machine)])}
    random = np.random.default_rng(3)
    key, rises = "rated_back", []
    asked = Told(key=key, value=0.0, reach=ASKED.reach, height=ASKED.height)
    every = answered(known.machine, (asked,), random.standard_normal((600, 1)))[:, 0]
    for row in range(40):
        value = every[row] + doubt(Told(key=key, value=every[row])) * random.standard_normal()
        told = Told(key=key, value=value, reach=ASKED.reach, height=ASKED.height)
        after = posterior(KIND, [*known.told, told], count=300, seed=row)
        rises.append(sampled(ASKED, after.machine).range()[0] - before)
    error = np.std(rises) / math.sqrt(len(rises))
    assert key in FACTS
    assert reckoned[key] == pytest.approx(np.mean(rises), abs=2.5 * error + 0.15 * np.mean(rises))
    assert np.mean(rises) > 3 * error
