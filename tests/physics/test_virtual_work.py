"""Every ram does the work that the weights gain: F·dℓ = −Σ m·g·dr, to 1e-9.

The moments of the rams and of the weights come from closed forms. Here nothing is used but where
pins and masses stand: each joint is moved a little and lengths and places are differentiated by
central differences of eighth order.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest

from liftcalc.evaluation.rams import plane_gravity
from liftcalc.machines.arm import Arm
from liftcalc.machines.assembly import back_point, front_point
from liftcalc.machines.back_arm import back_arm, reach_back
from liftcalc.machines.files import load
from liftcalc.machines.front_arm import front_arm, reach_front
from liftcalc.machines.schema import Machine
from liftcalc.physics.joints import link_angle, tilt_from_angle, tilt_from_ram
from liftcalc.physics.plane import Point
from liftcalc.site.site import Site
from tests.helpers import MACHINES, ram_capacity, some_back, some_front, some_tool, sound

STEPS = np.array([-4, -3, -2, -1, 1, 2, 3, 4], dtype=float)
WEIGHTS = np.array([1 / 280, -4 / 105, 1 / 5, -4 / 5, 4 / 5, -1 / 5, 4 / 105, -1 / 280])
"""Central difference of eighth order; Fornberg, Math. Comp. 51 (1988) 699, table 1."""


def slope_of(values: Any, step: float) -> float:
    return float(np.asarray(values) @ WEIGHTS / step)


def test_the_difference_formula_itself() -> None:
    step = 0.01
    assert slope_of(np.exp(STEPS * step), step) == pytest.approx(1.0, abs=1e-13)
    assert slope_of((STEPS * step) ** 8 + (STEPS * step) ** 7, step) == pytest.approx(0, abs=1e-13)


@dataclass(frozen=True)
class Mover:
    """An end in a pose, and how each of its rams moves it: joint name to a function of a step."""

    arm: Arm
    moves: dict[str, Callable[[np.ndarray], Arm]]
    place: Callable[[Point], Any]
    slew: float


def back_mover(machine: Machine, rng: np.random.Generator) -> Mover:
    while True:
        tool, point = some_tool(machine, "back", rng)
        boom = rng.uniform(-0.6, 1.3)
        dipper = boom - rng.uniform(0.2, 2.5)
        curl = rng.uniform(0.03, 0.97)

        def pose(a: Any, b: Any, c: Any, tool: Any = tool, point: Any = point) -> Arm:
            return back_arm(
                machine, tool=tool, point=point, boom_angle=a, dipper_angle=b, curl=c, radius=0.2
            )

        arm = pose(boom, dipper, curl)
        if sound(arm):
            break
    slew = rng.uniform(-1.5, 1.5)
    shift = rng.uniform(-0.5, 0.5)
    return Mover(
        arm=arm,
        # Angles are to the horizontal: what the boom turns, it turns with all that it carries.
        moves={
            "boom ram": lambda t: pose(boom + t, dipper + t, curl),
            "dipper ram": lambda t: pose(boom, dipper + t, curl),
            "bucket ram": lambda t: pose(boom, dipper, curl + t),
        },
        place=lambda at: np.array(
            np.broadcast_arrays(*back_point(machine, at, slew=slew, sideshift=shift))
        ),
        slew=slew,
    )


def front_mover(machine: Machine, rng: np.random.Generator) -> Mover:
    while True:
        tool, point = some_tool(machine, "front", rng)
        angle, tilt = rng.uniform(-0.6, 0.75), rng.uniform(-0.5, 0.8)

        def pose(a: Any, b: Any, tool: Any = tool, point: Any = point) -> Arm:
            return front_arm(machine, tool=tool, point=point, arm_angle=a, tilt=b, radius=0.2)

        arm = pose(angle, tilt)
        if sound(arm):
            break
    return Mover(
        arm=arm,
        moves={
            "lift rams": lambda t: pose(angle + t, tilt + t),
            "tilt rams": lambda t: pose(angle, tilt + t),
        },
        place=lambda at: np.array(np.broadcast_arrays(*front_point(at))),
        slew=0.0,
    )


def work_gap(mover: Mover, name: str, machine: Machine, rng: np.random.Generator) -> float:
    """Relative gap between the ram's work and the work against gravity; nan past a dead centre."""
    joint = next(each for each in mover.arm.joints if each.name == name)
    site = Site(slope=rng.uniform(0, 0.4), heading=rng.uniform(-math.pi, math.pi))
    gravity = np.array([float(part) for part in site.gravity])
    step = 0.004 if name == "bucket ram" else 0.01
    moved = mover.moves[name](STEPS * step)
    then = next(each for each in moved.joints if each.name == name)
    length = slope_of(
        np.hypot(then.rod_pin.u - then.base_pin.u, then.rod_pin.w - then.base_pin.w), step
    )
    load = rng.uniform(0, 3000)

    def work(at: Point) -> float:
        return sum(
            g * slope_of(np.broadcast_to(p, STEPS.shape), step)
            for g, p in zip(gravity, mover.place(at), strict=True)
        )

    parts = [lump.mass * work(lump.at) for lump in then.lumps] + [load * work(moved.load_at)]
    gravity_u, gravity_w = plane_gravity(mover.arm, gravity=tuple(gravity), slew=mover.slew)
    known = ram_capacity(
        joint,
        load_at=mover.arm.load_at,
        gravity_u=gravity_u,
        gravity_w=gravity_w,
        hydraulics=machine.hydraulics,
    )
    force = -(known.links_moment + load * known.load_unit_moment) / joint.moment_arm
    gained = -sum(parts)
    return abs(force * length - gained) / sum(abs(part) for part in parts)


