"""Swing of a hanging load, resistance to travel, distances to overhead wires.

- Mechanics: lean and swing after a sudden steady acceleration; no published answer. Got from the
  closed form, from the energy of the swing and from its equation of motion, stepped in time. The
  printed angles are for g = 9.81 m/s².
- Earth-moving handbooks: resistance to travel, 2 % + 1.5 % an inch of sinkage + 1 % a per cent.
- 29 CFR 1926.1408, table A: distance to overhead wires by voltage.
- HSE guidance on tree work (10 m); GS6 and forestry practice, from memory (15 m, 9 m).
- Vehicle practice: real rollover threshold 70 to 90 % of the rigid one.
The load factor on the move stands in ``test_rules``.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from liftcalc.errors import InputError
from liftcalc.physics import formulas
from liftcalc.site.hazards import Hazards, uk_distance, us_distance, wires
from liftcalc.site.motion import resistance_share, travel_resistance, turning_acceleration
from liftcalc.units import G0, INCH
from tests.published.printed import Printed
from tests.stepping import stepped

SWING = "sudden acceleration of 1 m/s² at g = 9.81 m/s², statics and energy of a pendulum"
HANDBOOK = "earth-moving handbook, resistance to travel"


def farthest(acceleration: float, *, gravity: float, length: float) -> float:
    """Farthest lean of a load at rest whose hook starts to move, from its equation of motion."""

    def motion(_: float, state: np.ndarray) -> np.ndarray:
        angle, rate = state
        return np.array(
            [rate, -(gravity * math.sin(angle) - acceleration * math.cos(angle)) / length]
        )

    period = 2 * math.pi * math.sqrt(length / gravity)
    path = stepped(motion, np.zeros(2), period / 4000, 4000)
    return float(path[:, 0].max())


def test_lean_and_swing():
    """Lean under 1 m/s² and farthest swing from rest, degrees."""
    scaled = G0 / 9.81  # the angle follows from a/g alone
    swing = formulas.swing_from_rest(steady_acceleration=scaled)
    assert math.degrees(swing.lean) == Printed("5.82044", source=SWING)
    assert math.degrees(swing.peak_swing) == Printed("11.64089", source=SWING)


@pytest.mark.parametrize("acceleration", [0.2, -1.0, 2.5, 6.0])
@pytest.mark.parametrize("length", [0.8, 4.0])
def test_the_swing_is_that_of_the_equation_of_motion(acceleration: float, length: float):
    found = farthest(abs(acceleration), gravity=G0, length=length)
    swing = formulas.swing_from_rest(steady_acceleration=abs(acceleration)).peak_swing
    assert swing == pytest.approx(found, rel=1e-6)


def test_resistance_to_travel():
    """Two inches of sinkage, 10 %, 8000 kg: share of the weight, %; resistance, kN."""
    share = resistance_share(sinkage=2 * INCH, grade=0.10)
    assert 100 * share == Printed("15", source=HANDBOOK)
    pull = travel_resistance(sinkage=2 * INCH, grade=0.10, mass=8000.0)
    assert pull / 1e3 == Printed("11.77", source=HANDBOOK)


def test_rollover_share():
    """The least of what vehicle practice finds, 70 to 90 %; a turn at it counts as v²/(0.7 R)."""
    rigid = turning_acceleration(speed=2.0, turn_radius=5.0, rollover_share=1.0)
    assert rigid == pytest.approx(0.8, rel=1e-12)
    assert turning_acceleration(speed=2.0, turn_radius=5.0) * 0.7 == pytest.approx(rigid, rel=1e-12)


@pytest.mark.parametrize(
    ("kilovolts", "feet"),
    [
        (0.4, 10),
        (50, 10),
        (50.001, 15),
        (200, 15),
        (200.001, 20),
        (350, 20),
        (351, 25),
        (500, 25),
        (501, 35),
        (750, 35),
        (751, 45),
        (1000, 45),
    ],
)
def test_distances_of_table_a(kilovolts: float, feet: int):
    """Which row a voltage belongs to: up to 50, 200, 350, 500, 750, 1000 kV."""
    assert us_distance(voltage=1e3 * kilovolts) == pytest.approx(0.3048 * feet, rel=1e-12)


def test_table_a_when_the_voltage_is_not_known_or_beyond():
    """Not known: the largest, and said; above 1000 kV only the line's owner can say."""
    assert us_distance(voltage=None) == pytest.approx(0.3048 * 45, rel=1e-12)
    for beyond in (1000.001e3, math.inf, math.nan):
        with pytest.raises(InputError, match="owner or operator of the line"):
            us_distance(voltage=beyond)
    found = wires(
        Hazards(rules="us", wires_distance=50.0), reach=4.0, far_end=2.0, drop=2.0, lean=0.1
    )
    assert found is not None
    assert found.needs == pytest.approx(0.3048 * 45, rel=1e-12)
    assert "voltage was not given" in str(found.said)


def test_distances_in_the_uk():
    """Steel towers 15 m; wood poles 9 m, but advice is needed within 10 m; not said: the more."""
    assert uk_distance(wires_on="steel towers") == 15.0
    assert uk_distance(wires_on="wood poles") == 10.0
    assert uk_distance(wires_on=None) == 15.0
