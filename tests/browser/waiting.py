"""Waiting for what a page does, and not for so many milliseconds."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress

from playwright.sync_api import Page, expect
from playwright.sync_api import TimeoutError as Late

WATCH_RUNS = """() => {
    const app = document.querySelector('[data-testid=stApp]');
    window.runs = 0;
    window.watched?.disconnect();
    window.watched = new MutationObserver(() => {
        if (app.dataset.testScriptState === 'notRunning') window.runs += 1;
    });
    window.watched.observe(app, { attributeFilter: ['data-test-script-state'] });
}"""
"""Counts the runs of the page that came to their end."""
PAINTED = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"


def painted(page: Page) -> None:
    """Until what was changed in the browser is laid out and seen."""
    page.evaluate(PAINTED)


def settled(page: Page) -> None:
    """Until the server has nothing more to send and all of it is seen."""
    app = page.get_by_test_id("stApp")
    expect(app).to_have_attribute("data-test-script-state", "notRunning", timeout=60_000)
    # The browser fetches the code of each kind of field when the first one comes.
    expect(page.get_by_test_id("stSkeleton")).to_have_count(0, timeout=30_000)
    painted(page)


def ran(page: Page, act: Callable[[], object], *, patience: float = 1500.0) -> None:
    """Do something and wait until the run that it asks for is over.

    A run may be over before it is seen: after the patience [ms] it is taken to be.
    """
    page.evaluate(WATCH_RUNS)
    act()
    with suppress(Late):
        page.wait_for_function("window.runs > 0", timeout=patience)
    settled(page)
