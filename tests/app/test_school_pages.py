"""The pages to learn without a browser: nothing of an answer before the guess; records in words."""

from __future__ import annotations

import base64
import csv
import io
import re
import sys
from datetime import UTC, datetime, timedelta
from html import escape, unescape
from random import Random
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from liftcalc.errors import InputError
from liftcalc.school.exercise import Exercise, pose
from liftcalc.school.files import lesson, lessons
from liftcalc.school.lesson import CAUTION
from liftcalc.school.marking import mark
from liftcalc.school.record import Attempt, attempt, csv_of, lines, read
from liftcalc.units import show
from liftcalc.web import records
from liftcalc.web.school import TURN
from tests.app.test_other_pages import opened

IDS = [each.id for each in lessons()]
SYSTEMS = ("metric", "imperial")


@pytest.fixture(autouse=True)
def same_every_time(monkeypatch: pytest.MonkeyPatch) -> None:
    """Seeds are drawn from one that stays the same."""
    random = Random(7)
    for name in ("lesson", "drill"):
        monkeypatch.setattr(f"liftcalc.web.{name}.Random", lambda: random)


def at_lesson(name: str) -> AppTest:
    page = opened("school")
    page.selectbox(key="school/lesson").set_value(name).run()
    assert not page.exception
    return page


def turn(page: AppTest) -> Any:
    return page.session_state[TURN]


def exercise_of(page: AppTest) -> Exercise:
    return turn(page).exercise("metric")[0]


def sent(page: AppTest) -> str:
    """All that the browser is sent: pieces of the page, drawings read, what components get."""
    pieces = [each.value for each in page.get("html") if "<style>" not in each.value]
    pieces += [each.value for each in page.markdown]
    pieces += [str(each.proto) for each in page.get("bidi_component")]
    for each in (*page.button, *page.text_input, *page.toggle):
        pieces.append(f"{each.label} {each.value}")
    text = "\n".join(pieces)
    for data in re.findall(r"data:image/svg\+xml;base64,([A-Za-z0-9+/=]+)", text):
        text += base64.b64decode(data).decode()
    return unescape(re.sub(r"data:image/svg\+xml;base64,[A-Za-z0-9+/=]+", "", text))


def predict(page: AppTest, given: str | int) -> AppTest:
    (field,) = [
        each
        for each in (*page.radio, *page.text_input)
        if each.key and each.key.endswith(f"guess/{turn(page).name}")
    ]
    field.set_value(given)
    page.run()
    next(each for each in page.button if each.label == "That is my prediction").click().run()
    assert not page.exception
    return page


def key_of(exercise: Exercise) -> str | int:
    if exercise.key is None:
        return next(n for n, each in enumerate(exercise.choices, 1) if each.right)
    return f"{exercise.key.value / exercise.key.factor:.9g}"


def wrong_of(exercise: Exercise) -> str | int:
    if exercise.key is None:
        return next(n for n, each in enumerate(exercise.choices, 1) if not each.right)
    return f"{2.2 * exercise.key.value / exercise.key.factor:.9g}"


@pytest.mark.parametrize("name", IDS)
def test_nothing_of_the_answer_is_sent_before_the_guess(name):
    page = at_lesson(name)
    exercise, before = exercise_of(page), sent(page)
    assert exercise.question in before
    assert CAUTION in before
    for each in (*exercise.explanation, exercise.do):
        assert each not in before
    if exercise.key is None:
        right = next(each.text for each in exercise.choices if each.right)
        kept = f"{exercise.story} {exercise.move} {exercise.question} {' '.join(exercise.listed)}"
        if right not in kept and not exercise.chart:
            assert right not in before.replace(kept, "")
    else:
        key = exercise.key
        for system in SYSTEMS:
            said = mark(exercise, key.value, system=system).said
            shown = said.removeprefix("Right: the model says ").rstrip(".")
            assert shown not in before
        for figures in (f"{key.value:.4f}", f"{key.value / key.factor:.6g}"):
            assert figures not in before
    page = predict(page, key_of(exercise))
    after = sent(page)
    assert "Right" in after
    for each in (*exercise.explanation, exercise.do, CAUTION):
        assert each in after


@pytest.mark.parametrize("name", IDS)
def test_another_guess_is_told_to_be_wrong(name):
    page = at_lesson(name)
    exercise = exercise_of(page)
    page = predict(page, wrong_of(exercise))
    (told,) = [each.value for each in page.get("html") if '"lc-verdict"' in each.value]
    marked = mark(exercise, turn(page).given)
    assert not marked.right
    assert escape(marked.said) in told
    assert "lc-ok" not in told
    assert ("lc-no" in told) == marked.unsafe
    assert CAUTION in unescape(told)


@pytest.mark.parametrize("name", ["balance-point", "farthest-reach"])
def test_guess_and_place_are_drawn_side_by_side(name):
    page = at_lesson(name)
    exercise = exercise_of(page)
    assert "your guess" not in sent(page)
    page = predict(page, "1.5 m")
    drawn = sent(page)
    assert f"your guess: {show(1.5, 'length')}" in drawn
    assert f"the model: {show(exercise.key.value, 'length')}" in drawn


