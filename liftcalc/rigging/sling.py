"""Where the log's lowest point hangs below the lift point."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, get_args

from liftcalc.errors import Fault, InputError

SlingWay = Literal["choked", "single", "basket", "two legs"]
SLING_WAYS: tuple[SlingWay, ...] = get_args(SlingWay)

BALANCE_MISS = 0.02
"""Share of the log's length by which the sling is taken to miss the balance point [-].

Common practice, no source: a balance point taken from a tape is seldom nearer.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sling:
    """How a log hangs: way, length of the sling or of each leg [m], spread of two legs [m].

    ``at`` is where along the log the sling holds, from the butt [m]; None is the balance point,
    then taken to be missed by ``BALANCE_MISS`` of the length. ``mass`` is all that hangs between
    lift point and log [kg].
    """

    way: SlingWay = "choked"
    length: float = 2.0
    spread: float = 0.0
    at: float | None = None
    mass: float = 15.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Hang:
    """How the log hangs: top of the log, lowest point level and tipped [m below], angle [rad]."""

    to_top: float
    lowest_level: float
    lowest_tipped: float
    angle: float


def hang(
    sling: Sling,
    *,
    drop: float,
    log_length: float,
    balance: float,
    diameter: float,
    least_diameter: float,
) -> Hang:
    """How far below the lift point a slung log reaches.

    Parameters
    ----------
    sling : Sling
    drop : float
        From the lift point down to where the sling hangs [m].
    log_length, balance, diameter, least_diameter : float
        Length, balance point from the butt, largest and smallest diameter of the log [m].

    Returns
    -------
    Hang
        Drops are upper bounds: a choke takes at least once round the thinnest part of the log out
        of the sling, a basket hangs at most half its length. Overstates how low the log hangs. A
        log held at one point tips until its balance point is under it: tan(angle) = miss / radius,
        for a sling that leaves the top of the log.

    Raises
    ------
    InputError
        When the sling cannot go round the log, or its legs cannot spread so far.
    """
    radius = diameter / 2
    if sling.way == "basket":
        return Hang(
            to_top=drop + max(sling.length / 2 - diameter, 0.0),
            lowest_level=drop + sling.length / 2,
            lowest_tipped=drop + sling.length / 2 + math.tan(math.radians(5)) * log_length / 2,
            angle=math.radians(5),
        )
    goes_round = sling.way in ("choked", "two legs")
    free = sling.length - (math.pi * least_diameter if goes_round else 0.0)
    if goes_round and sling.length <= math.pi * diameter:
        raise InputError(
            Fault(
                field="sling length",
                given=f"{sling.length:.2f} m",
                wanted=f"more than once round the log, {math.pi * diameter:.2f} m",
                fix="use a longer sling",
            )
        )
    if sling.way == "two legs":
        half_room = min(balance, log_length - balance)
        return _two_legs(sling, free, drop, half_room=half_room, log=(log_length, diameter))
    at = balance if sling.at is None else sling.at
    miss = BALANCE_MISS * log_length if sling.at is None else abs(at - balance)
    angle = math.atan2(miss, radius)
    far = max(at, log_length - at)
    top = drop + free
    return Hang(
        to_top=top,
        lowest_level=top + diameter,
        lowest_tipped=top + far * math.sin(angle) + diameter * math.cos(angle),
        angle=angle,
    )


def _two_legs(
    sling: Sling, free: float, drop: float, *, half_room: float, log: tuple[float, float]
) -> Hang:
    """Two legs, spread evenly about the balance point; the log stays as level as they are even."""
    half = sling.spread / 2
    log_length, diameter = log
    if half >= free or half > half_room:
        raise InputError(
            Fault(
                field="leg spread",
                given=f"{sling.spread:.2f} m",
                wanted=f"less than {2 * min(free, half_room):.2f} m",
                fix="bring the legs nearer together or use longer ones",
            )
        )
    top = drop + math.sqrt(free**2 - half**2)
    angle = math.atan2(BALANCE_MISS * log_length, top - drop + diameter / 2)
    far = log_length - half_room
    return Hang(
        to_top=top,
        lowest_level=top + diameter,
        lowest_tipped=top + far * math.sin(angle) + diameter,
        angle=angle,
    )
