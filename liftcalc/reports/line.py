"""A record in one line: what somebody wants to see first who typed its name."""

from __future__ import annotations

from functools import singledispatch

import numpy as np

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.sweep import Sweep
from liftcalc.machines.schema import Machine
from liftcalc.maps.cell_bounds import Floats
from liftcalc.maps.limits import BackLimits, FrontLimits, LimitMap
from liftcalc.questions.compare import Comparison
from liftcalc.questions.registry import QuestionAnswer
from liftcalc.questions.search import InverseAnswer
from liftcalc.reports.map_words import share_words
from liftcalc.reports.words import text
from liftcalc.timber.log import LogEstimate
from liftcalc.units import Rounding, show


@singledispatch
def line(record: object) -> str:
    """The record in one line, metric; capacities rounded down, loads up."""
    raise TypeError(f"no line is known for {type(record).__name__}")


def _mass(value: float, rounding: Rounding = "down") -> str:
    return show(value, "mass", rounding=rounding)


@line.register
def _(answer: Answer) -> str:
    verdict = answer.judgement.verdict if answer.judgement else answer.verdict
    return (
        f"{text(verdict)}; allowed {_mass(answer.allowed)} at the lift point, stopped "
        f"first by {answer.governs}; this log {_mass(answer.lift.log.mass_planning, 'up')}"
    )


@line.register
def _(found: Comparison) -> str:
    return text(found.reason)


@line.register
def _(turned: InverseAnswer) -> str:
    value = (
        "none"
        if turned.value is None
        else show(turned.value, turned.kind, rounding=turned.rounding)
    )
    return f"{text(turned.question)}: {value}, stopped by {text(turned.stopped_by)}"


@line.register
def _(told: QuestionAnswer) -> str:
    would = "; ".join(str(each.name) for each in told.more) or "nothing that was tried"
    return "; ".join([*(line(each) for each in told.turned), f"would buy more: {would}"])


def _most(allowed: Floats) -> str:
    """How much there is at most."""
    reached = allowed[~np.isnan(allowed)]
    return f"up to {_mass(float(reached.max()))} allowed" if reached.size else "nothing allowed"


def _loads(allowed: Floats) -> str:
    """How much there is at most, and where there is anything."""
    reached = int((~np.isnan(allowed)).sum())
    return f"{_most(allowed)}; {reached} of {allowed.size} can be reached"


def _share(limits: LimitMap | FrontLimits) -> str:
    """How much there is at most, and in how much of the map this log is allowed."""
    if not limits.for_log:
        return _loads(limits.allowed)
    return f"{_most(limits.allowed)}; this log {share_words(limits)}"


@line.register
def _(limits: LimitMap) -> str:
    at = show(limits.at, "angle" if limits.across == "height" else "length")
    cells = " × ".join(str(each) for each in limits.allowed.shape)
    where = f"at a slew of {at}" if limits.across == "height" else f"at a height of {at}"
    return f"{cells} cells of reach by {limits.across} {where}; {_share(limits)}"


@line.register
def _(limits: FrontLimits) -> str:
    return f"{line(limits.lift)}; {limits.allowed.size} cells of height; {_share(limits)}"


@line.register
def _(limits: BackLimits) -> str:
    maps = (f"{each.view} map: {_share(each)}" for each in limits.maps)
    return "; ".join((line(limits.lift), *maps))


@line.register
def _(swept: Sweep) -> str:
    places, slews = swept.allowed.shape
    return f"{line(swept.lift)}; {places} places by {slews} slews; {_loads(swept.allowed)}"


@line.register
def _(lift: Lift) -> str:
    return f"{lift.machine.name}, {lift.end} end, {lift.tool.name}, {lift.point.name}"


@line.register
def _(estimate: LogEstimate) -> str:
    low, likely, planning = estimate.mass_low, estimate.mass_likely, estimate.mass_planning
    return (
        f"{estimate.measure.species.name}, {show(estimate.measure.length, 'length')}: plan on "
        f"{_mass(planning, 'up')}, likely {_mass(likely, 'near')}, low {_mass(low)}; balances "
        f"{show(estimate.cog_from_butt, 'length')} from the butt"
    )


@line.register
def _(machine: Machine) -> str:
    invented = ", invented" if machine.invented else ""
    return f"{machine.name}: {machine.title}, {_mass(machine.weights.total, 'near')}{invented}"
