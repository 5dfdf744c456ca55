"""A walk round a machine, put into words and as plain data."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from string import ascii_uppercase
from typing import Any

from liftcalc.factors import CAUTION
from liftcalc.machines.lookup import named
from liftcalc.questions.walkround import Cost, Finding, Walkround
from liftcalc.reports.text import wrapped
from liftcalc.reports.words import sentence, text
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.table import field_of
from liftcalc.units import SPACE, System, show

LEAST = 0.5
"""What is less is no cost to tell [kg]."""
SOUND = (
    "What it is allowed at the lift point while nothing is wrong with it, and what stops it first"
)
ALONE = (
    "Costs are of each alone, as bad as is said; worse ones and several together cost more. What "
    "is counted is judgement where no standard is named (docs/safety.md)."
)
NO_COST = "nothing: something else stops these lifts first"


def title(found: Walkround) -> str:
    """The machine that it is about."""
    return f"Walk round: {named(found.machine)}"


def lift_lines(found: Walkround, system: System) -> Iterator[tuple[str, str, str]]:
    """Every lift that costs are told of: its words, what it is allowed, and what stops it first."""
    for letter, lift in zip(ascii_uppercase, found.lifts, strict=False):
        allowed = show(lift.allowed, "mass", system, "down")
        yield f"{letter}  {text(lift.name, system)}", allowed, text(lift.governs, system)


def told_words(each: Finding, system: System) -> str:
    """How it is told in a lift, by its option."""
    number, space, unit = _worn(each, system).rpartition(SPACE)
    said = f"{number.replace(SPACE, '')} {unit}" if space else unit
    return f"--{field_of(LiftRequest, each.item.field).option} '{said}'"


def worn_words(each: Finding, system: System) -> str:
    """What its cost is reckoned with, on paper."""
    return f"{field_of(LiftRequest, each.item.field).label}: {_worn(each, system)}"


def _worn(each: Finding, system: System) -> str:
    return each.told if isinstance(each.told, str) else each.told.words(system)


def cost_words(each: Finding, system: System) -> str:
    """What it costs: lifts that are none any more by their letters, then kilograms of others."""
    letters = dict(zip((id(cost) for cost in each.costs), ascii_uppercase, strict=False))
    gone = [letters[id(cost)] for cost in each.barred]
    less = [
        f"{show(cost.lost, 'mass', system, 'up')} of {letters[id(cost)]}"
        for cost in each.costs
        if not cost.barred and cost.lost >= LEAST
    ]
    whole = [f"all of {_listed(gone)}"] if gone else []
    return ", ".join((*whole, *less)) or NO_COST


def _listed(names: Sequence[str]) -> str:
    *before, last = names
    return f"{', '.join(before)} and {last}" if before else last


def table(found: Walkround, system: System) -> list[str]:
    """A walk round for people, dearest first."""
    lines = [title(found), "", SOUND]
    lines += [f"  {words:<40}{load:>10}  {stop}" for words, load, stop in lift_lines(found, system)]
    for number, each in enumerate(found.findings, 1):
        item = each.item
        costs = f"{told_words(each, system)} costs {cost_words(each, system)}"
        lines += ["", *_hung(f"{number:>2}  ", text(item.do, system))]
        tells = f"{sentence(item.tells, system)} Counted: {text(item.rule, system)}."
        for said in (tells, f"{costs}."):
            lines += _hung("    ", said)
    return [*lines, "", *wrapped(ALONE), "", *wrapped(CAUTION)]


def _hung(mark: str, said: str) -> Iterable[str]:
    first, *rest = wrapped(said, 88)
    return f"{mark}{first}", *(f"    {each}" for each in rest)


def record(found: Walkround, system: System) -> dict[str, Any]:
    """A walk round as plain data in SI."""
    return {
        "machine": found.machine.name,
        "practice": found.machine.invented,
        "lifts": [
            {
                "text": text(each.name, system),
                "end": each.request.end,
                "allowed_kg": each.allowed,
                "stopped_by": text(each.governs, system),
            }
            for each in found.lifts
        ],
        "items": [
            {
                "option": field_of(LiftRequest, each.item.field).option,
                "worn": _worn(each, "metric").replace(SPACE, " "),
                "do": text(each.item.do, system),
                "tells": text(each.item.tells, system),
                "rule": text(each.item.rule, system),
                "source": each.item.source,
                "costs": [_cost(one) for one in each.costs],
            }
            for each in found.findings
        ],
        "caution": CAUTION,
    }


def _cost(one: Cost) -> dict[str, Any]:
    return {"allowed_kg": one.allowed, "lost_kg": one.lost, "barred": one.barred}
