"""``liftcalc compare``: front end against back end for one log and two places."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import zip_longest
from typing import Any

import typer

from liftcalc.cli import options
from liftcalc.cli.ask import outcome_record
from liftcalc.cli.check import command_of
from liftcalc.documents import document
from liftcalc.factors import CAUTION
from liftcalc.machines.lookup import named
from liftcalc.questions.compare import (
    Comparison,
    EndResult,
    Tried,
    compared,
    doubts_of,
    unchecked_of,
)
from liftcalc.remarks import Remark
from liftcalc.reports.data import judgement_record
from liftcalc.reports.text import (
    PLAN_ON,
    WIDTH,
    finite,
    judgement_sentences,
    listed,
    not_checked,
    wrapped,
)
from liftcalc.reports.words import said_record, text, texts
from liftcalc.requests.compare import ParsedCompare, parse_compare
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.fields_of_commands import CompareRequest
from liftcalc.units import Kind, Rounding, System, show

COLUMN = 34
"""Width of what stands for one end."""


@options.takes(CompareRequest)
def compare(
    request: CompareRequest,
    as_json: options.Json = False,
    working: options.Working = False,
    units: options.Units = "metric",
) -> None:
    """Compare front and back end for one log, from pick-up to set-down, and say which to take."""
    system, read = options.understood(units, parse_compare, request)
    found = compared(read)
    if as_json:
        typer.echo(document("compare", record(found, read, system)))
    else:
        options.say([*table(found, read, system), *(_commands(found, read) if working else [])])
    options.leave(found.judgement.standing)


def table(found: Comparison, read: ParsedCompare, system: System) -> list[str]:
    """Both ends side by side, for people."""

    def mass(value: float, rounding: Rounding = "down") -> str:
        return show(value, "mass", system, rounding)

    lift = read.back.lift
    lines = [
        f"{named(lift.machine)}: front end against back end",
        "",
        *(
            f"  {line}"
            for said in (*judgement_sentences(found.judgement, system), text(found.reason, system))
            for line in wrapped(said)
        ),
        "",
        *not_checked(unchecked_of(found), system),
        *_row(PLAN_ON, mass(lift.log.mass_planning, "up")),
        "",
        *(f"  {line}" for line in wrapped(CAUTION)),
        "",
        *_row("", "front end", "back end"),
        *_row("taken with", *(f"{p.lift.tool.name}" for p in (read.front, read.back))),
        *_row("lift point", *(p.lift.point.name for p in (read.front, read.back))),
        *_row("load allowed, worse place", *(mass(each.allowed) for each in found.ends)),
        *_row("left over for this log", *(_margin(each, system) for each in found.ends)),
        *_row("used", *(_used(each.utilisation) for each in found.ends)),
    ]
    for number in range(2):
        lines += ["", f"  at {found.back.places[number].place.name}"]
        both = [each.places[number] for each in found.ends]
        for name, shown in _place_rows(both, system):
            lines += _row(name, *shown)
    for end in found.ends:
        for place in end.places[2:]:
            lines += ["", f"  on the slew between, {end.end} end"]
            for name, shown in _place_rows([place], system):
                lines += _row(name, *shown)
    for each in found.ends:
        must, blocked, unknown = (
            listed(texts(said, system)) for said in (each.must, _not_so(each), each.unknown)
        )
        lines += ["", f"The {each.end} end counts only if", *must, *blocked]
        if unknown:
            lines += [f"To find out first for the {each.end} end", *unknown]
    lines += ["", "Understood"]
    lines += [f"  {name:<{WIDTH}}{echo}" for name, echo in read.echoes]
    return [*lines, "", "Warnings", *listed(texts(doubts_of(found), system))]


def _row(name: str, *each: str) -> list[str]:
    """A name and what stands for each end; what is long takes several lines."""
    cells = [wrapped(value, COLUMN - 1) or [""] for value in each]
    lines = []
    for names, *parts in zip_longest([name], *cells, fillvalue=""):
        lines.append(f"  {names:<{WIDTH}}" + "".join(f"{part:<{COLUMN}}" for part in parts))
    return [line.rstrip() for line in lines]


def _not_so(end: EndResult) -> list[Remark]:
    """What is against letting go in the bunk."""
    return [Remark("not_so", why=end.blocked)] if end.blocked else []


def _place_rows(both: list[Tried], system: System) -> list[tuple[str, tuple[str, ...]]]:
    def length(value: float | None) -> str:
        return "-" if value is None else show(value, "length", system)

    def of(kind: Kind, rounding: Rounding, values: list[float | None]) -> tuple[str, ...]:
        return tuple(
            "cannot stand so" if v is None else show(v, kind, system, rounding) for v in values
        )

    answers = [each.outcome.answer for each in both]
    return [
        ("  lift point above the ground", tuple(length(each.outcome.lift.height) for each in both)),
        ("  reach", tuple(length(a.reached.reach if a else None) for a in answers)),
        ("  load allowed", of("mass", "down", [a.allowed if a else None for a in answers])),
        ("  used", tuple(_used(a.utilisation if a else math.inf) for a in answers)),
        ("  stopped first by", tuple(texts((each.outcome.stopped_by for each in both), system))),
    ]


def _margin(end: EndResult, system: System) -> str:
    if math.isinf(end.margin):
        return "cannot stand so"
    if end.allowed <= 0:
        return "nothing allowed"
    if end.margin < 0:
        return "lacks " + show(-end.margin, "mass", system, "up")
    return show(end.margin, "mass", system, "down")


def _used(utilisation: float) -> str:
    return "-" if math.isinf(utilisation) else f"{math.ceil(100 * utilisation - 1e-9)} %"


def _commands(found: Comparison, read: ParsedCompare) -> list[str]:
    """The checks that give each place again, with their working."""
    lines = ["", "Each place again, with its working"]
    for end, request in zip(found.ends, read.requests, strict=True):
        for each in end.places:
            if each.outcome.answer is not None:
                lines.append(f"  {end.end} end, {each.place.name}:")
                lines.append(f"    {check_command(each, request)} --working")
    return lines


def check_command(each: Tried, request: LiftRequest) -> str:
    """The command line that checks one end at one place."""
    lift = each.outcome.lift
    back = lift.end == "back"
    return command_of(
        replace(
            request,
            height=f"{lift.height:.6f} m",
            reach=f"{lift.reach:.6f} m" if back else "",
            slew=f"{math.degrees(lift.slew):.6f} deg" if back and lift.slew else "",
            stance=lift.stance if request.stance or lift.travelling else "",
            travelling=lift.travelling,
        )
    )


def record(found: Comparison, read: ParsedCompare, system: System) -> dict[str, Any]:
    """The comparison as plain data in SI; what has no limit, or is not known, is null."""
    return {
        "recommended": found.choice,
        "answer": judgement_record(found.judgement, system),
        "reason": text(found.reason, system),
        "planning_kg": read.back.lift.log.mass_planning,
        "ends": {
            end.end: {
                "passes": end.passes,
                "judgement": end.standing,
                "allowed_kg": finite(end.allowed),
                "margin_kg": finite(end.margin),
                "utilisation": finite(end.utilisation),
                "governs": text(end.worse.outcome.stopped_by, system),
                "drives": end.drives,
                "blocked": "; ".join(texts(end.blocked, system)),
                **said_record(
                    system, must_be_true=end.must, to_find_out=end.unknown, unchecked=end.unchecked
                ),
                "places": {
                    each.place.name: {
                        "underside_m": each.place.height,
                        **(outcome_record(each.outcome, system) or {}),
                        "check": check_command(each, request) if each.outcome.answer else None,
                    }
                    for each in end.places
                },
            }
            for end, request in zip(found.ends, read.requests, strict=True)
        },
        **said_record(system, warnings=doubts_of(found)),
        "understood": [list(each) for each in read.echoes],
        "caution": CAUTION,
    }
