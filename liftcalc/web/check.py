"""The page "Check a lift": answer, drawings to drag, details and working. No arithmetic.

The answer's side is a fragment: when the hook is let go or a slider moved, it alone runs anew.
"""

from __future__ import annotations

import logging
from typing import Any

import streamlit as st

from liftcalc.answers.answer import Answer
from liftcalc.answers.asked import Asked, ReadLift, read_lift
from liftcalc.answers.check import check
from liftcalc.answers.live import View
from liftcalc.answers.remedies import remedies
from liftcalc.errors import InputError
from liftcalc.rules import CAUTION
from liftcalc.units import System
from liftcalc.web import blocks, state
from liftcalc.web.details import details, resting
from liftcalc.web.form import Form
from liftcalc.web.frame import FAILED, PRESSED, notice, opened
from liftcalc.web.inputs import ask, keep_lift
from liftcalc.web.instrument import HookPoint, grids, instrument
from liftcalc.web.place import Place, elsewhere, fields_of
from liftcalc.web.verdict import verdict_block
from liftcalc.web.worked import working

OTHER_PLACE = (
    "The plate or chart value was typed for another place: look up the one for this reach and "
    "height before you trust the answer."
)


def page() -> None:
    """Draw the page."""
    system = opened("Check a lift", "")
    left, right = st.columns([7, 5], gap="large")
    with left:
        notice_at, answer_at = st.container(), st.container()
    with right:
        form = ask(place=False)
    with notice_at:
        notice()
    _told(form)
    with answer_at:
        _answer(form.said, form.end, system, state.kept().generation)


def _told(form: Form) -> None:
    """Under the form's fields what was read of them, or what is wrong with them."""
    said = form.said | state.place_words()
    try:
        read = read_lift(Asked(**said))
        form.understood(read.echoes)
        check(read.lift)
    except InputError as error:
        form.refused(error.faults)


@st.fragment
def _answer(said: dict[str, Any], end: str, system: System, generation: int) -> None:
    """The answer's side; another lift than the form's was opened in it: all is drawn anew."""
    if state.kept().generation != generation:
        st.rerun()
    verdict = st.container()
    try:
        _answered(Form(said=dict(said), end=end), system, verdict)
    except Exception:
        # A page never shows a traceback; whoever runs the server finds it in the log.
        logging.getLogger(__name__).exception("a page failed")
        verdict.error(f"{FAILED} {CAUTION}")


def _answered(form: Form, system: System, verdict: Any) -> None:
    side, place = st.container(), Place(form, system)
    from_side, from_above = fields_of(form.end)
    place.draw(*from_side)
    plan = st.container()
    if from_above:
        place.draw(*from_above)
    said = form.asked()
    state.say(said)
    try:
        read = read_lift(said)
        found = check(read.lift)
    except InputError as error:
        form.refused(error.faults)
        verdict.html(blocks.faults_block(error.faults))
        place.slide(None, None)
        keep_lift()
        return
    place.slide(read.lift, found)
    form.understood(read.echoes)
    doubts = (OTHER_PLACE,) if elsewhere(form) else ()
    verdict.html(verdict_block(found, system, doubts=doubts))
    views: tuple[tuple[Any, View], ...] = ((side, "side"), (plan, "plan"))
    for box, view in views:
        with box:
            instrument(
                read.lift, found, view=view, key=f"drawing/{view}", system=system, moved=_moved,
                quiet=True, later=True,
            )  # fmt: skip
    _below(found, read, system)
    grids(read.lift)


def _moved(point: HookPoint) -> None:
    state.place(reach=point.reach, height=point.height, slew=point.slew)


def _below(found: Answer, read: ReadLift, system: System) -> None:
    st.html(details(found, read, system))
    st.html(resting(found))
    if st.toggle("What would buy more", key="show-more", value=False):
        with st.spinner("Trying what would help …"):
            st.html(blocks.remedies_table(remedies(found.lift), system))
    working(found, read.lift)
    keep_lift()
    _sheet(found, system)


def _sheet(found: Answer, system: System) -> None:
    """One sheet of paper, made when it is asked for."""
    if not st.button("Make a sheet to print", key=f"{PRESSED}make-sheet"):
        return
    from liftcalc.figures.onepage import one_page  # noqa: PLC0415 - slow to load, rarely wanted
    from liftcalc.figures.saving import picture  # noqa: PLC0415

    with st.spinner("Drawing the sheet …"):
        made = picture(one_page(found, system=system), "pdf")
    st.download_button(
        "Save the sheet (PDF)", made, file_name="lift.pdf", mime="application/pdf",
        on_click="ignore", key=f"{PRESSED}save-sheet",
    )  # fmt: skip
