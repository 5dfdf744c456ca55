"""Volume, balance point and end lift of a log against printed answers.

- Forest-measurement course pages (Smalian, cone and neiloid of one log, in feet and in metres).
- WJEC Further Mathematics Unit 6, 2023: centroid of a cone frustum.
- Hackmath exercise 15063: two people carrying a log.
"""

from __future__ import annotations

import pytest

from liftcalc.physics import formulas
from liftcalc.units import FOOT, INCH
from tests.published.printed import Printed

COURSE = "forest-measurement course pages, one log by three solids"


def neiloid_middle(butt: float, top: float) -> float:
    """A neiloid's section goes as the cube of a line, so its diameter as the line's power 3/2."""
    return ((butt ** (2 / 3) + top ** (2 / 3)) / 2) ** 1.5


def volumes(butt: float, top: float, length: float) -> tuple[float, float, float]:
    """Smalian; cone and neiloid by Newton's rule, which is exact for both."""
    ends = {"butt_diameter": butt, "top_diameter": top, "log_length": length}
    return (
        formulas.two_end_volume(**ends).volume,
        formulas.newton_volume(**ends, middle_diameter=(butt + top) / 2).volume,
        formulas.newton_volume(**ends, middle_diameter=neiloid_middle(butt, top)).volume,
    )


def test_one_log_by_three_solids_in_feet():
    ours = [v / FOOT**3 for v in volumes(12 * INCH, 10 * INCH, 16 * FOOT)]
    cut_off = Printed(
        "10.568",
        source=COURSE,
        relative=1e-4,
        reason="10.5689, cut off and not rounded; the page in metres has all six digits right",
    )
    printed = [Printed("10.647", source=COURSE), Printed("10.588", source=COURSE), cut_off]
    assert ours == printed


def test_one_log_by_three_solids_in_metres():
    printed = [Printed(text, source=COURSE) for text in ("0.287848", "0.286801", "0.286452")]
    assert list(volumes(0.29, 0.25, 5.0)) == printed


def test_centroid_of_a_cone_frustum():
    """Radii 3 and 1, height 4: 18/13 from the base."""
    ours = formulas.two_end_balance_point(butt_diameter=6.0, top_diameter=2.0, log_length=4.0)
    assert ours.balance_from_butt == pytest.approx(18 / 13, rel=1e-12)
    three = formulas.balance_point(
        butt_diameter=6.0, middle_diameter=4.0, top_diameter=2.0, log_length=4.0
    )
    assert three.balance_from_butt == pytest.approx(18 / 13, rel=1e-12)


def test_two_carry_a_log():
    """5 m, 95 kg, balance 2 m from the thick end; the second 1 m from the thin end: equal."""
    at_four = formulas.one_end_lifted(
        log_mass=95.0, balance_from_ground_end=2.0, hook_from_ground_end=4.0, breakout_factor=1.0
    )
    assert at_four.hook_share == pytest.approx(0.5, rel=1e-12)


def test_two_carry_a_log_at_its_ends():
    """The same log held at both ends: 57 kg and 38 kg, the two summing to the log."""
    thin = formulas.one_end_lifted(
        log_mass=95.0, balance_from_ground_end=2.0, hook_from_ground_end=5.0, breakout_factor=1.0
    )
    thick = formulas.one_end_lifted(
        log_mass=95.0, balance_from_ground_end=3.0, hook_from_ground_end=5.0, breakout_factor=1.0
    )
    assert (thick.hook_mass, thin.hook_mass) == (
        Printed("57", source="derived from hackmath 15063"),
        Printed("38", source="derived from hackmath 15063"),
    )
