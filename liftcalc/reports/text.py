"""An answer as a table for people."""

from __future__ import annotations

import math
from collections.abc import Iterable

from liftcalc.evaluation.answer import Answer, Criterion, Judgement
from liftcalc.evaluation.ground_forces import SupportForce
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.warnings import ground_remark
from liftcalc.factors import CAUTION, NOT_CHECKED
from liftcalc.machines.lookup import named
from liftcalc.questions.search import InverseAnswer
from liftcalc.remarks import Remark, Words, down
from liftcalc.reports.words import sentence, text, texts
from liftcalc.requests.lift import ParsedLift
from liftcalc.units import Rounding, System, show

WIDTH = 30
"""Column at which values start."""
TITLE = 38
"""Width of the name of a criterion; a longer one takes two lines."""
PLAN_ON = "this log, to plan on"
NOTHING_MORE = "Nothing that was tried would buy more."
ONE_AT_A_TIME = "What would buy more, one at a time"
HOLDS_NOTHING = "fails with no load at all"
TELLING = 0.01
"""Share of the load by which the ends of a range differ at least to be told [-]."""
CELLS = 10
"""Length of the bar that shows a utilisation."""


def table(answer: Answer, read: ParsedLift, system: System) -> list[str]:
    """The answer for people: capacities rounded down, loads and utilisation up."""
    lift, log = answer.lift, answer.lift.log

    def kilos(value: float, rounding: Rounding) -> str:
        return show(value, "mass", system, rounding)

    def row(name: str, value: str, note: str = "") -> str:
        return f"  {name:<{WIDTH}}{value:<12}{note}".rstrip()

    spread = f"likely {kilos(log.mass_likely, 'near')}, low {kilos(log.mass_low, 'down')}"
    lines = [
        *wrapped(f"{named(lift.machine)}: {lift.end} end, {lift.tool.name}, {lift.point.name}"),
        "",
        *(f"  {line}" for said in verdict_sentences(answer, system) for line in wrapped(said)),
        "",
        *not_checked(answer.unchecked, system),
        row(PLAN_ON, kilos(log.mass_planning, "up"), spread),
        row("heaviest log allowed here", kilos(answer.heaviest_log, "down")),
        row("load allowed at lift point", kilos(answer.allowed, "down")),
        *_hung("stopped first by", text(answer.governs, system)),
        "",
        *(f"  {line}" for line in wrapped(CAUTION)),
        "",
        f"  {'what could stop it':<{TITLE}}{'capacity':>11}{'share':>6}{'jolt':>7}{'allowed':>11}"
        f"{'used':>8}",
        *(line for each in answer.criteria for line in _criterion_rows(each, system)),
        "",
        *_place(answer, system),
        "",
        *_ground(answer, system),
        "",
        "Understood",
        *(row(name, echo) for name, echo in read.echoes),
    ]
    lines += ["", "Warnings", *listed(texts(answer.warnings, system))]
    said, figures = told_apart(answer.assumed)
    more = [f"{len(figures)} figures of the machine (--json lists them)"] if figures else []
    return [*lines, "", "Assumed", *listed([*texts(said, system), *more])]


def verdict_sentences(answer: Answer, system: System) -> list[str]:
    """The verdict, what would decide one that is open, and what is behind it: plain sentences."""
    judged, behind = answer.judgement, answer.verdict
    if judged is None:
        return [sentence(behind, system)]
    if judged.fails_by is not None:
        behind = Remark("even_hoped", why=judged.fails_by)
    elif answer.refused is not None:
        behind = Remark("carefully", why=answer.refused)
    behind_it = [sentence(behind, system), *known_range(answer, system)]
    return [*judgement_sentences(judged, system), *behind_it]


def known_range(answer: Answer, system: System) -> list[str]:
    """Between what a machine known by facts may be allowed here, where that is a range."""
    if answer.most is None or answer.most <= (1 + TELLING) * answer.allowed:
        return []
    low, high = down(answer.allowed, "mass"), down(answer.most, "mass")
    return [sentence(Remark("known_range", low=low, high=high), system)]


def judgement_sentences(judged: Judgement, system: System) -> list[str]:
    """Which of the three verdicts, and what would decide one that is open."""
    deciding = dict.fromkeys((judged.decider, judged.pays))
    said = [judged.verdict, *(each.said for each in deciding if each is not None)]
    return [sentence(each, system) for each in said]


