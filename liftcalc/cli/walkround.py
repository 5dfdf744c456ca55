"""``liftcalc machine walkround``: what to look at on a machine, dearest first."""

from __future__ import annotations

from typing import Annotated

import typer

from liftcalc.cli import options
from liftcalc.documents import document
from liftcalc.errors import Gather
from liftcalc.files import drawing, kind_of, write_all
from liftcalc.questions.walkround import Walkround, walkround
from liftcalc.reports.walkround_text import record, table
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.lift_file import load_lift
from liftcalc.units import System

PICTURES = ("pdf", "svg", "png")


def machine_walkround(
    machine: Annotated[str, typer.Argument(help="A shipped machine's name, or a machine file.")],
    lift: Annotated[
        list[str] | None,
        typer.Option(help="A saved lift of yours to reckon with; may be said again."),
    ] = None,
    save: Annotated[
        list[str] | None,
        typer.Option(help="The list on paper: .pdf .svg or .png; may be said again."),
    ] = None,
    as_json: options.Json = False,
    units: options.Units = "metric",
) -> None:
    """Walk round a machine, before the day's work or before you buy it: what each fault costs."""
    gather = Gather()
    system: System = "metric"
    own: list[tuple[str, LiftRequest]] = []
    kinds: list[tuple[str, str]] = []
    with gather:
        system = options.system_of(units)
    for name in lift or []:
        with gather:
            own.append((name, load_lift(name)))
    for name in save or []:
        with gather:
            kinds.append((name, kind_of(name, PICTURES)))
    gather.raise_any()
    found = walkround(machine, own=own)
    write_all([(name, _sheet(found, kind, system)) for name, kind in kinds])
    if as_json:
        typer.echo(document("walkround", record(found, system)))
        return
    options.say(
        [*table(found, system), *(["", *(f"Wrote {n}" for n, _ in kinds)] if kinds else [])]
    )


def _sheet(found: Walkround, kind: str, system: System) -> bytes:
    with drawing(kind):
        from liftcalc.figures.saving import picture  # noqa: PLC0415 - matplotlib is for pictures
        from liftcalc.figures.walkround import walkround_sheet  # noqa: PLC0415

        return picture(walkround_sheet(found, system=system), kind)
