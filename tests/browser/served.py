"""The app on a free port of this machine, and the Chromium to look at it with."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from liftcalc.web.serve import app_file, command

FLAGS = [
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
]  # fmt: skip
HOW_TO_GET_IT = (
    "The browser tests need Chromium and found none. Install it (on Debian and Ubuntu: "
    "apt-get install chromium), or set CHROMIUM to the path of one you have"
)


def chromium() -> str | None:
    """Path of a Chromium, if there is one."""
    names = ("chromium", "chromium-browser")
    found = (shutil.which(name) for name in names)
    return os.environ.get("CHROMIUM") or next((path for path in found if path), None)


@contextmanager
def served(page: Path | None = None) -> Iterator[str]:
    """Address of the app, or of another page served in the same way, while it runs."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    words = [
        each if page is None or each != str(app_file()) else str(page)
        for each in command(port, headless=True)
    ]
    root = str(Path(__file__).parents[2])
    server = subprocess.Popen(
        words,
        cwd=root,
        env={**os.environ, "PYTHONPATH": root},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    try:
        _wait(port)
        yield f"http://127.0.0.1:{port}"
    finally:
        server.terminate()
        server.wait(10)


def _wait(port: int, patience: float = 60.0) -> None:
    """Until the app answers."""
    end = time.monotonic() + patience
    while time.monotonic() < end:
        with socket.socket() as ask:
            ask.settimeout(1)
            if ask.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.2)
    raise TimeoutError(f"the app did not answer on port {port}")
