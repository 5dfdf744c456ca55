"""An answer as a table for people, and as JSON for programs."""

from __future__ import annotations

import math
from typing import Any

from liftcalc.answers.answer import Answer, Criterion
from liftcalc.answers.asked import ReadLift
from liftcalc.answers.capacity import LineCapacity, RamCapacity
from liftcalc.physics.plane import Point
from liftcalc.rules import CAUTION
from liftcalc.units import Rounding, System, show

WIDTH = 30
"""Column at which values start."""
CELLS = 20
"""Length of the bar that shows a utilisation."""


def table(answer: Answer, read: ReadLift, system: System) -> list[str]:
    """The answer for people: capacities rounded down, loads and utilisation up."""
    lift, log = answer.lift, answer.lift.log

    def kilos(value: float, rounding: Rounding) -> str:
        return show(value, "mass", system=system, rounding=rounding)

    def row(name: str, value: str, note: str = "") -> str:
        return f"  {name:<{WIDTH}}{value:<12}{note}".rstrip()

    spread = f"likely {kilos(log.mass_likely, 'near')}, low {kilos(log.mass_low, 'down')}"
    lines = [
        f"{lift.machine.title}: {lift.end} end, {lift.tool.name}, {lift.point.name}",
        "",
        f"  {answer.verdict}.",
        "",
        row("this log, to plan on", kilos(log.mass_planning, "up"), spread),
        row("heaviest log allowed here", kilos(answer.heaviest_log, "down")),
        row("load allowed at lift point", kilos(answer.allowed, "down"),
            f"stopped first by: {answer.governs}"),
        "",
        *(f"  {line}" for line in wrapped(CAUTION)),
        "",
        f"  {'what could stop it':<{WIDTH + 16}}{'capacity':>11}{'share':>7}{'allowed':>11}"
        f"{'used':>7}",
        *(_criterion_row(each, kilos) for each in answer.criteria),
        "",
        *_place(answer, system),
        "",
        "Understood",
        *(row(name, echo) for name, echo in read.echoes),
    ]  # fmt: skip
    lines += ["", "Warnings", *listed(answer.warnings)]
    said = [each for each in answer.assumed if not each.startswith("machine: ")]
    figures = len(answer.assumed) - len(said)
    if figures:
        said.append(f"{figures} figures of the machine (--json lists them)")
    return [*lines, "", "Assumed", *listed(said)]


def _criterion_row(each: Criterion, kilos: Any) -> str:
    used = "no room" if math.isinf(each.utilisation) else f"{math.ceil(100 * each.utilisation)} %"
    filled = min(CELLS, math.ceil(CELLS * min(each.utilisation, 1.0)))
    bar = "#" * filled + "." * (CELLS - filled)
    mark = " over" if not each.utilisation <= 1 else ""
    return (
        f"  {each.title:<{WIDTH + 16}}{kilos(each.capacity, 'down'):>11}"
        f"{f'{100 * each.share.value:.0f} %':>7}{kilos(each.allowed, 'down'):>11}{used:>8}"
        f"  {bar}{mark}"
    )


def wrapped(text: str, width: int = 92) -> list[str]:
    """A text as lines for a terminal."""
    import textwrap  # noqa: PLC0415 - small, and only for people

    return textwrap.wrap(text, width)


def listed(texts: Any) -> list[str]:
    """Texts as a list, one mark each."""
    lines: list[str] = []
    for text in texts:
        first, *rest = wrapped(text)
        lines += [f"  - {first}", *(f"    {each}" for each in rest)]
    return lines


def _place(answer: Answer, system: System) -> list[str]:
    lift, reached = answer.lift, answer.reached

    def metres(value: float, rounding: Rounding = "near") -> str:
        return show(value, "length", system=system, rounding=rounding)

    origin = "from the slew axis" if lift.end == "back" else "ahead of the front axle"
    lines = [
        f"  lift point {metres(lift.height)} above the ground, {metres(reached.reach)} {origin}",
        f"  log's lowest point {metres(answer.lowest, 'down')} above the ground",
    ]
    if answer.lowest_tipped < answer.lowest:
        lines[-1] += (
            f" hanging level, {metres(answer.lowest_tipped, 'down')} hung off its balance point"
        )
    return lines


