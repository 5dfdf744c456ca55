"""How the log lies in the upright plane across the end that lifts: hanging, raised or drawn.

The side view looks along the log and the plan from above it; this is what both leave out.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from liftcalc.evaluation.answer import Answer
from liftcalc.figures.scene import Spot
from liftcalc.rigging.lift_mode import STEEPEST_TRAIL, hook_from_ground_end, moves
from liftcalc.rigging.sling import balance_miss


@dataclass(frozen=True, slots=True, kw_only=True)
class LogAcross:
    """The log in the plane across its end: sideways and up from the lift point [m].

    ``butt`` and ``top`` are the ends of its axis, ``feet`` where sling or legs hold it, ``hook``
    where they hang, ``balance`` its balance point. ``angle`` is how far it is off the level [rad];
    ``grounded`` says that it touches the ground, ``short`` that the sling as said does not reach
    it. A log that hangs has effective gravity straight down, one on the ground has that level.
    """

    butt: Spot
    top: Spot
    balance: Spot
    feet: tuple[Spot, ...]
    hook: Spot
    angle: float
    grounded: bool = False
    short: bool = False


def log_across(answer: Answer) -> LogAcross:
    """How the log of an answer lies."""
    lift = answer.lift
    if lift.point.hold != "hangs":
        return _held_fast(answer)
    if lift.taken.way == "whole":
        return _hanging(answer)
    return _drawn(answer) if lift.taken.way == "drawn" else _raised(answer)


def _along(start: Spot, way: Spot, far: float) -> Spot:
    return start[0] + far * way[0], start[1] + far * way[1]


def _held_fast(answer: Answer) -> LogAcross:
    lift, reached = answer.lift, answer.reached
    at = float(lift.log.cog_from_butt)
    side = float(reached.load[1]) if lift.end == "front" else 0.0
    up = float(reached.arm.load_at.w) - float(reached.arm.lift_at.w)
    return LogAcross(
        butt=(side - at, up),
        top=(side + float(lift.measure.length) - at, up),
        balance=(side, up),
        feet=(),
        hook=(0.0, 0.0),
        angle=0.0,
    )


def _hanging(answer: Answer) -> LogAcross:
    """Turned about sling or pin; a balance point that may be missed is missed to the longer end."""
    lift, hang = answer.lift, answer.hang
    length, balance = float(lift.measure.length), float(lift.log.cog_from_butt)
    log = lift.log
    radius, drop = float(log.largest_diameter) / 2, float(lift.point.drop or 0.0)
    thin = min(log.butt_diameter, log.middle_diameter, log.top_diameter) / 2
    miss = balance_miss(lift.sling, log_length=length, balance=balance)
    low = 1.0 if length - balance >= balance else -1.0
    at = balance - low * miss
    if lift.sling.at is not None:
        at, low = float(lift.sling.at), 1.0 if balance >= lift.sling.at else -1.0
    if hang is None:  # in a grab, which leans about its pin
        fall = (answer.lowest - answer.lowest_tipped) / max(balance, length - balance)
        angle, pivot, depth, held = math.asin(min(max(fall, 0.0), 1.0)), 0.0, drop + radius, 0.0
    else:
        # A basket's angle is not computed: it is drawn level.
        angle = 0.0 if lift.sling.way == "basket" else hang.angle
        legs = lift.sling.way == "two legs"
        pivot = -(drop if legs else hang.to_top)
        depth, held = -pivot, lift.sling.spread / 2 if legs else 0.0
        # In one sling the answer takes the least radius, over which the log tips most.
        depth = hang.to_top - drop + radius if legs else thin
    turn = -low * angle
    way, up = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    middle = _along((0.0, pivot), up, -depth)
    crown = _along(middle, up, radius)
    return LogAcross(
        butt=_along(middle, way, -at),
        top=_along(middle, way, length - at),
        balance=_along(middle, way, balance - at),
        feet=tuple(_along(crown, way, each) for each in ((-held, held) if held else (0.0,))),
        hook=(0.0, -drop),
        angle=angle,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ends:
    """The end on the ground and the other one: radii [m], place of the hook from the ground's."""

    toward: float
    rests: float
    raised: float
    hook: float
    balance: float
    length: float


