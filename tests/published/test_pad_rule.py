"""The quick pad rule, 0.65 × (machine + load) on one pad.

Crane Industry Council of Australia, and Queensland Mobile Crane Code of Practice 2006.
"""

from __future__ import annotations

import pytest

from liftcalc.site.ground import worst_pad


def test_the_worst_pad_of_eight_tonnes_and_one():
    assert worst_pad(machine=8000.0, load=1000.0) == pytest.approx(5850.0, rel=1e-12)
