"""Where the doubt of an answer comes from, and what is worth measuring next.

An answer holds at the lower end of many machines that all agree with what was told. What one more
fact would be worth is read off the same machines: how far the lower end would rise, on average over
all that the fact may turn out to be.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from liftcalc.evaluation.members import CAREFUL
from liftcalc.evaluation.sampled import SampledLift
from liftcalc.family.fact import Told, Trouble
from liftcalc.family.facts import FACTS
from liftcalc.family.parameters import COMMON, parameters
from liftcalc.family.posterior import Ensemble, answered, doubt

Floats = NDArray[np.float64]
BEND = 2
"""Power up to which an answer may bend with a fact [-]."""
LEAST_REACHED = 0.5
"""Share of members that must be able to answer a fact where the hook is [-]."""

PARTS: dict[str, tuple[str, ...]] = {
    "weights": ("total", "front_share", "legs", "carriage", "front_tools", "back_tools",
                "heaviness", "cog_height", "_mass", "_cog_along", "_cog_up"),
    "pressure": ("pressure", "efficiency"),
    "bores": ("_bore", "_rod", "boom_lift", "strength"),
    "stance": ("wheelbase", "track", "axle_pin", "radius", "pads_", "pad_", "slew_behind",
               "sideshift", "_rating"),
    "size": ("size",),
}  # fmt: skip
"""Inputs of a machine by what they are: parts of the keys of parameters; the rest are pins."""


class Share(NamedTuple):
    """A part of what is not known, and its share of the variance of the allowed load [-]."""

    part: str
    share: float


class Worth(NamedTuple):
    """A fact that could be told, what it takes, and what it is worth [kg].

    ``worth`` is how far the lower end of the allowed load would rise, on average over lifts; the
    key is that of ``FACTS``, or reach, height or slew: where the hook is, taped.
    """

    key: str
    question: str
    trouble: Trouble
    worth: float


def part_of(key: str) -> str:
    """The part of a machine that a variate belongs to, as a bar of the figure names it."""
    for part, ends in PARTS.items():
        if any(key.startswith(each) or key.endswith(each) for each in ends):
            return part
    return "pins"


def shares(ensemble: Ensemble, lift: SampledLift) -> tuple[Share, ...]:
    """Which part of what is not known causes how much of the doubt, the most first.

    First-order shares: what bends or goes together is left to a rest, so they are not overstated.
    They add up to one with it.
    """
    keys = [*COMMON, *(each.key for each in parameters(ensemble.kind))]
    columns: dict[str, list[Floats]] = {}
    for key, variate in zip(keys, ensemble.latent.T, strict=True):
        columns.setdefault(part_of(key), []).append(variate)
    columns["place"] = [lift.off[name] for name in ("reach", "height", "slew")]
    return explained(lift.least, {name: np.array(each).T for name, each in columns.items()})


def explained(answer: Floats, inputs: Mapping[str, Floats]) -> tuple[Share, ...]:
    """Shares of the variance of an answer (N,) by groups of inputs (N, k), and the rest.

    Of each input its slope times what goes together with the answer (Pratt 1987): the sum is what
    a plane explains, whether or not inputs go together. Slopes are of one half of the samples and
    held against the other, so that many idle inputs explain nothing.
    """
    variance = float(np.var(answer))
    if variance == 0:
        return ()
    names = [name for name, each in inputs.items() for _ in range(each.shape[1])]
    every = np.hstack(list(inputs.values()))
    spread = every.std(axis=0)
    scaled = (every - every.mean(axis=0)) / np.where(spread > 0, spread, 1.0)
    off = answer - answer.mean()
    found = dict.fromkeys(inputs, 0.0)
    for half in (slice(0, None, 2), slice(1, None, 2)):
        other = slice(1, None, 2) if half.start == 0 else slice(0, None, 2)
        x, y = scaled[half], off[half]
        slopes = np.linalg.solve(x.T @ x + len(x) * 1e-2 * np.eye(x.shape[1]), x.T @ y)
        together = scaled[other].T @ off[other] / len(off[other])
        for name, each in zip(names, slopes * together / variance, strict=True):
            found[name] += float(each) / 2
    kept = {name: max(each, 0.0) for name, each in found.items()}
    over = max(sum(kept.values()), 1.0)
    made = [Share(name, each / over) for name, each in kept.items()]
    made.append(Share("rest", max(1.0 - sum(each.share for each in made), 0.0)))
    return tuple(sorted(made, key=lambda each: -each.share))


def rise(answer: Floats, reading: Floats) -> float:
    """How far the lower end of an answer rises once a reading is known, on average [kg].

    Both (N,), sample by sample. The answer may bend with the reading; its scatter about that is
    taken to be the same for all readings, which errs either way. Never below zero.
    """
    spread = float(np.std(reading))
    if not spread > 0:
        return 0.0
    x = (reading - np.mean(reading)) / spread
    left = answer - np.polyval(np.polyfit(x, answer, BEND), x)
    after = float(np.mean(answer) + np.quantile(left, CAREFUL))
    return max(after - float(np.quantile(answer, CAREFUL)), 0.0)


def next_facts(
    ensemble: Ensemble, lifts: Sequence[SampledLift], *, seed: int = 0
) -> tuple[Worth, ...]:
    """Facts that are not told yet, by what they are worth at some lifts, the best first.

    Parameters
    ----------
    ensemble : Ensemble
        What is known of the machine.
    lifts : sequence of SampledLift
        By the machines of the ensemble: this lift, or the user's usual ones; their mean counts.
    seed : int
        Of the slips of the readings.

    Returns
    -------
    tuple of Worth
        Those worth anything. A trial is reckoned with the hook where it is in the first lift.
    """
    random = np.random.default_rng([seed, 3])
    count = len(ensemble.latent)
    known = {each.key for each in ensemble.told}
    first = lifts[0].lift
    middle = float(np.median(lifts[0].least))
    made = []
    for key, each in FACTS.items():
        if key in known:
            continue
        told = Told(
            key=key, value=0.0, reach=first.reach or 0.0, height=first.height, load=middle / 2
        )
        reading = answered(ensemble.machine, (told,), random.standard_normal((count, 1)))[:, 0]
        sound = np.isfinite(reading)
        if np.mean(sound) < LEAST_REACHED:
            continue
        usual = float(np.median(reading[sound]))
        slip = doubt(Told(key=key, value=usual)) * random.standard_normal(count)
        reading = np.where(sound, reading, usual) + slip
        worth = float(np.mean([rise(lift.least, reading) for lift in lifts]))
        made.append(Worth(key, each.question, each.trouble, worth))
    for key, question in PLACES.items():
        worth = float(np.mean([rise(lift.least, lift.off[key]) for lift in lifts]))
        made.append(Worth(key, question, "tape", worth))
    return tuple(sorted((x for x in made if x.worth > 0), key=lambda x: -x.worth))


PLACES = {
    "reach": "how far out the hook is, taped to a plumb line",
    "height": "how high the hook is, taped",
    "slew": "how far the back end is turned",
}
"""What can be measured of a place, by the names of ``SampledLift.off``."""
