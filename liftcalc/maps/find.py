"""The limits that a person asked for."""

from __future__ import annotations

from liftcalc.errors import Gather
from liftcalc.maps.limits import BackLimits, FrontLimits, limits_back, limits_front
from liftcalc.requests.limits import ParsedLimits


def find_limits(read: ParsedLimits) -> BackLimits | tuple[FrontLimits, ...]:
    """The limits of the back end, or of the front with each attachment.

    Raises ``InputError`` when nothing can be reached; at the front only when that is so of every
    attachment.
    """
    first = read.reads[0].lift
    if first.end == "back":
        return limits_back(first, steps=read.steps, for_log=read.for_log)
    made, faults = [], Gather()
    for each in read.reads:
        with faults:
            made.append(limits_front(each.lift, steps=read.steps, for_log=read.for_log))
    if not made:
        faults.raise_any()
    return tuple(made)
