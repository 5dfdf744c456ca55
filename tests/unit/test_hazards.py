"""Site hazards: what is refused or asked for, what never helps, and never a pass from nothing."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftcalc.errors import InputError
from liftcalc.site.ground import ground
from liftcalc.site.hazards import (
    Clearance,
    Hazards,
    circle,
    edge,
    keep_out,
    missing,
    us_distance,
    wires,
)
from liftcalc.sources import SOURCES
from liftcalc.units import FOOT

length = st.floats(min_value=0.0, max_value=30.0)
lean = st.floats(min_value=0.0, max_value=3.0)
LOG = {"reach": 4.0, "far_end": 2.5, "drop": 2.0, "lean": math.radians(30)}
FALL = {"far_end": 2.5, "drop": 2.0, "lean": math.radians(30), "lowest": 1.5}


def faults(**said: object) -> list[str]:
    with pytest.raises(InputError) as refused:
        Hazards(**said)
    return [each.field for each in refused.value.faults]


def kept(clearance: Clearance | None) -> Clearance:
    assert clearance is not None
    return clearance


def test_wires_ask_for_the_rule_set():
    assert faults(wires_distance=20.0) == ["rules"]


def test_every_fault_is_said_at_once():
    said = faults(
        rules="moon",
        wires_on="string",
        wires_voltage=-5.0,
        edge_distance=-1.0,
        edge_depth=1.0,
        people_distance=math.nan,
    )
    assert said == ["edge", "people", "rules", "wires-on", "wires-voltage", "wires"]


@pytest.mark.parametrize("value", [math.nan, -0.1])
@pytest.mark.parametrize("name", ["wires_distance", "edge_distance", "people_distance"])
def test_what_is_no_distance_is_refused(name: str, value: float):
    more = {"edge_depth": 1.0} if name == "edge_distance" else {}
    assert name.removesuffix("_distance") in faults(rules="uk", **{name: value}, **more)


def test_half_an_edge_asks_for_the_other_half():
    assert faults(edge_distance=2.0) == ["edge-depth"]
    assert faults(edge_depth=2.0) == ["edge"]


def test_a_voltage_beyond_the_table_is_refused_at_the_door():
    said = faults(rules="us", wires_distance=90.0, wires_voltage=1.1e6)
    assert said == ["wires-voltage"]


def test_wires_by_hand():
    """4 m out, 2.5 m of log, swung 2 m · sin 30° = 1 m: 7.5 m of the 18 m are gone."""
    found = kept(wires(Hazards(rules="uk", wires_distance=18.0, wires_on="wood poles"), **LOG))
    assert found.has == pytest.approx(10.5, rel=1e-12)
    assert found.needs == 10.0
    assert found.met
    assert found.source == "hse_trees"
    towers = kept(wires(Hazards(rules="uk", wires_distance=18.0, wires_on="steel towers"), **LOG))
    assert not towers.met
    assert towers.source == "hse_gs6"


def test_wires_in_the_us_by_hand():
    near = Hazards(rules="us", wires_distance=7.5 + 15 * FOOT, wires_voltage=132e3)
    assert kept(wires(near, **{**LOG, "lean": 0.52})).met
    assert not kept(wires(near, **{**LOG, "lean": 0.53})).met
    assert kept(wires(near, **LOG)).source == "osha_1408"


def test_not_knowing_is_never_better():
    """Neither the voltage nor what carries the wires: the most that either could ask."""
    for on in ("steel towers", "wood poles"):
        known = kept(wires(Hazards(rules="uk", wires_distance=20.0, wires_on=on), **LOG))
        assert kept(wires(Hazards(rules="uk", wires_distance=20.0), **LOG)).needs >= known.needs
    for volts in (400.0, 11e3, 400e3, 1e6):
        assert us_distance(voltage=None) >= us_distance(voltage=volts)


@given(reach=length, far=length, drop=length, lean=lean, more=st.floats(0.0, 5.0))
def test_nearer_farther_out_or_swinging_more_never_helps(reach, far, drop, lean, more):
    near = Hazards(rules="uk", wires_distance=30.0)
    said = {"reach": reach, "far_end": far, "drop": drop, "lean": lean}
    has = kept(wires(near, **said)).has
    for name, value in said.items():
        assert kept(wires(near, **{**said, name: value + more})).has <= has
    nearer = Hazards(rules="uk", wires_distance=30.0 - more)
    assert kept(wires(nearer, **said)).has <= has


@given(far=length, drop=length, lean=lean, lowest=length, more=st.floats(0.0, 5.0))
def test_longer_higher_or_swinging_more_never_shrinks_the_circle(far, drop, lean, lowest, more):
    said = {"far_end": far, "drop": drop, "lean": lean, "lowest": lowest}
    radius = keep_out(**said).result
    assert radius >= far
    for name, value in said.items():
        assert keep_out(**{**said, name: value + more}).result >= radius


@given(low=st.floats(1.0, 1e6), more=st.floats(1.0, 10.0))
def test_a_higher_voltage_never_lets_one_nearer(low: float, more: float):
    assert us_distance(voltage=min(low * more, 1e6)) >= us_distance(voltage=low)


@pytest.mark.parametrize(
    ("name", "depths"),
    [("rock", 1), ("firm clay", 1), ("dense sand", 1), ("soft clay", 2), ("sand", 2), ("fill", 2)],
)
def test_edge_stands_off_by_its_depth_and_twice_that_on_loose_ground(name, depths):
    for hopeful in (False, True):
        asked = ground(name).edge_depths.end(hopeful)
        assert asked == depths
        deep = Hazards(edge_distance=1.5 * depths, edge_depth=1.5)
        near = Hazards(edge_distance=1.5 * depths - 0.01, edge_depth=1.5)
        assert kept(edge(deep, depths=asked)).met
        assert not kept(edge(near, depths=asked)).met


def test_where_the_ground_is_unknown_the_edge_counts_twice_unless_hoped():
    assert ground("unknown").edge_depths == (2, 1)
    assert edge(Hazards(edge_distance=math.inf)) is None


def test_circle_by_hand():
    """2.5 m of log, 1 m of swing, 1.5 m up: 5 m."""
    assert keep_out(**FALL).result == pytest.approx(5.0, rel=1e-12)
    assert kept(circle(Hazards(people_distance=5.01), swept=0.0, keep_out=keep_out(**FALL))).met
    assert not kept(circle(Hazards(people_distance=4.99), swept=0.0, keep_out=keep_out(**FALL))).met
    assert kept(circle(Hazards(people_distance=math.inf), swept=0.0, keep_out=keep_out(**FALL))).met


def test_a_log_that_lies_or_swings_back_gains_nothing():
    below = keep_out(far_end=2.0, drop=0.0, lean=-0.3, lowest=-1.0).result
    assert below == keep_out(far_end=2.0, drop=0.0, lean=0.3, lowest=0.0).result == 2.0


@pytest.mark.parametrize("name", ["reach", "far_end", "drop", "lean"])
def test_wires_are_never_passed_by_what_is_not_a_number(name: str):
    near = Hazards(rules="us", wires_distance=500.0, wires_voltage=400.0)
    assert kept(wires(near, **LOG)).met
    assert not kept(wires(near, **{**LOG, name: math.nan})).met


@pytest.mark.parametrize("name", ["far_end", "drop", "lean", "lowest"])
def test_people_are_never_passed_by_what_is_not_a_number(name: str):
    about = Hazards(people_distance=100.0)
    assert kept(circle(about, swept=0.0, keep_out=keep_out(**FALL))).met
    assert not kept(circle(about, swept=0.0, keep_out=keep_out(**{**FALL, name: math.nan}))).met


def test_arrays_as_floats():
    reaches = np.array([2.0, 4.0, 6.0, math.nan])
    near = Hazards(rules="uk", wires_distance=18.0, wires_on="wood poles")
    found = kept(wires(near, **{**LOG, "reach": reaches}))
    each = [kept(wires(near, **{**LOG, "reach": float(r)})).has for r in reaches]
    assert np.array_equal(found.has, each, equal_nan=True)
    assert found.met.tolist() == [True, True, False, False]


def test_what_was_not_said_is_asked():
    assert len(missing(Hazards())) == 3
    none_near = Hazards(
        rules="us", wires_distance=math.inf, edge_distance=math.inf, people_distance=math.inf
    )
    assert missing(none_near) == ()
    assert (
        wires(Hazards(), **LOG)
        is edge(Hazards())
        is circle(Hazards(), swept=0.0, keep_out=keep_out(**FALL))
        is None
    )


def test_every_clearance_names_its_source_and_says_a_sentence():
    near = {"edge_distance": 2.0, "edge_depth": 1.0, "people_distance": 9.0, "wires_distance": 30.0}
    for more in (
        {"rules": "uk"},
        {"rules": "uk", "wires_on": "wood poles"},
        {"rules": "us"},
        {"rules": "us", "wires_voltage": 11e3},
    ):
        site = Hazards(**near, **more)
        for found in (
            wires(site, **LOG),
            edge(site),
            circle(site, swept=0.0, keep_out=keep_out(**FALL)),
        ):
            assert kept(found).source in SOURCES
            assert str(kept(found).said).endswith(".")
