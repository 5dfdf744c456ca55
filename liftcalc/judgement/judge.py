"""Judge a lift as it was told: it holds, it does not, or that cannot be said yet.

It is checked with all that nobody said at the careful end of its usual range, and with all at the
favourable end. What holds at the one holds; what fails at the other fails; between them one doubt
is named that decides most.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from liftcalc.errors import InputError
from liftcalc.evaluation.answer import Answer, Decider, Judgement
from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.warnings import OPTION_OF
from liftcalc.remarks import Figure, Remark, down
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.table import Field, field_of
from liftcalc.requests.usual import Ranged, ranged

MOST = 1e5
"""No doubt is worth more than this [kg]."""


def judge(request: LiftRequest) -> tuple[Answer, Ranged]:
    """Judge a lift.

    Returns
    -------
    Answer
        At the careful end, with its judgement.
    Ranged
        The lift as it was read, and its doubts.

    Raises
    ------
    InputError
        With every fault of every field; ``PoseError`` where the machine cannot stand so.
    """
    read = ranged(request)
    return judged(read), read


def judged(read: Ranged, at: Callable[[Lift], Lift] = lambda lift: lift) -> Answer:
    """The answer at the careful end of a lift, judged; ``at`` puts the lift where it is judged."""
    careful, hoped = check(at(read.read.lift)), check(at(read.at(())))
    fails = not hoped.passes
    holds = careful.passes and not careful.waits_for and not fails
    made = Judgement(
        standing="holds" if holds else "fails" if fails else "open",
        practice=read.read.lift.machine.invented,
        hoped=hoped.heaviest_log,
        decider=None if holds or fails else _decider(read, careful, hoped, at),
    )
    return replace(careful, judgement=made)


def _spare(answer: Answer) -> float:
    """What the heaviest log allowed is heavier than this one [kg]."""
    return min(answer.heaviest_log, MOST) - answer.lift.log.mass_planning


def _decider(read: Ranged, careful: Answer, hoped: Answer, at: Callable[[Lift], Lift]) -> Decider:
    """The doubt that costs most; where none has a range left, the first that has to be told."""
    if careful.passes:
        asked = careful.waits_for[0]
        option, worth = OPTION_OF[asked.code], max(careful.heaviest_log, 0.0)
        return Decider(option=option, worth=worth, said=Remark("tell", what=asked))
    costs = {doubt: _spare(hoped) - _with(at, read, doubt) for doubt in read.doubts}
    # Of doubts that cost alike the first in the order of the fields is told.
    doubt = max(costs, key=lambda each: costs[each])
    row = field_of(LiftRequest, doubt)
    worth = max(costs[doubt], 0.0)
    return Decider(
        option=row.option, worth=worth, said=_advice(read, doubt, row, down(worth, "mass"))
    )


def _advice(read: Ranged, doubt: str, row: Field, worth: Figure) -> Remark:
    """What to tell or measure, or what would help where no number has to be told."""
    if doubt == "ground" and not read.read.lift.stands_on.presumed:
        return Remark("prove_it_here", worth=worth)
    if doubt == "ground":
        return Remark("better_ground", worth=worth)
    if doubt == "species":
        return Remark("weigh_it", worth=worth)
    if doubt == "hangs_level":
        return Remark("try_balance", worth=worth)
    if doubt == "slope":
        return Remark("lay_a_level", worth=worth)
    return Remark("measure_it", label=row.label, option=row.option, worth=worth)


def _with(at: Callable[[Lift], Lift], read: Ranged, doubt: str) -> float:
    """What is spare with one doubt at its careful end [kg]; nothing where it cannot stand so."""
    try:
        return _spare(check(at(read.at((doubt,)))))
    except InputError:
        return -math.inf
