"""A comparison from the words a person types."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from liftcalc.errors import InputError
from liftcalc.evaluation.lift import Lift
from liftcalc.family.files import load
from liftcalc.machines.lookup import attachment, lift_point
from liftcalc.machines.schema import EndName
from liftcalc.requests.fields import ENDS, LiftRequest, SharedRequest, names_of, names_when
from liftcalc.requests.fields_of_commands import CompareRequest
from liftcalc.requests.lift import without_sling
from liftcalc.requests.reader import FieldReader
from liftcalc.requests.sections import BACK
from liftcalc.requests.table import rows
from liftcalc.requests.usual import Ranged, ranged

PlaceName = Literal["pick-up", "set-down", "between"]
STAND_IN = "1 m"
"""Height and reach while the rest is read; each place brings its own."""
OF_AN_END = {"end", "height", "reach"}
"""Echoes of stand-ins, and of what each end is told apart by."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where the log is: height of its underside [m]; reach and slew for the back end [m, rad]."""

    name: PlaceName
    height: float
    reach: float
    slew: float = 0.0


def apart(one: Place, other: Place) -> bool:
    """Whether two places are not one above the other: the front end then drives between them."""
    return (one.reach, one.slew) != (other.reach, other.slew)


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """Clear width across and clear height inside the bunk of the trailer [m]; None: not known."""

    width: float | None = None
    height: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class EndPlan:
    """One end and what it takes the log with.

    ``lift`` has all but the place; ``ranges`` what of it was not said, where it was read from a
    request; ``opened`` is the room the jaw or grab takes up when it is open [m], which no machine
    file says.
    """

    lift: Lift
    ranges: Ranged | None = None
    opened: Room = Room()


@dataclass(frozen=True, slots=True, kw_only=True)
class ParsedCompare:
    """What `compare` takes, what was understood, and each end as typed, but for its place."""

    front: EndPlan
    back: EndPlan
    pick_up: Place
    set_down: Place
    bunk: Room | None
    echoes: tuple[tuple[str, str], ...]
    requests: tuple[LiftRequest, LiftRequest]


def parse_compare(request: CompareRequest) -> ParsedCompare:
    """Read a comparison as typed; every fault, by the option's name, is in one ``InputError``."""
    reader = FieldReader(request, added=True)
    number = reader.number

    def room(name: str) -> Room:
        return Room(width=number(f"{name}_width"), height=number(f"{name}_height"))

    pick_up = Place(
        name="pick-up",
        height=number("pick_height") or 0.0,
        reach=number("pick_reach") or 0.0,
        slew=number("pick_slew") or 0.0,
    )
    reach, slew = number("set_reach"), number("set_slew")
    set_down = Place(
        name="set-down",
        height=number("set_height") or 0.0,
        reach=pick_up.reach if reach is None else reach,
        slew=pick_up.slew if slew is None else slew,
    )
    front, back = (of_one_end(request, end) for end in ENDS)
    if apart(pick_up, set_down):
        front = replace(front, travelling=True, stance="wheels")
    reads: list[Ranged] = []
    for each in (front, back):
        with reader.gather:
            reads.append(ranged(each))
    # Both ends tell the same faults of log, ground and sling.
    reader.gather.faults = list(dict.fromkeys(reader.gather.faults))
    reader.gather.raise_any()
    echoes = (pair for each in reads for pair in each.read.echoes if pair[0] not in OF_AN_END)
    bunk = room("bunk")
    return ParsedCompare(
        front=_plan(reads[0], room("front_open")),
        back=_plan(reads[1], room("back_open")),
        pick_up=pick_up,
        set_down=set_down,
        bunk=None if bunk == Room() else bunk,
        echoes=(*dict.fromkeys(echoes), *reader.echoes),
        requests=(front, back),
    )


def _plan(read: Ranged, opened: Room) -> EndPlan:
    return EndPlan(lift=read.read.lift, ranges=read, opened=opened)


def of_one_end(request: CompareRequest, end: EndName) -> LiftRequest:
    """The lift of one end, at a stand-in place."""
    words = {name: getattr(request, name) for name in names_of(SharedRequest)}
    words |= {
        each.of: getattr(request, each.name) for each in rows(CompareRequest) if each.end == end
    }
    if end == "front":
        # It lifts from its wheels, and what only the back end does is not for it.
        words |= {name: "" for name in names_when(BACK) if name in words}
        # What was proved under pads says nothing of tyres.
        words |= {"levelled": False, "proved": ""}
        words["other_attachment"] = request.back_attachment
    else:
        words |= {"reach": STAND_IN, "other_attachment": request.front_attachment}
    lift = LiftRequest(**words | {"end": end, "height": STAND_IN})
    return without_sling(lift) if _held_fast(lift, end) else lift


def _held_fast(request: LiftRequest, end: EndName) -> bool:
    """Whether the end's attachment holds its log without a sling."""
    try:
        tool = attachment(load(request.machine), end=end, name=request.attachment)
        return lift_point(tool, name=request.lift_point).hold != "hangs"
    except InputError:
        return False  # parse_lift says what is wrong
