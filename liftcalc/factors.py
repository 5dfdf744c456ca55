"""The factors, thresholds and standing sentences of the answer, each with its source key."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, Literal

from liftcalc.remarks import Words

CAUTION = (
    "This is advice from a model. The machine's own rated chart or plate, local rules and a "
    "competent person come first. Nobody under the load, or between log and machine."
)

NOT_CHECKED = "Not said, so not checked"
"""The head of all that a lift was not told."""

Duty = Literal["stabilisers", "standing", "travelling"]
"""How the machine holds the load: back end on stabilisers; on its wheels, standing; moving."""

LEVEL_LIMIT = math.atan(0.01)
"""Greatest slope that ratings assume [rad]; source: iso_4305."""

WARNING_MASS = 1000.0
"""Object-handling mass above which warning and lowering control are needed [kg]; en_474_4."""

WARNING_MOMENT = 40_000.0
"""Object-handling moment at or above which they are needed [N.m]; source: en_474_4."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CapacityFactor:
    """The share of a capacity that may be used, with its source key and why."""

    value: float
    source: str
    why: Words


TIPPING_SHARE: dict[Duty, CapacityFactor] = {
    "stabilisers": CapacityFactor(
        value=0.75, source="iso_10567", why="rated lift is at most 75 % of the tipping load"
    ),
    "standing": CapacityFactor(
        value=0.50,
        source="iso_14397_1",
        why="a wheeled loader on firm level ground is rated at half its tipping load",
    ),
    "travelling": CapacityFactor(
        value=0.50,
        source="queensland_2006",
        why="0.66 is the most any source allows on the move; half is taken",
    ),
}

RAM_SHARE = CapacityFactor(
    value=0.87, source="iso_10567", why="rated lift is at most 87 % of what the rams can hold"
)
FULL_SHARE = CapacityFactor(
    value=1.0, source="mechanics", why="a rated value already carries its own margin"
)

AXLE_SHARE = 0.20
"""Least share of the weight on the steered and on the braked axle on the move [-]; practice."""

WHOLE_TIPPING = CapacityFactor(
    value=1.0,
    source="rollover_practice",
    why="slope over 0.7 and the obstacle's angle stay below the static tipping angle",
)

LEAST_AXLE = CapacityFactor(
    value=1.0, source="practice",
    why="on the move the steered and the braked axle each keep a fifth of the weight",
)  # fmt: skip

STUMP = (0.15, 0.10)
"""Height of the rut, root or stump that one front wheel climbs on every carry, careful and
favourable [m]; common practice, no source."""
WALKING = 6.0 / 3.6 * (1 + 1e-9)
"""Fastest that a load is carried [m/s]: a brisk walk, 6 km/h however it is typed; common practice,
no source."""

JOLT = 1.10
"""What a standing machine's load pulls at its worst for what it weighs [-]; noble_denton_0027."""


def jolt_on_the_way(*, speed: float, stump: float) -> float:
    """What a carried load, its axles and tyres bear at their worst for what they bear at rest.

    Parameters
    ----------
    speed : float
        Of the drive [m/s]. At none what is left is the load that a raised wheel takes from the
        others.
    stump : float
        Height of what a front wheel climbs [m].

    Returns
    -------
    float
        1 + stump (2.6 m⁻¹ + 4 s/m² speed) [-]. Source: derived, an upper bound in the form of the
        simulated peaks of 400 runs, 40 machines and loads over 10 and 15 cm at 0.5 to 1.67 m/s:
        of the hardest tyre, of an axle, and of what the load hangs on. Errs upward, by 0 to 0.2.
    """
    return 1 + stump * (2.6 + 4 * speed)


_ALWAYS: tuple[Duty, ...] = ("stabilisers", "standing", "travelling")
_SHARE = "the share of it that a standard sets for lifting already holds the usual jolt"
_COUNTED = "it is that jolt which is counted here"
_RATING = "its rating holds the usual jolt of a standing lift"

