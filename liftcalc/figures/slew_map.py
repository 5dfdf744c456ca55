"""Where the back end can lift round the machine, seen from above, at one height of the lift point.

Reach is a radius round the slew axis; machine and map are to one scale.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from liftcalc.evaluation.answer import Answer
from liftcalc.figures.contours import Field, key, outline_log, paint
from liftcalc.figures.envelope import MACHINE
from liftcalc.figures.plan import plan
from liftcalc.figures.sheet import FAINT, INK, SMALL, SOFT, draw, length_unit, lengths, say, sheet
from liftcalc.figures.text import about, notes
from liftcalc.machines.assembly import back_point
from liftcalc.maps.limits import BackLimits
from liftcalc.physics.plane import Point
from liftcalc.units import FOOT, System, show


def around(limits: BackLimits, answer: Answer, *, system: System = "metric") -> Figure:
    """The plan of a map of limits: see `envelope`.

    Parameters
    ----------
    limits : BackLimits
    answer : Answer
        Of ``limits.lift``: the pose in which the machine is drawn.
    system : System
        Of what is shown.
    """
    made, lift = limits.plan, limits.lift
    axis, shift = float(lift.machine.back.slew_axis_x), float(lift.sideshift)
    marks = [m for m in plan(answer, system=system).marks if m.role in MACHINE]
    far = float(made.reach[-1]) + 0.5
    nose = float(lift.machine.wheels.wheelbase) + 2.6
    limit = float(made.other[-1])
    left = axis - far
    bottom, top = shift - far * min(1.0, math.sin(min(limit, math.pi / 2))), 0.0
    top = -bottom + 2 * shift
    page = sheet(
        title="Where the back end can lift: round the machine",
        about=about(limits, made, system),
        notes=_notes(limits, system),
        height=0.179 * (top - bottom) / (nose - left),
    )
    axes = page.axes
    axes.set_xlim(left, nose)
    axes.set_ylim(bottom, top)
    axes.set_aspect("equal")
    r, s = np.meshgrid(made.lattice.reach, made.lattice.other, indexing="ij")
    x, y, _ = back_point(lift.machine, Point(r, 0.0), slew=s, sideshift=shift)
    tip = answer.reached.asked
    along = np.linspace((axis, shift), (float(tip[0]), float(tip[1])), 24)
    field = Field(
        limits=made,
        x=np.asarray(x),
        y=np.asarray(y),
        kept_free=tuple((float(a), float(b)) for a, b in along),
    )
    paint(axes, field, system)
    key(axes, field, left=axis + 1.0, low=bottom + 0.05)
    draw(axes, marks)
    if limits.for_log:
        outline_log(axes, field)
    axes.plot(
        float(tip[0]),
        float(tip[1]),
        marker="o",
        markersize=6,
        markerfacecolor="#ffffff",
        markeredgecolor=INK,
        zorder=8,
    )
    _rings(axes, (axis, shift), far - 0.5, limit, system)
    _scales(axes, (axis, shift), system)
    return page.figure


def _rings(
    axes: Axes, centre: tuple[float, float], far: float, limit: float, system: System
) -> None:
    """Circles of equal reach and rays of equal slew, with their names."""
    unit = 1.0 if system == "metric" else 3 * FOOT
    turns = np.linspace(-limit, limit, 181)
    for count in range(1, math.floor(far / unit + 1e-9) + 1):
        radius = count * unit
        axes.plot(
            centre[0] - radius * np.cos(turns),
            centre[1] + radius * np.sin(turns),
            color=FAINT,
            linewidth=0.5,
            zorder=0.5,
        )
    step = math.radians(30)
    for count in range(math.ceil(-limit / step), math.floor(limit / step) + 1):
        turn = count * step
        out = (math.cos(turn), math.sin(turn))
        ends = [(centre[0] - k * out[0], centre[1] + k * out[1]) for k in (0.3, far + 0.08)]
        axes.plot(*np.transpose(ends), color=FAINT, linewidth=0.5, zorder=0.5)
        words = "straight back" if count == 0 else show(abs(turn), "angle").replace(".0", "")
        if count:
            words += " left" if count > 0 else " right"
        at = (centre[0] - (far + 0.26) * out[0], centre[1] + (far + 0.26) * out[1])
        say(axes, at, words.replace(" ", "\n"), fontsize=SMALL, color=SOFT)


def _scales(axes: Axes, centre: tuple[float, float], system: System) -> None:
    unit = length_unit(system)
    style: dict[str, Any] = {"fontsize": SMALL, "color": SOFT, "labelpad": 1}
    lengths(axes.xaxis, system, to=lambda x: centre[0] - x, least=0)
    lengths(axes.yaxis, system, to=lambda y: y - centre[1])
    axes.set_xlabel(f"behind the slew axis [{unit}]", loc="left", **style)
    axes.set_ylabel(f"to the left of the slew axis [{unit}]", **style)


def _notes(limits: BackLimits, system: System) -> list[str]:
    height = show(limits.plan.at, "length", system=system)
    even = (
        "Left and right are alike."
        if limits.alike
        else f"Left and right are not alike: {'; '.join(limits.uneven)}."
    )
    return [
        f"For the lift point {height} above the ground, slewed up to the slew limit. {even} "
        "The machine’s left is at the top.",
        *notes(limits, limits.plan, system),
    ]
