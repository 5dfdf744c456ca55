"""What may be typed, each thing once: the records of typed texts, whose fields are the table.

Options and their help, fields of pages, readers, saved lifts, links and ``docs/options.md`` follow
from the rows. An empty text is a thing not said. ``table`` says what a row holds; what one text
asks of another is in ``rules``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, get_args

from liftcalc.machines.condition import DEFECTS
from liftcalc.requests.sections import (
    ALWAYS,
    AS_IT_IS,
    BACK,
    BY_UK,
    BY_US,
    CARRIED,
    CURLS,
    EDGE,
    FINER,
    FRONT,
    GEAR,
    GROUND,
    HANGS,
    HELD,
    IN_PART,
    JAWS,
    JOURNEY,
    LIFTED,
    LOG,
    LOG_MORE,
    MACHINE,
    NEAR,
    NO_UNDERSIDE,
    ON_PADS,
    PADS,
    PLACE,
    RIGGING,
    SECTIONS,
    SLING,
    STANDING,
    TWO_LEGS,
    WIRES,
    When,
)  # fmt: skip
from liftcalc.requests.table import Field, row, rows
from liftcalc.rigging.gear import GEAR_KINDS
from liftcalc.rigging.grip import SURFACES
from liftcalc.rigging.lift_mode import WAYS, LogEnd
from liftcalc.rigging.sling import SLING_WAYS
from liftcalc.site.ground import GROUNDS
from liftcalc.site.hazards import Rules, WiresOn
from liftcalc.timber.measure import State

if TYPE_CHECKING:  # a log is weighed without machines
    from liftcalc.machines.schema import EndName
    from liftcalc.machines.supports import Stance

ENDS: tuple[EndName, ...] = ("front", "back")
DEVICES = ("fitted", "none")
STANCES: tuple[Stance, ...] = ("wheels", "stabilisers", "stabilisers and bucket")
LOG_ENDS: tuple[LogEnd, ...] = get_args(LogEnd)
RULES: tuple[Rules, ...] = get_args(Rules)
WIRES_ON: tuple[WiresOn, ...] = get_args(WiresOn)

HOW_LIFTED = {
    "whole": "the whole log", "one end": "one end, the other stays down",
    "drawn": "nothing: it is drawn along the ground", "drawn, one end up": "one end, and drawn",
}  # fmt: skip
HALF_TURN, WHOLE_TURN = math.pi, 2 * math.pi

# A table: a row's kind and label on its first line, how to say it on its second.
# fmt: off


@dataclass(frozen=True, slots=True, kw_only=True)
class LogRequest:
    """A log as typed."""

    species: str = row(LOG, "species", "Species",
        "Common or botanical name. Not sure? Unknown hardwood or unknown softwood.", needed=ALWAYS,
        example="European larch")
    length: str = row(LOG, "length", "Length",
        "Butt to top along the log, such as 4.2 m or 13 ft 6 in.", needed=ALWAYS)
    butt: str = row(LOG, "diameter", "Butt diameter",
        "Thick end above any flare, or its girth: girth 173 cm.")
    mid: str = row(LOG, "diameter", "Mid diameter",
        "Half way along. Alone it is enough.", beside=True)
    top: str = row(LOG, "diameter", "Top diameter", "Thin end.", beside=True)
    mass: str = row(LOG, "weighed", "Weighed",
        "What a scale said, with its tolerance; weighed beats taped:", example="640 kg ± 20 kg")
    bark: str = row(LOG_MORE, "bark", "Taken",
        "How the diameters were taken.", options=("over", "under"),
        shown={"over": "over the bark", "under": "under the bark"}, default="over")
    moisture: str = row(LOG_MORE, "moisture", "Moisture",
        "As felled is fresh; from the water is soaked. Or water over dry mass, such as 85 %.",
        options=get_args(State), default="fresh")
    mud: str = row(LOG_MORE, "extra", "Mud", "A mass or a share of the log:", example="40 kg")
    ice: str = row(LOG_MORE, "extra", "Ice and snow",
        "A mass or a share of the log:", example="5 %")
    root_plate: str = row(LOG_MORE, "extra", "Root plate",
        "A mass or a share of the log, when it is still on:", example="80 kg")
    limbs: str = row(LOG_MORE, "extra", "Limbs and crown",
        "A mass or a share of the log, when they are still on:", example="10 %")


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedRequest(LogRequest):
    """What one lift and a comparison of both ends have alike, as typed."""

    machine: str = row(MACHINE, "machine", "Machine",
        "The class nearest to yours, or the path of your own machine file.", argument=True,
        example="standard-sideshift")

    ground: str = row(GROUND, "ground", "What it stands on",
        "Worst ground under any pad or wheel. In doubt: unknown.",
        options=tuple(each.name for each in GROUNDS), to="lift")
    slope: str = row(GROUND, "slope", "Ground slope",
        "Steepest slope under the machine: 3 deg, 5 % or 1 in 20.", high=0.8)
    uphill: str = row(GROUND, "angle", "Which way is uphill",
        "From the seat: 0 deg nose uphill, 90 deg left side, 180 deg tail, -90 deg right side.",
        low=-WHOLE_TURN, high=WHOLE_TURN, beside=True, example="90 deg", to="site.heading")
    levelled: bool = row(PADS, "flag", "Levelled on its stabilisers",
        "Only if a level laid on the frame says so.", default=False, only=ON_PADS)
    mat: str = row(PADS, "length", "Mat under each pad",
        "Side of a square mat or stout plank crib:", low=0.1, high=4.0, example="0.6 m", to="lift")
    proved: str = row(PADS, "force", "Proved under each pad or front tyre",
        "Force that each of them bore for five minutes here without sinking, since the last rain: "
        "see liftcalc ground proof.", high=5e5, example="42 kN", only=STANDING, to="lift")
    friction: str = row(PADS, "ratio", "Grip on the ground",
        "Pull over weight before it slides. On ice or leaves 0.1 or less; on firm ground:",
        low=0.01, high=1.2, example="0.3", to="motion")

    sling: str = row(SLING, "choice", "How it is slung",
        "One choked sling unless you say otherwise.", options=SLING_WAYS, usual="choked",
        telling=True, to="sling.way")
    leg_spread: str = row(SLING, "length", "Spread of two legs",
        "Along the log, between the two.", high=20.0, only=TWO_LEGS, needed=TWO_LEGS,
        example="1.5 m", to="sling.spread")
    sling_length: str = row(SLING, "length", "Length of sling",
        "Of the sling, or of each leg, eye to eye:", most=20.0, example="2.4 m", to="sling.length")
    slung_at: str = row(SLING, "length", "Slung at",
        "From the butt. Not said: at the balance point, a little missed.", high=40.0,
        example="1.9 m", to="sling.at")
    hangs_level: bool = row(RIGGING, "flag", "Seen to hang level",
        "Only if it was lifted an inch and slung anew till it did.", default=False,
        to="lift.at_balance")
    rigging_mass: str = row(RIGGING, "mass", "Mass of rigging",
        "All that hangs between lift point and log:", high=2000.0, example="15 kg", to="sling.mass")
    sling_kind: str = row(GEAR, "choice", "Kind of sling or chain",
        "Not sure of a chain? Take grade 30.", options=GEAR_KINDS, telling=True, to="gear.kind")
    sling_size: str = row(GEAR, "length", "Thickness of chain or rope",
        "The bar of one link, or the rope, by calliper:", most=0.2, example="10 mm", to="gear.size")
    sling_wll: str = row(GEAR, "mass", "Load on the sling’s tag",
        "Of one straight leg; with two legs that of the whole sling, up to 90° between them. One "
        "leg used of a sling of two has half its tag. The lesser of tag and size counts.",
        most=40_000.0, to="gear.wll")
    hook_wll: str = row(GEAR, "mass", "Load on the hook",
        "It stands on the hook’s body: 1120 kg or 2 t; or unmarked.", most=40_000.0, none=True)
    shackle_wll: str = row(GEAR, "mass", "Load on the shackle",
        "It stands on its bow. No shackle: none.", most=40_000.0, none=True)
    hitch_wll: str = row(GEAR, "mass", "Load of the machine’s own eye",
        "The eye or hitch that the hook hangs in.", most=40_000.0, none=True)
    lifted: str = row(LIFTED, "choice", "What is lifted",
        "All of the log, or only a part while the rest lies or trails.", options=WAYS,
        usual="whole", telling=True, shown=HOW_LIFTED, to="taken.way")
    ground_end: str = row(LIFTED, "choice", "End on the ground",
        "The end that stays down. Not said: the top, which pulls harder.", options=LOG_ENDS,
        usual="top", only=IN_PART)
    hook_at: str = row(LIFTED, "length", "Hook along the log",
        "From the end on the ground to the chain. Not said: 0.3 m short of the other end or three "
        "fifths along, whichever is worse.",
        low=0.05, high=40.0, only=IN_PART, example="3.9 m")
    breakout: str = row(LIFTED, "ratio", "First pull, times the weight",
        "1 lies free; 2 or 3 bedded, mired or frozen. Not said: 2.", low=1.0, high=5.0, example="2")
    drag_friction: str = row(LIFTED, "ratio", "Drag of the log on the ground",
        "Pull over weight. Not said: 1, as over stumps and ruts.", low=0.1, high=2.0, only=IN_PART,
        example="0.8")
    surface: str = row(JAWS, "choice", "What jaw or choke holds",
        "The log’s skin where jaw or sling closes. In doubt: wet.", options=SURFACES,
        usual="bark on, wet", telling=True)

    wires: str = row(NEAR, "length", "Distance to the wires",
        "Paced on the ground from slew axis (back) or front axle to below the nearest wire.",
        high=10_000.0, none=True, example="40 m",
        look=("Overhead wires", "Look up all round, along the way as well."),
        to="hazards.wires_distance")
    rules: str = row(NEAR, "choice", "Rules for wires",
        "Whose distances to keep.", options=RULES,
        shown={"uk": "United Kingdom", "us": "United States"}, only=WIRES)
    wires_on: str = row(NEAR, "choice", "What carries the wires",
        "Not sure: leave it; the greater distance is kept.", options=WIRES_ON, only=BY_UK)
    wires_voltage: str = row(NEAR, "voltage", "Voltage of the wires",
        "Ask the owner of the line. Not said: the most is taken.", most=2e6, only=BY_US)
    edge: str = row(NEAR, "length", "Distance to the edge",
        "From the nearest pad or tyre:", high=10_000.0, none=True, example="3 m",
        look=("Ditch or bank edge", "Any drop beside the machine."), to="hazards.edge_distance")
    edge_depth: str = row(NEAR, "length", "Depth there",
        "From its edge to its bottom. Cannot see it? The deepest it can be.", high=100.0, only=EDGE,
        example="1.2 m")
    people: str = row(NEAR, "length", "Distance to the nearest",
        "On the ground, from below the hook:", high=10_000.0, none=True, example="15 m",
        look=("People about", "Anybody outside the cab, also who steers the log."),
        to="hazards.people_distance")

    pressure: str = row(AS_IT_IS, "pressure", "Gauge pressure",
        "Measured at the relief valve. Not said: nine tenths of the file’s, never more than it.",
        most=5e7, to="lift.gauge")
    creep: str = row(AS_IT_IS, "creep", "Creep of the hook",
        "With a log on it, nobody at the levers: how far it comes down in a minute.",
        high=1 / 60, example="20 mm/min", to="condition")
    play: str = row(AS_IT_IS, "length", "Play at the nose",
        "Heave it up, down and to both sides: how far it moves before anything resists.",
        high=0.5, example="15 mm", to="condition")
    stabiliser_creep: str = row(AS_IT_IS, "creep", "Creep of a stabiliser",
        "Wheels off the ground: how far the machine sinks on a side in a minute.",
        high=1 / 60, only=ON_PADS, example="2 mm/min", to="condition")
    faults: str = row(AS_IT_IS, "faults", "Faults found",
        "What a walk round the machine found (liftcalc machine walkround), parted by commas; or "
        "none.", options=DEFECTS, example="soft tyre, front hose", to="condition")
    devices: str = row(AS_IT_IS, "choice", "Warning devices",
        "Overload warning and a valve that keeps the boom up when a hose bursts.", options=DEVICES,
        to="lift")
    empty_seat: bool = row(AS_IT_IS, "flag", "Nobody in the seat",
        "The driver’s weight helps some lifts and hurts others.", default=False)
    sideshift: str = row(FINER, "length", "Sideshift",
        "Slew axis off the middle; to the machine’s left is positive.", low=-3.0, high=3.0,
        only=BACK, example="0.4 m")
    swing: str = row(FINER, "angle", "Swing",
        "How far the log may swing. Not said: up to 2°.", high=1.0, only=HANGS,
        example="5 deg")
    wind: str = row(FINER, "speed", "Wind",
        "The strongest gust, not the mean. Large boughs move at:", high=50.0, example="45 km/h")
    off_centre: str = row(FINER, "length", "Off centre",
        "How far to a side the balance point of a carried log may lie:", high=20.0, only=HELD,
        example="10 cm")
    slew_speed: str = row(FINER, "turn rate", "Slewing speed",
        "Time a quarter turn; 90 deg in 3 s are:", high=3.0, only=BACK, example="30 deg/s",
        to="motion")
    slew_stop: str = row(FINER, "time", "Slewing stops within",
        "From letting the lever go to standing still:", most=60.0, only=BACK, example="1 s",
        to="motion")
    lower_speed: str = row(FINER, "speed", "Lowering speed",
        "Of the hook, at its fastest on the way down:", high=3.0, example="0.2 m/s", to="motion")


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftRequest(SharedRequest):
    """One lift as typed."""

    end: str = row(MACHINE, "choice", "Which end lifts",
        "The back end on its stabilisers, the front end on the wheels.", options=ENDS,
        shown={"front": "front end", "back": "back end"}, needed=ALWAYS)
    attachment: str = row(MACHINE, "attachment", "Attachment",
        "What is fitted to that end.", each_end=True)
    lift_point: str = row(MACHINE, "lift point", "Lift point",
        "Where on it the load is taken. Use rated points only.", each_end=True)
    stance: str = row(MACHINE, "choice", "Standing on",
        "What carries the machine during the lift.", options=STANCES,
        only_back=("stabilisers and bucket",), each_end=True)

    height: str = row(PLACE, "length", "Height of the lift point",
        "Ground to the point where the chain hangs, at its highest in this lift.", low=-3.0,
        high=12.0, needed=NO_UNDERSIDE, each_end=True, example="3.1 m")
    underside: str = row(PLACE, "length", "Height of the log’s underside",
        "Instead: ground to the lowest part of the log, at its highest in this lift. It must clear "
        "what it is lifted over.", low=-3.0, high=12.0, example="0.5 m", to="log")
    reach: str = row(PLACE, "length", "Reach",
        "Level, from the slew axis (the kingpost) to the lift point; at the front ahead of the "
        "front axle, and not said where the arms put it.", most=15.0, needed=BACK, each_end=True,
        beside=True, example="3.8 m")
    slew: str = row(PLACE, "angle", "Slew",
        "Angle from straight back; to the machine’s left is positive:", low=-HALF_TURN,
        high=HALF_TURN, only=BACK, example="40 deg")

    travelling: bool = row(CARRIED, "flag", "Carry the log on the move",
        "Only at the front end, on the wheels.", default=False)
    speed: str = row(JOURNEY, "speed", "Speed on the way",
        "Fastest with the log; a walk is:", low=0.1, high=12.0, example="5 km/h")
    turn_radius: str = row(JOURNEY, "length", "Tightest turn",
        "Radius of the track that the middle of the rear axle makes:", low=1.0, high=1000.0,
        example="6 m")
    braking: str = row(JOURNEY, "acceleration", "Hardest braking",
        "From 5 km/h to nothing in 1 s is:", high=9.8, example="1.4 m/s2")
    sinkage: str = row(JOURNEY, "length", "Depth of the ruts",
        "How deep the tyres sink on the way:", high=1.0, example="5 cm")

    plate: str = row(AS_IT_IS, "mass", "Plate or chart value",
        "For this end, reach and height, below what is fitted, from the machine itself. It comes "
        "before all else.", high=40_000.0, each_end=True, to="lift")
    other_attachment: str = row(AS_IT_IS, "attachment", "At the other end",
        "What hangs at the end that does not lift: none, where that is bare.",
        of="attachment", end="other")
    tilt: str = row(FINER, "angle", "Tilt of the attachment",
        "Above level is rolled back. Not said: as usual for it.", low=-2.0, high=2.0, only=FRONT,
        example="20 deg")
    curl: str = row(FINER, "ratio", "Curl of the bucket",
        "Share of the bucket ram that is out. Not said: as usual.", high=1.0, only=CURLS,
        example="80 %")
    accelerate_forward: str = row(FINER, "acceleration", "Forward acceleration",
        "Braking is negative:", low=-9.8, high=9.8, example="-1.5 m/s2",
        to="site.acceleration_forward")
    accelerate_left: str = row(FINER, "acceleration", "Leftward acceleration",
        "A left turn is positive:", low=-9.8, high=9.8, example="1 m/s2",
        to="site.acceleration_left")




# fmt: on


@cache
def fields_of(record: type) -> tuple[Field, ...]:
    """The rows of a record in the order in which a lift is thought of."""
    return tuple(sorted(rows(record), key=lambda each: SECTIONS.index(each.section)))


@cache
def names_of(record: type) -> tuple[str, ...]:
    """Names of the fields of a record, as they were declared."""
    return tuple(each.name for each in rows(record))


@cache
def names_when(condition: When) -> tuple[str, ...]:
    """Names of the fields of a lift that mean something only then."""
    return tuple(each.name for each in rows(LiftRequest) if condition in each.conditions)
