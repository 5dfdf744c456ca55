"""What must not change an answer: mirrors, frames, scale, and asking for many at once."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from liftcalc.errors import InputError
from liftcalc.evaluation.check import check
from liftcalc.evaluation.rams import plane_gravity
from liftcalc.machines.arm import Arm
from liftcalc.machines.assembly import PointMass, assemble, back_point, total_mass, travel_front
from liftcalc.machines.back_arm import reach_back
from liftcalc.machines.files import load
from liftcalc.machines.front_arm import reach_front
from liftcalc.machines.lookup import attachment
from liftcalc.machines.schema import Attachment, Machine
from liftcalc.physics.tipping import Line, Support
from liftcalc.site.site import Site
from tests.helpers import (
    MACHINES,
    centred,
    dimension,
    lift,
    line_capacity,
    perturbed,
    ram_capacity,
    rebuilt,
    some_pose,
    span,
    tried,
)
from tests.property.test_safety import STANCES, some_lift

seeds = st.integers(0, 10_000)
OTHER = {"left": "right", "right": "left"}


def mirrored(name: str) -> str:
    return " ".join(OTHER.get(word, word) for word in name.split())


@given(seeds)
def test_left_and_right_are_alike(seed: int) -> None:
    """Nothing off the centre line: slew, sideshift, slope and turning all mirrored."""
    here = some_lift(seed)
    rng = np.random.default_rng(seed)
    site = Site(
        slope=rng.uniform(0, 0.2),
        heading=rng.uniform(-3, 3),
        acceleration_forward=rng.uniform(-1, 1),
        acceleration_left=rng.uniform(-1, 1),
    )
    here = replace(here, machine=centred(here.machine), site=site)
    there = replace(
        here,
        slew=-here.slew,
        sideshift=-here.sideshift,
        site=replace(site, heading=-site.heading, acceleration_left=-site.acceleration_left),
    )
    one, two = tried(lambda: check(here)), tried(lambda: check(there))
    assume(one is not None)
    assert two.allowed == pytest.approx(one.allowed, rel=1e-9)
    assert two.utilisation == pytest.approx(one.utilisation, rel=1e-9)
    right = {mirrored(each.line.name): float(each.tipping_load) for each in two.reached.lines}
    # A carried log lies to its worse side, so each side's lines belong to that side.
    if here.side_room == 0:
        for each in one.reached.lines:
            assert right[each.line.name] == pytest.approx(float(each.tipping_load), rel=1e-9)


def test_sideshifted_they_are_not() -> None:
    machine = centred(load("standard-sideshift"))
    shift = float(machine.back.sideshift_limit)

    def tips(slew: float, sideshift: float) -> float:
        answer = check(lift(machine, slew=slew, sideshift=sideshift))
        return min(float(each.tipping_load) for each in answer.reached.lines)

    # Slewed left with the post on the left reaches farther past the left stabiliser.
    assert tips(1.0, shift) < 0.8 * tips(-1.0, shift)
    assert tips(1.0, shift) == pytest.approx(tips(-1.0, -shift), rel=1e-12)
    assert tips(1.0, 0.0) == pytest.approx(tips(-1.0, 0.0), rel=1e-12)


def turn(rng: np.random.Generator) -> np.ndarray:
    """A rotation of space, any way round."""
    found, _ = np.linalg.qr(rng.normal(size=(3, 3)))
    return found * np.sign(np.linalg.det(found))


@given(seeds, st.sampled_from(STANCES))
def test_the_frame_does_not_matter(seed: int, stance: Any) -> None:
    """Machine, lines, load and gravity turned and moved together: each line tips at the same."""
    rng = np.random.default_rng(seed)
    posed = some_pose(load(MACHINES[seed % len(MACHINES)]), stance, rng)
    gravity = tuple(float(g) for g in Site(slope=0.2, heading=rng.uniform(-3, 3)).gravity)
    swing = rng.choice([0.0, 0.1])
    around, to = turn(rng), rng.uniform(-20, 20, 3)

    def moved(at: Any) -> tuple[float, float, float]:
        x, y, z = around @ np.array(at, dtype=float) + to
        return float(x), float(y), float(z)

    def support(of: Support) -> Support:
        x, y, z = moved((of.x, of.y, of.z))
        return Support(name=of.name, x=x, y=y, z=z)

    lumps = []
    for lump in posed.standing.lumps:
        x, y, z = moved((lump.x, lump.y, lump.z))
        lumps.append(PointMass(name=lump.name, mass=lump.mass, x=x, y=y, z=z))
    whole = total_mass(tuple(lumps))
    pulled = tuple(float(g) for g in around @ np.array(gravity))
    for each in posed.lines(gravity, swing):
        line = Line(name=each.line.name, start=support(each.line.start), end=support(each.line.end))
        again = line_capacity(
            line, whole=whole, load=moved(posed.load), gravity=pulled, swing=swing
        )
        assert float(again.holding_moment) == pytest.approx(
            float(each.holding_moment), rel=1e-9, abs=1e-6
        )
        assert float(again.tipping_load) == pytest.approx(float(each.tipping_load), rel=1e-8)


@given(seeds, st.floats(0.7, 1.3))
def test_a_machine_to_another_scale(seed: int, size: float) -> None:
    """Lengths by k, masses, loads and forces by k³, pressures by k: every capacity by k³."""
    base = some_lift(seed)
    power = {"length": 1, "mass": 3, "force": 3, "pressure": 1, "pure": 0}
    scaled = tried(
        lambda: rebuilt(base.machine, lambda path, number: number * size ** power[dimension(path)])
    )
    assume(scaled is not None)
    tool = attachment(scaled, end=base.end, name=base.tool.name)
    other = replace(
        base,
        machine=scaled,
        tool=tool,
        point=next(p for p in tool.lift_point if p.name == base.point.name),
        other_tool=attachment(
            scaled, end="front" if base.end == "back" else "back", name=base.other_tool.name
        ),
        height=base.height * size,
        reach=None if base.reach is None else base.reach * size,
        sideshift=base.sideshift * size,
        off_centre=base.side_room * size,
        log=replace(base.log, largest_diameter=base.log.largest_diameter * size),
        measure=replace(base.measure, length=base.measure.length * size),
        sling=replace(base.sling, length=base.sling.length * 4),
    )
    one, two = tried(lambda: check(base)), tried(lambda: check(other))
    assume(one is not None)
    assert two is not None
    for small, large in zip(one.criteria, two.criteria, strict=True):
        assert large.capacity == pytest.approx(small.capacity * size**3, rel=1e-6), small.name


@dataclass(frozen=True)
class Poses:
    """Where the lift point is asked to be: one pose, or a grid of them."""

    reach: Any
    height: Any
    slew: Any
    swing: float

    def capacities(self, machine: Machine, tool: Attachment) -> tuple[Arm, list[Any]]:
        """The arm, and the capacity of every line and ram."""
        arm = reach_back(
            machine,
            tool=tool,
            point=tool.lift_point[0],
            reach=self.reach,
            height=self.height,
            curl=0.7,
        )
        standing = assemble(
            machine,
            front=travel_front(machine, attachment(machine, end="front")),
            back=arm,
            slew=self.slew,
            sideshift=0.1,
            stance="stabilisers",
        )
        gravity = Site(slope=0.1, heading=1.1).gravity
        at = back_point(machine, arm.load_at, slew=self.slew, sideshift=0.1)
        whole = standing.whole
        lines = [
            line_capacity(line, whole=whole, load=at, gravity=gravity, swing=self.swing)
            for line in standing.lines
        ]
        u, w = plane_gravity(arm, gravity=gravity, slew=self.slew)
        rams = [
            ram_capacity(
                joint,
                load_at=arm.load_at,
                gravity_u=u,
                gravity_w=w,
                hydraulics=machine.hydraulics,
                swing=self.swing,
            )
            for joint in arm.joints
        ]
        return arm, [*(each.tipping_load for each in lines), *(each.capacity for each in rams)]


def is_broken(arm: Arm) -> Any:
    return np.logical_or.reduce(
        np.broadcast_arrays(*(np.asarray(stop.violated) for stop in arm.stops))
    )


@pytest.mark.parametrize("swing", [0.0, 0.1])
@pytest.mark.parametrize("tool_name", ["digging bucket", "lifting hook", "log grab with rotator"])
def test_a_grid_of_poses_equals_the_poses_one_by_one(tool_name: str, swing: float) -> None:
    machine = load("standard-sideshift")
    tool = attachment(machine, end="back", name=tool_name)
    reach, height = np.linspace(0.5, 7.0, 14)[:, None], np.linspace(-2.0, 5.0, 15)[None, :]
    slew = np.linspace(-1.2, 1.2, 14)[:, None]
    grid, capacities = Poses(reach, height, slew, swing).capacities(machine, tool)
    shape = (14, 15)
    mask = np.broadcast_to(is_broken(grid), shape)
    tables = [np.broadcast_to(np.asarray(each), shape) for each in capacities]
    assert 20 < np.sum(~mask) < 0.8 * mask.size
    for i in range(14):
        for j in range(15):
            out, up, turned = float(reach[i, 0]), float(height[0, j]), float(slew[i, 0])
            one, alone = Poses(out, up, turned, swing).capacities(machine, tool)
            assert bool(is_broken(one)) == bool(mask[i, j])
            for table, single in zip(tables, alone, strict=True):
                np.testing.assert_allclose(float(single), table[i, j], rtol=1e-12)
            if not mask[i, j]:
                assert all(not math.isnan(float(each)) for each in alone)
                assert float(one.lift_at.u) == pytest.approx(out, abs=1e-9)
            # Out of reach of both links there is no number at all.
            if one.stops[0].violated:
                assert all(math.isnan(float(each)) for each in alone)


def test_a_row_of_front_poses_equals_them_one_by_one() -> None:
    machine = load("standard-centre-mount")
    tool = attachment(machine, end="front", name="pallet forks")
    height, tilt = np.linspace(-1.0, 5.0, 25), 0.1

    def posed(height: Any) -> tuple[Arm, list[Any]]:
        arm = reach_front(
            machine, tool=tool, point=tool.lift_point[0], height=height, tilt=tilt, radius=0.25
        )
        u, w = plane_gravity(arm, gravity=(0.5, 0.1, -9.7), slew=0.0)
        return arm, [
            ram_capacity(
                joint, load_at=arm.load_at, gravity_u=u, gravity_w=w, hydraulics=machine.hydraulics
            ).capacity
            for joint in arm.joints
        ]

    grid, tables = posed(height)
    mask = is_broken(grid)
    assert 5 < np.sum(~mask) < 24
    for i, up in enumerate(height):
        one, alone = posed(float(up))
        assert bool(is_broken(one)) == bool(mask[i])
        for table, single in zip(tables, alone, strict=True):
            np.testing.assert_allclose(float(single), np.asarray(table)[i], rtol=1e-12)


@given(seeds, st.floats(-1.0, 9.0), st.floats(-5.0, 8.0))
def test_out_of_reach_is_refused_and_within_it_every_figure_is_a_number(
    seed: int, reach: float, height: float
) -> None:
    base = replace(some_lift(seed), height=height)
    if base.end == "back":
        base = replace(base, reach=reach)
    try:
        answer = check(base)
    except InputError:
        return
    for arm in (answer.reached.arm, answer.reached.other):
        assert not np.any(is_broken(arm))
    # Nothing farther than the links are long.
    if base.end == "back":
        point = math.hypot(*map(float, base.point.at)) + 0.5 * span(base.machine)
        assert reach < span(base.machine) + point + 1
    for each in answer.criteria:
        assert not math.isnan(each.capacity)
        assert not math.isnan(each.utilisation)
        assert each.capacity >= 0


@pytest.mark.parametrize(
    "field",
    [
        "height",
        "reach",
        "slew",
        "sideshift",
        "tilt",
        "curl",
        "swing",
        "gauge",
        "plate",
        "off_centre",
    ],
)
def test_what_is_not_a_number_never_passes(field: str) -> None:
    """NaN in any figure of the request is refused, or at least never a pass."""
    end = "front" if field in ("tilt", "off_centre") else "back"
    light = {"species": "european larch", "length": "2 m", "butt": "20 cm", "top": "18 cm"}
    good = lift(end=end, log=light)
    assert check(good).passes
    try:
        answer = check(replace(good, **{field: math.nan}))
    except InputError:
        return
    assert not answer.passes


@pytest.mark.parametrize("field", ["slope", "heading", "acceleration_forward", "acceleration_left"])
def test_ground_that_is_not_a_number_never_passes(field: str) -> None:
    site = replace(Site(slope=0.05), **{field: math.nan})
    try:
        answer = check(lift(site=site))
    except InputError:
        return
    assert not answer.passes


def test_a_mass_that_is_not_a_number_never_passes() -> None:
    good = lift()
    for log in (
        replace(good.log, mass_planning=math.nan),
        replace(good.log, largest_diameter=math.nan),
    ):
        for end in ("back", "front"):
            try:
                answer = check(replace(lift(end=end), log=log))
            except InputError:
                continue
            assert not answer.passes
    with pytest.raises(InputError):
        replace(good.sling, mass=math.nan)


def test_perturbed_machines_are_valid_and_differ() -> None:
    rng = np.random.default_rng(1)
    for name in MACHINES:
        machine = load(name)
        other = perturbed(machine, rng)
        assert other.back.boom.length != machine.back.boom.length
        assert other.weights.total == pytest.approx(
            other.weights.front_axle + other.weights.rear_axle
        )
