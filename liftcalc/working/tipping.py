"""The worked steps of tipping, and of a load that leans."""

from __future__ import annotations

import math

from liftcalc.evaluation.answer import Answer, Criterion
from liftcalc.evaluation.capacity import LineCapacity
from liftcalc.machines.assembly import PointMass
from liftcalc.physics import formulas
from liftcalc.physics.tipping import unit_moment
from liftcalc.physics.worked import Worked, work
from liftcalc.physics.wrench import about
from liftcalc.working.rows import (
    Row,
    Section,
    allowed_rows,
    bracketed,
    figure,
    floats,
    plain_row,
    rows_of,
    sum_rows,
)

Vector = tuple[float, float, float]


def leaning_rows(
    per_force: Vector, gravity: Vector, lean: float, *, unit: str
) -> tuple[tuple[Row, ...], float]:
    """What one kilogram of load counts for, leaning the worst way, and that number.

    ``per_force`` is what a unit of force along x, y and z counts for.
    """
    still = sum(p * g for p, g in zip(per_force, gravity, strict=True))
    size, arm = math.hypot(*gravity), math.hypot(*per_force)
    square = math.sqrt(max((size * arm) ** 2 - still**2, 0.0))
    most = math.hypot(still, square)
    if -still >= most * math.cos(lean):
        whole, numbers = -most, f"−{figure(most)}"
        how = "it leans square to its lever before the end of the swing"
    else:
        whole = still * math.cos(lean) - square * math.sin(lean)
        turn = figure(math.degrees(lean))
        numbers = f"{bracketed(still)}·cos {turn}° − {figure(square)}·sin {turn}°"
        how = f"the load leans {math.degrees(lean):.1f}° the worst way"
    row = plain_row(
        "one kilogram of load, leaning",
        numbers,
        f"{figure(whole)} {unit}",
        letters=r"k_L = k\cos\alpha - s\sin\alpha",
        why=f"{how}; s is what as much weight square to gravity would count for at most",
    )
    return (row,), whole


def _line_worked(
    line: LineCapacity, *, at: tuple[float, float, float], gravity: tuple[float, float, float]
) -> Worked:
    start, end = line.line.start, line.line.end
    return work(
        f"Load {line.line.name}",
        formulas.line_moment,
        point_x=at[0],
        point_y=at[1],
        point_z=at[2],
        start_x=start.x,
        start_y=start.y,
        start_z=start.z,
        end_x=end.x,
        end_y=end.y,
        end_z=end.z,
        gravity_x=gravity[0],
        gravity_y=gravity[1],
        gravity_z=gravity[2],
    )


def tipping_section(answer: Answer, governing: Criterion) -> Section:
    """The line that tips first: what holds, what a kilogram of load takes, and the load."""
    reached = answer.reached
    line = min(reached.lines, key=lambda each: float(each.tipping_load))
    gravity = floats(reached.gravity)

    def per_kilogram(lump: PointMass) -> float:
        return float(unit_moment(line.line, x=lump.x, y=lump.y, z=lump.z, gravity=gravity))

    parts = [(lump.name, float(lump.mass), per_kilogram(lump)) for lump in reached.standing.lumps]
    rows = sum_rows(parts, what="holding moment of the machine", letter="M_0", unit="N·m", per="k")
    rows += rows_of(_line_worked(line, at=floats(reached.load), gravity=gravity))
    if reached.lean:
        x, y, z = floats(reached.load)
        per_force = floats(about(line.line).per_force(x=x, y=y, z=z))
        rows += leaning_rows(per_force, gravity, reached.lean, unit="N·m/kg")[0]
        if answer.lift.hung:
            rows += (
                Row(
                    why="what hangs leans with the load",
                    letters=r"M_0 + m_{\mathrm{hung}} \cdot (k_L - k)",
                    numbers="",
                    plain="holding moment with the attachment swung",
                    result=f"{figure(float(line.holding_moment))} N·m",
                ),
            )
    if math.isfinite(governing.capacity) and governing.capacity > 0:
        rows += rows_of(
            work(
                "Tipping load",
                formulas.tipping_load,
                holding_moment=float(line.holding_moment),
                load_unit_moment=float(line.load_unit_moment),
            )
        )
    return Section(
        title=f"Tipping {line.line.name}: least of {len(reached.lines)} lines",
        rows=rows + allowed_rows(answer, governing),
        source="equilibrium of moments about the tipping line",
    )
