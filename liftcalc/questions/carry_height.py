"""At what height should this log be carried on the move, and what does higher or faster cost?"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from liftcalc.errors import InputError
from liftcalc.evaluation.check import reach
from liftcalc.evaluation.evaluator import Evaluator
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.sweep import sweep
from liftcalc.factors import TIPPING_SHARE
from liftcalc.machines.arm import Arm
from liftcalc.machines.lookup import BARE, bare
from liftcalc.questions.remedies import with_other_end
from liftcalc.questions.search import Detail, InverseAnswer, Outcome, last_before_failure, tried
from liftcalc.remarks import Figure, Remark, Words, down, near, up
from liftcalc.site.motion import Motion, speed_at_rollover, travel_resistance

CLEAR = 0.3
"""Room kept below a log that is carried [m]; common practice, no source."""
HIGHER = (0.5, 1.0, 1.5)
"""How much higher it is asked what that costs [m]."""
SIDE_SLOPE = math.radians(5)
"""Side slope that is asked of when none was said [rad]; common practice, no source."""
TURN = 4.0
"""Radius at the middle of the rear axle of a turn that was not said [m]: a tight one."""
FASTEST = 12.0
"""Fastest that is tried [m/s]."""
PER_METRE = 100
"""Heights, speeds and depths tried on a metre."""
LOWEST, HIGHEST = -1.0, 6.0
"""Heights of the lift point that are tried [m]."""


def carry_height(lift: Lift) -> InverseAnswer:
    """Lowest height at which a log on the move is clear of the ground and the lift passes.

    Parameters
    ----------
    lift : Lift
        At the front, or at the back: then the front end is asked, with what is fitted there, since
        only it carries a log on the move. Its own height does not matter.

    Returns
    -------
    InverseAnswer
        Height of the lift point [m], rounded up to a centimetre, at which the log, off its
        balance, is 0.3 m clear of the ground. The answer of ``check`` at heights above it, on the
        slope and in the turn that were said (or a side slope of 5° and a turn of 4 m) is told with
        it. None where no height that is clear passes.

    Raises
    ------
    InputError
        When the front end gets nowhere, or the log is not lifted whole.
    """
    moving = on_the_move(lift)
    heights, allowed, at_least = _heights(moving)
    answer = partial(InverseAnswer, question=Remark("carry"), kind="length", rounding="up")
    clear = heights >= at_least - 1e-9
    passing = clear & (allowed >= moving.needed) & (allowed > 0)
    if not passing.any():
        best = int(np.argmax(np.where(clear, allowed, -1.0)))
        outcome = tried(replace(moving, height=float(heights[best])))
        return answer(
            value=None,
            stopped_by=outcome.stopped_by,
            at=outcome,
            notes=(
                Remark(
                    "carried_nowhere", clear=up(CLEAR, "length"), at=near(heights[best], "length")
                ),
                *_said(lift, moving),
            ),
        )
    first = int(np.argmax(passing))
    low = replace(moving, height=float(heights[first]))
    at = tried(low)
    return answer(
        value=low.height,
        stopped_by=_lower(low, first == int(np.argmax(clear)), at_least),
        at=at,
        details=_details(at),
        notes=(*_costs(at), *_in_a_turn(at), *_pulls(at), *_said(lift, moving)),
    )


def on_the_move(lift: Lift) -> Lift:
    """The lift with the front end, travelling on its wheels.

    Raises ``InputError`` when the log is not lifted whole.
    """
    if lift.taken.way != "whole":
        raise InputError.of(
            field="lifted",
            given=f'"{lift.taken.way}"',
            wanted="a log that is lifted whole",
            fix="one that is drawn is not carried: leave lifted out",
        )
    front = lift
    if lift.end == "back":
        if lift.other_tool is bare("front"):
            raise InputError.of(
                field="other-attachment",
                given=f'"{BARE}"',
                wanted="what the front end is to carry the log with",
            )
        still = Motion(sinkage=lift.motion.sinkage, friction=lift.motion.friction)
        front = replace(with_other_end(lift, lift.other_tool.lift_point[0]), motion=still)
    site = replace(front.site, levelled=False)
    return replace(front, travelling=True, stance="wheels", reach=None, site=site)


def _heights(lift: Lift) -> tuple[np.ndarray, np.ndarray, float]:
    """Heights the front end gets to [m], what is allowed there [kg], and the least that is clear.

    The attachment keeps its tilt, so the log stays as far below the lift point at every height.
    """
    steps = np.arange(round(LOWEST * PER_METRE), round(HIGHEST * PER_METRE) + 1)
    heights = steps / PER_METRE
    allowed = sweep(lift, height=heights).allowed[:, 0]
    got_to = ~np.isnan(allowed)
    if not got_to.any():
        middle = tried(replace(lift, height=1.0))
        raise InputError(middle.faults)
    heights, allowed = heights[got_to], allowed[got_to]
    answer = tried(replace(lift, height=float(heights[heights.size // 2]))).answer
    assert answer is not None  # a sweep and the check take the same poses
    below = answer.lift.height - answer.lowest_tipped
    return heights, allowed, float(CLEAR + below)


def _lower(lift: Lift, clear_decides: bool, at_least: float) -> Words:
    if not clear_decides:
        return tried(replace(lift, height=lift.height - 1 / PER_METRE)).stopped_by
    if lift.height > at_least + 1 / PER_METRE:
        return Remark("arms_no_lower")
    return Remark("log_too_low", clear=up(CLEAR, "length"))


def _details(at: Outcome) -> tuple[Detail, ...]:
    assert at.answer is not None
    return (
        Detail(name=Remark("clear_there"), figure=down(at.answer.lowest_tipped, "length")),
        Detail(name=Remark("allowed_there"), figure=down(at.answer.allowed, "mass")),
        Detail(name=Remark("heaviest_there"), figure=down(at.answer.heaviest_log, "mass")),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Higher:
    """What the lift allows so much higher [m, kg], by all criteria and by tipping alone."""

    by: float
    allowed: float
    governs: str
    tipping: float


def tipping_allowed(lift: Lift, *, arm: Arm | None = None) -> float:
    """What tipping alone allows: the worst way to brake and turn, tank and place of the log [kg].

    ``check`` answers with the way and state that allow least of all; where tipping does not govern
    it may be worse in another. ``arm`` is the end that lifts, posed: motion and slope do not move
    the machine's parts.
    """
    posed = reach(lift).arm if arm is None else arm
    # numpy's, since what is not a number must not vanish.
    return float(np.min([Evaluator(way).least(posed, kinds={"tipping"}).load for way in lift.ways]))


def costs_of_height(lift: Lift) -> tuple[Higher, ...]:
    """What is allowed at a lift's height and at every step above it that the arms get to."""
    found = []
    for by in (0.0, *HIGHER):
        higher = replace(lift, height=lift.height + by)
        answer = tried(higher).answer
        if answer is not None:
            found.append(
                Higher(
                    by=by,
                    allowed=answer.allowed,
                    governs=answer.governs,
                    tipping=tipping_allowed(higher),
                )
            )
    return tuple(found)