def told_apart(assumed: Iterable[Remark]) -> tuple[list[Remark], list[Remark]]:
    """What was assumed of the lift, and the figures of the machine that were."""
    said: list[Remark] = []
    figures: list[Remark] = []
    for each in assumed:
        (figures if each.code == "machine_figure" else said).append(each)
    return said, figures


def _hung(name: str, value: str) -> list[str]:
    """A name and a value that may take several lines."""
    first, *rest = wrapped(value, 92 - WIDTH)
    return [f"  {name:<{WIDTH}}{first}", *(f"  {'':<{WIDTH}}{each}" for each in rest)]


def not_checked(said: Iterable[Words], system: System) -> list[str]:
    """What was not said, under the verdict: a lift that passes is no yes to these."""
    lines = listed(texts(said, system))
    return [NOT_CHECKED, *lines, ""] if lines else []


def _criterion_rows(each: Criterion, system: System) -> list[str]:
    *before, last = wrapped(text(each.title, system), TITLE - 3)
    lines = [f"  {before[0]}", *(f"    {more}" for more in before[1:])] if before else []
    name = f"  {last}" if before else last
    used = "no room" if math.isinf(each.utilisation) else f"{math.ceil(100 * each.utilisation)} %"
    filled = min(CELLS, math.ceil(CELLS * min(each.utilisation, 1.0)))
    bar = "#" * filled + "." * (CELLS - filled)
    mark = " over" if not each.utilisation <= 1 else ""
    return [*lines, f"  {name:<{TITLE}}{_worth(each, system):>35}{used:>8}  {bar}{mark}"]


def _worth(each: Criterion, system: System) -> str:
    """Capacity, share and allowed load; in words where there is no load to tell."""
    if each.clearance is not None:
        return text(each.clearance.room, system)
    if each.capacity == math.inf:
        return "no load here comes to it"
    if each.capacity <= 0:
        return HOLDS_NOTHING
    capacity, allowed = (
        show(value, "mass", system, "down") for value in (each.capacity, each.allowed)
    )
    share, jolt = f"{100 * each.share.value:.0f} %", f"÷ {each.load_factor.value:.2f}"
    return f"{capacity:>11}{share:>6}{jolt:>7}{allowed:>11}"


def wrapped(words: str, width: int = 92) -> list[str]:
    """A text as lines for a terminal."""
    import textwrap  # noqa: PLC0415 - small, and only for people

    return textwrap.wrap(words, width)


def listed(said: Iterable[str]) -> list[str]:
    """Texts as a list, one mark each."""
    lines: list[str] = []
    for each in said:
        first, *rest = wrapped(each)
        lines += [f"  - {first}", *(f"    {more}" for more in rest)]
    return lines


def _place(answer: Answer, system: System) -> list[str]:
    """Where lift point and log are, how the log hangs and what of it is carried."""
    lift, reached = answer.lift, answer.reached

    def metres(value: float, rounding: Rounding = "near") -> str:
        return show(value, "length", system, rounding)

    def degrees(value: float) -> str:
        return show(value, "angle", system, "up")

    said = [f"lift point {metres(lift.height)} above the ground, {reach_words(answer, system)}"]
    low = f"log's lowest point {metres(answer.lowest, 'down')} above the ground"
    if answer.lowest_tipped < answer.lowest:
        low += f" hanging level, {metres(answer.lowest_tipped, 'down')} hung off its balance point"
    said.append(low)
    if lift.slung:
        sling = {"choked": "one choked sling", "single": "one sling", "basket": "a basket"}
        way = sling.get(lift.sling.way, "two legs")
        hung = f"hung in {way} of {metres(lift.sling.length)}"
        if answer.hang is not None:
            hung += f", up to {degrees(answer.hang.angle)} off the level"
        said.append(hung)
    if reached.lean:
        said.append(
            f"the load may lean up to {degrees(reached.lean)}; taken the worst way for each"
        )
    said.append(planned_words(lift, system))
    return [f"  {line}" for each in said for line in wrapped(each)]


