"""Grip against turning, held against a programme that seeks contact forces within friction.

The programme is written from Newton and Euler for chassis and front axle, with a polygon in every
cone of friction. The greatest load for which any forces exist is never below what the criterion
says; how far it is above is told too, so that the criterion is of use.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import linprog

from liftcalc.evaluation.check import check, reach
from liftcalc.evaluation.lift import Lift
from liftcalc.rigging.lift_mode import LiftMode
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from liftcalc.units import G0
from tests.helpers import lift

EDGES = 24
"""Sides of the polygon outside each cone of friction: it never holds less than the cone."""


def greatest_load(asked: Lift, direction: float) -> float:  # noqa: PLR0915 - one programme
    """Load at which no contact forces exist any more, its pull in one direction in plan [kg]."""
    posed, friction = reach(asked), asked.friction
    gravity = np.array(posed.gravity)
    pins = [each for each in posed.fixed.supports if each.z]
    lean, found = float(posed.lean), []
    down = gravity / np.linalg.norm(gravity)
    level = np.array([math.cos(direction), math.sin(direction), 0.0])
    level -= (level @ down) * down
    level /= np.linalg.norm(level)
    pull = np.linalg.norm(gravity) * (math.cos(lean) * down + math.sin(lean) * level)
    for whole in posed.wholes:
        columns, cones, count = [], [], 2 if pins else 1

        def push(force, at, body, *, columns=columns, count=count, other=None):
            column = np.zeros(6 * count)
            column[6 * body : 6 * body + 3] = force
            column[6 * body + 3 : 6 * body + 6] = np.cross(at, force)
            if other is not None:
                column[6 * other : 6 * other + 3] = -np.array(force)
                column[6 * other + 3 : 6 * other + 6] = -np.cross(at, force)
            columns.append(column)
            return len(columns) - 1

        def stand(at, body, rolls, push=push, cones=cones):
            up = push((0, 0, 1), at, body)
            left = push((0, 1, 0), at, body)
            ahead = None if rolls else push((1, 0, 0), at, body)
            cones.append((up, left, ahead))

        for each in posed.fixed.supports:
            if not each.z:
                stand((each.x, each.y, 0.0), 0, each.kind == "front tyre")
        free = [number for cone in cones for number in cone[1:] if number is not None]
        if pins:
            at = (pins[0].x, pins[0].y, pins[0].z)
            half = float(asked.machine.wheels.front_track) / 2
            for y in (half, -half):
                stand((at[0], y, 0.0), 1, True)
            free += [cone[1] for cone in cones[-2:]]
            for axis in np.eye(3):
                free.append(push(axis, at, 0, other=1))
            for axis in np.eye(3)[1:]:
                column = np.zeros(12)
                column[3:6], column[9:12] = axis, -axis
                columns.append(column)
                free.append(len(columns) - 1)
        own, load = np.zeros(6 * count), np.zeros(6 * count)
        own[:3], load[:3] = whole.mass * gravity, pull
        own[3:6] = np.cross((whole.x, whole.y, whole.z), own[:3])
        load[3:6] = np.cross(posed.load, pull)
        limits = []
        for up, left, ahead in cones:
            for turn in np.arange(EDGES) * 2 * math.pi / EDGES:
                row = np.zeros(len(columns) + 1)
                row[up] = -friction
                row[left] = math.sin(turn)
                if ahead is not None:
                    row[ahead] = math.cos(turn)
                limits.append(row)
        scale = G0 * whole.mass
        answer = linprog(
            np.r_[np.zeros(len(columns)), -1.0],
            A_ub=np.array(limits), b_ub=np.zeros(len(limits)),
            A_eq=np.column_stack([np.array(columns).T, load / G0]), b_eq=-own / scale,
            bounds=[(None, None) if n in free else (0.0, None) for n in range(len(columns))]
            + [(0.0, 100.0)],
        )  # fmt: skip
        found.append(float(answer.x[-1] * whole.mass) if answer.status == 0 else 0.0)
    return min(found)


def drawn(seed: int) -> Lift:
    rng = np.random.default_rng(seed)
    return lift(
        ("standard-sideshift", "compact-centre-mount", "standard-centre-mount")[seed % 3],
        tool="lifting hook",
        reach=2.0 + 1.2 * rng.random(),
        height=0.4 + rng.random(),
        slew=rng.uniform(-1.2, 1.2),
        stance=("stabilisers", "stabilisers and bucket")[seed % 2],
        other="wide front shovel",
        motion=Motion(friction=float(rng.uniform(0.15, 0.6))),
        taken=LiftMode(way=("drawn", "drawn, one end up")[seed // 2 % 2]),
        site=Site(slope=rng.choice([0.0, 0.05]), heading=rng.uniform(-3, 3)),
    )


def turning(asked: Lift) -> float:
    return next(
        each.capacity for each in check(asked).criteria if each.name == "grip against turning"
    )


@pytest.mark.parametrize("seed", range(24))
def test_contact_forces_exist_wherever_it_is_allowed(seed: int) -> None:
    for asked in drawn(seed).ways:
        kinds = ("grip", "tipping")
        ours = min(each.capacity for each in check(asked).criteria if each.kind in kinds)
        for direction in np.linspace(-math.pi, math.pi, 16, endpoint=False):
            assert ours <= greatest_load(asked, float(direction)) * (1 + 1e-6)


def test_it_is_not_far_below_what_friction_could_hold() -> None:
    shares = []
    for seed in range(24):
        asked = drawn(seed).ways[0]
        ours = turning(asked)
        most = min(
            greatest_load(asked, float(each))
            for each in np.linspace(-math.pi, math.pi, 16, endpoint=False)
        )
        if most > 0:
            shares.append(ours / most)
    assert np.median(shares) > 0.45  # one way of holding, of all that there are


def test_less_friction_and_a_farther_hook_never_help() -> None:
    asked = lift(tool="lifting hook", slew=1.0, reach=2.2, height=0.6, taken=LiftMode(way="drawn"))
    before = math.inf
    for friction in (0.6, 0.4, 0.25, 0.15):
        now = turning(replace(asked, motion=Motion(friction=friction)))
        assert now <= before
        before = now
    assert before < math.inf
    near, far = (turning(replace(asked, reach=each)) for each in (2.0, 3.2))
    assert far < near


def test_a_log_that_hangs_pulls_nothing_round() -> None:
    assert not any(each.name == "grip against turning" for each in check(lift(swing=0.1)).criteria)
