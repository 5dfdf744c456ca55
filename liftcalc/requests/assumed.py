"""What of a lift was not said and was taken somehow: all of it in one place."""

from __future__ import annotations

import math
from dataclasses import dataclass

from liftcalc.evaluation.lift import OFF_CENTRE, Lift
from liftcalc.factors import LEVEL_LIMIT
from liftcalc.remarks import Remark, near
from liftcalc.requests.reader import FieldReader
from liftcalc.rigging.sling import BALANCE_MISS


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """What was taken for a field that nobody said."""

    field: str
    said: Remark


def assumptions(reader: FieldReader, lift: Lift) -> tuple[Assumption, ...]:
    """What a lift took for what the reader was not told of it."""
    tool, point, sling = lift.tool, lift.point, lift.sling
    tilted = tool.end == "front" and tool.usual_tilt is not None
    level, off = near(math.tan(LEVEL_LIMIT), "ratio"), near(OFF_CENTRE, "ratio")
    taken = (
        ("stance", not lift.travelling, Remark("taken_stance", stance=lift.stance)),
        ("slope", True, Remark("taken_level", level=level)),
        ("turn_radius", lift.motion.speed, Remark("taken_straight")),
        ("sling", lift.slung, Remark("taken_choked")),
        (
            "hangs_level",
            point.hold == "hangs" and not reader.values["hangs_level"],
            Remark("taken_balance", miss=near(BALANCE_MISS, "ratio")),
        ),
        ("sling_length", lift.slung, Remark("taken_sling", length=near(sling.length, "length"))),
        ("rigging_mass", lift.slung, Remark("taken_rigging", mass=near(sling.mass, "mass"))),
        ("ground_end", lift.taken.way != "whole", Remark("taken_butt")),
        (
            "surface",
            point.jaw_force is not None or lift.slung,
            Remark("taken_surface", surface=lift.surface),
        ),
        ("tilt", tilted, Remark("taken_tilt", tool=tool.name, tilt=near(lift.tilt, "angle"))),
        (
            "curl",
            tool.end == "back" and tool.mount == "pins",
            Remark("taken_curl", tool=tool.name, share=near(lift.curl, "ratio")),
        ),
        ("off_centre", point.hold != "hangs", Remark("taken_centre", off=off)),
    )
    return tuple(
        Assumption(field=field, said=said)
        for field, holds, said in taken
        if holds and not reader.text(field)
    )
