"""Questions turned round: the forward check passes at the answer and fails just beyond it."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from liftcalc.errors import InputError
from liftcalc.evaluation.check import check, reach
from liftcalc.evaluation.lift import Lift
from liftcalc.machines.files import load
from liftcalc.questions.ballast import STEP, Spot, needed_ballast, usual_spots, with_ballast
from liftcalc.questions.farthest import greatest_height, greatest_reach
from liftcalc.questions.longest import lift_of_piece, longest_piece
from liftcalc.questions.pads import holds, needed_pad
from liftcalc.questions.pressure import needed_pressure, rams_carry
from liftcalc.questions.remedies import KINDS, remedies
from liftcalc.questions.search import InverseAnswer, last_before_failure, passing_run, tried
from liftcalc.questions.steepest import allowed_on_slopes, steepest_slope
from liftcalc.remarks import Remark
from liftcalc.rigging.gear import Gear
from liftcalc.rigging.lift_mode import LiftMode
from liftcalc.site.ground import GROUNDS, ground
from liftcalc.site.hazards import Hazards
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from liftcalc.units import G0
from tests.helpers import MACHINES, altered, lift, span, told

HEAVY = {
    "species": "european larch", "length": "7.2 m", "butt": "62 cm", "mid": "55 cm", "top": "48 cm",
}  # fmt: skip
LIGHT = {
    "species": "norway spruce", "length": "3 m", "butt": "30 cm", "mid": "27 cm", "top": "25 cm",
}  # fmt: skip


def hooked(machine: str = "standard-sideshift", **more):
    """A back lift to one side, with the hook."""
    given = {"tool": "lifting hook", "slew": math.radians(75), **more}
    return lift(machine, **given)


def sound(answer) -> None:
    """What must be true of every answer with a value."""
    assert answer.at.passes
    assert check(answer.at.lift).passes
    if answer.beyond is not None:
        assert not answer.beyond.passes
        assert not tried(answer.beyond.lift).passes
        assert answer.stopped_by == tried(answer.beyond.lift).stopped_by


# Farthest and highest


@pytest.mark.parametrize("name", MACHINES)
@pytest.mark.parametrize("slew", [0.0, 75.0])
def test_the_greatest_reach_passes_and_so_does_everything_back_to_its_start(name, slew):
    asked = lift(name, log=LIGHT, slew=math.radians(slew))
    answer = greatest_reach(asked)
    assert answer.value is not None
    sound(answer)
    start = answer.details[0].figure.value
    for place in np.linspace(start, answer.value, 60):
        assert check(replace(asked, reach=float(place))).passes
    assert answer.value < answer.beyond_value <= answer.value + 0.0101
    assert answer.value == round(answer.value, 2)


@pytest.mark.parametrize("end", ["front", "back"])
@pytest.mark.parametrize("name", MACHINES)
def test_the_greatest_height_passes_and_so_does_everything_down_to_its_start(name, end):
    asked = lift(name, end=end, log=LIGHT)
    answer = greatest_height(asked)
    assert answer.value is not None
    sound(answer)
    start = answer.details[0].figure.value
    for place in np.linspace(start, answer.value, 60):
        assert check(replace(asked, height=float(place))).passes
    if end == "front":
        assert answer.details[1].figure.value == pytest.approx(answer.at.answer.reached.reach)


def test_a_criterion_and_the_mechanism_each_stop_the_reach_and_are_told_apart():
    by_load = greatest_reach(hooked(log={**HEAVY, "length": "4.6 m"}, height=2.0))
    assert by_load.beyond.answer is not None
    assert by_load.stopped_by.startswith("tipping")
    by_arm = greatest_reach(hooked(log=LIGHT, height=2.0))
    assert by_arm.beyond.answer is None
    assert "ram" in by_arm.stopped_by or "reach" in by_arm.stopped_by


def test_too_heavy_anywhere_is_no_reach_at_all():
    answer = greatest_reach(hooked(log={**HEAVY, "length": "14 m"}))
    assert answer.value is None
    assert not answer.at.passes
    assert answer.notes[0].code == "passes_nowhere"


def test_the_front_has_no_reach_of_its_own():
    with pytest.raises(InputError, match="arms decide"):
        greatest_reach(lift(end="front"))


def test_a_run_stops_at_the_first_failure_and_never_jumps_a_gap():
    passing = np.array([1, 0, 1, 1, 1, 0, 1, 1], dtype=bool)
    assert passing_run(passing, start=3) == (2, 4)
    assert passing_run(passing, start=1) is None
    assert passing_run(passing, start=7) == (6, 7)
    assert last_before_failure(lambda k: k < 13, most=40, stride=5) == 12
    assert last_before_failure(lambda _: True, most=40, stride=7) == 40
    assert last_before_failure(lambda _: False, most=40, stride=7) == -1
    assert last_before_failure(lambda k: k < 10 or k > 20, most=40, stride=5) == 9


# Longest piece


@pytest.mark.parametrize("keep", ["butt", "top"])
@pytest.mark.parametrize("end", ["front", "back"])
def test_the_longest_piece_passes_and_a_centimetre_more_does_not(keep, end):
    asked = lift(end=end, log={**HEAVY, "length": "12.345 m"})
    answer = longest_piece(asked, keep=keep)
    sound(answer)
    more = lift_of_piece(asked, keep=keep, length=answer.value + 0.01)
    assert not check(more).passes
    assert answer.details[1].figure.value == check(answer.at.lift).lift.log.mass_planning


def test_a_top_piece_is_longer_than_a_butt_piece_and_a_log_that_passes_is_left_whole():
    asked = hooked(log=HEAVY)
    butt, top = (longest_piece(asked, keep=keep).value for keep in ("butt", "top"))
    assert top > butt
    whole = longest_piece(hooked(log=LIGHT), keep="butt")
    assert (whole.value, whole.beyond) == (3.0, None)


def test_a_piece_is_hooked_anew_where_one_end_is_raised():
    taken = LiftMode(way="one end", ground_end="butt", hook_at=7.0)
    asked = hooked(log=HEAVY, taken=taken, slew=0.0, reach=4.0, gauge=110e5)
    answer = longest_piece(asked, keep="butt")
    assert 1.0 < answer.value < 7.0
    sound(answer)


def test_the_last_centimetre_of_a_log_can_be_the_one_too_many():
    """A log too long by less than a centimetre: the answer is the whole centimetre below."""
    asked = hooked(log=HEAVY)
    edge = longest_piece(asked, keep="butt")
    trimmed = lift_of_piece(asked, keep="butt", length=edge.value + 0.0099)
    assert not check(trimmed).passes
    again = longest_piece(trimmed, keep="butt")
    # A piece of a piece is reckoned a little heavier.
    assert edge.value - 0.02 <= again.value <= edge.value
    sound(again)


# Pressure


@pytest.mark.parametrize("name", MACHINES)
@pytest.mark.parametrize("end", ["front", "back"])
def test_every_ram_carries_the_log_at_the_pressure_and_not_a_bar_below(name, end):
    asked = lift(name, end=end, log=LIGHT)
    answer = needed_pressure(asked)
    book = float(asked.machine.hydraulics.working_pressure)
    assert answer.value <= book
    assert rams_carry(tried(replace(asked, gauge=answer.value)))
    assert not rams_carry(tried(replace(asked, gauge=answer.value - 1e5)))
    assert rams_carry(tried(replace(asked, gauge=(answer.value + book) / 2)))


def test_a_book_pressure_that_is_not_whole_bars_is_not_passed():
    asked = lift(log=LIGHT)
    book = needed_pressure(asked).value
    odd = altered(asked.machine, hydraulics__working_pressure=book - 0.4e5)
    assert needed_pressure(replace(asked, machine=odd)).value in (None, book - 0.4e5)
    enough = altered(asked.machine, hydraulics__working_pressure=book + 0.4e5)
    assert needed_pressure(replace(asked, machine=enough)).value == book


def test_book_pressure_that_is_not_enough_is_said_and_never_exceeded():
    answer = needed_pressure(hooked(log={**HEAVY, "length": "14 m"}))
    assert answer.value is None
    assert "not enough for the boom ram" in str(answer.notes[0])


def test_the_users_own_gauge_is_compared():
    asked = lift(log=LIGHT)
    need = needed_pressure(asked).value
    low = needed_pressure(replace(asked, gauge=need - 1e5))
    assert low.value == need
    assert any(each.code == "gauge_too_low" for each in low.notes)


# Ballast

TIPS = {
    "species": "european larch", "length": "4.2 m", "butt": "55 cm", "mid": "49 cm", "top": "44 cm",
}  # fmt: skip


def tipping():
    """A lift that only tipping stops."""
    return hooked(log=TIPS, reach=3.8, height=2.0, slew=math.radians(80))


def test_ballast_lets_it_pass_and_ten_kilograms_less_does_not():
    answer = needed_ballast(tipping())
    sound(answer)
    assert answer.beyond_value == answer.value - STEP
    before, after = check(tipping()), answer.at.answer
    assert after.criteria[0].capacity > before.criteria[0].capacity
    chosen = answer.details
    assert chosen[1].figure.value < 0  # right side, for a load on the left


def test_ballast_by_the_moment_it_has_about_the_line():
    """By hand: needed moment over ballast's arm about the governing line."""
    asked = tipping()
    spot = Spot(name="there", x=1.0, y=-0.9, z=0.7)
    answer = needed_ballast(asked, spots=(spot,))
    line = min(reach(asked).lines, key=lambda each: float(each.tipping_load))
    start, end = (np.array([p.x, p.y, p.z]) for p in (line.line.start, line.line.end))
    along = (end - start) / np.linalg.norm(end - start)
    weight = np.array([0, 0, -G0])

    def moment(at) -> float:
        return abs(float(np.cross(np.asarray(at) - start, weight) @ along))

    load_arm = moment([float(part) for part in reach(asked).load])
    lacking = (asked.needed / 0.75) * load_arm - float(line.holding_moment)
    by_hand = lacking / moment((spot.x, spot.y, spot.z))
    assert by_hand <= answer.value <= by_hand + STEP


