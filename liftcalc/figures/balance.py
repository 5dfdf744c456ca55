"""Where the weight of machine and log falls, and the region inside which it must.

Everything is looked at along effective gravity: a support above the ground (the pin of an
oscillating axle) counts where its plumb line meets the ground. So the weight falls inside the
region exactly when no tipping line turns; on level ground it is the plain view from above.
"""

from __future__ import annotations

from dataclasses import dataclass

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.reached import LineCapacity
from liftcalc.figures.scene import Spot, between
from liftcalc.machines.assembly import PointMass, total_mass

Place = tuple[float, float, float]

FAR = 60.0
"""Half the side of the square that tipping lines are cut out of [m]; no machine is larger."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """Balance point of machine, rigging and log as planned, and what it must fall inside.

    ``cog`` [m] in the machine frame; ``foot`` [m] where its plumb line meets the ground in plan;
    ``region`` [m] in plan, empty when no weight would be held; ``first`` is the line over which
    the machine tips first; ``inside`` says that the weight falls inside every line.
    """

    cog: Place
    foot: Spot
    region: tuple[Spot, ...]
    first: LineCapacity
    inside: bool


def plumb(at: Place, gravity: Place) -> Spot:
    """Where the plumb line through a point meets the ground, in plan [m]."""
    x, y, z = (float(part) for part in at)
    gx, gy, gz = (float(part) for part in gravity)
    return x - z * gx / gz, y - z * gy / gz


def balance(answer: Answer) -> Balance:
    """The balance of an answer, with the log's planning mass and no load factor."""
    lift, reached = answer.lift, answer.reached
    x, y, z = reached.load
    log = PointMass(name="log", mass=lift.log.mass_planning + lift.rigging, x=x, y=y, z=z)
    whole = total_mass((reached.standing.whole, log))
    cog = float(whole.x), float(whole.y), float(whole.z)
    foot = plumb(cog, reached.gravity)
    return Balance(
        cog=cog,
        foot=foot,
        region=region(reached.lines, reached.gravity),
        first=min(reached.lines, key=lambda each: float(each.tipping_load)),
        inside=all(
            _right_of(foot, *ends_on_ground(each, reached.gravity)) > 0 for each in reached.lines
        ),
    )


def region(lines: tuple[LineCapacity, ...], gravity: Place) -> tuple[Spot, ...]:
    """The region that all tipping lines enclose, seen along gravity, clockwise [m]."""
    left: tuple[Spot, ...] = ((-FAR, -FAR), (-FAR, FAR), (FAR, FAR), (FAR, -FAR))
    for each in lines:
        start, end = ends_on_ground(each, gravity)
        left = _cut(left, start, end)
    return left


def ends_on_ground(each: LineCapacity, gravity: Place) -> tuple[Spot, Spot]:
    """Both ends of a tipping line where their plumb lines meet the ground, in plan [m]."""
    start, end = each.line.start, each.line.end
    return plumb((start.x, start.y, start.z), gravity), plumb((end.x, end.y, end.z), gravity)


def _right_of(at: Spot, start: Spot, end: Spot) -> float:
    return (end[1] - start[1]) * (at[0] - start[0]) - (end[0] - start[0]) * (at[1] - start[1])


def _cut(outline: tuple[Spot, ...], start: Spot, end: Spot) -> tuple[Spot, ...]:
    """The part of an outline that lies to the right of a line."""
    kept: list[Spot] = []
    for one, two in zip(outline, (*outline[1:], *outline[:1]), strict=True):
        here, there = _right_of(one, start, end), _right_of(two, start, end)
        if here >= 0:
            kept.append(one)
        if here * there < 0:
            kept.append(between(one, two, here / (here - there)))
    return tuple(dict.fromkeys(kept))
