"""Wind on machine and log: its force by hand, and what it takes by moments written out here.

Forces are tried from every side and crossed with their levers; no functional of the model and no
norm is in it. Dynamic pressures are those of EN 13001-2 and ISO 4302, from memory.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift
from liftcalc.physics.wrench import LevelForce
from liftcalc.reports.data import record
from liftcalc.requests.lift import parse_lift
from liftcalc.site.site import Site
from liftcalc.site.wind import wind_on_log, wind_on_machine
from liftcalc.units import G0
from tests.helpers import MACHINES, lift
from tests.unit.test_working import CASES

LOG = {
    "species": "european larch",
    "length": "4 m",
    "butt": "60 cm",
    "mid": "50 cm",
    "top": "45 cm",
}
WIND = 12.0
SIDES = np.radians(np.arange(0.0, 360.0, 0.05))
COARSE = 1 - math.cos(math.radians(0.025))
"""Share by which the worst of those sides may miss the worst of all."""


@pytest.mark.parametrize(
    ("speed", "pressure"),
    [(10.0, 62.5), (20.0, 250.0)],  # EN 13001-2: in-service wind "normal" is 20 m/s, 250 Pa
)
def test_dynamic_pressure(speed: float, pressure: float) -> None:
    force = wind_on_log(speed=speed, length=4.0, diameter=0.6)
    assert force.worked.steps.wind_pressure == pressure


def test_force_on_a_cylinder_by_hand() -> None:
    """62.5 Pa on 4 m × 0.6 m, as a rough round section: 62.5 · 1.2 · 2.4 = 180 N."""
    force = wind_on_log(speed=10.0, length=4.0, diameter=0.6)
    assert force.size == pytest.approx(180.0, rel=1e-12)
    assert force.at is None


def test_force_on_a_box_by_hand() -> None:
    """62.5 Pa on 5 m × 3 m: 62.5 · 1.2 · 15 = 1125 N, in the middle of it."""
    force = wind_on_machine(speed=10.0, rear=-1.5, front=3.5, top=3.0)
    assert force.size == pytest.approx(1125.0, rel=1e-12)
    assert force.at == (1.0, 0.0, 1.5)


def in_wind(base: Lift) -> tuple[Answer, Answer, LevelForce, LevelForce]:
    blown = replace(base, wind=WIND)
    machine, log = blown.level_forces
    return check(base), check(blown), machine, log


def test_tipping_over_the_stabilisers_by_moments() -> None:
    """Pads 0.85 m behind the rear axle, hook 1.05 + 4.5 m behind it: a load has a lever of 4.7 m.

    The box of the standard machine is 2.15 + 0.5 + 1.05 m long and 1.68 + 2.4 m high.
    """
    still, blown, _, _ = in_wind(lift(log=LOG, reach=4.5, height=2.0))
    pressure = 1.25 * WIND**2 / 2
    overturns = pressure * 1.2 * (3.7 * 4.08 * 4.08 / 2 + 4.0 * 0.6 * 2.0)
    before, after = still.criteria[0], blown.criteria[0]
    assert before.where == after.where == "over both stabilisers"
    assert before.capacity - after.capacity == pytest.approx(overturns / (G0 * 4.7), rel=1e-9)


def worst(force: LevelForce, at: Any, start: Any, end: Any) -> float:
    """Least moment about a line of a level force that is turned all round."""
    across = np.array([np.cos(SIDES), np.sin(SIDES), 0.0 * SIDES]).T * force.size
    axis = (end - start) / np.linalg.norm(end - start)
    return float((np.cross(np.asarray(at, dtype=float) - start, across) @ axis).min())


@pytest.mark.parametrize("machine", MACHINES)
@pytest.mark.parametrize(
    "asked",
    [
        {"end": "back", "slew": 0.7},
        {"end": "back", "slew": -0.9, "stance": "wheels"},
        {"end": "front", "tool": "multi-purpose jaw bucket", "point": "in the jaw"},
    ],
)
def test_every_line_loses_what_wind_turns_about_it(machine: str, asked: dict[str, Any]) -> None:
    still, blown, box, log = in_wind(lift(machine, **asked, site=Site(slope=0.05, heading=1.0)))
    assert still.reached.load == blown.reached.load
    for one, two in zip(still.reached.lines, blown.reached.lines, strict=True):
        start, end = (np.array([at.x, at.y, at.z]) for at in (one.line.start, one.line.end))
        takes = worst(box, box.at, start, end)
        takes += min(worst(log, at, start, end) for at in blown.reached.loads)
        lost = two.holding_moment - one.holding_moment
        assert lost == pytest.approx(takes, rel=2 * COARSE)
        assert lost < 0


@pytest.mark.parametrize("end", ["back", "front"])
def test_a_ram_loses_the_moment_of_the_log_s_wind_about_its_joint(end: str) -> None:
    tool = {"back": "lifting hook", "front": "front lifting hook"}[end]
    still, blown, _, log = in_wind(lift(end=end, tool=tool, log=LOG))
    for one, two in zip(still.reached.rams, blown.reached.rams, strict=True):
        up = float(still.reached.load[2] - one.joint.pivot.w)
        out = float(still.reached.arm.load_at.u - one.joint.pivot.u)
        lost = log.size * abs(up) / (G0 * abs(out))
        assert one.capacity - two.capacity == pytest.approx(lost, rel=1e-9)


def test_wind_slides_the_machine_when_it_pushes_as_hard_as_the_pads_hold() -> None:
    """On level ground nothing else does; part of the machine's weight is on its front wheels."""
    base = lift(log=LOG, reach=3.0, height=1.5)
    whole = check(base).reached.standing.whole.mass * G0
    names = [each.name for each in check(base).criteria]
    assert "grip on the ground" not in names
    at_rest = replace(base, wind=1.0).level_forces
    slides = math.sqrt(base.friction * whole / sum(each.size for each in at_rest))
    for speed, holds in ((0.5 * slides, True), (slides, False)):
        (grip,) = (
            each
            for each in check(replace(base, wind=speed)).criteria
            if each.name == "grip on the ground"
        )
        assert (grip.capacity > 0) is holds


def test_a_hung_log_is_blown_off_the_plumb_line_and_people_stay_so_much_farther() -> None:
    """Its lightest mass m in a push F hangs at atan(F/mg); from rest it swings as far again."""
    still, blown, _, log = in_wind(lift(log=LOG, tool="lifting hook"))
    leans = 2 * math.atan(log.size / (blown.lift.log.mass_low * G0))
    drop = still.keep_out.given["hanging_drop"]
    farther = blown.keep_out.result - still.keep_out.result
    assert farther == pytest.approx(drop * math.sin(leans), rel=1e-9)


def test_a_log_held_fast_is_not_blown_aside() -> None:
    still, blown, _, _ = in_wind(lift(end="front", tool="multi-purpose jaw bucket"))
    assert still.keep_out.result == blown.keep_out.result


@pytest.mark.parametrize("name", CASES)
def test_no_wind_is_as_if_nobody_had_said_it(name: str) -> None:
    """Bit for bit, all that the answer was computed from."""

    def answered(wind: str) -> dict[str, Any]:
        read = parse_lift(replace(CASES[name], wind=wind))
        made = record(check(read.lift), read, evidence=True)
        made["understood"].pop("wind", None)
        return made

    assert answered("") == answered("0 km/h")
    assert answered("") != answered("1 km/h")
