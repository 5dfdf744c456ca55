"""How a log hangs in its sling: how low, at what angle, and what each of two carries."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, get_args

from liftcalc.errors import Fault, InputError, raise_any
from liftcalc.physics import formulas
from liftcalc.physics.worked import Worked, work
from liftcalc.remarks import Phrase, down, near, up

SlingWay = Literal["choked", "single", "basket", "two legs"]
SLING_WAYS: tuple[SlingWay, ...] = get_args(SlingWay)

BALANCE_MISS = 0.02
"""Share of the log's length by which the sling is taken to miss the balance point [-].

Common practice, no source: a balance point taken from a tape is seldom nearer.
"""

BEST_BALANCE = 0.005
"""The same where somebody took pains to find it [-]; common practice, no source."""


LEVEL_ENOUGH = math.radians(5)
"""Angle within which a hanging log is called level [rad]; common practice, no source."""


def sound(
    field: str,
    value: float,
    *,
    unit: str,
    above: float | None = None,
    least: float | None = None,
    below: float = math.inf,
) -> list[Fault]:
    """A fault where a value is no number or not ``above``, at ``least`` and ``below`` its bounds.

    Nothing that is not a number is ever sound.
    """
    over = value > above if above is not None else value >= (-math.inf if least is None else least)
    if math.isfinite(value) and over and value < below:
        return []
    unit = "" if unit == "-" else f" {unit}"
    wanted = f"above {above:g}{unit}" if above is not None else f"at least {least:g}{unit}"
    if below < math.inf:
        wanted += f" and below {below:g}{unit}"
    return [Fault(field=field, given=f"{value:g}{unit}", wanted=wanted)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sling:
    """How a log hangs: way, length of the sling or of each leg [m], spread of two legs [m].

    ``at`` is where along the log the sling holds, from the butt, or the middle between two legs
    [m]; None is the balance point, then taken to be missed by ``BALANCE_MISS`` of the length.
    ``least_miss`` is the least by which that misses the balance point, which is only reckoned, in
    parts of the length [-]. ``mass`` is all that hangs between lift point and log [kg].
    ``InputError`` for a length that is no number above zero, and for a spread, place or mass that
    is none or below zero.
    """

    way: SlingWay = "choked"
    length: float = 2.0
    spread: float = 0.0
    at: float | None = None
    mass: float = 15.0
    least_miss: float = 0.0

    def __post_init__(self) -> None:
        """Check that every figure is one."""
        faults = [
            *sound("sling-length", self.length, unit="m", above=0.0),
            *sound("leg-spread", self.spread, unit="m", least=0.0),
            *sound("slung-at", 0.0 if self.at is None else self.at, unit="m", least=0.0),
            *sound("rigging-mass", self.mass, unit="kg", least=0.0),
        ]
        raise_any(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hang:
    """How the log hangs: top of the log, lowest point level and tipped [m below], angle [rad].

    ``worked`` is the working of the angle; a basket's is not computed.
    """

    to_top: float
    lowest_level: float
    lowest_tipped: float
    angle: float
    worked: Worked | None = None


def balance_miss(sling: Sling, *, log_length: float, balance: float) -> float:
    """How far the balance point lies from the sling, or from the middle between two legs [m].

    ``BALANCE_MISS`` of the length where it was not said: overstates for a balance point that was
    tried out.
    """
    if sling.at is None:
        return BALANCE_MISS * log_length
    return max(sling.least_miss * log_length, abs(sling.at - balance))


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
        for a sling that leaves the top of the log; with the least radius it has, which overstates.

    Raises
    ------
    InputError
        When the sling cannot go round the log, or its legs cannot spread so far.
    """
    miss = balance_miss(sling, log_length=log_length, balance=balance)
    if sling.way == "basket":
        if miss > BALANCE_MISS * log_length * (1 + 1e-9):
            raise InputError(_basket_fault(sling, miss, log_length=log_length, balance=balance))
        lowest = drop + sling.length / 2
        return Hang(
            to_top=drop + max(sling.length / 2 - diameter, 0.0),
            lowest_level=lowest,
            lowest_tipped=lowest + math.tan(LEVEL_ENOUGH) * log_length / 2,
            angle=LEVEL_ENOUGH,
        )
    goes_round = sling.way in ("choked", "two legs")
    if goes_round and sling.length <= math.pi * diameter:
        raise InputError(_round_fault(sling, diameter))
    free = sling.length - (math.pi * least_diameter if goes_round else 0.0)
    middle = balance if sling.at is None else sling.at
    far = max(middle, log_length - middle)
    if sling.way == "two legs":
        return _two_legs(sling, free, drop, far=far, miss=miss, log=(log_length, diameter))
    turned = _turned(miss, least_diameter / 2)
    angle, top = turned.result, drop + free
    return Hang(
        to_top=top,
        lowest_level=top + diameter,
        lowest_tipped=top + far * math.sin(angle) + diameter * math.cos(angle),
        angle=angle,
        worked=turned,
    )


def _basket_fault(sling: Sling, miss: float, *, log_length: float, balance: float) -> Fault:
    return Fault(
        field="slung-at",
        given=Phrase("{at} from the butt, in a basket", at=near(sling.at or balance, "length")),
        understood=Phrase(
            "{miss} off the balance point: the log tips out of it", miss=up(miss, "length")
        ),
        wanted=Phrase(
            "within {miss} of {balance}",
            miss=down(BALANCE_MISS * log_length, "length"),
            balance=near(balance, "length"),
        ),
        fix="move the basket to the balance point, choke it, or use two legs",
    )


