"""The page of a machine from a picture, without a browser: what comes back, and what is fitted."""

from __future__ import annotations

import json
import math

import pytest
from streamlit.testing.v1 import AppTest

from liftcalc.family.facts_file import facts_of
from liftcalc.figures.picture_guide import picture_guide
from liftcalc.machines.files import load
from liftcalc.web.photo import KEPT, LENGTHS
from liftcalc.web.photo_widget import Clicked, payload, read_clicks
from studies.scenes import scene
from tests.app.test_other_pages import opened
from tests.helpers import MACHINES

SCENE = scene(3)
CLICKED = Clicked(
    width=SCENE.photograph.width, height=SCENE.photograph.height, clicks=SCENE.photograph.clicks
)


def pictured() -> AppTest:
    """The page with a picture clicked and taped."""
    page = opened("photo")
    page.session_state[KEPT] = CLICKED
    page.selectbox(key="photo/class").set_value(SCENE.photograph.nearest.name)
    for first, second, label, _ in LENGTHS[:3]:
        length = math.dist(SCENE.truth[first], SCENE.truth[second])
        field(page, label).set_value(f"{length:.3f} m")
    return page.run()


def field(page: AppTest, label: str):
    return next(each for each in page.text_input if each.label == label)


def said(page: AppTest) -> str:
    assert not page.exception
    assert not page.error
    return " ".join(each.value for each in page.get("html") if "<style>" not in each.value)


def test_before_a_picture_there_is_no_answer_and_no_fault():
    assert "lc-answer" not in said(opened("photo"))
    assert "lc-fault" not in said(opened("photo"))


def test_pins_come_out_in_either_system_with_their_tolerance():
    page = pictured()
    assert "places, each within" in said(page)
    boom = math.dist(SCENE.truth["foot pin"], SCENE.truth["knuckle"])
    assert f"<td>{boom:.2f}\xa0m</td>" in said(page)
    page.radio[0].set_value("imperial").run()
    assert "\xa0ft" in said(page)
    assert "\xa0m<" not in said(page)


def test_lengths_are_taken_into_the_page_of_the_machine_with_their_tolerance():
    page = pictured()
    next(each for each in page.button if each.label.startswith("Take these")).click().run()
    boom = math.dist(SCENE.truth["foot pin"], SCENE.truth["knuckle"])
    (told,) = facts_of(own_machine_raw(page), file="mine.toml").told[:1]
    assert told.key == "boom_length"
    assert told.value == pytest.approx(boom, abs=0.06)
    assert told.tolerance is not None
    assert 0.001 < told.tolerance < 0.06


def own_machine_raw(page: AppTest) -> dict[str, str]:
    found = {"class": page.session_state["machine/class"]}
    return found | {"boom_length": page.session_state["machine/boom_length/0"]}


def test_a_length_that_cannot_be_read_is_said_beside_it_and_nothing_is_answered():
    page = pictured()
    field(page, LENGTHS[1][2]).set_value("2,7 m")
    page.run()
    assert "no commas" in said(page)
    assert "lc-answer" not in said(page)


def test_a_slip_is_said_and_turns_the_tick():
    page = pictured()
    field(page, LENGTHS[1][2]).set_value("2.1 m")
    page.run()
    assert "does not agree" in said(page)


def test_lengths_alone_or_a_picture_alone_say_what_lacks():
    page = opened("photo")
    page.session_state[KEPT] = CLICKED
    page.run()
    assert "no scale" in said(page)


@pytest.mark.parametrize(
    "junk",
    [
        None,
        [],
        {"size": [4000, 3000]},
        {"size": [4000, True], "clicks": []},
        {"size": [4000, math.nan], "clicks": []},
        {"size": [4000, 3000], "clicks": [["knuckle", 1.0]]},
        {"size": [4000, 3000], "clicks": [["<script>", 1.0, 2.0]]},
        {"size": [4000, 3000], "clicks": [["knuckle", "1", 2.0]]},
        {"size": [4000, 3000], "clicks": [["knuckle", 1.0, 2.0]] * 10_000},
    ],
)
def test_what_is_no_clicks_is_not_taken(junk: object):
    assert read_clicks(junk) is None


def test_clicks_come_back_as_they_were_sent():
    sent = [[each.point, each.u, each.v] for each in CLICKED.clicks]
    assert read_clicks({"size": [4000, 3000], "clicks": sent}) == CLICKED


@pytest.mark.parametrize("machine", MACHINES)
def test_every_point_has_its_place_on_the_drawing_of_every_machine(machine: str):
    sent = payload(picture_guide(load(machine)), None, None, "metric")
    json.dumps(sent, allow_nan=False)
    wide, high = sent["size"]
    assert len(sent["points"]) == 29
    assert all(0 < x < wide and 0 < y < high for x, y in (each["at"] for each in sent["points"]))
