"""The questions turned round, by name: each answered, with what would buy more."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

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
from liftcalc.requests.lift import LiftRequest, ParsedLift, parse_lift
from liftcalc.requests.reader import FieldReader
from liftcalc.shown import Shown
from liftcalc.timber.piece import Keep

QUESTIONS: dict[str, str] = {
    "farthest": "How far out can this log be lifted, at this height?",
    "highest": "How high can it be lifted, at this reach?",
    "longest": "What is the longest piece of it that can be lifted there?",
    "ballast": "How much ballast would it take, and where?",
    "pads": "How large must the pads be on this ground?",
    "pressure": "What must the gauge read for every ram to carry it?",
    "steepest": "How steep may the ground be?",
    "carry": "At what height should it be carried on the move?",
    "chain": "Where does the chain go, and how does the log hang then?",
    "more": "What would buy more, and how much?",
}
SOUGHT = {"farthest": "reach", "highest": "height", "carry": "height"}
"""What is asked for need not be given."""
STAND_IN = "1 m"
"""What stands in for it while the rest is read."""
KEEPS: tuple[Keep, ...] = ("butt", "top")


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionRequest:
    """A question about a lift as typed.

    ``keep`` is ``butt``, ``top`` or empty for both; the ``ballast`` texts place it in the machine
    frame, all three or none.
    """

    question: str = ""
    keep: str = ""
    ballast_ahead: str = ""
    ballast_left: str = ""
    ballast_up: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A question about a lift, as read."""

    name: str
    read: ParsedLift
    keeps: tuple[Keep, ...]
    spots: tuple[Spot, ...] | None
    heading: float | None


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


def parse_question(wanted: QuestionRequest, asked: LiftRequest) -> Question:
    """Read a question as typed.

    Raises
    ------
    InputError
        With every fault of every field; fields are named as the options are.
    """
    door = FieldReader()
    name = door.choice("question", wanted.question, tuple(QUESTIONS))
    given = _with_stand_in(asked, name)
    read: ParsedLift | None = None
    with door.gather:
        read = parse_lift(given)
    keeps = KEEPS
    if wanted.keep.strip():
        said = door.choice("keep", wanted.keep, (*KEEPS, "both"))
        keeps = tuple(each for each in KEEPS if said in (each, "both"))
    if name == "pads" and not asked.ground.strip():
        door.fault(
            "ground",
            given="nothing",
            wanted='what the pads stand on, such as "firm clay"',
            fix='if in doubt, "unknown"',
        )
    spots = _spots(wanted, door)
    door.gather.raise_any()
    # Nothing is None here: what could not be read has raised.
    assert read is not None
    assert name is not None
    kept = tuple(pair for pair in read.echoes if pair[0] != SOUGHT.get(name))
    read = replace(read, echoes=kept)
    heading = float(read.lift.site.heading) if asked.uphill.strip() else None
    return Question(name=name, read=read, keeps=keeps, spots=spots, heading=heading)


def _with_stand_in(asked: LiftRequest, name: str | None) -> LiftRequest:
    """The lift with something in the place of what is asked for."""
    if name == "farthest":
        return replace(asked, reach=STAND_IN)
    if name == "highest":
        return replace(asked, height=STAND_IN)
    if name == "carry":
        # Only the front end carries a log on the move: there it is on the move that is asked of.
        front = asked.end.strip().lower() == "front"
        return replace(asked, height=STAND_IN, travelling=asked.travelling or front)
    return asked


def _spots(wanted: QuestionRequest, door: FieldReader) -> tuple[Spot, ...] | None:
    texts = {
        "ballast-ahead": wanted.ballast_ahead,
        "ballast-left": wanted.ballast_left,
        "ballast-up": wanted.ballast_up,
    }
    if not any(text.strip() for text in texts.values()):
        return None
    for name, text in texts.items():
        if not text.strip():
            door.fault(
                name,
                given="nothing",
                wanted="all three: ahead of the rear axle, left of the middle, above the ground",
            )
    ahead, left, up = (
        door.number(name, text, "length", low=-5, high=8, bounds="−5 m to 8 m")
        for name, text in texts.items()
    )
    return (Spot(name="where you said", x=ahead or 0.0, y=left or 0.0, z=up or 0.0),)


def tell(question: Question) -> QuestionAnswer:
    """Answer a question.

    Raises
    ------
    InputError
        When the machine cannot stand as asked, or the question does not go with the lift.
    """
    return with_more(question, find(question))


def find(question: Question) -> tuple[InverseAnswer, ...]:
    """Answer a question, without what would buy more: the first step of ``tell``.

    Raises
    ------
    InputError
        As ``tell``.
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
        "ballast": lambda: (needed_ballast(lift, spots=question.spots),),
        "pads": lambda: () if pads is None else (needed_pad(lift, ground=pads),),
        "pressure": lambda: (needed_pressure(lift),),
        "steepest": lambda: (steepest_slope(lift, heading=question.heading),),
        "carry": lambda: (carry_height(lift),),
        "chain": lambda: (chain_place(lift),),
        "more": lambda: (),
    }
    return answer[question.name]()
