"""What every ram would allow: the load at which it stalls or yields, for one pose or many.

No factor, rating or load factor is applied here.
"""

from __future__ import annotations

from functools import reduce
from itertools import product
from typing import NamedTuple

import numpy as np

from liftcalc.machines.arm import Arm, Joint
from liftcalc.machines.number import plain
from liftcalc.machines.schema import Hydraulics, Ram
from liftcalc.physics import formulas
from liftcalc.physics.functions import Real, cos, is_zero, minimum, sin
from liftcalc.physics.joints import moment_per_kilogram, stall, swung_moments, weight_moment
from liftcalc.physics.plane import Point
from liftcalc.physics.worked import Worked, work
from liftcalc.physics.wrench import Vector


class RamCapacity(NamedTuple):
    """A joint's ram as it stands, and the load at which it stalls or yields [N, N.m, kg].

    ``load_unit_moment`` is of one kilogram of load, swung the worse way; ``links_moment`` has what
    hangs leaning with it, and what pushes the load level, the worse way. ``worked`` says how force,
    moment arm and load were found.
    """

    joint: Joint
    pressure: Real
    links_moment: Real
    load_unit_moment: Real
    capacity: Real
    force: Worked
    stall: Worked

    @property
    def push(self) -> Real:
        """Greatest push of the rams [N]."""
        return self.force.steps.push

    @property
    def pull(self) -> Real:
        """Greatest pull of the rams [N]."""
        return self.force.steps.pull

    @property
    def worked(self) -> tuple[Worked, ...]:
        """How force, moment arm and load were found, in order."""
        return (self.force, *self.joint.worked, self.stall)


def pressure_of(ram: Ram, hydraulics: Hydraulics, *, gauge: float | None, lifts: bool) -> Real:
    """Pressure to count on in a ram [Pa].

    A ram that moves the load has the working pressure. One that only holds may count on its port
    relief where the file states it. A gauge reading replaces the book pressure, and caps both; a
    reading above the book is not credited.
    """
    holding = ram.holding_pressure if ram.holding_pressure is not None and not lifts else None
    pressure = plain(hydraulics.working_pressure if holding is None else holding)
    return pressure if gauge is None else minimum(pressure, plain(gauge))


def ram_force(
    joint: Joint, *, hydraulics: Hydraulics, gauge: float | None = None, worn: float = 1.0
) -> Worked:
    """Push and pull of a joint's ram at the pressure to count on [N].

    ``worn`` is the share of it that a ram which creeps is counted for [-].
    """
    ram = joint.ram
    return work(
        joint.name,
        formulas.ram_force,
        bore=plain(ram.bore),
        rod=plain(ram.rod),
        count=float(ram.count),
        efficiency=plain(hydraulics.efficiency) * worn,
        pressure=pressure_of(ram, hydraulics, gauge=gauge, lifts=joint.moves),
    )


def ram_capacity(
    joint: Joint,
    *,
    force: Worked,
    load_at: Point,
    gravity_u: Real,
    gravity_w: Real,
    swing: Real = 0.0,
    hung: Real = 0.0,
    pushed: Real = 0.0,
) -> RamCapacity:
    """Load at which a joint's ram stalls or yields, at the pose it stands in.

    Gravity is the part that lies in the plane of the end [m/s²]; a hanging load may swing [rad]
    either way in that plane, with the mass ``hung`` of an attachment that hangs [kg], and the
    worse counts, and so may a level force ``pushed`` on the load push [N]. ``force`` is that of
    ``ram_force``.
    """
    links = weight_moment(
        mass=joint.carried.mass,
        first=joint.carried.first,
        pivot=joint.pivot,
        gravity_u=gravity_u,
        gravity_w=gravity_w,
    )
    low, high = swung_moments(
        at=load_at, pivot=joint.pivot, gravity_u=gravity_u, gravity_w=gravity_w, swing=swing
    )
    ways = [low] if high is low else [low, high]
    still = low
    leans = not is_zero(hung)
    if leans:
        still = moment_per_kilogram(
            at=load_at, pivot=joint.pivot, gravity_u=gravity_u, gravity_w=gravity_w
        )
    found = []
    for per_kilogram, side in product(ways, (0.0,) if is_zero(pushed) else (-pushed, pushed)):
        # What hangs leans as the load does.
        carried = links + hung * (per_kilogram - still) if leans else links
        if not is_zero(side):
            carried = carried + side * (load_at.w - joint.pivot.w)
        load, worked = stall(
            push=force.steps.push,
            pull=force.steps.pull,
            moment_arm=joint.moment_arm,
            links_moment=carried,
            joint_unit_moment=per_kilogram,
        )
        found.append(
            RamCapacity(joint, force.given["pressure"], carried, per_kilogram, load, force, worked)
        )
    return reduce(_worse, found)


def _worse(one: RamCapacity, two: RamCapacity) -> RamCapacity:
    """That of two which allows less; of arrays only the capacity is that of the worse."""
    if np.ndim(one.capacity) == 0:
        return one if one.capacity <= two.capacity or np.isnan(one.capacity) else two
    return one._replace(capacity=minimum(one.capacity, two.capacity))


def plane_gravity(arm: Arm, *, gravity: Vector, slew: Real) -> tuple[Real, Real]:
    """Effective gravity in the plane of an end: outward and up [m/s²]."""
    if arm.end == "front":
        return gravity[0], gravity[2]
    return -gravity[0] * cos(slew) + gravity[1] * sin(slew), gravity[2]
