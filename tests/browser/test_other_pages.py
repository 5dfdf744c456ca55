"""The other pages in a real browser: they answer, fit a phone, and keep what was typed."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.test_check_page import SHOTS, SIZES, Open, type_in, visit, widths

__all__ = ["visit"]  # a fixture
PAGES = {
    "front-or-back": "Front or back",
    "where": "Where it can lift",
    "ask": "Ask the other way round",
}


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


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("where", PAGES)
def test_the_page_answers_and_fits(visit: Open, where: str, size: str) -> None:
    page = visit(size)
    go(page, PAGES[where])
    expect(page.get_by_role("heading", name=PAGES[where], level=1)).to_be_visible()
    expect(page.locator(".lc-verdict")).to_be_visible(timeout=60_000)
    if where == "where":
        expect(page.locator("img.lc-figure").first).to_be_visible(timeout=60_000)
    page.wait_for_timeout(800)
    page.screenshot(path=SHOTS / f"{where}-{size}.png", full_page=True)
    held, shown = widths(page)
    assert held <= shown


def test_what_was_typed_goes_along(visit: Open) -> None:
    page = visit("laptop")
    type_in(page, "Length", "3.1 m")
    go(page, "Ask the other way round")
    expect(page.get_by_role("heading", name="Ask the other way round", level=1)).to_be_visible()
    expect(page.get_by_label("Length", exact=True)).to_have_value("3.1 m", timeout=30_000)
