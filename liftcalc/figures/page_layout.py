"""A lift on one sheet of A4, to take to the machine: answer, drawings, tables, what was not said.

Words shrink until all of them are on the sheet beside drawings that can still be read; nothing is
left out to make room.
"""

from __future__ import annotations

import math
import textwrap
from collections.abc import Iterator
from dataclasses import dataclass

from matplotlib.figure import Figure

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.warnings import ground_remark
from liftcalc.factors import CAUTION, NOT_CHECKED
from liftcalc.figures.bars import TIPS
from liftcalc.figures.hanging import hanging
from liftcalc.figures.plan import plan
from liftcalc.figures.renderer import draw_scene
from liftcalc.figures.scene import WIDE
from liftcalc.figures.sheet import INK, SOFT
from liftcalc.figures.side import side
from liftcalc.figures.text import worth_words
from liftcalc.reports.text import (
    PLAN_ON,
    keep_out_words,
    machine_words,
    place_words,
    verdict_sentences,
)
from liftcalc.reports.words import text, texts
from liftcalc.units import INCH, System, show

WIDE_SHEET, TALL_SHEET, EDGE = 0.210, 0.297, 0.010
"""A4 and its free edge [m]."""
GAP = 0.006
"""Between two columns [m]."""
SIZES = (7.4, 7.0, 6.6, 6.2, 5.8, 5.4, 5.0, 4.6, 4.2)
"""Sizes of words to try, the largest first [pt]."""
LEAST_DRAWN = 0.1
"""Height below which drawings are not squeezed for larger words [m]."""
SHARES = (0.38, 0.25, 0.37)
"""Of the width, for side view, log and plan [-]."""
POINT = INCH / 72
LEADING, LETTER = 1.34, 0.545
"""Distance of lines and mean width of a letter, over the size of words [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A line of words in columns: each with its left edge as a share of the room [-]."""

    cells: tuple[tuple[float, str], ...]
    strong: bool = False


Block = list[Row]


def one_page(answer: Answer, *, system: System = "metric") -> Figure:
    """A whole answer on one sheet of A4, upright."""
    made = Figure(figsize=(WIDE_SHEET / INCH, TALL_SHEET / INCH))
    made.set_facecolor("#ffffff")
    size, top, columns, foot = _fitted(answer, system)
    line = LEADING * size * POINT
    room = WIDE_SHEET - 2 * EDGE
    half = (room - GAP) / 2
    at = _write(made, top, left=EDGE, high=TALL_SHEET - EDGE, room=room, size=size)
    low = EDGE + line * len(foot)
    _write(made, foot, left=EDGE, high=low, room=room, size=size)
    tables = low + line * (max(len(each) for each in columns) + 1)
    for number, each in enumerate(columns):
        _write(
            made,
            each,
            left=EDGE + number * (half + GAP),
            high=tables - 0.5 * line,
            room=half,
            size=size,
        )
    _draw(made, answer, system, low=tables, high=at - 0.5 * line)
    return made


def _fitted(answer: Answer, system: System) -> tuple[float, Block, tuple[Block, Block], Block]:
    """The largest words with which all fits."""
    for size in SIZES:
        room = WIDE_SHEET - 2 * EDGE
        wide, half = (int(each / (LETTER * size * POINT)) for each in (room, (room - GAP) / 2))
        top = list(_head(answer, system, wide))
        columns = (list(_left(answer, system, half)), list(_right(answer, system, half)))
        foot = list(_foot(answer, system, wide))
        lines = len(top) + max(len(each) for each in columns) + len(foot) + 2
        left = TALL_SHEET - 2 * EDGE - lines * LEADING * size * POINT
        if left >= LEAST_DRAWN:
            break
    return size, top, columns, foot


