"""A lift from the words a person types: every fault told at once, and an echo of what was read.

The command line and the pages both hand over a ``LiftRequest``; neither reads a number of its own.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

from liftcalc.evaluation.lift import Lift
from liftcalc.machines.lookup import attachment, lift_point
from liftcalc.machines.schema import Attachment, EndName, LiftPoint, Machine
from liftcalc.requests import rules
from liftcalc.requests.assumed import Assumption, assumptions
from liftcalc.requests.fields import (
    ENDS,
    LOG_ENDS,
    RULES,
    STANCES,
    WIRES_ON,
    LiftRequest,
    names_of,
    names_when,
)
from liftcalc.requests.log import read_measure
from liftcalc.requests.reader import FieldReader
from liftcalc.requests.when import SLUNG, USUAL_STANCE
from liftcalc.rigging.gear import GEAR_KINDS, Gear
from liftcalc.rigging.grip import SURFACES
from liftcalc.rigging.lift_mode import WAYS, LiftMode
from liftcalc.rigging.sling import SLING_WAYS, Sling
from liftcalc.site.hazards import Hazards
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from liftcalc.timber.log import LogMeasure, weigh

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
    """Read a lift as typed.

    Raises
    ------
    InputError
        With every fault of every field; fields are named as the options are.
    """
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
    if fitted is not None:
        rules.check_held(reader, tool=fitted.tool, point=fitted.point)
    if measure is not None:
        rules.check_on_log(reader, measure=measure)
    motion, hazards, gear, taken = _motion(reader), _hazards(reader), _gear(reader), _taken(reader)
    reader.gather.raise_any()
    # Nothing is None here: what could not be read has raised.
    assert machine is not None
    assert measure is not None
    assert fitted is not None
    tool, number = fitted.tool, reader.number
    tilt, curl = number("tilt"), number("curl")
    usual_curl = USUAL_CURL if tool.usual_curl is None else tool.usual_curl
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
        surface=reader.usual("surface", SURFACES),
        ground=reader.values["ground"],
        mat=number("mat"),
        motion=motion,
        hazards=hazards,
        travelling=reader.values["travelling"],
        operator=not reader.values["empty_seat"],
        height=number("height") or 0.0,
        reach=number("reach"),
        slew=number("slew") or 0.0,
        sideshift=number("sideshift") or 0.0,
        tilt=float(tool.usual_tilt or 0.0) if tilt is None else tilt,
        curl=float(usual_curl) if curl is None else curl,
        swing=number("swing") or 0.0,
        gauge=number("pressure"),
        plate=number("plate"),
        off_centre=number("off_centre"),
        site=Site(
            slope=number("slope") or 0.0,
            heading=number("uphill") or 0.0,
            acceleration_forward=number("accelerate_forward") or 0.0,
            acceleration_left=number("accelerate_left") or 0.0,
            levelled=reader.values["levelled"],
        ),
    )
    assumed = assumptions(reader, lift)
    lift = replace(lift, assumed=tuple(each.said for each in assumed))
    return ParsedLift(lift=lift, echoes=tuple(reader.echoes), assumed=assumed)


def as_lift(request: LiftRequest) -> LiftRequest:
    """The lift of a request that may ask for more about it."""
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
        other = attachment(machine, end=opposite, name=reader.text("other_attachment"))
    if tool is None or point is None or other is None:
        return None
    return _Fitted(tool=tool, point=point, other=other)


def _motion(reader: FieldReader) -> Motion:
    """How the machine travels and slews."""
    number = reader.number
    with reader.gather:
        return Motion(
            speed=number("speed") or 0.0,
            turn_radius=number("turn_radius"),
            braking=number("braking") or 0.0,
            slew_speed=number("slew_speed") or 0.0,
            slew_stop=number("slew_stop"),
            sinkage=number("sinkage"),
            friction=number("friction"),
        )
    return Motion()


def _hazards(reader: FieldReader) -> Hazards:
    """Wires, edges and people."""
    wires, whose = reader.number("wires"), reader.chosen("rules", RULES)
    # What could not be read is a fault already; the other half is not to blame for it.
    lacks_edge = reader.unread("edge", "edge_depth")
    with reader.gather:
        return Hazards(
            rules="uk" if wires == math.inf and whose is None else whose,
            wires_distance=wires,
            wires_voltage=reader.number("wires_voltage"),
            wires_on=reader.chosen("wires_on", WIRES_ON),
            edge_distance=None if lacks_edge else reader.number("edge"),
            edge_depth=None if lacks_edge else reader.number("edge_depth"),
            people_distance=reader.number("people"),
        )
    return Hazards()


def _gear(reader: FieldReader) -> Gear:
    """Chain, sling, hook, shackle and hitch by their sizes and tags."""
    if reader.unread("sling_size", "sling_wll"):
        # That is a fault already; that it is missing need not be told again.
        return Gear()
    with reader.gather:
        return Gear(
            kind=reader.chosen("sling_kind", GEAR_KINDS),
            size=reader.number("sling_size"),
            wll=reader.number("sling_wll"),
            hook_wll=reader.number("hook_wll"),
            shackle_wll=reader.number("shackle_wll"),
            hitch_wll=reader.number("hitch_wll"),
        )
    return Gear()


def _taken(reader: FieldReader) -> LiftMode:
    """Whether the whole log is lifted, one end of it, or it is drawn."""
    drag = reader.number("drag_friction")
    with reader.gather:
        mode = LiftMode(
            way=reader.usual("lifted", WAYS),
            ground_end=reader.usual("ground_end", LOG_ENDS),
            hook_at=reader.number("hook_at"),
            breakout=reader.number("breakout") or 1.0,
        )
        return mode if drag is None else replace(mode, drag_friction=drag)
    return LiftMode()


def _sling(reader: FieldReader, measure: LogMeasure, fitted: _Fitted) -> Sling:
    """How the log is slung; what was not said is long enough to go round it, and usual."""
    length, mass = reader.number("sling_length"), reader.number("rigging_mass")
    plain = Sling(
        way=reader.usual("sling", SLING_WAYS),
        at=reader.number("slung_at"),
        spread=reader.number("leg_spread") or 0.0,
    )
    if fitted.point.hold != "hangs":
        return replace(plain, length=length or plain.length, mass=mass or 0.0)
    thickest = max(d for d in (measure.butt, measure.middle, measure.top) if d is not None)
    usual = 0.0 if fitted.tool.mount == "hangs" else plain.mass
    return replace(
        plain,
        length=length or math.ceil(10 * (math.pi * thickest + 0.8)) / 10,
        mass=usual if mass is None else mass,
    )
