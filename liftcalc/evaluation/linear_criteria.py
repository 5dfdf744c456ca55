"""Criteria that are linear in the forces: tipping lines, and what ground and wheels ask of a lift.

Each ``LinearCriterion`` holds while one of its functionals, with the whole machine and the load in
it, is not negative. The evaluator puts one pose into them or a million and does not know what they
mean, so a criterion of this kind is added here and nowhere else.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Literal, NamedTuple

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.factors import AXLE_SHARE, FULL_SHARE, LEAST_AXLE, TIPPING_SHARE, CapacityFactor
from liftcalc.machines.assembly import FixedPart
from liftcalc.machines.condition import BARE_FOOT
from liftcalc.machines.number import plain
from liftcalc.physics import formulas
from liftcalc.physics.functions import Real, hypot, is_zero, maximum, minimum, sin, sqrt, tan
from liftcalc.physics.tipping import Support, SupportKind
from liftcalc.physics.worked import Worked, work
from liftcalc.physics.wrench import Vector, WrenchFunctional
from liftcalc.site.ground import PROOF_FACTOR, Ground
from liftcalc.site.motion import resistance_share
from liftcalc.units import G0

LinearKind = Literal[
    "tipping",
    "ground under a pad",
    "ground under a corner",
    "ground under a tyre",
    "axle rating",
    "grip",
    "least axle load",
    "traction",
    "over an obstacle",
]

DOWN = WrenchFunctional(force=(0.0, 0.0, -1.0))
"""What all supports carry together [N]."""

Term = tuple[WrenchFunctional, Real]
"""A functional and its constant: together they must not go below zero."""


class LinearCriterion(NamedTuple):
    """Something that must not go below zero.

    Each of ``ways`` has numbers linear in the forces, each with a constant; a way holds while any
    of its numbers does, and every way must. ``side_pull`` says that a load which leans takes its
    pull sideways from each as well. ``surely`` is a load that is there [kg]: where a load adds to a
    number, so much of it is counted.
    ``gravity`` [m/s²] is what it is asked under, where that is not the effective one of the lift.
    """

    kind: LinearKind
    name: str
    where: str
    ways: tuple[tuple[Term, ...], ...]
    factor: CapacityFactor = FULL_SHARE
    side_pull: bool = False
    surely: Real = 0.0
    gravity: Vector | None = None


def linear_criteria(
    lift: Lift, fixed: FixedPart, *, gravity: Vector
) -> tuple[LinearCriterion, ...]:
    """Every criterion of a lift that stands so, under this effective gravity [m/s²].

    The tipping lines come first.
    """
    made = [
        LinearCriterion(
            "tipping", "tipping", line.name, (((moment, 0.0),),), TIPPING_SHARE[lift.duty]
        )
        for line, moment in zip(fixed.lines, fixed.moments, strict=True)
    ]
    made += _ground(lift, fixed, gravity)
    made += _held_in_front(lift, fixed, gravity)
    made += _ratings(lift, fixed)
    if lift.unsteady or not (is_zero(gravity[0]) and is_zero(gravity[1])):
        made.append(_hold(lift, fixed, gravity))
    if lift.travelling:
        made += _travel(lift, fixed, gravity)
    return tuple(made)


SINKS: dict[SupportKind, LinearKind] = {
    "pad": "ground under a pad",
    "corner": "ground under a corner",
    "rear tyre": "ground under a tyre",
    "front tyre": "ground under a tyre",
}
"""What sinks under each kind of support."""


class Foot(NamedTuple):
    """What a support bears on [m]; lengthwise is along the machine."""

    length: Real
    width: Real

    @property
    def area(self) -> Real:
        """Area [m²]."""
        return self.length * self.width


def foot_of(lift: Lift, support: Support) -> Foot | None:
    """What a support bears on; None where the file does not say it.

    A mat is no larger than the pads are apart: two would lie on one another.
    """
    legs, wheels = lift.machine.stabilisers, lift.machine.wheels
    if support.kind == "pad":
        if lift.condition.has("missing pad"):
            # It crushes a mat, or slides off it: none is counted.
            return Foot(
                minimum(plain(legs.pad_length), BARE_FOOT),
                minimum(plain(legs.pad_width), BARE_FOOT),
            )
        if lift.mat is None:
            return Foot(plain(legs.pad_length), plain(legs.pad_width))
        side = minimum(float(lift.mat), plain(legs.pad_spread))
        return Foot(side, side)
    if support.kind == "corner":
        tool = lift.other_tool
        if tool.contact_length is None:
            return None
        return Foot(plain(tool.contact_length), plain(tool.width) / 2)
    size = wheels.rear_footprint if support.kind == "rear tyre" else wheels.front_footprint
    return None if size is None else Foot(plain(size[0]), plain(size[1]))


def pad_area(lift: Lift) -> Real:
    """Area of a stabiliser's pad, or of the mat under it [m²]."""
    foot = foot_of(lift, Support("", 0.0, 0.0, 0.0, "pad"))
    assert foot is not None  # a machine has pads
    return foot.area


