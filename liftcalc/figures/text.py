"""What stands under a figure of limits: how to read it, and what it leaves out."""

from __future__ import annotations

import math

from liftcalc.evaluation.answer import Criterion
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.warnings import unchecked
from liftcalc.maps.limits import ON_GROUND, Cells
from liftcalc.maps.warnings import UNCHECKED
from liftcalc.remarks import Remark
from liftcalc.reports.words import text, texts
from liftcalc.units import System, show

HEAVY_LINE = "The heavy line is where this log may be lifted."


def notes(*maps: Cells, system: System) -> list[str]:
    """Under maps of one lift: how to read them."""
    heavy = f"{HEAVY_LINE} " if maps[0].for_log else ""
    why = ", ".join(dict.fromkeys(reason.words for each in maps for reason in each.reasons))
    said = [
        f"Lines and tones: load allowed at the lift point, never more than anywhere beside them. "
        f"{heavy}Ruling and names: what stops it first."
    ]
    if any(each.on_ground.any() for each in maps):
        said.append(f"Dotted: {ON_GROUND}, hanging level, so it is not lifted there yet.")
    if why:
        said.append(f"Blank: the end does not get there ({why}).")
    return said + left_out(maps[0].lift, system)


def left_out(lift: Lift, system: System) -> list[str]:
    """What a map of limits does not count, and what of its drawing is not to scale."""
    invented = [Remark("invented", machine=lift.machine.title)] if lift.machine.invented else []
    unsaid = [Remark("not_said", what=unchecked(lift))] if unchecked(lift) else []
    return texts((*invented, UNCHECKED, *unsaid, Remark("schematic")), system)


def worth_words(each: Criterion, system: System) -> str:
    """What a criterion allows, in words where no load decides it."""
    if each.clearance is not None:
        return text(each.clearance.room, system)
    if each.allowed == math.inf:
        return "any load"
    if each.allowed <= 0:
        return "nothing"
    return show(each.allowed, "mass", system, "down")
