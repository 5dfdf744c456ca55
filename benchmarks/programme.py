"""Poses a second: ``sweep`` with all criteria against one linear programme of statics a pose."""

from __future__ import annotations

import numpy as np

from benchmarks.maps import SHEET, lift
from benchmarks.timing import in_turn
from liftcalc.evaluation.sweep import sweep
from liftcalc.machines.files import load
from tests.helpers import some_pose
from tests.physics.programme import Scene
from tests.physics.test_tipping_programme import scene

LIMIT = 1000.0
POSES = 100
PROGRAMMES = 2
"""Programmes that ``greatest_load`` solves for a pose; the rate is of one alone."""
GRAVITY = (0.0, 0.0, -9.80665)


def scenes() -> list[Scene]:
    """Random poses of the demo's machine on its stabilisers."""
    rng = np.random.default_rng(0)
    machine = load("standard-sideshift")
    return [scene(some_pose(machine, "stabilisers", rng), GRAVITY) for _ in range(POSES)]


def measure() -> list[dict[str, object]]:
    """Rate of the sweep over that of the programme."""
    asked, posed = lift(), scenes()
    ours, theirs = in_turn(
        lambda: sweep(asked, reach=SHEET.reach, height=SHEET.height, slew=SHEET.slew),
        lambda: [each.greatest_load() for each in posed],
        rounds=5,
    )
    ratio = (theirs / (POSES * PROGRAMMES)) / (ours / SHEET.reach.size)
    return [
        {
            "name": "poses a second, sweep over linear programme",
            "ratio": round(ratio),
            "limit": LIMIT,
            "unit": "rate ratio, at least",
        }
    ]
