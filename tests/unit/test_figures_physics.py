"""The drawings show the physics of ground, rigging and site: forces, angles and distances true."""

import itertools
import math
from dataclasses import replace
from xml.etree import ElementTree

import numpy as np
import pytest
from matplotlib.path import Path as Ring

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check
from liftcalc.factors import CAUTION
from liftcalc.figures.hanging import hanging
from liftcalc.figures.page_layout import one_page
from liftcalc.figures.plan import plan
from liftcalc.figures.scene import Scene, extent
from liftcalc.figures.side import side
from liftcalc.figures.styles import LOOKS
from liftcalc.figures.svg import svg
from liftcalc.machines.files import load
from liftcalc.requests.demo import DEMO
from liftcalc.requests.lift import parse_lift
from liftcalc.rigging.lift_mode import WAYS, LiftMode
from liftcalc.rigging.sling import Sling
from liftcalc.site.ground import ground
from liftcalc.site.hazards import Hazards
from liftcalc.site.site import Site
from liftcalc.units import SPACE
from tests.drawn import answer, assert_fits, drawings
from tests.helpers import MACHINES, plain, span, tried


@pytest.fixture(scope="module")
def demo() -> Answer:
    return check(parse_lift(DEMO).lift)


STANCES = {
    "back": ("wheels", "stabilisers", "stabilisers and bucket"),
    "front": ("wheels", "stabilisers"),
}
NEAR = Hazards(
    rules="uk", wires_distance=9.0, edge_distance=2.0, edge_depth=1.5, people_distance=math.inf
)
SLINGS = (
    Sling(length=4.0), Sling(way="single", length=1.5, at=1.9),
    Sling(way="basket", length=4.0), Sling(way="two legs", length=4.0, spread=1.5, at=2.1),
)  # fmt: skip


@pytest.mark.parametrize("machine", MACHINES)
@pytest.mark.parametrize("end", ["back", "front"])
def test_every_stance_and_way_of_taking_a_log_fits_the_sheet(machine, end):
    """Slope, swing, named ground, mats and hazards with each; words in both systems of units."""
    tool = "lifting hook" if end == "back" else "front lifting hook"
    seen = 0
    for number, (stance, way, sling) in enumerate(itertools.product(STANCES[end], WAYS, SLINGS)):
        site = (
            Site(),
            Site(slope=0.12, heading=0.9),
            Site(slope=0.1, heading=-0.4, levelled=stance != "wheels"),
        )[number % 3]
        request = {"height": 0.35 * span(load(machine)), "slew": 0.9} if end == "back" else {}
        request |= {
            "stance": stance,
            "site": site,
            "sling": sling,
            "hazards": NEAR,
            "taken": LiftMode(way=way),
            "ground": ground("firm clay"),
            "mat": (None, 0.9)[number % 2],
            "swing": (0.0, 0.1, 1.5)[number % 3],
        }
        made = tried(lambda request=request: answer(machine, end, tool, **request))
        if made is None:
            continue
        seen += 1
        for scene in drawings(made, ("metric", "imperial")[number % 2]):
            assert_fits(scene)
            ElementTree.fromstring(svg(scene))
    assert seen >= 24


def boxes_of(scene: Scene, role: str) -> dict[str, tuple[float, float, float, float]]:
    """Left, right, bottom and top of each mark of a role, by name."""
    return {mark.name: extent([mark]) for mark in scene.find(role)}


