"""What stands below the drawings: limits, ground, chain, log, warnings, assumptions. As HTML."""

from __future__ import annotations

import math
from html import escape

from liftcalc.evaluation.answer import Answer, Criterion
from liftcalc.evaluation.ground_forces import GroundForces, SupportForce
from liftcalc.evaluation.warnings import ground_remark
from liftcalc.figures.bars import TIPS
from liftcalc.reports.text import HOLDS_NOTHING, keep_out_words, planned_words, told_apart
from liftcalc.reports.words import sentence, text, texts
from liftcalc.requests.lift import ParsedLift
from liftcalc.units import Rounding, System, show
from liftcalc.web.html import bar, bullets, facts, folded, part, table, used


def details(answer: Answer, read: ParsedLift, system: System) -> str:
    """Everything that a move of the hook changes, as one piece, which redraws soonest."""
    return "".join(
        [
            part("What could stop it", criteria_table(answer, system)),
            part("On the ground", ground(answer.ground_forces, system)),
            part("How the log hangs", bullets(rigging(answer, system))),
            part("Warnings", bullets(texts(answer.warnings, system))),
            part("The log", facts(log_facts(answer, system))),
            part("What this rests on", folded("Everything understood", facts(read.echoes))),
        ]
    )


def resting(answer: Answer, system: System) -> str:
    """What was assumed; the same wherever the hook is."""
    said, figures = told_apart(answer.assumed)
    made = folded(f"Assumed: {len(said)} things you did not say", bullets(texts(said, system)))
    if figures:
        keys = bullets(each["key"] for each in figures)
        made += folded(f"Assumed: {len(figures)} figures of the machine", keys)
    return f'<section class="lc-part lc-on">{made}</section>'


def criteria_table(answer: Answer, system: System) -> str:
    """Every criterion, the most used first; folded away where no load reaches it."""
    ordered = sorted(answer.criteria, key=lambda each: -each.utilisation)
    idle = [each for each in ordered if each.clearance is None and each.capacity == math.inf]
    kept = [each for each in ordered if each.clearance is not None]
    loads = [each for each in ordered if each not in idle and each not in kept]
    first = answer.governing
    made = table(
        ("Limit", "Capacity", "Allowed", "Used"),
        "".join(_load_row(each, first, system) for each in loads),
    )
    if kept:
        made += table(
            ("To keep clear of", "Needs", "Has"),
            "".join(_clear_row(each, first, system) for each in kept),
        )
    if idle:
        titles = bullets(text(each.title, system) for each in idle)
        made += folded(f"{len(idle)} more that no load here comes to", titles)
    return made


def _head(each: Criterion, first: Criterion, system: System) -> str:
    note = "<small>would stop it first</small>" if each is first else ""
    over = not each.utilisation <= 1
    mark, used_up = "✕ " if over else "", bar(min(each.utilisation, 1.0), over=over)
    return f'<th scope="row">{mark}{escape(text(each.title, system))}{note}{used_up}</th>'


def _row(each: Criterion, first: Criterion, system: System, cells: str) -> str:
    return (
        f"<tr{' class=lc-first' if each is first else ''}>{_head(each, first, system)}{cells}</tr>"
    )


def _load_row(each: Criterion, first: Criterion, system: System) -> str:
    if each.capacity <= 0:
        return _row(
            each, first, system, '<td class="lc-words" colspan="3">' + HOLDS_NOTHING + "</td>"
        )
    capacity, allowed = (
        show(value, "mass", system, "down") for value in (each.capacity, each.allowed)
    )
    share = show(each.share.value, "ratio")
    part_of = f"<small>{escape(share)} of it</small>" if each.share.value < 1 else ""
    return _row(
        each,
        first,
        system,
        f"<td>{escape(capacity)}</td><td>{escape(allowed)}{part_of}</td>"
        f"<td>{escape(used(each).removesuffix(' used'))}</td>",
    )


def _clear_row(each: Criterion, first: Criterion, system: System) -> str:
    assert each.clearance is not None  # only what is to be kept clear of stands in this table
    needs, has, unit = float(each.clearance.needs), float(each.clearance.has), each.clearance.unit
    if unit == "yes":
        why = escape(text(each.clearance.said, system))
        return _row(each, first, system, f'<td class="lc-words" colspan="2">{why}</td>')
    left = show(has, unit, system, "down")
    return _row(
        each,
        first,
        system,
        f"<td>{escape(show(needs, unit, system, 'up'))}</td>"
        f"<td>{escape('none near' if math.isinf(has) else left)}</td>",
    )


