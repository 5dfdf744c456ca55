"""A piece of a log against calculus: frustum, paraboloid, and what it carries."""

from __future__ import annotations

import math

import numpy as np
import pytest

from liftcalc.errors import InputError
from liftcalc.timber.log import weigh
from liftcalc.timber.measure import Extra, Extras, LogMeasure
from liftcalc.timber.piece import piece, section_area
from liftcalc.timber.species import find

LARCH = find("european larch")


def log(**what: object) -> LogMeasure:
    given = {"species": LARCH, "length": 6.0, "butt": 0.6, "middle": 0.5, "top": 0.42, **what}
    return LogMeasure(**given)


PARABOLOID = log(butt=math.sqrt(0.36), middle=math.sqrt(0.25), top=math.sqrt(0.14))
"""Its squared diameter falls evenly: 0.36, 0.25, 0.14."""


@pytest.mark.parametrize("length", [0.7, 2.0, 3.0, 4.4, 5.8])
def test_two_pieces_of_a_paraboloid_are_the_whole(length: float):
    """∫πD²/4 of an even fall is the mean of its ends: no rule in between can differ."""
    butt = piece(PARABOLOID, keep="butt", length=length)
    top = piece(PARABOLOID, keep="top", length=6.0 - length)
    exact = math.pi / 4 * length * (0.36 + (0.36 - 0.22 * length / 6)) / 2
    assert weigh(butt).volume == pytest.approx(exact, rel=1e-12)
    both = weigh(butt).volume + weigh(top).volume
    assert both == pytest.approx(weigh(PARABOLOID).volume, rel=1e-12)


@pytest.mark.parametrize("middle", [None, 0.5, 0.53, 0.48])
def test_a_section_is_that_which_was_taped(middle: float | None):
    measure = log(middle=middle)
    assert section_area(measure, at=0.0) == pytest.approx(0.6**2)
    assert section_area(measure, at=6.0) == pytest.approx(0.42**2)
    if middle:
        assert section_area(measure, at=3.0) == pytest.approx(middle**2)


@pytest.mark.parametrize("middle", [None, 0.5, 0.55, 0.46, 0.43, 0.62])
@pytest.mark.parametrize("keep", ["butt", "top"])
def test_a_piece_is_never_less_than_its_share_of_the_whole(middle, keep):
    """Against the integral of the parabola, or straight line, of squared diameters."""
    measure = log(middle=middle)
    squared = [0.36, 0.42**2] if middle is None else [0.36, middle**2, 0.42**2]
    rule = np.polynomial.Polynomial.fit(np.linspace(0, 6, len(squared)), squared, len(squared) - 1)
    under = rule.integ()
    assert weigh(measure).volume == pytest.approx(math.pi / 4 * (under(6.0) - under(0.0)))
    for length in np.linspace(0.3, 5.95, 40):
        start = 0.0 if keep == "butt" else 6.0 - length
        share = math.pi / 4 * (under(start + length) - under(start))
        volume = weigh(piece(measure, keep=keep, length=float(length))).volume
        assert volume >= share * (1 - 1e-12)


@pytest.mark.parametrize("middle", [None, 0.5, 0.52, 0.55])
@pytest.mark.parametrize("keep", ["butt", "top"])
def test_a_longer_piece_is_heavier(middle, keep):
    measure = log(middle=middle)
    pieces = [piece(measure, keep=keep, length=float(x)) for x in np.linspace(0.3, 6.0, 40)]
    assert np.all(np.diff([weigh(each).mass_planning for each in pieces]) > 0)


def test_a_neck_at_the_middle_never_gives_a_negative_section():
    """The parabola through 1.0, 0.1, 0.1 m dips below zero at three quarters of the length."""
    measure = log(butt=1.0, middle=math.sqrt(0.1), top=math.sqrt(0.1))
    assert min(section_area(measure, at=float(x)) for x in np.linspace(0, 6, 50)) >= 0.1 - 1e-12


def test_the_whole_log_is_itself():
    assert piece(log(), keep="butt", length=6.0) is not None
    assert piece(log(), keep="top", length=6.0) == log()


def test_a_root_plate_goes_with_the_butt_and_mud_stays_whole():
    extras = Extras(root_plate=Extra(share=0.2), mud=Extra(mass=30.0), limbs=Extra(share=0.1))
    whole = log(extras=extras)
    butt, top = (piece(whole, keep=keep, length=2.0) for keep in ("butt", "top"))
    planning = weigh(whole).mass_planning
    assert butt.extras.root_plate.mass == pytest.approx(0.2 * planning)
    assert top.extras.root_plate == Extra()
    assert butt.extras.mud.mass == top.extras.mud.mass == 30.0
    assert top.extras.limbs.mass == pytest.approx(0.1 * planning)


def test_the_middle_alone_is_not_enough_and_a_piece_is_not_longer_than_its_log():
    with pytest.raises(InputError, match="both ends"):
        piece(log(butt=None, top=None), keep="butt", length=2.0)
    with pytest.raises(InputError, match="at most"):
        piece(log(), keep="butt", length=6.5)


def test_a_log_thicker_inside_gives_a_butt_piece_that_can_be_measured():
    measure = log(butt=0.5, middle=0.52, top=0.3)
    cut = piece(measure, keep="butt", length=2.0)
    assert cut.butt >= cut.top
    assert weigh(cut).volume >= math.pi / 4 * 2.0 * 0.5**2
