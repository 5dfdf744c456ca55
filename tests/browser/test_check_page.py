"""A few journeys through "Check a lift" in a real browser, on a laptop and on a phone."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

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

    def start(size: str = "laptop", scheme: str = "light") -> Page:
        width, height = SIZES[size]
        context = browser.new_context(
            viewport={"width": width, "height": height}, color_scheme=scheme
        )
        contexts.append(context)
        page = context.new_page()
        page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.goto(address)
        expect(page.locator(".lc-verdict")).to_be_visible(timeout=60_000)
        expect(page.locator("table.lc-table")).to_be_attached()
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
    drawings = page.locator("img.lc-figure")
    expect(drawings).to_have_count(2)
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
    page.wait_for_timeout(400)
    SHOTS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=SHOTS / f"check-{size}-{scheme}.png")


def test_a_changed_input_changes_the_answer(visit: Open) -> None:
    page = visit()
    before = page.locator(".lc-answer").inner_text()
    type_in(page, "Length", "9 m")
    expect(page.locator(".lc-answer")).not_to_have_text(before)
    expect(page.locator(".lc-verdict")).to_contain_text("No: too heavy here")
    expect(page.locator(".lc-verdict .lc-mark")).to_have_text("✕")


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
    page.get_by_text("Tipping over", exact=False).last.click()
    expect(page.locator(".katex-display:visible").first).to_be_visible()
    held, shown = widths(page)
    assert held <= shown
    SHOTS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=SHOTS / "check-working.png")


@pytest.mark.parametrize("label", ["Length", "Species"])
def test_what_is_typed_never_runs(visit: Open, label: str) -> None:
    page = visit()
    type_in(page, label, "<img src=x onerror=\"document.title='broken'\">")
    expect(page.locator(".lc-fault")).to_contain_text("<img src=x")
    assert page.locator("img[src=x]").count() == 0
    assert page.title() != "broken"


def test_targets_are_large_enough_for_a_finger(visit: Open) -> None:
    page = visit("phone")
    targets = page.evaluate(
        """() => [...document.querySelectorAll(
            '.stMain input[type=text], .stMain button, .stMain summary,'
            + ' .stMain [role=radiogroup] label, .stMain [data-testid=stCheckbox] label')]
          .filter(e => e.getClientRects().length)
          .map(e => [e.getAttribute('aria-label') || e.innerText,
                     e.getBoundingClientRect().height])"""
    )
    assert len(targets) > 20
    assert [each for each in targets if each[1] < FINGER - 0.5] == []


def test_the_keyboard_reaches_the_first_inputs(visit: Open) -> None:
    page = visit()
    # A page that is still being drawn takes the focus away again.
    expect(page.get_by_test_id("stStatusWidget")).to_be_hidden(timeout=30_000)
    page.wait_for_timeout(1000)
    reached: set[str] = set()
    for _ in range(60):  # links to the other pages come first
        page.keyboard.press("Tab")
        reached.add(page.evaluate("document.activeElement.getAttribute('aria-label') || ''"))
    assert any("Length" in each for each in reached)
    assert any("Butt diameter" in each for each in reached)
