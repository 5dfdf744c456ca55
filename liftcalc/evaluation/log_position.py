"""How far below and beyond the lift point the log comes, however it is held."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.machines.assembly import back_point
from liftcalc.machines.number import plain
from liftcalc.physics.functions import Real, maximum, minimum
from liftcalc.physics.plane import Point
from liftcalc.physics.wrench import Vector
from liftcalc.rigging.lift_mode import hook_from_ground_end
from liftcalc.rigging.sling import BEST_BALANCE, Hang, balance_miss, hang


@dataclass(frozen=True, slots=True, kw_only=True)
class LogPosition:
    """Where a log reaches from the point it is held at [m].

    ``level`` and ``tipped`` are how far below that point its lowest part is, hanging level and off
    its balance; ``middle`` how far below it its middle is, none for a load held fast; ``far_end``
    how far its farther end stands out; ``top`` how far below it the log's top is. ``hang`` is how
    it hangs in a sling, where it does.
    """

    level: float
    tipped: float
    middle: float
    far_end: float
    top: float = 0.0
    hang: Hang | None = None


def log_position(lift: Lift) -> LogPosition:
    """Where the log reaches from its lift point, or from where it lies when it is held fast.

    Overstates: see ``hang``; a grab leans until the balance point, missed by a share of the log's
    length, is under its pin. One end of a log that is not lifted whole stays on the ground.
    """
    length, balance, diameter = (
        lift.measure.length,
        lift.log.cog_from_butt,
        lift.log.largest_diameter,
    )
    sling = lift.sling
    if lift.at_balance:
        at = balance if sling.at is None else sling.at
        sling = replace(sling, at=at, least_miss=BEST_BALANCE)
    at = balance if sling.at is None else sling.at
    if lift.taken.way != "whole":
        # Hooked near one end, nearly all of it lies beyond the hook.
        at = hook_from_ground_end(lift.taken, log_length=length)
    far = max(balance, length - balance, at, length - at)
    if lift.point.hold != "hangs":
        half = diameter / 2
        return LogPosition(level=half, tipped=half, middle=0.0, far_end=far + lift.side_room)
    drop = float(lift.point.drop or 0.0)
    if lift.tool.mount == "hangs":
        miss = balance_miss(sling, log_length=length, balance=balance)
        lean = math.atan2(miss, drop + diameter / 2)
        low = drop + diameter
        return LogPosition(
            level=low,
            tipped=low + math.sin(lean) * far,
            middle=drop + diameter / 2,
            far_end=far,
            top=drop,
        )
    hung = hang(
        sling,
        drop=drop,
        log_length=length,
        balance=balance,
        diameter=diameter,
        # numpy's, so that what is not a number stays so.
        least_diameter=float(
            np.min([lift.log.butt_diameter, lift.log.middle_diameter, lift.log.top_diameter])
        ),
    )
    return LogPosition(
        level=hung.lowest_level,
        tipped=hung.lowest_tipped,
        middle=hung.to_top + diameter / 2,
        far_end=far,
        top=hung.to_top,
        hang=hung,
    )


def raised(lift: Lift, log: LogPosition, *, height: Real) -> tuple[Real, float]:
    """How high the hooked end of a log may be above the other, and how far along the log that is.

    With the lift point at a height; both in [m]. The sling as short as it can be and a log of no
    thickness raise it most: a thicker log must never do better.
    """
    hook = hook_from_ground_end(lift.taken, log_length=lift.measure.length)
    thin = lift.log.least_diameter
    wrapped = math.pi * (lift.log.largest_diameter - thin) if lift.slung else 0.0
    return maximum(height - max(log.top - wrapped, 0.0), 0.0), hook


def lowest(lift: Lift, log: LogPosition, *, asked: Real, load_at: Point) -> tuple[Real, Real]:
    """Height of the log's lowest point above the ground, level and off its balance [m].

    ``asked`` is the height of the lift point and ``load_at`` where a load held fast lies.
    """
    if lift.taken.way != "whole":
        return 0.0 * asked, 0.0 * asked
    held = asked if lift.point.hold == "hangs" else load_at.w
    return held - log.level, held - log.tipped


def room_to_machine(lift: Lift, *, reach: Real, slew: Real | None = None) -> tuple[Real, Real]:
    """How far a log held so far out stays from the machine itself, turned and lying across [m].

    Judgement, no source. The machine is its pads and rear tyres seen from above, at the front its
    front tyres, taken as one body to the far end; and the boom's foot. Turned, a hung log may lie
    any way about its hook; across, it lies square to the end that lifts it. Below zero it meets the
    machine. A swing is not in it.
    """
    machine, wheels, legs = lift.machine, lift.machine.wheels, lift.machine.stabilisers
    log, radius = log_position(lift), lift.log.largest_diameter / 2
    if lift.end == "front":
        ahead = reach - plain(wheels.front_radius)
        across = ahead - radius
        return (ahead - log.far_end if lift.point.hold == "hangs" else across), across
    # A tyre is no wider than its radius.
    pads = plain(legs.pad_spread) + plain(legs.pad_width)
    half = maximum(pads, plain(wheels.rear_track) + plain(wheels.rear_radius)) / 2
    rear = minimum(plain(legs.x) - plain(legs.pad_length) / 2, -plain(wheels.rear_radius))
    turned = lift.slew if slew is None else slew
    x, y, _ = back_point(machine, Point(reach, 0.0), slew=turned, sideshift=lift.sideshift)
    foot = reach - plain(machine.back.foot_pin[0])
    hook, across = (
        _off_the_body(x, y, turned, rear=rear, half=half, far=far) for far in (0.0, log.far_end)
    )
    return minimum(hook, foot) - log.far_end, minimum(across, foot) - radius


def _off_the_body(x: Real, y: Real, slew: Real, *, rear: Real, half: Real, far: float) -> Real:
    """How far a log across, so long to both sides of the hook, stays from the body [m].

    The nearest point of a line to the body is at one of its ends, where it comes level with a side
    of the body, or square before one of its corners: exact.
    """
    along_x, along_y = np.sin(slew), np.cos(slew)
    least: Real = np.inf
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        places = [-far, far, (rear - x) / along_x]
        for side in (-half, half):
            places += [(side - y) / along_y, (rear - x) * along_x + (side - y) * along_y]
        for place in places:
            at = np.clip(np.nan_to_num(place), -far, far)
            at_x, at_y = x + at * along_x, y + at * along_y
            off = np.hypot(np.maximum(rear - at_x, 0.0), np.maximum(np.abs(at_y) - half, 0.0))
            least = np.minimum(least, off)
    return least


def ground_rise(lift: Lift, log: LogPosition, *, x: Real, y: Real) -> Real:
    """How much higher the ground may be under the log than heights are counted from [m].

    Below the hook at ``x``, ``y`` [m] of a levelled machine, and under the uphill end of a log
    that hangs level.
    """
    site = lift.site
    level = site.levelled or lift.point.hold == "hangs"
    end = log.far_end * np.tan(site.slope) if level and lift.taken.way == "whole" else 0.0
    return np.maximum(0.0, site.rise(x=x, y=y)) + end if site.levelled else end


def ground_clearance(lift: Lift, log: LogPosition, *, asked: Vector, load_at: Point) -> Real:
    """How far a log's lowest point is above the ground under it [m]; negative: in it.

    Of a log that is lifted whole, hanging level or off its balance, whichever is lower, where what
    makes a lift impossible is asked at all; else of a level one. ``asked`` is the lift point in the
    machine frame [m]; see `lowest`. Zero, and so not in the ground, for a log of which one end is
    meant to stay there.
    """
    level, tipped = lowest(lift, log, asked=asked[2], load_at=load_at)
    if lift.taken.way != "whole":
        return level
    low = level if lift.loads_only else minimum(level, tipped)
    return low - ground_rise(lift, log, x=asked[0], y=asked[1])
