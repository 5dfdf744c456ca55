"""Warnings that go with a map of limits."""

from __future__ import annotations

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.log_position import log_position
from liftcalc.evaluation.warnings import (
    device_warnings,
    journey_warnings,
    machine_warnings,
    slope_warnings,
    stance_warnings,
    unchecked,
)
from liftcalc.maps.limits import FrontLimits, LimitMap
from liftcalc.remarks import Remark, up
from liftcalc.units import G0

UNCHECKED = Remark("not_itself")
"""What no map counts."""


def limits_warnings(*limits: LimitMap | FrontLimits, unsaid: bool = True) -> tuple[Remark, ...]:
    """Warnings of maps or curves of one request, gravest first.

    ``unsaid`` adds what was not said and so not checked, for whoever does not show that elsewhere.
    """
    lift = limits[0].lift
    mass, moment = np.max([_most_handled(each) for each in limits], axis=0)
    return (
        *([Remark("back_on_wheels")] if lift.end == "back" and lift.stance == "wheels" else []),
        *stance_warnings(lift),
        *_of_log(lift),
        *slope_warnings(lift),
        *_of_ground(lift),
        *journey_warnings(lift),
        *machine_warnings(lift),
        *device_warnings(mass=mass, moment=moment),
        *(_off_balance(lift) if limits[0].for_log and lift.taken.way == "whole" else []),
        *(Remark("not_said", what=(each,)) for each in (unchecked(lift) if unsaid else ())),
        UNCHECKED,
    )


def _of_log(lift: Lift) -> list[Remark]:
    """How the log is held."""
    if lift.point.hold == "hangs" and not lift.swings:
        return [Remark("still_on_maps")]
    return [Remark("lies_loose")] if lift.point.hold == "cradled" else []


def _of_ground(lift: Lift) -> list[Remark]:
    ground = lift.ground
    if ground is None:
        return [Remark("no_ground")]
    if not ground.presumed:
        return [Remark("none_presumed", ground=ground.name)]
    said = [Remark("carries_less")]
    return said if lift.mat is None else [*said, Remark("mats_stiff")]


def _off_balance(lift: Lift) -> list[Remark]:
    """Where a log is said to be off the ground it hangs level; it may not."""
    log = log_position(lift)
    lower = log.tipped - log.level
    return [Remark("hangs_lower", by=up(lower, "length"))] if lower > 0 else []


def _most_handled(limits: LimitMap | FrontLimits) -> tuple[float, float]:
    """The most that any cell allows [kg], and the greatest moment of what one allows [N.m]."""
    reach = limits.reach_most if isinstance(limits, FrontLimits) else limits.reach[1:, np.newaxis]
    loads = np.nan_to_num(limits.allowed)
    return float(loads.max()), float((loads * np.nan_to_num(reach)).max()) * G0
