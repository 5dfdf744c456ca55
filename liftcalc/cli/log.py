"""``liftcalc log``: what a log weighs and where it balances."""

from __future__ import annotations

import typer

from liftcalc.cli import options
from liftcalc.documents import document
from liftcalc.factors import CAUTION
from liftcalc.reports.words import said_record, texts
from liftcalc.requests.fields import LogRequest
from liftcalc.requests.log import ParsedLog, parse_log
from liftcalc.timber.log import LogEstimate, weigh
from liftcalc.units import Kind, Rounding, System, show

WIDTH = 26
"""Column at which values start in the table."""


@options.takes(LogRequest)
def log(
    request: LogRequest,
    as_json: options.Json = False,
    working: options.Working = False,
    units: options.Units = "metric",
) -> None:
    """Weigh a log from tape and species: low, likely and planning mass, and its balance point.

    'liftcalc log weigh' weighs it by a slip, a load cell or the machine's own gauge.
    """
    system, reading = options.understood(units, parse_log, request)
    estimate = weigh(reading.measure)
    steps = working_lines(estimate) if working else []
    if as_json:
        typer.echo(as_json_text(estimate, reading, steps, system))
    else:
        options.say([*table(estimate, reading, system), *steps])


def working_lines(estimate: LogEstimate) -> list[str]:
    """The worked steps of every figure."""
    from liftcalc.working.text import lines  # noqa: PLC0415 - only asked for now and then

    return ["", "Working, in SI", "", *lines(estimate.worked)]


def as_json_text(
    estimate: LogEstimate, reading: ParsedLog, steps: list[str], system: System
) -> str:
    """The answer in SI for another program."""
    answer: dict[str, object] = {
        "log": {
            "volume_m3": estimate.volume,
            "mass_kg": {
                "low": estimate.mass_low,
                "likely": estimate.mass_likely,
                "planning": estimate.mass_planning,
            },
            "cog_from_butt_m": estimate.cog_from_butt,
        },
        "understood": dict(reading.echoes),
        **said_record(system, warnings=estimate.doubts, assumed=estimate.assumed),
        "caution": CAUTION,
    }
    if steps:
        answer["working"] = steps
    return document("log", answer)


def table(estimate: LogEstimate, reading: ParsedLog, system: System) -> list[str]:
    """The answer as lines for people: loads rounded up, the low mass down."""

    def row(name: str, value: float, kind: Kind, rounding: Rounding, note: str = "") -> str:
        shown = show(value, kind, system, rounding)
        return f"  {name:<{WIDTH}}{shown:<12}{note}".rstrip()

    lines = ["Understood"]
    lines += [f"  {name:<{WIDTH}}{echo}" for name, echo in reading.echoes]
    lines += [
        "",
        "Log",
        row("volume", estimate.volume, "volume", "up"),
        row("low mass", estimate.mass_low, "mass", "down", "one log in twenty is lighter"),
        row("likely mass", estimate.mass_likely, "mass", "near"),
        row("PLANNING MASS", estimate.mass_planning, "mass", "up", "plan the lift on this"),
        row("balance point from butt", estimate.cog_from_butt, "length", "near"),
    ]
    for title, notes in (("Doubts", estimate.doubts), ("Taken as", estimate.assumed)):
        if notes:
            lines += ["", title, *(f"  - {note}" for note in texts(notes, system))]
    return [*lines, "", CAUTION]