def test_ballast_holds_a_machine_that_a_drawn_log_would_turn():
    """Stopped by grip alone, which ballast presses; the rougher the ground the less of it."""

    def needed(friction: float) -> InverseAnswer:
        asked = hooked(
            log=TIPS,
            height=0.8,
            slew=0.0,
            reach=3.0,
            taken=LiftMode(way="drawn"),
            motion=Motion(friction=friction),
            stance="stabilisers and bucket",
        )
        assert check(asked).governing.kind == "grip"
        return needed_ballast(asked)

    rough, rougher = needed(0.40), needed(0.45)
    sound(rough)
    sound(rougher)
    assert 0 < rougher.value < rough.value
    # All friction that there is has to be the pull at least: it slides bodily before that.
    asked = rough.at.lift
    heaviest = max(each.mass for each in reach(asked).wholes) + asked.needed
    assert asked.needed * math.sin(asked.pull.lean) <= 0.40 * heaviest
    assert needed(0.115).value is None


def test_a_place_on_the_wrong_side_does_not_count():
    spot = Spot(name="behind the load", x=-2.0, y=2.0, z=0.7)
    assert needed_ballast(tipping(), spots=(spot,)).value is None


def test_no_ballast_helps_a_ram_or_a_lift_point():
    answer = needed_ballast(hooked(log={**HEAVY, "length": "9 m"}))
    assert answer.value is None
    assert "No ballast can help" in str(answer.notes[0])
    assert "lift point" in str(answer.notes[0])


