"""The four invented classes fall in the bands of their trade and can do what such machines do.

Bands and facts are common practice, no source, from memory. The model itself computes all.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest

from liftcalc.machines.arm import Arm, angle_range
from liftcalc.machines.assembly import (
    MachineState,
    assemble,
    back_point,
    pressed_front,
    travel_front,
)
from liftcalc.machines.back_arm import back_arm, back_hand, reach_back
from liftcalc.machines.files import load
from liftcalc.machines.front_arm import front_arm, reach_front
from liftcalc.machines.lookup import attachment
from liftcalc.machines.schema import LiftPoint, Machine
from liftcalc.physics.joints import stall
from liftcalc.physics.plane import Point, place
from liftcalc.units import G0
from tests.helpers import MACHINES, ram_capacity, sound, travelling

Band = tuple[float, float]
JUST = 1e-6
"""Short of the end of a stroke, so that rounding does not pass it [rad]."""


@dataclass(frozen=True)
class Class:
    """A row of the trade's bands: t, m, t, m, t, m, bar."""

    mass: Band
    wheelbase: Band
    loader_lift: Band
    dump: Band
    dipper_lift: Band
    teeth: Band
    pressure: Band


BANDS = {
    "compact-centre-mount": Class(
        (4.5, 6.0), (1.8, 2.0), (1.2, 2.0), (2.2, 2.5), (0.6, 1.0), (4.0, 4.6), (175, 210)
    ),
    "standard-sideshift": Class(
        (7.5, 8.5), (2.1, 2.2), (2.8, 3.6), (2.6, 2.8), (1.1, 1.6), (5.3, 5.8), (200, 250)
    ),
    "standard-centre-mount": Class(
        (7.0, 8.5), (2.1, 2.2), (2.6, 3.4), (2.6, 2.8), (1.1, 1.6), (5.3, 5.8), (200, 250)
    ),
    "small-tractor": Class(
        (2.5, 3.5), (1.6, 1.9), (0.5, 0.9), (1.8, 2.2), (0.3, 0.5), (3.0, 3.6), (140, 175)
    ),
}
OVER_PADS = {"standard-sideshift": (2.2, 2.4), "standard-centre-mount": (3.2, 3.6)}


def within(value: float, band: Band) -> bool:
    return band[0] <= value <= band[1]


def capacities(machine: Machine, arm: Arm, at: Point) -> dict[str, float]:
    return {
        joint.name: float(
            ram_capacity(
                joint, load_at=at, gravity_u=0.0, gravity_w=-G0, hydraulics=machine.hydraulics
            ).capacity
        )
        for joint in arm.joints
    }


def loader_top(machine: Machine, tilt: float) -> Arm:
    """The wide shovel with the lift rams all but fully out."""
    front = machine.front
    high = angle_range(
        front.lift_ram,
        pivot=Point(*map(float, front.arm_pivot)),
        base_pin=Point(*map(float, front.lift_ram.base)),
    )[1]
    tool = attachment(machine, end="front", name="wide front shovel")
    return front_arm(machine, tool=tool, point=tool.lift_point[0], arm_angle=high - JUST, tilt=tilt)


def back_limits(machine: Machine) -> tuple[Band, float]:
    """Angles that the boom can take, and the straightest the dipper goes to it [rad]."""
    back = machine.back
    boom = angle_range(
        back.boom_ram,
        pivot=Point(*map(float, back.foot_pin)),
        base_pin=Point(*map(float, back.boom_ram.base)),
    )
    dipper = angle_range(
        back.dipper_ram,
        pivot=Point(float(back.boom.length), 0.0),
        base_pin=Point(*map(float, back.dipper_ram.base)),
    )
    return boom, dipper[1] - JUST


def stretched(machine: Machine, tool: str, boom: Any, curl: Any = 0.5) -> Arm:
    """The back end with its dipper as straight as it goes."""
    fitted = attachment(machine, end="back", name=tool)
    return back_arm(
        machine,
        tool=fitted,
        point=fitted.lift_point[0],
        boom_angle=boom,
        dipper_angle=boom + back_limits(machine)[1],
        curl=curl,
    )


def outline(arm: Arm) -> list[Point]:
    return [
        place(origin=arm.tool_origin, angle=arm.tool_angle, at=Point(*map(float, at)))
        for at in arm.tool.outline
    ]


@pytest.mark.parametrize("name", MACHINES)
def test_mass_wheelbase_and_pressure(name: str) -> None:
    machine, band = load(name), BANDS[name]
    assert within(machine.weights.total / 1000, band.mass)
    assert within(machine.wheels.wheelbase, band.wheelbase)
    assert within(machine.hydraulics.working_pressure / 1e5, band.pressure)
    if name in OVER_PADS:
        assert within(machine.stabilisers.pad_spread, OVER_PADS[name])
    assert (machine.back.sideshift_limit > 0) == ("sideshift" in name)


