"""The lift drawn so that its hook can be dragged: take it, drag it, and read what is allowed there.

The browser gets the drawing, what moves in it, and a grid of loads that ``check`` does not go
below (``maps.drag_grid``). While the hook moves nothing is asked of the model; when it is let go
its new place comes back once, and the page answers it exactly.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from importlib.resources import files
from typing import Any

import numpy as np
import streamlit as st

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.lift import Lift
from liftcalc.factors import CLOSE
from liftcalc.figures.plan import plan
from liftcalc.figures.scene import WIDE, Role, Scene
from liftcalc.figures.side import side
from liftcalc.figures.styles import LOOKS, TONES
from liftcalc.figures.svg import UNIT, svg, without
from liftcalc.maps.drag_grid import DragCurve, DragGrid, View, drag_grid
from liftcalc.remarks import Remark
from liftcalc.reports.text import verdict_sentences
from liftcalc.reports.words import text
from liftcalc.units import FOOT, POUND, System, show
from liftcalc.web import html
from liftcalc.web.drag_preview import plan_preview, side_preview
from liftcalc.web.page_frame import PRESSED

MARKS = {**html.MARKS, "ok": "○"}
"""While the hook moves nothing is ticked off: a tick would read as a promise."""
LET_GO = "Let go for the exact answer."
WORDS = {
    "allowed": html.ALLOWED,
    "heaviest": "Heaviest log here",
    "first": "Would stop it first",
    "least": "at least",
    "needs": "this log needs",
    "hook": "Hook",
    "kind": "hook to drag",
    "idle": "Take the hook and drag it, or focus it and use the arrow keys.",
    "moving": f"At least this much all round the hook. {LET_GO}",
    "low": f"Log still on the ground here. {LET_GO}",
    "asked": "Working out the exact answer …",
    "exact": "Exact answer.",
    "out": "End of its reach",
    "beyond": "the arm does not get there",
    "turned": "the back end does not slew so far",
    "still": "From above the front end cannot be moved: take its hook in the side view.",
}
STAYS: frozenset[Role] = frozenset(
    {
        "ground", "frame", "body", "glass", "tyre", "rim", "stabiliser", "kingpost", "link", "axis",
        "lug", "barrel", "rod", "pin", "attachment", "sling", "log", "grain",
    }
)  # fmt: skip
"""Roles that stay while the hook moves: they show where it came from."""
BARE = without(role for role in LOOKS if role not in STAYS)
"""A style that hides words and marks which hold only for the place the hook came from."""


_REMARK = re.compile(r"^[ ]*//.*\n|^[ ]*/\*\*[^*]*\*/[ ]*\n|^[ ]+|^\n", re.MULTILINE)


def _piece(name: str) -> str:
    """A file without indents and lines of comment: it goes to the browser with every drawing."""
    text = files("liftcalc.web").joinpath(name).read_text(encoding="utf-8")
    return _REMARK.sub("", text)


def _shades() -> str:
    """The tones of the figures as CSS variables, for day and, where a browser can, night."""
    tones = [(tone.replace(" ", "-"), each) for tone, each in TONES.items() if tone != "none"]
    plain = "".join(f"--{name}:{light};" for name, (light, _) in tones)
    both = "".join(f"--{name}:light-dark({light},{dark});" for name, (light, dark) in tones)
    return f":host{{{plain}}}@supports(color:light-dark(#000,#fff)){{:host{{{both}}}}}"


HTML = """
<div class="hook-widget">
  <div class="read">
    <p class="verdict"><span class="mark" aria-hidden="true"></span><span class="said"></span></p>
    <dl><div><dt class="allowed"></dt><dd class="allowed"></dd></div>
    <div><dt class="heaviest"></dt><dd class="heaviest"></dd></div>
    <div><dt class="first"></dt><dd class="first"></dd></div></dl>
    <div class="gauge" aria-hidden="true">
      <span class="bar"></span><span class="need"></span><span class="needs"></span>
    </div>
    <p class="status"></p>
  </div>
  <div class="stage">
    <img class="figure" alt="">
    <img class="bare" alt="">
    <svg class="over" aria-hidden="true"></svg>
    <div class="hook" role="slider" tabindex="0"></div>
  </div>
  <p class="aloud" role="status"></p>
