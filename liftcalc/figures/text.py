"""What stands over and under a figure of limits: for what it is, and what it leaves out."""

from __future__ import annotations

import math

from liftcalc.evaluation.answer import Criterion
from liftcalc.evaluation.lift import Lift
from liftcalc.maps.limits import BackLimits, Cells
from liftcalc.units import System, show


def machine_words(lift: Lift, *, tool: bool = True) -> str:
    """Machine, attachment, lift point and stance in a line."""
    said = [lift.machine.title]
    if tool:
        said.append(f"{lift.tool.name}, {lift.point.name}")
    said.append("on its " + lift.stance)
    if lift.travelling:
        said.append("on the move")
    if lift.sideshift:
        way = "left" if lift.sideshift > 0 else "right"
        said.append(f"sideshifted {show(abs(lift.sideshift), 'length')} to the {way}")
    slope = float(lift.site.slope)
    if slope:
        turn = math.degrees(float(lift.site.heading)) % 360
        said.append(f"on a slope of {show(slope, 'slope')}, uphill {turn:.0f}° from the nose")
    return "; ".join(said)


def log_words(lift: Lift, system: System, *, for_log: bool) -> str:
    """What the log needs at the lift point; or that none was given."""
    if not for_log:
        return "No log was given."
    plan = show(lift.log.mass_planning, "mass", system=system, rounding="up")
    need = show(lift.needed, "mass", system=system, rounding="up")
    return (
        f"This log, to plan on {plan}, needs {need} at the lift point, with rigging and load "
        "factor."
    )


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
