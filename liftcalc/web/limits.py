"""The page "Where it can lift": maps of the back end, curves of the front end. No arithmetic."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import streamlit as st
from matplotlib.figure import Figure

from liftcalc.answers.check import check
from liftcalc.answers.export import csv_text, table_of
from liftcalc.answers.limits import BackLimits, FrontLimits, LimitMap
from liftcalc.answers.limits_asked import ReadLimits, find_limits, read_limits
from liftcalc.answers.limits_doubts import limits_doubts
from liftcalc.figures.around import around
from liftcalc.figures.curves import curves
from liftcalc.figures.envelope import envelope
from liftcalc.figures.saving import picture
from liftcalc.figures.waterfall import waterfall
from liftcalc.units import System, show
from liftcalc.web import blocks
from liftcalc.web.form import Form
from liftcalc.web.frame import PRESSED, answered, opened
from liftcalc.web.inputs import ask

Found = BackLimits | tuple[FrontLimits, ...]
SHEETS = ("pdf", "svg", "png")
FIGURES = "The same figures can be saved as a table."


def page() -> None:
    """Draw the page."""
    system = opened(
        "Where it can lift",
        "The same machine and log, at every place the end gets to. Every value of a map holds "
        "anywhere inside its square; the heavy line is where this log may be lifted.",
    )

    def answer(form: Form) -> Callable[[], None]:
        with st.spinner("Mapping …"):
            # Every reach is mapped: the one that was typed does not matter here.
            read = read_limits(replace(form.asked(), reach=""))
            found = find_limits(read)
        form.understood(read.reads[0].echoes)
        st.html(_told(found, system))
        return lambda: _show(found, read, system)

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
    return blocks.told(face, verdict, pairs)


def _cells(found: Found) -> list[LimitMap | FrontLimits]:
    return [found.side, found.plan] if isinstance(found, BackLimits) else list(found)


def _mass(value: float, system: System, *, up: bool) -> str:
    return show(value, "mass", system=system, rounding="up" if up else "down")


def _show(found: Found, read: ReadLimits, system: System) -> None:
    lift = _cells(found)[0].lift
    with st.spinner("Drawing …"):
        figures = _figures(found, system)
        for name, figure in figures.items():
            about = f"{name}: {lift.machine.title}, {lift.end} end, {lift.tool.name}. {FIGURES}"
            st.html(blocks.picture(picture(figure, "svg"), about))
    st.subheader("Warnings", anchor=False)
    st.html(blocks.bullets(limits_doubts(*_cells(found))))
    with st.expander("Assumed"):
        st.html(blocks.bullets(lift.assumed))
    reasons = _cells(found)[0].reasons
    with st.expander("Why it does not get everywhere"):
        st.html(blocks.bullets(each.words for each in reasons))
    st.subheader("Take it with you", anchor=False)
    chosen = st.selectbox("Which", list(figures), key="limits/which")
    kind = st.selectbox("As", (*SHEETS, "csv"), key="limits/kind")
    if not st.button("Prepare the file", key=f"{PRESSED}prepare"):
        return
    st.download_button(
        "Save the file", _file(figures[chosen], kind, chosen, found, read),
        file_name=f"{chosen.lower().replace(' ', '-').replace(',', '')}.{kind}",
        key=f"{PRESSED}save",
    )  # fmt: skip


def _figures(found: Found, system: System) -> dict[str, Figure]:
    """The figures by name."""
    if isinstance(found, BackLimits):
        answer = check(found.lift)
        return {
            "Reach and height": envelope(found, answer, system=system),
            "Slew and reach": around(found, answer, system=system),
            "From capacity to log": waterfall(answer, for_log=found.for_log, system=system),
        }
    return {"Load over height": curves(found, system=system)}


def _file(figure: Figure, kind: str, name: str, found: Found, read: ReadLimits) -> bytes:
    if kind != "csv":
        return picture(figure, kind)
    if isinstance(found, BackLimits):
        cells = found.plan if name == "Slew and reach" else found.side
        return csv_text(table_of(cells, echoes=read.reads[0].echoes, for_log=read.for_log)).encode()
    return "\n".join(
        csv_text(table_of(each, echoes=one.echoes, for_log=read.for_log))
        for each, one in zip(found, read.reads, strict=True)
    ).encode()
