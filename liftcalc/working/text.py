"""Worked steps as lines of plain text."""

from __future__ import annotations

from collections.abc import Iterable

from liftcalc.physics.worked import Worked
from liftcalc.working.rows import Section, section_of


def section_lines(section: Section) -> list[str]:
    """One section: its title, its source, and a line or two for every step."""
    made = [section.title]
    if section.source:
        made.append(f"  source: {section.source}")
    for row in section.rows:
        # A constant reads "x = 1.54", not "x = 1.54 = 1.54".
        given = row.plain.rpartition(" = ")[2] == row.result.split(" ")[0]
        made.append(f"  {row.plain}" if given else f"  {row.plain} = {row.result}")
        if row.why and not row.plain.startswith(row.why):
            made.append(f"      {row.why}")
    return made


def lines(worked: Iterable[Worked]) -> list[str]:
    """The working of formulas that were put to work, a blank line between them."""
    made: list[str] = []
    for each in worked:
        made += [*section_lines(section_of(each)), ""]
    return made[:-1]
