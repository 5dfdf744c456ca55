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
LARGEST = {"taped": (1.72, 2.51, 2.51), "weighed": (1.47, 2.14, 2.14)}
"""The same by tipping and rams: what it has come to, so that it comes to no more."""
SHARE = (0.75, 0.5, 0.5)
"""Share of a tipping load that may be used, by duty; ISO 10567 and ISO 14397-1, queensland_2006."""
DUTIES = ("on pads", "standing", "carrying")
MACHINE = re.compile(r"^tipping|ram$")


def test_the_list_is_long_and_half_of_it_is_yes():
    assert len(everyday()) >= 120
    assert len(LIFTS) == len(everyday()), "a title twice"
    yes = sum(each.says == ("holds",) for each in everyday())
    assert 0.4 <= yes / len(everyday()) <= 0.6
    for each in everyday():
        assert set(each.says) < VERDICTS, each.title
        assert len(each.why) > 20, each.title
        # A yes is carried by a figure.
        assert each.says != ("holds",) or re.search(r"\d", each.why), each.title
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


def needed(lift: Everyday) -> tuple[float, float, float]:
    """Capacity needed over likely mass: of what stops it first, the most of tipping and rams.

    Last what no judgement makes less: the planning mass over the share that a standard sets.
    """
    made = said_to(lift).document
    likely = made["log"]["mass_kg"]["likely"]
    rows = [each for each in made["criteria"] if each.get("needed_kg")]
    first = max(rows, key=lambda each: each["utilisation"])["needed_kg"]
    of_machine = [each for each in rows if MACHINE.search(each["name"])]
    most = max(of_machine, key=lambda each: each["needed_kg"])
    planned, rigging = made["log"]["mass_kg"]["planning"], made["answer"]["rigging_kg"]
    share = SHARE[(group(lift) or ("", 0))[1]]
    # Log, what it hangs in, the machine's tolerance, the standard's share: and nothing more.
    assert most["needed_kg"] <= (planned + rigging) / share / most["tolerance_share"] + 1e-6
    return first / likely, most["needed_kg"] / likely, planned / share / likely


@pytest.mark.parametrize("how", MOST)
@pytest.mark.parametrize("duty", range(3), ids=DUTIES)
def test_the_capacity_that_is_asked_for_is_not_many_times_the_log(
    how: str, duty: int, judged: Callable[[str, str], None]
):
    """Each doubt counts once: by what stops it first, which keeps the target.

    By tipping and rams, whether they come first or not, two are not kept: see decision 10.
    """
    found = [needed(lift) for lift in everyday() if group(lift) == (how, duty)]
    assert len(found) >= 3
    first, machine, least = (median(each) for each in zip(*found, strict=True))
    target = MOST[how][duty]
    judged(
        "needed",
        f"| {how} | {DUTIES[duty]} | {len(found)} | {first:.2f} | {machine:.2f} | {least:.2f} | "
        f"{target} |",
    )
    assert first <= target
    assert machine <= LARGEST[how][duty]
