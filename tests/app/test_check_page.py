"""The page "Check a lift" without a browser: every machine, attachment and fault in words."""

import re
from html import escape
from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from liftcalc.factors import CAUTION
from liftcalc.judgement.judge import judge
from liftcalc.machines.files import load
from liftcalc.reports.words import text
from liftcalc.requests.demo import DEMO
from liftcalc.units import show
from liftcalc.web.html import PLATE
from tests.helpers import MACHINES, plain

APP = Path(__file__).parents[2] / "app.py"
FITTINGS = [
    (name, tool.end, tool.name, point.name)
    for name in MACHINES
    for tool in load(name).attachment
    for point in tool.lift_point
]


@pytest.fixture
def page() -> AppTest:
    return AppTest.from_file(str(APP), default_timeout=30).run()


def pieces(page: AppTest) -> list[str]:
    """Every piece of HTML on the page."""
    return [each.value for each in page.get("html")]


def block(page: AppTest) -> str:
    """The one block that holds the answer, or says why there is none."""
    assert not page.exception
    (found,) = [each for each in pieces(page) if "lc-answer" in each and "<style>" not in each]
    return found


def drawings(page: AppTest) -> int:
    """How many drawings there are, each with a hook to drag or none."""
    return sum("/drawing/" in each.key for each in page.get("bidi_component"))


def switch(page: AppTest, label: str) -> AppTest:
    """Turn on what a page shows on request."""
    next(each for each in page.toggle if each.label == label).set_value(True)
    return page.run()


def answered(page: AppTest) -> bool:
    return "No answer yet" not in block(page)


def key_of(each: Any) -> str:
    """Name of a field's word, whatever lift is open."""
    return re.sub(r"^lift/\d+/", "", each.key or "")


def text_field(page: AppTest, key: str) -> Any:
    return next(each for each in page.text_input if key_of(each) == key)


def choice(page: AppTest, key: str) -> Any:
    return next(each for each in page.selectbox if key_of(each) == key)


def test_first_screen_is_the_demo_answered(page):
    shown, made = block(page), judge(DEMO)[0]
    assert escape(str(made.verdict)) in shown
    assert show(made.allowed, "mass", rounding="down") in shown
    assert show(made.lift.log.mass_planning, "mass", rounding="up") in shown
    assert made.governs in shown
    # A mark and words, not colour alone; and the caution stands inside the answer.
    assert any(mark in shown for mark in "✓!✕")
    assert CAUTION.replace("'", "&#x27;") in shown


def test_every_criterion_and_warning_is_shown(page):
    made, everything = judge(DEMO)[0], "".join(pieces(page))
    for each in made.criteria:
        assert each.title.replace("'", "&#x27;") in everything
    for each in (*made.warnings, *made.unchecked, *made.assumed):
        told = escape(text(each, brief=True).removeprefix("machine: "))
        assert told in everything or told[0].upper() + told[1:] in everything, each
    assert drawings(page) == 2


def test_worked_steps_are_drawn_when_asked_for(page):
    assert "$$" not in "".join(each.value for each in page.markdown)
    switch(page, "Show the working")
    figures = next(each for each in page.selectbox if each.label == "Of which figure")
    # First what would stop the lift.
    assert judge(DEMO)[0].governing.title.lower() in figures.value.lower()
    assert any("Tipping" in title for title in figures.options)
    assert any("Boom ram" in title for title in figures.options)
    assert "$$" in "".join(each.value for each in page.markdown)
    figures.set_value(figures.options[-1])
    page.run()
    assert "".join(each.value for each in page.markdown).count("$$") > 40


def test_what_would_buy_more_is_told_when_asked_for(page):
    assert "Then</th>" not in "".join(pieces(page))
    assert "Then</th>" in "".join(pieces(switch(page, "What would buy more")))


def test_a_sheet_is_made_when_asked_for(page):
    switch(page, "A sheet to print")
    assert not page.exception
    assert "Save the sheet (PDF)" in [each.label for each in page.get("download_button")]


def unsaid(page: AppTest) -> list[tuple[str, str]]:
    """What was not said: the field that each leads to, and its words."""
    return re.findall(r'<li><a href="#([^"]*)">([^<]*)</a></li>', block(page))


