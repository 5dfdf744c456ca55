"""What rams of posed ends can carry or press with, for machines whose figures are arrays."""

from __future__ import annotations

from functools import reduce
from typing import Any

import numpy as np

from liftcalc.machines.arm import Arm, Joint
from liftcalc.machines.number import plain
from liftcalc.machines.schema import Hydraulics, Machine
from liftcalc.physics import formulas
from liftcalc.physics.formulas.linkages import RamForce
from liftcalc.physics.functions import Real, minimum
from liftcalc.physics.joints import moment_per_kilogram, stall, weight_moment
from liftcalc.physics.plane import Point
from liftcalc.units import G0


def ram_force(ram: Any, *, pressure: Real, efficiency: Real) -> RamForce:
    """Push and pull of rams at a pressure [N]."""
    return formulas.ram_force(
        bore=plain(ram.bore),
        rod=plain(ram.rod),
        count=float(ram.count),
        efficiency=plain(efficiency),
        pressure=plain(pressure),
    )


def ram_load(joint: Joint, *, at: Point, hydraulics: Hydraulics, upward: bool = False) -> Real:
    """Load at a point that a joint's rams can carry on level ground [kg].

    ``upward`` is for a load that the ground presses up with.
    """
    force = ram_force(
        joint.ram, pressure=hydraulics.working_pressure, efficiency=hydraulics.efficiency
    )
    unit = moment_per_kilogram(at=at, pivot=joint.pivot, gravity_u=0.0, gravity_w=-G0)
    return stall(
        push=force.push,
        pull=force.pull,
        moment_arm=joint.moment_arm,
        links_moment=links_moment(joint),
        joint_unit_moment=-unit if upward else unit,
    )[0]


def links_moment(joint: Joint) -> Real:
    """Moment of the links' weight about a joint on level ground, positive turning up [N.m]."""
    return weight_moment(
        mass=joint.carried.mass,
        first=joint.carried.first,
        pivot=joint.pivot,
        gravity_u=0.0,
        gravity_w=-G0,
    )


def least_ram_load(arm: Arm, *, at: Point, machine: Machine, upward: bool = False) -> Real:
    """The least over all joints of what their rams can carry at a point [kg]."""
    loads = [
        ram_load(each, at=at, hydraulics=machine.hydraulics, upward=upward) for each in arm.joints
    ]
    return reduce(minimum, loads)


def pressure_to_hold(joint: Joint, *, at: Point, load: float, efficiency: Real) -> Real:
    """Pressure that holds a load at a point on level ground [Pa], pins and seals taking theirs.

    NaN where the joint would have to be held against its own weight the other way.
    """
    unit = moment_per_kilogram(at=at, pivot=joint.pivot, gravity_u=0.0, gravity_w=-G0)
    force = -(links_moment(joint) + load * unit) / joint.moment_arm
    of_a_pascal = ram_force(joint.ram, pressure=1.0, efficiency=efficiency)
    return np.abs(force) / np.where(force > 0, of_a_pascal.push, of_a_pascal.pull)
