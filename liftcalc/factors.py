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

OBSTACLE = 0.10
"""Height of the rut, root or stone that one front wheel climbs on every carry [m]; practice."""
WALKING_PACE = 1.1
"""Speed at which a load is carried where nobody said [m/s], 4 km/h; practice."""

JOLT: dict[Duty, float] = {"stabilisers": 1.10, "standing": 1.10, "travelling": 1.33}
"""What a load pulls at its worst for what it weighs [-].

Standing: a land lift, source noble_denton_0027. Travelling, derived: a front wheel of 0.45 m radius
rolls 0.28 m while it climbs an ``OBSTACLE``, which raises the pin of its axle by half of that, at
``WALKING_PACE`` in a quarter of a second; as half a cosine that is 3.7 m/s² at its height, of which
tyres that give take an eighth: a third of gravity. An estimate; simulated runs are to set it.
"""

_ByDuty = dict[Duty, CapacityFactor]
_HELD = "the share of it that a standard sets for lifting already holds the usual jolt"
_SHAKES = "no share holds the jolt of starting and stopping the load"
_BUMPS = "no share holds the jolt of a front wheel over an obstacle of 10 cm at walking pace"


def _jolted(*, standing: float = 1.0, travelling: float = 1.0, held: str = _HELD) -> _ByDuty:
    """Load factors by duty, each with its reason; 1 where the jolt is held already."""
    still = CapacityFactor(value=1.0, source="mechanics", why=held)
    moved = CapacityFactor(value=standing, source="noble_denton_0027", why=_SHAKES)
    bumped = CapacityFactor(value=travelling, source="mechanics", why=_BUMPS)
    at_rest = moved if standing > 1 else still
    return {
        "stabilisers": at_rest,
        "standing": at_rest,
        "travelling": bumped if travelling > 1 else still,
    }


_RATED = _jolted(
    travelling=JOLT["travelling"], held="its rating holds the usual jolt of a standing lift"
)
LOAD_FACTORS: dict[str, _ByDuty] = {
    "tipping": _jolted(),
    "ram": _jolted(travelling=JOLT["travelling"] * RAM_SHARE.value),
    **dict.fromkeys(
        ("over an obstacle", "lowering"), _jolted(held="it is that jolt which is counted here")
    ),
    "devices": _jolted(held="what is rated is the mass that hangs"),
    "plate": _jolted(held="who rated the machine counted its jolts"),
    **dict.fromkeys(("lift point", "sling", "hook", "shackle", "hitch"), _RATED),
    "jaw": _jolted(
        travelling=JOLT["travelling"], held="half of what friction holds is kept back for jolts"
    ),
}
"""By kind of criterion and duty what the load counts for [-]: each doubt counts once.

A kind that is not listed has no share that holds the jolt, and so all of it: ground under pads and
tyres, axle ratings, grip, traction, the least load on an axle.
"""
_UNHELD = _jolted(standing=JOLT["standing"], travelling=JOLT["travelling"])
ONCE = CapacityFactor(value=1.0, source="mechanics", why="no load decides it")
"""Load factor of a distance to keep."""


PULLED = ("ram", "lift point", "sling", "hook", "shackle", "hitch", "jaw")
"""Kinds of criteria of what a log hangs on, which a swinging one pulls harder as it passes below.

The lines that it tips over have its lean instead.
"""


ONCE_LIFTED = ("devices", "lowering", "over an obstacle")
"""Kinds that are asked of a log that has come free: no first pull counts in them."""


def load_factor(
    kind: str, *, duty: Duty, breakout: float = 1.0, swing_pull: Any = 1.0
) -> CapacityFactor:
    """What a load counts for in a criterion, for what it weighs.

    Parameters
    ----------
    kind : str
        Of the criterion.
    duty : Duty
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

    found = LOAD_FACTORS.get(kind, _UNHELD)[duty]
    if kind in PULLED and np.any(np.asarray(swing_pull) > 1):
        why = "a log that swings pulls harder as it passes below the hook; jolts are counted too"
        found = CapacityFactor(value=found.value * swing_pull, source="mechanics", why=why)
    if kind in ONCE_LIFTED or np.all(breakout <= np.asarray(found.value)):
        return found
    most = np.maximum(found.value, breakout)[()]
    return CapacityFactor(value=most, source="practice", why="the first pull frees a stuck log")


CLOSE = 0.85
"""Utilisation above which a lift is called close to its limit [-]; common practice, no source."""
