"""The options that describe a log, shared by every command that takes one."""

from __future__ import annotations

from typing import Annotated, cast, get_args

import typer

from liftcalc.errors import Fault, InputError
from liftcalc.units import System

EXTRA = "a mass, or a share of the log's own mass: '40 kg' or '5 %'"

Species = Annotated[
    str, typer.Option(help="Common or botanical name, or 'unknown hardwood' or 'unknown softwood'.")
]
Length = Annotated[str, typer.Option(help="Butt to top, such as '4.2 m' or '13 ft 6 in'.")]
Butt = Annotated[
    str | None, typer.Option(help="Diameter of the thick end, or its girth: 'girth 173 cm'.")
]
Mid = Annotated[str | None, typer.Option(help="Diameter at mid length; alone it is enough.")]
Top = Annotated[str | None, typer.Option(help="Diameter of the thin end.")]
BarkTaken = Annotated[
    str, typer.Option("--bark", help="'over' or 'under': how the diameters were taken.")
]
Moisture = Annotated[
    str, typer.Option(help="'fresh', 'part-dry', 'soaked', or water over dry mass such as '85 %'.")
]
Ice = Annotated[str | None, typer.Option(help=f"Ice on the log: {EXTRA}.")]
Mud = Annotated[str | None, typer.Option(help=f"Mud on the log: {EXTRA}.")]
RootPlate = Annotated[str | None, typer.Option(help=f"Root plate left at the butt: {EXTRA}.")]
Limbs = Annotated[str | None, typer.Option(help=f"Limbs left on the log: {EXTRA}.")]
Json = Annotated[bool, typer.Option("--json", help="Print the answer as JSON, in SI.")]
Working = Annotated[bool, typer.Option("--working", help="Print the worked steps as well.")]
Units = Annotated[str, typer.Option(help="'metric' or 'imperial', for what is shown.")]


def system_of(text: str) -> System:
    """The system of units asked for, or an ``InputError``."""
    for system in get_args(System):
        if text.strip().casefold() == system:
            return cast(System, system)
    raise InputError(
        Fault(
            field="units",
            given=f'"{text}"',
            wanted="metric or imperial",
            fix="it only sets how answers are shown; what you type carries its own units",
        )
    )
