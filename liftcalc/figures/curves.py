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
    FAINT,
    INK,
    PLAIN,
    SMALL,
    SOFT,
    length_unit,
    lengths,
    levels,
    mass,
    say,
    sheet,
    wrapped,
)
from liftcalc.figures.text import unchecked
from liftcalc.maps.limits import FrontLimits
from liftcalc.reports.text import log_words, machine_words
from liftcalc.units import POUND, System, show

ACROSS = 3
"""Rooms beside each other, at most."""


def curves(limits: tuple[FrontLimits, ...], *, system: System = "metric") -> Figure:
    """Load over height for one or more attachments of the front end.

    Parameters
    ----------
    limits : tuple of FrontLimits
        Of one machine and request, an attachment each.
    system : System
        Of what is shown.
    """
    first = limits[0].lift
    rows = -(-len(limits) // ACROSS)
    columns = min(ACROSS, len(limits))
    tall = 0.075 if rows > 1 else 0.1
    page = sheet(
        title="Where the front end can lift: load over height",
        about=f"{machine_words(first, tool=len(limits) == 1)}. " + _log(limits, system),
        notes=_notes(limits),
        height=rows * tall + (rows - 1) * 0.021,
        margins=(0.015, 0.012),
        extra=0.009,
    )
    box = page.axes.get_position()
    page.axes.remove()
    most = max(float(np.nanmax(each.floor)) for each in limits)
    low = min(float(each.heights[~np.isnan(each.floor)][0]) for each in limits)
    high = max(float(each.heights[~np.isnan(each.floor)][-1]) for each in limits)
    inches = page.figure.get_size_inches()
    gap_x, gap_y = 0.021 / (inches[0] * 0.0254), 0.021 / (inches[1] * 0.0254)
    wide = (box.width - (columns - 1) * gap_x) / columns
    deep = (box.height - (rows - 1) * gap_y) / rows
    for number, each in enumerate(limits):
        row, column = divmod(number, columns)
        axes = page.figure.add_axes(
            (box.x0 + column * (wide + gap_x), box.y1 - (row + 1) * deep - row * gap_y, wide, deep)
        )
        axes.set_facecolor("none")
        for side in axes.spines.values():
            side.set_visible(False)
        axes.tick_params(colors=SOFT, labelsize=SMALL, length=2.5, width=0.6)
        axes.set_xlim(0.0, 1.3 * most)
        axes.set_ylim(min(low, 0.0) - 0.15, high + 0.55)
        _room(axes, each, most, system, named=column == 0)
    return page.figure


def _room(axes: Axes, limits: FrontLimits, most: float, system: System, *, named: bool) -> None:
    lift = limits.lift
    unit, length = ("kg", "m") if system == "metric" else ("lb", "ft")
    one = 1.0 if system == "metric" else POUND
    lengths(axes.yaxis, system)
    ticks = [0.0, *levels(0.0, most, system, most=4)]
    axes.set_xticks(ticks, [f"{each / one:.0f}" for each in ticks])
    axes.set_xlabel(
        f"load allowed at the lift point [{unit}]", fontsize=SMALL, color=SOFT, labelpad=1
    )
    if named:
        axes.set_ylabel(
            f"height of the lift point [{length_unit(system)}]",
            fontsize=SMALL,
            color=SOFT,
            labelpad=1,
        )
    there = ~np.isnan(limits.floor)
    axes.fill_betweenx(
        limits.heights,
        0.0,
        np.where(there, limits.floor, np.nan),
        color=BANDS[1],
        zorder=1,
        linewidth=0,
    )
    axes.plot(
        limits.floor, limits.heights, color=INK, linewidth=1.6, zorder=4, solid_capstyle="butt"
    )
    axes.axhline(0.0, color=SOFT, linewidth=0.8, zorder=2)
    axes.set_title(
        f"{lift.tool.name}\n{lift.point.name}",
        fontsize=PLAIN,
        color=INK,
        loc="left",
        pad=3,
        fontweight="bold",
    )
    _reaches(axes, limits, most, system, length)
    _governing(axes, limits, system)
    if limits.for_log:
        need = lift.needed
        axes.axvline(need, color=INK, linewidth=1.3, linestyle=(0, (4, 2)), zorder=5, ymax=0.93)
        say(axes, (need, axes.get_ylim()[1] - 0.12), "this log", fontsize=SMALL, fontweight="bold")
    if lift.plate is not None:
        axes.axvline(lift.plate, color=INK, linewidth=1.0, linestyle=(0, (1, 1.5)), zorder=5)


def _reaches(axes: Axes, limits: FrontLimits, most: float, system: System, length: str) -> None:
    """The reach that follows, written at round heights beside the curve."""
    there = ~np.isnan(limits.floor)
    x = 1.17 * most
    for at in axes.get_yticks():
        inside = there & (np.abs(limits.heights - at) < 0.006)
        if not inside.any():
            continue
        reach = float(limits.reaches[np.flatnonzero(inside)[0]])
        text = show(reach, "length", system=system).removesuffix(f" {length}")
        axes.plot([0.0, 1.06 * most], [at, at], color=FAINT, linewidth=0.5, zorder=0.5)
        say(axes, (x, at), text, fontsize=SMALL, color=SOFT)
    say(axes, (x, axes.get_ylim()[1] - 0.12), f"reach\n[{length}]", fontsize=SMALL, color=SOFT)


def _governing(axes: Axes, limits: FrontLimits, system: System) -> None:
    """What governs, written inside the curve along each stretch; a tick where it changes."""
    which = limits.fine_governs
    for start, end in pairwise([0, *(np.flatnonzero(np.diff(which)) + 1), which.size]):
        number = int(which[start])
        if number < 0:
            continue
        floor = limits.floor[start : end + 1]
        low, high = limits.heights[start], limits.heights[end]
        if end < which.size and which[end] >= 0:
            axes.plot(
                [0.0, limits.floor[end]],
                [high, high],
                color=SOFT,
                linewidth=0.6,
                linestyle=(0, (1.2, 1.6)),
                zorder=3,
            )
        if high - low < 0.22:
            continue
        low_load, high_load = float(np.nanmin(floor)), float(np.nanmax(floor))
        loads = mass(low_load, system)
        if high_load > 1.01 * low_load:
            loads = f"{loads[:-3]} to {mass(high_load, system)}"
        # The lift point stands over the room already.
        name = limits.criteria[number].split(" (")[0]
        text = wrapped(name, 17) + ("\n" if high - low > 0.4 else ": ") + loads
        edge = 0.03 * axes.get_xlim()[1]
        need = limits.lift.needed
        # Beside the line of the log, where there is more room on its far side.
        left = need + edge if limits.for_log and edge < need < 0.45 * high_load else edge
        say(axes, (left, (low + high) / 2), text, fontsize=SMALL, ha="left", fontstyle="italic")


def _log(limits: tuple[FrontLimits, ...], system: System) -> str:
    first = limits[0]
    if len(limits) == 1 or not first.for_log:
        return log_words(first.lift, system, for_log=first.for_log)
    plan = show(first.lift.log.mass_planning, "mass", system=system, rounding="up")
    return f"This log, to plan on {plan}, needs at the lift point what the dashed line says."


def _notes(limits: tuple[FrontLimits, ...]) -> list[str]:
    said = [
        "The curve is never above what the machine allows at any height beside it. Names: what "
        "stops it first. Reach: of the lift point ahead of the front axle, as the arms decide it."
    ]
    if any(each.for_log for each in limits):
        said.append("Dashed: what this log needs, with rigging and load factor.")
    if any(each.lift.plate is not None for each in limits):
        said.append("Dotted: the plate value that was given.")
    return said + unchecked(limits[0].lift)
