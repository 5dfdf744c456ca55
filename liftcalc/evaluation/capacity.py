"""What tipping and every ram would allow: capacities of a posed machine, for one pose or many.

No share, rating or load factor is applied here; ``check`` does that.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from liftcalc.machines.arm import Arm, Joint
from liftcalc.machines.assembly import PointMass
from liftcalc.machines.schema import Hydraulics, Ram
from liftcalc.physics import formulas
from liftcalc.physics.joints import load_at_stall, moment_per_kilogram, swung_moments, weight_moment
from liftcalc.physics.plane import Point, Real
from liftcalc.physics.tipping import Line, load_at_tipping, swinging_unit_moment, unit_moment

Vector = tuple[Real, Real, Real]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineCapacity:
    """A tipping line, the moment that holds the machine and the load that tips it [N.m, kg].

    ``load_unit_moment`` is of one kilogram of load, swung as far as the request says.
    """

    line: Line
    holding_moment: Real
    load_unit_moment: Real
    tipping_load: Real


@dataclass(frozen=True, slots=True, kw_only=True)
class RamCapacity:
    """A joint's ram as it stands, and the load at which it stalls or yields [N, N.m, kg]."""

    joint: Joint
    pressure: Real
    push: Real
    pull: Real
    links_moment: Real
    load_unit_moment: Real
    capacity: Real


def line_moment_of_load(line: Line, *, load: Vector, gravity: Vector, swing: Real = 0.0) -> Real:
    """Moment about a line of one kilogram of load, swung the worst way if it may swing [N.m/kg]."""
    x, y, z = load
    if np.any(np.asarray(swing) != 0):
        return swinging_unit_moment(line, x=x, y=y, z=z, gravity=gravity, swing=swing)
    return unit_moment(line, x=x, y=y, z=z, gravity=gravity)


def line_capacity(
    line: Line,
    *,
    whole: PointMass,
    load: Vector,
    gravity: Vector,
    swing: Real = 0.0,
    hung: float = 0.0,
) -> LineCapacity:
    """Tipping load of one line.

    Parameters
    ----------
    line : Line
    whole : Lump
        The machine without its load, as one mass at its centre of gravity [kg, m].
    load : three floats or arrays
        Where the load's weight acts [m].
    gravity : three floats or arrays
        Effective gravity [m/s²].
    swing : float or array
        Lean of a hanging load [rad], taken the worst way for the line.
    hung : float
        Mass of the attachment that swings with the load, already part of ``whole`` [kg].
    """
    holding = whole.mass * unit_moment(line, x=whole.x, y=whole.y, z=whole.z, gravity=gravity)
    per_kilogram = line_moment_of_load(line, load=load, gravity=gravity, swing=swing)
    if hung:
        holding += hung * (per_kilogram - line_moment_of_load(line, load=load, gravity=gravity))
    return LineCapacity(
        line=line,
        holding_moment=holding,
        load_unit_moment=per_kilogram,
        tipping_load=load_at_tipping(holding_moment=holding, load_unit_moment=per_kilogram),
    )


def pressure_of(ram: Ram, hydraulics: Hydraulics, *, gauge: float | None, lifts: bool) -> float:
    """Pressure to count on in a ram [Pa].

    A ram that moves the load has the working pressure. One that only holds may count on its port
    relief where the file states it. A gauge reading replaces the book pressure, and caps both; a
    reading above the book is not credited.
    """
    holding = ram.holding_pressure if ram.holding_pressure is not None and not lifts else None
    pressure = float(holding or hydraulics.working_pressure)
    # numpy's minimum, since a gauge reading that is not a number must not vanish.
    return pressure if gauge is None else float(np.minimum(pressure, gauge))


def ram_capacity(
    joint: Joint,
    *,
    load_at: Point,
    gravity_u: Real,
    gravity_w: Real,
    hydraulics: Hydraulics,
    gauge: float | None = None,
    swing: Real = 0.0,
    hung: float = 0.0,
) -> RamCapacity:
    """Load at which a joint's ram stalls or yields, at the pose it stands in.

    Gravity is the part that lies in the plane of the end [m/s²]; a hanging load may swing [rad]
    either way in that plane, with the mass ``hung`` of an attachment that hangs [kg], and the
    worse counts. The first joint (boom ram, lift
    rams) raises the load; the others hold it.
    """
    pressure = pressure_of(
        joint.ram, hydraulics, gauge=gauge, lifts=joint.name in {"boom ram", "lift rams"}
    )
    force = formulas.ram_force(
        bore=float(joint.ram.bore),
        rod=float(joint.ram.rod),
        count=joint.ram.count,
        pressure=pressure,
        efficiency=float(hydraulics.efficiency),
    )
    links = weight_moment(
        mass=joint.carried.mass,
        first=joint.carried.first,
        pivot=joint.pivot,
        gravity_u=gravity_u,
        gravity_w=gravity_w,
    )

    def carried(per_kilogram: Real) -> Real:
        """Moment of the links, with what hangs leaning as the load does."""
        if not hung:
            return links
        still = moment_per_kilogram(
            at=load_at, pivot=joint.pivot, gravity_u=gravity_u, gravity_w=gravity_w
        )
        return links + hung * (per_kilogram - still)

    def stalls(per_kilogram: Real) -> Real:
        return load_at_stall(
            push=force.push,
            pull=force.pull,
            moment_arm=joint.moment_arm,
            links_moment=carried(per_kilogram),
            joint_unit_moment=per_kilogram,
        )

    low, high = swung_moments(
        at=load_at, pivot=joint.pivot, gravity_u=gravity_u, gravity_w=gravity_w, swing=swing
    )
    per_kilogram, capacity = low, stalls(low)
    if high is not low:
        other = stalls(high)
        per_kilogram = np.asarray(np.where(capacity <= other, low, high))[()]
        capacity = np.minimum(capacity, other)
    return RamCapacity(
        joint=joint,
        pressure=pressure,
        push=force.push,
        pull=force.pull,
        links_moment=carried(per_kilogram),
        load_unit_moment=per_kilogram,
        capacity=capacity,
    )


def plane_gravity(arm: Arm, *, gravity: Vector, slew: Real) -> tuple[Real, Real]:
    """Effective gravity in the plane of an end: outward and up [m/s²]."""
    if arm.end == "front":
        return gravity[0], gravity[2]
    return -gravity[0] * np.cos(slew) + gravity[1] * np.sin(slew), gravity[2]
