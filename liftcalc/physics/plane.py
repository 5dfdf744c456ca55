"""Points and turns in the plane of an end: u outward, w up.

The front end's plane is the machine's own: u is x. The back end's plane turns with the slew.
Everything here takes scalars or arrays that broadcast.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

from liftcalc.physics import written

Real = Any  # a float or an array of floats


class Point(NamedTuple):
    """A point in the plane of an end [m]."""

    u: Real
    w: Real


def place(*, origin: Point, angle: Real, at: Point) -> Point:
    """Where a point of a link stands.

    Parameters
    ----------
    origin : Point
        Where the link's own origin stands [m].
    angle : float or array
        Direction of the link's own X axis above horizontal [rad].
    at : Point
        The point in the link's own frame [m].

    Returns
    -------
    Point
        The point in the plane of the end [m]. Exact for a rigid link.
    """
    cosine, sine = np.cos(angle), np.sin(angle)
    return Point(
        origin.u + at.u * cosine - at.w * sine,
        origin.w + at.u * sine + at.w * cosine,
    )


def direction(*, start: Point, end: Point) -> Real:
    """Angle above horizontal of the line from one point to another [rad]."""
    return np.arctan2(end.w - start.w, end.u - start.u)


def distance(*, start: Point, end: Point) -> Real:
    """Distance between two points [m]."""
    return np.hypot(end.u - start.u, end.w - start.w)


def crossing(
    *, first: Point, first_radius: Real, second: Point, second_radius: Real, side: Real
) -> Point:
    """Where two links of known length meet; NaN where they cannot.

    ``side`` is +1 for the crossing on the left of the line from first to second, −1 right [-].
    """
    with np.errstate(invalid="ignore", divide="ignore"):
        met = written.circle_crossing(
            first_u=first.u, first_w=first.w, first_radius=first_radius,
            second_u=second.u, second_w=second.w, second_radius=second_radius, side=side,
        )  # fmt: skip
    return Point(met.crossing_u, met.crossing_w)


def side_of(*, point: Point, start: Point, end: Point) -> Real:
    """+1 where a point lies left of the line from start to end, −1 right of it [-]."""
    cross = (end.u - start.u) * (point.w - start.w) - (end.w - start.w) * (point.u - start.u)
    return np.sign(cross)
