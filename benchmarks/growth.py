"""Memory of a map of a million poses, and time for a pose from ten thousand to ten million."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from benchmarks.maps import SOLID, lift, scatter
from benchmarks.timing import in_turn
from liftcalc.evaluation.sweep import sweep

MOST_MEMORY = 600.0
"""Peak of resident memory [MB]."""
EVEN, RISE = 1.5, 1.15
SIZES = (10_000, 100_000, 1_000_000, 10_000_000)
LEAST_POSES = 1_000_000
"""A size is swept so often that at least so many poses are timed together."""


def peak() -> float:
    """Peak resident memory of a fresh process that makes one map [MB]; Linux says it there."""
    found = subprocess.run(
        [sys.executable, "-m", "benchmarks.growth"],
        check=True,
        capture_output=True,
        text=True,
        cwd=Path(__file__).parents[1],
    )
    return float(found.stdout)


def _map_alone() -> None:
    sweep(lift(), reach=SOLID.reach, height=SOLID.height, slew=SOLID.slew)
    status = Path("/proc/self/status").read_text(encoding="ascii")
    kilobytes = next(line for line in status.splitlines() if line.startswith("VmHWM")).split()[1]
    print(int(kilobytes) * 1024 / 1e6)


def each_pose() -> dict[int, float]:
    """Time for a pose by size of the map, the sizes taken in turn."""
    asked = lift()
    maps = [scatter(size) for size in SIZES]
    times = [max(1, LEAST_POSES // size) for size in SIZES]

    def swept(number: int) -> None:
        where = maps[number]
        for _ in range(times[number]):
            sweep(asked, reach=where.reach, height=where.height, slew=where.slew)

    taken = in_turn(*(lambda n=n: swept(n) for n in range(len(SIZES))), rounds=5)
    return {
        size: each / (size * often) for size, often, each in zip(SIZES, times, taken, strict=True)
    }


def measure() -> list[dict[str, object]]:
    """Memory, evenness from 10⁵ poses on, and whether the time for a pose ever rises."""
    pose = each_pose()
    smallest, *larger = (pose[size] for size in SIZES)
    rows = [
        (
            "peak memory of a map of 1 000 000 poses, over 600 MB",
            peak() / MOST_MEMORY,
            1.0,
            "memory ratio, at most",
        ),
        (
            "time for a pose, greatest over least, 10⁵ to 10⁷ poses",
            max(larger) / min(larger),
            EVEN,
            "processor time ratio, at most",
        ),
        # Fixed costs weigh on small maps: the time for a pose may fall with size, never rise.
        (
            "time for a pose, 10⁷ poses over 10⁴",
            larger[-1] / smallest,
            RISE,
            "processor time ratio, at most",
        ),
    ]
    return [
        {"name": name, "ratio": round(ratio, 3), "limit": limit, "unit": unit}
        for name, ratio, limit, unit in rows
    ]


if __name__ == "__main__":
    _map_alone()
