"""Contours, ruled regions and the outline for one log, of a map of limits, on any axes."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import PathPatch
from matplotlib.path import Path as Outline

from liftcalc.figures.sheet import (
    BANDS,
    INK,
    SMALL,
    SOFT,
    deepest,
    levels,
    mass,
    rule,
    ruling,
    say,
    wrapped,
)
from liftcalc.maps.cell_bounds import Floats, Masks
from liftcalc.maps.limits import LimitMap
from liftcalc.units import System

GAP = 0.13
"""Between ruled lines [m]."""
ROOM = 0.3
"""How deep a region must be to carry its name [m]."""
ROW = 0.235
"""From row to row of the key [m]."""
SHORT, ROOM_ALONG, CROWDED = 0.5, 0.25, 0.11
"""The least length of line that is named; room at the edge beyond which more is no better; and
room to other words below which a name is left out [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """A map as it lies in a drawing: places of its nodes [m], and where words may not stand."""

    limits: LimitMap
    x: Floats
    y: Floats
    kept_free: tuple[tuple[float, float], ...] = ()

    @property
    def floor(self) -> np.ma.MaskedArray[tuple[int, ...], np.dtype[np.float64]]:
        """Nodes with the load that may be drawn there; the others masked."""
        return np.ma.masked_invalid(self.limits.lattice.floor)

    @property
    def rim(self) -> Floats:
        """Nodes at the edge of what is drawn."""
        there = np.pad(~np.ma.getmaskarray(self.floor), 1)
        core = there[:-2, 1:-1] & there[2:, 1:-1] & there[1:-1, :-2] & there[1:-1, 2:]
        edge = there[1:-1, 1:-1] & ~core
        return np.stack((self.x[edge], self.y[edge]), axis=1)

    @property
    def centres(self) -> tuple[Floats, Floats]:
        """Middles of the cells."""
        x, y = ((e[:-1, :-1] + e[1:, 1:] + e[1:, :-1] + e[:-1, 1:]) / 4 for e in (self.x, self.y))
        return x, y


def region(axes: Axes, field: Field, level: float) -> Outline:
    """Outline of all that is drawn as allowing at least a load [kg]; never larger than that is."""
    floor = field.floor
    high = float(floor.max()) if floor.count() else -math.inf
    if not high >= level:
        return Outline(np.empty((0, 2)))
    made = axes.contourf(field.x, field.y, floor, levels=[level, high + 1.0], colors=["none"])
    outline: Outline = made.get_paths()[0]
    made.remove()
    return outline


def paint(axes: Axes, field: Field, system: System) -> None:
    """Bands of load, their limits with labels, and what governs."""
    floor = field.floor
    low, high = float(floor.min()), float(floor.max())
    cuts = levels(low, high, system)
    bounds = [min(low, 0.0) - 1.0, *cuts, high + 1.0]
    shades = BANDS[1:] if len(bounds) <= len(BANDS) else BANDS
    bands = axes.contourf(
        field.x,
        field.y,
        floor,
        levels=bounds,
        zorder=1,
        antialiased=True,
        colors=[shades[min(n, len(shades) - 1)] for n in range(len(bounds) - 1)],
    )
    bands.set_edgecolor("face")
    _edge(axes, region(axes, field, low), width=0.7, color=SOFT)
    taken = _governing(axes, field, system)
    if len(cuts):
        lines = axes.contour(
            field.x, field.y, floor, levels=cuts, colors=INK, linewidths=0.8, zorder=3
        )
        for level, outline in zip(cuts, lines.get_paths(), strict=True):
            _label(axes, outline, mass(float(level), system), field, taken)


def outline_log(axes: Axes, field: Field) -> str:
    """The heavy line round where the log may be lifted, and words for it."""
    need = field.limits.lift.needed
    inside = region(axes, field, max(need, 1e-9))
    if not np.size(inside.vertices):
        return "this log may be lifted nowhere here"
    _edge(axes, inside, width=2.6, color=INK)
    with np.errstate(invalid="ignore"):
        short = bool((field.limits.lattice.floor < need).any())
    return (
        "this log may be lifted inside the heavy line"
        if short
        else "this log may be lifted wherever the end goes"
    )


def _edge(axes: Axes, outline: Outline, *, width: float, color: str) -> None:
    if np.size(outline.vertices):
        axes.add_patch(
            PathPatch(
                outline,
                facecolor="none",
                edgecolor=color,
                linewidth=width,
                zorder=4,
                joinstyle="round",
            )
        )


def _governing(axes: Axes, field: Field, system: System) -> list[tuple[float, float]]:
    """Rule the region of every criterion, and name it where there is room; gives where."""
    limits = field.limits
    x, y = field.centres
    named: list[tuple[float, float]] = []
    for number, name in enumerate(limits.criteria):
        mask = limits.lattice.governs == number
        if not mask.any():
            continue
        if mask.shape[0] > 1 and mask.shape[1] > 1:
            made = axes.contourf(x, y, mask.astype(float), levels=[0.5, 2.0], colors=["none"])
            outline = made.get_paths()[0]
            made.remove()
            rule(axes, outline, ruling(name, limits.criteria), gap=GAP)
            if np.size(outline.vertices):
                axes.add_patch(
                    PathPatch(
                        outline,
                        facecolor="none",
                        edgecolor=SOFT,
                        linewidth=0.6,
                        linestyle=(0, (1.2, 1.6)),
                        zorder=2.5,
                    )
                )
        named += _name(axes, field, mask, _with_load(limits, mask, name, system))
    return named


def _with_load(limits: LimitMap, mask: Masks, name: str, system: System) -> str:
    """The name, and the load where it is the same all over the region."""
    corners = limits.lattice.floor[:-1, :-1][mask]
    corners = corners[~np.isnan(corners)]
    if corners.size and np.quantile(corners, 0.1) > 0.999 * corners.max():
        return f"{name}: {mass(float(corners.max()), system)}"
    return name


def _name(axes: Axes, field: Field, mask: Masks, name: str) -> list[tuple[float, float]]:
    """The name of a criterion where its region is widest, if there is room; gives where."""
    x, y = field.centres
    free = mask.copy()
    for at in field.kept_free:
        free &= np.hypot(x - at[0], y - at[1]) > 0.42
    row, column, deep = deepest(free)
    if not deep:
        return []
    size = math.hypot(
        float(x[row, column] - x[max(row - 1, 0), column]),
        float(y[row, column] - y[max(row - 1, 0), column]),
    )
    if deep * size < ROOM:
        return []
    at = float(x[row, column]), float(y[row, column])
    say(axes, at, wrapped(name), fontsize=SMALL + 0.5, fontstyle="italic")
    return [(at[0] + step, at[1]) for step in (-0.4, -0.2, 0.0, 0.2, 0.4)]


def _label(
    axes: Axes, outline: Outline, text: str, field: Field, taken: list[tuple[float, float]]
) -> None:
    """A load along the longest piece of its line, where there is most room."""
    found = [np.asarray(piece) for piece in outline.to_polygons(closed_only=False)]
    pieces = [piece for piece in found if len(piece) > 1]
    if not pieces:
        return
    longest = max(pieces, key=_length)
    if _length(longest) < SHORT:
        return
    spots = _spaced(longest, 60)[2:-2]
    rim, others = field.rim, np.array([*field.kept_free, *taken, (1e3, 1e3)])
    room = [
        min(float(np.hypot(*(rim - at).T).min()), ROOM_ALONG)
        + 0.5 * min(1.0, float(np.hypot(*(others - at).T).min()))
        for at in spots
    ]
    best = min(max(int(np.argmax(room)), 1), len(spots) - 2)
    if float(np.hypot(*(others - spots[best]).T).min()) < CROWDED:
        return
    at, along = spots[best], spots[best + 1] - spots[best - 1]
    turn = (math.degrees(math.atan2(along[1], along[0])) + 90.0) % 180.0 - 90.0
    taken.append((float(at[0]), float(at[1])))
    say(
        axes,
        (float(at[0]), float(at[1])),
        text,
        fontsize=SMALL,
        fontweight="bold",
        rotation=turn,
        rotation_mode="anchor",
    )


def _length(line: Floats) -> float:
    return float(np.hypot(*np.diff(line, axis=0).T).sum())


def _spaced(line: Floats, count: int) -> Floats:
    """A line by points at equal distances along it."""
    along = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))))
    at = np.linspace(0.0, along[-1], count)
    return np.stack([np.interp(at, along, line[:, k]) for k in (0, 1)], axis=1)


def present(limits: LimitMap) -> list[int]:
    """The criteria that govern anywhere on a map."""
    return [n for n in range(len(limits.criteria)) if (limits.lattice.governs == n).any()]


def key(axes: Axes, field: Field, *, left: float, low: float, row: float = ROW) -> None:
    """What each ruling stands for, in rows from ``low`` up [m]."""
    limits = field.limits
    there = present(limits)
    for number, which in enumerate(reversed(there)):
        name = limits.criteria[which]
        y = low + number * row
        corners = [(left, y), (left + 0.42, y), (left + 0.42, y + 0.17), (left, y + 0.17)]
        box = Outline([*corners, corners[0]])
        axes.add_patch(PathPatch(box, facecolor=BANDS[1], edgecolor=SOFT, linewidth=0.5, zorder=2))
        rule(axes, box, ruling(name, limits.criteria), gap=0.6 * GAP)
        say(axes, (left + 0.52, y + 0.07), name, fontsize=SMALL, color=SOFT, ha="left")
    y = low + len(there) * row + 0.05
    say(
        axes,
        (left, y + 0.06),
        "stops it first",
        fontsize=SMALL,
        color=INK,
        ha="left",
        fontweight="bold",
    )
