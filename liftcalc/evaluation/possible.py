"""What makes a lift impossible, whatever the log weighs: a criterion, and not a remark below a yes.

Each is a ``Clearance`` that allows nothing where it is not kept, or a ``Cap`` in kilograms. They
may depend on the slew, unlike ratings and rams of a level machine.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from liftcalc.evaluation.caps import Cap, devices, lowering, slew_torque
from liftcalc.evaluation.condition import bars
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.log_position import (
    LogPosition,
    ground_rise,
    lowest,
    raised,
    room_to_machine,
)
from liftcalc.factors import WALKING
from liftcalc.machines.arm import Arm
from liftcalc.machines.number import plain
from liftcalc.machines.schema import EndName
from liftcalc.physics.functions import Real, maximum, minimum, sin
from liftcalc.remarks import Remark, near
from liftcalc.rigging.grip import FRICTION
from liftcalc.rigging.lift_mode import CHOKE_IN, hook_from_ground_end
from liftcalc.site.clearance import Clearance, ClearanceKind, Measured

if TYPE_CHECKING:
    from liftcalc.evaluation.posed_lift import PosedLift

SLACK = 0.01
"""How deep a log may be reckoned in the ground and still be clear of it [m]: no tape is nearer."""

PINCH = 0.75 * 2 * math.pi * 0.5
"""What a choke presses a log with all round, over the weight that hangs in it [-].

Over three quarters of a turn with half of its pull left; mechanics, the shares from memory.
"""

STEEPEST_CHOKE = math.radians(30)
"""Off the level past which a choked log slides out, however rough it is [rad]; from memory."""

SLING_IN = 0.2
"""Least distance of a choke from the end of the log [m], and a tenth of its length at most.

Common practice, no source: nearer it slips over the end.
"""

ACROSS = math.radians(3)
"""Slope across, past which a load on wheels is kept low [rad]; common practice, no source."""

CARRIED_LOW = 1.2
"""Greatest height of the top of a log carried low [m]; common practice, no source."""

ASIDE: dict[EndName, float] = {"back": 0.3, "front": 0.15}
"""Room that a hanging log keeps to the machine [m]; common practice, no source.

In front it hangs before the driver's eyes.
"""

LEG_TRAVEL = (0.25, 0.45)
"""Travel of stabilisers below the level of the wheels, careful and favourable [m].

