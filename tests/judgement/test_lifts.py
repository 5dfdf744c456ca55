"""Everyday lifts are judged as a careful person judges them: see ``lifts.toml``."""

from __future__ import annotations

import re
from collections.abc import Callable
from statistics import median

import pytest

from tests.judgement.everyday import Everyday, everyday, row, said_to

LIFTS = {each.title: each for each in everyday()}
VERDICTS = {"holds", "fails", "open"}
MOST = {"taped": (1.65, 2.4, 2.5), "weighed": (1.45, 2.1, 2.2)}
"""Capacity needed over likely mass, the median at the most, by duty."""
DUTIES = ("on pads", "standing", "carrying")
MACHINE = re.compile(r"^tipping|ram$")


def test_the_list_is_long_and_half_of_it_is_yes():
    assert len(everyday()) >= 120
    assert len(LIFTS) == len(everyday()), "a title twice"
    yes = sum(each.says == ("holds",) for each in everyday())
    assert 0.4 <= yes / len(everyday()) <= 0.6
    for each in everyday():
        assert set(each.says) < VERDICTS, each.title
        assert each.why, each.title
        named = [word for word in each.words if word.startswith("--")]
        assert len(named) == len(set(named)), f"an option twice: {each.title}"


def test_every_case_of_the_engineer_is_in_it():
    """Nineteen yeses that must not be, five noes that must not be."""
    cases = {f"Y{number}" for number in range(1, 20)} | {f"N{number}" for number in range(1, 6)}
    assert {each.issue for each in everyday()} - {""} == cases
    for each in everyday():
        if each.issue.startswith("N"):
            assert "fails" not in each.says, each.title
        elif each.issue and each.issue != "Y13":  # that one is of what must be said beside a yes
            assert "holds" not in each.says, each.title


@pytest.mark.parametrize("title", LIFTS)
def test_a_lift_is_judged_as_a_careful_person_judges_it(
    title: str, judged: Callable[[str, str], None]
):
    lift = LIFTS[title]
    said = said_to(lift)
    judged("lifts", row(lift, said))
    assert said.verdict in lift.says, (
        f"{lift.title}: a careful person says {' or '.join(lift.says)}, the tool {said.verdict}, "
        f"by {said.by}. {lift.why}"
    )
    if answer := said.document.get("answer"):
        assert answer["practice"] is True, "the classes are invented"
        assert (answer["decider"] is None) == (answer["judgement"] != "open")
    if lift.never:
        assert not re.search(lift.never, said.printed)


def group(lift: Everyday) -> tuple[str, int] | None:
    """How the log was weighed, and whether on pads (0), standing (1) or carried (2)."""
    if lift.says != ("holds",) or lift.words[0] != "check":
        return None
    how = "weighed" if "--mass" in lift.words else "taped"
    if "back" in lift.words:
        return how, 0
    return how, 2 if "--travelling" in lift.words else 1


def needed(lift: Everyday) -> tuple[float, float]:
    """Capacity needed over likely mass: of what stops it first, the most of tipping and rams."""
    made = said_to(lift).document
    likely = made["log"]["mass_kg"]["likely"]
    rows = [each for each in made["criteria"] if each.get("needed_kg")]
    first = max(rows, key=lambda each: each["utilisation"])["needed_kg"]
    machine = [each["needed_kg"] for each in rows if MACHINE.search(each["name"])]
    return first / likely, max(machine) / likely


@pytest.mark.parametrize("how", MOST)
@pytest.mark.parametrize("duty", range(3), ids=DUTIES)
def test_the_capacity_that_is_asked_for_is_not_many_times_the_log(
    how: str, duty: int, judged: Callable[[str, str], None]
):
    """What the governing criterion needs over the likely mass: each doubt counts once."""
    found = [needed(lift) for lift in everyday() if group(lift) == (how, duty)]
    assert len(found) >= 3
    first, machine = (median(each) for each in zip(*found, strict=True))
    judged(
        "needed",
        f"| {how} | {DUTIES[duty]} | {len(found)} | {first:.2f} | {machine:.2f} | "
        f"{MOST[how][duty]} |",
    )
    assert first <= MOST[how][duty]
