"""The machine's condition: each rule against a second derivation, and what it bars and what not."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from liftcalc.errors import InputError
from liftcalc.evaluation.check import check, reach
from liftcalc.evaluation.condition import ITEMS
from liftcalc.evaluation.evaluator import Evaluator
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.linear_criteria import pad_area
from liftcalc.evaluation.sweep import sweep
from liftcalc.judgement.judge import judge
from liftcalc.machines.condition import DEFECTS, PER_MINUTE, Condition
from liftcalc.machines.schema import Machine
from liftcalc.questions.steepest import allowed_on_slopes
from liftcalc.remarks import Remark
from liftcalc.requests.demo import DEMO
from liftcalc.requests.lift import parse_lift
from liftcalc.site.site import Site
from liftcalc.units import G0
from tests.helpers import lift, told

HOOK = {"tool": "lifting hook", "reach": 4.2, "height": 1.8}
FORKS = {"end": "front", "tool": "pallet forks", "height": 0.6, "stance": "wheels"}


def strong(**asked: Any) -> Lift:
    """A lift that the rating of its hook never governs."""
    base = lift(**asked)
    return replace(base, point=base.point.model_copy(update={"wll": 1e5}))


def in_condition(base: Lift, **found: Any) -> Lift:
    return replace(base, condition=Condition(**found))


def test_a_sound_machine_and_one_of_which_nobody_told_are_answered_alike() -> None:
    base = lift(**HOOK)
    sound = in_condition(
        base, creep=10 * PER_MINUTE, play=0.01, stabiliser_creep=PER_MINUTE, faults=()
    )
    one, two = check(base), check(sound)
    assert one.allowed == two.allowed
    assert [each.title for each in one.criteria] == [each.title for each in two.criteria]


def test_rams_that_creep_are_counted_for_less_in_proportion() -> None:
    base = lift(**HOOK)
    # Half way from 10 to 100 mm a minute: half way from all to half of their force.
    worn = reach(in_condition(base, creep=55 * PER_MINUTE))
    for before, after in zip(reach(base).rams, worn.rams, strict=True):
        assert after.push == pytest.approx(0.75 * before.push, rel=1e-12)
        assert after.pull == pytest.approx(0.75 * before.pull, rel=1e-12)
    said = check(in_condition(base, creep=55 * PER_MINUTE)).warnings
    assert "The hook creeps: the rams are counted for 75 % of their force." in told(said)


@pytest.mark.parametrize("swing", [0.0, 0.1])
def test_with_play_a_kilogram_hangs_as_far_off_as_the_play(swing: float) -> None:
    """Straight back on the level: its moment about the line through both pads, by hand."""
    base = lift(**HOOK, slew=0.0, swing=swing)
    loose = in_condition(base, play=0.03)
    (line,) = [each for each in reach(base).lines if each.line.name == "over both stabilisers"]
    (off,) = [each for each in reach(loose).lines if each.line.name == line.line.name]
    assert off.holding_moment == pytest.approx(line.holding_moment, rel=1e-12)
    more = abs(off.load_unit_moment) - abs(line.load_unit_moment)
    assert more == pytest.approx(0.03 * G0 * math.cos(swing), rel=1e-9)


def test_with_play_a_hanging_load_goes_to_the_worse_side() -> None:
    """Straight back, both sides alike: about a side line it hangs off by the play's share."""
    base = lift(**HOOK, slew=0.0, swing=0.05)
    plain, loose = reach(base), reach(in_condition(base, play=0.03))
    for one, two in zip(plain.lines, loose.lines, strict=True):
        assert two.tipping_load < one.tipping_load or math.isinf(one.tipping_load)
    assert {round(y, 9) for _, y, _ in loose.loads} == {-0.03, 0.03}


@pytest.mark.parametrize("swing", [0.0, 0.05])
def test_with_play_maps_take_the_worse_side_as_a_check_does(swing: float) -> None:
    for slew in (0.9, -0.9):
        loose = in_condition(strong(**HOOK, slew=slew, swing=swing), play=0.05)
        made, evaluator = check(loose), Evaluator(loose)
        tipping = evaluator.least(made.reached.arm, kinds={"tipping"}).load
        (told_of_it,) = [each for each in made.criteria if each.kind == "tipping"]
        assert float(tipping) == pytest.approx(told_of_it.allowed, rel=1e-9)


