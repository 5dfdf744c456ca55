"""The drawings say what the answer says: true sizes, true places, and the same verdict."""

import itertools
import math
import subprocess
import sys
from collections import Counter
from dataclasses import replace
from xml.etree import ElementTree

import numpy as np
import pytest
from matplotlib.path import Path as Ring

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check
from liftcalc.factors import CAUTION
from liftcalc.figures.balance import balance
from liftcalc.figures.page_layout import one_page
from liftcalc.figures.plan import plan
from liftcalc.figures.scene import Disc, Label, Path, Scene, extent, hatching
from liftcalc.figures.side import side
from liftcalc.figures.styles import LOOKS, TONES
from liftcalc.figures.svg import svg
from liftcalc.machines.files import load
from liftcalc.physics.wrench import moment_about
from liftcalc.requests.demo import DEMO
from liftcalc.requests.lift import parse_lift
from liftcalc.rigging.sling import Sling
from liftcalc.site.site import Site
from tests.drawn import answer, assert_fits, drawings
from tests.helpers import MACHINES, lift, span, tried

SVG = "{http://www.w3.org/2000/svg}"


def every_attachment() -> list[tuple[str, str, str, str]]:
    return [
        (name, tool.end, tool.name, point.name)
        for name in MACHINES
        for tool in load(name).attachment
        for point in tool.lift_point
    ]


@pytest.fixture(scope="module")
def demo() -> Answer:
    return check(parse_lift(DEMO).lift)


def length_of(path: Path) -> float:
    (x, z), (u, w) = path.points
    return math.hypot(u - x, w - z)


@pytest.mark.parametrize(("machine", "end", "tool", "point"), every_attachment())
class TestSizesOfEveryAttachment:
    def test_links_and_rams_are_as_long_as_the_machines(self, machine, end, tool, point):
        made = answer(machine, end, tool, point)
        known, scene = load(machine), side(made)
        wanted = {
            "boom": known.back.boom.length,
            "dipper": known.back.dipper.length,
            "loader arms": known.front.arm.length,
        }
        joints = (*made.reached.arm.joints, *made.reached.other.joints)
        wanted |= {joint.name: joint.ram_length for joint in joints}
        drawn = {mark.name: length_of(mark) for mark in scene.find("axis")}
        assert drawn == pytest.approx({k: float(v) for k, v in wanted.items()}, abs=1e-9)

    def test_links_are_drawn_round_their_pins(self, machine, end, tool, point):
        scene = side(answer(machine, end, tool, point))
        for beam in scene.find("link"):
            (axis,) = scene.find("axis", beam.name)
            assert all(Ring(beam.points).contains_point(pin) for pin in axis.points)

    def test_attachment_has_its_own_shape_about_the_lift_point(self, machine, end, tool, point):
        made = answer(machine, end, tool, point)
        if made.lift.tool.mount == "hangs":
            return  # a pendulum has no outline in its file; rotator and claws are schematic
        (drawn,) = side(made).find("attachment", tool)
        arm = made.reached.arm
        u, w = float(arm.lift_at.u), float(arm.lift_at.w)
        lifted = (u if end == "front" else load(machine).back.slew_axis_x - u, w)
        away = [math.dist(corner, made.lift.point.at) for corner in made.lift.tool.outline]
        assert [math.dist(corner, lifted) for corner in drawn.points] == pytest.approx(away)

    def test_tyres_are_round_true_and_on_the_ground(self, machine, end, tool, point):
        wheels, scene = load(machine).wheels, side(answer(machine, end, tool, point))
        for name, x, radius in (
            ("rear tyre", 0.0, wheels.rear_radius),
            ("front tyre", wheels.wheelbase, wheels.front_radius),
        ):
            (tyre,) = scene.find("tyre", name)
            assert tyre.radius == radius
            assert tyre.centre == (x, radius)

    def test_the_log_hangs_where_the_answer_says(self, machine, end, tool, point):
        made = answer(machine, end, tool, point)
        (log,) = side(made).find("log", "log")
        assert 2 * log.radius == pytest.approx(made.lift.log.largest_diameter)
        assert log.centre[1] - log.radius == pytest.approx(made.lowest, abs=1e-9)

    def test_the_log_in_plan_has_its_true_size(self, machine, end, tool, point):
        made = answer(machine, end, tool, point)
        log = made.lift.log
        (drawn,) = plan(made).find("log", "log")
        butt, _, top = drawn.points[:3]
        top_far, _, butt_far = drawn.points[3:]
        across = [math.dist(*pair) for pair in ((butt, butt_far), (top, top_far))]
        assert across == pytest.approx([log.butt_diameter, log.top_diameter])
        ends = [np.mean(pair, axis=0) for pair in ((butt, butt_far), (top, top_far))]
        assert math.dist(*ends) == pytest.approx(made.lift.measure.length)
        # Across the plane of the end that lifts.
        slew = made.lift.slew if end == "back" else 0.0
        outward = np.array([-math.cos(slew), math.sin(slew)])
        assert (ends[1] - ends[0]) @ outward == pytest.approx(0.0, abs=1e-9)
        # It hangs from its balance point: so far from the butt toward the top.
        share = log.cog_from_butt / made.lift.measure.length
        held = ends[0] + share * (ends[1] - ends[0])
        if made.lift.point.hold == "hangs":
            assert held == pytest.approx([float(p) for p in made.reached.asked[:2]], abs=1e-9)
        else:
            assert held[1] == pytest.approx(float(made.reached.load[1]), abs=1e-9)

    def test_no_word_lies_over_another_or_over_the_edge(self, machine, end, tool, point):
        made = answer(machine, end, tool, point)
        for scene in drawings(made):
            assert_fits(scene)


