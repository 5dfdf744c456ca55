"""Records that show themselves: one line; in a notebook verdict, caution and drawing."""

from __future__ import annotations

import base64
import re
import subprocess
import sys
from functools import cache
from html import escape
from typing import Any

import numpy as np
import pytest

from liftcalc.evaluation.check import check
from liftcalc.evaluation.sweep import sweep
from liftcalc.factors import CAUTION
from liftcalc.machines.files import load
from liftcalc.maps.limits import Steps, limits_back, limits_front
from liftcalc.questions.compare import EndPlan, Place, compare
from liftcalc.questions.farthest import greatest_reach
from liftcalc.questions.registry import QuestionAnswer
from liftcalc.units import show
from tests.helpers import lift

COARSE = Steps(reach=0.5, height=0.5, slew=0.5)


@cache
def records() -> dict[str, Any]:
    """One of each."""
    back, front = lift(tool="lifting hook"), lift(end="front", height=1.5)
    farthest = greatest_reach(back)
    limits = limits_back(back, steps=COARSE)
    places = (
        Place(name="pick-up", height=0.1, reach=3.5),
        Place(name="set-down", height=1.2, reach=3.5),
    )
    return {
        "Lift": back,
        "Machine": back.machine,
        "LogEstimate": back.log,
        "Answer": check(back),
        "Sweep": sweep(back, reach=np.linspace(1, 5, 9), height=np.full(9, 2.5)),
        "InverseAnswer": farthest,
        "QuestionAnswer": QuestionAnswer(turned=(farthest,), more=(), lift=back),
        "Comparison": compare(
            front=EndPlan(lift=front),
            back=EndPlan(lift=back),
            pick_up=places[0],
            set_down=places[1],
        ),
        "BackLimits": limits,
        "LimitMap": limits.plan,
        "FrontLimits": limits_front(front, steps=COARSE),
    }


CARDS = ("Answer", "Comparison", "InverseAnswer", "QuestionAnswer", "BackLimits", "FrontLimits")
"""Those with a drawing."""


@pytest.mark.parametrize("name", [*records()])
def test_a_record_is_one_line(name):
    said = repr(records()[name])
    assert said.startswith(f"<{name}: ")
    assert len(said.splitlines()) == 1
    assert len(said) < 320


def test_the_line_of_an_answer_is_verdict_allowed_governs_and_log():
    answer = records()["Answer"]
    for part in (
        str(answer.verdict),
        show(answer.allowed, "mass", rounding="down"),
        answer.governs,
        show(answer.lift.log.mass_planning, "mass", rounding="up"),
    ):
        assert part in repr(answer)


@pytest.mark.parametrize("name", CARDS)
def test_a_card_has_verdict_caution_and_drawing_in_that_order(name):
    record = records()[name]
    html = record._repr_html_()
    first = {"Answer": lambda: str(record.verdict), "Comparison": lambda: str(record.reason)}
    verdict = first.get(name, lambda: repr(record).split(": ", 1)[1][:40])()
    places = [html.index(each) for each in (escape(verdict), escape(CAUTION), "<img ")]
    assert places == sorted(places)
    for data in re.findall(r"base64,([^\"]+)", html):
        drawing = base64.b64decode(data).decode()
        assert "<svg" in drawing
        assert "</svg>" in drawing


def test_a_card_says_what_was_not_checked_and_every_warning():
    answer = records()["Answer"]
    assert answer.unchecked
    assert answer.warnings
    html = answer._repr_html_()
    assert all(escape(str(each)) in html for each in (*answer.unchecked, *answer.warnings))


def test_a_log_has_a_card_and_what_has_none_keeps_to_its_line():
    assert escape(CAUTION) in records()["LogEstimate"]._repr_html_()
    assert records()["Machine"]._repr_html_() is None


def test_words_of_a_machine_file_are_not_taken_for_html():
    evil = load("standard-sideshift").model_copy(update={"title": "<script>alert(1)</script>"})
    html = check(lift(evil, tool="lifting hook"))._repr_html_()
    assert "&lt;script&gt;" in html
    assert "<script" not in html


def test_limits_show_their_line_where_nothing_can_draw(monkeypatch):
    for name in [*sys.modules]:
        if name.startswith(("matplotlib", "liftcalc.figures")):
            monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "matplotlib", None)
    html = records()["BackLimits"]._repr_html_()
    assert "<img" not in html
    assert "matplotlib draws the maps" in html
    assert escape(CAUTION) in html


def test_what_computes_loads_neither_words_nor_drawings():
    code = (
        "import sys, liftcalc.evaluation.check, liftcalc.evaluation.sweep\n"
        "print(*(each for each in sys.modules if each.startswith("
        "('liftcalc.figures', 'liftcalc.reports', 'liftcalc.questions'))))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == ""
