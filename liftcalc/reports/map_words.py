"""What is said over a map of limits: which it is, and in how much of it this log is allowed."""

from __future__ import annotations

import math
from collections.abc import Iterable

from liftcalc.maps.limits import ON_GROUND, BackLimits, Cells, FrontLimits, LimitMap
from liftcalc.reports.words import texts
from liftcalc.units import System, show


def map_name(limits: LimitMap | FrontLimits, system: System) -> str:
    """Which of the maps of a lift it is."""
    if isinstance(limits, FrontLimits):
        return f"{limits.lift.tool.name}, {limits.lift.point.name}"
    if limits.across == "slew":
        return f"Slew by reach, lift point {show(limits.at, 'length', system)} up"
    side = "left" if limits.at > 0 else "right"
    turned = f"slewed {abs(math.degrees(limits.at)):.0f}° to the {side}"
    return f"Reach by height, {turned if limits.at else 'straight back'}"


def map_heading(limits: LimitMap | FrontLimits, system: System) -> str:
    """Over one map: which it is, and for a log how much of it allows that."""
    share = f": {share_words(limits)}" if limits.for_log else ""
    return f"{map_name(limits, system)}{share}"


def share_words(limits: Cells) -> str:
    """In how much of what can be reached this log is allowed, and where it is not lifted yet."""
    reached = int(limits.reached.sum())
    passed = 100 * int(limits.passes.sum()) / max(reached, 1)
    ground = math.ceil(100 * int(limits.on_ground.sum()) / max(reached, 1))
    how_much = f"{math.floor(passed)} %" if passed >= 1 else "less than 1 %"
    share = (
        f"allowed in {how_much} of the cells that can be reached" if passed else "nowhere allowed"
    )
    return f"{share}; {ON_GROUND} in {ground} %" if ground else share


def verdict_words(maps: Iterable[Cells]) -> tuple[bool, str]:
    """Whether any cell of any map allows this log, in words that never say yes to a lift."""
    maps = tuple(maps)
    if any(each.passes.any() for each in maps):
        return True, "In places: see where, and check the lift itself"
    held = any((each.on_ground & (each.allowed >= each.lift.needed)).any() for each in maps)
    why = "where it could be held it is still on the ground" if held else "this log is too heavy"
    return False, f"Nowhere on what is mapped: {why}"


def alike_words(limits: BackLimits, system: System) -> str:
    """Whether the left half of the map below holds for the right; if not, why."""
    if limits.alike:
        return "Left and right are alike."
    uneven = "; ".join(texts(limits.uneven, system))
    return f"Left and right are NOT alike: {uneven or 'the machine is not'}."
