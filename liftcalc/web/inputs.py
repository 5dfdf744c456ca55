"""The inputs of the pages, in the order in which a lift is thought of."""

from __future__ import annotations

from pathlib import Path
from typing import get_args

import streamlit as st

from liftcalc.errors import InputError
from liftcalc.machines.files import load, shipped_names
from liftcalc.machines.schema import Attachment, EndName, LiftPoint
from liftcalc.requests.demo import DEMO
from liftcalc.requests.fields import ENDS, STANCES
from liftcalc.requests.lift_file import SUFFIX, parameters, write
from liftcalc.rigging.gear import GEAR_KINDS
from liftcalc.rigging.grip import SURFACES
from liftcalc.rigging.lift_mode import WAYS, LogEnd
from liftcalc.rigging.sling import SLING_WAYS
from liftcalc.site.ground import GROUNDS
from liftcalc.site.hazards import Rules, WiresOn
from liftcalc.timber.species import all_species
from liftcalc.web import html, state
from liftcalc.web.fields import REACH_FROM
from liftcalc.web.form import NOT_SAID, Form, folded
from liftcalc.web.page_frame import PRESSED
from liftcalc.web.state import OWN_FILE

_GAUGES = ("sling_kind", "sling_size", "sling_wll", "hook_wll", "shackle_wll", "hitch_wll")
_SLUNG = ("sling", "leg_spread", "sling_length", "slung_at", "rigging_mass")
_TAKEN = ("lifted", "ground_end", "hook_at", "breakout", "drag_friction")
_NEAR = (
    "wires_said",
    "rules",
    "wires_on",
    "wires_voltage",
    "edge_said",
    "edge_depth",
    "people_said",
)
_WORDS = {
    "whole": "the whole log", "one end": "one end, the other stays down",
    "drawn": "nothing: it is drawn along the ground", "drawn, one end up": "one end, and drawn",
    "uk": "United Kingdom", "us": "United States",
}  # fmt: skip


def ask(*, place: bool = True) -> Form:
    """Draw every input of a lift; without ``place`` the page asks for the place itself."""
    form = Form()
    st.html(html.INPUTS)
    st.subheader("Machine and end", anchor=False)
    _machine(form)
    st.subheader("Log", anchor=False)
    _log(form)
    if place:
        st.subheader("Place", anchor=False)
        _place(form)
    st.subheader("Ground", anchor=False)
    _ground(form)
    hangs = form.point is None or form.point.hold == "hangs"
    if hangs or (form.point is not None and form.point.jaw_force is not None):
        st.subheader("Chain and sling" if hangs else "Grip", anchor=False)
        _rigging(form, hangs=hangs)
    st.subheader("What is near", anchor=False)
    _near(form)
    if form.end == "front":
        st.subheader("The journey", anchor=False)
        _journey(form)
    st.subheader("More", anchor=False)
    _machine_now(form)
    _finer(form, hangs=hangs)
    if place:
        state.say(form.asked())
        keep_lift()
    return form


def ask_both_ends() -> Form:
    """Draw the inputs of a comparison: machine, log, where it is taken up and set down."""
    form = Form()
    st.html(html.INPUTS)
    st.subheader("Machine", anchor=False)
    _which(form)
    for end in ENDS:
        tool = _fitted(form, end, name=f"{end}_attachment")
        _point(form, end, tool, name=f"{end}_lift_point")
    st.subheader("Log", anchor=False)
    _log(form)
    for title, name in (("Pick-up", "pick"), ("Set-down", "set")):
        st.subheader(title, anchor=False)
        form.text(f"{name}_height")
        left, right = st.columns(2)
        with left:
            form.text(f"{name}_reach")
        with right:
            form.text(f"{name}_slew")
    with folded("Trailer", *_TRAILER):
        form.texts(*_TRAILER)
    st.subheader("Ground", anchor=False)
    _ground(form)
    st.subheader("Chain and sling", anchor=False)
    _slung(form)
    _taken(form)
    with folded("Grip of a jaw", "surface"):
        form.pick("surface", (NOT_SAID, *SURFACES), words=_or_usual)
    st.subheader("What is near", anchor=False)
    _near(form)
    st.subheader("More", anchor=False)
    with folded("The machine as it is", "plate/front", "plate/back", "pressure", "empty_seat"):
        for end in ENDS:
            form.text(f"{end}_plate", word=f"plate/{end}")
        form.text("pressure")
        form.tick("empty_seat")
    with folded("Finer points of the pose", *_POSE_BOTH):
        form.text("front_tilt", word="tilt")
        form.text("back_curl", word="curl")
        form.texts(*_POSE_BOTH[2:])
    return form


