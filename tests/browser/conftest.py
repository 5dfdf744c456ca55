"""A real Chromium and a real server, once for all journeys."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

from liftcalc.web.serve import command

HERE = Path(__file__).parent
FLAGS = [
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
]  # fmt: skip
WITHOUT = "LIFTCALC_NO_BROWSER"


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
    path = (
        os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
    )
    if not path:
        pytest.fail(
            "The browser tests need Chromium and found none. Install it (on Debian and Ubuntu: "
            "apt-get install chromium), or set CHROMIUM to the path of one you have, or set "
            f"{WITHOUT}=1 to leave these tests out.",
            pytrace=False,
        )
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=path, args=FLAGS)
        yield started
        started.close()


@pytest.fixture(scope="session")
def address() -> Iterator[str]:
    """The app on a free port of this machine."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    server = subprocess.Popen(
        command(port, headless=True), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    try:
        _wait(port)
        yield f"http://127.0.0.1:{port}"
    finally:
        server.terminate()
        server.wait(10)


def _wait(port: int) -> None:
    until = time.monotonic() + 60
    while time.monotonic() < until:
        try:
            socket.create_connection(("127.0.0.1", port), 1).close()
        except OSError:
            time.sleep(0.1)
        else:
            return
    pytest.fail("the app did not start within a minute", pytrace=False)