@pytest.mark.parametrize("name", MACHINES)
def test_loader_lifts_its_band_to_full_height(name: str) -> None:
    """The lift rams' load in the wide shovel, level, arms all the way up."""
    machine = load(name)
    arm = loader_top(machine, 0.0)
    assert sound(arm)
    assert within(
        capacities(machine, arm, arm.load_at)["lift rams"] / 1000, BANDS[name].loader_lift
    )


@pytest.mark.parametrize("name", MACHINES)
def test_dump_height(name: str) -> None:
    """Lowest point of the shovel, arms up and shovel tipped out 45°."""
    arm = loader_top(load(name), math.radians(-45))
    assert sound(arm)
    assert within(min(float(at.w) for at in outline(arm)), BANDS[name].dump)


@pytest.mark.parametrize("name", MACHINES)
def test_dipper_end_lift_at_full_reach(name: str) -> None:
    """Boom and dipper rams, the nose as far out as it goes, no bucket."""
    machine = load(name)
    boom = np.linspace(*back_limits(machine)[0], 4001)[1:-1]
    farthest = float(boom[np.argmax(stretched(machine, "lifting hook", boom).tool_origin.u)])
    arm = stretched(machine, "lifting hook", farthest)
    assert sound(arm)
    lift = min(capacities(machine, arm, arm.tool_origin).values())
    assert within(lift / 1000, BANDS[name].dipper_lift)


@pytest.mark.parametrize("name", MACHINES)
def test_greatest_reach_of_the_teeth(name: str) -> None:
    machine = load(name)
    low, high = back_limits(machine)[0]
    arm = stretched(
        machine,
        "digging bucket",
        np.linspace(low, high, 201)[1:-1, None],
        np.linspace(0, 1, 101)[None, :],
    )
    assert within(max(float(np.max(at.u)) for at in outline(arm)), BANDS[name].teeth)


@pytest.mark.parametrize("name", MACHINES)
def test_axle_split_in_travel_is_about_forty_sixty(name: str) -> None:
    """From the placed lumps, by moments about the rear axle."""
    machine = load(name)
    lumps = travelling(machine).lumps
    share = sum(x.mass * float(x.x) for x in lumps) / sum(x.mass for x in lumps)
    assert share / float(machine.wheels.wheelbase) == pytest.approx(0.40, abs=0.025)


def upward(machine: Machine, arm: Arm, at: Point) -> float:
    """Mass whose weight the ground may push up with at a point before a ram yields [kg]."""
    found = []
    for joint in arm.joints:
        known = ram_capacity(
            joint, load_at=at, gravity_u=0.0, gravity_w=-G0, hydraulics=machine.hydraulics
        )
        found.append(
            stall(
                push=known.push,
                pull=known.pull,
                moment_arm=joint.moment_arm,
                links_moment=known.links_moment,
                joint_unit_moment=-known.load_unit_moment,
            )[0]
        )
    return np.minimum.reduce([np.asarray(each) for each in found])


def travel_stand(machine: Machine, front: Arm, back: Arm) -> MachineState:
    return assemble(machine, front=front, back=back, slew=0.0, sideshift=0.0, stance="wheels")


@pytest.mark.parametrize("name", MACHINES)
def test_stabilisers_and_pressed_bucket_lift_all_wheels_clear(name: str) -> None:
    assert pressing_on_bucket(load(name)) > 1.05


def pressing_on_bucket(machine: Machine) -> float:
    """What lift and tilt rams can press the bucket down with, to what it must carry [-]."""
    tool = attachment(machine, end="front", name="wide front shovel")
    front = pressed_front(machine, tool)
    contact = place(
        origin=front.tool_origin, angle=front.tool_angle, at=Point(*map(float, tool.ground_contact))
    )
    back = stretched(machine, "digging bucket", back_limits(machine)[0][1] - 0.2)
    pads = float(machine.stabilisers.x)
    needed = sum(
        lump.mass * (float(lump.x) - pads) for lump in travel_stand(machine, front, back).lumps
    ) / (float(contact.u) - pads)
    assert needed > 0
    # And there is travel left to go below the ground the wheels stand on.
    below = LiftPoint(name="contact", at=tool.ground_contact, wll=tool.mass, hold="hangs")
    lower = reach_front(machine, tool=tool, point=below, height=-0.03, tilt=0.0)
    assert sound(lower)
    return float(upward(machine, front, contact)) / needed


@pytest.mark.parametrize("name", MACHINES)
def test_back_end_alone_pushing_down_raises_the_rear(name: str) -> None:
    assert pushing_down(load(name)) > 1


