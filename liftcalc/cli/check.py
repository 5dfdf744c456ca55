"""``liftcalc check`` and ``liftcalc demo``: one lift, one answer."""

from __future__ import annotations

import shlex
from dataclasses import replace
from typing import Annotated

import typer

from liftcalc.cli import options
from liftcalc.documents import document
from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.lift import Lift
from liftcalc.judgement.judge import judge
from liftcalc.reports.data import record
from liftcalc.reports.text import table
from liftcalc.requests.demo import DEMO
from liftcalc.requests.fields import LiftRequest, fields_of, names_of
from liftcalc.requests.lift_file import load_lift

Evidence = Annotated[
    bool, typer.Option("--evidence", help="As JSON, with all that is needed to compute it again.")
]
SavedLift = Annotated[
    str, typer.Option("--lift", help="A saved lift; what is given beside it comes first.")
]


@options.takes(LiftRequest, may_lack=("machine",))
def check(
    request: LiftRequest,
    context: typer.Context,
    lift: SavedLift = "",
    as_json: options.Json = False,
    working: options.Working = False,
    evidence: Evidence = False,
    units: options.Units = "metric",
) -> None:
    """Check one lift: allowed load, what stops it first, and this log against it."""
    if lift:
        request = _over(load_lift(lift), request, context)
    _answer(request, as_json=as_json, working=working, evidence=evidence, units=units)


def _over(saved: LiftRequest, request: LiftRequest, context: typer.Context) -> LiftRequest:
    """A saved lift with what was given on the command line put in its place."""
    given = {}
    for name in names_of(LiftRequest):
        source = context.get_parameter_source(name)
        if source is not None and source.name == "COMMANDLINE":
            given[name] = getattr(request, name)
    return replace(saved, **given)


def demo(
    as_json: options.Json = False, working: options.Working = False, units: options.Units = "metric"
) -> None:
    """Check the embedded demo: a windblown larch with the back end."""
    if not as_json:
        typer.echo(f"$ {command_of(DEMO)}\n")
    _answer(DEMO, as_json=as_json, working=working, evidence=False, units=units)


def command_of(request: LiftRequest) -> str:
    """The command line that asks for a lift."""
    words = ["liftcalc", "check", request.machine]
    for row in fields_of(LiftRequest):
        value = getattr(request, row.name)
        if value and value != row.default and not row.argument:
            words += [f"--{row.option}"] if value is True else [f"--{row.option}", value]
    return shlex.join(words)


def _answer(
    request: LiftRequest, *, as_json: bool, working: bool, evidence: bool, units: str
) -> None:
    system, (answer, ranges) = options.understood(units, judge, request)
    read = ranges.read
    steps = _working(answer, read.lift) if working else []
    if as_json or evidence:
        made = record(answer, read, evidence=evidence, system=system)
        if working:
            made["working"] = steps
        typer.echo(document("check", made))
    else:
        options.say([*table(answer, read, system), *([""] if steps else []), *steps])
    assert answer.judgement is not None  # a request was judged
    options.leave(answer.judgement.standing)


def _working(answer: Answer, asked: Lift) -> list[str]:
    from liftcalc.working.steps import worked_out  # noqa: PLC0415 - only when asked for
    from liftcalc.working.text import section_lines  # noqa: PLC0415

    lines = ["Working, in SI"]
    for section in worked_out(answer, asked=asked):
        lines += ["", *section_lines(section)]
    return lines
