"""What is the longest piece of this log that can be lifted there?"""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from liftcalc.evaluation.lift import Lift
from liftcalc.questions.search import Detail, InverseAnswer, last_before_failure, tried
from liftcalc.remarks import Remark, down, up
from liftcalc.timber.log import weigh
from liftcalc.timber.piece import Keep, piece

PER_METRE = 100
"""Lengths tried on a metre: one each centimetre."""
SHORTEST = 10
"""Shortest piece that is tried, in centimetres."""


def lift_of_piece(lift: Lift, *, keep: Keep, length: float) -> Lift:
    """The same lift with a piece of its log, slung anew at its own balance point.

    Two legs are spread in proportion; where only one end is raised the hook takes its usual place.
    Errors are those of ``piece``.
    """
    measure = piece(lift.measure, keep=keep, length=length)
    if measure is lift.measure:
        return lift
    share = length / lift.measure.length
    sling = replace(lift.sling, at=None, spread=lift.sling.spread * share)
    taken = replace(lift.taken, hook_at=None)
    return replace(lift, measure=measure, log=weigh(measure), sling=sling, taken=taken)


def longest_piece(lift: Lift, *, keep: Keep) -> InverseAnswer:
    """Longest piece of a log, from the butt or up to the top, that passes as the lift asks.

    Parameters
    ----------
    lift : Lift
        With the whole log.
    keep : Keep
        Which piece is to be lifted.

    Returns
    -------
    InverseAnswer
        Length [m], rounded down to a centimetre; taper is kept. The whole log's length where it
        passes uncut.

    Raises
    ------
    InputError
        When only the middle of the log was taped.
    """
    whole = tried(lift)
    answer = partial(
        InverseAnswer,
        question=Remark("longest", keep=keep),
        kind="length",
        rounding="down",
        at=whole,
    )
    piece(lift.measure, keep=keep, length=0.5 * lift.measure.length)  # both ends must be known
    if whole.passes:
        stops, notes = Remark("whole_passes"), (Remark("no_cut"),)
        return answer(value=lift.measure.length, stopped_by=stops, notes=notes)
    # A length that is not whole centimetres is tried to the last whole one; the rest failed above.
    most = int(lift.measure.length * PER_METRE + 1e-9) - SHORTEST
    start = _first_passing(lift, keep, most)
    step = start + last_before_failure(
        lambda k: tried(_cut(lift, keep, start + k)).passes,
        most=most - start,
        stride=max(1, most // 20),
    )
    if step < start:
        least = up(SHORTEST / PER_METRE, "diameter")
        notes = (Remark("not_even_piece", length=least),)
        return answer(value=None, stopped_by=tried(_cut(lift, keep, 0)).stopped_by, notes=notes)
    at = tried(_cut(lift, keep, step))
    beyond = whole if step == most else tried(_cut(lift, keep, step + 1))
    return answer(
        value=at.lift.measure.length,
        stopped_by=beyond.stopped_by,
        at=at,
        beyond=beyond,
        beyond_value=beyond.lift.measure.length,
        details=_details(at.lift, keep=keep, left=lift.measure.length - at.lift.measure.length),
        notes=(Remark("weigh_anew"),),
    )


def _details(cut: Lift, *, keep: Keep, left: float) -> tuple[Detail, ...]:
    """Where to cut, rounded so that the piece is never longer; what it weighs; what is left."""
    at = down(cut.measure.length, "length") if keep == "butt" else up(left, "length")
    return (
        Detail(name=Remark("cut_at"), figure=at),
        Detail(name=Remark("piece_mass"), figure=up(cut.log.mass_planning, "mass")),
        Detail(name=Remark("left_over"), figure=up(left, "length")),
    )


def _first_passing(lift: Lift, keep: Keep, most: int) -> int:
    """Where the search starts: at nothing, but for a log raised by one end.

    A short piece raised as high as asked stands too steep, so the first that passes, to a few
    centimetres, comes before all that are longer.
    """
    if lift.taken.way != "one end":
        return 0
    steps = range(0, most + 1, COARSE)
    return next((k for k in steps if tried(_cut(lift, keep, k)).passes), 0)


COARSE = 5
"""Centimetres between pieces that are tried for the first that passes."""


def _cut(lift: Lift, keep: Keep, step: int) -> Lift:
    length = min((SHORTEST + step) / PER_METRE, lift.measure.length)
    return lift_of_piece(lift, keep=keep, length=length)