def ground(ground_forces: GroundForces, system: System) -> str:
    """Each foot: what it presses with settled and at worst, over how much, and what it needs."""
    load = show(ground_forces.load, "mass", system, "up")
    if not ground_forces.stands:
        return f"<p>✕ {escape(TIPS)} ({escape(load)})</p>"
    said = sentence(ground_remark(ground_forces), system)
    most_force = max(each.worst for each in ground_forces.feet) or 1.0
    body = "".join(_foot(each, most_force, system) for each in ground_forces.feet)
    return (
        f"<p>With {escape(load)} on the lift point. {escape(said)} Bars show the worst force, "
        f"the stroke in them the settled one.</p>"
        + table(("Foot", "Settled", "Worst", "Pressure"), body)
    )


def _foot(each: SupportForce, most: float, system: System) -> str:
    settled, worst = (show(value, "force", system, "up") for value in (each.force, each.worst))
    pressure = "–"
    if each.pressure is not None:
        pressure = show(each.pressure, "bearing", system, "up")
    over = each.sinks
    settled_at = f'<i style="left:{max(each.force, 0.0) / most:.0%}"></i>'
    drawn = bar(max(each.worst, 0.0) / most, over=over, more=settled_at)
    note = _needs(each, over, system)
    return (
        f'<tr><th scope="row">{"✕ " if over else ""}{escape(each.name)}'
        f"<small>{escape(note)}</small>{drawn}</th><td>{escape(settled)}</td>"
        f"<td>{escape(worst)}</td><td>{escape(pressure)}</td></tr>"
    )


def _needs(each: SupportForce, over: bool, system: System) -> str:
    """What would spread the force of a foot enough."""
    if each.tyre:
        return "sinks until it bears on more" if over else ""
    if each.needed is None or not math.isfinite(each.needed):
        return ""
    side = show(math.sqrt(max(each.needed, 0.0)), "length", system, "up")
    return f"needs a stiff plate {side} square"


def rigging(answer: Answer, system: System) -> list[str]:
    """How the log is held, what of it hangs there, how it hangs and who keeps away."""
    lift = answer.lift

    def metres(value: float, rounding: Rounding = "near") -> str:
        return show(value, "length", system, rounding)

    said = [sentence(planned_words(lift, system))]
    if lift.slung:
        legs = f", {metres(lift.sling.spread)} apart" if lift.sling.spread else ""
        kind = lift.gear.kind or "sling"
        said.append(
            f"{kind.capitalize()}, {lift.sling.way}, {metres(lift.sling.length)} long{legs}."
        )
        if answer.hang is not None and lift.taken.way == "whole":
            angle = show(float(answer.hang.angle), "angle", system, "up")
            said.append(f"The log may hang up to {angle} off the level.")
    else:
        said.append(f"The log is held by the {lift.tool.name}.")
    if lift.taken.way != "whole":
        said.append(f"Log taken: {lift.taken.way}, its {lift.taken.ground_end} on the ground.")
    if answer.reached.lean:
        lean = show(float(answer.reached.lean), "angle", system, "up")
        said.append(f"The load may lean up to {lean}, taken the worst way for each limit.")
    return [*said, sentence(keep_out_words(answer, system))]


def log_facts(answer: Answer, system: System) -> list[tuple[str, str]]:
    """Volume and masses of the log, where it balances and how low it hangs."""
    log = answer.lift.log

    def metres(value: float, rounding: Rounding = "near") -> str:
        return show(value, "length", system, rounding)

    def kilos(value: float, rounding: Rounding = "near") -> str:
        return show(value, "mass", system, rounding)

    found = [
        ("Volume", show(log.volume, "volume", system, "up")),
        ("Mass: low", kilos(log.mass_low, "down")),
        ("Mass: likely", kilos(log.mass_likely)),
        ("Mass: to plan on", kilos(log.mass_planning, "up")),
        ("Balances from the butt at", metres(log.cog_from_butt)),
        ("Lowest point, hanging level", metres(answer.lowest, "down")),
    ]
    if answer.lowest_tipped < answer.lowest:
        tipped = metres(answer.lowest_tipped, "down")
        found.append(("Lowest point, a little off balance", tipped))
    return found
