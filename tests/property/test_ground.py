"""Ground, slope, journey, rigging and hazards: worse is never better, and forces add up."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import linprog

from liftcalc.errors import InputError
from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check
from liftcalc.evaluation.ground_forces import GroundForces
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.sweep import sweep
from liftcalc.machines.files import load
from liftcalc.machines.schema import Machine
from liftcalc.rigging.gear import Gear
from liftcalc.rigging.grip import FRICTION, SURFACES
from liftcalc.rigging.lift_mode import WAYS, LiftMode
from liftcalc.site.ground import Ground, Range, ground
from liftcalc.site.hazards import Hazards
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from liftcalc.units import G0
from tests.circumstances import beset
from tests.helpers import centred, lift, like, tried
from tests.property.test_safety import no_better, some_lift, worse
from tests.property.test_symmetry import mirrored

seeds = st.integers(0, 10**6)
shares = st.floats(0.02, 0.9)
Change = Callable[[Lift, np.random.Generator], tuple[Lift, Lift]]
"""A lift before and after something got worse."""

SOFTER = (
    ("rock", "hard standing", "unknown"),
    ("stiff clay", "firm clay", "soft clay", "peat", "unknown"),
    ("dry dense gravel", "dense gravel", "dense sand", "medium sand or gravel",
     "loose sand or gravel", "fill", "unknown"),
    ("dry medium sand or gravel", "dry loose sand or gravel", "loose sand or gravel", "mud"),
)  # fmt: skip
"""Grounds of one kind, the firmest first."""


def _moving(base: Lift, **told: Any) -> Lift:
    """With this of its motion said otherwise; travelling with the load where it is at the front."""
    return replace(base, travelling=base.end == "front", motion=replace(base.motion, **told))


def _slewing(base: Lift, speed: float, stop: float) -> Lift:
    return _moving(base, slew_speed=speed, slew_stop=stop)


def _wheeled(base: Lift, **told: Any) -> Lift:
    machine = base.machine
    wheels = machine.wheels.model_copy(update=told)
    return replace(base, machine=machine.model_copy(update={"wheels": wheels}))


def _rated(base: Lift, name: str, share: float) -> Lift:
    total = base.machine.weights.total
    return _wheeled(base, **{name: like(total, share * float(total))})


def _near(base: Lift, **told: Any) -> Lift:
    return replace(base, hazards=replace(Hazards(rules="uk", wires_distance=math.inf), **told))


def _pressed(base: Lift, force: float) -> Lift:
    point = base.point.model_copy(update={"jaw_force": like(base.machine.weights.total, force)})
    return replace(base, point=point)


def _drawn(base: Lift, rng: np.random.Generator, **told: Any) -> Lift:
    return replace(base, taken=LiftMode(way=WAYS[1 + rng.integers(3)], **told))


def _between(low: float, high: float, make: Callable[[Lift, float], Lift]) -> Change:
    """More of a number is worse."""

    def change(base: Lift, rng: np.random.Generator) -> tuple[Lift, Lift]:
        less, more = sorted(rng.uniform(low, high, 2))
        return make(base, float(less)), make(base, float(more))

    return change


def _below(low: float, high: float, make: Callable[[Lift, float], Lift]) -> Change:
    """Less of a number is worse."""
    up = _between(low, high, make)
    return lambda base, rng: up(base, rng)[::-1]


def _softer(base: Lift, rng: np.random.Generator) -> tuple[Lift, Lift]:
    kind = SOFTER[rng.integers(len(SOFTER))]
    firm, soft = sorted(rng.integers(len(kind), size=2))
    return replace(base, ground=ground(kind[firm])), replace(base, ground=ground(kind[soft]))


def _slipperier(base: Lift, rng: np.random.Generator) -> tuple[Lift, Lift]:
    base = _pressed(base, rng.uniform(5e3, 1e5))
    rough, smooth = sorted(
        (SURFACES[i] for i in rng.integers(len(SURFACES), size=2)), key=lambda s: -FRICTION[s]
    )
    return replace(base, surface=rough), replace(base, surface=smooth)


def _legs(base: Lift, spread: float) -> Lift:
    """Legs alike to either side of the balance, or wider ones would share a miss more evenly.

    Wider legs hang the log higher, too, so that people may stand nearer: that is left out.
    """
    at = base.log.cog_from_butt
    sling = replace(base.sling, way="two legs", at=at, spread=spread)
    return replace(base, sling=sling, gear=CHAIN, hazards=Hazards())


CHAIN = Gear(kind="chain grade 80", size=0.004, hook_wll=3000.0)


def _missed(base: Lift, miss: float) -> Lift:
    at = base.log.cog_from_butt + miss
    return replace(base, sling=replace(base.sling, way="two legs", spread=1.2, at=at), gear=CHAIN)


WORSE: dict[str, Change] = {
    "softer ground": _softer,
    "a smaller mat": _below(
        0.2, 2.0, lambda b, v: replace(b, mat=v, ground=b.ground or ground("firm clay"))
    ),
    "more braking": _between(0.0, 4.0, lambda b, v: _moving(b, braking=v)),
    "faster": _between(0.0, 4.0, lambda b, v: _moving(b, speed=v, turn_radius=7.0)),
    "a tighter turn": _below(2.0, 30.0, lambda b, v: _moving(b, speed=1.5, turn_radius=v)),
    "more sinkage": _between(0.0, 0.3, lambda b, v: _moving(b, sinkage=v)),
    "less friction": _below(0.05, 1.2, lambda b, v: _moving(b, friction=v)),
    "faster slewing": _between(0.0, 0.8, lambda b, v: _slewing(b, v, 1.5)),
    "a shorter stop": _below(0.3, 5.0, lambda b, v: _slewing(b, 0.3, v)),
    "a thinner chain": _below(
        0.004, 0.03, lambda b, v: replace(b, gear=Gear(kind="chain grade 80", size=v))
    ),
    "a lower tag": _below(100, 6000, lambda b, v: replace(b, gear=replace(CHAIN, wll=v))),
    "a lower hook": _below(100, 6000, lambda b, v: replace(b, gear=Gear(hook_wll=v))),
    "a lower shackle": _below(100, 6000, lambda b, v: replace(b, gear=Gear(shackle_wll=v))),
    "a lower hitch": _below(100, 6000, lambda b, v: replace(b, gear=Gear(hitch_wll=v))),
    "wider legs": _between(0.1, 2.5, _legs),
    "a longer miss": _between(0.0, 0.59, _missed),
    "nearer wires": _below(0, 40, lambda b, v: _near(b, wires_distance=v)),
    "a nearer edge": _below(0, 5, lambda b, v: _near(b, edge_distance=v, edge_depth=2.0)),
    "a deeper edge": _between(0, 5, lambda b, v: _near(b, edge_distance=2.0, edge_depth=v)),
    "nearer people": _below(0, 20, lambda b, v: _near(b, people_distance=v)),
    "a slipperier log": _slipperier,
    "a weaker jaw": _below(1e3, 1e5, _pressed),
    "a lower front axle rating": _below(0.2, 1.5, lambda b, v: _rated(b, "front_axle_rating", v)),
    "a lower rear axle rating": _below(0.2, 1.5, lambda b, v: _rated(b, "rear_axle_rating", v)),
}
TAKEN: dict[str, Callable[[float], dict[str, float]]] = {
    "more breakout": lambda v: {"breakout": 1.0 + 2.0 * v},
    "more drag friction": lambda v: {"drag_friction": 0.3 + v},
}


@pytest.mark.parametrize("what", WORSE)
@given(seed=seeds)
def test_worse_is_never_better(what: str, seed: int) -> None:
    rng = np.random.default_rng(seed)
    before, after = WORSE[what](beset(some_lift(seed), rng), rng)
    no_better(*worse(before, lambda: after))


@pytest.mark.parametrize("what", WORSE)
def test_and_somewhere_it_is_worse(what: str) -> None:
    """Or nothing above would depend on it."""
    for seed in range(500):
        rng = np.random.default_rng(seed)
        both = WORSE[what](beset(some_lift(seed), rng), rng)
        before, after = (tried(lambda each=each: check(each)) for each in both)
        if before and after and 0 < after.allowed < before.allowed * (1 - 1e-9):
            return
        # A distance allows all or nothing.
        if before and after and before.passes and not after.passes:
            return
    raise AssertionError(f"{what} changed nothing")


@pytest.mark.parametrize("what", TAKEN)
@given(seed=seeds, less=st.floats(0, 1), more=st.floats(0, 1))
def test_nor_when_a_log_is_drawn_or_raised_by_one_end(
    what: str, seed: int, less: float, more: float
) -> None:
    rng = np.random.default_rng(seed)
    base = beset(some_lift(seed, end="back", tool="lifting hook", point=""), rng)
    less, more = sorted((less, more))
    way = WAYS[1 + rng.integers(3)]
    before, after = (
        replace(base, taken=LiftMode(way=way, **TAKEN[what](each))) for each in (less, more)
    )
    no_better(*worse(before, lambda: after))


@pytest.mark.parametrize("what", ["braked", "driven"])
@given(seed=seeds)
def test_fewer_wheels_that_brake_or_drive_hold_no_better(what: str, seed: int) -> None:
    """The grip alone: front wheels that hold can tip the machine to a side, and count so."""
    base = beset(some_lift(seed, end="front", travelling=True), np.random.default_rng(seed))
    every, rear = (_wheeled(base, **{what: each}) for each in ("all", "rear"))
    before, after = worse(every, lambda: rear)

    def held(answer: Answer) -> float:
        said = "grip on" if what == "braked" else "traction"
        return min(
            (each.allowed for each in answer.criteria if each.name.startswith(said)),
            default=math.inf,
        )

    if len(base.ways) == 1:
        assert held(after) <= held(before) * (1 + 1e-12)


@given(seeds, st.floats(0.0, 0.2), st.floats(0.01, 0.2), st.floats(-3.1, 3.1), st.floats(0, 3.1))
def test_a_steeper_slope_has_a_heading_that_is_worse_for_tipping_and_grip(
    seed: int, slope: float, further: float, heading: float, chord: float
) -> None:
    """As for tipping alone, see ``test_safety``: what holds is a convex set of gravities.

    A weight leaning the worst way and the length of gravity's part along the ground are convex,
    so this is true of a load that swings and of grip as well. Of ground and ratings it is true
    but for the cosine by which a slope takes weight off the ground.
    """
    rng = np.random.default_rng(seed)
    base = replace(beset(some_lift(seed, travelling=False), rng), motion=Motion(friction=0.4))
    base = replace(base, taken=LiftMode())
    here = math.tan(slope) * np.array([math.cos(heading), math.sin(heading)])
    along = np.array([math.cos(chord), math.sin(chord)])
    steep, half = slope + further, float(here @ along)
    root = math.sqrt(half**2 - float(here @ here) + math.tan(steep) ** 2)
    ends = [here + (-half + sign * root) * along for sign in (1, -1)]

    def at(slope: float, heading: float) -> Answer:
        return check(replace(base, site=Site(slope=slope, heading=heading)))

    answers = tried(
        lambda: [at(slope, heading), *(at(steep, math.atan2(end[1], end[0])) for end in ends)]
    )
    assume(answers is not None)
    now, *worst = answers
    for said in ("tipping", "grip on"):
        here_least, there_least = (
            min(
                (c.capacity for each in some for c in each.criteria if c.name.startswith(said)),
                default=math.inf,
            )
            for some in ([now], worst)
        )
        assert there_least <= here_least * (1 + 1e-9)


@given(seeds)
def test_left_and_right_are_alike_with_everything_that_bears_on_a_lift(seed: int) -> None:
    rng = np.random.default_rng(seed)
    here = beset(some_lift(seed), rng)
    here = replace(here, machine=centred(here.machine))
    there = replace(
        here,
        slew=-here.slew,
        sideshift=-here.sideshift,
        site=replace(here.site, heading=-here.site.heading),
    )
    one = tried(lambda: check(here))
    assume(one is not None)
    two = check(there)
    assert two.allowed == pytest.approx(one.allowed, rel=1e-9)
    assert two.heaviest_log == pytest.approx(one.heaviest_log, rel=1e-9, abs=1e-9)
    assert two.utilisation == pytest.approx(one.utilisation, rel=1e-9)
    assert two.passes == one.passes
    if here.side_room or len(here.ways) > 1:
        return  # which side was worse may be either
    other = {each.title: each.allowed for each in two.criteria}
    for each in one.criteria:
        if each.name != "tipping":
            assert other[mirrored(each.title)] == pytest.approx(each.allowed, rel=1e-9, abs=1e-9)
    feet = {each.name: each for each in two.ground_forces.feet}
    for foot in one.ground_forces.feet:
        twin = feet[mirrored(foot.name)]
        assert twin.worst == pytest.approx(foot.worst, rel=1e-9, nan_ok=True)
        assert twin.force == pytest.approx(foot.force, rel=1e-6, abs=1e-3, nan_ok=True)


NAN = math.nan
NOT_NUMBERS: dict[str, Callable[[Lift], Lift]] = {
    "mat": lambda b: replace(b, mat=NAN),
    "ground": lambda b: replace(
        b, ground=Ground(name="mine", friction=Range(0.4, 0.8), pressure=Range(NAN, NAN))
    ),
    "shear strength": lambda b: replace(
        b, ground=Ground(name="mine", friction=Range(0.4, 0.8), shear=Range(NAN, NAN))
    ),
    **{
        f"motion {name}": lambda b, name=name: replace(b, motion=Motion(**{name: NAN}))
        for name in (
            "speed",
            "turn_radius",
            "braking",
            "slew_speed",
            "slew_stop",
            "sinkage",
            "friction",
        )
    },
    **{
        f"hazards {name}": lambda b, name=name: _near(b, **{"edge_depth": 1.0, name: NAN})
        for name in (
            "wires_distance",
            "wires_voltage",
            "edge_distance",
            "edge_depth",
            "people_distance",
        )
    },
    **{
        f"gear {name}": lambda b, name=name: replace(b, gear=replace(CHAIN, **{name: NAN}))
        for name in ("size", "wll", "hook_wll", "shackle_wll", "hitch_wll")
    },
    **{
        f"taken {name}": lambda b, name=name: replace(
            b, taken=LiftMode(way="one end", **{name: NAN})
        )
        for name in ("hook_at", "breakout", "drag_friction")
    },
    **{
        f"sling {name}": lambda b, name=name: replace(b, sling=replace(b.sling, **{name: NAN}))
        for name in ("length", "spread", "at", "mass")
    },
    "slope": lambda b: replace(b, site=Site(slope=NAN)),
    "heading": lambda b: replace(b, site=Site(slope=0.05, heading=NAN)),
    **{
        name: lambda b, name=name: replace(
            _wheeled(b, **{name: like(b.machine.weights.total, NAN)}), stance="wheels"
        )
        for name in ("front_axle_rating", "rear_axle_rating")
    },
    "jaw force": lambda b: _pressed(b, NAN),
}


@pytest.mark.parametrize("what", NOT_NUMBERS)
def test_what_is_not_a_number_never_passes(what: str) -> None:
    light = {"species": "european larch", "length": "2 m", "butt": "20 cm", "top": "18 cm"}
    good = lift(tool="lifting hook", log=light, ground=ground("stiff clay"), mat=1.0)
    assert check(good).passes
    try:
        odd = NOT_NUMBERS[what](good)
        answer = check(odd)
    except InputError:
        pass
    else:
        assert not answer.passes
    try:
        odd = NOT_NUMBERS[what](good)
        found = sweep(odd, reach=np.array([odd.reach]), height=np.array([odd.height]))
    except InputError:
        return
    assert not found.allowed[0, 0] >= odd.needed


def answers(seed: int) -> list[Answer]:
    """A random lift every way it goes; an example is left aside where the machine tips."""
    base = beset(some_lift(seed), np.random.default_rng(seed))
    found = tried(lambda: [check(way) for way in base.ways])
    assume(found is not None)
    stand = [each for each in found if each.ground_forces.stands]
    assume(stand)
    return stand


def kept(machine: Machine) -> Machine:
    """A machine whose fuel is not used up: it weighs the same in every state."""
    carried = tuple(each.model_copy(update={"used_up": False}) for each in machine.carried)
    return machine.model_copy(update={"carried": carried})


def sums(ground_forces: GroundForces) -> np.ndarray:
    """Three forces and three moments of all weights and reactions, added up [N, N.m]."""
    force, moment = np.array(ground_forces.weights.force), np.array(ground_forces.weights.moment)
    for each in ground_forces.reactions:
        push = np.array([each.forward, each.left, each.up])
        at = np.array([each.contact.x, each.contact.y, each.contact.z])
        force, moment = force + push, moment + np.cross(at, push)
    return np.array([*force, *moment], dtype=float)


@given(seeds)
def test_all_forces_add_up_to_nothing_in_every_answer(seed: int) -> None:
    for answer in answers(seed):
        ground_forces = answer.ground_forces
        size = float(np.linalg.norm(ground_forces.weights.force))
        assert np.abs(sums(ground_forces)).max() <= 1e-9 * size
        # Weights are those of the machine and of what hangs on it, wherever they are.
        whole = answer.reached.standing.whole
        mass = float(whole.mass) + ground_forces.load
        assert size == pytest.approx(mass * float(np.linalg.norm(answer.reached.gravity)), rel=1e-9)


@given(seeds)
def test_no_foot_settles_on_more_than_its_worst_and_the_worst_carry_all(seed: int) -> None:
    for answer in answers(seed):
        ground_forces = answer.ground_forces
        down = -float(ground_forces.weights.force[2])
        assert sum(foot.worst for foot in ground_forces.feet) >= down * (1 - 1e-9)
        assert sum(foot.force for foot in ground_forces.feet) == pytest.approx(down, rel=1e-9)
        for foot in ground_forces.feet:
            assert foot.force <= foot.worst + 1e-9 * down


@given(seeds)
def test_the_worst_foot_is_what_a_programme_finds(seed: int) -> None:
    """Forces up that push, hold all weight and both moments: the most that each can be.

    Of machines whose supports are all on the ground and whose tank stays as it is, with a load
    that hangs still in one place.
    """
    base = beset(some_lift(seed), np.random.default_rng(seed))
    base = replace(base, machine=kept(base.machine), swing=0.0, motion=Motion(), taken=LiftMode())
    found = tried(lambda: check(base))
    assume(found is not None and len(set(found.reached.loads)) == 1)
    ground_forces = found.ground_forces
    at = [each.contact for each in ground_forces.reactions]
    assume(ground_forces.stands and all(each.z == 0 for each in at))
    balance = np.array([[1.0, each.y, -each.x] for each in at]).T
    wanted = -np.array([ground_forces.weights.force[2], *ground_forces.weights.moment[:2]])
    for i, foot in enumerate(ground_forces.feet):
        most = linprog(-np.eye(len(at))[i], A_eq=balance, b_eq=wanted, bounds=(0, None))
        assert most.status == 0
        assert foot.worst == pytest.approx(-most.fun, rel=1e-7, abs=1e-3)


def test_reactions_by_hand() -> None:
    """Level, straight back on stabilisers: a beam on two supports, and two alike pads.

    By hand: moments about the pads give the axle, the rest is the pads'; what is off the centre
    line moves weight from pad to pad by its moment over their spread, as the pin cannot.
    """
    machine = kept(load("standard-sideshift"))
    answer = check(lift(machine, slew=0.0, sideshift=0.0, stance="stabilisers"))
    whole, needed = answer.reached.standing.whole, 1.10 * answer.lift.needed
    (x, y, _), pads = answer.reached.load, float(machine.stabilisers.x)
    base, spread = float(machine.wheels.wheelbase), float(machine.stabilisers.pad_spread)
    axle = G0 * (whole.mass * (whole.x - pads) + needed * (x - pads)) / (base - pads)
    both = G0 * (whole.mass + needed) - axle
    aside = G0 * (whole.mass * whole.y + needed * y) / spread
    feet = {each.name: each for each in answer.ground_forces.feet}
    assert feet["left stabiliser"].force == pytest.approx(both / 2 + aside, rel=1e-9)
    assert feet["right stabiliser"].force == pytest.approx(both / 2 - aside, rel=1e-9)
    fronts = feet["left front tyre"].force + feet["right front tyre"].force
    assert fronts == pytest.approx(axle, rel=1e-9)
    # Three supports: no stiffness of the ground changes that.
    assert feet["left stabiliser"].worst == pytest.approx(feet["left stabiliser"].force, rel=1e-9)
