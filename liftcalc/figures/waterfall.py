"""From what a criterion holds to what is left for a log, step by step, each with its reason."""

from __future__ import annotations

import math
from typing import Any

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patheffects import withStroke

from liftcalc.evaluation.answer import Answer, Criterion
from liftcalc.evaluation.lift import Lift
from liftcalc.figures.sheet import (
    BANDS,
    INK,
    PAPER,
    PLAIN,
    SMALL,
    SOFT,
    frame,
    levels,
    patch,
    rule,
    sheet,
    stroke,
    write,
)
from liftcalc.figures.text import worth_words
from liftcalc.remarks import Remark
from liftcalc.reports.text import machine_words, place_words
from liftcalc.reports.words import sentence, texts
from liftcalc.units import POUND, System, show

STEPS = 7
"""Rows that the steps of a criterion take."""
THICK = 0.62
"""Thickness of a bar over the distance of the rows [-]."""


def waterfall(answer: Answer, *, for_log: bool = True, system: System = "metric") -> Figure:
    """The steps for what governs, and for tipping where that is something else.

    Without ``for_log`` the log of the lift only stands in for one.
    """
    tipping = next(each for each in answer.criteria if each.kind == "tipping")
    shown = [answer.governing] + [tipping] * (tipping is not answer.governing)
    lift = answer.lift
    rows = [STEPS if _has_steps(each) else 3 for each in shown]
    page = sheet(
        title="From what the machine holds to what is left for a log",
        about=f"{machine_words(lift, system)}. {sentence(place_words(answer, system))}",
        notes=_notes(lift, for_log=for_log),
        heights=(0.0076 * sum(rows) + 0.006,),
        margins=(0.062, 0.008),
    )
    (axes,) = page.rooms
    most = max((each.capacity for each in shown if _has_steps(each)), default=lift.needed)
    most = max(most, *(each.heaviest_log for each in shown if _has_steps(each)), 1.0)
    if for_log:
        most = max(most, lift.log.mass_planning)
    axes.set_xlim(0.0, 1.42 * most)
    axes.set_ylim(-sum(rows) + 0.3, 0.6)
    axes.set_yticks([])
    one, unit = (1.0, "kg") if system == "metric" else (POUND, "lb")
    ticks = [0.0, *levels(0.0, 1.01 * most, system, most=6)]
    axes.set_xticks(ticks, [f"{each / one:.0f}" for each in ticks])
    axes.set_xlabel(f"load at the lift point [{unit}]", fontsize=SMALL, color=SOFT, labelpad=1)
    for number, each in enumerate(shown):
        draw = _steps if _has_steps(each) else _words
        draw(axes, answer, each, -sum(rows[:number]), system, for_log=for_log)
    return page.figure


def _has_steps(each: Criterion) -> bool:
    """Whether a load decides the criterion: some is held, and not any whatever."""
    return 0 < each.capacity < math.inf


def _words(
    axes: Axes, answer: Answer, each: Criterion, top: float, system: System, *, for_log: bool
) -> None:
    """Words in place of steps, where no load is held or none is too heavy."""
    del for_log
    governs = " (stops it first)" if each is answer.governing else ""
    write(axes, (0.0, top), f"{each.title}{governs}", fontsize=PLAIN, fontweight="bold", ha="left")
    held = "no load is too heavy for it" if each.capacity > 0 else "nothing may be lifted here"
    text = held if each.clearance is None else worth_words(each, system)
    write(axes, (0.0, top - 1), text, fontsize=PLAIN, ha="left")


