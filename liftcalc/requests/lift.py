"""A lift from the words a person types: every fault told at once, and an echo of what was read.

The command line and the pages both hand over an ``LiftRequest``; neither reads a number of its own.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import get_args

from liftcalc import units
from liftcalc.evaluation.lift import OFF_CENTRE, Lift
from liftcalc.machines.assembly import Stance
from liftcalc.machines.files import load
from liftcalc.machines.lookup import attachment, lift_point
from liftcalc.machines.schema import Attachment, EndName, LiftPoint, Machine
from liftcalc.requests.reader import FieldReader
from liftcalc.requests.rigging import read_rigging
from liftcalc.requests.site import read_ground, read_hazards, read_motion, read_site
from liftcalc.timber.log import weigh
from liftcalc.timber.reading import LogReading, read_log

STANCES: tuple[Stance, ...] = get_args(Stance)
USUAL_CURL = 0.8
"""Share of the bucket ram's stroke that is out when neither file nor request says it [-]."""
ENDS: tuple[EndName, ...] = get_args(EndName)


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftRequest:
    """A lift as typed; an empty text is a thing not said. The options of `check` explain each."""

    machine: str = ""
    end: str = ""
    species: str = ""
    length: str = ""
    butt: str = ""
    mid: str = ""
    top: str = ""
    bark: str = "over"
    moisture: str = "fresh"
    ice: str = ""
    mud: str = ""
    root_plate: str = ""
    limbs: str = ""
    height: str = ""
    reach: str = ""
    slew: str = ""
    sideshift: str = ""
    attachment: str = ""
    lift_point: str = ""
    other_attachment: str = ""
    tilt: str = ""
    curl: str = ""
    stance: str = ""
    travelling: bool = False
    slope: str = ""
    uphill: str = ""
    levelled: bool = False
    ground: str = ""
    mat: str = ""
    friction: str = ""
    sinkage: str = ""
    speed: str = ""
    turn_radius: str = ""
    braking: str = ""
    slew_speed: str = ""
    slew_stop: str = ""
    accelerate_forward: str = ""
    accelerate_left: str = ""
    swing: str = ""
    sling: str = ""
    sling_length: str = ""
    leg_spread: str = ""
    slung_at: str = ""
    rigging_mass: str = ""
    sling_kind: str = ""
    sling_size: str = ""
    sling_wll: str = ""
    hook_wll: str = ""
    shackle_wll: str = ""
    hitch_wll: str = ""
    lifted: str = ""
    ground_end: str = ""
    hook_at: str = ""
    breakout: str = ""
    drag_friction: str = ""
    surface: str = ""
    rules: str = ""
    wires: str = ""
    wires_voltage: str = ""
    wires_on: str = ""
    edge: str = ""
    edge_depth: str = ""
    people: str = ""
    pressure: str = ""
    plate: str = ""
    off_centre: str = ""
    empty_seat: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ParsedLift:
    """The lift, and what was understood of each thing said: pairs of option and echo."""

    lift: Lift
    echoes: tuple[tuple[str, str], ...]


def parse_lift(asked: LiftRequest) -> ParsedLift:
    """Read a lift as typed.

    Parameters
    ----------
    asked : Asked

    Returns
    -------
    ReadLift

    Raises
    ------
    InputError
        With every fault of every field; fields are named as the options are.
    """
    door = FieldReader()
    end = door.choice("end", asked.end, ENDS)
    machine: Machine | None = None
    with door.gather:
        machine = load(asked.machine)
        door.echoes.append(("machine", machine.title))
    log: LogReading | None = None
    with door.gather:
        log = _log(asked)
        door.echoes += log.echoes
    tools: tuple[Attachment, LiftPoint, Attachment] | None = None
    if machine is not None and end is not None:
        tools = _tools(asked, machine, "front" if end == "front" else "back", door)
    said = _numbers(asked, door, end or "back")
    stance = _stance(asked, door, end or "back")
    site = read_site(asked, door, stance=stance)
    motion = read_motion(asked, door, end=end or "back")
    hazards = read_hazards(asked, door)
    stood_on, mat = read_ground(asked, door)
    measure = None if log is None else log.measure
    rigged = read_rigging(asked, door, measure, tools)
    door.gather.raise_any()
    # Nothing is None here: what could not be read has raised.
    assert machine is not None
    assert log is not None
    assert tools is not None
    tool, point, other = tools
    _say_assumed(door, tool, point, said)
    lift = Lift(
        machine=machine,
        end="front" if end == "front" else "back",
        tool=tool,
        point=point,
        other_tool=other,
        measure=log.measure,
        log=weigh(log.measure),
        stance=stance,
        sling=rigged.sling,
        gear=rigged.gear,
        taken=rigged.taken,
        surface=rigged.surface,
        ground=stood_on,
        mat=mat,
        motion=motion,
        hazards=hazards,
        travelling=asked.travelling,
        operator=not asked.empty_seat,
        assumed=tuple(door.assumed),
        height=said.height or 0.0,
        reach=said.reach,
        slew=said.slew or 0.0,
        sideshift=said.sideshift or 0.0,
        tilt=float(tool.usual_tilt or 0.0) if said.tilt is None else said.tilt,
        curl=float(USUAL_CURL if tool.usual_curl is None else tool.usual_curl)
        if said.curl is None
        else said.curl,
        swing=said.swing or 0.0,
        gauge=said.gauge,
        plate=said.plate,
        off_centre=said.off_centre,
        site=site,
    )
    return ParsedLift(lift=lift, echoes=tuple(door.echoes))