def stands(made: Answer) -> bool:
    """Whether machine and log as planned hold about every line, from moments alone."""
    reached, lifted = made.reached, made.lift
    hung = lifted.log.mass_planning + lifted.rigging
    masses = [(x.mass, (x.x, x.y, x.z)) for x in reached.standing.lumps] + [(hung, reached.load)]
    return all(
        sum(
            m * moment_about(line).unit(x=p[0], y=p[1], z=p[2], gravity=reached.gravity)
            for m, p in masses
        )
        > 0
        for line in reached.standing.lines
    )


def some_answers(count: int) -> list[Answer]:
    """Lifts at random, light and heavy, on the level and on slopes, at both ends."""
    rng = np.random.default_rng(20260807)
    made: list[Answer] = []
    while len(made) < count:
        machine = MACHINES[rng.integers(len(MACHINES))]
        known = load(machine)
        end = ("back", "front")[rng.integers(2)]
        wide = f"{rng.uniform(20, 110):.0f} cm"
        log = {"species": "English oak", "length": f"{rng.uniform(2, 8):.1f} m", "mid": wide}
        site = Site(
            slope=rng.choice([0.0, rng.uniform(0, 0.4)]), heading=rng.uniform(-math.pi, math.pi)
        )
        request = {"log": log, "site": site, "sling": Sling(length=6.0, mass=15.0)}
        if end == "back":
            stance = ("wheels", "stabilisers", "stabilisers and bucket")[rng.integers(3)]
            request |= {
                "reach": rng.uniform(0.4, 0.9) * span(known),
                "stance": stance,
                "height": rng.uniform(0.0, 0.6) * span(known),
                "slew": rng.uniform(-1.5, 1.5),
                "sideshift": rng.uniform(-1, 1) * float(known.back.sideshift_limit),
            }
        found = tried(lambda: check(lift(machine, end=end, **request)))  # noqa: B023
        if found is not None:
            made.append(found)
    return made