@pytest.mark.parametrize("end", ["back", "front"])
def test_what_was_not_said_leads_to_its_field(page, end):
    choice(page, "end").set_value(end)
    page.run()
    if end == "front":
        next(each for each in page.checkbox if key_of(each) == "travelling").set_value(True)
        text_field(page, "height/front").set_value("1.2 m")
    for name in ("ground", "wires_said", "edge_said", "people_said"):
        choice(page, name).set_value("")
    for name in ("sling_kind",) if end == "back" else ():
        choice(page, name).set_value("")
    for each in page.text_input:
        if key_of(each) in ("sling_size", "hook_wll", "shackle_wll", "hitch_wll"):
            each.set_value("")
    page.run()
    found, everything = unsaid(page), "".join(pieces(page))
    made = judge(page.session_state["kept"].said)[0]
    assert len(found) == len(made.unchecked) >= 5
    assert all(f'id="{field}"' in everything for field, _ in found), found
    # Nothing is ticked that was not told.
    assert "lc-ok" not in block(page)
    assert "it cannot be said yet" in block(page)


def test_levelled_on_a_slope_leads_to_its_tick(page):
    text_field(page, "slope").set_value("5 deg")
    next(each for each in page.checkbox if key_of(each) == "levelled").set_value(True)
    page.run()
    assert (
        "field-levelled",
        "Whether the pads stand on steps or packing that cannot slide down the slope",
    ) in unsaid(page)
    assert 'id="field-levelled"' in "".join(pieces(page))


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ({"slope": "12 deg", "levelled": True}, "yes, on a slope of 12.0°"),
        ({"sling": "basket", "slung_at": "1.2 m"}, "1.20 m from the butt, in a basket"),
        ({"sling": "basket", "sling_length": "1.5 m"}, "1.50 m as a basket"),
    ],
)
def test_what_cannot_be_slung_or_stood_so_is_told_beside_its_field(page, said, told):
    for name, word in said.items():
        each = next(
            e for e in (*page.checkbox, *page.selectbox, *page.text_input) if key_of(e) == name
        )
        each.set_value(word)
    page.run()
    assert not answered(page)
    beside = [plain(each) for each in pieces(page) if each.startswith('<p class="lc-fault"')]
    assert any(told in each for each in beside)


def test_a_tick_needs_everything_told_but_the_plate_and_something_to_spare(page):
    assert judge(DEMO)[0].unchecked == (PLATE,)
    # Without warning devices nothing over a ton is lifted, and the log uses most of that.
    assert "lc-close" in block(page)
    choice(page, "devices").set_value("fitted")
    page.run()
    assert "lc-ok" in block(page)
    choice(page, "people_said").set_value("")
    page.run()
    assert "lc-close" in block(page)


def slider(page: AppTest, name: str) -> Any:
    return next(each for each in page.slider if each.label == f"{name}, by slider")


@pytest.mark.parametrize(
    ("name", "to", "field", "word"),
    [
        ("Height", 2.45, "height/back", "2.45 m"),
        ("Reach", 3.2, "reach/back", "3.20 m"),
        ("Slew", -25.0, "slew", "-25 deg"),
    ],
)
def test_a_slider_does_what_the_field_does(page, name, to, field, word):
    slider(page, name).set_value(to)
    page.run()
    assert text_field(page, field).value == word
    by_slider = block(page)
    other = AppTest.from_file(str(APP), default_timeout=30).run()
    text_field(other, field).set_value(word)
    other.run()
    assert block(other) == by_slider
    assert slider(other, name).value == pytest.approx(to)


def test_a_slider_out_of_reach_can_be_moved_back(page):
    slider(page, "Reach").set_value(slider(page, "Reach").max)
    page.run()
    assert not answered(page)
    slider(page, "Reach").set_value(3.0)
    page.run()
    assert answered(page)


def test_a_plate_typed_for_another_place_is_no_tick(page):
    choice(page, "devices").set_value("fitted")
    text_field(page, "plate/back").set_value("1100 kg")
    page.run()
    assert "lc-ok" in block(page)
    slider(page, "Reach").set_value(3.2)
    page.run()
    assert "lc-ok" not in block(page)
    assert "typed for another place" in block(page)
    text_field(page, "plate/back").set_value("1090 kg")
    page.run()
    assert "lc-ok" in block(page)


@pytest.mark.parametrize(("machine", "end", "tool", "point"), FITTINGS)
def test_every_attachment_of_every_machine(page, machine, end, tool, point):
    choice(page, "machine").set_value(machine)
    page.run()
    choice(page, "end").set_value(end)
    page.run()
    choice(page, f"attachment/{end}").set_value(tool)
    page.run()
    choice(page, f"lift_point/{end}").set_value(point)
    known = load(machine)
    if end == "back":
        far = known.back.boom.length + known.back.dipper.length
        text_field(page, "reach/back").set_value(f"{0.66 * far:.2f} m")
        text_field(page, "height/back").set_value(f"{0.3 * far:.2f} m")
    else:
        text_field(page, "height/front").set_value(f"{0.5 * known.front.arm.length:.2f} m")
    page.run()
    assert answered(page), block(page)
    assert drawings(page) == 2


