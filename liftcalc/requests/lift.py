"""A lift from the words a person types: every fault told at once, and an echo of what was read.

The command line and the pages both hand over a ``LiftRequest``; neither reads a number of its own.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.underside import with_underside
from liftcalc.machines.condition import Condition
from liftcalc.machines.lookup import at_other_end, attachment, lift_point
from liftcalc.machines.schema import Attachment, EndName, LiftPoint, Machine
from liftcalc.requests import rules
from liftcalc.requests.assumed import Assumption, assumptions
from liftcalc.requests.fields import ENDS, STANCES, LiftRequest, names_of, names_when
from liftcalc.requests.log import read_measure
from liftcalc.requests.reader import FieldReader
from liftcalc.requests.sections import SLUNG, USUAL_STANCE
from liftcalc.rigging.gear import Gear
from liftcalc.rigging.lift_mode import LiftMode
from liftcalc.rigging.sling import BALANCE_MISS, Sling
from liftcalc.site.hazards import Hazards
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from liftcalc.timber.log import LogMeasure, weigh

STAND_IN = 1.0
"""Height of the lift point until that of the log's underside gives it [m]."""
USUAL_CURL = 0.8
"""Share of the bucket ram's stroke that is out when neither file nor request says it [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ParsedLift:
    """The lift, what was understood of each thing said (option and echo), and what was assumed."""

    lift: Lift
    echoes: tuple[tuple[str, str], ...]
    assumed: tuple[Assumption, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fitted:
    """What is fitted to the end that lifts, where on it the load is taken, and the other end's."""

    tool: Attachment
    point: LiftPoint
    other: Attachment


def parse_lift(request: LiftRequest) -> ParsedLift:
    """Read a lift as typed; every fault, by the option's name, is in one ``InputError``."""
    reader = FieldReader(as_lift(request))
    machine: Machine | None = reader.values["machine"]
    end = reader.chosen("end", ENDS)
    fitted = None if machine is None or end is None else _fitted(reader, machine, end)
    end = end or "back"
    stance = reader.chosen("stance", STANCES) or USUAL_STANCE[end]
    measure = read_measure(reader)
    rules.check_end(reader, end=end, stance=stance)
    rules.check_slope(reader, stance=stance)
    rules.check_journey(reader)
    rules.check_height(reader)
    if fitted is not None:
        rules.check_held(reader, tool=fitted.tool, point=fitted.point)
    if measure is not None:
        rules.check_on_log(reader, measure=measure)
    condition = reader.made(Condition, "condition")
    motion, site = reader.made(Motion, "motion"), reader.made(Site, "site")
    hazards, gear, taken = _hazards(reader), _gear(reader), reader.made(LiftMode, "taken")
    reader.gather.raise_any()
    # Nothing is None here: what could not be read has raised.
    assert machine is not None
    assert measure is not None
    assert fitted is not None
    tool = fitted.tool
    usual = {
        "tilt": float(tool.usual_tilt or 0.0),
        "curl": float(USUAL_CURL if tool.usual_curl is None else tool.usual_curl),
        "height": STAND_IN,
    }
    lift = Lift(
        machine=machine,
        end=end,
        tool=tool,
        point=fitted.point,
        other_tool=fitted.other,
        measure=measure,
        log=weigh(measure),
        stance=stance,
        sling=_sling(reader, measure, fitted),
        gear=gear,
        taken=taken,
        motion=motion,
        condition=condition,
        hazards=hazards,
        site=site,
        operator=not reader.values["empty_seat"],
        **usual | reader.said_of("lift"),
    )
    if (underside := reader.number("underside")) is not None:
        lift = with_underside(lift, height=underside)
    assumed = assumptions(reader, lift)
    lift = replace(lift, assumed=tuple(each.said for each in assumed))
    return ParsedLift(lift=lift, echoes=tuple(reader.echoes), assumed=assumed)


def as_lift(request: LiftRequest) -> LiftRequest:
    """The lift of a request that may ask for more about it."""
    if type(request) is LiftRequest:
        return request
    return LiftRequest(**{name: getattr(request, name) for name in names_of(LiftRequest)})


def without_sling(request: LiftRequest) -> LiftRequest:
    """The request as for an attachment that holds the log fast, which no sling goes with."""
    blank: dict[str, Any] = dict.fromkeys(names_when(SLUNG), "")
    return replace(request, **blank)


def _fitted(reader: FieldReader, machine: Machine, end: EndName) -> _Fitted | None:
    tool = point = other = None
    with reader.gather:
        tool = attachment(machine, end=end, name=reader.text("attachment"))
        reader.echoes.append(("attachment", tool.name))
        point = lift_point(tool, name=reader.text("lift_point"))
        reader.echoes.append(("lift-point", point.name))
    with reader.gather:
        opposite: EndName = "front" if end == "back" else "back"
        other = at_other_end(machine, end=opposite, name=reader.text("other_attachment"))
    if tool is None or point is None or other is None:
        return None
    return _Fitted(tool=tool, point=point, other=other)


def _hazards(reader: FieldReader) -> Hazards:
    """Wires, edges and people."""
    said: dict[str, Any] = {}
    if reader.values["wires"] == math.inf and reader.values["rules"] is None:
        said["rules"] = "uk"  # where there are none, whose rules does not matter
    if reader.unread("edge", "edge_depth"):
        # That is a fault already; the other half is not to blame for it.
        said |= {"edge_distance": None, "edge_depth": None}
    return reader.made(Hazards, "hazards", **said)


def _gear(reader: FieldReader) -> Gear:
    """Chain, sling, hook, shackle and hitch by their sizes and tags."""
    if reader.unread("sling_size", "sling_wll"):
        # That is a fault already; that it is missing need not be told again.
        return Gear()
    return reader.made(Gear, "gear")


def _sling(reader: FieldReader, measure: LogMeasure, fitted: _Fitted) -> Sling:
    """How the log is slung; what was not said is long enough to go round it, and usual."""
    usual: dict[str, Any] = {}
    if fitted.point.hold != "hangs" or fitted.tool.mount == "hangs":
        usual["mass"] = 0.0
    if fitted.point.hold == "hangs":
        thickest = max(d for d in (measure.butt, measure.middle, measure.top) if d is not None)
        usual["length"] = math.ceil(10 * (math.pi * thickest + 0.8)) / 10
    # Where the log balances is reckoned: a sling that is put there misses it all the same.
    return Sling(least_miss=BALANCE_MISS, **usual | reader.said_of("sling"))
