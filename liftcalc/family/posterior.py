"""What is left of the family by what is known: members that answer every fact as it was told.

An ensemble smoother with several assimilations of the same data (Emerick and Reynolds, Computers &
Geosciences 55 (2013) 3): members drawn from the family are moved, in the space of their variates,
by the correlation of each variate with what each fact would be answered; several small steps with
the tolerances widened so that together they count once. Docs: ``docs/decisions``.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from liftcalc.errors import InputError
from liftcalc.family.closing import closes
from liftcalc.family.draw import draw, one, some
from liftcalc.family.fact import Told
from liftcalc.family.facts import complete, fact
from liftcalc.family.figures import Floats
from liftcalc.family.kind import MachineKind
from liftcalc.family.member import members
from liftcalc.machines.schema import Machine

COUNT = 1000
"""Members that a machine is told by: the lower twentieth of an answer is then of fifty."""
WIDENED = (32.0, 16.0, 8.0, 4.0, 32.0 / 17.0)
"""By how much tolerances are widened at each assimilation; the inverses add up to one."""
FARTHER = 1.17
"""By how much real machines are taken to lie farther from the median than members do [-].

The table of parameters is judgement, and no machine is quite a member: judgement as well."""
LEAST_LEFT = 0.03
"""Share of members that must still be machines, or the facts do not belong to one [-]."""


@dataclass(frozen=True, kw_only=True)
class Ensemble:
    """Members of the family that agree with what was told.

    Attributes
    ----------
    kind : MachineKind
    told : tuple of Told
    latent : (N, k) array
        Their variates [-].
    machine : Machine
        All of them as one machine whose figures are arrays of (N,).
    misfit : (d,) array
        Of each fact how far the members' median answer lies off it, in standard deviations of
        fact and members together [-]: beyond two or three it contradicts the others.
    """

    kind: MachineKind
    told: tuple[Told, ...]
    latent: Floats
    machine: Machine
    misfit: Floats

    @cached_property
    def typical(self) -> Machine:
        """The member nearest to all others: one machine that can be drawn and saved."""
        spread = np.std(self.latent, axis=0)
        off = (self.latent - np.median(self.latent, axis=0)) / np.where(spread > 0, spread, 1.0)
        return one(self.machine, int(np.argmin(np.sum(off**2, axis=1))))


def posterior(
    kind: MachineKind, told: Sequence[Told] = (), *, count: int = COUNT, seed: int = 0
) -> Ensemble:
    """Members of a kind that agree with facts; the same for the same seed.

    Parameters
    ----------
    kind : MachineKind
    told : sequence of Told
        Facts as told, any of ``facts.FACTS``; none at all is the whole family.
    count, seed : int
        How many members, and which.

    Returns
    -------
    Ensemble
        Its spread is right where answers are nearly linear in the variates over the spread that
        is left, which they become as facts are told; what remains errs to either side.

    Raises
    ------
    InputError
        For facts that are unknown or lack their place, or that no machine of the kind can give.
    """
    facts = complete(told)
    drawn = draw(kind, count=count, seed=seed)
    latent = FARTHER * drawn.latent
    random = np.random.default_rng([seed, 1])
    off = random.standard_normal((count, len(facts)))
    for widened in WIDENED if facts else ():
        latent, off = _assimilated(kind, facts, latent, off, widened=widened, random=random)
    machine = members(kind, latent)
    keeps = np.flatnonzero(closes(machine))
    if len(keeps) < LEAST_LEFT * count:
        raise InputError.of(
            field="facts",
            given=", ".join(each.key for each in facts) or "none",
            wanted=f"facts of one machine of the class {kind.of.name}",
            fix="check the class, the units and which pins were measured",
        )
    # Those that cannot be are replaced by others that can.
    rows = np.concatenate([keeps, random.choice(keeps, count - len(keeps))])
    machine = some(machine, rows)
    answers = answered(machine, facts, off[rows])
    return Ensemble(
        kind=kind, told=facts, latent=latent[rows], machine=machine, misfit=_misfit(facts, answers)
    )


def answered(machine: Machine, facts: Sequence[Told], off: Floats) -> Floats:
    """What members would answer to facts (N, d); NaN where they do not reach there."""
    with np.errstate(invalid="ignore", divide="ignore"):
        found = [
            np.broadcast_to(fact(each.key).predict(machine, each, off[:, number]), len(off))
            for number, each in enumerate(facts)
        ]
    return np.array(found, dtype=float).reshape(len(facts), len(off)).T


def doubt(told: Told) -> float:
    """Standard deviation of a fact as told [SI]: its tolerance, and its share of the value."""
    asked = fact(told.key)
    tolerance = asked.tolerance if told.tolerance is None else told.tolerance
    return float(np.hypot(tolerance, asked.share * told.value))


def _misfit(facts: Sequence[Told], answers: Floats) -> Floats:
    values, doubts = np.array([x.value for x in facts]), np.array([doubt(x) for x in facts])
    spread = np.hypot(doubts, np.nanstd(answers, axis=0))
    return np.asarray((values - np.nanmedian(answers, axis=0)) / spread)


def _assimilated(
    kind: MachineKind,
    facts: Sequence[Told],
    latent: Floats,
    off: Floats,
    *,
    widened: float,
    random: np.random.Generator,
) -> tuple[Floats, Floats]:
    """Variates of members and of the places of their hooks, after one assimilation."""
    answers = answered(members(kind, latent), facts, off)
    doubts = np.array([doubt(each) for each in facts])
    values = np.array([each.value for each in facts])
    sound = np.all(np.isfinite(answers), axis=1)
    if np.sum(sound) < LEAST_LEFT * len(latent):
        sound = np.isfinite(answers).sum(axis=1) == np.isfinite(answers).sum(axis=1).max()
    # A member that does not reach where a hook hung is moved as if it answered like the others.
    answers = np.where(np.isfinite(answers), answers, np.nanmedian(answers, axis=0))
    state = np.hstack([latent, off])
    scaled = (answers - np.mean(answers[sound], axis=0)) / doubts
    moved = state - np.mean(state[sound], axis=0)
    each = np.sum(sound) - 1
    together = scaled[sound].T @ scaled[sound] / each + widened * np.eye(len(facts))
    gain = np.linalg.solve(together, scaled[sound].T @ moved[sound] / each)
    noise = np.sqrt(widened) * random.standard_normal(answers.shape)
    state = state + ((values - answers) / doubts + noise) @ gain
    width = latent.shape[1]
    return state[:, :width], state[:, width:]
