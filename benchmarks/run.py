"""Run every benchmark once, print the ratios, write ``build/bench.json``; 1 when one is broken.

A benchmark's ``measure`` gives rows of ``name``, ``ratio``, ``limit`` and ``unit``; the unit ends
in "at most" or "at least", which says what the limit means.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

from benchmarks import app, cold_start, ground, growth, kernel, programme, samples

BENCHMARKS = (cold_start, kernel, ground, programme, growth, samples, app)


def holds(row: dict[str, object]) -> bool:
    """Whether a ratio is on the right side of its limit."""
    ratio, limit = float(str(row["ratio"])), float(str(row["limit"]))
    return ratio >= limit if str(row["unit"]).endswith("at least") else ratio <= limit


def main() -> int:
    """Measure all."""
    rows = [row for benchmark in BENCHMARKS for row in benchmark.measure()]
    out = Path(__file__).parents[1] / "build" / "bench.json"
    out.parent.mkdir(exist_ok=True)
    out.write_text(json.dumps(rows, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    broken = [row for row in rows if not holds(row)]
    for row in rows:
        mark = "BROKEN" if row in broken else "held"
        print(f"{row['name']}: {row['ratio']} (limit {row['limit']}, {row['unit']}) {mark}")
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
