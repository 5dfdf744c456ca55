"""Numbers that are linear in the forces on a machine, and the load at which one of them fails.

The moment about a tipping line, what a support carries, what is left of the grip of the braked
wheels: each is one number, linear in every weight's force and in its moment about the origin of
the machine frame. A criterion holds while its number is not negative; since the load's part of it
is linear too, the load at which it fails is one division.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from liftcalc.physics.plane import Real
from liftcalc.physics.tipping import LEAST, Coefficients, Line, least_leaning, load_at_tipping

Vector = tuple[Real, Real, Real]
NOTHING: Vector = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class WrenchFunctional:
    """``force · F + moment · M`` for a force F [N] with moment M about the origin [N.m].

    ``force`` and ``moment`` are what a unit of each counts for, along x, y and z.
    """

    force: Vector = NOTHING
    moment: Vector = NOTHING

    def plus(self, other: WrenchFunctional, times: Real = 1.0) -> WrenchFunctional:
        """This and another form, the other so many times."""

        def each(one: Vector, two: Vector) -> Vector:
            x, y, z = (a + times * b for a, b in zip(one, two, strict=True))
            return x, y, z

        return WrenchFunctional(
            force=each(self.force, other.force), moment=each(self.moment, other.moment)
        )

    def per_force(self, *, x: Real, y: Real, z: Real) -> Vector:
        """What a unit force at a point [m] counts for, along x, y and z."""
        a, b, c = self.moment
        return (
            self.force[0] + b * z - c * y,
            self.force[1] + c * x - a * z,
            self.force[2] + a * y - b * x,
        )

    def unit(self, *, x: Real, y: Real, z: Real, gravity: Vector, swing: Real = 0.0) -> Real:
        """What one kilogram at a point counts for, swung up to an angle the worst way.

        Parameters
        ----------
        x, y, z : float or array
            The point [m].
        gravity : three floats or arrays
            Effective gravity [m/s²].
        swing : float or array
            Greatest lean of the weight [rad]; the least over all leans counts, so that more never
            helps. Overstates a swing that cannot go every way.
        """
        per_force = self.per_force(x=x, y=y, z=z)
        still = sum(p * g for p, g in zip(per_force, gravity, strict=True))
        if not np.any(np.asarray(swing) != 0):
            return still
        return least_leaning(still=still, per_force=per_force, gravity=gravity, swing=swing)

    def coefficients(self, *, gravity: Vector) -> Coefficients:
        """The same of one still kilogram as a linear form of its place; exact."""
        g_x, g_y, g_z = gravity
        a, b, c = self.moment
        return Coefficients(
            c * g_y - b * g_z,
            a * g_z - c * g_x,
            b * g_x - a * g_y,
            sum(p * g for p, g in zip(self.force, gravity, strict=True)),
        )


@lru_cache(maxsize=1024)
def about(line: Line) -> WrenchFunctional:
    """The moment about a tipping line, positive when it holds [N.m]."""
    start, end = ((float(each.x), float(each.y), float(each.z)) for each in (line.start, line.end))
    run = math.dist(start, end)
    a, b, c = ((one - two) / run for one, two in zip(end, start, strict=True))
    x, y, z = start
    return WrenchFunctional(force=(c * y - b * z, a * z - c * x, b * x - a * y), moment=(a, b, c))


def load_at_failure(*, holding: Sequence[Real], per_kilogram: Sequence[Real]) -> Real:
    """First load, from zero upward, at which every one of some numbers is negative [kg].

    Parameters
    ----------
    holding : sequence of float or array
        What each number is without the load.
    per_kilogram : sequence of float or array
        What a kilogram of load adds to each.

    Returns
    -------
    float or array
        Infinity where that never happens, zero where it is so with no load at all; NaN for an
        unreachable pose. For one number it is ``load_at_tipping``: a load that would mend what
        fails without it is never credited. Of several the load may mend one and so relieve all:
        the first failure counts, not what comes after.
    """
    if len(holding) == 1:
        return load_at_tipping(holding_moment=holding[0], load_unit_moment=per_kilogram[0])
    first: Real = 0.0
    last: Real = np.inf
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        for held, each in zip(holding, per_kilogram, strict=True):
            # What does not fall with the load falls by nothing: it has failed already, or never.
            falls = np.minimum(each, np.full(np.shape(each), -LEAST))
            first = np.maximum(first, -held / falls)
            mends = np.greater(each, 0.0)
            if np.any(mends):
                last = np.minimum(last, np.where(mends, -held / each, np.inf))
        # Not `first < last`: what is not a number stays so.
        return np.where(first >= last, np.inf, first)[()]
