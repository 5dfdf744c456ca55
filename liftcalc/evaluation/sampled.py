"""One lift by many machines at once: what each criterion allows, over samples of what is not known.

The machine's figures are arrays, a sample each, and so may the place of the hook and the slope be:
the one evaluator answers all samples in the time of a few.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from liftcalc.evaluation.evaluator import Evaluator
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.members import CAREFUL
from liftcalc.evaluation.possible import allowed_by
from liftcalc.evaluation.tolerances import by_machine
from liftcalc.evaluation.turning import back_limits
from liftcalc.machines.schema import Machine
from liftcalc.physics.functions import Real

Floats = NDArray[np.float64]
FLOOR = 0.02
"""Standard deviation of what a machine tips at and its rams lift about what rigid bodies say [-].

Tip angles were measured 0.9 to 2.6 % off it with the tyres' give counted (Majdan et al. 2021), arm
pressures up to 10 %, of which a share common to all rams is told by the family: judgement.
"""
_UPPER = 1.6449
"""Standard deviations from the likely figure of a log to the one planned on, see ``timber``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceDoubt:
    """What is not known of where the hook is and how the machine stands: standard deviations.

    Of reach and height [m], of the slew [rad], and of a slope beside the one told [rad], whichever
    way. Common practice, no source: by eye, without a tape.
    """

    reach: float = 0.05
    height: float = 0.05
    slew: float = float(np.radians(2.0))
    slope: float = 0.0


@dataclass(frozen=True, kw_only=True)
class SampledLift:
    """What every criterion would allow, in every sample.

    Attributes
    ----------
    lift : Lift
        The lift, its machine in arrays.
    titles : tuple of (kind, title)
        Of every criterion.
    allowed : (C, N) array
        Load each allows [kg]. NaN where a sample cannot stand so.
    needed : (N,) array
        What hangs on the lift point in each sample [kg].
    off : dict
        For reach, height, slew and log how many standard deviations each sample is off [-].
    """

    lift: Lift
    titles: tuple[tuple[str, str], ...]
    allowed: Floats
    needed: Floats
    off: dict[str, Floats]

    @cached_property
    def least(self) -> Floats:
        """The least of all criteria in each sample [kg]; nothing where it cannot stand so."""
        return np.asarray(np.where(self.reaches, np.min(self.allowed, axis=0), 0.0))

    @cached_property
    def reaches(self) -> NDArray[np.bool_]:
        """Which samples can stand so."""
        return np.asarray(~np.isnan(self.allowed).any(axis=0))

    def quantile(self, share: float) -> tuple[float, ...]:
        """What each criterion allows in all but a share of the samples [kg], rounded down.

        A sample that cannot stand so allows nothing.
        """
        told = np.where(np.isnan(self.allowed), 0.0, self.allowed)
        return tuple(np.quantile(told, share, axis=1, method="lower").tolist())

    def range(self, share: float = CAREFUL) -> tuple[float, float, float]:
        """Least allowed load [kg]: lower end, middle and upper end, a share beyond either end."""
        low, middle, high = (
            float(np.quantile(self.least, each, method="lower")) for each in (share, 0.5, 1 - share)
        )
        return low, middle, high

    @property
    def careful(self) -> float:
        """The load that the answer holds at [kg]: the lower end of each criterion and of the least.

        The least of all is never above the lower end of any one.
        """
        return min(*self.quantile(CAREFUL), self.range()[0])

    @property
    def held(self) -> float:
        """Share of samples in which the log may be lifted [-]."""
        return float(np.mean(self.least >= self.needed))


def sampled(
    lift: Lift,
    machine: Machine,
    *,
    place: PlaceDoubt | None = None,
    floor: float = FLOOR,
    seed: int = 0,
) -> SampledLift:
    """A lift by sampled machines.

    Parameters
    ----------
    lift : Lift
        By a machine that has the same attachments. Its tolerances are not counted beside: the
        samples are what its figures are in doubt by.
    machine : Machine
        Figures in arrays of (N,), such as an ensemble of the family.
    place : PlaceDoubt, optional
        How far the hook may be off its place; without, it is where it was told.
    floor : float
        Standard deviation of tipping and rams about what rigid bodies say [-]; 0 where only what
        the machines differ in is asked.
    seed : int
        Of place, log and floor; the same seed gives the same answer.

    Returns
    -------
    SampledLift
        Journeys and unseen slopes at their worst in every sample, as of a single machine.
    """
    count = len(np.atleast_1d(machine.weights.total))
    random = np.random.default_rng([seed, 2])
    off = {name: random.standard_normal(count) for name in ("reach", "height", "slew", "log")}
    made = by_machine(lift, machine)
    least: dict[tuple[str, str], Floats] = {}
    for way in made.ways:
        for title, allowed in _allowed(way, place, off, count):
            before = least.get(title)
            # NaN, where one way cannot be, stays.
            least[title] = allowed if before is None else np.minimum(before, allowed)
    for (kind, part), allowed in least.items():
        if kind in {"tipping", "ram"}:
            least[kind, part] = allowed * np.exp(floor * random.standard_normal(count))
    return SampledLift(
        lift=made,
        titles=tuple(least),
        allowed=np.array(list(least.values())),
        needed=_needed(lift, off["log"]),
        off=off,
    )


def _needed(lift: Lift, off: Floats) -> Floats:
    """What hangs on the lift point [kg], the log as likely to be heavier as lighter."""
    likely, planned = lift.log.mass_likely, lift.log.mass_planning
    spread = np.log(planned / likely) / _UPPER if planned > likely > 0 else 0.0
    mass = likely * np.exp(spread * off)
    return np.asarray(lift.rigging + lift.pull.share * mass)


def _allowed(
    way: Lift, place: PlaceDoubt | None, off: dict[str, Floats], count: int
) -> list[tuple[tuple[str, str], Floats]]:
    """What every criterion allows of one way the lift may go [kg]; a title may come twice."""
    reach: Real = way.reach
    height: Real = way.height
    slew: Real = way.slew
    if place is not None:
        height = height + place.height * off["height"]
        if reach is not None:
            reach = reach + place.reach * off["reach"]
        if way.end == "back":
            slew = slew + place.slew * off["slew"]
    evaluator = Evaluator(way, slew=slew)
    arm = evaluator.pose(reach, height)
    lean = evaluator.lean(arm)
    loads = [allowed for _, allowed in evaluator.kept(arm)]
    loads += [allowed_by(each) for each in evaluator.clearances(arm, lean)]
    stops = evaluator.stops(arm, lean)
    loads += [allowed_by(each) / way.load_factor(each.kind).value for each in stops]
    beyond = np.zeros(count, dtype=bool)
    turning = back_limits(way, slew=slew) if way.end == "back" else ()
    for limit in (*turning, *arm.stops):
        beyond = beyond | limit.violated
    return [
        (title, np.where(beyond, np.nan, np.broadcast_to(load, (count,))))
        for title, load in zip(evaluator.titles, loads, strict=True)
    ]
