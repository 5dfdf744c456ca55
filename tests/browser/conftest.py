"""A real Chromium and a real server, once for all journeys."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect, sync_playwright

from tests.browser.served import FLAGS, HOW_TO_GET_IT, chromium, served

HERE = Path(__file__).parent
WITHOUT = "liftcalc_NO_BROWSER"


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave these tests out only when that is asked for in so many words."""
    if os.environ.get(WITHOUT) != "1":
        return
    ours = [each for each in items if HERE in each.path.parents]
    if ours:
        config.hook.pytest_deselected(items=ours)
        items[:] = [each for each in items if HERE not in each.path.parents]
        config.stash[_LEFT_OUT] = len(ours)


_LEFT_OUT: pytest.StashKey[int] = pytest.StashKey()


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say that they were left out, and why."""
    count = terminalreporter.config.stash.get(_LEFT_OUT, 0)
    if count:
        terminalreporter.write_line(f"{count} browser tests left out: {WITHOUT}=1 is set")


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    path = chromium()
    if not path:
        pytest.fail(f"{HOW_TO_GET_IT}, or set {WITHOUT}=1 to leave these tests out.", pytrace=False)
    # How long a busy computer may take to show what is there; how fast it is, is for `make bench`.
    expect.set_options(timeout=30_000)
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=path, args=FLAGS)
        yield started
        started.close()


@pytest.fixture(scope="session")
def address() -> Iterator[str]:
    """The app on a free port of this machine."""
    with served() as where:
        yield where
