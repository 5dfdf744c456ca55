"""Supports, and the lines that a machine may tip about."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

SupportKind = Literal["rear tyre", "front tyre", "axle pin", "pad", "corner"]
"""A tyre, the pin of an axle that oscillates, a stabiliser's pad, a corner of a pressed bucket."""


class Support(NamedTuple):
    """A point the machine stands on [m], by name.

    ``z`` is the height at which the ground's force reaches the machine: zero, or that of the pin of
    an axle that oscillates and whose wheels roll freely. ``stiffness`` is force over settlement;
    only how the supports compare counts, so any unit will do.
    """

    name: str
    x: float
    y: float
    z: float = 0.0
    kind: SupportKind = "pad"
    stiffness: float = 1.0


class Line(NamedTuple):
    """A line the machine may tip about, with every support to its right seen from above."""

    name: str
    start: Support
    end: Support

    @property
    def of_a_pair(self) -> bool:
        """Whether it runs from the left one of two supports to the right one."""
        return self.start.kind == self.end.kind


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
