"""What the ground and the wheels ask of a lift: criteria that are linear in the forces.

Each ``LinearCriterion`` holds while one of its forms, with the whole machine and the load in it, is
not negative. ``check`` puts one pose into them, ``sweep`` a million: neither knows what they
mean, so a criterion of this kind is added here and nowhere else. Tipping lines are not among
them: they have a share of their own and are told line by line.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import reduce

import numpy as np

from liftcalc.evaluation.capacity import Vector
from liftcalc.evaluation.lift import Lift
from liftcalc.factors import AXLE_SHARE, FULL_SHARE, LEAST_AXLE, TIPPING_SHARE, CapacityFactor
from liftcalc.machines.assembly import MachineState, PointMass
from liftcalc.physics.plane import Real
from liftcalc.physics.reactions import carried
from liftcalc.physics.tipping import Line
from liftcalc.physics.wrench import WrenchFunctional, about, load_at_failure
from liftcalc.site.motion import resistance_share
from liftcalc.units import G0

DOWN = WrenchFunctional(force=(0.0, 0.0, -1.0))
"""What all supports carry together [N]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LinearCriterion:
    """Something that must not go below zero.

    Each of ``ways`` has numbers linear in the forces, each with a constant; a way holds while any
    of its numbers does, and every way must. ``pulled`` says that a load which leans takes its
    pull sideways from each as well.
    """

    name: str
    where: str
    ways: tuple[tuple[tuple[WrenchFunctional, float], ...], ...]
    pulled: bool = False
    share: CapacityFactor = FULL_SHARE


def linear_criteria(
    lift: Lift, standing: MachineState, *, gravity: Vector
) -> tuple[LinearCriterion, ...]:
    """Every demand on a lift that stands so, under this effective gravity [m/s²]."""
    made = [*_ground(lift, standing, gravity)]
    made += _held_in_front(lift, standing, gravity)
    if lift.stance != "stabilisers and bucket":
        made += _ratings(lift, standing)
    if lift.swings or any(np.any(np.asarray(each) != 0) for each in gravity[:2]):
        made.append(_hold(lift, standing, gravity))
    if lift.travelling:
        made += _travel(lift, standing, gravity)
    return tuple(made)


def ring_of(standing: MachineState) -> tuple[Line, ...]:
    """The tipping lines that run from support to support."""
    ends = standing.supports
    return tuple(line for line in standing.lines if line.start in ends and line.end in ends)


def bearing_area(lift: Lift, name: str) -> float | None:
    """Area that a support, by name, bears on [m²]; None where the file does not say it."""
    machine = lift.machine
    if "stabiliser" in name:
        own = float(machine.stabilisers.pad_length * machine.stabilisers.pad_width)
        # Larger than the spread of the pads two mats would lie on one another.
        apart = float(machine.stabilisers.pad_spread)
        return own if lift.mat is None else min(lift.mat, apart) ** 2
    if "bucket" in name:
        tool = lift.other_tool
        if tool.contact_length is None:
            return None
        return float(tool.contact_length * tool.width / 2)
    size = machine.wheels.rear_footprint if "rear" in name else machine.wheels.front_footprint
    return None if size is None else float(size[0] * size[1])


def _ground(lift: Lift, standing: MachineState, gravity: Vector) -> Iterator[LinearCriterion]:
    """Pads and a pressed bucket; tyres sink, spread and are warned of, but not counted out."""
    pressure = lift.ground.at_most if lift.ground else None
    if pressure is None:
        return
    lines = ring_of(standing)
    for support in standing.supports:
        area = bearing_area(lift, support.name)
        if area is None or "tyre" in support.name or "axle" in support.name:
            continue
        most = pressure * area
        ways = carried(support, lines=lines)
        if not lift.swings and np.ndim(gravity[0]) == 0:
            # Nose uphill the force along the machine presses on the support that holds it, else
            # it takes off: the way that is never the worse is left out.
            ways = ways[-1:] if gravity[0] < 0 else ways[:1]
        yield LinearCriterion(
            name="ground",
            where=f"under the {support.name}",
            ways=tuple(
                tuple((WrenchFunctional().plus(each.force, -1.0), most) for each in way)
                for way in ways
            ),
        )


