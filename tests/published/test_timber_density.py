"""Density of wood against the Wood Handbook and against measured shipments.

- Wood Handbook, FPL-GTR-190 (2010), chapter 4: eq. 4-3 (most moisture), 4-13 (gravity when
  shrunken), 4-14 (density).
- S. J. Record, The Mechanical Properties of Wood (1914): shipments of Forest Service Circular 213,
  gravity and moisture measured together.
"""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest

from liftcalc.physics import formulas
from liftcalc.timber.log import LogMeasure, weigh
from liftcalc.timber.species import find
from tests.published.printed import Printed

HANDBOOK = "Wood Handbook, FPL-GTR-190 (2010), chapter 4"
WEIGHTS = Path(__file__).parent / "data" / "green_weight_checks.csv"


@pytest.mark.parametrize(("gravity", "percent"), [(0.30, "268"), (0.90, "46")])
def test_most_moisture_that_wood_holds(gravity, percent):
    ours = 100 * formulas.saturated_density(basic_gravity=gravity).moisture_ceiling
    assert ours == Printed(percent, source=f"{HANDBOOK}, eq. 4-3")


@pytest.mark.parametrize(
    ("gravity", "density"), [(0.33, "1116"), (0.45, "1158"), (0.56, "1196"), (0.72, "1252")]
)
def test_saturated_density(gravity, density):
    ours = formulas.saturated_density(basic_gravity=gravity).saturated_density
    assert ours == Printed(density, source=f"{HANDBOOK}, from eq. 4-3")


def test_shrunken_gravity_and_its_density():
    ours = formulas.wood_density(basic_gravity=0.45, moisture=0.12)
    assert ours.shrunken_gravity == Printed("0.4847", source=f"{HANDBOOK}, eq. 4-13")
    assert ours.wood_density == Printed("543", source=f"{HANDBOOK}, eq. 4-14")


def shipments():
    with WEIGHTS.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            found = re.search(r"SG (0\.\d+), MC (\d+) %", row["material"])
            if found:
                yield pytest.param(*found.groups(), row["published_value"], id=row["check_id"])


@pytest.mark.parametrize(("gravity", "percent", "density"), list(shipments()))
def test_shipments_weighed_with_their_own_gravity_and_moisture(gravity, percent, density):
    """Group P of the file: the product is the compiler's, so this proves arithmetic only."""
    ours = formulas.wood_density(
        basic_gravity=float(gravity), moisture=float(percent) / 100
    ).wood_density
    whole = density.removesuffix(".0")  # the file writes whole kilograms as 759.0
    assert ours == Printed(whole, source="Record 1914")


def test_green_tables_at_half_moisture_are_not_fresh_weight():
    """Norway spruce: tables at 50 % moisture print 497 kg/m³, fresh logs weigh 780 to 825."""
    spruce = find("Norway spruce")
    half = formulas.wood_density(basic_gravity=spruce.basic_gravity.value, moisture=0.5)
    assert half.wood_density == pytest.approx(497, rel=0.01)
    fresh = weigh(LogMeasure(species=spruce, length=4.0, butt=0.5, middle=0.45, top=0.4))
    assert 780 <= fresh.density_likely <= 825
    assert fresh.mass_planning / fresh.volume > 825
