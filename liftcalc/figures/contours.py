"""Contours, ruled regions and the outline for one log, of a map of limits, on any axes."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.path import Path as Outline

from liftcalc.figures.scene import Mark, Role, Scene
from liftcalc.figures.sheet import (
    BANDS,
    DOTS,
    INK,
    ON_DOTS,
    SMALL,
    SOFT,
    draw_marks,
    frame,
    levels,
    mass,
    patch,
    rule,
    ruling,
    widest_place,
    wrapped,
    write,
)
from liftcalc.maps.cell_bounds import Floats, Indices, Masks
from liftcalc.maps.limits import ON_GROUND, LimitMap
from liftcalc.units import System

GAP = 0.13
"""Between ruled lines [m]."""
ROOM = 0.3
"""How deep a region must be to carry its name [m]."""
ROW = 0.235
"""From row to row of the key [m]."""
NOSE = 2.6
"""How far ahead of the front axle a map is drawn [m]."""
MACHINE: frozenset[Role] = frozenset(
    {
        "frame", "body", "glass", "tyre", "rim", "stabiliser", "kingpost", "link", "lug", "barrel",
        "rod", "pin", "attachment",
    }
)  # fmt: skip
"""Roles of the marks that are machine: not load, ground or words."""
SHORT, ROOM_ALONG, CROWDED = 0.5, 0.25, 0.11
"""Length a line must have to be labelled; distance from the edge beyond which more is no better;
and distance from other words below which a label is left out [m]."""


Nodes = np.ma.MaskedArray[tuple[int, ...], np.dtype[np.float64]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """A map as it lies in a drawing: places of its nodes [m], and where words may not stand."""

    limits: LimitMap
    x: Floats
    y: Floats
    kept_free: tuple[tuple[float, float], ...] = ()

    @property
    def reached(self) -> Nodes:
        """Nodes that the end gets to, with what it may hold there; the others masked."""
        return np.ma.masked_invalid(self.limits.lattice.floor)

    @property
    def floor(self) -> Nodes:
        """Nodes with the load that is drawn there; masked where the log is on the ground, too."""
        return np.ma.masked_where(~self.limits.lattice.clear, self.reached)

    @property
    def span(self) -> tuple[float, float]:
        """The least and the most load that is drawn [kg]; none where nothing is."""
        floor = self.floor
        return (float(floor.min()), float(floor.max())) if floor.count() else (math.inf, -math.inf)

    @property
    def on_ground(self) -> Masks:
        """Cells that the end gets to, but with the log still on the ground."""
        reached = ~np.ma.getmaskarray(self.reached)
        return _inside(reached & ~self.limits.lattice.clear)

    @property
    def governs(self) -> Indices:
        """What governs in each cell; −1 where the log is still on the ground."""
        clear = _inside(self.limits.lattice.clear)
        return np.where(clear, self.limits.lattice.governs, np.int16(-1))

    @property
    def present(self) -> list[int]:
        """The criteria that govern anywhere on the map."""
        return [n for n in range(len(self.limits.criteria)) if (self.governs == n).any()]

    @property
    def rows(self) -> int:
        """How many rows its key has."""
        return len(self.present) + int(self.on_ground.any())

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


@dataclass(frozen=True, slots=True, kw_only=True)
class MapDrawing:
    """A map with the machine it belongs to, to scale.

    ``window`` is left, right, bottom and top of what is drawn, ``key_at`` the lower left corner of
    the key and ``hook`` where the lift point of the drawn machine is [m]; ``scale`` draws the
    scales on axes, in a unit system; ``notes`` must be known to read it.
    """

    field: Field
    window: tuple[float, float, float, float]
    key_at: tuple[float, float]
    hook: tuple[float, float]
    marks: tuple[Mark, ...]
    scale: Callable[[Axes, System], None]
    notes: tuple[str, ...]

    @property
    def height(self) -> float:
        """Height over width [-]."""
        left, right, bottom, top = self.window
        return (top - bottom) / (right - left)

    def draw(self, axes: Axes, system: System, *, span: tuple[float, float]) -> None:
        """Draw it on empty axes; tones go from the least to the most load of the sheet [kg]."""
        axes.axis(self.window)
        axes.set_aspect("equal")
        draw_bands(axes, self.field, system, span=span)
        key(axes, self.field, at=self.key_at)
        draw_marks(axes, self.marks)
        if self.field.limits.for_log:
            outline_log(axes, self.field)
        self.scale(axes, system)
        axes.plot(
            *self.hook, "o", markersize=6, markerfacecolor="#ffffff", markeredgecolor=INK, zorder=8
        )


def machine_marks(scene: Scene) -> tuple[Mark, ...]:
    """The marks of a drawing of a lift that are machine."""
    return tuple(mark for mark in scene.marks if mark.role in MACHINE)


def _inside(nodes: Masks) -> Masks:
    """Cells whose four corners are all true."""
    return np.asarray(nodes[:-1, :-1] & nodes[1:, 1:] & nodes[1:, :-1] & nodes[:-1, 1:])


def region(axes: Axes, field: Field, level: float) -> Outline:
    """Outline of all that is drawn as allowing at least a load [kg]; never larger than that is."""
    return _outline(axes, field, field.floor, level)


def _outline(axes: Axes, field: Field, nodes: Nodes, level: float) -> Outline:
    """Outline of the nodes that are not masked and have at least a value."""
    high = float(nodes.max()) if nodes.count() else -math.inf
    if not high >= level:
        return Outline(np.empty((0, 2)))
    made = axes.contourf(field.x, field.y, nodes, levels=[level, high + 1.0], colors=["none"])
    outline: Outline = made.get_paths()[0]
    made.remove()
    return outline


def draw_bands(axes: Axes, field: Field, system: System, *, span: tuple[float, float]) -> None:
    """Bands of load, their limits with labels, and what governs; dots where the log lies yet."""
    if field.on_ground.any():
        reached = _outline(axes, field, field.reached, float(field.reached.min()))
        patch(axes, reached, order=0.9, hatch=DOTS)
        _name(axes, field, field.on_ground, ON_GROUND, bbox=ON_DOTS)
    floor, (low, high) = field.floor, field.span
    if not floor.count():
        return
    cuts = levels(*span, system)
    bounds = [min(span[0], 0.0) - 1.0, *cuts, span[1] + 1.0]
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
    cuts = cuts[(low < cuts) & (cuts < high)]
    if len(cuts):
        lines = axes.contour(
            field.x, field.y, floor, levels=cuts, colors=INK, linewidths=0.8, zorder=3
        )
        for level, outline in zip(cuts, lines.get_paths(), strict=True):
            _label(axes, outline, mass(float(level), system), field, taken)


def outline_log(axes: Axes, field: Field) -> None:
    """The heavy line round where the log is off the ground and may be lifted."""
    _edge(axes, region(axes, field, max(field.limits.lift.needed, 1e-9)), width=2.6, color=INK)


def _edge(axes: Axes, outline: Outline, *, width: float, color: str) -> None:
    patch(axes, outline, edge=color, width=width, order=4, joinstyle="round")


def _governing(axes: Axes, field: Field, system: System) -> list[tuple[float, float]]:
    """Rule and name the region of every criterion; returns the places its names take."""
    limits = field.limits
    x, y = field.centres
    named: list[tuple[float, float]] = []
    for number, name in enumerate(limits.criteria):
        mask = field.governs == number
        if not mask.any():
            continue
        if mask.shape[0] > 1 and mask.shape[1] > 1:
            made = axes.contourf(x, y, mask.astype(float), levels=[0.5, 2.0], colors=["none"])
            outline = made.get_paths()[0]
            made.remove()
            rule(axes, outline, ruling(number, limits.kinds), gap=GAP)
            patch(axes, outline, width=0.6, order=2.5, linestyle=(0, (1.2, 1.6)))
        named += _name(axes, field, mask, _with_load(limits, mask, name, system))
    return named


def _with_load(limits: LimitMap, mask: Masks, name: str, system: System) -> str:
    """The criterion's name; with the load where that is the same all over its region."""
    corners = limits.lattice.floor[:-1, :-1][mask]
    corners = corners[~np.isnan(corners)]
    if corners.size and np.quantile(corners, 0.1) > 0.999 * corners.max():
        return f"{name}: {mass(float(corners.max()), system)}"
    return name


