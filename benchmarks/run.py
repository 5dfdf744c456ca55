"""Run every benchmark once, print the ratios, write ``build/bench.json``; 1 when one is broken."""

from __future__ import annotations

import json
import sys
from pathlib import Path

from benchmarks import cold_start

BENCHMARKS = (cold_start,)


def main() -> int:
    """Measure all."""
    rows = [row for benchmark in BENCHMARKS for row in benchmark.measure()]
    out = Path(__file__).parents[1] / "build" / "bench.json"
    out.parent.mkdir(exist_ok=True)
    out.write_text(json.dumps(rows, indent=1) + "\n", encoding="utf-8")
    broken = [row for row in rows if float(str(row["ratio"])) > float(str(row["limit"]))]
    for row in rows:
        mark = "BROKEN" if row in broken else "held"
        print(f"{row['name']}: {row['ratio']} (limit {row['limit']}, {row['unit']}) {mark}")
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
