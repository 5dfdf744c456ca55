"""Where to put the chain, how the log then hangs, and what one end of it would pull."""

from __future__ import annotations

from dataclasses import replace

from liftcalc.errors import Fault, InputError
from liftcalc.evaluation.lift import Lift
from liftcalc.questions.search import Detail, InverseAnswer, tried
from liftcalc.remarks import Remark, down, near, up
from liftcalc.rigging.lift_mode import LiftMode, LogEnd
from liftcalc.rigging.sling import (
    BALANCE_MISS,
    LEVEL_ENOUGH,
    LevelWindow,
    hang,
    level_window,
    two_point_shares,
)
from liftcalc.timber.measure import NO_EXTRAS


def chain_place(lift: Lift) -> InverseAnswer:
    """Where along the log its sling, or the middle between two legs, belongs.

    Parameters
    ----------
    lift : Lift
        With a log that hangs in a sling; whether the machine can take the pose does not matter.

    Returns
    -------
    InverseAnswer
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
    window, level = _window(lift), near(LEVEL_ENOUGH, "angle")
    legs = lift.sling.way == "two legs" and lift.sling.spread > 0
    return InverseAnswer(
        question=Remark("balance", what=Remark("middle_of_legs" if legs else "the_chain")),
        value=round(balance, 2),
        kind="length",
        rounding="near",
        stopped_by=Remark("hangs_itself"),
        at=tried(lift),
        details=(
            Detail(name=Remark("usual_miss"), figure=up(BALANCE_MISS * length, "length")),
            Detail(name=Remark("level_from", level=level), figure=up(window.start, "length")),
            Detail(name=Remark("level_to", level=level), figure=down(window.end, "length")),
            Detail(name=Remark("off_level"), figure=up(_angle(lift), "angle")),
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
        Detail(name=Remark("leg_at", end="butt"), figure=near(one, "length")),
        Detail(name=Remark("leg_at", end="top"), figure=near(two, "length")),
        Detail(
            name=Remark("most_on_leg", end="butt"),
            figure=up(share(log.cog_from_butt - miss, "one"), "mass"),
        ),
        Detail(
            name=Remark("most_on_leg", end="top"),
            figure=up(share(log.cog_from_butt + miss, "two"), "mass"),
        ),
    )


def _one_end(lift: Lift) -> tuple[Detail, ...]:
    """What the hook would hold with only one end raised, the other resting."""
    ends: tuple[tuple[LogEnd, LogEnd], ...] = (("top", "butt"), ("butt", "top"))
    made = []
    for raised, resting in ends:
        taken = LiftMode(way="one end", ground_end=resting, breakout=lift.taken.breakout)
        load = lift.log.mass_planning * replace(lift, taken=taken).pull.share
        made.append(Detail(name=Remark("one_end_load", end=raised), figure=up(load, "mass")))
    return tuple(made)


def _notes(lift: Lift, window: LevelWindow) -> tuple[Remark, ...]:
    said = []
    if lift.sling.way == "basket":
        said.append(Remark("basket_tips"))
    elif not window.usual:
        said.append(Remark("narrow_window", wide=down(2 * window.miss, "diameter")))
    if lift.sling.at is not None:
        off = lift.sling.at - lift.log.cog_from_butt
        toward, low = ("top", "butt") if off > 0 else ("butt", "top")
        inside = window.start <= lift.sling.at <= window.end
        said.append(
            Remark(
                "slung",
                at=near(lift.sling.at, "length"),
                off=near(abs(off), "length"),
                toward=toward,
                window=Remark("inside_window") if inside else Remark("outside_window", low=low),
            )
        )
    if lift.measure.extras != NO_EXTRAS:
        said.append(Remark("extras_guessed"))
    return (*said, Remark("one_end_alone"))
