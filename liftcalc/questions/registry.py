"""The questions turned round, by name: each answered, with what would buy more."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from liftcalc.evaluation.lift import Lift
from liftcalc.questions.ballast import Spot, needed_ballast
from liftcalc.questions.carry_height import carry_height
from liftcalc.questions.chain_place import chain_place
from liftcalc.questions.farthest import greatest_height, greatest_reach
from liftcalc.questions.longest import longest_piece
from liftcalc.questions.pads import needed_pad
from liftcalc.questions.pressure import needed_pressure
from liftcalc.questions.remedies import Remedy, remedies
from liftcalc.questions.search import InverseAnswer
from liftcalc.questions.steepest import steepest_slope
from liftcalc.requests.question import Question
from liftcalc.shown import Shown


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class QuestionAnswer(Shown):
    """What was found.

    ``turned`` is one answer, two for the two pieces of a log, none where only ``more`` was asked;
    ``more`` is what would buy more for ``lift``: the lift at the answer where that is a place, a
    slope, a height or a piece, else the lift as asked.
    """

    turned: tuple[InverseAnswer, ...]
    more: tuple[Remedy, ...]
    lift: Lift


def tell(question: Question) -> QuestionAnswer:
    """Answer a question.

    Raises ``InputError`` when the machine cannot stand as asked, or the question does not go with
    the lift.
    """
    return with_more(question, find(question))


def find(question: Question) -> tuple[InverseAnswer, ...]:
    """Answer a question, without what would buy more: the first step of ``tell``.

    Raises ``InputError`` as ``tell``.
    """
    return _turned(question, question.read.lift)


def with_more(question: Question, turned: tuple[InverseAnswer, ...]) -> QuestionAnswer:
    """What was found, with what would buy more: the second step of ``tell``."""
    lift = question.read.lift
    own = {
        "farthest": "closer",
        "highest": "lower",
        "longest": "cut",
        "ballast": "ballast",
        "steepest": "level",
        "carry": "lower",
    }
    there = lift
    if question.name in ("farthest", "highest", "steepest", "longest", "carry"):
        there = next((each.at.lift for each in turned if each.at is not None), lift)
    without = (own[question.name],) if question.name in own else ()
    return QuestionAnswer(turned=turned, more=remedies(there, without=without), lift=there)


def _turned(question: Question, lift: Lift) -> tuple[InverseAnswer, ...]:
    pads = lift.ground
    answer: dict[str, Callable[[], tuple[InverseAnswer, ...]]] = {
        "farthest": lambda: (greatest_reach(lift),),
        "highest": lambda: (greatest_height(lift),),
        "longest": lambda: tuple(longest_piece(lift, keep=keep) for keep in question.keeps),
        "ballast": lambda: (needed_ballast(lift, spots=_spots(question)),),
        "pads": lambda: () if pads is None else (needed_pad(lift, ground=pads),),
        "pressure": lambda: (needed_pressure(lift),),
        "steepest": lambda: (steepest_slope(lift, heading=question.heading),),
        "carry": lambda: (carry_height(lift),),
        "chain": lambda: (chain_place(lift),),
        "more": lambda: (),
    }
    return answer[question.name]()


def _spots(question: Question) -> tuple[Spot, ...] | None:
    """Where ballast may go; None is the usual places."""
    if question.ballast_at is None:
        return None
    x, y, z = question.ballast_at
    return (Spot(name="where you said", x=x, y=y, z=z),)
