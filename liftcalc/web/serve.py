"""Starts the app on this machine only."""

from __future__ import annotations

import os
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

from liftcalc.errors import InputError
from liftcalc.web.theme import theme


def app_file() -> Path:
    """The app's file, in a wheel or in a checkout."""
    inside = Path(__file__).with_name("app.py")
    return inside if inside.is_file() else Path(__file__).parents[2] / "app.py"


def command(port: int | None, *, headless: bool = False) -> list[str]:
    """What is run: reachable from this machine only, and nothing is reported to anybody."""
    asked = [
        sys.executable,
        "-m",
        "streamlit",
        "run",
        str(app_file()),
        "--server.address",
        "127.0.0.1",
        "--server.showEmailPrompt",
        "false",
        "--browser.gatherUsageStats",
        "false",
        "--client.toolbarMode",
        "viewer",
        "--server.fileWatcherType",
        "none",
        # Fields are kept from page to page by setting them to what they were.
        "--global.disableWidgetStateDuplicationWarning",
        "true",
        "--server.headless",
        "true" if headless else "false",
        *theme(),
    ]
    return asked if port is None else [*asked, "--server.port", str(port)]


def serve(port: int | None, *, headless: bool = False) -> int:
    """Run the app until it is stopped; gives its exit status.

    Without a ``port`` it chooses one; ``headless`` leaves the browser closed. Where the server
    takes this process's place, nothing comes back. Raises ``InputError`` when what the app needs is
    not installed.
    """
    if find_spec("streamlit") is None:
        raise InputError.of(
            field="app",
            given="an installation without the app's parts",
            wanted="streamlit",
            fix='pip install "liftcalc[app]"',
        )
    words = command(port, headless=headless)
    if os.name == "posix":
        # In place of this process, so that what ends the command ends the server too.
        os.execv(words[0], words)
    try:
        return subprocess.call(words)
    except KeyboardInterrupt:
        return 0
