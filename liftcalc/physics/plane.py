"""Points and turns in the plane of an end: u outward, w up.

The front end's plane is the machine's own: u is x. The back end's plane turns with the slew.
Everything here takes scalars or arrays that broadcast.
"""

from __future__ import annotations

import math
from typing import Any, NamedTuple

import numpy as np

from liftcalc.physics import formulas
from liftcalc.physics.functions import Real, atan2, cos, hypot, sin


class Point(NamedTuple):
    """A point in the plane of an end [m]."""

    u: Real
    w: Real


ORIGIN = Point(0.0, 0.0)


class Frame(NamedTuple):
    """Where a link stands: its own origin [m], and its X axis as a cosine and a sine above level.

    A frame keeps cosine and sine and not the angle, so that a grid of poses is turned once and
    every point of a link is then a matter of products.
    """

    origin: Point
    cosine: Real
    sine: Real

    def turn(self, at: Point) -> Point:
        """A distance told in the link's own frame, told in the plane of the end."""
        return Point(at.u * self.cosine - at.w * self.sine, at.u * self.sine + at.w * self.cosine)

    def place(self, at: Point) -> Point:
        """A point of the link in the plane of the end [m]. Exact for a rigid link."""
        out, up = self.turn(at)
        return Point(self.origin.u + out, self.origin.w + up)

    def along(self, length: Real) -> Point:
        """The point of the link's own X axis at a distance from its origin [m]."""
        return Point(self.origin.u + length * self.cosine, self.origin.w + length * self.sine)

    def carry(self, other: Frame) -> Frame:
        """A frame told in this one, told in the plane of the end."""
        return Frame(self.place(other.origin), *self.turn(other.axis))

    def turn_back(self, at: Point) -> Point:
        """A distance in the plane of the end, told in the link's own frame."""
        return Point(at.u * self.cosine + at.w * self.sine, at.w * self.cosine - at.u * self.sine)

    @property
    def axis(self) -> Point:
        """One metre along the link's own X axis, in the plane of the end."""
        return Point(self.cosine, self.sine)

    @property
    def angle(self) -> Real:
        """Direction of the link's own X axis above horizontal, within half a turn [rad]."""
        return atan2(self.sine, self.cosine)


def some_of(posed: Any, rows: Any) -> Any:
    """A named tuple of poses at some of its places: arrays are chosen from, the rest is shared."""
    if isinstance(posed, np.ndarray) and posed.ndim:
        return posed[rows]
    if isinstance(posed, tuple) and hasattr(posed, "_fields"):
        return type(posed)(*(some_of(each, rows) for each in posed))
    return posed


def turned(*, origin: Point, angle: Real) -> Frame:
    """The frame of a link whose own X axis stands at an angle above horizontal [rad]."""
    return Frame(origin, cos(angle), sin(angle))


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
    return turned(origin=origin, angle=angle).place(at)


def direction(*, start: Point, end: Point) -> Real:
    """Angle above horizontal of the line from one point to another [rad]."""
    return atan2(end.w - start.w, end.u - start.u)


def distance(*, start: Point, end: Point) -> Real:
    """Distance between two points [m]."""
    return hypot(end.u - start.u, end.w - start.w)


def crossing(
    *, first: Point, first_radius: Real, second: Point, second_radius: Real, side: Real
) -> Point:
    """Where two links of known length meet; NaN where they cannot.

    ``side`` is +1 for the crossing on the left of the line from first to second, −1 right [-].
    """
    try:
        with np.errstate(invalid="ignore", divide="ignore"):
            met = formulas.circle_crossing(
                first_u=first.u,
                first_w=first.w,
                first_radius=first_radius,
                second_u=second.u,
                second_w=second.w,
                second_radius=second_radius,
                side=side,
            )
    except ZeroDivisionError:  # both pins in one place
        return Point(math.nan, math.nan)
    return Point(met.crossing_u, met.crossing_w)


def side_of(*, point: Point, start: Point, end: Point) -> Real:
    """+1 where a point lies left of the line from start to end, −1 right of it [-]."""
    cross = (end.u - start.u) * (point.w - start.w) - (end.w - start.w) * (point.u - start.u)
    return float((cross > 0) - (cross < 0)) if cross.__class__ is float else np.sign(cross)
