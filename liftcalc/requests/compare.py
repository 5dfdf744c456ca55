"""A comparison from the words a person types."""

from __future__ import annotations

from dataclasses import dataclass, fields

from liftcalc.errors import InputError
from liftcalc.machines.files import load
from liftcalc.machines.lookup import attachment, lift_point
from liftcalc.machines.schema import EndName
from liftcalc.questions.compare import EndPlan, Place, Room
from liftcalc.requests.lift import LiftRequest, ParsedLift, parse_lift
from liftcalc.requests.reader import FieldReader
from liftcalc.requests.rigging import without_sling

STAND_IN = "1 m"
"""Height and reach while the rest is read; each place brings its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CompareRequest:
    """A comparison as typed; an empty text is a thing not said. The options of `compare` explain.

    Names that start with an end are for that end; those it shares with ``LiftRequest`` are
    for both.
    """

    machine: str = ""
    pick_height: str = ""
    pick_reach: str = ""
    pick_slew: str = ""
    set_height: str = ""
    set_reach: str = ""
    set_slew: str = ""
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
    front_attachment: str = ""
    front_lift_point: str = ""
    front_tilt: str = ""
    front_stance: str = ""
    front_plate: str = ""
    front_open_width: str = ""
    front_open_height: str = ""
    back_attachment: str = ""
    back_lift_point: str = ""
    back_curl: str = ""
    back_stance: str = ""
    back_plate: str = ""
    back_open_width: str = ""
    back_open_height: str = ""
    sideshift: str = ""
    bunk_width: str = ""
    bunk_height: str = ""
    slope: str = ""
    uphill: str = ""
    levelled: bool = False
    ground: str = ""
    mat: str = ""
    friction: str = ""
    slew_speed: str = ""
    slew_stop: str = ""
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
    off_centre: str = ""
    empty_seat: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ParsedCompare:
    """What `compare` takes, what was understood, and each end as typed, but for its place."""

    front: EndPlan
    back: EndPlan
    pick_up: Place
    set_down: Place
    bunk: Room | None
    echoes: tuple[tuple[str, str], ...]
    asked: tuple[LiftRequest, LiftRequest]


def parse_compare(asked: CompareRequest) -> ParsedCompare:
    """Read a comparison as typed.

    Raises
    ------
    InputError
        With every fault of every field; fields are named as the options are.
    """
    door = FieldReader()
    ends = asked_of(asked, "front"), asked_of(asked, "back")
    reads: list[ParsedLift] = []
    for each in ends:
        with door.gather:
            reads.append(parse_lift(each))
    heights = [_length(door, asked, f"{at}_height", low=-3.0, needed=True) for at in _AT]
    reaches = [_length(door, asked, "pick_reach", needed=True), _length(door, asked, "set_reach")]
    slews = [_slew(door, asked, f"{at}_slew") for at in _AT]
    bunk = Room(
        width=_length(door, asked, "bunk_width"), height=_length(door, asked, "bunk_height")
    )
    opened = [
        Room(
            width=_length(door, asked, f"{end}_open_width"),
            height=_length(door, asked, f"{end}_open_height"),
        )
        for end in ("front", "back")
    ]
    # Both ends tell the same faults of log, ground and sling.
    door.gather.faults = list(dict.fromkeys(door.gather.faults))
    door.gather.raise_any()
    pick_up = Place(
        name="pick-up", height=heights[0] or 0.0, reach=reaches[0] or 0.0, slew=slews[0] or 0.0
    )
    set_down = Place(
        name="set-down",
        height=heights[1] or 0.0,
        reach=pick_up.reach if reaches[1] is None else reaches[1],
        slew=pick_up.slew if slews[1] is None else slews[1],
    )
    said = [pair for read in reads for pair in read.echoes if pair[0] not in _OF_AN_END]
    return ParsedCompare(
        front=EndPlan(lift=reads[0].lift, opened=opened[0]),
        back=EndPlan(lift=reads[1].lift, opened=opened[1]),
        pick_up=pick_up,
        set_down=set_down,
        bunk=None if bunk == Room() else bunk,
        echoes=(*dict.fromkeys(said), *door.echoes),
        asked=ends,
    )


_AT = ("pick", "set")
_OF_AN_END = {"end", "height", "reach"}
"""Echoes of stand-ins, and of what each end is told apart by."""


def asked_of(asked: CompareRequest, end: EndName) -> LiftRequest:
    """The lift of one end, at stand-in places."""
    mine = {each.name for each in fields(CompareRequest)}
    shared = {
        each.name: getattr(asked, each.name)
        for each in fields(LiftRequest)
        if each.name in mine and each.name != "sideshift"
    }
    own = {
        name.removeprefix(f"{end}_"): getattr(asked, name)
        for name in mine
        if name.startswith(f"{end}_") and "_open_" not in name
    }
    other = asked.back_attachment if end == "front" else asked.front_attachment
    if end == "back":
        own |= {"sideshift": asked.sideshift, "reach": STAND_IN}
    else:
        # The front end lifts from its wheels and does not slew.
        shared |= {"levelled": False, "slew_speed": "", "slew_stop": ""}
    made = LiftRequest(
        **{**shared, **own, "end": end, "height": STAND_IN, "other_attachment": other}
    )
    return without_sling(made) if _held_fast(made, end) else made


def _held_fast(asked: LiftRequest, end: EndName) -> bool:
    """Whether the end's attachment holds its log without a sling."""
    try:
        tool = attachment(load(asked.machine), end=end, name=asked.attachment)
        return lift_point(tool, name=asked.lift_point).hold != "hangs"
    except InputError:
        return False  # read_lift says what is wrong


def _length(
    door: FieldReader, asked: CompareRequest, name: str, *, low: float = 1e-3, needed: bool = False
) -> float | None:
    option, text = name.replace("_", "-"), str(getattr(asked, name))
    if needed and not text.strip():
        what = "underside of the log above the ground" if "height" in name else "slew axis"
        wanted = f"the height of the {what}" if "height" in name else f"how far from the {what}"
        door.fault(option, given="nothing", wanted=f'{wanted}, such as "3.2 m"')
    bounds = "−3 m to 12 m" if low < 0 else "more than zero and at most 15 m"
    return door.number(
        option, text, "length", low=low, high=12.0 if low < 0 else 15.0, bounds=bounds
    )


def _slew(door: FieldReader, asked: CompareRequest, name: str) -> float | None:
    return door.number(
        name.replace("_", "-"),
        getattr(asked, name),
        "angle",
        low=-3.1416,
        high=3.1416,
        bounds="−180° to 180°",
    )
