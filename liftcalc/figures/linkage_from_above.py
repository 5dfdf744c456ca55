"""What is seen from above, to scale: machine and log as shapes of the plan."""

from __future__ import annotations

import math
from collections.abc import Callable

from liftcalc.evaluation.answer import Answer
from liftcalc.figures import chassis
from liftcalc.figures.balance import ends_on_ground
from liftcalc.figures.linkage_shapes import spot
from liftcalc.figures.log_across import log_across
from liftcalc.figures.log_along import LogAlong
from liftcalc.figures.scene import Disc, Mark, Path, Role, Spot, box, line, polygon
from liftcalc.machines.arm import Arm
from liftcalc.machines.assembly import back_point
from liftcalc.physics.plane import Point, place

BEAM = 0.055
"""Half the width of boom and dipper over the boom's length [-]; schematic."""
ARM_SPREAD = 0.62
"""Spread of the loader arms over the front track [-]; schematic."""

ToPlan = Callable[[float, float], Spot]
"""From outward and sideways in an end's plane to the plan [m]."""


def to_plan(answer: Answer, arm: Arm) -> ToPlan:
    """A function from an end's plane (outward, and sideways of it) to the plan [m]."""
    if arm.end == "front":
        return lambda u, side: (u, side)
    lift = answer.lift
    slew = lift.slew if lift.end == "back" else 0.0

    def put(u: float, side: float) -> Spot:
        x, y, _ = back_point(lift.machine, Point(u, 0.0), slew=slew, sideshift=lift.sideshift)
        # Square to the plane, to its left looking outward.
        return float(x) - side * math.sin(slew), float(y) - side * math.cos(slew)

    return put


def _strip(
    role: Role, put: ToPlan, out: Spot, half: float, *, name: str, side: float = 0.0
) -> Path:
    """A strip along an end's plane, from and to so far out, so far to its left."""
    start, end = out
    corners = ((start, -half), (end, -half), (end, half), (start, half))
    return polygon(role, (put(u, side + across) for u, across in corners), name=name)


def _tool(arm: Arm, put: ToPlan) -> list[Mark]:
    """The attachment as wide as it is, over the length of its outline."""
    tool = arm.tool
    half = float(tool.width) / 2
    if tool.mount == "hangs" or not tool.outline:
        return []
    reaches = [
        float(place(origin=arm.tool_origin, angle=arm.tool_angle, at=Point(*each)).u)
        for each in tool.outline
    ]
    low, high = min(reaches), max(reaches)
    if not tool.tines:
        return [_strip("attachment", put, (low, high), half, name=tool.name)]
    inner = float(arm.tool_origin.u)
    tine = 0.12 * half
    made: list[Mark] = [
        _strip("attachment", put, (inner - 0.05, inner + 0.08), half, name="carriage")
    ]
    for side in (-0.7 * half, 0.7 * half):
        made.append(_strip("attachment", put, (inner, high), tine, name="tine", side=side))
    return made


def machine_plan(answer: Answer) -> list[Mark]:
    """The machine with both ends, from low to high."""
    machine, reached = answer.lift.machine, answer.reached
    back, front = (
        (reached.arm, reached.other) if answer.lift.end == "back" else (reached.other, reached.arm)
    )
    return [
        *chassis.stabilisers_plan(answer),
        *chassis.tyres_plan(machine),
        *chassis.body_plan(machine),
        *_loader(answer, front),
        *_backhoe(answer, back),
    ]


def _loader(answer: Answer, front: Arm) -> list[Mark]:
    machine = answer.lift.machine
    put = to_plan(answer, front)
    pivot, pin = (float(each.u) for each in front.drawn[0].points)
    half = min(ARM_SPREAD * float(machine.wheels.front_track), float(front.tool.width)) / 2
    wide = 0.03 * float(machine.front.arm.length)
    made = _tool(front, put)
    for side in (half, -half):
        made.append(_strip("link", put, (pivot, pin), wide, name="loader arm", side=side))
    made.append(line("axis", put(pin, -half), put(pin, half), name="loader pin"))
    return made