class TestBalance:
    def test_the_weight_falls_inside_exactly_when_no_line_tips(self):
        seen = Counter()
        for made in some_answers(250):
            weight = balance(made)
            assert weight.inside == stands(made)
            # The region as drawn says the same as the lines one by one.
            if len(weight.region) > 2:
                assert Ring(weight.region).contains_point(weight.foot) == weight.inside
            else:
                assert not weight.inside
            seen[weight.inside, made.lift.site.slope > 0] += 1
        assert min(seen[key] for key in itertools.product((True, False), repeat=2)) >= 15, seen

    def test_plumb_line_leans_along_gravity(self, demo):
        tilted = replace(demo.lift, site=Site(slope=0.1, heading=0.0))
        made = check(tilted)
        (plumb,) = side(made).find("plumb")
        (x, z), (foot, ground) = plumb.points
        assert ground == 0.0
        # Nose uphill: the weight falls farther back than its balance point, by rise over run.
        assert x - foot == pytest.approx(z * math.tan(0.1))

    def test_on_the_level_it_falls_straight_down(self, demo):
        (plumb,) = side(demo).find("plumb")
        assert plumb.points[0][0] == pytest.approx(plumb.points[1][0], abs=1e-12)

    def test_a_load_that_tips_is_told_in_words_and_by_another_mark(self, demo):
        heavy = {"species": "English oak", "length": "8 m", "mid": "95 cm"}
        made = answer("small-tractor", "back", "lifting hook", log=heavy, sling=Sling(length=6.0))
        assert not balance(made).inside
        assert any("tips" in label.text for label in side(made).labels)
        assert any("OUTSIDE" in label.text for label in plan(made).labels)
        assert {mark.role for mark in plan(made).find("foot", "foot")} == {"foot"}
        assert not plan(demo).find("foot", "foot")

    def test_governing_line_is_the_one_of_the_least_tipping_load(self, demo):
        for scene in (side(demo), plan(demo)):
            assert len([m for m in scene.find("governing line") if m.name != "key"]) == 1
        (line,) = [m for m in plan(demo).find("governing line") if m.name != "key"]
        loads = {each.line.name: float(each.tipping_load) for each in demo.reached.lines}
        assert line.name == min(loads, key=loads.__getitem__)

    def test_every_tipping_line_is_in_the_plan(self, demo):
        scene = plan(demo)
        drawn = {m.name for m in (*scene.find("tipping line"), *scene.find("governing line"))}
        assert drawn - {"key"} == {each.line.name for each in demo.reached.lines}


class TestPlan:
    def test_slewed_boom_stands_at_its_angle(self, demo):
        (boom,) = plan(demo).find("axis", "boom")
        (x0, y0), (x1, y1) = boom.points
        # Slewed to the machine's left, which is up; straight back is to the left of the sheet.
        assert math.atan2(y1 - y0, x0 - x1) == pytest.approx(demo.lift.slew)

    def test_stabilisers_stand_at_their_spread(self, demo):
        pads = plan(demo).find("stabiliser", "pad")
        middles = sorted(np.mean(pad.points, axis=0)[1] for pad in pads)
        spread = demo.lift.machine.stabilisers.pad_spread
        assert middles == pytest.approx([-spread / 2, spread / 2])

    def test_attachment_is_as_wide_as_it_is(self, demo):
        tool = demo.lift.other_tool
        (drawn,) = plan(demo).find("attachment", tool.name)
        heights = [y for _, y in drawn.points]
        assert max(heights) - min(heights) == pytest.approx(tool.width)


class TestWords:
    def test_both_drawings_say_loads_reach_and_caution(self, demo):
        for scene in (side(demo), plan(demo)):
            words = " | ".join(label.text for label in scene.labels).replace("\u00a0", " ")
            assert "1 000 kg" in words  # nobody said that warning devices are fitted: EN 474-4
            assert "828 kg" in words or "plan on" in words
            assert "3.80 m" in words
            assert scene.caution == CAUTION
        assert any("height 3.10\u00a0m" in label.text for label in side(demo).labels)

    def test_slewed_end_is_said_to_be_drawn_in_its_own_plane(self, demo):
        assert any("own plane" in note for note in side(demo).notes)
        straight = check(replace(demo.lift, slew=0.0))
        assert not any("own plane" in note for note in side(straight).notes)

    def test_imperial_changes_words_and_scale_bar_only(self, demo):
        metric, imperial = side(demo), side(demo, system="imperial")
        bar = {"scale", "scale gap"}

        def shapes(scene: Scene) -> list[object]:
            return [m for m in scene.marks if m.role not in bar]

        assert shapes(metric) == shapes(imperial)
        words = " ".join(label.text for label in imperial.labels).replace("\u00a0", " ")
        assert " ft" in words
        assert " lb" in words
        assert " kg" not in words


