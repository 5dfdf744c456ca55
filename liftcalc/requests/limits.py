"""Limits from the words a person types: a lift without a place, and perhaps without a log."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from liftcalc.errors import InputError
from liftcalc.evaluation.lift import Lift
from liftcalc.family.files import load
from liftcalc.remarks import Remark, near
from liftcalc.requests.fields import LiftRequest, LogRequest, names_of
from liftcalc.requests.fields_of_commands import LimitsRequest
from liftcalc.requests.lift import ParsedLift, as_lift, without_sling
from liftcalc.requests.reader import FieldReader
from liftcalc.requests.table import field_of
from liftcalc.requests.usual import careful_lift

STAND_IN = {"species": "unknown hardwood", "length": "4 m", "mid": "50 cm"}
"""A log that stands in where none is given; it matters only to where a carried log lies."""
OF_THE_LOG = frozenset({"sling", "sling_length", "hangs_level", "surface", "devices"})
"""Fields of which what is assumed matters only to a log that was given."""
USUAL_HEIGHT = {"back": "2 m", "front": "1.5 m"}
"""Height of a plan map, and of the pose that is drawn, when none is given."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """Size of cells [m, rad] and the lowest lift point mapped [m]; None leaves the choice."""

    reach: float | None = None
    height: float | None = None
    slew: float | None = None
    lowest: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ParsedLimits:
    """What was asked: lifts to map, one for each attachment, sizes of cells, and what was taken.

    ``for_log`` says whether a log was given; without one the lifts hold a stand-in.
    """

    reads: tuple[ParsedLift, ...]
    steps: Steps
    for_log: bool

    def echoes(self, lift: Lift) -> tuple[tuple[str, str], ...]:
        """What was understood of the request that a map's lift came from."""
        fitted = lift.tool.name, lift.point.name
        reads = (x for x in self.reads if (x.lift.tool.name, x.lift.point.name) == fitted)
        return next(reads).echoes


def parse_limits(request: LimitsRequest) -> ParsedLimits:
    """Read a request for limits; place and log may be left out.

    At the front without an attachment every attachment and lift point is read. Raises
    ``InputError`` with every fault of every field.
    """
    reader = FieldReader(request, added=True)
    # What has a default of its own says nothing of there being a log.
    said = (name for name in names_of(LogRequest) if not field_of(LogRequest, name).default)
    for_log = any(getattr(request, name).strip() for name in said)
    reads: list[ParsedLift] = []
    with reader.gather:
        full = _full(as_lift(request), for_log)
        reads = [_as_said(careful_lift(each), request, for_log) for each in _each(full)]
    reader.gather.raise_any()
    steps = Steps(
        reach=reader.number("reach_step"),
        height=reader.number("height_step"),
        slew=reader.number("slew_step"),
        lowest=reader.number("lowest"),
    )
    return ParsedLimits(reads=tuple(reads), steps=steps, for_log=for_log)


def _full(request: LiftRequest, for_log: bool) -> LiftRequest:
    """The request with a place and a log, so that it reads as a lift."""
    end = request.end.strip().lower()
    words: dict[str, Any] = {} if for_log else dict(STAND_IN)
    if not for_log and not request.breakout.strip():
        words["breakout"] = "1"  # no log lies anywhere yet
    if not request.height.strip() and not request.underside.strip():
        words["height"] = USUAL_HEIGHT.get(end, "2 m")
    if not request.reach.strip() and end != "front":
        words["reach"] = "1 m"
    return replace(request, **words)


def _each(full: LiftRequest) -> list[LiftRequest]:
    """The request once, or at the front for every attachment and lift point."""
    if full.end.strip().lower() != "front" or full.attachment.strip():
        return [full]
    try:
        machine = load(full.machine)
    except InputError:
        return [full]  # careful_lift says what is wrong
    return [
        replace(
            full if point.hold == "hangs" else without_sling(full),
            attachment=tool.name,
            lift_point=point.name,
        )
        for tool in machine.attachment
        if tool.end == "front"
        for point in tool.lift_point
    ]


def _as_said(read: ParsedLift, request: LimitsRequest, for_log: bool) -> ParsedLift:
    """The lift without what we put in: echoes only of what was said, the rest as assumed."""
    lift, hidden = read.lift, set[str]()
    assumed = [each.said for each in read.assumed if for_log or each.field not in OF_THE_LOG]
    if not request.reach.strip():
        hidden.add("reach")
        lift = replace(lift, reach=None)
    if not request.height.strip():
        hidden.add("height")
        if lift.end == "back":
            assumed.append(Remark("taken_height", height=near(lift.height, "length")))
    if not for_log:
        lift = replace(lift, loads_only=True)
        hidden |= {field_of(LogRequest, name).option for name in names_of(LogRequest)}
        assumed.append(
            Remark("no_log_hung")
            if lift.point.hold == "hangs"
            else Remark(
                "no_log_held",
                length=near(lift.measure.length, "length"),
                thick=near(lift.log.largest_diameter, "diameter"),
            )
        )
    echoes = tuple(each for each in read.echoes if each[0] not in hidden)
    return ParsedLift(
        lift=replace(lift, assumed=tuple(assumed), stand_in=not for_log), echoes=echoes
    )