Taken where the machine file does not say it; common practice, no source.
"""

WHEELS_OFF = 0.05
"""How far the legs lift the wheels off at least [m]; common practice, no source."""

Stop = Clearance | Cap
"""All or nothing, or a load."""


def allowed_by(stop: Stop) -> Real:
    """What it allows [kg]; of a clearance all where it is kept, nothing where it is not."""
    if isinstance(stop, Cap):
        return stop.capacity
    met = stop.met
    if np.ndim(met) == 0:
        return math.inf if met else 0.0
    return np.where(met, np.inf, 0.0)


def possible(at: PosedLift, arm: Arm, lean: Real) -> tuple[Stop, ...]:
    """Everything that may make the lift impossible at a pose.

    Parameters
    ----------
    at : PosedLift
        The lift, at its slew.
    arm : Arm
        The end that lifts, posed.
    lean : float or array
        How far the load may lean [rad].
    """
    lift, log = at.lift, at.log
    limit = devices(lift, at.reach(arm))
    if lift.loads_only:  # no log yet: only what caps any load
        told = (limit,) if limit is not None and lift.devices == "none" else ()
        return (*told, *bars(lift))
    found = [
        _off_the_ground(at, arm),
        _choke(lift, log, height=arm.lift_at.w),
        _sling_on_the_log(lift),
        _stabilisers_down(lift),
        _drawn(lift),
        _carried_low(lift, log, arm),
        *_slow_enough(lift),
        _level_enough(lift),
        _off_the_machine(at, arm, lean),
        *_levelling(lift),
        limit,
        slew_torque(at, arm),
        lowering(at, arm, lean),
        *bars(lift),
    ]
    return tuple(each for each in found if each is not None)


def _must(
    kind: ClearanceKind,
    name: str,
    where: str,
    *,
    needs: Real,
    has: Real,
    said: Remark,
    unit: Measured = "length",
) -> Clearance:
    """One that is kept or not."""
    return Clearance(
        name=name,
        where=where,
        needs=needs,
        has=has,
        source="practice",
        said=said,
        kind=kind,
        unit=unit,
        firm=True,
    )


def _off_the_ground(at: PosedLift, arm: Arm) -> Clearance:
    """The lift point so high that the whole log hangs clear, one end lower than the other."""
    lift, height = at.lift, arm.lift_at.w
    needs: Real = SLACK
    if lift.taken.way == "whole":
        level, tipped = lowest(lift, at.log, asked=height, load_at=arm.load_at)
        x, y, _ = at.plane.point(arm.lift_at)
        rise = ground_rise(lift, at.log, x=x, y=y)
        needs = maximum(height - minimum(level, tipped) + rise - SLACK, 0.0)
    return _must(
        "off the ground",
        *OFF_GROUND,
        needs=needs,
        has=height,
        said=Remark("must_be_clear", slack=near(SLACK, "length")),
    )


def _choke(lift: Lift, log: LogPosition, *, height: Real) -> Clearance | None:
    """How steep the log may hang, or one end of it be raised, in its choke."""
    if log.hang is None:
        return None
    if lift.taken.way == "whole":
        steep: Real = log.hang.angle
    elif lift.taken.way == "one end" and lift.sling.way != "basket":
        up, hook = raised(lift, log, height=height)
        steep = np.arcsin(minimum(up / hook, 1.0))
    else:
        return None
    return _must(
        "choke",
        "log kept by its choke",
        "off the level",
        needs=steep,
        has=min(math.atan(PINCH * FRICTION[lift.surface]), STEEPEST_CHOKE),
        said=Remark("slides_out"),
        unit="angle",
    )


def _sling_on_the_log(lift: Lift) -> Clearance | None:
    """How far from the end of the log a choke is."""
    if not lift.slung or lift.sling.way == "basket":
        return None
    length = lift.measure.length
    if lift.taken.way == "whole":
        at = lift.log.cog_from_butt if lift.sling.at is None else lift.sling.at
        has = min(at, length - at) - (lift.sling.spread / 2 if lift.sling.way == "two legs" else 0)
    else:
        has = length - hook_from_ground_end(lift.taken, log_length=length)
    return _must(
        "sling on the log",
        "sling away from the end of the log",
        f"{lift.sling.way}",
        needs=min(SLING_IN, length / 10),
        has=has,
        said=Remark("slips_off", usual=near(CHOKE_IN, "length")),
    )


def _stabilisers_down(lift: Lift) -> Clearance | None:
    if lift.end != "back" or lift.stance != "wheels":
        return None
    return _must(
        "stabilisers down",
        "stabilisers down",
        "to lift over the back",
        needs=1.0,
        has=0.0,
        said=Remark("back_on_wheels"),
        unit="yes",
    )


def _drawn(lift: Lift) -> Clearance | None:
    """An end on the ground is drawn when the machine drives, and has to be told so."""
    if not lift.travelling or lift.taken.way != "one end":
        return None
    return _must(
        "told as drawn",
        "told as drawn",
        "one end down, on the move",
        needs=1.0,
        has=0.0,
        said=Remark("is_drawn"),
        unit="yes",
    )


def _carried_low(lift: Lift, log: LogPosition, arm: Arm) -> Clearance | None:
    """A load on wheels is not raised across a slope, nor on the move: what lies low is carried."""
    if lift.end != "front" or lift.stance != "wheels":
        return None
    across: Real = np.abs(np.tan(lift.site.slope) * np.sin(lift.site.heading))
    level = CARRIED_HIGH if lift.travelling else np.inf
    low = lift.site.leans & (across > math.tan(ACROSS))
    return _must(
        "carried low",
        "load carried low",
        "top of the log",
        needs=arm.lift_at.w - log.top,
        has=np.where(low, CARRIED_LOW, level)[()],
        said=Remark("never_raised", slope=near(ACROSS, "slope")),
    )


CARRIED_HIGH = 1.8
"""Highest that the top of a log is carried on the move [m], to be seen over; practice."""
SLOWLY = 0.5
"""Fastest that a load is lowered [m/s]: stopped short it pulls 1.4 times its weight; practice."""
OFF_GROUND = ("log clear of the ground", "height of the lift point")
"""Name of the criterion that the log hangs clear, and what is measured."""
STEEP = math.radians(5)
"""Steepest ground on which the back end lifts without being levelled [rad]; common practice."""


def _slow_enough(lift: Lift) -> tuple[Clearance, ...]:
    """A walk on the way, slow on the way down: what is faster jolts more than is reckoned with."""
    motion = lift.motion
    pace = motion.speed if lift.travelling else 0.0
    speeds: tuple[tuple[ClearanceKind, str, float | None, float, Measured], ...] = (
        ("walking pace", "with the load", pace, WALKING, "speed"),
        ("lowered slowly", "lever eased", motion.lower_speed, SLOWLY, "slow speed"),
    )
    return tuple(
        _must(kind, kind, where, needs=is_, has=most, said=Remark("no_faster"), unit=unit)
        for kind, where, is_, most, unit in speeds
        if is_
    )


def _level_enough(lift: Lift) -> Clearance | None:
    """The back end is slewed all round: on a slope the machine is levelled first."""
    if lift.end != "back" or lift.site.levelled or lift.taken.way != "whole":
        return None
    return _must(
        "level enough",
        "machine level enough to slew",
        "ground under it",
        needs=lift.site.slope,
        has=STEEP,
        said=Remark("level_first"),
        unit="slope",
    )


def _off_the_machine(at: PosedLift, arm: Arm, lean: Real) -> Clearance | None:
    """A hanging log, kept across by who steers it, against legs, wheels and the boom's foot."""
    lift = at.lift
    if lift.taken.way != "whole":
        return None
    hangs = lift.point.hold == "hangs"
    _, across = room_to_machine(lift, reach=at.reach(arm), slew=at.slew)
    return _must(
        "off the machine",
        "log clear of the machine",
        "held across, swung toward it",
        needs=ASIDE[lift.end] if hangs else 0.0,
        has=across - sin(minimum(lean, math.pi / 2)) * at.log.middle,
        said=Remark("meets_machine"),
    )


def _levelling(lift: Lift) -> tuple[Clearance, ...]:
    """What the legs need to bring the machine level, and whether their pads then hold on."""
    site, legs, wheels = lift.site, lift.machine.stabilisers, lift.machine.wheels
    if not site.levelled or not np.any(site.slope):
        return ()
    steep = np.tan(site.slope)
    across = plain(legs.pad_spread) * np.abs(np.sin(site.heading))
    along = (plain(wheels.wheelbase) - plain(legs.x)) * np.abs(np.cos(site.heading))
    known = legs.travel
    has = LEG_TRAVEL["machine" in lift.hopeful] if known is None else plain(known)
    return (
        _must(
            "levelling travel",
            "travel of the stabilisers",
            "to stand level, wheels off",
            needs=steep * (across + along) + WHEELS_OFF,
            has=has,
            said=Remark("leg_travel" if known is not None else "leg_travel_taken"),
        ),
        _must(
            "grip of levelled pads",
            "grip of the pads on the slope",
            "level, on sloping ground",
            needs=steep,
            has=lift.friction,
            said=Remark("pads_slide"),
            unit="ratio",
        ),
    )
