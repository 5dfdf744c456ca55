"""The ground, the journey and what is near, from the words a person types."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, get_args

from liftcalc.machines.assembly import Stance
from liftcalc.requests.reader import NONE, FieldReader
from liftcalc.site.ground import Ground, ground
from liftcalc.site.hazards import Hazards, Rules, WiresOn
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site

if TYPE_CHECKING:  # the record that holds the words is read by nobody else
    from liftcalc.requests.lift import LiftRequest


STEEPEST_LEVELLED = math.radians(10)
"""Steepest ground on which a machine is taken to be levelled [rad]; common practice, no source."""


def read_site(asked: LiftRequest, door: FieldReader, *, stance: Stance) -> Site:
    """Slope, heading and accelerations."""
    slope = door.number("slope", asked.slope, "slope", low=0, high=0.8, bounds="0° to 45°")
    heading = door.number(
        "uphill", asked.uphill, "angle", low=-2 * math.pi, high=2 * math.pi, bounds="−360° to 360°"
    )
    if slope and heading is None and not asked.uphill.strip() and not asked.levelled:
        door.fault(
            "uphill",
            given="nothing",
            wanted="which way is uphill seen from the seat: 0 deg nose uphill, 90 deg left "
            "side uphill, 180 deg nose downhill, -90 deg right side uphill",
        )
    if asked.levelled and stance == "wheels":
        door.fault(
            "levelled",
            given="yes, on its wheels",
            wanted="stabilisers down, which can level a machine",
            fix="leave it out and give the slope that the machine really stands on",
        )
    if asked.levelled and slope is not None and slope > STEEPEST_LEVELLED:
        door.fault(
            "levelled",
            given=f"yes, on a slope of {math.degrees(slope):.1f}°",
            wanted=f"a slope of at most {math.degrees(STEEPEST_LEVELLED):.0f}°, which stabilisers "
            "and packing can make good",
            fix="go where it is less steep, or give the slope the machine really stands at",
        )
    if not asked.slope.strip():
        door.assumed.append("ground level within 1 %")
    bounds = "−9.8 to 9.8 m/s²"
    forward, left = (
        door.number(name, text, "acceleration", low=-9.8, high=9.8, bounds=bounds) or 0.0
        for name, text in (
            ("accelerate-forward", asked.accelerate_forward),
            ("accelerate-left", asked.accelerate_left),
        )
    )
    return Site(
        slope=slope or 0.0,
        heading=heading or 0.0,
        acceleration_forward=forward,
        acceleration_left=left,
        levelled=asked.levelled,
    )


def read_ground(asked: LiftRequest, door: FieldReader) -> tuple[Ground | None, float | None]:
    """The named ground, and the side of a square mat under each pad [m]."""
    mat = door.number(
        "mat", asked.mat, "length", low=0.1, high=4.0, bounds="a side between 0.1 m and 4 m"
    )
    found = None
    if asked.ground.strip():
        with door.gather:
            found = ground(asked.ground)
            door.echoes.append(("ground", found.name))
    return found, mat


def read_motion(asked: LiftRequest, door: FieldReader, *, end: str) -> Motion:
    """How the machine travels and slews."""
    speed = door.number("speed", asked.speed, "speed", low=0, high=12, bounds="0 to 43 km/h")
    radius = door.number(
        "turn-radius", asked.turn_radius, "length", low=1.0, high=1000.0, bounds="1 m to 1000 m"
    )
    braking = door.number(
        "braking", asked.braking, "acceleration", low=0, high=9.8, bounds="0 to 9.8 m/s²"
    )
    for name, value in (("speed", speed), ("turn-radius", radius), ("braking", braking)):
        if value is not None and not asked.travelling:
            door.fault(
                name,
                given="a machine that stands",
                wanted="travelling, to have a journey",
                fix="say that it carries the log on the move, or leave this out",
            )
    if speed and radius is None and asked.travelling and not asked.turn_radius.strip():
        door.assumed.append("straight ahead: no turn was given")
    slewing = door.number(
        "slew-speed", asked.slew_speed, "turn rate", low=0, high=3, bounds="0 to 170 deg/s"
    )
    stop = door.positive("slew-stop", asked.slew_stop, "time", high=60.0)
    if slewing and end == "front":
        door.fault(
            "slew-speed",
            given=f'"{asked.slew_speed}"',
            wanted="nothing for the front end",
            fix="only the back end slews",
        )
    sinkage = door.number("sinkage", asked.sinkage, "length", low=0, high=1.0, bounds="0 to 1 m")
    friction = door.number(
        "friction", asked.friction, "ratio", low=0.01, high=1.2, bounds="0.01 to 1.2"
    )
    made = Motion()
    with door.gather:
        made = Motion(
            speed=speed or 0.0,
            turn_radius=radius,
            braking=braking or 0.0,
            slew_speed=slewing or 0.0,
            slew_stop=stop,
            sinkage=sinkage,
            friction=friction,
        )
    return made


def _far(door: FieldReader, name: str, text: str) -> float | None:
    """A distance; "none" is without end."""
    if text.strip().lower() in NONE:
        door.echoes.append((name, "none"))
        return math.inf
    return door.number(name, text, "length", low=0, high=10_000, bounds="0 to 10 km, or none")


def read_hazards(asked: LiftRequest, door: FieldReader) -> Hazards:
    """Wires, edges and people."""
    rules: Rules | None = None
    if asked.rules.strip():
        chosen = door.choice("rules", asked.rules, get_args(Rules))
        rules = next((each for each in get_args(Rules) if each == chosen), None)
    carried: WiresOn | None = None
    if asked.wires_on.strip():
        chosen = door.choice("wires-on", asked.wires_on, get_args(WiresOn))
        carried = next((each for each in get_args(WiresOn) if each == chosen), None)
    wires = _far(door, "wires", asked.wires)
    made = Hazards()
    voltage = door.positive("wires-voltage", asked.wires_voltage, "voltage", high=2e6)
    depth = door.number(
        "edge-depth", asked.edge_depth, "length", low=0, high=100, bounds="0 to 100 m"
    )
    edge, people = _far(door, "edge", asked.edge), _far(door, "people", asked.people)
    if (asked.edge.strip() and edge is None) or (asked.edge_depth.strip() and depth is None):
        # What could not be read is a fault already; the other half is not to blame for it.
        edge = depth = None
    with door.gather:
        made = Hazards(
            rules="uk" if wires == math.inf and rules is None else rules,
            wires_distance=wires,
            wires_voltage=voltage,
            wires_on=carried,
            edge_distance=edge,
            edge_depth=depth,
            people_distance=people,
        )
    return made
