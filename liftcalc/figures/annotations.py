"""What both drawings put round the machine: dimensions, balance mark, key, scale bar, words."""

from __future__ import annotations

import math

from liftcalc.evaluation.answer import Answer
from liftcalc.figures.scene import (
    Disc,
    Label,
    Mark,
    Role,
    Spot,
    around,
    box,
    line,
    polygon,
    text_width,
)
from liftcalc.physics.tipping import Line
from liftcalc.units import FOOT, System, show

QUARTER = 8


def _pie(centre: Spot, radius: float, first: float) -> tuple[Spot, ...]:
    turns = (math.radians(first + 90 * i / QUARTER) for i in range(QUARTER + 1))
    return centre, *around(centre, radius, turns)


def cog_mark(at: Spot, radius: float) -> list[Mark]:
    """The quartered circle of a centre of mass."""
    return [
        Disc(role="cog", centre=at, radius=radius),
        polygon("cog quarter", _pie(at, radius, 0.0)),
        polygon("cog quarter", _pie(at, radius, 180.0)),
    ]


def foot_mark(at: Spot, size: float, *, inside: bool) -> list[Mark]:
    """Where the weight falls: a ring inside the region, a cross outside of it."""
    x, z = at
    if inside:
        return [
            Disc(role="cog", centre=at, radius=size, name="foot"),
            Disc(role="scale", centre=at, radius=0.4 * size, name="foot"),
        ]
    return [
        line("foot", (x - size, z - size), (x + size, z + size), name="foot"),
        line("foot", (x - size, z + size), (x + size, z - size), name="foot"),
    ]


def support_mark(at: Spot, size: float, *, governs: bool, name: str) -> Mark:
    """A fulcrum under a support."""
    x, z = at
    return polygon(
        "governing support" if governs else "support",
        ((x, z), (x - 0.6 * size, z - size), (x + 0.6 * size, z - size)),
        name=name,
    )


def dimension(start: Spot, end: Spot, em: float, *, role: Role = "dimension") -> list[Mark]:
    """A dimension line with a stroke across each end."""
    angle = math.atan2(end[1] - start[1], end[0] - start[0]) + math.pi / 4
    tick = (0.35 * em * math.cos(angle), 0.35 * em * math.sin(angle))
    return [
        line(role, start, end),
        *(
            line(role, (x - tick[0], z - tick[1]), (x + tick[0], z + tick[1]))
            for x, z in (start, end)
        ),
    ]


def scale_bar(right: float, z: float, em: float, system: System) -> tuple[list[Mark], list[Label]]:
    """Two metres, or six feet, at the drawing's scale, ending at ``right``."""
    step, text = (1.0, "2 m") if system == "metric" else (3 * FOOT, "6 ft")
    left = right - 2 * step
    marks: list[Mark] = [
        box("scale", (left, z), (left + step, z + 0.22 * em)),
        box("scale gap", (left + step, z), (right, z + 0.22 * em)),
    ]
    return marks, [Label(text=text, at=(left - 0.4 * em, z), voice="small", anchor="end")]


def key(
    left: float, right: float, z: float, em: float, *, plan: bool = False
) -> tuple[list[Mark], list[Label]]:
    """What the four marks mean, in one or two rows."""
    marks: list[Mark] = []
    labels: list[Label] = []
    x, row = left, 0
    first = "weight falls here" if plan else "balance point, log included"
    for number, text in enumerate((first, "support", "tips first over", "other tipping line")):
        wide = 2.6 * em + text_width(text, "small", em)
        if x + wide > right:
            x, row = left, row + 1
        y = z - 1.4 * em * row
        middle, at = y + 0.3 * em, x + 0.8 * em
        if number == 0 and plan:
            marks += foot_mark((at, middle), 0.42 * em, inside=True)
        elif number == 0:
            marks += cog_mark((at, middle), 0.42 * em)
        elif number == 1:
            spot = (at, middle + 0.4 * em)
            marks.append(support_mark(spot, 0.75 * em, governs=False, name="key"))
        else:
            role: Role = "governing line" if number == 2 else "tipping line"
            marks.append(line(role, (x, middle), (x + 1.5 * em, middle), name="key"))
        labels.append(Label(text=text, at=(x + 1.9 * em, y), voice="small", anchor="start"))
        x += wide
    return marks, labels


def load_words(answer: Answer, system: System) -> tuple[str, str]:
    """Allowed load and planning mass at the hook, as they stand over it."""
    allowed = show(answer.allowed, "mass", system, "down")
    mass = show(answer.lift.log.mass_planning, "mass", system, "up")
    return f"allowed here: {allowed}", f"this log: plan on {mass}"


def clear_words(lowest: float, system: System) -> str:
    """What is clear under the log, or lacks."""
    words = show(abs(lowest), "length", system, "down")
    return f"{words} clear" if lowest >= 0 else f"{words} too low"


def slope_words(answer: Answer) -> str:
    """The slope in words; empty on the level."""
    slope = float(answer.lift.site.slope)
    return f"ground slopes {show(slope, 'slope')}" if slope else ""


def tips_words(line: Line) -> str:
    """The line over which a machine tips first, in words."""
    return f"tips first {'' if line.of_a_pair else 'over the line '}{line.name}"


def height_words(answer: Answer, system: System) -> str:
    """The height of the lift point in words."""
    return f"height {show(answer.lift.height, 'length', system)}"


def hold_words(answer: Answer) -> list[str]:
    """What the answer counts of how the log is held that the drawing does not show."""
    lift = answer.lift
    if lift.point.hold != "hangs":
        return ["The log's weight is counted where it might lie worst, not only where it is drawn."]
    return ["The log is drawn hanging still; its swing is counted."] if answer.reached.lean else []