class TestForcesOfTheGround:
    @staticmethod
    def some() -> list[Answer]:
        firm = {"ground": ground("firm clay"), "sling": Sling(length=4.0, mass=15.0)}
        return [
            answer("standard-sideshift", "back", "lifting hook", swing=0.1, **firm),
            answer(
                "standard-sideshift",
                "back",
                "lifting hook",
                stance="stabilisers and bucket",
                site=Site(slope=0.08, heading=0.5),
                mat=0.8,
                **firm,
            ),
            answer("small-tractor", "front", "pallet forks", ground=ground("dense sand")),
            answer(
                "compact-centre-mount",
                "front",
                "front lifting hook",
                site=Site(slope=0.08, heading=2.0),
                **firm,
            ),
        ]

    def test_bars_are_as_long_as_forces_are_great(self):
        for made in self.some():
            for scene in (side(made), plan(made)):
                worst, settled = boxes_of(scene, "worst force"), boxes_of(scene, "force")
                assert set(worst) == {foot.name for foot in made.ground_forces.feet}
                longest = max(foot.worst for foot in made.ground_forces.feet)
                scale = max(top - low for *_, low, top in worst.values()) / longest
                for foot in made.ground_forces.feet:
                    *_, low, top = worst[foot.name]
                    assert top - low == pytest.approx(scale * foot.worst)
                    if foot.force > 1:
                        *_, low, top = settled[foot.name]
                        assert top - low == pytest.approx(scale * foot.force)

    def test_the_stroke_beside_them_is_as_long_as_it_says(self):
        for made, (system, newton) in itertools.product(
            self.some(), (("metric", 1000.0), ("imperial", 4.4482216152605))
        ):
            scene = side(made, system=system)
            ((_, _, low, top),) = (boxes_of(scene, "scale")["ruler"],)
            foot = max(made.ground_forces.feet, key=lambda each: each.worst)
            *_, start, end = boxes_of(scene, "worst force")[foot.name]
            unit = "kN" if system == "metric" else "lbf"
            (said,) = [each.text for each in scene.labels if each.text.endswith(SPACE + unit)]
            number = float(said.removesuffix(unit).replace(SPACE, ""))
            assert (top - low) * foot.worst / (end - start) == pytest.approx(number * newton)

    def test_bars_stand_on_one_line_from_the_side_and_away_from_the_machine_in_plan(self):
        for made in self.some():
            bases = {low for *_, low, _ in boxes_of(side(made), "worst force").values()}
            assert len(bases) == 1
            seen = boxes_of(plan(made), "worst force")
            for foot in made.ground_forces.feet:
                *_, low, top = seen[foot.name]
                assert (low > foot.at[1]) == (foot.at[1] > 0) == (top > foot.at[1])

    def test_every_figure_is_rounded_up(self):
        for made in self.some():
            words = [plain(label.text) for label in plan(made).labels]
            for foot in made.ground_forces.feet:
                tenths = math.ceil(foot.force / 100 - 1e-9) / 10
                assert any(each in (f"{tenths:.1f} kN", "light") for each in words)
                if foot.pressure is not None:
                    assert f"{math.ceil(foot.pressure / 100 - 1e-9) / 10:.1f} kPa" in words

    def test_a_foot_that_lifts_off_is_said_to_be_light(self):
        oak = {"species": "English oak", "length": "4 m", "mid": "80 cm"}
        made = [
            answer(
                "standard-sideshift",
                "back",
                "lifting hook",
                slew=slew,
                log=oak,
                stance="stabilisers and bucket",
                sling=Sling(length=6.0),
            )
            for slew in (0.8, -1.3)
        ]
        light = [
            (each, foot) for each in made for foot in each.ground_forces.feet if foot.force <= 1
        ]
        assert [foot.name for _, foot in light] == ["right bucket corner", "left bucket corner"]
        for made, foot in light:
            for scene in (side(made), plan(made)):
                assert foot.name not in boxes_of(scene, "force")
                assert any("light" in label.text for label in scene.labels)

    def test_a_machine_that_tips_has_no_bars_and_says_so(self):
        heavy = {"species": "English oak", "length": "8 m", "mid": "95 cm"}
        made = answer("small-tractor", "back", "lifting hook", log=heavy, sling=Sling(length=6.0))
        assert not made.ground_forces.stands
        for scene in (side(made), plan(made)):
            assert not scene.find("force")
            assert not scene.find("worst force")
            assert any("no ground force holds it" in label.text for label in scene.labels)
            assert_fits(scene)

    def test_what_feet_bear_on_is_to_scale_and_under_them(self):
        for made in self.some():
            drawn = boxes_of(plan(made), "bearing") | boxes_of(plan(made), "mat")
            for foot in made.ground_forces.feet:
                left, right, bottom, top = drawn[foot.name]
                assert (right - left) * (top - bottom) == pytest.approx(foot.area)
                assert left < foot.at[0] < right
                assert bottom - 1e-9 <= foot.at[1] <= top + 1e-9
            assert bool(plan(made).find("mat")) == (made.lift.mat is not None)

    def test_dashed_plates_spread_the_worst_force_to_what_the_ground_carries(self):
        assert LOOKS["plate"].dash
        for made in self.some():
            drawn = boxes_of(plan(made), "plate")
            under = [foot for foot in made.ground_forces.feet if "tyre" not in foot.kind]
            assert drawn.keys() == {foot.name for foot in under}  # a tyre makes a rut instead
            x, y, z = (float(part) for part in made.reached.gravity)
            for foot in under:
                left, right, bottom, top = drawn[foot.name]
                area = (right - left) * (top - bottom)
                # Clay of 40 kPa under a square, the force leaning as much as the machine: EN 1997-1
                # annex D.3 as it is printed, with H = share·V and twice what is pressed.
                pressed = 2 * foot.worst / area
                level = math.hypot(x, y) / abs(z) * pressed
                leans = (1 + math.sqrt(1 - level / 40e3)) / 2
                assert pressed == pytest.approx((math.pi + 2) * 1.2 * leans * 40e3)

    def test_on_ground_that_nobody_named_no_plate_is_drawn(self, demo):
        made = check(replace(demo.lift, ground=None))
        assert not plan(made).find("plate")


