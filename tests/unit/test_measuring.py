"""What to measure on a machine, drawn and on paper: ends where they are, nothing off the sheet."""

from __future__ import annotations

import math

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from liftcalc.factors import CAUTION
from liftcalc.family.fact import Told
from liftcalc.family.facts import FACTS
from liftcalc.family.kind import CLASSES
from liftcalc.figures.measuring import Span, asked, measuring, spans
from liftcalc.figures.measuring_sheet import EDGE, TALL, measuring_sheet
from liftcalc.figures.page_layout import WIDE_SHEET
from liftcalc.figures.scene import Disc, word_box
from liftcalc.machines.files import load
from liftcalc.units import INCH

STROKES = {f"{ram}_ram_{end}" for ram in ("boom", "dipper", "bucket", "lift", "tilt")
           for end in ("closed", "open")}  # fmt: skip
"""Lengths of rams at an end of their stroke: drawn where the ram is, which is at neither."""


def taped(each: Span) -> float:
    """What a tape reads along a span as it is drawn [m]."""
    across, up = (abs(a - b) for a, b in zip(each.start, each.end, strict=True))
    return {"straight": math.hypot(across, up), "along": across, "up": up}[each.lay]


@pytest.mark.parametrize("name", CLASSES)
def test_a_tape_laid_where_it_is_drawn_reads_what_the_fact_says(name: str) -> None:
    machine = load(name)
    where = spans(machine)
    for key, each in where.items():
        if key in STROKES or key == "hinge_height":  # drawn with the arms down
            continue
        said = float(FACTS[key].predict(machine, Told(key=key, value=0.0), 0.0))
        assert taped(each) == pytest.approx(said, abs=1e-6), key
    lengths = {key for key, each in FACTS.items() if each.trouble in {"tape", "pins"}}
    rods = {key for key in lengths if key.endswith("_rod")}
    assert lengths - rods - where.keys() == {"sideshift"}


@pytest.mark.parametrize("name", CLASSES)
def test_every_line_of_a_drawing_has_its_number_and_two_ends_and_no_number_lies_on_another(
    name: str,
) -> None:
    machine = load(name)
    where = spans(machine)
    numbers = {each.fact.key: each.number for group in asked(machine) for each in group.first}
    for view in ("side", "above"):
        wanted = [numbers[key] for key in numbers if key in where and where[key].view == view]
        scene = measuring(machine, numbers, view=view, ems=46.0)
        assert sorted(each.text for each in scene.labels) == sorted(wanted)
        rings = [each for each in scene.find("measured point") if isinstance(each, Disc)]
        assert len(rings) == 2 * len(wanted)
        boxes = [word_box(each, scene.em) for each in scene.labels]
        for n, (left, right, bottom, top) in enumerate(boxes):
            assert scene.left <= left <= right <= scene.right
            assert scene.bottom <= bottom <= top <= scene.top
            for x, r, z, t in boxes[n + 1 :]:
                assert right <= x or r <= left or top <= z or t <= bottom


def drawn_words(made: Figure) -> list[tuple[str, float, float, float, float]]:
    """Words of a figure outside of its drawings, with their left, right, bottom and top [m]."""
    canvas = FigureCanvasAgg(made)
    boxes = ((t.get_text(), t.get_window_extent(canvas.get_renderer())) for t in made.texts)
    dots = made.dpi / INCH
    return [(w, b.x0 / dots, b.x1 / dots, b.y0 / dots, b.y1 / dots) for w, b in boxes if w.strip()]


@pytest.mark.parametrize("name", CLASSES)
def test_the_sheet_is_one_page_and_no_words_leave_it_or_lie_on_others(name: str) -> None:
    made = measuring_sheet(load(name))
    words = drawn_words(made)
    drawings = [each.get_position().bounds for each in made.axes]
    assert all(x >= 0 and x + w <= 1 and y >= 0 and y + h <= 1 for x, y, w, h in drawings)
    lowest = min(y for _, y, _, _ in drawings) * TALL
    for number, (said, left, right, low, high) in enumerate(words):
        assert EDGE - 1e-3 <= left <= right <= WIDE_SHEET - EDGE + 1e-3, said
        assert EDGE - 2e-3 <= low <= high <= TALL - EDGE + 1e-3, said
        for other, left_2, right_2, low_2, high_2 in words[number + 1 :]:
            apart = right < left_2 or right_2 < left or high < low_2 + 5e-4 or high_2 < low + 5e-4
            assert apart, (said, other)
    for line in made.artists + made.lines:
        (x, x_2), (y, _) = line.get_data()
        assert EDGE / WIDE_SHEET <= x < x_2 <= 1 - EDGE / WIDE_SHEET + 1e-9
        assert y * TALL < lowest
    told = " ".join(said for said, *_ in words)
    assert CAUTION in told
    for group in asked(load(name)):
        for each in group.first:
            assert " ".join(each.fact.question.split()[:3]) in told


def test_every_fact_has_one_number_and_the_first_asked_have_the_first() -> None:
    groups = asked(load("standard-sideshift"))
    first = [each for group in groups for each in group.first]
    every = [*first, *(each for group in groups for each in group.rest)]
    assert [each.number for each in every] == [str(n) for n in range(1, len(FACTS) + 1)]
    assert {each.fact.key for each in every} == FACTS.keys()


def test_what_a_machine_has_none_of_is_not_asked() -> None:
    def keys(name: str) -> set[str]:
        return {each.fact.key for group in asked(load(name)) for each in group.first}

    assert "sideshift" in keys("standard-sideshift")
    assert "sideshift" not in keys("standard-centre-mount")
