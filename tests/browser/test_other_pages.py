"""The other pages in a real browser: they answer, fit a phone, and keep what was typed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from playwright.sync_api import Page, expect

from liftcalc.judgement.judge import judge
from liftcalc.requests.demo import DEMO
from liftcalc.units import show
from tests.browser.test_check_page import SHOTS, SIZES, Open, type_in, visit, widths
from tests.browser.waiting import settled

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
    settled(page)
    page.screenshot(path=SHOTS / f"{where}-{size}.png", full_page=True)
    held, shown = widths(page)
    assert held <= shown


def test_what_was_typed_goes_along(visit: Open) -> None:
    page = visit("laptop")
    type_in(page, "Length", "3.1 m")
    go(page, "Ask the other way round")
    expect(page.get_by_role("heading", name="Ask the other way round", level=1)).to_be_visible()
    expect(page.get_by_label("Length", exact=True)).to_have_value("3.1 m", timeout=30_000)


def test_ten_visits_at_once_know_nothing_of_each_other(visit: Open, address: str) -> None:
    """Ten lifts on one server, begun before any is answered: each gets its own answer."""
    lengths = [f"{2.0 + 0.25 * number:.2f} m" for number in range(10)]
    pages = [visit("laptop", wait=False) for _ in lengths]
    for page in pages:
        expect(page.locator(".lc-verdict")).to_be_visible(timeout=90_000)
    for page, length in zip(pages, lengths, strict=True):
        field = page.get_by_label("Length", exact=True)
        field.fill(length)
        field.press("Enter")
    for page, length in zip(pages, lengths, strict=True):
        made, _ = judge(replace(DEMO, length=length))
        mass = show(made.lift.log.mass_planning, "mass", rounding="up")
        expect(page.locator(".lc-answer")).to_contain_text(mass, timeout=60_000)
        expect(page.get_by_label("Length", exact=True)).to_have_value(length)
        assert "Something went wrong" not in page.inner_text("body")


PRESS_WHEN_SEEN = """words => {
    const timer = setInterval(() => {
        const button = [...document.querySelectorAll("button")]
            .find(each => each.textContent.trim() === words);
        if (button) { clearInterval(timer); button.click(); }
    }, 5);
}"""


def test_long_work_can_be_stopped_and_gone_on_with(visit: Open) -> None:
    page = visit("laptop")
    # Work may be done before a hand from outside the page gets to the button: one inside waits.
    page.evaluate(PRESS_WHEN_SEEN, "Stop this work")
    go(page, "Where it can lift")
    expect(page.get_by_text("Stopped: there is no answer.")).to_be_visible(timeout=30_000)
    page.get_by_role("button", name="Go on", exact=True).click()
    expect(page.locator("img.lc-figure")).to_have_count(3, timeout=60_000)
