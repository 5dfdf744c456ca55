"""A drawing before it is drawn: shapes and words in metres, with what each of them is.

A ``Scene`` knows nothing of pixels, colours or files. ``styles`` says how each role looks, ``svg``
and ``renderer`` draw a scene for the page and for paper. Text too is measured in metres: ``em`` is
its size at the drawing's scale, so that words keep their place in every renderer.
"""

from __future__ import annotations

import math
import textwrap
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

Spot = tuple[float, float]
"""A place in the drawing [m]: right, up."""

Role = Literal[
    "ground", "frame", "body", "glass", "tyre", "rim", "stabiliser", "kingpost", "link", "axis",
    "lug", "barrel", "rod", "pin", "attachment", "sling", "log", "grain", "region", "hatch",
    "support", "tipping line", "governing line", "governing support", "cog", "cog quarter",
    "plumb", "foot", "dimension", "leader", "scale", "scale gap", "force", "worst force",
    "bearing", "mat", "plate", "packing", "swing", "pull", "keep out", "hazard",
    "measure", "measured point",
]  # fmt: skip
Voice = Literal["title", "plain", "strong", "small"]
Anchor = Literal["start", "middle", "end"]

WIDE = 31.0
"""Width of every drawing in ems: text is readable both on a phone and on a bench."""
LETTER = 0.53
"""Mean width of a letter [em], on the wide side so that words are never laid over each other."""
VOICE_SIZE: dict[Voice, float] = {"title": 1.15, "plain": 1.0, "strong": 1.15, "small": 0.92}


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """A line through points [m], or the polygon they enclose."""

    role: Role
    points: tuple[Spot, ...]
    closed: bool = False
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Disc:
    """A circle [m]."""

    role: Role
    centre: Spot
    radius: float
    name: str = ""


