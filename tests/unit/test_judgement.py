"""Three verdicts: what is not said is a range, and nobody gains by saying nothing."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

import liftcalc
from liftcalc.errors import InputError
from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check
from liftcalc.judgement.judge import judge
from liftcalc.requests.demo import DEMO
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.usual import USUAL, ranged


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


@pytest.fixture
def measured(tmp_path: Path) -> str:
    """A machine file of which one figure has a tolerance."""
    shipped = Path(liftcalc.__file__).parents[1] / "machines" / "standard-sideshift.toml"
    book = 'value = "190 bar", tolerance = "20 bar"'
    text = re.sub(r"working_pressure = .*", f"working_pressure = {{ {book} }}", shipped.read_text())
    file = tmp_path / "measured.toml"
    file.write_text(text, encoding="utf-8")
    return str(file)


def test_ground_and_machine_are_each_their_own_doubt(measured: str) -> None:
    ranges = ranged(replace(DEMO, machine=measured, ground="firm clay"))
    hoped, on_weak, worn = (
        {each.title: each for each in check(ranges.at(doubts)).criteria}
        for doubts in ((), ("ground",), ("machine",))
    )
    weaker, less = (
        {each.kind for name, each in made.items() if each.allowed < hoped[name].allowed}
        for made in (on_weak, worn)
    )
    assert weaker == {"ground under a pad"}
    assert "ram" in less
    on_weak_pads, on_worn_pads = (
        min(each.allowed for each in made.values() if each.kind == "ground under a pad")
        for made in (on_weak, worn)
    )
    assert on_weak_pads < on_worn_pads


def test_a_doubt_of_the_machine_is_named_where_it_decides(measured: str) -> None:
    """All told but one figure of the machine, and a log between its ends."""
    told: dict[str, object] = {"machine": measured, "pressure": "", "mass": "500 kg ± 1 kg"}
    usual = {name: each for name, each in USUAL.items() if name in ranged(DEMO).doubts}
    told |= {name: each.texts(answer(**told).lift)[1] for name, each in usual.items()}
    told |= {"ground": "concrete", "hangs_level": True, "slope": "0 deg"}
    worn = answer(**told)
    assert worn.judgement is not None
    between = (worn.heaviest_log + worn.judgement.hoped) / 2
    judged = answer(**told | {"mass": f"{between:.1f} kg ± 1 kg"}).judgement
    assert judged is not None
    assert judged.decider is not None
    assert (judged.standing, judged.decider.option) == ("open", "machine")


@pytest.mark.parametrize(
    ("rules", "field", "texts"),
    [
        ("uk", "wires_on", ("wood poles", "steel towers")),
        ("us", "wires_voltage", ("400 V", "33 kV", "400 kV", "1000 kV")),
    ],
)
@pytest.mark.parametrize("away", ["12 m", "18 m", "40 m"])
def test_what_carries_the_wires_is_a_range(
    rules: str, field: str, texts: tuple[str, ...], away: str
) -> None:
    """It fails unsaid only where it fails whatever is told, and holds only where all of it does."""
    near = {"wires": away, "rules": rules}
    told = {standing(**near, **{field: text}) for text in texts}
    assert standing(**near) == (told.pop() if len(told) == 1 else "open")


@pytest.mark.parametrize("height", ["1.4 m", "2.2 m", "2.8 m", "3 m"])
def test_a_sling_that_nobody_told_may_be_too_short_or_too_long(height: str) -> None:
    """On the move a longer one keeps the log low, a shorter one off the ground."""
    carried = CARRIED | {
        "attachment": "front lifting hook", "height": height, "sling_kind": "chain grade 80",
        "sling_size": "13 mm", "hook_wll": "5 t", "shackle_wll": "none", "hitch_wll": "5 t",
        "breakout": "1", "off_centre": "",
    }  # fmt: skip
    silent = answer(**carried)
    assert silent.judgement is not None
    lengths = USUAL["sling_length"].texts(ranged(replace(DEMO, **carried)).told.lift)
    told = [answer(**carried | {"sling_length": each}) for each in lengths]
    assert silent.passes <= min(each.passes for each in told)
    assert (silent.judgement.standing == "fails") <= all(
        each.judgement is not None and each.judgement.standing == "fails" for each in told
    )


def test_nothing_may_be_fitted_at_the_other_end() -> None:
    """It weighs nothing: the same as an attachment without mass, by the same masses."""
    ranges = ranged(replace(DEMO, other_attachment="none"))
    assert "other_attachment" not in ranges.doubts
    aboard = {each.name: each.mass for each in check(ranges.told.lift).reached.standing.lumps}
    fitted = check(ranged(DEMO).told.lift).reached.standing.lumps
    assert aboard["none"] == 0
    (gone,) = {each.name for each in fitted} - set(aboard)
    assert gone == ranged(DEMO).told.lift.other_tool.name
    assert standing(other_attachment="none", stance="stabilisers") == "holds"
    with pytest.raises(InputError, match="pressed on the ground"):
        answer(other_attachment="none", stance="stabilisers and bucket")


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
