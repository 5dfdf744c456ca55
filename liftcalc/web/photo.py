"""Your machine from a picture: pins clicked in it, a few lengths taped, how sure each pin is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from html import escape

import streamlit as st

from liftcalc.errors import Fault, Gather, InputError
from liftcalc.family.facts import fact
from liftcalc.family.kind import CLASSES, machine_kind
from liftcalc.family.photograph import Photograph, TapedLength
from liftcalc.family.photograph_facts import told_by, unlikely
from liftcalc.family.photograph_fit import PhotographFit, fit_photograph
from liftcalc.family.picture_points import NEEDED, POINTS
from liftcalc.figures.picture_guide import picture_guide
from liftcalc.machines.files import load
from liftcalc.machines.schema import Machine
from liftcalc.remarks import worded
from liftcalc.units import System, read, show
from liftcalc.web import html, own_machine
from liftcalc.web.lesson import plainly
from liftcalc.web.page_frame import PRESSED, opened
from liftcalc.web.photo_widget import Clicked, off_words, photo_widget

TITLE = "Your machine from a picture"
KEPT = "photo/clicked"
HOW = (
    "Hard, level ground. Stabilisers down till they just touch; shovel and bucket laid down.",
    "Back end straight behind, its lock pin in; sideshift in the middle.",
    "Stand opposite the middle, {near} to {far} away, the phone as high as the wheel hubs.",
    "Zoom till the machine fills the picture; step aside till the far pad shows.",
    "Take the whole picture: one that was cut has lost its middle.",
)
NEAREST, FARTHEST = 8.0, 20.0
"""Between which distances how sure pins are was measured [m]."""
LENGTHS = (
    ("shovel tip", "bucket tooth", "Shovel tip to bucket tooth", "along the ground, whole machine"),
    ("foot pin", "knuckle", "Foot pin to knuckle", "the boom, middle of pin to middle of pin"),
    ("arm pivot", "hinge pin", "Arm pivot to hinge pin", "the loader arm, likewise"),
    ("rear hub", "front hub", "Rear hub to front hub", "if one of the others cannot be taped"),
)
PACED = ("How far away you stood", "from the machine's middle, by paces; may be left out")


@dataclass(frozen=True, slots=True, kw_only=True)
class Taped:
    """Lengths as typed, and how far away the picture was taken; None where it was not told."""

    lengths: tuple[TapedLength, ...]
    paced: float | None


def page() -> None:
    """Draw the page."""
    system = opened(TITLE, "")
    plainly(lambda: _page(system))


def _page(system: System) -> None:
    far = {"near": show(NEAREST, "length", system, places=0)}
    far["far"] = show(FARTHEST, "length", system, places=0)
    with st.expander("How to take it", expanded=KEPT not in st.session_state):
        st.html(html.bullets(each.format(**far) for each in HOW))
    name = st.selectbox(
        "Most like it",
        list(CLASSES),
        index=list(CLASSES).index("standard-sideshift"),
        format_func=lambda each: load(each).title,
        key="photo/class",
    )
    clicked: Clicked | None = st.session_state.get(KEPT)
    # Lengths are typed below the picture, over which what they lead to is drawn.
    picture, below = st.container(), st.container()
    with below:
        taped = _taped()
        answer = st.container()
    fitted = None
    if clicked is not None and taped is not None:
        try:
            fitted = fit_photograph(_photograph(clicked, taped, load(name)))
        except InputError as error:
            if {each.point for each in clicked.clicks} >= set(NEEDED):
                answer.html("".join(html.fault_line(each, system) for each in error.faults))
    with picture:
        photo_widget(
            picture_guide(load(name)),
            fitted,
            clicked=clicked,
            key="photo",
            system=system,
            changed=lambda found: st.session_state.update({KEPT: found}),
        )
    if fitted is not None:
        doubts = (*fitted.doubts, *unlikely(fitted, machine_kind(name)))
        answer.html(_told(fitted, doubts, system))
        if not doubts:
            answer.button(
                "Take these into your machine",
                key=f"{PRESSED}photo/take",
                on_click=own_machine.take,
                args=(name, told_by(fitted)),
            )


def _photograph(clicked: Clicked, taped: Taped, nearest: Machine) -> Photograph:
    """The picture with the lengths whose ends were clicked so far: others wait."""
    points = {each.point for each in clicked.clicks}
    return Photograph(
        width=clicked.width,
        height=clicked.height,
        clicks=clicked.clicks,
        lengths=tuple(x for x in taped.lengths if {x.first, x.second} <= points),
        nearest=nearest,
        paced=taped.paced,
    )


def _taped() -> Taped | None:
    """What was taped; None where something of it cannot be read."""
    st.html('<h2 class="lc-place">What you taped</h2>')
    gather = Gather()
    found = []
    columns = [*st.columns(2), *st.columns(2)]
    for column, (first, second, label, advice) in zip(columns, LENGTHS, strict=True):
        with column:
            length = _length(label, advice, gather, f"photo/{first}")
        if length is not None:
            found.append(TapedLength(first=first, second=second, length=length))
    paced = _length(*PACED, gather, "photo/paced")
    return None if gather.faults else Taped(lengths=tuple(found), paced=paced)


def _length(label: str, advice: str, gather: Gather, key: str) -> float | None:
    """A length as typed, its fault beside it; nothing typed is no length."""
    typed = st.text_input(label, key=key, placeholder="such as 2.72 m")
    st.html(f'<p class="lc-help">{escape(advice)}</p>')
    if not typed.strip():
        return None
    try:
        return read(typed, "length", field=label).value
    except InputError as error:
        st.html("".join(html.fault_line(each) for each in error.faults))
        gather.faults += error.faults
    return None


def _told(fitted: PhotographFit, doubts: Iterable[Fault], system: System) -> str:
    """What the picture tells, and what may be wrong with it."""
    pins = [each for each in fitted.points if POINTS[each.point].ground is None]
    worst = max(max(each.sigma_x, each.sigma_z) for each in pins)
    alone = [each.point for each in pins if not each.checked]
    face, verdict = "ok", f"{len(pins)} places, each within {off_words(worst, system)[2:]}"
    if doubts:
        face, verdict = "no", "Something in this picture does not agree"
    bullets = "".join(
        f"<li><strong>{escape(each.field)}</strong>: {escape(html.said(each))}</li>"
        for each in (worded(one, system) for one in doubts)
    )
    listed = f"<ul>{bullets}</ul>" if bullets else ""
    more = ""
    if alone:
        more = (
            f'<p class="lc-why">Nothing checks your click on {len(alone)} of them. '
            "Click all a second time, and a slip shows.</p>"
        )
    return (
        f'<section class="lc-answer lc-{face}" role="status"><p class="lc-verdict">'
        f'<span class="lc-mark" aria-hidden="true">{html.MARKS[face]}</span>'
        f"<span>{escape(verdict)}</span></p>{listed}{more}"
        f'<p class="lc-help">± holds nine times in ten.</p></section>'
        + html.part("From pin to pin", _distances(fitted, system))
        + html.folded("Every place, from the rear axle and the ground", _places(fitted, system))
    )


def _distances(fitted: PhotographFit, system: System) -> str:
    rows = "".join(
        f'<tr><th scope="row">{escape(fact(each.key).question)}</th>'
        f"<td>{_shown(each.value, system)}</td>"
        f"<td>{escape(off_words(each.tolerance or 0.0, system))}</td></tr>"
        for each in told_by(fitted)
    )
    return html.table(("Distance", "Length", "Within"), rows)


def _places(fitted: PhotographFit, system: System) -> str:
    rows = "".join(
        f'<tr><th scope="row">{escape(each.point)}</th>'
        + "".join(
            f"<td>{_shown(at, system)}<small>{escape(off_words(off, system))}</small></td>"
            for at, off in ((each.x, each.sigma_x), (each.z, each.sigma_z))
        )
        + "</tr>"
        for each in fitted.points
    )
    return html.table(("Place", "Forward", "Up"), rows)


def _shown(length: float, system: System) -> str:
    return escape(show(length, "length", system).replace("-", "−"))