def test_a_stabiliser_that_sinks_leans_the_machine_whichever_way() -> None:
    """5 mm a minute for five minutes is 25 mm over the pads' spread: as told slopes, one by one."""
    base = strong(**HOOK, slew=0.4, site=Site())
    spread = float(base.machine.stabilisers.pad_spread)
    steep = math.atan(math.sqrt(2) * 0.025 / spread)
    leaned = [
        check(replace(base, site=Site(slope=steep, heading=way))).allowed
        for way in (0.0, math.pi / 2, math.pi, -math.pi / 2)
    ]
    worn = check(in_condition(base, stabiliser_creep=5 * PER_MINUTE))
    assert worn.allowed == pytest.approx(min(*leaned, check(base).allowed), rel=1e-9)


@pytest.mark.parametrize("slope", [0.0, math.radians(4)])
def test_of_a_levelled_machine_that_leans_all_that_levelling_asks_is_still_asked(
    slope: float,
) -> None:
    site = Site(slope=slope, heading=math.pi / 2, levelled=True)
    base = strong(**HOOK, site=site)
    worn = in_condition(base, stabiliser_creep=5 * PER_MINUTE)
    assert check(worn).allowed < check(base).allowed
    sites = {each.site.levelled for each in worn.ways}
    assert sites == {True, False}


def test_the_steepest_slope_counts_what_a_stabiliser_gives_way() -> None:
    base = replace(strong(**HOOK), condition=Condition(stabiliser_creep=5 * PER_MINUTE))
    arm = reach(base).arm
    for slope, heading in ((0.0, 0.0), (0.03, 1.0), (0.06, -2.0)):
        asked = replace(base, site=Site(slope=slope, heading=heading))
        (found,) = np.ravel(
            allowed_on_slopes(base, arm, slope=np.array([slope]), heading=np.array([heading]))
        )
        assert found == pytest.approx(check(asked).allowed, rel=1e-9)


def test_a_soft_tyre_takes_off_the_ratings_of_what_it_carries() -> None:
    base = lift(**FORKS)
    rating = float(base.machine.wheels.front_axle_rating or 0.0)

    def capacity(of: Lift) -> float:
        (found,) = [e for e in check(of).criteria if e.where == "(front axle and tyres)"]
        return found.capacity

    # The load comes on the axle from ahead of it: what is lost is at least what hangs there less.
    lost = capacity(base) - capacity(in_condition(base, faults=("soft tyre",)))
    arm = reach(base).load[0] / float(base.machine.wheels.wheelbase)
    assert lost >= 0.3 * rating / arm
    # A load behind takes off the front axle, which stands on its tyres as before.
    back = lift(**HOOK)
    assert in_condition(back, faults=("soft tyre",)).tyre_share == 1.0
    assert check(in_condition(back, faults=("soft tyre",))).allowed == check(back).allowed


def test_on_a_soft_tyre_a_machine_leans_by_five_centimetres_over_its_track() -> None:
    base = lift(**FORKS)
    wheels = base.machine.wheels
    narrow = min(float(wheels.rear_track), float(wheels.front_track))
    soft = in_condition(base, faults=("soft tyre",))
    assert soft.sunk == pytest.approx(0.05 / narrow)
    one, two = (
        min(line.tipping_load for line in check(each).reached.lines) for each in (base, soft)
    )
    assert two < one


def test_without_its_pad_a_stabiliser_stands_on_its_bare_foot_whatever_lies_below() -> None:
    base = lift(**HOOK)
    for mat in (None, 1.0):
        assert pad_area(in_condition(replace(base, mat=mat), faults=("missing pad",))) <= 0.12**2
    assert pad_area(base) > 0.12**2


