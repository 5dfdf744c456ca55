"""What a walk round says each fault costs is what a lift told of it loses; the sheet holds all."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from liftcalc.errors import InputError
from liftcalc.evaluation.condition import ITEMS
from liftcalc.figures.page_layout import EDGE, TALL_SHEET, WIDE_SHEET
from liftcalc.figures.walkround import COLUMNS, walkround_sheet
from liftcalc.judgement.judge import judge
from liftcalc.machines.files import load
from liftcalc.questions.walkround import Finding, Walkround, walkround
from liftcalc.reports.walkround_text import NO_COST, cost_words, record, table, told_words
from liftcalc.requests.demo import DEMO
from liftcalc.requests.lift import parse_lift
from liftcalc.units import INCH, System
from tests.helpers import METRIC, plain


@pytest.fixture(scope="module")
def compact() -> Walkround:
    return walkround("compact-centre-mount")


def of(found: Walkround, told: str) -> Finding:
    (one,) = [each for each in found.findings if each.told == told]
    return one


def test_it_is_dearest_first_kinds_of_lift_before_kilograms(compact: Walkround) -> None:
    dear = [(len(e.barred), sum(c.lost for c in e.costs)) for e in compact.findings]
    assert dear == sorted(dear, reverse=True)
    assert dear[0][0] == len(compact.lifts) == 4
    assert {each.request.end for each in compact.lifts} == {"back", "front"}


def test_every_item_that_the_machine_has_is_there_once(compact: Walkround) -> None:
    asked = [item for item in ITEMS if item.worn != "loose clamp"]
    assert len(compact.findings) == len(asked)
    assert float(load("compact-centre-mount").back.sideshift_limit) == 0


def test_a_fault_takes_the_lifts_of_its_circuit_and_leaves_the_others(compact: Walkround) -> None:
    hose = of(compact, "front hose")
    for cost in hose.costs:
        front = cost.lift.request.end == "front"
        assert cost.barred is front
        assert cost.allowed == (0 if front else cost.lift.allowed)
    assert cost_words(hose, "metric") == "all of C and D"


def test_a_cost_is_what_a_lift_told_of_it_is_allowed_less(compact: Walkround) -> None:
    told: dict[str, Any] = {"pressure": "156 bar", "creep": "40 mm/min", "play": "30 mm"}
    for each in compact.findings:
        field = each.item.field
        if field in told:
            for cost in each.costs:
                answer, _ = judge(replace(cost.lift.request, **{field: told.pop(field, "")}))
                assert cost.allowed == pytest.approx(answer.allowed, rel=1e-9)
                assert cost.lost == pytest.approx(cost.lift.allowed - answer.allowed, rel=1e-9)
                break
    assert not told


def test_it_is_reckoned_with_lifts_of_ones_own() -> None:
    found = walkround("standard-sideshift", own=[("larch.toml", DEMO)])
    (lift,) = found.lifts
    sound = replace(DEMO, pressure="220 bar", devices="fitted")
    assert lift.allowed == pytest.approx(judge(sound)[0].allowed, rel=1e-6)
    assert of(found, "front hose").barred == ()
    assert cost_words(of(found, "front hose"), "metric") == NO_COST
    assert "larch.toml" in table(found, "metric")[3]


def test_where_no_lift_is_left_of_a_machine_there_is_nothing_to_tell() -> None:
    with pytest.raises(InputError, match="sound machine is allowed something"):
        walkround("standard-sideshift", own=[("high.toml", replace(DEMO, height="9 m"))])


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_what_is_typed_for_a_cost_is_read_as_it_is_told(compact: Walkround, system: System) -> None:
    for each in compact.findings:
        option, _, text = told_words(each, system).partition(" ")
        typed: dict[str, Any] = {option[2:].replace("-", "_"): text.strip("'")}
        parse_lift(replace(DEMO, machine="compact-centre-mount", **typed))


def test_in_feet_and_pounds_nothing_is_metric(compact: Walkround) -> None:
    for line in table(compact, "imperial"):
        assert not METRIC.search(plain(line)), line


def test_as_data_costs_stand_in_the_order_of_the_lifts(compact: Walkround) -> None:
    made = record(compact, "metric")
    for item in made["items"]:
        for cost, lift in zip(item["costs"], made["lifts"], strict=True):
            assert cost["lost_kg"] == pytest.approx(lift["allowed_kg"] - cost["allowed_kg"])
            assert cost["lost_kg"] >= 0


def drawn_words(made: Figure) -> list[tuple[str, float, float, float, float]]:
    canvas = FigureCanvasAgg(made)
    boxes = ((t.get_text(), t.get_window_extent(canvas.get_renderer())) for t in made.texts)
    dots = made.dpi / INCH
    return [(w, b.x0 / dots, b.x1 / dots, b.y0 / dots, b.y1 / dots) for w, b in boxes if w]


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_the_sheet_is_one_page_that_holds_every_word_in_its_column(
    compact: Walkround, system: System
) -> None:
    words = drawn_words(walkround_sheet(compact, system=system))
    room = WIDE_SHEET - 2 * EDGE
    starts = [EDGE + left * room for left, _ in COLUMNS]
    for said, left, right, low, high in words:
        assert EDGE - 1e-3 <= left <= right <= WIDE_SHEET - EDGE + 1e-3, said
        assert EDGE - 2e-3 <= low <= high <= TALL_SHEET - EDGE + 1e-3, said
        ahead = [each for each in starts if each > left + 1e-3]
        if ahead and any(abs(left - each) < 1e-3 for each in starts):
            assert right < min(ahead), said
    told = " ".join(said for said, *_ in words)
    for each in compact.findings:
        for part in cost_words(each, system).split():
            assert part in told


def test_no_words_of_the_sheet_stand_on_one_another(compact: Walkround) -> None:
    words = drawn_words(walkround_sheet(compact))
    for number, (said, left, right, low, high) in enumerate(words):
        for other, left_2, right_2, low_2, high_2 in words[number + 1 :]:
            apart = right < left_2 or right_2 < left or high < low_2 + 5e-4 or high_2 < low + 5e-4
            assert apart, (said, other)