def _ground(answer: Answer, system: System) -> list[str]:
    """What each foot puts on the ground, as far as it is known what that carries."""
    ground_forces = answer.ground_forces
    load = show(ground_forces.load, "mass", system, "up")
    lines = [
        f"  on the ground, {load:<23}{'settled':>12}{'worst':>12}{'pressure':>15}"
        f"{'needs a plate of':>19}".rstrip(),
        *(_foot_row(each, system) for each in ground_forces.feet),
        f"  {sentence(ground_remark(ground_forces), system)}",
    ]
    if not ground_forces.stands:
        lines.append(f"  {text(Remark('tips'), system)}")
    return lines


def _foot_row(each: SupportForce, system: System) -> str:
    settled, worst = (
        show(value, "force", system, "up") if math.isfinite(value) else "-"
        for value in (each.force, each.worst)
    )
    pressure = "-" if each.pressure is None else show(each.pressure, "bearing", system, "up")
    plate = "-"
    if each.tyre and each.carries is not None:
        plate = "sinks" if each.sinks else "none"
    elif each.needed is not None:
        side = show(math.sqrt(each.needed), "length", system, "up")
        plate = f"{side} square"
    return f"  {each.name:<38}{settled:>12}{worst:>12}{pressure:>15}{plate:>19}".rstrip()


def finite(value: float) -> float | None:
    """The value, or None where it is infinite: JSON has no such number."""
    return float(value) if math.isfinite(value) else None


def reach_words(answer: Answer, system: System) -> str:
    """The reach, and the point it is measured from."""
    origin = "from the slew axis" if answer.lift.end == "back" else "ahead of the front axle"
    return f"{show(answer.reached.reach, 'length', system)} {origin}"


def slew_words(lift: Lift) -> str:
    """How the back end is slewed; empty when it stands straight back."""
    if lift.end != "back" or not lift.slew:
        return ""
    return f"slewed {show(abs(lift.slew), 'angle')} to the {'left' if lift.slew > 0 else 'right'}"


def place_words(answer: Answer, system: System) -> str:
    """Where the lift point is."""
    height = show(answer.lift.height, "length", system)
    said = f"lift point {height} up, {reach_words(answer, system)}"
    slewed = slew_words(answer.lift)
    return f"{said}, {slewed}" if slewed else said


def planned_words(lift: Lift, system: System) -> str:
    """What the lift point is planned with, and of what that is made."""
    said = f"the lift point is planned with {show(lift.needed, 'mass', system, 'up')}: "
    said += f"{lift.pull.share:.2f} times the log"
    rigging = show(lift.rigging, "mass", system, "up")
    return f"{said}, and {rigging} of rigging" if lift.rigging else said


def keep_out_words(answer: Answer, system: System) -> str:
    """How far everybody keeps away."""
    far = show(answer.stay_away, "length", system, "up")
    return f"everybody stays {far} away from the point below the hook"


def machine_words(lift: Lift, system: System, *, tool: bool = True) -> str:
    """Machine, attachment, lift point and stance in a line."""
    said = [named(lift.machine)]
    if tool:
        said.append(f"{lift.tool.name}, {lift.point.name}")
    said.append("on its " + lift.stance)
    if lift.travelling:
        said.append("on the move")
    if lift.sideshift:
        way = "left" if lift.sideshift > 0 else "right"
        said.append(f"sideshifted {show(abs(lift.sideshift), 'length', system)} to the {way}")
    slope = float(lift.site.slope)
    if slope and not lift.level_within:
        turn = math.degrees(float(lift.site.heading)) % 360
        said.append(f"on a slope of {show(slope, 'slope')}, uphill {turn:.0f}° from the nose")
    return "; ".join(said)


def log_words(lift: Lift, system: System, *, for_log: bool) -> str:
    """What the log needs at the lift point; or that none was given."""
    if not for_log:
        return "No log was given."
    plan = show(lift.log.mass_planning, "mass", system, "up")
    need = show(lift.needed, "mass", system, "up")
    return (
        f"This log, to plan on {plan}, needs {need} at the lift point, with rigging and load "
        "factor."
    )


def details_in_words(turned: InverseAnswer, system: System = "metric") -> list[tuple[str, str]]:
    """Name and value of every further figure of an answer."""
    return [
        (
            text(each.name, system),
            show(each.figure.value, each.figure.kind, system, each.figure.rounding),
        )
        for each in turned.details
    ]
