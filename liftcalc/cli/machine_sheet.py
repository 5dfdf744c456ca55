"""``liftcalc machine sheet``: what to measure on a machine, on paper."""

from __future__ import annotations

from typing import Annotated

import typer

from liftcalc.errors import Gather
from liftcalc.family.kind import machine_kind
from liftcalc.files import drawing, kind_of, write_all
from liftcalc.machines.schema import Machine

PICTURES = ("pdf", "svg", "png")


def machine_sheet(
    machine_class: Annotated[
        str, typer.Argument(metavar="CLASS", help="The class that the machine is nearest to.")
    ],
    save: Annotated[
        list[str], typer.Option(help="Sheet to print, .pdf .svg or .png; may be said again.")
    ],
) -> None:
    """What to measure on your own machine, from where to where, on one page for the yard."""
    gather = Gather()
    kinds: list[tuple[str, str]] = []
    pattern: Machine | None = None
    with gather:
        pattern = machine_kind(machine_class).pattern
    for name in save:
        with gather:
            kinds.append((name, kind_of(name, PICTURES)))
    gather.raise_any()
    assert pattern is not None
    write_all([(name, _sheet(pattern, kind)) for name, kind in kinds])
    for name, _ in kinds:
        typer.echo(f"Wrote {name}")


def _sheet(pattern: Machine, kind: str) -> bytes:
    with drawing(kind):
        from liftcalc.figures.measuring_sheet import measuring_sheet  # noqa: PLC0415 - matplotlib is for pictures
        from liftcalc.figures.saving import picture  # noqa: PLC0415

        return picture(measuring_sheet(pattern), kind)
