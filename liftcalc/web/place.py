"""The place of the lift, beside the drawings: number fields, and a slider under each.

Both do what dragging the hook does. A slider is set to what the field says and, when it is moved,
sets the field: the field alone is read.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import streamlit as st

from liftcalc.answers.answer import Answer
from liftcalc.answers.lift import Lift
from liftcalc.answers.limits import LOWEST
from liftcalc.answers.spans import span_back, span_front
from liftcalc.units import FOOT, System
from liftcalc.web import state
from liftcalc.web.fields import REACH_FROM
from liftcalc.web.form import Form
from liftcalc.web.frame import PRESSED

STEP, TURN = 0.05, 1.0
"""Of the sliders [m, deg]; in feet a quarter."""
SPANS = f"{PRESSED}spans"
Spans = dict[str, tuple[float, float]]


def fields_of(end: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What the drawing from the side moves, and what the one from above does."""
    return (("height", "reach"), ("slew",)) if end == "back" else (("height", "reach"), ())


class Place:
    """Fields and sliders of a place; ``draw`` before the lift is read, ``slide`` after."""

    def __init__(self, form: Form, system: System) -> None:
        self.form, self.system, self.slots = form, system, dict[str, Any]()

    def draw(self, *names: str) -> None:
        """The fields, side by side, each with room for its slider."""
        for column, name in zip(st.columns(max(len(names), 1)), names, strict=False):
            with column:
                if name == "slew":
                    self.form.text(name)
                else:
                    how = REACH_FROM[self.form.end] if name == "reach" else ""
                    self.form.text(name, word=f"{name}/{self.form.end}", how=how)
                self.slots[name] = st.container()

    def slide(self, lift: Lift | None, answer: Answer | None) -> None:
        """The sliders; without a lift they stay as they were, so that they can be moved back."""
        if lift is not None:
            st.session_state[SPANS] = _spans(lift)
        spans: Spans = st.session_state.get(SPANS, {})
        for name, slot in self.slots.items():
            if name in spans and not (name == "reach" and self.form.end == "front"):
                with slot:
                    self._slider(name, spans[name], _now(name, lift, answer))

    def _slider(self, name: str, span: tuple[float, float], now: float | None) -> None:
        one, step, shown = self._unit(name)
        low = step * math.floor(span[0] / one / step + 1e-9)
        high = step * math.ceil(span[1] / one / step - 1e-9)
        key = f"{PRESSED}slide/{self.system}/{self.form.end}/{name}"
        if now is not None:
            st.session_state[key] = min(max(now / one, low), high)
        elif key not in st.session_state:
            return
        st.session_state[key] = min(max(st.session_state[key], low), high)
        st.slider(
            f"{name.capitalize()}, by slider", low, high, step=step, format=shown, key=key,
            label_visibility="collapsed", on_change=_slid(name, key, one),
        )  # fmt: skip

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


def _now(name: str, lift: Lift | None, answer: Answer | None) -> float | None:
    if lift is None:
        return None
    if name == "reach":
        return float(answer.reached.reach) if answer is not None else lift.reach
    return float(getattr(lift, name))


def _slid(name: str, key: str, one: float) -> Callable[[], None]:
    return lambda: state.place(**{name: st.session_state[key] * one})


def elsewhere(form: Form) -> bool:
    """Whether the plate's value was typed for another place than the one now asked for."""
    plate = form.said.get("plate", "")
    here = tuple(form.said.get(name, "") for name in ("end", "height", "reach"))
    name = f"{PRESSED}plate"
    if not plate or st.session_state.get(name, ("",))[0] != plate:
        st.session_state[name] = (plate, here)
    return bool(plate) and st.session_state[name][1] != here