def _write(
    made: Figure, rows: Block, *, left: float, high: float, room: float, size: float
) -> float:
    """Rows downward from a height [m]; gives the height below them."""
    for row in rows:
        high -= LEADING * size * POINT
        for share, words in row.cells:
            made.text(
                (left + share * room) / WIDE_SHEET,
                (high + 0.3 * size * POINT) / TALL_SHEET,
                words.replace("$", r"\$"),
                fontsize=size,
                va="baseline",
                fontweight="bold" if row.strong else "normal",
                color=INK if row.strong or share == 0 else SOFT,
            )
    return high


def _draw(made: Figure, answer: Answer, system: System, *, low: float, high: float) -> None:
    """Side view, log and plan beside each other, as large as they can be."""
    scenes = [each(answer, system=system) for each in (side, hanging, plan)]
    room = WIDE_SHEET - 2 * EDGE - 2 * GAP
    start = EDGE
    for scene, share in zip(scenes, SHARES, strict=True):
        over = (scene.top - scene.bottom) / (scene.right - scene.left)
        wide = min(share * room, (high - low) / over)
        left = start + (share * room - wide) / 2
        axes = made.add_axes(
            (
                left / WIDE_SHEET,
                (high - wide * over) / TALL_SHEET,
                wide / WIDE_SHEET,
                wide * over / TALL_SHEET,
            )
        )
        axes.set_axis_off()
        axes.set_xlim(scene.left, scene.right)
        axes.set_ylim(scene.bottom, scene.top)
        draw_scene(axes, scene, points=wide / POINT / WIDE)
        start += share * room + GAP


def _plain(words: str, letters: int, *, strong: bool = False, mark: str = "") -> Iterator[Row]:
    """A sentence broken into rows."""
    # Bold letters are wider; the name of an option stays whole.
    wide = int(letters * (0.86 if strong else 1.0)) - len(mark)
    lines = textwrap.wrap(words, wide, break_on_hyphens=False) or [""]
    for number, each in enumerate(lines):
        yield Row(cells=((0.0, (mark if number == 0 else " " * len(mark)) + each),), strong=strong)


def _head(answer: Answer, system: System, letters: int) -> Iterator[Row]:
    lift = answer.lift
    allowed = show(max(0.0, answer.allowed), "mass", system, "down")
    heaviest = show(answer.heaviest_log, "mass", system, "down")
    plan_on = show(lift.log.mass_planning, "mass", system, "up")
    for said in verdict_sentences(answer, system):
        yield from _plain(said, letters, strong=True)
    yield from _plain(
        f"Allowed at the lift point: {allowed}. Heaviest log here: {heaviest}. "
        f"{PLAN_ON.capitalize()}: {plan_on}. Stopped first by: {text(answer.governs, system)}.",
        letters,
        strong=True,
    )
    yield from _plain(
        f"{machine_words(lift, system)}. {lift.end.capitalize()} end, "
        f"{place_words(answer, system)}.",
        letters,
    )


def _left(answer: Answer, system: System, letters: int) -> Iterator[Row]:
    """What could stop it, and what the feet carry."""
    at = (0.0, 0.62, 0.86)
    yield Row(
        cells=tuple(zip(at, ("What could stop it", "allowed", "used"), strict=True)), strong=True
    )
    for each in answer.criteria:
        used = "no room" if math.isinf(each.utilisation) else f"{_percent(each.utilisation)} %"
        names = textwrap.wrap(text(each.title, system), int(0.6 * letters)) or [""]
        worth = textwrap.wrap(worth_words(each, system), int(0.23 * letters))
        for number in range(max(len(names), len(worth))):
            cells = [(0.0, names[number])] if number < len(names) else []
            cells += [(0.62, worth[number])] if number < len(worth) else []
            cells += [(0.86, used)] if number == 0 else []
            yield Row(cells=tuple(cells))
    yield Row(cells=())
    yield from _feet(answer, system)


def _percent(share: float) -> int:
    return math.ceil(100 * share - 1e-9)


