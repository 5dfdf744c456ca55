"""Three verdicts: what is not said is a range, and nobody gains by saying nothing."""

from __future__ import annotations

from dataclasses import replace

import pytest

from liftcalc.errors import InputError
from liftcalc.evaluation.answer import Answer
from liftcalc.judgement.judge import judge
from liftcalc.requests.demo import DEMO
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.usual import USUAL


def answer(**said: object) -> Answer:
    made, _ = judge(replace(DEMO, **said))
    return made


def standing(**said: object) -> str:
    judged = answer(**said).judgement
    assert judged is not None
    return judged.standing


def test_the_demo_holds_for_practice() -> None:
    judged = answer().judgement
    assert judged is not None
    assert (judged.standing, judged.practice, judged.decider) == ("holds", True, None)


@pytest.mark.parametrize("field", ["ground", "wires", "edge", "people", "hook_wll", "shackle_wll"])
@pytest.mark.parametrize("text", ["", "not known"])
def test_without_a_look_round_no_lift_holds(field: str, text: str) -> None:
    said = {field: text} | ({"edge_depth": ""} if field == "edge" else {})
    judged = answer(**said).judgement
    assert judged is not None
    assert judged.standing == "open"
    assert judged.decider is not None
    assert judged.decider.option == field.replace("_", "-")
    assert judged.decider.worth > 0


def test_none_no_mark_and_not_known_are_three_answers() -> None:
    assert standing(hook_wll="unmarked") == "fails"
    assert standing(hook_wll="not known") == "open"
    assert standing(hook_wll="none") == "open"  # neither hook nor shackle joins sling and machine
    assert standing(hook_wll="none", shackle_wll="2 t") == "holds"


def test_far_too_heavy_fails_even_where_all_is_hoped() -> None:
    assert standing(mass="4 t ± 10 kg") == "fails"
    assert standing(mass="4 t ± 10 kg", ground="", people="", wires="") == "fails"


def test_between_the_ends_the_dearest_doubt_is_named() -> None:
    silent = answer()
    assert silent.judgement is not None
    between = (silent.heaviest_log + silent.judgement.hoped) / 2
    judged = answer(mass=f"{between:.1f} kg ± 1 kg").judgement
    assert judged is not None
    assert judged.standing == "open"
    assert judged.decider is not None
    assert judged.decider.worth > 0


@pytest.mark.parametrize("name", sorted(USUAL))
def test_silence_is_the_careful_end(name: str) -> None:
    """Told anything within its usual range, a lift is never worse than told nothing."""
    front = {
        "end": "front", "attachment": "front lifting hook", "height": "2.2 m", "reach": "",
        "slew": "", "travelling": True, "speed": "3 km/h", "mat": "",
    }  # fmt: skip
    there: dict[str, object] = front if name in {
        "speed", "turn_radius", "braking", "sinkage",
    } else {}  # fmt: skip
    silent = answer(**there | {name: ""})
    for text in USUAL[name].texts(silent.lift):
        told = answer(**there | {name: text})
        assert told.heaviest_log >= silent.heaviest_log - 1e-9
        assert told.passes >= silent.passes


def test_fields_with_a_range_are_of_a_lift() -> None:
    assert set(USUAL) <= set(LiftRequest.__dataclass_fields__)


def test_the_height_of_the_logs_underside_stands_for_that_of_the_hook() -> None:
    """A longer sling, which nobody told, puts the hook higher and the log nowhere."""
    told = answer(height="", underside="0.6 m")
    # Told on ground that is level; what it may slope unseen comes off the answer.
    assert 0.5 < told.lowest <= 0.6 + 1e-6
    assert answer(height=f"{told.lift.height:.9f} m").allowed == pytest.approx(told.allowed)
    with pytest.raises(InputError, match="one of underside and height"):
        answer(underside="0.6 m")
    with pytest.raises(InputError, match="height"):
        answer(height="")


@pytest.mark.parametrize("ground", ["rock", "dense gravel", "stiff clay"])
@pytest.mark.parametrize("reach", ["3.8 m", "3.4 m"])
def test_ground_that_nobody_named_makes_no_other_criterion_hope(ground: str, reach: str) -> None:
    """Tolerances, friction and what else has its range inside stay at the careful end."""
    place = {"reach": reach, "devices": "fitted"}
    silent, told = answer(ground="", **place), answer(ground=ground, **place)
    assert not silent.lift.hopeful
    of_told = {each.title: each.allowed for each in told.criteria}
    assert of_told.keys() & {"boom ram", "slew (torque)"}
    for each in silent.criteria:
        assert each.allowed <= of_told.get(each.title, 0.0) * (1 + 1e-9), each.title


CARRIED = {
    "machine": "standard-centre-mount", "end": "front", "attachment": "pallet forks",
    "species": "English / sessile oak", "length": "3 m", "butt": "47 cm", "mid": "45 cm",
    "top": "43 cm", "height": "0.8 m", "reach": "", "slew": "", "mat": "", "sling_length": "",
    "sling_kind": "", "sling_size": "", "hook_wll": "", "shackle_wll": "", "hitch_wll": "",
    "breakout": "", "ground": "hard standing", "travelling": True, "turn_radius": "300 m",
    "braking": "0.5 m/s2", "sinkage": "1 cm", "off_centre": "5 cm", "speed": "4 km/h",
}  # fmt: skip


def test_no_load_is_carried_faster_than_a_walk_or_raised() -> None:
    assert standing(**CARRIED) == "holds"
    assert standing(**CARRIED | {"speed": "20 km/h"}) == "fails"
    assert standing(**CARRIED | {"height": "3 m"}) == "fails"


def test_lowered_fast_or_slewed_across_a_steep_slope_nothing_holds() -> None:
    assert standing(lower_speed="0.3 m/s") == "holds"
    assert standing(lower_speed="2 m/s") == "fails"
    assert standing(slope="8 deg", uphill="-90 deg") == "fails"


def test_how_far_it_is_slewed_has_to_be_told() -> None:
    judged = answer(slew="").judgement
    assert judged is not None
    assert judged.standing == "open"
    assert judged.decider is not None
    assert judged.decider.option == "slew"
    assert standing(slew="0 deg") == "holds"


def test_a_scale_that_tape_and_species_do_not_bear_out_leaves_it_open() -> None:
    judged = answer(mass="67 kg ± 2 kg").judgement
    assert judged is not None
    assert judged.decider is not None
    assert (judged.standing, judged.decider.option) == ("open", "mass")
    assert standing(mass="640 kg ± 20 kg") == "holds"


def test_what_is_hoped_for_is_never_less_than_what_is_allowed() -> None:
    """Weight on the hook helps the wheels pull a drawn log: no one end of hook-at is careful."""
    drawn = CARRIED | {
        "machine": "standard-sideshift", "attachment": "front lifting hook", "height": "1.5 m",
        "species": "European larch", "butt": "58 cm", "mid": "58 cm", "top": "58 cm",
        "mass": "860 kg ± 5 kg", "lifted": "drawn, one end up", "drag_friction": "2",
        "breakout": "1", "off_centre": "", "sling_kind": "chain grade 80", "sling_size": "10 mm",
        "hook_wll": "3.15 t", "shackle_wll": "none", "hitch_wll": "2 t", "speed": "2 km/h",
    }  # fmt: skip
    silent = answer(**drawn)
    assert silent.judgement is not None
    assert silent.judgement.hoped >= silent.heaviest_log
    for at in ("1.8 m", "2.0 m", "2.4 m", "2.7 m"):
        assert answer(**drawn | {"hook_at": at}).heaviest_log >= silent.heaviest_log - 1e-6
