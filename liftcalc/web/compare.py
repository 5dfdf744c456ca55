"""The page "Front or back": both ends for one log, from pick-up to set-down. No arithmetic."""

from __future__ import annotations

import math
from collections.abc import Callable

import streamlit as st

from liftcalc.answers.compare import Comparison, EndResult, Tried, compare, doubts_of
from liftcalc.answers.compare_asked import CompareAsked, ReadCompare, read_compare
from liftcalc.rules import CLOSE
from liftcalc.units import System, show
from liftcalc.web import blocks
from liftcalc.web.form import Form
from liftcalc.web.frame import answered, opened
from liftcalc.web.inputs import ask_both_ends


def page() -> None:
    """Draw the page."""
    system = opened(
        "Front or back",
        "One log, where it lies and where it goes. Both ends are tried at both places; heights "
        "are those of the log's underside, since each end holds it in its own way.",
    )

    def answer(form: Form) -> Callable[[], None]:
        read = read_compare(CompareAsked(**form.said))
        found = compare(
            front=read.front, back=read.back, pick_up=read.pick_up, set_down=read.set_down,
            bunk=read.bunk,
        )  # fmt: skip
        form.understood(read.echoes)
        st.html(_told(found, read, system))
        return lambda: _show(found, system)

    answered(ask_both_ends, answer)


def _told(found: Comparison, read: ReadCompare, system: System) -> str:
    chosen = None if found.choice is None else getattr(found, found.choice)
    face = "no" if chosen is None else "close" if chosen.utilisation > CLOSE else "ok"
    log = read.back.lift.log
    pairs = [
        ("This log, to plan on", show(log.mass_planning, "mass", system=system, rounding="up"))
    ]
    pairs += [(f"{each.end.capitalize()} end uses", _used(each.utilisation)) for each in found.ends]
    return blocks.told(face, found.reason, pairs)


def _used(value: float) -> str:
    return "more than there is" if math.isinf(value) else show(value, "ratio", rounding="up")


def _show(found: Comparison, system: System) -> None:
    for column, end in zip(st.columns(2), found.ends, strict=True):
        with column:
            _show_end(end, system)
    st.subheader("Warnings", anchor=False)
    st.html(blocks.bullets(doubts_of(found)))


def _show_end(end: EndResult, system: System) -> None:
    mark = "✓" if end.passes else "✕"
    st.subheader(f"{mark} {end.end.capitalize()} end", anchor=False)
    if math.isfinite(end.margin):
        left = show(end.margin, "mass", system=system, rounding="down")
        st.html(blocks.facts([("Left over for this log, at the worse place", left)]))
    for each in end.places:
        st.html(blocks.facts(_place(each, system)))
    if end.blocked:
        st.html(blocks.bullets((f"Not so: {end.blocked}",)))
    st.markdown("**Counts only if**")
    st.html(blocks.bullets(end.must))
    if end.unknown:
        st.markdown("**Find out first**")
        st.html(blocks.bullets(end.unknown))


def _place(each: Tried, system: System) -> list[tuple[str, str]]:
    outcome = each.outcome
    if outcome.answer is None:
        return [(each.place.name.capitalize(), f"cannot stand so: {outcome.stopped_by}")]
    answer = outcome.answer

    def length(value: float) -> str:
        return show(value, "length", system=system)

    return [
        (
            f"{each.place.name.capitalize()}: allowed",
            show(answer.allowed, "mass", system=system, rounding="down"),
        ),
        ("Used", f"{'✓' if outcome.passes else '✕'} {_used(answer.utilisation)}"),
        ("Stopped first by", outcome.stopped_by),
        ("Lift point, reach", f"{length(outcome.lift.height)}, {length(answer.reached.reach)}"),
    ]
