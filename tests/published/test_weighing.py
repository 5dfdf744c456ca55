"""Centre of gravity of a machine on unequal tyres, from its axles weighed level and pitched.

No published answer: the case was got from the closed form and from the machine drawn and turned,
point by point, with the pitch found by halving; both ways, there and back.
"""

from __future__ import annotations

import cmath
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from liftcalc.machines.weighing import Weighings, weighed
from liftcalc.physics import formulas
from tests.published.printed import Printed

CASE = "derived: machine of 7500 kg on tyres of 0.42 and 0.70 m, front raised 0.50 m"
SIZES = {"wheelbase": 2.1, "front_radius": 0.42, "rear_radius": 0.70}
FORWARD = {**SIZES, "raise_height": 0.5, "whole_mass": 7500.0, "cog_ahead": 0.85, "cog_up": 0.95}


def drawn(
    *,
    wheelbase: float,
    front_radius: float,
    rear_radius: float,
    raise_height: float,
    whole_mass: float,
    cog_ahead: float,
    cog_up: float,
) -> tuple[float, float]:
    """Pitch and front reaction of the machine drawn about its rear axle and turned until it fits.

    Points are complex numbers, ahead and up of the rear axle.
    """
    front = complex(wheelbase, front_radius - rear_radius)
    weight = complex(cog_ahead, cog_up - rear_radius)
    low, high = -1.2, 1.2
    for _ in range(200):
        middle = (low + high) / 2
        up = (front * cmath.rect(1, middle)).imag
        low, high = (
            (middle, high) if up < front_radius + raise_height - rear_radius else (low, middle)
        )
    turned = cmath.rect(1, low)
    # The tyres stand right below their axles, and the reactions are plumb.
    return low, whole_mass * (weight * turned).real / (front * turned).real


def test_what_the_axle_weighs():
    """Level front axle, kg; pitch, degrees; front axle raised, kg."""
    found = formulas.weighing_of_cog(**FORWARD)
    assert found.front_level == Printed("3035.714", source=CASE)
    assert math.degrees(found.pitch) == Printed("13.555150", source=CASE)
    assert found.front_raised == Printed("2732.606", source=CASE)
    pitch, reaction = drawn(**FORWARD)
    assert found.pitch == pytest.approx(pitch, rel=1e-9)
    assert found.front_raised == pytest.approx(reaction, rel=1e-9)


def test_where_it_balances():
    """The same case turned round: ahead of the rear axle and above the ground, m."""
    found = weighed(
        Weighings(
            total=7500.0, front_level=3035.714, front_raised=2732.606, raise_height=0.5, **SIZES
        )
    )
    assert found.ahead == Printed("0.85", source=CASE)
    assert found.behind == Printed("1.25", source=CASE)
    # Weighings to the gram give the height to the hundredth of a millimetre.
    assert found.height == Printed("0.95000", source=CASE)


def test_the_form_for_equal_tyres_is_a_tenth_out():
    """Height by the textbook form, r + L·ΔR/(W·tan θ), and how far it is out."""
    found = formulas.weighing_of_cog(**FORWARD)
    lost = found.front_level - found.front_raised
    textbook = 0.70 + 2.1 * lost / (7500.0 * math.tan(found.pitch))
    assert textbook == pytest.approx(1.0520, abs=5e-5)
    assert textbook > 1.1 * FORWARD["cog_up"]


@pytest.mark.parametrize("radius", [0.45, 0.7])
def test_on_equal_tyres_it_is_the_textbook_form(radius: float):
    """Equal radii: h = r + L·ΔR/(W·tan θ), sin θ = H/L, any text on vehicle dynamics."""
    sizes = {"wheelbase": 2.1, "front_radius": radius, "rear_radius": radius}
    found = formulas.cog_by_weighing(
        **sizes, raise_height=0.5, whole_mass=7500.0, front_level=3000.0, front_raised=2700.0
    )
    pitch = math.asin(0.5 / 2.1)
    assert found.pitch == pytest.approx(pitch, rel=1e-12)
    textbook = radius + 2.1 * 300.0 / (7500.0 * math.tan(pitch))
    assert found.cog_up == pytest.approx(textbook, rel=1e-12)


@given(
    wheelbase=st.floats(1.5, 3.0),
    front_radius=st.floats(0.3, 0.7),
    rear_radius=st.floats(0.3, 0.75),
    lift=st.floats(0.15, 0.7),
    rear=st.booleans(),
    mass=st.floats(1500.0, 15_000.0),
    share=st.floats(0.2, 0.7),
    height=st.floats(0.8, 1.8),
)
def test_there_and_back(*, wheelbase, front_radius, rear_radius, lift, rear, mass, share, height):
    """Any machine, either axle raised: weighed as drawn, it balances where it was drawn."""
    sizes = {"wheelbase": wheelbase, "front_radius": front_radius, "rear_radius": rear_radius}
    ahead, raised = share * wheelbase, -lift if rear else lift
    _, reaction = drawn(
        **sizes, raise_height=raised, whole_mass=mass, cog_ahead=ahead, cog_up=height
    )
    stated = formulas.weighing_of_cog(
        **sizes, raise_height=raised, whole_mass=mass, cog_ahead=ahead, cog_up=height
    )
    assert stated.front_raised == pytest.approx(reaction, rel=1e-9)
    level = mass * share
    assume(0 < reaction < mass)
    assume((reaction < level) == (raised > 0))
    found = weighed(
        Weighings(
            total=mass, front_level=level, front_raised=reaction, raise_height=raised, **sizes
        )
    )
    assert found.ahead == pytest.approx(ahead, rel=1e-9)
    assert found.height == pytest.approx(height, rel=1e-9)
