"""The working of an answer on a page: reasons in words, formulas as they are printed."""

from __future__ import annotations

import re

import streamlit as st

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.lift import Lift
from liftcalc.web.form import plain
from liftcalc.web.page_frame import PRESSED
from liftcalc.working.steps import Row, Section, worked_out

_LATEX_SPECIAL = re.compile(r"([%#&_$])")
ALL = "every figure, one below the other (takes a while)"


def working(answer: Answer, asked: Lift) -> None:
    """The working of the figure that is asked for."""
    sections = {each.title: each for each in worked_out(answer, asked=asked)}
    first = next(
        (title for title in sections if answer.governing.title.lower() in title.lower()),
        next(iter(sections)),
    )
    name = f"{PRESSED}working"
    if st.session_state.get(name) not in (*sections, ALL):
        st.session_state[name] = first
    chosen = st.selectbox("Of which figure", [*sections, ALL], key=name)
    for section in sections.values() if chosen == ALL else (sections[chosen],):
        st.markdown(f"**{plain(section.title)}**\n\n{worked_section(section)}")


def worked_section(section: Section) -> str:
    """A section of the working: each step's reason, then its formula."""
    lines = []
    for row in section.rows:
        lines += [plain(row.why), f"$$\n{_formula(row)}\n$$"]
    if section.source:
        lines.append(f"Source: {plain(section.source)}")
    return "\n\n".join(lines)


def _formula(row: Row) -> str:
    """Letters, numbers and result of a step; what would only be said again is left out."""
    result = _LATEX_SPECIAL.sub(r"\\\1", row.result)
    said = [*row.letters.split(" = "), row.numbers]
    kept = [each for each in dict.fromkeys(said) if each and each.strip("{}") != row.result]
    return " = ".join([*kept, rf"\text{{{result}}}"])