HELD: dict[str, tuple[tuple[Duty, ...], Words]] = {
    **dict.fromkeys(("tipping", "ram"), (_ALWAYS, _SHARE)),
    **dict.fromkeys(("over an obstacle", "lowering"), (_ALWAYS, _COUNTED)),
    "devices": (_ALWAYS, "what is rated is the mass that hangs"),
    "plate": (_ALWAYS, "who rated the machine counted its jolts"),
    **dict.fromkeys(
        ("lift point", "sling", "hook", "shackle", "hitch"), (("stabilisers", "standing"), _RATING)
    ),
    "jaw": (("stabilisers", "standing"), "half of what friction holds is kept back for jolts"),
}
"""Kinds of criterion that hold the jolt already, in which duties and why: each doubt counts once.

A kind that is not listed has no share that holds it, and so all of it: ground under pads and tyres,
axle ratings, the least load on an axle.
"""

BRIEFLY = ("grip", "traction")
"""Kinds that a stump's blow of a tenth of a second cannot fail: what slips for a blink goes no way.

On the way too they have the jolt of starting and stopping only. Source: in the campaign of motion
no machine slid at a third more than they allow.
"""
SLOWLY_YIELDING = ("ground under a tyre",)
"""Kinds that bear the blow of a stump, which stands on firmer ground than its surroundings, but not
the load that the raised wheel takes from the others; practice."""
ONCE = CapacityFactor(value=1.0, source="mechanics", why="no load decides it")
"""Load factor of a distance to keep."""


PULLED = ("ram", "lift point", "sling", "hook", "shackle", "hitch", "jaw")
"""Kinds of criteria of what a log hangs on, which a swinging one pulls harder as it passes below.

The lines that it tips over have its lean instead.
"""


ONCE_LIFTED = ("devices", "lowering", "over an obstacle")
"""Kinds that are asked of a log that has come free: no first pull counts in them."""


def load_factor(
    kind: str,
    *,
    duty: Duty,
    speed: float,
    stump: float,
    breakout: float = 1.0,
    swing_pull: Any = 1.0,
) -> CapacityFactor:
    """What a load counts for in a criterion, for what it weighs.

    Parameters
    ----------
    kind : str
        Of the criterion.
    duty : Duty
    speed, stump : float
        On the way [m/s, m]; a speed of zero is one that nobody said: the fastest walk.
    breakout : float
        What the first pull asks over the weight [-].
    swing_pull : float or array
        What a log that swings pulls as it passes below the hook, over its weight [-]. An array
        makes the value of the factor one.

    Returns
    -------
    CapacityFactor
        The greater of the breakout and of the jolt that no share holds, times the swing's pull: a
        log that is stuck is not yet moving, so they do not come together.
    """
    import numpy as np  # noqa: PLC0415 - who only reads a factor waits for nothing

    duties, why = HELD.get(kind, ((), ""))
    if duty in duties:
        found = CapacityFactor(value=1.0, source="mechanics", why=why)
    elif duty == "travelling" and kind not in BRIEFLY:
        why = "no share holds the jolt of a front wheel over a stump"
        pace = 0.0 if kind in SLOWLY_YIELDING else speed or WALKING
        jolt = max(JOLT, jolt_on_the_way(speed=pace, stump=stump))
        found = CapacityFactor(value=jolt, source="simulated", why=why)
    else:
        why = "no share holds the jolt of starting and stopping the load"
        found = CapacityFactor(value=JOLT, source="noble_denton_0027", why=why)
    if kind in PULLED and np.any(np.asarray(swing_pull) > 1):
        why = "a log that swings pulls harder as it passes below the hook; jolts are counted too"
        found = CapacityFactor(value=found.value * swing_pull, source="mechanics", why=why)
    if kind in ONCE_LIFTED or np.all(breakout <= np.asarray(found.value)):
        return found
    most = np.maximum(found.value, breakout)[()]
    return CapacityFactor(value=most, source="practice", why="the first pull frees a stuck log")


CLOSE = 0.85
"""Utilisation above which a lift is called close to its limit [-]; common practice, no source."""
