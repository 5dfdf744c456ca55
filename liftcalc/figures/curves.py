"""Where the front end can lift: load over height for each attachment, and the reach that follows.

Height is drawn upward, as it is. Each room stands for one attachment and lift point.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from liftcalc.figures.sheet import (
    BANDS,
    DOTS,
    FAINT,
    INK,
    ON_DOTS,
    SMALL,
    SOFT,
    heading,
    lengths,
    levels,
    mass,
    sheet,
    stroke,
    wrapped,
    write,
)
from liftcalc.figures.text import left_out
from liftcalc.maps.cell_bounds import Floats
from liftcalc.maps.limits import ON_GROUND, FrontLimits
from liftcalc.reports.limits_text import LOAD_ALLOWED
from liftcalc.reports.map_words import map_heading
from liftcalc.reports.text import log_words, machine_words
from liftcalc.units import POUND, System, show

ACROSS = 3
"""Rooms beside each other, at most."""
ROOM = 0.22
"""How tall a stretch must be to carry its name [m]."""


def curves(limits: tuple[FrontLimits, ...], *, system: System = "metric") -> Figure:
    """Load over height for one or more attachments of the front end, of one machine and request."""
    first = limits[0].lift
    rows = -(-len(limits) // ACROSS)
    columns = min(ACROSS, len(limits))
    page = sheet(
        title="Load over height of the front end",
        about=f"{machine_words(first, system, tool=len(limits) == 1)}. {_log(limits, system)}",
        notes=_notes(limits, system),
        heights=[0.075 if rows > 1 else 0.1] * rows,
        columns=columns,
        margins=(0.015, 0.012),
        extra=0.009,
    )
    most = max(float(np.nanmax(each.floor)) for each in limits)
    low = min(float(each.heights[~np.isnan(each.floor)][0]) for each in limits)
    high = max(float(each.heights[~np.isnan(each.floor)][-1]) for each in limits)
    for number, (axes, each) in enumerate(zip(page.rooms, limits, strict=False)):
        axes.set_xlim(0.0, 1.3 * most)
        axes.set_ylim(min(low, 0.0) - 0.15, high + 0.55)
        _room(axes, each, most, system, named=number % columns == 0)
    for axes in page.rooms[len(limits) :]:
        axes.remove()
    return page.figure


def _room(axes: Axes, limits: FrontLimits, most: float, system: System, *, named: bool) -> None:
    lift = limits.lift
    unit, one = ("kg", 1.0) if system == "metric" else ("lb", POUND)
    lengths(axes, "y", "height of the lift point" if named else "", system)
    ticks = [0.0, *levels(0.0, most, system, most=4)]
    axes.set_xticks(ticks, [f"{each / one:.0f}" for each in ticks])
    axes.set_xlabel(f"{LOAD_ALLOWED} [{unit}]", fontsize=SMALL, color=SOFT, labelpad=1)
    heights, shown = limits.heights, _shown(limits)
    axes.fill_betweenx(heights, 0.0, shown, color=BANDS[1], zorder=1, linewidth=0)
    axes.plot(shown, heights, color=INK, linewidth=1.6, zorder=4, solid_capstyle="butt")
    axes.axhline(0.0, color=SOFT, linewidth=0.8, zorder=2)
    heading(axes, f"{lift.tool.name}\n{lift.point.name}")
    _reaches(axes, limits, most, system)
    _governing(axes, limits, system)
    if limits.for_log:
        _this_log(axes, limits)
    if lift.plate is not None:
        axes.axvline(lift.plate, color=INK, linewidth=1.0, linestyle=(0, (1, 1.5)), zorder=5)


def _shown(limits: FrontLimits) -> Floats:
    """The load that is drawn at each height; NaN also where the log is still on the ground."""
    return np.where(limits.fine_clear, limits.floor, np.nan)


def _this_log(axes: Axes, limits: FrontLimits) -> None:
    """What the log needs, at the heights where it is off the ground; dots where it is not."""
    need, heights, top = limits.lift.needed, limits.heights, axes.get_ylim()[1]
    off = heights[limits.fine_clear]
    if off.size:
        up = [off[0], top - 0.25]
        stroke(axes, [need, need], up, color=INK, width=1.3, dash=(4, 2), order=5)
        write(axes, (need, top - 0.12), "this log", fontsize=SMALL, fontweight="bold")
    low = np.where(limits.fine_clear, np.nan, limits.floor)
    if np.isnan(low).all():
        return
    axes.fill_betweenx(
        heights, 0.0, low, facecolor="none", edgecolor=SOFT, linewidth=0.5, hatch=DOTS, zorder=1
    )
    lying = heights[~np.isnan(low)]
    if lying[-1] - lying[0] < ROOM:
        return
    at = (0.03 * axes.get_xlim()[1], float(lying[0] + lying[-1]) / 2)
    words = wrapped(ON_GROUND, 17)
    write(axes, at, words, fontsize=SMALL, ha="left", fontstyle="italic", bbox=ON_DOTS)


def _reaches(axes: Axes, limits: FrontLimits, most: float, system: System) -> None:
    """The reach that follows, written at round heights beside the curve."""
    there = ~np.isnan(limits.floor)
    x, unit = 1.17 * most, "m" if system == "metric" else "ft"
    for at in axes.get_yticks():
        inside = there & (np.abs(limits.heights - at) < 0.006)
        if not inside.any():
            continue
        reach = float(limits.reaches[np.flatnonzero(inside)[0]])
        text = show(reach, "length", system).removesuffix(f" {unit}")
        axes.plot([0.0, 1.06 * most], [at, at], color=FAINT, linewidth=0.5, zorder=0.5)
        write(axes, (x, at), text, fontsize=SMALL, color=SOFT)
    write(axes, (x, axes.get_ylim()[1] - 0.12), f"reach\n[{unit}]", fontsize=SMALL, color=SOFT)


def _governing(axes: Axes, limits: FrontLimits, system: System) -> None:
    """What governs, written inside the curve along each stretch; a tick where it changes."""
    clear = limits.fine_clear[:-1] & limits.fine_clear[1:]
    which = np.where(clear, limits.fine_governs, -1)
    for start, end in pairwise([0, *(np.flatnonzero(np.diff(which)) + 1), which.size]):
        number = int(which[start])
        if number < 0:
            continue
        floor = limits.floor[start : end + 1]
        low, high = limits.heights[start], limits.heights[end]
        if end < which.size and which[end] >= 0:
            stroke(axes, [0.0, limits.floor[end]], [high, high], dash=(1.2, 1.6), order=3)
        if high - low < ROOM:
            continue
        low_load, high_load = float(np.nanmin(floor)), float(np.nanmax(floor))
        loads = mass(low_load, system)
        if high_load > 1.01 * low_load:
            loads = f"{loads[:-3]} to {mass(high_load, system)}"
        # The room's heading names the lift point already.
        name = limits.criteria[number]
        name = "lift point" if limits.kinds[number] == "lift point" else name
        text = wrapped(name, 17) + ("\n" if high - low > 0.4 else ": ") + loads
        edge = 0.03 * axes.get_xlim()[1]
        need = limits.lift.needed
        # To the right of the log's line where there is more room.
        left = need + edge if limits.for_log and edge < need < 0.45 * high_load else edge
        write(axes, (left, (low + high) / 2), text, fontsize=SMALL, ha="left", fontstyle="italic")


def _log(limits: tuple[FrontLimits, ...], system: System) -> str:
    first = limits[0]
    if len(limits) == 1 or not first.for_log:
        return log_words(first.lift, system, for_log=first.for_log)
    plan = show(first.lift.log.mass_planning, "mass", system, "up")
    return f"This log, to plan on {plan}, needs at the lift point what the dashed line says."


def _notes(limits: tuple[FrontLimits, ...], system: System) -> list[str]:
    said = [
        "The curve is never above what the machine allows at any height beside it. Names: what "
        "stops it first. Reach: of the lift point ahead of the front axle, as the arms decide it."
    ]
    if limits[0].for_log:
        said.append("Dashed: what this log needs, with rigging and load factor.")
        said += [f"{map_heading(each, system)}." for each in limits]
    if any(each.lift.plate is not None for each in limits):
        said.append("Dotted line: the plate value that was given.")
    return said + left_out(limits[0].lift, system)
