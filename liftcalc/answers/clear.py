"""What must be kept clear of a lift: wires, edges and people, as all or nothing."""

from __future__ import annotations

import numpy as np

from liftcalc.answers.below import Below
from liftcalc.answers.lift import Lift
from liftcalc.physics.plane import Real
from liftcalc.site.hazards import Clearance, circle, edge, wires


def clearances(
    lift: Lift, log: Below, *, reach: Real, lean: Real, lowest: Real
) -> tuple[Clearance, ...]:
    """Every distance that was said, against what the lift needs.

    Parameters
    ----------
    lift, log
        The request, and where its log reaches.
    reach, lean, lowest : float or array
        Of the lift point [m], of the load [rad], and height of the log's lowest point [m].
    """
    out = {"far_end": log.far_end, "drop": log.middle, "lean": lean}
    found = (
        wires(lift.hazards, reach=reach, **out),
        edge(lift.hazards),
        circle(lift.hazards, lowest=lowest, **out),
    )
    return tuple(each for each in found if each is not None)


def allowed_by(clearance: Clearance) -> Real:
    """All where the distance is kept, nothing where it is not [kg]."""
    return np.where(clearance.met, np.inf, 0.0)[()]
