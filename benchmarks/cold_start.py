"""Cold starts, each against another in turn: ``liftcalc check`` and ``import liftcalc``.

A promise is a ratio of medians of wall time in one run, so that a slow or busy machine slows both
alike.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from pathlib import Path

PAIRS = 11
LIFT = [
    *("check", "standard-sideshift", "--end", "back", "--reach", "3.8m", "--height", "3.1m"),
    *("--slew", "40deg", "--species", "Quercus robur", "--length", "4.2m", "--butt", "55cm"),
    *("--mid", "49cm", "--top", "44cm"),
]
STARTS = (
    ("cold check over cold import of numpy", ["-m", "liftcalc", *LIFT], "import numpy", 4.0),
    ("import of liftcalc over a bare start", ["-c", "import liftcalc"], "pass", 1.3),
)
"""What is promised, what is started, what beside it, and how much longer it may take."""


def seconds(words: list[str]) -> float:
    """Wall time of one start of Python."""
    began = time.perf_counter()
    subprocess.run(
        [sys.executable, *words],
        check=True,
        stdout=subprocess.DEVNULL,
        cwd=Path(__file__).parents[1],
    )
    return time.perf_counter() - began


def measure() -> list[dict[str, object]]:
    """Ratios of medians, each after one warm-up pair."""
    return [
        {
            "name": name,
            "ratio": round(_ratio(ours, ["-c", theirs]), 3),
            "limit": limit,
            "unit": "wall time ratio, at most",
        }
        for name, ours, theirs, limit in STARTS
    ]


def _ratio(ours: list[str], theirs: list[str]) -> float:
    pairs = [(seconds(ours), seconds(theirs)) for _ in range(PAIRS + 1)][1:]
    return statistics.median(a for a, _ in pairs) / statistics.median(b for _, b in pairs)
