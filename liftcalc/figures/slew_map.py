"""Where the back end can lift round the machine, seen from above, at one height of the lift point.

Reach is a radius round the slew axis; machine and map are to one scale.
"""

from __future__ import annotations

import math

import numpy as np
from matplotlib.axes import Axes

from liftcalc.evaluation.answer import Answer
from liftcalc.figures.contours import NOSE, Field, MapDrawing, machine_marks
from liftcalc.figures.plan import plan
from liftcalc.figures.scene import around
from liftcalc.figures.sheet import FAINT, SMALL, SOFT, lengths, stroke, write
from liftcalc.machines.assembly import back_point
from liftcalc.maps.limits import BackLimits
from liftcalc.physics.plane import Point
from liftcalc.reports.map_words import alike_words
from liftcalc.units import FOOT, System, show


def plan_map(limits: BackLimits, answer: Answer, system: System) -> MapDrawing:
    """The map of slew by reach, with the machine posed as in an answer to ``limits.lift``."""
    made, lift = limits.plan, limits.lift
    axis, shift = float(lift.machine.back.slew_axis_x), float(lift.sideshift)
    farthest, limit = float(made.reach[-1]), float(made.other[-1])
    aside = (farthest + 0.5) * math.sin(min(limit, math.pi / 2))
    r, s = np.meshgrid(made.lattice.reach, made.lattice.other, indexing="ij")
    x, y, _ = back_point(lift.machine, Point(r, 0.0), slew=s, sideshift=shift)
    hook = float(answer.reached.asked[0]), float(answer.reached.asked[1])
    along = np.linspace((axis, shift), hook, 24)

    def scale(axes: Axes, system: System) -> None:
        _rings(axes, (axis, shift), farthest, limit, system)
        lengths(axes, "x", "behind the slew axis", system, to=lambda x: axis - x, least=0)
        lengths(axes, "y", "to the left of the slew axis", system, to=lambda y: y - shift)

    even = alike_words(limits, system)
    return MapDrawing(
        field=Field(
            limits=made,
            x=np.asarray(x),
            y=np.asarray(y),
            kept_free=tuple((float(a), float(b)) for a, b in along),
        ),
        window=(
            axis - farthest - 0.5,
            float(lift.machine.wheels.wheelbase) + NOSE,
            shift - aside,
            shift + aside,
        ),
        key_at=(axis + 1.0, shift - aside + 0.05),
        hook=hook,
        marks=machine_marks(plan(answer, system=system)),
        scale=scale,
        notes=(
            f"From above the map goes to the slew limit. {even} The machine’s left is at the top.",
        ),
    )


def _rings(
    axes: Axes, centre: tuple[float, float], far: float, limit: float, system: System
) -> None:
    """Circles of equal reach and rays of equal slew, with their names."""
    unit = 1.0 if system == "metric" else 3 * FOOT
    turns = np.linspace(-limit, limit, 181)
    for count in range(1, math.floor(far / unit + 1e-9) + 1):
        radius = count * unit
        ring = around(centre, radius, math.pi - turns)
        stroke(axes, *np.transpose(ring), color=FAINT, width=0.5, order=0.5)
    step = math.radians(30)
    for count in range(math.ceil(-limit / step), math.floor(limit / step) + 1):
        turn = count * step
        out = (math.cos(turn), math.sin(turn))
        ends = [(centre[0] - k * out[0], centre[1] + k * out[1]) for k in (0.3, far + 0.08)]
        stroke(axes, *np.transpose(ends), color=FAINT, width=0.5, order=0.5)
        words = "straight back" if count == 0 else show(abs(turn), "angle").replace(".0", "")
        if count:
            words += " left" if count > 0 else " right"
        at = (centre[0] - (far + 0.26) * out[0], centre[1] + (far + 0.26) * out[1])
        write(axes, at, words.replace(" ", "\n"), fontsize=SMALL, color=SOFT)
