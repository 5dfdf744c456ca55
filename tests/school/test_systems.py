"""A lesson speaks in the learner's units, whatever units its file is written in."""

from __future__ import annotations

import pytest

from liftcalc.school.animation import steps
from liftcalc.school.exercise import Exercise, pose
from liftcalc.school.files import lesson, shipped
from liftcalc.school.templates import word
from liftcalc.units import System, read
from tests.helpers import METRIC, plain


def told(made: Exercise, system: System) -> list[str]:
    """Every text that a learner is shown."""
    choices = [each.text for each in made.choices]
    moved = [text for each in steps(made, system=system) for text in (each.words, each.figure)]
    texts = [made.story, made.question, made.move, *made.listed, *made.explanation, made.do]
    return [plain(each) for each in (*texts, *choices, *moved)]


@pytest.mark.parametrize("name", shipped())
@pytest.mark.parametrize("seed", [1, 2])
def test_no_metric_unit_is_told_in_imperial(name: str, seed: int) -> None:
    made = pose(lesson(name), seed=seed, system="imperial")
    assert [each for each in told(made, "imperial") if METRIC.search(each)] == []


@pytest.mark.parametrize("name", ["when-not-to-lift", "mats", "what-it-weighs"])
def test_what_was_drawn_is_told_as_long_in_feet_and_inches(name: str) -> None:
    asked = pose(lesson(name), seed=3).asked
    for field in ("reach", "height", "length", "mat"):
        if drawn := getattr(asked, field):
            told = word(asked, field, "imperial")
            assert told != drawn
            assert read(told, "length").value == pytest.approx(
                read(drawn, "length").value, abs=0.0127
            )