</div>
"""

_component = st.components.v2.component(
    "liftcalc_hook",
    html=HTML,
    css=_shades() + _piece("hook_widget.css"),
    js=_piece("hook_widget_places.js") + _piece("hook_widget.js"),
)
_grids = st.components.v2.component(
    "liftcalc_grids",
    html="<span></span>",
    js="""export default ({ data }) => {
      window.liftcalcGrids = data;
      window.dispatchEvent(new Event("liftcalc-grids"));
    }""",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class HookPoint:
    """Where the hook was let go [m, rad]; None for what the drawing does not move.

    At the front end only the height is given: the arms decide the reach. Lengths are whole
    centimetres, or lie inside the grid by less than one.
    """

    reach: float | None = None
    height: float | None = None
    slew: float | None = None


def hook_widget(
    lift: Lift,
    answer: Answer,
    *,
    view: View,
    key: str,
    system: System = "metric",
    moved: Callable[[HookPoint], None] | None = None,
    quiet: bool = False,
    later: bool = False,
) -> HookPoint | None:
    """Draw a lift and its exact answer so that the hook can be dragged.

    From the side it moves reach and height, from above (``view`` "plan") reach and slew; from above
    the front end is only drawn. Gives the new place once, in the run after the hook was let go;
    ``moved`` is told it before the page runs anew, so that a page which sets its fields there runs
    once and not twice. With ``quiet`` the figures are seen only while the hook moves, as on a page
    that tells them itself. With ``later`` the page sends the loads at the hook with `send_grids`
    when all else is drawn: the hook cannot be taken until then. ``key`` tells one drawing of a page
    from another.
    """
    name = f"{PRESSED}{key}"
    turn = f"{name}/turn"

    def let_go() -> None:
        # Counted even where the page stays as it is, so that the hook goes back to where it was.
        st.session_state[turn] = st.session_state.get(turn, 0) + 1
        point = read_point(st.session_state[name].get("point"))
        if moved is not None and point is not None:
            moved(point)

    grid = None if later else grid_data(lift, view)
    data = payload(lift, answer, view=view, system=system, quiet=quiet, grid=grid)
    data["turn"] = st.session_state.get(turn, 0)
    if later and not _still(lift, view):
        data |= {"grid": "later", "sign": st.session_state.get(f"{PRESSED}grids", 0)}
    found = _component(key=name, data=data, on_point_change=let_go)
    return read_point(found.get("point"))


def read_point(said: Any) -> HookPoint | None:
    """A place as the browser sends it; None for anything that is not one."""
    if not isinstance(said, dict) or not said:
        return None
    numbers = {name: said[name] for name in ("reach", "height", "slew") if name in said}
    if not numbers or not all(_is_number(each) for each in numbers.values()):
        return None
    return HookPoint(**{name: float(each) for name, each in numbers.items()})


def _is_number(value: Any) -> bool:
    # bool is a kind of int in Python.
    plain = isinstance(value, int | float) and not isinstance(value, bool)
    return plain and math.isfinite(value)


def send_grids(lift: Lift) -> None:
    """Send the loads at the hook to the drawings of this run that wait for them."""
    count = f"{PRESSED}grids"
    sign = st.session_state.get(count, 0)
    views: tuple[View, ...] = ("side", "plan")
    made = {v: grid_data(lift, v) for v in views}
    # Counted before it is sent: a run broken off between the two must not let the drawing of
    # the next lift take these loads for its own.
    st.session_state[count] = sign + 1
    _grids(key=f"{PRESSED}grid", data={"sign": sign, **made})


def grid_data(lift: Lift, view: View) -> dict[str, Any] | None:
    """The loads at the hook as the browser takes them; None where it cannot be moved."""
    return None if _still(lift, view) else _grid(_kept_grid(lift, view))


def _still(lift: Lift, view: View) -> bool:
    return view == "plan" and lift.end == "front"


def payload(
    lift: Lift,
    answer: Answer,
    *,
    view: View,
    system: System,
    quiet: bool = False,
    grid: dict[str, Any] | None = None,
) -> dict[str, Any]:
    """Everything that the browser needs, as plain numbers and texts; no text of it is markup."""
    scene = (side if view == "side" else plan)(answer, system=system)
    if quiet:
        # The page says it above the drawing.
        scene = replace(scene, caution="")
    drawn = svg(scene)
    height = float(drawn.split('viewBox="0 0 ', 1)[1].split('"', 1)[0].split()[1])
    return {
        "view": view,
        "quiet": quiet,
        "about": scene.about,
        "figure": drawn,
        "bare": BARE,
        "size": [WIDE * UNIT, height],
        "floor": (scene.top - scene.bottom) * UNIT / scene.em,
        "units": _units(system),
        "words": WORDS | line_words(answer),
        "verdicts": verdicts(answer),
        "marks": MARKS,
        "exact": _exact(answer, system),
        "frame": _frame(lift, scene, view),
        "grid": grid,
        "preview": side_preview(answer) if view == "side" else plan_preview(answer),
    }


def verdicts(answer: Answer) -> dict[str, str]:
    """What may be said of a place while the hook moves, in the words of ``Answer.verdict``.

    Where nothing is allowed, what forbids it all is named beside it.
    """
    told = answer.told
    return {
        "ok": text(Remark("within", told=told)),
        "close": text(Remark("only_just", told=told)),
        "no": text(Remark("no", why=Remark("too_heavy"))),
        "nothing": text(Remark("nothing_allowed")),
    }


def line_words(answer: Answer) -> dict[str, str]:
    """What stands beside the line round the places for this log, or along which they lie."""
    told = answer.told
    return {"inside": text(Remark("inside", told=told)), "along": text(Remark("along", told=told))}


def _units(system: System) -> dict[str, Any]:
    """What the browser divides by and writes; as ``units.show`` does."""
    metric = system == "metric"
    return {
        "mass": {"by": 1.0 if metric else POUND, "unit": "kg" if metric else "lb"},
        "length": {"by": 1.0 if metric else FOOT, "unit": "m" if metric else "ft"},
    }


def _exact(answer: Answer, system: System) -> dict[str, Any]:
    lift = answer.lift

    def kilos(value: float, *, up: bool = False) -> str:
        return show(value, "mass", system, "up" if up else "down")

    return {
        "at": {"reach": float(answer.reached.reach), "height": lift.height, "slew": lift.slew},
        "allowed": kilos(answer.allowed),
        "kilograms": max(0.0, answer.allowed),
        "heaviest": kilos(answer.heaviest_log),
        "first": text(answer.governs, system),
        "verdict": " ".join(verdict_sentences(answer, system)),
        "face": html.standing_of(answer),
        "needed": lift.needed,
        "needs": kilos(lift.needed, up=True),
        "planning": lift.log.mass_planning,
        "close": CLOSE,
    }


def _frame(lift: Lift, scene: Scene, view: View) -> dict[str, Any]:
    """Where reach, height and slew are counted from in the drawing, in its own units."""
    scale = UNIT / scene.em
    back = lift.end == "back"
    machine = lift.machine
    origin = float(machine.back.slew_axis_x if back else machine.wheels.wheelbase)
    up = lift.sideshift if view == "plan" and back else 0.0
    return {
        "x": (origin - scene.left) * scale,
        "y": (scene.top - up) * scale,
        "scale": scale,
        "sign": -1 if back else 1,
        "em": scene.em,
    }


def _kept_grid(lift: Lift, view: View) -> DragGrid | DragCurve:
    """The grid of a drawing, kept while only the place changes that the drawing itself moves."""
    if lift.end == "front":
        there = replace(lift, reach=None, height=0.0)
    elif view == "side":
        there = replace(lift, reach=0.0, height=0.0)
    else:
        there = replace(lift, reach=0.0, slew=0.0)
    name = f"{PRESSED}grid/{view}"
    kept: tuple[Lift, DragGrid | DragCurve] | None = st.session_state.get(name)
    if kept is None or kept[0] != there:
        kept = st.session_state[name] = (there, drag_grid(lift, view=view))
    return kept[1]


def _grid(grid: DragGrid | DragCurve) -> dict[str, Any]:
    names = [each.words for each in grid.reasons]
    none = np.isnan(grid.allowed)
    loads = np.where(none, 0.0, np.maximum(grid.allowed, -1.0)).astype(int)
    heaviest = np.floor(np.where(none, 0.0, grid.heaviest_log)).astype(int)
    # Criteria count upward from 0, reasons downward from −2; −1 is an unknown reason.
    says = np.where(none, -2 - grid.stopped, grid.governs).astype(int)
    made: dict[str, Any] = {
        "loads": loads.ravel().tolist(),
        "heaviest": heaviest.ravel().tolist(),
        "low": "".join("01"[low] for low in grid.on_ground.ravel().tolist()),
        "says": says.ravel().tolist(),
        "criteria": list(grid.criteria),
        "reasons": names,
    }
    if isinstance(grid, DragCurve):
        reach = [None if math.isnan(each) else round(float(each), 4) for each in grid.reach]
        return {**made, "edges": [_edge(grid.height)], "reach": reach}
    return {**made, "edges": [_edge(grid.reach), _edge(grid.other)]}


def _edge(edges: Any) -> dict[str, float]:
    """Equally spaced edges: the first, the size and the number of the cells between them."""
    count = len(edges) - 1
    return {"from": float(edges[0]), "size": float(edges[-1] - edges[0]) / count, "count": count}
