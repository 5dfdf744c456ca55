"""Lifts that once were answered better than they are: each stays answered as it should be."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from liftcalc.errors import InputError
from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check
from liftcalc.machines.files import load
from liftcalc.machines.validation import sound
from liftcalc.remarks import Remark
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.lift import parse_lift
from tests.helpers import altered, rebuilt

OAK = {
    "machine": "standard-sideshift", "species": "English oak", "length": "6 m", "butt": "30 cm",
    "mid": "26 cm", "top": "22 cm",
}  # fmt: skip
BACK = OAK | {"end": "back", "reach": "3.5 m", "height": "2 m"}


def told(**words: Any) -> Answer:
    return check(parse_lift(LiftRequest(**words)).lift)


def needs(answer: Answer, name: str) -> tuple[float, float]:
    (found,) = [each.clearance for each in answer.criteria if each.name == name]
    assert found is not None
    return float(found.needs), float(found.has)


@pytest.mark.parametrize("way", ["one end", "drawn"])
def test_the_log_beyond_the_hook_counts_for_people_and_wires(way):
    """Hooked 0.3 m from its end, 5.7 m of the log lie beyond the hook."""
    made = told(**BACK, lifted=way, people="4 m", rules="uk", wires="18 m", wires_on="wood poles")
    assert needs(made, "people")[0] >= 5.7
    assert needs(made, "overhead wires")[1] <= 18 - 3.5 - 5.7 + 1e-9
    assert not made.passes


def test_stabilisers_do_not_take_the_front_axle_off_the_ground():
    """The lever of a front load grows from the rear axle to the pads: the rating allows less."""
    words = OAK | {
        "end": "front",
        "height": "1 m",
        "attachment": "pallet forks",
        "length": "4 m",
        "butt": "60 cm",
        "mid": "55 cm",
        "top": "50 cm",
    }

    def front(answer: Answer) -> float:
        return min(c.capacity for c in answer.criteria if "front axle and tyres" in c.title)

    assert front(told(**words, stance="stabilisers")) < front(told(**words, stance="wheels"))


def test_ground_of_which_nothing_may_be_presumed_is_no_better_than_soft_clay():
    allowed = {
        name: told(**BACK, ground=name, mat="0.9 m").allowed
        for name in ("soft clay", "peat", "mud", "fill", "unknown")
    }
    assert all(each <= allowed["soft clay"] for each in allowed.values())
    assert Remark("unsaid_pressure", ground="peat") in told(**BACK, ground="peat").unchecked


def test_a_machine_is_not_levelled_on_any_slope():
    with pytest.raises(InputError, match="levelled"):
        told(**BACK, slope="30 deg", uphill="90 deg", levelled=True)
    made = told(**BACK, slope="6 deg", uphill="90 deg", levelled=True)
    assert Remark("unsaid_packing") in made.unchecked


@pytest.mark.parametrize("levelled", [True, False])
def test_the_circle_that_is_told_is_the_circle_that_is_checked(levelled):
    made = told(
        **BACK, slew="80 deg", slope="6 deg", uphill="90 deg", levelled=levelled, people="30 m"
    )
    (said,) = [each for each in made.warnings if each.code == "people"]
    assert float(str(said).split()[2]) >= needs(made, "people")[0]


def test_a_basket_off_the_balance_point_is_refused():
    with pytest.raises(InputError, match="tips out"):
        told(**BACK, sling="basket", sling_length="3 m", slung_at="0.5 m")


def test_a_grab_off_the_balance_point_holds_less_and_hangs_lower():
    words = OAK | {
        "end": "back",
        "reach": "3 m",
        "height": "2.5 m",
        "attachment": "log grab with rotator",
        "length": "4 m",
        "butt": "45 cm",
        "mid": "40 cm",
        "top": "36 cm",
    }
    there, off = told(**words), told(**words, slung_at="0.5 m")
    assert off.allowed < there.allowed
    assert off.lowest_tipped < there.lowest_tipped - 1


def test_a_sling_for_a_log_held_fast_is_refused():
    words = OAK | {"end": "front", "height": "1 m", "attachment": "multi-purpose jaw bucket"}
    with pytest.raises(InputError, match="slung-at"):
        told(**words, slung_at="0.2 m")


def test_what_stands_out_beyond_the_hook_counts_for_wires():
    """A short log: the bucket's lip at the front, the boom folded in at the back."""
    short = OAK | {"length": "0.6 m", "butt": "", "top": "", "mid": "30 cm"}
    wires = {"rules": "uk", "wires": "12 m", "wires_on": "wood poles"}
    front = told(
        **short,
        end="front",
        height="2 m",
        attachment="multi-purpose jaw bucket",
        lift_point="eye on the jaw bucket",
        **wires,
    )
    eye = front.lift.point.at
    lip = max(math.dist(map(float, eye), map(float, each)) for each in front.lift.tool.outline)
    assert needs(front, "overhead wires")[1] <= 12 - front.reached.reach - lip + 1e-9
    back = told(**short, end="back", reach="2 m", height="-1 m", sling_length="1.2 m", **wires)
    boom = max(float(joint.pivot.u) for joint in back.reached.arm.joints)
    assert boom > 2.3
    assert needs(back, "overhead wires")[1] <= 12 - boom + 1e-9


def test_a_pressed_bucket_of_unknown_size_is_named():
    machine = load("standard-sideshift")
    bare = machine.model_copy(
        update={
            "attachment": tuple(
                each.model_copy(update={"contact_length": None}) for each in machine.attachment
            )
        }
    )
    lift = parse_lift(LiftRequest(**BACK, stance="stabilisers and bucket", ground="firm clay")).lift
    tools = {each.name: each for each in bare.attachment}
    made = check(replace(lift, machine=bare, other_tool=tools[lift.other_tool.name]))
    assert Remark("unsaid_contact", tool=lift.other_tool.name) in made.unchecked


def test_mats_do_not_lie_on_one_another():
    apart = float(load("standard-sideshift").stabilisers.pad_spread)
    wide, wider = (
        told(**BACK, ground="soft clay", mat=f"{side:.3f} m").allowed for side in (apart, 4.0)
    )
    assert wide == wider


def test_the_uphill_end_of_a_log_is_nearer_to_a_slope():
    level, slope = told(**BACK), told(**BACK, slope="5 deg", uphill="90 deg", friction="0.6")
    rise = 3.0 * math.tan(math.radians(5))
    assert slope.lowest <= level.lowest - rise + 1e-9


def test_on_wheels_a_tyre_that_sinks_stops_the_lift():
    made = told(**BACK, stance="wheels", ground="soft clay")
    sinking = {each.where for each in made.criteria if each.kind == "ground under a tyre"}
    assert sinking == {
        "under the left rear tyre",
        "under the right rear tyre",
        "under the front tyres",
    }
    assert not made.passes


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("wheels__axle_pin_height", 1.4),
        ("chassis__cog_height", 0.05),
        ("wheels__rear_footprint__0", 4.5),
    ],
)
def test_a_machine_that_cannot_be_is_not_sound(key, value):
    machine = load("standard-sideshift")
    sound(rebuilt(machine, lambda _, number: float(number)), file="")
    with pytest.raises(InputError, match="measure again"):
        sound(altered(machine, **{key: value}), file="")
