"""What the travelling grid says of a place, ``check`` says too, or says more."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import liftcalc.maps.drag_grid as live_module
import liftcalc.maps.samples as samples_module
from liftcalc.errors import PoseError
from liftcalc.evaluation.check import check
from liftcalc.evaluation.sweep import sweep
from liftcalc.machines.files import load
from liftcalc.maps.drag_grid import DragCurve, drag_grid
from liftcalc.site.ground import GROUNDS
from liftcalc.site.hazards import Hazards
from liftcalc.site.motion import Motion
from tests.helpers import MACHINES, lift, like, tried
from tests.property.test_safety import some_lift

Place = tuple[dict[str, float], float, str]


def strong(base):
    """The lift with a lift point that never governs, so that what varies from place to place does.

    A rated lift point caps most of a map at one number, and a flat map hides every mistake.
    """
    most = like(base.machine.weights.total, 1e5)
    return replace(base, point=base.point.model_copy(update={"wll": most}), plate=None)


def told_more(seed: int):
    """Any lift, half of them with ground, motion and people told as well, and strong rams."""
    base, rng = some_lift(seed), np.random.default_rng(seed)
    if rng.integers(2):
        return base
    motion = {"friction": rng.choice([None, 0.4])}
    if base.end == "back":
        motion |= {"slew_speed": 0.3, "slew_stop": 1.0}
    if base.travelling:
        motion |= {"speed": 1.0, "turn_radius": 9.0, "braking": 1.0}
    oil = base.machine.hydraulics
    oil = oil.model_copy(
        update={"working_pressure": like(oil.working_pressure, 5 * oil.working_pressure)}
    )
    return replace(
        base,
        machine=base.machine.model_copy(update={"hydraulics": oil}),
        ground=GROUNDS[rng.integers(len(GROUNDS))],
        mat=rng.choice([None, 0.6]),
        motion=Motion(**motion),
        hazards=Hazards(people_distance=rng.uniform(3, 12)),
    )


def places(grid, rng: np.random.Generator, count: int) -> Iterator[Place]:
    """Random places in cells that have a load, with that load and what would stop it first.

    Half of them lie on edges and corners of cells, where it is nearest to the truth.
    """
    cells = np.argwhere(~np.isnan(grid.allowed))
    for at in cells[rng.integers(len(cells), size=count)]:
        share = np.where(rng.random(2) < 0.5, rng.integers(2, size=2), rng.random(2))
        edges = (grid.height,) if isinstance(grid, DragCurve) else (grid.reach, grid.other)
        spot = [
            float(e[i] + s * (e[i + 1] - e[i])) for e, i, s in zip(edges, at, share, strict=False)
        ]
        if isinstance(grid, DragCurve):
            names = ("height",)
        else:
            names = ("reach", "height" if grid.view == "side" else "slew")
        cell = tuple(at)
        governs = grid.criteria[grid.governs[cell]]
        yield dict(zip(names, spot, strict=True)), float(grid.allowed[cell]), governs


@given(st.integers(0, 10_000), st.sampled_from(["side", "plan"]), st.booleans(), st.booleans())
def test_no_place_is_promised_more_than_the_check_allows(seed, view, rated, loads_only):
    base = replace(told_more(seed), loads_only=loads_only)
    base = base if rated else strong(base)
    grid = tried(lambda: drag_grid(base, view=view))
    assume(grid is not None)
    assume(not np.isnan(grid.allowed).all())
    for spot, load_there, _ in places(grid, np.random.default_rng(seed), 25):
        # Were the place one that cannot be taken, this would raise.
        assert (
            load_there
            <= check(
                replace(base, **{"reach": None, **spot} if base.end == "front" else spot)
            ).allowed
        )


def cell(grid, *, reach, other):
    """Row and column of the cells that hold places, and which places any cell holds."""
    rows, columns = (
        np.searchsorted(edge, at, side="right") - 1
        for edge, at in ((grid.reach, reach), (grid.other, other))
    )
    n, m = grid.allowed.shape
    held = (rows >= 0) & (rows < n) & (columns >= 0) & (columns < m)
    return np.clip(rows, 0, n - 1), np.clip(columns, 0, m - 1), held


@pytest.mark.parametrize("view", ["side", "plan"])
@pytest.mark.parametrize("end", ["back", "front"])
@pytest.mark.parametrize("name", MACHINES)
def test_little_is_given_away(name, end, view):
    """Safe is not enough: a grid of zeros would pass the test above."""
    base = strong(lift(load(name), end=end))
    grid = drag_grid(base, view=view)
    short, lost = [], []
    for spot, load_there, governs in places(grid, np.random.default_rng(1), 150):
        answer = check(replace(base, **spot))
        short.append(1 - load_there / answer.allowed)
        lost.append(governs not in {c.title for c in answer.criteria} | set(grid.criteria))
    assert np.median(short) < 0.05
    assert max(short) < 0.25
    assert not any(lost)


@pytest.mark.parametrize("name", MACHINES)
def test_most_places_that_can_be_reached_have_a_load(name):
    base = lift(load(name))
    grid = drag_grid(base, view="side")
    rng = np.random.default_rng(2)
    out = rng.uniform(grid.reach[0], grid.reach[-1], 20_000)
    up = rng.uniform(grid.other[0], grid.other[-1], 20_000)
    taken = ~np.isnan(sweep(base, reach=out, height=up, slew=base.slew).allowed[:, 0])
    rows, columns, held = cell(grid, reach=out, other=up)
    assert held.all()
    assert np.isnan(grid.allowed[rows, columns])[taken].mean() < 0.2
    # And none that cannot be reached has one.
    assert np.isnan(grid.allowed[rows, columns])[~taken].all()


@given(st.integers(0, 10_000))
def test_no_place_that_can_be_reached_lies_outside_of_the_grid(seed):
    """The window is sought roughly; what it leaves out must not be much."""
    base = some_lift(seed, end="back")
    grid = tried(lambda: drag_grid(base, view="side"))
    assume(grid is not None)
    rng = np.random.default_rng(seed)
    out, up = rng.uniform(0, 8, 4000), rng.uniform(-1, 8, 4000)
    taken = ~np.isnan(sweep(base, reach=out, height=up, slew=base.slew).allowed[:, 0])
    *_, held = cell(grid, reach=out, other=up)
    assert held[taken].mean() > 0.99 if taken.any() else True


@pytest.mark.parametrize("at", [2.5013, 2.7499, 3.0125])
def test_a_gap_shorter_than_the_spacing_has_no_load_in_plan(monkeypatch, at):
    """Two millimetres that cannot be reached, between nodes that can."""
    real = live_module.sweep

    def broken(*args, **words):
        found = real(*args, **words)
        bad = np.abs(found.reach - at) <= 0.001
        return replace(found, allowed=np.where(bad[:, np.newaxis], np.nan, found.allowed))

    base = lift(height=1.0)
    grid = drag_grid(base, view="plan")
    row, _, held = cell(grid, reach=np.array([at]), other=np.array([0.0]))
    assert held[0]
    assert not np.isnan(grid.allowed[row[0]]).any()
    for module in (live_module, samples_module):
        monkeypatch.setattr(module, "sweep", broken)
    assert np.isnan(drag_grid(base, view="plan").allowed[row[0]]).all()


def test_past_the_slew_limit_is_refused_as_the_check_refuses_it():
    beyond = lift(slew=math.radians(170))
    for made in (lambda: check(beyond), lambda: drag_grid(beyond, view="side")):
        with pytest.raises(PoseError, match="slew"):
            made()