_TRAILER = (
    "bunk_width",
    "bunk_height",
    "front_open_width",
    "front_open_height",
    "back_open_width",
    "back_open_height",
)
_POSE_BOTH = ("tilt", "curl", "sideshift", "swing", "off_centre", "slew_speed", "slew_stop")


def _title(name: str) -> str:
    return load(name).title if name in shipped_names() else name


def _or_usual(choice: str) -> str:
    return _WORDS.get(choice, choice) or "not said: as usual"


def _or_not(choice: str) -> str:
    return _WORDS.get(choice, choice) or "not said"


def _which(form: Form) -> None:
    """The machine alone."""
    name = form.pick("machine", [*shipped_names(), OWN_FILE], start=DEMO.machine, words=_title)
    if name == OWN_FILE:
        form.said["machine"] = state.kept().words["path"] = st.text_input(
            "Path of the machine file",
            placeholder="such as my-machine.toml",
            key=state.prepare("path"),
        )
    try:
        form.machine = load(form.said["machine"])
    except InputError:
        # What is wrong with it is told with everything else.
        form.machine = None


def _fitted(form: Form, end: EndName, *, name: str) -> Attachment | None:
    """What is fitted to an end; None where what was opened names nothing of this machine."""
    if form.machine is None:
        return None
    tools = {a.name: a for a in form.machine.attachment if a.end == end}
    start = getattr(form.machine.fitted, end)
    if end == DEMO.end and DEMO.attachment in tools:
        start = DEMO.attachment
    return tools.get(form.pick(name, tools, word=f"attachment/{end}", start=start))


def _point(form: Form, end: EndName, tool: Attachment | None, *, name: str) -> LiftPoint | None:
    """Which lift point of an attachment is taken."""
    if tool is None:
        return None
    points = {each.name: each for each in tool.lift_point}
    return points.get(form.pick(name, points, word=f"lift_point/{end}"))


def _machine(form: Form) -> None:
    _which(form)
    form.pick("end", ENDS, start=DEMO.end, words=lambda end: f"{end} end")
    form.end = state.end()
    form.tool = _fitted(form, state.end(), name="attachment")
    form.point = _point(form, state.end(), form.tool, name="lift_point")


def _log(form: Form) -> None:
    form.pick("species", [s.name for s in all_species()], free=True)
    form.text("length")
    for column, name in zip(st.columns(3), ("butt", "mid", "top"), strict=True):
        with column:
            form.text(name)
    extra = ("mud", "ice", "root_plate", "limbs")
    with folded("Bark, moisture, mud, root plate", "bark", "moisture", *extra):
        form.pick("bark", ("over", "under"), words=lambda way: f"{way} the bark")
        form.pick("moisture", ("fresh", "part-dry", "soaked"), free=True)
        form.texts(*extra)


def _place(form: Form) -> None:
    end = form.end
    left, right = st.columns(2)
    with left:
        form.text("height", word=f"height/{end}")
    with right:
        form.text("reach", word=f"reach/{end}", how=REACH_FROM[end])
    if end == "back":
        form.text("slew")


def _ground(form: Form) -> None:
    """What it stands on and how; the ends of a comparison stand each in its way."""
    both = not form.said.get("end")
    for end in ENDS if both else (state.end(),):
        stances = [s for s in STANCES if end == "back" or s != "stabilisers and bucket"]
        name = f"{end}_stance" if both else "stance"
        form.pick(name, [NOT_SAID, *stances], word=f"stance/{end}", words=_or_usual)
    form.pick("ground", (NOT_SAID, *(each.name for each in GROUNDS)), words=_or_not)
    left, right = st.columns(2)
    with left:
        form.text("slope")
    with right:
        form.text("uphill")
    usual = "stabilisers" if both or form.end == "back" else "wheels"
    on_pads = (form.said.get("stance") or usual) != "wheels"
    with folded("Mats, levelling, grip of the ground", "levelled", "mat", "friction"):
        if on_pads:
            form.tick("levelled")
        form.texts("mat", "friction")


