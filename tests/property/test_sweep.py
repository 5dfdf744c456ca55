"""Maps of poses: each pose as it would be alone, no matter in what company it is asked for."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from liftcalc.errors import PoseError
from liftcalc.evaluation import sweep as sweeping
from liftcalc.evaluation.check import check
from liftcalc.evaluation.evaluator import _lowest
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.sweep import Sweep, sweep
from liftcalc.machines.files import load
from liftcalc.machines.schema import Machine, Plate
from liftcalc.rigging.sling import Sling
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from tests.helpers import MACHINES, altered, centred, lift, like, span, unrated

LONG = Sling(length=4.0)
"""Long enough for any log: what a sling is too short for is not a matter of the pose."""
GRIPPY = Motion(friction=1.2)
"""So that nothing slides before it tips."""
STANCES = ("wheels", "stabilisers", "stabilisers and bucket")
POSES = 24


def charted(machine: Machine, end: str) -> Machine:
    """The machine with a chart of two rows and a plate for any reach."""
    number, size = machine.weights.total, span(machine)
    with_it = getattr(machine.fitted, end)
    rows = [(0.5 * size, 1300.0, None), (0.75 * size, 650.0, with_it), (None, 1800.0, None)]
    plates = tuple(
        Plate(
            end=end,
            load=like(number, kg),
            rated_with=fitted,
            **({} if out is None else {"reach": like(number, out)}),
        )
        for out, kg, fitted in rows
    )
    return machine.model_copy(update={"plate": plates})


def some_request(machine: Machine, end: str, tool: Any, point: Any, seed: int) -> Lift:
    """A lift with everything that bears on it drawn at random."""
    rng = np.random.default_rng(seed)
    request: dict[str, Any] = {
        "site": Site(
            slope=rng.choice([0.0, rng.uniform(0, 0.15)]),
            heading=rng.uniform(-math.pi, math.pi),
            acceleration_forward=rng.choice([0.0, -0.5]),
        ),
        "swing": rng.choice([0.0, 0.12]),
        "gauge": rng.choice([None, 1.4e7]),
        "plate": rng.choice([None, 800.0]),
        "operator": bool(rng.integers(2)),
        "off_centre": rng.choice([None, 0.1]),
        "sling": LONG,
    }
    if end == "back":
        # Now and then beyond the end of the sideshift.
        request |= {
            "sideshift": rng.uniform(-1.1, 1.1) * machine.back.sideshift_limit,
            "stance": STANCES[rng.integers(3)],
            "curl": rng.uniform(0, 1),
            "other": "wide front shovel",
        }
    else:
        request |= {"tilt": rng.uniform(-0.2, 0.4), "travelling": bool(rng.integers(2))}
    known = charted(machine, end) if rng.integers(2) else machine
    return lift(known, end=end, tool=tool.name, point=point.name, **request)


def poses(asked: Lift, seed: int) -> tuple[Any, Any, Any]:
    """Places and slews in and round the envelope; some beyond the slew's own stop."""
    rng = np.random.default_rng(seed)
    size = span(asked.machine)
    return (
        rng.uniform(0.1, 1.1, POSES) * size,
        rng.uniform(-0.4, 0.9, POSES) * size,
        np.array([-1.2, -0.6, 0.0, 0.9]) * float(asked.machine.back.slew_limit),
    )


def other_side(name: str) -> str:
    swapped = name.replace("left", "RIGHT").replace("right", "left")
    return swapped.replace("RIGHT", "right")


def alone(asked: Lift, found: Sweep, i: int, j: int) -> None:
    """One pose of a sweep is what ``check`` says of it, or is stopped by what stops it there."""
    at: dict[str, float] = {"height": float(found.height[i])}
    if asked.end == "back":
        at |= {"reach": float(found.reach[i]), "slew": float(found.slew[j])}
    allowed, governs, stopped = found.allowed[i, j], found.governs[i, j], found.stopped[i, j]
    if math.isnan(allowed):
        assert governs == -1
        with pytest.raises(PoseError) as refused:
            check(replace(asked, **at))
        assert refused.value.faults[0].field.endswith(f", {found.stops[stopped]}")
        return
    answer = check(replace(asked, **at))
    assert stopped == -1
    assert allowed == pytest.approx(answer.allowed, rel=1e-9, abs=1e-9)
    least, *others = sorted(each.allowed for each in answer.criteria)
    if others[0] > least * (1 + 1e-9):
        # A plate is one criterion of a sweep, whichever of its rows it is.
        governing = min(answer.criteria, key=lambda each: each.allowed)
        wanted = "plate" if governing.name == "plate" else governing.title
        # A carried log may lie to either side, so left and right may tie.
        either = {wanted, other_side(wanted)} if asked.side_room else {wanted}
        assert found.criteria[governs] in either