def ends_of(made: Answer) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Butt and top of the log's axis, and all its corners, as drawn along its length."""
    (log,) = hanging(made).find("log")
    butt, _, top, top_low, _, butt_low = (np.array(each) for each in log.points)
    return (butt + butt_low) / 2, (top + top_low) / 2, np.array(log.points)


def off_level(made: Answer) -> float:
    butt, top, _ = ends_of(made)
    along = top - butt
    return math.atan2(abs(along[1]), abs(along[0]))


class TestTheLogAlongItsLength:
    @pytest.mark.parametrize("sling", SLINGS[:2] + SLINGS[3:], ids=lambda each: each.way)
    def test_it_is_as_far_off_the_level_as_the_answer_says(self, sling):
        made = answer("standard-sideshift", "back", "lifting hook", sling=sling)
        assert made.hang.angle > 0.01
        assert off_level(made) == pytest.approx(made.hang.angle)
        assert math.dist(*ends_of(made)[:2]) == pytest.approx(made.lift.measure.length)

    def test_its_heavier_side_hangs_lower(self):
        for at, low in ((1.5, "top"), (3.0, "butt")):
            made = answer(
                "standard-sideshift", "back", "lifting hook", sling=Sling(length=4.0, at=at)
            )
            butt, top, _ = ends_of(made)
            assert (top[1] < butt[1]) == (low == "top")

    @pytest.mark.parametrize("slope", [0.0, 0.15])
    def test_one_sling_brings_the_balance_point_plumb_under_the_lift_point(self, slope):
        """Equilibrium: hook, balance point and effective gravity in one line."""
        for heading, at in ((0.3, 1.7), (2.0, None), (-1.4, 2.9)):
            made = answer(
                "standard-sideshift",
                "back",
                "lifting hook",
                slew=0.6,
                sling=Sling(length=4.0, at=at),
                site=Site(slope=slope, heading=heading),
            )
            (plumb,) = hanging(made).find("plumb")
            (x0, z0), (x1, z1) = plumb.points
            butt, top, _ = ends_of(made)
            share = made.lift.log.cog_from_butt / made.lift.measure.length
            assert (x1, z1) == pytest.approx(tuple(butt + share * (top - butt)), abs=1e-9)
            # Sideways in the drawing is to the left of the boom's plane, looking outward.
            gx, gy, gz = made.reached.gravity
            slew = made.lift.slew
            aside = -gx * math.sin(slew) - gy * math.cos(slew)
            assert (x1 - x0) / (z0 - z1) == pytest.approx(-aside / gz, abs=1e-9)

    def test_nothing_of_it_is_drawn_lower_than_the_answer_says(self):
        for sling, at in itertools.product(SLINGS, (None, 1.8, 2.3, 2.7)):
            if sling.way == "basket" and at is not None:
                continue  # off its balance point a basket is refused
            made = answer("standard-sideshift", "back", "lifting hook", sling=replace(sling, at=at))
            assert ends_of(made)[2][:, 1].min() >= made.lowest_tipped - 1e-9
            assert extent(side(made).find("log"))[2] >= made.lowest_tipped - 1e-9

    def test_one_end_raised_stands_on_the_other_and_hangs_plumb(self):
        for end, up in itertools.product(("butt", "top"), (2.6, 3.2)):
            made = answer(
                "standard-sideshift",
                "back",
                "lifting hook",
                reach=3.0,
                height=up,
                taken=LiftMode(way="one end", ground_end=end),
            )
            butt, top, corners = ends_of(made)
            rests = butt if end == "butt" else top
            assert rests[1] == min(butt[1], top[1])
            assert corners[:, 1].min() == pytest.approx(0.0, abs=1e-9)
            legs = hanging(made).find("sling", "leg")
            assert all(each.points[0][0] == pytest.approx(each.points[1][0]) for each in legs)
            # What reaches the hook: the log's own upper side there, within its thickness.
            mark = hanging(made).find("cog")[0]
            share = made.lift.log.cog_from_butt / made.lift.measure.length
            assert mark.centre == pytest.approx(tuple(butt + share * (top - butt)))
            raised = up - made.hang.to_top
            assert legs[0].points[1][1] == pytest.approx(raised, abs=0.1)
            assert extent(side(made).find("log"))[2] == pytest.approx(0.0, abs=0.02)

    def test_a_drawn_log_lies_on_the_ground_with_its_line_to_the_hook(self):
        made = answer(
            "standard-sideshift",
            "back",
            "lifting hook",
            reach=3.0,
            height=1.0,
            taken=LiftMode(way="drawn"),
        )
        butt, top, corners = ends_of(made)
        log = made.lift.log
        assert butt[1] == pytest.approx(log.butt_diameter / 2, abs=0.01)
        assert top[1] == pytest.approx(log.top_diameter / 2, abs=0.01)
        (pull,) = hanging(made).find("pull")
        free = made.hang.to_top - (made.lift.point.drop or 0.0)
        assert math.dist(*pull.points) == pytest.approx(free)
        assert Ring([*corners, corners[0]], closed=True).contains_point(pull.points[1])
        assert plan(made).find("pull")

    def test_two_legs_hold_about_the_place_that_was_said(self):
        sling = Sling(way="two legs", length=4.0, spread=1.4, at=1.8)
        made = answer("standard-sideshift", "back", "lifting hook", sling=sling, slew=0.0)
        butt, top, _ = ends_of(made)
        along = (top - butt) / made.lift.measure.length
        places = sorted(
            (np.array(each.points[1]) - butt) @ along for each in hanging(made).find("sling", "leg")
        )
        assert places == pytest.approx([1.1, 2.5])
        (log,) = plan(made).find("log", "log")
        start = np.mean([log.points[0], log.points[-1]], axis=0)
        drawn = sorted(
            abs(np.mean(each.points, axis=0)[1] - start[1])
            for each in plan(made).find("sling", "sling")
        )
        assert drawn == pytest.approx([1.1, 2.5])

    @pytest.mark.parametrize("lean", [0.05, 0.6])
    def test_the_swing_is_drawn_as_far_as_it_is_counted(self, lean):
        made = answer("standard-sideshift", "back", "lifting hook", swing=lean)
        assert made.reached.lean == pytest.approx(lean)
        for scene in (side(made), hanging(made)):
            one, two = scene.find("swing", "edge")
            turns = [
                math.atan2(
                    each.points[1][1] - each.points[0][1], each.points[1][0] - each.points[0][0]
                )
                for each in (one, two)
            ]
            assert abs(turns[1] - turns[0]) == pytest.approx(2 * lean)
            assert any(f"{math.degrees(lean):.1f}°" in each.text for each in scene.labels)
        still = check(replace(made.lift, swing=0.0))
        assert not side(still).find("swing")


