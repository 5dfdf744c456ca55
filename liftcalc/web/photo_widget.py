"""A picture in which points of a machine are clicked. It never leaves the browser.

The browser is told which points to ask for and what our drawing of them looks like; what comes back
is the size of the picture and where it was clicked. A fit is sent to it to be drawn over it.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from importlib.resources import files
from typing import Any

import streamlit as st

from liftcalc.errors import printable
from liftcalc.family.photograph import Click
from liftcalc.family.photograph_fit import PhotographFit
from liftcalc.family.picture_points import POINTS
from liftcalc.figures.picture_guide import PictureGuide
from liftcalc.figures.svg import UNIT, svg
from liftcalc.units import System, show
from liftcalc.web.page_frame import PRESSED

NINE_IN_TEN = 1.645
"""Standard deviations to either side that hold nine in ten."""
MOST_CLICKS = 8 * len(POINTS)
LARGEST = 100_000
"""Most pixels of a side of a picture."""
LINES = (
    *(("foot pin", "knuckle"), ("knuckle", "nose pin"), ("arm pivot", "hinge pin")),
    *(("boom ram base", "boom ram pin"), ("dipper ram base", "dipper ram pin")),
    *(("bucket ram base", "bucket ram pin"), ("lift ram base", "lift ram pin")),
    *(("tilt ram base", "tilt ram pin"), ("rear tyre", "front tyre")),
)
"""Links, rams and ground, drawn between what was clicked: a slip is seen at once."""
WORDS = {
    "choose": "Choose a picture",
    "another": "Choose another picture",
    "private": "It stays on this device: only where you click is used.",
    "unreadable": "This browser cannot show that file. Choose a picture saved as JPEG or PNG.",
    "picture": "Your picture. Click what is asked for; with keys: arrows, then Enter.",
    "point": "Point to click",
    "undo": "Undo",
    "skip": "Not seen",
    "nearer": "Zoom in",
    "farther": "Zoom out",
    "whole": "Whole picture",
    "done": "All points were asked for.",
    "anew": "Choose one to click it anew",
    "again": "Click all a second time",
    "why": "A slip then shows, and every pin is surer.",
    "touch": "Tap, or hold the finger down for a magnifier. Two fingers zoom.",
    "mouse": "Click; drag to move the picture; the wheel zooms once you have clicked.",
    "drawn": "Where it is on our drawing",
}

HTML = """
<div class="photo">
  <div class="start"><label class="choose"><span class="label"></span>
    <input type="file" accept="image/*"></label><p class="private"></p></div>
  <div class="ask" hidden>
    <div class="guide" role="img"><img alt=""><span class="ring"></span></div>
    <div class="which"><label><span class="count"></span><select></select></label>
      <p class="look"></p></div>
    <div class="row"><button class="undo"></button><button class="skip"></button>
      <button class="again" hidden></button></div>
  </div>
  <div class="stage" hidden><canvas class="view" tabindex="0" role="application"></canvas>
    <canvas class="loupe" hidden></canvas>
    <div class="zoom"><button class="nearer">+</button><button class="farther">−</button>
      <button class="whole">⤢</button></div></div>
  <p class="how" hidden></p>
  <p class="aloud" role="status"></p>
</div>
"""

_REMARK = re.compile(r"^[ ]*//.*\n|^[ ]*/\*\*[^*]*\*/[ ]*\n|^[ ]+|^\n", re.MULTILINE)


def _piece(name: str) -> str:
    """A file without indents and lines of comment."""
    text = files("liftcalc.web").joinpath(name).read_text(encoding="utf-8")
    return _REMARK.sub("", text)


_component = st.components.v2.component(
    "liftcalc_photo",
    html=HTML,
    css=_piece("photo_widget.css"),
    js=_piece("photo_view.js") + _piece("photo_widget.js"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Clicked:
    """What was clicked in a picture of a size [px]."""

    width: float
    height: float
    clicks: tuple[Click, ...]


def photo_widget(
    guide: PictureGuide,
    fitted: PhotographFit | None,
    *,
    clicked: Clicked | None,
    key: str,
    system: System = "metric",
    changed: Callable[[Clicked], None],
) -> None:
    """Ask for the points of a picture; ``changed`` is told whenever a point was clicked.

    With a fit its pins are drawn over the picture; ``clicked`` is what it was made of.
    """
    name = f"{PRESSED}{key}"

    def told() -> None:
        found = read_clicks(st.session_state[name].get("clicks"))
        if found is not None:
            changed(found)

    _component(key=name, data=payload(guide, fitted, clicked, system), on_clicks_change=told)


def read_clicks(said: Any) -> Clicked | None:
    """Clicks as the browser sends them; None for anything that is not so."""
    if not isinstance(said, dict):
        return None
    size, listed = said.get("size"), said.get("clicks")
    if not _numbers(size, 2) or not isinstance(listed, list) or len(listed) > MOST_CLICKS:
        return None
    assert size is not None
    clicks = []
    for each in listed:
        if not (isinstance(each, list) and len(each) == 3 and _numbers(each[1:], 2)):
            return None
        if not isinstance(each[0], str) or each[0] not in POINTS:
            return None
        clicks.append(Click(point=each[0], u=float(each[1]), v=float(each[2])))
    return Clicked(width=float(size[0]), height=float(size[1]), clicks=tuple(clicks))


def _numbers(said: Any, count: int) -> bool:
    # bool is a kind of int in Python.
    return (
        isinstance(said, list)
        and len(said) == count
        and all(isinstance(x, int | float) and not isinstance(x, bool) for x in said)
        and all(math.isfinite(x) and 0 <= x <= LARGEST for x in said)
    )


def payload(
    guide: PictureGuide, fitted: PhotographFit | None, clicked: Clicked | None, system: System
) -> dict[str, Any]:
    """Everything that the browser needs, as plain numbers and texts; no text of it is markup."""
    scene = guide.scene
    scale = UNIT / scene.em
    drawn = svg(scene)
    size = [float(each) for each in drawn.split('viewBox="0 0 ', 1)[1].split('"', 1)[0].split()]
    return {
        "words": WORDS,
        "guide": drawn,
        "size": size,
        "lines": [list(each) for each in LINES],
        "points": [
            {
                "name": name,
                "look": POINTS[name].look_for,
                "at": [(x - scene.left) * scale, (scene.top - z) * scale],
            }
            for name, (x, z) in guide.spots.items()
        ],
        "fit": None if fitted is None or clicked is None else _fit(fitted, clicked, system),
    }


def _fit(fitted: PhotographFit, clicked: Clicked, system: System) -> dict[str, Any]:
    """Where the fit has each point in the picture, and how far about it holds nine in ten."""
    seen: dict[str, Any] = {}
    for click, at in zip(clicked.clicks, fitted.seen_at, strict=True):
        seen.setdefault(click.point, at)
    scale = fitted.pixels_to_a_metre(math.hypot(clicked.width, clicked.height))
    doubted = {each.field for each in fitted.doubts}
    return {
        "size": [clicked.width, clicked.height],
        "pins": [
            {
                "name": each.point,
                "at": [float(x) for x in seen[each.point]],
                "reach": [NINE_IN_TEN * scale * each.sigma_x, NINE_IN_TEN * scale * each.sigma_z],
                "off": printable(off_words(max(each.sigma_x, each.sigma_z), system)),
                "slip": each.point in doubted,
            }
            for each in fitted.points
        ],
    }


def off_words(sigma: float, system: System) -> str:
    """A tolerance that holds nine in ten, rounded up."""
    return "± " + show(NINE_IN_TEN * sigma, "diameter", system, "up")
