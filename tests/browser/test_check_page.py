"""A few journeys through "Check a lift" in a real browser, on a laptop and on a phone."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.waiting import painted, settled

SHOTS = Path(__file__).parents[2] / "build" / "screenshots"
SIZES = {"laptop": (1366, 850), "phone": (390, 844)}
VIEWS = [(size, scheme) for size in SIZES for scheme in ("light", "dark")]
FINGER = 44
"""Least height of a target [px]."""

Open = Callable[..., Page]


@pytest.fixture
def visit(browser: Browser, address: str) -> Iterator[Open]:
    """Opens the page at a size; afterwards nothing may have gone wrong in the console."""
    wrong: list[str] = []
    contexts = []

    def start(size: str = "laptop", scheme: str = "light", *, wait: bool = True) -> Page:
        width, height = SIZES[size]
        context = browser.new_context(
            viewport={"width": width, "height": height}, color_scheme=scheme
        )
        contexts.append(context)
        page = context.new_page()
        page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.goto(address, wait_until="load" if wait else "commit")
        if not wait:
            return page
        expect(page.locator(".lc-verdict")).to_be_visible(timeout=60_000)
        expect(page.locator("table.lc-table").first).to_be_attached()
        settled(page)
        return page

    yield start
    for context in contexts:
        context.close()
    assert not wrong


def type_in(page: Page, label: str, text: str) -> None:
    field = page.get_by_label(label, exact=True)
    field.fill(text)
    field.press("Enter")


def widths(page: Page) -> tuple[int, int]:
    """Width of what the page holds, and of what it shows."""
    held = page.evaluate(
        "Math.max(document.documentElement.scrollWidth,"
        " ...[...document.querySelectorAll('.stMain')].map(e => e.scrollWidth))"
    )
    return held, page.evaluate("window.innerWidth")


@pytest.mark.parametrize(("size", "scheme"), VIEWS)
def test_first_screen(visit: Open, size: str, scheme: str) -> None:
    page = visit(size, scheme)
    expect(page.locator(".lc-verdict")).to_be_in_viewport()
    held, shown = widths(page)
    assert held <= shown
    if size == "phone":
        large_enough_for_a_finger(page)
    drawings = page.locator("img.figure")
    expect(drawings).to_have_count(2)
    expect(page.locator(".lc-unsaid a")).to_be_attached()
    expect(page.locator(".lc-caution").first).to_be_visible()
    for number in range(2):
        drawn = drawings.nth(number)
        drawn.scroll_into_view_if_needed()
        assert drawn.evaluate("e => e.complete && e.naturalWidth > 0")
        box = drawn.bounding_box()
        assert box is not None
        assert box["width"] > 300
    height = page.evaluate(
        "document.querySelector('[data-testid=stMainBlockContainer]').scrollHeight"
    )
    page.set_viewport_size({"width": shown, "height": int(height) + 80})
    painted(page)
    SHOTS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=SHOTS / f"check-{size}-{scheme}.png")


def test_each_of_the_three_verdicts_is_told_first(visit: Open) -> None:
    page = visit()
    before = page.locator(".lc-answer").inner_text()
    expect(page.locator(".lc-verdict")).to_contain_text("For practice")
    expect(page.locator(".lc-verdict")).to_contain_text("it holds")
    type_in(page, "Length", "9 m")
    expect(page.locator(".lc-answer")).not_to_have_text(before)
    # So long a log may hang with an end in the ground, unless it was seen to hang level.
    expect(page.locator(".lc-verdict")).to_contain_text("it cannot be said yet")
    expect(page.locator(".lc-verdict .lc-mark")).to_have_text("!")
    expect(page.locator(".lc-why").first).to_contain_text("worth up to")
    for label, size in (("Length", "7 m"), ("Butt diameter", "74 cm"), ("Mid diameter", "72 cm")):
        type_in(page, label, size)
    expect(page.locator(".lc-verdict")).to_contain_text("it does not hold")
    expect(page.locator(".lc-verdict .lc-mark")).to_have_text("✕")
    expect(page.locator(".lc-why").first).to_contain_text("Even at the favourable end")


def test_a_fault_is_told_in_words_above_and_beside(visit: Open) -> None:
    page = visit("phone")
    type_in(page, "Reach", "4 ton")
    expect(page.locator(".lc-verdict")).to_contain_text("No answer yet")
    expect(page.locator(".lc-answer li")).to_contain_text("not one unit")
    expect(page.locator(".lc-fault")).to_contain_text("not one unit")
    assert "Traceback" not in page.inner_text("body")
    held, shown = widths(page)
    assert held <= shown
    SHOTS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=SHOTS / "check-fault.png", full_page=True)
    type_in(page, "Reach", "3.8 m")
    expect(page.locator(".lc-verdict")).not_to_contain_text("No answer yet")


def test_working_opens_and_long_formulas_keep_to_the_page(visit: Open) -> None:
    page = visit("phone")
    page.get_by_text("Show the working").click()
    expect(page.locator(".katex-display:visible").first).to_be_visible(timeout=20_000)
    held, shown = widths(page)
    assert held <= shown
    SHOTS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=SHOTS / "check-working.png")


@pytest.mark.parametrize("size", SIZES)
def test_what_was_not_said_leads_to_its_field(visit: Open, size: str) -> None:
    page = visit(size)
    expect(page.locator("#field-plate")).not_to_be_in_viewport()
    page.locator(".lc-unsaid a").first.click()
    expect(page.locator("#field-plate")).to_be_in_viewport()
    expect(page.get_by_label("Plate or chart value", exact=True)).to_be_in_viewport()


def hook_at(page: Page) -> tuple[float, float]:
    hook = page.locator(".hook").first
    hook.scroll_into_view_if_needed()
    box = hook.bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


@pytest.mark.parametrize("size", SIZES)
def test_the_hook_the_field_and_the_slider_say_the_same(visit: Open, size: str) -> None:
    page = visit(size)
    help_there = page.locator("#field-ground").inner_text()
    height = page.get_by_label("Height of the lift point", exact=True)
    # Until it can be taken.
    expect(page.locator(".hook").first).to_have_attribute("aria-valuetext", re.compile("reach"))
    x, y = hook_at(page)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 4, y + 40, steps=6)
    page.screenshot(path=SHOTS / f"check-dragged-{size}.png")
    page.mouse.up()
    expect(height).not_to_have_value("3.1 m", timeout=20_000)
    said = height.input_value()
    expect(page.locator("#field-height")).to_contain_text(f"Read as {said}")
    slider = page.get_by_role("slider", name="Height, by slider")
    assert (
        abs(float(slider.get_attribute("aria-valuetext").split()[0]) - float(said.split()[0]))
        < 0.011
    )
    # The form beside it is left alone.
    assert page.locator("#field-ground").inner_text() == help_there
    slider.focus()
    page.keyboard.press("ArrowDown")
    expect(height).not_to_have_value(said, timeout=20_000)
    expect(page.locator(".lc-verdict")).not_to_contain_text("No answer yet")


def test_what_is_typed_never_runs(visit: Open) -> None:
    page = visit()
    for number, label in enumerate(("Length", "Species"), 1):
        type_in(page, label, f"<img src=x onerror=\"document.title='broken'\" id={number}>")
        expect(page.locator(".lc-fault", has_text=f"id={number}")).to_contain_text("<img src=x")
        assert page.locator("img[src=x]").count() == 0
        assert page.title() != "broken"


def large_enough_for_a_finger(page: Page) -> None:
    """All that is pressed."""
    expect(page.get_by_label("Length", exact=True)).to_be_visible()
    targets = page.evaluate(
        """() => [...document.querySelectorAll(
            '.stMain input:not([type=range], [type=radio], [type=checkbox], [type=file]),'
            + ' .stMain button, .stMain summary,'
            + ' .stMain [role=radiogroup] label, .stMain [data-testid=stCheckbox] label')]
          .filter(e => e.getClientRects().length)
          .map(e => [e.getAttribute('aria-label') || e.innerText,
                     e.getBoundingClientRect().height])"""
    )
    assert len(targets) > 20
    assert [each for each in targets if each[1] < FINGER - 0.5] == []


def test_the_keyboard_reaches_the_first_inputs(visit: Open) -> None:
    page = visit()
    reached: set[str] = set()
    for _ in range(60):  # links to the other pages come first
        page.keyboard.press("Tab")
        reached.add(page.evaluate("document.activeElement.getAttribute('aria-label') || ''"))
    assert any("Length" in each for each in reached)
    assert any("Butt diameter" in each for each in reached)
