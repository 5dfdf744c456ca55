"""Loads and heights over the ground, sampled on a lattice, and what they say of its cells.

The maps of ``limits`` and the grid that travels with a drawing are made of the same samples; they
differ in how fine the lattice is and in what they keep of it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.log_position import ground_clearance, log_position
from liftcalc.evaluation.posed_lift import pose_of
from liftcalc.evaluation.sweep import Sweep, sweep
from liftcalc.machines.arm import Arm
from liftcalc.machines.assembly import back_point, front_point
from liftcalc.maps import cell_bounds
from liftcalc.maps.axes import padded
from liftcalc.maps.cell_bounds import PAD, Floats, Indices, Masks
from liftcalc.maps.unreachable import Reason, reasons_of
from liftcalc.physics.functions import Real

GROUND = ("off the ground",)
"""What maps tell apart, as a state of their cells."""
DENSE = 0.001
"""Spacing at which a line of reaches is searched for places that cannot be taken, at most [m].

A plan map is one level cut. Where it only grazes such places a gap shorter than this may be
missed: there a ram is past its stop by less than a thousandth of a millimetre.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """What holds anywhere inside the cells of a lattice.

    Attributes
    ----------
    load : array
        Least allowed load [kg]; NaN where some of the cell cannot be reached.
    governs : array
        Index of the criterion that sets it; −1 where there is none.
    clear : array
        Whether the log is sure to be off the ground.
    """

    load: Floats
    governs: Indices
    clear: Masks


@dataclass(frozen=True, slots=True, kw_only=True)
class Samples:
    """What was found at the nodes of a lattice, and two more nodes beyond each of its sides.

    Attributes
    ----------
    criteria, kinds, reasons : tuple
        What ``governs`` and ``stopped`` count.
    load : array
        Allowed load [kg]; NaN where a place cannot be taken.
    governs, stopped : array of int
        Which criterion sets the load, and why a place cannot be taken; −1 for none.
    clearance : array
        Of the log's lowest point over the ground [m].
    """

    criteria: tuple[str, ...]
    kinds: tuple[str, ...]
    reasons: tuple[Reason, ...]
    load: Floats
    governs: Indices
    stopped: Indices
    clearance: Floats

    def floor(self) -> Floor:
        """What holds anywhere inside the cells of the lattice."""
        load = cell_bounds.floors(self.load)
        governs = cell_bounds.governing(self.load, self.governs)
        return Floor(
            load=load,
            governs=np.where(np.isnan(load), np.int16(-1), governs),
            # A clearance that is not known, NaN, counts as none.
            clear=cell_bounds.floors(self.clearance, least=-math.inf) >= 0,
        )

    def commonest(self, counts: tuple[int, ...], load: Floats) -> Indices:
        """Why blocks of so many cells cannot be reached; −1 where they have a load."""
        why = cell_bounds.commonest(self.stopped, counts, len(self.reasons))
        return np.where(np.isnan(load), why, np.int16(-1))


def front_samples(lift: Lift, heights: Floats) -> tuple[Samples, Sweep]:
    """At the front, over the nodes of a line of heights [m]; and the sweep, with its reaches."""
    found = sweep(lift, height=padded(heights), apart=GROUND)
    arm = pose_of(lift, None, found.height)
    stopped, reasons = reasons_of(arm, (found.stopped[:, 0],))
    samples = Samples(
        criteria=found.criteria,
        kinds=found.kinds,
        reasons=reasons,
        load=found.allowed[:, 0],
        governs=found.governs[:, 0],
        stopped=stopped,
        clearance=_clearance(lift, arm),
    )
    return samples, found


def side_samples(lift: Lift, reach: Floats, height: Floats) -> Samples:
    """Over nodes of reach by height [m], at the slew of the lift."""
    out, up = padded(reach), padded(height)
    first, second = (each.ravel() for each in np.meshgrid(out, up, indexing="ij"))
    found = sweep(lift, reach=first, height=second, slew=lift.slew, apart=GROUND)
    arm = pose_of(lift, first, second)
    stopped, reasons = reasons_of(arm, (found.stopped[:, 0],), skip=2)
    shape = out.size, up.size
    return Samples(
        criteria=found.criteria,
        kinds=found.kinds,
        reasons=reasons,
        load=found.allowed.reshape(shape),
        governs=found.governs.reshape(shape),
        stopped=stopped.reshape(shape),
        clearance=_clearance(lift, arm, slew=lift.slew).reshape(shape),
    )


def plan_samples(lift: Lift, reach: Floats, slew: Floats) -> Samples:
    """Over nodes of reach [m] by slew [rad], at the height of the lift."""
    line = padded(reach)
    heights = np.full(line.size, lift.height)
    found = sweep(lift, reach=line, height=heights, slew=slew, apart=GROUND)
    gone = gaps(lift, line)
    # Past its limits the slew has no samples: the load is carried on straight, which adds no dip.
    beyond = ((0, 0), (PAD, PAD))
    load = np.pad(found.allowed, beyond, mode="reflect", reflect_type="odd")
    load[gone] = np.nan
    arm = pose_of(lift, line, heights)
    stopped, reasons = reasons_of(arm, (found.stopped[:, slew.size // 2],), skip=2, gone=gone)
    return Samples(
        criteria=found.criteria,
        kinds=found.kinds,
        reasons=reasons,
        load=load,
        governs=np.pad(found.governs, beyond, mode="edge"),
        stopped=np.repeat(stopped[:, np.newaxis], load.shape[1], axis=1),
        clearance=_clearance(lift, arm, slew=padded(slew)[:, np.newaxis]).T,
    )


def _clearance(lift: Lift, arm: Arm, *, slew: Real = 0.0) -> Floats:
    """Of the log's lowest point over the ground [m], at the places of an arm, along the last axis.

    ``slew`` [rad] matters at the back only.
    """
    asked = (
        front_point(arm.lift_at)
        if lift.end == "front"
        else back_point(lift.machine, arm.lift_at, slew=slew, sideshift=lift.sideshift)
    )
    found = ground_clearance(lift, log_position(lift), asked=asked, load_at=arm.load_at)
    return np.broadcast_to(np.asarray(found, dtype=float), np.shape(arm.lift_at.u * slew))


def gaps(lift: Lift, line: Floats) -> Masks:
    """Nodes of a line of reaches beside which, on either side, something cannot be reached."""
    parts = math.ceil((line[1] - line[0]) / DENSE)
    dense = np.linspace(line[0], line[-1], (line.size - 1) * parts + 1)
    found = sweep(lift, reach=dense, height=np.full(dense.size, lift.height), slew=0.0)
    broken = np.isnan(found.allowed[:, 0])
    between = broken[:-1].reshape(-1, parts).any(axis=1) | broken[parts::parts]
    return np.asarray(np.append(between, broken[-1]) | np.append(broken[0], between))
