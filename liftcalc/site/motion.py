"""How the machine moves, what that swings, and what the ground does to it on the way."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields

import numpy as np

from liftcalc.errors import Fault, Gather, InputError
from liftcalc.physics import formulas
from liftcalc.physics.functions import Real
from liftcalc.physics.worked import Worked, work

ROLLOVER_SHARE = 0.7
"""Real rollover threshold over that of a rigid machine [-]; source: rollover_practice.

Vehicle practice finds 0.7 to 0.9; the least is taken, which overstates every turn.
"""

_WORDS = {
    "speed": ("m/s", "a speed of zero or more"),
    "turn_radius": ("m", "a radius above zero, at the middle of the rear axle"),
    "braking": ("m/s²", "a deceleration of zero or more; braking is given without a minus sign"),
    "slew_speed": ("rad/s", "a rate of zero or more; swing is the same to both sides"),
    "slew_stop": ("s", "a time above zero"),
    "sinkage": ("m", "a depth of zero or more"),
    "lower_speed": ("m/s", "a lowering of zero or more"),
    "friction": ("-", "a friction above zero and at most 1.2"),
}
_ABOVE_ZERO = {"turn_radius", "slew_stop", "friction"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """How the machine travels and slews.

    Attributes
    ----------
    speed : float
        Of travel [m/s].
    turn_radius : float or None
        At the middle of the rear axle [m]; None is straight ahead. The turning circle that a
        manual gives is that of the outer front tyre, which is larger: it would understate.
    braking : float
        Deceleration when braked [m/s²].
    slew_speed : float
        Of the back end [rad/s].
    slew_stop : float or None
        Time in which slewing starts or stops [s]; must be given with a slew speed.
    sinkage : float or None
        How deep the tyres sink [m]; None is not known.
    lower_speed : float or None
        Of the hook when the log is lowered [m/s]; None is not known.
    friction : float or None
        Of tyre or pad on this ground [-]; None: take that of the ground, ``Ground.friction``.

    Raises
    ------
    InputError
        With a fault for every value that is not a number or out of its bounds, and when slewing
        is given without the time it takes to stop.
    """

    speed: float = 0.0
    turn_radius: float | None = None
    braking: float = 0.0
    slew_speed: float = 0.0
    slew_stop: float | None = None
    sinkage: float | None = None
    friction: float | None = None
    lower_speed: float | None = None

    def __post_init__(self) -> None:
        gather = Gather()
        for each in fields(self):
            with gather:
                _in_bounds(each.name, getattr(self, each.name))
        if self.slew_speed and self.slew_stop is None:
            gather.faults.append(
                Fault(
                    field="slew-stop",
                    given=f"a slew speed of {self.slew_speed:g} rad/s and no time to stop",
                    wanted="the time in which slewing stops, in seconds",
                    fix="time it with the load off: from letting go of the lever to standing still",
                )
            )
        gather.raise_any()

    @property
    def turning(self) -> float:
        """Acceleration to plan a turn on, toward its inside [m/s²]; zero straight ahead."""
        if self.turn_radius is None:
            return 0.0
        return float(turning_acceleration(speed=self.speed, turn_radius=self.turn_radius))


def _in_bounds(name: str, value: float | None) -> None:
    if value is None:
        return
    most = 1.2 if name == "friction" else math.inf
    low_enough = value > 0 if name in _ABOVE_ZERO else value >= 0
    if low_enough and math.isfinite(value) and value <= most:
        return
    unit, wanted = _WORDS[name]
    given = f"{value:g} {unit}".removesuffix(" -")
    raise InputError.of(field=name.replace("_", "-"), given=given, wanted=wanted)


def turning_acceleration(
    *, speed: Real, turn_radius: Real, rollover_share: float = ROLLOVER_SHARE
) -> Real:
    """Acceleration to the side to plan a turn on [m/s²]: v²/(0.7·R).

    Parameters
    ----------
    speed : float or array
        Of travel [m/s].
    turn_radius : float or array
        At the middle of the rear axle [m].
    rollover_share : float
        Real rollover threshold over the rigid one [-]; 1 gives the plain v²/R.

    Notes
    -----
    Source: vehicle practice, 70 to 90 %. Overstates machines with stiff tyres.
    """
    return formulas.turning(
        speed=speed, turn_radius=turn_radius, rollover_share=rollover_share
    ).planned_turning


def speed_at_rollover(
    *, acceleration_limit: Real, turn_radius: Real, rollover_share: float = ROLLOVER_SHARE
) -> Real:
    """Speed at which a turn reaches an acceleration to the side [m/s].

    Parameters
    ----------
    acceleration_limit : float or array
        At which the rigid machine reaches its limit [m/s²]; zero or less: it stands at the limit
        already and the speed is zero. NaN stays NaN.
    turn_radius : float or array
        At the middle of the rear axle [m].
    rollover_share : float
        As for ``turning_acceleration`` [-].

    Notes
    -----
    Understates for stiff tyres; on smooth ground. A bump takes the machine over sooner.
    """
    return formulas.speed_at_rollover(
        acceleration_limit=np.maximum(acceleration_limit, 0.0),
        turn_radius=turn_radius,
        rollover_share=rollover_share,
    ).greatest_speed


def slewing(*, radius: Real, slew_speed: Real, slew_stop: Real, settled: bool = True) -> Worked:
    """Lean of a hanging load to plan slewing on [rad].

    Parameters
    ----------
    radius : float or array
        Of the hook from the slew axis [m].
    slew_speed : float or array
        Rate of slewing [rad/s].
    slew_stop : float or array
        Time in which slewing starts or stops [s].
    settled : bool
        Whether the load hangs quiet before it is stopped. If not, the swing of the start is added
        to that of the stop.

    Returns
    -------
    Worked
        Its last step is 2·atan(ω r/(t g)) + atan(ω² r/g), the first part twice when not settled;
        to be taken the worst way.

    Notes
    -----
    Overstates what it is for. Settled, it understates a stop while the load still swings from
    the start: from rest and stopped at the worst moment, loads stepped in time lean up to 1.6
    times as far: to be used only where the load is seen to hang quiet.
    """
    return work(
        "slewing",
        formulas.slewing_swing,
        hook_reach=abs(radius),
        slew_speed=abs(slew_speed),
        slew_stop=slew_stop,
        swings_added=1.0 if settled else 2.0,
    )


def resistance_share(*, sinkage: Real, grade: Real) -> Real:
    """Resistance to travel over the weight [-].

    Parameters
    ----------
    sinkage : float or array
        How deep the tyres sink [m].
    grade : float or array
        Rise over run of the way, positive uphill [-]; downhill is taken as level: nothing is
        gained by it.

    Notes
    -----
    Source: earth-moving handbooks, 2 % + 1.5 % an inch of sinkage + 1 % a per cent of grade. An
    average, of either sign; overstates steep grades.
    """
    return _resistance(sinkage=sinkage, grade=grade, mass=1.0).resistance_share


def travel_resistance(*, sinkage: Real, grade: Real, mass: Real) -> Real:
    """Resistance to travel [N].

    Parameters
    ----------
    sinkage, grade : float or array
        As for ``resistance_share`` [m, -].
    mass : float or array
        Machine and all that it carries [kg].
    """
    return _resistance(sinkage=sinkage, grade=grade, mass=mass).travel_resistance


def _resistance(*, sinkage: Real, grade: Real, mass: Real) -> formulas.TravelResistance:
    return formulas.travel_resistance(
        sinkage=np.maximum(sinkage, 0.0), grade=np.maximum(grade, 0.0), travelling_mass=mass
    )
