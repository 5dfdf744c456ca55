"""Every page of the app, in sections, in the order in which they are offered.

A new page is one line here. A pile and paper have their own sections when they come.
"""

from __future__ import annotations

import gc
from functools import cache
from typing import Any

import streamlit as st

from liftcalc.web import ask, check, compare, drill, instructor, limits, machine, photo, school


def pages() -> dict[str, list[Any]]:
    """The pages by section; the first is where the app opens."""
    _settle()
    return {
        "One lift": [
            st.Page(check.page, title="Check a lift", url_path="check", default=True),
            st.Page(compare.page, title="Front or back", url_path="front-or-back"),
            st.Page(limits.page, title="Where it can lift", url_path="where"),
            st.Page(ask.page, title="Ask the other way round", url_path="ask"),
        ],
        "Your machine": [
            st.Page(machine.page, title="Your machine", url_path="machine"),
            st.Page(photo.page, title="From a picture", url_path="picture"),
        ],
        "Learn": [
            st.Page(school.page, title="Lessons", url_path="lessons"),
            st.Page(drill.page, title="Drills", url_path="drills"),
            st.Page(instructor.page, title="Instructor", url_path="instructor"),
        ],
    }


@cache
def _settle() -> None:
    """Run once: what is loaded stays, so the garbage collector need not search it every time.

    That search holds up what a run has just written, longer than the run itself takes.
    """
    gc.collect()
    gc.freeze()