Mark = Path | Disc


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Words at a place [m]: ``at`` is on the base line, ``turn`` is 0 or 90 degrees."""

    text: str
    at: Spot
    voice: Voice = "plain"
    anchor: Anchor = "middle"
    turn: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """A whole drawing.

    ``title`` says in a line and ``about`` in sentences, for those who cannot see it, what it shows.
    ``marks`` are in the order in which they are laid down; edges and ``em``, the size of plain
    text, are [m]. ``notes``, on what is not to scale or drawn otherwise than it is, and then the
    standing ``caution`` are set below the drawing.
    """

    title: str
    about: str
    marks: tuple[Mark, ...]
    labels: tuple[Label, ...]
    left: float
    right: float
    bottom: float
    top: float
    em: float
    notes: tuple[str, ...]
    caution: str

    def find(self, role: Role, name: str = "") -> list[Mark]:
        """Every mark of a role, and of a name when one is given."""
        return [m for m in self.marks if m.role == role and name in ("", m.name)]

    def lines_below(self) -> list[tuple[str, Voice]]:
        """Notes and caution broken into lines that fit the drawing."""
        said: list[tuple[str, Voice]] = [(note, "small") for note in self.notes]
        said.append((self.caution, "plain"))
        return wrapped_lines(said)


def wrapped_lines(said: Iterable[tuple[str, Voice]]) -> list[tuple[str, Voice]]:
    """Sentences as lines that fit a drawing."""
    made: list[tuple[str, Voice]] = []
    for text, voice in said:
        letters = int((WIDE - 1.5) / (LETTER * VOICE_SIZE[voice]))
        made += [(each, voice) for each in textwrap.wrap(text, letters)]
    return made


def line(role: Role, *points: Spot, name: str = "") -> Path:
    """An open line."""
    return Path(role=role, points=points, name=name)


def polygon(role: Role, points: Iterable[Spot], *, name: str = "") -> Path:
    """A closed outline."""
    return Path(role=role, points=tuple(points), closed=True, name=name)


def box(role: Role, low: Spot, high: Spot, name: str = "") -> Path:
    """A rectangle with level sides, by its lower left and upper right corner."""
    (left, bottom), (right, top) = low, high
    return polygon(role, ((left, bottom), (right, bottom), (right, top), (left, top)), name=name)


def around(centre: Spot, radius: float, turns: Iterable[float]) -> tuple[Spot, ...]:
    """Places on a circle, by their angles from the right, counter-clockwise [rad]."""
    x, z = centre
    return tuple((x + radius * math.cos(a), z + radius * math.sin(a)) for a in turns)


def between(start: Spot, end: Spot, share: float) -> Spot:
    """The place a share of the way from one to another."""
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def text_width(text: str, voice: Voice, em: float) -> float:
    """Width of a line of text, on the wide side [m]."""
    return LETTER * VOICE_SIZE[voice] * len(text) * em


def has_room(label: Label, taken: Iterable[Label], *, em: float) -> bool:
    """Whether words lie over no others."""
    left, right, bottom, top = word_box(label, em)
    return not any(
        left < r and x < right and bottom < t and z < top
        for x, r, z, t in (word_box(each, em) for each in taken)
    )


def word_box(label: Label, em: float) -> tuple[float, float, float, float]:
    """Left, right, bottom and top of words, on the wide side [m]."""
    wide, tall = text_width(label.text, label.voice, em), VOICE_SIZE[label.voice] * em
    back = {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    x, z = label.at
    if label.turn:
        return x - tall, x + 0.25 * tall, z - back, z - back + wide
    return x - back, x - back + wide, z - 0.25 * tall, z + tall


def extent(marks: Iterable[Mark]) -> tuple[float, float, float, float]:
    """Left, right, bottom and top of marks [m]."""
    across, up = zip(*_corners(marks), strict=True)
    return min(across), max(across), min(up), max(up)


def _corners(marks: Iterable[Mark]) -> Iterator[Spot]:
    for mark in marks:
        if isinstance(mark, Path):
            yield from mark.points
        else:
            (x, z), r = mark.centre, mark.radius
            yield from ((x - r, z - r), (x + r, z + r))


def hatching(outline: tuple[Spot, ...], *, gap: float, role: Role = "hatch") -> list[Path]:
    """Slanted lines across a convex outline, a gap apart [m]: a tone that survives grey."""
    if len(outline) < 3:
        return []
    turned = [(x + z, z) for x, z in outline]
    made = []
    first = math.ceil(min(s for s, _ in turned) / gap)
    last = math.floor(max(s for s, _ in turned) / gap)
    for number in range(first, last + 1):
        level = number * gap
        cuts = sorted(_cuts(turned, level))
        if len(cuts) >= 2 and cuts[-1] - cuts[0] > 1e-9:
            made.append(line(role, (level - cuts[0], cuts[0]), (level - cuts[-1], cuts[-1])))
    return made


def _cuts(turned: list[Spot], level: float) -> Iterator[float]:
    """Heights at which the sides of an outline cross a line of the hatching."""
    for (s1, z1), (s2, z2) in zip(turned, (*turned[1:], turned[0]), strict=True):
        if (s1 - level) * (s2 - level) <= 0 and s1 != s2:
            yield z1 + (z2 - z1) * (level - s1) / (s2 - s1)


def in_rows(
    wanted: Iterable[tuple[str, float]], *, em: float, left: float, right: float, voice: Voice
) -> list[tuple[str, float, int]]:
    """Text, middle and row of labels, each near its place, in as many rows as keep them apart."""
    rows: list[float] = []
    made = []
    for text, at in sorted(wanted, key=lambda each: each[1]):
        half = text_width(text, voice, em) / 2
        middle = max(left + half, min(right - half, at))
        row = next((i for i, end in enumerate(rows) if middle - half > end), len(rows))
        if row == len(rows):
            rows.append(0.0)
        rows[row] = middle + half + em
        made.append((text, middle, row))
    return made
