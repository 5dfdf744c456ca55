"""The log where it is: under its sling, in the grab, in the bucket or on the forks.

A log is drawn level and across the end that lifts it: end on from the side, at its whole length
from above. A slung log hangs along effective gravity, so on a slope it leans with the plumb line.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from liftcalc.answers.answer import Answer
from liftcalc.answers.capacity import plane_gravity
from liftcalc.figures.limbs import strip
from liftcalc.figures.scene import Disc, Mark, Spot, line, polygon


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """Middle of the log in the plane of the end [m], its radius there, and how it is held.

    ``point`` is the lift point, ``hook`` where the sling or the log hangs below it, ``down`` the
    direction of effective gravity in the plane.
    """

    centre: Spot
    radius: float
    point: Spot
    hook: Spot
    down: Spot
    held: str


def hung(answer: Answer) -> Hung:
    """Where the log is in the plane of the end that lifts."""
    lift, reached = answer.lift, answer.reached
    radius = float(lift.log.largest_diameter) / 2
    out, up = plane_gravity(reached.arm, gravity=reached.gravity, slew=lift.slew)
    size = math.hypot(float(out), float(up))
    down = (float(out) / size, float(up) / size)
    point = (float(reached.arm.lift_at.u), float(reached.arm.lift_at.w))
    if lift.point.hold != "hangs":
        load = (float(reached.arm.load_at.u), float(reached.arm.load_at.w))
        return Hung(
            centre=load, radius=radius, point=point, hook=point, down=down, held=lift.point.hold
        )
    drop = float(lift.point.drop or 0.0)
    top = drop if answer.hang is None else answer.hang.to_top

    def below(far: float) -> Spot:
        return point[0] + far * down[0], point[1] + far * down[1]

    held = "grab" if lift.tool.mount == "hangs" else lift.sling.way
    return Hung(
        centre=below(top + radius), radius=radius, point=point, hook=below(drop), down=down,
        held=held,
    )  # fmt: skip


def end_on(answer: Answer, at: Hung) -> list[Mark]:
    """Sling or grab, and the log end on with rings and a shake."""
    (u, w), r = at.centre, at.radius
    log = answer.lift.log
    rings: list[Mark] = [
        Disc(role="log", centre=at.centre, radius=r, name="log"),
        *(Disc(role="grain", centre=at.centre, radius=share * r) for share in (0.78, 0.54, 0.3)),
        line("grain", (u - 0.5 * r, w + 0.2 * r), (u + 0.45 * r, w - 0.25 * r)),
    ]
    least = float(log.least_diameter) / 2
    if least < 0.98 * r:
        rings.append(Disc(role="grain", centre=at.centre, radius=least, name="thin end"))
    rings = [m for m in rings if not (m.role == "grain" and isinstance(m, Disc) and m.radius > r)]
    return [*_held(at), *rings, *_over(at)]


def _held(at: Hung) -> list[Mark]:
    """What holds the log, as far as it lies behind it."""
    if at.held in ("cradled", "gripped"):
        return []
    if at.held == "grab":
        return [
            polygon("attachment", strip(at.point, at.hook, 0.3 * at.radius), name="rotator"),
            *(polygon("attachment", _claw(at, side), name="claw") for side in (1, -1)),
        ]
    hook: Mark = line("sling", at.point, at.hook, name="hook")
    if at.held == "basket":
        return [hook, *(line("sling", at.hook, _beside(at, side), name="leg") for side in (1, -1))]
    top = (at.centre[0] - at.radius * at.down[0], at.centre[1] - at.radius * at.down[1])
    return [hook, line("sling", at.hook, top, name="sling")]


def _over(at: Hung) -> list[Mark]:
    """What goes round the log in front of it."""
    if at.held in ("grab", "cradled", "gripped"):
        return []
    if at.held == "basket":
        first = math.atan2(at.down[1], at.down[0])
        turns = (first + math.radians(90 - 180 * i / 16) for i in range(17))
        round_it = tuple(
            (at.centre[0] + at.radius * math.cos(a), at.centre[1] + at.radius * math.sin(a))
            for a in turns
        )
        return [line("sling", *round_it, name="under")]
    turns = (math.tau * i / 32 for i in range(33))
    ring = tuple(
        (at.centre[0] + at.radius * math.cos(a), at.centre[1] + at.radius * math.sin(a))
        for a in turns
    )
    return [line("sling", *ring, name="round")]


def _beside(at: Hung, side: int) -> Spot:
    """The log's flank on one side of its plumb line."""
    return (
        at.centre[0] - side * at.down[1] * at.radius,
        at.centre[1] + side * at.down[0] * at.radius,
    )


def _claw(at: Hung, side: int) -> list[Spot]:
    """One claw of a grab round the log, from the rotator to below its middle."""
    down = math.atan2(at.down[1], at.down[0])
    outer: list[Spot] = []
    inner: list[Spot] = []
    for step in range(13):
        # From over the log round to well below its middle, thinning to the tip.
        angle = down + side * math.radians(180 - step * 11)
        thick = 0.32 * (1 - step / 13) + 0.05
        for radius, into in ((1 + thick, outer), (1.01, inner)):
            into.append(
                (
                    at.centre[0] + at.radius * radius * math.cos(angle),
                    at.centre[1] + at.radius * radius * math.sin(angle),
                )
            )
    return [at.hook, *outer, *reversed(inner)]
