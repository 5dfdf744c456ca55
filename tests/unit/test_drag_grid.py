"""The travelling grid and what goes to the browser with it."""

from __future__ import annotations

import json
import math
from dataclasses import replace

import numpy as np
import pytest

from liftcalc.evaluation.check import check
from liftcalc.machines.files import load
from liftcalc.maps.drag_grid import ACROSS, DragCurve, DragGrid, drag_grid
from liftcalc.remarks import Remark
from liftcalc.web.hook_widget import WORDS, HookPoint, grid_data, payload, read_point, verdicts
from tests.helpers import MACHINES, lift

FITTINGS = [
    (name, tool.end, tool.name, point.name)
    for name in MACHINES
    for tool in load(name).attachment
    for point in tool.lift_point
]


@pytest.mark.parametrize("name", MACHINES)
def test_a_grid_is_small_whole_and_explains_its_gaps(name):
    for view in ("side", "plan"):
        grid = drag_grid(lift(name), view=view)
        assert isinstance(grid, DragGrid)
        assert max(grid.allowed.shape) <= ACROSS
        none = np.isnan(grid.allowed)
        assert none.any()
        assert not none.all()
        loads = grid.allowed[~none]
        assert (loads == np.floor(loads)).all()
        assert (grid.governs[~none] >= 0).all()
        # Every place that has no load has a reason, in words.
        assert (grid.stopped[none] >= 0).all()
        assert all(each.words for each in grid.reasons)
        centimetres = 100 * grid.reach
        np.testing.assert_allclose(centimetres, np.round(centimetres), atol=1e-6)
        assert np.diff(grid.reach).max() == pytest.approx(np.diff(grid.reach).min())


@pytest.mark.parametrize("name", MACHINES)
def test_the_front_end_has_a_curve_that_its_arms_follow(name):
    base = lift(name, end="front")
    curve = drag_grid(base, view="side")
    assert isinstance(curve, DragCurve)
    for i in np.flatnonzero(~np.isnan(curve.allowed))[::9]:
        for k in (i, i + 1):
            there = check(replace(base, height=float(curve.height[k])))
            assert curve.reach[k] == pytest.approx(there.reached.reach, abs=1e-9)
    seen = drag_grid(base, view="plan")
    np.testing.assert_array_equal(seen.allowed, curve.allowed)


@pytest.mark.parametrize(("name", "end", "tool", "point"), FITTINGS)
def test_everything_for_the_browser_is_plain_and_small(name, end, tool, point):
    base = lift(name, end=end, tool=tool, point=point)
    answer = check(base)
    for view in ("side", "plan"):
        grid = grid_data(base, view)
        sent = payload(base, answer, view=view, system="metric", grid=grid)
        text = json.dumps(sent, allow_nan=False)
        assert len(text) < 200_000
        grid = json.loads(text)["grid"]
        assert (grid is None) == (end == "front" and view == "plan")
        if grid:
            assert len(grid["loads"]) == math.prod(edge["count"] for edge in grid["edges"])
            assert len(grid["loads"]) == len(grid["says"])
            assert max(grid["says"]) < len(grid["criteria"])
            assert min(grid["says"]) >= -1 - len(grid["reasons"])


def test_what_the_browser_looks_up_is_what_the_grid_holds():
    base = lift()
    grid = drag_grid(base, view="side")
    sent = grid_data(base, "side")
    loads = np.array(sent["loads"]).reshape(grid.allowed.shape)
    says = np.array(sent["says"]).reshape(grid.allowed.shape)
    held = ~np.isnan(grid.allowed)
    assert (loads[held] <= grid.allowed[held]).all()
    assert (loads[held] == grid.allowed[held]).all() or (grid.allowed[held] < 0).any()
    np.testing.assert_array_equal(says >= 0, held)
    heaviest = np.array(sent["heaviest"]).reshape(grid.allowed.shape)
    np.testing.assert_array_equal(heaviest[held], np.floor(grid.heaviest_log[held]))
    assert not heaviest[~held].any()
    low = np.array([mark == "1" for mark in sent["low"]]).reshape(grid.allowed.shape)
    np.testing.assert_array_equal(low, grid.on_ground)
    assert low[held].any()
    assert not low[held].all()
    reasons = [sent["reasons"][-2 - each] for each in says[~held]]
    assert reasons == [grid.reasons[each].words for each in grid.stopped[~held]]


