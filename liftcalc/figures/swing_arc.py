"""How far a load may swing, and ground that slopes under a machine that stands level."""

from __future__ import annotations

import math

from liftcalc.evaluation.answer import Answer
from liftcalc.figures.log_along import LogAlong
from liftcalc.figures.scene import Mark, Spot, around, box, line


def swing_arc(answer: Answer, at: LogAlong) -> list[Mark]:
    """The arc along which the middle of a log may swing, either way; none for one that does not."""
    lean = float(answer.reached.lean)
    if lean <= 0 or answer.lift.taken.way != "whole":
        return []
    return swing_cone(at.point, at.centre, lean)


def swing_cone(point: Spot, centre: Spot, lean: float) -> list[Mark]:
    """A swing cone seen from a side: both its edges, and the arc between them."""
    x, z = centre[0] - point[0], centre[1] - point[1]
    far, down = math.hypot(x, z), math.atan2(z, x)
    spots = around(point, far, (down + lean * step / 16 for step in range(-16, 17)))
    return [
        line("swing", point, spots[0], name="edge"),
        line("swing", point, spots[-1], name="edge"),
        line("swing", *spots, name="arc"),
    ]


def ground_gradient(answer: Answer) -> float:
    """Rise of the ground toward the nose under a machine that was levelled [-]; else none."""
    site = answer.lift.site
    return float(site.rise(x=1.0, y=0.0)) if site.levelled else 0.0


def sloping_ground(answer: Answer, left: float, right: float) -> list[Mark]:
    """The ground line; under a levelled machine it slopes and packing fills what it leaves."""
    rise = ground_gradient(answer)
    if not rise:
        return [line("ground", (left, 0.0), (right, 0.0))]
    feet = {foot.at[0] for foot in answer.ground_forces.feet}
    # The highest ground carries its foot directly.
    held = max(feet, key=lambda x: x * rise)

    def ground(x: float) -> float:
        return (x - held) * rise

    half = 0.25
    made: list[Mark] = [
        box("packing", (x - half, ground(x)), (x + half, 0.0), "packing")
        for x in sorted(feet)
        if ground(x) < -1e-9
    ]
    return [*made, line("ground", (left, ground(left)), (right, ground(right)))]