def test_what_cannot_be_read_is_told_beside_the_field():
    page = at_lesson("side-slope")
    page = predict(page, "2 m")
    assert "the unit is of the wrong kind" in sent(page)
    assert turn(page).given is None
    page = predict(page, "")
    assert "before the answer" in sent(page)
    page = predict(page, "<script>alert(1)</script>")
    raw = "".join(each.value for each in page.get("html"))
    assert "<script" not in raw
    page = predict(page, "-20 %")
    assert turn(page).given is not None


def test_a_guess_stays_the_same_in_other_units():
    page = at_lesson("side-slope")
    exercise = exercise_of(page)
    page = predict(page, "700")
    units = next(each for each in page.radio if set(each.options) == set(SYSTEMS))
    units.set_value("imperial").run()
    assert mark(exercise, 700.0, system="imperial").said in sent(page)


def test_another_like_this_has_a_new_seed_and_the_next_lesson_follows():
    page = at_lesson("which-line")
    first = turn(page).seed
    next(each for each in page.button if each.label == "Another like this").click().run()
    assert turn(page).seed != first
    page = predict(page, 1)
    next(each for each in page.button if each.label == "Next lesson").click().run()
    assert turn(page).lesson.id == IDS[1]


def test_the_working_is_made_and_shown_when_asked_for(monkeypatch):
    page = at_lesson("side-slope")
    with monkeypatch.context() as without_algebra:
        without_algebra.setitem(sys.modules, "liftcalc.working.typeset", None)
        page = predict(page, "-20 %")
    assert "$$\n" not in sent(page)
    next(each for each in page.toggle if each.label == "Show the working").set_value(True).run()
    assert "$$\n" in sent(page)


def test_drills_count_what_is_not_saved_and_show_judgement():
    page = opened("drill")
    store = page.session_state["press/drill/store"]
    for number in range(1, 4):
        exercise = store.turn.exercise("metric")[0]
        (field,) = [each for each in page.text_input if each.key.startswith("press/guess/")]
        field.set_value(wrong_of(exercise))
        page.run()
        next(each for each in page.button if each.label == "That is my prediction").click().run()
        assert not page.exception
        assert len(store.new) == number
        assert f"{number} attempt" in sent(page)
        next(each for each in page.button if each.label == "Next drill").click().run()
    assert "Where your judgement stands" in sent(page)
    assert "Nothing is kept here" in sent(page)
    again = read(store.opened.with_more(store.new)).attempts
    assert again == store.new


def some(count: int) -> list[Attempt]:
    made = []
    begin = datetime(2026, 3, 1, tzinfo=UTC)
    for number in range(count):
        exercise = pose(lesson("side-slope"), seed=number)
        marked = mark(exercise, 1.3 * exercise.key.value)
        made.append(attempt(exercise, marked, at=begin + timedelta(days=number)))
    return made


def test_half_a_line_is_kept_and_passed_over():
    content = lines(some(2)).encode() + b'{"liftcalc school": 1, "at'
    found = records.open_record("mine.jsonl", content)
    assert len(found.kept.attempts) == 2
    assert "line 3" in records.unread_block(found.kept)
    more = found.with_more(some(1))
    assert more.startswith(content + b"\n")
    assert len(read(more).attempts) == 3


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\x89PNG\r\n\x00",
        b"Dear Sir",
        b"[" * 100_000,
        b'{"liftcalc school": 99}',
        b'{"liftcalc school": 1, "score": NaN}',
        b"x" * (records.LARGEST + 1),
        b'{"<script>alert(1)</script>": 1}',
    ],
)
def test_hostile_files_are_refused_in_plain_words(content):
    with pytest.raises(InputError) as told:
        records.open_record("<img src=x>.jsonl", content)
    said = str(told.value)
    assert "a record that these pages or the command line have saved" in said
    assert len(said) < 400


def instructor(content: dict[str, bytes]) -> AppTest:
    def script(content: dict[str, bytes]) -> None:
        from liftcalc.web.instructor import _opened, show_records
        from liftcalc.web.lesson import plainly

        plainly(lambda: show_records(_opened(list(content.items()))))

    return AppTest.from_function(script, args=(content,), default_timeout=60).run()


def test_an_instructor_sees_records_escaped_and_gets_csv_and_a_page():
    evil = "<script>alert(1)</script>"
    attempts = [*some(4), *(replaced(each, skill=evil, given="=1+1") for each in some(2))]
    page = instructor({"a.jsonl": lines(attempts).encode(), f"{evil}.txt": b"no record"})
    assert not page.exception
    raw = "".join(each.value for each in page.get("html"))
    assert "<script" not in raw
    assert escape(evil) in raw
    assert "6</td>" in raw
    rows = list(csv.reader(io.StringIO(csv_of(attempts))))
    assert len(rows) == 7
    assert "'=1+1" in rows[-1]
    next(each for each in page.button if "one-page" in each.label).click().run()
    assert not page.exception
    assert "Save the summary (PDF)" in [each.label for each in page.get("download_button")]


def replaced(each: Attempt, **words: Any) -> Attempt:
    from dataclasses import replace

    return replace(each, **words)


def test_the_instructor_page_says_what_it_is_not():
    page = opened("instructor")
    assert "not a qualification, and no certificate is issued" in sent(page)