def _feet(answer: Answer, system: System) -> Iterator[Row]:
    at = (0.0, 0.34, 0.51, 0.68, 0.86)
    heads = ("Feet, with this log", "settled", "worst", "pressure", "needs")
    yield Row(cells=tuple(zip(at, heads, strict=True)), strong=True)
    if not answer.ground_forces.stands:
        yield Row(cells=((0.0, TIPS),))
        return
    for foot in answer.ground_forces.feet:
        said = [
            foot.name,
            show(foot.force, "force", system, "up"),
            show(foot.worst, "force", system, "up"),
            "not said" if foot.pressure is None else show(foot.pressure, "bearing", system, "up"),
            "not known" if foot.needed is None else show(foot.needed, "area", system, "up"),
        ]
        yield Row(cells=tuple(zip(at, said, strict=True)))


def _right(answer: Answer, system: System, letters: int) -> Iterator[Row]:
    """Ground and rigging, what is near, and what was not said."""
    yield from _heading("Ground and rigging")
    for said in (*_ground(answer, system), *_rigging(answer, system)):
        yield from _plain(said, letters, mark="· ")
    yield from _heading("Near")
    for said in _near(answer, system):
        yield from _plain(said, letters, mark="· ")
    if answer.unchecked:
        yield from _heading(NOT_CHECKED)
        for each in texts(answer.unchecked, system):
            yield from _plain(each, letters, mark="· ")


def _heading(words: str) -> Iterator[Row]:
    yield Row(cells=((0.0, words),), strong=True)


def _ground(answer: Answer, system: System) -> Iterator[str]:
    lift = answer.lift
    yield text(ground_remark(answer.ground_forces), system)
    if lift.mat is not None:
        yield f"mats: {show(lift.mat, 'length', system)} square under each pad"
    if float(lift.site.slope):
        slope = show(float(lift.site.slope), "slope")
        yield f"slope {slope}" + ("; the machine was levelled" if lift.site.levelled else "")


def _rigging(answer: Answer, system: System) -> Iterator[str]:
    lift = answer.lift
    if lift.taken.way != "whole":
        share = _percent(lift.pull.share)
        yield (
            f"log taken: {lift.taken.way}, its {lift.taken.ground_end} on the ground; up to "
            f"{share} % of its weight on the hook"
        )
    if not lift.slung:
        yield f"log {lift.point.hold} by the {lift.tool.name}"
        return
    sling = lift.sling
    legs = f", {show(sling.spread, 'length', system)} apart" if sling.spread else ""
    long = show(sling.length, "length", system)
    weighs = show(sling.mass, "mass", system, "up")
    yield f"{lift.gear.kind or 'sling'}, {sling.way}, {long} long{legs}; weighs {weighs}"
    if answer.hang is not None and lift.taken.way == "whole":
        yield f"the log hangs up to {show(answer.hang.angle, 'angle')} off the level"


def _near(answer: Answer, system: System) -> Iterator[str]:
    lean = float(answer.reached.lean)
    swing = f", swinging {show(lean, 'angle')} each way" if lean > 0 else ""
    yield keep_out_words(answer, system) + swing
    if answer.lift.taken.way == "whole":
        low = answer.lowest_tipped
        clear = show(abs(low), "length", system, "down")
        yield f"{clear} {'clear under the log' if low >= 0 else 'too low: it is not clear'}"
    for each in answer.criteria:
        if each.clearance is not None:
            yield f"{each.name}: {worth_words(each, system)}"


def _foot(answer: Answer, system: System, letters: int) -> Iterator[Row]:
    yield from _heading("Warnings")
    for each in texts(answer.warnings, system):
        yield from _plain(each, letters, mark="· ")
    if answer.assumed:
        yield from _plain(
            f"{len(answer.assumed)} values were assumed, not given; the full answer lists them.",
            letters,
            mark="· ",
        )
    yield from _plain(CAUTION, letters, strong=True)
