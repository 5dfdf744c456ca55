"""The page "Check a lift": inputs, answer, drawings, worked steps. No arithmetic."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

import streamlit as st

from liftcalc.answers.asked import ENDS, STANCES, Asked, ReadLift, read_lift
from liftcalc.answers.check import Answer, check
from liftcalc.answers.demo import DEMO
from liftcalc.errors import Fault, InputError
from liftcalc.figures.plan import plan
from liftcalc.figures.side import side
from liftcalc.machines.files import load, shipped_names
from liftcalc.machines.schema import Attachment, Machine
from liftcalc.timber.sling import SLING_WAYS
from liftcalc.timber.species import all_species
from liftcalc.units import System, show
from liftcalc.web import blocks
from liftcalc.web.fields import FIELDS, REACH_FROM
from liftcalc.web.style import CSS
from liftcalc.working.steps import Section, worked_out

OWN_FILE = "my own machine file"
FRONT_HEIGHT = "1.5 m"
"""Height that the page opens with when the front end is chosen."""
USUAL = "as usual for this end"
_LATEX_SPECIAL = re.compile(r"([%#&_$])")


@dataclass(slots=True)
class _Form:
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
            FIELDS[name].label, opening, key=key or name, placeholder="may stay empty"
        )
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
        return self.said[name]

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


_CHOSEN = {"machine", "end", "attachment", "lift-point", "other-attachment", "stance", "sling",
           "bark"}  # fmt: skip


def page() -> None:
    """Draw the page."""
    st.set_page_config(page_title="Check a lift", layout="wide")
    st.html(CSS)
    st.title("Check a lift", anchor=False)
    st.markdown(
        "One log, one machine, one place. The page opens on a lift of our own invention: a "
        "windblown larch beside a track. Change anything; the answer follows."
    )
    shown = st.radio("Show the answer in", ("metric", "imperial"), horizontal=True, key="system")
    system: System = "imperial" if shown == "imperial" else "metric"
    verdict = st.container()
    left, right = st.columns([5, 7], gap="large")
    with left:
        form = _ask()
    try:
        read = read_lift(form.asked())
        answer = check(read.lift)
    except InputError as error:
        form.refused(error.faults)
        verdict.html(blocks.faults_block(error.faults))
        return
    form.understood(read.echoes)
    verdict.html(blocks.answer_block(answer, system))
    with right:
        _show(answer, read, system)


def _ask() -> _Form:
    form = _Form()
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


def _ask_machine(form: _Form) -> None:
    name = form.choose(
        "machine", [*shipped_names(), OWN_FILE], start=DEMO.machine, words=_title
    )
    if name == OWN_FILE:
        form.said["machine"] = st.text_input(
            "Path of the machine file", placeholder="such as my-machine.toml", key="path"
        )
    form.end = form.choose("end", ENDS, start=DEMO.end, words=lambda end: f"{end} end")
    try:
        form.machine = load(form.said["machine"])
    except InputError:
        # What is wrong with it is told with everything else.
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


def _ask_log(form: _Form) -> None:
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


def _ask_place(form: _Form) -> None:
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
    stances = [USUAL, *(s for s in STANCES if back or s != "stabilisers and bucket")]
    if form.choose("stance", stances, key=f"stance/{form.end}") == USUAL:
        form.said["stance"] = ""
    if not back:
        form.tick("travelling")
    left, right = st.columns(2)
    with left:
        form.text("slope")
    with right:
        form.text("uphill")


def _tool(form: _Form) -> Attachment | None:
    if form.machine is None:
        return None
    return next(a for a in form.machine.attachment
                if a.end == form.end and a.name == form.said["attachment"])  # fmt: skip


def _ask_more(form: _Form) -> None:
    tool = _tool(form)
    holds = "hangs"
    if tool is not None:
        holds = next(p.hold for p in tool.lift_point if p.name == form.said["lift_point"])
    if holds == "hangs" and (tool is None or tool.mount != "hangs"):
        with st.expander("Sling and rigging"):
            form.choose("sling", SLING_WAYS)
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


def _ask_other_end(form: _Form) -> None:
    if form.machine is None:
        return
    end = "front" if form.end == "back" else "back"
    names = [a.name for a in form.machine.attachment if a.end == end]
    form.choose(
        "other_attachment", names, start=getattr(form.machine.fitted, end),
        key=f"other/{form.machine.name}/{end}",
    )  # fmt: skip


def _show(answer: Answer, read: ReadLift, system: System) -> None:
    st.html(blocks.drawing(side(answer, system=system)))
    st.html(blocks.drawing(plan(answer, system=system)))
    st.subheader("What could stop it", anchor=False)
    st.html(blocks.criteria_table(answer, system))
    st.subheader("Warnings", anchor=False)
    st.html(blocks.bullets(answer.warnings))
    st.subheader("The log", anchor=False)
    st.html(blocks.facts(_log_facts(answer, system)))
    with st.expander("Everything understood"):
        st.html(blocks.facts(read.echoes))
    said = [each for each in answer.assumed if not each.startswith("machine: ")]
    figures = [each for each in answer.assumed if each.startswith("machine: ")]
    with st.expander(f"Assumed: {len(said)} things you did not say"):
        st.html(blocks.bullets(said))
    if figures:
        with st.expander(f"Assumed: {len(figures)} figures of the machine"):
            st.html(blocks.bullets(each.removeprefix("machine: ") for each in figures))
    with st.expander("Worked steps"):
        for section in worked_out(answer):
            st.markdown(_worked(section))


def _log_facts(answer: Answer, system: System) -> list[tuple[str, str]]:
    log = answer.lift.log

    def metres(value: float, rounding: Any = "near") -> str:
        return show(value, "length", system=system, rounding=rounding)

    def kilos(value: float, rounding: Any = "near") -> str:
        return show(value, "mass", system=system, rounding=rounding)

    found = [
        ("Volume", show(log.volume, "volume", system=system, rounding="up")),
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


def _plain(text: str) -> str:
    """Text that Markdown leaves alone."""
    return re.sub(r"([\\`*_{}\[\]()#+\-.!$<>|~:])", r"\\\1", text)


def _worked(section: Section) -> str:
    """A section of the working: why, then the formula with letters, with numbers, and its result."""
    lines = [f"**{_plain(section.title)}**"]
    for row in section.rows:
        result = _LATEX_SPECIAL.sub(r"\\\1", row.result)
        formula = " = ".join(filter(None, (row.letters, row.numbers, rf"\text{{{result}}}")))
        lines += [_plain(row.why), f"$$\n{formula}\n$$"]
    if section.source:
        lines.append(f"Source: {_plain(section.source)}")
    return "\n\n".join(lines)
