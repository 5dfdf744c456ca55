"""The tool that compares answers before and after a change finds what it is there to find."""

from __future__ import annotations

from typing import Any

import pytest

from tests import same_answers
from tests.drawn_requests import requests
from tests.same_answers import Answer, Reason, Report, flat, run

WORDS = ["check", "standard-sideshift", "--end=back", "--sling=two legs"]
ANSWER: Answer = {
    "answer/allowed_kg": 900.0, "answer/governs": "boom ram", "criteria/boom ram/allowed_kg": 900.0,
    "criteria/hook/allowed_kg": 900.0, "criteria/sling/allowed_kg": 1200.0,
    "criteria/sling/capacity_kg": 1200.0, "evidence/gravity/z": -9.8,
}  # fmt: skip


@pytest.fixture(autouse=True)
def nothing_reasoned(monkeypatch: pytest.MonkeyPatch) -> None:
    """The real reasons would excuse requests that are made up here."""
    monkeypatch.setattr(same_answers, "REASONED", ())


def found(now: Answer | None, *, flag: bool = False, faults: tuple[str, ...] = ()) -> list[str]:
    report = Report(rows_may_be_lower=flag)
    report.add(WORDS, (ANSWER, []), (now, list(faults)))
    return [each for _, left in report.wrong for each in left]


@pytest.mark.parametrize(
    "change",
    [
        {"answer/allowed_kg": 900.0 * (1 + 2e-9)}, {"answer/allowed_kg": None},
        {"answer/governs": "sling"}, {"criteria/wind/allowed_kg": 2000.0},
        {"criteria/sling/capacity_kg": 1100.0}, {"evidence/gravity/z": -9.7},
    ],
)  # fmt: skip
def test_a_number_a_name_or_a_row_that_changed_is_told(change: dict[str, Any]) -> None:
    assert len(found(ANSWER | change)) == 1


def test_what_is_the_same_is_not_told() -> None:
    assert not found(ANSWER | {"answer/allowed_kg": 900.0 * (1 + 1e-10)})
    assert not found(ANSWER | {"answer/governs": "hook"})  # as low as the boom ram


def test_an_answer_that_is_refused_now_or_lost_a_number_is_told() -> None:
    assert found(None, faults=("reach",))
    assert found({k: v for k, v in ANSWER.items() if k != "answer/allowed_kg"})


def test_a_refusal_is_told_by_its_fields() -> None:
    report = Report()
    report.add(WORDS, (None, ["reach"]), (None, ["reach"]))
    assert not report.wrong
    report.add(WORDS, (None, ["reach"]), (None, ["height"]))
    report.add(WORDS, (None, ["reach"]), (ANSWER, []))
    assert len(report.wrong) == 2


def test_rows_may_be_lower_but_never_higher() -> None:
    low = {"criteria/sling/capacity_kg": 1100.0, "criteria/sling/allowed_kg": 1100.0}
    assert found(ANSWER | low)
    assert not found(ANSWER | low, flag=True)
    assert found(ANSWER | dict.fromkeys(low, 1300.0), flag=True)
    assert found(ANSWER | low | {"criteria/sling/allowed_kg": 1300.0}, flag=True)


def test_a_reason_excuses_its_own_requests_and_no_rise(monkeypatch: pytest.MonkeyPatch) -> None:
    legs = Reason(why="legs", of=lambda options: options.get("sling") == "two legs")
    monkeypatch.setattr(same_answers, "REASONED", (legs,))
    assert not found(ANSWER | {"answer/allowed_kg": 800.0})
    assert found(ANSWER | {"answer/allowed_kg": 1000.0})
    other = Reason(why="other", of=lambda options: options.get("sling") == "single")
    monkeypatch.setattr(same_answers, "REASONED", (other,))
    assert found(ANSWER | {"answer/allowed_kg": 800.0})


def test_rows_go_by_name_wherever_they_stand() -> None:
    one, two = {"name": "hook", "where": "", "kg": 1.0}, {"name": "sling", "where": "x", "kg": 2.0}
    assert dict(flat({"rows": [one, two]})) == dict(flat({"rows": [two, one]}))
    assert dict(flat([one, one])) == {"/hook/kg": 1.0, "/hook #2/kg": 1.0}


def test_most_drawn_requests_have_an_answer() -> None:
    checks = [each for each in requests(60, 7) if each[0] == "check" and each[1][0] != "@"]
    answered = sum(run(words)[0] is not None for words in checks)
    assert answered >= 0.75 * len(checks)
    refused, faults = run([each for each in checks[0] if not each.startswith("--length")])
    assert refused is None
    assert "length" in " ".join(faults)
