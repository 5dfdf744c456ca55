"""One's own machine in a real browser: from nothing to a first answer, and on to a lift."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.test_check_page import FINGER, SHOTS, SIZES, Open, visit, widths
from tests.browser.test_other_pages import go
from tests.browser.waiting import settled

__all__ = ["visit"]  # a fixture


def tell(page: Page, number: str, text: str, known: str) -> None:
    """Type a fact by its number, and wait for the answer that knows it."""
    field = page.get_by_label(re.compile(f"^{number} ·"))
    field.fill(text)
    field.press("Enter")
    expect(page.locator(".lc-verdict")).to_contain_text(known, timeout=30_000)
    settled(page)


@pytest.mark.parametrize("size", SIZES)
def test_one_click_and_a_few_facts_make_a_machine_that_lifts(visit: Open, size: str) -> None:
    page = visit(size)
    go(page, "Your machine")
    expect(page.get_by_role("heading", name="Which is it nearest to?")).to_be_visible()
    settled(page)
    SHOTS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=SHOTS / f"machine-start-{size}.png", full_page=True)
    page.get_by_role("button", name="Standard loader-backhoe with sideshift").click()
    answer = page.locator(".lc-answer")
    expect(answer).to_contain_text("its class alone", timeout=30_000)
    settled(page)
    tell(page, "1", "7400 kg", "1 fact")
    tell(page, "2", "900 kg, reach 3.6 m, height 1 m", "2 facts")
    expect(answer).to_contain_text("Pays most to tell next")
    page.get_by_text("With a tape", exact=True).click()
    tell(page, "13", "2.13", "No answer yet")
    tell(page, "13", "2.13 m", "3 facts")
    expect(page.locator(".lc-help", has_text="Hook at the back")).to_be_visible()
    tell(page, "14", "3.2 m", "4 facts")
    expect(page.locator(".lc-fault").first).to_contain_text("unlikely in this class")
    page.screenshot(path=SHOTS / f"machine-told-{size}.png", full_page=True)
    held, wide = widths(page)
    assert held <= wide
    for button in page.locator(".stButton button:visible").all():
        box = button.bounding_box()
        assert box is not None
        assert box["height"] >= FINGER - 0.5
    with page.expect_download() as sheet:
        page.get_by_role("button", name="A sheet to print (PDF)").click()
    assert sheet.value.path().read_bytes().startswith(b"%PDF")
    page.get_by_role("button", name="Use this machine").click()
    settled(page)
    go(page, "Check a lift")
    reach = page.get_by_label("Reach", exact=True)
    reach.fill("3 m")
    reach.press("Enter")
    expect(answer).to_contain_text("what is known of this machine", timeout=30_000)
