"""Shares, factors and thresholds against the figures of their sources.

- EN 474-4 (1996), clause 4.10.2.2.3: overload warning and lowering control above 1000 kg or
  40 000 N·m of object handling.
- GL Noble Denton 0027/ND revision 11, table 5-1: load factors.
- ISO 10567: 75 % of tipping, 87 % of hydraulic lift.
- Queensland Mobile Crane Code of Practice 2006, section 16.1: a backhoe or loader as a crane.
- ISO 14397-1: half the tipping load, from memory.
- ISO 4305 scope and ASME B30.5: level within 1 %; ISO 6016: an operator of 75 kg.

A figure that is only written down again stands here as a plain number, found in answers: it is no
row of the page of validation, which lists what was computed.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from liftcalc.evaluation.check import check
from liftcalc.evaluation.warnings import needs_load_warning
from liftcalc.factors import LEVEL_LIMIT
from liftcalc.site.ground import ground
from liftcalc.site.site import Site
from liftcalc.units import G0
from tests.helpers import MACHINES, lift, load, told
from tests.published.printed import Printed


@pytest.mark.parametrize(
    ("mass", "moment", "needed"),
    [
        (1000.0, 39_000.0, False),
        (1001.0, 39_000.0, True),
        (900.0, 900.0 * G0 * 4.60, True),
        (900.0, 40_000.0, True),
        (900.0, 39_999.0, False),
    ],
)
def test_when_a_load_warning_is_needed(mass: float, moment: float, needed: bool):
    """EN 474-4: mass alone, moment alone; the clause's own limit is taken as needing it."""
    assert needs_load_warning(mass=mass, moment=moment) is needed


@pytest.mark.parametrize("reach", [2.8, 3.6, 4.2])
def test_without_devices_no_more_hangs_than_the_clause_lets(reach: float):
    """Unless both devices are said to be fitted: 1000 kg, and 40 000 N·m about the slew axis."""
    asked = lift(end="back", tool="lifting hook", reach=reach, loads_only=False)
    unsaid = check(asked)
    (cap,) = (each for each in unsaid.criteria if each.kind == "devices")
    assert cap.allowed == pytest.approx(min(1000.0, 40_000 / (9.80665 * reach)))
    assert unsaid.allowed <= cap.allowed
    fitted = check(replace(asked, devices="fitted"))
    assert all(each.kind != "devices" for each in fitted.criteria)
    assert fitted.allowed >= unsaid.allowed
    on_forks = check(lift(end="front", tool="pallet forks", tilt=0.0, loads_only=False))
    assert all(each.kind != "devices" for each in on_forks.criteria)  # nothing hangs


def test_a_load_factor_reaches_the_answer_once():
    """A standing land lift jolts by 1.10 (Noble Denton): only where no share holds it already."""
    asked = lift(end="back", ground=ground("rock"), site=Site(slope=math.radians(3)))
    counts = {
        each.kind: each.share.value * each.capacity / each.allowed
        for each in check(asked).criteria
        if 0 < each.capacity < math.inf
    }
    assert counts["ground under a pad"] == pytest.approx(1.10)
    for kind in ("tipping", "ram", "lift point"):
        assert counts[kind] == pytest.approx(1.0), kind


def test_shares_reach_the_answer():
    """ISO 10567 over the back on stabilisers, ISO 14397-1 (from memory) on wheels: what may be used
    of the load at which the machine tips, or a ram gives way."""

    def shares(kind: str, **request: object) -> set[float]:
        criteria = check(lift(**request)).criteria  # type: ignore[arg-type]
        found = [each for each in criteria if each.kind == kind and 0 < each.capacity < math.inf]
        assert found
        return {round(each.allowed / each.capacity, 12) for each in found}

    assert shares("tipping", stance="stabilisers") == {0.75}
    assert shares("tipping", stance="stabilisers and bucket") == {0.75}
    # Over the back on its tyres the machine is no crane on stabilisers.
    assert shares("tipping", stance="wheels") == {0.50}
    assert shares("tipping", end="front") == {0.50}
    # Queensland 2006, section 16.1: at most 0.66 on the move.
    assert shares("tipping", end="front", travelling=True) == {0.50}
    assert shares("ram") == shares("ram", end="front") == {0.87}


def test_level_and_operator():
    """Level that ratings assume, a slope of 1 %, in degrees."""
    assert math.degrees(LEVEL_LIMIT) == Printed("0.57", source="ISO 4305 scope, in degrees")
    for name in MACHINES:
        seats = [each for each in load(name).carried if each.name == "operator"]
        assert [float(each.mass) for each in seats] == [75.0]  # ISO 6016
        assert not any(each.weighed for each in seats)


def test_a_slope_beyond_the_ratings_is_said():
    flat = check(lift(site=Site(slope=math.atan(0.0099))))
    steep = check(lift(site=Site(slope=math.atan(0.0101))))
    assert not any("1 %" in said for said in told(flat.warnings))
    assert any("1 %" in said for said in told(steep.warnings))