class TestTheSite:
    def test_a_levelled_machine_stands_level_over_ground_that_slopes(self):
        site = Site(slope=0.1, heading=2.5, levelled=True)
        made = answer("standard-sideshift", "back", "lifting hook", site=site)
        scene = side(made)
        (drawn,) = scene.find("ground")
        (x0, z0), (x1, z1) = drawn.points
        # Uphill seen along the machine: the slope times the cosine of its heading.
        rise = math.tan(0.1) * math.cos(2.5)
        assert (z1 - z0) / (x1 - x0) == pytest.approx(rise)
        under = {foot.at[0]: z0 + rise * (foot.at[0] - x0) for foot in made.ground_forces.feet}
        assert max(under.values()) == pytest.approx(0.0)
        packed = boxes_of(scene, "packing")
        assert packed["packing"][3] == 0.0
        assert packed["packing"][2] == pytest.approx(min(under.values()))
        assert any("levelled" in note for note in scene.notes)
        (plumb,) = scene.find("plumb")
        assert plumb.points[0][0] == pytest.approx(plumb.points[1][0])

    def test_people_stay_out_of_a_circle_as_wide_as_the_answer_says(self):
        for made in (
            answer("standard-sideshift", "back", "lifting hook", swing=s, hazards=NEAR)
            for s in (0.0, 0.2)
        ):
            hook = np.array(made.reached.asked[:2], dtype=float)
            (needs,) = [
                float(each.clearance.needs) for each in made.criteria if each.name == "people"
            ]
            spots = [at for mark in plan(made).find("keep out") for at in mark.points]
            assert len(spots) > 15  # as far as the drawing goes
            assert [math.dist(at, hook) for at in spots] == pytest.approx([needs] * len(spots))

    def test_wires_and_edge_are_as_far_off_as_was_said(self):
        made = answer(
            "standard-sideshift", "back", "lifting hook", hazards=replace(NEAR, wires_distance=6.0)
        )
        scene, lifted = plan(made), made.lift
        wires = np.array(scene.find("hazard", "wires")[0].points)
        axis = np.array([float(lifted.machine.back.slew_axis_x), lifted.sideshift])
        out = np.array([-math.cos(lifted.slew), math.sin(lifted.slew)])
        assert (wires - axis) @ out == pytest.approx(np.full(len(wires), 6.0))
        edge = np.array(scene.find("hazard", "edge")[0].points)
        last = min(foot.at[0] for foot in made.ground_forces.feet)
        assert edge[:, 0] == pytest.approx(np.full(len(edge), last - 2.0))
        words = [plain(label.text) for label in scene.labels]
        assert {"wires 6.00 m", "edge 2.00 m off, 1.50 m deep"} <= set(words)
        assert any("was not said" in note for note in scene.notes)

    def test_what_is_too_far_off_to_draw_is_said(self):
        made = answer(
            "standard-sideshift", "back", "lifting hook", hazards=replace(NEAR, wires_distance=60.0)
        )
        assert not plan(made).find("hazard", "wires")
        assert any("60.00 m: beyond" in plain(label.text) for label in plan(made).labels)
        assert not plan(replace(made, lift=replace(made.lift, hazards=Hazards()))).find("hazard")