def test_no_ballast_is_needed_where_it_passes():
    assert needed_ballast(hooked(log=LIGHT, slew=0.0)).value == 0.0


def test_ballast_is_on_the_machine_and_not_in_its_weighed_axles():
    asked = tipping()
    more = with_ballast(asked, mass=300.0, spot=usual_spots(asked.machine)[0])
    before, after = (sum(m.mass for m in reach(x).standing.lumps) for x in (asked, more))
    # Which tank state tips sooner may change with it.
    tank = sum(float(each.mass) for each in asked.machine.carried if each.used_up)
    assert any(after - before == pytest.approx(300 + d, abs=1e-6) for d in (-tank, 0.0, tank))


# Pads


@pytest.mark.parametrize("end", ["front", "back"])
@pytest.mark.parametrize("each", [g for g in GROUNDS if g.presumed], ids=lambda g: g.name)
def test_the_ground_holds_under_the_mat_and_not_under_one_a_centimetre_less(each, end):
    asked = lift(end=end, stance="stabilisers", log=LIGHT) if end == "front" else hooked(log=LIGHT)
    answer = needed_pad(asked, ground=each)
    here = tried(replace(asked, ground=each, mat=answer.value))
    less = tried(replace(asked, ground=each, mat=answer.value - 0.01))
    assert holds(here)
    assert not holds(less)
    assert answer.stopped_by.startswith("ground under the ")
    sound(answer)


