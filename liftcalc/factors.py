"""The factors, thresholds and standing sentences of the answer, each with its source key."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

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

LEAST_AXLE = CapacityFactor(
    value=1.0, source="practice",
    why="on the move the steered and the braked axle each keep a fifth of the weight",
)  # fmt: skip

STANDING_LOAD_FACTOR = CapacityFactor(
    value=1.10,
    source="noble_denton_0027",
    why="a standing lift on land moves the load up and down a little",
)


def travelling_load_factor(*, load: float) -> float:
    """Load factor for carrying a load on the move.

    Parameters
    ----------
    load : float
        Mass carried [kg]. Below 3 t it is taken as 3 t, since the source does not go lower.

    Returns
    -------
    float
        Factor on the load [-]; overstates the load on smooth ground. It falls with the load, so
        the answer uses its value at 3 t for every log: a heavier log must never do better.

    Notes
    -----
    Source: GL Noble Denton 0027/ND revision 11, table 5-1: 1.07 + 0.05·√(100/SHL), SHL in tonnes.
    """
    tonnes = min(max(load, 3000.0), 100_000.0) / 1000.0
    return 1.07 + 0.05 * math.sqrt(100.0 / tonnes)


TRAVELLING_LOAD_FACTOR = CapacityFactor(
    value=travelling_load_factor(load=3000.0),
    source="noble_denton_0027",
    why="carrying on the move shakes the load",
)

CLOSE = 0.85
"""Utilisation above which a lift is called close to its limit [-]; common practice, no source."""
