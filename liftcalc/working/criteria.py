"""The worked steps of every criterion: what holds, what a kilogram of load takes, what is left.

Nothing is computed here: the steps are those that the answer was made of. Only what an answer has
in sums is told part by part, from the same functionals.
"""

from __future__ import annotations

import math
from dataclasses import replace

from liftcalc.evaluation.answer import Answer, Criterion
from liftcalc.evaluation.linear_criteria import SINKS
from liftcalc.evaluation.rams import RamCapacity
from liftcalc.evaluation.reached import CriterionCapacity
from liftcalc.factors import AXLE_SHARE, CapacityFactor
from liftcalc.physics.functions import Real
from liftcalc.physics.worked import Worked
from liftcalc.physics.wrench import Vector, WrenchFunctional, pushed
from liftcalc.reports.words import text
from liftcalc.site.clearance import Clearance
from liftcalc.sources import SOURCES
from liftcalc.working.rows import (
    Row,
    Section,
    bracketed,
    figure,
    measured,
    plain_row,
    rows_of,
    section_of,
    sum_rows,
)

WORST = "the machine in the state, of all it may be in, that is worst for this"


def criterion_section(answer: Answer, criterion: Criterion) -> Section:
    """The working of one criterion, whatever kind it is."""
    if criterion.clearance is not None:
        return _distance(answer, criterion, criterion.clearance)
    for capacity in answer.reached.linear:
        named = (capacity.criterion.name, capacity.criterion.where)
        if named == (criterion.name, criterion.where):
            return _linear(answer, criterion, capacity)
    if criterion.kind == "tipping":
        return _tipping(answer, criterion)
    for ram in answer.reached.rams:
        if criterion.kind == "ram" and ram.joint.name == criterion.name:
            return _ram(answer, criterion, ram)
    rows = tuple(row for worked in _own(criterion) for row in rows_of(worked))
    return Section(title=_title(criterion), rows=rows + _allowed(criterion))


def _title(criterion: Criterion) -> str:
    return f"{criterion.title[:1].upper()}{criterion.title[1:]}"


def _own(criterion: Criterion) -> tuple[Worked, ...]:
    """How the capacity was found, without what every criterion has: allowed load, utilisation."""
    return tuple(each for each in criterion.worked if each.formula not in _SHARED)


_SHARED = ("allowed_load", "utilisation")


def _allowed(criterion: Criterion) -> tuple[Row, ...]:
    """From the capacity to the allowed load and what this log uses of it."""
    worked = [each for each in criterion.worked if each.formula in _SHARED]
    first, moved, *rest = (row for each in worked for row in rows_of(each))

    def why(factor: CapacityFactor) -> str:
        return f"{factor.value:.2f}: {text(factor.why)} ({SOURCES[factor.source].citation})"

    shared = replace(first, why=why(criterion.share))
    return shared, replace(moved, why=why(criterion.load_factor)), *rest


def _no_load(criterion: Criterion) -> Row:
    words = "it fails with no load at all" if criterion.capacity <= 0 else "no load comes to it"
    return plain_row(words, "", measured(criterion.capacity, "kg"), letters="m")


def _kilogram(
    answer: Answer,
    functional: WrenchFunctional,
    at: tuple[float, float, float],
    unit: str,
    *,
    leaning: float,
    gravity: Vector | None = None,
) -> tuple[Row, ...]:
    """What one kilogram of load counts for: its force, part by part, or leaning the worst way."""
    reached = answer.reached
    per_force = functional.per_force(x=at[0], y=at[1], z=at[2])
    parts = [(p, g) for p, g in zip(per_force, gravity or reached.gravity, strict=True) if p and g]
    still = sum(p * g for p, g in parts)
    rows = (
        plain_row(
            "one kilogram of load",
            " + ".join(f"{bracketed(p)}·{bracketed(g)}" for p, g in parts),
            f"{figure(still)} {unit}",
            letters=r"k = \sum p_i \cdot g_i",
            why="what a unit of force at the load counts for, times gravity, axis by axis",
        ),
    )
    if not reached.lean:
        return rows
    return (
        *rows,
        plain_row(
            f"that kilogram, leaning up to {math.degrees(reached.lean):.1f}° the worst way",
            "",
            f"{figure(leaning)} {unit}",
            letters=r"k_L = k\cos\alpha - s\sin\alpha",
            why="s is what as much weight square to gravity would count for at most; it leans to "
            "the end of its swing, or till it is square to its lever",
        ),
    )