def _backhoe(answer: Answer, back: Arm) -> list[Mark]:
    machine = answer.lift.machine
    put = to_plan(answer, back)
    axis = (float(machine.back.slew_axis_x), float(answer.lift.sideshift))
    if answer.lift.end == "front":
        axis = (axis[0], 0.0)
    half = BEAM * float(machine.back.boom.length) / 2
    inner = float(machine.stabilisers.x)
    rail = float(machine.stabilisers.pad_spread) / 2
    if machine.back.sideshift_limit > 0:
        rail_box: Mark = box("frame", (axis[0] + 0.02, -rail), (inner - 0.06, rail), "rails")
    else:
        rail_box = box("frame", (axis[0], axis[1] - 0.3), (inner, axis[1] + 0.3), "carriage")
    made: list[Mark] = [rail_box, *_tool(back, put)]
    widths = {"boom": 1.25 * half, "dipper": half}
    for each in reversed([d for d in back.drawn if d.link in widths]):
        start, end = (float(point.u) for point in each.points)
        made.append(_strip("link", put, (start, end), widths[each.link], name=each.link))
        made.append(line("axis", put(start, 0.0), put(end, 0.0), name=each.link))
    foot = spot(back.drawn[0].points[0])
    made.append(_strip("kingpost", put, (-0.08, foot[0] + 0.06), 0.14, name="kingpost"))
    made.append(Disc(role="pin", centre=axis, radius=0.07, name="slew axis"))
    return made


def log_plan(answer: Answer, at: LogAlong) -> list[Mark]:
    """The log across the end that lifts: at its whole length, or as much as one raised end shows.

    A log that hangs is drawn level: as far out as it can come.
    """
    lift, log = answer.lift, answer.lift.log
    put = to_plan(answer, answer.reached.arm)
    out, side = _log_at(answer, at)
    balance_at, length = float(log.cog_from_butt), float(lift.measure.length)
    start, end = side - balance_at, side + length - balance_at
    if lift.taken.way != "whole":
        lie = log_across(answer)
        start, end = lie.butt[0], lie.top[0]
    widths = [
        (start, float(log.butt_diameter) / 2),
        ((start + end) / 2, float(log.middle_diameter) / 2),
        (end, float(log.top_diameter) / 2),
    ]
    near = [put(out - half, along) for along, half in widths]
    far = [put(out + half, along) for along, half in widths]
    made: list[Mark] = [polygon("log", (*near, *reversed(far)), name="log")]
    for share in (-0.55, 0.0, 0.55):
        grain = [put(out + share * half, along) for along, half in widths]
        made.append(line("grain", *grain, name="grain"))
    return [*made, *_slings(answer, put, out, side)]


def _log_at(answer: Answer, at: LogAlong) -> Spot:
    """Outward and sideways place of the log's balance point in the plane of its end."""
    lift, reached = answer.lift, answer.reached
    if lift.end == "front":
        return at.centre[0], float(reached.load[1])
    # A carried log may lie off to a side; that is kept in the machine's y.
    return at.centre[0], 0.0


def _slings(answer: Answer, put: ToPlan, out: float, side: float) -> list[Mark]:
    lift = answer.lift
    if lift.point.hold != "hangs":
        return []
    half = float(lift.log.largest_diameter) / 2
    if lift.taken.way != "whole":
        foot = log_across(answer).feet[0][0]
        pulled: list[Mark] = [line("sling", put(out - half, foot), put(out + half, foot))]
        return [*pulled, line("pull", put(out, 0.0), put(out, foot), name="pull")]
    middle = 0.0
    if lift.sling.at is not None:
        middle = float(lift.sling.at) - float(lift.log.cog_from_butt)
    spread = lift.sling.spread / 2 if lift.sling.way == "two legs" else 0.0
    places = (middle - spread, middle + spread) if spread else (middle,)
    return [
        line("sling", put(out - half, side + each), put(out + half, side + each), name="sling")
        for each in places
    ]


def ring_plan(answer: Answer) -> list[Mark]:
    """All tipping lines, where their plumb lines meet the ground."""
    gravity = answer.reached.gravity
    return [line("tipping line", *ends_on_ground(each, gravity)) for each in answer.reached.lines]