def _log(asked: LiftRequest) -> LogReading:
    return read_log(
        species=asked.species,
        length=asked.length,
        butt=asked.butt or None,
        mid=asked.mid or None,
        top=asked.top or None,
        bark=asked.bark or "over",
        moisture=asked.moisture or "fresh",
        ice=asked.ice or None,
        mud=asked.mud or None,
        root_plate=asked.root_plate or None,
        limbs=asked.limbs or None,
    )


def _tools(
    asked: LiftRequest, machine: Machine, end: EndName, door: FieldReader
) -> tuple[Attachment, LiftPoint, Attachment] | None:
    tool = point = other = None
    with door.gather:
        tool = attachment(machine, end=end, name=asked.attachment)
        door.echoes.append(("attachment", tool.name))
        point = lift_point(tool, name=asked.lift_point)
        door.echoes.append(("lift-point", point.name))
    with door.gather:
        other_end: EndName = "front" if end == "back" else "back"
        other = attachment(machine, end=other_end, name=asked.other_attachment)
    if tool is None or point is None or other is None:
        return None
    return tool, point, other


@dataclass(frozen=True, slots=True, kw_only=True)
class _Numbers:
    """The plain quantities of a lift [SI], as said."""

    height: float | None
    reach: float | None
    slew: float | None
    sideshift: float | None
    tilt: float | None
    curl: float | None
    swing: float | None
    gauge: float | None
    plate: float | None
    off_centre: float | None


def _numbers(asked: LiftRequest, door: FieldReader, end: str) -> _Numbers:
    """Read them all; what is missing and needed, or does not go with the end, is a fault."""
    for name, text in (("height", asked.height), ("reach", asked.reach)):
        if not text.strip() and (name == "height" or end == "back"):
            wanted = f"the {name} of the lift point, such as {units.EXAMPLES['length']}"
            door.fault(name, given="nothing", wanted=wanted)
    read = _Numbers(
        height=door.number(
            "height",
            asked.height,
            "length",
            low=-3.0,
            high=12.0,
            bounds="the lift point's height above the ground, −3 m to 12 m",
        ),
        reach=door.positive("reach", asked.reach, "length", high=15.0),
        slew=door.number(
            "slew", asked.slew, "angle", low=-math.pi, high=math.pi, bounds="−180° to 180°"
        ),
        sideshift=door.number(
            "sideshift", asked.sideshift, "length", low=-3, high=3, bounds="−3 m to 3 m"
        ),
        tilt=door.number("tilt", asked.tilt, "angle", low=-2, high=2, bounds="−110° to 110°"),
        curl=door.number("curl", asked.curl, "ratio", low=0, high=1, bounds="0 % to 100 %"),
        swing=door.number("swing", asked.swing, "angle", low=0, high=1, bounds="0° to 57°"),
        gauge=door.positive("pressure", asked.pressure, "pressure", high=5e7),
        plate=door.number(
            "plate", asked.plate, "mass", low=0, high=40_000, bounds="a mass from 0 to 40 t"
        ),
        off_centre=door.number(
            "off-centre", asked.off_centre, "length", low=0, high=20, bounds="0 to 20 m"
        ),
    )
    if end == "front" and (read.slew or read.sideshift):
        door.fault(
            "slew or sideshift",
            given=f'"{asked.slew or asked.sideshift}"',
            wanted="nothing for a lift at the front end",
            fix="they move the back end",
        )
    return read


def _say_assumed(door: FieldReader, tool: Attachment, point: LiftPoint, said: _Numbers) -> None:
    """List what of the attachment's pose was not said."""
    if tool.end == "front" and said.tilt is None and tool.usual_tilt is not None:
        door.assumed.append(f"{tool.name} tilted {units.show(tool.usual_tilt, 'angle')}")
    if tool.end == "back" and tool.mount == "pins" and said.curl is None:
        share = tool.usual_curl if tool.usual_curl is not None else USUAL_CURL
        door.assumed.append(f"{tool.name} curled with {share:.0%} of the bucket ram out")
    if point.hold != "hangs" and said.off_centre is None:
        door.assumed.append(
            f"the log's balance point within {OFF_CENTRE:.0%} of its length of the middle"
        )


def _stance(asked: LiftRequest, door: FieldReader, end: str) -> Stance:
    usual: Stance = "stabilisers" if end == "back" else "wheels"
    said = usual
    if asked.stance.strip():
        chosen = door.choice("stance", asked.stance, STANCES)
        said = next((each for each in STANCES if each == chosen), usual)
    elif not asked.travelling:
        door.assumed.append(f"standing on its {usual}")
    if end == "front" and said == "stabilisers and bucket":
        door.fault(
            "stance",
            given=f'"{asked.stance}"',
            wanted="wheels or stabilisers for a lift at the front end",
            fix="the bucket cannot press and lift at once",
        )
    if asked.travelling and (end == "back" or said != "wheels"):
        door.fault(
            "travelling",
            given="yes",
            wanted="the front end, on its wheels, to carry a log on the move",
            fix="set it down and take it with the front end",
        )
    return said
