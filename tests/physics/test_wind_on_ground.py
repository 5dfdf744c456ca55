"""Wind against programmes written force by force: what pads carry in it, and front tyres.

As in ``test_reactions_programme`` the unknowns are the contact forces and the equations those of
Newton and Euler; wind comes from one side after the other, on machine and log alike.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import linprog

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check
from liftcalc.evaluation.evaluator import Evaluator
from liftcalc.machines.files import load
from liftcalc.machines.schema import Machine
from liftcalc.physics.reactions import Wrench, axle_tyres, settle
from liftcalc.physics.tipping import Support
from liftcalc.site.ground import ground
from liftcalc.site.site import Site
from tests.helpers import MACHINES, lift, span, tried
from tests.property.test_safety import some_lift

SIDES = np.radians(np.arange(0.0, 360.0, 15.0))
STANDING = ("stabilisers", "stabilisers and bucket")


def six(force: np.ndarray, at: object) -> np.ndarray:
    return np.r_[force, np.cross(np.asarray(at, dtype=float), force)]


def pressed(answer: Answer, mass: float, side: float) -> np.ndarray:
    """Force and moment of all weights, and of wind toward a side."""
    reached, toward = answer.reached, np.array([math.cos(side), math.sin(side), 0.0])
    down = np.array(reached.gravity, dtype=float)
    parts = [six(each.mass * down, (each.x, each.y, each.z)) for each in reached.standing.lumps]
    parts.append(six(mass * down, reached.load))
    for force in answer.lift.level_forces:
        parts.append(six(force.size * toward, force.at or reached.load))
    return np.sum(parts, axis=0)


def most_on(support: Support, contacts: tuple[Support, ...], press: np.ndarray) -> float | None:
    """The most that the ground may push a support up with; None where the machine tips."""
    pinned, against = any(each.z for each in contacts), -math.copysign(1.0, press[0])
    columns, bounds, aim = [], [], []
    for each in contacts:
        ways = [((0, 0, 1), (0.0, None)), ((0, 1, 0), (None, None))]
        if not pinned:
            ways.append(((1, 0, 0), (None, None)))
        elif not each.z:
            ways.append(((against, 0, 0), (0.0, None)))
        for way, bound in ways:
            columns.append(six(np.array(way, float), (each.x, each.y, each.z)))
            bounds.append(bound)
            aim.append(-1.0 if each == support and way[2] else 0.0)
    scale = abs(press[2])
    found = linprog(aim, A_eq=np.array(columns).T, b_eq=-press / scale, bounds=bounds)
    return -found.fun * scale if found.success else None


@pytest.mark.parametrize("machine", MACHINES)
@pytest.mark.parametrize("stance", STANDING)
@pytest.mark.parametrize("slope", [0.0, 0.05])
def test_no_pad_carries_more_in_wind_than_is_told(machine: str, stance: str, slope: float) -> None:
    site = Site(slope=slope, heading=0.4)
    base = lift(machine, stance=stance, slew=0.6, site=site, other="multi-purpose jaw bucket")
    still, blown = check(base), check(replace(base, wind=9.0))
    harder = 0
    for support, foot, calm in zip(
        blown.reached.standing.supports,
        [each for each in blown.ground_forces.feet if each.kind in ("pad", "corner")],
        still.ground_forces.feet,
        strict=False,
    ):
        tried = [
            most_on(
                support,
                blown.reached.standing.supports,
                pressed(blown, blown.ground_forces.load, side),
            )
            for side in SIDES
        ]
        held = [each for each in tried if each is not None]
        assert len(held) > len(SIDES) / 2
        assert max(held) <= foot.worst * (1 + 1e-9)
        harder += max(held) > calm.worst
    assert harder


@pytest.mark.parametrize("machine", MACHINES)
@pytest.mark.parametrize("heading", [0.0, math.pi])
def test_the_load_that_the_ground_allows_in_wind_sinks_no_pad(machine: str, heading: float) -> None:
    """On a slope so slight that wind along the machine outdoes it, up or down."""
    base = lift(machine, slew=0.6, site=Site(slope=0.004, heading=heading))
    answer = check(replace(base, wind=6.0, ground=ground("hard standing"), mat=0.35))
    limits = [each for each in answer.criteria if each.kind == "ground under a pad"]
    assert len(limits) == 2
    contacts, seen = answer.reached.standing.supports, 0
    # Which way wind goes along the machine is not known: both ways of holding it are asked.
    asked = [each.criterion for each in answer.reached.linear if each.criterion.name == "ground"]
    assert [len(each.ways) for each in asked] == [2, 2]
    for limit in limits:
        support = next(each for each in contacts if each.name in limit.where)
        foot = next(each for each in answer.ground_forces.feet if each.name == support.name)
        if not 0 < limit.capacity < math.inf:
            continue
        seen += 1
        for side in SIDES:
            most = most_on(support, contacts, pressed(answer, limit.capacity, side))
            if most is not None:
                # A yard of rolled stone: 600 kPa, a presumed value with its own margin.
                assert most <= 600e3 * foot.area * (1 + 1e-9)
    assert seen


@pytest.mark.parametrize("machine", MACHINES)
def test_no_front_tyre_carries_more_in_wind_than_is_told(machine: str) -> None:
    blown = check(replace(lift(machine, end="front", reach=None), wind=9.0))
    tyres = [each for each in blown.ground_forces.feet if each.kind == "front tyre"]
    contacts = blown.reached.standing.supports
    track = float(blown.lift.machine.wheels.front_track)
    uneven = 0.0
    for side in SIDES:
        press = pressed(blown, blown.ground_forces.load, side)
        pressing = Wrench(force=tuple(press[:3]), moment=tuple(press[3:]))
        (pin,) = (each for each in settle(contacts, wrench=pressing) if each.contact.z)
        left, right = axle_tyres(pin, track=track).steps
        uneven = max(uneven, abs(left - right))
        assert max(left, right) <= tyres[0].worst
    assert uneven > 0


def braked(machine: Machine) -> Machine:
    wheels = machine.wheels.model_copy(update={"braked": "all"})
    return machine.model_copy(update={"wheels": wheels})


def test_front_wheels_that_hold_against_wind_take_it_ahead_of_the_pin_s_line() -> None:
    """Nose downhill, and on level ground, where nothing else pushes the machine along."""
    base = lift(braked(load("standard-sideshift")), slew=0.8, stance="wheels", reach=2.5)
    for asked in (base, replace(base, site=Site(slope=0.01, heading=math.pi))):
        blown = check(replace(asked, wind=8.0))
        lines = {each.line.name: each.holding_moment for each in blown.reached.lines}
        held = [each for each in blown.reached.linear if each.criterion.kind == "tipping"]
        assert len(held) == 2
        for each in held:
            free = lines[each.criterion.where.removesuffix(", front wheels holding")]
            assert each.held[0].holding < free


@pytest.mark.parametrize("seed", range(40))
def test_what_is_left_out_of_a_map_holds_any_load_in_wind(seed: int) -> None:
    base = replace(some_lift(seed, site=Site()), wind=3.0 + seed)
    size = span(base.machine)
    evaluator = tried(lambda: Evaluator(base, slew=np.linspace(-0.8, 0.8, 5)[:, np.newaxis]))
    if evaluator is None:  # a bucket that does not get to the ground
        return
    arm = evaluator.pose(size * np.linspace(0.5, 0.8, 9), size * np.linspace(0.1, 0.4, 9))
    for rule in evaluator.rules:
        if evaluator._idle(rule, arm):
            assert np.all(np.isinf(evaluator.fails(rule, arm, 0.0)))
