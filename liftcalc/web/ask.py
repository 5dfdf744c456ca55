"""The page "Ask the other way round": how far, how long, how steep, what would help."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import streamlit as st

from liftcalc.questions.registry import QuestionAnswer, find, with_more
from liftcalc.questions.search import InverseAnswer
from liftcalc.remarks import Remark
from liftcalc.reports.text import ONE_AT_A_TIME, details_in_words
from liftcalc.reports.words import text, texts
from liftcalc.requests.fields_of_commands import QUESTIONS, QuestionRequest
from liftcalc.requests.question import parse_question
from liftcalc.units import System, show
from liftcalc.web import html, state
from liftcalc.web.form import Form
from liftcalc.web.inputs import ask
from liftcalc.web.page_frame import answered, opened
from liftcalc.web.progress import Work
from liftcalc.web.verdict import unsaid


def page() -> None:
    """Draw the page."""
    system = opened(
        "Ask the other way round",
        "How far, how long, how steep? Every answer is checked at its value and just beyond.",
    )
    question = st.selectbox(
        "Question", list(QUESTIONS), format_func=lambda name: QUESTIONS[name], key="question"
    )
    state.kept().words["question"] = question

    def answer(form: Form) -> Callable[[], object]:
        request = form.request()
        read = parse_question(request)
        form.understood(read.read.echoes)
        work = Work("ask", request, steps=2)
        if work.stopped():
            return lambda: None
        turned = work.do("Searching …", lambda: find(read))
        found = work.do("Trying what would buy more …", lambda: with_more(read, turned))
        work.done()
        st.html(_told(found, system, form))
        return lambda: st.html(_shown(found, system))

    answered(partial(ask, QuestionRequest, question=question), answer)


def _value(turned: InverseAnswer, system: System) -> str:
    if turned.value is None:
        return "none"
    return show(turned.value, turned.kind, system, turned.rounding)


def _asked(turned: InverseAnswer, system: System) -> str:
    words = text(turned.question, system)
    return words[0].upper() + words[1:]


def _told(found: QuestionAnswer, system: System, form: Form) -> str:
    """The figures found, marked good only where the lift passes at every one of them."""
    if not found.turned:
        return html.told("close", "What would buy more is listed below", ())
    pairs = [(_asked(each, system), _value(each, system)) for each in found.turned]
    pairs += [("Stopped by", text(each.stopped_by, system)) for each in found.turned]
    pairs += [("Note", text(note, system)) for each in found.turned for note in each.notes]
    if all(each.value is None for each in found.turned):
        return html.told("no", "No: there is none", pairs)
    answers = [each.at.answer for each in found.turned if each.at is not None and each.at.answer]
    unchecked = dict.fromkeys(said for each in answers for said in each.unchecked)
    more = unsaid(unchecked, system, form.slots)
    if len(answers) == len(found.turned) and all(each.passes for each in answers):
        face = "close" if html.left_open(unchecked) else "ok"
        words = "There is an answer, within the model's limits"
        told = text(Remark("as_told" if unchecked else "told"))
        return html.told(face, words + told, pairs, more)
    words = "A figure, but not a lift within the limits: read the notes"
    return html.told("close", words, pairs, more)


def _checked(each: InverseAnswer) -> list[tuple[str, str]]:
    """What the forward check says at the answer and just beyond it."""
    if each.value is None or each.at is None or each.beyond is None:
        return []
    here = "within the limits there" if each.at.passes else "over the limits even there"
    beyond = "cannot stand" if each.beyond.answer is None else "over the limits"
    return [("Checked", f"{here}; just beyond it {beyond}")]


def _shown(found: QuestionAnswer, system: System) -> str:
    """Every figure with what was checked of it, what would buy more, and the warnings."""
    made = ""
    for each in found.turned:
        told = [
            ("Answer", _value(each, system)),
            ("Stopped by", text(each.stopped_by, system)),
            *_checked(each),
            *details_in_words(each, system),
        ]
        inner = html.facts(told) + html.bullets(texts(each.notes, system))
        made += html.part(_asked(each, system), inner)
    more = html.remedies_table(found.more, system)
    made += html.part(ONE_AT_A_TIME, more)
    warnings = next(
        (e.at.answer.warnings for e in found.turned if e.at is not None and e.at.answer), ()
    )
    return made + (html.part("Warnings", html.bullets(texts(warnings, system))) if warnings else "")
