"""Pins from photographs: ``python -m studies.photo`` writes ``build/photo_study.json``.

A hundred pictures of machines nobody measured, clicked within 3 px and taped within 10 mm, both one
standard deviation. Of the pins, not of wheels and ground, it is told by how much they miss and how
often the interval that should hold nine in ten does.
"""

from __future__ import annotations

import json
import math
import time
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from liftcalc.family.photograph import Photograph
from liftcalc.family.photograph_fit import fit_photograph
from liftcalc.family.picture_points import POINTS
from studies.scenes import Scene, scene

COUNT, SEED = 100, 1000
NINE_IN_TEN = 1.645
"""Standard deviations either way that hold nine in ten."""
MISCLICK = 60.0
"""How far a point is clicked from where it is, to see whether it is named [px]."""
OUT = Path(__file__).parents[1] / "build" / "photo_study.json"


def misses(seen: Scene) -> tuple[list[Any], list[Any]]:
    """Of every pin that was clicked, by how much x and z miss, and their deviations [m]."""
    fitted = fit_photograph(seen.photograph)
    pins = [
        x for x in fitted.points if POINTS[x.point].part != "wheels" and not POINTS[x.point].ground
    ]
    missed = [np.subtract((x.x, x.z), seen.truth[x.point]) for x in pins]
    return missed, [(x.sigma_x, x.sigma_z) for x in pins]


def misclicked(photograph: Photograph, which: int, direction: float) -> Photograph:
    """The picture clicked twice, one click so far off."""
    clicks = list(photograph.clicks) * 2
    off = MISCLICK * math.cos(direction), MISCLICK * math.sin(direction)
    wrong = clicks[which]
    clicks[which] = replace(
        wrong,
        u=min(max(wrong.u + off[0], 0.0), photograph.width),
        v=min(max(wrong.v + off[1], 0.0), photograph.height),
    )
    return replace(photograph, clicks=tuple(clicks))


def study(count: int = COUNT, seed: int = SEED) -> dict[str, float]:
    """What was found, over so many pictures."""
    random = np.random.default_rng(seed)
    missed, sigma, named, alarms = [], [], 0, 0
    for number in range(count):
        seen = scene(seed + number)
        off, told = misses(seen)
        missed += off
        sigma += told
        alarms += bool(fit_photograph(seen.photograph).doubts)
        clicks = seen.photograph.clicks
        which = int(random.integers(len(clicks)))
        wrong = misclicked(seen.photograph, which, random.uniform(0.0, 2.0 * math.pi))
        doubts = fit_photograph(wrong).doubts
        named += clicks[which].point in {each.field for each in doubts}
    off, told = np.array(missed), np.array(sigma)
    return {
        "pictures": count,
        "pins": len(off),
        "sigma_mm": 1e3 * math.sqrt(float((off**2).mean())),
        "sigma_x_mm": 1e3 * math.sqrt(float((off[:, 0] ** 2).mean())),
        "sigma_z_mm": 1e3 * math.sqrt(float((off[:, 1] ** 2).mean())),
        "sigma_told_mm": 1e3 * math.sqrt(float((told**2).mean())),
        "coverage": float((np.abs(off) < NINE_IN_TEN * told).mean()),
        "misclicks_named": named / count,
        "doubted": alarms / count,
    }


def main() -> None:
    """Run it, print it, write it."""
    start = time.perf_counter()
    found = study()
    found["seconds"] = time.perf_counter() - start
    for key, value in found.items():
        print(f"{key:16} {value:.3g}")
    OUT.parent.mkdir(exist_ok=True)
    OUT.write_text(json.dumps(found, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
