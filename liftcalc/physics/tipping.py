"""Supports, tipping lines and tipping loads."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from liftcalc.physics import formulas
from liftcalc.physics.plane import Real


@dataclass(frozen=True, slots=True, kw_only=True)
class Support:
    """A point the machine stands on [m], by name."""

    name: str
    x: float
    y: float
    z: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line the machine may tip about, with every support to its right seen from above."""

    name: str
    start: Support
    end: Support


def hull(supports: Sequence[Support]) -> tuple[Support, ...]:
    """The supports on the convex hull in plan, clockwise seen from above.

    A support inside the hull, or on one of its sides, is left out: it never makes the machine
    safer than the hull. Removing a support never raises a tipping load.
    """
    points = sorted(supports, key=lambda p: (p.x, p.y))

    def half(ordered: Sequence[Support]) -> list[Support]:
        chain: list[Support] = []
        for point in ordered:
            while len(chain) > 1 and _turn(chain[-2], chain[-1], point) >= 0:
                chain.pop()
            chain.append(point)
        return chain[:-1]

    return tuple(half(points) + half(points[::-1]))


def _turn(one: Support, two: Support, three: Support) -> float:
    """Positive when the way from one to two to three turns left."""
    return (two.x - one.x) * (three.y - one.y) - (two.y - one.y) * (three.x - one.x)


def ring(supports: Sequence[Support]) -> tuple[Line, ...]:
    """Tipping lines round the hull of a set of supports."""
    corners = hull(supports)
    return tuple(
        Line(name=f"over {start.name} and {end.name}", start=start, end=end)
        for start, end in zip(corners, (*corners[1:], corners[0]), strict=True)
    )


def unit_moment(line: Line, *, x: Real, y: Real, z: Real, gravity: tuple[Real, Real, Real]) -> Real:
    """Moment of one kilogram at (x, y, z) [m] about a line, positive when it holds [N.m/kg]."""
    return formulas.line_moment(
        point_x=x,
        point_y=y,
        point_z=z,
        start_x=line.start.x,
        start_y=line.start.y,
        start_z=line.start.z,
        end_x=line.end.x,
        end_y=line.end.y,
        end_z=line.end.z,
        gravity_x=gravity[0],
        gravity_y=gravity[1],
        gravity_z=gravity[2],
    ).unit_moment


LEAST = float(np.finfo(float).tiny)
"""The least moment of a kilogram that is told from none [N.m/kg]."""


def load_at_tipping(*, holding_moment: Real, load_unit_moment: Real) -> Real:
    """Load at which the machine just tips about a line, from zero upward [kg].

    Parameters
    ----------
    holding_moment : float or array
        Moment of the machine about the line, positive when it holds [N.m].
    load_unit_moment : float or array
        Moment about the line of one kilogram of load [N.m/kg].

    Returns
    -------
    float or array
        Zero where the machine tips with no load (a load that would hold it down is never
        credited); infinity where the load does not tip; NaN for an unreachable pose. Exact for a
        rigid machine; tyre and ground give make it overstate stability by 1 to 4 %
        (Majdan et al. 2021).
    """
    holding = np.maximum(holding_moment, 0.0)
    # The least moment there is stands for none: the load is then endless, or nothing over nothing.
    # (Between two arrays numpy's minimum is several times as fast as between array and number.)
    tips = np.minimum(load_unit_moment, np.full(np.shape(load_unit_moment), -LEAST))
    with np.errstate(over="ignore"):
        return formulas.tipping_load(holding_moment=holding, load_unit_moment=tips).tipping_load


class Coefficients(NamedTuple):
    """What one kilogram counts for as a linear form of its place: x, y, z and a constant."""

    x: Real
    y: Real
    z: Real
    fixed: Real


def swinging_unit_moment(
    line: Line, *, x: Real, y: Real, z: Real, gravity: tuple[Real, Real, Real], swing: Real
) -> Real:
    """Moment of one kilogram of a hanging load, swung up to an angle [rad] the worst way.

    The hang point does not move. No swing toward the machine is credited.

    Returns
    -------
    float or array
        Least moment over all leans, see `least_leaning` [N.m/kg].
    """
    lever = (x - line.start.x, y - line.start.y, z - line.start.z)
    along = np.array(
        [line.end.x - line.start.x, line.end.y - line.start.y, line.end.z - line.start.z]
    )
    along = along / np.sqrt(along @ along)
    # Moment about the line of a force f at the point is f · (ê × (r − P)).
    per_force = (
        along[1] * lever[2] - along[2] * lever[1],
        along[2] * lever[0] - along[0] * lever[2],
        along[0] * lever[1] - along[1] * lever[0],
    )
    return least_leaning(
        still=unit_moment(line, x=x, y=y, z=z, gravity=gravity),
        per_force=per_force,
        gravity=gravity,
        swing=swing,
    )


def least_leaning(
    *,
    still: Real,
    per_force: tuple[Real, Real, Real],
    gravity: tuple[Real, Real, Real],
    swing: Real,
) -> Real:
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
    size = np.sqrt(gravity[0] ** 2 + gravity[1] ** 2 + gravity[2] ** 2)
    down = sum(p * g for p, g in zip(per_force, gravity, strict=True)) / size
    whole = sum(p * p for p in per_force)
    # Poses of a grid that cannot be taken are NaN, and stay so.
    with np.errstate(invalid="ignore"):
        square = np.sqrt(np.maximum(whole - down * down, 0.0)) * size
        most = np.hypot(still, square)
        # Leaning to the end of the swing, unless the weight is square to its lever before that.
        leaned = still * np.cos(swing) - square * np.sin(swing)
        return np.where(-still >= most * np.cos(swing), -most, leaned)[()]
