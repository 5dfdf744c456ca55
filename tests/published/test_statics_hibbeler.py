"""A loader and a boom on a ram and a pin, after a statics textbook.

- R. C. Hibbeler, Engineering Mechanics: Statics & Dynamics, 14th edition, problem 6-108: a loader
  of 1180 kg lifts a stone of 300 kg; g = 9.81 m/s².
- The same author, SI edition: a boom on one ram and one pin.
- University assignment after the same book: the links of a backhoe's bucket.
"""

from __future__ import annotations

import math

import pytest

from liftcalc.physics import formulas
from liftcalc.physics.joints import moment_per_kilogram, stall
from liftcalc.physics.plane import Point
from liftcalc.physics.tipping import Line, Support
from liftcalc.physics.wrench import load_at_tipping, moment_about
from tests.published.printed import Printed

LOADER = "Hibbeler, Statics & Dynamics 14e, 6-108"
BOOM = "Hibbeler, SI edition, boom on ram and pin"
LINKS = "University assignment after Hibbeler, backhoe bucket links"
G = 9.81
DOWN = (0.0, 0.0, -G)


def across(x: float, *, forward: bool) -> Line:
    """The line through both contacts of an axle, the machine behind it or ahead of it."""
    left, right = Support(name="l", x=x, y=1.0, z=0.0), Support(name="r", x=x, y=-1.0, z=0.0)
    return Line(name="axle", start=left if forward else right, end=right if forward else left)


# Front contact A at the origin, rear contact B 0.75 m behind it.
FRONT, REAR = across(0.0, forward=True), across(-0.75, forward=False)
MACHINE, STONE = (-0.60, 1180.0), (1.50, 300.0)


def moment(line: Line, *parts: tuple[float, float]) -> float:
    return sum(
        m * float(moment_about(line).unit(x=x, y=0.3, z=0.8, gravity=DOWN)) for x, m in parts
    )


def test_loader_wheel_loads():
    """Loader with a stone: loads of both front and both rear wheels, kN."""
    front = moment(REAR, MACHINE, STONE) / 0.75
    rear = moment(FRONT, MACHINE, STONE) / 0.75
    assert front / 1000 == Printed("11.1", source=LOADER)
    assert rear / 1000 == Printed("3.37", source=LOADER)
    assert front + rear == pytest.approx(1480 * G, rel=1e-12)


def test_loader_tips_where_the_rear_wheels_go_light():
    """No answer is printed: at our tipping load the printed way of finding N_B gives none."""
    load = load_at_tipping(
        holding_moment=moment(FRONT, MACHINE), load_unit_moment=moment(FRONT, (1.50, 1.0))
    )
    assert moment(FRONT, MACHINE, (1.50, float(load))) == pytest.approx(0.0, abs=1e-9)
    assert float(load) == pytest.approx(1180 * 0.60 / 1.50, rel=1e-12)


def test_loader_ram_and_pin():
    """Loader: force of each lift ram and of each lift pin, kN."""
    pivot, rod_pin = Point(0.0, 0.0), Point(1.25, 0.0)
    slant = math.radians(30)
    base = Point(1.25 - 0.8 * math.cos(slant), -0.8 * math.sin(slant))
    ram = formulas.ram_geometry(
        pivot_u=0.0,
        pivot_w=0.0,
        base_pin_u=base.u,
        base_pin_w=base.w,
        rod_pin_u=rod_pin.u,
        rod_pin_w=rod_pin.w,
    )
    unit = moment_per_kilogram(at=Point(2.75, 0.4), pivot=pivot, gravity_u=0.0, gravity_w=-G)
    force = -300 * unit / ram.moment_arm / 2
    assert force / 1000 == Printed("6.47", source=LOADER)
    pin = math.hypot(force * math.cos(slant), force * math.sin(slant) - 300 * G / 2)
    assert pin / 1000 == Printed("5.88", source=LOADER)
    # Two rams that push so and no harder stall at just this stone.
    stalls, _ = stall(
        push=2 * force,
        pull=force,
        moment_arm=ram.moment_arm,
        links_moment=0.0,
        joint_unit_moment=unit,
    )
    assert float(stalls) == pytest.approx(300.0, rel=1e-12)