def _round_fault(sling: Sling, diameter: float) -> Fault:
    return Fault(
        field="sling-length",
        given=Phrase("{length}", length=down(sling.length, "length")),
        wanted=Phrase(
            "more than once round the log, {round}", round=up(math.pi * diameter, "length")
        ),
        fix="use a longer sling",
    )


def _turned(miss: float, depth: float) -> Worked:
    """The angle at which the log hangs [rad], worked."""
    return work(
        "angle at which the log hangs", formulas.off_balance, balance_miss=miss, hang_depth=depth
    )


def _two_legs(
    sling: Sling, free: float, drop: float, *, far: float, miss: float, log: tuple[float, float]
) -> Hang:
    """Two equal legs: legs and log turn about the hook until the balance point is under it."""
    half = sling.spread / 2
    log_length, diameter = log
    room = log_length - far
    if half >= free or half > room:
        raise InputError(_spread_fault(sling, 2 * min(free, room)))
    top = drop + math.sqrt(free**2 - half**2)
    # The thickest choke leaves the shortest legs, which turn the log most.
    shortest = max(sling.length - math.pi * diameter, half)
    turned = _turned(miss, math.sqrt(shortest**2 - half**2) + diameter / 2)
    angle = turned.result
    return Hang(
        to_top=top,
        lowest_level=top + diameter,
        lowest_tipped=top + far * math.sin(angle) + diameter,
        angle=angle,
        worked=turned,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelWindow:
    """Where a log may be slung to hang within an angle.

    ``miss`` is how far from the balance point the sling, or the middle between two legs, may be
    [m]; ``start`` and ``end`` the same along the log, from its butt [m]; ``usual`` whether a
    balance point that is missed as usual (``BALANCE_MISS``) still falls inside.
    """

    miss: float
    start: float
    end: float
    usual: bool
    worked: Worked


def level_window(
    sling: Sling, *, log_length: float, balance: float, diameter: float, angle: float = LEVEL_ENOUGH
) -> LevelWindow:
    """How near the balance point a log must be slung to hang level.

    Parameters
    ----------
    sling : Sling
    log_length, balance, diameter : float
        Length, balance point from the butt and diameter of the log where it is slung [m].
    angle : float
        Off the level that is still allowed [rad].

    Returns
    -------
    LevelWindow
        One sling turns the log about where it leaves it, half a diameter above the balance point,
        so the window is a few centimetres; two legs turn it about the hook. A basket holds a log
        from beneath, about its own axis: no window, only balance by luck. Understates the window
        of two legs by counting all that the thickest choke takes out of them.

    Raises
    ------
    InputError
        For figures that are none, an angle not between 0 and 90°, and two legs that cannot spread
        so far.
    """
    faults = [
        *sound("length", log_length, unit="m", above=0.0),
        *sound("balance", balance, unit="m", above=0.0, below=log_length),
        *sound("diameter", diameter, unit="m", above=0.0),
        *sound("level within", angle, unit="rad", above=0.0, below=math.pi / 2),
    ]
    raise_any(faults)
    depth = 0.0 if sling.way == "basket" else diameter / 2
    if sling.way == "two legs":
        free, half = sling.length - math.pi * diameter, sling.spread / 2
        if free <= half:
            raise InputError(_spread_fault(sling, 2 * max(free, 0.0)))
        depth += math.sqrt(free**2 - half**2)
    worked = work(
        "how far from the balance point", formulas.level_miss, hang_angle=angle, hang_depth=depth
    )
    return LevelWindow(
        miss=worked.result,
        start=max(balance - worked.result, 0.0),
        end=min(balance + worked.result, log_length),
        usual=worked.result >= BALANCE_MISS * log_length,
        worked=worked,
    )


def _spread_fault(sling: Sling, most: float) -> Fault:
    return Fault(
        field="leg-spread",
        given=Phrase("{spread}", spread=up(sling.spread, "length")),
        wanted=Phrase("less than {most}", most=down(most, "length")),
        fix="bring the legs nearer together or use longer ones",
    )


def two_point_shares(*, mass: float, balance: float, at_one: float, at_two: float) -> Worked:
    """What each of two carriers of a log holds: two people, or two machines.

    Parameters
    ----------
    mass : float
        Of the log [kg].
    balance, at_one, at_two : float
        Balance point, first and second carrier, along the log from its butt [m].

    Returns
    -------
    Worked
        ``steps.mass_on_one`` and ``steps.mass_on_two`` [kg]. Exact for a level log; lifted
        unevenly or held at its underside on a slope, the lower one carries more.

    Raises
    ------
    InputError
        For figures that are none, and where the balance point is not between the two.
    """
    faults = [
        *sound("mass", mass, unit="kg", above=0.0),
        *sound("balance", balance, unit="m", above=0.0),
        *sound("first carrier", at_one, unit="m", least=0.0),
        *sound("second carrier", at_two, unit="m", least=0.0),
    ]
    between = min(at_one, at_two) <= balance <= max(at_one, at_two) and at_one != at_two
    if not faults and not between:
        faults.append(
            Fault(
                field="carriers",
                given=Phrase(
                    "{one} and {two} from the butt",
                    one=near(at_one, "length"),
                    two=near(at_two, "length"),
                ),
                wanted=Phrase(
                    "the balance point, at {balance}, between them", balance=near(balance, "length")
                ),
                fix="move one beyond the balance point, or the log tips out of their hands",
            )
        )
    raise_any(faults)
    return work(
        "what each of two carries",
        formulas.two_point_shares,
        log_mass=mass,
        balance_from_butt=balance,
        at_one=at_one,
        at_two=at_two,
    )
