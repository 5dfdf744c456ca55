"""Carrying a log on the move: clear of the ground, round a turn, through ruts; each by hand too."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from liftcalc.errors import InputError
from liftcalc.evaluation.check import check, reach
from liftcalc.evaluation.lift import Lift
from liftcalc.questions.carry_height import (
    CLEAR,
    TURN,
    across,
    carry_height,
    costs_of_height,
    deepest_ruts,
    on_the_move,
    side_acceleration,
    tipping_allowed,
    turn_speeds,
)
from liftcalc.questions.registry import tell
from liftcalc.remarks import Remark
from liftcalc.requests.fields_of_commands import QuestionRequest
from liftcalc.requests.question import parse_question
from liftcalc.rigging.lift_mode import LiftMode
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from liftcalc.units import G0
from tests.helpers import MACHINES, altered, lift, told

LIGHT = {
    "species": "norway spruce", "length": "3 m", "butt": "30 cm", "mid": "27 cm", "top": "25 cm",
}  # fmt: skip
HEAVY = {
    "species": "european larch", "length": "9 m", "butt": "70 cm", "mid": "65 cm", "top": "60 cm",
}  # fmt: skip
TOOLS = [
    ("pallet forks", ""), ("multi-purpose jaw bucket", "in the jaw"),
    ("multi-purpose jaw bucket", "eye on the jaw bucket"),
]  # fmt: skip


def moving(tool: str = "pallet forks", point: str = "", **more) -> Lift:
    given = {"log": LIGHT, "height": 0.8, **more}
    return on_the_move(lift(end="front", tool=tool, point=point, **given))


# Height


@pytest.mark.parametrize(("tool", "point"), TOOLS)
def test_the_log_is_clear_there_and_not_a_centimetre_lower(tool, point):
    answer = carry_height(moving(tool, point))
    here = check(replace(answer.at.lift, height=answer.value))
    assert here.passes
    assert here.lift.travelling
    assert here.lowest_tipped >= CLEAR - 1e-9
    assert check(replace(answer.at.lift, height=answer.value - 0.01)).lowest_tipped < CLEAR
    assert "clear of the ground" in str(answer.stopped_by)


def test_a_log_on_forks_lies_on_them_and_one_on_a_hook_hangs_below_it():
    """Forks: their top 0.3 m up, no more. A hook: all that hangs below it comes on top."""
    assert carry_height(moving()).value == pytest.approx(CLEAR)
    hung = carry_height(moving("multi-purpose jaw bucket", "eye on the jaw bucket"))
    assert hung.value > CLEAR + 0.3  # more than the log's own thickness
    assert Remark("swings_on_move") in hung.notes


@pytest.mark.parametrize("name", MACHINES)
def test_every_machine_is_told_a_height_from_either_end(name):
    front = carry_height(lift(name, end="front", log=LIGHT))
    back = carry_height(lift(name, end="back", log=LIGHT))
    for answer in (front, back):
        assert answer.value is not None
        assert check(answer.at.lift).passes
        assert (answer.at.lift.end, answer.at.lift.stance) == ("front", "wheels")
    assert any(each.code == "front_carries" for each in back.notes)


def test_where_nothing_passes_there_is_no_height():
    answer = carry_height(moving(log=HEAVY))
    assert answer.value is None
    assert not answer.at.passes
    assert answer.at.answer.lowest_tipped >= CLEAR - 1e-9
    assert answer.stopped_by == answer.at.answer.governs


def test_a_log_that_is_drawn_is_not_carried():
    with pytest.raises(InputError, match="lifted whole"):
        carry_height(lift(end="front", log=LIGHT, taken=LiftMode(way="drawn")))


def test_a_levelled_machine_is_not_level_on_the_move():
    levelled = lift(log=LIGHT, site=Site(slope=0.1, heading=1.0, levelled=True))
    assert carry_height(levelled).at.lift.site.leans


def test_what_higher_costs_is_what_the_check_allows_there():
    low = replace(moving(), height=0.5)
    for each in costs_of_height(low):
        answer = check(replace(low, height=0.5 + each.by))
        assert (each.allowed, each.governs) == (answer.allowed, answer.governs)
    sloped = replace(low, site=Site(slope=0.08, heading=math.pi / 2))
    flat, steep = costs_of_height(low), costs_of_height(sloped)
    assert steep[0].tipping < flat[0].tipping
    # Height counts for more across a slope than on the level.
    lost = [made[0].tipping - made[1].tipping for made in (flat, steep)]
    assert lost[1] > lost[0] > 0


def test_the_side_slope_is_taken_the_way_that_allows_less():
    machine = altered(lift().machine, carried__1__at__1=0.9, carried__1__mass=500.0)
    asked = on_the_move(
        lift(
            machine,
            end="front",
            tool="pallet forks",
            log=LIGHT,
            height=1.5,
            motion=Motion(friction=0.9),
        )
    )
    sides = [
        tipping_allowed(replace(asked, site=Site(slope=math.radians(5), heading=heading)))
        for heading in (math.pi / 2, -math.pi / 2)
    ]
    assert min(sides) < max(sides) - 10
    assert tipping_allowed(across(asked)[0]) == min(sides)


# Turns


def edge_by_hand(asked: Lift) -> float:
    """Acceleration at which the moment about a side line is nothing: one linear equation each.

    For a force m·(0, ∓a, −g) at r, with P and ê the line's start and direction:
    ê·((r − P) × f) summed over machine and load.
    """
    posed = reach(asked)
    found = []
    for whole in posed.wholes:
        for load in posed.loads:
            for line in posed.standing.lines:
                start, end = (
                    np.array([each.x, each.y, each.z], dtype=float)
                    for each in (line.start, line.end)
                )
                along = (end - start) / np.linalg.norm(end - start)
                down = aside = 0.0
                for mass, at in ((whole.mass, (whole.x, whole.y, whole.z)), (asked.needed, load)):
                    arm = np.array(at, dtype=float) - start
                    down += mass * float(along @ np.cross(arm, [0, 0, -G0]))
                    aside += mass * float(along @ np.cross(arm, [0, 1.0, 0]))
                if aside:
                    found.append(abs(down / aside))
    return min(found)


@pytest.mark.parametrize("tool", ["pallet forks", "wide front shovel"])
@pytest.mark.parametrize("name", MACHINES)
def test_the_edge_of_rolling_over_by_one_linear_equation(name, tool):
    asked = on_the_move(lift(name, end="front", tool=tool, log=LIGHT, height=0.6))
    by_hand = edge_by_hand(asked)
    found = side_acceleration(asked)
    assert found <= by_hand < found + 0.0101
    # v²/(0.7 R) = a
    speeds = turn_speeds(asked)
    assert speeds.radius == TURN
    assert speeds.rollover == pytest.approx(math.sqrt(0.7 * TURN * found), abs=0.0101)


@pytest.mark.parametrize("point", ["in the jaw", "eye on the jaw bucket"])
def test_the_speed_in_a_turn_keeps_its_share_every_way_and_the_next_does_not(point):
    asked = moving("multi-purpose jaw bucket", point, motion=Motion(turn_radius=5.0))
    speeds = turn_speeds(asked)

    def worst(speed: float) -> float:
        fast = replace(asked, motion=Motion(speed=speed, turn_radius=5.0))
        assert len(fast.ways) == 4
        return max(check(way).criteria[0].utilisation for way in fast.ways)

    assert speeds.planned > 0.5
    assert worst(speeds.planned) <= 1 < worst(speeds.beyond)
    assert speeds.planned < speeds.rollover


def test_a_criterion_that_does_not_govern_is_still_taken_the_worst_way():
    fast = moving(
        "multi-purpose jaw bucket",
        "in the jaw",
        motion=Motion(speed=3.0, turn_radius=5.0),
        off_centre=0.4,
    )
    each = [check(way).criteria[0].allowed for way in fast.ways]
    assert max(each) > min(each)
    assert tipping_allowed(fast) == pytest.approx(min(each), rel=1e-12)


def test_wider_turns_and_lower_loads_may_be_faster_and_a_slope_never():
    low = replace(moving(), height=0.4)
    usual = turn_speeds(low)
    wide = turn_speeds(replace(low, motion=Motion(turn_radius=8.0)))
    high = turn_speeds(replace(low, height=2.0))
    sloped = turn_speeds(replace(low, site=Site(slope=0.07, heading=math.pi / 2)))
    assert wide.planned > usual.planned > high.planned
    assert wide.rollover > usual.rollover > high.rollover
    assert sloped.planned < usual.planned
    assert sloped.rollover < usual.rollover


# Ruts


@pytest.mark.parametrize("friction", [0.15, 0.3, 0.5])
@pytest.mark.parametrize("name", MACHINES)
def test_the_deepest_ruts_by_two_axle_loads(name, friction):
    """μ·R_rear = (0.02 + 0.015 s/25.4 mm)·W on the level; R_rear by moments about the front axle.

    Where all wheels drive R is W itself.
    """
    asked = on_the_move(
        lift(
            name,
            end="front",
            tool="pallet forks",
            log=LIGHT,
            height=0.6,
            motion=Motion(friction=friction),
        )
    )
    posed, wheels = reach(asked), asked.machine.wheels
    found = []
    for whole in posed.wholes:
        for x, _, _ in posed.loads:
            load = 1.1 * asked.needed  # what slips over a stump for a blink goes no way
            total = whole.mass + load
            base = float(wheels.wheelbase)
            rear = (whole.mass * (base - whole.x) + load * (base - x)) / base
            driven = total if wheels.driven == "all" else rear
            found.append(0.0254 / 0.015 * (friction * driven / total - 0.02))
    depth = deepest_ruts(asked)
    assert depth <= min(*found, 1.0) < depth + 0.0101


def test_what_does_not_pull_itself_along_is_said():
    assert deepest_ruts(moving(motion=Motion(friction=0.02))) is None
    answer = carry_height(moving(motion=Motion(friction=0.02), log=LIGHT))
    assert answer.value is None
    assert answer.stopped_by.startswith("traction")


# The question


def test_the_question_needs_no_height_and_takes_the_lift_on_the_move():
    asked = QuestionRequest(
        question="carry",
        machine="standard-sideshift",
        end="front",
        attachment="pallet forks",
        species="Norway spruce",
        length="3 m",
        butt="30 cm",
        mid="27 cm",
        top="25 cm",
        speed="3 km/h",
        turn_radius="6 m",
        ground="hard standing",
    )
    question = parse_question(asked)
    assert question.read.lift.travelling
    assert "height" not in dict(question.read.echoes)
    found = tell(question)
    (answer,) = found.turned
    assert found.lift.height == answer.value
    assert not any(each.name.code == "lower" for each in found.more)
    assert any("In a turn of 6.0 m at the rear axle tipping" in each for each in told(answer.notes))
