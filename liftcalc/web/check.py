"""The page "Check a lift": inputs, answer, drawings, worked steps. No arithmetic."""

from __future__ import annotations

import re
from collections.abc import Callable

import streamlit as st

from liftcalc.answers.answer import Answer
from liftcalc.answers.asked import ReadLift, read_lift
from liftcalc.answers.check import check
from liftcalc.answers.remedies import remedies
from liftcalc.figures.plan import plan
from liftcalc.figures.side import side
from liftcalc.units import Rounding, System, show
from liftcalc.web import blocks
from liftcalc.web.form import Form
from liftcalc.web.frame import answered, opened
from liftcalc.web.inputs import ask
from liftcalc.working.steps import Row, Section, worked_out

_LATEX_SPECIAL = re.compile(r"([%#&_$])")
_MARKDOWN_SPECIAL = re.compile(r"([\\`*_{}\[\]()#+\-.!$<>|~:])")


def page() -> None:
    """Draw the page."""
    system = opened(
        "Check a lift",
        "One log, one machine, one place. The page opens on a lift of our own invention: a "
        "windblown larch beside a track. Change anything; the answer follows.",
    )

    def answer(form: Form) -> Callable[[], None]:
        read = read_lift(form.asked())
        found = check(read.lift)
        form.understood(read.echoes)
        st.html(blocks.answer_block(found, system))
        return lambda: _show(found, read, system)

    answered(ask, answer)


def _show(answer: Answer, read: ReadLift, system: System) -> None:
    if not answer.passes:
        st.subheader("What would buy more", anchor=False)
        with st.spinner("Trying what would help …"):
            st.html(blocks.remedies_table(remedies(answer.lift)[:4], system))
    st.html(blocks.drawing(side(answer, system=system)))
    st.html(blocks.drawing(plan(answer, system=system)))
    st.subheader("What could stop it", anchor=False)
    st.html(blocks.criteria_table(answer, system))
    st.subheader("Warnings", anchor=False)
    st.html(blocks.bullets(answer.warnings))
    st.subheader("The log", anchor=False)
    st.html(blocks.facts(_log_facts(answer, system)))
    with st.expander("Everything understood"):
        st.html(blocks.facts(read.echoes))
    said = [each for each in answer.assumed if not each.startswith("machine: ")]
    figures = [each for each in answer.assumed if each.startswith("machine: ")]
    with st.expander(f"Assumed: {len(said)} things you did not say"):
        st.html(blocks.bullets(said))
    if figures:
        with st.expander(f"Assumed: {len(figures)} figures of the machine"):
            st.html(blocks.bullets(each.removeprefix("machine: ") for each in figures))
    st.subheader("Worked steps", anchor=False)
    for section in worked_out(answer):
        with st.expander(_plain(section.title)):
            st.markdown(_worked(section))


def _log_facts(answer: Answer, system: System) -> list[tuple[str, str]]:
    log = answer.lift.log

    def metres(value: float, rounding: Rounding = "near") -> str:
        return show(value, "length", system=system, rounding=rounding)

    def kilos(value: float, rounding: Rounding = "near") -> str:
        return show(value, "mass", system=system, rounding=rounding)

    found = [
        ("Volume", show(log.volume, "volume", system=system, rounding="up")),
        ("Mass: low", kilos(log.mass_low, "down")),
        ("Mass: likely", kilos(log.mass_likely)),
        ("Mass: to plan on", kilos(log.mass_planning, "up")),
        ("Balances from the butt at", metres(log.cog_from_butt)),
        ("Lowest point, hanging level", metres(answer.lowest, "down")),
    ]
    if answer.lowest_tipped < answer.lowest:
        tipped = metres(answer.lowest_tipped, "down")
        found.append(("Lowest point, a little off balance", tipped))
    return found


def _plain(text: str) -> str:
    """Text that Markdown leaves alone."""
    return _MARKDOWN_SPECIAL.sub(r"\\\1", text)


def _worked(section: Section) -> str:
    """A section of the working: each step's reason, then its formula."""
    lines = []
    for row in section.rows:
        lines += [_plain(row.why), f"$$\n{_formula(row)}\n$$"]
    if section.source:
        lines.append(f"Source: {_plain(section.source)}")
    return "\n\n".join(lines)


def _formula(row: Row) -> str:
    """Letters, numbers and result of a step; what would only be said again is left out."""
    result = _LATEX_SPECIAL.sub(r"\\\1", row.result)
    said = [*row.letters.split(" = "), row.numbers]
    kept = [each for each in dict.fromkeys(said) if each and each.strip("{}") != row.result]
    return " = ".join([*kept, rf"\text{{{result}}}"])
