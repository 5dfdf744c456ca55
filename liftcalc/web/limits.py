"""The page "Where it can lift": maps of the back end, curves of the front end. No arithmetic."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

import streamlit as st
from matplotlib.figure import Figure

from liftcalc.evaluation.check import check
from liftcalc.figures.curves import curves
from liftcalc.figures.limit_maps import limit_maps
from liftcalc.figures.saving import picture
from liftcalc.figures.text import HEAVY_LINE
from liftcalc.figures.waterfall import waterfall
from liftcalc.machines.lookup import named
from liftcalc.maps.export import csv_text, table_of
from liftcalc.maps.find import find_limits
from liftcalc.maps.limits import BackLimits, FrontLimits, LimitMap, View
from liftcalc.maps.warnings import limits_warnings
from liftcalc.reports.map_words import map_name, share_words, verdict_words
from liftcalc.reports.text import PLAN_ON
from liftcalc.reports.words import texts
from liftcalc.requests.fields_of_commands import LimitsRequest
from liftcalc.requests.limits import ParsedLimits, parse_limits
from liftcalc.units import System, show
from liftcalc.web import html
from liftcalc.web.form import Form
from liftcalc.web.inputs import ask
from liftcalc.web.page_frame import PRESSED, answered, opened, save_button
from liftcalc.web.progress import Work

Found = BackLimits | tuple[FrontLimits, ...]
Figures = dict[str, Callable[[], Figure]]
VIEWS: dict[str, View] = {"Reach and height": "side", "Slew and reach": "plan"}
STEPS = "From capacity to log"
SHEETS = ("pdf", "svg", "png")
FIGURES = "The same figures can be saved as a table."


def page() -> None:
    """Draw the page."""
    system = opened("Where it can lift", f"Every place the end gets to. {HEAVY_LINE}")

    def answer(form: Form) -> Callable[[], object]:
        # Every reach is mapped: the one that was typed does not matter here.
        request = replace(form.request(), reach="")
        read = parse_limits(request)
        form.understood(read.reads[0].echoes)
        work = Work("limits", (request, system), steps=4)
        if work.stopped():
            return lambda: None
        found = work.do("Mapping …", lambda: find_limits(read))
        st.html(_told(found, system))
        return lambda: _show(found, read, system, work)

    answered(partial(ask, LimitsRequest), answer)


def _told(found: Found, system: System) -> str:
    """Whether there is any place for this log, and in how much of each map."""
    maps = _maps(found)
    lift = maps[0].lift
    anywhere, verdict = verdict_words(maps)
    pairs = [
        (PLAN_ON.capitalize(), _mass(lift.log.mass_planning, system, up=True)),
        ("It needs at the lift point", _mass(lift.needed, system, up=True)),
        ("Lifted by", f"{lift.end} end, {lift.tool.name}"),
        *((map_name(each, system), share_words(each)) for each in maps),
    ]
    return html.told("close" if anywhere else "no", verdict, pairs)


def _maps(found: Found) -> tuple[LimitMap | FrontLimits, ...]:
    return found.maps if isinstance(found, BackLimits) else found


def _mass(value: float, system: System, *, up: bool) -> str:
    return show(value, "mass", system, "up" if up else "down")


def _show(found: Found, read: ParsedLimits, system: System, work: Work) -> None:
    lift = _maps(found)[0].lift
    figures, every = _figures(found, system)
    for name, make in figures.items():
        about = f"{name}: {named(lift.machine)}, {lift.end} end, {lift.tool.name}. {FIGURES}"
        drawn = work.do(f"Drawing: {name} …", _drawing(make))
        st.html(html.picture(drawn, about))
    work.done()
    reasons = dict.fromkeys(reason.words for each in _maps(found) for reason in each.reasons)
    st.html(
        html.part("Warnings", html.bullets(texts(limits_warnings(*_maps(found)), system)))
        + html.part(
            "What this rests on",
            html.folded("Assumed", html.bullets(texts(lift.assumed, system)))
            + html.folded("Why it does not get everywhere", html.bullets(reasons)),
        )
    )
    st.subheader("Take it with you", anchor=False)
    left, right = st.columns(2)
    sheets = every | figures
    chosen = left.selectbox("Which", list(sheets), key="limits/which")
    kind = right.selectbox("As", (*SHEETS, "csv"), key="limits/kind")
    if not st.button("Prepare the file", key=f"{PRESSED}prepare"):
        return
    name = f"{chosen.lower().replace(' ', '-').replace(',', '')}.{kind}"
    save_button("Save the file", _file(sheets[chosen], kind, chosen, found, read), name, "save")


def _drawing(make: Callable[[], Figure]) -> Callable[[], bytes]:
    return lambda: picture(make(), "svg")


def _figures(found: Found, system: System) -> tuple[Figures, Figures]:
    """The figures by name, each drawn when it is called for; and the one sheet that holds all maps.

    At the front there is one sheet anyhow.
    """
    if not isinstance(found, BackLimits):
        return {"Load over height": lambda: curves(found, system=system)}, {}
    answer = check(found.lift)

    def drawn(view: str) -> Callable[[], Figure]:
        return lambda: limit_maps(found, answer, view=view, system=system)

    steps = {STEPS: lambda: waterfall(answer, for_log=found.for_log, system=system)}
    return {name: drawn(view) for name, view in VIEWS.items()} | steps, {"All maps": drawn("")}


def _file(
    figure: Callable[[], Figure], kind: str, name: str, found: Found, read: ParsedLimits
) -> bytes:
    if kind != "csv":
        return picture(figure(), kind)
    if isinstance(found, BackLimits):
        maps = [each for each in found.maps if VIEWS.get(name, each.view) == each.view]
        return csv_text(table_of(*maps, echoes=read.echoes(found.lift))).encode()
    return "\n".join(
        csv_text(table_of(each, echoes=read.echoes(each.lift))) for each in found
    ).encode()
