"""Worse gear, slinging, logs or grips never raise what the rigging may carry."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from liftcalc.errors import InputError
from liftcalc.rigging.gear import EN_818_4_ROWS, GEAR_KINDS, Gear, single_leg
from liftcalc.rigging.grip import along_share, load_held
from liftcalc.rigging.lift_mode import WAYS, LiftMode, pull
from liftcalc.rigging.ratings import ratings
from liftcalc.rigging.sling import SLING_WAYS, Sling, hang, level_window

Case = tuple[Gear, Sling, dict[str, Any]]
more = st.floats(0.01, 0.5)
ends = st.sampled_from(["butt", "top"])
NOISE = 1 + 1e-12


@st.composite
def slung(
    draw: st.DrawFn, ways: tuple[str, ...] = SLING_WAYS
) -> tuple[Gear, Sling, dict[str, Any]]:
    """Gear, sling and log that can be rated."""
    kind = draw(st.sampled_from(GEAR_KINDS))
    size = draw(st.floats(0.004, 0.03))
    wll = draw(st.floats(200, 9000)) if kind == "round sling" or draw(st.booleans()) else None
    length, diameter = draw(st.floats(2, 12)), draw(st.floats(0.1, 0.9))
    balance = length * draw(st.floats(0.35, 0.55))
    way = draw(st.sampled_from(ways))
    free = draw(st.floats(0.5, 5))
    spread = free * draw(st.floats(0.05, 1.6)) if way == "two legs" else 0.0
    aim = balance + draw(st.floats(-0.45, 0.45)) * spread if draw(st.booleans()) else None
    sling = Sling(way=way, length=free + math.pi * diameter, spread=spread, at=aim)
    gear = Gear(kind=kind, size=size, wll=wll, hook_wll=draw(st.floats(500, 5000)))
    log = {"log_length": length, "balance": balance, "diameter": diameter}
    rated(gear, sling, log)  # or it is no case: every one of these can be rated
    return gear, sling, log


def rated(gear: Gear, sling: Sling, log: dict[str, Any]) -> float:
    """Least of all ratings [kg]; refused counts as nothing."""
    return min(each.capacity for each in ratings(gear, sling=sling, **log))


def tried(gear: Gear, sling: Sling, log: dict[str, Any]) -> float:
    """The same; what is refused may carry nothing."""
    try:
        return rated(gear, sling, log)
    except InputError:
        return 0.0


@given(slung(), more)
def test_thinner_gear_and_lower_marks_never_carry_more(case, part):
    gear, sling, log = case
    before = rated(*case)
    assert 0 < before < math.inf
    thinner = replace(gear, size=gear.size * (1 - part))
    assert tried(thinner, sling, log) <= before * NOISE
    weaker = replace(gear, wll=(gear.wll or before) * (1 - part))
    assert tried(weaker, sling, log) <= before * NOISE
    assert tried(replace(gear, hook_wll=gear.hook_wll * (1 - part)), sling, log) <= before * NOISE


@given(st.floats(0.004, 0.03), st.floats(0, 0.002))
def test_a_thinner_chain_of_grade_80_never_carries_more(size, less):
    thick = single_leg(Gear(kind="chain grade 80", size=size))
    thin = single_leg(Gear(kind="chain grade 80", size=size - less))
    assert thin.wll <= thick.wll * NOISE
    rows = [one for d, one, _ in EN_818_4_ROWS if size <= d]
    assert thick.wll <= min([32e6 * size**2, *rows]) * NOISE


@given(slung(), more)
def test_a_shorter_sling_or_thicker_log_never_carries_more(case, part):
    """Both open the angle of two legs and of a basket."""
    gear, sling, log = case
    before = rated(*case)
    shorter = replace(sling, length=sling.length * (1 - part))
    assert tried(gear, shorter, log) <= before * NOISE
    assert tried(gear, sling, log | {"diameter": log["diameter"] * (1 + part)}) <= before * NOISE


@given(slung(ways=("two legs",)), more)
def test_a_longer_miss_never_carries_more(case, part):
    gear, sling, log = case
    at = log["balance"] if sling.at is None else sling.at
    aimed = replace(sling, at=at)
    away = math.copysign(part * sling.spread, at - log["balance"])
    missed = tried(gear, replace(sling, at=max(at + away, 0.0)), log)
    assert missed <= rated(gear, aimed, log) * NOISE
    # A log twice as long is missed by twice as much where nobody tried it out.
    unsaid = replace(sling, at=None)
    longer = {key: value * (2 if key != "diameter" else 1) for key, value in log.items()}
    assert rated(gear, unsaid, longer) <= rated(gear, unsaid, log) * NOISE
    assert rated(gear, unsaid, log) <= rated(gear, replace(sling, at=log["balance"]), log) * NOISE


@given(slung())
def test_no_sling_carries_more_than_its_way_allows_nor_than_its_tag(case):
    gear, sling, log = case
    leg = single_leg(gear, legs=2 if sling.way == "two legs" else 1).wll
    most = {"single": 1.0, "choked": 0.8, "basket": 2.0, "two legs": 0.8 * 1.4}[sling.way]
    carried = ratings(gear, sling=sling, **log)[0].capacity
    assert carried <= most * leg * NOISE
    if gear.wll is not None:
        whole = 0.8 if sling.way == "two legs" else most
        assert carried <= whole * gear.wll * NOISE


@given(slung())
def test_one_end_of_a_log_is_never_carried_by_more_than_the_whole_of_it(case):
    gear, sling, log = case
    whole, end = (
        ratings(gear, sling=sling, whole=each, **log)[0].capacity for each in (True, False)
    )
    if sling.way == "two legs":
        assert end <= 0.8 * single_leg(gear, legs=2).wll * NOISE
    else:
        assert end == whole


@given(slung(), st.sampled_from(["log_length", "balance", "diameter"]))
def test_nan_is_never_rated(case, name):
    gear, sling, log = case
    with pytest.raises(InputError):
        ratings(gear, sling=sling, **(log | {name: math.nan}))
    for figure in ("length", "spread", "at", "mass"):
        with pytest.raises(InputError):
            replace(sling, **{figure: math.nan})


@given(slung(ways=("choked", "single", "two legs")), more)
def test_inside_its_window_a_log_hangs_level_and_beyond_it_does_not(case, part):
    _, sling, log = case
    free = sling.length - math.pi * log["diameter"]
    assume(sling.spread / 2 < 0.95 * free)
    window = level_window(sling, **log)
    for miss, level in ((1 - part, True), (1 + part, False)):
        at = log["balance"] + miss * window.miss
        if at + sling.spread / 2 > log["log_length"] or at < sling.spread / 2:
            continue
        found = hang(replace(sling, at=at), drop=0.3, least_diameter=log["diameter"], **log)
        assert (found.angle <= math.radians(5)) == level


@st.composite
def taking(draw: st.DrawFn) -> tuple[LiftMode, dict[str, float]]:
    """A way of taking and a log."""
    length = draw(st.floats(1, 12))
    taken = LiftMode(
        way=draw(st.sampled_from(WAYS)),
        ground_end=draw(ends),
        hook_at=draw(st.none() | st.floats(0.3, 1.0).map(lambda share: share * length)),
        breakout=draw(st.floats(1, 3)),
        drag_friction=draw(st.floats(0, 2)),
    )
    log = {
        "log_length": length,
        "cog_from_butt": length * draw(st.floats(0.3, 0.6)),
        "diameter": length * draw(st.floats(0.02, 0.15)),
        "slope": draw(st.floats(-0.5, 0.8)),
    }
    return taken, log


@given(taking(), more)
def test_a_harder_pull_is_never_told_as_less(case, part):
    taken, log = case
    before = pull(taken, **log)
    steeper = pull(taken, **(log | {"slope": log["slope"] + part}))
    rougher = pull(replace(taken, drag_friction=taken.drag_friction + part), **log)
    thicker = pull(taken, **(log | {"diameter": log["diameter"] * (1 + part)}))
    for worse in (steeper, rougher, thicker):
        assert worse.up >= before.up / NOISE
        assert worse.along >= before.along / NOISE
        assert worse.share >= before.share / NOISE
        assert worse.resting >= before.resting / NOISE


@given(taking(), more)
def test_a_hook_nearer_the_balance_point_carries_more(case, part):
    taken, log = case
    lifted = replace(taken, way="one end", hook_at=taken.hook_at or log["log_length"])
    nearer = pull(replace(lifted, hook_at=lifted.hook_at * (1 - part)), **log)
    assert nearer.share >= pull(lifted, **log).share / NOISE
    assert nearer.share <= NOISE  # never more than the log weighs


@given(taking(), st.sampled_from(["log_length", "cog_from_butt", "diameter", "slope"]))
def test_no_pull_from_nan(case, name):
    taken, log = case
    with pytest.raises(InputError):
        pull(taken, **(log | {name: math.nan}))


@given(st.floats(100, 1e5), st.floats(0.01, 1), st.floats(0.01, 1.5), more)
def test_a_worse_grip_never_holds_more(force, friction, lean, part):
    grip = {"jaw_force": force, "friction": friction, "share": along_share(lean=lean)}
    before = load_held(**grip).held
    worse = (
        grip | {"jaw_force": force * (1 - part)},
        grip | {"friction": friction * (1 - part)},
        grip | {"share": along_share(lean=min(lean + part, 1.57))},
        grip | {"safety": 2 + part},
    )
    assert all(load_held(**each).held <= before * NOISE for each in worse)
