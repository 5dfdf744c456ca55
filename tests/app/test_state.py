"""The lift goes from page to page, into a file and a link and back; hostile ones are only words."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from liftcalc.machines.files import load
from liftcalc.requests import lift_file
from liftcalc.requests.demo import DEMO
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.table import field_of
from liftcalc.web import state
from tests.app.test_check_page import block, choice, key_of, pieces, text_field
from tests.helpers import MACHINES

PAGES = ("check", "compare", "limits", "ask")
GRAB = "log grab with rotator"
EVIL = "<script>alert(1)</script><img src=x onerror=alert(2)>"
FRONT = replace(
    DEMO, end="front", attachment="pallet forks", lift_point="", other_attachment="digging bucket",
    reach="", slew="", height="0.9 m", travelling=True, speed="4 km/h", turn_radius="8 m",
    braking="1.4 m/s2", sinkage="3 cm", slope="2 deg", uphill="90 deg", plate="900 kg",
    sling_length="", sling_kind="", sling_size="", hook_wll="", shackle_wll="", hitch_wll="",
    breakout="",
)  # fmt: skip
SLUNG = replace(
    DEMO, sling="two legs", leg_spread="1.0 m", slung_at="1.9 m", rigging_mass="12 kg",
    sling_wll="3 t", swing="5 deg", slew_speed="10 deg/s", slew_stop="2 s", rules="us",
    wires="40 m", wires_voltage="11 kV", levelled=True, friction="0.3", breakout="1.5",
    mud="20 kg", bark="under", moisture="85 %", empty_seat=True, sideshift="0.2 m",
)  # fmt: skip


def script() -> None:
    """One page after the other in one visit, as ``turn`` says, and a place set by a button."""
    from importlib import import_module

    import streamlit as st

    from liftcalc.web import state

    import_module(f"liftcalc.web.{st.session_state.get('turn', 'check')}").page()
    spot = st.session_state.get("spot", {})
    st.button("Move", key="press/move", on_click=state.place, kwargs=spot)


def opened(**address: Any) -> AppTest:
    app = AppTest.from_function(script, default_timeout=60)
    for name, value in address.items():
        app.query_params[name.replace("_", "-")] = value
    return app.run()


def turn(app: AppTest, page: str) -> AppTest:
    app.session_state["turn"] = page
    return app.run()


def address(app: AppTest) -> dict[str, str]:
    """What stands in the address bar."""
    return {
        name: each if isinstance(each, str) else each[-1] for name, each in app.query_params.items()
    }


def said(app: AppTest) -> LiftRequest:
    found: LiftRequest = app.session_state["kept"].said
    return found


def typed(app: AppTest, key: str, text: str) -> AppTest:
    text_field(app, key).set_value(text)
    return app.run()


def chosen(app: AppTest, key: str, text: str) -> AppTest:
    choice(app, key).set_value(text)
    return app.run()


def upload(app: AppTest, text: str | bytes) -> AppTest:
    data = text if isinstance(text, bytes) else text.encode()
    app.file_uploader[0].set_value(("a.lift.toml", data, "application/toml"))
    return app.run()


def notice(app: AppTest) -> str:
    """What is said of a file or link that was not opened, or not wholly."""
    html = pieces(app)
    return "".join(
        each + html[n + 1]
        for n, each in enumerate(html)
        if "lc-fault" in each and "<section role" in each
    )


def faults_beside(app: AppTest) -> list[str]:
    return [each for each in pieces(app) if each.startswith('<p class="lc-fault">')]


@pytest.mark.parametrize(("page", "machine"), [*zip(PAGES, MACHINES, strict=True)])
def test_every_attachment_on_every_page_is_answered_or_refused_in_words(
    page: str, machine: str
) -> None:
    """Each page on a machine of its own: what an attachment asks is known without pages."""
    app = chosen(turn(opened(), page), "machine", machine)
    for tool in load(machine).attachment:
        if page != "compare":
            app = chosen(app, "end", tool.end)
        app = chosen(app, f"attachment/{tool.end}", tool.name)
        for point in tool.lift_point:
            app = chosen(app, f"lift_point/{tool.end}", point.name)
            assert not app.error
            if "No answer yet" in block(app):
                assert "wanted" in block(app)


def test_machine_log_and_all_else_go_from_page_to_page() -> None:
    app = chosen(opened(), "machine", "small-tractor")
    app = chosen(typed(app, "length", "3.3 m"), "ground", "peat")
    app = chosen(typed(app, "reach/back", "2.2 m"), "attachment/back", GRAB)
    for page in (*PAGES[1:], "check"):
        app = turn(app, page)
        assert choice(app, "machine").value == "small-tractor", page
        assert text_field(app, "length").value == "3.3 m", page
        assert choice(app, "ground").value == "peat", page
        assert choice(app, "attachment/back").value == GRAB, page
    assert text_field(app, "reach/back").value == "2.2 m"
    assert (said(app).machine, said(app).attachment) == ("small-tractor", GRAB)


def test_what_a_page_does_not_show_is_in_no_answer_and_not_forgotten() -> None:
    app = typed(opened(), "slew", "30 deg")
    app = chosen(app, "end", "front")
    assert said(app).slew == ""
    assert said(app).height == "1.5 m"
    app = chosen(turn(app, "compare"), "species", "Norway spruce")
    app = chosen(turn(app, "check"), "end", "back")
    assert (said(app).slew, said(app).species) == ("30 deg", "Norway spruce")
    assert said(app).height == DEMO.height


def test_a_run_leaves_alone_what_is_being_typed() -> None:
    """A field that is set anew by the page would lose what is half typed in it."""
    app = typed(opened(), "length", "4.5 m")
    app = typed(app, "butt", "56 cm")
    fields = [each for each in app.text_input if key_of(each) in ("length", "mid", "slope")]
    assert len(fields) == 3
    assert not any(each.proto.set_value for each in fields)


def test_two_visits_know_nothing_of_each_other() -> None:
    first, second = opened(), opened()
    first = typed(first, "length", "3.3 m")
    second = typed(second, "length", "4.4 m")
    first = turn(first, "ask")
    assert text_field(first, "length").value == "3.3 m"
    assert said(second).length == "4.4 m"


@pytest.mark.parametrize("asked", [DEMO, FRONT, SLUNG], ids=["demo", "front", "slung"])
def test_a_saved_lift_is_opened_as_it_was(asked: LiftRequest) -> None:
    app = upload(typed(opened(), "length", "9 m"), lift_file.write(asked))
    assert notice(app) == ""
    # What was not said is as the page has it: the attachments that are usual there.
    usual = {name: getattr(said(app), name) for name in ("lift_point", "other_attachment")}
    assert said(app) == replace(asked, **{k: getattr(asked, k) or v for k, v in usual.items()})
    assert "No answer yet" not in block(app)
    again = upload(opened(), lift_file.write(said(app)))
    assert said(again) == said(app)
    for page in PAGES[1:]:
        assert text_field(turn(app, page), "length").value == asked.length


@pytest.mark.parametrize("asked", [DEMO, FRONT, SLUNG], ids=["demo", "front", "slung"])
def test_a_link_opens_the_same_lift_in_a_new_visit(asked: LiftRequest) -> None:
    app = upload(opened(), lift_file.write(asked))
    next(each for each in app.button if each.label == "Link to this lift").click()
    app = app.run()
    other = opened(**address(app))
    assert notice(other) == ""
    assert said(other) == said(app)
    assert block(other) == block(app)
    # The address follows what is typed next: it is never that of another lift.
    app = typed(app, "length", "4 m")
    assert address(app)["length"] == "4 m"


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"lenght": "4 m"}, "did you mean length?"),
        ({"machine": "/etc/passwd"}, "in a link, one of"),
        ({"machine": "../machines/small-tractor.toml"}, "in a link, one of"),
        ({"length": "9" * 300_000}, "300000 characters"),
        ({"x": EVIL}, "not known"),
        ({EVIL: "1"}, "not known"),
        ({"machine": EVIL}, "in a link, one of"),
        ({"length": ["4 m", "5 m"]}, "2 times"),
        ({"units": EVIL}, "metric or imperial"),
        ({f"k{n}": "1" for n in range(500)}, "500 names"),
    ],
)
def test_a_hostile_link_is_refused_and_the_page_still_answers(
    given: dict[str, Any], told: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[str] = []
    monkeypatch.setattr("liftcalc.web.form.load", lambda name: read.append(name) or load(name))
    app = opened(**given)
    assert told in notice(app)
    assert said(app).length == DEMO.length
    assert set(read) <= set(MACHINES)
    assert "No answer yet" not in block(app)
    everything = "".join(pieces(app))
    assert "<script>alert" not in everything
    assert "<img src=x" not in everything
    assert len(notice(app)) < 2000


@pytest.mark.parametrize(
    "name",
    [
        "length",
        "species",
        "ground",
        "attachment",
        "end",
        "stance",
        "sling-size",
        "moisture",
        "lifted",
        "people",
    ],
)
def test_a_script_in_a_link_is_refused_beside_its_field(name: str) -> None:
    asked = replace(DEMO, **{name.replace("-", "_"): EVIL})
    app = opened(**lift_file.parameters(asked))
    assert notice(app) == ""
    assert "No answer yet" in block(app)
    assert any("&lt;script&gt;" in each for each in faults_beside(app))
    everything = "".join(pieces(app))
    assert "<script>alert" not in everything
    assert "onerror=alert(2)>" not in everything
    # Titles of folds are Markdown: what was typed stays text there as well.
    assert all("<script>" not in each.label for each in app.expander)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (EVIL, "not TOML"),
        (b"\xff\xfe\x00", "not text in UTF-8"),
        ("lift-file = 99", "newer liftcalc"),
        ('lift-file = 1\nlenght = "4 m"', "did you mean length?"),
        ("#" * 200_000, "at most"),
        (f'lift-file = 1\n"{EVIL}" = "1"', "&lt;script&gt;"),
    ],
)
def test_a_file_that_is_no_lift_is_refused_and_nothing_changes(
    text: str | bytes, told: str
) -> None:
    app = upload(typed(opened(), "length", "4.4 m"), text)
    assert told in notice(app)
    assert said(app).length == "4.4 m"
    assert "<script>alert" not in "".join(pieces(app))
    assert notice(upload(app, lift_file.write(DEMO))) == ""


def test_what_does_not_go_with_an_opened_lift_is_named() -> None:
    app = upload(opened(), lift_file.write(replace(DEMO, travelling=True, speed="5 km/h")))
    assert "travelling" in notice(app)
    assert "speed" in notice(app)


@pytest.mark.parametrize(
    ("key", "text", "told"),
    [
        ("mat", "9 m", field_of(LiftRequest, "mat").bounds),
        ("friction", "3 kg", "wrong kind"),
        ("sling_size", "10", "unit is missing"),
        ("sling_wll", "2 ton", "not one unit"),
        ("hook_wll", "-1 t", "more than zero"),
        ("shackle_wll", "nan kg", "not a number"),
        ("hitch_wll", "90 t", "at most"),
        ("breakout", "0.5", "1 to 5"),
        ("slew_speed", "20 m", "wrong kind"),
        ("edge", "far", "one length"),
        ("edge_depth", "", "depth"),
        ("edge", "", "an edge without it"),
    ],
)
def test_a_fault_of_a_new_field_stands_beside_it(key: str, text: str, told: str) -> None:
    app = typed(opened(), key, text)
    assert told in block(app)
    assert any(told in each for each in faults_beside(app))


@pytest.mark.parametrize(
    ("key", "text", "told"),
    [
        ("speed", "4 m", "wrong kind"),
        ("turn_radius", "0 m", field_of(LiftRequest, "turn_radius").bounds),
        ("braking", "12 m/s2", "9.8"),
        ("sinkage", "2 m", field_of(LiftRequest, "sinkage").bounds),
    ],
)
def test_a_fault_of_the_journey_stands_beside_it(key: str, text: str, told: str) -> None:
    app = typed(upload(opened(), lift_file.write(FRONT)), key, text)
    assert told in block(app)
    assert any(told in each for each in faults_beside(app))


def test_wires_need_whose_rules_and_say_so_there() -> None:
    app = chosen(opened(), "wires_said", state.FAR)
    assert said(app).wires == ""
    app = typed(app, "wires", "40 m")
    assert any("uk or us" in each for each in faults_beside(app))
    app = chosen(app, "rules", "uk")
    assert faults_beside(app) == []
    app = chosen(app, "wires_said", "none")
    assert (said(app).wires, said(app).rules) == ("none", "")


def test_titles_of_folds_tell_what_is_said_in_them() -> None:
    app = typed(opened(), "mud", "40 kg")
    titles = [each.label for each in app.expander]
    assert "Bark, moisture, mud, root plate: mud 40 kg" in titles
    (fold,) = [each for each in app.expander if each.label.startswith("Bark")]
    assert fold.proto.expanded


@pytest.mark.parametrize(
    ("end", "spot", "there"),
    [
        ("back", {"reach": 3.52, "height": 2.9}, {"reach": "3.52 m", "height": "2.90 m"}),
        ("back", {"reach": 3.5, "slew": 0.5235987756}, {"reach": "3.50 m", "slew": "30 deg"}),
        ("back", {"reach": 3.50004}, {"reach": "3.5 m"}),
        ("back", {"slew": -0.8}, {"slew": "-45.83 deg"}),
        ("front", {"height": 1.204999999}, {"height": "1.205 m", "reach": ""}),
        ("front", {"height": 1.2, "slew": 0.5}, {"height": "1.20 m", "reach": "", "slew": ""}),
    ],
)
def test_a_place_that_was_dragged_becomes_typed_text(
    end: str, spot: dict[str, float], there: dict[str, str]
) -> None:
    app = chosen(opened(), "end", end)
    app.session_state["spot"] = spot
    app.run()
    app.button(key="press/move").click()
    app.run()
    assert {name: getattr(said(app), name) for name in there} == there
    name = next(iter(there))
    shown = text_field(app, name if name == "slew" else f"{name}/{end}")
    assert shown.value == there[name]
    assert "No answer yet" not in block(app)


def test_a_front_reach_that_was_typed_gives_way_to_a_dragged_height() -> None:
    app = typed(chosen(opened(), "end", "front"), "reach/front", "1.1 m")
    app.session_state["spot"] = {"height": 1.2}
    app.run()
    app.button(key="press/move").click()
    app.run()
    assert (said(app).height, said(app).reach) == ("1.20 m", "")


def test_a_place_is_told_in_the_units_chosen_and_they_are_remembered() -> None:
    app = opened()
    app.radio[0].set_value("imperial")
    app.session_state["spot"] = {"reach": 3.52, "height": 2.9}
    app.run()
    assert address(app)["units"] == "imperial"
    app.button(key="press/move").click()
    app.run()
    # 3.52 / 0.3048 and 2.9 / 0.3048.
    assert (said(app).reach, said(app).height) == ("11.549 ft", "9.514 ft")
    assert turn(app, "limits").radio[0].value == "imperial"
    again = opened(units="imperial")
    assert again.radio[0].value == "imperial"
    assert address(again)["units"] == "imperial"
    assert notice(again) == ""
    again.radio[0].set_value("metric")
    assert "units" not in again.run().query_params
