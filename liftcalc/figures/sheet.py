"""A sheet of paper for a figure of limits: title, axes with units, notes, and the caution.

Tone says how much, ruling says what governs, words say both: a grey print loses nothing.
"""

from __future__ import annotations

import math
import textwrap
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.figure import Figure
from matplotlib.patches import Circle, PathPatch, Polygon
from matplotlib.path import Path as Outline
from matplotlib.patheffects import withStroke

from liftcalc.factors import CAUTION
from liftcalc.figures.scene import Disc, Mark
from liftcalc.figures.styles import LOOKS, TONES
from liftcalc.maps.cell_bounds import Floats, Masks
from liftcalc.units import FOOT, INCH, POUND, System, show

INK, SOFT, FAINT, PAPER = (TONES[tone][0] for tone in ("ink", "soft", "faint", "paper"))
BANDS = ("#f6f2e6", "#ece5d2", "#e1d7bc", "#d5c8a5", "#c8b98e", "#baa977")
"""From little load to much: one hue, each step darker, so that a grey print keeps the order."""
SMALL, PLAIN, TITLE = 7.0, 8.0, 11.5
"""Sizes of words [pt]."""
DOTS = ".."
"""Where the log is still on the ground: no tone, for no load is lifted there."""
ON_DOTS = {"facecolor": PAPER, "edgecolor": "none", "pad": 1.5}
"""Paper under words that stand on dots."""
LINE = 0.0041
"""Height of a small line of words [m]."""
RULINGS: dict[str, tuple[tuple[float, ...], ...]] = {
    "tipping": ((45.0,), (62.0,), (28.0,), (75.0,)),
    "ram": ((135.0,), (0.0,), (90.0,)),
    "plate": ((0.0, 90.0),),
    "lift point": ((),),
}
"""Directions of the lines that rule the regions of criteria of a kind [deg], in their order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A figure with rooms to draw in, row by row."""

    figure: Figure
    rooms: tuple[Axes, ...]


def sheet(
    *,
    title: str,
    about: str,
    notes: Iterable[str],
    width: float = 0.2,
    heights: Sequence[float] = (0.13,),
    columns: int = 1,
    gap: float = 0.021,
    margins: tuple[float, float] = (0.015, 0.006),
    extra: float = 0.0,
) -> Sheet:
    """An empty sheet with rooms in rows and columns; all measures in [m].

    ``title`` and ``about`` stand above the rooms, ``notes`` and always the caution below.
    ``heights`` are those of the rows, ``gap`` is between rooms either way, ``margins`` left and
    right of them, ``extra`` between what stands above and the rooms.
    """
    letters = int((width - 0.012) / (SMALL * 0.000186))
    below = [(line, False) for note in notes for line in textwrap.wrap(note, letters)]
    below += [(line, True) for line in textwrap.wrap(CAUTION, int(0.89 * letters))]
    above = textwrap.wrap(about, int(letters * SMALL / PLAIN))
    head, foot = 0.013 + 0.0044 * len(above) + extra, 0.014 + LINE * len(below)
    tall = head + sum(heights) + gap * (len(heights) - 1) + foot
    figure = Figure(figsize=(width / INCH, tall / INCH))
    figure.set_facecolor(PAPER)
    _put(figure, title, tall - 0.004, fontsize=TITLE, color=INK, fontweight="bold")
    _put(figure, "\n".join(above), tall - 0.0105, fontsize=PLAIN, color=SOFT, linespacing=1.3)
    for number, (text, strong) in enumerate(below):
        weight = {"color": INK, "fontweight": "bold"} if strong else {"color": SOFT}
        _put(figure, text, LINE * (len(below) - number) + 0.002, fontsize=SMALL, **weight)
    left, right = margins
    wide = (width - left - right - (columns - 1) * gap) / columns
    made = []
    for row, height in enumerate(heights):
        low = tall - head - sum(heights[: row + 1]) - gap * row
        for column in range(columns):
            at = left + column * (wide + gap)
            made.append(_room(figure, (at / width, low / tall, wide / width, height / tall)))
    return Sheet(figure=figure, rooms=tuple(made))


