"""Linear criteria in the plane of the end that lifts: forms of a place, and what they come to."""

from __future__ import annotations

from typing import NamedTuple

from liftcalc.evaluation.linear_criteria import LinearCriterion
from liftcalc.machines.arm import CarriedMass
from liftcalc.physics.functions import Real
from liftcalc.physics.plane import Point
from liftcalc.physics.wrench import Vector, WrenchFunctional


class PlaneForm(NamedTuple):
    """A functional of one still kilogram, as a linear form of its place in the plane of the end.

    It counts for ``out`` times how far outward it is (a row for each slew), ``up`` times how high,
    and ``base``; ``left`` for every metre to the left of the plane. ``rests`` is the functional of
    all that does not move, with its constant, in every state of the machine, and ``rest`` the least
    of them. ``gravity`` is the effective one [m/s²].
    """

    functional: WrenchFunctional
    out: Real
    up: Real
    base: Real
    left: Real
    rests: tuple[Real, ...]
    rest: Real
    gravity: Vector

    def at(self, place: Point) -> Real:
        """What one kilogram at a place counts for."""
        return self.out * place.u + self.above(place.w)

    def above(self, height: Real) -> Real:
        """What of that no slew changes."""
        level = self.up.__class__ is float and self.up == 0  # on level ground heights do not count
        return self.base if level else self.up * height + self.base

    def carried(self, masses: CarriedMass) -> Real:
        """What the masses of the end count for."""
        fixed = self.base * masses.mass
        if not (self.up.__class__ is float and self.up == 0):
            fixed = self.up * masses.first.w + fixed
        return self.out * masses.first.u + fixed


class Rule(NamedTuple):
    """One way of a linear criterion: it holds while any of its forms is not negative."""

    criterion: LinearCriterion
    forms: tuple[PlaneForm, ...]

    @property
    def title(self) -> str:
        """Name and place of the criterion."""
        return f"{self.criterion.name} {self.criterion.where}".strip()


class Held(NamedTuple):
    """A form on a posed machine without a load; what a kilogram adds, with and without its pull."""

    holding: Real
    per_kilogram: Real
    leaning: Real


class Case(NamedTuple):
    """One of what cannot be known: where the load is, how far to a side [m], the machine's state.

    ``side`` None is whichever side is worse.
    """

    at: Point
    side: float | None
    state: int
