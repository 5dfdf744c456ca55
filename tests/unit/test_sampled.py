"""One lift by many machines at once: what the check of each says, and what all say together."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from liftcalc.errors import InputError, PoseError
from liftcalc.evaluation.check import check
from liftcalc.evaluation.sampled import PlaceDoubt, SampledLift, sampled
from liftcalc.evaluation.tolerances import by_machine
from liftcalc.family.draw import draw, one, some
from liftcalc.family.kind import machine_kind
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from tests.helpers import lift

NAME = "standard-sideshift"
MANY = draw(machine_kind(NAME), count=300, seed=4).machine
LIFTS: dict[str, dict[str, Any]] = {
    "hook": {"tool": "lifting hook", "reach": 3.6, "height": 1.0},
    "to the side": {"tool": "digging bucket", "reach": 3.0, "height": 1.5, "slew": 1.2},
    "on a slope": {"reach": 3.0, "height": 1.5, "site": Site(slope=0.05, heading=1.0)},
    "unseen slope": {"reach": 3.0, "height": 1.5, "level_within": 0.02},
    "with a log": {"tool": "lifting hook", "reach": 3.6, "height": 2.5, "loads_only": False},
    "forks": {"end": "front", "tool": "pallet forks", "stance": "wheels", "height": 1.0},
    "carried": {
        "end": "front",
        "tool": "pallet forks",
        "stance": "wheels",
        "height": 0.5,
        "travelling": True,
        "motion": Motion(speed=1.0, turn_radius=8.0, braking=1.0),
    },
}


@pytest.fixture(params=LIFTS)
def found(request: pytest.FixtureRequest) -> SampledLift:
    return sampled(lift(NAME, **LIFTS[request.param]), MANY, floor=0.0)


def test_samples_are_the_checks_of_each(found: SampledLift) -> None:
    """The least; and where the lift may go one way only, all that the check tells of each."""
    for row in range(0, 300, 43):
        try:
            alone = check(by_machine(found.lift, one(MANY, row)))
        except InputError:
            assert not found.reaches[row]
            continue
        assert found.reaches[row]
        assert found.least[row] == pytest.approx(alone.allowed, rel=1e-9)
        if len(found.lift.ways) == 1:
            each = [x.allowed for x in alone.criteria if np.isfinite(x.allowed)]
            assert set(np.round(each, 6)) <= set(np.round(found.allowed[:, row], 6))


def test_the_careful_end_is_below_nineteen_of_twenty(found: SampledLift) -> None:
    low, middle, high = found.range()
    assert np.sum(found.least < low) <= 15
    assert np.sum(found.least < middle) <= 150 <= np.sum(found.least <= middle)
    assert low <= middle <= high
    assert found.careful <= min(low, *found.quantile(0.05))
    assert len(found.titles) == len(set(found.titles)) == len(found.allowed)


def test_a_hook_off_its_place_is_checked_where_it_is() -> None:
    asked = lift(NAME, **LIFTS["to the side"])
    doubt = PlaceDoubt(reach=0.1, height=0.2, slew=0.05)
    found = sampled(asked, MANY, place=doubt, floor=0.0, seed=3)
    for row in range(0, 300, 61):
        moved = replace(
            asked,
            reach=asked.reach + 0.1 * found.off["reach"][row],
            height=asked.height + 0.2 * found.off["height"][row],
            slew=asked.slew + 0.05 * found.off["slew"][row],
        )
        if not found.reaches[row]:
            with pytest.raises(PoseError):
                check(by_machine(moved, one(MANY, row)))
            continue
        alone = check(by_machine(moved, one(MANY, row)))
        assert found.least[row] == pytest.approx(alone.allowed, rel=1e-9)
    assert np.mean(found.reaches) > 0.8
    exact = sampled(asked, MANY, floor=0.0)
    assert np.std(found.least) > np.std(exact.least)
    again = sampled(asked, MANY, place=doubt, floor=0.0, seed=3)
    assert np.array_equal(found.least, again.least)


def test_what_does_not_reach_there_allows_nothing() -> None:
    """Of those that do the load is some; a twentieth that does not takes the careful end to nil."""
    far = lift(NAME, tool="lifting hook", reach=4.3, height=1.0)
    found = sampled(far, MANY, floor=0.0)
    beyond = np.mean(~found.reaches)
    assert 0.06 < beyond < 0.9
    assert np.all(found.least[~found.reaches] == 0)
    assert np.all(found.least[found.reaches] > 0)
    assert found.careful == 0


def test_a_log_is_held_in_as_many_samples_as_allow_it() -> None:
    """Of a log that weighs for sure what half the machines allow, and of one in doubt."""
    asked = lift(NAME, **LIFTS["hook"])
    middle = float(np.median(sampled(asked, MANY, floor=0.0).least))
    log = replace(asked.log, mass_low=middle, mass_likely=middle, mass_planning=middle)
    found = sampled(replace(asked, log=log), MANY)
    assert found.needed == pytest.approx(np.full(300, asked.rigging + middle))
    assert found.held == np.mean(found.least >= asked.rigging + middle)
    doubtful = sampled(replace(asked, log=replace(log, mass_planning=1.3 * middle)), MANY)
    heavier = np.mean(doubtful.needed > asked.rigging + 1.3 * middle)
    assert heavier == pytest.approx(0.05, abs=0.03)
    assert np.median(doubtful.needed) == pytest.approx(asked.rigging + middle, rel=0.02)


def test_no_machine_is_known_better_than_its_rigid_body() -> None:
    """The same machine many times: tipping and rams spread by the floor, ratings do not."""
    same = some(MANY, np.zeros(4000, dtype=int))
    found = sampled(lift(NAME, **LIFTS["hook"]), same, floor=0.03)
    for (kind, title), allowed in zip(found.titles, found.allowed, strict=True):
        if np.all(np.isfinite(allowed)) and allowed[0] > 0:
            wanted = 0.03 if kind in ("tipping", "ram") else 0.0
            assert np.std(np.log(allowed)) == pytest.approx(wanted, abs=0.002), title
    exact = sampled(found.lift, same, floor=0.0)
    row = [kind for kind, _ in found.titles].index("tipping")
    assert found.quantile(0.05)[row] == pytest.approx(
        exact.quantile(0.05)[row] * np.exp(-1.645 * 0.03), rel=0.005
    )
