"""What a working shows is the evidence's own figure, or comes out of the line that shows it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest

from liftcalc.reports.data import record
from liftcalc.working.rows import Section, figure
from tests.unit.test_working import CASES, reckoned, worked

NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def numbers(data: Any) -> Iterator[float]:
    """Every number of plain data."""
    if isinstance(data, dict):
        data = list(data.values())
    if isinstance(data, list | tuple):
        for each in data:
            yield from numbers(each)
    elif isinstance(data, int | float) and not isinstance(data, bool):
        yield float(data)


def unfounded(sections: tuple[Section, ...], evidence: Any) -> list[str]:
    """Lines whose result is neither in the evidence nor what the line itself comes to."""
    known = {figure(each) for each in numbers(evidence)}
    lines, parts = [], []
    for row in (row for section in sections for row in section.rows):
        shown = NUMBER.match(row.result)
        if row.letters.startswith(r"m \cdot"):
            parts.append(row.result.split()[0])
        line = row.plain.partition(" = ")[2]
        if row.plain.endswith(", the sum"):  # of the column of parts above it
            line, parts = " + ".join(f"({each})" for each in parts), []
        if shown is None or shown[0] in known:
            continue
        found = reckoned(line)
        if found is None or abs(float(shown[0]) - found[0]) > found[1] + 1e-12:
            lines.append(f"{row.plain} = {row.result}")
    return lines


@pytest.mark.parametrize("name", CASES)
def test_every_result_is_in_the_evidence_or_comes_out_of_its_line(name: str) -> None:
    read, answer, sections = worked(name)
    assert not unfounded(sections, record(answer, read, evidence=True))


def test_a_working_of_another_answer_is_seen() -> None:
    """What guards is the evidence: of another lift it does not hold these figures."""
    _, _, sections = worked("demo")
    read, answer, _ = worked("slewing")
    assert unfounded(sections, record(answer, read, evidence=True))