def _put(figure: Figure, text: str, up: float, **style: Any) -> None:
    """Words at the left edge, their top so far up [m]."""
    width, height = figure.get_size_inches() * INCH
    figure.text(0.006 / width, up / height, text.replace("$", r"\$"), va="top", **style)


def _room(figure: Figure, box: tuple[float, float, float, float]) -> Axes:
    axes = figure.add_axes(box)
    axes.set_facecolor("none")
    for side in axes.spines.values():
        side.set_visible(False)
    axes.tick_params(colors=SOFT, labelsize=SMALL, length=2.5, width=0.6)
    return axes


def heading(axes: Axes, text: str) -> None:
    """Words over a room, in two lines where one would be too long."""
    text = "\n".join(textwrap.wrap(text, 95, replace_whitespace=False))
    axes.set_title(text, fontsize=PLAIN, color=INK, loc="left", pad=3, fontweight="bold")


def lengths(
    axes: Axes,
    way: Literal["x", "y"],
    name: str,
    system: System,
    *,
    to: Callable[[float], float] = lambda at: at,
    least: float = -math.inf,
) -> None:
    """Ticks along x or y at round metres or feet, counted by ``to`` [m to m], from ``least``."""
    axis = axes.xaxis if way == "x" else axes.yaxis
    step, unit, shown = (1.0, "m", 1) if system == "metric" else (2 * FOOT, "ft", 2)
    counts = sorted(to(float(each)) / step for each in axis.get_view_interval())
    start, slope = to(0.0), to(1.0) - to(0.0)
    wanted = [
        n for n in range(math.ceil(counts[0]), math.floor(counts[1]) + 1) if n * step >= least
    ]
    axis.set_ticks([(n * step - start) / slope for n in wanted])
    axis.set_ticklabels([f"{n * shown}".replace("-", "−") for n in wanted])
    if name:
        axis.set_label_text(f"{name} [{unit}]", fontsize=SMALL, color=SOFT)
        axis.labelpad = 1
    if way == "x":
        axis.label.set(x=0, ha="left")


def mass(value: float, system: System) -> str:
    """A load that may be lifted, rounded down."""
    return show(max(0.0, value), "mass", system, "down")


def levels(low: float, high: float, system: System, most: int = 6) -> Floats:
    """Round loads between a least and a greatest one [kg], in the units that are shown."""
    unit = 1.0 if system == "metric" else POUND
    wanted = max((high - low) / unit, 1e-9)
    step = next(
        (s for s in (10, 20, 50, 100, 200, 250, 500, 1000, 2000, 5000) if wanted / s <= most), 1e4
    )
    # A level at the greatest load of the map would only outline its flat top.
    first, last = math.ceil(low / unit / step), math.ceil(high / unit / step - 1e-9) - 1
    return np.asarray(unit * step * np.arange(max(first, 1), last + 1), dtype=float)


def draw_marks(axes: Axes, marks: Iterable[Mark], *, order: float = 5.0) -> None:
    """Marks of a scene, to the axes' scale."""
    for number, mark in enumerate(marks):
        look = LOOKS[mark.role]
        filled = isinstance(mark, Disc) or mark.closed
        dashes = tuple(each / look.width for each in look.dash) if look.dash else ()
        style: dict[str, Any] = {
            "facecolor": TONES[look.fill][0] if filled else "none",
            "edgecolor": TONES[look.stroke][0],
            "linewidth": PLAIN * look.width,
            "linestyle": (0, dashes) if dashes else "solid",
            "joinstyle": "round",
            "zorder": order + 0.001 * number,
        }
        axes.add_artist(
            Circle(mark.centre, mark.radius, **style)
            if isinstance(mark, Disc)
            else Polygon(mark.points, closed=mark.closed, **style)
        )