def _name(
    axes: Axes, field: Field, mask: Masks, name: str, **style: Any
) -> list[tuple[float, float]]:
    """Write a name where its region is widest, if there is room; returns the places it takes."""
    x, y = field.centres
    free = mask.copy()
    for at in field.kept_free:
        free &= np.hypot(x - at[0], y - at[1]) > 0.42
    row, column, deep = widest_place(free)
    if not deep:
        return []
    size = math.hypot(
        float(x[row, column] - x[max(row - 1, 0), column]),
        float(y[row, column] - y[max(row - 1, 0), column]),
    )
    if deep * size < ROOM:
        return []
    at = float(x[row, column]), float(y[row, column])
    write(axes, at, wrapped(name), fontsize=SMALL + 0.5, fontstyle="italic", **style)
    return [(at[0] + step, at[1]) for step in (-0.4, -0.2, 0.0, 0.2, 0.4)]


def _label(
    axes: Axes, outline: Outline, text: str, field: Field, taken: list[tuple[float, float]]
) -> None:
    """Label a contour with its load, along its longest piece, where there is most room."""
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
    turned = {"rotation": turn, "rotation_mode": "anchor"}
    write(axes, taken[-1], text, fontsize=SMALL, fontweight="bold", **turned)


def _length(line: Floats) -> float:
    return float(np.hypot(*np.diff(line, axis=0).T).sum())


def _spaced(line: Floats, count: int) -> Floats:
    """Points at equal distances along a line."""
    along = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))))
    at = np.linspace(0.0, along[-1], count)
    return np.stack([np.interp(at, along, line[:, k]) for k in (0, 1)], axis=1)


def key(axes: Axes, field: Field, *, at: tuple[float, float]) -> None:
    """What each ruling, and the dots, stand for, in rows upward from a lower left corner [m]."""
    left, low = at
    criteria, kinds = field.limits.criteria, field.limits.kinds
    names: list[tuple[str, tuple[float, ...] | None]] = [
        (criteria[which], ruling(which, kinds)) for which in field.present
    ]
    if field.on_ground.any():
        names.append((ON_GROUND, None))
    for number, (name, ways) in enumerate(reversed(names)):
        y = low + number * ROW
        box = frame(left, left + 0.42, y, y + 0.17)
        if ways is None:
            patch(axes, box, order=2, hatch=DOTS)
        else:
            patch(axes, box, face=BANDS[1], order=2)
            rule(axes, box, ways, gap=0.6 * GAP)
        write(axes, (left + 0.52, y + 0.07), name, fontsize=SMALL, color=SOFT, ha="left")
    over = (left, low + len(names) * ROW + 0.11)
    write(axes, over, "stops it first", fontsize=SMALL, ha="left", fontweight="bold")
