"""``liftcalc machines`` and ``liftcalc machine check``: what there is, and is a file sound."""

from __future__ import annotations

from collections import Counter
from typing import Annotated, Any, get_args

import numpy as np
import typer

from liftcalc.cli import options
from liftcalc.documents import document
from liftcalc.evaluation.members import slip_remark
from liftcalc.factors import CAUTION
from liftcalc.family.facts import FACTS
from liftcalc.family.files import load
from liftcalc.family.known import KnownMachine
from liftcalc.machines.assembly import chassis
from liftcalc.machines.files import numbers, shipped_names
from liftcalc.machines.schema import EndName, Machine
from liftcalc.reports.words import text


def machines(as_json: options.Json = False) -> None:
    """List the shipped machines, their attachments and lift points."""
    every = [load(name) for name in shipped_names()]
    if as_json:
        made = {"machines": [record(each) for each in every], "caution": CAUTION}
        typer.echo(document("machines", made))
        return
    for machine in every:
        typer.echo(
            f"{machine.name}\n  {machine.title}, {machine.weights.total:.0f} kg. {machine.note}"
        )
        for end in get_args(EndName):
            typer.echo(f"  {end}:")
            for tool in (each for each in machine.attachment if each.end == end):
                points = ", ".join(f"{p.name} ({p.hold}, {p.wll:.0f} kg)" for p in tool.lift_point)
                fitted = " [fitted]" if tool.name == getattr(machine.fitted, end) else ""
                typer.echo(f"    {tool.name}{fitted}: {points}")
        typer.echo("")
    typer.echo("All of them are invented classes. Measure your own machine.\n" + CAUTION)


def record(machine: Machine) -> dict[str, Any]:
    """A machine in brief as plain data in SI: what can be fitted to it, and where that lifts."""
    return {
        "name": machine.name,
        "title": machine.title,
        "note": machine.note,
        "invented": machine.invented,
        "mass_kg": float(machine.weights.total),
        "attachments": [
            {
                "name": tool.name,
                "end": tool.end,
                "fitted": tool.name == getattr(machine.fitted, tool.end),
                "lift_points": [
                    {"name": point.name, "hold": point.hold, "wll_kg": float(point.wll)}
                    for point in tool.lift_point
                ],
            }
            for tool in machine.attachment
        ],
    }


def machine_check(
    file: Annotated[str, typer.Argument(help="A machine file, or a shipped machine's name.")],
) -> None:
    """Check a machine file: every figure, its source, the linkages and the weights."""
    options.say(summary(load(file)))


def summary(machine: Machine) -> list[str]:
    """What a sound machine file says, and what it rests on."""
    kinds = Counter(number.kind for _, number in numbers(machine))
    body = chassis(machine)
    weights = machine.weights
    share = weights.front_axle / (weights.front_axle + weights.rear_axle)
    lines = [
        f"{machine.title}: sound.",
        f"  {sum(kinds.values())} figures: "
        + ", ".join(f"{count} {kind}" for kind, count in sorted(kinds.items())),
        f"  {weights.total:.0f} kg in travel, {100 * share:.0f} % on the front axle",
        f"  chassis, derived from the weights: {body.mass:.0f} kg, {body.x:.2f} m ahead of the "
        "rear axle",
        "  every linkage closes over its whole stroke, without dead centre",
    ]
    if isinstance(machine, KnownMachine):
        lines[1:2] = known_lines(machine)
    for end in ("back", "front"):
        if not any(row.end == end for row in machine.plate):
            lines.append(f"  no plate or chart value for the {end} end: enter it if there is one")
    return [*lines, "", CAUTION]


def known_lines(machine: KnownMachine) -> list[str]:
    """What a machine is known by, how it fits together, and what would pay next."""
    told = machine.ensemble.told
    lines = [f"  known by {machine.known_by}; all else is as in its class may be"]
    for each, off in zip(told, machine.ensemble.misfit, strict=True):
        if abs(off) > CONTRADICTS:
            way = "more" if off > 0 else "less"
            lines.append(
                f"  {each.key}: {way} than all else that was told agrees with; measure it again"
            )
    lines += [f"  {text(slip_remark(each))}" for each in machine.slips]
    low, high = (float(np.quantile(machine.members.weights.total, at)) for at in (0.05, 0.95))
    lines.append(f"  weight between {low:.0f} and {high:.0f} kg")
    have = {each.key for each in told}
    paying = [key for key in FACTS if key not in have][:3]
    return [*lines, f"  what pays next: {', '.join(paying)}"]


CONTRADICTS = 3.0
"""Standard deviations off all else that was told beyond which a fact is named [-]."""
