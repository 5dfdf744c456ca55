"""What carries its own rating: the lift point, every part of the rigging, and a jaw's grip."""

from __future__ import annotations

import math
from dataclasses import dataclass

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.log_position import LogPosition
from liftcalc.factors import FULL_SHARE
from liftcalc.physics.worked import Worked
from liftcalc.rigging.grip import FRICTION, along_share, load_held
from liftcalc.rigging.ratings import ratings
from liftcalc.rigging.sling import balance_miss


@dataclass(frozen=True, slots=True, kw_only=True)
class Rated:
    """A load [kg] on the lift point that something is rated for, with source and why."""

    name: str
    where: str
    capacity: float
    source: str = FULL_SHARE.source
    why: str = FULL_SHARE.why
    worked: tuple[Worked, ...] = ()


def rated(lift: Lift, log: LogPosition) -> tuple[Rated, ...]:
    """Every rating that is known of a lift; none of them depends on the pose."""
    found = [Rated(name="lift point", where=f"({lift.point.name})", capacity=float(lift.point.wll))]
    if lift.slung:
        found += [
            Rated(
                name=each.name,
                where=f"({each.where})",
                capacity=each.capacity,
                source=each.source,
                why=each.why,
                worked=each.worked,
            )
            for each in ratings(
                lift.gear,
                sling=lift.sling,
                log_length=lift.measure.length,
                balance=lift.log.cog_from_butt,
                diameter=lift.log.largest_diameter,
                whole=lift.taken.way == "whole",
            )
        ]
    if lift.point.jaw_force is not None:
        found.append(_grip(lift, log))
    return tuple(found)


def _grip(lift: Lift, log: LogPosition) -> Rated:
    """A jaw holds by friction alone; a grab's tines close under the log, which may run endways."""
    share = 1.0
    if lift.tool.mount == "hangs":
        miss = balance_miss(
            lift.sling, log_length=lift.measure.length, balance=lift.log.cog_from_butt
        )
        share = along_share(lean=math.atan2(miss, log.middle))
    held = load_held(
        jaw_force=float(lift.point.jaw_force or 0.0), friction=FRICTION[lift.surface], share=share
    )
    return Rated(
        name="grip",
        where=f"({lift.point.name}, {lift.surface})",
        capacity=held.held,
        source="practice",
        worked=held.worked,
        why="half of what friction can hold, no tooth counted; the friction is from memory",
    )
