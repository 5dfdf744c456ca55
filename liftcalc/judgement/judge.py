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
from liftcalc.evaluation.members import slip_remark
from liftcalc.evaluation.warnings import OPTION_OF
from liftcalc.family.known import KnownMachine
from liftcalc.family.unlikely_fact import UnlikelyFact
from liftcalc.judgement.next_fact import next_fact
from liftcalc.remarks import Figure, Remark, down
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.reader import said
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


def judged(read: Ranged, at: Callable[[Lift], Lift] | None = None) -> Answer:
    """The answer at the careful end of a lift, judged; ``at`` puts the lift where it is judged."""
    unsaid = _no_range(read, here=at is None)
    at = at or _here
    best = read.at(())
    careful, hoped = check(at(read.read.lift)), check(at(best))
    for doubt in _two_ended(read.told.lift) & set(read.doubts):
        # Neither end of it is the careful one for all criteria.
        others = [each for each in read.doubts if each != doubt]
        one = check(at(replace(read.at(others), assumed=careful.lift.assumed)))
        other = check(at(read.at((doubt,))))
        careful = min(careful, one, key=_good)
        if _good(other) > _good(hoped):
            hoped, best = other, read.at((doubt,))
    careful = replace(careful, unchecked=(*unsaid, *careful.unchecked))
    holds = careful.passes and not careful.waits_for and not _slips(careful)
    if not holds:
        hoped = max(_most_hoped(read, best, hoped, at), careful, key=_good)
    fails = not (holds or hoped.passes)
    pays = next_fact(careful.lift)
    made = Judgement(
        standing="holds" if holds else "fails" if fails else "open",
        practice=read.read.lift.machine.invented,
        hoped=hoped.heaviest_log,
        decider=None if holds or fails else _decider(read, careful, hoped, at, pays),
        pays=pays,
        fails_by=hoped.refused if fails else None,
    )
    return replace(careful, judgement=made)


def _most_hoped(read: Ranged, lift: Lift, hoped: Answer, at: Callable[[Lift], Lift]) -> Answer:
    """The best of all that a lift may be by doubts that help some criteria and hurt others.

    One doubt after another, each as it is best so far: it may understate what all together give.
    """
    for ends in read.either:
        tried = [(check(at(replace(lift, **end))), end) for end in ends]
        best, end = max(tried, key=lambda each: _good(each[0]))
        if _good(best) > _good(hoped):
            hoped, lift = best, replace(lift, **end)
    return hoped


def _two_ended(lift: Lift) -> set[str]:
    """Doubts of which one end is careful for some criteria and the other for others."""
    # In front, on wheels, a longer sling lowers a log that is to be carried low.
    lowers = lift.end == "front" and lift.stance == "wheels"
    return {"hook_at", "sling_length"} if lowers else {"hook_at"}


def _slips(answer: Answer) -> tuple[UnlikelyFact, ...]:
    """Facts of the machine that hardly any has: nothing holds by them until they are looked at."""
    machine = answer.lift.machine
    return machine.slips if isinstance(machine, KnownMachine) else ()


def _here(lift: Lift) -> Lift:
    return lift


def _good(answer: Answer) -> tuple[bool, float]:
    return answer.passes, _spare(answer)


def _no_range(read: Ranged, *, here: bool) -> tuple[Remark, ...]:
    """What has to be told and has no usual range."""
    made = []
    if here and read.told.lift.end == "back" and not said(read.request.slew):
        made.append(Remark("unsaid_slew"))
    if any(each.code == "weighs_otherwise" for each in read.told.lift.log.doubts):
        made.append(Remark("unsaid_mass"))
    return tuple(made)


def _spare(answer: Answer) -> float:
    """What the heaviest log allowed is heavier than this one [kg]."""
    return min(answer.heaviest_log, MOST) - answer.lift.log.mass_planning


def _decider(
    read: Ranged,
    careful: Answer,
    hoped: Answer,
    at: Callable[[Lift], Lift],
    pays: Decider | None = None,
) -> Decider:
    """The doubt that costs most; where none has a range left, the first that has to be told."""
    if careful.passes and not careful.waits_for:
        slip = _slips(careful)[0]
        worth = max(careful.heaviest_log, 0.0)
        return Decider(option=slip.told.key, worth=worth, said=slip_remark(slip))
    if careful.passes:
        asked = careful.waits_for[0]
        option, worth = OPTION_OF[asked.code], max(careful.heaviest_log, 0.0)
        return Decider(option=option, worth=worth, said=Remark("tell", what=asked))
    costs = {doubt: _spare(hoped) - _with(at, read, doubt) for doubt in read.doubts}
    # Of doubts that cost alike the first in the order of the fields is told.
    doubt = max(costs, key=lambda each: costs[each])
    worth = max(costs[doubt], 0.0)
    figure = down(worth, "mass")
    if doubt == "machine" and pays is not None:
        return pays
    row = field_of(LiftRequest, FIELD_OF.get(doubt, doubt))
    return Decider(option=row.option, worth=worth, said=_advice(read.read.lift, doubt, row, figure))


FIELD_OF = {"hanging quiet": "slew_speed"}
"""The field by which a doubt of another name is told."""


def _advice(lift: Lift, doubt: str, row: Field, worth: Figure) -> Remark:
    """What to tell or measure, or what would help where no number has to be told."""
    if doubt == "ground":
        return _better_ground(lift, worth)
    advice = {
        "species": Remark("weigh_it", worth=worth),
        "hangs_level": Remark("try_balance", worth=worth),
        "slope": Remark("lay_a_level", worth=worth),
        "machine": Remark("measure_machine", worth=worth),
        "hanging quiet": Remark("let_it_hang", worth=worth),
    }
    measure = Remark("measure_it", label=row.label, option=row.option, worth=worth)
    return advice.get(doubt, measure)


"""Codes of what to do where no number has to be told."""


def _better_ground(lift: Lift, worth: Figure) -> Remark:
    """What helps where the ground decides."""
    if not lift.stands_on.presumed:
        return Remark("prove_it_here", worth=worth)
    wheels = lift.stance == "wheels"
    return Remark("firmer_ground", worth=worth) if wheels else Remark("better_ground", worth=worth)


def _with(at: Callable[[Lift], Lift], read: Ranged, doubt: str) -> float:
    """What is spare with one doubt at its careful end [kg]; nothing where it cannot stand so."""
    try:
        return _spare(check(at(read.at((doubt,)))))
    except InputError:
        return -math.inf
