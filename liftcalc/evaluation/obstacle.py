"""A machine that carries over an obstacle: the reserve of the whole, its load up or down."""

from __future__ import annotations

from collections.abc import Iterator

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.linear_criteria import LinearCriterion
from liftcalc.factors import WHOLE_TIPPING
from liftcalc.machines.assembly import FixedPart
from liftcalc.machines.number import plain
from liftcalc.physics.functions import atan2, cos, sin
from liftcalc.site.motion import ROLLOVER_SHARE
from liftcalc.units import G0


def over_obstacle(lift: Lift, fixed: FixedPart) -> Iterator[LinearCriterion]:
    """The whole machine on the move: slope/0.7 and a wheel up must stay below its tipping angle.

    The rollover share is that of vehicle practice. Rolled about its length by the obstacle over the
    rear track; the oscillating front axle gives less. Quasi-static: at walking pace only.
    """
    if not lift.travelling or lift.loads_only:
        return
    slope, heading = lift.site.slope / ROLLOVER_SHARE, lift.site.heading
    roll = atan2(lift.stump, plain(lift.machine.wheels.rear_track))
    ways = tuple(((moment, 0.0),) for moment in fixed.moments)
    for side, turn in (("left", roll), ("right", -roll)):
        x, y, z = (-sin(slope) * cos(heading), -sin(slope) * sin(heading), -cos(slope))
        # The left wheels up, down is to the right.
        y, z = y * cos(turn) + z * sin(turn), z * cos(turn) - y * sin(turn)
        yield LinearCriterion(
            "over an obstacle",
            "a wheel over an obstacle",
            f"({side} wheel up)",
            ways,
            WHOLE_TIPPING,
            gravity=(G0 * x, G0 * y, G0 * z),
        )
