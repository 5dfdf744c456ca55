"""Write docs/options.md from the table of fields: all that may be typed, and where.

python -m tests.write_options           writes the page
python -m tests.write_options --check   says whether the page is as it would be written
"""

from __future__ import annotations

import sys
from itertools import groupby
from pathlib import Path

from liftcalc.requests.fields import LiftRequest, LogRequest, fields_of
from liftcalc.requests.fields_of_commands import CompareRequest, LimitsRequest, QuestionRequest
from liftcalc.requests.sections import SECTIONS
from liftcalc.requests.table import Field
from liftcalc.requests.usual import USUAL, End
from liftcalc.units import EXAMPLES, SPACE

PAGE = Path(__file__).parents[1] / "docs" / "options.md"
COMMANDS = {
    "check": LiftRequest,
    "ask": QuestionRequest,
    "limits": LimitsRequest,
    "compare": CompareRequest,
    "log": LogRequest,
}
HEAD = """# What may be typed

Written by `tests/write_options.py` from `liftcalc/requests/fields.py`; do not edit.

The same words serve a command (`--sling-length "2.4 m"`), a page, a saved lift, a link
(`sling-length=2.4 m`) and Python (`sling_length="2.4 m"`). Every quantity has its unit: one number,
one unit, a decimal point, no commas. What is left out is taken somehow, and the answer says how.
Where "only" names no command, `check`, `ask`, `limits` and `compare` take it alike; `log` takes
what is of the log.
"""
COLUMNS = "| option | what | how | accepted | only |\n|---|---|---|---|---|\n"


def page() -> str:
    """The page as it should be."""
    rows: dict[str, Field] = {}
    commands: dict[str, list[str]] = {}
    for command, record in COMMANDS.items():
        for row in fields_of(record):
            rows.setdefault(row.option, row)
            commands.setdefault(row.option, []).append(command)
    ordered = sorted(rows.values(), key=lambda row: SECTIONS.index(row.section))
    text = HEAD
    for group, some in groupby(ordered, key=lambda row: row.section.group):
        text += f"\n## {group}\n\n{COLUMNS}"
        text += "".join(_line(row, commands[row.option]) for row in some)
    return text + silence()


SILENCE = """
## What silence counts as

What is not said has a usual range, common practice where no source is named. An answer is that of
the careful ends; what holds only at favourable ends cannot be said yet. Beside these the log may be
as heavy and as light as its species, the ground as weak and as firm as its name, the ground slope
by up to 1 % any way, somebody sit in the seat or nobody, and anything of the machine's file hang at
the other end, or nothing. What ground it is, what the rigging bears, and whether there are wires,
an edge or people has no range: until it is told no lift holds. A machine of which nobody told a
fault is taken as sound, and the answer names the walk round.

| option | careful end | favourable end | why |
|---|---|---|---|
"""


def silence() -> str:
    """The ranges of what nobody said."""

    def end(usual: End) -> str:
        return usual if isinstance(usual, str) else (usual.__doc__ or "").rstrip(".")

    rows = (
        (f"`--{name.replace('_', '-')}`", end(each.careful), end(each.favourable), each.why)
        for name, each in USUAL.items()
    )
    return SILENCE + "".join(f"| {' | '.join(row)} |\n" for row in rows)


def _line(row: Field, commands: list[str]) -> str:
    option = f"`{row.option.upper()}`" if row.argument else f"`--{row.option}`"
    only = [each.words for each in row.conditions]
    if "check" not in commands:
        only.insert(0, ", ".join(f"`{each}`" for each in commands))
    elif "compare" not in commands:
        only.insert(0, "not `compare`")
    cells = (option, row.label, row.advice, _accepted(row), "; ".join(only))
    return "".join(f"| {each} " if each else "| " for each in cells) + "|\n"


def _accepted(row: Field) -> str:
    """What is accepted, with an example of it."""
    if row.options:
        return ", ".join(f"`{each}`" for each in row.options)
    example = row.example or EXAMPLES.get(row.kind, '""').split('"')[1]
    if row.kind == "flag":
        return "said or not"
    bounds = row.bounds.replace(SPACE, " ")
    return "; ".join(part for part in (bounds, example and f"such as {example}") if part)


def main() -> int:
    """Write the page, or check that it is fresh."""
    if "--check" not in sys.argv:
        PAGE.write_text(page(), encoding="utf-8")
        return 0
    if PAGE.read_text(encoding="utf-8") == page():
        return 0
    print("docs/options.md is not as the table has it: make generated")
    return 1


if __name__ == "__main__":
    sys.exit(main())
