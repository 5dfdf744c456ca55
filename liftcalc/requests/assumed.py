"""What of a lift was not said and was taken somehow: all of it in one place."""

from __future__ import annotations

from dataclasses import dataclass

from liftcalc import units
from liftcalc.evaluation.lift import OFF_CENTRE, Lift
from liftcalc.requests.reader import FieldReader
from liftcalc.rigging.sling import BALANCE_MISS


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """What was taken for a field that nobody said, in words."""

    field: str
    words: str


def assumptions(reader: FieldReader, lift: Lift) -> tuple[Assumption, ...]:
    """What a lift took for what was not said of it.

    Parameters
    ----------
    reader : FieldReader
        What was said.
    lift : Lift
        What it became.
    """
    tool, point, sling, usual_tilt = lift.tool, lift.point, lift.sling, lift.tool.usual_tilt
    jaw, pins = point.jaw_force is not None, tool.end == "back" and tool.mount == "pins"
    taken = (
        ("stance", not lift.travelling, f"standing on its {lift.stance}"),
        ("slope", True, "ground level within 1 %"),
        ("turn_radius", lift.motion.speed, "straight ahead: no turn was given"),
        ("sling", lift.slung, "log in one choked sling"),
        (
            "slung_at",
            point.hold == "hangs",
            f"balance point missed by {BALANCE_MISS:.0%} of the log's length",
        ),
        ("sling_length", lift.slung, f"sling or each leg {sling.length:.1f} m long"),
        ("rigging_mass", lift.slung, f"rigging of {sling.mass:.0f} kg"),
        (
            "ground_end",
            lift.taken.way != "whole",
            "the butt is lifted, the top stays on the ground: it pulls harder so",
        ),
        ("surface", jaw, f"the jaw presses on {lift.surface}"),
        (
            "tilt",
            tool.end == "front" and usual_tilt is not None,
            f"{tool.name} tilted {units.show(lift.tilt, 'angle')}",
        ),
        ("curl", pins, f"{tool.name} curled with {lift.curl:.0%} of the bucket ram out"),
        (
            "off_centre",
            point.hold != "hangs",
            f"the log's balance point within {OFF_CENTRE:.0%} of its length of the middle",
        ),
    )
    return tuple(
        Assumption(field=field, words=words)
        for field, holds, words in taken
        if holds and not reader.text(field)
    )