def across(lift: Lift) -> tuple[Lift, Remark]:
    """The lift on the slope that was said, or across one of 5° the worse way; and which it is."""
    if lift.site.slope:
        return lift, Remark("on_slope_said")
    sides = [
        replace(lift, site=replace(lift.site, slope=SIDE_SLOPE, heading=side * math.pi / 2))
        for side in (1, -1)
    ]
    worse = min(sides, key=lambda each: (tried(each).margin, tipping_allowed(each)))
    return worse, Remark("across_slope", slope=near(SIDE_SLOPE, "slope"))


def _costs(at: Outcome) -> tuple[Remark, ...]:
    """What higher costs, on the level and on the slope."""
    level = replace(at.lift, site=replace(at.lift.site, slope=0.0))
    sloped, where = across(at.lift)
    flat, steep = costs_of_height(level), costs_of_height(sloped)
    return (
        _cost(Remark("on_level"), flat),
        _cost(where, steep),
        Remark(
            "slope_costs",
            loss=_loss(flat[0].allowed - steep[0].allowed),
            tipping=_loss(flat[0].tipping - steep[0].tipping),
        ),
    )


def _cost(where: Remark, found: tuple[Higher, ...]) -> Remark:
    base, higher = found[0], found[1:]
    allowed, by = down(max(0.0, base.allowed), "mass"), base.governs
    here = Remark("allowed_here" if base.allowed > 0 else "nothing_here", allowed=allowed)
    each = tuple(
        Remark(
            "higher_costs",
            higher=near(one.by, "length"),
            loss=_loss(base.allowed - one.allowed),
            tipping=_loss(base.tipping - one.tipping),
        )
        for one in higher
    )
    costs = each or Remark("arms_no_higher")
    return Remark("cost_of_height", where=where, here=here, by=by, higher=costs)


def _loss(value: float) -> Figure:
    """A loss, rounded up; nothing where it is none."""
    return up(max(0.0, value - 1e-6), "mass")


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnSpeeds:
    """Speeds in a turn of a radius [m/s, m].

    ``planned`` keeps the share of the tipping load that the criteria allow, to a centimetre a
    second; ``beyond`` is the next, at which it does not, None where the fastest tried keeps it.
    ``rollover`` is where the rigid machine and its log reach the edge itself.
    """

    radius: float
    planned: float | None
    beyond: float | None
    rollover: float


