"""What every page shares: its head, the choice of units, and what is kept from page to page."""

from __future__ import annotations

import logging
from collections.abc import Callable
from typing import Any

import streamlit as st

from liftcalc.errors import InputError
from liftcalc.factors import CAUTION
from liftcalc.units import System
from liftcalc.web import html, state
from liftcalc.web.form import Form
from liftcalc.web.style import CSS


def opened(title: str, words: str) -> System:
    """Draw the head of a page; metric or imperial, as chosen on any page."""
    state.start(title)
    keep()
    st.set_page_config(page_title=title, layout="wide")
    st.html(CSS)
    with st.container(horizontal=True, horizontal_alignment="distribute", gap="small"):
        st.title(title, anchor=False, width="content")
        shown = st.radio(
            "Show the answer in",
            ("metric", "imperial"),
            horizontal=True,
            key=state.SYSTEM,
            label_visibility="collapsed",
            width="content",
        )
    if words:
        st.markdown(words)
    system: System = "imperial" if shown == "imperial" else "metric"
    state.remember_units(system)
    return system


def save_button(label: str, content: Any, name: str, key: str) -> None:
    """A button that hands over a file; the page stays as it is."""
    st.download_button(label, content, file_name=name, on_click="ignore", key=f"{PRESSED}{key}")


def keep() -> None:
    """Keep what was chosen on other pages: a field that is not drawn would be forgotten.

    The fields of the lift are kept by ``state``.
    """
    for key in list(st.session_state):
        if not str(key).startswith((PRESSED, state.LIFT)) and key != state.KEPT:
            st.session_state[key] = st.session_state[key]


PRESSED = "press/"
"""Start of the keys of buttons, which cannot be set."""


def answered(ask: Callable[[], Form], answer: Callable[[Form], Callable[[], object]]) -> None:
    """The answer on one side, the inputs on the other, and plain words for whatever goes wrong.

    ``answer`` reads the form and computes; what it returns draws the answer.
    """
    left, right = st.columns([7, 5], gap="large")
    with left:
        told, verdict, below = st.container(), st.container(), st.container()
    try:
        with right:
            form = ask()
        with told:
            notice()
        _answered(form, answer, verdict, below)
        state.kept().end()
    except Exception:
        # A page never shows a traceback; whoever runs the server finds it in the log.
        logging.getLogger(__name__).exception("a page failed")
        verdict.error(f"{FAILED} {CAUTION}")


FAILED = "Something went wrong in the program itself: do not lift on what this page shows."


def _answered(
    form: Form, answer: Callable[[Form], Callable[[], object]], verdict: Any, below: Any
) -> None:
    try:
        with verdict:
            draw = answer(form)
        with below:
            draw()
    except InputError as error:
        form.refused(error.faults)
        with verdict:
            st.html(html.faults_block(error.faults, state.system()))
        below.markdown("The answer comes back when everything marked ✕ is put right.")


def notice() -> None:
    """A notice of what could not be used of a file or a link that was opened."""
    words, faults = state.kept().notice
    if words:
        st.html(f'<section role="status"><p class="lc-fault">{words}</p></section>')
        st.html(html.bullets(faults))
