"""The quick pad rule, 0.65 × (machine + load) on one pad, area = force / allowable pressure.

Crane Industry Council of Australia, and Queensland Mobile Crane Code of Practice 2006. A mat of
10 t/m², and of 1500 psf (71.82 kPa, IBC section 1806.2, clay).
"""

from __future__ import annotations

import math

from liftcalc.site.ground import worst_pad
from liftcalc.units import FOOT, G0, POUND
from tests.published.printed import Printed

RULE = "CICA and Queensland pad rule"


def test_the_worst_pad_of_eight_tonnes_and_one():
    assert Printed("5850", source=RULE) == worst_pad(machine=8000.0, load=1000.0)


def test_areas_and_sides_of_square_mats():
    mass = worst_pad(machine=8000.0, load=1000.0)
    tonnes = mass / 10_000
    assert Printed("0.585", source=RULE) == tonnes
    assert Printed("0.765", source=RULE) == math.sqrt(tonnes)
    psf = 1500 * POUND * G0 / FOOT**2
    assert Printed("0.799", source=RULE) == mass * G0 / psf
    assert Printed("0.894", source=RULE) == math.sqrt(mass * G0 / psf)
