"""The links, rams and attachment of an end as shapes in its own plane [m]: u outward, w up.

Pins, link lengths, rams and attachment outlines are the machine's own. Between its pins a link
is a beam of our drawing: its bow follows the link's centre of mass, its depth is schematic.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from liftcalc.figures.scene import Disc, Mark, Spot, around, between, line, polygon
from liftcalc.machines.arm import Arm, Joint, LinkOutline
from liftcalc.machines.schema import Link, Machine
from liftcalc.physics.plane import Point, place

STEPS = 16
WALL = 1.18
"""Outside of a ram's barrel over its bore [-]; schematic."""
BARREL = 0.9
"""Share of its closed length that a ram's barrel takes; schematic."""
END_DEPTH, MIDDLE_DEPTH = 0.035, 0.065
"""Half the depth of a beam over its length, at its pins and midway [-]; schematic."""


def transformed(mark: Mark, to: Callable[[Spot], Spot]) -> Mark:
    """A mark with every point of it put through a function."""
    if isinstance(mark, Disc):
        return replace(mark, centre=to(mark.centre))
    return replace(mark, points=tuple(to(each) for each in mark.points))


def spot(at: Point) -> Spot:
    """A point of the plane as a place of the drawing."""
    return float(at.u), float(at.w)


def outlines(arm: Arm, machine: Machine) -> list[Mark]:
    """Everything of an end, from the back of the drawing to its front."""
    made: list[Mark] = []
    links = [each for each in arm.drawn if each.link != "linkage"]
    for each in links:
        made += _link(each, machine)
    if arm.tool.mount != "hangs":
        for each in arm.drawn:
            if each.link == "linkage":
                made += _linkage(each)
    for joint in arm.joints:
        made += _ram(joint)
    made += _attachment(arm)
    made += _pins(arm, links)
    return made


def _link(drawn: LinkOutline, machine: Machine) -> list[Mark]:
    inner, outer = (Point(*spot(each)) for each in drawn.points)
    link, mounts = _parts(drawn, machine)
    angle = math.atan2(outer.w - inner.w, outer.u - inner.u)
    length = math.hypot(outer.u - inner.u, outer.w - inner.w)
    bow = 1.2 * float(link.cog[1])

    def put(points: list[Spot]) -> list[Spot]:
        return [spot(place(origin=inner, angle=angle, at=Point(*each))) for each in points]

    made: list[Mark] = [
        polygon("lug", put(_lug(mount, bow, length)), name=drawn.link) for mount in mounts
    ]
    made.append(polygon("link", put(beam(length, bow)), name=drawn.link))
    made.append(line("axis", spot(inner), spot(outer), name=drawn.link))
    return made


def _parts(drawn: LinkOutline, machine: Machine) -> tuple[Link, list[Spot]]:
    """The link of an outline, and the pins on it that rams hold on to."""
    back, front = machine.back, machine.front
    if drawn.link == "boom":
        return back.boom, [_of(back.boom_ram.rod_pin), _of(back.dipper_ram.base)]
    if drawn.link == "dipper":
        return back.dipper, [_of(back.dipper_ram.rod_pin), _of(back.bucket_ram.base)]
    return front.arm, [_of(front.lift_ram.rod_pin), _of(front.tilt_ram.base)]


def _of(pair: tuple[float, float]) -> Spot:
    return float(pair[0]), float(pair[1])


def beam(length: float, bow: float, depth: float = 1.0) -> list[Spot]:
    """Outline of a beam along X with round ends [m]."""
    upper, lower = [], []
    for step in range(STEPS + 1):
        share = step / STEPS
        belly = 4 * share * (1 - share)
        half = depth * length * (END_DEPTH + (MIDDLE_DEPTH - END_DEPTH) * belly)
        upper.append((share * length, bow * belly + half))
        lower.append((share * length, bow * belly - half))
    end = depth * length * END_DEPTH
    outer = _arc((length, 0.0), end, 90, -90)
    inner = _arc((0.0, 0.0), end, 270, 90)
    return [*upper, *outer, *reversed(lower), *inner]


def _arc(centre: Spot, radius: float, first: float, last: float) -> list[Spot]:
    turns = (math.radians(first + (last - first) * i / 8) for i in range(1, 8))
    return list(around(centre, radius, turns))


def _lug(mount: Spot, bow: float, length: float) -> list[Spot]:
    """A plate from a beam's centre line to a pin that stands off it."""
    x, y = mount
    share = min(1.0, max(0.0, x / length))
    root = 0.075 * length
    foot = 4 * bow * share * (1 - share)
    foot_x = share * length
    away = math.atan2(y - foot, x - foot_x)
    tip = _arc(mount, 0.032 * length, math.degrees(away) + 100, math.degrees(away) - 100)
    across = (-math.sin(away) * root, math.cos(away) * root)
    return [(foot_x + across[0], foot + across[1]), *tip, (foot_x - across[0], foot - across[1])]


def _linkage(drawn: LinkOutline) -> list[Mark]:
    pivot, ram_pin, rocker_pin, link_pin = (spot(each) for each in drawn.points)
    return [
        polygon("lug", (pivot, ram_pin, rocker_pin), name="rocker"),
        polygon("lug", strip(rocker_pin, link_pin, 0.045), name="link"),
    ]


def strip(start: Spot, end: Spot, half: float) -> tuple[Spot, ...]:
    """A straight strip between two places, twice ``half`` wide [m]."""
    length = math.hypot(end[0] - start[0], end[1] - start[1]) or 1.0
    across = (-(end[1] - start[1]) / length * half, (end[0] - start[0]) / length * half)
    return (
        (start[0] + across[0], start[1] + across[1]),
        (end[0] + across[0], end[1] + across[1]),
        (end[0] - across[0], end[1] - across[1]),
        (start[0] - across[0], start[1] - across[1]),
    )


def _ram(joint: Joint) -> list[Mark]:
    base, tip = spot(joint.base_pin), spot(joint.rod_pin)
    length = math.hypot(tip[0] - base[0], tip[1] - base[1])
    share = BARREL * float(joint.ram.closed) / length
    gland = between(base, tip, share)
    return [
        polygon("rod", strip(base, tip, float(joint.ram.rod) / 2), name=joint.name),
        polygon("barrel", strip(base, gland, WALL * float(joint.ram.bore) / 2), name=joint.name),
        line("axis", base, tip, name=joint.name),
    ]


def _attachment(arm: Arm) -> list[Mark]:
    if arm.tool.mount == "hangs" or not arm.tool.outline:
        return []
    placed = (
        spot(place(origin=arm.tool_origin, angle=arm.tool_angle, at=Point(*_of(each))))
        for each in arm.tool.outline
    )
    return [polygon("attachment", placed, name=arm.tool.name)]


def _pins(arm: Arm, links: list[LinkOutline]) -> list[Mark]:
    size = 0.03 if arm.end == "back" else 0.035
    places = {spot(each) for link in links for each in link.points}
    for joint in arm.joints:
        places |= {spot(joint.base_pin), spot(joint.rod_pin)}
    if arm.tool.mount != "hangs":
        for each in arm.drawn:
            if each.link == "linkage":
                places |= {spot(point) for point in each.points}
    return [Disc(role="pin", centre=each, radius=size) for each in sorted(places)]
