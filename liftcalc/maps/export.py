"""Grids of limits as tables: one row for each cell, in SI, with everything they rest on.

A table is written as CSV or JSON. Masses are whole kilograms,
rounded down; angles are degrees, since people read these files.
"""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Iterator
from dataclasses import astuple, dataclass, fields
from itertools import chain, pairwise
from typing import Any

from liftcalc import __version__
from liftcalc.documents import document
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.warnings import unchecked, used_numbers
from liftcalc.factors import CAUTION, NOT_CHECKED, RAM_SHARE, TIPPING_SHARE
from liftcalc.machines.files import numbers
from liftcalc.machines.lookup import named
from liftcalc.maps.limits import ON_GROUND, Cells, FrontLimits, LimitMap

ABOUT = (
    "each row holds anywhere inside its cell: the least found there, less what may hide between "
    "samples; a cell of which any part cannot be reached has no load but a reason; log_passes is "
    f"yes, no, or {ON_GROUND}"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One cell. Masses [kg], rounded down; None where some of the cell cannot be reached.

    ``map`` says which map it is of: side, plan, or the curve of a front attachment. ``log_passes``
    is yes, no, or that the log is still on the ground; empty when no log was given. At the front
    the reach follows from the height; at a cell that cannot be reached it is None.
    """

    map: str
    reach_from_m: float | None
    reach_to_m: float | None
    height_from_m: float
    height_to_m: float
    slew_from_deg: float
    slew_to_deg: float
    allowed_kg: int | None
    heaviest_log_kg: int | None
    log_passes: str
    governs: str
    unreachable_because: str


COLUMNS = tuple(each.name for each in fields(Row))


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Rows, and what they rest on: pairs of name and text, SI units in the names.

    ``practice`` says that the machine is invented.
    """

    inputs: tuple[tuple[str, str], ...]
    rows: tuple[Row, ...]
    practice: bool


def table_of(*maps: LimitMap | FrontLimits, echoes: tuple[tuple[str, str], ...] = ()) -> Table:
    """Maps of one lift, or a curve, as a table; ``echoes`` tell what was understood."""
    rows = [_curve(each) if isinstance(each, FrontLimits) else _map(each) for each in maps]
    return Table(
        inputs=_inputs(maps[0], echoes),
        rows=tuple(chain.from_iterable(rows)),
        practice=maps[0].lift.machine.invented,
    )


def _map(limits: LimitMap) -> list[Row]:
    side = limits.across == "height"
    at = round(limits.at if not side else math.degrees(limits.at), 6)
    rows = []
    for i, (near, far) in enumerate(_pairs(limits.reach)):
        for j, (low, high) in enumerate(_pairs(limits.other)):
            heights = (low, high) if side else (at, at)
            slews = (at, at) if side else tuple(round(math.degrees(x), 6) for x in (low, high))
            rows.append(_row(limits, (i, j), reach=(near, far), height=heights, slew=slews))
    return rows


def _curve(limits: FrontLimits) -> list[Row]:
    rows = []
    for i, heights in enumerate(_pairs(limits.height)):
        # The nearest is rounded down and the farthest up: the lift point is between them.
        near = math.floor(1e6 * limits.reach_least[i]) / 1e6 if limits.governs[i] >= 0 else None
        far = math.ceil(1e6 * limits.reach_most[i]) / 1e6 if limits.governs[i] >= 0 else None
        rows.append(_row(limits, (i,), reach=(near, far), height=heights, slew=(0.0, 0.0)))
    return rows


def _pairs(edges: Any) -> list[tuple[float, float]]:
    return [(float(a), float(b)) for a, b in pairwise(edges)]


def _row(
    limits: LimitMap | FrontLimits,
    at: tuple[int, ...],
    *,
    reach: tuple[float | None, float | None],
    height: tuple[float, float],
    slew: tuple[float, ...],
) -> Row:
    which, why = int(limits.governs[at]), int(limits.stopped[at])
    taken = which >= 0
    passes = ""
    if limits.for_log:
        passes = "yes" if limits.passes[at] else ON_GROUND if limits.on_ground[at] else "no"
    return Row(
        map=limits.view,
        reach_from_m=reach[0],
        reach_to_m=reach[1],
        height_from_m=height[0],
        height_to_m=height[1],
        slew_from_deg=slew[0],
        slew_to_deg=slew[1],
        allowed_kg=_down(limits.allowed[at]) if taken else None,
        heaviest_log_kg=_down(limits.heaviest_log[at]) if taken else None,
        log_passes=passes,
        governs=limits.criteria[which] if taken else "",
        unreachable_because="" if taken else limits.reasons[why].words if why >= 0 else "unknown",
    )


def _down(value: Any) -> int:
    return max(0, math.floor(float(value)))


def _inputs(limits: Cells, echoes: tuple[tuple[str, str], ...]) -> tuple[tuple[str, str], ...]:
    lift, site = limits.lift, limits.lift.site
    said = [
        ("caution", CAUTION),
        ("liftcalc version", __version__),
        ("about", ABOUT),
        ("machine", named(lift.machine)),
        ("machine name", lift.machine.name),
        ("end", lift.end),
        ("attachment", lift.tool.name),
        ("lift point", lift.point.name),
        ("other attachment", lift.other_tool.name),
        ("stance", lift.stance),
        ("travelling", "yes" if lift.travelling else "no"),
        ("operator aboard", "yes" if lift.operator else "no"),
        ("sideshift_m", f"{lift.sideshift:.6g}"),
        ("tilt_deg", f"{math.degrees(lift.tilt):.6g}"),
        ("curl_share", f"{lift.curl:.6g}"),
        ("slope_deg", f"{math.degrees(float(site.slope)):.6g}"),
        ("uphill_deg", f"{math.degrees(float(site.heading)):.6g}"),
        ("levelled on the slope", "yes" if site.levelled else "no"),
        ("acceleration_forward_m/s2", f"{float(site.acceleration_forward):.6g}"),
        ("acceleration_left_m/s2", f"{float(site.acceleration_left):.6g}"),
        *_journey(lift),
        *_ground(lift),
        *_rigging(lift),
        *_hazards(lift),
        ("gauge_pressure_Pa", "none" if lift.gauge is None else f"{lift.gauge:.6g}"),
        ("plate_given_kg", "none" if lift.plate is None else f"{lift.plate:.6g}"),
        ("log", "as given" if limits.for_log else "none given; a stand-in"),
        ("log_length_m", f"{lift.measure.length:.6g}"),
        ("log_largest_diameter_m", f"{lift.log.largest_diameter:.6g}"),
        ("log_side_room_m", f"{lift.side_room:.6g}"),
        ("rigging_kg", f"{lift.rigging:.6g}"),
        *(
            (f"load_factor, {kind}", f"{lift.load_factor(kind).value:.6g}")
            for kind in dict.fromkeys(limits.kinds)
        ),
        ("share_of_log_on_hook", f"{lift.pull.share:.6g}"),
        ("share_of_tipping_load", f"{TIPPING_SHARE[lift.duty].value:.6g}"),
        ("share_of_ram_capacity", f"{RAM_SHARE.value:.6g}"),
    ]
    if limits.for_log:
        said.append(("log_planning_kg", str(math.ceil(lift.log.mass_planning))))
    said += [(f"understood: {name}", echo) for name, echo in echoes]
    said += [(NOT_CHECKED.lower(), str(each)) for each in unchecked(lift)]
    said += [("assumed", str(each)) for each in lift.assumed]
    used = dict(used_numbers(lift))
    said += [
        (f"machine figure: {key}", f"{number.text} ({number.kind})")
        for key, number in numbers(lift.machine)
        if key in used
    ]
    return tuple((name, " ".join(text.split())) for name, text in said)


def _shown(value: float | str | None, none: str = "not said") -> str:
    return none if value is None else value if isinstance(value, str) else f"{value:.6g}"


def _journey(lift: Lift) -> Iterator[tuple[str, str]]:
    motion = lift.motion
    yield "swing_deg", f"{math.degrees(lift.swing):.6g}"
    yield "slew_speed_deg/s", f"{math.degrees(motion.slew_speed):.6g}"
    yield "slew_stop_s", _shown(motion.slew_stop)
    yield "speed_m/s", _shown(motion.speed)
    yield "turn_radius_m", _shown(motion.turn_radius, "straight ahead")
    yield "braking_m/s2", _shown(motion.braking)
    yield "sinkage_m", _shown(motion.sinkage)


def _ground(lift: Lift) -> Iterator[tuple[str, str]]:
    ground = lift.ground
    yield "ground", _shown(ground.name if ground else None)
    yield "mat_side_m", _shown(lift.mat, "none")
    yield "friction_on_ground", _shown(lift.friction)


def _rigging(lift: Lift) -> Iterator[tuple[str, str]]:
    gear, sling, taken = lift.gear, lift.sling, lift.taken
    yield "log lifted", taken.way
    if taken.way != "whole":
        yield "end on the ground", taken.ground_end
        yield "hook_from_that_end_m", _shown(taken.hook_at)
        yield "drag_friction", _shown(taken.drag_friction)
    yield "breakout", _shown(taken.breakout)
    if lift.point.jaw_force is not None:
        yield "jaw presses on", lift.surface
    if not lift.slung:
        return
    yield "sling", sling.way
    yield "sling_length_m", _shown(sling.length)
    yield "leg_spread_m", _shown(sling.spread)
    yield "slung_from_butt_m", _shown(sling.at, "balance point")
    yield "sling kind", _shown(gear.kind)
    yield "sling_size_m", _shown(gear.size)
    for part in ("wll", "hook_wll", "shackle_wll", "hitch_wll"):
        value = getattr(gear, part)
        name = "sling_wll_kg" if part == "wll" else f"{part}_kg"
        yield name, "none there" if value == math.inf else _shown(value)


def _hazards(lift: Lift) -> Iterator[tuple[str, str]]:
    near = lift.hazards
    for name, value in (
        ("wires_m", near.wires_distance),
        ("edge_m", near.edge_distance),
        ("edge_depth_m", near.edge_depth),
        ("people_m", near.people_distance),
    ):
        yield name, "none there" if value == math.inf else _shown(value)
    yield "rules for wires", _shown(near.rules)
    yield "wires_voltage_V", _shown(near.wires_voltage)
    yield "wires on", _shown(near.wires_on)


def csv_text(table: Table) -> str:
    """The table as CSV: inputs as two columns after a ``#``, then a header and the rows."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerows(("#", name, text) for name, text in table.inputs)
    writer.writerow(COLUMNS)
    writer.writerows(
        ["" if value is None else value for value in astuple(row)] for row in table.rows
    )
    return out.getvalue()


def record(table: Table) -> dict[str, Any]:
    """The table as plain data: inputs in order, the names of the columns, a list for each cell."""
    return {
        "inputs": [list(pair) for pair in table.inputs],
        "columns": list(COLUMNS),
        "rows": [list(astuple(row)) for row in table.rows],
    }


def json_text(tables: dict[str, Table]) -> str:
    """Tables by name as JSON."""
    made = {
        "caution": CAUTION,
        "practice": any(each.practice for each in tables.values()),
        "tables": {name: record(each) for name, each in tables.items()},
    }
    return document("limits", made, indent=None) + "\n"
