"""Edges of the reactions: what tips, what is refused, what never ends."""

from __future__ import annotations

import math

import numpy as np
import pytest

from liftcalc.physics.reactions import settle, wrench
from liftcalc.physics.tipping import Support
from liftcalc.physics.wrench import load_at_failure

SQUARE = tuple(Support(name=f"{x} {y}", x=x, y=y) for x in (1.0, -1.0) for y in (1.0, -1.0))
LEVEL = (0.0, 0.0, -1.0)


def load(*lines: tuple[float, float], limit: float = 10.0) -> float:
    """What presses on a support about each line, and a kilogram more; all levers are 1 m."""
    return load_at_failure(
        holding=[limit - held for held, _ in lines], per_kilogram=[-unit for _, unit in lines]
    )


def test_a_limit_is_reached_when_the_last_line_lets_it() -> None:
    assert load((6.0, 2.0)) == 2.0
    assert load((6.0, 2.0), (0.0, 2.0)) == 5.0
    assert load((12.0, 2.0), (11.0, 0.0)) == 0.0
    assert load((12.0, -1.0)) == 0.0  # what the load would relieve is not credited


def test_no_load_reaches_a_limit_that_some_line_always_holds() -> None:
    assert load((6.0, 0.0), (0.0, 2.0)) == math.inf
    assert load((6.0, -1.0), (0.0, 2.0)) == math.inf
    # One line would let it up to 2 kg, the other from 5 kg on.
    assert load((12.0, -1.0), (0.0, 2.0)) == math.inf
    assert load((12.0, -1.0), (0.0, 8.0)) == 1.25


@pytest.mark.parametrize("line", [(math.nan, 1.0), (1.0, math.nan), (math.nan, -1.0)])
def test_what_is_not_a_number_stays_so(line: tuple[float, float]) -> None:
    for other in ((6.0, 2.0), (12.0, 2.0), (6.0, -1.0), (12.0, -1.0)):
        assert math.isnan(load(line, other))
        assert math.isnan(load(other, line))


def test_arrays_are_as_their_numbers_and_a_higher_limit_is_never_worse() -> None:
    rng = np.random.default_rng(1)
    held, unit = rng.normal(8, 6, (2, 500)), rng.normal(0.5, 1, (2, 500))
    unit[0, :50] = 0.0
    held[1, 7] = math.nan
    many = load(*zip(held, unit, strict=True))
    for i in range(500):
        assert many[i] == pytest.approx(
            load(*zip(held[:, i], unit[:, i], strict=True)), nan_ok=True
        )
    higher = load(*zip(held, unit, strict=True), limit=11.0)
    real = ~np.isnan(many)
    assert np.all(higher[real] >= many[real])
    assert np.isnan(higher[7])


def test_what_tips_has_no_forces() -> None:
    for mass, x in ((100.0, 1.01), (-100.0, 0.0), (0.0, 0.0), (math.nan, 0.0)):
        pressed = wrench(mass=mass, x=x, y=0.0, z=0.0, gravity=LEVEL)
        reactions = settle(SQUARE, wrench=pressed)
        assert all(math.isnan(each.forward) for each in reactions)
        if mass:
            assert all(math.isnan(each.up) for each in reactions)


def test_a_nose_so_steep_that_no_sharing_holds_it_is_no_equilibrium() -> None:
    """A force backward along the machine, so great that its yaw on the pin outweighs the roll."""
    contacts = (
        *(Support(name=str(y), x=0.0, y=y) for y in (1.0, -1.0)),
        Support(name="pin", x=2.0, y=0.0, z=1.0, kind="axle pin"),
    )
    steep = wrench(mass=100.0, x=1.0, y=0.0, z=0.0, gravity=(-0.99, 0.0, -1.0))
    assert all(each.up > 0 for each in settle(contacts, wrench=steep))
    for forward in (-1.0, -1.01):
        steeper = wrench(mass=100.0, x=1.0, y=0.0, z=0.0, gravity=(forward, 0.0, -1.0))
        assert all(math.isnan(each.up) for each in settle(contacts, wrench=steeper))


@pytest.mark.parametrize("x", [0.0, 2.0])
def test_a_weight_right_over_the_back_supports_or_over_the_pin(x: float) -> None:
    contacts = (
        *(Support(name=str(y), x=0.0, y=y) for y in (1.0, -1.0)),
        Support(name="pin", x=2.0, y=0.0, z=0.5, kind="axle pin"),
    )
    found = settle(contacts, wrench=wrench(mass=100.0, x=x, y=0.0, z=1.0, gravity=LEVEL))
    ups = [each.up for each in found]
    if x:
        # Nothing is left behind: it tips over the front.
        assert all(math.isnan(up) for up in ups)
    else:
        assert ups == [50.0, 50.0, 0.0]


@pytest.mark.parametrize(
    "contacts",
    [
        SQUARE[:2],
        tuple(Support(name=str(x), x=float(x), y=2.0 * x) for x in range(4)),
        (*SQUARE, Support(name="pin", x=2.0, y=0.0, z=0.5, kind="axle pin")),
        (SQUARE[0], SQUARE[3], Support(name="pin", x=2.0, y=0.0, z=0.5, kind="axle pin")),
    ],
)
def test_contacts_that_cannot_be_solved_are_refused(contacts: tuple[Support, ...]) -> None:
    with pytest.raises(ValueError, match="supports"):
        settle(contacts, wrench=wrench(mass=1.0, x=0.0, y=0.0, z=1.0, gravity=LEVEL))