@pytest.mark.parametrize("end", ["back", "front"])
@pytest.mark.parametrize("name", MACHINES)
def test_ram_work_is_the_work_against_gravity(
    name: str, end: str, measured: Callable[[str, int, float], None]
) -> None:
    rng = np.random.default_rng(MACHINES.index(name) + 10)
    machine = load(name)
    seen: dict[str, int] = {}
    worst = 0.0
    for _ in range(40):
        mover = (back_mover if end == "back" else front_mover)(machine, rng)
        for joint in mover.arm.joints:
            gap = work_gap(mover, joint.name, machine, rng)
            assert gap < 1e-9, joint.name
            worst = max(worst, gap)
            seen[joint.name] = seen.get(joint.name, 0) + 1
    rams = {"boom ram", "dipper ram", "bucket ram"} if end == "back" else {"lift rams", "tilt rams"}
    assert set(seen) == rams
    assert min(seen.values()) > 10
    measured("work of every ram against work of the weights", sum(seen.values()), worst)


@pytest.mark.parametrize("name", MACHINES)
def test_at_its_capacity_a_ram_is_at_one_of_its_limits(name: str) -> None:
    """The force that balances links and load is the greatest push or pull, and not beyond."""
    rng = np.random.default_rng(MACHINES.index(name) + 30)
    machine = load(name)
    pushed = pulled = 0
    for _ in range(60):
        arm = some_back(machine, rng) if rng.integers(2) else some_front(machine, rng)
        gravity = tuple(float(g) for g in Site(slope=0.2, heading=rng.uniform(-3, 3)).gravity)
        slew = rng.uniform(-1.5, 1.5)
        gravity_u, gravity_w = plane_gravity(arm, gravity=gravity, slew=slew)
        for joint in arm.joints:
            known = ram_capacity(
                joint,
                load_at=arm.load_at,
                gravity_u=gravity_u,
                gravity_w=gravity_w,
                hydraulics=machine.hydraulics,
            )
            area = math.pi / 4 * float(joint.ram.bore) ** 2
            ring = area - math.pi / 4 * float(joint.ram.rod) ** 2
            effort = float(known.pressure) * float(machine.hydraulics.efficiency)
            count = joint.ram.count
            if not 0 < known.capacity < math.inf:
                continue
            force = -(known.links_moment + known.capacity * known.load_unit_moment)
            force /= joint.moment_arm
            limit = count * effort * (area if force > 0 else -ring)
            assert force == pytest.approx(limit, rel=1e-9)
            pushed += force > 0
            pulled += force < 0
    assert pushed > 10
    assert pulled > 10


@pytest.mark.parametrize("name", MACHINES)
def test_a_pose_asked_for_is_the_pose_got(name: str) -> None:
    """Inverse then forward: the lift point stands where it was asked to."""
    rng = np.random.default_rng(2)
    machine = load(name)
    for _ in range(60):
        arm = some_back(machine, rng)
        point = arm.tool.lift_point[0]
        curl = rng.uniform(0, 1)
        posed = reach_back(
            machine,
            tool=arm.tool,
            point=point,
            reach=float(arm.lift_at.u),
            height=float(arm.lift_at.w),
            curl=curl,
        )
        if not math.isnan(float(posed.lift_at.u)):
            assert float(posed.lift_at.u) == pytest.approx(float(arm.lift_at.u), abs=1e-12)
            assert float(posed.lift_at.w) == pytest.approx(float(arm.lift_at.w), abs=1e-12)
        front = some_front(machine, rng)
        point = front.tool.lift_point[0]
        posed = reach_front(
            machine,
            tool=front.tool,
            point=point,
            height=float(front.lift_at.w),
            tilt=front.tool_angle,
        )
        assert float(posed.lift_at.w) == pytest.approx(float(front.lift_at.w), abs=1e-12)
        if len(front.tool.lift_point) == 1:
            assert float(posed.lift_at.u) == pytest.approx(float(front.lift_at.u), abs=1e-12)


