"""Pictures of the pages for the README: ``python -m tests.browser.screenshots``."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import expect, sync_playwright

from tests.browser.served import FLAGS, HOW_TO_GET_IT, chromium, served
from tests.browser.waiting import settled

PICTURES = Path(__file__).parents[2] / "docs" / "pictures"
PAGES = {"check": "Check a lift", "where": "Where it can lift", "front-or-back": "Front or back"}
"""Name of the picture and title of the page."""


def main() -> None:
    """Write a picture of every page."""
    path = chromium()
    if not path:
        raise SystemExit(HOW_TO_GET_IT + ".")
    PICTURES.mkdir(parents=True, exist_ok=True)
    with served() as address, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=FLAGS)
        for name, title in PAGES.items():
            page = browser.new_page(viewport={"width": 1280, "height": 1160})
            page.goto(address)
            page.get_by_role("link", name=title).first.click()
            expect(page.get_by_role("heading", name=title, level=1)).to_be_visible()
            expect(page.locator(".lc-verdict")).to_be_visible(timeout=60_000)
            if name == "check":
                # Until the hook can be taken.
                taken = re.compile("reach")
                hook = page.locator(".hook").first
                expect(hook).to_have_attribute("aria-valuetext", taken, timeout=30_000)
            page.mouse.move(0, 0)  # off the links
            settled(page)
            page.screenshot(path=PICTURES / f"{name}.png")
        browser.close()


if __name__ == "__main__":
    main()
