"""Motion: what is refused, what never helps, and slewing against a load's equation of motion."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftcalc.errors import InputError
from liftcalc.physics import formulas
from liftcalc.site.ground import GROUNDS
from liftcalc.site.motion import (
    Motion,
    resistance_share,
    slewing,
    speed_at_rollover,
    travel_resistance,
    turning_acceleration,
)
from liftcalc.units import G0
from tests.stepping import stepped

some = st.floats(min_value=0.01, max_value=20.0)
more = st.floats(min_value=1.0, max_value=5.0)


def faults(**given_: object) -> list[str]:
    with pytest.raises(InputError) as refused:
        Motion(**given_)
    return [each.field for each in refused.value.faults]


def test_every_fault_is_said_at_once():
    said = faults(speed=-1.0, turn_radius=0.0, braking=math.nan, slew_speed=0.3, friction=1.5)
    assert said == ["speed", "turn-radius", "braking", "friction", "slew-stop"]


@pytest.mark.parametrize(
    "field", ["speed", "turn_radius", "braking", "slew_speed", "slew_stop", "sinkage", "friction"]
)
@pytest.mark.parametrize("value", [math.nan, math.inf, -0.1])
def test_what_is_no_quantity_is_refused(field: str, value: float):
    assert field.replace("_", "-") in faults(**{field: value})


def test_slewing_asks_for_its_stop():
    assert faults(slew_speed=0.3) == ["slew-stop"]
    assert Motion(slew_speed=0.3, slew_stop=1.5).slew_stop == 1.5


def test_straight_ahead_does_not_turn():
    assert Motion(speed=2.0).turning == 0.0
    assert Motion(speed=2.0, turn_radius=5.0).turning == pytest.approx(4.0 / (0.7 * 5.0))


def lean(*, acceleration: float) -> float:
    return formulas.swing_from_rest(steady_acceleration=abs(acceleration)).lean


def turning_ahead(*, speed: float, turn_radius: float) -> float:
    turn = formulas.turning(speed=speed, turn_radius=turn_radius, rollover_share=0.7)
    nose = formulas.turning_ahead(turn_rate=turn.turn_rate, ahead=3.0, rollover_share=0.7)
    return nose.rearward_in_turn


def slewing_swing(**how):
    return slewing(**how).steps.slewing_swing


@given(a=some, k=more)
def test_harder_never_swings_less(a: float, k: float):
    assert lean(acceleration=k * a) >= lean(acceleration=a) > 0
    assert lean(acceleration=-a) == lean(acceleration=a)


@given(v=some, radius=some, k=more)
def test_faster_or_tighter_never_turns_easier(v: float, radius: float, k: float):
    calm = turning_acceleration(speed=v, turn_radius=radius)
    assert turning_acceleration(speed=k * v, turn_radius=radius) >= calm
    assert turning_acceleration(speed=v, turn_radius=radius / k) >= calm
    nose = turning_ahead(speed=v, turn_radius=radius)
    assert turning_ahead(speed=k * v, turn_radius=radius) >= nose
    assert turning_ahead(speed=v, turn_radius=radius / k) >= nose


@given(limit=some, radius=some)
def test_the_speed_at_rollover_takes_the_turn_to_its_limit(limit: float, radius: float):
    speed = speed_at_rollover(acceleration_limit=limit, turn_radius=radius)
    at_limit = turning_acceleration(speed=speed, turn_radius=radius)
    assert at_limit == pytest.approx(limit, rel=1e-12)


def test_a_machine_at_its_limit_may_not_turn_at_all():
    assert speed_at_rollover(acceleration_limit=-0.5, turn_radius=5.0) == 0.0
    assert math.isnan(speed_at_rollover(acceleration_limit=math.nan, turn_radius=5.0))


@given(radius=some, speed=st.floats(0.01, 2.0), stop=st.floats(0.1, 5.0), k=more)
def test_faster_farther_or_sharper_slewing_never_swings_less(radius, speed, stop, k):
    calm = slewing_swing(radius=radius, slew_speed=speed, slew_stop=stop)
    assert slewing_swing(radius=k * radius, slew_speed=speed, slew_stop=stop) >= calm
    assert slewing_swing(radius=radius, slew_speed=k * speed, slew_stop=stop) >= calm
    assert slewing_swing(radius=radius, slew_speed=speed, slew_stop=stop / k) >= calm


@given(depth=st.floats(0.0, 0.5), grade=st.floats(-0.5, 0.5), k=more)
def test_softer_or_steeper_never_rolls_easier(depth: float, grade: float, k: float):
    easy = resistance_share(sinkage=depth, grade=grade)
    assert resistance_share(sinkage=k * depth, grade=grade) >= easy >= 0.02
    assert resistance_share(sinkage=depth, grade=grade + k) >= easy
    assert travel_resistance(sinkage=depth, grade=grade, mass=k * 5000.0) >= travel_resistance(
        sinkage=depth, grade=grade, mass=5000.0
    )


def test_downhill_gains_nothing():
    assert resistance_share(sinkage=0.05, grade=-0.3) == resistance_share(sinkage=0.05, grade=0.0)


def test_arrays_as_floats():
    radii = np.array([2.0, 3.5, 5.0])
    many = slewing_swing(radius=radii, slew_speed=0.4, slew_stop=1.0)
    each = [slewing_swing(radius=float(r), slew_speed=0.4, slew_stop=1.0) for r in radii]
    assert np.array_equal(many, each)


def test_what_is_not_a_number_stays_so():
    nan = math.nan
    assert math.isnan(lean(acceleration=nan))
    assert math.isnan(slewing_swing(radius=nan, slew_speed=0.3, slew_stop=1.0))
    assert math.isnan(resistance_share(sinkage=nan, grade=0.0))
    assert math.isnan(resistance_share(sinkage=0.0, grade=nan))
    assert math.isnan(turning_acceleration(speed=nan, turn_radius=4.0))


def test_the_unknown_grips_least_and_dry_about_twice_as_well():
    careful = {each.name: each.friction.careful for each in GROUNDS}
    assert min(careful.values()) == careful["unknown"] == careful["mud"]
    assert all(1.9 * each.friction.careful < each.friction.favourable <= 0.8 for each in GROUNDS)


Rate = Callable[[float], tuple[float, float]]
"""Rate of slewing and what it gains, at a moment [rad/s, rad/s²]."""


def hung_in_space(rate: Rate, *, radius: float, length: float, start: np.ndarray, until: float):
    """Leans over time of a load on a hook that slews, from its equation of motion in space.

    The state is its place below the hook and its velocity, along axes that do not turn, and the
    hook's angle. The pull of the sling is what keeps its length.
    """

    def motion(at: float, state: np.ndarray) -> np.ndarray:
        place, moving, angle = state[:3], state[3:6], state[6]
        turns, gains = rate(at)
        out = np.array([math.cos(angle), math.sin(angle), 0.0])
        along = np.array([-math.sin(angle), math.cos(angle), 0.0])
        hook = radius * (gains * along - turns**2 * out)
        push = np.array([0.0, 0.0, -G0]) - hook
        pull = (push @ place + moving @ moving) / length**2
        return np.array([*moving, *(push - pull * place), turns])

    step = 0.01
    path = stepped(motion, start, step, int(until / step))
    assert np.allclose(np.linalg.norm(path[:, :3], axis=1), length, rtol=1e-4)
    return np.arctan2(np.hypot(path[:, 0], path[:, 1]), -path[:, 2])


def after_a_quiet_stop(*, radius: float, speed: float, stop: float, length: float) -> float:
    """Farthest lean of a load that hung quietly outward when the slewing was stopped."""
    outward = 0.0
    for _ in range(60):  # tan λ = ω²(r + ℓ sin λ)/g
        outward = math.atan(speed**2 * (radius + length * math.sin(outward)) / G0)
    out = length * math.sin(outward)
    start = np.array([out, 0.0, -length * math.cos(outward), 0.0, speed * out, 0.0, 0.0])

    def rate(at: float) -> tuple[float, float]:
        return speed * max(1 - at / stop, 0.0), -speed / stop if at < stop else 0.0

    period = 2 * math.pi * math.sqrt(length / G0)
    leans = hung_in_space(rate, radius=radius, length=length, start=start, until=stop + period)
    return float(leans.max())


def after_start_and_stop(*, radius: float, speed: float, stop: float, length: float) -> float:
    """Farthest lean of a load at rest, slewed and stopped again at the worst of nine moments."""
    period = 2 * math.pi * math.sqrt(length / G0)
    start = np.array([0.0, 0.0, -length, 0.0, 0.0, 0.0, 0.0])

    def lean_when(begins: float) -> float:
        def rate(at: float) -> tuple[float, float]:
            done, undone = min(at / stop, 1.0), min(max((at - begins) / stop, 0.0), 1.0)
            gains = float(at < stop) - float(begins <= at < begins + stop)
            return speed * (done - undone), speed / stop * gains

        return float(
            hung_in_space(
                rate, radius=radius, length=length, start=start, until=begins + stop + period
            ).max()
        )

    return max(lean_when(stop + share * period) for share in np.linspace(0.0, 1.0, 9))


SLEWS = [
    (3.0, 0.25, 1.5, 1.5),
    (5.0, 0.4, 1.0, 2.0),
    (5.5, 0.6, 2.0, 3.0),
    (4.0, 0.5, 0.4, 1.0),
    (2.5, 0.8, 1.0, 1.2),
]
"""Radius [m], rate [rad/s], time to stop [s], length of the sling [m]."""


@pytest.mark.parametrize(("radius", "speed", "stop", "length"), SLEWS)
def test_slewing_swings_no_farther_than_planned(radius, speed, stop, length):
    """Settled covers the stop of a quiet load; not settled also a stop at the worst moment."""
    how = {"radius": radius, "slew_speed": speed, "slew_stop": stop}
    case = {"radius": radius, "speed": speed, "stop": stop, "length": length}
    quiet, swinging = after_a_quiet_stop(**case), after_start_and_stop(**case)
    # Not by being loose: the load does get past the lean of the stop alone, undoubled.
    assert lean(acceleration=speed * radius / stop) < quiet <= slewing_swing(**how)
    assert quiet < swinging <= slewing_swing(**how, settled=False)


def test_why_a_load_must_settle():
    """The settled swing is no bound for a load that still swings: so it must be said."""
    radius, speed, stop, length = SLEWS[0]
    swinging = after_start_and_stop(radius=radius, speed=speed, stop=stop, length=length)
    planned = slewing_swing(radius=radius, slew_speed=speed, slew_stop=stop)
    assert 1.5 * planned < swinging < 2 * planned