def carries(lift: Lift, support: Support, *, gravity: Vector) -> tuple[Real, tuple[Worked, ...]]:
    """Force that the ground is allowed to carry under a support [N], and how that was found.

    Infinite where nothing limits it. A pull of the load to a side is not in the level share.

    Parameters
    ----------
    lift : Lift
    support : Support
    gravity : three floats or arrays
        Effective gravity [m/s²].
    """
    if support.kind == lift.proof:
        assert lift.proved is not None  # something was proved
        proved = work(
            "proof by the machine",
            formulas.force_by_proof,
            proved_force=float(lift.proved),
            proof_factor=PROOF_FACTOR,
        )
        if lift.ground is None:
            return proved.result, (proved,)
        force, made = _named(lift, support, lift.ground, gravity)
        return maximum(proved.result, force), (*made, proved)
    return (math.inf, ()) if lift.ground is None else _named(lift, support, lift.ground, gravity)


def _named(
    lift: Lift, support: Support, ground: Ground, gravity: Vector
) -> tuple[Real, tuple[Worked, ...]]:
    """As ``carries``, of what is known of named ground."""
    foot, hopeful = foot_of(lift, support), "ground" in lift.hopeful
    if support.kind in ("front tyre", "rear tyre"):
        return _tyre_carries(lift, support, ground, foot)
    if foot is None:
        # Nobody knows how much of it bears: that counts as little as it may be.
        return (math.inf if hopeful else 0.0), ()
    sides = {"width": foot.width, "length": foot.length}
    share = level_share(gravity)
    gives_way = ground.bearing(**sides, share=share, hopeful=hopeful)
    allowed = ground.allowed(**sides, level_share=share, hopeful=hopeful)
    return allowed.steps.pad_pressure * foot.area, (*filter(None, (gives_way,)), allowed)


def level_share(gravity: Vector) -> Real:
    """What an effective gravity has along the ground over what it has on it [-]."""
    return hypot(gravity[0], gravity[1]) / abs(gravity[2])


def _tyre_carries(
    lift: Lift, support: Support, ground: Ground, foot: Foot | None
) -> tuple[Real, tuple[Worked, ...]]:
    """As ``carries``, of a tyre: what leaves a shallow rut."""
    wheels, hopeful = lift.machine.wheels, "ground" in lift.hopeful
    radius = wheels.rear_radius if support.kind == "rear tyre" else wheels.front_radius
    size = foot or Foot(plain(radius), plain(radius))
    rut = ground.tyre_load(
        width=size.width, length=size.length, diameter=2 * plain(radius), hopeful=hopeful
    )
    if rut is None:
        return math.inf, ()
    if foot is None:
        return (math.inf if hopeful else 0.0), ()
    return rut.steps.tyre_load, (rut,)