def _push_rows(answer: Answer, push: tuple[float, ...], unit: str) -> tuple[Row, ...]:
    """What every level force takes off, from whichever side is worse."""
    forces = answer.reached.forces
    return tuple(
        plain_row(
            each.worked.label,
            f"{bracketed(-each.size)} · {figure(-takes / each.size)}",
            f"{figure(takes)} {unit}",
            letters=r"M_i = -F_i \cdot h_i",
            why=f"{each.worked.label}, from the side where a unit of it takes most",
        )
        for each, takes in zip(forces, push, strict=True)
        if each.size
    )


def _together(
    answer: Answer, what: str, letter: str, moment: float, *, pushed: bool
) -> tuple[Row, ...]:
    """A moment of weights with what leans and what pushes, the worse way, where anything does."""
    hung, parts, letters = answer.lift.hung, [], letter
    if hung:
        parts.append("the attachment leaning as the load does")
        letters += r" + m_{\mathrm{hung}} \cdot (k_L - k)"
    if pushed:
        parts.append("what pushes")
        letters += r" + \sum M_i"
    if not parts:
        return ()
    why = f"{figure(hung)} kg hang and lean up to the swing, the worse way" if hung else ""
    with_it = f"{what} with {' and '.join(parts)}"
    return (plain_row(with_it, "", f"{figure(moment)} N·m", letters=letters, why=why),)


def _tipping(answer: Answer, criterion: Criterion) -> Section:
    """The line that tips first: what holds, what a kilogram of load takes, and the load."""
    reached = answer.reached
    line = min(reached.lines, key=lambda each: each.tipping_load)
    rows = sum_rows(
        reached.parts(line), what="holding moment of the machine", letter="M_0", unit="N·m", per="k"
    )
    rows += _kilogram(answer, line.moment, reached.load, "N·m/kg", leaning=line.load_unit_moment)
    push = pushed(reached.forces, line.moment, reached.loads)
    rows += _push_rows(answer, push, "N·m")
    rows += _together(answer, "holding moment", "M_0", line.holding_moment, pushed=bool(push))
    found = tuple(row for each in _own(criterion) for row in rows_of(each))
    return Section(
        title=f"Tipping {line.line.name}: least of {len(reached.lines)} lines",
        rows=rows + (found or (_no_load(criterion),)) + _allowed(criterion),
        source="equilibrium of moments about the tipping line",
    )


def _ram(answer: Answer, criterion: Criterion, ram: RamCapacity) -> Section:
    """What a ram can carry: its force, its moment arm, the links, the load."""
    joint = ram.joint
    rows = rows_of(ram.force) + tuple(row for each in joint.worked for row in rows_of(each))
    if joint.tilt is not None:
        at_rocker, ratio = joint.worked
        arm, turns = bracketed(at_rocker.result), bracketed(ratio.result)
        rows += (
            plain_row(
                "moment arm at the attachment",
                f"{arm} · {turns}",
                f"{figure(float(joint.moment_arm))} m",
                letters=r"r = r_{\mathrm{rocker}} \cdot i",
                why="that at the rocker times the velocity ratio",
            ),
        )
    rows += sum_rows(
        answer.reached.link_parts(ram),
        what="moment of the links' weight",
        letter=r"M_\ell",
        unit="N·m",
        per="k",
    )
    push = answer.lift.push_on_load
    if push:
        lever = abs(float(answer.reached.load[2] - joint.pivot.w))
        rows += (
            plain_row(
                "moment of what pushes the load, either way",
                f"{figure(push)} · {figure(lever)}",
                f"{figure(push * lever)} N·m",
                letters=r"\pm \sum F_i \cdot |w_L - c_w|",
            ),
        )
    moment = float(ram.links_moment)
    rows += _together(answer, "moment of the links", r"M_\ell", moment, pushed=bool(push))
    return Section(
        title=f"{joint.name.capitalize()}: what it can carry",
        rows=rows + rows_of(ram.stall) + _allowed(criterion),
        source=section_of(ram.stall).source,
    )