def stroke(
    axes: Axes,
    xs: Any,
    ys: Any,
    *,
    color: str = SOFT,
    width: float = 0.6,
    order: float,
    dash: Any = (),
) -> None:
    """A plain line; ``dash`` is how long its pieces and gaps are, in widths."""
    style = (0, dash) if dash else "solid"
    axes.plot(xs, ys, color=color, linewidth=width, linestyle=style, zorder=order)


def patch(
    axes: Axes,
    outline: Outline,
    *,
    face: str = "none",
    edge: str = SOFT,
    width: float = 0.5,
    order: float,
    **more: Any,
) -> None:
    """A region with its edge; nothing where it is empty."""
    if np.size(outline.vertices):
        style = {"facecolor": face, "edgecolor": edge, "linewidth": width, "zorder": order}
        axes.add_patch(PathPatch(outline, **style, **more))


def frame(left: float, right: float, bottom: float, top: float) -> Outline:
    """The outline of a rectangle."""
    return Outline([(left, bottom), (right, bottom), (right, top), (left, top), (left, bottom)])


def ruling(number: int, kinds: tuple[str, ...]) -> tuple[float, ...]:
    """Directions of the lines that stand for a criterion by its number [deg]."""
    kind = kinds[number]
    ways = RULINGS.get(kind, ((0.0,),))
    return ways[kinds[:number].count(kind) % len(ways)]


def rule(
    axes: Axes, outline: Outline, angles: tuple[float, ...], *, gap: float, order: float = 2.2
) -> None:
    """Rule a region with thin lines, a gap apart [axes units]."""
    if not np.size(outline.vertices):
        return
    clip = PathPatch(outline, facecolor="none", edgecolor="none")
    axes.add_patch(clip)
    box = outline.get_extents()
    middle = np.array([(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2])
    far = math.hypot(box.width, box.height) / 2 + gap
    for angle in angles:
        turn = math.radians(angle)
        along = np.array([math.cos(turn), math.sin(turn)])
        across = np.array([-along[1], along[0]])
        # Counted from the origin, so that lines of neighbouring regions meet.
        shift = float(middle @ across)
        first, last = math.ceil((shift - far) / gap), math.floor((shift + far) / gap)
        base = middle - shift * across
        lines = [
            [base + n * gap * across - far * along, base + n * gap * across + far * along]
            for n in range(first, last + 1)
        ]
        made = LineCollection(lines, colors=SOFT, linewidths=0.35, zorder=order, alpha=0.75)
        made.set_clip_path(clip)
        axes.add_collection(made, autolim=False)


def write(axes: Axes, at: tuple[float, float], text: str, **more: Any) -> Any:
    """Words on the drawing, with paper round each letter so that lines do not cross them."""
    style = {
        "fontsize": PLAIN,
        "color": INK,
        "ha": "center",
        "va": "center",
        "zorder": 9,
        "linespacing": 1.1,
        "path_effects": [withStroke(linewidth=2.4, foreground=PAPER)],
    }
    return axes.text(*at, text.replace("$", r"\$"), **{**style, **more})


def widest_place(mask: Masks) -> tuple[int, int, int]:
    """Where a region of cells is widest: row, column, and how many cells deep it is there."""
    left = np.pad(mask, 1)
    depth = 0
    last = left
    while left.any():
        last = left
        core = (
            left[1:-1, 1:-1] & left[:-2, 1:-1] & left[2:, 1:-1] & left[1:-1, :-2] & left[1:-1, 2:]
        )
        left = np.pad(core, 1)
        depth += 1
    spots = np.argwhere(last[1:-1, 1:-1])
    if not spots.size:
        return 0, 0, 0
    middle = spots.mean(axis=0)
    row, column = spots[np.argmin(((spots - middle) ** 2).sum(axis=1))]
    return int(row), int(column), depth


def wrapped(text: str, letters: int = 16) -> str:
    """Words in short lines."""
    return "\n".join(textwrap.wrap(text, letters))
