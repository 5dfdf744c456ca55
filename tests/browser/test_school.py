"""The school in a real browser: predict, move, see; one's own record; what an instructor sees."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from playwright.sync_api import Browser, ConsoleMessage, Page, expect

from liftcalc.school.files import lessons
from liftcalc.units import SPACE
from tests.browser.test_check_page import FINGER, SHOTS, SIZES, VIEWS, widths
from tests.browser.waiting import painted, ran, settled

NUMBERS = {each.id: each.title for each in lessons()}
WHERE = {"Lessons": "lessons", "Drills": "drills", "Instructor": "instructor"}
SMALL = """least => [...document.querySelectorAll(
  '.stMain button, .stMain input, .stMain [role=radiogroup] label')]
  .filter(e => e.checkVisibility() && !e.matches('label input, [data-baseweb=select] input'))
  .filter(e => !e.closest('[data-testid=stElementToolbar]') && e.type !== 'file')
  .filter(e => e.getBoundingClientRect().height < least - 0.5)
  .map(e => e.outerHTML.slice(0, 160))"""
Open = Callable[..., Page]


@pytest.fixture
def visit(browser: Browser, address: str) -> Iterator[Open]:
    """Opens one of the pages; afterwards nothing may have gone wrong in the console."""
    wrong: list[str] = []
    contexts = []

    def start(title: str, size: str = "laptop", scheme: str = "light", **more: str) -> Page:
        width, height = SIZES[size]
        context = browser.new_context(
            viewport={"width": width, "height": height}, color_scheme=scheme, **more
        )
        contexts.append(context)
        page = context.new_page()
        page.on("console", lambda said: wrong.append(said.text) if _matters(said) else None)
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.goto(f"{address}/{WHERE[title]}")
        expect(page.get_by_role("heading", name=title, level=1)).to_be_visible(timeout=60_000)
        expect(page.locator(".lc-question").first).to_be_visible(timeout=30_000)
        return page

    yield start
    for context in contexts:
        context.close()
    assert not wrong


def _matters(said: ConsoleMessage) -> bool:
    # A page opened by its own address first looks for its server beside it, and finds it above.
    return said.type == "error" and "_stcore" not in said.location.get("url", "")


def go(page: Page, title: str) -> None:
    """To another page by its link, which on a phone is behind the menu."""
    menu = page.get_by_test_id("stExpandSidebarButton")
    behind = menu.is_visible()
    if behind:
        menu.click()
    page.get_by_role("link", name=title).first.click()
    if behind:
        page.get_by_test_id("stSidebarCollapseButton").get_by_role("button").click()
        expect(menu).to_be_visible()
    expect(page.get_by_role("heading", name=title, level=1)).to_be_visible(timeout=30_000)


def choose(page: Page, lesson: str) -> None:
    field = page.get_by_role("combobox", name="Lesson")
    option = page.get_by_role("option", name=NUMBERS[lesson])
    for _ in range(5):
        settled(page)
        field.click()
        with suppress(AssertionError):
            # A page that is just being drawn closes its lists.
            expect(option).to_be_visible(timeout=1500)
            break
    ran(page, option.click)
    expect(page.locator(".lc-question")).to_be_visible()


def guess(page: Page, text: str) -> None:
    field = page.get_by_label("Your prediction", exact=True)
    field.fill(text)
    ran(page, lambda: field.press("Enter"))
    page.get_by_role("button", name="That is my prediction").click()


def shot(page: Page, name: str) -> None:
    SHOTS.mkdir(parents=True, exist_ok=True)
    width = page.viewport_size["width"] if page.viewport_size else 0
    tall = page.evaluate(
        "document.querySelector('[data-testid=stMainBlockContainer]').scrollHeight"
    )
    size = page.viewport_size
    page.set_viewport_size({"width": width, "height": int(tall) + 80})
    painted(page)
    page.screenshot(path=SHOTS / f"{name}.png")
    if size:
        page.set_viewport_size(size)


def fits(page: Page) -> None:
    """Nothing scrolls sideways, and what is pressed is large enough for a finger."""
    held, shown = widths(page)
    assert held <= shown
    settled(page)
    # At once, so that nothing is drawn anew between two of them.
    small = page.evaluate(SMALL, FINGER)
    assert not small


@pytest.mark.parametrize(("size", "scheme"), VIEWS)
def test_a_lesson_is_guessed_then_played_and_explained(visit: Open, size: str, scheme: str) -> None:
    page = visit("Lessons", size, scheme)
    choose(page, "reach-and-tipping")
    assert page.get_by_text("At the machine").count() == 0
    fits(page)
    shot(page, f"lesson-before-{size}-{scheme}")
    guess(page, "-20 %")
    expect(page.locator(".lc-verdict")).to_be_visible(timeout=30_000)
    expect(page.get_by_role("heading", name="At the machine")).to_be_visible()
    step = page.get_by_role("slider", name="Step of the move")
    expect(step).to_have_value("6", timeout=15_000)
    first = page.locator(".step .value").inner_text()
    step.focus()
    page.keyboard.press("Home")
    expect(page.locator(".step .value")).not_to_have_text(first)
    page.keyboard.press("End")
    fits(page)
    shot(page, f"lesson-after-{size}-{scheme}")
    page.get_by_text("Show the working").click()
    expect(page.locator(".katex-display").first).to_be_visible(timeout=15_000)
    held, shown = widths(page)
    assert held <= shown


def test_who_wants_less_motion_is_played_nothing(visit: Open) -> None:
    page = visit("Lessons", reduced_motion="reduce")
    choose(page, "reach-and-tipping")
    guess(page, "-20 %")
    step = page.get_by_role("slider", name="Step of the move")
    expect(step).to_be_visible(timeout=30_000)
    page.wait_for_timeout(2_000)
    expect(step).to_have_value("0")
    page.get_by_role("button", name="Play the move").click()
    expect(step).to_have_value("6", timeout=15_000)


@pytest.mark.parametrize("size", ["laptop", "phone"])
@pytest.mark.parametrize("lesson", ["farthest-reach", "balance-point"])
def test_a_place_is_dragged_on_the_drawing(visit: Open, size: str, lesson: str) -> None:
    page = visit("Lessons", size)
    choose(page, lesson)
    stage = page.locator(".stage.takes")
    stage.scroll_into_view_if_needed()
    box = stage.bounding_box()
    assert box is not None
    field = page.get_by_label("Your prediction", exact=True)
    expect(field).to_have_value("")
    page.mouse.move(box["x"] + 0.6 * box["width"], box["y"] + 0.5 * box["height"])
    page.mouse.down()
    page.mouse.move(box["x"] + 0.3 * box["width"], box["y"] + 0.5 * box["height"], steps=5)
    page.mouse.up()
    expect(field).not_to_have_value("", timeout=15_000)
    # On the drawing a number keeps its unit beside it; a field is typed with plain blanks.
    dragged = page.locator(".mark .said").inner_text().replace(SPACE, " ")
    expect(field).to_have_value(dragged)
    fits(page)
    shot(page, f"lesson-{lesson}-{size}")
    page.get_by_role("button", name="That is my prediction").click()
    expect(page.locator(".lc-verdict")).to_be_visible(timeout=30_000)
    shot(page, f"lesson-{lesson}-after-{size}")


@pytest.mark.parametrize("lesson", ["when-not-to-lift", "rated-chart", "walk-round", "side-slope"])
def test_other_kinds_of_lessons_fit_a_phone(visit: Open, lesson: str) -> None:
    page = visit("Lessons", "phone", "dark")
    choose(page, lesson)
    fits(page)
    if page.get_by_role("radiogroup", name="Your prediction").count():
        page.get_by_role("radiogroup", name="Your prediction").locator("label").nth(1).click()
        page.get_by_role("button", name="That is my prediction").click()
    else:
        guess(page, "-20 %")
    expect(page.get_by_role("heading", name="At the machine")).to_be_visible(timeout=30_000)
    fits(page)
    shot(page, f"lesson-{lesson}-phone")


@pytest.mark.parametrize(("size", "scheme"), VIEWS)
def test_drills_are_kept_in_ones_own_file_and_shown_to_an_instructor(
    visit: Open, size: str, scheme: str, tmp_path: Path
) -> None:
    page = visit("Drills", size, scheme)
    for number in range(3):
        guess(page, ["2 m", "1 m"][number % 2] if page.locator(".stage.takes").count() else "700")
        expect(page.locator(".lc-verdict")).to_be_visible(timeout=30_000)
        if number < 2:
            page.get_by_role("button", name="Next drill").click()
            expect(page.locator(".lc-verdict")).to_have_count(0, timeout=30_000)
            settled(page)
    expect(page.get_by_text("3 attempts of this visit not saved yet")).to_be_visible()
    fits(page)
    shot(page, f"drill-{size}-{scheme}")
    with page.expect_download() as saved:
        page.get_by_role("button", name="Save the record").click()
    record = tmp_path / "mine.jsonl"
    saved.value.save_as(record)
    told = [json.loads(line) for line in record.read_text("utf-8").splitlines()]
    assert len(told) == 3
    # Half a line, and a name that would be markup.
    evil = {**told[0], "skill": "<img src=x onerror=alert(1)>"}
    record.write_text(
        record.read_text("utf-8") + json.dumps(evil) + '\n{"liftcalc school": 1, "at"', "utf-8"
    )
    go(page, "Instructor")
    hostile = tmp_path / "photo.png"
    hostile.write_bytes(b"\x89PNG\r\n\x00<script>alert(2)</script>")
    page.locator("input[type=file]").set_input_files([record, hostile])
    expect(page.get_by_text("Where judgement stands")).to_be_visible(timeout=30_000)
    expect(page.locator(".lc-fault").first).to_be_visible()
    expect(page.get_by_text("<img src=x onerror=alert(1)>").first).to_be_visible()
    assert page.locator("img[src=x]").count() == 0
    page.get_by_role("button", name="Make a one-page summary").click()
    with page.expect_download(timeout=60_000) as made:
        page.get_by_role("button", name="Save the summary (PDF)").click()
    assert Path(made.value.path()).read_bytes().startswith(b"%PDF")
    fits(page)
    shot(page, f"instructor-{size}-{scheme}")