def _ground(lift: Lift, fixed: FixedPart, gravity: Vector) -> Iterator[LinearCriterion]:
    """Pads, a pressed bucket, and the tyres of a machine on its wheels.

    Front tyres of a machine on its stabilisers are left out: it stands on them already, and a load
    behind takes off them. So are the rear ones where the front ones are proved: a load ahead takes
    off those.
    """
    kinds = {each.kind for each in fixed.supports}
    for support, ways in zip(fixed.supports, fixed.bounds, strict=True):
        if support.kind == "axle pin":
            if lift.stance == "wheels":
                yield from _front_tyres(lift, fixed, support, gravity)
            continue
        if support.kind == "front tyre" and lift.stance != "wheels":
            continue
        if support.kind == "rear tyre" and lift.proof == "front tyre":
            continue
        most, _ = carries(lift, support, gravity=gravity)
        if np.all(np.isinf(most)):
            continue
        # Of the bounds those of lines from support to support: the line through the front tyres
        # of an axle that oscillates never bounds a pad more closely.
        ring = [[bound for bound in way if bound.line.start.kind in kinds] for way in ways]
        if not lift.unsteady and gravity[0].__class__ is float:
            # Nose uphill the force along the machine presses on the support that holds it, else
            # it takes off: the way that is never the worse is left out.
            ring = ring[-1:] if gravity[0] < 0 else ring[:1]
        terms = tuple(tuple((bound.relief, most) for bound in way) for way in ring)
        yield LinearCriterion(SINKS[support.kind], "ground", f"under the {support.name}", terms)


def _front_tyres(
    lift: Lift, fixed: FixedPart, pin: Support, gravity: Vector
) -> Iterator[LinearCriterion]:
    """The harder pressed tyre of an axle that oscillates: half of what its pin carries, and more.

    The ground's push to the side reaches the machine at the pin's height and turns the axle onto
    one tyre. It is that of the weights about the rear axle, and more where one rear wheel holds all
    the force along the machine.
    """
    most, _ = carries(lift, pin._replace(kind="front tyre"), gravity=gravity)
    if fixed.front_axle is None or np.all(np.isinf(most)):
        return
    wheels = lift.machine.wheels
    turned = pin.z / (pin.x * plain(wheels.front_track))
    along, pressed = (
        turned * plain(wheels.rear_track),
        WrenchFunctional().plus(fixed.front_axle, -0.5),
    )
    terms = tuple(
        (
            pressed.plus(
                WrenchFunctional(force=(fore * along, 0.0, 0.0), moment=(0.0, 0.0, side * turned))
            ),
            most,
        )
        for fore in (-1.0, 1.0)
        for side in (-1.0, 1.0)
    )
    still = not lift.unsteady and is_zero(gravity[0]) and is_zero(gravity[1])
    ways = tuple((term,) for term in (((pressed, most),) if still else terms))
    yield LinearCriterion("ground under a tyre", "ground", "under the front tyres", ways)


def _held_in_front(lift: Lift, fixed: FixedPart, gravity: Vector) -> Iterator[LinearCriterion]:
    """Tipping to a side while braked or driven front wheels hold the machine along the slope.

    The tipping lines over the pin of an oscillating axle are those of front wheels that roll
    freely. Wheels that hold take the force along the machine at the ground, ahead of the near
    rear support: nose downhill that turns it toward the side. All of it is taken to sit there,
    which overstates it.
    """
    wheels = lift.machine.wheels
    if "all" not in {wheels.braked, wheels.driven}:
        return
    for line, moment in zip(fixed.lines, fixed.moments, strict=True):
        low, high = line.start, line.end
        if high.kind != "axle pin":
            low, high = high, low
        if high.kind != "axle pin" or (not lift.unsteady and np.all(np.asarray(gravity[0]) <= 0)):
            continue
        run = sqrt((high.x - low.x) ** 2 + (high.y - low.y) ** 2 + (high.z - low.z) ** 2)
        # Nose uphill the same force would hold the machine: it is not credited.
        counts = lift.unsteady | (np.asarray(gravity[0]) > 0)
        along = np.where(counts, -high.z * abs(low.y) / run, 0.0)[()]
        held = moment.plus(WrenchFunctional(force=(along, 0.0, 0.0)))
        where, factor = f"{line.name}, front wheels holding", TIPPING_SHARE[lift.duty]
        yield LinearCriterion("tipping", "tipping", where, (((held, 0.0),),), factor)


