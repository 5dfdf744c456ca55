"""The place of the lift, beside the drawings: number fields, and a slider under each.

Both do what dragging the hook does. A slider is set to what the field says and, when it is moved,
sets the field: the field alone is read.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import streamlit as st

from liftcalc.errors import Fault
from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.lift import Lift
from liftcalc.maps.limits import LOWEST
from liftcalc.maps.reach_limits import span_back, span_front
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.lift import ParsedLift
from liftcalc.requests.table import Field, field_of
from liftcalc.units import FOOT, System
from liftcalc.web import html, state
from liftcalc.web.form import Form
from liftcalc.web.page_frame import PRESSED

STEP, TURN = 0.05, 1.0
"""Of the sliders [m, deg]; in feet a quarter."""
SPANS = f"{PRESSED}spans"
Spans = dict[str, tuple[float, float]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """What was read of a place: the lift and its answer, or the faults."""

    system: System
    end: str
    read: ParsedLift | None = None
    answer: Answer | None = None
    faults: tuple[Fault, ...] = ()

    def draw(self, form: Form, *names: str) -> None:
        """Fields side by side, and under each what was read of it and its slider."""
        if self.read is not None and self.answer is not None:
            st.session_state[SPANS] = _spans(self.read.lift)
        spans: Spans = st.session_state.get(SPANS, {})
        for column, name in zip(st.columns(len(names)), names, strict=True):
            with column:
                row = field_of(LiftRequest, name)
                form.text(row, slot=False)
                st.html(self._line(row))
                if name in spans:
                    self._slider(name, spans[name], _now(name, self.read, self.answer))

    def _line(self, row: Field) -> str:
        """Under a field: what is wrong with it, or how to measure it and what was read."""
        wrong = [each for each in self.faults if row.option in each.options]
        if wrong:
            return "".join(html.fault_line(each, self.system) for each in wrong)
        echo = dict(self.read.echoes).get(row.option, "") if self.read is not None else ""
        return html.help_line(row, echo)

    def _slider(self, name: str, span: tuple[float, float], now: float | None) -> None:
        one, step, shown = self._unit(name)
        low = step * math.floor(span[0] / one / step + 1e-9)
        high = step * math.ceil(span[1] / one / step - 1e-9)
        key = f"{PRESSED}slide/{self.system}/{self.end}/{name}"
        if now is not None:
            st.session_state[key] = min(max(now / one, low), high)
        elif key not in st.session_state:
            return
        st.session_state[key] = min(max(st.session_state[key], low), high)
        st.slider(
            f"{name.capitalize()}, by slider",
            low,
            high,
            step=step,
            format=shown,
            key=key,
            label_visibility="collapsed",
            on_change=lambda: state.place(**{name: st.session_state[key] * one}),
        )

    def _unit(self, name: str) -> tuple[float, float, str]:
        """What a slider counts in [m, rad], its step in that, and how it is written."""
        if name == "slew":
            return math.radians(1), TURN, "%.0f°"
        if self.system == "metric":
            return 1.0, STEP, "%.2f m"
        return FOOT, 0.25, "%.2f ft"


def _spans(lift: Lift) -> Spans:
    if lift.end == "front":
        low, high = span_front(lift)
        return {"height": (max(low, LOWEST), high)}
    out, top = span_back(lift)
    turn = float(lift.machine.back.slew_limit)
    return {"height": (LOWEST, top), "reach": (0.0, out), "slew": (-turn, turn)}


def _now(name: str, read: ParsedLift | None, answer: Answer | None) -> float | None:
    """Where a slider stands; without an answer it stays where it was moved to."""
    if read is None or answer is None:
        return None
    return float(answer.reached.reach if name == "reach" else getattr(read.lift, name))


def elsewhere(asked: LiftRequest) -> bool:
    """Whether the plate's value was typed for another place than the one now asked for."""
    here = (asked.end, asked.height, asked.reach)
    name = f"{PRESSED}plate"
    if not asked.plate or st.session_state.get(name, ("",))[0] != asked.plate:
        st.session_state[name] = (asked.plate, here)
    return bool(asked.plate) and st.session_state[name][1] != here
