"""Pieces of the page as HTML. Everything that is not ours to write is escaped here."""

from __future__ import annotations

import base64
import math
from collections.abc import Iterable
from html import escape

from liftcalc.answers.answer import Answer, Criterion
from liftcalc.answers.remedies import Remedy
from liftcalc.errors import Fault
from liftcalc.figures.scene import Scene
from liftcalc.figures.svg import svg
from liftcalc.rules import CAUTION, CLOSE
from liftcalc.units import Rounding, System, show
from liftcalc.web.fields import Field

MARKS = {"ok": "✓", "close": "!", "no": "✕"}


def standing_of(answer: Answer) -> str:
    """Which of the three faces an answer has."""
    if not answer.passes:
        return "no"
    return "close" if answer.utilisation > CLOSE else "ok"


def help_line(field: Field, how: str, echo: str = "") -> str:
    """How to measure, and what was understood."""
    read = f' <span class="lc-read">Read as {escape(echo)}.</span>' if echo else ""
    return f'<p class="lc-help">{escape(how or field.how)}{read}</p>'


def fault_line(fault: Fault) -> str:
    """A fault beside its input."""
    return f'<p class="lc-fault">✕ {escape(_said(fault))}</p>'


def _said(fault: Fault) -> str:
    parts = [f"Given {fault.given}"]
    if fault.understood:
        parts.append(f"understood as {fault.understood}")
    parts.append(f"wanted {fault.wanted}")
    if fault.fix:
        parts.append(fault.fix)
    return "; ".join(parts) + "."


def faults_block(faults: Iterable[Fault]) -> str:
    """Everything that has to be put right before there is an answer."""
    listed = list(faults)
    count = "One thing needs" if len(listed) == 1 else f"{len(listed)} things need"
    items = "".join(
        f"<li><strong>{escape(each.field)}</strong>: {escape(_said(each))}</li>" for each in listed
    )
    return (
        '<section class="lc-answer lc-no" role="status">'
        f'<p class="lc-verdict"><span class="lc-mark" aria-hidden="true">?</span>No answer yet: '
        f"{count} putting right</p><ul>{items}</ul>"
        f'<p class="lc-caution">{escape(CAUTION)}</p></section>'
    )


def answer_block(answer: Answer, system: System) -> str:
    """Verdict, the figures behind it and the caution, in one block."""

    def kilos(value: float, rounding: Rounding) -> str:
        return show(value, "mass", system=system, rounding=rounding)

    log, face = answer.lift.log, standing_of(answer)
    figures = [
        ("Allowed load at the lift point", kilos(answer.allowed, "down")),
        ("This log, to plan on", kilos(log.mass_planning, "up")),
        ("Heaviest log here", kilos(answer.heaviest_log, "down")),
        ("Would stop it first", f"{answer.governs}, {used(answer.governing)}"),
    ]
    return told(face, answer.verdict, figures)


def told(face: str, verdict: str, pairs: Iterable[tuple[str, str]]) -> str:
    """Any answer: a mark, words, the figures behind them, and the caution."""
    return (
        f'<section class="lc-answer lc-{face}" role="status">'
        f'<p class="lc-verdict"><span class="lc-mark" aria-hidden="true">{MARKS[face]}</span>'
        f"{escape(verdict)}</p>{facts(pairs)}"
        f'<p class="lc-caution">{escape(CAUTION)}</p></section>'
    )


def used(criterion: Criterion) -> str:
    """How much of a criterion this log uses, in words where no number would do."""
    if math.isinf(criterion.utilisation):
        return "no room at all"
    return f"{show(criterion.utilisation, 'ratio', rounding='up')} used"


def criteria_table(answer: Answer, system: System) -> str:
    """Every criterion with its capacity, what is allowed of it and what this log uses."""
    head = "<tr><th>Limit</th><th>Capacity</th><th>Allowed</th><th>Used</th></tr>"
    body = "".join(_row(each, answer, system) for each in answer.criteria)
    return (
        f'<table class="lc-table"><thead>{head.replace("<th>", "<th scope=col>")}</thead>'
        f"<tbody>{body}</tbody></table>"
    )


def _row(each: Criterion, answer: Answer, system: System) -> str:
    capacity, allowed = (
        show(value, "mass", system=system, rounding="down")
        for value in (each.capacity, each.allowed)
    )
    over = not each.utilisation <= 1
    share = min(each.utilisation, 1.0)
    bar = (
        f'<span class="lc-bar{" lc-over" if over else ""}" aria-hidden="true">'
        f'<span style="width:{share:.0%}"></span></span>'
    )
    first = ' class="lc-first"' if each is answer.governing else ""
    note = "<small>would stop it first</small>" if first else ""
    return (
        f'<tr{first}><th scope="row">{escape(each.title)}{note}{bar}</th>'
        f"<td>{escape(capacity)}</td>"
        f"<td>{escape(allowed)}<small>{show(each.share.value, 'ratio')} of it</small></td>"
        f"<td>{'✕ ' if over else ''}{escape(used(each).removesuffix(' used'))}</td></tr>"
    )


def drawing(scene: Scene) -> str:
    """A drawing as an image: nothing in it can run, and its words are told to a screen reader."""
    return picture(svg(scene).encode(), scene.about)


def picture(svg_file: bytes, about: str) -> str:
    """A figure that was saved as SVG, as an image with its words for a screen reader."""
    data = base64.b64encode(svg_file).decode()
    return (
        f'<img class="lc-figure" src="data:image/svg+xml;base64,{data}" '
        f'alt="{escape(about, quote=True)}">'
    )


def remedies_table(more: Iterable[Remedy], system: System) -> str:
    """What would buy more, one at a time, the most first."""
    rows = ""
    for each in more:
        worth, enough = "–", "no figure yet"
        if each.worth is not None:
            worth = show(each.worth, "mass", system=system, rounding="down")
            enough = "✓ passes" if each.after.passes else "not enough alone"
        rows += (
            f'<tr><th scope="row">{escape(each.name)}<small>if {escape(each.must)}</small></th>'
            f"<td>{escape(worth)}</td><td>{escape(enough)}</td></tr>"
        )
    if not rows:
        return bullets(("Nothing that was tried would buy more.",))
    head = "<tr><th scope=col>Change</th><th scope=col>Worth</th><th scope=col>Then</th></tr>"
    return f'<table class="lc-table"><thead>{head}</thead><tbody>{rows}</tbody></table>'


def bullets(texts: Iterable[str]) -> str:
    """A list of sentences."""
    items = "".join(f"<li>{escape(each)}</li>" for each in texts)
    return f'<ul class="lc-list">{items}</ul>'


def facts(pairs: Iterable[tuple[str, str]]) -> str:
    """Names and values, as the log's figures are shown."""
    rows = "".join(f"<div><dt>{escape(a)}</dt><dd>{escape(b)}</dd></div>" for a, b in pairs)
    return f'<dl class="lc-facts">{rows}</dl>'
