"""What must the gauge read for every ram to carry this log there?"""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from liftcalc.evaluation.lift import Lift
from liftcalc.questions.search import InverseAnswer, Outcome, last_before_failure, tried

BAR = 1e5


def needed_pressure(lift: Lift) -> InverseAnswer:
    """Least gauge pressure at which every ram carries this log.

    Parameters
    ----------
    lift : Lift
        Its own gauge reading does not matter.

    Returns
    -------
    Turned
        Pressure [Pa], rounded up to a whole bar and never above the book's; every pressure
        from it up to the book's serves. None where the book's is not enough.

    Raises
    ------
    InputError
        When the machine cannot stand so.
    """
    answer = partial(
        InverseAnswer,
        question="gauge pressure at which every ram carries this log",
        kind="pressure",
        rounding="up",
    )
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
        note = (
            f"The book pressure of {book / BAR:.0f} bar is not enough for the {named}. A relief "
            "valve set above the book breaks the machine: change the place or the log."
        )
        return answer(value=None, stopped_by=named, at=at_book, notes=(note,))
    most = highest - 1
    step = last_before_failure(
        lambda k: rams_carry(outcome(k)), most=most, stride=max(1, most // 20)
    )
    at, beyond = outcome(step), outcome(step + 1) if step < most else None
    value = float(at.lift.gauge or book)
    failed = max(_rams(beyond), key=lambda each: each[1])[0] if beyond else "nothing: 1 bar serves"
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
    names = {ram.joint.name for ram in outcome.answer.reached.rams}
    return [(c.name, c.utilisation) for c in outcome.answer.criteria if c.name in names]


def rams_carry(outcome: Outcome) -> bool:
    """Whether the pose can be taken and every ram is allowed to carry this log."""
    rams = _rams(outcome)
    return bool(rams) and all(use <= 1 for _, use in rams)


def _notes(lift: Lift, at: Outcome, value: float) -> list[str]:
    said = ["Read the gauge at the pressure port with the ram stalled, oil warm."]
    if lift.gauge is not None:
        enough = "enough" if lift.gauge >= value else "not enough"
        said.append(f"The gauge reads {int(lift.gauge / BAR)} bar: {enough}.")
    if not at.passes:
        said.append(
            f"No pressure is enough for the whole lift: it is stopped by {at.stopped_by} as well."
        )
    return said
