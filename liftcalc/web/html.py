"""Pieces of the page as HTML. Everything that is not ours to write is escaped here."""

from __future__ import annotations

import math
from collections.abc import Iterable
from html import escape

from liftcalc.errors import Fault
from liftcalc.evaluation.answer import Answer, Criterion
from liftcalc.factors import CAUTION, CLOSE
from liftcalc.figures.svg import image
from liftcalc.questions.remedies import Remedy
from liftcalc.remarks import Remark, worded
from liftcalc.reports.text import NOTHING_MORE
from liftcalc.reports.words import texts
from liftcalc.requests.table import Field
from liftcalc.units import System, show

MARKS = {"ok": "✓", "close": "!", "no": "✕"}


PLATE = Remark("unsaid_plate")
"""The one thing that may stay unsaid under a tick: a machine may have no plate."""


def standing_of(answer: Answer) -> str:
    """Which of the three faces an answer has; a tick only where all but the plate was told."""
    if answer.judgement is not None and answer.judgement.standing == "open":
        return "close"
    if not answer.passes:
        return "no"
    return "close" if left_open(answer.unchecked) or answer.utilisation > CLOSE else "ok"


def left_open(unchecked: Iterable[Remark]) -> bool:
    """Whether more was left unsaid than what the plate allows."""
    return any(each != PLATE for each in unchecked)


def help_line(row: Field, echo: str = "") -> str:
    """How to measure, and what was understood."""
    read = f' <span class="lc-read">Read as {escape(echo)}.</span>' if echo else ""
    there = f"field-{row.option}"
    return f'<p class="lc-help" id="{there}">{escape(row.advice)}{read}</p>'


def fault_line(fault: Fault, system: System = "metric") -> str:
    """A fault beside its input."""
    return f'<p class="lc-fault">✕ {escape(said(worded(fault, system)))}</p>'


def said(fault: Fault) -> str:
    """A fault in a sentence, without its field."""
    parts = [f"Given {fault.given}"]
    if fault.understood:
        parts.append(f"understood as {fault.understood}")
    parts.append(f"wanted {fault.wanted}")
    if fault.fix:
        parts.append(fault.fix)
    return "; ".join(parts) + "."


def faults_block(faults: Iterable[Fault], system: System = "metric") -> str:
    """Everything that has to be put right before there is an answer."""
    listed = [worded(each, system) for each in faults]
    count = "One thing needs" if len(listed) == 1 else f"{len(listed)} things need"
    items = "".join(
        f"<li><strong>{escape(each.field)}</strong>: {escape(said(each))}</li>" for each in listed
    )
    return (
        '<section class="lc-answer lc-no" role="status">'
        f'<p class="lc-verdict"><span class="lc-mark" aria-hidden="true">?</span>No answer yet: '
        f"{count} putting right</p><ul>{items}</ul>"
        f'<p class="lc-caution">{escape(CAUTION)}</p></section>'
    )


def told(
    face: str,
    verdict: str,
    pairs: Iterable[tuple[str, str]],
    more: str = "",
    why: Iterable[str] = (),
    *,
    jump: str = "Change the lift",
) -> str:
    """Any answer: a mark, the verdict, what is behind it, figures, caution, ``more`` as HTML.

    ``jump`` are the words of a link to the inputs, for when they stand below the answer.
    """
    behind = "".join(f'<p class="lc-why">{escape(each)}</p>' for each in why)
    return (
        f'<section class="lc-answer lc-{face}" role="status">'
        f'<p class="lc-verdict"><span class="lc-mark" aria-hidden="true">{MARKS[face]}</span>'
        f"<span>{escape(verdict)}</span></p>{behind}{facts(pairs)}"
        f'<p class="lc-caution">{escape(CAUTION)}</p>{more}'
        f'<p class="lc-jump"><a href="#the-lift">{escape(jump)} ↓</a></p></section>'
    )


INPUTS = '<h2 class="lc-place" id="the-lift">The lift</h2>'
"""The anchor of that link."""


def used(criterion: Criterion) -> str:
    """How much of a criterion this log uses; in words where that is no number."""
    if math.isinf(criterion.utilisation):
        return "no room at all"
    return f"{show(criterion.utilisation, 'ratio', rounding='up')} used"


def picture(svg_file: bytes, about: str) -> str:
    """A figure that was saved as SVG, as an image with its words for a screen reader."""
    return image(svg_file, about, 'class="lc-figure"')


def remedies_table(more: Iterable[Remedy], system: System) -> str:
    """What would buy more, one at a time, the most first."""
    rows = ""
    for each in more:
        worth, enough = "–", "no figure yet"
        name, must = texts((each.name, each.must), system)
        if each.worth is not None:
            worth = show(each.worth, "mass", system, "down")
            enough = "✓ within the limits" if each.after.passes else "not enough alone"
        rows += (
            f'<tr><th scope="row">{escape(name)}<small>if {escape(must)}</small></th>'
            f"<td>{escape(worth)}</td><td>{escape(enough)}</td></tr>"
        )
    if not rows:
        return bullets((NOTHING_MORE,))
    return table(("Change", "Worth", "Then"), rows)


def table(heads: Iterable[str], rows: str) -> str:
    """A table with its heads over it; ``rows`` is HTML."""
    head = "".join(f"<th scope=col>{escape(each)}</th>" for each in heads)
    return f'<table class="lc-table"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>'


def bar(share: float, *, over: bool, more: str = "") -> str:
    """A share as a bar, marked where it is over; ``more`` is HTML inside of it."""
    return (
        f'<span class="lc-bar{" lc-over" if over else ""}" aria-hidden="true">'
        f'<span style="width:{share:.0%}"></span>{more}</span>'
    )


def bullets(texts: Iterable[str]) -> str:
    """A list of sentences."""
    items = "".join(f"<li>{escape(each)}</li>" for each in texts)
    return f'<ul class="lc-list">{items}</ul>'


def part(title: str, inner: str) -> str:
    """A part of a page under its title; ``inner`` is HTML."""
    return f'<section class="lc-part"><h3>{escape(title)}</h3>{inner}</section>'


def folded(title: str, inner: str) -> str:
    """A part that opens when it is clicked; ``inner`` is HTML."""
    return f"<details><summary>{escape(title)}</summary>{inner}</details>"


def facts(pairs: Iterable[tuple[str, str]]) -> str:
    """Names and values, as the log's figures are shown; long values in smaller words."""
    rows = "".join(_fact(name, value) for name, value in pairs)
    return f'<dl class="lc-facts">{rows}</dl>' if rows else ""


ALLOWED = "Allowed load at the lift point"
SHORT = 18
"""Most letters of a value that is shown large."""


def _fact(name: str, value: str) -> str:
    words = ' class="lc-words"' if len(value) > SHORT else ""
    return f"<div{words}><dt>{escape(name)}</dt><dd>{escape(value)}</dd></div>"