@pytest.mark.parametrize("view", ["side", "plan"])
def test_the_hook_is_drawn_where_the_drawing_has_its_lift_point(view):
    """The overlay's place for the hook, against the drawing's own mark."""
    from liftcalc.figures.plan import plan
    from liftcalc.figures.side import side
    from liftcalc.figures.svg import UNIT

    base = lift(slew=0.6, sideshift=0.2)
    answer = check(base)
    frame = payload(base, answer, view=view, system="metric")["frame"]
    out, scale = frame["sign"] * answer.reached.reach * frame["scale"], frame["scale"]
    if view == "side":
        scene = side(answer)
        # The sling hangs from the lift point.
        marked = scene.find("sling", "hook")[0].points[0]
        x, y = frame["x"] + out, frame["y"] - base.height * scale
    else:
        scene = plan(answer)
        marked = scene.find("pin", "lift point")[0].centre
        x = frame["x"] + out * math.cos(base.slew)
        y = frame["y"] + out * math.sin(base.slew)
    assert x == pytest.approx((marked[0] - scene.left) * UNIT / scene.em, abs=1e-6)
    assert y == pytest.approx((scene.top - marked[1]) * UNIT / scene.em, abs=1e-6)


def test_verdicts_are_those_of_an_answer():
    base = lift(log={"species": "european larch", "length": "3 m", "mid": "30 cm"})
    for unchecked in ((), (Remark("unsaid_ground"),)):
        answers = [
            replace(check(replace(base, plate=base.needed * share)), unchecked=unchecked)
            for share in (2.0, 1.02, 0.9)
        ]
        said = [verdicts(answers[0])[face] for face in ("ok", "close", "no")]
        assert [str(each.verdict) for each in answers] == said
    assert verdicts(answers[0])["nothing"].startswith("No: ")


def test_no_word_is_a_promise():
    """While the hook moves nothing is exact: "at least", "within the model's limits", no tick."""
    sent = payload(lift(), check(lift()), view="side", system="metric")
    assert "✓" not in json.dumps(
        [sent["marks"], sent["words"], sent["verdicts"]], ensure_ascii=False
    )
    assert not any(word in " ".join(WORDS.values()).lower() for word in ("safe", "can lift"))


def test_units_are_those_of_the_figures():
    from liftcalc.units import SPACE, show

    for system in ("metric", "imperial"):
        units = payload(lift(), check(lift()), view="side", system=system)["units"]
        for kind, value, rounding in (("mass", 1234.5, "down"), ("length", 3.21, "near")):
            by, unit = units[kind]["by"], units[kind]["unit"]
            number = show(value, kind, system=system, rounding=rounding).removesuffix(SPACE + unit)
            wanted = math.floor(value / by) if kind == "mass" else round(value / by, 2)
            assert float(number.replace(SPACE, "")) == pytest.approx(wanted)


@pytest.mark.parametrize(
    "said",
    [
        None,
        {},
        "reach",
        [1.0],
        {"reach": "3"},
        {"reach": math.nan},
        {"height": math.inf},
        {"slew": True},
        {"other": 1.0},
        {"reach": 1.0, "height": None},
    ],
)
def test_what_is_no_place_is_not_read(said):
    assert read_point(said) is None


def test_a_place_is_read():
    assert read_point({"reach": 3, "slew": -0.5}) == HookPoint(reach=3.0, slew=-0.5)
    assert read_point({"height": 1.25}) == HookPoint(height=1.25)
