"""The page "Check a lift": answer, drawings to drag, details and working. No arithmetic.

The answer is a fragment: when the hook is let go or a slider moved, it alone runs anew. What is
shown on request is another, so that an answer has few pieces.
"""

from __future__ import annotations

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import streamlit as st

from liftcalc.errors import InputError
from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check
from liftcalc.factors import CAUTION
from liftcalc.judgement.judge import judge
from liftcalc.maps.drag_grid import View
from liftcalc.questions.remedies import remedies
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.lift import ParsedLift
from liftcalc.requests.usual import ranged
from liftcalc.units import System
from liftcalc.web import html, state
from liftcalc.web.details import details, resting
from liftcalc.web.form import Form
from liftcalc.web.hook_widget import HookPoint, hook_widget, send_grids
from liftcalc.web.inputs import ask, keep_lift
from liftcalc.web.page_frame import FAILED, PRESSED, notice, opened, save_button
from liftcalc.web.position_fields import Place, elsewhere
from liftcalc.web.verdict import verdict_block
from liftcalc.web.working_view import working

WHOLE = f"{PRESSED}whole"
"""Set while the whole page runs, and not only the fragment with the answer."""
SHOWN = ("show-more", "show-working", "show-sheet")
NO_DRAWING = "<p class='lc-help'>The drawing comes back with the answer.</p>"
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
    _told(form)
    with notice_at:
        notice()
    with answer_at:
        st.session_state[WHOLE] = True
        _answer(form.said, state.end(), system, state.kept().generation)
        _more(form.said, system, state.kept().generation)
    state.kept().end()


def _asked(said: dict[str, Any]) -> LiftRequest:
    """What the form says, with the place, whose fields stand beside the drawings."""
    return LiftRequest(**{**said, **state.place_words()})


def _told(form: Form) -> None:
    """Under the form's fields what was read of them, or what is wrong with them."""
    asked = _asked(form.said)
    state.say(asked)
    try:
        read = ranged(asked).read
        form.understood(read.echoes)
        check(read.lift)
    except InputError as error:
        form.refused(error.faults)


@st.fragment
def _answer(said: dict[str, Any], end: str, system: System, generation: int) -> None:
    """The fragment drawn anew when the hook moves: answer, drawings, place and details."""
    whole = st.session_state.pop(WHOLE, False)
    with _guarded():
        _answered(said, end, system)
    # What is shown on request follows the hook too; it is not asked for often.
    if not whole and any(st.session_state.get(each) for each in SHOWN):
        st.rerun()


@st.fragment
def _more(said: dict[str, Any], system: System, generation: int) -> None:
    """What is shown on request, and the lift as a file, a link and a sheet."""
    if state.kept().generation != generation:
        st.rerun()
    with _guarded():
        try:
            found, ranges = judge(_asked(said))
        except InputError:
            keep_lift()
            return
        if st.toggle("What would buy more", key=SHOWN[0]):
            with st.spinner("Trying what would help …"):
                st.html(html.remedies_table(remedies(ranges.read.lift), system))
        if st.toggle("Show the working", key=SHOWN[1]):
            working(found, ranges.read.lift)
        keep_lift()
        if st.toggle("A sheet to print", key=SHOWN[2]):
            _sheet(found, system)


@contextmanager
def _guarded() -> Iterator[None]:
    """A page never shows a traceback; whoever runs the server finds it in the log."""
    try:
        yield
    except Exception:
        logging.getLogger(__name__).exception("a page failed")
        st.error(f"{FAILED} {CAUTION}")


def _answered(said: dict[str, Any], end: str, system: System) -> None:
    asked = _asked(said)
    state.say(asked)
    form = Form(said=dict(said))
    upper, lower = (("height", "reach"), ("slew",)) if end == "back" else (("height", "reach"), ())
    try:
        found, ranges = judge(asked)
        read = ranges.read
    except InputError as error:
        place = Place(system=system, end=end, faults=error.faults)
        # As many pieces as an answer has, so that fields keep their place while one is put right.
        st.html(html.faults_block(error.faults, system))
        st.html(NO_DRAWING)
        place.draw(form, *upper)
        if lower:
            st.html(NO_DRAWING)
            place.draw(form, *lower)
        return
    place = Place(system=system, end=end, read=read, answer=found)
    doubts = (OTHER_PLACE,) if elsewhere(asked) else ()
    st.html(verdict_block(found, system, doubts=doubts))
    _drawing(read, found, "side", system)
    place.draw(form, *upper)
    _drawing(read, found, "plan", system)
    if lower:
        place.draw(form, *lower)
    st.html(details(found, read, system))
    st.html(resting(found, system))
    send_grids(read.lift)


def _drawing(read: ParsedLift, found: Answer, view: View, system: System) -> None:
    hook_widget(
        read.lift,
        found,
        view=view,
        key=f"drawing/{view}",
        system=system,
        moved=_moved,
        quiet=True,
        later=True,
    )


def _moved(point: HookPoint) -> None:
    state.place(reach=point.reach, height=point.height, slew=point.slew)


def _sheet(found: Answer, system: System) -> None:
    """One sheet of paper, made when it is asked for."""
    from liftcalc.figures.page_layout import one_page  # noqa: PLC0415 - slow to load, rarely wanted
    from liftcalc.figures.saving import picture  # noqa: PLC0415

    with st.spinner("Drawing the sheet …"):
        made = picture(one_page(found, system=system), "pdf")
    save_button("Save the sheet (PDF)", made, "lift.pdf", "save-sheet")
