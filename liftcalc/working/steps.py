"""The worked steps of an answer: the formulas that were used, with letters and with numbers.

Every row is a step of ``physics.written``, called again with the numbers of the answer; a test
holds that the results are those of the answer. The formulas' text stands in
``physics/working.json``, written from the derivations.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Any

from liftcalc.answers.answer import Answer, Criterion
from liftcalc.answers.capacity import LineCapacity, RamCapacity, plane_gravity
from liftcalc.answers.lift import Lift
from liftcalc.machines.standing import Lump
from liftcalc.physics import written
from liftcalc.physics.joints import moment_per_kilogram
from liftcalc.physics.tipping import unit_moment
from liftcalc.physics.worked import Worked, work
from liftcalc.sources import SOURCES

_SLOT = re.compile("‹([a-z_0-9]+)›")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line: why, the formula in letters and in numbers (LaTeX), plain text and the result."""

    why: str
    letters: str
    numbers: str
    plain: str
    result: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """The working of one figure of the answer."""

    title: str
    rows: tuple[Row, ...]
    source: str = ""


@lru_cache(maxsize=1)
def _texts() -> Mapping[str, Any]:
    text = files("liftcalc.physics").joinpath("working.json").read_text(encoding="utf-8")
    loaded: Mapping[str, Any] = json.loads(text)
    return loaded


def figure(value: float, *, digits: int = 5) -> str:
    """A number as it stands in a worked step: enough digits to be done again by hand."""
    if math.isinf(value):
        return "no limit" if value > 0 else "−no limit"
    if value == 0:
        return "0"
    places = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    shown = f"{value:.{places}f}"
    return shown.rstrip("0").rstrip(".") if "." in shown else shown


def _bracketed(value: float) -> str:
    """A number as it stands inside a formula: in brackets when it is negative."""
    shown = figure(value)
    return f"({shown})" if shown.startswith("-") else shown


def _unit(unit: str) -> str:
    return "" if unit == "-" else f" {unit}"


def rows_of(worked: Worked) -> tuple[Row, ...]:
    """The steps of one formula, as rows."""
    texts = _texts()
    words, formula = texts["words"], texts["formulas"][worked.formula]
    known = {name: float(value) for name, value in worked.given.items()}

    def letter(found: re.Match[str]) -> str:
        return f"{{{words[found[1]]['letter']}}}"

    def latex_number(found: re.Match[str]) -> str:
        return f"{{{_bracketed(known[found[1]])}}}"

    def number(found: re.Match[str]) -> str:
        return _bracketed(known[found[1]])

    rows = []
    for step, value in zip(formula["steps"], worked.steps, strict=True):
        word = words[step["word"]]
        result = f"{figure(float(value))}{_unit(word['unit'])}"
        rows.append(
            Row(
                why=step["why"],
                letters=f"{word['letter']} = {_SLOT.sub(letter, step['latex'])}",
                numbers=_SLOT.sub(latex_number, step["latex"]),
                plain=f"{word['meaning']} = {_SLOT.sub(number, step['text'])}",
                result=result,
            )
        )
        known[step["word"]] = float(value)
    return tuple(rows)


def section_of(worked: Worked) -> Section:
    """One formula put to work, as a section of its own."""
    formula = _texts()["formulas"][worked.formula]
    label, title = worked.label, formula["title"]
    repeats = label.lower() in title.lower()
    named = title if repeats else f"{label[:1].upper()}{label[1:]}: {title[:1].lower()}{title[1:]}"
    return Section(title=named, rows=rows_of(worked), source=formula["source"])


def _sum_rows(
    parts: Iterable[tuple[str, float, float]], *, what: str, letter: str, unit: str, per: str
) -> tuple[Row, ...]:
    """A sum of mass times something, one row a part, and its total."""
    rows, total = [], 0.0
    for name, mass, each in parts:
        total += mass * each
        rows.append(
            Row(
                why=name,
                letters=rf"m \cdot {per}",
                numbers=rf"{figure(mass)} \cdot {_bracketed(each)}",
                plain=f"{name} = {figure(mass)} · {_bracketed(each)}",
                result=f"{figure(mass * each)} {unit}",
            )
        )
    rows.append(
        Row(
            why=f"sum: {what}",
            letters=rf"{letter} = \sum m \cdot {per}",
            numbers="",
            plain=f"{what}, the sum",
            result=f"{figure(total)} {unit}",
        )
    )
    return tuple(rows)