class TestOneSheetOfPaper:
    @pytest.mark.parametrize("system", ["metric", "imperial"])
    def test_all_of_an_answer_is_on_one_sheet_and_nothing_is_cut_off(self, system):
        full = {"hazards": NEAR, "ground": ground("firm clay"), "swing": 0.1}
        for made in (
            answer(
                "standard-sideshift",
                "back",
                "lifting hook",
                site=Site(slope=0.1, heading=1.0),
                stance="stabilisers and bucket",
                mat=0.8,
                **full,
            ),
            answer("small-tractor", "front", "multi-purpose jaw bucket", travelling=True),
            answer("standard-sideshift", "back", "lifting hook", taken=LiftMode(way="one end")),
        ):
            sheet = one_page(made, system=system)
            assert sheet.get_size_inches() * 25.4 == pytest.approx([210, 297])
            sheet.draw_without_rendering()
            wide, tall = sheet.bbox.size
            margin = 0.005 / 0.210 * wide
            boxes = []
            for text in sheet.texts:
                box = text.get_window_extent()
                assert margin <= box.x0, text.get_text()
                assert box.x1 <= wide - margin, text.get_text()
                assert margin <= box.y0, text.get_text()
                assert box.y1 <= tall - margin, text.get_text()
                boxes.append((text.get_text(), box.shrunk(0.98, 0.7)))
            for (one, a), (two, b) in itertools.combinations(boxes, 2):
                assert not a.overlaps(b), f"{one!r} over {two!r}"
            # Drawings keep to a scale at which their words can be read.
            assert all(axes.get_window_extent().width > 0.035 / 0.210 * wide for axes in sheet.axes)
            lowest = min(axes.get_window_extent().y0 for axes in sheet.axes)
            (table,) = [box for text, box in boxes if text == "What could stop it"]
            assert lowest >= table.y1

    def test_it_says_what_was_not_said_feet_rigging_and_what_is_near(self):
        made = answer("standard-sideshift", "back", "lifting hook", hazards=NEAR)
        said = " ".join(text.get_text() for text in one_page(made).texts)
        said = " ".join(said.replace("·", " ").split())
        for each in (*made.unchecked, *made.warnings, CAUTION, made.verdict, made.governs):
            assert " ".join(str(each).split()) in said
        for foot in made.ground_forces.feet:
            assert f"{foot.name} {math.ceil(foot.force / 100 - 1e-9) / 10:.1f} kN" in said
        for each in made.criteria:
            assert each.name in said
        (people,) = [each for each in made.criteria if each.name == "people"]
        circle = math.ceil(100 * float(people.clearance.needs) - 1e-9) / 100
        assert f"everybody stays {circle:.2f} m away" in said
        assert "choked" in said
