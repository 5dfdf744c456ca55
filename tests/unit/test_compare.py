"""Front against back: the same log at the same two places, and a reason that fits the figures."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest

from liftcalc.errors import InputError
from liftcalc.evaluation.check import check
from liftcalc.evaluation.underside import with_underside
from liftcalc.questions.compare import compare, unchecked_of
from liftcalc.remarks import Remark
from liftcalc.requests.compare import EndPlan, Place, Room, parse_compare
from liftcalc.requests.fields_of_commands import CompareRequest
from liftcalc.site.ground import ground
from liftcalc.site.hazards import Hazards
from tests.helpers import MACHINES, lift, load, plain, told

LOG = {
    "species": "european larch", "length": "3.2 m", "butt": "36 cm", "mid": "33 cm", "top": "30 cm",
}  # fmt: skip
PICK = Place(name="pick-up", height=0.1, reach=3.3)
ABOVE = Place(name="set-down", height=1.0, reach=3.3)
ASIDE = Place(name="set-down", height=1.0, reach=3.0, slew=1.2)


def plans(machine="standard-sideshift", *, front="", back="lifting hook", log=None, **site):
    return {
        "front": EndPlan(lift=lift(machine, end="front", tool=front, log=log or LOG, **site)),
        "back": EndPlan(lift=lift(machine, end="back", tool=back, log=log or LOG, **site)),
    }


def found(*, set_down=ABOVE, bunk=None, **more):
    return compare(**plans(**more), pick_up=PICK, set_down=set_down, bunk=bunk)


TOOLS = [
    (name, tool.name, point.name)
    for name in MACHINES
    for tool in load(name).attachment
    for point in tool.lift_point
]


@pytest.mark.parametrize(("name", "tool", "point"), TOOLS)
def test_the_underside_of_the_log_is_where_it_was_asked(name, tool, point):
    """Whatever holds it: hook, grab, forks, shovel, jaw."""
    end = next(a.end for a in load(name).attachment if a.name == tool)
    asked = lift(name, end=end, tool=tool, point=point, log=LOG)
    for height in (0.6, 0.4, 0.0, -0.5, -1.0):
        try:
            posed = with_underside(asked, height=height)
        except InputError:
            continue
        assert check(posed).lowest == pytest.approx(height, abs=1e-8)
        return
    pytest.fail("no height can be reached")


def test_an_end_is_as_good_as_its_worse_place_and_every_figure_is_the_checks():
    both = found(set_down=ASIDE)
    for end in both.ends:
        answers = [check(each.outcome.lift) for each in end.places]
        assert end.allowed == min(each.allowed for each in answers)
        assert end.utilisation == max(each.utilisation for each in answers)
        mass = end.places[0].outcome.lift.log.mass_planning
        assert end.margin == min(each.heaviest_log for each in answers) - mass
        assert end.passes is all(each.passes for each in answers)


def test_the_slew_between_two_places_counts_where_it_is_worse_than_either():
    """On wheels both ends of a slew to the other side may pass, and its middle not."""
    one, two = (Place(name=PICK.name, height=0.4, reach=3.3, slew=s) for s in (-0.8, 0.8))
    both = compare(**plans(), pick_up=one, set_down=replace(two, name="set-down"))
    for asked in (
        lift("standard-sideshift", tool="lifting hook", log=LOG, stance=stance)
        for stance in ("stabilisers", "wheels")
    ):
        back = EndPlan(lift=asked)
        made = compare(
            front=plans()["front"], back=back, pick_up=one, set_down=replace(two, name="set-down")
        ).back
        slews = [step * 0.1 - 0.8 for step in range(1, 16)]
        margins = []
        for slew in slews:
            posed = with_underside(replace(asked, reach=3.3, slew=slew), height=0.4)
            margins.append(check(posed).heaviest_log - asked.log.mass_planning)
        assert made.margin <= min(margins) + 1.0
    assert [each.place.name for each in made.places] == ["pick-up", "set-down", "between"]
    assert abs(made.places[2].place.slew) < 0.2
    assert made.worse is made.places[2]
    assert len(both.front.places) == 2


def test_the_front_drives_where_the_places_are_not_one_above_the_other():
    standing, driving = found(), found(set_down=ASIDE)
    assert not standing.front.drives
    assert driving.front.drives
    assert not driving.back.drives
    assert all(each.outcome.lift.travelling for each in driving.front.places)
    assert driving.front.utilisation > standing.front.utilisation
    assert Remark("must_drive_low") in driving.front.must


def test_the_lesser_used_end_is_recommended_with_its_figures():
    for set_down in (ABOVE, ASIDE):
        both = found(set_down=set_down)
        assert both.front.passes
        assert both.back.passes
        best = min(both.ends, key=lambda each: each.utilisation)
        assert both.choice == best.end
        said = [int(each) for each in re.findall(r"(\d+) %", plain(str(both.reason)))]
        assert said[0] == math.ceil(100 * best.utilisation)
        assert said[1] == math.ceil(100 * max(each.utilisation for each in both.ends))
        assert said[0] <= said[1] <= 100


def test_the_only_end_that_passes_is_recommended_and_the_other_says_what_it_lacks():
    log = {**LOG, "length": "3.5 m", "butt": "55 cm", "mid": "49 cm", "top": "44 cm"}
    aside = replace(ASIDE, slew=1.45, reach=4.0)
    both = found(log=log, set_down=aside)
    assert not both.back.passes
    assert both.front.passes
    assert both.choice == "front"
    lacks = int(re.search(r"back end lacks (\d+) kg at set-down", plain(str(both.reason)))[1])
    assert 0 <= lacks - -both.back.margin < 1
    assert both.back.margin < 0 < both.front.margin
    assert str(both.back.worse.outcome.stopped_by) in str(both.reason)


def test_neither_says_why_for_both():
    log = {**LOG, "length": "9 m", "butt": "58 cm", "mid": "56 cm", "top": "54 cm"}
    both = found(log=log)
    assert both.choice is None
    assert str(both.reason).startswith("Neither")
    assert str(both.reason).count("lacks") == 2
    assert all(each.margin < 0 for each in both.ends)


def test_a_place_out_of_reach_is_no_answer_for_the_end_and_says_what_is_in_the_way():
    both = found(set_down=Place(name="set-down", height=3.5, reach=3.3))
    assert both.back.places[1].outcome.answer is None
    assert both.back.allowed == 0
    assert both.back.margin == -math.inf
    assert "cannot be done at set-down" in str(both.reason)


def test_a_jaw_opens_in_the_bunk_or_not_and_nothing_is_claimed_where_a_size_is_missing():
    bunk = Room(width=2.0, height=1.8)
    asked = plans()
    unknown = compare(**asked, pick_up=PICK, set_down=ABOVE, bunk=bunk)
    assert len(unknown.front.unknown) == 2
    assert not unknown.front.blocked
    wide = replace(asked["front"], opened=Room(width=2.1, height=1.0))
    shut = compare(front=wide, back=asked["back"], pick_up=PICK, set_down=ABOVE, bunk=bunk)
    (said,) = told(shut.front.blocked)
    assert "2.10 m of width, the bunk has 2.00 m" in said
    assert not shut.front.passes
    assert shut.choice == "back"
    assert "cannot let go" in str(shut.reason)
    slim = replace(asked["front"], opened=Room(width=1.5, height=1.0))
    opens = compare(front=slim, back=asked["back"], pick_up=PICK, set_down=ABOVE, bunk=bunk)
    assert opens.front.passes
    assert not opens.front.unknown
    level = replace(asked["front"], opened=Room(width=2.0, height=1.0))
    touching = compare(front=level, back=asked["back"], pick_up=PICK, set_down=ABOVE, bunk=bunk)
    assert touching.front.blocked


def test_a_sling_needs_no_room_and_a_grab_does():
    bunk = Room(width=2.0)
    assert not found(bunk=bunk).back.unknown
    grab = found(bunk=bunk, back="log grab with rotator").back
    assert Remark("room_of_bunk", across="height") in grab.unknown
    assert Remark("room_of_bunk", across="width") not in grab.unknown
    assert found(bunk=bunk, front="pallet forks").front.unknown


def test_what_must_be_true_follows_the_stance_and_the_ground():
    both = found()
    assert Remark("must_hold_pads") in both.back.must
    assert Remark("bucket_uncounted") in both.back.must
    assert any("level within 1 %" in each for each in told(both.front.must))
    asked = plans()
    pressed = replace(
        asked["back"], lift=replace(asked["back"].lift, stance="stabilisers and bucket")
    )
    both = compare(front=asked["front"], back=pressed, pick_up=PICK, set_down=ABOVE)
    assert Remark("must_press_bucket") in both.back.must


def test_what_was_not_said_is_told_for_the_end_it_is_about():
    both = found()
    ground, hook = Remark("unsaid_ground"), Remark("unsaid_hook")
    assert {ground, hook} <= set(both.back.unchecked)
    of_both = unchecked_of(both)
    assert ground in of_both
    assert Remark("of_end", end="back", what=hook) in of_both
    assert Remark("of_end", end="front", what=ground) not in of_both
    assert any(each.startswith("Back end: the working load limit") for each in told(of_both))
    assert "as far as it was told" in str(both.reason)


def test_ground_and_chain_are_among_what_must_be_true():
    unsaid = told(found().back.must)
    assert any("kN under the" in each for each in unsaid)
    both = found(ground=ground("firm clay"), mat=1.5)
    feet = [
        foot
        for each in both.back.places
        for foot in each.outcome.answer.ground_forces.feet
        if "stabiliser" in foot.name
    ]
    # Firm clay: 40 kPa at its weak end, (π + 2)·1.2 under a square, a factor of 2.
    side = math.sqrt(max(foot.worst for foot in feet) / ((math.pi + 2) * 1.2 * 40e3 / 2))
    said = next(each for each in told(both.back.must) if each.startswith("firm clay"))
    assert 0 <= float(re.search(r"([0-9.]+) m square", said)[1]) - side < 0.01
    times = next(each for each in told(both.back.must) if each.startswith("chain or sling"))
    assert "1.00 times the log" in times  # standing, what is rated holds the jolt itself
    grab = found(back="log grab with rotator").back
    assert not any(each.code == "must_carry_log" for each in grab.must)


def test_a_distance_that_is_not_kept_is_no_lack_of_kilograms():
    near = Hazards(rules="uk", wires_distance=12.0)
    both = found(hazards=near)
    assert both.choice is None
    assert str(both.reason).count("overhead wires: needs") == 2
    assert "lacks" not in str(both.reason)


ASKED = CompareRequest(
    machine="standard-sideshift", species="european larch", length="3 m", butt="36 cm",
    top="30 cm", pick_height="0.1 m", pick_reach="3.3 m", set_height="1 m",
    back_attachment="lifting hook", front_attachment="pallet forks",
)  # fmt: skip


def test_what_is_typed_is_what_is_compared():
    read = parse_compare(
        replace(
            ASKED,
            set_slew="40 deg",
            front_tilt="5 deg",
            back_stance="wheels",
            slope="3 deg",
            uphill="0 deg",
            bunk_width="2 m",
            back_open_width="1 m",
            pressure="180 bar",
        )
    )
    assert read.set_down == Place(
        name="set-down", height=1.0, reach=3.3, slew=pytest.approx(math.radians(40))
    )
    assert read.front.lift.tool.name == "pallet forks"
    assert read.front.lift.other_tool.name == "lifting hook"
    assert read.front.lift.tilt == pytest.approx(math.radians(5))
    assert read.back.lift.other_tool.name == "pallet forks"
    assert read.back.lift.stance == "wheels"
    assert read.front.lift.stance == "wheels"
    assert read.back.opened == Room(width=1.0)
    assert read.bunk == Room(width=2.0)
    assert {each.lift.gauge for each in (read.front, read.back)} == {180e5}
    for each in (read.front, read.back):
        assert each.lift.site.slope == pytest.approx(math.radians(3))
    assert parse_compare(ASKED).bunk is None


def test_what_only_the_back_end_does_is_not_asked_of_the_front():
    only_back = {"sideshift": "0.3 m", "slew_speed": "20 deg/s", "slew_stop": "1 s"}
    sloping = {"slope": "3 deg", "uphill": "0 deg", "levelled": True, "front_stance": "stabilisers"}
    read = parse_compare(replace(ASKED, **only_back, **sloping))
    front, back = read.front.lift, read.back.lift
    assert (back.sideshift, back.site.levelled) == (0.3, True)
    assert back.motion.slew_speed == pytest.approx(math.radians(20))
    # It drives to the log: what brought it level does not go with it.
    assert (front.sideshift, front.motion.slew_speed, front.site.levelled) == (0.0, 0.0, False)


def test_every_fault_is_told_once_under_the_name_of_its_option():
    with pytest.raises(InputError) as caught:
        parse_compare(
            replace(
                ASKED,
                species="",
                pick_height="",
                pick_reach="3",
                set_slew="400 deg",
                bunk_width="wide",
            )
        )
    named = [each.field for each in caught.value.faults]
    assert sorted(named) == ["bunk-width", "pick-height", "pick-reach", "set-slew", "species"]
