"""What follows the hook while it moves: the lifting end from the side, the log from above."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any, TypeGuard

from liftcalc.evaluation.answer import Answer
from liftcalc.figures.linkage_shapes import outlines
from liftcalc.figures.log_along import log_along
from liftcalc.figures.plan import log_plan
from liftcalc.figures.scene import Mark, Path, Spot


def side_preview(answer: Answer) -> dict[str, Any]:
    """The lifting end as pins, lengths and outlines, so that it can follow the hook [m].

    What keeps its place beside the lift point is told from there: in the plane of the end, or,
    where it turns with the dipper, along the line from the dipper's foot to the lift point.
    """
    arm, log = answer.reached.arm, log_along(answer)
    point = _spot(arm.lift_at)
    foot, pin = (_spot(each) for each in arm.drawn[0].points)
    tools = [each for each in outlines(arm, answer.lift.machine) if _is_tool(each)]
    hangs = answer.lift.point.hold == "hangs"
    made: dict[str, Any] = {"radius": log.radius, "hangs": hangs}
    if arm.end == "front":
        # Its attachment keeps its tilt, so that all of it keeps its place.
        base = float(answer.lift.machine.wheels.wheelbase)
        local, turns = _seen_from(point, 0.0), False
        made |= {"kind": "one link", "foot": [foot[0] - base, foot[1]], "nose": local(pin)}
    else:
        along = math.atan2(point[1] - pin[1], point[0] - pin[0])
        local, turns = _seen_from(point, along), True
        cross = (pin[0] - foot[0]) * (point[1] - foot[1]) - (pin[1] - foot[1]) * (
            point[0] - foot[0]
        )
        nose = next(_spot(each.points[1]) for each in arm.drawn if each.link == "dipper")
        made |= {
            "kind": "two links",
            "foot": list(foot),
            "nose": local(nose),
            "links": [math.dist(foot, pin), math.dist(pin, point)],
            "bend": 1 if cross > 0 else -1,
        }
    # A hanging log does not turn with the dipper; a carried one does.
    loose = _seen_from(point, 0.0) if hangs else local
    return {
        **made,
        "turns": turns,
        "log": loose(log.centre),
        "tool": [[local(each) for each in tool.points] for tool in tools],
    }


def _is_tool(mark: Mark) -> TypeGuard[Path]:
    return isinstance(mark, Path) and mark.role == "attachment"


def _seen_from(origin: Spot, angle: float) -> Callable[[Spot], list[float]]:
    """A function that gives places from an origin, along and across an axis at an angle [m]."""
    cos, sin = math.cos(angle), math.sin(angle)

    def told(at: Spot) -> list[float]:
        u, w = at[0] - origin[0], at[1] - origin[1]
        return [u * cos + w * sin, w * cos - u * sin]

    return told


def plan_preview(answer: Answer) -> dict[str, Any]:
    """The log's outline in plan: outward of the lift point, and to the left of its plane [m]."""
    lift = answer.lift
    if lift.end == "front":
        return {"kind": "none"}
    axis = float(lift.machine.back.slew_axis_x), lift.sideshift
    cos, sin = math.cos(lift.slew), math.sin(lift.slew)
    reach = float(answer.reached.reach)

    def local(at: Spot) -> list[float]:
        x, y = at[0] - axis[0], at[1] - axis[1]
        return [-x * cos + y * sin - reach, -x * sin - y * cos]

    outline = next(
        each
        for each in log_plan(answer, log_along(answer))
        if isinstance(each, Path) and each.closed
    )
    return {"kind": "turned", "outline": [local(each) for each in outline.points]}


def _spot(at: Any) -> Spot:
    return float(at.u), float(at.w)
