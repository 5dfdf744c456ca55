"""Wheel loads and tipping loads of trucks and cars.

- J. Wickert and K. Lewis, An Introduction to Mechanical Engineering, section 4.5: a forklift.
- NCERT Physics (India), class XI: a car on four wheels; g = 9.8 m/s².
- OpenStax, University Physics, chapter 12: centre of gravity from the split between the axles.
- 29 CFR 1910.178, appendix A: the load moment of an industrial truck.
- J. Petrović and J. Mattila (2022), IEEE 9762293, supplement: four wheels under an arm; only the
  case that symmetry decides.
"""

from __future__ import annotations

import pytest

from liftcalc.machines.files import load
from liftcalc.physics.tipping import Line, Support, ring
from liftcalc.physics.wrench import load_at_tipping, moment_about
from tests.helpers import altered, travelling
from tests.published.printed import Printed

FORKLIFT = "Wickert & Lewis, Introduction to Mechanical Engineering, section 4.5"
CAR = "NCERT Physics XI, car on four wheels"
SPLIT = "OpenStax University Physics, chapter 12, axle split"
RULE = "29 CFR 1910.178, appendix A"
ARM = "Petrović & Mattila 2022, IEEE 9762293, supplement"


def axles(base: float) -> tuple[Line, Line]:
    """Lines over the rear and the front axle of a machine on four wheels, as the hull gives."""
    half = base / 2
    corners = [
        Support(name=f"{x} {y}", x=x, y=y, z=0.0) for x in (0.0, base) for y in (half, -half)
    ]
    lines = ring(corners)
    rear = next(line for line in lines if line.start.x == line.end.x == 0.0)
    front = next(line for line in lines if line.start.x == line.end.x == base)
    return rear, front


def moment(line: Line, g: float, *parts: tuple[float, float]) -> float:
    return sum(m * moment_about(line).unit(x=x, y=0.0, z=0.7, gravity=(0, 0, -g)) for x, m in parts)


def test_forklift():
    """Truck of 3500 lb with 800 lb: load of each rear and front wheel, and the tipping load, lb."""
    rear, front = axles(72.0)
    truck, crate = (72.0 - 42.0, 3500.0), (72.0 + 24.0, 800.0)
    assert moment(front, 1.0, truck, crate) / 72 / 2 == Printed("888", source=FORKLIFT)
    assert moment(rear, 1.0, truck, crate) / 72 / 2 == Printed("1262", source=FORKLIFT)
    tips = load_at_tipping(
        holding_moment=moment(front, 1.0, truck), load_unit_moment=moment(front, 1.0, (96.0, 1.0))
    )
    assert float(tips) == Printed("6125", source=FORKLIFT)


def test_car_on_four_wheels():
    """Car of 1800 kg: load of each front and rear wheel, N."""
    rear, front = axles(1.8)
    car = (1.8 - 1.05, 1800.0)
    assert moment(rear, 9.8, car) / 1.8 / 2 == Printed("3675", source=CAR)
    assert moment(front, 9.8, car) / 1.8 / 2 == Printed("5145", source=CAR)


@pytest.mark.parametrize("name", ["standard-sideshift", "small-tractor"])
def test_centre_of_gravity_from_the_axle_split(name: str):
    """Wheelbase 2.5 m with 52 % in front: centre of gravity ahead of the rear axle, m.

    Asked of a whole machine file: its chassis is placed so that all its parts weigh so.
    """
    machine = load(name)
    total = float(machine.weights.total)
    weighed = altered(
        machine,
        wheels__wheelbase=2.5,
        weights__front_axle=0.52 * total,
        weights__rear_axle=0.48 * total,
    )
    lumps = travelling(weighed).lumps
    mass = sum(lump.mass for lump in lumps)
    assert mass == pytest.approx(total, rel=1e-12)
    assert sum(lump.mass * float(lump.x) for lump in lumps) / mass == Printed("1.3", source=SPLIT)


def test_load_moment_rule():
    """3000 lb at 24 in, so what at 30 in: load, lb."""
    assert float(load_at_tipping(holding_moment=3000.0 * 24, load_unit_moment=-30.0)) == Printed(
        "2400", source=RULE
    )


def test_wheels_under_an_arm():
    """Four equal wheels, level: each alone, then front and rear with the arm's force, N."""
    g, half = 9.8066, 1.15
    rear, front = axles(2 * half)
    body = (half, 2200.0 + 4 * 60.0)
    exact = {"source": ARM}
    assert moment(rear, g, body) / (2 * half) / 2 == Printed("5982.026", **exact)
    pushed = (half + 0.5, 10424.4158 / g)
    assert moment(rear, g, body, pushed) / (2 * half) / 2 == Printed("9721.2186", **exact)
    assert moment(front, g, body, pushed) / (2 * half) / 2 == Printed("7455.0413", **exact)