def _steps(
    axes: Axes, answer: Answer, each: Criterion, top: float, system: System, *, for_log: bool
) -> None:
    lift, allowed = answer.lift, each.allowed
    rigged = max(0.0, allowed - lift.rigging)
    left = max(0.0, each.heaviest_log)
    governs = " (stops it first)" if each is answer.governing else ""
    write(axes, (0.0, top), f"{each.title}{governs}", fontsize=PLAIN, fontweight="bold", ha="left")

    def down(value: float) -> str:
        return show(value, "mass", system, "down")

    def up(value: float) -> str:
        return show(value, "mass", system, "up")

    _bar(axes, top - 1, "holds", (0.0, each.capacity), down(each.capacity), tone=2)
    _bar(
        axes,
        top - 2,
        _kept_back(each),
        (allowed, each.capacity),
        f"− {up(each.capacity - allowed)}",
        tone=None,
    )
    _bar(axes, top - 3, "allowed at the lift point", (0.0, allowed), down(allowed), tone=3)
    name, taken = _borne(answer), f"− {up(rigged - left)}"
    gains = left > rigged
    if gains:
        # The lift point bears a part of the log, so the log may weigh more than it may bear.
        taken = f"÷ {math.ceil(100 * lift.pull.share - 1e-9) / 100:.2f}"
    if lift.rigging:
        name, taken = f"rigging, and {name}", f"− {up(lift.rigging)} {taken}"
    between = (min(left, allowed), max(left, allowed))
    _bar(axes, top - 4, name, between, taken, tone=0 if gains else None)
    _bar(axes, top - 5, "left for a log", (0.0, left), down(left), tone=4)
    if for_log:
        plan = lift.log.mass_planning
        ends = [top - 5.5, top - 0.55]
        stroke(axes, [plan, plan], ends, color=INK, width=1.6, dash=(4, 2), order=6)
        said = f"this log: plan on {up(plan)}"
        write(axes, (plan, top - 5.85), said, fontsize=SMALL, fontweight="bold")


def _kept_back(each: Criterion) -> str:
    """The share that is not used, and for what else a load counts, in words."""
    said, counts = f"kept back: {100 * (1 - each.share.value):.0f} % of it", each.load_factor.value
    return said if counts == 1.0 else f"{said},\nload factor {counts:.2f}"


def _borne(answer: Answer) -> str:
    """How much of the log the lift point bears, in words."""
    share = answer.lift.pull.share
    return "the whole log" if share == 1.0 else f"{math.ceil(100 * share)} % of the log"


def _bar(
    axes: Axes, y: float, name: str, span: tuple[float, float], text: str, *, tone: int | None
) -> None:
    """A bar with its name before it and its load after it; what is taken off is ruled."""
    low, high = span
    half = THICK / 2
    face = PAPER if tone is None else BANDS[tone]
    patch(axes, frame(low, high, y - half, y + half), face=face, edge=INK, width=0.8, order=3)
    if tone is None and high > low:
        wide = axes.get_xlim()[1]
        # Upright: the two scales of the axes differ, so that slanted lines would lie flat.
        rule(axes, frame(low, high, y - half, y + half), (90.0,), gap=0.008 * wide, order=3.5)
        stroke(axes, [high, high], [y + half, y + 1 - half], order=2)
    at = low if tone is None else high
    stroke(axes, [at, at], [y - half, y - 1 + half], order=2)
    style: dict[str, Any] = {"textcoords": "offset points", "va": "center", "color": INK}
    style["fontsize"] = SMALL + 0.5
    axes.annotate(name, (0.0, y), xytext=(-4, 0), ha="right", annotation_clip=False, **style)
    style["path_effects"] = [withStroke(linewidth=2.4, foreground=PAPER)]
    weight = "bold" if tone is not None else "normal"
    axes.annotate(text, (high, y), xytext=(4, 0), ha="left", zorder=7, fontweight=weight, **style)


def _notes(lift: Lift, *, for_log: bool) -> list[str]:
    said = (
        "Ruled: what is taken off. The share kept back and the load factor are those of the "
        "standards that the answer cites; what is left is rounded down, what is taken off up."
    )
    stand_in = "" if for_log else " No log was given: a stand-in lies where a carried one would."
    invented = [Remark("invented", machine=lift.machine.title)] if lift.machine.invented else []
    return [said + stand_in, *texts(invented)]
