"""Rams: force from pressure, and the pressure that an arm asks for.

- OpenStax, College Physics, chapter 11: a backhoe's arm on one ram; g = 9.80 m/s².
- A. Esposito, Fluid Power with Applications, example 6-1: the same force out and in.
- A worked example of push and pull, its author not stated.
"""

from __future__ import annotations

import math

import pytest

from liftcalc.physics import formulas
from liftcalc.physics.joints import moment_per_kilogram, stall
from liftcalc.physics.plane import Point, place
from liftcalc.units import INCH, POUND, TABLE
from tests.published.printed import Printed

OPENSTAX = "OpenStax College Physics, chapter 11, backhoe arm"
ESPOSITO = "Esposito, Fluid Power with Applications, example 6-1"
EXAMPLE = "worked example of push and pull, author not stated"
PSI = TABLE["pressure"]["psi"]


def test_backhoe_arm():
    """Arm of 150 kg with 400 kg, 30° off vertical: force of the ram, N, and pressure, Pa."""
    angle = math.radians(60)  # above horizontal
    pivot = Point(0.0, 0.0)
    rod_pin = place(origin=pivot, angle=angle, at=Point(0.30, 0.0))
    # Square to the arm where it holds it, on the side that lengthens as the arm rises.
    base = place(origin=pivot, angle=angle, at=Point(0.30, -0.5))
    ram = formulas.ram_geometry(
        pivot_u=0.0,
        pivot_w=0.0,
        base_pin_u=base.u,
        base_pin_w=base.w,
        rod_pin_u=rod_pin.u,
        rod_pin_w=rod_pin.w,
    )
    arm, load = (
        moment_per_kilogram(
            at=place(origin=pivot, angle=angle, at=Point(out, 0.0)),
            pivot=pivot,
            gravity_u=0.0,
            gravity_w=-9.80,
        )
        for out in (1.10, 1.70)
    )
    force = -(150 * arm + 400 * load) / ram.moment_arm
    assert force == Printed("1.38e4", source=OPENSTAX)
    one_pascal = formulas.ram_force(bore=0.025, rod=0.01, count=1, pressure=1.0, efficiency=1.0)
    pressure = force / one_pascal.push
    assert pressure == Printed("2.81e7", source=OPENSTAX)
    # And the other way: at that pressure the ram stalls with 400 kg.
    push = formulas.ram_force(bore=0.025, rod=0.01, count=1, pressure=pressure, efficiency=1.0).push
    stalls, _ = stall(
        push=push,
        pull=0.0,
        moment_arm=ram.moment_arm,
        links_moment=150 * arm,
        joint_unit_moment=load,
    )
    assert float(stalls) == pytest.approx(400.0, rel=1e-12)


def test_one_force_out_and_in():
    """Bore 2 in, rod 1 in, 1000 lbf each way: pressure out and in, psi."""
    one = formulas.ram_force(bore=2 * INCH, rod=1 * INCH, count=1, pressure=PSI, efficiency=1.0)
    pound_force = POUND * 9.80665
    assert 1000 * pound_force / one.push == Printed("318", source=ESPOSITO)
    assert 1000 * pound_force / one.pull == Printed(
        "425", source=ESPOSITO, relative=0.0015, reason="the book divides by areas it has rounded"
    )


def test_push_and_pull():
    """Bore 75 mm, rod 14 mm, 5 MPa: push and pull, N."""
    force = formulas.ram_force(bore=0.075, rod=0.014, count=1, pressure=5e6, efficiency=1.0)
    assert force.push == Printed("2.209e4", source=EXAMPLE)
    assert force.pull == Printed("2.132e4", source=EXAMPLE)