@pytest.mark.parametrize("end", ["back", "front"])
@pytest.mark.parametrize("name", MACHINES)
def test_every_pose_is_what_it_is_alone(name: str, end: str) -> None:
    """Every attachment and lift point of every shipped machine."""
    machine = load(name)
    reached = stopped = 0
    seed = 10 * MACHINES.index(name)
    for tool in (each for each in machine.attachment if each.end == end):
        for point in tool.lift_point:
            seed += 1
            asked = some_request(machine, end, tool, point, seed)
            reach, height, slew = poses(asked, seed)
            found = sweep(asked, reach=reach, height=height, slew=slew)
            for i in range(POSES):
                for j in range(found.slew.size):
                    alone(asked, found, i, j)
            reached += int((found.stopped < 0).sum())
            stopped += int((found.stopped >= 0).sum())
    # Of either kind enough, or little would be proved.
    assert reached >= 20
    assert stopped >= 20


@pytest.mark.parametrize("tool", ["digging bucket", "lifting hook", "log grab with rotator"])
@pytest.mark.parametrize("slope", [0.0, 0.1])
def test_where_each_stop_stops(tool: str, slope: float) -> None:
    """Poses chosen so that every stop of the back end is the first one somewhere."""
    asked = lift(tool=tool, sling=LONG, site=Site(slope=slope, heading=0.4))
    size, limit = span(asked.machine), float(asked.machine.back.slew_limit)
    reach, height = (
        each.ravel() for each in np.meshgrid(np.linspace(0, 1.3, 16), np.linspace(-0.8, 1.2, 16))
    )
    slew = np.array([-1.01 * limit, 0.3])
    found = sweep(asked, reach=reach * size, height=height * size, slew=slew)
    seen = {found.stops[number] for number in np.unique(found.stopped) if number >= 0}
    assert seen >= {
        "slew",
        "reach of boom and dipper",
        "stroke of the boom ram",
        "stroke of the dipper ram",
    }
    for number in np.unique(found.stopped):
        some = np.argwhere(found.stopped == number)
        for i, j in some[:: max(1, len(some) // 6)]:
            alone(asked, found, int(i), int(j))


@pytest.mark.parametrize("name", MACHINES)
@pytest.mark.parametrize("tool", ["digging bucket", "log grab with rotator"])
def test_where_tipping_decides(name: str, tool: str) -> None:
    """Strong rams, axles and eye, good grip, a load that swings, on wheels and across a slope."""
    strong = unrated(altered(load(name), hydraulics__working_pressure=4.9e7))
    asked = lift(
        strong,
        tool=tool,
        stance="wheels",
        swing=0.25,
        sling=LONG,
        motion=GRIPPY,
        site=Site(slope=0.08, heading=1.2),
    )
    rated = like(strong.weights.total, 2 * float(asked.point.wll))
    asked = replace(asked, point=asked.point.model_copy(update={"wll": rated}))
    size, limit = span(strong), float(strong.back.slew_limit)
    rng = np.random.default_rng(4)
    found = sweep(
        asked,
        reach=size * rng.uniform(0.5, 0.9, 12),
        height=size * rng.uniform(0, 0.4, 12),
        slew=limit * np.linspace(-1, 1, 5),
    )
    for i in range(12):
        for j in range(5):
            alone(asked, found, i, j)
    governing = found.governs[found.governs >= 0]
    tipping = [found.criteria[number].startswith("tipping ") for number in governing]
    assert np.mean(tipping) > 0.3
    assert len(set(governing)) > 1


@pytest.mark.parametrize("swing", [0.0, 0.2])
def test_a_machine_that_cannot_stand_holds_nothing(swing: float) -> None:
    """On wheels across a bank it falls over empty, but not wherever the boom is."""
    asked = lift(
        unrated(load("standard-sideshift")),
        stance="wheels",
        swing=swing,
        motion=GRIPPY,
        site=Site(slope=0.48, heading=math.pi / 2),
    )
    reach, height, _ = poses(asked, 11)
    found = sweep(asked, reach=reach, height=height, slew=np.linspace(-1.2, 1.2, 5))
    for i in range(POSES):
        for j in range(5):
            alone(asked, found, i, j)
    assert (found.allowed == 0).any()
    assert (found.allowed > 0).any()


def test_bounds_over_a_tile_are_bounds() -> None:
    """No criterion is left out of a tile for a number that is met nowhere in it."""
    rng = np.random.default_rng(2)
    for _ in range(50):
        out, u = rng.normal(size=(7, 1)), rng.uniform(-3, 6, 30)
        for fixed in (rng.normal(), rng.normal(size=30)):
            lowest = (out * u + fixed).min()
            assert _lowest(out, u, fixed) <= lowest
            if np.ndim(fixed) == 0:
                np.testing.assert_allclose(_lowest(out, u, fixed), lowest, rtol=1e-13)


@pytest.mark.parametrize("end", ["back", "front"])
@pytest.mark.parametrize("swing", [0.0, 0.1])
@pytest.mark.parametrize("slope", [0.0, 0.12])
def test_company_does_not_matter(
    end: str, swing: float, slope: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Tiles of any size, and each slew by itself."""
    asked = lift(end=end, swing=swing, site=Site(slope=slope, heading=0.8))
    reach, height, slew = poses(asked, 3)
    slew = np.linspace(-1, 1, 7)

    def swept(turns: Any = slew) -> Sweep:
        return sweep(asked, reach=reach, height=height, slew=turns)

    whole = swept()
    for block in (1, 2, 5, 13, 64):
        monkeypatch.setattr(sweeping, "BLOCK", block)
        monkeypatch.setattr(sweeping, "TILE", block)
        same(swept(), whole)
    monkeypatch.undo()
    if end == "back":
        columns = [swept(np.array([turn])) for turn in slew]
        for part in ("allowed", "governs", "stopped"):
            together = np.concatenate([getattr(each, part) for each in columns], axis=1)
            np.testing.assert_allclose(together, getattr(whole, part), rtol=1e-13)


def same(one: Sweep, other: Sweep) -> None:
    np.testing.assert_allclose(one.allowed, other.allowed, rtol=1e-13)
    np.testing.assert_array_equal(one.governs, other.governs)
    np.testing.assert_array_equal(one.stopped, other.stopped)
    np.testing.assert_allclose(one.reach, other.reach, rtol=1e-13)
    assert (one.criteria, one.stops) == (other.criteria, other.stops)


@pytest.mark.parametrize("name", MACHINES)
@pytest.mark.parametrize("stance", STANCES)
def test_left_and_right_are_alike_on_a_machine_that_is(name: str, stance: str) -> None:
    """Slewed to either side, across a slope of either side, the same; sides named the other way."""
    machine = centred(load(name))
    slew = np.linspace(-1, 1, 9) * float(machine.back.slew_limit)

    def swept(sign: float, sideshift: float = 0.0) -> Sweep:
        site = Site(slope=0.06, heading=sign * 1.1, acceleration_left=sign * 0.2)
        asked = lift(
            machine, stance=stance, site=site, sideshift=sign * sideshift, other="wide front shovel"
        )
        reach, height, _ = poses(asked, 5)
        return sweep(asked, reach=reach, height=height, slew=slew)

    shift = 0.8 * max(0.0, float(machine.back.sideshift_limit))
    for sideshift in {0.0, shift}:
        here, there = swept(1.0, sideshift), swept(-1.0, sideshift)
        np.testing.assert_allclose(here.allowed, there.allowed[:, ::-1], rtol=1e-9)
        assert np.isfinite(here.allowed).any()
        for one, two in zip(here.governs.ravel(), there.governs[:, ::-1].ravel(), strict=True):
            if one >= 0 and here.criteria[one].startswith("tipping "):
                assert there.criteria[two] == other_side(here.criteria[one])


def test_sideshifted_they_are_not() -> None:
    """With the post to the left, slewing left allows less wherever a side line governs."""
    machine = centred(load("standard-sideshift"))
    shift = float(machine.back.sideshift_limit)
    assert shift > 0.2
    slew = np.array([-1.2, 1.2])
    found = {}
    for sideshift in (0.0, shift):
        asked = lift(machine, sideshift=sideshift)
        reach, height, _ = poses(asked, 6)
        found[sideshift] = sweep(asked, reach=reach, height=height, slew=slew)
    right, left = found[shift].allowed.T
    ok = np.isfinite(left)
    assert np.all(left[ok] <= right[ok] * (1 + 1e-12))
    assert np.any(left[ok] < 0.8 * right[ok])
    np.testing.assert_allclose(*found[0.0].allowed.T, rtol=1e-12)


@pytest.mark.parametrize("end", ["back", "front"])
def test_what_is_not_a_number_never_becomes_one(end: str) -> None:
    asked = lift(end=end)
    size = span(asked.machine)
    reach, height = np.array([0.6, 0.6, np.nan, 0.6]) * size, np.array([0.25, np.nan, 0.25, 0.3])
    height[[0, 2, 3]] *= size
    found = sweep(asked, reach=reach, height=height, slew=np.array([0.0, np.nan]))
    lost = np.isnan(height) | (np.isnan(reach) if end == "back" else False)
    gone = lost[:, np.newaxis] | (np.isnan(found.slew) if end == "back" else False)
    np.testing.assert_array_equal(
        np.isnan(found.allowed), np.broadcast_to(gone, (4, found.slew.size))
    )
    np.testing.assert_array_equal(found.stopped >= 0, np.isnan(found.allowed))
    np.testing.assert_array_equal(found.governs >= 0, ~np.isnan(found.allowed))
    for unknown in ({"gauge": math.nan}, {"plate": math.nan}):
        dim = sweep(replace(asked, **unknown), reach=reach, height=height, slew=0.0)
        assert np.isnan(dim.allowed).all()
        assert (dim.governs == -1).all()


WORSE: dict[str, tuple[dict[str, Any], dict[str, Any]]] = {
    "less pressure": ({"gauge": 1.9e7}, {"gauge": 1.5e7}),
    "a lower plate": ({"plate": 900.0}, {"plate": 500.0}),
    "a plate at all": ({}, {"plate": 700.0}),
    "swing": ({"swing": 0.0}, {"swing": 0.1}),
    "more swing": ({"swing": 0.1}, {"swing": 0.35}),
}
WORSE_CARRIED: dict[str, tuple[dict[str, Any], dict[str, Any]]] = {
    "less pressure": ({}, {"gauge": 1.5e7}),
    "off its balance": ({"off_centre": 0.0}, {"off_centre": 0.4}),
    "a plate": ({}, {"plate": 900.0}),
}


def no_higher(better: Lift, worse: Lift) -> None:
    reach, height, slew = poses(better, 8)
    before, after = (sweep(each, reach=reach, height=height, slew=slew) for each in (better, worse))
    np.testing.assert_array_equal(np.isnan(before.allowed), np.isnan(after.allowed))
    ok = np.isfinite(before.allowed)
    assert np.all(after.allowed[ok] <= before.allowed[ok] * (1 + 1e-12))
    assert np.any(after.allowed[ok] < before.allowed[ok])


@pytest.mark.parametrize("what", WORSE)
@pytest.mark.parametrize("tool", ["digging bucket", "log grab with rotator"])
def test_a_worse_request_raises_no_pose_of_a_map(what: str, tool: str) -> None:
    better, worse = WORSE[what]
    site = Site(slope=0.05, heading=1.3)
    no_higher(lift(tool=tool, site=site, **better), lift(tool=tool, site=site, **worse))


@pytest.mark.parametrize("what", WORSE_CARRIED)
def test_nor_when_the_log_is_carried(what: str) -> None:
    better, worse = WORSE_CARRIED[what]
    # Grip, axles and forks as good as can be, or they would govern at every place.
    machine, site = unrated(load("standard-sideshift")), Site(slope=0.05, heading=1.3)
    asked = lift(
        machine, end="front", tool="pallet forks", site=site, travelling=True, motion=GRIPPY
    )
    strong = like(machine.weights.total, 3 * float(asked.point.wll))
    asked = replace(asked, point=asked.point.model_copy(update={"wll": strong}))
    no_higher(replace(asked, **better), replace(asked, **worse))


def test_a_thicker_log_on_the_forks_raises_no_pose_of_a_map() -> None:
    thin = lift(end="front", tool="pallet forks")
    log = replace(thin.log, largest_diameter=2.6 * thin.log.largest_diameter)
    no_higher(thin, replace(thin, log=log))
