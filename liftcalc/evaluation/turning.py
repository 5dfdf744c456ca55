"""How far the back end may slew and shift."""

from __future__ import annotations

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.machines.joint_limits import JointLimit
from liftcalc.machines.number import plain
from liftcalc.physics.functions import Real, maximum


def back_limits(lift: Lift, *, slew: Real) -> tuple[JointLimit, ...]:
    """Limits of the back end's slew and sideshift."""
    back = lift.machine.back
    return (
        JointLimit(
            name="slew", needs=np.abs(slew), least=0.0, most=plain(back.slew_limit), unit="rad"
        ),
        JointLimit(
            name="sideshift",
            needs=abs(lift.sideshift),
            least=0.0,
            most=maximum(plain(back.sideshift_limit), 0.0),
        ),
    )
