"""What caps a load beside its ratings: warning devices, slew torque, lowering stopped short."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal, NamedTuple

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.factors import FULL_SHARE, WARNING_MASS, WARNING_MOMENT, CapacityFactor
from liftcalc.machines.arm import Arm, CarriedMass
from liftcalc.machines.number import plain
from liftcalc.physics.functions import Real, maximum, minimum
from liftcalc.physics.plane import Point
from liftcalc.physics.wrench import load_at_tipping
from liftcalc.remarks import Remark
from liftcalc.units import G0

if TYPE_CHECKING:
    from liftcalc.evaluation.posed_lift import PosedLift

CapKind = Literal["devices", "slew torque", "lowering"]

SLEW_TORQUE = (1.5, 3.0)
"""Torque of the slew for a kilogram of machine, careful and favourable [N.m/kg].

Taken where the machine file does not say it; from memory, no source.
"""

VALVE = 0.25
"""Time in which a valve that is let go stops a ram [s]; common practice, no source: 0.2 to 0.3."""

SPRINGS = 2.0
"""What a stop throws over its mean deceleration, since arm, tyres and log spring [-]; mechanics.

A force that is suddenly applied counts twice at most.
"""


class Cap(NamedTuple):
    """A load that must not be passed here [kg], float or array."""

    kind: CapKind
    name: str
    where: str
    capacity: Real
    share: CapacityFactor = FULL_SHARE

    @property
    def title(self) -> str:
        """Name and place in one phrase."""
        return f"{self.name} ({self.where})"


def devices(lift: Lift, reach: Real) -> Cap | None:
    """What may hang without an overload warning and a boom-lowering control."""
    if lift.point.hold != "hangs" or lift.devices == "fitted":
        return None
    by_moment = WARNING_MOMENT / (G0 * maximum(reach, 1e-6))
    why = CapacityFactor(value=1.0, source="en_474_4", why=Remark("without_devices"))
    return Cap(
        "devices", "without warning devices", "EN 474-4", minimum(by_moment, WARNING_MASS), why
    )


def slew_torque(at: PosedLift, arm: Arm) -> Cap | None:
    """What the slew can hold or turn against a slope, or against the pull of a skidded log."""
    lift = at.lift
    if lift.end != "back" or not (lift.site.leans or lift.pull.lean):
        return None
    known, (x, y, z) = lift.machine.back.slew_torque, at.gravity
    given = SLEW_TORQUE["machine" in lift.hopeful] * plain(lift.machine.weights.total)
    torque = given if known is None else plain(known)
    # Outward is (out_x, out_y); square to it, along the turn, (-out_y, out_x).
    turn = np.abs(x * -at.plane.out_y + y * at.plane.out_x)
    reach = maximum(at.reach(arm), 0.0)
    size = np.sqrt(x * x + y * y + z * z)
    asked = (turn + size * math.sin(lift.pull.lean)) * reach
    left = torque - turn * maximum(arm.joints[0].carried.first.u, 0.0)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        capacity = np.where(asked > 0, left / asked, np.where(left >= 0, np.inf, 0.0))[()]
    why = CapacityFactor(
        value=1.0,
        source="practice",
        why=Remark("slew_torque" if known is not None else "slew_torque_taken"),
    )
    return Cap("slew torque", "slew", "torque", maximum(capacity, 0.0), why)


def stop_share(speed: float) -> float:
    """What lowering so fast, stopped short, throws over the weight [-]: 2·v/(g·t)."""
    return SPRINGS * speed / (G0 * VALVE)


def speed_of_stop(share: float) -> float:
    """The lowering that throws so much over the weight when it is stopped short [m/s]."""
    return share * G0 * VALVE / SPRINGS


def _thrown(arm: Arm) -> CarriedMass:
    """The masses of the end, each for as much of it as it moves while the hook moves."""
    foot, total = arm.joints[0].pivot.u, CarriedMass(0.0, Point(0.0, 0.0))
    out = maximum(arm.lift_at.u - foot, 1e-6)
    for each in arm.lumps:
        at = each.at
        mass = each.mass * minimum(maximum((at.u - foot) / out, 0.0), 1.0)
        total = total.and_also(CarriedMass(mass, Point(mass * at.u, mass * at.w)))
    return total


def lowering(at: PosedLift, arm: Arm, lean: Real) -> Cap | None:
    """The load that still leaves every support down when lowering is stopped short.

    The arm turns about its foot as one, each of its masses as much slower than the hook as it is
    nearer to it. All of the tipping load may be used: the stop is over in a blink.
    """
    speed = at.lift.motion.lower_speed
    if not speed or at.lift.travelling:
        return None
    extra, thrown, found = stop_share(speed), _thrown(arm), []
    for rule in at.rules:
        if rule.criterion.kind != "tipping":
            continue
        (form,) = rule.forms
        ((holding, takes, _),) = at.held(rule, arm, lean)
        links = minimum(form.carried(thrown), 0.0)
        found.append(
            load_at_tipping(
                holding_moment=holding + extra * links, load_unit_moment=(1 + extra) * takes
            )
        )
    why = CapacityFactor(value=1.0, source="mechanics", why=Remark("stopped_short"))
    least = found[0]
    for each in found[1:]:
        least = minimum(least, each)
    return Cap("lowering", "lowering stopped short", "tipping", maximum(least, 0.0), why)
