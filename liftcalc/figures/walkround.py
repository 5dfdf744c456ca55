"""A walk round a machine on one sheet of A4, to take along with a pencil."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from liftcalc.factors import CAUTION
from liftcalc.figures.page_layout import EDGE, LEADING, LETTER, POINT, SIZES, TALL_SHEET, WIDE_SHEET
from liftcalc.figures.sheet import FAINT, INK, TITLE
from liftcalc.questions.walkround import Finding, Walkround
from liftcalc.reports.walkround_text import ALONE, SOUND, cost_words, lift_lines, title, worn_words
from liftcalc.reports.words import sentence, text
from liftcalc.units import INCH, System

COLUMNS = ((0.03, 0.50), (0.53, 0.24), (0.79, 0.21))
"""Left edge and width of what to do, what is counted and what it costs, over the room [-]."""
HEADS = ("Look, dearest first", "What is counted for it", "What that costs")
BLANKS = (
    "Machine ________________   hours ________   day __________   looked at by ________________"
)
FOUND = "found ______________________________"
"""Where a figure or a word is written in by hand."""
BETWEEN = 0.7
"""Room between items, over a line [-]."""
TOP, HEAD = 0.011, 0.006
"""Height of the title, and of the heads of the columns [m]."""

Line = tuple[str, bool]
"""A line of words, and whether it is strong."""


def walkround_sheet(found: Walkround, *, system: System = "metric") -> Figure:
    """What to look at on a machine, with boxes to tick and room to write."""
    made = Figure(figsize=(WIDE_SHEET / INCH, TALL_SHEET / INCH))
    made.set_facecolor("#ffffff")
    size = next((each for each in SIZES if _tall(found, system, each) <= _room()), SIZES[-1])
    high = TALL_SHEET - EDGE
    _put(made, 0.0, high, [(title(found), True)], size=TITLE)
    high = _put(made, 0.0, high - TOP, _head(found, system, size), size=size) - 0.5 * _line(size)
    for (left, _), words in zip(COLUMNS, HEADS, strict=True):
        _put(made, left, high, [(words, True)], size=size)
    high -= HEAD
    for each in found.findings:
        _rule(made, high + 0.35 * BETWEEN * _line(size))
        _box(made, high, size)
        low = [
            _put(made, left, high, words, size=size)
            for (left, _), words in zip(COLUMNS, _cells(each, system, size), strict=True)
        ]
        high = min(low) - BETWEEN * _line(size)
    _rule(made, high + 0.35 * BETWEEN * _line(size))
    _put(made, 0.0, high, _foot(size), size=size)
    return made


def _room() -> float:
    return TALL_SHEET - 2 * EDGE


def _line(size: float) -> float:
    """Height of a line of words [m]."""
    return LEADING * size * POINT


def _tall(found: Walkround, system: System, size: float) -> float:
    """Height of everything, with words of a size [m]."""
    rows = [max(len(cell) for cell in _cells(each, system, size)) for each in found.findings]
    lines = sum(rows) + BETWEEN * len(rows) + 0.5
    lines += len(_head(found, system, size)) + len(_foot(size))
    return TOP + HEAD + lines * _line(size)


def _letters(share: float, size: float) -> int:
    return int(share * (WIDE_SHEET - 2 * EDGE) / (LETTER * size * POINT))


def _broken(words: str, share: float, size: float, *, strong: bool = False) -> Iterator[Line]:
    letters = int(_letters(share, size) * (0.88 if strong else 1.0))
    for each in textwrap.wrap(words, letters, break_on_hyphens=False):
        yield each, strong


def _head(found: Walkround, system: System, size: float) -> list[Line]:
    lifts = [f"{words}: {load}, {stop}" for words, load, stop in lift_lines(found, system)]
    return [(BLANKS, False), ("", False), (SOUND, True), *((each, False) for each in lifts)]


def _foot(size: float) -> list[Line]:
    return [*_broken(ALONE, 1.0, size), *_broken(CAUTION, 1.0, size, strong=True)]


def _cells(each: Finding, system: System, size: float) -> tuple[list[Line], ...]:
    """What to do and what it tells; what is counted; how it is told and what that costs."""
    (_, wide), (_, middle), (_, narrow) = COLUMNS
    do = [
        *_broken(text(each.item.do, system), wide, size),
        *_broken(sentence(each.item.tells, system), wide, size),
        (FOUND, False),
    ]
    rule = [*_broken(sentence(each.item.rule, system), middle, size)]
    costs = [
        *_broken(cost_words(each, system), narrow, size, strong=True),
        *_broken(worn_words(each, system), narrow, size),
    ]
    return do, rule, costs


def _put(made: Figure, left: float, high: float, lines: list[Line], *, size: float) -> float:
    """Lines downward from a height [m]; gives the height below them."""
    at = (EDGE + left * (WIDE_SHEET - 2 * EDGE)) / WIDE_SHEET
    for words, strong in lines:
        high -= _line(size)
        made.text(
            at,
            (high + 0.3 * size * POINT) / TALL_SHEET,
            words.replace("$", r"\$"),
            fontsize=size,
            va="baseline",
            fontweight="bold" if strong else "normal",
            color=INK,
        )
    return high


def _box(made: Figure, high: float, size: float) -> None:
    """A box to tick beside the first line."""
    side = size * POINT
    made.add_artist(
        Rectangle(
            (EDGE / WIDE_SHEET, (high - 0.85 * _line(size)) / TALL_SHEET),
            side / WIDE_SHEET,
            side / TALL_SHEET,
            facecolor="none",
            edgecolor=INK,
            linewidth=0.7,
        )
    )


def _rule(made: Figure, high: float) -> None:
    """A thin line over the whole width."""
    across = (EDGE / WIDE_SHEET, 1 - EDGE / WIDE_SHEET)
    made.add_artist(Line2D(across, (high / TALL_SHEET,) * 2, color=FAINT, linewidth=0.5))