def _held_in_front(
    lift: Lift, standing: MachineState, gravity: Vector
) -> Iterator[LinearCriterion]:
    """Tipping to a side while braked or driven front wheels hold the machine along the slope.

    The tipping lines over the pin of an oscillating axle are those of front wheels that roll
    freely. Wheels that hold take the force along the machine at the ground, ahead of the near
    rear support: nose downhill that turns it toward the side. All of it is taken to sit there,
    which overstates it.
    """
    wheels = lift.machine.wheels
    if "all" not in {wheels.braked, wheels.driven}:
        return
    for line in standing.lines:
        low, high = sorted((line.start, line.end), key=lambda each: each.z)
        if not high.z or (not lift.swings and np.all(np.asarray(gravity[0]) <= 0)):
            continue
        run = math.dist((low.x, low.y, low.z), (high.x, high.y, high.z))
        # Nose uphill the same force would hold the machine: it is not credited.
        counts = lift.swings | (np.asarray(gravity[0]) > 0)
        along = np.where(counts, -high.z * abs(low.y) / run, 0.0)[()]
        yield LinearCriterion(
            name="tipping",
            where=f"{line.name}, front wheels holding",
            ways=(((about(line).plus(WrenchFunctional(force=(along, 0.0, 0.0))), 0.0),),),
            share=TIPPING_SHARE[lift.duty],
        )


def _over(form: WrenchFunctional, *, x: float) -> WrenchFunctional:
    """A moment about an axle's line as the force on the other axle, at x [N]."""
    return WrenchFunctional().plus(
        form, 1.0 / form.unit(x=x, y=0.0, z=0.0, gravity=(0.0, 0.0, -1.0))
    )


def axle(standing: MachineState, *, front: bool) -> WrenchFunctional:
    """What the front axle, or all that stands behind it, carries [N]."""
    rear = [each for each in standing.supports if each.x < 0.5 * _base(standing)]
    line = next(
        each
        for each in standing.lines
        if (each.start.x == each.end.x) and ((each.start.x < 0.5 * _base(standing)) == front)
    )
    return _over(about(line), x=_base(standing) if front else rear[0].x)


def _base(standing: MachineState) -> float:
    return max(each.x for each in standing.supports)


def _ratings(lift: Lift, standing: MachineState) -> Iterator[LinearCriterion]:
    wheels = lift.machine.wheels
    for which, rating in (("front", wheels.front_axle_rating), ("rear", wheels.rear_axle_rating)):
        # Stabilisers take the rear axle off the ground; the front one goes on carrying.
        if rating is not None and (which == "front" or lift.stance == "wheels"):
            form = WrenchFunctional().plus(axle(standing, front=which == "front"), -1.0)
            yield LinearCriterion(
                name="axle rating",
                where=f"({which} axle and tyres)",
                ways=(((form, G0 * float(rating)),),),
            )


def _held(lift: Lift, standing: MachineState) -> WrenchFunctional:
    """What presses on the wheels or pads that keep the machine from sliding [N]."""
    if lift.stance == "stabilisers and bucket":
        return DOWN
    if lift.stance == "wheels" and lift.machine.wheels.braked == "all":
        return DOWN
    return axle(standing, front=False)


def _hold(lift: Lift, standing: MachineState, gravity: Vector) -> LinearCriterion:
    """Grip of the braked wheels or pads against the slope, braking, turning and the load's pull."""
    along = np.hypot(gravity[0], gravity[1])
    with np.errstate(divide="ignore", invalid="ignore"):
        towards = tuple(np.where(along > 0, each / along, 0.0)[()] for each in gravity[:2])
    form = WrenchFunctional(force=(-towards[0], -towards[1], 0.0)).plus(
        _held(lift, standing), lift.friction
    )
    return LinearCriterion(
        name="grip on the ground",
        where="(braked wheels)" if lift.stance == "wheels" else "(pads)",
        ways=(((form, 0.0),),),
        pulled=True,
    )


