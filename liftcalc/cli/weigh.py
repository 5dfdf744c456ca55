"""``liftcalc machine weigh``: where a machine balances, from weighing its axles twice."""

from __future__ import annotations

from typing import Annotated

import typer

from liftcalc.cli import options
from liftcalc.errors import Gather, InputError
from liftcalc.factors import CAUTION
from liftcalc.family.files import load
from liftcalc.machines.schema import Machine
from liftcalc.machines.weighing import (
    RAISE_SLIP,
    WEIGHING_SLIP,
    Weighed,
    Weighings,
    chassis_height,
    weighed,
)
from liftcalc.physics.worked import Worked
from liftcalc.units import SPACE, Kind, Rounding, System, read, show

FIGURES: dict[str, tuple[Kind, str]] = {
    "total": ("mass", "weights.total"),
    "front_level": ("mass", "weights.front_axle"),
    "front_raised": ("mass", ""),
    "raised_by": ("length", ""),
    "wheelbase": ("length", "wheels.wheelbase"),
    "front_radius": ("length", "wheels.front_radius"),
    "rear_radius": ("length", "wheels.rear_radius"),
}
"""Every figure of the two weighings: its kind, and the key of a machine file that may hold it."""

WIDTH = 32
"""Column at which values start."""


def machine_weigh(
    *,
    file: Annotated[
        str | None,
        typer.Argument(help="A machine file: for what is not typed, and for its chassis."),
    ] = None,
    total: Annotated[str | None, typer.Option(help="Mass of the whole machine.")] = None,
    front_level: Annotated[
        str | None, typer.Option(help="Mass on the front axle, machine level.")
    ] = None,
    front_raised: Annotated[
        str | None, typer.Option(help="Mass on the front axle with one axle raised.")
    ] = None,
    raised: Annotated[
        str, typer.Option(help="Which axle was raised: 'front' or 'rear'.")
    ] = "front",
    raised_by: Annotated[
        str | None, typer.Option(help="Height of its tyres above those of the other axle.")
    ] = None,
    wheelbase: Annotated[str | None, typer.Option(help="Axle to axle, level.")] = None,
    front_radius: Annotated[
        str | None, typer.Option(help="Ground to the middle of the front axle, as it stands.")
    ] = None,
    rear_radius: Annotated[
        str | None, typer.Option(help="Ground to the middle of the rear axle, as it stands.")
    ] = None,
    working: options.Working = False,
    units: options.Units = "metric",
) -> None:
    """Find a machine's centre of gravity from its axles, weighed level and with one raised.

    Weigh it both times in the travel pose of its file, full tank, nobody on board, brakes off and
    out of gear, chocked at one axle only. Nobody near a machine with an axle on blocks.
    """
    typed = {
        "total": total,
        "front_level": front_level,
        "front_raised": front_raised,
        "raised_by": raised_by,
        "wheelbase": wheelbase,
        "front_radius": front_radius,
        "rear_radius": rear_radius,
    }
    system, machine, given = _understood(typed, file=file, raised=raised, units=units)
    found = weighed(given)
    body = chassis_height(machine, total=given.total, height=found.height) if machine else None
    lines = [
        *balance_lines(found, body, system),
        *paste_lines(given, found, body, typed=[name for name, text in typed.items() if text]),
    ]
    if working:
        from liftcalc.working.text import lines as working_lines  # noqa: PLC0415 - seldom wanted

        every = (found.worked, body) if body else (found.worked,)
        lines += ["", "Working, in SI", "", *working_lines(every)]
    options.say([*lines, "", CAUTION])


def _understood(
    typed: dict[str, str | None], *, file: str | None, raised: str, units: str
) -> tuple[System, Machine | None, Weighings]:
    """What was typed, in SI, with what a machine file gives beside it; every fault at once."""
    gather = Gather()
    system: System = "metric"
    machine = None
    figures: dict[str, float] = {}
    with gather:
        system = options.system_of(units)
    with gather:
        machine = load(file) if file else None
    for name, text in typed.items():
        with gather:
            figures[name] = _figure(name, text, machine)
    upward = 1.0
    with gather:
        upward = _upward(raised)
    gather.raise_any()
    raise_height = upward * figures.pop("raised_by")
    return system, machine, Weighings(raise_height=raise_height, **figures)


