"""The page "Where it can lift": maps of the back end, curves of the front end. No arithmetic."""

from __future__ import annotations

from collections.abc import Callable

import streamlit as st
from matplotlib.figure import Figure

from liftcalc.evaluation.check import check
from liftcalc.figures.curves import curves
from liftcalc.figures.envelope import envelope
from liftcalc.figures.saving import picture
from liftcalc.figures.slew_map import around
from liftcalc.figures.waterfall import waterfall
from liftcalc.maps.export import csv_text, table_of
from liftcalc.maps.find import find_limits
from liftcalc.maps.limits import BackLimits, FrontLimits, LimitMap
from liftcalc.maps.warnings import limits_warnings
from liftcalc.requests.fields import LimitsRequest
from liftcalc.requests.limits import ParsedLimits, parse_limits
from liftcalc.units import System, show
from liftcalc.web import html
from liftcalc.web.form import Form
from liftcalc.web.inputs import ask
from liftcalc.web.page_frame import PRESSED, answered, opened
from liftcalc.web.progress import Work

Found = BackLimits | tuple[FrontLimits, ...]
SHEETS = ("pdf", "svg", "png")
FIGURES = "The same figures can be saved as a table."


def page() -> None:
    """Draw the page."""
    system = opened(
        "Where it can lift",
        "Every place the end gets to. The heavy line is where this log may be lifted.",
    )

    def answer(form: Form) -> Callable[[], object]:
        # Every reach is mapped: the one that was typed does not matter here.
        request = LimitsRequest(**{**form.said, "reach": ""})
        read = parse_limits(request)
        form.understood(read.reads[0].echoes)
        work = Work("limits", (request, system), steps=4)
        if work.stopped():
            return lambda: None
        found = work.do("Mapping …", lambda: find_limits(read))
        st.html(_told(found, system))
        return lambda: _show(found, read, system, work)

    answered(ask, answer)


def _told(found: Found, system: System) -> str:
    """Whether there is any place for this log. A map never says yes to a lift: see it checked."""
    cells = _cells(found)
    lift = cells[0].lift
    face, verdict = "close", "In places: see where, and check the lift itself"
    if not any(bool(each.passes.any()) for each in cells):
        face, verdict = "no", "Nowhere on what is mapped: this log is too heavy"
    pairs = [
        ("This log, to plan on", _mass(lift.log.mass_planning, system, up=True)),
        ("It needs at the lift point", _mass(lift.needed, system, up=True)),
        ("Lifted by", f"{lift.end} end, {lift.tool.name}"),
    ]
    if isinstance(found, BackLimits):
        pairs.append(
            (
                "Mapped",
                f"slewed {show(found.side.at, 'angle')}; and "
                f"{show(found.plan.at, 'length', system=system)} up at every slew",
            )
        )
    return html.told(face, verdict, pairs)


def _cells(found: Found) -> list[LimitMap | FrontLimits]:
    return [found.side, found.plan] if isinstance(found, BackLimits) else list(found)


def _mass(value: float, system: System, *, up: bool) -> str:
    return show(value, "mass", system=system, rounding="up" if up else "down")


def _show(found: Found, read: ParsedLimits, system: System, work: Work) -> None:
    lift = _cells(found)[0].lift
    figures = _figures(found, system)
    for name, make in figures.items():
        about = f"{name}: {lift.machine.title}, {lift.end} end, {lift.tool.name}. {FIGURES}"
        drawn = work.do(f"Drawing: {name} …", _drawing(make))
        st.html(html.picture(drawn, about))
    work.done()
    reasons = _cells(found)[0].reasons
    st.html(
        html.part("Warnings", html.bullets(limits_warnings(*_cells(found))))
        + html.part(
            "What this rests on",
            html.folded("Assumed", html.bullets(lift.assumed))
            + html.folded(
                "Why it does not get everywhere", html.bullets(each.words for each in reasons)
            ),
        )
    )
    st.subheader("Take it with you", anchor=False)
    left, right = st.columns(2)
    chosen = left.selectbox("Which", list(figures), key="limits/which")
    kind = right.selectbox("As", (*SHEETS, "csv"), key="limits/kind")
    if not st.button("Prepare the file", key=f"{PRESSED}prepare"):
        return
    st.download_button(
        "Save the file",
        _file(figures[chosen], kind, chosen, found, read),
        file_name=f"{chosen.lower().replace(' ', '-').replace(',', '')}.{kind}",
        on_click="ignore",
        key=f"{PRESSED}save",
    )


def _drawing(make: Callable[[], Figure]) -> Callable[[], bytes]:
    return lambda: picture(make(), "svg")


def _figures(found: Found, system: System) -> dict[str, Callable[[], Figure]]:
    """The figures by name, each drawn when it is called for."""
    if isinstance(found, BackLimits):
        answer = check(found.lift)
        return {
            "Reach and height": lambda: envelope(found, answer, system=system),
            "Slew and reach": lambda: around(found, answer, system=system),
            "From capacity to log": lambda: waterfall(answer, for_log=found.for_log, system=system),
        }
    return {"Load over height": lambda: curves(found, system=system)}


def _file(
    figure: Callable[[], Figure], kind: str, name: str, found: Found, read: ParsedLimits
) -> bytes:
    if kind != "csv":
        return picture(figure(), kind)
    if isinstance(found, BackLimits):
        cells = found.plan if name == "Slew and reach" else found.side
        return csv_text(table_of(cells, echoes=read.reads[0].echoes, for_log=read.for_log)).encode()
    return "\n".join(
        csv_text(table_of(each, echoes=one.echoes, for_log=read.for_log))
        for each, one in zip(found, read.reads, strict=True)
    ).encode()
