"""The page "Lessons": the course, one lesson at a time; the prediction comes first."""

from __future__ import annotations

import streamlit as st

from liftcalc.school.files import lesson as find
from liftcalc.school.files import lessons
from liftcalc.school.lesson import PARTS
from liftcalc.units import System
from liftcalc.web.lesson import STYLE, Turn, exercise_on_page, new_turn, plainly
from liftcalc.web.page_frame import PRESSED, opened

CHOSEN = "school/lesson"
TURN = f"{PRESSED}school/turn"


def page() -> None:
    """Draw the page."""
    system = opened(
        "Lessons", "Predict first. Then the model moves, and you see how near you were."
    )
    st.html(STYLE)
    plainly(lambda: _lesson(system))


def _lesson(system: System) -> None:
    course = {each.id: each for each in lessons()}
    numbers = {
        each.id: f"{PARTS.index(each.part) + 1}·{each.order}  {each.title}"
        for each in course.values()
    }
    chosen = st.selectbox(
        "Lesson", list(course), format_func=lambda name: numbers[name], key=CHOSEN
    )
    part = course[chosen].part
    st.html(f'<p class="lc-why">Part {PARTS.index(part) + 1} of {len(PARTS)}: {part}</p>')
    turn = _turn(chosen)
    done = exercise_on_page(turn, system)
    with st.container(horizontal=True):
        st.button("Another like this", key=f"{PRESSED}again", on_click=_again, args=(chosen,))
        after = list(course)[(list(course).index(chosen) + 1) % len(course)]
        if done:
            st.button("Next lesson", key=f"{PRESSED}next", on_click=_choose, args=(after,))


def _turn(chosen: str) -> Turn:
    turn = st.session_state.get(TURN)
    if not isinstance(turn, Turn) or turn.lesson.id != chosen:
        turn = st.session_state[TURN] = new_turn(find(chosen))
    return turn


def _again(chosen: str) -> None:
    st.session_state[TURN] = new_turn(find(chosen))


def _choose(name: str) -> None:
    st.session_state[CHOSEN] = name
