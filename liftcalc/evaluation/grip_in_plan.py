"""Grip against turning: a pull to the side turns a machine in plan, and friction must hold that.

Contact forces are written down that hold it, so that what is allowed is never more than friction
could hold; they need not be the best ones, so it may be less. The front end holds only to the side,
by its friction: its wheels roll. The back pair holds the rest, to the side in proportion to what
presses on each, and a couple along the machine. Of their friction a fixed part is kept for forces
along the machine and a part for those across, which together a pad can hold.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import product

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.linear_criteria import LinearCriterion
from liftcalc.machines.assembly import FixedPart
from liftcalc.physics.functions import Real
from liftcalc.physics.reactions import Bound
from liftcalc.physics.wrench import WrenchFunctional

ALONG, ACROSS = math.cos(math.radians(60)), math.sin(math.radians(60))
"""Parts of the back pair's friction kept for forces along and across the machine [-].

A choice: their squares add up to one, so that every choice is safe.
"""
SIGNS = (-1.0, 1.0)


def grip_in_plan(lift: Lift, fixed: FixedPart) -> Iterator[LinearCriterion]:
    """The criterion of a log that is drawn over the ground; none for one that hangs.

    Exact in its statics; understates what friction can hold, since one way of holding is tried.
    """
    if not lift.moved.skidded:
        return
    pairs = sorted(
        (
            (float_of(line.start.x), line, moment)
            for line, moment in zip(fixed.lines, fixed.moments, strict=True)
            if line.of_a_pair
        ),
        key=lambda each: each[0],
    )
    (_, back, over_back), (_, front, over_front) = pairs[0], pairs[-1]
    apart = front.start.x - back.start.x
    on_front, on_back = (
        _force(moment, x=x)
        for moment, x in ((over_back, front.start.x), (over_front, back.start.x))
    )
    friction = lift.friction
    spread = abs(back.start.y - back.end.y)
    # About the middle of the back pair.
    turning = WrenchFunctional(force=(0.0, -back.start.x, 0.0), moment=(0.0, 0.0, 1.0))
    forward, left = (WrenchFunctional(force=each) for each in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)))
    # Nobody brakes the rear wheels of a machine that draws on the move: they hold no couple.
    along = 0.0 if lift.travelling else ALONG
    across = 1.0 if lift.travelling else ACROSS
    numbers = []
    for side, ahead in product(SIGNS, SIGNS):
        asked = WrenchFunctional().plus(turning, -side).plus(forward, -ahead * spread / 2)
        held = asked.plus(on_front, friction * apart)
        if not along:
            numbers.append(_over(held, apart))
            continue
        # What holds the couple comes on top of what pulls along the machine.
        held = held.plus(forward, -ahead * spread)
        for least in _least_on_one(fixed, on_back, push=friction * along):
            numbers.append(_over(held.plus(least, spread * friction * along), apart))
    for side, about in product(SIGNS, SIGNS):
        aside = WrenchFunctional().plus(left, -side).plus(turning, -about / apart)
        numbers.append(aside.plus(on_back, friction * across))
    if along:
        numbers += [
            WrenchFunctional().plus(forward, -ahead).plus(on_back, friction * along)
            for ahead in SIGNS
        ]
    where = "(wheels)" if lift.stance == "wheels" else "(pads and front end)"
    ways = tuple(((number, 0.0),) for number in numbers)
    yield LinearCriterion("grip", "grip against turning", where, ways)


def _over(moment: WrenchFunctional, lever: Real) -> WrenchFunctional:
    """A moment in plan as a force at the other pair of supports [N]."""
    return WrenchFunctional().plus(moment, 1.0 / lever)


def float_of(value: Real) -> float:
    """A place to sort by; of sampled machines the first."""
    return float(value if isinstance(value, float | int) else value.flat[0])


def _force(moment: WrenchFunctional, *, x: Real) -> WrenchFunctional:
    """What presses on the supports at x, from the moment about the line of the other pair [N]."""
    lever = moment.unit(x=x, y=0.0, z=0.0, gravity=(0.0, 0.0, -1.0))
    return WrenchFunctional().plus(moment, 1.0 / lever)


def _least_on_one(
    fixed: FixedPart, on_back: WrenchFunctional, *, push: Real
) -> Iterator[WrenchFunctional]:
    """The least that may press on either back support: what is not on the other.

    The other's force is bounded about every line to a side. Where an axle oscillates, what its
    ground pushes along the machine changes that bound, up to ``push`` times what presses there.
    """
    for support, ways in zip(fixed.supports, fixed.bounds, strict=True):
        if support.kind not in ("pad", "rear tyre"):
            continue
        for way in ways:
            bound = _to_a_side(way)
            start, end = bound.line.start, bound.line.end
            tilted = abs(end.z - start.z) / abs(end.x - start.x)
            yield WrenchFunctional().plus(on_back, 1.0 - push * tilted).plus(bound.relief, 1.0)


def _to_a_side(way: tuple[Bound, ...]) -> Bound:
    """The bound about a line from the other back support forward."""
    return next(each for each in way if not each.line.of_a_pair)
