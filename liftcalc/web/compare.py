"""The page "Front or back": both ends for one log, from pick-up to set-down. No arithmetic."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import partial
from html import escape

import streamlit as st

from liftcalc.factors import CLOSE
from liftcalc.questions.compare import (
    Comparison,
    EndResult,
    Tried,
    compared,
    doubts_of,
    unchecked_of,
)
from liftcalc.remarks import Remark
from liftcalc.reports.text import PLAN_ON, judgement_sentences
from liftcalc.reports.words import text, texts
from liftcalc.requests.compare import ParsedCompare, parse_compare
from liftcalc.requests.fields_of_commands import CompareRequest
from liftcalc.units import System, show
from liftcalc.web import html
from liftcalc.web.form import Form
from liftcalc.web.inputs import ask
from liftcalc.web.page_frame import answered, opened
from liftcalc.web.verdict import unsaid


def page() -> None:
    """Draw the page."""
    system = opened("Front or back", "Which end for this log, from where it lies to where it goes?")

    def answer(form: Form) -> Callable[[], object]:
        read = parse_compare(form.request())
        found = compared(read)
        form.understood(read.echoes)
        st.html(_told(found, read, system, form))
        return lambda: st.html(_shown(found, system))

    answered(partial(ask, CompareRequest), answer)


def _told(found: Comparison, read: ParsedCompare, system: System, form: Form) -> str:
    chosen = None if found.choice is None else getattr(found, found.choice)
    unchecked, judged = unchecked_of(found), found.judgement
    face = "ok"
    if judged.standing == "fails":
        face = "no"
    elif (
        chosen is None
        or judged.standing == "open"
        or chosen.utilisation > CLOSE
        or html.left_open(unchecked)
    ):
        face = "close"
    log = read.back.lift.log
    pairs = [(PLAN_ON.capitalize(), show(log.mass_planning, "mass", system, "up"))]
    pairs += [(f"{each.end.capitalize()} end uses", _used(each.utilisation)) for each in found.ends]
    verdict, *why = judgement_sentences(judged, system)
    more = unsaid(unchecked, system, form.slots)
    return html.told(face, verdict, pairs, more, [*why, text(found.reason, system)])


def _used(value: float) -> str:
    return "more than there is" if math.isinf(value) else show(value, "ratio", rounding="up")


def _shown(found: Comparison, system: System) -> str:
    """Both ends, and the warnings."""
    ends = "".join(_end(each, system) for each in found.ends)
    warnings = html.part("Warnings", html.bullets(texts(doubts_of(found), system)))
    return f'<div class="lc-two">{ends}</div>{warnings}'


def _end(end: EndResult, system: System) -> str:
    made = ""
    if math.isfinite(end.margin):
        left = show(end.margin, "mass", system, "down")
        made += html.facts([("Left over for this log, at the worse place", left)])
    for each in end.places:
        made += f"<h4>{escape(each.place.name.capitalize())}</h4>"
        made += html.facts(_place(each, system))
    if end.blocked:
        made += html.bullets((text(Remark("not_so", why=end.blocked), system),))
    made += "<h4>Counts only if</h4>" + html.bullets(texts(end.must, system))
    if end.unknown:
        made += "<h4>Find out first</h4>" + html.bullets(texts(end.unknown, system))
    return html.part(f"{'✓' if end.passes else '✕'} {end.end.capitalize()} end", made)


def _place(each: Tried, system: System) -> list[tuple[str, str]]:
    outcome = each.outcome
    if outcome.answer is None:
        return [("Cannot stand so", text(outcome.stopped_by, system))]
    answer = outcome.answer

    def length(value: float) -> str:
        return show(value, "length", system)

    return [
        ("Allowed", show(answer.allowed, "mass", system, "down")),
        ("Used", f"{'✓' if outcome.passes else '✕'} {_used(answer.utilisation)}"),
        ("Stopped first by", text(outcome.stopped_by, system)),
        ("Lift point up", length(outcome.lift.height)),
        ("Reach", length(answer.reached.reach)),
    ]
