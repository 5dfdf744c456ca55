"""Tipping loads against a linear programme that knows nothing of tipping lines."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from liftcalc.machines.files import load
from liftcalc.machines.supports import Stance
from liftcalc.site.site import Site
from tests.helpers import MACHINES, Posed, fixed_axle, some_pose
from tests.physics.programme import Contact, Scene

STANCES: tuple[Stance, ...] = ("wheels", "stabilisers", "stabilisers and bucket")
POSES = 180
"""Poses of each machine on each stance: 2160 in all, and 360 with a fixed axle."""

Vector = tuple[float, float, float]
Measured = Callable[[str, int, float], None]


def scene(posed: Posed, gravity: Vector, *, load_gravity: Vector | None = None) -> Scene:
    """What the machine stands on, told from its own sizes and not from its tipping lines."""
    machine = posed.machine
    wheels, legs = machine.wheels, machine.stabilisers
    base, half_front = float(wheels.wheelbase), float(wheels.front_track) / 2
    oscillates = wheels.front_axle_oscillates and posed.stance != "stabilisers and bucket"
    front = [Contact((base, side * half_front, 0.0), int(oscillates)) for side in (1, -1)]
    if posed.stance == "wheels":
        rear = [Contact((0.0, side * float(wheels.rear_track) / 2, 0.0)) for side in (1, -1)]
    else:
        spread = float(legs.pad_spread) / 2
        rear = [Contact((float(legs.x), side * spread, 0.0)) for side in (1, -1)]
    if posed.stance == "stabilisers and bucket":
        tool = posed.front.tool
        out = float(posed.front.tool_origin.u) + float(tool.ground_contact[0])
        front = [Contact((out, side * float(tool.width) / 2, 0.0)) for side in (1, -1)]
    return Scene(
        masses=[
            (lump.mass, (float(lump.x), float(lump.y), float(lump.z)))
            for lump in posed.standing.lumps
        ],
        load=posed.load,
        gravity=gravity,
        contacts=[*rear, *front],
        pin=(base, 0.0, float(wheels.axle_pin_height)) if oscillates else None,
        load_gravity=load_gravity,
    )


def somewhere(rng: np.random.Generator, *, any_way: bool, steepest: float) -> Vector:
    """A slope: any way, or level or across without a trace of gravity along the machine."""
    slope = rng.uniform(0, steepest) if rng.integers(5) else 0.0
    if any_way:
        found = Site(slope=slope, heading=rng.uniform(-math.pi, math.pi)).gravity
        return tuple(float(part) for part in found)
    found = Site(slope=slope, heading=rng.choice([-1.0, 1.0]) * math.pi / 2).gravity
    return (0.0, float(found[1]), float(found[2]))


def differ(ours: float, theirs: float) -> float:
    """Relative difference, 1 where only one is endless or nothing."""
    if ours == theirs:
        return 0.0
    if math.isinf(ours) or math.isinf(theirs):
        return 1.0
    return abs(ours - theirs) / max(ours, theirs)


def worst_of(name: str, stance: Stance, *, seed: int, poses: int, fixed: bool) -> tuple[float, int]:
    """Largest relative difference over random poses, and how many loads were finite."""
    rng = np.random.default_rng(seed)
    machine = fixed_axle(load(name)) if fixed else load(name)
    any_way = fixed or stance == "stabilisers and bucket"
    worst, finite = 0.0, 0
    for _ in range(poses):
        posed = some_pose(machine, stance, rng)
        gravity = somewhere(rng, any_way=any_way, steepest=rng.choice([0.1, 0.3, 0.6]))
        ours = posed.tipping_load(gravity)
        worst = max(worst, differ(ours, scene(posed, gravity).greatest_load()))
        finite += 0 < ours < math.inf
    return worst, finite


@pytest.mark.parametrize("stance", STANCES)
@pytest.mark.parametrize("name", MACHINES)
def test_tipping_load_is_the_greatest_load_of_the_programme(
    name: str, stance: Stance, measured: Measured
) -> None:
    seed = 100 * MACHINES.index(name) + STANCES.index(stance)
    worst, finite = worst_of(name, stance, seed=seed, poses=POSES, fixed=False)
    measured("tipping load, by a linear programme of contact forces", POSES, worst)
    assert worst < 1e-6
    # A test of zeros and endless loads alone would prove little.
    assert finite > 0.7 * POSES


@pytest.mark.parametrize("stance", ["wheels", "stabilisers"])
def test_with_a_fixed_front_axle_on_any_slope(stance: Stance, measured: Measured) -> None:
    worst, finite = worst_of("standard-sideshift", stance, seed=7, poses=180, fixed=True)
    measured("the same with a fixed front axle, any slope and friction", 180, worst)
    assert worst < 1e-6
    assert finite > 120


@pytest.mark.parametrize("stance", ["wheels", "stabilisers"])
def test_along_a_slope_the_rear_contact_that_still_carries_takes_the_force(
    stance: Stance, measured: Measured
) -> None:
    """Each side line by itself, on any slope: the far contact gone, the other holding all.

    Where the far rear contact just goes light, the near one carries every force along the machine
    (the front wheels roll freely). The two-body programme with that one rear contact, free to push
    any way along the ground, has an equilibrium at our tipping load and at no other.
    """
    rng = np.random.default_rng(11)
    held, worst = 0, 0.0
    for _ in range(60):
        posed = some_pose(load("standard-sideshift"), stance, rng)
        gravity = somewhere(rng, any_way=True, steepest=0.25)
        full = scene(posed, gravity)
        for near, line_end in ((0, "left"), (1, "right")):
            line = next(
                each
                for each in posed.lines(gravity)
                if each.line.name.startswith(line_end) and "pin" in each.line.name
            )
            ours = float(line.tipping_load)
            if not 0 < ours < 1e5:
                continue
            contacts = (full.contacts[near], *full.contacts[2:])
            alone = OneRearContact(replace(full, contacts=contacts))
            # An independent equilibrium of 12 equations, unknown load among them.
            worst = max(worst, differ(ours, alone.load()))
            held += 1
    assert worst < 1e-6
    measured("each side line along a slope, by equilibrium on one rear contact", held, worst)
    assert held > 50


class OneRearContact:
    """Chassis on one rear contact and the axle's pin: as many unknowns as equations."""

    def __init__(self, full: Scene) -> None:
        self.full = full

    def load(self) -> float:
        """The load in equilibrium [kg], whatever the signs of the forces."""
        rear, left, right = (np.array(contact.at) for contact in self.full.contacts)
        pin = np.array(self.full.pin)
        pull = np.array(self.full.gravity)
        columns = []

        def add(force: np.ndarray, at: np.ndarray, body: int) -> np.ndarray:
            column = np.zeros(12)
            column[6 * body : 6 * body + 3] = force
            column[6 * body + 3 : 6 * body + 6] = np.cross(at, force)
            return column

        x, y, z = np.eye(3)
        columns += [add(axis, rear, 0) for axis in (x, y, z)]
        columns += [add(axis, pin, 0) - add(axis, pin, 1) for axis in (x, y, z)]
        for axis in (y, z):
            column = np.zeros(12)
            column[3:6], column[9:12] = axis, -axis
            columns.append(column)
        # Tyres of the axle: their sideways forces act alike, so one stands for both.
        columns += [add(y, left, 1), add(z, left, 1), add(z, right, 1)]
        columns.append(add(pull, np.array(self.full.load), 0))
        weight = sum(mass * add(pull, np.array(at), 0) for mass, at in self.full.masses)
        return float(np.linalg.solve(np.array(columns).T, -weight)[-1])


