"""The log where it is: under its sling, in the grab, in the bucket or on the forks.

A log lies across the end that lifts it: end on from the side, its ends at their true heights (see
``log_across``), at its whole length from above. A slung log hangs along effective gravity, so on a
slope it leans with the plumb line.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.rams import plane_gravity
from liftcalc.figures.linkage_shapes import strip
from liftcalc.figures.log_across import LogAcross, log_across
from liftcalc.figures.scene import Disc, Mark, Role, Spot, around, line, polygon


@dataclass(frozen=True, slots=True, kw_only=True)
class LogAlong:
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


def log_along(answer: Answer) -> LogAlong:
    """Where the log is in the plane of the end that lifts."""
    lift, reached = answer.lift, answer.reached
    radius = float(lift.log.largest_diameter) / 2
    out, up = plane_gravity(reached.arm, gravity=reached.gravity, slew=lift.slew)
    size = math.hypot(float(out), float(up))
    down = (float(out) / size, float(up) / size)
    point = (float(reached.arm.lift_at.u), float(reached.arm.lift_at.w))
    if lift.point.hold != "hangs":
        load = (float(reached.arm.load_at.u), float(reached.arm.load_at.w))
        return LogAlong(
            centre=load, radius=radius, point=point, hook=point, down=down, held=lift.point.hold
        )
    drop = float(lift.point.drop or 0.0)
    top = drop if answer.hang is None else answer.hang.to_top

    def below(far: float) -> Spot:
        return point[0] + far * down[0], point[1] + far * down[1]

    held = "grab" if lift.tool.mount == "hangs" else lift.sling.way
    if lift.taken.way != "whole":
        foot = log_across(answer).feet[0]
        thick = radius if lift.taken.way != "drawn" else 0.0
        return LogAlong(
            centre=(point[0], point[1] + foot[1] - thick),
            radius=radius,
            point=point,
            hook=below(drop),
            down=down,
            held=held,
        )
    return LogAlong(
        centre=below(top + radius),
        radius=radius,
        point=point,
        hook=below(drop),
        down=down,
        held=held,
    )


ASLANT = math.radians(1.0)
"""Off the level by more than this, both ends of a log are drawn apart [rad]."""


def end_on(answer: Answer, at: LogAlong) -> list[Mark]:
    """Sling or grab, and the log end on with rings and a shake."""
    lie = log_across(answer)
    if lie.grounded or lie.angle > ASLANT:
        held = [line("sling", at.point, at.hook, name="hook")] if lie.grounded else _held(at)
        return [*held, *_aslant(answer, at, lie)]
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


def _aslant(answer: Answer, at: LogAlong, lie: LogAcross) -> list[Mark]:
    """A log off the level seen along it: the span of both its ends, and the face of the near one.

    One on the ground keeps its height there, whichever way effective gravity leans.
    """
    log = answer.lift.log
    down = (0.0, -1.0) if lie.grounded else at.down
    turn = math.atan2(lie.top[1] - lie.butt[1], abs(lie.top[0] - lie.butt[0]))

    def face(end: Spot, diameter: float, share: float = 1.0) -> tuple[Spot, ...]:
        half = share * float(diameter) / 2
        middle = (at.point[0] - end[1] * down[0], at.point[1] - end[1] * down[1])
        turns = (math.tau * i / 32 for i in range(32))
        return tuple(
            (
                middle[0] - half * (math.cos(a) * down[1] - math.sin(a) * math.cos(turn) * down[0]),
                middle[1] + half * (math.cos(a) * down[0] + math.sin(a) * math.cos(turn) * down[1]),
            )
            for a in turns
        )

    butt, top = (lie.butt, log.butt_diameter), (lie.top, log.top_diameter)
    near = top if answer.lift.end == "back" else butt
    made: list[Mark] = [
        polygon("log", hull((*face(*butt), *face(*top))), name="ends"),
        Disc(role="log", centre=at.centre, radius=at.radius, name="log"),
        *_over(at),
        polygon("log", face(*near), name="near end"),
        *(polygon("grain", face(*near, share), name="ring") for share in (0.7, 0.4)),
    ]
    if lie.grounded:
        # Where the sling holds it the log has its thickness there, not its greatest.
        made = [m for m in made if m.name not in ("round", "under", "log")]
        foot = at.point[0], at.point[1] + lie.feet[0][1]
        role: Role = "pull" if answer.lift.taken.skidded else "sling"
        made.append(line(role, at.hook, foot, name="sling"))
    return made


def hull(spots: Iterable[Spot]) -> tuple[Spot, ...]:
    """The convex outline of some places, counter-clockwise."""
    ordered = sorted(set(spots))

    def half(run: Iterable[Spot]) -> list[Spot]:
        made: list[Spot] = []
        for at in run:
            while len(made) > 1 and _turns_right(made[-2], made[-1], at):
                made.pop()
            made.append(at)
        return made[:-1]

    return (*half(ordered), *half(reversed(ordered)))


def _turns_right(one: Spot, two: Spot, at: Spot) -> bool:
    return (two[0] - one[0]) * (at[1] - one[1]) <= (two[1] - one[1]) * (at[0] - one[0])


def _held(at: LogAlong) -> list[Mark]:
    """What holds the log, the part behind it."""
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


def _over(at: LogAlong) -> list[Mark]:
    """What holds the log, the part in front of it."""
    if at.held in ("grab", "cradled", "gripped"):
        return []
    if at.held == "basket":
        first = math.atan2(at.down[1], at.down[0])
        turns = (first + math.radians(90 - 180 * i / 16) for i in range(17))
        return [line("sling", *around(at.centre, at.radius, turns), name="under")]
    turns = (math.tau * i / 32 for i in range(33))
    return [line("sling", *around(at.centre, at.radius, turns), name="round")]


def _beside(at: LogAlong, side: int) -> Spot:
    """The log's flank on one side of its plumb line."""
    return (
        at.centre[0] - side * at.down[1] * at.radius,
        at.centre[1] + side * at.down[0] * at.radius,
    )


def _claw(at: LogAlong, side: int) -> list[Spot]:
    """One claw of a grab round the log, from the rotator to below its middle."""
    down = math.atan2(at.down[1], at.down[0])
    # From over the log round to well below its middle, thinning to the tip.
    turns = [down + side * math.radians(180 - step * 11) for step in range(13)]
    thick = (1.37 - 0.32 * step / 13 for step in range(13))
    outer = (around(at.centre, far * at.radius, (a,)) for far, a in zip(thick, turns, strict=True))
    inner = around(at.centre, 1.01 * at.radius, reversed(turns))
    return [at.hook, *(spot for (spot,) in outer), *inner]
