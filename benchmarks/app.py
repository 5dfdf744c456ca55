"""The app in a real Chromium against an empty page: gesture to redrawn answer, drawing, opening.

The empty page holds a slider and its value and is served in the same way. Gestures on both are
taken in turn, so that a busy machine slows both alike; times are taken inside the browser, from
the release of the mouse to the first frame in which all that the gesture changes is on the page.
"""

from __future__ import annotations

import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Browser, Locator, Page, sync_playwright

from tests.browser.served import FLAGS, HOW_TO_GET_IT, chromium, served

MEDIAN, SLOWEST, FRAMES, USABLE = 2.5, 4.0, 30.0, 2.5
GESTURES, OPENINGS, DRAGS = 30, 9, 3
SIZE = {"width": 1280, "height": 900}
EMPTY = """import streamlit as st
value = st.slider("Value", 0.0, 10.0, 5.0, step=0.05)
st.text(f"value {value:.2f}")
"""
WATCH = """watched => {
    const parts = watched.flatMap(name => !name.startsWith('^')
        ? [() => document.querySelector(name)?.textContent]
        : [...document.querySelectorAll('*')].filter(e => e.shadowRoot)
            .filter(e => e.shadowRoot.querySelector(name.slice(1)))
            .map(e => () => {
                const image = e.shadowRoot.querySelector(name.slice(1));
                return image.complete && image.src;
            }));
    const seen = () => parts.map(each => each());
    const before = seen();
    window.took = null;
    window.addEventListener('pointerup', () => {
        const began = performance.now();
        const look = () => {
            const now = seen();
            if (now.length === before.length && now.every((e, n) => e && e !== before[n]))
                window.took = performance.now() - began;
            else requestAnimationFrame(look);
        };
        look();
    }, { capture: true, once: true });
}"""
"""Watches pieces of the page; those that start with ^ are pictures inside a component."""
OURS = [".lc-table", "^img.figure"]
THEIRS = ["[data-testid=stText]"]
SHAKE = """(hook, [x, y]) => new Promise(done => {
    let drawn = 0;
    new MutationObserver(() => drawn += 1)
        .observe(hook, { attributes: true, attributeFilter: ['style'] });
    const start = performance.now();
    const shake = () => {
        const t = (performance.now() - start) / 1000;
        if (t > 2) return done(drawn / t);
        const at = { clientX: x + 60 * Math.sin(9 * t), clientY: y + 60 * Math.cos(7 * t) };
        hook.dispatchEvent(new PointerEvent('pointermove', at));
        requestAnimationFrame(shake);
    };
    shake();
})"""


def took(page: Page, watched: list[str], part: Locator, by: tuple[float, float]) -> float:
    """Time from letting a part go, after it was dragged, until all that is watched is new [ms]."""
    part.scroll_into_view_if_needed()
    page.evaluate(WATCH, watched)
    drag(page, part, *by)
    page.wait_for_function("window.took !== null", timeout=30_000)
    found = float(page.evaluate("window.took"))
    page.wait_for_function("!document.querySelector('[data-test-script-state=running]')")
    page.wait_for_timeout(200)  # until nothing of it is still at work
    return found


def middle(part: Locator) -> tuple[float, float]:
    box = part.bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def thumb(page: Page, name: str) -> Locator:
    """What is taken of a slider: its input lies hidden in it."""
    return page.get_by_role("slider", name=name).locator("xpath=../..")


def drag(page: Page, part: Locator, right: float, down: float) -> None:
    """Take a part, move it in a few steps, let it go."""
    x, y = middle(part)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + right, y + down, steps=4)
    page.mouse.up()


def ready_ours(page: Page) -> None:
    page.locator(".lc-verdict").wait_for()
    page.locator(".hook").first.wait_for()
    page.wait_for_function(
        "[...document.querySelectorAll('*')].some(e => e.shadowRoot?.querySelector('img.figure')"
        "?.naturalWidth > 0)"
    )


def ready_theirs(page: Page) -> None:
    page.get_by_text("value 5.00").wait_for()


def opened(browser: Browser, address: str, ready: Callable[[Page], None]) -> tuple[Page, float]:
    """A page in a new visit, and how long it took to be usable [s]."""
    page = browser.new_context(viewport=SIZE).new_page()
    page.set_default_timeout(60_000)
    began = time.perf_counter()
    page.goto(address)
    ready(page)
    return page, time.perf_counter() - began


