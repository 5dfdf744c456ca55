"""The pages beside "Check a lift", without a browser: every machine, both ends, faults in words."""

from __future__ import annotations

import re

import pytest
from streamlit.testing.v1 import AppTest

from liftcalc.factors import CAUTION
from liftcalc.requests.fields_of_commands import QUESTIONS
from tests.app.test_check_page import key_of, switch
from tests.helpers import MACHINES

PAGES = ("compare", "limits", "ask")


def opened(name: str) -> AppTest:
    """One page on its own."""

    def script(name: str) -> None:
        from importlib import import_module

        import_module(f"liftcalc.web.{name}").page()

    return AppTest.from_function(script, args=(name,), default_timeout=60).run()


def block(page: AppTest) -> str:
    """The one block that holds the answer, or says why there is none; never a traceback."""
    assert not page.exception
    assert not page.error
    html = [each.value for each in page.get("html")]
    (found,) = [each for each in html if "lc-answer" in each and "<style>" not in each]
    assert CAUTION.split(".")[0].replace("'", "&#x27;") in found
    return found


def choose(page: AppTest, key: str, value: str) -> AppTest:
    next(each for each in page.selectbox if key_of(each) == key).set_value(value)
    return page.run()


def type_in(page: AppTest, key: str, value: str) -> AppTest:
    next(each for each in page.text_input if key_of(each) == key).set_value(value)
    return page.run()


@pytest.mark.parametrize(("name", "machine"), [*zip(PAGES, MACHINES[1:], strict=True)])
def test_every_page_answers_or_refuses_in_words_for_another_machine(
    name: str, machine: str
) -> None:
    page = choose(opened(name), "machine", machine)
    assert block(page)
    if name != "compare":
        assert block(choose(page, "end", "front"))


def test_first_screens_answer() -> None:
    for name in PAGES:
        assert "No answer yet" not in block(opened(name)), name


@pytest.mark.parametrize("question", QUESTIONS)
def test_every_question_is_answered(question: str) -> None:
    assert "No answer yet" not in block(choose(opened("ask"), "question", question))


@pytest.mark.parametrize("name", PAGES)
def test_a_fault_is_said_in_words_and_a_script_is_only_text(name: str) -> None:
    page = type_in(opened(name), "length", "4 ton")
    assert "short ton" in block(page)
    page = type_in(page, "length", "<script>alert(1)</script>")
    assert "<script>" not in block(page)
    assert "&lt;script&gt;" in block(page)


def test_a_log_too_heavy_is_refused_with_what_would_help() -> None:
    page = opened("check")
    for key, size in (("length", "7 m"), ("butt", "74 cm"), ("mid", "72 cm"), ("top", "70 cm")):
        page = type_in(page, key, size)
    assert "lc-no" in block(page)
    page = switch(page, "What would buy more")
    assert any("Then</th>" in each.value for each in page.get("html"))


def test_what_was_typed_is_kept_from_page_to_page() -> None:
    def script() -> None:
        import streamlit as st

        from liftcalc.web import ask, check

        (ask if "turn" in st.session_state else check).page()

    both = AppTest.from_function(script, default_timeout=60).run()
    both = type_in(both, "length", "3.3 m")
    both.session_state["turn"] = True
    both.run()
    assert next(each for each in both.text_input if key_of(each) == "length").value == "3.3 m"


def test_a_page_that_fails_says_so_and_shows_no_traceback(monkeypatch: pytest.MonkeyPatch) -> None:
    from liftcalc.web import ask, check, compare, limits

    def fail(*_: object) -> None:
        raise RuntimeError("made to fail")

    drawn = (
        ("ask", ask, "_shown"),
        ("compare", compare, "_shown"),
        ("limits", limits, "_show"),
        ("check", check, "details"),
    )
    for name, module, draws in drawn:
        monkeypatch.setattr(module, draws, fail)
        page = opened(name)
        assert not page.exception
        assert any("do not lift" in each.value for each in page.error)


def test_a_map_never_says_yes_to_a_lift() -> None:
    """A map of one slew and one height is no word on the rest."""
    for machine in ("standard-sideshift", "small-tractor"):
        page = choose(choose(opened("limits"), "machine", machine), "end", "back")
        assert "lc-ok" not in block(page)


def test_the_headline_of_the_maps_tells_each_its_own_share() -> None:
    said = block(choose(opened("limits"), "end", "back"))
    assert "Reach by height" in said
    assert "Slew by reach" in said
    assert said.count("of the cells that can be reached") + said.count("nowhere allowed") == 2


def test_a_figure_is_not_a_pass_when_the_plate_forbids_the_lift() -> None:
    page = type_in(choose(opened("ask"), "question", "pressure"), "plate/back", "500 kg")
    assert "lc-ok" not in block(page)


def test_a_comparison_carries_its_doubts() -> None:
    page = opened("compare")
    assert any(
        "Between the two places only the slew is checked" in each.value for each in page.get("html")
    )
    page = opened("limits")
    assert any("Not checked here" in each.value for each in page.get("html"))


@pytest.mark.parametrize("name", ["compare", "ask"])
def test_no_link_to_a_field_is_dead(name: str) -> None:
    page = choose(opened(name), "ground", "")
    found = re.findall(r'href="#(field-[^"]*)"', block(page))
    everything = "".join(each.value for each in page.get("html"))
    assert "field-ground" in found
    assert any(each.endswith("plate") for each in found)
    assert all(f'id="{each}"' in everything for each in found), found
