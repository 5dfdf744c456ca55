"""Limits from the words a person types: a lift without a place, and perhaps without a log."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from liftcalc.errors import Gather, InputError
from liftcalc.machines.files import load
from liftcalc.machines.schema import EndName
from liftcalc.maps.limits import BackLimits, FrontLimits, Steps, limits_back, limits_front
from liftcalc.requests.lift import LiftRequest, ParsedLift, parse_lift
from liftcalc.requests.reader import FieldReader
from liftcalc.requests.rigging import without_sling

LOG_WORDS = ("species", "length", "butt", "mid", "top", "ice", "mud", "root_plate", "limbs")
STAND_IN = {"species": "unknown hardwood", "length": "4 m", "mid": "50 cm"}
"""A log that stands in where none is given; it matters only to where a carried log lies."""
IRRELEVANT = ("sling or each leg", "log in one choked sling", "balance point missed")
"""How assumptions begin that matter only to a log that was given."""
USUAL_HEIGHT = {"back": "2 m", "front": "1.5 m"}
"""Height of a plan map, and of the pose that is drawn, when none is given."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GridRequest:
    """Sizes of cells, and the lowest lift point to map, as typed; empty is not said."""

    reach_step: str = ""
    height_step: str = ""
    slew_step: str = ""
    lowest: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ParsedLimits:
    """What was asked: lifts to map, one for each attachment, sizes of cells, and what was taken.

    ``for_log`` says whether a log was given; without one the lifts hold a stand-in.
    """

    reads: tuple[ParsedLift, ...]
    steps: Steps
    for_log: bool


def parse_limits(asked: LiftRequest, grid: GridRequest | None = None) -> ParsedLimits:
    """Read a request for limits.

    Parameters
    ----------
    asked : Asked
        Place and log may be left out. At the front without an attachment every attachment and
        lift point is read.
    grid : GridAsked, optional

    Returns
    -------
    ReadLimits

    Raises
    ------
    InputError
        With every fault of every field.
    """
    door = FieldReader()
    steps = _steps(grid or GridRequest(), door)
    for_log = any(str(getattr(asked, name)).strip() for name in LOG_WORDS)
    full = _full(asked, for_log)
    reads: list[ParsedLift] = []
    with door.gather:
        reads = [_told(parse_lift(each), asked, for_log) for each in _each(full)]
    door.gather.raise_any()
    return ParsedLimits(reads=tuple(reads), steps=steps, for_log=for_log)


def find_limits(read: ParsedLimits) -> BackLimits | tuple[FrontLimits, ...]:
    """The limits that were asked for: of the back end, or of the front with each attachment.

    Raises
    ------
    InputError
        When nothing can be reached; at the front only when that is so of every attachment.
    """
    first = read.reads[0].lift
    if first.end == "back":
        return limits_back(first, steps=read.steps, for_log=read.for_log)
    made, faults = [], Gather()
    for each in read.reads:
        with faults:
            made.append(limits_front(each.lift, steps=read.steps, for_log=read.for_log))
    if not made:
        faults.raise_any()
    return tuple(made)


def _steps(grid: GridRequest, door: FieldReader) -> Steps:
    sizes = {"low": 0.02, "high": 2.0, "bounds": "a size of cells from 0.02 m to 2 m"}
    return Steps(
        reach=door.number("reach-step", grid.reach_step, "length", **sizes),  # type: ignore[arg-type]
        height=door.number("height-step", grid.height_step, "length", **sizes),  # type: ignore[arg-type]
        slew=door.number(
            "slew-step",
            grid.slew_step,
            "angle",
            low=math.radians(0.5),
            high=math.radians(45),
            bounds="a size of cells from 0.5° to 45°",
        ),
        lowest=door.number(
            "lowest",
            grid.lowest,
            "length",
            low=-3.0,
            high=3.0,
            bounds="the lowest lift point to map, −3 m to 3 m",
        ),
    )


def _full(asked: LiftRequest, for_log: bool) -> LiftRequest:
    """The request with a place and a log, so that it reads as a lift."""
    end = asked.end.strip().lower()
    full = asked if for_log else replace(asked, **STAND_IN)  # type: ignore[arg-type]
    if not asked.height.strip():
        full = replace(full, height=USUAL_HEIGHT.get(end, "2 m"))
    if not asked.reach.strip() and end != "front":
        full = replace(full, reach="1 m")
    return full


def _each(full: LiftRequest) -> list[LiftRequest]:
    """The request once, or at the front for every attachment and lift point."""
    if full.end.strip().lower() != "front" or full.attachment.strip():
        return [full]
    try:
        machine = load(full.machine)
    except InputError:
        return [full]  # read_lift says what is wrong
    front: EndName = "front"
    return [
        replace(
            full if point.hold == "hangs" else without_sling(full),
            attachment=tool.name,
            lift_point=point.name,
        )
        for tool in machine.attachment
        if tool.end == front
        for point in tool.lift_point
    ]


def _told(read: ParsedLift, asked: LiftRequest, for_log: bool) -> ParsedLift:
    """The lift without what we put in: echoes only of what was said, the rest as assumed."""
    lift, hidden, assumed = read.lift, set(), list(read.lift.assumed)
    if not asked.reach.strip():
        hidden.add("reach")
        lift = replace(lift, reach=None)
    if not asked.height.strip():
        hidden.add("height")
        if lift.end == "back":
            assumed.append(f"plan map at a height of {lift.height:g} m")
    if not for_log:
        hidden |= {each.replace("_", "-") for each in LOG_WORDS} | {"bark", "moisture"}
        assumed = [each for each in assumed if not each.startswith(IRRELEVANT)]
        assumed.append(
            "no log was given; for one that hangs the allowed load is the same"
            if lift.point.hold == "hangs"
            else f"no log was given: a stand-in {STAND_IN['length']} long and {STAND_IN['mid']} "
            "thick lies in the attachment; a thicker or longer one may be allowed less"
        )
    echoes = tuple(each for each in read.echoes if each[0] not in hidden)
    return ParsedLift(lift=replace(lift, assumed=tuple(assumed)), echoes=echoes)
