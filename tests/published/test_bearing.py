"""What ground carries under a pad: bearing numbers as tables print them.

- Prandtl and Reissner: N_q by angle of friction, as every handbook of foundations prints it
  (Vesic 1973; Bowles, table of bearing-capacity factors).
- Brinch Hansen 1970: N_γ = 1.5·(N_q − 1)·tan φ; EN 1997-1 annex D has 2 in place of 1.5, so that
  its N_γ is four thirds of the table's.
- Skempton 1951: N_c on the surface of clay, 5.14 for a strip and 6.2 for a square.
All from memory.
"""

from __future__ import annotations

import math

import pytest

from liftcalc.physics import formulas
from liftcalc.site.ground import ground
from tests.published.printed import Printed

TABLE = "Brinch Hansen 1970, N_q and N_γ by angle of friction, from memory"
ROWS = [(25, "10.7", "6.8"), (30, "18.4", "15.1"), (35, "33.3", "33.9"), (40, "64.2", "79.5")]


@pytest.mark.parametrize(("angle", "surcharge", "weight"), ROWS)
def test_the_bearing_numbers_of_sand(angle: int, surcharge: str, weight: str):
    found = formulas.bearing_of_sand(
        friction_angle=math.radians(angle),
        soil_weight=1.0,
        pad_width=1.0,
        pad_length=1.0,
        level_share=0.0,
    )
    assert found.surcharge_number == Printed(surcharge, source=TABLE)
    assert 0.75 * found.weight_number == Printed(weight, source=TABLE)


def test_the_bearing_numbers_of_clay():
    source = "Skempton 1951, surface of clay, from memory"
    strip, square = (
        formulas.bearing_of_clay(
            shear_strength=1.0, pad_width=1.0, pad_length=length, level_share=0.0
        ).ultimate_pressure
        for length in (1e9, 1.0)
    )
    assert strip == Printed("5.14", source=source)
    assert square == Printed("6.2", source=source)


@pytest.mark.parametrize("share", [0.0, 0.05, 0.1, 0.2, 0.3])
def test_a_force_that_leans_on_clay_is_that_of_the_annex_at_failure(share: float):
    """Annex D.3: q = (π+2)·s·½(1 + √(1 − H/(A·c)))·c, where H is its share of q·A."""
    found = formulas.bearing_of_clay(
        shear_strength=50e3, pad_width=0.4, pad_length=0.6, level_share=share
    ).ultimate_pressure
    number = (math.pi + 2) * (1 + 0.2 * 0.4 / 0.6)
    leans = 0.5 * (1 + math.sqrt(1 - share * found / 50e3))
    assert found == pytest.approx(number * leans * 50e3, rel=1e-12)


def test_pads_by_hand():
    """Firm clay 40 kPa: 6.17·40/2 = 123 kPa; dense sand and wet, 0.5·10·1·45.2·0.7/2 = 79 kPa."""
    clay = ground("firm clay").allowed(width=0.6, length=0.6).result
    sand = ground("dense sand").allowed(width=1.0, length=1.0).result
    assert clay == pytest.approx(123.4e3, rel=1e-3)
    assert sand == pytest.approx(79.2e3, rel=2e-3)


def test_a_tyre_by_hand():
    """Stiff clay 75 kPa, cone 750 kPa; 0.28 m wide, 1 m across, 0.30 m on hard ground: 31 kN.

    N = (0.224·1/0.10)^0.8 = 1.906; δ = 0.09/4 = 0.0225; 750·0.361·0.219/1.906 = 31.1 kN.
    """
    load = ground("stiff clay").tyre_load(width=0.28, length=0.30, diameter=1.0)
    assert load is not None
    assert load.result == pytest.approx(31.1e3, rel=5e-3)
