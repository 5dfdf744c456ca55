"""A fact that hardly any machine like this one would give, and the slip that most likely made it.

Held against what the members would answer that agree with all that was told before. Each usual slip
of hand or unit is tried: where it makes the fact so much likelier that it explains it better, it is
named with the figure that would be meant. See ``unlikely`` for a file of all figures.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from liftcalc.family.fact import Told
from liftcalc.family.facts import fact
from liftcalc.family.posterior import Ensemble, answered, doubt
from liftcalc.family.unlikely import UNLIKELY, WALLS, SlipKind, best_slip

PSI, POUND, FOOT = 14.504, 0.45359, 0.3048
USUAL = 3.0
"""Standard deviations within which a figure that was meant lies [-]."""
AXLES = ("front_axle", "rear_axle")
_BY_UNIT: dict[str, tuple[tuple[SlipKind, float], ...]] = {
    "length": (("feet for metres", FOOT), ("decimal point", 0.1), ("decimal point", 10.0)),
    "mass": (("pounds for kilograms", POUND), ("decimal point", 0.1), ("decimal point", 10.0)),
    "pressure": (("psi for bar", PSI), ("psi for bar", 1 / PSI)),
}
_BY_KEY: dict[str, tuple[tuple[SlipKind, float], ...]] = {
    "_bore": (("barrel outside", 1 / WALLS), ("diameter for radius", 2.0)),
    "_hub": (("diameter for radius", 0.5),),
}


class UnlikelyFact(NamedTuple):
    """A fact as told, the figure likely meant [SI], how far off it is [-], and what slipped."""

    told: Told
    likely: float
    off: float
    slip: SlipKind


def unlikely_fact(ensemble: Ensemble, told: Told) -> UnlikelyFact | None:
    """What a fact that is told next would likely be, where it is unlikely as told; else None.

    None too where hardly any member can answer it: then nothing is known of it.
    """
    answers = answered(ensemble.machine, (told,), np.zeros((len(ensemble.latent), 1)))[:, 0]
    answers = answers[np.isfinite(answers)]
    if len(answers) < len(ensemble.latent) / 2:
        return None
    middle = float(np.median(answers))
    spread = math.hypot(float(np.std(answers)), doubt(told))

    def off(value: float) -> float:
        return (value - middle) / spread

    tries = [(slip, told.value * factor) for slip, factor in _slips(told.key)]
    if told.key in AXLES:
        tries.append(
            ("axles swapped", float(np.median(ensemble.machine.weights.total)) - told.value)
        )
    slip, likely = best_slip(
        off, told.value, [each for each in tries if abs(off(each[1])) < USUAL]
    ) or ("", middle)
    far = abs(off(told.value))
    return UnlikelyFact(told, likely, far, slip) if slip or far > UNLIKELY else None


def _slips(key: str) -> tuple[tuple[SlipKind, float], ...]:
    own = next((each for end, each in _BY_KEY.items() if key.endswith(end)), ())
    return (*_BY_UNIT.get(fact(key).unit, ()), *own)
