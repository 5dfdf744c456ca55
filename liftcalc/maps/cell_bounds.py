"""Cells of a grid: the least that a sampled load can be anywhere inside each of them.

A map of allowed loads is read between its samples, so a value that holds only at the samples
would promise too much. Here every cell of a lattice gets a floor: a value that the load does not
go below anywhere inside the cell. Nodes get the least floor of the cells round them, so that a
contour drawn through nodes, however it is interpolated, never leaves the region it names.

Why it holds
------------
The allowed load is the least of criteria, so between samples it can dip below its corners only
where it is convex: the kink where another criterion takes over is concave. Most criteria are
smooth, and a smooth curve dips by an eighth of its second difference. What a pad or a corner of a
pressed bucket may carry is bounded by two tipping lines, the lesser force of which counts: so its
load is the greater of two, with a kink that is convex and may lie anywhere between two samples.

A convex curve lies above its chords drawn on past a cell. With second differences a and b at the
ends of the cell, the one from the left is below the cell's own chord by a·t at the share t of the
way and that from the right by b·(1 − t): at their crossing by a·b/(a + b), at most half of the
larger. In two dimensions half of the largest second difference along either axis, both together,
is as exact; a test shows it by a linear programme over all convex surfaces. So half is taken off,
with the largest second difference found in the cell and round it: four times what a smooth
criterion needs.

A step, of a plate's chart or at a distance to be kept, looks convex too: beside it the floor is low
by up to half of the step. Floors are never below zero, for loads are not. All of it understates
the load. What samples cannot show is a kink of a criterion that governs nowhere but inside one
cell: there the load may dip by a part of that criterion's own second difference.

A place that cannot be taken lies inside or outside of a circle (joint angles at the end of a
stroke, reach of the folded or straight arm) of radius well above the spacing. So if a cell holds
one, a sample within two spacings of the cell shows it; such a cell has no floor.
"""

from __future__ import annotations

from functools import reduce
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Indices = NDArray[np.int16]
Masks = NDArray[np.bool_]
Kind = TypeVar("Kind", bound=np.generic)

PAD = 2
"""Samples that a lattice needs beyond each of its sides."""
DIP = 1 / 2
"""Most that a convex curve dips below its chord over the larger second difference beside it [-]."""


def floors(samples: Floats, *, least: float = 0.0) -> Floats:
    """Least value anywhere inside each cell of a lattice.

    Parameters
    ----------
    samples : (n + 4, …) array
        Values at the nodes of a lattice of n nodes along each axis, with two more at each end;
        NaN where there is none.
    least : float
        What no value is below: zero for loads.

    Returns
    -------
    (n − 1, …) array
        Never below ``least``; NaN where any sample in the cell, or within two spacings of it, is
        NaN.
        Understates.
    """
    lowest = samples[(slice(PAD, -PAD),) * samples.ndim]
    bend = np.zeros((1,) * samples.ndim)
    for axis in range(samples.ndim):
        lowest = np.minimum(_part(lowest, axis, 0, 1), _part(lowest, axis, 1, 1))
        one = np.maximum(np.diff(samples, n=2, axis=axis), 0.0)
        for other in range(samples.ndim):
            one = _most(one, 4 if other == axis else 6, axis=other)
        bend = bend + one
    return np.maximum(lowest - DIP * bend, least)


def nodes(cells: NDArray[Kind]) -> NDArray[Kind]:
    """Least floor of the cells round each node, or whether all of them hold; NaN stays NaN."""
    padded = np.pad(cells, 1, constant_values=np.inf)
    for axis in range(cells.ndim):
        padded = np.minimum(_part(padded, axis, 0, 1), _part(padded, axis, 1, 1))
    return padded


def governing(samples: Floats, which: Indices) -> Indices:
    """Which criterion governs at the lowest corner of each cell; −1 where a corner has no value."""
    inner = (slice(PAD, -PAD),) * samples.ndim
    corners, said = [samples[inner]], [which[inner]]
    for axis in range(samples.ndim):
        corners = [_part(each, axis, at, 1) for each in corners for at in (0, 1)]
        said = [_part(each, axis, at, 1) for each in said for at in (0, 1)]
    values, names = np.stack(corners), np.stack(said)
    lowest = np.argmin(np.where(np.isnan(values), np.inf, values), axis=0)
    found = np.take_along_axis(names, lowest[np.newaxis], axis=0)[0]
    return np.asarray(np.where(np.isnan(values).any(axis=0), np.int16(-1), found))


def blocks(cells: Floats, which: Indices, sizes: tuple[int, ...]) -> tuple[Floats, Indices]:
    """The least of every block of cells and what governs there; NaN and −1 where a cell has none.

    Parameters
    ----------
    cells, which : array
        Floor of each cell, and what governs there.
    sizes : tuple of int
        Cells in a block along each axis; they divide the array.
    """
    values, names = _split(cells, sizes), _split(which, sizes)
    least = values.min(axis=-1)
    lowest = np.argmin(np.where(np.isnan(values), np.inf, values), axis=-1)
    found = np.take_along_axis(names, lowest[..., np.newaxis], axis=-1)[..., 0]
    return least, np.asarray(np.where(np.isnan(least), np.int16(-1), found))


def whole(cells: Masks, sizes: tuple[int, ...]) -> Masks:
    """Blocks of which every cell is true."""
    return np.asarray(_split(cells, sizes).all(axis=-1))


def _split(cells: NDArray[Kind], sizes: tuple[int, ...]) -> NDArray[Kind]:
    """Cells by block: the cells of a block along a new last axis."""
    shape = [part for n, size in zip(cells.shape, sizes, strict=True) for part in (n // size, size)]
    order = (*range(0, len(shape), 2), *range(1, len(shape), 2))
    return cells.reshape(shape).transpose(order).reshape((*shape[::2], -1))


def commonest(said: Indices, sizes: tuple[int, ...], count: int) -> Indices:
    """The commonest reason in and round each block of nodes; −1 where there is none.

    ``said`` counts from 0 at padded nodes; a block of ``sizes`` cells is looked at with the two
    samples round it that its floor rests on.
    """
    windows = np.lib.stride_tricks.sliding_window_view(
        said, tuple(size + 1 + 2 * PAD for size in sizes)
    )[tuple(slice(None, None, size) for size in sizes)]
    inside = tuple(range(-said.ndim, 0))
    tally = np.stack([(windows == number).sum(axis=inside) for number in range(count)])
    return np.asarray(np.where(tally.max(axis=0) == 0, -1, tally.argmax(axis=0)), dtype=np.int16)


def _part(values: NDArray[Kind], axis: int, start: int, less: int) -> NDArray[Kind]:
    """The entries along an axis from ``start`` on, ``less`` fewer than there are."""
    index: list[slice] = [slice(None)] * values.ndim
    index[axis] = slice(start, values.shape[axis] - less + start)
    return values[tuple(index)]


def _most(values: Floats, width: int, *, axis: int) -> Floats:
    """The largest of every ``width`` neighbours along an axis; NaN among them stays NaN."""
    return reduce(np.maximum, (_part(values, axis, at, width - 1) for at in range(width)))
