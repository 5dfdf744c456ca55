"""Figures of limits: inside the truth, to scale, with units and the caution, in three formats."""

from __future__ import annotations

import math
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import pairwise

import matplotlib
import numpy as np
import pytest
from matplotlib.contour import ContourSet
from matplotlib.figure import Figure
from matplotlib.patches import PathPatch
from matplotlib.text import Text

from liftcalc.errors import InputError
from liftcalc.evaluation.check import check
from liftcalc.evaluation.warnings import unchecked
from liftcalc.factors import CAUTION
from liftcalc.figures.contours import Field, draw_bands, region
from liftcalc.figures.curves import curves
from liftcalc.figures.limit_maps import limit_maps
from liftcalc.figures.saving import picture
from liftcalc.figures.sheet import BANDS, levels
from liftcalc.figures.text import notes
from liftcalc.figures.waterfall import waterfall
from liftcalc.machines.assembly import back_point
from liftcalc.maps.limits import ON_GROUND, limits_back, limits_front
from liftcalc.physics.plane import Point
from liftcalc.reports.map_words import map_heading
from liftcalc.reports.words import texts
from liftcalc.requests.limits import Steps
from liftcalc.rigging.gear import Gear
from liftcalc.rigging.lift_mode import LiftMode
from liftcalc.site.ground import ground
from liftcalc.site.hazards import Hazards
from liftcalc.units import POUND
from tests.helpers import lift

ASKED = {"tool": "lifting hook", "height": 1.4, "slew": 1.1, "sideshift": 0.3}


@pytest.fixture(scope="module")
def back():
    return limits_back(lift("standard-sideshift", reach=None, **ASKED))


@pytest.fixture(scope="module")
def front():
    return tuple(
        limits_front(
            lift(
                "standard-sideshift",
                end="front",
                tool=tool,
                height=1.0,
                stance="wheels",
                plate=plate,
            )
        )
        for tool, plate in (("pallet forks", None), ("front lifting hook", 1500.0))
    )


def figures(back, front, system):
    answer = check(back.lift)
    return {
        "side": limit_maps(back, answer, view="side", system=system),
        "plan": limit_maps(back, answer, view="plan", system=system),
        "both": limit_maps(back, answer, system=system),
        "curve": curves(front, system=system),
        "one curve": curves(front[:1], system=system),
        "steps": waterfall(answer, system=system),
        "steps of the front": waterfall(check(front[0].lift), system=system),
    }


def words(figure: Figure) -> str:
    texts = [each.get_text() for each in figure.findobj(Text) if each.get_visible()]
    return " ".join(" ".join(texts).replace("\u00a0", " ").split())


@pytest.mark.parametrize(
    ("system", "mass", "length"), [("metric", "kg", "m"), ("imperial", "lb", "ft")]
)
def test_every_figure_has_caution_title_machine_and_units(back, front, system, mass, length):
    for name, figure in figures(back, front, system).items():
        said = words(figure)
        assert CAUTION in said, name
        assert "Standard loader-backhoe with sideshift" in said
        assert f" {mass}" in said or f"[{mass}]" in said
        assert "steps" in name or f"[{length}]" in said
        other = "lb" if mass == "kg" else "kg"
        assert f" {other} " not in f"{said} "
        assert f"[{other}]" not in said


def test_what_governs_stands_in_words_and_not_only_in_a_tone(back, front):
    made = figures(back, front, "metric")
    for name, limits in (("side", back.side), ("plan", back.plan)):
        there = {limits.criteria[k] for k in np.unique(limits.lattice.governs) if k >= 0}
        assert len(there) >= 2
        assert all(each in words(made[name]) for each in there)
    governs = {each.criteria[k] for each in front for k in np.unique(each.fine_governs) if k >= 0}
    assert all(each.split(" (")[0] in words(made["curve"]) for each in governs)


def test_side_and_plan_are_to_one_scale(back):
    answer = check(back.lift)
    figure = limit_maps(back, answer)
    figure.draw_without_rendering()
    assert len(figure.axes) == 2
    for axes in figure.axes:
        one = axes.transData.transform([(0, 0), (1, 0), (0, 1)])
        assert one[1][0] - one[0][0] == pytest.approx(one[2][1] - one[0][1], rel=1e-6)