def _gravity(answer: Answer) -> Section:
    site = answer.lift.site
    return section_of(
        work(
            "Ground",
            written.effective_gravity,
            slope=float(site.slope),
            heading=float(site.heading),
            acceleration_x=float(site.acceleration_forward),
            acceleration_y=float(site.acceleration_left),
            acceleration_z=0.0,
        )
    )


def _line_worked(
    line: LineCapacity, *, at: tuple[float, float, float], gravity: tuple[float, float, float]
) -> Worked:
    start, end = line.line.start, line.line.end
    return work(
        f"Load {line.line.name}",
        written.line_moment,
        point_x=at[0], point_y=at[1], point_z=at[2],
        start_x=start.x, start_y=start.y, start_z=start.z,
        end_x=end.x, end_y=end.y, end_z=end.z,
        gravity_x=gravity[0], gravity_y=gravity[1], gravity_z=gravity[2],
    )  # fmt: skip


def _floats(vector: Iterable[Any]) -> tuple[float, float, float]:
    x, y, z = (float(each) for each in vector)
    return x, y, z


def _tipping(answer: Answer, governing: Criterion) -> Section:
    reached = answer.reached
    line = min(reached.lines, key=lambda each: float(each.tipping_load))
    gravity = _floats(reached.gravity)

    def per_kilogram(lump: Lump) -> float:
        return float(unit_moment(line.line, x=lump.x, y=lump.y, z=lump.z, gravity=gravity))

    parts = [(lump.name, float(lump.mass), per_kilogram(lump)) for lump in reached.standing.lumps]
    rows = _sum_rows(parts, what="holding moment of the machine", letter="M_0", unit="N·m", per="k")
    rows += rows_of(_line_worked(line, at=_floats(reached.load), gravity=gravity))
    if reached.lean:
        rows += (
            Row(
                why=f"the load swung {math.degrees(reached.lean):.1f}° the worst way",
                letters=r"k_L = k\cos\alpha - s\sin\alpha",
                numbers="",
                plain="moment of one kilogram of load, swung",
                result=f"{figure(float(line.load_unit_moment))} N·m/kg",
            ),
        )
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
                written.tipping_load,
                holding_moment=float(line.holding_moment),
                load_unit_moment=float(line.load_unit_moment),
            )
        )
    return Section(
        title=f"Tipping {line.line.name}: least of {len(reached.lines)} lines",
        rows=rows + _allowed(answer, governing),
        source="equilibrium of moments about the tipping line",
    )


def _allowed(answer: Answer, criterion: Criterion) -> tuple[Row, ...]:
    rows = rows_of(
        work(
            criterion.name,
            written.allowed_load,
            capacity=criterion.capacity,
            share=criterion.share.value,
        )
    )
    if 0 < criterion.allowed - answer.lift.rigging < math.inf:
        rows += rows_of(
            work(
                criterion.name,
                written.utilisation,
                allowed=criterion.allowed,
                rigging_mass=answer.lift.rigging,
                load_factor=answer.lift.per_log,
                planning_mass=answer.lift.log.mass_planning,
            )
        )
    share = criterion.share
    why = f"{share.value:.2f}: {share.why} ({SOURCES[share.source].citation})"
    first = rows[0]
    return (
        Row(why=why, letters=first.letters, numbers=first.numbers, plain=first.plain,
            result=first.result),
        *rows[1:],
    )  # fmt: skip


