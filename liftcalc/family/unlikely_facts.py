"""Facts that few machines answer so, or that the others contradict, and what slipped."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from liftcalc.errors import InputError
from liftcalc.family import doing
from liftcalc.family.fact import Told
from liftcalc.family.facts import FACTS
from liftcalc.family.kind import MachineKind
from liftcalc.family.posterior import Ensemble, answered, doubt, posterior
from liftcalc.family.unlikely import WALLS, Seen, SlipKind, UnlikelyFigure, best_slip
from liftcalc.units import Kind

FAR_OFF = 3.5
"""Standard deviations of machines and fact together beyond which a fact is named [-]."""
CONTRADICTED = 3.0
"""Misfit beyond which a fact is contradicted by the others [-]."""
COUNT = 400
"""Members that a fact is held against: enough for a median and a spread."""
_UNDO: dict[Kind, tuple[tuple[SlipKind, float], ...]] = {
    "pressure": (("psi for bar", 14.504), ("psi for bar", 1 / 14.504)),
    "mass": (("pounds for kilograms", 0.45359), ("decimal point", 10.0), ("decimal point", 0.1)),
    "length": (("feet for metres", 0.3048), ("decimal point", 10.0), ("decimal point", 0.1)),
    "force": (("decimal point", 10.0), ("decimal point", 0.1)),
}
"""Usual slips of a kind of figure, and what the typed one is times when undone."""
BORES = frozenset(key for key in FACTS if key.endswith("_bore"))
_OWN: dict[str, tuple[SlipKind, float]] = {
    **dict.fromkeys(BORES, ("barrel outside", 1 / WALLS)),
    "rear_hub": ("diameter for radius", 0.5),
    "front_hub": ("diameter for radius", 0.5),
}
_OTHER_AXLE = {"front_axle": "rear_axle", "rear_axle": "front_axle"}


def unlikely_facts(kind: MachineKind, facts: Sequence[Told]) -> tuple[UnlikelyFigure, ...]:
    """Facts that hardly any machine of the kind answers so, and those that the others contradict.

    Parameters
    ----------
    kind : MachineKind
    facts : sequence of Told
        As told; they need not be of any machine.

    Returns
    -------
    tuple of UnlikelyFigure
        By the key of the fact, the unlikeliest first. A contradicted fact is likely what the
        others say of it; which of those that contradict each other is wrong nobody knows, so it
        is the one that lies farthest off.
    """
    named = list(_off_the_family(kind, facts))
    known = {each.name for each in named}
    rest = [each for each in facts if each.key not in known]
    try:
        found = posterior(kind, rest, count=COUNT)
    except InputError:  # of no machine, though each by itself may be
        return tuple(sorted(named, key=lambda each: -each.off))
    if rest:
        worst = int(np.argmax(np.abs(found.misfit)))
        off = abs(float(found.misfit[worst]))
        without = _without(kind, rest, rest[worst]) if off > CONTRADICTED else None
        if without is not None:
            named.append(_contradicted(without, rest[worst], off))
    return tuple(sorted(named, key=lambda each: -each.off))


def _without(kind: MachineKind, facts: Sequence[Told], told: Told) -> Ensemble | None:
    """Members that agree with all facts but one; None where none do."""
    try:
        return posterior(kind, [each for each in facts if each is not told], count=COUNT)
    except InputError:
        return None


def _off_the_family(kind: MachineKind, facts: Sequence[Told]) -> Iterator[UnlikelyFigure]:
    family = posterior(kind, count=COUNT)
    values = {each.key: each.value for each in facts}
    for told in facts:
        asked, against = FACTS[told.key], family
        if told.key in BORES:  # bores differ much, and only what the ram lifts tells of one
            against = _without(kind, facts, told) or family
        answers = answered(against.machine, (told,), np.zeros((COUNT, 1)))[:, 0]
        answers = answers[np.isfinite(answers) & (answers > 0)]
        if len(answers) < COUNT / 2 or not told.value > 0:
            continue
        logs = np.log(answers)
        middle, spread = float(np.median(logs)), float(np.std(logs))
        spread = math.hypot(spread, doubt(told) / told.value)

        def off(value: float, middle: float = middle, spread: float = spread) -> float:
            return (math.log(value) - middle) / spread

        tries = [(slip, told.value * by) for slip, by in _UNDO.get(asked.unit, ())]
        if told.key in _OWN:
            slip, by = _OWN[told.key]
            tries.append((slip, told.value * by))
        other = values.get(_OTHER_AXLE.get(told.key, ""), 0.0)
        if other > 0:
            tries.append(("axles swapped", other))
        best = best_slip(off, told.value, tries)
        if best is None and abs(off(told.value)) < FAR_OFF:
            continue
        slip, likely = best or ("", math.exp(middle))
        yield UnlikelyFigure(
            told.key,
            asked.question,
            told.value,
            likely,
            abs(off(told.value)),
            slip,
            _seen(kind, told, likely),
        )


def _contradicted(without: Ensemble, told: Told, off: float) -> UnlikelyFigure:
    """A fact against what all others say of it."""
    likely = float(np.nanmedian(answered(without.machine, (told,), np.zeros((COUNT, 1)))))
    return UnlikelyFigure(told.key, FACTS[told.key].question, told.value, likely, off, "")


_REACHES = {"boom_length", "dipper_length", "slew_axis_behind", "foot_pin_out", "foot_pin_height"}


def _seen(kind: MachineKind, told: Told, likely: float) -> Seen | None:
    """What machines of the fact alone would do, as told and as likely meant.

    Nothing where the fact itself is what one sees: a width, a weight.
    """
    if told.key in _REACHES:
        words, get, unit = "the reach of the teeth on the ground", doing.reach_on_ground, "length"
    elif told.key in BORES or FACTS[told.key].unit == "pressure":
        words, get, unit = "the load the nose lifts stretched out", doing.lift_at_full_reach, "mass"
    else:
        return None
    try:
        given, meant = (
            float(np.nanmedian(get(posterior(kind, [each], count=COUNT).machine)))
            for each in (told, replace(told, value=likely))
        )
    except InputError:  # no machine at all has it
        return None
    return Seen(words, given, meant, unit)  # type: ignore[arg-type]
