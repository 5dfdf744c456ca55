"""What to measure on a machine, from where to where: numbered lines over our own drawing."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from itertools import count
from typing import Literal, NamedTuple

from liftcalc.family.fact import Fact, Told, Trouble
from liftcalc.family.facts import FACTS, GROUPS
from liftcalc.figures.annotations import dimension
from liftcalc.figures.chassis import body_plan, pads_plan, tyres_plan
from liftcalc.figures.picture_guide import picture_guide
from liftcalc.figures.scene import (
    WIDE,
    Disc,
    Label,
    Mark,
    Scene,
    Spot,
    between,
    extent,
    has_room,
    line,
)
from liftcalc.machines.number import plain
from liftcalc.machines.schema import Machine

View = Literal["side", "above"]
Lay = Literal["straight", "along", "up"]

_ALONG = {
    "wheelbase": ("rear hub", "front hub"),
    "pads_behind": ("pad", "rear hub"),
    "slew_axis_behind": ("slew axis", "rear hub"),
    "foot_pin_out": ("foot pin", "slew axis"),
    "arm_pivot_ahead": ("rear hub", "arm pivot"),
}
"""Lengths along the ground, from what to what."""
_UP = {
    "rear_hub": "rear hub",
    "front_hub": "front hub",
    "axle_pin_height": "axle pin",
    "foot_pin_height": "foot pin",
    "boom_ram_base_height": "boom ram base",
    "arm_pivot_height": "arm pivot",
    "lift_ram_base_height": "lift ram base",
    "hinge_height": "hinge pin",
}
"""Heights above the ground, of what."""
_ABOVE: dict[str, Callable[[Machine], tuple[Spot, Spot]]] = {
    "rear_track": lambda m: _across(0.0, plain(m.wheels.rear_track)),
    "front_track": lambda m: _across(plain(m.wheels.wheelbase), plain(m.wheels.front_track)),
    "pad_spread": lambda m: _across(plain(m.stabilisers.x), plain(m.stabilisers.pad_spread)),
    "pad_length": lambda m: _pad_side(m, along=True),
    "pad_width": lambda m: _pad_side(m, along=False),
}
"""What is seen from above only: its ends there."""
ROW = 1.7
"""Between two lengths along the ground [em]."""
RING = 0.32
"""Radius of the ring round a measured point [em]."""


MOST: dict[Trouble, int] = {"papers": 9, "weighbridge": 3, "tape": 13, "trial": 3, "pins": 8}
"""How many facts of a group are asked for first: those that pay most, as many as fit a sheet."""


class Item(NamedTuple):
    """A fact with its number, which stands at its line in the drawing too."""

    number: str
    fact: Fact


class Group(NamedTuple):
    """What is found out alike: what is asked first, and the rest."""

    title: str
    first: list[Item]
    rest: list[Item]


def asked(machine: Machine) -> list[Group]:
    """Every fact, by what it takes to find out, numbered: first those first asked, as they pay."""
    # What a machine has none of is not asked, as the sideshift of a centre mount.
    every = [each for each in FACTS.values() if each.asks or _has(each, machine)]
    numbers = map(str, count(1))
    alike = {title: [x for x in every if x.trouble == key] for key, title in GROUPS.items()}
    first = {
        title: [Item(next(numbers), each) for each in alike[title][: MOST[key]]]
        for key, title in GROUPS.items()
    }
    rest = {
        title: [Item(next(numbers), each) for each in alike[title][MOST[key] :]]
        for key, title in GROUPS.items()
    }
    return [Group(title, first[title], rest[title]) for title in alike]


def _has(each: Fact, machine: Machine) -> bool:
    return bool(each.predict(machine, Told(key=each.key, value=0.0), 0.0) != 0)


class Span(NamedTuple):
    """From where to where something is measured, in which view, and how the tape lies [m]."""

    view: View
    start: Spot
    end: Spot
    lay: Lay = "straight"


def spans(machine: Machine) -> dict[str, Span]:
    """Of every fact that a drawing can show, where it is measured, by its key."""
    spots = _spots(machine)
    made = {key: Span("side", spots[a], spots[b], "along") for key, (a, b) in _ALONG.items()}
    for key, name in _UP.items():
        x, z = spots[name]
        made[key] = Span("side", (x, 0.0), (x, z), "up")
    for key, each in FACTS.items():
        ends = _pins_of(key, each.at)
        if key not in made and all(end in spots for end in ends) and len(ends) == 2:
            made[key] = Span("side", spots[ends[0]], spots[ends[1]])
    made |= {key: Span("above", *ends(machine)) for key, ends in _ABOVE.items()}
    return {key: made[key] for key in FACTS if key in made}


def _pins_of(key: str, at: tuple[str, ...]) -> tuple[str, ...]:
    """The two pins of a fact; a joint has one place in the drawing, whichever part it is on."""
    if key.endswith(("_ram_closed", "_ram_open")):
        ram = key.rpartition("_")[0].replace("_", " ")
        return f"{ram} base", f"{ram} pin"
    return tuple(each.partition(" on the ")[0] for each in at)


def _spots(machine: Machine) -> dict[str, Spot]:
    wheels = machine.wheels
    return picture_guide(machine).spots | {
        "pad": (plain(machine.stabilisers.x), 0.0),
        "slew axis": (plain(machine.back.slew_axis_x), 0.0),
        "axle pin": (plain(wheels.wheelbase), plain(wheels.axle_pin_height)),
    }


def _across(x: float, wide: float) -> tuple[Spot, Spot]:
    return (x, -wide / 2), (x, wide / 2)


def _pad_side(machine: Machine, *, along: bool) -> tuple[Spot, Spot]:
    """A side of the right pad, a little outside of it."""
    legs = machine.stabilisers
    x, y = plain(legs.x), -plain(legs.pad_spread) / 2
    half_long, half_wide = plain(legs.pad_length) / 2, plain(legs.pad_width) / 2
    if along:
        low = y - half_wide - 0.1
        return (x - half_long, low), (x + half_long, low)
    left = x - half_long - 0.1
    return (left, y - half_wide), (left, y + half_wide)


def measuring(
    machine: Machine, numbers: Mapping[str, str], *, view: View = "side", ems: float = WIDE
) -> Scene:
    """The machine with all that is measured in a view, each with what stands for it.

    ``numbers`` has keys of facts; what the view does not show is left out. ``ems`` is how many
    letters' heights the drawing is wide.
    """
    shown = {key: each for key, each in spans(machine).items() if key in numbers}
    wanted = [(numbers[key], shown[key]) for key in shown if shown[key].view == view]
    drawn = picture_guide(machine).scene if view == "side" else _from_above(machine, ems)
    em = (drawn.right - drawn.left) / ems
    rows: list[list[Span]] = []
    marks: list[Mark] = []
    labels: list[Label] = []
    for text, each in wanted:
        low = -ROW * (_row(each, rows, em) + 1) * em if each.lay == "along" else 0.0
        marks += _marks(each, em, low)
        labels.append(_label(text, each, em, low, labels))
    return replace(
        drawn,
        about=_about(drawn.about, numbers, shown, view),
        marks=(*drawn.marks, *marks),
        labels=tuple(labels),
        bottom=drawn.bottom - ROW * len(rows) * em,
        em=em,
    )


def _row(each: Span, rows: list[list[Span]], em: float) -> int:
    """The first row below the ground in which a length has room; it is put there."""
    left, right = sorted((each.start[0], each.end[0]))
    for number, row in enumerate(rows):
        others = (sorted((other.start[0], other.end[0])) for other in row)
        if all(right + em < low or high + em < left for low, high in others):
            row.append(each)
            return number
    rows.append([each])
    return len(rows) - 1


def _about(about: str, numbers: Mapping[str, str], shown: Mapping[str, Span], view: View) -> str:
    said = (
        f"{numbers[key]}: {FACTS[key].question}" for key, each in shown.items() if each.view == view
    )
    return " ".join([about, *(f"{each}." for each in said)])


def _marks(each: Span, em: float, low: float) -> Iterator[Mark]:
    start, end = each.start, each.end
    if each.lay == "along":
        for x, z in (start, end):
            yield line("leader", (x, max(z, 0.0)), (x, low - 0.3 * em))
        yield from dimension((start[0], low), (end[0], low), em, role="measure")
    else:
        yield line("measure", start, end)
    for spot in (start, end):
        yield Disc(role="measured point", centre=spot, radius=RING * em)


def _label(text: str, each: Span, em: float, low: float, taken: list[Label]) -> Label:
    """The number beside its line, where it lies over no other."""
    ends = ((each.start[0], low), (each.end[0], low)) if each.lay == "along" else each[1:3]
    tries = [
        Label(text=text, at=(x + right * em, z + (up - 0.35) * em), voice="strong")
        for share in (0.5, 0.35, 0.65, 0.2, 0.8)
        for x, z in (between(*ends, share),)
        for right, up in _beside(each)
    ]
    return next((label for label in tries if has_room(label, taken, em=em)), tries[0])


def _beside(each: Span) -> tuple[Spot, ...]:
    """To which sides of a line its number may stand [em]."""
    if each.lay == "along":
        return ((0.0, 0.0),)
    flat = abs(each.end[0] - each.start[0]) > abs(each.end[1] - each.start[1])
    return ((0.0, 0.8), (0.0, -0.8)) if flat else ((0.9, 0.0), (-0.9, 0.0))


def _from_above(machine: Machine, ems: float) -> Scene:
    """The chassis from above, front to the right, its pads down."""
    marks = [*pads_plan(machine), *tyres_plan(machine), *body_plan(machine)]
    left, right, bottom, top = extent(marks)
    room = 0.35
    return Scene(
        title=machine.title,
        about=f"{machine.title} from above, front to the right.",
        marks=tuple(marks),
        labels=(),
        left=left - room,
        right=right + room,
        bottom=bottom - room,
        top=top + 0.1,
        em=(right - left + 2 * room) / ems,
        notes=(),
        caution="",
    )
