"""``liftcalc machine new`` and ``machine facts``: a machine from what one has, asked one by one."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Any

import typer

from liftcalc.cli import options
from liftcalc.errors import InputError
from liftcalc.evaluation.members import slip_remark
from liftcalc.factors import CAUTION
from liftcalc.family.fact import Fact
from liftcalc.family.facts import FACTS, fact
from liftcalc.family.facts_file import CHOICES, facts_of, known, written
from liftcalc.family.files import is_of_facts, load
from liftcalc.family.kind import CLASSES, machine_kind
from liftcalc.family.known import KnownMachine
from liftcalc.family.points import POINTS
from liftcalc.family.telling import example, told_fact
from liftcalc.family.unlikely_fact import unlikely_fact
from liftcalc.files import read_file, write_all
from liftcalc.judgement.next_fact import paying
from liftcalc.judgement.usual_lift import allowed_there, usual_lift, usual_reach
from liftcalc.machines.files import table_of
from liftcalc.reports.words import text as text_of
from liftcalc.units import Kind, System, show

DONE = "done"
SMALL = 0.3
"""Lengths below which are told in millimetres [m]."""
NEXT = 3
"""Facts that are named at the end as the next to tell."""
Raw = dict[str, Any]


def machine_new(
    file: Annotated[str, typer.Argument(help="File to write; one that is there goes on.")],
    machine_class: Annotated[
        str, typer.Option("--class", help="The class it is nearest to, by its name.")
    ] = "",
    facts: Annotated[
        list[str] | None,
        typer.Option("--fact", help="KEY=VALUE, such as 'total=7400 kg'; then nothing is asked."),
    ] = None,
    units: options.Units = "metric",
) -> None:
    """Describe your own machine: its class, then any facts that you have, the best paid first."""
    system, raw = options.system_of(units), _begun(file)
    if machine_class:
        raw["class"] = machine_kind(machine_class).of.name
    for each in facts or ():
        key, _, value = each.partition("=")
        _add(raw, key.strip(), value.strip())
    if facts:
        machine = known(facts_of(raw, file=file))
        _save(file, raw)
    else:
        machine = _conversation(file, raw, system)
    options.say(_ending(file, machine, system))


def _begun(file: str) -> Raw:
    """What a file of facts that is there already tells; nothing where there is none."""
    if not file.endswith(".toml"):
        raise InputError.of(
            field="file", given=f'"{file}"', wanted="the name of a file that ends in .toml"
        )
    content = read_file(file, field="file", wanted="a file that can be read", absent=b"")
    raw = table_of(content, file=file)
    if raw and not is_of_facts(raw):
        raise InputError.of(
            field="file",
            given=f'"{file}", a file of all figures',
            wanted="a new file, or one of facts",
            fix="choose another name",
        )
    return raw


def _add(raw: Raw, key: str, text: str) -> None:
    """A fact beside those told; several of one are a list."""
    before = raw.get(key)
    if before is None or not fact(key).asks:
        raw[key] = text
    else:
        raw[key] = [*(before if isinstance(before, list) else [before]), text]


def _save(file: str, raw: Raw) -> None:
    write_all([(file, written(raw).encode("utf-8"))])


def _ask(words: str) -> str:
    """One answer; an end of the input ends the conversation too."""
    try:
        return str(typer.prompt(words, default="", show_default=False, prompt_suffix=" ")).strip()
    except typer.Abort:
        typer.echo("")
        return DONE


def _conversation(file: str, raw: Raw, system: System) -> KnownMachine:
    if "class" not in raw and not _class_asked(raw):
        raise InputError.of(field="class", given="nothing", wanted=f"one of {', '.join(CLASSES)}")
    machine = known(facts_of(raw, file=file))
    _save(file, raw)
    typer.echo(
        f"Now what you have, the best paid first. Enter: not known. {DONE}: that is all for now, "
        f"and {file} holds what was told."
    )
    typer.echo(_range(machine, system))
    for each in FACTS.values():
        while each.key not in raw or each.asks:
            text = _ask(_question(each, again=each.key in raw))
            if text.lower() == DONE:
                return machine
            if not text:
                break
            machine = _told(file, raw, each, text, machine, system)
    return machine


def _class_asked(raw: Raw) -> bool:
    """Class and build of the machine; whether there is one."""
    names = list(CLASSES)
    for number, name in enumerate(names, 1):
        pattern = machine_kind(name).pattern
        mass = f"about {CLASSES[name].mass / 1000:.1f} t"
        typer.echo(f"  {number}  {pattern.title}, {mass}. {pattern.note}")
    while True:
        text = _ask("Which is most like your machine (a number)?")
        if text.lower() in {"", DONE}:
            return False
        if text.isdigit() and 1 <= int(text) <= len(names):
            break
        typer.echo(f"  a number from 1 to {len(names)}")
    raw["class"] = names[int(text) - 1]
    usual = CLASSES[raw["class"]]
    for key, words in (
        ("mount", "How is the back end mounted"),
        ("boom_ram", "On which side of the boom is its ram"),
    ):
        asked = f"{words}: {' or '.join(CHOICES[key])} (Enter: {getattr(usual, key)})?"
        text = _ask(asked).lower()
        if text in CHOICES[key]:
            raw[key] = text
    return True


def _question(each: Fact, *, again: bool) -> str:
    more = "another" if again else each.question
    return f"{more} (such as {example(each)}):"


def _told(
    file: str, raw: Raw, each: Fact, text: str, machine: KnownMachine, system: System
) -> KnownMachine:
    """The machine with one fact more; as it was where that cannot be read or belongs to none."""
    more = dict(raw)
    try:
        slip = unlikely_fact(machine.ensemble, told_fact(each.key, text))
        if slip is not None:
            typer.echo(f"  {text_of(slip_remark(slip), system)}")
            if again := _ask("  Enter: it is right; or type it again:"):
                text = again
        _add(more, each.key, text)
        found = known(facts_of(more, file=file))
    except InputError as error:
        typer.echo(f"  {error}")
        return machine
    raw.clear()
    raw.update(more)
    _save(file, raw)
    typer.echo(_range(found, system))
    return found


def _figure(value: float, unit: Kind, system: System) -> str:
    """A figure; a short length in millimetres."""
    small = unit == "length" and system == "metric" and abs(value) < SMALL
    return f"{1000 * value:.0f} mm" if small else show(value, unit, system, "up")


def _range(machine: KnownMachine, system: System) -> str:
    found = allowed_there(machine)
    if found is None:
        return "  at the usual lift it does not reach"
    low, high = (show(each, "mass", system, "down") for each in (found.low, found.high))
    places = (usual_reach(machine), found.height)
    reach, up = (show(each, "length", system) for each in places)
    return f"  allowed with the hook {reach} out and {up} up: {low} (may be up to {high})"


def _ending(file: str, machine: KnownMachine, system: System) -> Iterator[str]:
    yield ""
    yield f"{file}: {machine.title}, known by {machine.known_by}."
    yield from (f"  {text_of(slip_remark(each), system)}" for each in machine.slips)
    yield _range(machine, system)
    best = paying(usual_lift(machine))[:NEXT]
    if best:
        yield "  what pays next, at this lift:"
    for each in best:
        yield f"    {each.key}: {each.question}; about {show(each.worth, 'mass', system, 'down')}"
    yield f"  liftcalc machine check {file}; liftcalc check {file} --help"
    yield ""
    yield CAUTION


def machine_facts(
    file: Annotated[str, typer.Argument(help="A file of facts: what would pay next.")] = "",
    units: options.Units = "metric",
) -> None:
    """List what can be told of a machine, and from where to where it is measured."""
    system = options.system_of(units)
    if file:
        machine = load(Path(file))
        if not isinstance(machine, KnownMachine):
            raise InputError.of(
                field="file", given=f'"{file}"', wanted="a file of facts, not of all figures"
            )
        options.say(
            f"{each.key:<24}{show(each.worth, 'mass', system, 'down'):>9}  {each.question}"
            for each in paying(usual_lift(machine))
        )
        return
    for each in FACTS.values():
        typer.echo(f"{each.key}: {each.question}")
        where = f"; from {' to '.join(POINTS[at].words for at in each.at)}" if each.at else ""
        typer.echo(f"    such as {example(each)}{where}; {_usual_tolerance(each, system)}")


def _usual_tolerance(each: Fact, system: System) -> str:
    parts = []
    if each.tolerance:
        parts.append(_figure(each.tolerance, each.unit, system))
    if each.share:
        parts.append(f"{100 * each.share:.2g} %")
    return f"± {' and '.join(parts) or '0'} ({each.reason})"
