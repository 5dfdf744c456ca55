"""An exercise on a page: the scene and the question, then the mark, the move and the reasons.

Nothing of the answer is sent to the browser before the prediction is made.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from dataclasses import dataclass
from html import escape
from importlib.resources import files
from random import Random

import streamlit as st

from liftcalc.errors import Fault, InputError
from liftcalc.factors import CAUTION as LIFT_CAUTION
from liftcalc.family.files import load
from liftcalc.figures.school import answered, to_judge, with_places
from liftcalc.figures.svg import svg
from liftcalc.reports.school_text import OR_CHANGE
from liftcalc.school.animation import steps
from liftcalc.school.exercise import Exercise, pose
from liftcalc.school.lesson import CAUTION, Lesson
from liftcalc.school.marking import Marked, mark
from liftcalc.units import FOOT, System, show
from liftcalc.web import html, state
from liftcalc.web.form import plain
from liftcalc.web.page_frame import FAILED, PRESSED
from liftcalc.web.school_drawings import played, pointer
from liftcalc.web.working_view import worked_section
from liftcalc.working.lesson import is_worked, lesson_sections

SEEDS = 1_000_000
STYLE = f"<style>{files('liftcalc.web').joinpath('school.css').read_text(encoding='utf-8')}</style>"


@dataclass(slots=True)
class Turn:
    """One exercise of a page.

    ``given`` is the prediction once it is made: of a choice its number, else its value [SI].
    """

    lesson: Lesson
    seed: int
    machine: str
    given: str | float | None = None
    faults: tuple[Fault, ...] = ()
    posed: tuple[System, Exercise, str] | None = None

    @property
    def name(self) -> str:
        """A key that no other exercise of a visit has."""
        return f"{self.lesson.id}/{self.seed}/{self.machine}"

    def exercise(self, system: System) -> tuple[Exercise, str]:
        """The exercise, and what to say where the machine at hand does not suit it."""
        if self.posed is None or self.posed[0] != system:
            self.posed = (system, *_posed(self, system))
        return self.posed[1:]


def _posed(turn: Turn, system: System) -> tuple[Exercise, str]:
    if turn.machine:
        try:
            return pose(turn.lesson, seed=turn.seed, machine=turn.machine, system=system), ""
        except InputError:
            note = "The machine of your lift does not suit this lesson, so a shipped one is shown."
            return pose(turn.lesson, seed=turn.seed, system=system), note
    return pose(turn.lesson, seed=turn.seed, system=system), ""


def new_turn(lesson: Lesson, *, seed: int | None = None) -> Turn:
    """A fresh exercise of a lesson, on the machine of the lift that is being looked at."""
    drawn = Random().randrange(SEEDS) if seed is None else seed
    return Turn(lesson=lesson, seed=drawn, machine=state.asked().machine)


def plainly(draw: Callable[[], None]) -> None:
    """Draw, and say in plain words whatever goes wrong."""
    try:
        draw()
    except InputError as error:
        st.html(html.faults_block(error.faults))
    except Exception:
        # A page never shows a traceback; whoever runs the server finds it in the log.
        logging.getLogger(__name__).exception("a page failed")
        st.error(f"{FAILED} {LIFT_CAUTION}")


def exercise_on_page(
    turn: Turn, system: System, *, marked_now: Callable[[Exercise, Marked], None] | None = None
) -> bool:
    """Draw an exercise; whether its prediction is made.

    ``marked_now`` is told once, when the prediction is made.
    """
    exercise, note = turn.exercise(system)
    if note:
        st.html(f'<p class="lc-why" role="status">{escape(note)}</p>')
    words, drawing = st.columns([5, 6], gap="large")
    with words:
        st.html(_story(exercise, system))
    if turn.given is None:
        with drawing:
            _to_judge(turn, exercise, system)
        with words:
            _guess(turn, exercise, system, marked_now)
            st.html(f'<p class="lc-caution">{escape(CAUTION)}</p>')
        return False
    marked = mark(exercise, turn.given, system=system)
    with words:
        st.html(marked_block(marked))
    with drawing:
        made = steps(exercise, system=system)
        if made:
            st.html("<h3>The move, played on the model</h3>")
            played(exercise, made, system=system, key=f"played/{turn.name}")
        elif exercise.key is not None and exercise.key.place:
            scene = with_places(exercise, float(turn.given), system=system)
            st.html(html.picture(svg(scene).encode(), scene.about))
        elif not exercise.listed:
            _pictures(exercise, system)
    folded = bool(made) or exercise.key is not None
    _explained(turn, exercise, system, folded=folded)
    return True


def _story(exercise: Exercise, system: System) -> str:
    machine = load(exercise.asked.machine).title
    made = f'<p class="lc-aim">{escape(exercise.lesson.aim)} On: {escape(machine)}.</p>'
    made += f'<p class="lc-story">{escape(exercise.story)}</p>'
    if exercise.listed:
        made += html.bullets(exercise.listed)
    if exercise.chart:
        rows = "".join(
            f"<tr><th scope=row>{escape(show(each.reach, 'length', system))}</th>"
            f"<td>{escape(show(each.load, 'mass', system, 'down'))}</td></tr>"
            for each in exercise.chart
        )
        made += html.table(("Reach from the slew axis", "Load"), rows)
    if exercise.move:
        made += f'<p class="lc-story lc-now">{escape(exercise.move)}</p>'
    return made + f'<p class="lc-question">{escape(exercise.question)}</p>'


def _to_judge(turn: Turn, exercise: Exercise, system: System) -> None:
    """The scene with nothing of its answer; with a mark to drag where a place is asked for."""
    scenes = to_judge(exercise, system=system)
    key = exercise.key
    if key is None or not key.place:
        for each in scenes:
            st.html(html.picture(svg(each).encode(), each.about))
        return
    field = _field(turn)

    def moved(place: float) -> None:
        metric = system == "metric"
        st.session_state[field] = f"{place:.2f} m" if metric else f"{place / FOOT:.2f} ft"

    at = float(exercise.before.lift.reach or 0.0)
    if exercise.lesson.question.asks == "balance point":
        at = key.high / 2
    typed = st.session_state.get(field)
    if typed:
        try:
            given = mark(exercise, typed, system=system).given
            at = min(float(given) * key.factor, key.high)
        except InputError:
            pass
    pointer(exercise, scenes[0], at=at, system=system, key=f"pointer/{turn.name}", moved=moved)


def _field(turn: Turn) -> str:
    return f"{PRESSED}guess/{turn.name}"


def _guess(
    turn: Turn,
    exercise: Exercise,
    system: System,
    marked_now: Callable[[Exercise, Marked], None] | None,
) -> None:
    field, key = _field(turn), exercise.key
    if key is None:
        count = range(1, len(exercise.choices) + 1)
        st.radio(
            "Your prediction",
            count,
            index=None,
            key=field,
            format_func=lambda number: plain(exercise.choices[number - 1].text),
        )
    else:
        change = OR_CHANGE if key.start is not None else ""
        drag = " Drag the mark on the drawing, or type it." if key.place else ""
        st.text_input("Your prediction", key=field)
        st.html(
            f'<p class="lc-help">With its unit{escape(change)}; a bare number is taken in '
            f"{escape(key.unit)}.{drag}</p>"
        )
    for each in turn.faults:
        st.html(html.fault_line(each))
    st.button(
        "That is my prediction",
        type="primary",
        key=f"{PRESSED}predict/{turn.name}",
        on_click=_predicted,
        args=(turn, system, marked_now),
    )


def _predicted(
    turn: Turn, system: System, marked_now: Callable[[Exercise, Marked], None] | None
) -> None:
    typed = st.session_state.get(_field(turn))
    exercise, _ = turn.exercise(system)
    if turn.given is not None:
        return
    if typed in (None, ""):
        turn.faults = (
            Fault(field="prediction", given="nothing", wanted="your prediction, before the answer"),
        )
        return
    try:
        marked = mark(exercise, str(typed), system=system)
    except InputError as error:
        turn.faults = tuple(error.faults)
        return
    turn.faults = ()
    # As a value in SI, so that it stays the same when units are changed.
    key = exercise.key
    turn.given = str(typed) if key is None else float(marked.given) * key.factor
    if marked_now is not None:
        marked_now(exercise, marked)


def marked_block(marked: Marked) -> str:
    """The mark in plain words, with the caution."""
    face = "ok" if marked.right else "no" if marked.unsafe else "close"
    side = "the unsafe side" if marked.unsafe else "not the unsafe side"
    pairs = [("Score", f"{marked.score:.2f} of 1")]
    if not marked.right:
        pairs.append(("It errs on", side))
    return (
        f'<section class="lc-answer lc-{face}" role="status">'
        f'<p class="lc-verdict"><span class="lc-mark" aria-hidden="true">{html.MARKS[face]}'
        f"</span><span>{escape(marked.said)}</span></p>{html.facts(pairs)}"
        f'<p class="lc-caution">{escape(CAUTION)}</p></section>'
    )


def _explained(turn: Turn, exercise: Exercise, system: System, *, folded: bool) -> None:
    texts = "".join(f'<p class="lc-story">{escape(each)}</p>' for each in exercise.explanation)
    st.html(html.part("Why", texts))
    st.html(f'<section class="lc-do"><h3>At the machine</h3><p>{escape(exercise.do)}</p></section>')
    if is_worked(exercise) and st.toggle("Show the working", key=f"{PRESSED}working/{turn.name}"):
        for each in lesson_sections(exercise):
            st.markdown(f"**{plain(each.title)}**\n\n{worked_section(each)}")
    if folded and st.toggle("Show the drawings in full", key=f"{PRESSED}drawn/{turn.name}"):
        _pictures(exercise, system)


def _pictures(exercise: Exercise, system: System) -> None:
    for each in answered(exercise, system=system):
        st.html(html.picture(svg(each).encode(), each.about))
