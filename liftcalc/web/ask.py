"""The page "Ask the other way round": how far, how long, how steep, what would help."""

from __future__ import annotations

from collections.abc import Callable

import streamlit as st

from liftcalc.answers.search import Turned
from liftcalc.answers.turned import QUESTIONS, Told, Wanted, read_question, tell
from liftcalc.units import System, show
from liftcalc.web import blocks
from liftcalc.web.form import Form
from liftcalc.web.frame import answered, opened
from liftcalc.web.inputs import ask


def page() -> None:
    """Draw the page."""
    system = opened(
        "Ask the other way round",
        "Not “can it?” but “how far, how long, how steep?”. Every answer is checked at its value "
        "and just beyond, and says what would buy more.",
    )
    question = st.selectbox(
        "Question", list(QUESTIONS), format_func=lambda name: QUESTIONS[name], key="question"
    )

    def answer(form: Form) -> Callable[[], None]:
        wanted = Wanted(question=question)
        read = read_question(wanted, form.asked())
        form.understood(read.read.echoes)
        with st.spinner("Searching …"):
            found = tell(read)
        st.html(_told(found, system))
        return lambda: _show(found, system)

    answered(ask, answer)


def _value(turned: Turned, system: System) -> str:
    if turned.value is None:
        return "none"
    return show(turned.value, turned.kind, system=system, rounding=turned.rounding)


def _told(found: Told, system: System) -> str:
    """The figures, and a mark that is good only where the lift passes at every one of them."""
    if not found.turned:
        return blocks.told("close", "What would buy more is listed below", ())
    pairs = [(each.question.capitalize(), _value(each, system)) for each in found.turned]
    pairs += [("Stopped by", each.stopped_by) for each in found.turned]
    pairs += [("Note", note) for each in found.turned for note in each.notes]
    if all(each.value is None for each in found.turned):
        return blocks.told("no", "No: there is none", pairs)
    if all(each.at is not None and each.at.passes for each in found.turned):
        return blocks.told(
            "ok", "There is an answer, by the model, and the lift passes there", pairs
        )
    return blocks.told("close", "A figure, but not a lift that passes: read the notes", pairs)


def _checked(each: Turned) -> list[tuple[str, str]]:
    """What the forward check says at the answer and just beyond it."""
    if each.value is None or each.at is None or each.beyond is None:
        return []
    here = "passes there" if each.at.passes else "does not pass even there"
    beyond = "cannot stand" if each.beyond.answer is None else "does not pass"
    return [("Checked", f"{here}; just beyond it {beyond}")]


def _show(found: Told, system: System) -> None:
    for each in found.turned:
        st.subheader(each.question.capitalize(), anchor=False)
        st.html(
            blocks.facts(
                [
                    ("Answer", _value(each, system)),
                    ("Stopped by", each.stopped_by),
                    *_checked(each),
                    *(
                        (x.name, show(x.value, x.kind, system=system, rounding=x.rounding))
                        for x in each.details
                    ),
                ]
            )
        )
        st.html(blocks.bullets(each.notes))
    st.subheader("What would buy more, one at a time", anchor=False)
    st.html(blocks.remedies_table(found.more, system))
    warnings = next(
        (e.at.answer.warnings for e in found.turned if e.at is not None and e.at.answer), ()
    )
    if warnings:
        st.subheader("Warnings", anchor=False)
        st.html(blocks.bullets(warnings))
