"""Reactions on supports that push and do not pull.

- Four supports with uplift: an engineering forum's worked case of four outriggers, with the load
  shared anew among the three that stay, as H. and J. Shapiro, Cranes and Derricks, does.
- J. Petrović and J. Mattila (2022), IEEE 9762293, supplement: four equal wheels under an arm.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from liftcalc.physics.reactions import Wrench, settle, wrench
from liftcalc.physics.tipping import Support
from tests.physics.programme import Contact
from tests.published.printed import Printed

UPLIFT = "four outriggers, 6 by 4 ft; Shapiro, Cranes and Derricks"
ARM = "Petrović & Mattila 2022, IEEE 9762293, supplement"


def rectangle(half_x: float, half_y: float) -> tuple[Contact, ...]:
    """Front left, front right, rear left, rear right."""
    return tuple(
        Support(name=f"{x} {y}", x=x, y=y) for x in (half_x, -half_x) for y in (half_y, -half_y)
    )


def ups(contacts: tuple[Contact, ...], pressed: Wrench) -> list[float]:
    return [float(each.up) for each in settle(contacts, wrench=pressed)]


def weight(tonnes: float, x: float = 0.0, y: float = 0.0) -> Wrench:
    """In tonnes of force."""
    return wrench(mass=tonnes, x=x, y=y, z=0.0, gravity=(0.0, 0.0, -1.0))


def test_four_supports_before_any_lifts() -> None:
    """100 t at (2, 1) ft, were the supports to pull as well, t.

    Weight in the middle keeps all four down and adds the same to each.
    """
    found = ups(rectangle(3.0, 2.0), weight(100.0, 2.0, 1.0) + weight(400.0))
    for each, printed in zip(found, ("54", "29", "21", "-4"), strict=True):
        assert each - 100.0 == Printed(printed, source=UPLIFT)


def test_four_supports_one_of_them_lifted() -> None:
    """The same once the far corner has lifted, t."""
    found = ups(rectangle(3.0, 2.0), weight(100.0, 2.0, 1.0))
    for each, printed in zip(found, ("58.33", "25", "16.67", "0"), strict=True):
        assert each == Printed(printed, source=UPLIFT)
    # The fractions behind the printed figures, by moments on the three that stay.
    exact = (Fraction(175, 3), 25, Fraction(50, 3), 0)
    assert found == pytest.approx([float(each) for each in exact], rel=1e-12, abs=1e-12)


def test_wheels_under_an_arm() -> None:
    """Half-wheelbase 1.15 m, half-track 0.875 m, equal springs: each wheel, N."""
    g = 9.8066
    wheels = rectangle(1.15, 0.875)
    level = (0.0, 0.0, -g)
    body = wrench(mass=2200.0 + 4 * 60.0, x=0.0, y=0.0, z=0.45, gravity=level)
    for up in ups(wheels, body):
        assert up == Printed("5982.026", source=ARM)
    arm = wrench(mass=10424.4158 / g, x=0.5, y=0.0, z=0.70, gravity=level)
    *front, left, right = ups(wheels, body + arm)
    for up in front:
        assert up == Printed("9721.2186", source=ARM)
    for up in (left, right):
        assert up == Printed("7455.0413", source=ARM)