def pushing_down(machine: Machine) -> float:
    """What the bucket on the ground can push before a ram yields, to what lightens the rear [-].

    In the best of many poses.
    """
    low, high = back_limits(machine)[0]
    tool = attachment(machine, end="back", name="digging bucket")
    front = travel_front(machine, attachment(machine, end="front"))
    boom = np.linspace(low, high, 90)[1:-1, None, None]
    fold = np.linspace(-2.4, -0.3, 60)[None, :, None]
    curl = np.linspace(0.2, 0.95, 8)[None, None, :]
    arm = back_arm(
        machine,
        tool=tool,
        point=tool.lift_point[0],
        boom_angle=boom,
        dipper_angle=boom + fold,
        curl=curl,
    )
    allowed = ~np.logical_or.reduce(np.broadcast_arrays(*(stop.violated for stop in arm.stops)))
    corners = outline(arm)
    heights = np.array(np.broadcast_arrays(*(at.w for at in corners)))
    lowest = np.argmin(heights, axis=0)
    out = np.take_along_axis(
        np.array(np.broadcast_arrays(*(at.u for at in corners))), lowest[None], axis=0
    )[0]
    height = np.min(heights, axis=0)
    pressing = upward(machine, arm, Point(out, height))
    base = float(machine.wheels.wheelbase)
    x, _, _ = back_point(machine, Point(out, height), slew=0.0, sideshift=0.0)
    lumps = travel_stand(machine, front, arm).lumps
    needed = sum(lump.mass * (base - lump.x) for lump in lumps) / (base - x)
    on_ground = allowed & (np.abs(height) < 0.1)
    assert np.any(on_ground)
    return float(np.max(np.where(on_ground, pressing / needed, 0.0)))


@pytest.mark.parametrize("name", MACHINES)
def test_empty_and_stretched_it_does_not_creep(name: str) -> None:
    """The boom ram's pressure from the links alone, well below half the working pressure."""
    machine = load(name)
    low, high = back_limits(machine)[0]
    boom = np.linspace(low, high, 401)[1:-1]
    arm = stretched(machine, "digging bucket", boom, 0.6)
    known = ram_capacity(
        arm.joints[0],
        load_at=arm.load_at,
        gravity_u=0.0,
        gravity_w=-G0,
        hydraulics=machine.hydraulics,
    )
    farthest = int(np.argmax(arm.load_at.u))
    force = float((-known.links_moment / arm.joints[0].moment_arm)[farthest])
    ram = machine.back.boom_ram
    bore, rod = float(ram.bore), float(ram.rod)
    area = math.pi / 4 * (bore**2 if force > 0 else bore**2 - rod**2)
    assert 0.1 < abs(force) / area / machine.hydraulics.working_pressure < 0.4


def between(angle: Any, ends: Band) -> Any:
    """Whether a link lies on the way that its ram takes it, whole turns apart."""
    middle, half = (ends[0] + ends[1]) / 2, (ends[1] - ends[0]) / 2
    return np.abs(np.remainder(angle - middle + math.pi, 2 * math.pi) - math.pi) <= half + JUST


@pytest.mark.parametrize("name", MACHINES)
def test_no_place_is_taken_that_the_strokes_do_not_lead_to(name: str) -> None:
    """Wherever a lift point is sought, into machine and ground too, links stay in their arcs.

    The arcs come from the circles of pin and ram, on the side that the file says; a place is
    sought by its links alone, whose rams are as long on the other side of dead centre.
    """
    machine = load(name)
    tool = attachment(machine, end="back", name="lifting hook")
    out, up = np.meshgrid(np.linspace(-4, 7, 300), np.linspace(-5, 7, 300))
    arm = reach_back(machine, tool=tool, point=tool.lift_point[0], reach=out, height=up, curl=0.5)
    taken = ~np.logical_or.reduce(np.broadcast_arrays(*(stop.violated for stop in arm.stops)))
    boom, forearm = (joint.rod[0].angle for joint in arm.joints[:2])
    dipper = forearm + back_hand(machine, tool, tool.lift_point[0], 0.5).dipper.angle
    back, front = machine.back, machine.front
    arcs = [
        angle_range(ram, pivot=pivot, base_pin=Point(*map(float, ram.base)))
        for ram, pivot in (
            (back.boom_ram, Point(*map(float, back.foot_pin))),
            (back.dipper_ram, Point(float(back.boom.length), 0.0)),
            (front.lift_ram, Point(*map(float, front.arm_pivot))),
        )
    ]
    assert taken.any()
    assert between(boom, arcs[0])[taken].all()
    assert between(dipper - boom, arcs[1])[taken].all()
    shovel = attachment(machine, end="front", name="wide front shovel")
    turn = np.linspace(-math.pi, math.pi, 2000)
    raised = front_arm(machine, tool=shovel, point=shovel.lift_point[0], arm_angle=turn, tilt=turn)
    stopped = np.broadcast_arrays(*(stop.violated for stop in raised.stops[:2]))
    taken = ~np.logical_or.reduce(stopped)
    assert (between(turn, arcs[2]) == taken)[np.abs(turn - arcs[2][0]) > JUST].all()