def by_hand(asked, whole, load) -> dict[str, float]:
    """What two pads carry on level ground, by moments: along the machine with the front axle.

    On three supports statics alone decides; the pin of the axle holds no roll.
    """
    legs, wheels = asked.machine.stabilisers, asked.machine.wheels
    masses = np.array([whole.mass, 1.10 * asked.needed])
    xs, ys = np.array([whole.x, load[0]], float), np.array([whole.y, load[1]], float)
    total, m_x, m_y = masses.sum(), float(masses @ xs), float(masses @ ys)
    pads = total - (m_x - total * legs.x) / (wheels.wheelbase - legs.x)
    spread = float(legs.pad_spread)
    return {"left": G0 * (pads / 2 + m_y / spread), "right": G0 * (pads / 2 - m_y / spread)}


@pytest.mark.parametrize("slew", [-75.0, 0.0, 75.0])
def test_the_mat_is_that_of_the_moments_about_the_pads(slew):
    """Of every state: tank full or empty, whichever loads the pad more."""
    asked = hooked(log=LIGHT, slew=math.radians(slew))
    posed, clay = reach(asked), ground("firm clay")
    each = [by_hand(asked, whole, load) for whole in posed.wholes for load in posed.loads]
    worst = {side: max(one[side] for one in each) for side in ("left", "right")}
    assert max(one["left"] for one in each) > min(one["left"] for one in each) + 1
    answer = needed_pad(asked, ground=clay)
    carries = (math.pi + 2) * 1.2 * 40e3 / 2  # of c_u at its weak end, with a factor of 2
    side = math.sqrt(max(worst.values()) / carries)
    assert side <= answer.value < side + 0.0101
    found = {str(one.name): one.figure.value for one in answer.details}
    for name, force in worst.items():
        assert found[f"at most on the {name} stabiliser"] == pytest.approx(force, rel=1e-6)


def test_the_machine_alone_can_ask_for_more_than_with_its_log():
    """The pad that a log to the other side relieves still has to carry the machine before it."""
    far = hooked(log=LIGHT, slew=math.radians(75))
    heavy = ground("firm clay")
    answer = needed_pad(far, ground=heavy)
    alone = replace(far, log=replace(far.log, mass_planning=1e-6))
    assert answer.value >= needed_pad(alone, ground=heavy).value


def test_mats_do_not_help_a_pressed_bucket_and_the_answer_says_so():
    asked = lift(log=LIGHT, stance="stabilisers and bucket")
    answer = needed_pad(asked, ground=ground("soft clay"))
    assert answer.value is not None
    assert not answer.at.passes
    assert "bucket corner" in str(answer.notes[1])
    assert "not a lift within the limits" in str(answer.notes[1])


@pytest.mark.parametrize("name", ["unknown", "peat", "fill", "Mud"])
def test_soft_unknown_ground_has_no_presumed_pressure_and_says_what_to_do(name):
    answer = needed_pad(hooked(log=LIGHT), ground=ground(name))
    assert answer.value is None
    assert answer.notes == (Remark("prove_it"),)


def test_on_wheels_it_is_told_what_the_tyres_press_with():
    with pytest.raises(InputError, match=r"front tyre presses with up to \d+ kPa and rock"):
        needed_pad(lift(end="front", log=LIGHT), ground=ground("rock"))
    with pytest.raises(InputError, match="nothing may be presumed"):
        needed_pad(hooked(log=LIGHT, stance="wheels", reach=2.5), ground=ground("peat"))
    with pytest.raises(InputError, match="did you mean firm clay"):
        ground("fim clay")


def test_of_peat_fill_and_mud_nothing_is_presumed():
    assert [g.name for g in GROUNDS if not g.presumed] == ["unknown", "peat", "fill", "mud"]


# Slope


