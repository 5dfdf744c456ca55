"""What must be kept clear of a lift: wires and edges, as all or nothing."""

from __future__ import annotations

import math

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.log_position import LogPosition, raised
from liftcalc.machines.arm import Arm, spot
from liftcalc.machines.number import plain
from liftcalc.physics.functions import Real, maximum, minimum, sin
from liftcalc.physics.plane import distance
from liftcalc.remarks import Remark
from liftcalc.site.clearance import Clearance
from liftcalc.site.hazards import edge, wires

STEEPEST_RAISED = math.radians(45)
"""Steepest that a log may stand, raised by one end [rad].

Up to there the share of its weight on the hook covers its thickness; steeper the whole can come.
"""


def clearances(
    lift: Lift, log: LogPosition, *, arm: Arm, reach: Real, lean: Real
) -> tuple[Clearance, ...]:
    """Every distance that was said, against what the lift needs.

    Parameters
    ----------
    lift, log, arm
        The request, where its log reaches, and the end that lifts as it stands.
    reach, lean : float or array
        Of the lift point [m], of the load [rad].
    """
    far_end = maximum(maximum(log.far_end, _tool_end(lift)), _arm_beyond(arm))
    found = (
        wires(lift.hazards, reach=reach, drop=log.middle, lean=lean, far_end=far_end),
        edge(lift.hazards, depths=lift.stands_on.edge_depths.end("ground" in lift.hopeful)),
        _raised_end(lift, log, height=arm.lift_at.w),
    )
    return tuple(each for each in found if each is not None)


def swept(lift: Lift, *, slew: Real, reach: Real) -> Real:
    """How far the point below the hook may come from where it is, as the back end slews [m].

    The back end has to slew to move a log; how far is not said, so anywhere that it may.
    """
    if lift.end == "front":
        return 0.0
    turns = minimum(np.abs(slew) + plain(lift.machine.back.slew_limit), math.pi)
    return 2 * maximum(reach, 0.0) * sin(turns / 2)


def _arm_beyond(arm: Arm) -> Real:
    """How far the arm stands out beyond its lift point [m]: folded in, the boom does."""
    out = arm.joints[0].pivot.u
    for joint in arm.joints[1:]:
        out = maximum(out, joint.pivot.u)
    return maximum(out - arm.lift_at.u, 0.0)


def _tool_end(lift: Lift) -> Real:
    """Farthest that the attachment may stand out beyond its lift point, turned anyhow [m]."""
    at, far = spot(lift.point.at), 0.0
    for each in lift.tool.outline:
        far = maximum(far, distance(start=at, end=spot(each)))
    return far if lift.tool.outline else plain(lift.tool.width) / 2


def _raised_end(lift: Lift, log: LogPosition, *, height: Real) -> Clearance | None:
    """How high a log's end may be raised, against how high it is."""
    if lift.taken.way != "one end":
        return None
    up, hook = raised(lift, log, height=height)
    return Clearance(
        name="end raised",
        where="at most 45 degrees steep",
        needs=up,
        has=hook * math.sin(STEEPEST_RAISED),
        source="mechanics",
        said=Remark("too_steep"),
        kind="raised end",
    )