@pytest.mark.parametrize("view", ["side", "plan"])
def test_points_inside_drawn_contours_are_allowed_what_they_say(back, view):
    """Matplotlib's own polygons, in the drawing's own places, against check pose by pose."""
    limits, asked = getattr(back, view), back.lift
    axis, shift = float(asked.machine.back.slew_axis_x), float(asked.sideshift)
    first, second = np.meshgrid(limits.lattice.reach, limits.lattice.other, indexing="ij")
    if view == "side":
        x, y = axis - first, second
    else:
        x, y, _ = back_point(asked.machine, Point(first, 0.0), slew=second, sideshift=shift)
    field = Field(limits=limits, x=np.asarray(x), y=np.asarray(y))
    axes = Figure().add_subplot()
    rng = np.random.default_rng(19)
    need = asked.needed
    low, high = float(field.floor.min()), float(field.floor.max())
    checked = 0
    for level in (low, need, *np.linspace(low, high, 5)[1:-1]):
        outline = region(axes, field, level)
        box = outline.get_extents()
        spots = rng.uniform((box.x0, box.y0), (box.x1, box.y1), size=(6000, 2))
        # Also many close to the edge, where an interpolation would err.
        edge = outline.vertices[rng.integers(len(outline.vertices), size=4000)]
        spots = np.concatenate((spots, edge + rng.normal(0, 0.004, size=edge.shape)))
        inside = spots[outline.contains_points(spots)]
        rng.shuffle(inside)
        for px, py in inside[:350]:
            if view == "side":
                pose = {"reach": axis - px, "height": py}
            else:
                pose = {
                    "reach": math.hypot(axis - px, py - shift),
                    "slew": math.atan2(py - shift, axis - px),
                }
            pose = {name: float(value) for name, value in pose.items()}
            answer = check(replace(asked, **pose))
            assert answer.allowed >= level - 1e-6
            assert answer.lowest >= -1e-9
            checked += 1
    assert checked > 1200


def test_outside_the_reach_nothing_is_drawn(back):
    field = Field(
        limits=back.side,
        **dict(
            zip(
                "xy",
                np.meshgrid(back.side.lattice.reach, back.side.lattice.other, indexing="ij"),
                strict=True,
            )
        ),
    )
    outline = region(Figure().add_subplot(), field, float(field.floor.min()))
    rng = np.random.default_rng(1)
    seen = 0
    for reach, height in rng.uniform((0, -1), (5, 4.5), size=(400, 2)):
        try:
            check(replace(back.lift, reach=float(reach), height=float(height)))
        except InputError:
            seen += 1
            assert not outline.contains_point((reach, height))
    assert seen > 50


def test_a_sheet_tells_the_share_of_every_map_on_it(back):
    answer = check(back.lift)
    for view in ("", "side", "plan"):
        said = words(limit_maps(back, answer, view=view))
        for limits in back.maps:
            here = map_heading(limits, "metric").replace("\u00a0", " ") in said
            assert here == (view in ("", limits.view))


def test_a_sheet_says_of_nothing_that_counts_that_it_was_not_checked(back):
    """Once a map that the ground under a pad governs said that ground was not checked."""
    told = {
        "ground": ground("firm clay"),
        "mat": 0.5,
        "gear": Gear(kind="chain grade 80", size=0.01),
        "hazards": Hazards(rules="uk", wires_distance=math.inf, people_distance=9.0),
    }
    for change in ({}, told):
        asked = replace(back.lift, **change)
        found = limits_back(asked, steps=Steps(reach=0.4, height=0.4))
        note = next(n for n in notes(*found.maps, system="metric") if n.startswith("Not said"))
        assert all(each in note for each in texts(unchecked(asked), "metric"))
        assert ("what ground the machine stands on" in note) == (asked.ground is None)
        assert ("nearest person" in note) == (asked.hazards.people_distance is None)
        said = words(limit_maps(found, check(found.lift)))
        assert " ".join(note.replace("\u00a0", " ").split()) in said
        assert "under pads and tyres" not in said
        governs = {found.plan.criteria[k] for k in np.unique(found.plan.governs) if k >= 0}
        assert any(each.startswith("ground under") for each in governs) == bool(change)


def test_one_load_has_one_tone_on_a_sheet(back):
    """Two maps of different spans beside each other are painted by one table."""
    span = 200.0, 2000.0
    tones = []
    for limits in back.maps:
        x, y = np.meshgrid(limits.lattice.reach, limits.lattice.other, indexing="ij")
        axes = Figure().add_subplot()
        draw_bands(axes, Field(limits=limits, x=x, y=y), "metric", span=span)
        bands = next(each for each in axes.collections if isinstance(each, ContourSet))
        tones.append((list(bands.levels), bands.get_facecolors().tolist()))
    assert tones[0] == tones[1]


