"""The question of a drawn scene: its choices or its key, made from the answers."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from random import Random

from liftcalc.evaluation.answer import Answer
from liftcalc.remarks import Remark
from liftcalc.requests.fields import LiftRequest
from liftcalc.school import sampling
from liftcalc.school.chart import ChartRow, chart, row_that_counts
from liftcalc.school.lesson import Card, Lesson
from liftcalc.school.quantities import MEASURES, PARTS_OF, PLACES, Measure, Side, UnfitError
from liftcalc.school.templates import Filler
from liftcalc.units import FOOT, G0, POUND, TABLE, Kind, System, show

TOO_CLOSE = "two come too close to each other"
CHOICES = 4
"""Choices that are offered at most."""

_UNITS: dict[System, dict[Kind, str]] = {
    "metric": {"mass": "kg", "length": "m", "force": "kN", "bearing": "kPa"},
    "imperial": {"mass": "lb", "length": "ft", "force": "lbf", "bearing": "lbf/ft²"},
}
"""The unit that a bare number is read in."""

_NO_CHANGE = 2.0
"""Half-score distances that a guess of "no change" is off: it scores 1/4 at most [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One choice: its text, whether it is right, whether taking it errs on the unsafe side."""

    text: str
    right: bool
    unsafe: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """The number asked for.

    ``value`` and ``start``, what it was before the move where that is told, are in SI; ``kind``
    is how units are read and shown, ``unit`` the one that a bare number is taken in and ``factor``
    that unit in SI. ``tolerance`` and ``half`` are logarithms of a ratio [-], or lengths [m] where
    ``place`` is true; see ``marking.mark``. ``low`` and ``high`` [SI] are a sensible range to offer
    for a slider or a drag; they do not give the answer away.
    """

    value: float
    start: float | None
    kind: Kind
    unit: str
    factor: float
    tolerance: float
    half: float
    unsafe: Side
    place: bool
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnScene:
    """A scene drawn and answered."""

    lesson: Lesson
    asked: LiftRequest
    before: Answer
    after: Answer | None
    system: System
    rng: Random

    @property
    def of(self) -> Answer:
        """The answer that the question is about, before or after the move."""
        if self.lesson.question.of == "before":
            return self.before
        if self.after is None:
            raise UnfitError("nothing is moved")
        return self.after


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A question: choices or a key, the right answer in words, and what goes with it."""

    answer: str
    choices: tuple[Choice, ...] = ()
    key: Key | None = None
    chart: tuple[ChartRow, ...] = ()
    listed: tuple[str, ...] = ()
    told: tuple[str, ...] = ()
    slots: dict[str, str] = field(default_factory=dict)


def asking(drawn: DrawnScene) -> Made:
    """The question of a scene.

    Raises ``UnfitError`` when not exactly one choice is right by a clear lead, or the number is
    none to ask for.
    """
    lesson = drawn.lesson
    asks = lesson.question.asks
    if lesson.question.kind != "choose":
        return _number(drawn, MEASURES[asks])
    if lesson.cards:
        return _cards(drawn)
    if asks == "what is missing":
        return _missing(drawn)
    if asks == "chart load":
        return _chart(drawn)
    if asks in PARTS_OF:
        return _part(drawn)
    return _way(drawn, MEASURES[asks])


def _number(drawn: DrawnScene, measure: Measure) -> Made:
    question = drawn.lesson.question
    value = measure.of(drawn.of)
    start = None
    if question.of == "after":
        start = measure.of(drawn.before)
    place = question.asks in PLACES
    tolerance, half = question.tolerance, question.half
    if start is not None and not place:
        # Where the change is small a guess of "no change" must not pass as nearly right.
        effect = abs(math.log(value / start))
        tolerance = min(tolerance, effect / 3)
        half = min(half, (effect - tolerance) / _NO_CHANGE)
    unit = _UNITS[drawn.system][measure.kind]
    factors = {**TABLE["pressure"], "lbf/ft²": POUND * G0 / FOOT**2}
    if measure.kind != "bearing":
        factors = TABLE[measure.kind]
    room = drawn.rng.uniform(1.7, 2.6), drawn.rng.uniform(1.2, 2.2)
    low, high = 0.0, _round_up(max((start or value) * room[0], value * room[1]))
    if question.asks == "balance point":
        high = drawn.of.lift.measure.length
    elif place:
        high = 1.15 * sampling.arm_of(drawn.asked) + drawn.of.lift.machine.back.foot_pin[0]
    key = Key(
        value=value,
        start=start,
        kind=measure.kind,
        unit=unit,
        factor=factors[unit],
        tolerance=tolerance,
        half=half,
        unsafe=measure.unsafe,
        place=place,
        low=low,
        high=float(high),
    )
    return Made(answer=measure.shown(value, drawn.system), key=key)


def _round_up(value: float) -> float:
    """Rounded up to two significant figures."""
    place = 10.0 ** (math.floor(math.log10(value)) - 1)
    return float(math.ceil(value / place) * place)


def _led(options: Sequence[tuple[str, float]], lead: float) -> tuple[str, list[str]]:
    """The text with the least value, and the others, which must be clearly above it."""
    (best, least), *rest = sorted(options, key=lambda each: each[1])
    if not (math.isfinite(least) and least > 0):
        raise UnfitError("nothing decides it")
    if not rest or rest[0][1] < least * (1 + lead):
        raise UnfitError(TOO_CLOSE)
    return best, [text for text, _ in rest]


def _choices(
    drawn: DrawnScene, right: str, wrong: Sequence[tuple[str, bool]]
) -> tuple[Choice, ...]:
    """The right text among some wrong ones, each with whether it is unsafe, in any order."""
    some = drawn.rng.sample(list(wrong), min(len(wrong), CHOICES - 1))
    made = [
        Choice(text=right, right=True),
        *(Choice(text=text, right=False, unsafe=unsafe) for text, unsafe in some),
    ]
    if len({each.text for each in made}) < len(made):
        raise UnfitError("two choices read alike")
    drawn.rng.shuffle(made)
    return tuple(made)


def _part(drawn: DrawnScene) -> Made:
    options = PARTS_OF[drawn.lesson.question.asks](drawn.of)
    right, others = _led(options, drawn.lesson.good.lead)
    return Made(answer=right, choices=_choices(drawn, right, [(each, False) for each in others]))


_STAYS = "It stays as it is"
_WAYS = ("It rises", "It falls", _STAYS)


def _way(drawn: DrawnScene, measure: Measure) -> Made:
    """Which way a number goes with the move; saying a capacity holds when it falls is unsafe."""
    assert drawn.after is not None  # a lesson file without a move is refused
    change = measure.of(drawn.after) / measure.of(drawn.before) - 1
    # In order from the worst claim about a capacity to the best: falls, stays, rises.
    rank = {"It falls": -1, _STAYS: 0, "It rises": 1}
    true = 0 if abs(change) < 1e-6 else int(math.copysign(1, change))
    right = next(text for text, each in rank.items() if each == true)
    choices = tuple(
        Choice(
            text=text,
            right=text == right,
            unsafe=(measure.unsafe == "over" and rank[text] > true)
            or (measure.unsafe == "under" and rank[text] < true),
        )
        for text in _WAYS
    )
    return Made(answer=right[0].lower() + right[1:], choices=choices)


def _missing(drawn: DrawnScene) -> Made:
    """A list with one item left out, which is to be found."""
    items = list(drawn.lesson.items)
    gone = drawn.rng.randrange(len(items))
    # The other items stay in the list, so exactly one is missing.
    told = [each.name for number, each in enumerate(items) if number != gone]
    right = items[gone]
    return Made(
        answer=right.name,
        listed=tuple(told),
        choices=_choices(drawn, right.name, [(each, True) for each in told]),
        slots={"missing": right.name, "because": right.because},
    )


def _chart(drawn: DrawnScene) -> Made:
    """The row that counts for a reach between rows; nearer and between them is too much."""
    lift = drawn.of.lift
    if lift.end != "back" or lift.reach is None:
        raise UnfitError("a chart by reach is of the back end")
    rows = chart(lift)
    at = row_that_counts(rows, reach=lift.reach)
    near, far = rows[at - 1], rows[at]
    between = near.load + (far.load - near.load) * (lift.reach - near.reach) / (
        far.reach - near.reach
    )
    system = drawn.system

    def text(load: float) -> str:
        return show(load, "mass", system, "down")

    wrong = [(text(near.load), True), (text(between), True)]
    beyond = [row for row in rows[at + 1 :] if row.load < far.load]
    if beyond:
        wrong.append((text(beyond[0].load), False))
    shown = {
        "chart reach": show(lift.reach, "length", system),
        "nearer row": show(near.reach, "length", system),
        "farther row": show(far.reach, "length", system),
        "nearer load": text(near.load),
    }
    right = text(far.load)
    return Made(answer=right, choices=_choices(drawn, right, wrong), chart=rows, slots=shown)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Card:
    text: str
    value: float
    said: str


def _cards(drawn: DrawnScene) -> Made:
    """One scene among several: the one that may go ahead, or that has most or least of a number."""
    pick, lead = drawn.lesson.question.pick, drawn.lesson.good.lead
    if pick == "go":
        found, right, others = _going(drawn)
    else:
        found = [_card(drawn, each) for each in drawn.lesson.cards]
        order = 1.0 if pick == "least" else -1.0
        right, *others = sorted(found, key=lambda each: order * each.value)
        low, high = sorted((right.value, others[0].value))
        if high < low * (1 + lead):
            raise UnfitError(TOO_CLOSE)
    unsafe = pick == "go"
    choices = _choices(drawn, right.text, [(each.text, unsafe) for each in others])
    kept = {each.text for each in choices}
    told = tuple(f"{each.text} → {each.said}" for each in found if each.text in kept)
    return Made(answer=right.text, choices=choices, told=told)


def _going(drawn: DrawnScene) -> tuple[list[_Card], _Card, list[_Card]]:
    """Cards drawn in random order until one may go ahead and enough others may not."""
    goes: list[_Card] = []
    stays: list[_Card] = []
    for card in drawn.rng.sample(drawn.lesson.cards, len(drawn.lesson.cards)):
        if len(stays) >= CHOICES - 1 and goes:
            break
        each = _card(drawn, card)
        side = goes if each.value > 0 else stays
        if len(side) < (1 if side is goes else CHOICES - 1):
            side.append(each)
    if not (goes and stays):
        raise UnfitError("all the lifts may go ahead, or none")
    return [*goes, *stays], goes[0], stays


def _card(drawn: DrawnScene, card: Card) -> _Card:
    """A card told and answered: whether it may go ahead, or the number that is asked."""
    asked = sampling.changed(drawn.asked, card.words, rng=drawn.rng)
    answer = sampling.loads_of(asked)
    words = Filler(
        asked=asked, asked_after=None, before=answer, after=None, system=drawn.system
    ).fill(card.text)
    if drawn.lesson.question.pick == "go":
        said = stopped(answer, drawn.system)
        return _Card(text=words, value=0.0 if said else 1.0, said=said or "it may go ahead")
    measure = MEASURES[drawn.lesson.question.asks]
    value = measure.of(answer)
    return _Card(text=words, value=value, said=measure.shown(value, drawn.system))


def stopped(answer: Answer, system: System) -> str:
    """Why a lift may not go ahead; nothing where the model allows it and everything was said."""
    if not answer.passes:
        by = f" ({answer.governs})" if answer.refused == Remark("too_heavy") else ""
        return answer.verdict.words(system) + by
    if answer.lowest < 0:
        return Remark("still_in_ground").words(system)
    return Remark("no_unsaid", what=answer.unchecked).words(system) if answer.unchecked else ""
