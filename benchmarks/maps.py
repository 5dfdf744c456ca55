"""The maps of a million poses that the benchmarks share."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.requests.demo import DEMO
from liftcalc.requests.lift import parse_lift

REACH, HEIGHT, SLEW = (1.0, 5.5), (-1.0, 5.0), (-1.5, 1.5)
"""A box round the back end's envelope [m, m, rad]; some two fifths of it can be reached."""

UNSAID = dict.fromkeys(
    ("ground", "mat", "sling_kind", "sling_size", "hook_wll", "shackle_wll", "hitch_wll", "wires",
     "edge", "edge_depth", "people"),
    "",
)  # fmt: skip


@dataclass(frozen=True)
class Map:
    """Places and slews; what a sweep is asked for."""

    name: str
    reach: Any
    height: Any
    slew: Any


def lift(**said: Any) -> Lift:
    """The demo's lift, with what is said otherwise."""
    return parse_lift(replace(DEMO, **said)).lift


def bare(**said: Any) -> Lift:
    """The same with nothing said of ground, rigging and hazards: tipping, rams, lift point.

    Nor has its machine any axle rating, which is a criterion of the ground.
    """
    made = lift(**(UNSAID | said))
    unrated = {"front_axle_rating": None, "rear_axle_rating": None}
    wheels = made.machine.wheels.model_copy(update=unrated)
    machine = made.machine.model_copy(update={"wheels": wheels})
    return replace(made, machine=machine, loads_only=True, exact=True)


def grid(name: str, *, places: int, slews: int) -> Map:
    """A grid of places × places × slews."""
    reach, height = np.meshgrid(
        np.linspace(*REACH, places), np.linspace(*HEIGHT, places), indexing="ij"
    )
    slew = np.linspace(*SLEW, slews) if slews > 1 else np.array([0.3])
    return Map(name, reach.ravel(), height.ravel(), slew)


def scatter(count: int) -> Map:
    """Places at random, at one slew."""
    rng = np.random.default_rng(1)
    return Map(
        f"{count} places", rng.uniform(*REACH, count), rng.uniform(*HEIGHT, count), np.array([0.3])
    )


SOLID = grid("reach × height × slew, 100 × 100 × 100", places=100, slews=100)
SHEET = grid("reach × height, 1000 × 1000", places=1000, slews=1)
