"""What motion asks: a swing stopped at its worst, its pull, brakes, axles, a log that rests."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from liftcalc.evaluation.answer import Answer, Criterion
from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.sweep import sweep
from liftcalc.machines.schema import Machine
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from liftcalc.units import G0
from tests.helpers import lift, load


def of_kind(answer: Answer, kind: str, where: str = "") -> Criterion:
    return next(each for each in answer.criteria if each.kind == kind and where in each.where)


def pendulum(*, speed: float, stop: float, cable: float, wait: float) -> float:
    """Greatest lean of a load whose hook starts, goes on for a while and stops, stepped in time."""
    step, lean, rate, most, time = 0.002, 0.0, 0.0, 0.0, 0.0
    while time < 2 * stop + wait + 8:
        pushed = speed / stop if time < stop else 0.0
        if stop + wait <= time < 2 * stop + wait:
            pushed = -speed / stop
        rate -= step * (G0 * math.sin(lean) + pushed * math.cos(lean)) / cable
        lean += step * rate
        most, time = max(most, abs(lean)), time + step
    return most


def test_slewing_is_stopped_at_the_worst_moment() -> None:
    """Hook at 4.2 m, 20°/s, stopped in 1 s: in time it swings to some 30°; once quiet to less."""
    radius, rate = 4.2, math.radians(20)
    asked = lift(motion=Motion(slew_speed=rate, slew_stop=1.0))
    outward = math.atan(rate**2 * radius / G0)
    worst = max(
        pendulum(speed=rate * radius, stop=1.0, cable=2.0, wait=wait)
        for wait in np.arange(0.0, 3.0, 0.1)
    )
    assert worst > math.radians(25)
    assert asked.lean(reach=radius) >= worst + outward
    assert replace(asked, hopeful=frozenset({"hanging quiet"})).lean(reach=radius) < worst + outward


@pytest.mark.parametrize("kind", ["ram", "lift point"])
def test_a_swing_pulls_what_the_log_hangs_on(kind: str) -> None:
    """By energy, at the lowest place; once in a check and in a sweep."""
    still, swung = (lift(swing=math.radians(each)) for each in (0.0, 25.0))
    before, after = (of_kind(check(each), kind) for each in (still, swung))
    pulls = 3 - 2 * math.cos(math.radians(25))
    assert after.load_factor.value == pytest.approx(before.load_factor.value * pulls)
    for asked in (still, swung):
        found = sweep(asked, reach=asked.reach, height=asked.height, slew=asked.slew)
        assert float(found.allowed[0, 0]) == pytest.approx(check(asked).allowed, rel=1e-9)
    assert of_kind(check(swung), "tipping").load_factor.value == 1.0  # its lean counts there


CARRIED: dict[str, Any] = {
    "end": "front", "tool": "pallet forks", "tilt": 0.0, "travelling": True, "height": 0.6,
}  # fmt: skip


def test_brakes_beyond_the_grip_stop_the_machine_later() -> None:
    """Level: braking asks for no grip, and tips as hard as it was said to, whatever the grip."""
    least = math.inf
    for braking in (0.0, 0.5, 1.0, 2.0, 3.0):
        answer = check(lift(**CARRIED, motion=Motion(braking=braking, friction=0.15)))
        grips = [each.capacity for each in answer.criteria if each.kind == "grip"]
        assert all(math.isinf(each) or each > 1000 for each in grips)
        tips = of_kind(answer, "tipping").allowed
        assert tips <= least
        least = tips
    assert least > 0


def test_grip_still_holds_slope_and_turn() -> None:
    down = Site(slope=math.radians(12), heading=math.pi)
    for asked in (
        lift(**CARRIED, motion=Motion(friction=0.15), site=down),
        lift(**CARRIED, motion=Motion(speed=3.0, turn_radius=4.0, friction=0.15)),
    ):
        assert of_kind(check(asked), "grip").capacity == 0
        more = replace(asked, motion=replace(asked.motion, braking=1.0))
        assert of_kind(check(more), "grip").capacity == 0


def light_in_front() -> Machine:
    """A machine whose front axle carries 2200 of 8000 kg when it is empty."""
    machine = load("standard-sideshift")
    weights = machine.weights
    changed = weights.model_copy(update={"front_axle": 2200.0, "rear_axle": 5800.0})
    return machine.model_copy(update={"weights": changed})


def hooked(**changes: Any) -> Lift:
    return lift(light_in_front(), end="front", tool="front lifting hook", travelling=True,
                height=2.0, **changes)  # fmt: skip


def test_the_load_that_presses_a_light_axle_down_is_counted_at_its_least() -> None:
    """By moments about the rear axle, with the lightest log over the jolt; a twig does not mend."""
    asked = hooked()
    answer = check(asked)
    steered = of_kind(answer, "least axle load", "steered")
    jolt = 1 + 0.15 * (2.6 + 4 * 6 / 3.6)  # nobody said how fast: a brisk walk, over 15 cm
    least = (asked.rigging + asked.log.mass_low) / jolt
    base = float(asked.machine.wheels.wheelbase)
    holds = all(
        (whole.mass * whole.x + least * answer.reached.load[0]) / base >= 0.2 * (whole.mass + least)
        for whole in answer.reached.wholes
    )
    alone = all(whole.x / base >= 0.2 for whole in answer.reached.wholes)
    assert holds
    assert not alone
    assert math.isinf(steered.capacity)
    twig = hooked(log={"species": "norway spruce", "length": "1 m", "mid": "10 cm"})
    assert of_kind(check(twig), "least axle load", "steered").capacity == 0
    nobody = replace(asked, stand_in=True)
    assert of_kind(check(nobody), "least axle load", "steered").capacity == 0
    found = sweep(asked, height=asked.height)
    assert float(found.allowed[0, 0]) == pytest.approx(answer.allowed, rel=1e-9)


@pytest.mark.parametrize(("tilt", "asks"), [(10.0, False), (0.0, False), (-1.0, True)])
def test_friction_is_asked_of_a_jaw_only_where_the_log_does_not_lie_in_it(
    tilt: float, asks: bool
) -> None:
    asked = lift(end="front", tool="multi-purpose jaw bucket", point="in the jaw",
                 tilt=math.radians(tilt), height=0.8)  # fmt: skip
    assert any(each.kind == "jaw" for each in check(asked).criteria) is asks