def test_the_log_on_the_ground_is_a_state_of_its_own_in_words_and_dots():
    low = lift("standard-sideshift", reach=None, tool="lifting hook", height=1.0)
    logged = limits_back(low)
    assert logged.plan.on_ground[logged.plan.reached].all()
    answer = check(logged.lift)
    for view in ("side", "plan"):
        assert words(limit_maps(logged, answer, view=view)).count(ON_GROUND) >= 3
    bare = limits_back(low, for_log=False)
    said = words(limit_maps(bare, answer))
    assert ON_GROUND not in said
    assert "Dotted" not in said
    assert not any(each.get_hatch() for each in limit_maps(bare, answer).findobj(PathPatch))


def test_the_line_of_a_log_on_a_curve_ends_at_the_ground(front):
    hook = front[1]
    assert hook.on_ground.any()
    assert not hook.on_ground.all()
    axes = curves((hook,)).axes[0]
    need = hook.lift.needed
    (dashed,) = [each for each in axes.lines if set(each.get_xdata()) == {need}]
    lowest = check(replace(hook.lift, height=float(min(dashed.get_ydata())))).lowest
    assert 0 <= lowest < 0.02
    curve = max(axes.lines, key=lambda each: len(each.get_xdata()))
    drawn = ~np.isnan(np.asarray(curve.get_xdata(), dtype=float))
    assert np.asarray(curve.get_ydata())[drawn].min() == pytest.approx(min(dashed.get_ydata()))
    assert ON_GROUND in words(curves((hook,)))


@pytest.mark.parametrize("kind", ["svg", "png", "pdf"])
def test_a_picture_is_whole_and_the_same_every_time(back, kind):
    answer = check(back.lift)
    one, two = (picture(waterfall(answer), kind) for _ in range(2))
    assert one == two
    assert one.startswith({"svg": b"<?xml", "png": b"\x89PNG", "pdf": b"%PDF"}[kind])
    if kind == "svg":
        texts = [each.text or "" for each in ET.fromstring(one).iter() if each.text]
        assert "Nobody under" in " ".join(texts)


def test_tones_keep_their_order_in_a_grey_print():
    def grey(shade: str) -> float:
        red, green, blue = (int(shade[k : k + 2], 16) for k in (1, 3, 5))
        return 0.299 * red + 0.587 * green + 0.114 * blue

    greys = [grey(each) for each in BANDS]
    assert all(one - two > 6 for one, two in pairwise(greys))
    assert greys[-1] > 150, "words in ink must stand out on the darkest"


def test_levels_are_round_in_the_units_shown_and_below_the_ceiling():
    assert list(levels(310.0, 1500.0, "metric")) == [400, 600, 800, 1000, 1200, 1400]
    pounds = levels(310.0, 1500.0, "imperial") / POUND
    np.testing.assert_allclose(pounds % 500, 0, atol=1e-6)
    assert (levels(310.0, 1500.0, "imperial") < 1500).all()


def test_steps_add_up_to_what_is_left(back):
    answer = check(back.lift)
    said = words(waterfall(answer))
    allowed = math.floor(answer.allowed)
    assert f"{allowed:,}".replace(",", " ") + " kg" in said
    assert f"{math.floor(answer.heaviest_log):,}".replace(",", " ") + " kg" in said
    assert answer.governing.title in said
    assert "stops it first" in said


def test_steps_survive_criteria_that_no_load_decides(back):
    near = Hazards(rules="uk", wires_distance=3.0)
    made = check(replace(back.lift, hazards=near))
    assert made.governing.capacity == 0
    said = words(waterfall(made))
    assert "overhead wires" in said
    assert "needs 15.00 m" in said
    assert "stops it first" in said
    any_load = {"capacity": math.inf, "allowed": math.inf, "heaviest_log": math.inf}
    none = replace(made, criteria=tuple(replace(each, **any_load) for each in made.criteria))
    for answer in (made, none, check(replace(back.lift, gauge=1e5))):
        for for_log in (True, False):
            waterfall(answer, for_log=for_log).draw_without_rendering()


def test_steps_of_a_log_raised_by_one_end_say_how_much_of_it_is_borne(back):
    made = check(replace(back.lift, taken=LiftMode(way="one end")))
    said = words(waterfall(made))
    share = math.ceil(100 * made.lift.pull.share)
    assert f"{share} % of the log" in said
    assert "÷" in said
    assert "− -" not in said
    assert f"{math.floor(made.heaviest_log):,}".replace(",", " ") + " kg" in said


def test_figures_do_not_go_through_pyplot():
    import subprocess
    import sys

    code = (
        "import sys, liftcalc.figures.limit_maps, liftcalc.figures.curves,"
        "liftcalc.figures.waterfall, liftcalc.figures.saving;"
        "sys.exit('matplotlib.pyplot' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
    assert matplotlib.__version__
