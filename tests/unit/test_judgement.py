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
    for end in (USUAL[name].careful, USUAL[name].favourable):
        text = end if isinstance(end, str) else end(silent.lift)
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