@pytest.mark.parametrize("name", MACHINES)
@pytest.mark.parametrize("end", ["back", "front"])
def test_the_four_bar_closes_and_keeps_its_lengths(name: str, end: str) -> None:
    machine = load(name)
    ram = machine.back.bucket_ram if end == "back" else machine.front.tilt_ram
    length = machine.back.dipper.length if end == "back" else machine.front.arm.length
    bar = ram.four_bar(pivot=Point(float(length), 0.0))
    out = np.linspace(float(ram.closed), float(ram.open), 301)
    tilt = tilt_from_ram(bar, ram_length=out)

    def gap(one: Point, two: Point) -> np.ndarray:
        return np.hypot(one.u - two.u, one.w - two.w)

    assert not np.any(np.isnan(tilt.angle))
    for one, two, size in (
        (bar.rocker_pivot, tilt.ram_pin, bar.ram_radius),
        (bar.rocker_pivot, tilt.rocker_pin, bar.pin_radius),
        (tilt.rocker_pin, tilt.link_pin, bar.link_length),
        (bar.pivot, tilt.link_pin, math.hypot(*map(float, bar.link_pin))),
        (bar.ram_base, tilt.ram_pin, out),
    ):
        assert np.max(np.abs(gap(one, two) - size)) < 1e-12
    # No jump from one way of closing to the other: turning is smooth and one way all along.
    turned = np.diff(np.unwrap(tilt.angle))
    assert np.all(turned * np.sign(turned[0]) > 0)
    assert np.max(np.abs(turned)) < 0.2
    # From the angle back to the same ram length.
    again = tilt_from_angle(bar, angle=tilt.angle)
    assert np.max(np.abs(again.ram_length - out)) < 1e-9
    assert np.max(np.abs(again.moment_arm - tilt.moment_arm)) < 1e-7


@pytest.mark.parametrize("name", MACHINES)
def test_the_linkage_holds_the_attachment_where_it_stands(name: str) -> None:
    """The end of the four-bar, carried into the plane by its arm, is the attachment's own pin.

    One way goes by the arm's angle and the linkage, the other by the attachment's angle alone.
    """
    rng = np.random.default_rng(6)
    machine = load(name)
    seen = 0
    for _ in range(40):
        for arm, link, pin in (
            (some_front(machine, rng), "loader arms", machine.front.tilt_ram.link_pin),
            (some_back(machine, rng), "dipper", machine.back.bucket_ram.link_pin),
        ):
            if arm.tool.mount != "pins":
                continue
            inner, outer = next(d.points for d in arm.drawn if d.link == link)
            start, end = complex(*map(float, inner)), complex(*map(float, outer))
            along = (end - start) / abs(end - start)
            tilt = arm.joints[-1].tilt
            by_linkage = start + along * complex(*map(float, tilt.link_pin))
            turn = complex(math.cos(arm.tool_angle), math.sin(arm.tool_angle))
            by_tool = complex(*map(float, arm.tool_origin)) + turn * complex(*map(float, pin))
            assert abs(by_linkage - by_tool) < 1e-9
            assert abs(end - complex(*map(float, arm.tool_origin))) < 1e-12
            seen += 1
    assert seen > 20


@pytest.mark.parametrize("name", MACHINES)
def test_ram_to_angle_and_back(name: str) -> None:
    """The angle that a ram length gives asks for that ram length again, over every stroke."""
    machine = load(name)
    back, front = machine.back, machine.front
    foot, pivot = Point(*map(float, back.foot_pin)), Point(*map(float, front.arm_pivot))
    elbow = Point(float(back.boom.length), 0.0)
    for ram, joint in ((back.boom_ram, foot), (back.dipper_ram, elbow), (front.lift_ram, pivot)):
        rod = Point(*map(float, ram.rod_pin))
        base = Point(*map(float, ram.base))
        for length in np.linspace(float(ram.closed), float(ram.open), 13):
            angle = float(
                link_angle(
                    ram_length=length, pivot=joint, base_pin=base, rod_pin=rod, side=ram.side
                )
            )
            tip = complex(*joint) + complex(*rod) * complex(math.cos(angle), math.sin(angle))
            assert abs(tip - complex(*base)) == pytest.approx(length, abs=1e-12)


@pytest.mark.parametrize("name", MACHINES)
def test_random_poses_keep_rams_within_their_stroke(name: str) -> None:
    """Lengths from the pins of the pose, by Pythagoras, against the strokes of the file."""
    rng = np.random.default_rng(4)
    machine = load(name)
    for _ in range(40):
        for arm in (some_back(machine, rng), some_front(machine, rng)):
            for joint in arm.joints:
                length = math.dist(
                    tuple(map(float, joint.base_pin)), tuple(map(float, joint.rod_pin))
                )
                assert float(joint.ram.closed) - 1e-8 <= length <= float(joint.ram.open) + 1e-8
                assert length == pytest.approx(float(joint.ram_length), abs=1e-12)
