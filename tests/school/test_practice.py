"""What comes next, and what is said of a learner's judgement."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from liftcalc.errors import InputError
from liftcalc.school.files import lesson, lessons
from liftcalc.school.practice import BOX_DAYS, judgement, next_drill
from liftcalc.school.record import Attempt

NOW = datetime(2026, 3, 1, 8, 0, tzinfo=UTC)
DRILLS = [each for each in lessons() if each.drill]


def tried(
    name: str,
    *,
    days: float = 0.0,
    score: float = 1.0,
    unsafe: bool = False,
    error: float | None = 0.0,
    seed: int = 0,
) -> Attempt:
    return Attempt(
        at=NOW + timedelta(days=days),
        lesson=name,
        skill=lesson(name).skill,
        drill=True,
        seed=seed,
        machine="small-tractor",
        given="1",
        key="1",
        unit="kg",
        error=error,
        score=score,
        unsafe=unsafe,
    )


def after(attempts: list[Attempt], days: float = 0.01, seed: int = 1) -> str:
    return next_drill(attempts, now=NOW + timedelta(days=days), seed=seed).lesson.id


def test_a_new_learner_goes_through_the_course_in_its_order() -> None:
    done: list[Attempt] = []
    for each in DRILLS:
        drill = next_drill(done, now=NOW, seed=3)
        assert drill.lesson.id == each.id
        assert "not tried" in drill.why
        done.append(tried(each.id))


def test_what_is_known_rests_longer_and_longer() -> None:
    """Right every time it is due: the boxes' days, one after the other."""
    attempts, day = [tried("side-slope")], 0.0
    for box, rest in enumerate(BOX_DAYS[1:], 2):
        (found,) = judgement(attempts)
        assert found.box == box
        assert found.due == NOW + timedelta(days=day + rest)
        day += rest
        attempts.append(tried("side-slope", days=day))
    assert judgement(attempts)[0].box == len(BOX_DAYS)


def test_a_miss_or_an_unsafe_error_goes_back_to_the_first_box() -> None:
    known = [tried("side-slope"), tried("side-slope", days=1), tried("side-slope", days=4)]
    assert judgement(known)[0].box == 4
    assert judgement([*known, tried("side-slope", days=12, score=0.2)])[0].box == 1
    # Near, but on the unsafe side.
    assert judgement([*known, tried("side-slope", days=12, score=0.9, unsafe=True)])[0].box == 1


def test_doing_it_again_too_soon_proves_nothing() -> None:
    often = [tried("side-slope", days=0.001 * i) for i in range(20)]
    assert judgement(often)[0].box == 2


def test_unsafe_skills_come_before_weak_ones_and_weak_before_new_ones() -> None:
    weak = tried("mats", score=0.1)
    unsafe = tried("soaked", score=0.4, unsafe=True)
    good = tried("slew-stop", days=0.001)
    assert after([weak, unsafe, good]) == "soaked"
    assert after([weak, good]) == "mats"
    assert after([good]) == DRILLS[0].id
    assert "unsafe side" in next_drill([unsafe, good], now=NOW, seed=1).why


def test_the_same_skill_does_not_come_twice_running() -> None:
    weak = [tried("mats", score=0.1), tried("soaked", days=0.001, score=0.1, unsafe=True)]
    assert after(weak) == "mats"
    # Unless nothing else is wanted.
    only = [lesson("soaked")]
    assert next_drill(weak, now=NOW, seed=1, among=only).lesson.id == "soaked"


def test_of_attempts_in_one_second_the_last_counts() -> None:
    both = [tried("mats", score=0.1), tried("soaked", score=0.1)]
    assert after(both) == "mats"
    assert after(both[::-1]) == "soaked"


def test_what_is_due_soonest_when_nothing_is_due() -> None:
    all_done = [tried(each.id, days=0.001 * i) for i, each in enumerate(DRILLS)]
    drill = next_drill(all_done, now=NOW + timedelta(hours=1), seed=1)
    assert drill.lesson.id == DRILLS[0].id
    assert "Nothing is due" in drill.why
    later = next_drill(all_done, now=NOW + timedelta(days=2), seed=1)
    assert "due" in later.why


def test_seeds_are_fresh_and_the_choice_is_repeatable() -> None:
    done: list[Attempt] = []
    for number in range(40):
        drill = next_drill(done, now=NOW, seed=5, among=[lesson("mats")])
        assert drill == next_drill(done, now=NOW, seed=5, among=[lesson("mats")])
        assert drill.seed not in {each.seed for each in done}
        done.append(tried("mats", days=0.001 * number, seed=drill.seed))
    with pytest.raises(InputError):
        next_drill([], now=NOW, seed=1, among=[])


def test_judgement_in_figures() -> None:
    errors = [0.3, 0.2, 0.1, 0.0]
    found = judgement(
        [
            tried("side-slope", days=i, error=error, score=1 - error, unsafe=error > 0.15)
            for i, error in enumerate(errors)
        ]
    )[0]
    assert found.attempts == 4
    assert found.bias == pytest.approx(0.15)
    assert found.spread == pytest.approx(0.15)
    assert found.unsafe == 0.5
    assert found.trend == pytest.approx(0.2)
    assert f"{100 * math.expm1(0.15):.0f} % too high" in found.said
    assert "2 of them on the unsafe side" in found.said
    assert "getting better" in found.said


def test_a_bias_is_mirrored() -> None:
    def biased(sign: float) -> float:
        made = [tried("mats", days=i, error=sign * e) for i, e in enumerate((0.1, 0.4, -0.05))]
        bias = judgement(made)[0].bias
        assert bias is not None
        return bias

    assert biased(1.0) == pytest.approx(-biased(-1.0))


def test_choices_have_no_bias_and_few_attempts_no_trend() -> None:
    (found,) = judgement([tried("which-line", error=None, score=0.0)])
    assert found.bias is None
    assert found.spread is None
    assert found.trend is None
    assert judgement([]) == ()


def test_the_order_in_the_file_does_not_matter() -> None:
    attempts = [tried("mats", days=i, score=0.1 * i) for i in range(8)]
    assert judgement(attempts) == judgement(attempts[::-1])
    assert judgement([replace(each, skill="b") for each in attempts])[0].skill == "b"
