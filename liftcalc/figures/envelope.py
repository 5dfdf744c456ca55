"""Where the back end can lift, seen from the side: loads, what governs, and the machine to scale.

The machine is drawn in one pose, swung into the plane of the drawing like the map itself.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from liftcalc.evaluation.answer import Answer
from liftcalc.figures.contours import ROW, Field, key, outline_log, paint, present
from liftcalc.figures.scene import Role
from liftcalc.figures.sheet import FAINT, INK, SMALL, SOFT, draw, length_unit, lengths, say, sheet
from liftcalc.figures.side import side
from liftcalc.figures.text import about, notes
from liftcalc.maps.limits import BackLimits, LimitMap
from liftcalc.physics.plane import Point
from liftcalc.units import System, show

MACHINE: frozenset[Role] = frozenset(
    {"frame", "body", "glass", "tyre", "rim", "stabiliser", "kingpost", "link", "lug", "barrel",
     "rod", "pin", "attachment"}
)  # fmt: skip
"""What of a drawing of a lift is machine, and not load, ground or words."""
WIDTH = 0.2


def envelope(limits: BackLimits, answer: Answer, *, system: System = "metric") -> Figure:
    """The side view of a map of limits.

    Parameters
    ----------
    limits : BackLimits
    answer : Answer
        Of ``limits.lift``: the pose in which the machine is drawn.
    system : System
        Of what is shown.
    """
    made, lift = limits.side, limits.lift
    axis = float(lift.machine.back.slew_axis_x)
    marks = [m for m in side(answer, system=system).marks if m.role in MACHINE]
    nose = float(lift.machine.wheels.wheelbase) + 2.6
    left, right = axis - float(made.reach[-1]) - 0.45, nose
    below = 0.45 + ROW * len(present(made))
    bottom, top = min(float(made.other[0]), -below) - 0.1, max(float(made.other[-1]), 3.0) + 0.25
    room = 0.179
    page = sheet(
        title="Where the back end can lift: reach and height",
        about=about(limits, made, system),
        notes=_notes(limits, made, system),
        width=WIDTH,
        height=room * (top - bottom) / (right - left),
    )
    axes = page.axes
    axes.set_xlim(left, right)
    axes.set_ylim(bottom, top)
    axes.set_aspect("equal")
    x, y = np.meshgrid(axis - made.lattice.reach, made.lattice.other, indexing="ij")
    joints = [each for part in answer.reached.arm.drawn for each in part.points]
    field = Field(limits=made, x=x, y=y, kept_free=_along(joints, axis))
    paint(axes, field, system)
    key(axes, field, left=axis + 0.35, low=bottom + 0.05)
    axes.axhline(0.0, color=SOFT, linewidth=1.0, zorder=2.8)
    draw(axes, marks)
    if limits.for_log:
        outline_log(axes, field)
    _scales(axes, axis, system)
    at = axis - answer.reached.reach, lift.height
    axes.plot(
        *at, marker="o", markersize=6, markerfacecolor="#ffffff", markeredgecolor=INK, zorder=8
    )
    axes.axvline(axis, ymax=0.97, color=FAINT, linewidth=0.7, linestyle=(0, (7, 2, 1, 2)), zorder=0)
    say(axes, (axis + 0.08, top - 0.12), "slew axis", fontsize=SMALL, color=SOFT, ha="left")
    return page.figure


def _along(joints: list[Point], axis: float) -> tuple[tuple[float, float], ...]:
    """Places along boom and dipper, for words to keep off."""
    made = []
    spots = [(axis - float(p.u), float(p.w)) for p in joints]
    for one, two in pairwise(spots):
        made += [
            (one[0] + s * (two[0] - one[0]), one[1] + s * (two[1] - one[1]))
            for s in np.linspace(0, 1, 12)
        ]
    return tuple(made)


def _scales(axes: Axes, axis: float, system: System) -> None:
    unit = length_unit(system)
    style: dict[str, Any] = {"fontsize": SMALL, "color": SOFT, "labelpad": 1}
    lengths(axes.xaxis, system, to=lambda x: axis - x, least=0)
    lengths(axes.yaxis, system)
    axes.set_xlabel(f"reach of the lift point from the slew axis [{unit}]", loc="left", **style)
    axes.set_ylabel(f"height of the lift point above the ground [{unit}]", **style)


def _notes(limits: BackLimits, made: LimitMap, system: System) -> list[str]:
    lift = limits.lift
    slewed = show(abs(lift.slew), "angle")
    side_of = "left" if lift.slew > 0 else "right"
    where = f"slewed {slewed} to the {side_of}" if lift.slew else "straight back"
    return [
        f"For the back end {where}; map and boom are swung into the plane of the drawing. "
        f"Mapped from a height of {show(float(made.other[0]), 'length', system=system)} up.",
        *notes(limits, made, system),
    ]
