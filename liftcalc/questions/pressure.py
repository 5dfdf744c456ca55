"""What must the gauge read for every ram to carry this log there?"""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from liftcalc.evaluation.lift import Lift
from liftcalc.questions.search import InverseAnswer, Outcome, last_before_failure, tried
from liftcalc.remarks import Remark, down, near

BAR = 1e5


def needed_pressure(lift: Lift) -> InverseAnswer:
    """Least gauge pressure at which every ram carries this log.

    Parameters
    ----------
    lift : Lift
        Its own gauge reading does not matter.

    Returns
    -------
    InverseAnswer
        Pressure [Pa], rounded up to a whole bar and never above the book's; every pressure
        from it up to the book's serves. None where the book's is not enough.

    Raises
    ------
    InputError
        When the machine cannot stand so.
    """
    answer = partial(InverseAnswer, question=Remark("pressure"), kind="pressure", rounding="up")
    book = float(lift.machine.hydraulics.working_pressure)
    highest = int(book / BAR)

    def outcome(step: int) -> Outcome:
        """Step 0 is the book's pressure, then whole bars downward."""
        below = highest - step + (book > highest * BAR)
        return tried(replace(lift, gauge=book if step == 0 else below * BAR))

    at_book = outcome(0)
    if not rams_carry(at_book):
        weakest = max(_rams(at_book), key=lambda each: each[1], default=("the pose", 0.0))
        named = at_book.stopped_by if at_book.answer is None else weakest[0]
        note = Remark("book_too_low", book=near(book, "pressure"), ram=named)
        return answer(value=None, stopped_by=named, at=at_book, notes=(note,))
    most = highest - 1
    step = last_before_failure(
        lambda k: rams_carry(outcome(k)), most=most, stride=max(1, most // 20)
    )
    at, beyond = outcome(step), outcome(step + 1) if step < most else None
    value = float(at.lift.gauge or book)
    failed = max(_rams(beyond), key=lambda each: each[1])[0] if beyond else Remark("any_pressure")
    return answer(
        value=value,
        stopped_by=failed,
        at=at,
        beyond=beyond,
        beyond_value=None if beyond is None else beyond.lift.gauge,
        notes=tuple(_notes(lift, at, value)),
    )


def _rams(outcome: Outcome) -> list[tuple[str, float]]:
    """Name and utilisation of every ram."""
    if outcome.answer is None:
        return []
    return [(c.name, c.utilisation) for c in outcome.answer.criteria if c.kind == "ram"]


def rams_carry(outcome: Outcome) -> bool:
    """Whether the pose can be taken and every ram is allowed to carry this log."""
    rams = _rams(outcome)
    return bool(rams) and all(use <= 1 for _, use in rams)


def _notes(lift: Lift, at: Outcome, value: float) -> list[Remark]:
    said = [Remark("read_gauge")]
    if lift.gauge is not None:
        reads = down(lift.gauge, "pressure")
        enough = lift.gauge >= value
        said.append(Remark("gauge_enough" if enough else "gauge_too_low", reads=reads))
    if not at.passes:
        said.append(Remark("no_pressure_enough", by=at.stopped_by))
    return said
