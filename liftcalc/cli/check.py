"""``liftcalc check`` and ``liftcalc demo``: one lift, one answer."""

from __future__ import annotations

import json
import shlex
from dataclasses import fields, replace
from typing import Annotated, Any

import typer

from liftcalc.answers.asked import Asked, read_lift
from liftcalc.answers.check import Answer
from liftcalc.answers.check import check as answer_of
from liftcalc.answers.demo import DEMO
from liftcalc.cli import log_options as options
from liftcalc.cli.shown import record, table
from liftcalc.errors import Gather


def _said(text: str) -> typer.models.OptionInfo:
    info: typer.models.OptionInfo = typer.Option(help=text)
    return info


Text = str
Evidence = Annotated[
    bool, typer.Option("--evidence", help="As JSON, with all that is needed to compute it again.")
]


def check(
    machine: Annotated[str, typer.Argument(help="A shipped machine's name, or a .toml file.")],
    end: Annotated[Text, _said("'front' (loader) or 'back' (backhoe).")] = "",
    reach: Annotated[
        Text,
        _said("Lift point from the slew axis (back); ahead of the front axle (front, optional)."),
    ] = "",
    height: Annotated[Text, _said("Height of the lift point above the ground.")] = "",
    slew: Annotated[Text, _said("0 deg straight back, positive to the machine's left.")] = "",
    sideshift: Annotated[Text, _said("Of the slew axis, positive to the left.")] = "",
    species: Annotated[Text, _said("Common or botanical name; 'unknown hardwood'.")] = "",
    length: Annotated[Text, _said("Of the log, butt to top.")] = "",
    butt: options.Butt = None,
    mid: options.Mid = None,
    top: options.Top = None,
    bark: options.BarkTaken = "over",
    moisture: options.Moisture = "fresh",
    ice: options.Ice = None,
    mud: options.Mud = None,
    root_plate: options.RootPlate = None,
    limbs: options.Limbs = None,
    attachment: Annotated[Text, _said("What is fitted to the lifting end.")] = "",
    lift_point: Annotated[Text, _said("Which lift point of it.")] = "",
    other_attachment: Annotated[Text, _said("What is fitted to the other end.")] = "",
    tilt: Annotated[Text, _said("Front attachment to the horizontal; up is rolled back.")] = "",
    curl: Annotated[Text, _said("Share of the bucket ram's stroke that is out, '80 %'.")] = "",
    stance: Annotated[
        Text, _said("'wheels', 'stabilisers' or 'stabilisers and bucket' (bucket pressed down).")
    ] = "",
    travelling: Annotated[bool, typer.Option("--travelling", help="Carry it on the move.")] = False,
    slope: Annotated[Text, _said("Of the ground, '3 deg', '5 %' or '1 in 20'.")] = "",
    uphill: Annotated[Text, _said("Where uphill is: 0 deg ahead, 90 deg to the left.")] = "",
    accelerate_forward: Annotated[Text, _said("Of the machine; braking is negative.")] = "",
    accelerate_left: Annotated[Text, _said("Of the machine; a left turn is positive.")] = "",
    swing: Annotated[Text, _said("Lean of a hanging log, taken the worst way.")] = "",
    sling: Annotated[Text, _said("'choked', 'single', 'basket' or 'two legs'.")] = "",
    sling_length: Annotated[Text, _said("Of the sling, or of each leg.")] = "",
    leg_spread: Annotated[Text, _said("How far apart two legs hold the log.")] = "",
    slung_at: Annotated[Text, _said("Where the sling holds, from the butt.")] = "",
    rigging_mass: Annotated[Text, _said("All that hangs between lift point and log.")] = "",
    pressure: Annotated[Text, _said("Read on a gauge; replaces the book's, never above it.")] = "",
    plate: Annotated[Text, _said("Rated load for this lift on the machine's plate or chart.")] = "",
    off_centre: Annotated[Text, _said("How far a carried log lies off its balance.")] = "",
    empty_seat: Annotated[
        bool, typer.Option("--empty-seat", help="Nobody sits in the seat.")
    ] = False,
    as_json: options.Json = False,
    working: options.Working = False,
    evidence: Evidence = False,
    units: options.Units = "metric",
) -> None:
    """Check one lift: allowed load, what stops it first, and this log against it."""
    given: dict[str, Any] = locals()
    said = {each.name: given[each.name] for each in fields(Asked) if given[each.name]}
    _answer(Asked(**said), as_json=as_json, working=working, evidence=evidence, units=units)


def demo(
    as_json: options.Json = False,
    working: options.Working = False,
    units: options.Units = "metric",
) -> None:
    """Check the embedded demo: a windblown larch with the back end."""
    if not as_json:
        typer.echo(f"$ {command_of(DEMO)}\n")
    _answer(DEMO, as_json=as_json, working=working, evidence=False, units=units)


def command_of(asked: Asked) -> str:
    """The command line that asks for a lift."""
    words = ["liftcalc", "check", asked.machine]
    plain = replace(asked, machine="")
    for each in fields(Asked):
        value = getattr(plain, each.name)
        if value is True:
            words.append(f"--{each.name.replace('_', '-')}")
        elif value and value != each.default:
            words += [f"--{each.name.replace('_', '-')}", value]
    return shlex.join(words)


def _answer(asked: Asked, *, as_json: bool, working: bool, evidence: bool, units: str) -> None:
    gather = Gather()
    with gather:
        system = options.system_of(units)
    with gather:
        read = read_lift(asked)
    gather.raise_any()
    answer = answer_of(read.lift)
    steps = _working(answer) if working else []
    if as_json or evidence:
        made = record(answer, read, evidence=evidence)
        if working:
            made["working"] = steps
        typer.echo(json.dumps(made, ensure_ascii=False, allow_nan=False, indent=2))
        return
    for line in [*table(answer, read, system), *([""] if steps else []), *steps]:
        typer.echo(line)


def _working(answer: Answer) -> list[str]:
    from liftcalc.working.steps import worked_out  # noqa: PLC0415 - only when asked for
    from liftcalc.working.text import section_lines  # noqa: PLC0415

    lines = ["Working, in SI"]
    for section in worked_out(answer):
        lines += ["", *section_lines(section)]
    return lines