def _figure(name: str, text: str | None, machine: Machine | None) -> float:
    kind, key = FIGURES[name]
    field = name.replace("_", " ")
    if text is not None:
        return read(text, kind, field=field).value
    if machine is not None and key:
        table, entry = key.split(".")
        return float(getattr(getattr(machine, table), entry))
    raise InputError.of(
        field=field,
        given="nothing",
        wanted=f"a {kind} with its unit, --{name.replace('_', '-')}",
        fix=f"or name a machine file that has {key}" if key else "only a weighing gives it",
    )


def _upward(raised: str) -> float:
    """+1 when the front was raised, −1 when the rear was."""
    sides = {"front": 1.0, "rear": -1.0}
    if raised.strip().casefold() in sides:
        return sides[raised.strip().casefold()]
    raise InputError.of(
        field="raised", given=f'"{raised}"', wanted="front or rear: the axle that was raised"
    )


def balance_lines(found: Weighed, body: Worked | None, system: System) -> list[str]:
    """Where the machine balances and how sure that is; heights and doubts rounded up."""

    def row(name: str, value: float, kind: Kind, rounding: Rounding, note: str = "") -> str:
        shown = show(value, kind, system, rounding)
        return f"  {name:<{WIDTH}}{shown:<9}{note}".rstrip()

    slip = show(WEIGHING_SLIP, "mass", system)
    tape = show(RAISE_SLIP, "diameter", system)
    lines = [
        "Centre of gravity of the whole machine, as weighed",
        row("ahead of the rear axle", found.ahead, "length", "near"),
        row("behind the front axle", found.behind, "length", "near"),
        row("above the ground", found.height, "length", "up", "too low overstates stability"),
        "",
        "How far that height moves",
        row(f"level weighing out by {slip}", found.level_moves, "diameter", "up"),
        row(f"raised weighing out by {slip}", found.raised_moves, "diameter", "up"),
        row(f"raise out by {tape}", found.raise_moves, "diameter", "up"),
        row("height, all the worst way", found.height + found.moves, "length", "up"),
    ]
    if found.moves > 0.1 * found.height:
        lines.append("  More than a tenth: raise the axle higher, or weigh more finely.")
    if body is None:
        return [*lines, "", "Name the machine's file as well, to get the height of its chassis."]
    return [
        *lines,
        "",
        "Chassis, without arms, back end, legs and what it carries",
        row("above the ground", body.result, "length", "up"),
    ]


def paste_lines(
    given: Weighings, found: Weighed, body: Worked | None, *, typed: list[str]
) -> list[str]:
    """Lines for the machine file: what was typed, and the height of the chassis."""
    tables: dict[str, list[str]] = {"weights": [], "wheels": []}
    for name in typed:
        kind, place = FIGURES[name]
        if place:
            table, key = place.split(".")
            unit = "kg" if kind == "mass" else "m"
            value = f"{getattr(given, name):.7g} {unit}"
            tables[table].append(_entry(key, value, "measured", "owner, by scale and tape"))
    if tables["weights"]:
        rear = f"{given.total - given.front_level:.7g} kg"
        tables["weights"].append(_entry("rear_axle", rear, "derived", "total less front axle"))
    if body is not None:
        tables["chassis"] = [_chassis_entry(given, found, body)]
    lines = ["", "For the machine file, each line in place of the one with its key"]
    for table, rows in tables.items():
        if rows:
            lines += ["", f"[{table}]", *rows]
    return lines if any(tables.values()) else []


def _chassis_entry(given: Weighings, found: Weighed, body: Worked) -> str:
    axle = "front" if given.raise_height > 0 else "rear"
    source = f"weighed level and with the {axle} axle raised {abs(given.raise_height):.3g} m"
    # A doubt about the whole's height is a larger one about the part of it that is the chassis.
    doubt = found.moves * given.total / (given.total - body.given["rest_mass"])
    height, tolerance = (show(value, "length", rounding="up") for value in (body.result, doubt))
    entry = _entry("cog_height", height, "measured", source, f', tolerance = "{tolerance}"')
    return entry.replace(SPACE, " ")  # typed on: a file has plain spaces


def _entry(key: str, value: str, kind: str, source: str, more: str = "") -> str:
    return f'{key} = {{ value = "{value}", kind = "{kind}", source = "{source}"{more} }}'
