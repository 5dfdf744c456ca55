"""What carries its own rating: the lift point, every part of the rigging, and a jaw's grip."""

from __future__ import annotations

import math

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.log_position import LogPosition
from liftcalc.factors import FULL_SHARE
from liftcalc.machines.number import plain
from liftcalc.rigging.grip import FRICTION, along_share, load_held
from liftcalc.rigging.ratings import Rating, ratings
from liftcalc.rigging.sling import balance_miss


def ratings_of(lift: Lift, log: LogPosition) -> tuple[Rating, ...]:
    """Every rating that is known of a lift; none of them depends on the pose."""
    point = Rating(
        kind="lift point",
        name="lift point",
        where=lift.point.name,
        capacity=plain(lift.point.wll),
        source=FULL_SHARE.source,
        why=FULL_SHARE.why,
    )
    found = [point]
    if lift.slung:
        found += ratings(
            lift.gear,
            sling=lift.sling,
            log_length=lift.measure.length,
            balance=lift.log.cog_from_butt,
            diameter=lift.log.largest_diameter,
            whole=lift.taken.way == "whole",
        )
    force = lift.point.jaw_force
    if force is not None and not _rests(lift):
        found.append(_grip(lift, log, jaw_force=plain(force)))
    return tuple(found)


def _rests(lift: Lift) -> bool:
    """Whether a gripped log lies in its jaw: the bucket below it is level or rolled back."""
    return lift.point.hold == "gripped" and lift.tool.mount == "pins" and lift.tilt >= 0


def _grip(lift: Lift, log: LogPosition, *, jaw_force: float) -> Rating:
    """A jaw with nothing below the log holds by friction alone.

    A grab's tines close under it, and it may run endways.
    """
    share = 1.0
    if lift.tool.mount == "hangs":
        miss = balance_miss(
            lift.sling, log_length=lift.measure.length, balance=lift.log.cog_from_butt
        )
        share = along_share(lean=math.atan2(miss, log.middle))
    held = load_held(jaw_force=jaw_force, friction=FRICTION[lift.surface], share=share)
    return Rating(
        kind="jaw",
        name="grip",
        where=f"{lift.point.name}, {lift.surface}",
        capacity=held.held,
        source="practice",
        worked=held.worked,
        why="half of what friction can hold, no tooth counted; the friction is from memory",
    )
