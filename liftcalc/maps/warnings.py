"""What a map of limits has to say against itself."""

from __future__ import annotations

import math

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.log_position import log_position
from liftcalc.evaluation.warnings import machine_warnings, needs_load_warning, unchecked
from liftcalc.factors import LEVEL_LIMIT
from liftcalc.maps.limits import FrontLimits, LimitMap
from liftcalc.site.hazards import LOW_WIRES
from liftcalc.units import G0

UNCHECKED = "Not checked here: log or end against the machine itself."


def limits_warnings(*limits: LimitMap | FrontLimits, unsaid: bool = True) -> tuple[str, ...]:
    """Warnings of maps or curves of one request, gravest first.

    ``unsaid`` adds what was not said and so not checked, for whoever does not show that elsewhere.
    """
    lift = limits[0].lift
    said = [*_of_request(lift), *machine_warnings(lift)]
    if any(_needs_warning(each) for each in limits):
        said.append(
            "Above 1000 kg or 40 kN·m of object handling EN 474-4 asks for an overload warning "
            "and boom-lowering control. Does this machine have them?"
        )
    if limits[0].for_log and lift.taken.way == "whole":
        said += _off_balance(lift)
    if unsaid:
        said += [f"Not said: {each}." for each in unchecked(lift)]
    return (*said, UNCHECKED)


def _of_request(lift: Lift) -> list[str]:
    said = []
    if lift.end == "back" and lift.stance == "wheels":
        said.append(
            "Lifting over the back without stabilisers: tyres give and the machine rocks. Put the "
            "stabilisers down."
        )
    if lift.stance == "stabilisers and bucket":
        said.append("Counts only while the bucket is really pressed down and carries weight.")
    if lift.point.hold == "hangs" and not lift.swings:
        said.append("A hanging log is taken to hang still; --swing says what swinging takes off.")
    if lift.point.hold == "cradled":
        said.append("The log lies loose: secure it, and keep the attachment rolled back.")
    if lift.site.levelled:
        said.append("Counts only while the machine really stands level within 1 % on its pads.")
    elif lift.site.slope > LEVEL_LIMIT:
        said.append(
            "The ground slopes more than 1 %: ratings do not cover that, and a raised load across "
            "a slope is how machines go over. Level the machine."
        )
    return [*said, *_of_ground(lift), *_of_site(lift)]


def _of_ground(lift: Lift) -> list[str]:
    ground = lift.ground
    if ground is None or ground.allowed is None:
        return ["Whether the ground holds is not in these figures: no pressure may be presumed."]
    said = [
        f"{ground.name.capitalize()} is presumed to carry {math.floor(ground.allowed / 1000)} kPa "
        "under pads and a pressed bucket; dug, wet or sloping ground, and ground nearer to an edge "
        "than its depth, carries less. Tyres sink, and are not counted out for it."
    ]
    if lift.mat is not None:
        said.append("Mats count over their whole area only if they are stiff enough for it.")
    return said


def _off_balance(lift: Lift) -> list[str]:
    """Where a log is said to be off the ground it hangs level; it may not."""
    log = log_position(lift)
    lower = math.ceil(100 * (log.tipped - log.level)) / 100
    if not lower > 0:
        return []
    return [
        "Off the ground is said of a log that hangs level. Hung a little off its balance point one "
        f"end hangs up to {lower:.2f} m lower and may still touch the ground."
    ]


def _of_site(lift: Lift) -> list[str]:
    said = []
    wires = lift.hazards.wires_distance
    if wires is not None and math.isfinite(wires):
        said.append(LOW_WIRES)
    if lift.taken.breakout == 1.0:
        said.append(
            "The log is taken to lie free. Bedded, frozen in or caught it can pull many times as "
            "hard at first; no figure is standard."
        )
    if lift.taken.skidded:
        said.append("Drawn, the log can dig in, roll or slide downhill into the machine.")
    return said


def _needs_warning(limits: LimitMap | FrontLimits) -> bool:
    """Whether any cell allows what EN 474-4 asks a warning device for."""
    reach = limits.reach_most if isinstance(limits, FrontLimits) else limits.reach[1:, np.newaxis]
    loads = np.nan_to_num(limits.allowed)
    return needs_load_warning(
        mass=float(loads.max()), moment=float((loads * np.nan_to_num(reach)).max()) * G0
    )