FIRM = {"ground": ground("firm clay"), "mat": 0.9}
JOURNEY = Motion(speed=0.8, turn_radius=6.0, braking=0.3, sinkage=0.02, friction=0.6)
WIRES = Hazards(rules="us", wires_distance=20.0, wires_voltage=1e4, people_distance=20.0)
SLOPED = {
    "a shovel": lambda: lift(end="front", tool="wide front shovel", log=LIGHT),
    "a swing": lambda: lift(log=LIGHT, swing=0.05, slew=0.5, hazards=WIRES, **FIRM),
    "a pressed bucket": lambda: hooked(
        log=LIGHT, stance="stabilisers and bucket", ground=ground("rock"), mat=0.9
    ),
    "a journey": lambda: lift(
        end="front", tool="pallet forks", log=LIGHT, travelling=True, motion=JOURNEY, height=1.0
    ),
    "slewing": lambda: hooked(log=LIGHT, motion=Motion(slew_speed=0.2, slew_stop=1.5)),
    "drawn": lambda: hooked(log=LIGHT, height=0.8, taken=LiftMode(way="drawn"), slew=0.3, **FIRM),
    "one end up": lambda: hooked(
        log=LIGHT, height=0.8, slew=0.0, taken=LiftMode(way="drawn, one end up"), **FIRM
    ),
    "rigging": lambda: hooked(log=LIGHT, gear=Gear(hook_wll=420.0), plate=900.0),
    "a ram": lambda: hooked(
        log=LIGHT, gauge=110e5, slew=0.0, swing=0.15, motion=Motion(friction=0.9)
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", SLOPED)
def test_slopes_over_gravity_equal_the_check_one_by_one(case):
    asked = SLOPED[case]()
    posed = reach(asked).arm
    slopes, headings = np.array([[0.0], [0.01], [0.05], [0.2]]), np.array([-2.0, 0.0, 0.7, 3.0])
    found = np.broadcast_to(allowed_on_slopes(asked, posed, slope=slopes, heading=headings), (4, 4))
    assert found.max() > 0
    for i, slope in enumerate(slopes[:, 0]):
        for j, heading in enumerate(headings):
            site = Site(slope=float(slope), heading=float(heading))
            one = replace(asked, site=site)
            heaviest = max(0.0, (found[i, j] - one.rigging) / one.pull.share)
            assert heaviest == pytest.approx(check(one).heaviest_log, rel=1e-12)


def test_the_ram_of_these_slopes_decides_and_feels_the_swing():
    asked = SLOPED["a ram"]()
    assert check(asked).governs in {"boom ram", "dipper ram"}
    assert check(replace(asked, swing=0.0)).allowed > check(asked).allowed


def test_who_stands_too_near_stands_too_near_on_every_slope():
    asked = hooked(log=LIGHT, slew=0.0, hazards=Hazards(people_distance=0.5))
    assert check(asked).governs.startswith("people")
    found = allowed_on_slopes(asked, reach(asked).arm, slope=np.array([0.0, 0.05]), heading=1.0)
    assert np.all(found == 0)


def test_how_steep_counts_sliding_by_its_angle_of_friction():
    """Braked on its rear wheels only, a machine slides before the angle of friction is reached;
    with all wheels braked it slides at that angle: tan φ = μ."""
    asked = lift(end="front", log=LIGHT, motion=Motion(friction=0.1))
    rear = steepest_slope(asked)
    assert rear.stopped_by == "grip on the ground (braked wheels)"
    assert math.tan(rear.value) < 0.1
    pads = steepest_slope(
        hooked(log=LIGHT, slew=0.0, motion=Motion(friction=0.1), stance="stabilisers and bucket")
    )
    assert math.tan(pads.value) <= 0.1 < math.tan(pads.beyond_value)


def test_a_levelled_machine_is_asked_as_if_it_were_not():
    asked = hooked(log=LIGHT, slew=0.0, **FIRM)
    levelled = steepest_slope(replace(asked, site=Site(slope=0.3, levelled=True)))
    assert levelled.value == steepest_slope(asked).value
    assert not levelled.beyond.lift.site.levelled
    assert any(each.code == "as_unlevelled" for each in levelled.notes)


@pytest.mark.parametrize("name", MACHINES)
@pytest.mark.parametrize("end", ["front", "back"])
def test_the_steepest_slope_passes_whichever_way_uphill_is(name, end):
    asked = lift(name, end=end, log=LIGHT)
    answer = steepest_slope(asked)
    sound(answer)
    for slope in np.linspace(0, answer.value, 4):
        for heading in np.linspace(-math.pi, math.pi, 37):
            site = Site(slope=float(slope), heading=heading)
            assert check(replace(asked, site=site)).passes


def test_a_stated_heading_is_never_worse_than_the_worst():
    asked = hooked(log=LIGHT)
    worst = steepest_slope(asked).value
    for heading in (0.0, 1.5, -1.5, 3.0):
        stated = steepest_slope(asked, heading=heading)
        assert stated.value >= worst
        sound(stated)
        if stated.beyond is not None:
            assert stated.beyond.lift.site.heading == heading


def test_what_does_not_pass_on_the_level_has_no_slope():
    assert steepest_slope(hooked(log=HEAVY)).value is None


# What would buy more


CASES = {
    "too heavy to one side": lambda: hooked(log=HEAVY, reach=3.5, height=1.5),
    "tips": tipping,
    "on its wheels": lambda: hooked(log=TIPS, stance="wheels", reach=3.0, height=1.5),
    "on a slope": lambda: hooked(log=TIPS, site=Site(slope=0.1, heading=-1.5), reach=3.0),
    "front": lambda: lift(end="front", tool="pallet forks", log=HEAVY, height=1.5),
    "passes": lambda: hooked(log=LIGHT),
    "on clay": lambda: hooked(log=LIGHT, ground=ground("firm clay")),
    "a journey": lambda: lift(
        end="front",
        tool="pallet forks",
        log=LIGHT,
        travelling=True,
        motion=replace(JOURNEY, friction=0.3),
        site=Site(slope=0.15, heading=math.pi / 2),
    ),
    "drawn": lambda: hooked(log=LIGHT, height=0.8, taken=LiftMode(way="drawn")),
}


@pytest.mark.parametrize("case", CASES)
def test_every_remedy_is_a_real_gain_that_the_check_gives_again(case):
    asked = CASES[case]()
    before = check(asked)
    base = before.heaviest_log - asked.log.mass_planning
    found = remedies(asked)
    figures = [each for each in found if each.worth is not None]
    for each in figures:
        again = check(each.after.lift)
        gain = again.heaviest_log - each.after.lift.log.mass_planning - base
        assert 1 <= each.worth <= gain + 1e-6
        assert gain < each.worth + 1
        assert each.must
    worths = [each.worth for each in figures]
    assert worths == sorted(worths, reverse=True)
    assert all(each.worth is None for each in found[len(figures) :])


def test_what_each_case_is_offered():
    def offered(case: str) -> str:
        return " | ".join(told(each.name for each in remedies(CASES[case]())))

    assert "closer" in offered("tips")
    assert "press the front bucket" in offered("tips")
    assert "ballast at the right side" in offered("tips")
    assert "stabilisers down" in offered("on its wheels")
    assert "level the machine" in offered("on a slope")
    assert "cut" in offered("too heavy to one side")
    assert "cut" not in offered("passes")
    assert "lower" in offered("front")
    assert "itself has proved" in offered("tips")
    assert "mats of" in offered("on clay")
    assert "go where the ground is level" in offered("a journey")
    assert "itself has proved" not in offered("front")
    left_out = remedies(tipping(), without=("closer", "ballast"))
    assert not {"closer", "more_ballast"} & {each.name.code for each in left_out}


def test_one_end_raised_carries_its_share_and_a_little_more():
    """Statics: W·(balance from the ground end)/(hook from the ground end), never less."""
    asked = tipping()
    found = next(each for each in remedies(asked) if each.name.code == "one_end_at_a_time")
    log, length = asked.log, asked.measure.length
    thin = log.cog_from_butt / (length - 0.3)
    after = found.after.lift
    assert after.log == log
    assert thin < after.pull.share < 1.2 * thin
    assert (
        found.name["end"] == "top"
    )  # the balance point is nearer the butt, so the top is the light end
    assert after.taken == LiftMode(way="one end", ground_end="butt")
    assert found.worked.result == pytest.approx(after.pull.share)


def test_mats_are_worth_what_the_ground_lacks_and_the_least_that_does_is_named():
    asked = tipping()
    on_clay = replace(asked, ground=ground("firm clay"), slew=0.0)
    free = check(replace(on_clay, ground=None))
    found = next(each for each in remedies(on_clay) if each.name.code == "mats_under_pads")
    assert check(on_clay).heaviest_log < free.heaviest_log
    assert found.after.answer.heaviest_log == pytest.approx(free.heaviest_log)
    smaller = replace(on_clay, mat=found.after.lift.mat - 0.2)
    assert check(smaller).heaviest_log < free.heaviest_log - 1
    enough = replace(on_clay, mat=1.5)
    assert not any(each.name.code == "mats_under_pads" for each in remedies(enough))


def test_what_the_rigging_stops_is_advised_on():
    weak = hooked(log=LIGHT, gear=Gear(shackle_wll=150.0))
    assert any(each.name == Remark("heavier", part="shackle") for each in remedies(weak))
    assert not any(each.name.code == "heavier" for each in remedies(hooked(log=LIGHT)))


def test_a_machine_that_was_levelled_is_not_level_on_its_wheels():
    """The other end stands on wheels, which nothing levels: its worth counts the slope."""
    asked = hooked(log=TIPS, site=Site(slope=0.1, heading=-1.5, levelled=True))
    changes = list(KINDS["other end"](asked))
    assert changes
    for each in changes:
        assert each.lift.stance == "wheels"
        assert each.lift.site.leans
    assert not list(KINDS["level"](asked))


def test_a_log_hung_higher_than_it_is_long_is_not_a_one_end_lift():
    high = hooked(log=LIGHT, height=3.05, reach=3.5, slew=0.0)
    assert check(high)
    assert not any(each.name.code == "one_end_at_a_time" for each in remedies(high))


def test_lower_never_means_into_the_ground():
    low = hooked(log=TIPS, reach=2.6, height=1.7, slew=0.0, gauge=130e5)
    lower = check(replace(low, height=1.2))
    assert check(low).lowest > 0
    assert lower.lowest < 0
    assert lower.heaviest_log > check(low).heaviest_log + 1  # it would have been a gain
    assert not any(each.name.code == "lower" for each in remedies(low))


def meets(asked: Lift, reach: float, angle: float) -> bool:
    """Whether a log lying so in plan meets pads, rear tyres or the slew post, point by point."""
    machine, wheels, legs = asked.machine, asked.machine.wheels, asked.machine.stabilisers
    far = max(asked.log.cog_from_butt, asked.measure.length - asked.log.cog_from_butt)
    u, v = np.meshgrid(
        np.linspace(-far, far, 60), np.linspace(-0.5, 0.5, 7) * asked.log.largest_diameter
    )
    x = machine.back.slew_axis_x - reach * math.cos(asked.slew) + u * math.cos(angle)
    y = asked.sideshift + reach * math.sin(asked.slew) + u * math.sin(angle)
    x, y = x - v * math.sin(angle), y + v * math.cos(angle)
    pads = (np.abs(x - legs.x) <= legs.pad_length / 2) & (
        np.abs(np.abs(y) - legs.pad_spread / 2) <= legs.pad_width / 2
    )
    tyres = (np.abs(x) <= wheels.rear_radius) & (np.abs(y) <= wheels.rear_track / 2 + 0.2)
    frame = (x >= legs.x) & (np.abs(y) <= legs.pad_spread / 2)
    post = np.hypot(x - machine.back.slew_axis_x, y - asked.sideshift) <= 0.1
    return bool((pads | tyres | frame | post).any())


def test_no_remedy_hangs_the_log_into_the_machine():
    """Whatever is recommended, from the front and from places too far out or too near."""
    asked = []
    for name in MACHINES:
        size = span(load(name))
        for log in (LIGHT, TIPS, HEAVY):
            asked += [
                lift(
                    name,
                    end="front",
                    tool="front lifting hook",
                    other="lifting hook",
                    log=log,
                    height=0.25 * size,
                    site=Site(slope=slope),
                    # So that the other end, which has no plate, is a gain wherever it holds.
                    plate=20.0,
                )
                for slope in (0.0, 0.1)
            ]
            asked += [
                hooked(name, log=log, reach=share * size, height=0.3 * size, slew=slew)
                for share in (0.3, 0.5, 0.7, 0.9, 1.05)
                for slew in (0.0, 1.3)
            ]
    placed = {"back": 0, "front": 0}
    for each in asked:
        for found in remedies(each, without=tuple(set(KINDS) - {"closer", "other end"})):
            after, must = found.after.lift, found.must
            if after.end == "front" or found.worth is None:
                continue
            placed[each.end] += 1
            # A log square to the boom lies so; any other way only where no line keeps it.
            turns = [] if must.code == "kept_across" else np.linspace(0, math.pi, 90)
            for angle in (math.pi / 2 - after.slew, *turns):
                assert not meets(after, after.reach, angle), (after.reach, angle)
    assert min(placed.values()) >= 10


def test_where_the_machine_cannot_stand_a_remedy_counts_from_nothing():
    asked = hooked(log=LIGHT, height=2.0)
    asked = replace(asked, reach=greatest_reach(asked).value + 0.2)
    assert tried(asked).answer is None
    found = remedies(asked)
    closer = next(each for each in found if each.name.code == "closer")
    assert closer.worth <= check(closer.after.lift).heaviest_log
