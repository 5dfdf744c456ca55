"""A cold ``liftcalc check`` against a cold ``import numpy``, run in turn.

The promise is a ratio of medians of wall time in one run, so that a slow or busy machine slows
both alike.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from pathlib import Path

LIMIT = 6.0
PAIRS = 11
LIFT = [
    *("check", "standard-sideshift", "--end", "back", "--reach", "3.8m", "--height", "3.1m"),
    *("--slew", "40deg", "--species", "Quercus robur", "--length", "4.2m", "--butt", "55cm"),
    *("--mid", "49cm", "--top", "44cm"),
]


def seconds(command: list[str]) -> float:
    """Wall time of one run."""
    began = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, cwd=Path(__file__).parents[1])
    return time.perf_counter() - began


def measure() -> list[dict[str, object]]:
    """The ratio of medians, after one warm-up pair."""
    ours = [sys.executable, "-m", "liftcalc.cli.main", *LIFT]
    theirs = [sys.executable, "-c", "import numpy"]
    seconds(ours), seconds(theirs)
    pairs = [(seconds(ours), seconds(theirs)) for _ in range(PAIRS)]
    ratio = statistics.median(a for a, _ in pairs) / statistics.median(b for _, b in pairs)
    return [
        {
            "name": "cold check over cold import of numpy",
            "ratio": round(ratio, 3),
            "limit": LIMIT,
            "unit": "wall time ratio, at most",
        }
    ]