def _ratings(lift: Lift, fixed: FixedPart) -> Iterator[LinearCriterion]:
    """Axles and tyres; stabilisers take the rear axle off the ground, the front one goes on."""
    wheels = lift.machine.wheels
    for which, rating, carried in (
        ("front", wheels.front_axle_rating, fixed.front_axle),
        ("rear", wheels.rear_axle_rating, fixed.back_supports),
    ):
        if rating is None or carried is None or (which == "rear" and lift.stance != "wheels"):
            continue
        kept = lift.tyre_share * G0 * plain(rating)
        term = (WrenchFunctional().plus(carried, -1.0), kept)
        yield LinearCriterion("axle rating", "axle rating", f"({which} axle and tyres)", ((term,),))


def _held(lift: Lift, fixed: FixedPart) -> WrenchFunctional:
    """What presses on the wheels or pads that keep the machine from sliding [N]."""
    on_all = lift.stance == "wheels" and lift.machine.wheels.braked == "all"
    return DOWN if on_all or fixed.back_supports is None else fixed.back_supports


def _hold(lift: Lift, fixed: FixedPart, gravity: Vector) -> LinearCriterion:
    """Grip of the braked wheels or pads against the slope, turning and the load's pull.

    Not against braking: a machine that brakes beyond its grip stops later.
    """
    # Of every weight, what pulls it along the ground for what presses it down.
    along = hypot(gravity[0] + lift.braked, gravity[1])
    pulls = WrenchFunctional(force=(0.0, 0.0, -along / gravity[2]))
    term = (pulls.plus(_held(lift, fixed), lift.friction), 0.0)
    where = "(braked wheels)" if lift.stance == "wheels" else "(pads)"
    return LinearCriterion("grip", "grip on the ground", where, ((term,),), side_pull=True)


def sideways(*, gravity: Vector, lean: Real) -> Real:
    """How much harder a kilogram of a load pulls sideways that leans than one that hangs [N/kg].

    At most, where the pull of one that hangs is counted by what presses it down: with t the tilt of
    gravity and x that of the leaning weight, sin x − tan t·cos x is at most sin(lean)/cos t.
    """
    return size_of(gravity) ** 2 * sin(lean) / -gravity[2]


def size_of(gravity: Vector) -> Real:
    """Size of an effective gravity [m/s²]."""
    return sqrt(gravity[0] ** 2 + gravity[1] ** 2 + gravity[2] ** 2)


def _travel(lift: Lift, fixed: FixedPart, gravity: Vector) -> Iterator[LinearCriterion]:
    front, rear = fixed.front_axle, fixed.back_supports
    assert front is not None  # what travels stands on its wheels
    assert rear is not None
    # What is carried ahead presses the steered axle down: an empty machine may be light there.
    for which, carried, surely in (("steered", front, lift.surely), ("braked", rear, 0.0)):
        yield LinearCriterion(
            "least axle load",
            "least axle load",
            f"({which} axle)",
            (((carried.plus(DOWN, -AXLE_SHARE), 0.0),),),
            LEAST_AXLE,
            surely=surely,
        )
    size = size_of(gravity)
    weight = WrenchFunctional(force=(gravity[0] / size, gravity[1] / size, gravity[2] / size))
    driven = DOWN if lift.machine.wheels.driven == "all" else rear
    share = resistance_share(sinkage=lift.motion.sinkage or 0.0, grade=tan(lift.site.slope))
    pull = WrenchFunctional().plus(driven, lift.friction).plus(weight, -share)
    yield LinearCriterion(
        "traction", "traction", "(driven wheels)", (((pull, 0.0),),), side_pull=True
    )