def turn_speeds(lift: Lift) -> TurnSpeeds:
    """How fast a lift on the move may go round its turn.

    Parameters
    ----------
    lift : Lift
        On the move; its own speed does not matter. Without a turn a radius of 4 m is taken.

    Returns
    -------
    TurnSpeeds
        By ``tipping_allowed``: the turn to either side, rear axle and load thrown out and forward.
        The edge itself by acceleration to the side alone, at 0.7 of the rigid machine's; both
        rounded down.
        ``planned`` is None where not even standing keeps the share.
    """
    radius, arm = lift.motion.turn_radius or TURN, reach(lift).arm

    def keeps(step: int) -> bool:
        motion = replace(lift.motion, speed=step / PER_METRE, turn_radius=radius)
        return tipping_allowed(replace(lift, motion=motion), arm=arm) >= lift.needed

    most = round(FASTEST * PER_METRE)
    step = last_before_failure(keeps, most=most, stride=PER_METRE)
    edge = speed_at_rollover(acceleration_limit=side_acceleration(lift), turn_radius=radius)
    return TurnSpeeds(
        radius=radius,
        planned=None if step < 0 else step / PER_METRE,
        beyond=None if step == most else (step + 1) / PER_METRE,
        rollover=math.floor(PER_METRE * edge) / PER_METRE,
    )


def side_acceleration(lift: Lift) -> float:
    """Least acceleration to either side at which the machine with its load tips [m/s²].

    By the tipping loads themselves, rounded down to 0.01; 10
    where it does not below that. None of braking is in it.
    """
    share, arm = TIPPING_SHARE[lift.duty].value, reach(lift).arm

    still = replace(lift, motion=replace(lift.motion, speed=0.0, braking=0.0))

    def stands(step: int) -> bool:
        pulled = (replace(lift.site, acceleration_left=side * step / PER_METRE) for side in (1, -1))
        allowed = (tipping_allowed(replace(still, site=site), arm=arm) for site in pulled)
        return all(each >= share * lift.needed for each in allowed)

    return max(last_before_failure(stands, most=10 * PER_METRE, stride=50), 0) / PER_METRE


def _in_a_turn(at: Outcome) -> tuple[Remark, ...]:
    speeds = turn_speeds(at.lift)
    turn = Remark(
        "turn_said" if at.lift.motion.turn_radius else "turn_taken",
        radius=near(speeds.radius, "length"),
    )
    kept = (
        Remark("tips_even_standing")
        if speeds.planned is None
        else Remark("keeps_share", speed=down(speeds.planned, "speed"))
    )
    return (Remark("in_a_turn", turn=turn, kept=kept, edge=down(speeds.rollover, "speed")),)


def deepest_ruts(lift: Lift) -> float | None:
    """How deep the tyres may sink before the machine no longer pulls itself out [m].

    By the traction of ``check``, to a centimetre, at most 1 m; None where it does not on top.
    """

    needed = lift.needed * lift.load_factor("traction").value

    def pulls(step: int) -> bool:
        sunk = replace(lift, motion=replace(lift.motion, sinkage=step / PER_METRE))
        pulled = (each for way in sunk.ways for each in reach(way).linear)
        return all(each.capacity >= needed for each in pulled if each.criterion.kind == "traction")

    step = last_before_failure(pulls, most=PER_METRE, stride=10)
    return None if step < 0 else step / PER_METRE


def _pulls(at: Outcome) -> tuple[Remark, ...]:
    lift = at.lift
    assert at.answer is not None
    mass = max(each.mass for each in at.answer.reached.wholes) + lift.needed
    sinks = lift.motion.sinkage or 0.0
    force = float(
        travel_resistance(sinkage=sinks, grade=math.tan(float(lift.site.slope)), mass=mass)
    )
    depth = deepest_ruts(lift)
    ground = lift.ground.name if lift.ground else "unknown ground"
    rutted = Remark("tyres_deep", deep=near(sinks, "length")) if sinks else Remark("no_tyre_sinks")
    out = Remark("stuck") if depth is None else Remark("pulls_out", depth=down(depth, "length"))
    return (
        Remark("resistance", rutted=rutted, force=up(force, "force")),
        Remark("pulls", out=out, friction=lift.friction, ground=ground),
    )


def _said(lift: Lift, moving: Lift) -> tuple[Remark, ...]:
    said = []
    if lift.end == "back":
        said.append(Remark("front_carries", tool=moving.tool.name, point=moving.point.name))
    if moving.point.hold == "hangs":
        said.append(Remark("swings_on_move"))
    return tuple(said)
