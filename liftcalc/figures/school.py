"""Drawings of a lesson: the scene with nothing of its answer, a log to guess at, the move in steps.

What stays in a scene that is still to be judged is what could be seen or taped in the yard.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from liftcalc.evaluation.answer import Answer
from liftcalc.figures.annotations import dimension, height_words, scale_bar
from liftcalc.figures.hanging import hanging
from liftcalc.figures.plan import plan
from liftcalc.figures.scene import WIDE, Label, Mark, Role, Scene, extent, line, polygon, text_width
from liftcalc.figures.side import side
from liftcalc.reports.text import reach_words, slew_words
from liftcalc.school.animation import Step
from liftcalc.school.exercise import Exercise
from liftcalc.units import System, show

SEEN: frozenset[Role] = frozenset(
    {
        "ground", "frame", "body", "glass", "tyre", "rim", "stabiliser", "kingpost", "link", "axis",
        "lug", "barrel", "rod", "pin", "attachment", "sling", "log", "grain", "mat", "packing",
        "hazard",
    }
)  # fmt: skip
"""What can be seen in the yard before anything is worked out."""
OF_A_LOG = frozenset({"log mass", "likely mass", "balance point"})
FROM_ABOVE = frozenset({"which line", "which foot", "pad force", "pad pressure"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Ruler:
    """The scale along which a place is read off a drawing: its zero, and one metre outward.

    Both are shares of the drawing's width [-], the second per metre; it is below zero where the
    place is counted to the left.
    """

    start: float
    metre: float


def to_judge(exercise: Exercise, *, system: System = "metric") -> tuple[Scene, ...]:
    """The scene as it is told, without anything that the model says of it."""
    answer, asks = exercise.before, exercise.lesson.question.asks
    if asks in OF_A_LOG:
        return (taped_log(answer, system=system),)
    views = [_seen(side(answer, system=system), exercise, system)]
    if asks == "farthest reach":
        return (_wider(views[0], exercise),)
    if asks in FROM_ABOVE or answer.lift.slew or "slew" in dict(exercise.lesson.move):
        views.append(_lined(plan(answer, system=system), exercise, system))
    return tuple(views)


def ruler(exercise: Exercise, scene: Scene) -> Ruler:
    """The scale of the place that is asked for."""
    width = scene.right - scene.left
    if exercise.lesson.question.asks == "balance point":
        return Ruler(start=-scene.left / width, metre=1 / width)
    axis = float(exercise.before.lift.machine.back.slew_axis_x)
    return Ruler(start=(axis - scene.left) / width, metre=-1 / width)


def _seen(scene: Scene, exercise: Exercise, system: System, *more: Role) -> Scene:
    """A drawing with only what can be seen in the yard; the place of the lift in words below it."""
    marks = [mark for mark in scene.marks if mark.role in SEEN | set(more)]
    answer = exercise.before
    said = (
        f"reach {reach_words(answer, system)}",
        height_words(answer, system),
        slew_words(answer.lift),
    )
    _, _, low, high = extent([mark for mark in marks if mark.role != "ground"])
    em = scene.em
    title = Label(
        text=scene.title,
        at=(scene.left + 0.75 * em, high + 1.6 * em),
        voice="title",
        anchor="start",
    )
    bar, words = scale_bar(scene.right - em, low - 2.2 * em, em, system)
    return replace(
        scene,
        marks=(*marks, *bar),
        labels=(title, *words),
        bottom=low - 3.2 * em,
        top=high + 3.6 * em,
        about=f"{scene.title}: the scene as it is told. {exercise.story}",
        notes=tuple(f"{each[0].upper()}{each[1:]}" for each in said if each),
        caution="",
    )


def _lined(scene: Scene, exercise: Exercise, system: System) -> Scene:
    """The plan with every tipping line, none of them marked as the one that governs."""
    alike: dict[str, Role] = {"governing line": "tipping line", "governing support": "support"}
    body = extent([mark for mark in scene.marks if mark.role in SEEN])
    # The key stands among the words below the plan and is left out with them.
    marks = tuple(
        replace(mark, role=alike.get(mark.role, mark.role))
        for mark in scene.marks
        if mark.role in SEEN or extent([mark])[2] >= body[2] - 0.3
    )
    return _seen(replace(scene, marks=marks), exercise, system, "tipping line", "support")


def _wider(scene: Scene, exercise: Exercise) -> Scene:
    """The drawing widened to hold every place that may be guessed."""
    assert exercise.key is not None  # a place is a number
    axis = float(exercise.before.lift.machine.back.slew_axis_x)
    left = min(scene.left, axis - exercise.key.high - 0.3)
    em = (scene.right - left) / WIDE
    return replace(scene, left=left, em=em, top=scene.top + 2 * (em - scene.em))


def taped_log(answer: Answer, *, system: System = "metric") -> Scene:
    """The log of a lift as it lies, to scale, with its tape measures and nothing else."""
    log, measure = answer.lift.log, answer.lift.measure
    length = float(measure.length)
    em = length / (WIDE - 5.0)
    spots = (
        (0.0, log.butt_diameter, measure.butt, "butt"),
        (length / 2, log.middle_diameter, measure.middle, "middle"),
        (length, log.top_diameter, measure.top, "top"),
    )
    thick = max(float(each[1]) for each in spots)
    low, high = -thick / 2, thick / 2
    outline = [(at, float(d) / 2) for at, d, *_ in spots]
    marks: list[Mark] = [polygon("log", [*outline, *((x, -r) for x, r in reversed(outline))])]
    labels = [
        Label(
            text=f"A log of {measure.species.name}",
            at=(-2.0 * em, high + 4.2 * em),
            voice="title",
            anchor="start",
        )
    ]
    for at, across, taped, name in spots:
        marks.append(line("grain", (at, -float(across) / 2), (at, float(across) / 2)))
        said = f" {show(taped, 'length', system)}" if taped is not None else ""
        anchor = "start" if at == 0 else "end" if at == length else "middle"
        labels.append(
            Label(text=f"{name}{said}", at=(at, high + 1.2 * em), anchor=anchor)  # type: ignore[arg-type]
        )
    below = low - 1.6 * em
    marks += dimension((0.0, below), (length, below), em)
    long = f"{show(length, 'length', system)} long"
    labels.append(Label(text=long, at=(length / 2, below - 1.4 * em)))
    bar, words = scale_bar(length, below - 3.6 * em, em, system)
    return Scene(
        title="The log",
        about=f"A log of {measure.species.name}, {long}, butt at the left.",
        marks=(*marks, *bar),
        labels=(*labels, *words),
        left=-2.5 * em,
        right=length + 2.5 * em,
        bottom=below - 5.0 * em,
        top=high + 6.2 * em,
        em=em,
        notes=(),
        caution="",
    )


def of_steps(
    exercise: Exercise, made: Iterable[Step], *, system: System = "metric"
) -> tuple[Scene, ...]:
    """Every step of a move in the view that shows it, all at one scale and in one frame."""
    scenes = [_view(exercise, each.answer, system) for each in made]
    if not scenes:
        return ()
    left, right = min(each.left for each in scenes), max(each.right for each in scenes)
    em = (right - left) / WIDE
    return tuple(
        replace(
            each,
            left=left,
            right=right,
            em=em,
            bottom=min(one.bottom for one in scenes),
            top=max(one.top for one in scenes),
            notes=(),
            caution="",
        )
        for each in scenes
    )


def _view(exercise: Exercise, answer: Answer, system: System) -> Scene:
    asks = exercise.lesson.question.asks
    moved = dict(exercise.lesson.move)
    if asks in OF_A_LOG:
        return taped_log(answer, system=system)
    if asks == "sling load":
        return hanging(answer, system=system)
    if asks in FROM_ABOVE or "slew" in moved or "slope" in moved or "off_centre" in moved:
        return plan(answer, system=system)
    return side(answer, system=system)


def with_places(exercise: Exercise, guess: float, *, system: System = "metric") -> Scene:
    """The scene that was judged, with the place that was guessed [m] and the model's."""
    assert exercise.key is not None  # a place is a number
    scene = to_judge(exercise, system=system)[0]
    along, width, em = ruler(exercise, scene), scene.right - scene.left, scene.em
    marks, labels = list(scene.marks), list(scene.labels)
    top = scene.top + 4.2 * em
    places: tuple[tuple[str, float, Role], ...] = (
        ("your guess", guess, "plumb"),
        ("the model", exercise.key.value, "governing line"),
    )
    for number, (name, at, role) in enumerate(places):
        x = scene.left + width * min(max(along.start + along.metre * at, 0.0), 1.0)
        high = top - (1.4 + 1.7 * number) * em
        words = f"{name}: {show(at, 'length', system)}"
        marks.append(line(role, (x, scene.bottom), (x, high - 0.5 * em), name=name))
        # Words stay inside the drawing.
        half = text_width(words, "strong", em) / 2 + 0.4 * em
        centre = min(max(x, scene.left + half), scene.right - half)
        labels.append(Label(text=words, at=(centre, high), voice="strong"))
    return replace(
        scene,
        marks=tuple(marks),
        labels=tuple(labels),
        top=top,
        about=f"{scene.about} {' '.join(each.text + '.' for each in labels[-2:])}",
    )


def answered(exercise: Exercise, *, system: System = "metric") -> tuple[Scene, ...]:
    """The answered scene in full, for when the prediction is made."""
    question = exercise.lesson.question
    answer = exercise.before
    if question.of == "after" and exercise.after is not None:
        answer = exercise.after
    if question.asks in OF_A_LOG:
        return (hanging(answer, system=system),)
    return side(answer, system=system), plan(answer, system=system)