def _ram(answer: Answer, ram: RamCapacity, criterion: Criterion) -> Section:
    joint, arm = ram.joint, answer.reached.arm
    gravity_u, gravity_w = plane_gravity(arm, gravity=answer.reached.gravity, slew=answer.lift.slew)
    rows = rows_of(
        work(
            joint.name,
            written.ram_force,
            bore=float(joint.ram.bore),
            rod=float(joint.ram.rod),
            count=float(joint.ram.count),
            pressure=ram.pressure,
            efficiency=float(answer.lift.machine.hydraulics.efficiency),
        )
    )
    rows += _arm_rows(ram)
    parts = [
        (
            lump.name,
            float(lump.mass),
            float(
                moment_per_kilogram(
                    at=lump.at, pivot=joint.pivot, gravity_u=gravity_u, gravity_w=gravity_w
                )
            ),
        )
        for lump in joint.lumps
    ]
    rows += _sum_rows(
        parts, what="moment of the links' weight", letter=r"M_\ell", unit="N·m", per="k"
    )
    rows += rows_of(
        work(
            joint.name,
            written.joint_load,
            push=float(ram.push),
            pull=float(ram.pull),
            moment_arm=float(joint.moment_arm),
            links_moment=float(ram.links_moment),
            joint_unit_moment=float(ram.load_unit_moment),
        )
    )
    return Section(
        title=f"{joint.name.capitalize()}: what it can carry",
        rows=rows + _allowed(answer, criterion),
        source="equilibrium of moments about the joint",
    )


def _arm_rows(ram: RamCapacity) -> tuple[Row, ...]:
    """Length and moment arm of a ram; for an attachment through its four-bar."""
    joint = ram.joint
    if joint.tilt is None:
        return rows_of(
            work(
                joint.name,
                written.ram_geometry,
                pivot_u=float(joint.pivot.u), pivot_w=float(joint.pivot.w),
                base_pin_u=float(joint.base_pin.u), base_pin_w=float(joint.base_pin.w),
                rod_pin_u=float(joint.rod_pin.u), rod_pin_w=float(joint.rod_pin.w),
            )
        )  # fmt: skip
    bar, tilt = joint.bar, joint.tilt
    assert bar is not None  # a joint with a tilt has the four-bar it came from
    rocker = work(
        joint.name,
        written.ram_geometry,
        pivot_u=float(bar.rocker_pivot.u), pivot_w=float(bar.rocker_pivot.w),
        base_pin_u=float(bar.ram_base.u), base_pin_w=float(bar.ram_base.w),
        rod_pin_u=float(tilt.ram_pin.u), rod_pin_w=float(tilt.ram_pin.w),
    )  # fmt: skip
    ratio = work(
        joint.name,
        written.four_bar_ratio,
        pivot_u=float(bar.pivot.u), pivot_w=float(bar.pivot.w),
        crank_pivot_u=float(bar.rocker_pivot.u), crank_pivot_w=float(bar.rocker_pivot.w),
        crank_pin_u=float(tilt.rocker_pin.u), crank_pin_w=float(tilt.rocker_pin.w),
        link_pin_u=float(tilt.link_pin.u), link_pin_w=float(tilt.link_pin.w),
    )  # fmt: skip
    arm, turns = rocker.result, ratio.result
    whole = Row(
        why="moment arm at the attachment: that at the rocker times the velocity ratio",
        letters=r"r = r_{\mathrm{rocker}} \cdot i",
        numbers=rf"{_bracketed(arm)} \cdot {_bracketed(turns)}",
        plain=f"moment arm at the attachment = {_bracketed(arm)} · {_bracketed(turns)}",
        result=f"{figure(float(joint.moment_arm))} m",
    )
    return (*rows_of(rocker), *rows_of(ratio), whole)


def _rated(answer: Answer, criterion: Criterion) -> Section:
    return Section(title=criterion.title.capitalize(), rows=_allowed(answer, criterion))


def worked_out(answer: Answer, *, asked: Lift | None = None) -> tuple[Section, ...]:
    """The working of every figure in the answer, log first.

    ``asked`` is the lift with its journey as it was said; without it a turn is not worked.
    """
    sections = [section_of(worked) for worked in answer.lift.log.worked]
    sections.append(_gravity(answer))
    rams = {ram.joint.name: ram for ram in answer.reached.rams}
    for criterion in answer.criteria:
        if criterion.name == "tipping":
            sections.append(_tipping(answer, criterion))
        elif criterion.name in rams:
            sections.append(_ram(answer, rams[criterion.name], criterion))
        else:
            sections.append(_rated(answer, criterion))
    return tuple(sections)
