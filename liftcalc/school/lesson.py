"""A lesson as its file states it: what is drawn, what is moved, what is asked, what is said.

A lesson holds no figure of any answer. Those come from ``check``, for the machine at hand.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

CAUTION = (
    "This teaches with a model and is not a qualification. The machine's own chart or plate, local "
    "rules and a competent person come first. Nobody under a load, or between log and machine."
)
"""Said wherever a lesson, a drill or a record is shown."""

Part = Literal[
    "balance and tipping lines",
    "reach, height and rams",
    "slope, ground and travel",
    "timber, chain and judgement",
]
PARTS: tuple[Part, ...] = get_args(Part)

QuestionKind = Literal["choose", "number", "drag"]
QUESTION_KINDS: tuple[QuestionKind, ...] = get_args(QuestionKind)

Moment = Literal["before", "after"]
"""Whether something is meant before the move of a lesson or after it."""

When = Literal["always", "falls", "rises", "stays", "another stops it", "the same stops it"]
WHENS: tuple[When, ...] = get_args(When)
"""When a sentence of an explanation is said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """The values from which a word of a scene is drawn by a seed.

    One of ``options``, or a number from ``least`` to ``most`` in whole steps, in the file's own
    ``unit``. ``of_arm`` says that the numbers are shares of the lifting end's own length, so
    that one lesson suits machines of any size. ``change`` says whether the word replaces what the
    scene has, is added to it, or multiplies it.
    """

    options: tuple[str, ...] = ()
    least: float = 0.0
    most: float = 0.0
    step: float = 1.0
    unit: str = ""
    of_arm: bool = False
    change: Literal["set", "add", "times"] = "set"


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """One of several scenes to choose among: its text, and the words in which it differs."""

    text: str
    words: tuple[tuple[str, Words], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing to look at, and why."""

    name: str
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sentence:
    """A sentence of the explanation, said when the effect is as ``when`` says."""

    when: When
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What is asked.

    ``asks`` names a measure of ``quantities``; ``of`` the moment it is asked of. ``tolerance`` is
    the error that still counts as right and ``half`` the further error at which half the score is
    left: both logarithms of a ratio [-] for a number, both lengths [m] for a place. ``pick`` says
    which of several cards is right.
    """

    kind: QuestionKind
    asks: str
    of: Moment
    text: str
    tolerance: float
    half: float
    pick: Literal["most", "least", "go"] = "most"


@dataclass(frozen=True, slots=True, kw_only=True)
class Good:
    """What makes a drawn scene worth asking; others are drawn again.

    ``change`` is the least change of what is asked by the move [-], ``lead`` how far the right
    choice must lie from the next [-]; ``governs`` and ``governs_after`` name criteria, one of which
    must set the answer (none named: any).
    """

    change: float = 0.03
    lead: float = 0.05
    governs: tuple[str, ...] = ()
    governs_after: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """One lesson.

    ``id`` is its file's name; ``skill`` what it trains, by which judgement is told; ``drill``
    whether it is used again and again with new seeds. ``story``, ``question.text`` and the
    explanation have slots that are filled at run time. ``do`` is one thing to do at the real
    machine, engine off, attachment on the ground, no load.
    """

    id: str
    part: Part
    order: int
    title: str
    aim: str
    skill: str
    drill: bool
    story: str
    question: Question
    scene: tuple[tuple[str, Words], ...]
    move: tuple[tuple[str, Words], ...]
    move_text: str
    explain: tuple[Sentence, ...]
    do: str
    good: Good
    hold: str = ""
    cards: tuple[Card, ...] = ()
    items: tuple[Item, ...] = ()
    file: str = ""
