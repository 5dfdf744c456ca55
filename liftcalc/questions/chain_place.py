"""Where to put the chain, how the log then hangs, and what one end of it would pull."""

from __future__ import annotations

import math
from dataclasses import replace

from liftcalc.errors import Fault, InputError
from liftcalc.evaluation.lift import Lift
from liftcalc.questions.search import Detail, InverseAnswer, tried
from liftcalc.rigging.lift_mode import LiftMode, LogEnd
from liftcalc.rigging.sling import BALANCE_MISS, LevelWindow, hang, level_window, two_point_shares
from liftcalc.timber.measure import NO_EXTRAS


def chain_place(lift: Lift) -> InverseAnswer:
    """Where along the log its sling, or the middle between two legs, belongs.

    Parameters
    ----------
    lift : Lift
        With a log that hangs in a sling; whether the machine can take the pose does not matter.

    Returns
    -------
    Turned
        Balance point from the butt [m]. Its doubt, how far off it the log still hangs within 5°
        (understated), and what hangs on each of two legs and on one end of the log alone
        (overstated) are told with it.

    Raises
    ------
    InputError
        When the log is not slung: a jaw, a grab or a floor holds it. When the sling cannot go
        round it or its legs cannot spread so far.
    """
    if not lift.slung:
        raise InputError(_held_fast(lift))
    balance, length = lift.log.cog_from_butt, lift.measure.length
    window = _window(lift)
    legs = lift.sling.way == "two legs" and lift.sling.spread > 0
    return InverseAnswer(
        question="balance point of the log, from the butt: the "
        + ("middle between the legs" if legs else "chain")
        + " belongs there",
        value=round(balance, 2),
        kind="length",
        rounding="near",
        stopped_by="the log itself: it hangs with its balance point under the hook",
        at=tried(lift),
        details=(
            Detail(
                name="how far off it may be, as usual",
                value=BALANCE_MISS * length,
                kind="length",
                rounding="up",
            ),
            Detail(name="hangs within 5° from", value=window.start, kind="length", rounding="up"),
            Detail(name="hangs within 5° to", value=window.end, kind="length", rounding="down"),
            Detail(
                name="it hangs off the level by up to",
                value=_angle(lift),
                kind="angle",
                rounding="up",
            ),
            *(_legs(lift) if legs else ()),
            *_one_end(lift),
        ),
        notes=_notes(lift, window),
    )


def _held_fast(lift: Lift) -> Fault:
    return Fault(
        field="lift-point",
        given=f"{lift.point.name}, which holds the log itself",
        wanted="a hook or eye that a chain or sling hangs from",
        fix="with a jaw, grab or fork take the log at its balance point: ask with a hook "
        "to see where that is",
    )


def _window(lift: Lift) -> LevelWindow:
    """Within 5°; a thin log turns the most in one sling, a thick one in two legs."""
    log = lift.log
    thick = lift.sling.way == "two legs"
    return level_window(
        lift.sling,
        log_length=lift.measure.length,
        balance=log.cog_from_butt,
        diameter=log.largest_diameter if thick else log.least_diameter,
    )


def _angle(lift: Lift) -> float:
    """Of the log as it is slung, at the thinnest or thickest, whichever turns it more [rad]."""
    log = lift.log
    return max(
        hang(
            lift.sling,
            drop=float(lift.point.drop or 0.0),
            log_length=lift.measure.length,
            balance=log.cog_from_butt,
            diameter=diameter,
            least_diameter=log.least_diameter,
        ).angle
        for diameter in (log.least_diameter, log.largest_diameter)
    )


def _legs(lift: Lift) -> tuple[Detail, ...]:
    """The places of two legs, and what each holds where the middle is off by its doubt."""
    log, sling, length = lift.log, lift.sling, lift.measure.length
    middle = log.cog_from_butt if sling.at is None else sling.at
    one, two = middle - sling.spread / 2, middle + sling.spread / 2
    miss = BALANCE_MISS * length if sling.at is None else 0.0

    def share(balance: float, leg: str) -> float:
        held = two_point_shares(
            mass=log.mass_planning, balance=min(max(balance, one), two), at_one=one, at_two=two
        ).steps
        return float(held.mass_on_one if leg == "one" else held.mass_on_two)

    return (
        Detail(name="leg nearer the butt, from the butt", value=one, kind="length"),
        Detail(name="leg nearer the top, from the butt", value=two, kind="length"),
        Detail(
            name="at most on the leg nearer the butt",
            value=share(log.cog_from_butt - miss, "one"),
            kind="mass",
            rounding="up",
        ),
        Detail(
            name="at most on the leg nearer the top",
            value=share(log.cog_from_butt + miss, "two"),
            kind="mass",
            rounding="up",
        ),
    )


def _one_end(lift: Lift) -> tuple[Detail, ...]:
    """What the hook would hold with only one end raised, the other resting."""
    ends: tuple[tuple[LogEnd, LogEnd], ...] = (("top", "butt"), ("butt", "top"))
    return tuple(
        Detail(
            name=f"on the hook with only the {raised} end raised",
            value=lift.log.mass_planning
            * replace(
                lift,
                taken=LiftMode(way="one end", ground_end=resting, breakout=lift.taken.breakout),
            ).pull.share,
            kind="mass",
            rounding="up",
        )
        for raised, resting in ends
    )


def _notes(lift: Lift, window: LevelWindow) -> tuple[str, ...]:
    said = []
    way = lift.sling.way
    if way == "basket":
        said.append(
            "A basket holds the log from beneath, so nothing brings it level: it slides through or "
            "tips at the least miss. Choke it, or use two legs."
        )
    elif not window.usual:
        said.append(
            f"That window is {math.floor(200 * window.miss + 1e-9)} cm wide, narrower than a "
            "balance point from a tape is sure: raise the log a hand's breadth, watch which end "
            "stays down, set it down and move the chain toward that end."
        )
    if lift.sling.at is not None:
        off = lift.sling.at - lift.log.cog_from_butt
        inside = window.start <= lift.sling.at <= window.end
        said.append(
            f"Slung at {lift.sling.at:.2f} m it is {abs(off):.2f} m off toward the "
            f"{'top' if off > 0 else 'butt'}: {'within' if inside else 'outside'} the window. "
            + ("" if inside else f"The {'butt' if off > 0 else 'top'} end hangs low.")
        )
    if lift.measure.extras != NO_EXTRAS:
        said.append(
            "Roots, limbs or what else it carries are estimated: the balance point is less sure "
            "than said."
        )
    said.append(
        "One end alone: the other stays on the ground and the log turns on it. Nobody beside it."
    )
    return tuple(each.strip() for each in said)
