"""Limits as typed, as tables and as larger cells."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from liftcalc.errors import InputError
from liftcalc.factors import CAUTION
from liftcalc.machines.files import load
from liftcalc.maps.cell_bounds import blocks, commonest
from liftcalc.maps.downsampling import downsampled
from liftcalc.maps.export import csv_text, json_text, table_of
from liftcalc.maps.limits import ON_GROUND, heaviest, limits_back, limits_front
from liftcalc.maps.warnings import limits_warnings
from liftcalc.reports.map_words import share_words, verdict_words
from liftcalc.requests.fields_of_commands import LimitsRequest
from liftcalc.requests.limits import Steps, parse_limits
from tests.exported import read_csv, read_json
from tests.helpers import LARCH, lift, told

BACK = LimitsRequest(
    machine="standard-sideshift", end="back", attachment="lifting hook", slew="40 deg"
)
FRONT = LimitsRequest(machine="standard-sideshift", end="front")
LOG = {"species": "European larch", "length": "4.2 m", "mid": "49 cm"}


def test_without_a_log_only_loads_are_mapped_and_the_stand_in_is_said():
    read = parse_limits(BACK)
    assert not read.for_log
    lifted = read.reads[0].lift
    assert lifted.reach is None
    said = " ".join(told(lifted.assumed))
    assert "no log was given" in said
    assert "choked" not in said
    names = {name for name, _ in read.reads[0].echoes}
    assert not names & {"species", "length", "mid", "reach", "height", "bark"}
    carried = parse_limits(replace(FRONT, attachment="pallet forks"))
    assert "stand-in 4 m long and 50 cm thick" in " ".join(told(carried.reads[0].lift.assumed))


def test_a_hanging_log_does_not_change_what_is_allowed_but_a_carried_one_does():
    bare, logged = (
        limits_back(replace(parse_limits(each).reads[0].lift, loads_only=True)).side.allowed
        for each in (replace(BACK, wind="0 m/s"), replace(BACK, **LOG, breakout="1", wind="0 m/s"))
    )
    np.testing.assert_array_equal(bare, logged)
    fork = replace(FRONT, attachment="pallet forks", **LOG)
    short, long = (
        limits_front(parse_limits(replace(fork, length=length)).reads[0].lift)
        for length in ("2 m", "7 m")
    )
    assert np.nansum(long.allowed) < np.nansum(short.allowed)
    assert np.all(np.nan_to_num(long.allowed) <= np.nan_to_num(short.allowed))


def test_a_log_half_described_is_a_fault_and_all_faults_come_together():
    with pytest.raises(InputError) as caught:
        parse_limits(
            replace(
                BACK,
                species="European larch",
                slew="40",
                reach_step="3 m",
                slew_step="0.1 deg",
                lowest="half",
            )
        )
    fields = {fault.field for fault in caught.value.faults}
    assert {"length", "slew", "reach-step", "slew-step", "lowest"} <= fields


def test_at_the_front_every_attachment_and_lift_point_is_read_once():
    read = parse_limits(FRONT)
    found = {(x.lift.tool.name, x.lift.point.name) for x in read.reads}
    tools = [x for x in load("standard-sideshift").attachment if x.end == "front"]
    assert found == {(tool.name, point.name) for tool in tools for point in tool.lift_point}
    assert len(read.reads) == len(found)


def test_slew_past_its_limit_and_a_height_out_of_reach_are_refused_in_words():
    asked = lift("standard-sideshift", reach=None, height=1.0, slew=2.0)
    with pytest.raises(InputError, match="slew: given"):
        limits_back(asked)
    with pytest.raises(InputError, match="beyond the straight arm"):
        limits_back(lift("standard-sideshift", reach=None, height=9.0))
    with pytest.raises(InputError, match="choose another tilt"):
        limits_front(
            lift(
                "standard-sideshift",
                end="front",
                tool="pallet forks",
                height=1.0,
                tilt=1.9,
                stance="wheels",
            )
        )


def test_steps_are_kept_and_cells_cover_the_reach_without_a_gap():
    asked = lift("standard-sideshift", reach=None, height=1.0)
    found = limits_back(asked, steps=Steps(reach=0.4, height=0.3, slew=0.2, lowest=0.0))
    np.testing.assert_allclose(np.diff(found.side.reach), 0.4)
    np.testing.assert_allclose(np.diff(found.side.other), 0.3)
    assert found.side.other[0] >= -1e-9
    limit = float(asked.machine.back.slew_limit)
    np.testing.assert_allclose(found.plan.other[[0, -1]], [-limit, limit])
    assert np.diff(found.plan.other).max() <= 0.2 + 1e-12


def test_a_worse_request_never_has_a_cell_that_allows_more():
    good = limits_back(lift("standard-sideshift", reach=None, height=1.0, slew=1.2))
    for worse in ({"gauge": 1.2e7}, {"stance": "wheels"}, {"plate": 400.0}, {"swing": 0.1}):
        bad = limits_back(lift("standard-sideshift", reach=None, height=1.0, slew=1.2, **worse))
        # What may hide between samples differs, by less than a kilogram.
        assert (np.nan_to_num(bad.side.allowed) <= np.nan_to_num(good.side.allowed) + 1.0).all()


def test_the_heaviest_log_of_a_cell_just_passes():
    asked = lift("standard-sideshift", reach=None, height=1.0, slew=1.2)
    side = limits_back(asked, for_log=False).side
    made = heaviest(asked, side.allowed)
    again = made + asked.rigging
    there = ~np.isnan(side.allowed)
    np.testing.assert_allclose(again[there], side.allowed[there])
    np.testing.assert_array_equal(side.passes, np.nan_to_num(side.allowed) >= asked.needed)


def maps():
    read = parse_limits(replace(BACK, **LOG))
    back = limits_back(read.reads[0].lift, steps=Steps(reach=0.25, height=0.25))
    front = parse_limits(replace(FRONT, attachment="pallet forks"))
    curve = limits_front(front.reads[0].lift, for_log=False)
    return {
        "side": table_of(back.side, echoes=read.reads[0].echoes),
        "plan": table_of(back.plan, echoes=read.reads[0].echoes),
        "curve": table_of(curve, echoes=front.reads[0].echoes),
    }, back


def test_a_table_read_back_is_the_same_table():
    tables, _ = maps()
    for table in tables.values():
        assert len(table.rows) > 10
        assert read_csv(csv_text(table)) == table
    assert read_json(json_text(tables)) == tables


def test_a_table_holds_the_grid_rounded_down_and_all_it_rests_on():
    tables, back = maps()
    rows, side = tables["side"].rows, back.side
    assert len(rows) == side.allowed.size
    assert {row.map for row in rows} == {"side"}
    cells = (side.allowed, side.heaviest_log, side.clear)
    for row, load_, log, off in zip(rows, *(each.ravel() for each in cells), strict=True):
        if row.allowed_kg is None:
            assert np.isnan(load_)
            assert row.unreachable_because
            assert row.governs == ""
        else:
            assert load_ - 1 < row.allowed_kg <= load_
            assert log - 1 < row.heaviest_log_kg <= log
            enough = load_ >= side.lift.needed and off
            assert row.log_passes == ("yes" if enough else "no" if off else ON_GROUND)
    inputs = dict(tables["side"].inputs)
    assert inputs["caution"] == CAUTION
    assert inputs["machine"] == f"{load('standard-sideshift').title} (for practice: invented)"
    assert inputs["understood: slew"] == "40 deg"
    assert inputs["understood: mid"] == "49 cm"
    assert any(name.startswith("machine figure: back.boom.length") for name in inputs)
    assert "liftcalc version" in inputs
    assert not any(row.log_passes for row in tables["curve"].rows)


def test_blocks_and_commonest_by_hand():
    cells = np.array([[1.0, 5.0, 2.0, np.nan], [4.0, 3.0, 7.0, 8.0]])
    which = np.array([[0, 1, 2, -1], [3, 4, 5, 6]], dtype=np.int16)
    least, said = blocks(cells, which, (2, 2))
    np.testing.assert_array_equal(least, [[1.0, np.nan]])
    np.testing.assert_array_equal(said, [[0, -1]])
    line = np.array([-1, -1, 0, 0, 1, 1, 1, -1, -1], dtype=np.int16)
    np.testing.assert_array_equal(commonest(line, (2,), 2), [1, 1])
    np.testing.assert_array_equal(commonest(np.full(9, -1, dtype=np.int16), (2,), 2), [-1, -1])


@pytest.mark.parametrize("for_log", [True, False])
def test_larger_cells_never_say_more_than_the_smaller_ones_in_them(for_log):
    asked = lift("standard-sideshift", reach=None, height=1.0, slew=1.2)
    side = limits_back(asked, for_log=for_log).side
    made = downsampled(side, (side.reach, side.other), most=(12, 12))
    assert max(made.allowed.shape) <= 13
    assert made.on_ground.any() == for_log
    for i, j in np.ndindex(*made.allowed.shape):
        rows = (side.reach[:-1] >= made.edges[0][i] - 1e-9) & (
            side.reach[1:] <= made.edges[0][i + 1] + 1e-9
        )
        columns = (side.other[:-1] >= made.edges[1][j] - 1e-9) & (
            side.other[1:] <= made.edges[1][j + 1] + 1e-9
        )
        inside = side.allowed[rows][:, columns]
        assert inside.size
        off = side.clear[rows][:, columns]
        there = ~np.isnan(inside) & off
        assert made.part[i, j] == (there.any() and not there.all())
        assert made.on_ground[i, j] == (not there.any() and not np.isnan(inside).all())
        if there.any():
            assert made.allowed[i, j] == inside[there].min()
        else:
            assert made.governs[i, j] == -1


def test_doubts_name_what_is_assumed_and_what_is_not_checked():
    asked = lift("standard-sideshift", reach=None, height=1.0, stance="wheels", log=LARCH)
    said = " ".join(told(limits_warnings(limits_back(asked).side)))
    for words in ("put the stabilisers down", "invented class", "Not checked here", "No plate"):
        assert words in said


def test_every_map_is_in_one_table_in_order():
    tables, back = maps()
    both = table_of(*back.maps, echoes=parse_limits(replace(BACK, **LOG)).reads[0].echoes)
    assert both.rows == tables["side"].rows + tables["plan"].rows
    assert both.inputs == tables["side"].inputs
    assert read_csv(csv_text(both)) == both


def test_without_a_log_nothing_lies_on_the_ground():
    """Every load stays, and no cell, word or row speaks of a log that nobody named."""
    asked = lift("standard-sideshift", reach=None, height=0.4)
    logged, bare = limits_back(asked), limits_back(asked, for_log=False)
    for with_log, without in zip(logged.maps, bare.maps, strict=True):
        np.testing.assert_array_equal(with_log.allowed, without.allowed)
        np.testing.assert_array_equal(with_log.lattice.floor, without.lattice.floor)
        assert with_log.on_ground.any()
        assert not without.on_ground.any()
        assert {row.log_passes for row in table_of(without).rows} == {""}
        assert "ground of a log" not in " ".join(told(limits_warnings(without)))
    front = lift("standard-sideshift", end="front", tool="front lifting hook", stance="wheels")
    assert limits_front(front).on_ground.any()
    assert not limits_front(front, for_log=False).on_ground.any()


def counted(limits):
    """Shares of passing cells and of those on the ground, counted cell by cell [%]."""
    passed = ground = reached = 0
    for at in np.ndindex(*limits.allowed.shape):
        if math.isnan(limits.allowed[at]):
            continue
        reached += 1
        ground += not limits.clear[at]
        passed += bool(limits.clear[at]) and limits.allowed[at] >= limits.lift.needed
    return 100 * passed / reached, 100 * ground / reached


def test_the_share_of_every_map_is_told_and_never_rounded_up():
    asked = lift("standard-sideshift", tool="lifting hook", reach=None, height=2.2, slew=0.7)
    found = limits_back(asked)
    shares = [counted(each) for each in found.maps]
    # The kind of request that was told as 100 %: all of one map, most of the other not.
    assert abs(shares[0][0] - shares[1][0]) > 5
    for limits, (passed, ground) in zip(found.maps, shares, strict=True):
        told = share_words(limits)
        assert f"allowed in {math.floor(passed)} % of the cells" in told
        assert (f"{ON_GROUND} in {math.ceil(ground)} %" in told) == (ground > 0)


def test_a_share_that_rounds_to_nothing_or_all_is_neither():
    asked = lift("standard-sideshift", reach=None, height=2.2)
    side = limits_back(asked, for_log=False).side
    reached = np.argwhere(side.reached)
    no_load, one = np.where(side.reached, 0.0, np.nan), tuple(reached[0])
    assert share_words(replace(side, allowed=no_load)) == "nowhere allowed"
    held = no_load.copy()
    held[one] = 1e6
    assert "less than 1 %" in share_words(replace(side, allowed=held))
    lacking = np.where(side.reached, 1e6, np.nan)
    assert "in 100 %" in share_words(replace(side, allowed=lacking))
    lacking[one] = 0.0
    assert "in 99 %" in share_words(replace(side, allowed=lacking))


def test_a_log_that_is_nowhere_off_the_ground_is_not_called_too_heavy():
    low = limits_back(lift("standard-sideshift", tool="lifting hook", reach=None, height=0.1)).plan
    assert low.on_ground[low.reached].all()
    anywhere, words = verdict_words([low])
    assert not anywhere
    assert "on the ground" in words
    assert "heavy" not in words
    assert "too heavy" in verdict_words([replace(low, allowed=low.allowed * 0)])[1]
