"""The slope across which an empty machine with an oscillating axle goes over, three ways.

The triangle over the axle's pin, by the package's tipping lines and a root; the closed form from
moments about the line from a rear contact to the pin, tan β = (s/2)(L − a)/(L·h − a·h_p); and the
two-body linear programme, which knows no line.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from scipy.optimize import brentq

from liftcalc.machines.assembly import PointMass, travel_front
from liftcalc.machines.files import load
from liftcalc.machines.lookup import attachment
from liftcalc.machines.supports import supports, tipping_lines
from liftcalc.site.site import Site
from tests.helpers import altered, line_capacity, travelling
from tests.physics.programme import Contact, Scene

CASES = [(1.6, 2.2, 0.9, 0.95, 0.5), (1.6, 2.2, 0.9, 0.95, 0.01), (1.6, 2.2, 1.1, 0.95, 0.95)]
"""Rear track, wheelbase, centre of gravity ahead of the rear axle and up, height of the pin [m]."""


def gravity(angle: float) -> tuple[float, float, float]:
    _, y, z = Site(slope=angle, heading=math.pi / 2).gravity
    return (0.0, float(y), float(z))


def by_lines(track: float, base: float, a: float, h: float, pin: float) -> float:
    """Root of the least holding moment, on the tipping lines of a machine with these wheels."""
    machine = altered(
        load("standard-sideshift"),
        wheels__rear_track=track,
        wheels__wheelbase=base,
        wheels__axle_pin_height=pin,
    )
    front = travel_front(machine, attachment(machine, end="front"))
    on = supports(machine, stance="wheels", front=front)
    lines = tipping_lines(machine, stance="wheels", standing_on=on)
    whole = (PointMass(name="whole", mass=7500.0, x=a, y=0.0, z=h),)

    def least(angle: float) -> float:
        return min(
            line_capacity(
                line, whole=whole[0], load=(a, 0.0, h), gravity=gravity(angle)
            ).holding_moment
            for line in lines
        )

    return brentq(least, 0.0, 1.2, xtol=1e-13)


def by_programme(track: float, base: float, a: float, h: float, pin: float) -> float:
    """Greatest slope at which contact forces exist, by bisection."""
    contacts = [Contact((0.0, side * track / 2, 0.0)) for side in (1, -1)]
    contacts += [Contact((base, side * 0.925, 0.0), 1) for side in (1, -1)]

    def stands(angle: float) -> bool:
        return Scene(
            masses=[(7500.0, (a, 0.0, h))],
            load=(a, 0.0, h),
            gravity=gravity(angle),
            contacts=contacts,
            pin=(base, 0.0, pin),
        ).stands_empty()

    low, high = 0.0, 1.2
    while high - low > 1e-10:
        middle = (low + high) / 2
        low, high = (middle, high) if stands(middle) else (low, middle)
    return low


@pytest.mark.parametrize("case", CASES)
def test_three_ways_agree(
    case: tuple[float, float, float, float, float], measured: Callable[[str, int, float], None]
) -> None:
    track, base, a, h, pin = case
    closed = math.atan(track / 2 * (base - a) / (base * h - a * pin))
    assert by_lines(*case) == pytest.approx(closed, abs=1e-11)
    assert by_programme(*case) == pytest.approx(closed, abs=1e-8)
    gap = max(abs(by_lines(*case) - closed), abs(by_programme(*case) - closed)) / closed
    measured("tip angle with an oscillating axle: lines, closed form, two bodies", 1, gap)


def test_with_the_pin_as_high_as_the_centre_of_gravity_it_is_half_the_track_over_the_height() -> (
    None
):
    track, base, a, h, _ = CASES[2]
    assert by_lines(track, base, a, h, h) == pytest.approx(math.atan(track / 2 / h), abs=1e-11)


def test_a_fixed_axle_of_the_same_track_is_never_worse_on_the_level_or_across() -> None:
    """Not crediting the axle's stops understates stability, and by how much it says."""
    for track, base, a, h, pin in CASES:
        assert by_lines(track, base, a, h, pin) <= math.atan(track / 2 / h) + 1e-12


def test_every_shipped_machine_stands_across_a_slope_empty() -> None:
    """Common practice, no source: folded up, a sound machine stands across a 15° slope."""
    for name in ("standard-sideshift", "standard-centre-mount", "compact-centre-mount"):
        standing = travelling(load(name))
        for line in standing.lines:
            found = line_capacity(
                line, whole=standing.whole, load=(0.0, 0.0, 1.0), gravity=gravity(math.radians(15))
            )
            assert found.holding_moment > 0
