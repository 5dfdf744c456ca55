"""The list of everyday lifts as records, and what the command line says to each.

``lifts.toml`` is written by a careful person, not by a run: this only reads it.
"""

from __future__ import annotations

import contextlib
import io
import json
import re
import shlex
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

HERE = Path(__file__).parent
MACHINES = HERE.parents[1] / "machines"
STATUS = {"holds": 0, "fails": 1, "open": 3}
"""What a command ends with, by its verdict."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Everyday:
    """One lift of the list.

    ``says`` are the verdicts that a careful person accepts; ``machine`` are changes of the file of
    the machine, old text and new; ``never`` must not be found in what is said; ``only`` is the end
    that is judged of a comparison; ``issue`` is what it stands for on the engineer's lists.
    """

    title: str
    command: str
    says: tuple[str, ...]
    why: str
    issue: str = ""
    machine: tuple[tuple[str, str], ...] = ()
    never: str = ""
    only: str = ""

    @property
    def words(self) -> list[str]:
        """The command as its words."""
        return shlex.split(self.command)


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What the tool says to one lift, and by what it is decided."""

    verdict: str
    by: str
    document: dict[str, Any]
    printed: str


@cache
def everyday() -> tuple[Everyday, ...]:
    """Every lift of the list, with its kits put in."""
    read = tomllib.loads((HERE / "lifts.toml").read_text(encoding="utf-8"))
    kit: dict[str, str] = read["kit"]

    def whole(command: str) -> str:
        while found := re.search(r"\{(\w+)\}", command):
            command = command.replace(found[0], kit[found[1]])
        return command

    return tuple(
        Everyday(**each | {"command": whole(each["command"]), **tuples(each)})
        for each in read["lift"]
    )


def tuples(each: dict[str, Any]) -> dict[str, Any]:
    """The lists of a row as tuples."""
    changes = tuple((old, new) for old, new in each.get("machine", ()))
    return {"says": tuple(each["says"]), "machine": changes}


@cache
def command(name: str) -> Any:
    """One command of the command line, made ready once."""
    import typer

    from liftcalc.cli.main import command_line

    return typer.main.get_command(command_line(name))


@contextlib.contextmanager
def changed(words: list[str], changes: tuple[tuple[str, str], ...]) -> Iterator[list[str]]:
    """A command of the machine as it is, or of one with its file changed."""
    if not changes:
        yield words
        return
    text = (MACHINES / f"{words[1]}.toml").read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    with TemporaryDirectory() as folder:
        file = Path(folder) / f"{words[1]}.toml"
        file.write_text(text, encoding="utf-8")
        yield [words[0], str(file), *words[2:]]


def run(words: list[str]) -> tuple[int, str]:
    """Exit status and output of a command, in this process; its faults are raised."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        status = command(words[0]).main(args=words, prog_name="liftcalc", standalone_mode=False)
    return status or 0, out.getvalue()


@cache
def said_to(lift: Everyday) -> Said:
    """What the tool says to a lift of the list.

    A question has a verdict of its own, or holds where it found a value at which the lift passes.
    """
    with changed(lift.words, lift.machine) as words:
        status, printed = run([*words, "--json"])
    made = json.loads(printed)
    answer = made.get("answer", {})
    if lift.only:
        verdict = by = made["ends"][lift.only]["judgement"]
    elif "judgement" in answer:
        verdict = answer["judgement"]
        assert status == STATUS[verdict], f"{verdict}, and the command ends with {status}"
    else:
        asked = made["answers"]
        verdict = "holds" if all((each["at"] or {}).get("passes") for each in asked) else "open"
    decider = answer.get("decider") or {}
    governs = answer.get("governs") or made.get("reason", "")
    by = (
        decider.get("option")
        or governs
        or ", ".join(sorted({each["stopped_by"] for each in made.get("answers", ())}))
    )
    return Said(verdict=verdict, by=by.replace("\u00a0", " "), document=made, printed=printed)


def row(lift: Everyday, said: Said) -> str:
    """A row of the table that a reader can argue with."""
    title = f"{lift.title} ({lift.issue})" if lift.issue else lift.title
    cells = (title, " or ".join(lift.says), lift.why, said.verdict, said.by)
    return "| " + " | ".join(" ".join(each.replace("|", "/").split()) for each in cells) + " |"


HEAD = """## Everyday lifts

What a careful person says to each of these, written down with its reason before any run, and what
the tool says. The commands are in `tests/judgement/lifts.toml`. "Decided by" is the option whose
telling would decide it, or else what stops it first. Y and N are an engineer's own cases: yeses
that he would stop and noes that nobody would accept.

| lift | a careful person says | why | the tool says | decided by |
|---|---|---|---|---|
"""
HEAD_OF_NEEDS = """### Capacity needed over likely mass

Medians over those of the lifts above that a careful person signs, by two readings: of what stops
each first, and of the most that tipping or a ram needs, whether it comes first or not. The first
keeps every target; the second misses all but the last, by 0.001 to 0.1. It is the planning mass and
its rigging over the machine's tolerance (3 %) and the share that a standard sets, and nothing more
(held by the test). "Mass over share" leaves rigging and tolerance out: no factor of the tool's own
is left in it (decision 10).

| log | lift | lifts | what stops it first | tipping and rams | mass over share | to be at most |
|---|---|---|---|---|---|---|
"""