def sideways(*, gravity: Vector, lean: Real) -> Real:
    """How hard a kilogram of a load that leans pulls sideways at most [N/kg]."""
    return np.sqrt(gravity[0] ** 2 + gravity[1] ** 2 + gravity[2] ** 2) * np.sin(lean)


def _travel(lift: Lift, standing: MachineState, gravity: Vector) -> Iterator[LinearCriterion]:
    front, rear = axle(standing, front=True), axle(standing, front=False)
    for which, form in (("steered", front), ("braked", rear)):
        yield LinearCriterion(
            name="least axle load",
            where=f"({which} axle)",
            share=LEAST_AXLE,
            ways=(((form.plus(DOWN, -AXLE_SHARE), 0.0),),),
        )
    size = np.sqrt(gravity[0] ** 2 + gravity[1] ** 2 + gravity[2] ** 2)
    weight = WrenchFunctional(force=(gravity[0] / size, gravity[1] / size, gravity[2] / size))
    driven = DOWN if lift.machine.wheels.driven == "all" else rear
    share = resistance_share(sinkage=lift.motion.sinkage or 0.0, grade=np.tan(lift.site.slope))
    yield LinearCriterion(
        name="traction",
        where="(driven wheels)",
        ways=(((WrenchFunctional().plus(driven, lift.friction).plus(weight, -share), 0.0),),),
        pulled=True,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A form on a posed machine: what it is without the load, what a kilogram of load adds."""

    holding: Real
    per_kilogram: Real


@dataclass(frozen=True, slots=True, kw_only=True)
class CriterionCapacity:
    """A demand on a posed machine, and the load at which it fails [kg].

    ``way`` is the one of the demand's ways that fails first.
    """

    demand: LinearCriterion
    way: tuple[Held, ...]
    capacity: Real


def criterion_capacity(
    demand: LinearCriterion,
    *,
    wholes: Sequence[PointMass],
    loads: Sequence[Vector],
    gravity: Vector,
    lean: Real,
    hung: float = 0.0,
) -> CriterionCapacity:
    """Load at which a demand fails.

    Parameters
    ----------
    demand : Demand
    wholes : sequence of Lump
        The machine as one mass, in every state it may be in; the worst of them counts for each
        form by itself, which understates.
    loads : sequence of vectors
        Where the load may lie [m]; likewise.
    gravity : vector
        Effective gravity [m/s²].
    lean : float or array
        Of the load [rad], the worst way.
    hung : float
        Mass of what leans with the load, already part of the machine [kg].

    Returns
    -------
    DemandCapacity
        For arrays, ``way`` is the last one tried.
    """
    aside = sideways(gravity=gravity, lean=lean) if demand.pulled else 0.0

    def held(form: WrenchFunctional, constant: float) -> Held:
        units = [form.unit(x=x, y=y, z=z, gravity=gravity, swing=lean) for x, y, z in loads]
        alone = least(
            whole.mass * form.unit(x=whole.x, y=whole.y, z=whole.z, gravity=gravity)
            for whole in wholes
        )
        if hung:
            still = [form.unit(x=x, y=y, z=z, gravity=gravity) for x, y, z in loads]
            alone = alone + hung * least(a - b for a, b in zip(units, still, strict=True))
        return Held(holding=alone + constant, per_kilogram=least(units) - aside)

    found: list[tuple[Real, tuple[Held, ...]]] = []
    for way in demand.ways:
        each = tuple(held(form, constant) for form, constant in way)
        fails = load_at_failure(
            holding=[one.holding for one in each], per_kilogram=[one.per_kilogram for one in each]
        )
        found.append((fails, each))
    first = least(fails for fails, _ in found)
    failing = next((each for fails, each in found if np.all(fails == first)), found[-1][1])
    return CriterionCapacity(demand=demand, way=failing, capacity=first)


def least(values: Iterable[Real]) -> Real:
    """The least of some numbers or arrays."""
    return reduce(np.minimum, values)
