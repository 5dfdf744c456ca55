"""What to measure on a machine of a class, on one sheet of paper to take to the yard."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import NamedTuple

from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from liftcalc.factors import CAUTION
from liftcalc.figures.measuring import Group, View, asked, measuring
from liftcalc.figures.page_layout import EDGE, LEADING, LETTER, POINT, WIDE_SHEET
from liftcalc.figures.renderer import draw_scene
from liftcalc.figures.scene import Scene
from liftcalc.figures.sheet import INK, SOFT, TITLE
from liftcalc.machines.schema import Machine
from liftcalc.units import INCH

TALL = 0.2794
"""Height of the sheet [m]: as wide as A4 and as tall as Letter, so it prints on both unscaled."""
ROWS = {"rated_back": 3, "rated_front": 2}
"""Facts that are told several times, a row of the chart each."""
SIZES = (7.4, 7.0, 6.6, 6.2, 5.8, 5.4)
"""Sizes of words to try, the largest first [pt]."""
LEAST_ROW = 0.0060
"""Height of a line that a hand can write on [m]."""
GAP, BLANK, NUMBER = 0.006, 0.030, 0.006
"""Between the columns, width of the line to write on, and of the number before a question [m]."""
ROOM = WIDE_SHEET - 2 * EDGE
HALF = (ROOM - GAP) / 2
SIDE, ABOVE = 0.73, 0.24
"""Width of the drawings from the side and from above, as shares of the room [-]."""
LETTERS = 8.2
"""Size of plain words in the drawings [pt]."""
ABOUT = (
    "Tell what you have and leave the rest: each line makes the answer surer, the first ones most. "
    "Write the unit with each figure. Machine empty on hard, level ground, stabilisers just down; "
    "from middle to middle of pins and hubs; heights plumb, lengths along the ground level."
)
BLANKS = (
    "Machine ____________________________   hours __________   day ______________   "
    "measured by ____________________"
)
HEAD = 0.007
"""Height of the title [m]."""


def measuring_sheet(machine: Machine) -> Figure:
    """One page: where to measure on drawings of a machine of the class, and lines to write on."""
    made = Figure(figsize=(WIDE_SHEET / INCH, TALL / INCH))
    made.set_facecolor("#ffffff")
    groups = asked(machine)
    numbers = {each.fact.key: each.number for group in groups for each in group.first}
    drawings = [measuring(machine, numbers, view="side", ems=62.0)]
    drawings.append(measuring(machine, numbers, view="above", ems=22.0))
    foot = textwrap.wrap(CAUTION, int(0.88 * ROOM / (LETTER * SIZES[0] * POINT)))
    low = EDGE + _put(made, EDGE, EDGE + _tall(foot, SIZES[0]), foot, SIZES[0], strong=True)
    high = TALL - EDGE
    _put(made, EDGE, high, [f"What to measure: {machine.title}"], TITLE, strong=True)
    about = textwrap.wrap(ABOUT, int(ROOM / (LETTER * SIZES[0] * POINT)))
    high -= HEAD
    high -= _put(made, EDGE, high, [*about, "", BLANKS], SIZES[0]) + 0.003
    views: tuple[tuple[View, float, float], ...] = (
        ("side", SIDE, EDGE),
        ("above", ABOVE, EDGE + (1 - ABOVE) * ROOM),
    )
    high -= max(
        _draw(
            made,
            measuring(machine, numbers, view=view, ems=share * ROOM / (LETTERS * POINT)),
            left=left,
            high=high,
            wide=share * ROOM,
        )
        for view, share, left in views
    )
    for number, rows in enumerate(_fitted(groups, high - low)):
        _column(made, rows, EDGE + number * (HALF + GAP), high)
    return made


class Row(NamedTuple):
    """A title of a group, or a question with its number; words in lines of a size [pt]."""

    number: str
    lines: list[str]
    size: float

    @property
    def tall(self) -> float:
        """Its height [m]."""
        words = _tall(self.lines, self.size)
        return max(words + 0.0014, LEAST_ROW) if self.number else words + 0.003


def _fitted(groups: list[Group], room: float) -> tuple[list[Row], list[Row]]:
    """Rows in two columns of a height [m], in the largest words with which all fit."""
    for size in SIZES:
        rows = list(_rows(groups, size))
        left: list[Row] = []
        while rows and sum(each.tall for each in (*left, rows[0])) <= room:
            left.append(rows.pop(0))
        if left and not left[-1].number:  # no title at the foot of a column
            rows.insert(0, left.pop())
        if sum(each.tall for each in rows) <= room:
            break
    return left, rows


def _rows(groups: list[Group], size: float) -> Iterator[Row]:
    letters = int((HALF - NUMBER - BLANK - 0.002) / (LETTER * size * POINT))
    for group in groups:
        yield Row("", [group.title], size)
        for each in group.first:
            words = textwrap.wrap(each.fact.question, letters)
            beside = "    ".join(f"{name} ________" for name in each.fact.asks)
            for _ in range(ROWS.get(each.fact.key, 1)):
                yield Row(each.number, [*words, *([beside] if beside else [])], size)
                words = ["another row of it"]


def _column(made: Figure, rows: list[Row], left: float, high: float) -> None:
    for each in rows:
        indent = left + (NUMBER if each.number else 0.0)
        # Words stand on the line that is written on.
        base = high - each.tall + 0.0008
        top = base + _tall(each.lines, each.size)
        _put(made, indent, top, each.lines, each.size, strong=not each.number)
        if each.number:
            _put(made, left, top, [each.number], each.size, strong=True)
            across = ((left + HALF - BLANK) / WIDE_SHEET, (left + HALF) / WIDE_SHEET)
            made.add_artist(Line2D(across, (base / TALL,) * 2, color=SOFT, linewidth=0.6))
        high -= each.tall


def _tall(lines: list[str], size: float) -> float:
    return len(lines) * LEADING * size * POINT


def _put(
    made: Figure, left: float, high: float, lines: list[str], size: float, *, strong: bool = False
) -> float:
    """Lines downward from a height [m]; gives how tall they are [m]."""
    for number, words in enumerate(lines, 1):
        made.text(
            left / WIDE_SHEET,
            (high - _tall(lines[:number], size) + 0.3 * size * POINT) / TALL,
            words,
            fontsize=size,
            va="baseline",
            fontweight="bold" if strong else "normal",
            color=INK,
        )
    return _tall(lines, size)


def _draw(made: Figure, scene: Scene, *, left: float, high: float, wide: float) -> float:
    """A drawing below a height [m], as wide as that; gives how tall it is [m]."""
    across, up = scene.right - scene.left, scene.top - scene.bottom
    tall = wide * up / across
    axes = made.add_axes((left / WIDE_SHEET, (high - tall) / TALL, wide / WIDE_SHEET, tall / TALL))
    axes.set_xlim(scene.left, scene.right)
    axes.set_ylim(scene.bottom, scene.top)
    axes.axis("off")
    draw_scene(axes, scene, points=wide / POINT * scene.em / across)
    return tall
