"""A scene as a matplotlib ``Figure`` for paper; never through pyplot, which keeps figures alive."""

from __future__ import annotations

from collections.abc import Iterable

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Polygon
from matplotlib.patheffects import withStroke

from liftcalc.figures.scene import VOICE_SIZE, WIDE, Disc, Label, Mark, Scene, Voice
from liftcalc.figures.styles import LOOKS, TONES, Tone
from liftcalc.figures.svg import LINE, SMALLER

POINTS = 72.0


def figure(scene: Scene, *, width: float = 0.18, dark: bool = False) -> Figure:
    """The drawing on a sheet.

    Parameters
    ----------
    scene : Scene
    width : float
        Of the sheet [m]; its height follows from the drawing, at one scale both ways.
    dark : bool
        For a dark screen.
    """
    inches = width / 0.0254
    below = scene.lines_below()
    foot = scene.bottom - (LINE * len(below) + 1.0) * scene.em
    made = Figure(figsize=(inches, inches * (scene.top - foot) / (scene.right - scene.left)))
    made.set_facecolor(TONES["paper"][dark])
    axes = made.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_axis_off()
    axes.set_xlim(scene.left, scene.right)
    axes.set_ylim(foot, scene.top)
    axes.set_aspect("equal")
    points = inches * POINTS / WIDE
    paint(axes, scene, points=points, dark=dark)
    lines = [
        Label(
            text=text,
            at=(scene.left + 0.75 * scene.em, scene.bottom - LINE * scene.em * number),
            voice=voice,
            anchor="start",
        )
        for number, (text, voice) in enumerate(below, 1)
    ]
    _write(axes, lines, points=points, dark=dark, order=len(scene.marks) + 1)
    return made


def paint(axes: Axes, scene: Scene, *, points: float, dark: bool = False) -> None:
    """A drawing's marks and labels in its own metres, without what stands below it.

    Parameters
    ----------
    axes : Axes
        To the scene's scale.
    scene : Scene
    points : float
        Size of an em on paper [pt].
    dark : bool
        For a dark screen.
    """
    for order, mark in enumerate(scene.marks):
        axes.add_artist(_patch(mark, points, dark=dark, order=order))
    _write(axes, scene.labels, points=points, dark=dark, order=len(scene.marks) + 1)


def _write(axes: Axes, labels: Iterable[Label], *, points: float, dark: bool, order: int) -> None:
    for label in labels:
        axes.text(
            *label.at,
            label.text.replace("$", r"\$"),
            fontsize=SMALLER * VOICE_SIZE[label.voice] * points,
            fontweight="bold" if label.voice in ("title", "strong") else "normal",
            color=TONES[_ink(label.voice)][dark],
            zorder=order,
            rotation=label.turn,
            rotation_mode="anchor",
            va="baseline",
            ha={"start": "left", "middle": "center", "end": "right"}[label.anchor],
            path_effects=[withStroke(linewidth=0.25 * points, foreground=TONES["paper"][dark])],
        )


def _ink(voice: Voice) -> Tone:
    return "soft" if voice == "small" else "ink"


def _patch(mark: Mark, points: float, *, dark: bool, order: int) -> Circle | Polygon:
    look = LOOKS[mark.role]
    width = look.width * points
    # Matplotlib measures dashes in line widths.
    dashes = tuple(each / look.width for each in look.dash) if look.dash else ()
    filled = isinstance(mark, Disc) or mark.closed
    style = {
        "facecolor": TONES[look.fill][dark] if filled else "none",
        "edgecolor": TONES[look.stroke][dark],
        "linewidth": width,
        "linestyle": (0, dashes) if dashes else "solid",
        "joinstyle": "round",
        "zorder": order,
    }
    if isinstance(mark, Disc):
        return Circle(mark.centre, mark.radius, **style)
    return Polygon(mark.points, closed=mark.closed, **style)
