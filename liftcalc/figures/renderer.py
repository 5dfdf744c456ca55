"""A scene on matplotlib's axes, for paper; never through pyplot, which keeps figures alive."""

from __future__ import annotations

from collections.abc import Iterable

from matplotlib.axes import Axes
from matplotlib.patches import Circle, Polygon
from matplotlib.patheffects import withStroke

from liftcalc.figures.scene import VOICE_SIZE, Disc, Label, Mark, Scene
from liftcalc.figures.styles import LOOKS, TONES
from liftcalc.figures.svg import SMALLER


def draw_scene(axes: Axes, scene: Scene, *, points: float) -> None:
    """A drawing by day on axes of its own metres, without what stands below it; an em is [pt]."""
    for order, mark in enumerate(scene.marks):
        axes.add_artist(_patch(mark, points, order=order))
    _write(axes, scene.labels, points=points, order=len(scene.marks) + 1)


def _write(axes: Axes, labels: Iterable[Label], *, points: float, order: int) -> None:
    for label in labels:
        axes.text(
            *label.at,
            label.text.replace("$", r"\$"),
            fontsize=SMALLER * VOICE_SIZE[label.voice] * points,
            fontweight="bold" if label.voice in ("title", "strong") else "normal",
            color=TONES["soft" if label.voice == "small" else "ink"][0],
            zorder=order,
            rotation=label.turn,
            rotation_mode="anchor",
            va="baseline",
            ha={"start": "left", "middle": "center", "end": "right"}[label.anchor],
            path_effects=[withStroke(linewidth=0.25 * points, foreground=TONES["paper"][0])],
        )


def _patch(mark: Mark, points: float, *, order: int) -> Circle | Polygon:
    look = LOOKS[mark.role]
    width = look.width * points
    # Matplotlib measures dashes in line widths.
    dashes = tuple(each / look.width for each in look.dash) if look.dash else ()
    filled = isinstance(mark, Disc) or mark.closed
    style = {
        "facecolor": TONES[look.fill][0] if filled else "none",
        "edgecolor": TONES[look.stroke][0],
        "linewidth": width,
        "linestyle": (0, dashes) if dashes else "solid",
        "joinstyle": "round",
        "zorder": order,
    }
    if isinstance(mark, Disc):
        return Circle(mark.centre, mark.radius, **style)
    return Polygon(mark.points, closed=mark.closed, **style)
