"""What every drawing of a lift is laid out on: words at the drawing's own scale, key and bar."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from liftcalc.evaluation.answer import Answer
from liftcalc.factors import CAUTION
from liftcalc.figures.annotations import dimension, key, scale_bar
from liftcalc.figures.scene import Anchor, Label, Mark, Scene, Spot, Voice, line, text_width
from liftcalc.units import System


@dataclass(slots=True, kw_only=True)
class DrawingPage:
    """Words and marks round what is drawn; ``left`` and ``right`` are its edges [m]."""

    answer: Answer
    system: System
    em: float
    left: float
    right: float
    marks: list[Mark] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)

    @property
    def start(self) -> float:
        """Where words that begin at the left edge begin [m]."""
        return self.left + 0.75 * self.em

    @property
    def end(self) -> float:
        """Where words that end at the right edge end [m]."""
        return self.right - 0.75 * self.em

    def write(
        self, text: str, at: Spot, voice: Voice = "plain", anchor: Anchor = "middle", turn: int = 0
    ) -> None:
        """Put words at a place."""
        self.labels.append(Label(text=text, at=at, voice=voice, anchor=anchor, turn=turn))

    def upright(self, x: float, top: Spot, text: str) -> None:
        """A height above the ground beside the drawing, its words along it."""
        em = self.em
        away = 1.0 if x > top[0] else -1.0
        self.marks += dimension((x, 0.0), (x, top[1]), em)
        self.marks.append(line("dimension", (top[0] + 0.3 * away * em, top[1]), (x, top[1])))
        middle = max(top[1] / 2, text_width(text, "plain", em) / 2 + 0.6 * em)
        self.write(text, (x - 0.4 * em, middle), turn=90)

    def foot(self, z: float, *, plan: bool = False) -> float:
        """Key and scale bar; gives the bottom edge."""
        marks, labels = key(self.start, self.end, z, self.em, plan=plan)
        self.marks += marks
        self.labels += labels
        return self.scale(min(label.at[1] for label in labels) - 1.4 * self.em)

    def scale(self, z: float) -> float:
        """The scale bar at the right; gives the bottom edge."""
        marks, labels = scale_bar(self.end, z, self.em, self.system)
        self.marks += marks
        self.labels += labels
        return z - 0.9 * self.em

    def scene(
        self,
        title: str,
        about: str,
        drawn: Iterable[Mark],
        *,
        bottom: float,
        top: float,
        notes: Iterable[str],
    ) -> Scene:
        """The drawing with its title, and what was laid round it."""
        self.write(title, (self.start, top - 1.6 * self.em), "title", "start")
        return Scene(
            title=title,
            about=about,
            marks=(*drawn, *self.marks),
            labels=tuple(self.labels),
            left=self.left,
            right=self.right,
            bottom=bottom,
            top=top,
            em=self.em,
            notes=tuple(notes),
            caution=CAUTION,
        )