def test_boom_on_ram_and_pin():
    """Boom of 625 N with 3000 N at its tip: ram, and both parts of the pin's force, kN."""
    slant = math.radians(40)
    # The ram meets the boom 0.3 m along and 0.3 m below; it pushes up and outward.
    rod_pin = Point(0.3, -0.3)
    base = Point(rod_pin.u - math.cos(slant), rod_pin.w - math.sin(slant))
    ram = formulas.ram_geometry(
        pivot_u=0.0,
        pivot_w=0.0,
        base_pin_u=base.u,
        base_pin_w=base.w,
        rod_pin_u=rod_pin.u,
        rod_pin_w=rod_pin.w,
    )
    weights = ((1.2, 625.0), (2.7, 3000.0))
    turning = sum(
        force
        * moment_per_kilogram(
            at=Point(x, 0.0), pivot=Point(0.0, 0.0), gravity_u=0.0, gravity_w=-1.0
        )
        for x, force in weights
    )
    force = -turning / ram.moment_arm
    assert force / 1000 == Printed("20.939", source=BOOM)
    assert force * math.cos(slant) / 1000 == Printed("16.04", source=BOOM)
    assert (force * math.sin(slant) - 3625) / 1000 == Printed("9.83", source=BOOM)


@pytest.mark.parametrize(("link", "rocker"), [(0.3, 0.25), (0.42, 0.6)])
def test_backhoe_bucket_links(link: float, rocker: float):
    """Bucket of 120 kg on its ram, rocker and link: forces AC, AB and AD, N.

    Only the directions of the links are given, so their lengths must not matter.
    """
    sixty, forty_five = math.radians(60), math.radians(45)
    pivot, bucket_pin = Point(0.0, 0.0), Point(0.08, 0.30)
    joint = Point(bucket_pin.u - link * math.cos(sixty), bucket_pin.w + link * math.sin(sixty))
    rocker_pivot = Point(
        joint.u - rocker * math.cos(forty_five), joint.w - rocker * math.sin(forty_five)
    )
    ram_base = Point(joint.u - 1.0, joint.w)
    weight = 120 * G
    turning = 120 * moment_per_kilogram(
        at=Point(0.45, 0.1), pivot=pivot, gravity_u=0.0, gravity_w=-G
    )
    along_link = formulas.ram_geometry(
        pivot_u=0.0,
        pivot_w=0.0,
        base_pin_u=joint.u,
        base_pin_w=joint.w,
        rod_pin_u=bucket_pin.u,
        rod_pin_w=bucket_pin.w,
    )
    link_force = abs(turning / along_link.moment_arm)
    assert link_force == Printed("2416", source=LINKS)
    ratio = formulas.four_bar_ratio(
        pivot_u=0.0,
        pivot_w=0.0,
        crank_pivot_u=rocker_pivot.u,
        crank_pivot_w=rocker_pivot.w,
        crank_pin_u=joint.u,
        crank_pin_w=joint.w,
        link_pin_u=bucket_pin.u,
        link_pin_w=bucket_pin.w,
    ).velocity_ratio
    ram = formulas.ram_geometry(
        pivot_u=rocker_pivot.u,
        pivot_w=rocker_pivot.w,
        base_pin_u=ram_base.u,
        base_pin_w=ram_base.w,
        rod_pin_u=joint.u,
        rod_pin_w=joint.w,
    )
    ram_force = abs(turning / (ram.moment_arm * ratio))
    assert ram_force == Printed("3300", source=LINKS)
    rocker_force = link_force * math.sin(sixty) / math.cos(forty_five)
    assert rocker_force == Printed("2959", source=LINKS)
    assert weight * 0.45 == pytest.approx(abs(turning), rel=1e-12)
