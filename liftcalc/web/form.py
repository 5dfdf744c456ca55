"""The inputs of the page: texts and choices, nothing read and nothing computed."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

import streamlit as st

from liftcalc.answers.asked import ENDS, STANCES, Asked
from liftcalc.answers.demo import DEMO
from liftcalc.errors import Fault, InputError
from liftcalc.machines.files import load, shipped_names
from liftcalc.machines.schema import Attachment, Machine
from liftcalc.rigging.sling import SLING_WAYS
from liftcalc.timber.species import all_species
from liftcalc.web import blocks
from liftcalc.web.fields import FIELDS, REACH_FROM

OWN_FILE = "my own machine file"
FRONT_HEIGHT = "1.5 m"
"""Height that the page opens with when the front end is chosen."""
NOT_SAID = ""
"""The choice of leaving it to the usual way, which the answer then lists as assumed."""
_CHOSEN = {
    "machine", "end", "attachment", "lift-point", "other-attachment", "front-attachment",
    "back-attachment", "stance", "sling", "bark",
}  # fmt: skip
"""Options that are chosen from a list: there is nothing to read back."""


@dataclass(slots=True)
class Form:
    """What is typed, and the place under each input for what was understood of it."""

    said: dict[str, Any] = field(default_factory=dict)
    slots: dict[str, tuple[Any, str]] = field(default_factory=dict)
    end: str = "back"
    machine: Machine | None = None

    def _slot(self, name: str, how: str = "") -> None:
        self.slots[FIELDS[name].option] = (st.empty(), how or FIELDS[name].how)

    def text(self, name: str, *, start: str | None = None, key: str = "", how: str = "") -> None:
        """A typed quantity."""
        opening = getattr(DEMO, name) if start is None else start
        self.said[name] = st.text_input(
            FIELDS[name].label, opening, key=key or name,
            placeholder=None if opening else "may stay empty",
        )  # fmt: skip
        self._slot(name, how)

    def choose(
        self,
        name: str,
        options: Iterable[str],
        *,
        start: str = "",
        key: str = "",
        free: bool = False,
        words: Any = str,
    ) -> str:
        """A choice; a free one may also be typed."""
        listed = list(options)
        chosen = st.selectbox(
            FIELDS[name].label, listed,
            index=listed.index(start) if start in listed else 0,
            key=key or name, accept_new_options=free, format_func=words,
        )  # fmt: skip
        self._slot(name)
        self.said[name] = chosen or ""
        return str(self.said[name])

    def tick(self, name: str) -> None:
        """A yes or no."""
        self.said[name] = st.checkbox(FIELDS[name].label, key=name)
        self._slot(name)

    def asked(self) -> Asked:
        """Everything said."""
        return Asked(**self.said)

    def understood(self, echoes: Iterable[tuple[str, str]]) -> None:
        """Under each input how to measure it, and what was read."""
        known = dict(echoes)
        for option, (slot, how) in self.slots.items():
            typed = option.replace("-", "_") in self.said and option in known
            echo = known[option] if typed and option not in _CHOSEN else ""
            slot.html(blocks.help_line(FIELDS[option.replace("-", "_")], how, echo))

    def refused(self, faults: Iterable[Fault]) -> None:
        """Under each input how to measure it, or what is wrong with it."""
        self.understood(())
        for fault in faults:
            for part in re.split(r" and | or ", fault.field.replace("lift point", "lift-point")):
                if part in self.slots:
                    self.slots[part][0].html(blocks.fault_line(fault))


def ask() -> Form:
    """Draw every input, in the order in which a lift is thought of."""
    form = Form()
    st.subheader("Machine and end", anchor=False)
    _ask_machine(form)
    st.subheader("Log", anchor=False)
    _ask_log(form)
    st.subheader("Place", anchor=False)
    _ask_place(form)
    st.subheader("More", anchor=False)
    _ask_more(form)
    return form


def _title(name: str) -> str:
    return name if name == OWN_FILE else load(name).title


def _or_usual(choice: str) -> str:
    return choice or "not said: as usual"


def ask_both_ends() -> Form:
    """Draw the inputs of a comparison: machine, log, where it is taken up and set down."""
    form = Form()
    st.subheader("Machine", anchor=False)
    _ask_which(form)
    if form.machine is not None:
        for end in ("front", "back"):
            names = [a.name for a in form.machine.attachment if a.end == end]
            form.choose(
                f"{end}_attachment", names, start=getattr(form.machine.fitted, end),
                key=f"{end}_attachment/{form.machine.name}",
            )  # fmt: skip
    st.subheader("Log", anchor=False)
    _ask_log(form)
    for title, name, start in (("Pick-up", "pick", "0.1 m"), ("Set-down", "set", "1.4 m")):
        st.subheader(title, anchor=False)
        form.text(f"{name}_height", start=start)
        left, right = st.columns(2)
        with left:
            form.text(f"{name}_reach", start="3.5 m" if name == "pick" else "")
        with right:
            form.text(f"{name}_slew", start="")
    st.subheader("More", anchor=False)
    with st.expander("Trailer, plates, slope"):
        for name in (
            "bunk_width", "bunk_height", "front_open_width", "front_open_height", "front_plate",
            "back_plate", "slope", "uphill", "pressure",
        ):  # fmt: skip
            form.text(name, start="")
    return form


def _ask_which(form: Form) -> None:
    """The machine alone."""
    name = form.choose("machine", [*shipped_names(), OWN_FILE], start=DEMO.machine, words=_title)
    if name == OWN_FILE:
        form.said["machine"] = st.text_input(
            "Path of the machine file", placeholder="such as my-machine.toml", key="path"
        )
    try:
        form.machine = load(form.said["machine"])
    except InputError:
        # What is wrong with it is told with everything else.
        form.machine = None


def _ask_machine(form: Form) -> None:
    _ask_which(form)
    form.end = form.choose("end", ENDS, start=DEMO.end, words=lambda end: f"{end} end")
    if form.machine is None:
        return
    tools = {a.name: a for a in form.machine.attachment if a.end == form.end}
    fitted = getattr(form.machine.fitted, form.end)
    key = f"{form.machine.name}/{form.end}"
    name = form.choose(
        "attachment", tools, key=f"attachment/{key}",
        start=DEMO.attachment if DEMO.attachment in tools else fitted,
    )  # fmt: skip
    points = [point.name for point in tools[name].lift_point]
    form.choose("lift_point", points, key=f"lift_point/{key}/{name}")


def _ask_log(form: Form) -> None:
    form.choose("species", [s.name for s in all_species()], start=DEMO.species, free=True)
    form.text("length")
    for column, name in zip(st.columns(3), ("butt", "mid", "top"), strict=True):
        with column:
            form.text(name)
    with st.expander("Bark, moisture, mud, root plate"):
        form.choose("bark", ("over", "under"), words=lambda way: f"{way} the bark")
        form.choose("moisture", ("fresh", "part-dry", "soaked"), free=True)
        for name in ("mud", "ice", "root_plate", "limbs"):
            form.text(name)


def _ask_place(form: Form) -> None:
    back = form.end == "back"
    left, right = st.columns(2)
    with left:
        form.text("height", start=DEMO.height if back else FRONT_HEIGHT, key=f"height/{form.end}")
    with right:
        form.text(
            "reach", start=DEMO.reach if back else "", key=f"reach/{form.end}",
            how=REACH_FROM[form.end],
        )  # fmt: skip
    if back:
        form.text("slew")
    stances = [NOT_SAID, *(s for s in STANCES if back or s != "stabilisers and bucket")]
    form.choose("stance", stances, key=f"stance/{form.end}", words=_or_usual)
    if not back:
        form.tick("travelling")
    left, right = st.columns(2)
    with left:
        form.text("slope")
    with right:
        form.text("uphill")


def _tool(form: Form) -> Attachment | None:
    if form.machine is None:
        return None
    return next(a for a in form.machine.attachment
                if a.end == form.end and a.name == form.said["attachment"])  # fmt: skip


def _ask_more(form: Form) -> None:
    tool = _tool(form)
    holds = "hangs"
    if tool is not None:
        holds = next(p.hold for p in tool.lift_point if p.name == form.said["lift_point"])
    if holds == "hangs" and (tool is None or tool.mount != "hangs"):
        with st.expander("Sling and rigging"):
            form.choose("sling", (NOT_SAID, *SLING_WAYS), words=_or_usual)
            if form.said["sling"] == "two legs":
                form.text("leg_spread", start="1.5 m")
            for name in ("sling_length", "slung_at", "rigging_mass"):
                form.text(name)
    with st.expander("The machine as it is"):
        for name in ("plate", "pressure"):
            form.text(name)
        _ask_other_end(form)
        form.tick("empty_seat")
    with st.expander("Finer points of the pose"):
        if form.end == "back":
            form.text("sideshift")
            if tool is None or tool.mount == "pins":
                form.text("curl")
        else:
            form.text("tilt")
        form.text("swing" if holds == "hangs" else "off_centre")
        for name in ("accelerate_forward", "accelerate_left"):
            form.text(name)


def _ask_other_end(form: Form) -> None:
    if form.machine is None:
        return
    end = "front" if form.end == "back" else "back"
    names = [a.name for a in form.machine.attachment if a.end == end]
    form.choose(
        "other_attachment", names, start=getattr(form.machine.fitted, end),
        key=f"other/{form.machine.name}/{end}",
    )  # fmt: skip
