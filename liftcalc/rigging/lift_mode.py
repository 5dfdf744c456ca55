"""How the log is taken: whole, by one end, or drawn over the ground; what of it pulls the hook."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal, get_args

from liftcalc.errors import Fault, raise_any
from liftcalc.physics import formulas
from liftcalc.physics.worked import Worked, work
from liftcalc.remarks import Phrase, Remark, down, near, up
from liftcalc.rigging.sling import BALANCE_MISS, sound

Way = Literal["whole", "one end", "drawn", "drawn, one end up"]
WAYS: tuple[Way, ...] = get_args(Way)
LogEnd = Literal["butt", "top"]

CHOKE_IN = 0.3
"""How far from its end a log is choked to raise that end [m]; common practice, no source."""

DRAG_FRICTION = 1.0
"""Friction of a log drawn over the ground [-].

From memory, no source read: skidding of logs is given as 0.5 to 0.8 of the weight on the ground,
more where stumps, ruts and soft ground hold it. Taken above that range.
"""

STEEPEST_TRAIL = math.radians(20)
"""Steepest that a log drawn with one end up is taken to trail [rad]; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftMode:
    """How the log is taken.

    Attributes
    ----------
    way : Way
        "whole": it hangs clear. "one end": one end is raised, the other stays where it is.
        "drawn": all of it on the ground, pulled along it. "drawn, one end up": pulled with the
        hooked end raised clear, trailing no steeper than ``STEEPEST_TRAIL``.
    ground_end : LogEnd
        The end that stays on the ground.
    hook_at : float or None
        Hook along the log from the end on the ground [m]; None is ``CHOKE_IN`` short of the other.
    breakout : float
        What the first pull asks over the weight, at least 1 [-]: 1 for a log that lies free, more
        for one that is bedded, frozen in or mired. The user's own figure; none is standard. Army
        recovery practice reckons one, two or three times the weight for vehicles in mire, by depth
        (from memory).
    drag_friction : float
        Of the log on the ground [-].

    lightest : bool
        Of a log drawn with one end up: whether the least that may come down on the hook does, and
        not the most.

    Raises
    ------
    InputError
        With every fault of the above.
    """

    way: Way = "whole"
    ground_end: LogEnd = "top"
    hook_at: float | None = None
    breakout: float = 1.0
    drag_friction: float = DRAG_FRICTION
    lightest: bool = False

    def __post_init__(self) -> None:
        """Check every figure."""
        raise_any(
            [
                *sound("breakout", self.breakout, unit="-", least=1.0),
                *sound("drag-friction", self.drag_friction, unit="-", least=0.0),
                *sound(
                    "hook-at", 1.0 if self.hook_at is None else self.hook_at, unit="m", above=0.0
                ),
            ]
        )

    @property
    def states(self) -> tuple[LiftMode, ...]:
        """Itself; drawn with one end up, with the least on the hook as well as with the most."""
        if self.way in ("whole", "drawn"):
            return (self,)
        return self, replace(self, lightest=True)

    @property
    def skidded(self) -> bool:
        """Whether it is drawn over the ground, with one end up or lying."""
        return self.way in ("drawn", "drawn, one end up")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pull:
    """What the log pulls on the hook, as shares of its weight.

    Attributes
    ----------
    share : float
        Size of the force on the hook [-]; the breakout is a load factor, see ``factors``.
    lean : float
        Of that force from the square to the ground [rad]: atan2(along, up). On a slope the lean
        from the plumb line is less, by the slope, where the log is drawn uphill.
    up, along : float
        Its parts, square to the ground and along it [-].
    resting : float
        Weight that the ground may carry, as on level ground [-].
    worked : tuple of Worked
        Every formula used, in order.
    """

    share: float
    lean: float
    up: float
    along: float
    resting: float
    worked: tuple[Worked, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moves:
    """What a log does whose one end is raised.

    ``angle`` is the log above the ground [rad]; ``sideways`` how far the hook comes toward the end
    on the ground [m]; ``said`` what happens at both ends.
    """

    angle: float
    sideways: float
    said: tuple[Remark, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lever:
    """Balance point, nearest and farthest, and hook, from the end on the ground [m]."""

    hook: float
    near: float
    far: float

    @property
    def most(self) -> float:
        """Greatest share of the weight on the hook [-]; past the balance point all of it."""
        return min(self.far / self.hook, 1.0)

    @property
    def least(self) -> float:
        """Least share of the weight on the hook [-]."""
        return min(max(self.near / self.hook, 0.0), 1.0)


def _lever(taken: LiftMode, *, log_length: float, cog_from_butt: float, diameter: float) -> _Lever:
    faults = [
        *sound("length", log_length, unit="m", above=0.0),
        *sound("balance", cog_from_butt, unit="m", above=0.0, below=log_length),
        *sound("diameter", diameter, unit="m", above=0.0),
    ]
    if not faults and taken.hook_at is not None and taken.hook_at > log_length:
        faults.append(
            Fault(
                field="hook-at",
                given=Phrase(
                    "{at} from the {end}", at=near(taken.hook_at, "length"), end=taken.ground_end
                ),
                wanted=Phrase(
                    "a place on the log, at most {length}", length=down(log_length, "length")
                ),
            )
        )
    raise_any(faults)
    balance = cog_from_butt if taken.ground_end == "butt" else log_length - cog_from_butt
    miss = BALANCE_MISS * log_length
    return _Lever(
        hook=hook_from_ground_end(taken, log_length=log_length),
        near=balance - miss,
        far=balance + miss + diameter / 2,
    )


def hook_from_ground_end(taken: LiftMode, *, log_length: float) -> float:
    """How far the hook holds the log from the end that stays on the ground [m]."""
    return max(log_length - CHOKE_IN, log_length / 2) if taken.hook_at is None else taken.hook_at


@lru_cache(maxsize=256)
def pull(
    taken: LiftMode, *, log_length: float, cog_from_butt: float, diameter: float, slope: float = 0.0
) -> Pull:
    """What of a log's weight pulls the hook, and how.

    Parameters
    ----------
    taken : LiftMode
    log_length, cog_from_butt, diameter : float
        Length, balance point from the butt, largest diameter of the log [m].
    slope : float
        Uphill in the direction of the pull [rad]; downhill, below zero, counts as level. Of all
        slopes up to it the worst is taken.

    Returns
    -------
    Pull
        One end raised: balance over hook from the end on the ground, whatever the angle, with the
        balance point moved by ``BALANCE_MISS`` of the length and half a diameter the worse way:
        that covers the log's thickness up to 45°, and to 70° where less than two thirds of the
        weight come on the hook; nearer upright the whole weight can. Never more than the weight.
        Drawn with one end up: the greatest part up (at ``STEEPEST_TRAIL``)
        and the greatest part along (lying nearly flat) are put together, so the size is
        overstated, by 7 to 30 % for a log that trails some way between.

    Raises
    ------
    InputError
        For figures that are none, or a hook that is not on the log.
    """
    faults = sound("slope", slope, unit="rad", above=-math.pi / 2, below=math.pi / 2)
    raise_any(faults)
    lever = _lever(taken, log_length=log_length, cog_from_butt=cog_from_butt, diameter=diameter)
    uphill = max(slope, 0.0)
    if taken.way == "whole":
        return _together(taken, up=1.0, along=0.0, resting=0.0, worked=())
    if taken.way == "one end":
        share = _end_share(taken, lever)
        up = float(share.steps.hook_share)
        return _together(taken, up=up, along=0.0, resting=1.0 - lever.least, worked=(share,))
    if taken.way == "drawn":
        flat = _trailed("drawn along the ground", taken, lifted=0.0, slope=uphill)
        return _together(
            taken, up=0.0, along=float(flat.steps.along_share), resting=1.0, worked=(flat,)
        )
    share = _end_share(taken, lever)
    most = float(share.steps.hook_share)
    steep = _trailed("most that pulls down", taken, lifted=most, slope=uphill, rise=STEEPEST_TRAIL)
    flat = _trailed("most that pulls along", taken, lifted=lever.least, slope=uphill)
    return _together(
        taken,
        up=float((flat if taken.lightest else steep).steps.up_share),
        along=float(flat.steps.along_share),
        resting=1.0 - lever.least,
        worked=(share, steep, flat),
    )


def _end_share(taken: LiftMode, lever: _Lever) -> Worked:
    return work(
        f"on the hook for each kilogram of the log, its {taken.ground_end} on the ground",
        formulas.one_end_lifted,
        log_mass=1.0,
        balance_from_ground_end=min(lever.far, lever.hook),
        hook_from_ground_end=lever.hook,
        breakout_factor=1.0,
    )


def _trailed(
    label: str, taken: LiftMode, *, lifted: float, slope: float, rise: float = 0.0
) -> Worked:
    """A log drawn up the worst slope up to the one asked: steeper pulls less, past some slope."""
    friction, tangent = taken.drag_friction, math.tan(rise)
    if rise > 0:
        worst = math.atan2(tangent * (1 - lifted), lifted + tangent * friction)
    else:
        worst = math.atan2(1.0, friction * (1 - lifted))
    return work(
        label,
        formulas.trailed_log,
        hook_share=lifted,
        drag_friction=friction,
        slope=min(slope, worst),
        rise_angle=rise,
    )


def _together(
    taken: LiftMode, *, up: float, along: float, resting: float, worked: tuple[Worked, ...]
) -> Pull:
    whole = work("pull on the hook", formulas.hook_pull, up_share=up, along_share=along)
    return Pull(
        share=float(whole.steps.pull_share),
        lean=float(whole.steps.pull_lean),
        up=up,
        along=along,
        resting=resting,
        worked=(*worked, whole),
    )


def moves(
    taken: LiftMode,
    *,
    log_length: float,
    cog_from_butt: float,
    diameter: float,
    raised: float,
    mass: float,
) -> Moves:
    """What a log does while one end is raised and the other stays on the ground.

    Parameters
    ----------
    taken : LiftMode
        Its ``way`` is not asked.
    log_length, cog_from_butt, diameter : float
        Length, balance point from the butt, largest diameter of the log [m].
    raised : float
        Height of the hook's place on the log above where it lay [m].
    mass : float
        Of the log as planned [kg].

    Returns
    -------
    Moves
        Hook moves by hook·(1 − cos angle), exact for a thin log whose other end neither slides nor
        sinks.

    Raises
    ------
    InputError
        For figures that are none, or a log raised so high that it would hang upright.
    """
    lever = _lever(taken, log_length=log_length, cog_from_butt=cog_from_butt, diameter=diameter)
    faults = [
        *sound("raised", raised, unit="m", least=0.0, below=lever.hook),
        *sound("log mass", mass, unit="kg", above=0.0),
    ]
    raise_any(faults)
    angle = math.asin(raised / lever.hook)
    sideways = lever.hook * (1 - math.cos(angle))
    end, rests = taken.ground_end, (1 - lever.least) * mass
    said = [
        Remark(
            "raised",
            raised=near(raised, "length"),
            hook=near(lever.hook, "length"),
            end=end,
            angle=near(angle, "angle"),
        ),
        Remark("hook_comes", by=up(sideways, "length"), end=end),
        *([Remark("may_rise", end=end)] if lever.most >= 1 else []),
        Remark("end_turns", end=end, mass=up(rests, "mass")),
    ]
    return Moves(angle=angle, sideways=sideways, said=tuple(said))
