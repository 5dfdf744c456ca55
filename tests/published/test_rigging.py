"""Chain, legs and two carriers against printed answers.

- Queensland doggers' guide: working load limits by size, two legs by the angle between them.
- EN 818-4, grade 8 chain: rows from memory; the stress that the grade allows holds them.
- ASME B30.9: what a choke over 120° leaves.
- Michigan State University, rigging page: tension of a leg that leans.
- Hackmath exercise 15063: two people carrying a log.
"""

from __future__ import annotations

import math

import pytest

from liftcalc.physics import formulas
from liftcalc.rigging.gear import SIZE_RULE, Gear, single_leg
from liftcalc.rigging.ratings import ratings
from liftcalc.rigging.sling import Sling, two_point_shares
from tests.published.printed import Printed

DOGGERS = "Queensland doggers' guide"
MICHIGAN = "Michigan State University, rigging, leg loads"
CARRIED = "hackmath 15063"


def test_chain_by_its_size():
    """Chain of 10 mm: grade 80 and grade 30, kg."""
    eighty = formulas.sized_leg(gear_size=0.010, size_rule=SIZE_RULE["chain grade 80"])
    assert eighty.single_leg == Printed("3200", source=DOGGERS)
    thirty = single_leg(Gear(kind="chain grade 30", size=0.010))
    assert thirty is not None
    assert thirty.wll == Printed("900", source=DOGGERS)


@pytest.mark.parametrize("size", [6, 7, 8, 10, 13, 16, 18, 20, 22, 26, 32])
def test_chain_of_grade_8(size: int):
    """Grade 8 breaks at 800 MPa on both sides of its link, and a quarter of that is allowed.

    The rows are rounded down from it: never above, and by a twentieth at most.
    """
    leg = single_leg(Gear(kind="chain grade 80", size=size / 1000))
    assert leg is not None
    by_stress = 2 * math.pi / 4 * size**2 * 800 / 4 / 9.80665
    assert 0.95 * by_stress <= leg.wll <= by_stress


@pytest.mark.parametrize(("degrees", "factor"), [(60, "1.73"), (90, "1.41"), (120, "1.00")])
def test_two_legs_by_their_angle(degrees: int, factor: str):
    """Two legs 60°, 90° and 120° apart, in straight legs."""
    legs = formulas.legs(included_angle=math.radians(degrees))
    assert float(legs.leg_factor) == Printed(factor, source=DOGGERS)


def test_a_leg_that_leans():
    """Leg carrying 1000 lb at 30° and at 60° from the plumb line: its tension, lb."""
    tension = [
        float(
            formulas.leg_tension(hung_mass=1000.0, leg_share=1.0, leg_lean=math.radians(lean))[-1]
        )
        for lean in (30, 60)
    ]
    cut_off = Printed(
        "1154", source=MICHIGAN, relative=1e-3, reason="1154.70, cut off and not rounded"
    )
    assert tension == [cut_off, Printed("2000", source=MICHIGAN)]


def test_a_choke_over_120_degrees():
    """ASME B30.9: a choke leaves 0.8 of a straight sling."""
    gear = Gear(kind="round sling", wll=2000.0)
    (choked,) = ratings(gear, sling=Sling(), log_length=4.0, balance=1.9, diameter=0.4)
    assert choked.capacity == pytest.approx(0.8 * 2000.0, rel=1e-12)


def test_two_people_carry_a_log():
    """5 m, 95 kg, balance 2 m from the thick end: equal shares there and 1 m from the thin end."""
    shares = two_point_shares(mass=95.0, balance=2.0, at_one=0.0, at_two=4.0).steps
    assert float(shares.mass_on_one / shares.mass_on_two) == Printed("1", source=CARRIED)
    # The same turned round: where the second must stand for half the log each, from the thin end.
    ends = two_point_shares(mass=95.0, balance=2.0, at_one=0.0, at_two=5.0).steps
    moment = float(ends.mass_on_two) * 5.0
    assert 5.0 - moment / (95.0 / 2) == Printed("1", source=CARRIED)


def test_two_people_carry_a_log_at_its_ends():
    """The same log held at both ends, kg on each."""
    ends = two_point_shares(mass=95.0, balance=2.0, at_one=0.0, at_two=5.0).steps
    derived = f"derived from {CARRIED}"
    assert float(ends.mass_on_one) == Printed("57", source=derived)
    assert float(ends.mass_on_two) == Printed("38", source=derived)
