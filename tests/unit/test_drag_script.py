"""The arithmetic of the drawing that is dragged, run by node as the browser runs it.

Without node they are skipped, and say so; the journeys in a browser drag the same scripts.
"""

from __future__ import annotations

import json
import math
import shutil
import subprocess
from dataclasses import replace
from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np
import pytest

from liftcalc.errors import InputError
from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift
from liftcalc.figures.plan import plan
from liftcalc.figures.side import side
from liftcalc.figures.svg import UNIT
from liftcalc.maps.drag_grid import View
from liftcalc.units import System, show
from liftcalc.web.hook_widget import grid_data, payload
from tests.helpers import lift

NODE = shutil.which("node")
pytestmark = pytest.mark.skipif(NODE is None, reason="node is not installed: the script is not run")

SCRIPTS = "\n".join(
    files("liftcalc.web").joinpath(name).read_text(encoding="utf-8")
    for name in ("hook_widget_places.js", "hook_widget.js")
)
ASKED = """
import { readFileSync } from "node:fs";
const { data, places, heights, needed } = JSON.parse(readFileSync(0, "utf-8"));
const place = new (data.grid.edges.length > 1 ? Plane : Curve)(data);
const preview = Object.create(Preview.prototype);
Object.assign(preview, data.preview);
const words = Object.create(HookWidget.prototype);
words.data = data;
const one = (at) => {
  const held = place.held(at);
  words.cell = held.cell;
  return {
    ...held, drawn: place.toDrawing(at), back: place.toPlace(place.toDrawing(at)),
    elbow: preview.turns ? preview.elbow(...at) : null,
    live: words.live(), length: words.length(at[0]),
  };
};
console.log(JSON.stringify({
  places: places.map(one),
  reaches: (heights ?? []).map((height) => place.reachAt(height)),
  limits: needed.map((each) => place.limit(each)),
}));
"""


