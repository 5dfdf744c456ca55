"""Drawings for tests: a lift in one line, and whether all of a drawing is on its sheet."""

import itertools

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check
from liftcalc.figures.hanging import hanging
from liftcalc.figures.plan import plan
from liftcalc.figures.scene import VOICE_SIZE, Label, Scene, extent
from liftcalc.figures.side import side
from liftcalc.machines.files import load
from liftcalc.rigging.sling import Sling
from liftcalc.units import System
from tests.helpers import lift, span


def answer(machine: str, end: str, tool: str, point: str = "", **request) -> Answer:
    far = span(load(machine))
    usual = {"slew": 0.5, "reach": 0.66 * far, "height": 0.3 * far} if end == "back" else {}
    long_sling = Sling(length=2.4, mass=15.0)
    return check(
        lift(machine, end=end, tool=tool, point=point, **{"sling": long_sling, **usual, **request})
    )


def drawings(made: Answer, system: System = "metric") -> tuple[Scene, ...]:
    return tuple(each(made, system=system) for each in (side, plan, hanging))


def assert_fits(scene: Scene) -> None:
    """Every mark on the sheet, every word too, none over another."""
    left, right, bottom, top = extent(scene.marks)
    assert scene.left <= left < right <= scene.right
    assert scene.bottom <= bottom < top <= scene.top
    boxes = [(label.text, word_box(label, scene.em)) for label in scene.labels]
    for text, (left, right, bottom, top) in boxes:
        assert scene.left <= left, text
        assert right <= scene.right, text
        assert scene.bottom <= bottom, text
        assert top <= scene.top, text
    for (one, a), (two, b) in itertools.combinations(boxes, 2):
        apart = a[1] <= b[0] or b[1] <= a[0] or a[3] <= b[2] or b[3] <= a[2]
        assert apart, f"{scene.title}: {one!r} over {two!r}"


def word_box(label: Label, em: float) -> tuple[float, float, float, float]:
    """Left, right, bottom and top of a label, with half an em a letter."""
    size = VOICE_SIZE[label.voice] * em
    wide, (x, z) = 0.5 * size * len(label.text), label.at
    back = {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    if label.turn:
        return x - 0.75 * size, x, z - back, z - back + wide
    return x - back, x - back + wide, z, z + 0.75 * size
