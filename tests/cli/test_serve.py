"""`app` on the command line: what stops the command stops the server."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time

import pytest

STAND_IN = "import os, time; print(os.getpid(), flush=True); time.sleep(60)"
CODE = f"""
import sys
from liftcalc.web import serve
serve.command = lambda *_, **__: [sys.executable, "-c", {STAND_IN!r}]
sys.exit(serve.serve(None))
"""


@pytest.mark.skipif(os.name != "posix", reason="signals as here")
@pytest.mark.parametrize("sent", [signal.SIGTERM, signal.SIGHUP, signal.SIGKILL, signal.SIGINT])
def test_a_signal_to_the_command_ends_the_server(sent: signal.Signals) -> None:
    with subprocess.Popen([sys.executable, "-c", CODE], stdout=subprocess.PIPE, text=True) as run:
        assert run.stdout is not None
        server = int(run.stdout.readline())
        run.send_signal(sent)
        run.wait(10)
        gone = False
        for _ in range(50):
            gone = gone or not _alive(server)
            time.sleep(0 if gone else 0.1)
        if not gone:
            os.kill(server, signal.SIGKILL)
        assert gone


def _alive(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    return True