def gestures(ours: Page, theirs: Page) -> dict[str, list[float]]:
    """Times of letting the hook go, of our slider and of the slider of the empty page [ms]."""
    found: dict[str, list[float]] = {"hook": [], "slider": [], "empty": []}
    hook, reach = ours.locator(".hook").first, thumb(ours, "Reach, by slider")
    slider = thumb(theirs, "Value")
    height = ours.get_by_label("Height of the lift point", exact=True)
    height.fill("1.8 m")  # where there is room to move
    height.press("Enter")
    ours.wait_for_timeout(3000)
    for number in range(GESTURES + 2):  # the first ones warm up
        way = -1 if number % 2 else 1  # nearer first, where all can be reached
        times = {
            "hook": took(ours, OURS, hook, (24.0 * way, 12.0 * way)),
            "empty": took(theirs, THEIRS, slider, (30.0 * way, 0.0)),
            "slider": took(ours, OURS, reach, (-16.0 * way, 0.0)),
        }
        for name, each in times.items():
            if number >= 2:
                found[name].append(each)
    return found


def frames(page: Page) -> float:
    """How often a second the drawing follows the hook, the least of some drags."""
    hook, least = page.locator(".hook").first, float("inf")
    hook.scroll_into_view_if_needed()
    for _ in range(DRAGS):
        x, y = middle(hook)
        page.mouse.move(x, y)
        page.mouse.down()
        page.mouse.move(x + 5, y + 5)
        least = min(least, float(hook.evaluate(SHAKE, [x, y])))
        page.keyboard.press("Escape")
        page.mouse.up()
        page.wait_for_timeout(1000)
    return least


def openings(browser: Browser, ours: str, theirs: str) -> tuple[float, float]:
    """Median times until both pages are usable [s], taken in turn."""
    times: list[tuple[float, float]] = []
    for _ in range(OPENINGS):
        pair = []
        for address, ready in ((ours, ready_ours), (theirs, ready_theirs)):
            page, seconds = opened(browser, address, ready)
            pair.append(seconds)
            page.context.close()
        times.append((pair[0], pair[1]))
    return statistics.median(a for a, _ in times), statistics.median(b for _, b in times)


def slowest(times: list[float]) -> float:
    """95th percentile."""
    return statistics.quantiles(times, n=20, method="inclusive")[-1]


def measure() -> list[dict[str, object]]:
    """Rows of the promises; the empty page's own times are told with them."""
    path = chromium()
    if not path:
        raise SystemExit(HOW_TO_GET_IT + ".")
    with tempfile.TemporaryDirectory() as folder:
        page = Path(folder) / "empty.py"
        page.write_text(EMPTY, "utf-8")
        with served() as ours, served(page) as theirs, sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=path, args=FLAGS)
            for address, ready in ((ours, ready_ours), (theirs, ready_theirs)):
                opened(browser, address, ready)[0].context.close()  # the servers' first visit
            usable = openings(browser, ours, theirs)
            first, second = (
                opened(browser, address, ready)[0]
                for address, ready in ((ours, ready_ours), (theirs, ready_theirs))
            )
            found = gestures(first, second)
            smooth = frames(first)
            browser.close()
    return rows(found, smooth, usable)


def rows(
    found: dict[str, list[float]], smooth: float, usable: tuple[float, float]
) -> list[dict[str, object]]:
    """Ratios against the empty page."""
    made: list[tuple[str, float, float, str]] = []
    empty = found["empty"]
    for name, what in (("hook", "letting the hook go"), ("slider", "moving a slider")):
        for how, of, limit in (
            ("median", statistics.median, MEDIAN),
            ("95th percentile", slowest, SLOWEST),
        ):
            mine, base = of(found[name]), of(empty)
            text = f"{what} to the redrawn page, {how}: {mine:.0f} ms over {base:.0f} ms"
            made.append((text, mine / base, limit, "wall time ratio, at most"))
    made.append(("drawing under the hook", smooth, FRAMES, "times a second, at least"))
    text = f"first page usable, median: {usable[0]:.2f} s over {usable[1]:.2f} s"
    made.append((text, usable[0] / usable[1], USABLE, "wall time ratio, at most"))
    return [
        {"name": f"app: {name}", "ratio": round(ratio, 3), "limit": limit, "unit": unit}
        for name, ratio, limit, unit in made
    ]


if __name__ == "__main__":
    for row in measure():
        print(f"{row['name']}: {row['ratio']} (limit {row['limit']}, {row['unit']})")