class TestRenderers:
    def test_svg_is_sound_and_says_every_word(self, demo):
        for scene in (side(demo), plan(demo)):
            root = ElementTree.fromstring(svg(scene))
            texts = [each.text for each in root.iter(f"{SVG}text")]
            assert {label.text for label in scene.labels} <= set(texts)
            assert CAUTION in " ".join(texts)
            assert root.get("aria-label") == scene.about

    def test_svg_has_one_scale_both_ways(self, demo):
        scene = side(demo)
        root = ElementTree.fromstring(svg(scene))
        rear, front = scene.find("tyre", "rear tyre") + scene.find("tyre", "front tyre")
        circles = [
            (float(c.get("cx")), float(c.get("cy")), float(c.get("r")))
            for c in root.iter(f"{SVG}circle")
        ]
        scale = 12.0 / scene.em
        for tyre in (rear, front):
            x, z = tyre.centre
            wanted = ((x - scene.left) * scale, (scene.top - z) * scale, tyre.radius * scale)
            assert any(each == pytest.approx(wanted, abs=0.06) for each in circles)

    def test_words_of_a_file_cannot_become_markup(self, demo):
        evil = '<script>alert("1")</script>&'
        machine = demo.lift.machine.model_copy(update={"title": evil})
        made = replace(demo, lift=replace(demo.lift, machine=machine))
        scene = side(made)
        labelled = replace(scene, labels=(*scene.labels, Label(text=evil, at=(0.0, 1.0))))
        text = svg(labelled)
        assert "<script" not in text
        root = ElementTree.fromstring(text)
        assert evil in root.get("aria-label")
        assert evil in [each.text for each in root.iter(f"{SVG}text")]

    def test_paper_keeps_one_scale_and_every_word(self, demo):
        made = one_page(demo)
        wide, high = made.get_size_inches()
        drawn = [each for each in made.axes if each.texts]
        for axes in drawn:
            across, up = np.diff(axes.get_xlim())[0], np.diff(axes.get_ylim())[0]
            place = axes.get_position()
            assert wide * place.width / across == pytest.approx(high * place.height / up)
        texts = {each.get_text() for axes in drawn for each in axes.texts}
        for scene in (side(demo), plan(demo)):
            assert {label.text for label in scene.labels} <= texts
        assert CAUTION in " ".join(each.get_text() for each in made.texts)

    def test_no_pyplot_and_no_matplotlib_for_the_page(self):
        code = (
            "import sys; from liftcalc.requests.lift import parse_lift;"
            "from liftcalc.requests.demo import DEMO; from liftcalc.evaluation.check import check;"
            "from liftcalc.figures.side import side; from liftcalc.figures.svg import svg;"
            "answer = check(parse_lift(DEMO).lift); svg(side(answer));"
            "assert 'matplotlib' not in sys.modules;"
            "from liftcalc.figures.page_layout import one_page; one_page(answer);"
            "assert 'matplotlib.pyplot' not in sys.modules"
        )
        subprocess.run([sys.executable, "-c", code], check=True)


class TestLooks:
    @staticmethod
    def luminance(colour: str) -> float:
        """Relative luminance; W3C, WCAG 2.2, definition of relative luminance."""
        parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
        return sum(w * c for w, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))

    @pytest.mark.parametrize("night", [0, 1])
    @pytest.mark.parametrize(("tone", "least"), [("ink", 7.0), ("warn", 4.5), ("soft", 4.5)])
    def test_words_and_lines_that_matter_stand_out(self, tone, least, night):
        one, two = (self.luminance(TONES[each][night]) for each in (tone, "paper"))
        high, low = max(one, two), min(one, two)
        assert (high + 0.05) / (low + 0.05) >= least  # WCAG 2.2, 1.4.3 and 1.4.6

    def test_governing_line_differs_by_more_than_colour(self):
        first, other = LOOKS["governing line"], LOOKS["tipping line"]
        assert first.width >= 2 * other.width
        assert not first.dash
        assert other.dash


def test_hatching_covers_a_square_evenly_and_stays_inside():
    lines = hatching(((0.0, 0.0), (0.0, 2.0), (2.0, 2.0), (2.0, 0.0)), gap=0.5)
    assert len(lines) == 7  # levels 0.5 to 3.5 of x + z; the corners give no line
    for each in lines:
        for x, z in each.points:
            assert -1e-9 <= x <= 2 + 1e-9
            assert -1e-9 <= z <= 2 + 1e-9


def test_discs_and_paths_measure_alike():
    marks = (Disc(role="log", centre=(1.0, 2.0), radius=0.5), Path(role="ground", points=((0, 0),)))
    assert extent(marks) == (0, 1.5, 0, 2.5)