def _linear(answer: Answer, criterion: Criterion, capacity: CriterionCapacity) -> Section:
    """What is left of a limit without and with the load, in the way that fails first."""
    terms = answer.reached.terms(capacity)
    term = max(terms, key=lambda each: each.fails)
    unit = "N·m" if criterion.kind in ("tipping", "over an obstacle") else "N"
    mass, each = term.machine
    rows = _limit(answer, criterion, term.constant)
    rows += (
        plain_row(
            "the machine alone",
            f"{figure(mass)} · {bracketed(each)}",
            f"{figure(mass * each)} {unit}",
            letters=r"M_0 = m \cdot k",
            why=WORST,
        ),
    )
    holding, per_kilogram, takes = term.held
    surely = capacity.criterion.surely * max(per_kilogram, 0.0)
    rows += _push_rows(answer, term.pushed, unit)
    if term.constant or answer.lift.hung or term.pushed or surely:
        push = sum(term.pushed)
        leaning = holding - term.constant - mass * each - push - surely if answer.lift.hung else 0.0
        summed = [figure(mass * each)]
        summed += [
            bracketed(part) for part in (term.constant, leaning, *term.pushed, surely) if part
        ]
        rows += (
            plain_row(
                "what is left without a load",
                " + ".join(summed),
                f"{figure(holding)} {unit}",
                letters=r"M_0 + c",
                why="with the limit, what hangs leaning as the load does, what pushes, and the log "
                "at its lightest where it presses down what is light",
            ),
        )
    under = capacity.criterion.gravity
    rows += _kilogram(
        answer, term.functional, term.load, f"{unit}/kg", leaning=takes, gravity=under
    )
    if capacity.criterion.side_pull and answer.reached.lean:
        rows += (
            plain_row(
                "less its pull to the side",
                "",
                f"{figure(per_kilogram)} N/kg",
                letters=r"k_L - g\sin\alpha",
            ),
        )
    rows += (_fails_at(criterion, holding, per_kilogram),)
    among = f", the least of {len(terms)} lines" if len(terms) > 1 else ""
    return Section(
        title=f"{_title(criterion)}{among}",
        rows=rows + _allowed(criterion),
        source="equilibrium of moments",
    )


def _fails_at(criterion: Criterion, holding: Real, per_kilogram: Real) -> Row:
    if not 0 < criterion.capacity < math.inf:
        return _no_load(criterion)
    return plain_row(
        "load at which nothing is left",
        f"{figure(holding)} / {figure(-per_kilogram)}",
        f"{figure(criterion.capacity)} kg",
        letters=r"m = M_0 / (-k)",
    )


def _limit(answer: Answer, criterion: Criterion, most: float) -> tuple[Row, ...]:
    """In words and figures, what the number that must not go below zero is."""
    lift = answer.lift
    what, numbers, letters, why = "greatest force allowed on it", "", "", ""
    shown = f"{figure(most)} N"
    if criterion.kind in SINKS.values() and lift.ground is not None:
        letters = r"N_{\max}"
        why = f"what {lift.ground.name} is allowed to carry there: see the forces below"
    elif criterion.kind == "axle rating":
        letters, why = r"N_{\max} = g \cdot m", "the rating as a weight"
    elif criterion.kind in ("grip", "traction"):
        what, shown, letters = "friction on the ground", figure(lift.friction), r"\mu"
        why = "what is left: friction times what presses on the wheels or pads that hold or drive"
        why += ", less what pulls along the ground, turns the machine in plan or resists"
    elif criterion.kind == "least axle load":
        what, shown, letters = "share that the axle must keep", figure(AXLE_SHARE), r"\sigma"
        why = "what is left: the force on the axle, less that share of the whole weight"
    else:
        return ()
    return (plain_row(what, numbers, shown, letters=letters, why=why),)


def _distance(answer: Answer, criterion: Criterion, clearance: Clearance) -> Section:
    """A distance to keep: what reaches out, what is left, what is needed."""
    if clearance.unit == "yes":
        return Section(
            title=_title(criterion), rows=(plain_row(text(clearance.said), "", "no", letters=""),)
        )
    needs, has = float(clearance.needs), float(clearance.has)
    unit = {"length": "m", "ratio": "-", "speed": "m/s", "slow speed": "m/s"}.get(
        clearance.unit, "rad"
    )
    rows = tuple(row for worked in clearance.worked for row in rows_of(worked))
    numbers, letters, why = "", "d", ""
    if clearance.kind == "wires":
        said = float(answer.lift.hazards.wires_distance or 0.0)
        numbers = f"{figure(said)} − {figure(clearance.worked[0].result)}"
        letters = r"d - x_{\max}"
        why = "along the ground to below the wires; their height is not counted"
    left = "distance" if clearance.unit == "length" else clearance.unit
    what = f"{left} that is left" if clearance.kind == "wires" else f"{left} that there is"
    source = SOURCES[clearance.source].citation
    rows += (
        plain_row(what, numbers, measured(has, unit), letters=letters, why=why),
        plain_row(
            f"{left} that is needed",
            "",
            measured(needs, unit),
            letters=r"d_{\min}",
            why=f"{text(clearance.said)} ({source})",
        ),
    )
    if clearance.firm:
        kept = "kept, however little is left" if clearance.met else "not kept"
        rows += (plain_row(kept, "", figure(criterion.utilisation), letters="u"),)
    elif has > 0:
        rows += (
            plain_row(
                "share of it that is used",
                "" if math.isinf(has) else f"{figure(needs)} / {figure(has)}",
                figure(criterion.utilisation),
                letters=r"d_{\min} / d",
                why="more than 1: the distance is not kept",
            ),
        )
    return Section(title=_title(criterion), rows=rows)
