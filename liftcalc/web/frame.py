"""What every page shares: its head, the choice of units, and what is kept from page to page."""

from __future__ import annotations

import logging
from collections.abc import Callable
from typing import Any

import streamlit as st

from liftcalc.errors import InputError
from liftcalc.rules import CAUTION
from liftcalc.units import System
from liftcalc.web import blocks
from liftcalc.web.form import Form
from liftcalc.web.style import CSS


def opened(title: str, words: str) -> System:
    """Draw the head of a page; metric or imperial, as chosen on any page."""
    keep()
    st.set_page_config(page_title=title, layout="wide")
    st.html(CSS)
    st.title(title, anchor=False)
    st.markdown(words)
    shown = st.radio("Show the answer in", ("metric", "imperial"), horizontal=True, key="system")
    return "imperial" if shown == "imperial" else "metric"


def keep() -> None:
    """Keep what was typed on other pages: a field that is not drawn would be forgotten."""
    for key in list(st.session_state):
        if not str(key).startswith(PRESSED):
            st.session_state[key] = st.session_state[key]


PRESSED = "press/"
"""Start of the keys of buttons, which cannot be set."""


def answered(ask: Callable[[], Form], answer: Callable[[Form], Callable[[], None]]) -> None:
    """Inputs on one side, the answer on the other, and plain words for whatever goes wrong.

    ``answer`` reads the form and computes; what it returns draws the answer.
    """
    verdict = st.container()
    try:
        _answered(ask, answer, verdict)
    except Exception:
        # A page never shows a traceback; whoever runs the server finds it in the log.
        logging.getLogger(__name__).exception("a page failed")
        verdict.error(f"{FAILED} {CAUTION}")


FAILED = "Something went wrong in the program itself: do not lift on what this page shows."


def _answered(
    ask: Callable[[], Form], answer: Callable[[Form], Callable[[], None]], verdict: Any
) -> None:
    left, right = st.columns([5, 7], gap="large")
    with left:
        form = ask()
    try:
        with verdict:
            draw = answer(form)
        with right:
            draw()
    except InputError as error:
        form.refused(error.faults)
        with verdict:
            st.html(blocks.faults_block(error.faults))
        right.markdown("The answer comes back when everything marked ✕ is put right.")
