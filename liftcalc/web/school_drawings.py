"""Drawings of a lesson in the browser: a mark to drag along one, and a move that is played.

Neither asks the model anything while it moves. The first knows nothing of the answer; the second
is only drawn when the prediction is made.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from importlib.resources import files
from typing import Any

import streamlit as st

from liftcalc.figures.scene import Scene
from liftcalc.figures.school import of_steps, ruler
from liftcalc.figures.svg import svg
from liftcalc.school.animation import Step
from liftcalc.school.exercise import Exercise
from liftcalc.units import FOOT, System
from liftcalc.web.page_frame import PRESSED


def _piece(name: str) -> str:
    return files("liftcalc.web").joinpath(name).read_text(encoding="utf-8")


_pointer = st.components.v2.component(
    "liftcalc_school_pointer",
    html="""<div class="box"><div class="stage takes"><img class="figure" alt="" draggable="false">
    <div class="mark" aria-hidden="true"><span class="said"></span></div></div>
    <div class="row"><input class="slide" type="range"></div></div>""",
    css=_piece("school_drawings.css"),
    js=_piece("school_pointer.js"),
)
_played = st.components.v2.component(
    "liftcalc_school_played",
    html="""<div class="box"><p class="step"><b class="value"></b><span class="words"></span></p>
    <div class="stage"><img class="figure" alt=""></div>
    <div class="row"><button class="play" type="button"></button>
    <input class="slide" type="range"></div></div>""",
    css=_piece("school_drawings.css"),
    js=_piece("school_played.js"),
)


def pointer(
    exercise: Exercise,
    scene: Scene,
    *,
    at: float,
    system: System,
    key: str,
    moved: Callable[[float], None],
) -> None:
    """A scene as it is to be judged, with a mark [m] to drag to the place that is asked for.

    ``moved`` is told the place [m] when the mark is let go.
    """
    assert exercise.key is not None  # a place is a number
    along = ruler(exercise, scene)
    name = f"{PRESSED}{key}"

    def let_go() -> None:
        place = st.session_state[name].get("place")
        if isinstance(place, int | float) and math.isfinite(place) and place >= 0:
            moved(float(place))

    metric = system == "metric"
    data: dict[str, Any] = {
        "figure": svg(scene),
        "about": scene.about,
        "start": along.start,
        "metre": along.metre,
        "high": exercise.key.high,
        "at": at,
        "by": 1.0 if metric else FOOT,
        "unit": "m" if metric else "ft",
        "label": "Place to drag",
    }
    _pointer(key=name, data=data, on_place_change=let_go)


def played(exercise: Exercise, made: Sequence[Step], *, system: System, key: str) -> None:
    """A move in steps, to play and to go through by hand."""
    scenes = of_steps(exercise, made, system=system)
    steps = [
        {
            "figure": svg(scene),
            "about": scene.about,
            "words": each.words,
            "value": each.figure[:1].upper() + each.figure[1:],
        }
        for each, scene in zip(made, scenes, strict=True)
    ]
    data: dict[str, Any] = {
        "name": f"{exercise.lesson.id} {exercise.seed} {exercise.machine}",
        "steps": steps,
        "label": "Step of the move",
        "play": "Play the move",
        "pause": "Pause",
    }
    _played(key=f"{PRESSED}{key}", data=data)
