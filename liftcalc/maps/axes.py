"""Edges of cells, and the finer lattice under them."""

from __future__ import annotations

import math

import numpy as np

from liftcalc.maps.cell_bounds import PAD, Floats

STEPS = (0.05, 0.1, 0.2, 0.5)
"""Sizes of cells to choose from when none is asked for [m]."""
ACROSS = 60
"""Cells across the reach of a machine, at most, when no size is asked for."""


def cell_size(extent: float) -> float:
    """The smallest size in ``STEPS`` that cuts an extent into at most ``ACROSS`` cells [m]."""
    return next((each for each in STEPS if extent / each <= ACROSS), STEPS[-1])


def edges(low: float, high: float, size: float) -> Floats:
    """Edges of cells from ``low`` to at least ``high``."""
    count = max(1, math.ceil((high - low) / size - 1e-9))
    return np.round(low + size * np.arange(count + 1), 9)


def parts_of_cell(edges: Floats, fine: float) -> int:
    """How many lattice cells of at most ``fine`` go into one cell."""
    return max(2, math.ceil(float(edges[1] - edges[0]) / fine - 1e-9))


def lattice(edges: Floats, count: int) -> Floats:
    """Nodes of the finer lattice between the first and last edge."""
    return np.linspace(edges[0], edges[-1], (edges.size - 1) * count + 1)


def padded(nodes: Floats) -> Floats:
    """Nodes with two more at either end, equally spaced."""
    gap = nodes[1] - nodes[0]
    ends = gap * np.arange(1, PAD + 1)
    return np.concatenate((nodes[0] - ends[::-1], nodes, nodes[-1] + ends))


def reaches(reach: Floats, count: int) -> tuple[Floats, Floats]:
    """Nearest and farthest reach in every cell; NaN where none of it can be reached."""
    inside = np.lib.stride_tricks.sliding_window_view(reach[PAD:-PAD], count + 1)[::count]
    none = np.isnan(inside).all(axis=1)
    low = np.where(np.isnan(inside), np.inf, inside).min(axis=1)
    high = np.where(np.isnan(inside), -np.inf, inside).max(axis=1)
    return np.where(none, np.nan, low), np.where(none, np.nan, high)