def _rigging(form: Form, *, hangs: bool) -> None:
    by_grab = form.tool is not None and form.tool.mount == "hangs"
    if hangs and not by_grab:
        _slung(form)
    if hangs:
        _taken(form)
    if form.point is not None and form.point.jaw_force is not None:
        with folded("Grip of the jaw", "surface"):
            form.pick("surface", (NOT_SAID, *SURFACES), words=_or_usual)


def _slung(form: Form) -> None:
    with folded("How it is slung", *_SLUNG):
        form.pick("sling", (NOT_SAID, *SLING_WAYS), words=_or_usual)
        if form.said["sling"] == "two legs":
            form.text("leg_spread")
        form.texts(*_SLUNG[2:])
    with folded("What chain, hook and eye may carry", *_GAUGES):
        form.pick("sling_kind", (NOT_SAID, *GEAR_KINDS), words=_or_not)
        form.texts(*_GAUGES[1:])


def _taken(form: Form) -> None:
    with folded("Whole, by one end, or drawn", *_TAKEN):
        form.pick(
            "lifted",
            (NOT_SAID, *WAYS),
            words=lambda way: _WORDS.get(way, way) or "not said: the whole log",
        )
        if form.said["lifted"] not in (NOT_SAID, "whole"):
            form.pick("ground_end", (NOT_SAID, *get_args(LogEnd)), words=_or_usual)
            form.texts("hook_at", "drag_friction")
        form.text("breakout")


def _near(form: Form) -> None:
    with folded("Wires, edges, people", *_NEAR):
        if form.far("wires"):
            form.pick("rules", (NOT_SAID, *get_args(Rules)), words=_or_not)
            if form.said["rules"] == "uk":
                form.pick("wires_on", (NOT_SAID, *get_args(WiresOn)), words=_or_not)
            if form.said["rules"] == "us":
                form.text("wires_voltage")
        if form.far("edge"):
            form.text("edge_depth")
        form.far("people")


def _journey(form: Form) -> None:
    if not form.tick("travelling"):
        return
    journey = ("speed", "turn_radius", "braking", "sinkage")
    with folded("Speed, turns, braking, ruts", *journey):
        form.texts(*journey)


def _machine_now(form: Form) -> None:
    end = state.end()
    with folded("The machine as it is", f"plate/{end}", "pressure", "empty_seat"):
        form.text("plate", word=f"plate/{end}")
        form.text("pressure")
        _fitted(form, "front" if end == "back" else "back", name="other_attachment")
        form.tick("empty_seat")


def _finer(form: Form, *, hangs: bool) -> None:
    names = ["swing" if hangs else "off_centre", "accelerate_forward", "accelerate_left"]
    if form.end == "back":
        pins = form.tool is None or form.tool.mount == "pins"
        names = ["sideshift", *(["curl"] if pins else []), *names, "slew_speed", "slew_stop"]
    else:
        names = ["tilt", *names]
    with folded("Finer points of the pose", *names):
        form.texts(*names)


def keep_lift() -> None:
    """Save the lift, open another, and a link to it."""
    now = state.kept()
    said, turn = now.said, now.generation

    def _written() -> str:
        # When the button is pressed: the hook may have been moved since this was drawn.
        return write(now.said)

    with st.expander("Save, open or link this lift"):
        try:
            write(said)
            name = f"{Path(said.machine).stem or 'my'}{SUFFIX}"
            st.download_button(
                "Save this lift",
                _written,
                file_name=name,
                mime="application/toml",
                on_click="ignore",
                key=f"{PRESSED}save-lift",
            )
        except InputError:
            st.markdown("It cannot be saved: one of its texts is too long.")
        opened = f"{PRESSED}open-lift/{turn}"
        st.file_uploader(
            "Open a lift",
            type="toml",
            key=opened,
            max_upload_size=1,
            on_change=_open,
            args=(opened,),
        )
        try:
            parameters(said)
        except InputError:
            st.markdown("A lift with a machine file of your own cannot be linked: save it.")
        else:
            st.button("Link to this lift", key=f"{PRESSED}link", on_click=_link)
            if state.kept().linked:
                st.markdown("The address of this page holds the lift: copy it.")


def _open(key: str) -> None:
    file = st.session_state[key]
    if file is not None:
        state.open_text(file.getvalue(), file=file.name)


def _link() -> None:
    state.kept().linked = True
