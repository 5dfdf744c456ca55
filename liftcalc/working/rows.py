"""Rows and sections of worked steps: a formula put to work, as text and as LaTeX."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass

from liftcalc.physics.formula import FORMULAS
from liftcalc.physics.nomenclature import WORDS
from liftcalc.physics.worked import Worked

_SLOT = re.compile("‹([a-z_0-9]+)›")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line: why, the formula in letters and in numbers (LaTeX), plain text and the result."""

    why: str
    letters: str
    numbers: str
    plain: str
    result: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """The working of one figure of the answer."""

    title: str
    rows: tuple[Row, ...]
    source: str = ""


def figure(value: float, *, digits: int = 5) -> str:
    """A number as it stands in a worked step: enough digits to be done again by hand."""
    if math.isnan(value):
        return "no value"
    if math.isinf(value):
        return "no limit" if value > 0 else "−no limit"
    if value == 0:
        return "0"
    places = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    shown = f"{value:.{places}f}"
    return shown.rstrip("0").rstrip(".") if "." in shown else shown


def bracketed(value: float) -> str:
    """A number as it stands inside a formula: in brackets when it is negative."""
    shown = figure(value)
    return f"({shown})" if shown.startswith("-") else shown


def measured(value: float, unit: str) -> str:
    """A number with its unit; what has no limit has no unit either."""
    return figure(value) if unit == "-" or math.isinf(value) else f"{figure(value)} {unit}"


def rows_of(worked: Worked) -> tuple[Row, ...]:
    """The steps of one formula, as rows."""
    # Here and nowhere else, so that sympy is loaded for a working that is asked for.
    from liftcalc.working.typeset import printed  # noqa: PLC0415

    known = {name: float(value) for name, value in worked.given.items()}

    def letter(found: re.Match[str]) -> str:
        return f"{{{WORDS[found[1]].letter}}}"

    def latex_number(found: re.Match[str]) -> str:
        return f"{{{bracketed(known[found[1]])}}}"

    def number(found: re.Match[str]) -> str:
        return bracketed(known[found[1]])

    rows = []
    for step, value in zip(printed(worked.formula), map(float, worked.steps), strict=True):
        word = WORDS[step.word]
        rows.append(
            Row(
                why=step.why,
                letters=f"{word.letter} = {_SLOT.sub(letter, step.latex)}",
                numbers=_SLOT.sub(latex_number, step.latex),
                plain=f"{word.meaning} = {_SLOT.sub(number, step.text)}",
                result=measured(value, word.unit),
            )
        )
        known[word.name] = value
    return tuple(rows)


def section_of(worked: Worked) -> Section:
    """One formula put to work, as a section of its own."""
    formula, label = FORMULAS[worked.formula], worked.label
    title = formula.title
    repeats = label.lower() in title.lower()
    named = title if repeats else f"{label[:1].upper()}{label[1:]}: {title[:1].lower()}{title[1:]}"
    return Section(title=named, rows=rows_of(worked), source=formula.source)


def sum_rows(
    parts: Iterable[tuple[str, float, float]], *, what: str, letter: str, unit: str, per: str
) -> tuple[Row, ...]:
    """A sum of mass times something, one row a part, and its total."""
    rows, total = [], 0.0
    for name, mass, each in parts:
        total += mass * each
        rows.append(
            Row(
                why=name,
                letters=rf"m \cdot {per}",
                numbers=rf"{figure(mass)} \cdot {bracketed(each)}",
                plain=f"{name} = {figure(mass)} · {bracketed(each)}",
                result=f"{figure(mass * each)} {unit}",
            )
        )
    rows.append(
        Row(
            why=f"{what}, the sum",
            letters=rf"{letter} = \sum m \cdot {per}",
            numbers="",
            plain=f"{what}, the sum",
            result=f"{figure(total)} {unit}",
        )
    )
    return tuple(rows)


def plain_row(what: str, numbers: str, result: str, *, letters: str, why: str = "") -> Row:
    """A step that is no formula of ``formulas``: its numbers stand in words and in LaTeX alike."""
    return Row(
        why=why or what,
        letters=letters,
        numbers=numbers.replace("·", r"\cdot ").replace("−", "-"),
        plain=f"{what} = {numbers}" if numbers else what,
        result=result,
    )