def _ends(answer: Answer) -> _Ends:
    lift = answer.lift
    log, length = lift.log, float(lift.measure.length)
    butt, top = float(log.butt_diameter) / 2, float(log.top_diameter) / 2
    on_top = lift.taken.ground_end == "top"
    at = float(log.cog_from_butt)
    return _Ends(
        toward=1.0 if on_top else -1.0,
        rests=top if on_top else butt,
        raised=butt if on_top else top,
        balance=length - at if on_top else at,
        length=length,
        hook=float(hook_from_ground_end(lift.taken, log_length=length)),
    )


def _raised(answer: Answer) -> LogAcross:
    """One end on the ground, its underside touching; the hook plumb over what it holds."""
    lift, ends = answer.lift, _ends(answer)
    diameter = float(lift.log.largest_diameter)
    height, drop = float(answer.reached.asked[2]), float(lift.point.drop or 0.0)
    top = answer.hang.to_top if answer.hang else drop
    # The part of the lift that only takes up the log's own thickness raises no end yet.
    raised = min(max(height - top - diameter, 0.0), 0.9 * ends.hook)
    angle = moves(
        lift.taken,
        log_length=ends.length,
        cog_from_butt=lift.log.cog_from_butt,
        diameter=diameter,
        raised=raised,
        mass=lift.log.mass_planning,
    ).angle
    if lift.taken.way == "drawn, one end up":
        angle = min(angle, STEEPEST_TRAIL)
    turn = max(angle, math.atan2(ends.raised - ends.rests, ends.length))
    way = (-ends.toward * math.cos(turn), math.sin(turn))
    up = (ends.toward * math.sin(turn), math.cos(turn))
    share = ends.hook / ends.length
    thick = ends.rests + share * (ends.raised - ends.rests)
    crown = _along(_along((0.0, 0.0), way, ends.hook), up, ends.rests + thick)
    start = _along((-crown[0], -height), up, ends.rests)
    return _from_ground(ends, start, way, up, thick=thick, drop=drop, angle=angle)


def _drawn(answer: Answer) -> LogAcross:
    """All of it on the ground, as far to the side as the sling lets it lie."""
    lift, ends = answer.lift, _ends(answer)
    height, drop = float(answer.reached.asked[2]), float(lift.point.drop or 0.0)
    share = ends.hook / ends.length
    thick = ends.rests + share * (ends.raised - ends.rests)
    down = height - drop - thick
    free = (answer.hang.to_top if answer.hang else drop) - drop
    short = free < abs(down)
    out = 0.6 * abs(down) if short else math.sqrt(free**2 - down**2)
    tilt = math.atan2(ends.raised - ends.rests, ends.length)
    way = (-ends.toward * math.cos(tilt), math.sin(tilt))
    start = _along((ends.toward * out, thick - height), way, -ends.hook)
    made = _from_ground(ends, start, way, (0.0, 0.0), thick=0.0, drop=drop, angle=0.0)
    return LogAcross(
        butt=made.butt,
        top=made.top,
        balance=made.balance,
        feet=made.feet,
        hook=made.hook,
        angle=0.0,
        grounded=True,
        short=short,
    )


def _from_ground(
    ends: _Ends, start: Spot, way: Spot, up: Spot, *, thick: float, drop: float, angle: float
) -> LogAcross:
    far = _along(start, way, ends.length)
    butt, top = (far, start) if ends.toward > 0 else (start, far)
    return LogAcross(
        butt=butt,
        top=top,
        balance=_along(start, way, ends.balance),
        feet=(_along(_along(start, way, ends.hook), up, thick),),
        hook=(0.0, -drop),
        angle=angle,
        grounded=True,
    )
