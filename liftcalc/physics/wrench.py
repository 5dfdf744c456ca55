"""Numbers that are linear in the forces on a machine, and the load at which one of them fails.

The moment about a tipping line, what a support carries, what is left of the grip of the braked
wheels: each is one number, linear in every weight's force and in its moment about the origin of
the machine frame. A criterion holds while its number is not negative; since the load's part of it
is linear too, the load at which it fails is one division.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from liftcalc.physics import formulas
from liftcalc.physics.functions import Real, cos, hypot, is_zero, maximum, minimum, sin, sqrt
from liftcalc.physics.tipping import Line
from liftcalc.physics.worked import Worked

Vector = tuple[Real, Real, Real]
NOTHING: Vector = (0.0, 0.0, 0.0)
LEAST = float(np.finfo(float).tiny)
"""The least moment of a kilogram that is told from none [N.m/kg]."""


class PlaceForm(NamedTuple):
    """What one still kilogram counts for as a linear form of its place: x, y, z and a constant."""

    x: Real
    y: Real
    z: Real
    fixed: Real


class WrenchFunctional(NamedTuple):
    """``force · F + moment · M`` for a force F [N] with moment M about the origin [N.m].

    ``force`` and ``moment`` are what a unit of each counts for, along x, y and z.
    """

    force: Vector = NOTHING
    moment: Vector = NOTHING

    def plus(self, other: WrenchFunctional, times: Real = 1.0) -> WrenchFunctional:
        """This and another functional, the other so many times."""
        (f, g, h), (a, b, c) = self
        (i, j, k), (p, q, r) = other
        return WrenchFunctional(
            (f + times * i, g + times * j, h + times * k),
            (a + times * p, b + times * q, c + times * r),
        )

    def per_force(self, *, x: Real, y: Real, z: Real) -> Vector:
        """What a unit force at a point [m] counts for, along x, y and z."""
        (f, g, h), (a, b, c) = self
        return f + b * z - c * y, g + c * x - a * z, h + a * y - b * x

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
        still = per_force[0] * gravity[0] + per_force[1] * gravity[1] + per_force[2] * gravity[2]
        if is_zero(swing):
            return still
        return least_leaning(still=still, per_force=per_force, gravity=gravity, swing=swing)

    def of_place(self, gravity: Vector) -> PlaceForm:
        """What one still kilogram counts for, as a linear form of its place; exact."""
        g_x, g_y, g_z = gravity
        (f, g, h), (a, b, c) = self
        return PlaceForm(
            c * g_y - b * g_z, a * g_z - c * g_x, b * g_x - a * g_y, f * g_x + g * g_y + h * g_z
        )


class LevelForce(NamedTuple):
    """A force that no mass scales: level, from whichever side is worse, or not there at all.

    ``worked`` ends in its size [N]; ``at`` is where on the machine it acts [m], None: on the load.
    """

    worked: Worked
    at: Vector | None = None

    @property
    def size(self) -> Real:
        """Its size [N]."""
        return self.worked.steps[-1]

    def places(self, loads: Sequence[Vector]) -> Sequence[Vector]:
        """Where it may act, for a load that may act there [m]."""
        return loads if self.at is None else (self.at,)


def pushed(
    forces: Sequence[LevelForce],
    functional: WrenchFunctional,
    loads: Sequence[Vector],
    *,
    aside: bool = False,
) -> tuple[Real, ...]:
    """The least that each level force counts for, so that more of it never helps.

    Parameters
    ----------
    forces : sequence of LevelForce
    functional : WrenchFunctional
    loads : sequence of Vector
        Everywhere the load may act [m].
    aside : bool
        Whether its push along the ground comes off as well.

    Returns
    -------
    tuple of float or array
        Of each force minus its size times the most that a unit level force counts for. Exact for
        one force; overstates several, which do not come from different sides at once.
    """
    found = []
    for force in forces:
        most: Real = 0.0
        for x, y, z in force.places(loads):
            along, across, _ = functional.per_force(x=x, y=y, z=z)
            most = maximum(most, hypot(along, across))
        found.append(-force.size * (most + 1.0 if aside else most))
    return tuple(found)


def moment_about(line: Line) -> WrenchFunctional:
    """The moment about a tipping line, positive when it holds [N.m].

    Exact for a rigid machine; measured tip angles are 1 to 4 % smaller (Majdan et al. 2021), so it
    overstates stability by that much.
    """
    (_, x, y, z, *_), (_, u, v, w, *_) = line.start, line.end
    run = sqrt((u - x) ** 2 + (v - y) ** 2 + (w - z) ** 2)
    a, b, c = (u - x) / run, (v - y) / run, (w - z) / run
    return WrenchFunctional((c * y - b * z, a * z - c * x, b * x - a * y), (a, b, c))


def least_leaning(*, still: Real, per_force: Vector, gravity: Vector, swing: Real) -> Real:
    """Least that a weight counts for when it may lean any way, up to an angle.

    Parameters
    ----------
    still : float or array
        What one kilogram counts for hanging still: ``per_force · gravity``.
    per_force : three floats or arrays
        What a unit of force along x, y and z counts for.
    gravity : three floats or arrays
        Effective gravity [m/s²].
    swing : float or array
        Greatest lean [rad].

    Returns
    -------
    float or array
        The weight keeps its size and leans by the swing, or by less where less is worse, so that
        more swing never helps: cos(a)·k − sin(a)·s, with s the most that a weight of the same size
        square to gravity counts for, and a the lean.
    """
    size = sqrt(gravity[0] ** 2 + gravity[1] ** 2 + gravity[2] ** 2)
    whole = per_force[0] ** 2 + per_force[1] ** 2 + per_force[2] ** 2
    # Poses of a grid that cannot be taken are NaN, and stay so.
    with np.errstate(invalid="ignore"):
        square = sqrt(maximum(whole - (still / size) ** 2, 0.0 * still)) * size
        most = hypot(still, square)
        return leaned(still=still, square=square, most=most, swing=swing)


def leaned(*, still: Real, square: Real, most: Real, swing: Real) -> Real:
    """What a weight counts for that leans to the end of its swing, or square to its lever before.

    ``still`` hanging still, ``square`` the most it counts for square to that, ``most`` both
    together [N.m/kg, or whatever is counted]; ``swing`` [rad].
    """
    cosine, sine = cos(swing), sin(swing)
    if still.__class__ is float and cosine.__class__ is float:
        return -most if -still >= most * cosine else still * cosine - square * sine
    return np.where(-still >= most * cosine, -most, still * cosine - square * sine)[()]


def load_at_tipping(*, holding_moment: Real, load_unit_moment: Real) -> Real:
    """Load at which a number that a load takes from comes to nothing, from zero upward [kg].

    Parameters
    ----------
    holding_moment : float or array
        The number without the load, of a tipping line the moment of the machine [N.m].
    load_unit_moment : float or array
        What one kilogram of load adds [N.m/kg].

    Returns
    -------
    float or array
        Zero where it fails with no load (a load that would hold it down is never credited);
        infinity where the load does not take from it; NaN for an unreachable pose. Exact for a
        rigid machine; tyre and ground give make it overstate stability by 1 to 4 %
        (Majdan et al. 2021).
    """
    if holding_moment.__class__ is float and load_unit_moment.__class__ is float:
        if load_unit_moment > -LEAST:
            # What is not a number stays so.
            return np.inf if holding_moment > 0 else min(holding_moment, 0.0) * 0.0
        return formulas.tipping_load(
            holding_moment=maximum(holding_moment, 0.0), load_unit_moment=load_unit_moment
        ).tipping_load
    holding = np.maximum(holding_moment, 0.0)
    # The least moment there is stands for none: the load is then endless, or nothing over nothing.
    tips = np.minimum(load_unit_moment, -LEAST)
    with np.errstate(over="ignore"):
        return formulas.tipping_load(holding_moment=holding, load_unit_moment=tips).tipping_load


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
            first = maximum(first, -held / minimum(each, -LEAST))
            if each.__class__ is float:
                last = minimum(last, -held / each) if each > 0 else last
                continue
            mends = np.greater(each, 0.0)
            if np.any(mends):
                last = np.minimum(last, np.where(mends, -held / each, np.inf))
        if first.__class__ is float and last.__class__ is float:
            return np.inf if first >= last else first
        # Not `first < last`: what is not a number stays so.
        return np.where(first >= last, np.inf, first)[()]
