"""Tipping to a side while the front wheels hold the machine along the slope, by equilibrium.

Two bodies, force by force: chassis and front axle, joined by a pin along x. At tipping the far rear
tyre carries nothing, the near one holds nothing along the machine, and all of that is held at the
ground below the middle of the front axle. Twelve equations give twelve unknowns, the load among
them; no line and no hull is in it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from liftcalc.evaluation.linear_criteria import LinearCriterion, linear_criteria
from liftcalc.machines.assembly import PointMass, fixed_part
from liftcalc.physics.wrench import load_at_tipping
from liftcalc.site.site import Site
from tests.helpers import MACHINES, Posed, lift, near, some_pose

Measured = Callable[[str, int, float], None]


def by_equilibrium(posed: Posed, gravity: tuple[float, float, float], side: float) -> float:
    """Load [kg] at which nothing is left on the rear tyre across from ``side``; may be negative."""
    wheels = posed.machine.wheels
    base, height = float(wheels.wheelbase), float(wheels.axle_pin_height)
    half, track = float(wheels.rear_track) / 2, float(wheels.front_track) / 2
    pin = (base, 0.0, height)

    def column(*parts: tuple[int, tuple[float, ...], tuple[float, ...]]) -> np.ndarray:
        made = np.zeros(12)
        for body, force, at in parts:
            made[6 * body : 6 * body + 3] += force
            made[6 * body + 3 : 6 * body + 6] += np.cross(at, force)
        return made

    def couple(axis: int) -> np.ndarray:
        made = np.zeros(12)
        made[3 + axis], made[9 + axis] = 1.0, -1.0
        return made

    near_tyre = (0.0, side * half, 0.0)
    unknown = [
        column((0, (0, 0, 1), near_tyre)),
        column((0, (0, 1, 0), near_tyre)),
        column((1, (0, 0, 1), (base, track, 0.0))),
        column((1, (0, 0, 1), (base, -track, 0.0))),
        column((1, (0, 1, 0), (base, 0.0, 0.0))),
        column((1, (1, 0, 0), (base, 0.0, 0.0))),
        *(column((0, tuple(axis), pin), (1, tuple(-axis), pin)) for axis in np.eye(3)),
        couple(1),
        couple(2),
        column((0, gravity, posed.load)),
    ]
    weight = sum(
        column((0, tuple(lump.mass * np.array(gravity)), (lump.x, lump.y, lump.z)))
        for lump in posed.standing.lumps
    )
    return float(np.linalg.solve(np.array(unknown).T, -weight)[-1])


def to_sides(posed: Posed, gravity: tuple[float, float, float]) -> dict[float, LinearCriterion]:
    """The two demands, by the side of the near rear tyre."""
    machine = posed.machine
    held = machine.model_copy(
        update={"wheels": machine.wheels.model_copy(update={"braked": "all"})}
    )
    asked = lift(held, end="front", stance="wheels")
    fixed = fixed_part(
        held,
        end="front",
        other_tool=asked.other_tool,
        stance="wheels",
        sideshift=0.0,
        operator=True,
    )
    found = [
        each
        for each in linear_criteria(asked, fixed, gravity=gravity)
        if each.where.endswith("front wheels holding")
    ]
    assert len(found) == (2 if gravity[0] > 0 else 0)
    return {1.0 if "left rear" in each.where else -1.0: each for each in found}


def tips(criterion: LinearCriterion, whole: PointMass, load: Any, gravity: Any) -> float:
    (((functional, constant),),) = criterion.ways
    assert constant == 0
    x, y, z = load
    return load_at_tipping(
        holding_moment=whole.mass
        * functional.unit(x=whole.x, y=whole.y, z=whole.z, gravity=gravity),
        load_unit_moment=functional.unit(x=x, y=y, z=z, gravity=gravity),
    )


@pytest.mark.parametrize("name", MACHINES)
def test_front_wheels_that_hold(name: str, measured: Measured) -> None:
    """Tipping over the pin's lines with the front wheels holding: load, kg."""
    rng = np.random.default_rng(2600 + MACHINES.index(name))
    off = []
    while len(off) < 60:
        posed = some_pose(near(MACHINES.index(name) + 4 * int(rng.integers(4))), "wheels", rng)
        slope, heading = rng.uniform(0.01, 0.2), rng.uniform(-math.pi, math.pi)
        gravity = tuple(float(part) for part in Site(slope=slope, heading=heading).gravity)
        whole = posed.standing.whole
        for side, demand in to_sides(posed, gravity).items():
            ours = tips(demand, whole, posed.load, gravity)
            theirs = by_equilibrium(posed, gravity, side)
            if 50 < ours < 50_000:
                off.append(abs(ours / theirs - 1))
    assert max(off) < 1e-9
    measured("tipping load, front wheels holding, by equilibrium", len(off), max(off))


def test_front_wheels_that_hold_make_it_tip_sooner() -> None:
    """Never a greater load than with front wheels that roll, nose downhill."""
    rng = np.random.default_rng(7)
    for number in range(80):
        posed = some_pose(near(number % 48), "wheels", rng)
        site = Site(slope=rng.uniform(0.01, 0.2), heading=rng.uniform(1.7, 4.5))
        gravity = tuple(float(part) for part in site.gravity)
        rolling = {
            1.0 if "left rear" in each.line.name else -1.0: float(each.tipping_load)
            for each in posed.lines(gravity)
            if "pin" in each.line.name
        }
        for side, demand in to_sides(posed, gravity).items():
            held = tips(demand, posed.standing.whole, posed.load, gravity)
            assert held <= rolling[side] * (1 + 1e-12)
