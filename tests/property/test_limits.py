"""What is drawn as allowed is allowed: inside every cell, every contour, on every curve."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import linprog

import liftcalc.maps.cell_bounds as cells_module
import liftcalc.maps.samples as samples_module
from liftcalc.errors import InputError
from liftcalc.evaluation.check import check
from liftcalc.evaluation.log_position import log_position
from liftcalc.evaluation.sweep import sweep
from liftcalc.machines.files import load
from liftcalc.maps.cell_bounds import DIP, PAD, floors, nodes
from liftcalc.maps.limits import Steps, limits_back, limits_front
from liftcalc.rigging.gear import Gear
from liftcalc.rigging.lift_mode import LiftMode
from liftcalc.site.ground import ground
from liftcalc.site.hazards import Hazards
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from tests.helpers import MACHINES, centred, lift, like, perturbed, told, tried

CASES = [
    {"machine": "standard-sideshift", "tool": "lifting hook", "slew": 0.7, "height": 1.2},
    {"machine": "standard-centre-mount", "tool": "log grab with rotator", "slew": -1.2,
     "height": 2.0, "stance": "wheels"},
    {"machine": "standard-sideshift", "tool": "digging bucket", "slew": 1.5, "height": 0.3,
     "sideshift": 0.4, "site": Site(slope=0.07, heading=1.1), "swing": 0.05,
     "motion": Motion(friction=0.6)},
    {"machine": "compact-centre-mount", "slew": 0.0, "height": 1.0},
    {"machine": "small-tractor", "slew": 0.4, "height": 1.6, "gauge": 9e6},
    {"machine": "standard-sideshift", "tool": "lifting hook", "slew": 0.7, "height": 1.2,
     "ground": ground("dense gravel"), "mat": 0.6, "gear": Gear(hook_wll=2e3)},
    {"machine": "standard-sideshift", "tool": "lifting hook", "slew": 0.8, "height": 1.1,
     "ground": ground("dense gravel"), "mat": 0.55, "stance": "stabilisers and bucket",
     "other": "wide front shovel", "site": Site(slope=0.05, heading=1.0),
     "motion": Motion(friction=0.5)},
    {"machine": "standard-sideshift", "tool": "lifting hook", "slew": 0.9, "height": 1.0,
     "ground": ground("firm clay"), "mat": 0.9,
     "motion": Motion(slew_speed=0.3, slew_stop=1.0, friction=0.5),
     "hazards": Hazards(rules="uk", wires_distance=21.5, people_distance=6.0)},
    {"machine": "small-tractor", "slew": 1.2, "height": 1.2, "stance": "wheels",
     "motion": Motion(friction=0.35), "site": Site(slope=0.06, heading=2.0)},
]  # fmt: skip
FRONT = [
    ("standard-sideshift", "wide front shovel", {}),
    (
        "standard-sideshift",
        "pallet forks",
        {"site": Site(slope=0.06, heading=1.6), "motion": Motion(friction=0.5)},
    ),
    ("standard-centre-mount", "multi-purpose jaw bucket", {"travelling": True}),
    (
        "standard-centre-mount",
        "multi-purpose jaw bucket",
        {
            "travelling": True,
            "motion": Motion(speed=1.5, turn_radius=8.0, braking=1.0, friction=0.5),
            "site": Site(slope=0.04, heading=0.5),
        },
    ),
    ("small-tractor", "front lifting hook", {"gauge": 1e7}),
    ("standard-sideshift", "front log grab with rotator", {"swing": 0.1}),
]


def case(words):
    """A lift point that is stronger than all else where the ground is to govern."""
    asked = lift(**{"reach": None, **words})
    if asked.ground is None:
        return asked
    strong = asked.point.model_copy(update={"wll": like(asked.machine.weights.total, 3e4)})
    return replace(asked, point=strong)


def drawn(limits, rng, count):
    """Random places in what a map draws, and the most that any contour could show there."""
    lattice = limits.lattice
    i = rng.integers(lattice.reach.size - 1, size=count)
    j = rng.integers(lattice.other.size - 1, size=count)
    corners = np.stack([lattice.floor[i + a, j + b] for a in (0, 1) for b in (0, 1)])
    # A cell with one corner masked is still drawn as a triangle.
    here = (~np.isnan(corners)).sum(axis=0) >= 3
    most = np.where(np.isnan(corners), -np.inf, corners).max(axis=0)
    share = rng.uniform(size=(2, count))
    out = lattice.reach[i] + share[0] * (lattice.reach[i + 1] - lattice.reach[i])
    other = lattice.other[j] + share[1] * (lattice.other[j + 1] - lattice.other[j])
    return out[here], other[here], most[here]


@pytest.mark.parametrize("words", CASES, ids=lambda w: w["machine"] + str(w["slew"]))
def test_the_drawn_region_is_inside_the_true_one(words):
    """Every interpolation between nodes shows at most the largest of a cell's corners."""
    asked = case(words)
    found = limits_back(asked)
    rng = np.random.default_rng(5)
    for limits in (found.side, found.plan):
        out, other, shown = drawn(limits, rng, 60_000)
        assert out.size > 3000
        if limits.across == "height":
            true = sweep(asked, reach=out, height=other, slew=asked.slew).allowed[:, 0]
        else:
            # Turned one by one: a sweep gives every slew to every place.
            true = np.concatenate(
                [
                    sweep(
                        asked,
                        reach=out[k],
                        height=np.full(out[k].size, asked.height),
                        slew=other[k],
                    ).allowed.diagonal()
                    for k in np.array_split(np.arange(out.size), out.size // 100)
                ]
            )
        assert not np.isnan(true).any()
        assert (true >= shown - 1e-9).all(), (shown - true).max()


@pytest.mark.parametrize(
    "words", [*CASES[:3], *CASES[6:8]], ids=lambda w: w["machine"] + str(w["slew"])
)
def test_check_agrees_at_places_inside_the_region_for_a_log(words):
    asked = case(words)
    found = limits_back(asked)
    need = asked.needed
    rng = np.random.default_rng(7)
    checked = 0
    for limits in (found.side, found.plan):
        out, other, shown = drawn(limits, rng, 4000)
        level = min(need, float(np.quantile(shown, 0.6)))
        for at, across in zip(out[shown >= level][:150], other[shown >= level][:150], strict=True):
            pose = {"height" if limits.across == "height" else "slew": float(across)}
            assert check(replace(asked, reach=float(at), **pose)).allowed >= level - 1e-9
            checked += 1
    assert checked > 200


@pytest.mark.parametrize("seed", range(6))
def test_cells_of_machines_of_no_class_hold_everywhere_inside(seed):
    """Perturbed machines, random requests: every cell against random places inside of it."""
    rng = np.random.default_rng(seed)
    machine = perturbed(load(MACHINES[seed % len(MACHINES)]), rng, 0.03)
    found = None
    for _ in range(20):  # until something can be reached at the height drawn
        asked = lift(
            machine,
            reach=None,
            height=float(rng.uniform(0.0, 2.0)),
            slew=float(rng.uniform(-1, 1) * machine.back.slew_limit),
            site=Site(slope=float(rng.uniform(0, 0.08)), heading=float(rng.uniform(0, 6))),
        )
        found = tried(lambda asked=asked: limits_back(asked, steps=Steps(reach=0.2, height=0.2)))
        if found is not None:
            break
    assert found is not None
    side = found.side
    rows, columns = np.nonzero(side.governs >= 0)
    again = rng.integers(rows.size, size=40_000)
    i, j = rows[again], columns[again]
    out = rng.uniform(side.reach[i], side.reach[i + 1])
    up = rng.uniform(side.other[j], side.other[j + 1])
    true = sweep(asked, reach=out, height=up, slew=asked.slew).allowed[:, 0]
    assert (true >= side.allowed[i, j] - 1e-9).all()


OFF_GROUND = [
    CASES[0],
    {"machine": "standard-centre-mount", "tool": "log grab with rotator", "height": 1.9},
    {"machine": "standard-sideshift", "tool": "lifting hook", "slew": 0.6, "height": 1.75,
     "site": Site(slope=0.08, heading=2.2, levelled=True)},
    {"machine": "standard-sideshift", "tool": "lifting hook", "height": 2.3,
     "site": Site(slope=0.04, heading=1.1), "sideshift": 0.4,
     "log": {"species": "european larch", "length": "3 m", "mid": "30 cm"}},
    {"machine": "compact-centre-mount", "height": 0.4, "taken": LiftMode(way="one end")},
]  # fmt: skip


@pytest.mark.parametrize("words", OFF_GROUND, ids=lambda w: w["machine"] + str(w["height"]))
def test_where_a_log_passes_it_is_off_the_ground(words):
    """Cell by cell against the one check, which poses log and ground on its own."""
    asked = case(words)
    found = limits_back(asked)
    rng = np.random.default_rng(13)
    low, seen = 0, 0
    for limits in found.maps:
        across = "height" if limits.across == "height" else "slew"
        for i, j in rng.permutation(np.argwhere(limits.reached))[:160]:
            at = {
                "reach": float(rng.uniform(*limits.reach[i : i + 2])),
                across: float(rng.uniform(*limits.other[j : j + 2])),
            }
            answer = check(replace(asked, **at))
            lying = asked.taken.way == "whole" and answer.lowest < 0
            low += lying
            if limits.passes[i, j]:
                seen += 1
                assert answer.passes
                assert not lying
            elif limits.clear[i, j]:
                assert not lying
    assert seen > 20
    assert (low > 20) == (asked.taken.way == "whole")


@pytest.mark.parametrize("words", OFF_GROUND[:4], ids=lambda w: w["machine"] + str(w["height"]))
def test_and_where_all_is_asked_it_hangs_clear_off_its_balance_too(words):
    """Of a map that is told everything: a log that tips in its choke dips an end."""
    asked = replace(case(words), loads_only=False)
    rng, seen, dips = np.random.default_rng(14), 0, 0
    for limits in limits_back(asked).maps:
        across = "height" if limits.across == "height" else "slew"
        for i, j in rng.permutation(np.argwhere(limits.clear & limits.reached))[:60]:
            at = {
                "reach": float(rng.uniform(*limits.reach[i : i + 2])),
                across: float(rng.uniform(*limits.other[j : j + 2])),
            }
            answer = check(replace(asked, **at))
            off = next(each for each in answer.criteria if each.kind == "off the ground")
            assert off.utilisation <= 1
            assert answer.passes or not limits.passes[i, j]
            seen += 1
            dips += answer.lowest_tipped < answer.lowest
    assert seen > 20
    assert dips == seen or asked.point.hold != "hangs"


@pytest.mark.parametrize("words", OFF_GROUND, ids=lambda w: w["machine"] + str(w["height"]))
def test_little_that_is_off_the_ground_is_given_away(words):
    """Safe is not enough: a map on which nothing is clear would pass the test above."""
    found = limits_back(case(words))
    for limits in found.maps:
        lattice = limits.lattice
        first, second = np.meshgrid(lattice.reach[::4], lattice.other[::4], indexing="ij")
        drawn = ~np.isnan(lattice.floor[::4, ::4])
        off = []
        for out, other in zip(first[drawn], second[drawn], strict=True):
            at = {"height" if limits.across == "height" else "slew": float(other)}
            off.append(log_height(replace(limits.lift, reach=float(out), **at)) >= 0)
        missed = np.array(off) & ~lattice.clear[::4, ::4][drawn]
        assert missed.mean() < 0.04


def log_height(asked):
    """Of a level log's lowest point over the ground, from the lift's own plain words [m]."""
    if asked.taken.way != "whole":
        return 0.0
    position = log_position(asked)
    x = asked.machine.back.slew_axis_x - asked.reach * math.cos(asked.slew)
    y = asked.sideshift + asked.reach * math.sin(asked.slew)
    heading = asked.site.heading
    uphill = x * math.cos(heading) + y * math.sin(heading) if asked.site.levelled else 0.0
    rise = math.tan(asked.site.slope) * (max(uphill, 0.0) + position.far_end)
    return asked.height - position.level - rise


@pytest.mark.parametrize(("machine", "tool", "words"), FRONT)
def test_where_a_curve_lets_a_log_pass_it_is_off_the_ground(machine, tool, words):
    asked = lift(machine, end="front", tool=tool, height=1.0, stance="wheels", **words)
    found = limits_front(asked)
    for i in np.flatnonzero(found.reached)[::2]:
        for at in np.linspace(*found.height[i : i + 2], 3):
            answer = check(replace(asked, reach=None, height=float(at)))
            if found.clear[i]:
                assert answer.lowest >= 0
            if found.passes[i]:
                assert answer.passes
    off = [n for n, at in enumerate(found.heights) if found.fine_clear[n] and at > 0.1]
    assert len(off) > 0.3 * found.heights.size


@pytest.mark.parametrize(("machine", "tool", "words"), FRONT)
def test_a_curve_is_never_above_the_truth(machine, tool, words):
    asked = lift(machine, end="front", tool=tool, height=1.0, stance="wheels", **words)
    found = limits_front(asked)
    rng = np.random.default_rng(11)
    at = rng.uniform(found.heights[0], found.heights[-1], size=20_000)
    # Between nodes of which one is NaN nothing is drawn.
    k = np.minimum(np.searchsorted(found.heights, at, side="right") - 1, found.heights.size - 2)
    whole = ~np.isnan(found.floor[k]) & ~np.isnan(found.floor[k + 1])
    true = sweep(asked, height=at[whole])
    assert whole.sum() > 10_000
    assert (true.allowed[:, 0] >= np.interp(at, found.heights, found.floor)[whole] - 1e-9).all()
    cell = np.searchsorted(found.height, at[whole], side="right") - 1
    inside = found.governs[cell] >= 0
    assert (true.reach[inside] >= found.reach_least[cell][inside] - 1e-3).all()
    assert (true.reach[inside] <= found.reach_most[cell][inside] + 1e-3).all()


def test_little_that_can_be_reached_is_given_away():
    """Safe is not enough: a map that says nothing would pass every test above."""
    asked = case(CASES[0])
    side = limits_back(asked).side
    rng = np.random.default_rng(3)
    out, up = rng.uniform(0, 5, 100_000), rng.uniform(-1, 4, 100_000)
    true = sweep(asked, reach=out, height=up, slew=asked.slew).allowed[:, 0]
    i = np.searchsorted(side.lattice.reach, out) - 1
    j = np.searchsorted(side.lattice.other, up) - 1
    inside = (i >= 0) & (j >= 0)
    inside &= (i < side.lattice.reach.size - 1) & (j < side.lattice.other.size - 1)
    shown = np.full(out.size, np.nan)
    shown[inside] = side.lattice.floor[i[inside], j[inside]]
    reached = ~np.isnan(true)
    assert np.isnan(shown[reached]).mean() < 0.06
    both = reached & ~np.isnan(shown)
    assert np.median(1 - shown[both] / true[both]) < 0.01
    assert (1 - shown[both] / true[both]).max() < 0.05


def hidden(surface, parts=13):
    """How far a surface dips below the floor of any cell of a lattice over the unit square."""
    x = np.linspace(0, 1, 21 + 2 * PAD)
    low = floors(surface(*np.meshgrid(x, x, indexing="ij")))
    inner, cell = x[PAD:-PAD], np.linspace(0, 1, parts)
    fine = (inner[:-1, np.newaxis] + cell * np.diff(inner)[:, np.newaxis]).ravel()
    values = surface(*np.meshgrid(fine, fine, indexing="ij"))
    least = values.reshape(low.shape[0], parts, low.shape[1], parts).min(axis=(1, 3))
    assert (nodes(low)[1:-1, 1:-1] <= low[:-1, :-1]).all()
    return (low - least).max()


@pytest.mark.parametrize("rng", [np.random.default_rng(n) for n in range(4)], ids=range(4))
def test_a_floor_is_below_the_least_of_smooth_surfaces(rng):
    """Not our machines but any least of convex bowls and saddles, found by brute force."""
    coefficients = rng.uniform(-1, 1, size=(4, 8)) * np.array([1, 2, 2, 9, 9, 1, 1, 4])

    def surface(a, b):
        return 40 + np.minimum.reduce(
            [
                c[0]
                + c[1] * a
                + c[2] * b
                + c[3] * (a - c[5]) ** 2
                + c[4] * (b - c[6]) ** 2
                + c[7] * a * b
                for c in coefficients
            ]
        )

    assert hidden(surface) <= 1e-12


def test_a_floor_is_below_the_greater_of_surfaces():
    """A convex kink at any place and angle; with an eighth, twice over, some would dip below."""
    rng = np.random.default_rng(3)
    deepest = 0.0
    for _ in range(40):
        planes = rng.uniform(-1, 1, size=(3, 3)) * np.array([0.3, 3, 3])

        def surface(a, b, planes=planes):
            return 9 + np.maximum.reduce([c[0] + c[1] * a + c[2] * b for c in planes])

        assert hidden(surface) <= 1e-12
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(cells_module, "DIP", 1 / 4)
            deepest = max(deepest, hidden(surface))
    assert deepest > 0


@pytest.mark.parametrize("bends", [(1.0, 1.0), (1.0, 0.5), (1.0, 0.0)])
def test_no_convex_surface_dips_by_more_than_half_of_its_second_differences(bends):
    """A linear programme over all convex surfaces through 16 samples and one point among them.

    Convex is what has a plane through each of these points that none of them lies below.
    """
    samples = [(i, j) for i in range(-1, 3) for j in range(-1, 3)]
    deepest = 0.0
    for point in [(0.5, 0.5), (0.1, 0.4), (0.4, 0.75), (0.25, 0.25), (0.5, 0.1)]:
        places = np.array([*samples, point], dtype=float)
        n = len(places)
        rows, most = [], []
        for i in range(n):
            for j in range(n):
                row = np.zeros(3 * n)
                row[i] += 1.0
                row[j] -= 1.0
                row[n + 2 * i : n + 2 * i + 2] = places[j] - places[i]
                rows.append(row)
                most.append(0.0)
        for at, place in enumerate(samples):
            for bend, (di, dj) in zip(bends, ((1, 0), (0, 1)), strict=True):
                ends = (place[0] - di, place[1] - dj), (place[0] + di, place[1] + dj)
                if all(end in samples for end in ends):
                    row = np.zeros(3 * n)
                    row[[samples.index(end) for end in ends]] = 1.0
                    row[at] = -2.0
                    rows.append(row)
                    most.append(bend)
        corners = [0 <= i <= 1 and 0 <= j <= 1 for i, j in samples]
        bounds = [(0 if corner else None, None) for corner in corners]
        found = linprog(
            np.eye(3 * n)[n - 1],
            A_ub=np.array(rows),
            b_ub=most,
            bounds=[*bounds, *[(None, None)] * (2 * n + 1)],
        )
        assert found.status == 0
        deepest = min(deepest, found.fun)
    assert deepest == pytest.approx(-DIP * sum(bends), abs=1e-9)


def test_a_floor_of_loads_is_never_below_nothing():
    """Beside a step down to nothing, as at a distance that must be kept."""
    samples = np.where(np.arange(16) < 8, 900.0, 0.0)
    found = floors(samples)
    assert (found >= 0).all()
    assert found[0] == 900.0
    assert found[-1] == 0.0
    assert np.isnan(floors(np.where(np.arange(16) == 8, np.nan, samples))).any()


@pytest.mark.parametrize("name", MACHINES)
def test_a_symmetric_machine_is_alike_left_and_right(name):
    asked = lift(centred(load(name)), reach=None, height=1.0)
    found = limits_back(asked)
    assert found.alike
    assert found.uneven == ()
    np.testing.assert_allclose(found.plan.allowed, found.plan.allowed[:, ::-1], rtol=1e-9)


def test_what_makes_left_and_right_differ_is_said():
    shifted = limits_back(lift("standard-sideshift", reach=None, height=1.0, sideshift=-0.4))
    assert not shifted.alike
    assert "sideshifted 0.40 m to the right" in " ".join(told(shifted.uneven))
    sloping = limits_back(
        lift(
            "compact-centre-mount",
            reach=None,
            height=1.0,
            site=Site(slope=0.05, heading=math.pi / 2),
        )
    )
    assert not sloping.alike
    assert "sideways" in " ".join(told(sloping.uneven))


def test_a_mirrored_request_gives_the_mirrored_map():
    machine = centred(load("standard-sideshift"))
    left, right = (
        limits_back(lift(machine, reach=None, height=1.0, sideshift=shift)).plan.allowed
        for shift in (0.3, -0.3)
    )
    np.testing.assert_allclose(left, right[:, ::-1], rtol=1e-9)


def test_a_cell_without_a_load_has_a_reason_and_one_with_has_none():
    found = limits_back(case(CASES[0]))
    for limits in (found.side, found.plan):
        assert ((limits.governs >= 0) == ~np.isnan(limits.allowed)).all()
        assert ((limits.stopped >= 0) == np.isnan(limits.allowed)).all()


def test_a_reason_is_one_that_check_gives_there():
    asked = case(CASES[0])
    side = limits_back(asked).side
    rng = np.random.default_rng(2)
    rows, columns = np.nonzero(side.stopped >= 0)
    agreed = tried_cells = 0
    for k in rng.integers(rows.size, size=120):
        i, j = rows[k], columns[k]
        at = {
            "reach": float(side.reach[i : i + 2].mean()),
            "height": float(side.other[j : j + 2].mean()),
        }
        try:
            check(replace(asked, **at))
        except InputError as error:
            tried_cells += 1
            agreed += side.reasons[side.stopped[i, j]].stop in str(error)
    assert tried_cells > 60
    # A cell at the border of two reasons names the commoner.
    assert agreed >= 0.9 * tried_cells


def test_a_node_of_a_plan_covers_a_ring_more_on_either_side():
    """Straight sides of drawn cells cut into the next ring, so that must hold the load as well."""
    asked = case(CASES[1])
    lattice = limits_back(asked).plan.lattice
    true = sweep(
        asked,
        reach=lattice.reach,
        height=np.full(lattice.reach.size, asked.height),
        slew=lattice.other,
    ).allowed
    for away in (-2, -1, 0, 1, 2):
        near = np.roll(true, away, axis=0)[2:-2]
        here = lattice.floor[2:-2]
        there = ~np.isnan(here) & ~np.isnan(near)
        assert there.sum() > 1000
        assert (here[there] <= near[there] + 1e-9).all()


def test_a_gap_between_two_nodes_of_a_plan_is_found(monkeypatch):
    """Two millimetres that cannot be reached, anywhere between nodes that can."""
    asked = case(CASES[0])
    line = np.linspace(1.0, 2.0, 81)
    real = samples_module.sweep
    for at in (1.0063, 1.4999, 1.7125, 1.9951):

        def broken(*args, at=at, **words):
            found = real(*args, **words)
            reach = np.asarray(words["reach"])
            bad = np.abs(reach - at) <= 0.001
            allowed = np.where(bad[:, np.newaxis], np.nan, 1.0 + 0 * reach[:, np.newaxis])
            return replace(found, allowed=allowed)

        monkeypatch.setattr(samples_module, "sweep", broken)
        gone = samples_module.gaps(asked, line)
        k = int((at - line[0]) // (line[1] - line[0]))
        assert gone[k]
        assert gone[k + 1]
        assert gone.sum() <= 3
