"""How the log is slung, what with, and how much of it is lifted, from the words a person types."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, get_args

from liftcalc.machines.schema import Attachment, LiftPoint
from liftcalc.requests.reader import NONE, FieldReader
from liftcalc.rigging.gear import GEAR_KINDS, Gear, GearKind
from liftcalc.rigging.grip import SURFACES, Surface
from liftcalc.rigging.lift_mode import WAYS, LiftMode, LogEnd, Way
from liftcalc.rigging.sling import BALANCE_MISS, SLING_WAYS, Sling, SlingWay
from liftcalc.timber.log import LogMeasure

if TYPE_CHECKING:  # the record that holds the words is read by nobody else
    from liftcalc.requests.lift import LiftRequest

USUAL_SURFACE: Surface = "bark on, wet"
"""What a jaw is taken to press on when nobody said."""
Tools = tuple[Attachment, LiftPoint, Attachment]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rigged:
    """How the log is slung, with what, and what of it is lifted."""

    sling: Sling = field(default_factory=Sling)
    gear: Gear = field(default_factory=Gear)
    taken: LiftMode = field(default_factory=LiftMode)
    surface: Surface = USUAL_SURFACE


def read_rigging(
    asked: LiftRequest, door: FieldReader, measure: LogMeasure | None, tools: Tools | None
) -> Rigged:
    """Read all that is said of sling, gear and the way the log is taken."""
    _no_sling_held_fast(asked, door, tools)
    sling = _sling(asked, door, measure, tools)
    hangs = tools is not None and tools[1].hold == "hangs"
    return Rigged(
        sling=sling,
        gear=_gear(asked, door),
        taken=_taken(asked, door, measure, hangs=hangs),
        surface=_surface(asked, door, tools),
    )


OF_SLINGS = (
    "sling", "sling_length", "leg_spread", "slung_at", "sling_kind", "sling_size", "sling_wll",
    "hook_wll", "shackle_wll", "hitch_wll",
)  # fmt: skip
"""Words of ``LiftRequest`` that mean something only for a log that hangs."""


def without_sling(asked: LiftRequest) -> LiftRequest:
    """The request as for an attachment that holds the log fast, which no sling goes with."""
    blank: dict[str, Any] = dict.fromkeys(OF_SLINGS, "")
    return replace(asked, **blank)


def _no_sling_held_fast(asked: LiftRequest, door: FieldReader, tools: Tools | None) -> None:
    if tools is None or tools[1].hold == "hangs":
        return
    for name in OF_SLINGS:
        text = str(getattr(asked, name))
        if text.strip():
            door.fault(
                name.replace("_", "-"),
                given=f'"{text}" for a log held fast in the {tools[0].name}',
                wanted="nothing: no sling goes with it",
                fix="leave it out, or choose a lift point from which the log hangs; off-centre "
                "says how far off its balance a held log lies",
            )


def _sling(
    asked: LiftRequest, door: FieldReader, measure: LogMeasure | None, tools: Tools | None
) -> Sling:
    way: SlingWay = "choked"
    if asked.sling.strip():
        chosen = door.choice("sling", asked.sling, SLING_WAYS)
        way = next((each for each in SLING_WAYS if each == chosen), "choked")
    length = door.positive("sling-length", asked.sling_length, "length", high=20.0)
    spread = door.number(
        "leg-spread", asked.leg_spread, "length", low=0, high=20, bounds="0 to 20 m"
    )
    at = door.number("slung-at", asked.slung_at, "length", low=0, high=40, bounds="0 to 40 m")
    mass = door.number(
        "rigging-mass", asked.rigging_mass, "mass", low=0, high=2000, bounds="a mass from 0 to 2 t"
    )
    if at is not None and measure is not None and at > measure.length:
        door.fault(
            "slung-at",
            given=f'"{asked.slung_at}"',
            wanted=f"a place on the log, 0 to {measure.length:.2f} m from the butt",
        )
    if way == "two legs" and spread is None:
        door.fault(
            "leg-spread",
            given="nothing",
            wanted='how far apart two legs hold the log, such as "1.5 m"',
        )
    plain = Sling(way=way, at=at, spread=spread or 0.0)
    hangs = tools is not None and tools[1].hold == "hangs"
    if not hangs:
        return replace(plain, length=length or 2.0, mass=mass or 0.0)
    by_grab = tools is not None and tools[0].mount == "hangs"
    if not by_grab and not asked.sling.strip():
        door.assumed.append("log in one choked sling")
    if at is None:
        door.assumed.append(f"balance point missed by {BALANCE_MISS:.0%} of the log's length")
    round_it = 0.0 if measure is None else _girth(measure)
    usual_length = math.ceil(10 * (round_it + 0.8)) / 10
    if not by_grab:
        said = f"sling or each leg {usual_length:.1f} m long"
        length = door.or_assume(length, usual_length, said)
        mass = door.or_assume(mass, plain.mass, f"rigging of {plain.mass:.0f} kg")
    return replace(plain, length=length or usual_length, mass=mass or 0.0)


def _girth(measure: LogMeasure) -> float:
    """Once round the thickest end of the log [m]."""
    return math.pi * max(
        d for d in (measure.butt, measure.middle, measure.top, 0.0) if d is not None
    )


def _gear(asked: LiftRequest, door: FieldReader) -> Gear:
    """Chain, sling, hook, shackle and hitch by their sizes and tags."""
    kind: GearKind | None = None
    if asked.sling_kind.strip():
        chosen = door.choice("sling-kind", asked.sling_kind, GEAR_KINDS)
        kind = next((each for each in GEAR_KINDS if each == chosen), None)
    size = door.positive("sling-size", asked.sling_size, "length", high=0.2)

    def rated(name: str, text: str) -> float | None:
        if text.strip().lower() in NONE:
            door.echoes.append((name, "none"))
            return math.inf
        return door.positive(name, text, "mass", high=40_000.0)

    made = Gear()
    ratings = {
        "wll": door.positive("sling-wll", asked.sling_wll, "mass", high=40_000.0),
        "hook_wll": rated("hook-wll", asked.hook_wll),
        "shackle_wll": rated("shackle-wll", asked.shackle_wll),
        "hitch_wll": rated("hitch-wll", asked.hitch_wll),
    }
    if (asked.sling_size.strip() and size is None) or (
        asked.sling_wll.strip() and ratings["wll"] is None
    ):
        # What could not be read is a fault already; that it is missing need not be told again.
        return made
    with door.gather:
        made = Gear(kind=kind, size=size, **ratings)
    return made


def _taken(
    asked: LiftRequest, door: FieldReader, measure: LogMeasure | None, *, hangs: bool
) -> LiftMode:
    """Whether the whole log is lifted, one end of it, or it is drawn."""
    way: Way = "whole"
    if asked.lifted.strip():
        chosen = door.choice("lifted", asked.lifted, WAYS)
        way = next((each for each in WAYS if each == chosen), "whole")
    end: LogEnd = "top"
    if asked.ground_end.strip():
        chosen = door.choice("ground-end", asked.ground_end, get_args(LogEnd))
        end = next((each for each in get_args(LogEnd) if each == chosen), "top")
    elif way != "whole":
        door.assumed.append("the butt is lifted, the top stays on the ground: it pulls harder so")
    at = door.number("hook-at", asked.hook_at, "length", low=0.05, high=40, bounds="0 to 40 m")
    if at is not None and measure is not None and at > measure.length:
        door.fault(
            "hook-at",
            given=f'"{asked.hook_at}"',
            wanted=f"a place on the log, up to {measure.length:.2f} m from the end on the ground",
        )
    if not hangs and way != "whole":
        door.fault(
            "lifted",
            given=f'"{way}" with an attachment that holds the log fast',
            wanted="whole, or a lift point from which the log hangs",
        )
    breakout = door.number("breakout", asked.breakout, "ratio", low=1, high=5, bounds="1 to 5")
    drag = door.number(
        "drag-friction", asked.drag_friction, "ratio", low=0.1, high=2, bounds="0.1 to 2"
    )
    made = LiftMode()
    with door.gather:
        plain = LiftMode(way=way, ground_end=end, hook_at=at, breakout=breakout or 1.0)
        made = plain if drag is None else replace(plain, drag_friction=drag)
    return made


def _surface(asked: LiftRequest, door: FieldReader, tools: Tools | None) -> Surface:
    """What of the log a jaw or grab presses on."""
    if asked.surface.strip():
        chosen = door.choice("surface", asked.surface, SURFACES)
        return next((each for each in SURFACES if each == chosen), USUAL_SURFACE)
    if tools is not None and tools[1].jaw_force is not None:
        door.assumed.append(f"the jaw presses on {USUAL_SURFACE}")
    return USUAL_SURFACE