@pytest.mark.parametrize("machine", MACHINES)
@pytest.mark.parametrize("end", ["back", "front"])
def test_a_machine_just_chosen_answers_or_says_why_not(page, machine, end):
    choice(page, "machine").set_value(machine)
    page.run()
    choice(page, "end").set_value(end)
    page.run()
    if not answered(page):
        assert "wanted" in block(page)


def test_all_faults_are_listed_and_stand_beside_their_inputs(page):
    text_field(page, "length").set_value("4.2")
    text_field(page, "reach/back").set_value("4 ton")
    text_field(page, "slew").set_value("nan deg")
    page.run()
    shown = block(page)
    assert "3 things need putting right" in shown
    assert CAUTION.replace("'", "&#x27;") in shown
    beside = [each for each in pieces(page) if each.startswith('<p class="lc-fault">')]
    assert len(beside) == 3
    assert all("wanted" in each for each in beside)
    assert "Traceback" not in shown
    text_field(page, "length").set_value("4.2 m")
    text_field(page, "reach/back").set_value("3.8 m")
    text_field(page, "slew").set_value("40 deg")
    page.run()
    assert answered(page)


@pytest.mark.parametrize(
    ("key", "typed", "told"),
    [
        ("butt", "30 cm", "change the two about"),
        ("butt", "-55 cm", "a log has sizes above zero"),
        ("reach/back", "14 m", "bring the machine or the load nearer"),
        ("reach/back", "3,8 m", "no commas"),
        ("height/back", "", "the height of the lift point"),
        ("slope", "3 kg", "wrong kind"),
        ("slew", "170 deg", "slew"),
    ],
)
def test_a_fault_is_told_in_words(page, key, typed, told):
    text_field(page, key).set_value(typed)
    page.run()
    assert not answered(page)
    assert told in block(page)


@pytest.mark.parametrize("path", ["", "nowhere.toml", "no such machine"])
def test_a_machine_file_that_is_not_there_is_told(page, path):
    choice(page, "machine").set_value("my own machine file")
    page.run()
    text_field(page, "path").set_value(path)
    page.run()
    assert not answered(page)
    assert "machine" in block(page)


def test_a_file_of_ones_own_is_answered_like_any_other(page, tmp_path):
    shipped = APP.parent / "machines" / "standard-sideshift.toml"
    own = tmp_path / "mine.toml"
    own.write_text(
        shipped.read_text("utf-8").replace("Standard loader", "My <old> loader"), "utf-8"
    )
    choice(page, "machine").set_value("my own machine file")
    page.run()
    text_field(page, "path").set_value(str(own))
    page.run()
    assert answered(page)
    assert "My &lt;old&gt; loader" in "".join(pieces(page))
    assert "<old>" not in "".join(pieces(page))


def test_a_file_of_facts_is_answered_with_its_range(page, tmp_path):
    own = tmp_path / "mine.toml"
    own.write_text('class = "standard-sideshift"\ntotal = "7400 kg"\n', "utf-8")
    choice(page, "machine").set_value("my own machine file")
    page.run()
    text_field(page, "path").set_value(str(own))
    page.run()
    assert answered(page)
    told = plain("".join(pieces(page)))
    assert "By what is known of this machine" in told
    assert "Tell of the machine" in told
    assert drawings(page)


@pytest.mark.parametrize("key", ["length", "butt", "reach/back", "slope"])
def test_what_is_typed_never_becomes_markup(page, key):
    evil = "<script>alert(1)</script><img src=x onerror=alert(2)>"
    text_field(page, key).set_value(evil)
    page.run()
    assert not answered(page)
    everything = "".join(pieces(page))
    assert "&lt;script&gt;" in everything
    assert "<script" not in everything
    assert "onerror=alert(2)>" not in everything
    assert all(evil not in each.value for each in page.markdown)


def test_units_change_what_is_shown_and_nothing_else(page):
    page.radio[0].set_value("imperial")
    page.run()
    made = judge(DEMO)[0]
    assert show(made.allowed, "mass", system="imperial", rounding="down") in block(page)
    assert "kg" not in block(page)
    # What was typed is still read as it was typed.
    assert any("Read as 4.2 m." in each for each in pieces(page))


def test_every_input_has_a_label_and_says_how_to_measure(page):
    for end in ("back", "front"):
        choice(page, "end").set_value(end)
        page.run()
        inputs = [*page.text_input, *page.selectbox, *page.checkbox]
        assert all(each.label for each in inputs)
        helped = [each for each in pieces(page) if 'class="lc-help"' in each]
        assert len(helped) == len(inputs)