BACK, PRESSED, FRONT, CARRIED = "back", "pressed", "front", "carried"
LIFTS: dict[str, dict[str, Any]] = {
    BACK: HOOK,
    PRESSED: {**HOOK, "stance": "stabilisers and bucket"},
    FRONT: FORKS,
    CARRIED: {**FORKS, "travelling": True},
}
BARRED = {
    "cracked weld": {BACK, PRESSED, FRONT, CARRIED},
    "worn eye": {BACK, PRESSED},
    "back hose": {BACK, PRESSED},
    "front hose": {PRESSED, FRONT, CARRIED},
    "stabiliser hose": {BACK, PRESSED},
    "loose clamp": {BACK, PRESSED},
    "missing pad": set(),
    "soft tyre": {CARRIED},
    "cut tyre": {FRONT, CARRIED},
    "weak brake": {CARRIED},
    "slack steering": {CARRIED},
}


@pytest.mark.parametrize("fault", DEFECTS)
def test_a_fault_bars_its_kinds_of_lift_and_no_other(fault: Any) -> None:
    for name, asked in LIFTS.items():
        # As a map asks it, of no log: a fault needs none.
        found = check(in_condition(lift(**asked), faults=(fault,)))
        stopped = [each for each in found.criteria if each.kind == "condition"]
        assert bool(stopped) is (name in BARRED[fault]), name
        assert all(each.allowed == 0 and math.isinf(each.utilisation) for each in stopped)
        if stopped:
            assert found.allowed == 0
            assert not found.passes


@pytest.mark.parametrize(
    ("found", "barred"),
    [
        ({"creep": 99 * PER_MINUTE}, False),
        ({"creep": 101 * PER_MINUTE}, True),
        ({"play": 0.059}, False),
        ({"play": 0.061}, True),
        ({"stabiliser_creep": 9.9 * PER_MINUTE}, False),
        ({"stabiliser_creep": 10.1 * PER_MINUTE}, True),
    ],
)
def test_wear_is_borne_up_to_its_limit(found: Any, barred: bool) -> None:
    made = check(in_condition(lift(**HOOK), **found))
    (kept,) = [each for each in made.criteria if each.kind == "wear"]
    assert (kept.allowed == 0) is barred
    assert (made.allowed == 0) is barred


def test_weak_brakes_hold_a_standing_machine_on_the_level_only() -> None:
    for slope, barred in ((0.015, False), (0.025, True)):
        site = Site(slope=math.atan(slope), heading=0.0)
        made = check(in_condition(lift(**FORKS, site=site), faults=("weak brake",)))
        assert any(each.kind == "wear" and each.allowed == 0 for each in made.criteria) is barred


def test_a_map_is_barred_like_a_lift() -> None:
    base = in_condition(lift(**HOOK), faults=("back hose",))
    found = sweep(base, reach=np.array([3.0, 3.6]), height=np.array([2.0, 2.0]))
    assert np.all(found.allowed == 0)


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("", None),
        ("not known", None),
        ("none", ()),
        ("soft tyre", ("soft tyre",)),
        ("Soft-tyre,  back hose, soft tyre", ("soft tyre", "back hose")),
    ],
)
def test_faults_are_told_by_their_words(text: str, read: Any) -> None:
    assert parse_lift(replace(DEMO, faults=text)).lift.condition.faults == read


def test_a_word_that_is_no_fault_is_refused_with_the_nearest() -> None:
    with pytest.raises(InputError, match="did you mean back hose"):
        parse_lift(replace(DEMO, faults="soft tyre, back hoze"))


def test_who_says_nothing_of_the_machine_is_told_to_walk_round_it_and_no_more() -> None:
    silent, sound = judge(replace(DEMO, faults=""))[0], judge(DEMO)[0]
    assert Remark("unsaid_condition") in silent.unchecked
    assert Remark("unsaid_condition") not in sound.unchecked
    assert silent.judgement is not None
    assert silent.judgement.standing == "holds"
    assert silent.allowed == sound.allowed


def test_the_items_tell_every_fault_once_and_are_read(standard: Machine) -> None:
    told_by = [item.told(standard) for item in ITEMS if item.field == "faults"]
    assert sorted(told_by) == sorted(set(DEFECTS))
    for item in ITEMS:
        parse_lift(replace(DEMO, **{item.field: item.told(standard)}))


@pytest.fixture
def standard() -> Machine:
    return lift().machine
