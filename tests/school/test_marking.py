"""Marks: nearer never scores lower, and the unsafe side is the right one, mirrored."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftcalc.errors import InputError
from liftcalc.school.exercise import Exercise, pose
from liftcalc.school.files import lesson
from liftcalc.school.marking import mark, score_of
from liftcalc.units import SPACE, show

CAPACITY = pose(lesson("reach-and-tipping"), seed=1)
FORCE = pose(lesson("pad-under-the-boom"), seed=1)
PLACE = pose(lesson("farthest-reach"), seed=1)
BALANCE = pose(lesson("balance-point"), seed=1)
CHOICE = pose(lesson("which-line"), seed=1)
NUMBERS = [CAPACITY, FORCE]
some_ratio = st.floats(math.log(0.05), math.log(20))


@given(a=some_ratio, b=some_ratio, which=st.sampled_from(NUMBERS))
def test_a_nearer_guess_never_scores_lower(a: float, b: float, which: Exercise) -> None:
    assert which.key is not None
    near, far = sorted((a, b), key=abs)
    one, two = (mark(which, which.key.value * math.exp(each)) for each in (near, far))
    assert 0 <= two.score <= one.score + 1e-12 <= 1 + 1e-12
    assert one.right or not two.right


@given(off=st.floats(0.001, 3.0), other=st.floats(0.001, 3.0))
def test_the_same_of_a_place(off: float, other: float) -> None:
    assert PLACE.key is not None
    near, far = sorted((off, other))
    one, two = (mark(PLACE, PLACE.key.value + each) for each in (near, far))
    assert two.score <= one.score + 1e-12


@given(error=st.floats(0.001, 3.0))
def test_the_unsafe_side_is_mirrored(error: float) -> None:
    """A capacity guessed over is unsafe, a force guessed under; within the tolerance neither."""
    for which, sign in ((CAPACITY, 1.0), (FORCE, -1.0)):
        assert which.key is not None
        bad = mark(which, which.key.value * math.exp(sign * error))
        good = mark(which, which.key.value * math.exp(-sign * error))
        assert bad.unsafe == (error > which.key.tolerance)
        assert not good.unsafe
        assert bad.score == pytest.approx(good.score)
        assert bad.error == pytest.approx(sign * error)
        assert ("unsafe" in bad.said) == bad.unsafe
    assert PLACE.key is not None
    assert mark(PLACE, PLACE.key.value + error + PLACE.key.tolerance).unsafe
    assert not mark(PLACE, max(PLACE.key.value - error, 0.0)).unsafe
    assert BALANCE.key is not None
    assert not mark(BALANCE, BALANCE.key.value + error).unsafe


def test_the_scale_is_the_one_stated() -> None:
    assert score_of(0.05, tolerance=0.05, half=0.1) == 1.0
    assert score_of(-0.15, tolerance=0.05, half=0.1) == pytest.approx(0.5)
    assert score_of(0.35, tolerance=0.05, half=0.1) == pytest.approx(0.125)


@pytest.mark.parametrize(
    "name", ["reach-and-tipping", "rams-and-reach", "slew-stop", "wider-legs", "soaked", "mats"]
)
def test_no_change_is_no_good_guess(name: str) -> None:
    for seed in range(20):
        made = pose(lesson(name), seed=seed)
        assert made.key is not None
        assert made.key.start is not None
        assert mark(made, made.key.start).score <= 0.2501
        assert not mark(made, made.key.start).right


def test_how_a_guess_may_be_written() -> None:
    key = CAPACITY.key
    assert key is not None
    assert key.start is not None
    change = 100 * (key.value / key.start - 1)
    for given_as in (
        f"{key.value:.1f} kg",
        f"{key.value:.1f}",
        f"{key.value / 1000:.5f} t",
        key.value,
        f"{change:+.2f} %",
        f"{change:.2f}%".replace("-", "−"),
        f"{key.value / 0.45359237:.2f} lb",
    ):
        done = mark(CAPACITY, given_as)
        assert done.right, given_as
        assert done.unit == "kg"
        assert done.error == pytest.approx(0, abs=1e-3)
    assert FORCE.key is not None
    assert mark(FORCE, f"{FORCE.key.value / 1000:.3f}").right


@pytest.mark.parametrize("name", ["reach-and-tipping", "pad-under-the-boom", "mats"])
def test_what_is_shown_in_the_readers_units_may_be_typed_so(name: str) -> None:
    """A figure as the story shows it, with its unit or bare, is read as that figure."""
    for system in ("metric", "imperial"):
        made = pose(lesson(name), seed=2, system=system)
        assert made.key is not None
        assert made.key.start is not None
        shown = show(made.key.start, made.key.kind, system=system)
        assert shown.endswith(SPACE + made.key.unit)
        off = math.log(made.key.start / made.key.value)
        for text in (shown, shown.rpartition(SPACE)[0]):
            assert mark(made, text, system=system).error == pytest.approx(off, abs=0.01)
        assert made.key.unit in made.story


@pytest.mark.parametrize(
    "given_as",
    [
        "",
        "heavy",
        "nan",
        "inf kg",
        "-5 kg",
        "0",
        "0 kg",
        "-100 %",
        "-250 %",
        "1,5 t",
        "12 ton",
        "5 m",
        math.nan,
        math.inf,
        -1.0,
        "1e400",
    ],
)
def test_what_is_no_guess_is_refused(given_as: str | float) -> None:
    with pytest.raises(InputError):
        mark(CAPACITY, given_as)


def test_choices() -> None:
    for number, each in enumerate(CHOICE.choices, 1):
        for given_as in (each.text, each.text.upper(), str(number), number, float(number)):
            done = mark(CHOICE, given_as)
            assert done.right == each.right
            assert done.score == float(each.right)
            assert done.error is None
    for wrong in ("0", "5", "-1", "the moon", "", 0, 99):
        with pytest.raises(InputError):
            mark(CHOICE, wrong)


def test_going_ahead_with_a_lift_that_may_not_is_unsafe() -> None:
    made = pose(lesson("when-not-to-lift"), seed=4)
    for each in made.choices:
        assert mark(made, each.text).unsafe == (not each.right)
    way = pose(lesson("boom-and-height"), seed=4)
    told = {each.text: mark(way, each.text) for each in way.choices}
    assert sum(each.right for each in told.values()) == 1
    falls = told["It falls"]
    # The boom can hold less than all: to say that it falls is never the unsafe error.
    assert not falls.unsafe
    assert told["It rises"].unsafe != told["It rises"].right


def test_a_choice_that_is_a_sentence_keeps_one_full_stop() -> None:
    made = pose(lesson("when-not-to-lift"), seed=1)
    assert all(each.text.endswith(".") for each in made.choices)
    for each in made.choices:
        said = mark(made, each.text).said
        assert each.text in said
        assert ".." not in said