def test_swing_is_the_worst_of_every_direction_of_lean() -> None:
    """A load leaning by an angle, tried in every direction: never less than ours, and one equal.

    Each direction is a programme of its own, with the load pulled that way.
    """
    rng = np.random.default_rng(3)
    lean = math.radians(6)
    for _ in range(12):
        posed = some_pose(load("standard-centre-mount"), "stabilisers and bucket", rng)
        gravity = somewhere(rng, any_way=True, steepest=0.1)
        ours = posed.tipping_load(gravity, swing=lean)
        down = np.array(gravity)
        size = float(np.linalg.norm(down))
        one = np.cross(down, [1.0, 0.0, 0.0])
        one /= np.linalg.norm(one)
        two = np.cross(down, one) / size
        loads = []
        for turn in np.linspace(0, 2 * math.pi, 48, endpoint=False):
            aside = one * math.cos(turn) + two * math.sin(turn)
            pull = math.cos(lean) * down + math.sin(lean) * size * aside
            loads.append(
                scene(posed, gravity, load_gravity=tuple(map(float, pull))).greatest_load()
            )
        assert min(loads) >= ours * (1 - 1e-9)
        if math.isfinite(ours):
            # 48 directions miss the worst by at most 3.75°: cos 3.75° of the sideways part.
            assert min(loads) == pytest.approx(ours, rel=0.01)


@pytest.mark.parametrize("name", MACHINES)
def test_moment_about_a_line_is_that_about_any_point_of_it(name: str) -> None:
    """A second moment point: the vector moment about a random point of the line, by cross."""
    rng = np.random.default_rng(5)
    for stance in STANCES:
        for _ in range(20):
            posed = some_pose(load(name), stance, rng)
            gravity = somewhere(rng, any_way=True, steepest=0.3)
            for each in posed.lines(gravity):
                start, end = (np.array([p.x, p.y, p.z]) for p in (each.line.start, each.line.end))
                about = start + rng.uniform(-2, 3) * (end - start)
                moment = sum(
                    np.cross(
                        np.array([lump.x, lump.y, lump.z], float) - about,
                        lump.mass * np.array(gravity),
                    )
                    for lump in posed.standing.lumps
                )
                along = float(moment @ (end - start) / np.linalg.norm(end - start))
                assert float(each.holding_moment) == pytest.approx(along, rel=1e-9, abs=1e-6)
