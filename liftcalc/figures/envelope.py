"""Where the back end can lift, seen from the side: loads, what governs, and the machine to scale.

The machine is drawn in one pose, swung into the plane of the drawing like the map itself.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from matplotlib.axes import Axes

from liftcalc.evaluation.answer import Answer
from liftcalc.figures.contours import NOSE, ROW, Field, MapDrawing, machine_marks
from liftcalc.figures.scene import between
from liftcalc.figures.sheet import FAINT, SMALL, SOFT, lengths, write
from liftcalc.figures.side import side
from liftcalc.maps.limits import BackLimits
from liftcalc.physics.plane import Point
from liftcalc.units import System, show


def side_map(limits: BackLimits, answer: Answer, system: System) -> MapDrawing:
    """The map of reach by height, with the machine posed as in an answer to ``limits.lift``."""
    made, lift = limits.side, limits.lift
    axis = float(lift.machine.back.slew_axis_x)
    x, y = np.meshgrid(axis - made.lattice.reach, made.lattice.other, indexing="ij")
    joints = [each for part in answer.reached.arm.drawn for each in part.points]
    field = Field(limits=made, x=x, y=y, kept_free=_along(joints, axis))
    below = 0.45 + ROW * field.rows
    bottom, top = min(float(made.other[0]), -below) - 0.1, max(float(made.other[-1]), 3.0) + 0.25
    left = axis - float(made.reach[-1]) - 0.45

    def scale(axes: Axes, system: System) -> None:
        axes.axhline(0.0, color=SOFT, linewidth=1.0, zorder=2.8)
        axes.axvline(
            axis, ymax=0.97, color=FAINT, linewidth=0.7, linestyle=(0, (7, 2, 1, 2)), zorder=0
        )
        write(axes, (axis + 0.08, top - 0.12), "slew axis", fontsize=SMALL, color=SOFT, ha="left")
        reach = "reach of the lift point from the slew axis"
        lengths(axes, "x", reach, system, to=lambda x: axis - x, least=0)
        lengths(axes, "y", "height of the lift point above the ground", system)

    return MapDrawing(
        field=field,
        window=(left, float(lift.machine.wheels.wheelbase) + NOSE, bottom, top),
        key_at=(axis + 0.35, bottom + 0.05),
        hook=(axis - answer.reached.reach, lift.height),
        marks=machine_marks(side(answer, system=system)),
        scale=scale,
        notes=(
            "From the side map and boom are swung into the plane of the drawing. Mapped from a "
            f"height of {show(float(made.other[0]), 'length', system)} up.",
        ),
    )


def _along(joints: list[Point], axis: float) -> tuple[tuple[float, float], ...]:
    """Places along boom and dipper that words must keep off."""
    spots = [(axis - float(p.u), float(p.w)) for p in joints]
    return tuple(
        between(one, two, float(share))
        for one, two in pairwise(spots)
        for share in np.linspace(0, 1, 12)
    )
