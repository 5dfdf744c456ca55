"""What a machine known by facts is allowed: over all that it may be, not one figure after another.

Each criterion counts with the lower twentieth of what it would allow to the members of the family
that agree with the facts. Where they take several criteria down at once the lower ends are taken
lower together, so that the least of them is below the least of nineteen members of twenty.
"""

from __future__ import annotations

from functools import reduce
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from liftcalc.family.draw import each_figure
from liftcalc.family.facts import fact
from liftcalc.family.known import KnownMachine
from liftcalc.family.unlikely import Seen
from liftcalc.family.unlikely_fact import UnlikelyFact
from liftcalc.machines.number import plain
from liftcalc.machines.schema import EndName, Machine
from liftcalc.physics.functions import Real
from liftcalc.remarks import Remark, near
from liftcalc.units import Kind

Floats = NDArray[np.float64]
CAREFUL = 0.05
"""Share of members that an answer may be above [-]: the lower end of the middle nine tenths."""
OF_A_QUARTER = 0.03
"""The same of a quarter of the members, which miss a twentieth by 0.014 (one sigma): lower."""
MOST_USED = 1.0
"""What a kilogram uses at most of a criterion that allows nothing [1/kg]."""
LEAST_REACHING = 0.2
"""Share of members that must reach where the hook is, or nothing is known of those that do [-]."""


def known_remarks(machine: KnownMachine) -> list[Remark]:
    """What is said of a machine known by facts: those that are unlikely, and how many there are."""
    slips = [slip_remark(each) for each in machine.slips]
    return [*slips, Remark("known_by_facts", count=machine.known_by)]


def slip_remark(slip: UnlikelyFact) -> Remark:
    """A fact that is unlikely, and the figure that would be likely."""
    asked = fact(slip.told.key)
    kind: Kind = "diameter" if asked.key.endswith(("_bore", "_rod")) else asked.unit
    return Remark(
        "unlikely_fact",
        fact=asked.question,
        given=near(slip.told.value, kind),
        likely=near(slip.likely, kind),
        why=f" ({slip.slip})" if slip.slip else "",
    )


def seen_remark(seen: Seen) -> Remark:
    """What to look at, where a fact is unlikely."""
    given, likely = near(seen.given, seen.kind), near(seen.likely, seen.kind)
    return Remark("look_which", what=seen.words, given=given, likely=likely)


def reaching(samples: Floats) -> Floats:
    """What criteria allow (C, N) to the members that reach: the hook is there, so the machine does.

    None at all where too few do.
    """
    found = samples[:, ~np.isnan(samples).any(axis=0)]
    return found if found.shape[1] >= LEAST_REACHING * samples.shape[1] else found[:, :0]


def ends(samples: Floats, *, hopeful: bool = False, share: float = CAREFUL) -> Floats:
    """The end of what each criterion allows (C,), of samples (C, N) [kg].

    The careful one, at which the least of all criteria is no more than a twentieth of the samples
    have, or another share; or for each by itself the favourable one. Nothing where too few reach.
    """
    ranked = np.sort(reaching(samples), axis=1)
    count = ranked.shape[1]
    if not count:
        return np.zeros(len(samples))
    if hopeful:
        return np.asarray(ranked[:, -1 - int(share * (count - 1))])
    rank = int(share * (count - 1))
    lowest, _ = span(samples, share=share)
    together = int(np.searchsorted(ranked[:, : rank + 1].min(axis=0), lowest, side="right")) - 1
    return np.asarray(ranked[:, together])


def span(samples: Floats, *, share: float = CAREFUL) -> tuple[float, float]:
    """Careful and favourable end of the least of all criteria, of samples (C, N) [kg]."""
    least = np.sort(reaching(samples).min(axis=0, initial=np.inf))
    if not len(least):
        return 0.0, 0.0
    rank = int(share * (len(least) - 1))
    return float(least[rank]), float(least[-1 - rank])


class Grid(NamedTuple):
    """Places of the hook: reaches (I,), none where the arms decide them, and heights (J,) [m]."""

    reaches: Floats | None
    heights: Floats

    @property
    def shape(self) -> tuple[int, int]:
        """How many reaches and heights there are; one reach where the arms decide it."""
        return 1 if self.reaches is None else len(self.reaches), len(self.heights)

    @property
    def places(self) -> tuple[Floats | None, Floats]:
        """Reach and height of all places, one after another [m]."""
        if self.reaches is None:
            return None, self.heights
        return np.repeat(self.reaches, len(self.heights)), np.tile(self.heights, len(self.reaches))


def in_column(machine: Machine) -> Machine:
    """A quarter of machines of (N,) figures, in a column: all are answered at (P,) places."""

    def stood(figure: Any) -> Any:
        return np.asarray(figure)[::4, np.newaxis] if np.ndim(figure) else figure

    found: Machine = each_figure(machine, stood)
    return found


def grid_of(machine: Machine, end: EndName) -> Grid:
    """Places over the range of an end, up to 0.4 m apart."""
    if end == "front":
        return Grid(None, np.linspace(0.2, 3.4, 33))
    back = machine.back
    far = plain(back.foot_pin[0]) + plain(back.boom.length) + plain(back.dipper.length)
    return Grid(far * np.linspace(0.28, 0.98, 13), np.linspace(-1.0, 3.5, 12))


class UsedMore(NamedTuple):
    """What of each criterion a kilogram uses more by all that a machine may be [1/kg].

    Known at the places of a grid (C, I, J). In between the most, or where one hopes the least, of
    the four places round it counts: it errs that way, but for what bends within a cell.
    """

    grid: Grid
    used: Floats
    hopeful: bool = False

    def taken_off(self, number: int, allowed: Real, *, reach: Real, height: Real) -> Real:
        """What a criterion allows of what it would as told [kg], with the hook at places [m]."""
        more = self._at(self.used[number], reach, height)
        with np.errstate(divide="ignore", invalid="ignore"):
            used = 1 / np.asarray(allowed, dtype=float) + more
            left = np.where(used > 0, 1 / used, np.inf)
        return np.where(allowed > 0, left, allowed)

    def _at(self, used: Floats, reach: Real, height: Real) -> Real:
        pick = np.minimum if self.hopeful else np.maximum
        row = _before(self.grid.heights, height)
        columns: tuple[Any, ...] = (0,)
        if self.grid.reaches is not None:
            column = _before(self.grid.reaches, reach)
            columns = (column, column + 1)
        return reduce(pick, [used[at, beside] for at in columns for beside in (row, row + 1)])


def _before(axis: Floats, at: Real) -> Any:
    """Index of the grid line before a place; the first or the last but one beyond the ends."""
    step = np.nan_to_num((at - axis[0]) / (axis[1] - axis[0]))
    return np.clip(np.floor(step), 0, len(axis) - 2).astype(int)


def used_more(told: Floats, found: Floats) -> Floats:
    """What a kilogram uses more where criteria allow less than they would as told [1/kg]."""
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.asarray(np.minimum(1 / found, MOST_USED) - np.minimum(1 / told, MOST_USED))


def filled(used: Floats) -> Floats:
    """The same (C, I, J) with every place that cannot be taken, NaN, as the nearest that can."""
    valid = np.argwhere(~np.isnan(used).any(axis=0))
    if not len(valid):
        return np.full(used.shape, MOST_USED)
    for place in np.argwhere(np.isnan(used).any(axis=0)):
        nearest = valid[np.argmin(np.sum((valid - place) ** 2, axis=1))]
        used[:, place[0], place[1]] = used[:, nearest[0], nearest[1]]
    return used
