"""What one typed thing asks of another: each rule a function, which notes its faults."""

from __future__ import annotations

import math

from liftcalc.machines.schema import Attachment, EndName, LiftPoint
from liftcalc.requests.fields import names_when
from liftcalc.requests.reader import FieldReader
from liftcalc.requests.sections import SLUNG
from liftcalc.timber.log import LogMeasure

STEEPEST_LEVELLED = math.radians(10)
"""Steepest ground on which a machine is taken to be levelled [rad]; common practice, no source."""


def check_slope(reader: FieldReader, *, stance: str) -> None:
    """A slope has a direction; only stabilisers level a machine, and not on any slope."""
    slope, levelled = reader.number("slope"), reader.values["levelled"]
    if slope and not reader.text("uphill") and not levelled:
        reader.fault(
            "uphill",
            given="nothing",
            wanted="which way is uphill seen from the seat: 0 deg nose uphill, 90 deg left "
            "side uphill, 180 deg nose downhill, -90 deg right side uphill",
        )
    if levelled and stance == "wheels":
        reader.fault(
            "levelled",
            given="yes, on its wheels",
            wanted="stabilisers down, which can level a machine",
            fix="leave it out and give the slope that the machine really stands on",
        )
    if levelled and slope is not None and slope > STEEPEST_LEVELLED:
        reader.fault(
            "levelled",
            given=f"yes, on a slope of {math.degrees(slope):.1f}°",
            wanted=f"a slope of at most {math.degrees(STEEPEST_LEVELLED):.0f}°, which stabilisers "
            "and packing can make good",
            fix="go where it is less steep, or give the slope the machine really stands at",
        )


def check_end(reader: FieldReader, *, end: EndName, stance: str) -> None:
    """Only the back end slews, shifts and lifts with its bucket pressed; only the front travels."""
    if end == "front":
        if reader.number("slew") or reader.number("sideshift"):
            said = reader.text("slew" if reader.text("slew") else "sideshift")
            reader.fault(
                "slew or sideshift",
                given=f'"{said}"',
                wanted="nothing for a lift at the front end",
                fix="they move the back end",
            )
        if reader.number("slew_speed"):
            reader.fault(
                "slew_speed", wanted="nothing for the front end", fix="only the back end slews"
            )
        if stance in reader.fields["stance"].only_back:
            reader.fault(
                "stance",
                wanted="wheels or stabilisers for a lift at the front end",
                fix="the bucket cannot press and lift at once",
            )
    if reader.values["travelling"] and (end == "back" or stance != "wheels"):
        reader.fault(
            "travelling",
            given="yes",
            wanted="the front end, on its wheels, to carry a log on the move",
            fix="set it down and take it with the front end",
        )


def check_height(reader: FieldReader) -> None:
    """The lift point's height follows from that of the log's underside."""
    if reader.text("underside") and reader.text("height"):
        reader.fault(
            "underside", wanted="one of underside and height", fix="the other follows from it"
        )


def check_journey(reader: FieldReader) -> None:
    """A machine that stands has no journey."""
    for name in ("speed", "turn_radius", "braking"):
        if reader.values[name] is not None and not reader.values["travelling"]:
            reader.fault(
                name,
                given="a machine that stands",
                wanted="travelling, to have a journey",
                fix="say that it carries the log on the move, or leave this out",
            )


def check_held(reader: FieldReader, *, tool: Attachment, point: LiftPoint) -> None:
    """No sling goes with a log that is held fast, and all of it is lifted."""
    if point.hold == "hangs":
        return
    for name in names_when(SLUNG):
        if reader.text(name):
            reader.fault(
                name,
                given=f'"{reader.text(name)}" for a log held fast in the {tool.name}',
                wanted="nothing: no sling goes with it",
                fix="leave it out, or choose a lift point from which the log hangs; off-centre "
                "says how far off its balance a held log lies",
            )
    if reader.values["lifted"] not in (None, "whole"):
        reader.fault(
            "lifted",
            given=f'"{reader.values["lifted"]}" with an attachment that holds the log fast',
            wanted="whole, or a lift point from which the log hangs",
        )


def check_on_log(reader: FieldReader, *, measure: LogMeasure) -> None:
    """Sling and hook are on the log."""
    for name, origin in (("slung_at", "the butt"), ("hook_at", "the end on the ground")):
        if (reader.number(name) or 0.0) > measure.length:
            reader.fault(
                name, wanted=f"a place on the log, up to {measure.length:.2f} m from {origin}"
            )
