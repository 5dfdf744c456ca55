"""A log on a scale: a slip of a weighbridge, a load cell, or the machine's own gauge.

With the log an inch up, the pressure on the load side of the ram that raises the end is the moment
of links and log about its pin. Friction of pins and seals adds to it creeping up and takes from it
creeping down: the mean of both has none.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from liftcalc.errors import InputError
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.posed_lift import pose_of
from liftcalc.machines.number import plain
from liftcalc.physics import formulas
from liftcalc.physics.joints import moment_per_kilogram, weight_moment
from liftcalc.physics.worked import Worked, work
from liftcalc.timber.measure import Weighed

GAUGE_ERROR = 0.03
"""Of a pressure gauge, as a share of what it shows [-]; common practice, no source."""
TAPED = 0.05
"""How far the taped reach and height of the lift point may be out [m]; common practice."""
RETURN_PRESSURE = 5e5
"""Most that may push back on the ram's other side while it creeps [Pa]; common practice."""
SCALE_STEP = 20.0
"""By how much one reading of a weighbridge may be out [kg]; common practice, no source."""
CELL_ERROR = 0.02
"""Of a hanging load cell, as a share of what it shows [-]; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scaled:
    """What was weighed, and how it was found."""

    weighed: Weighed
    worked: tuple[Worked, ...] = ()


def by_slip(*, loaded: float, empty: float, error: float = SCALE_STEP) -> Scaled:
    """Mass from two weighings of the same vehicle, each right to ``error`` [kg]."""
    return Scaled(weighed=Weighed(mass=loaded - empty, tolerance=math.sqrt(2) * error))


def by_load_cell(*, reading: float, rigging: float, error: float = CELL_ERROR) -> Scaled:
    """Mass from a load cell above the rigging, right to a share ``error`` of its reading."""
    return Scaled(weighed=Weighed(mass=reading - rigging, tolerance=error * reading))


def by_gauge(
    lift: Lift, *, up: float, down: float, known: tuple[Weighed, float, float] | None = None
) -> Scaled:
    """Mass of a log from the gauge of the ram that raises the end.

    Parameters
    ----------
    lift : Lift
        The pose as taped, the log just clear of the ground; its log does not matter.
    up, down : float
        Pressure on the load side, creeping up and creeping down [Pa].
    known : tuple, optional
        A known weight lifted in the same pose, and its two pressures: it takes out what gauge and
        books have wrong alike.

    Returns
    -------
    Scaled
        The tolerance holds gauge, taped pose, oil pushed back and a quarter of the friction that
        the two readings differ by, as independent limits.

    Raises
    ------
    InputError
        Where the pressures are not those of a load, or the ram bears none in that pose.
    """
    if not up >= down > 0:
        raise InputError.of(
            field="gauge-up and gauge-down",
            given=f"{up / 1e5:.1f} and {down / 1e5:.1f} bar",
            wanted="a reading creeping up, and one creeping down that is not above it",
        )
    mean = (up + down) / 2
    mass, worked = _mass(lift, mean)
    if not mass > 0:
        raise InputError.of(
            field="gauge-up and gauge-down",
            given=f"a mean of {mean / 1e5:.1f} bar",
            wanted="more than the links alone ask for in that pose",
            fix="read the gauge on the load side of the ram, the log clear of the ground",
        )
    per_pressure = (_mass(lift, mean * 1.001)[0] - mass) / (0.001 * mean)
    friction = per_pressure * (up - down) / 4
    pose = max(abs(_mass(each, mean)[0] - mass) for each in _as_taped(lift))
    book = per_pressure * math.hypot(GAUGE_ERROR * mean, RETURN_PRESSURE)
    if known is None:
        within = math.hypot(book, pose, friction)
        return Scaled(weighed=Weighed(mass=mass, tolerance=within), worked=worked)
    scale, known_up, known_down = known
    shown, _ = _mass(lift, (known_up + known_down) / 2)
    if not shown > 0:
        raise InputError.of(
            field="known", given="pressures of no load", wanted="those of the known weight"
        )
    ratio = scale.mass / shown
    # What gauge, books and tape have wrong alike the known weight takes out; what differs stays.
    left = (book + pose) * abs(1 - shown / mass)
    within = ratio * math.hypot(left, friction) + scale.tolerance / scale.mass * ratio * mass
    return Scaled(weighed=Weighed(mass=ratio * mass, tolerance=within), worked=worked)


def _as_taped(lift: Lift) -> list[Lift]:
    """The place of the lift point as far out as the tape may be."""
    made = [replace(lift, height=lift.height + each) for each in (-TAPED, TAPED)]
    if lift.reach is not None:
        made += [replace(lift, reach=lift.reach + each) for each in (-TAPED, TAPED)]
    return made


def _mass(lift: Lift, pressure: float) -> tuple[float, tuple[Worked, ...]]:
    """What hangs on the lift point by a pressure on the load side, less the rigging [kg]."""
    arm = pose_of(lift, lift.reach, lift.height)
    arm.refuse()
    joint = next(each for each in arm.joints if each.moves)
    force = work(
        joint.name,
        formulas.ram_force,
        bore=plain(joint.ram.bore),
        rod=plain(joint.ram.rod),
        count=float(joint.ram.count),
        pressure=pressure,
        efficiency=1.0,
    )
    flat = {"gravity_u": 0.0, "gravity_w": lift.site.gravity[2]}
    links = weight_moment(
        mass=joint.carried.mass, first=joint.carried.first, pivot=joint.pivot, **flat
    )
    unit = moment_per_kilogram(at=arm.load_at, pivot=joint.pivot, **flat)
    stall = work(
        "mass by the gauge",
        formulas.joint_load,
        push=force.steps.push,
        pull=force.steps.pull,
        moment_arm=joint.moment_arm,
        links_moment=links,
        joint_unit_moment=unit,
    )
    lifted = (stall.steps.upward_moment + links) / -unit
    return lifted - lift.rigging, (force, *joint.worked, stall)