def record(answer: Answer, read: ReadLift, *, evidence: bool) -> dict[str, Any]:
    """The answer as plain data in SI; what has no limit is null."""
    log = answer.lift.log
    made: dict[str, Any] = {
        "log": {
            "volume_m3": log.volume,
            "mass_kg": {
                "low": log.mass_low,
                "likely": log.mass_likely,
                "planning": log.mass_planning,
            },
            "cog_from_butt_m": log.cog_from_butt,
        },
        "answer": {
            "allowed_kg": finite(answer.allowed),
            "heaviest_log_kg": finite(answer.heaviest_log),
            "governs": answer.governs,
            "utilisation": finite(answer.utilisation),
            "verdict": answer.verdict,
            "passes": answer.passes,
            "load_factor": answer.load_factor.value,
            "rigging_kg": answer.lift.rigging,
            "reach_m": answer.reached.reach,
            "lift_point_height_m": answer.lift.height,
            "lowest_point_m": answer.lowest,
            "lowest_point_off_balance_m": answer.lowest_tipped,
        },
        "criteria": [_criterion(each) for each in answer.criteria],
        "warnings": list(answer.warnings),
        "assumed": list(answer.assumed),
        "understood": dict(read.echoes),
        "caution": CAUTION,
    }
    if evidence:
        made["evidence"] = _evidence(answer)
    return made


def finite(value: float) -> float | None:
    """The value, or None where it is infinite: JSON has no such number."""
    return float(value) if math.isfinite(value) else None


def _criterion(each: Criterion) -> dict[str, Any]:
    return {
        "name": each.name,
        "where": each.where,
        "capacity_kg": finite(each.capacity),
        "factor": each.share.value,
        "allowed_kg": finite(each.allowed),
        "utilisation": finite(each.utilisation),
        "why": each.share.why,
        "source": each.share.source,
    }


def _xyz(vector: Any) -> dict[str, float]:
    return dict(zip("xyz", (float(part) for part in vector), strict=True))


def _evidence(answer: Answer) -> dict[str, Any]:
    reached = answer.reached
    return {
        "lumps": [
            {"name": lump.name, "mass": float(lump.mass), **_xyz((lump.x, lump.y, lump.z))}
            for lump in reached.standing.lumps
        ],
        "lift_point": _xyz(reached.load),
        "lift_point_asked": _xyz(reached.asked),
        "gravity": _xyz(reached.gravity),
        "swing": float(reached.lean),
        "supports": [
            {"name": each.name, **_xyz((each.x, each.y, each.z))}
            for each in reached.standing.supports
        ],
        "lines": [_line(each) for each in reached.lines],
        "rams": [_ram(answer, each) for each in reached.rams],
    }


def _line(each: LineCapacity) -> dict[str, Any]:
    start, end = each.line.start, each.line.end
    return {
        "name": each.line.name,
        "start": [start.x, start.y, start.z],
        "end": [end.x, end.y, end.z],
        "holding_moment": float(each.holding_moment),
        "tipping_load": finite(float(each.tipping_load)),
    }


def _ram(answer: Answer, each: RamCapacity) -> dict[str, Any]:
    lift, joint = answer.lift, each.joint

    def stand(at: Point) -> list[float]:
        return [float(part) for part in lift.in_machine(at)]

    return {
        "name": joint.name,
        "pivot": stand(joint.pivot),
        "base_pin": stand(joint.base_pin),
        "rod_pin": stand(joint.rod_pin),
        "bore": float(joint.ram.bore),
        "rod": float(joint.ram.rod),
        "count": joint.ram.count,
        "pressure": each.pressure,
        "efficiency": float(lift.machine.hydraulics.efficiency),
        "length": float(joint.ram_length),
        "moment_arm": float(joint.moment_arm),
        "links_moment": float(each.links_moment),
        "load_moment_per_kg": float(each.load_unit_moment),
        "push": float(each.push),
        "pull": float(each.pull),
        "carries": [lump.name for lump in joint.lumps],
        "capacity": finite(float(each.capacity)),
    }
