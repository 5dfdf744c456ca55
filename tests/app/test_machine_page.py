"""The page of one's own machine, without a browser: facts in, what it may lift, slips, files."""

from __future__ import annotations

import re
import tomllib

import pytest
from streamlit.testing.v1 import AppTest

from liftcalc.family.facts_file import facts_of, known, written
from liftcalc.family.kind import CLASSES
from liftcalc.judgement.usual_lift import allowed_there
from liftcalc.machines.files import load
from liftcalc.web import own_machine
from tests.app.test_state import script, turn, typed

FACTS = {
    "class": "standard-sideshift",
    "total": "7400 kg",
    "rated_back": ["900 kg, reach 3.6 m, height 1 m", "1200 kg, reach 3 m, height 1 m"],
}


def opened() -> AppTest:
    page = AppTest.from_function(script, default_timeout=60)
    page.session_state["turn"] = "machine"
    return page.run()


def said(page: AppTest) -> str:
    assert not page.exception
    assert not page.error
    html = " ".join(x.value for x in page.get("html") if "<style>" not in x.value)
    return re.sub(r"<img[^>]*>", "", html).replace("\xa0", " ")


def chosen(name: str = "standard-sideshift") -> AppTest:
    page = opened()
    next(each for each in page.button if each.label == load(name).title).click()
    return page.run()


def tell(page: AppTest, fact: str, text: str, row: int = 0) -> AppTest:
    page.text_input(key=own_machine.key_of(fact, row)).set_value(text)
    return page.run()


def told() -> AppTest:
    page = tell(chosen(), "total", "7400 kg")
    for row, text in enumerate(FACTS["rated_back"]):
        tell(page, "rated_back", text, row)
    return page


def shown_at_the_back(page: AppTest) -> list[float]:
    """The ends of the range at the back hook [kg]."""
    cell = re.search(r"Hook at the back.*?<dd>(.*?)</dd>", said(page))
    assert cell is not None
    return [float(each.replace(" ", "")) for each in re.findall(r"([\d ]+) kg", cell.group(1))]


@pytest.mark.parametrize("name", CLASSES)
def test_every_class_answers_once_it_is_chosen(name: str) -> None:
    page = chosen(name)
    assert "its class alone" in said(page)
    assert len(shown_at_the_back(page)) == 2
    assert "lc-fault" not in said(page)


def test_what_is_shown_is_what_the_machine_of_these_facts_is_allowed() -> None:
    page = told()
    assert "known by 3 facts" in said(page)
    there = allowed_there(known(facts_of(FACTS, file="any.toml")))
    assert there is not None
    low, high = shown_at_the_back(page)
    assert there.low - 1 < low <= there.low
    assert there.high - 1 < high <= there.high
    # The row of the chart that is farthest out is where the usual lift is, and caps it.
    assert "3.60 m out" in said(page)
    assert high <= 900


def test_under_the_fact_told_last_stands_what_is_allowed_now() -> None:
    page = tell(chosen(), "total", "7400 kg")
    low, high = (f"{each:,.0f}".replace(",", " ") for each in shown_at_the_back(page))
    lines = re.findall(r'<p class="lc-help">([^<]*)</p>', said(page))
    assert any(f"between {low} kg and {high} kg" in each for each in lines)


def test_a_figure_without_its_unit_is_told_beside_it_and_nothing_is_answered() -> None:
    page = tell(told(), "wheelbase", "2.13")
    assert "No answer yet" in said(page)
    assert said(page).count("lc-fault") == 1
    assert "Hook at the back" not in said(page)
    assert "known by 4 facts" in said(tell(page, "wheelbase", "2.13 m"))


def test_a_slip_is_named_beside_its_field_with_the_likely_figure_and_what_to_look_at() -> None:
    page = tell(chosen(), "boom_length", "3.9 m")
    (line,) = re.findall(r'<p class="lc-fault">(.*?)</p>', said(page))
    assert "3.90 m is unlikely" in line
    given, likely = map(float, re.findall(r"([\d.]+) m (?:as told|as is likely)", line))
    assert "teeth reach on the ground" in line
    # The boom alone is longer, or the whole machine is larger by the same share, or between.
    meant = float(re.search(r"class, ([\d.]+) m", line).group(1))  # type: ignore[union-attr]
    assert 3.9 - meant - 0.05 < given - likely < likely * (3.9 / meant - 1) + 0.05


def test_what_is_saved_is_opened_again_and_what_is_no_such_file_is_refused() -> None:
    page = told()
    raw = page.session_state[own_machine.LAST][0]
    text = written(raw)
    assert tomllib.loads(text) == FACTS
    before = shown_at_the_back(page)
    fresh = opened()
    refused = give(fresh, b'class = "no such"\n')
    assert "lc-fault" in said(refused)
    again = give(fresh, text.encode())
    assert shown_at_the_back(again) == before


def give(page: AppTest, content: bytes) -> AppTest:
    """The page after a file was given to it."""
    page.get("file_uploader")[0].set_value(("mine.toml", content, "application/toml"))
    return page.run()


def test_the_machine_is_used_on_the_other_pages_and_follows_what_is_told() -> None:
    page = told()
    next(each for each in page.button if each.label == "Use this machine").click()
    page.run()
    own = page.session_state["kept"].own
    assert own.machine.known_by == "3 facts"
    tell(page, "wheelbase", "2.13 m")
    assert page.session_state["kept"].own.machine.known_by == "4 facts"
    other = turn(page, "check")
    box = next(each for each in other.selectbox if each.label == "Machine")
    assert box.value == "my own machine"
    assert "nineteen of twenty" in said(typed(other, "reach/back", "3 m"))
