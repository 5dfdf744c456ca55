"""What stands over and under a figure of limits: for what it is, and what it leaves out."""

from __future__ import annotations

import math

from liftcalc.evaluation.answer import Criterion
from liftcalc.evaluation.lift import Lift
from liftcalc.maps.limits import BackLimits, Cells
from liftcalc.reports.text import log_words, machine_words
from liftcalc.units import System, show


def about(limits: BackLimits, made: Cells, system: System) -> str:
    """Under the title of a map."""
    return f"{machine_words(made.lift)}. {log_words(made.lift, system, for_log=limits.for_log)}"


def notes(limits: BackLimits, made: Cells, system: System) -> list[str]:
    """Under a map: how to read it."""
    heavy = "The heavy line is where this log may be lifted. " if limits.for_log else ""
    why = ", ".join(dict.fromkeys(each.words for each in made.reasons))
    said = [
        f"Lines and tones: load allowed at the lift point, never more than anywhere beside them. "
        f"{heavy}Ruling and names: what stops it first."
    ]
    if why:
        said.append(f"Blank: the end does not get there ({why}).")
    said += unchecked(made.lift)
    del system
    return said


def unchecked(lift: Lift) -> list[str]:
    """What a map of limits leaves out."""
    invented = (
        f"{lift.machine.title} is an invented class, not your machine. "
        if lift.machine.invented
        else ""
    )
    return [
        f"{invented}Not checked: log or end against the machine itself, the ground under pads "
        "and tyres, the sling, wires, people near. Body and beams are schematic, all pins to scale."
    ]


def worth_words(each: Criterion, system: System) -> str:
    """What a criterion allows, in words where no load decides it."""
    if each.clearance is not None:
        has = float(each.clearance.has)
        needs = show(float(each.clearance.needs), "length", system=system, rounding="up")
        left = show(has, "length", system=system, rounding="down") if has < math.inf else "any"
        return f"needs {needs}, has {left}"
    if each.allowed == math.inf:
        return "any load"
    if each.allowed <= 0:
        return "nothing"
    return show(each.allowed, "mass", system=system, rounding="down")
