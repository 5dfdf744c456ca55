"""Cells put together into larger ones, so that a map fits a page of text."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from liftcalc.maps.cell_bounds import Floats, Indices, Masks
from liftcalc.maps.limits import Cells

TOGETHER = (1, 2, 5, 10, 20, 50, 100)
"""How many cells may be put together along a length."""
TURNS = (1, 2, 3, 6, 9, 18)
"""How many may be put together along a slew."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Downsampled:
    """Larger cells, by their edges along each axis.

    ``allowed`` [kg] is the least over those of the smaller cells that count: that can be reached
    and in which the log is off the ground; NaN where none does. ``part`` says where some do not,
    ``on_ground`` where none does for the ground alone. ``governs`` and ``stopped`` are as in
    `Cells`.
    """

    edges: tuple[Floats, ...]
    allowed: Floats
    governs: Indices
    stopped: Indices
    part: Masks
    on_ground: Masks


def downsampled(
    limits: Cells, edges: Sequence[Floats], *, most: Sequence[int], turns: bool = False
) -> Downsampled:
    """A map or curve in larger cells that begin at round places.

    Parameters
    ----------
    limits : Cells
    edges : one array for each axis
        Of its cells [m, rad].
    most : int for each axis
        Larger cells along it, at most.
    turns : bool
        Whether the last axis is a slew.
    """
    ways = [TURNS if turns and axis == len(edges) - 1 else TOGETHER for axis in range(len(edges))]
    plans = [_plan(e, m, w) for e, m, w in zip(edges, most, ways, strict=True)]
    shape = tuple(len(plan) - 1 for plan in plans)
    allowed = np.full(shape, np.nan)
    governs, stopped = np.full(shape, -1, dtype=np.int16), np.full(shape, -1, dtype=np.int16)
    part, on_ground = np.zeros(shape, dtype=bool), np.zeros(shape, dtype=bool)
    counting = limits.reached & limits.clear
    for at in np.ndindex(*shape):
        inside = tuple(slice(p[i], p[i + 1]) for p, i in zip(plans, at, strict=True))
        loads, counts = limits.allowed[inside].ravel(), counting[inside].ravel()
        part[at] = counts.any() and not counts.all()
        on_ground[at] = not counts.any() and limits.reached[inside].any()
        if counts.any():
            lowest = int(np.argmin(np.where(counts, loads, np.inf)))
            allowed[at], governs[at] = loads[lowest], limits.governs[inside].ravel()[lowest]
        else:
            why = limits.stopped[inside].ravel()
            stopped[at] = np.bincount(why[why >= 0]).argmax() if (why >= 0).any() else -1
    return Downsampled(
        edges=tuple(e[np.asarray(p)] for e, p in zip(edges, plans, strict=True)),
        allowed=allowed,
        governs=governs,
        stopped=stopped,
        part=part,
        on_ground=on_ground,
    )


def _plan(edges: Floats, most: int, ways: tuple[int, ...]) -> list[int]:
    """Where larger cells begin and end, counted in edges."""
    count = edges.size - 1
    together = next((way for way in ways if math.ceil(count / way) < most), ways[-1])
    size = float(edges[1] - edges[0])
    first = round(float(edges[0]) / size) % together
    starts = [0, *range(together - first, count, together)]
    return [*dict.fromkeys(starts), count]
