"""The campaign's machine in motion: at rest it is the statics, and it moves as bodies must."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import asdict
from typing import Any

import mujoco
import numpy as np
import pytest

from dynamics.cases import drawn
from dynamics.model import GRAVITY, Obstacle, reach_still, rig
from dynamics.runs import Move, Run, run
from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift
from liftcalc.site.site import Site
from tests.helpers import lift

Measured = Callable[[str, int, float], None]
GRIPS = 1.0

LIFTS: dict[str, dict[str, Any]] = {
    "back, over the corner": {"slew": 0.6, "reach": 3.2, "height": 1.8},
    "back, straight": {"machine": "compact-centre-mount"},
    "back, across a slope": {"slew": -0.3, "site": Site(slope=0.08, heading=math.pi / 2)},
    "back, bucket pressed": {"stance": "stabilisers and bucket"},
    "back, on wheels": {"stance": "wheels", "reach": 2.9, "height": 1.2},
    "front, forks": {"end": "front", "tool": "pallet forks", "height": 0.5},
    "front, hook": {"end": "front", "tool": "front lifting hook", "height": 2.0},
    "front, slope": {"end": "front", "site": Site(slope=0.06, heading=0.8), "height": 0.8},
}


@pytest.mark.parametrize("name", LIFTS)
def test_at_rest_it_stands_as_the_statics_say(name: str, measured: Measured) -> None:
    """Settled on its tyres and pads, no force of the ground is 2 % of the weight off the statics.

    Tyres give and lean the machine a little, which the statics leave out.
    """
    asked = lift(**LIFTS[name], off_centre=0.0)
    found = check(asked).ground_forces
    made = rig(asked, log=found.load - asked.rigging, friction=GRIPS)
    rest = run(made, Move(lowering=1e-9)).rest
    assert rest.keys() == {each.name for each in found.feet}
    off = max(abs(rest[each.name] - each.force) for each in found.feet) / sum(rest.values())
    assert off < 0.02
    measured("ground forces at rest, by a multibody engine", 1, off)


def test_a_hung_load_swings_to_twice_the_lean_of_a_steady_pull() -> None:
    """Pulled aside from rest by a steady acceleration a pendulum swings to 2·atan(a/g) [energy]."""
    made = Run(rig(lift(), log=100.0, friction=GRIPS), Move())
    made.at_rest()
    mujoco.mj_step(made.model, made.data, 400)
    pull = 0.8
    made.model.opt.gravity[:] = [0.0, pull, -GRAVITY]
    farthest = 0.0
    for _ in range(1500):
        mujoco.mj_step(made.model, made.data)
        down = -made.data.body("load").xmat.reshape(3, 3)[:, 2]
        farthest = max(farthest, math.acos(-down[2]))
    assert farthest == pytest.approx(2 * math.atan(pull / GRAVITY), rel=0.03)


def tipping(asked: Lift) -> float:
    """Log that tips a machine at rest, by the moments of the statics [kg]."""
    return min(float(line.tipping_load) for line in reach_still(asked).lines) - asked.rigging


@pytest.mark.parametrize("name", ["back, over the corner", "back, straight", "back, on wheels"])
def test_it_tips_where_the_statics_tip(name: str) -> None:
    """Strong rams given, nine tenths of the tipping load hold and a tenth more than it does not."""
    asked = lift(**LIFTS[name])
    for share, tips in ((0.9, False), (1.1, True)):
        made = rig(asked, log=share * tipping(asked), friction=GRIPS)
        strong = [asdict(ram) | {"push": 1e9, "pull": 1e9} for ram in made.rams]
        held = type(made)(
            **{name: getattr(made, name) for name in made.__slots__}
            | {"rams": tuple(type(made.rams[0])(**each) for each in strong)}
        )
        failed = run(held, Move(lowering=1e-9)).failed
        assert ("off the ground" in failed or "over" in failed) is tips, (share, failed)


def test_a_ram_that_is_too_weak_is_overrun() -> None:
    """Half as much again as the lift rams hold at their relief overruns them at rest."""
    asked = lift(end="front", tool="pallet forks", height=1.5)
    holds = min(ram.capacity for ram in reach_still(asked).rams)
    assert run(rig(asked, log=0.7 * holds, friction=GRIPS), Move(lowering=1e-9)).failed == ""
    over = run(rig(asked, log=1.5 * holds, friction=GRIPS), Move(lowering=1e-9)).failed
    assert "overrun" in over or "off the ground" in over


def test_brakes_slow_it_as_asked_and_no_more_than_the_ground_holds() -> None:
    """A log's length from v at a it stops in v²/2a; where only rear wheels brake, grip caps it."""
    asked = lift(end="front", tool="pallet forks", height=0.5)
    gone = {}
    for friction in (0.8, 0.1):
        made = Run(rig(asked, log=300.0, friction=friction), Move(speed=2.0, braking=1.5))
        made.go()
        gone[friction] = made.data.xpos[made.chassis][0]
        share = sum(v for n, v in made.outcome.rest.items() if "rear" in n)
        grip = friction * share / made.rig.mass
        stops = 2.0**2 / (2 * min(1.5, grip))
        # It cruises before, and the brake comes on in a fifth of a second.
        assert gone[friction] == pytest.approx(0.4 * 2.0 + 0.1 * 2.0 + stops, rel=0.1)


def test_a_wheel_climbs_what_lies_in_its_way() -> None:
    """Over an obstacle h under one front wheel the axle turns by h over the track."""
    asked = lift(end="front", tool="pallet forks", height=0.5)
    log = Obstacle(thickness=0.12, ahead=0.8, side="left")
    made = Run(rig(asked, log=300.0, friction=0.8, obstacle=log), Move(speed=0.4, obstacle=log))
    made.at_rest()
    turned = []
    made.watch_from(np.full(4, 1e4), 1e3)
    for _ in range(800):
        mujoco.mj_step(made.model, made.data, 2)
    made.set_off()
    for _ in range(900):
        mujoco.mj_step(made.model, made.data, 2)
        chassis, axle = (
            made.data.body(name).xmat.reshape(3, 3)[:, 1] for name in ("chassis", "front axle")
        )
        turned.append(math.asin(axle[2]) - math.asin(chassis[2]))
    assert max(turned) == pytest.approx(0.12 / made.rig.front_track, rel=0.25)


def test_the_same_seed_is_the_same_case_and_comes_to_the_same() -> None:
    one, two, other = (drawn("slewing", 3, seed=seed) for seed in (11, 11, 12))
    assert one == two
    assert one != other
    outcomes = [
        run(rig(each.lift, log=each.by_motion, friction=each.slips), each.move)
        for each in (one, two)
    ]
    assert outcomes[0] == outcomes[1]


def test_a_standing_machine_with_its_brakes_on_stays_on_a_slope() -> None:
    """On 5° with a grip well above tan 5° it creeps by centimetres; free to roll it went metres."""
    asked = lift(end="front", tool="pallet forks", height=0.5, site=Site(slope=0.087, heading=0.3))
    made = rig(asked, log=300.0, friction=0.7)
    assert run(made, Move(lowering=0.2)).slid < 0.1