def run(data: dict[str, Any], **asked: Any) -> dict[str, Any]:
    """What the script makes of places on a drawing."""
    asked = {"data": data, "places": [], "needed": [], **asked}
    done = subprocess.run(
        [str(NODE), "--input-type=module", "--eval", SCRIPTS + ASKED],
        input=json.dumps(asked, allow_nan=False),
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert done.returncode == 0, done.stderr
    return dict(json.loads(done.stdout))


@cache
def drawing(
    view: View, end: str = "back", system: System = "metric"
) -> tuple[Lift, dict[str, Any]]:
    """A lift, and what the browser gets of it."""
    # So high that the log hangs clear of the ground, also where the plan does not move it.
    turned = {"slew": 0.5, "sideshift": 0.2, "height": 1.8, "reach": 3.0}
    asked = lift(end=end, **(turned if end == "back" else {"height": 1.5}))
    grid = grid_data(asked, view)
    return asked, payload(asked, check(asked), view=view, system=system, grid=grid)


def there(asked: Lift, view: str, place: list[float]) -> Lift:
    """The lift with its hook at a place of a drawing."""
    if view == "side":
        return replace(asked, reach=place[0], height=place[1])
    return replace(asked, reach=place[0], slew=place[1])


@cache
def drawn_places(view: str) -> tuple[tuple[float, float], ...]:
    """Places all over the grid of a drawing, most of which can be reached."""
    rows, columns = drawing(view)[1]["grid"]["edges"]
    rng = np.random.default_rng(12)
    low, wide = ([each[k] for each in (rows, columns)] for k in ("from", "size"))
    counts = [each["count"] for each in (rows, columns)]
    return tuple(
        (float(a), float(b))
        for a, b in rng.uniform(0.02, 0.98, (60, 2)) * np.multiply(wide, counts) + low
    )


@pytest.mark.parametrize("view", ["side", "plan"])
def test_a_place_is_drawn_where_the_model_has_it(view):
    asked, data = drawing(view)
    scene = (side if view == "side" else plan)(check(asked))
    met = 0
    found = run(data, places=drawn_places(view))["places"]
    for place, each in zip(drawn_places(view), found, strict=True):
        assert each["back"] == pytest.approx(place, abs=1e-9)
        try:
            posed = check(there(asked, view, list(place)))
        except InputError:
            continue
        met += 1
        x, y, z = posed.lift.in_machine(posed.reached.arm.lift_at)
        up = float(z) if view == "side" else float(y)
        # From the side the back end is drawn as if it stood straight back.
        ahead = (
            float(posed.lift.machine.back.slew_axis_x) - place[0] if view == "side" else float(x)
        )
        assert each["drawn"][0] == pytest.approx((ahead - scene.left) * UNIT / scene.em, abs=1e-6)
        assert each["drawn"][1] == pytest.approx((scene.top - up) * UNIT / scene.em, abs=1e-6)
        if view == "side":
            pin = posed.reached.arm.drawn[0].points[1]
            assert each["elbow"] == pytest.approx([float(pin.u), float(pin.w)], abs=1e-6)
    assert met > 15


@pytest.mark.parametrize("view", ["side", "plan"])
def test_the_load_that_is_shown_is_that_of_the_cell_and_never_above_the_model(view):
    asked, data = drawing(view)
    grid = data["grid"]
    rows, columns = (
        each["from"] + each["size"] * np.arange(each["count"] + 1) for each in grid["edges"]
    )
    met = 0
    found = run(data, places=drawn_places(view))["places"]
    for each in found:
        i = np.searchsorted(rows, each["at"][0] + 1e-12) - 1
        j = np.searchsorted(columns, each["at"][1] + 1e-12) - 1
        live = each["live"]
        assert live["kilograms"] == grid["loads"][each["cell"]]
        if each["why"]:  # held where the arm ends: on the edge of a cell that can be reached
            continue
        met += 1
        assert each["cell"] == i * (len(columns) - 1) + j
        exact = check(there(asked, view, each["at"]))
        assert live["kilograms"] <= exact.allowed
        assert live["allowed"] == show(live["kilograms"], "mass", rounding="down")
        if live["face"] != "no":
            assert exact.passes
    assert met > 15


def test_the_front_end_goes_along_its_curve():
    asked, data = drawing("side", "front")
    (edge,) = data["grid"]["edges"]
    heights = np.linspace(edge["from"], edge["from"] + edge["size"] * edge["count"], 25)[3:-3]
    found = run(data, heights=heights.tolist())["reaches"]
    for height, reach in zip(heights, found, strict=True):
        exact = check(replace(asked, height=float(height))).reached.reach
        # Sent to a tenth of a millimetre; a chord lies off its arc by its square over eight radii,
        # which are more than a metre.
        assert reach == pytest.approx(exact, abs=0.5e-4 + edge["size"] ** 2 / 8)


@pytest.mark.parametrize("view", ["side", "plan"])
def test_the_line_for_a_log_goes_round_nothing_that_is_not_allowed(view):
    """All along it, where the arm does not end, the cells on both sides bear the load."""
    _, data = drawing(view)
    grid = data["grid"]
    needed = max(grid["loads"]) / 2
    half, none = run(data, needed=[needed, 2 * needed + 1])["limits"]
    assert none == []
    (from_i, size_i, rows), (from_j, size_j, columns) = (
        (each["from"], each["size"], each["count"]) for each in grid["edges"]
    )
    met = 0
    for spot in (spot for chain in half for spot in chain):
        p, q = place_of(data["frame"], view, spot)
        beside = {
            (math.floor((p - from_i) / size_i + a), math.floor((q - from_j) / size_j + b))
            for a in (-1e-6, 1e-6)
            for b in (-1e-6, 1e-6)
        }
        if not all(0 <= i < rows and 0 <= j < columns for i, j in beside):
            continue
        cells = [i * columns + j for i, j in beside]
        if any(grid["says"][cell] < 0 or grid["low"][cell] == "1" for cell in cells):
            continue
        met += 1
        assert min(grid["loads"][cell] for cell in cells) >= needed
    assert met > 5


def place_of(frame: dict[str, float], view: str, spot: Any) -> list[float]:
    """The place that a spot of a drawing shows, worked out apart from the script."""
    right, up = (spot[0] - frame["x"]) / frame["scale"], (frame["y"] - spot[1]) / frame["scale"]
    return [math.hypot(right, up), math.atan2(up, -right)] if view == "plan" else [-right, up]


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_figures_read_as_those_of_the_page(system):
    _, data = drawing("side", system=system)
    for place, each in zip(
        drawn_places("side"), run(data, places=drawn_places("side"))["places"], strict=True
    ):
        live = each["live"]
        assert live["allowed"] == show(live["kilograms"], "mass", system=system, rounding="down")
        assert each["length"] == show(place[0], "length", system=system)
