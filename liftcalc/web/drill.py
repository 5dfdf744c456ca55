"""The page "Drills": one exercise after another, chosen by where judgement errs."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from html import escape
from random import Random

import streamlit as st

from liftcalc.errors import InputError
from liftcalc.school.exercise import Exercise
from liftcalc.school.files import lessons
from liftcalc.school.marking import Marked
from liftcalc.school.practice import judgement, next_drill
from liftcalc.school.record import Attempt, Kept, attempt
from liftcalc.units import System
from liftcalc.web import html
from liftcalc.web.lesson import SEEDS, STYLE, Turn, exercise_on_page, new_turn, plainly
from liftcalc.web.page_frame import PRESSED, opened
from liftcalc.web.records import Opened, judgement_table, open_record, unread_block

STORE = f"{PRESSED}drill/store"
FILE = f"{PRESSED}drill/file"


@dataclass(slots=True)
class Store:
    """A visit's practice: what was opened, what was added since, the exercise at hand."""

    opened: Opened
    new: tuple[Attempt, ...] = ()
    saved: int = 0
    turn: Turn | None = None
    why: str = ""

    @property
    def attempts(self) -> tuple[Attempt, ...]:
        """All of them."""
        return (*self.opened.kept.attempts, *self.new)


NOTHING = Opened(name="practice.jsonl", content=b"", kept=Kept(attempts=(), unread=()))


def store() -> Store:
    """The practice of this visit."""
    found = st.session_state.get(STORE)
    if not isinstance(found, Store):
        found = st.session_state[STORE] = Store(opened=NOTHING)
    return found


def page() -> None:
    """Draw the page."""
    system = opened("Drills", "Short guesses, again and again, where yours err most.")
    st.html(STYLE)
    plainly(lambda: _drills(system))


def _drills(system: System) -> None:
    now = store()
    _open(now)
    if now.turn is None:
        _next(now)
    assert now.turn is not None  # just drawn
    title = now.turn.lesson.title
    st.html(f'<h2>{escape(title)}</h2><p class="lc-why">Chosen because: {escape(now.why)}</p>')

    def keep(exercise: Exercise, marked: Marked) -> None:
        now.new = (*now.new, attempt(exercise, marked, at=datetime.now(UTC)))

    done = exercise_on_page(now.turn, system, marked_now=keep)
    with st.container(horizontal=True):
        st.button(
            "Next drill" if done else "Another one instead",
            key=f"{PRESSED}drill/next",
            on_click=_next,
            args=(now,),
        )
    _saved(now)
    if now.attempts:
        moment = datetime.now(UTC)
        table = judgement_table(judgement(now.attempts), now=moment)
        st.html(html.part("Where your judgement stands", table))


def _open(now: Store) -> None:
    with st.expander("Open your record", expanded=not now.attempts):
        st.markdown(
            "A file of your own, read for this visit only. Without one you start afresh; nothing "
            "is kept unless you save it."
        )
        given = st.file_uploader("Record of practice", key=FILE)
        if given is None:
            return
        content = given.getvalue()
        if content != now.opened.content or given.name != now.opened.name:
            try:
                now.opened = open_record(given.name, content)
            except InputError as error:
                for each in error.faults:
                    st.html(html.fault_line(each))
                return
            now.turn = None if now.turn is None or now.turn.given is None else now.turn
        count = len(now.opened.kept.attempts)
        st.html(
            f'<p class="lc-why" role="status">Opened: {count} '
            f"attempt{'' if count == 1 else 's'}.</p>{unread_block(now.opened.kept)}"
        )


def _next(now: Store) -> None:
    """Draw the next drill; a lesson that suits no machine at hand is shown on a shipped one."""
    drill = next_drill(
        now.attempts,
        now=datetime.now(UTC),
        seed=Random().randrange(SEEDS),
        among=[each for each in lessons() if each.drill],
    )
    now.turn, now.why = new_turn(drill.lesson, seed=drill.seed), drill.why


def _saved(now: Store) -> None:
    if not now.new:
        return
    left = len(now.new) - now.saved
    some = f"{left} attempt{'' if left == 1 else 's'} of this visit not saved yet"
    word = some if left else "All attempts are saved"
    st.html(f'<p class="lc-why" role="status">{word}. Nothing is kept here when you leave.</p>')
    st.download_button(
        "Save the record",
        now.opened.with_more(now.new),
        file_name="practice.jsonl",
        mime="application/jsonl",
        key=f"{PRESSED}drill/save",
        on_click=_was_saved,
        args=(now,),
    )


def _was_saved(now: Store) -> None:
    now.saved = len(now.new)
