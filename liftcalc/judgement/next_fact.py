"""Of a machine known by facts: the fact that it pays most to tell next, at a lift."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from liftcalc.evaluation.answer import Decider
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.sampled import sampled
from liftcalc.family.draw import some
from liftcalc.family.facts import FACTS
from liftcalc.family.known import KnownMachine
from liftcalc.judgement.doubt import Worth, next_facts
from liftcalc.remarks import Remark, down

WORTH_TELLING = 5.0
"""A fact that is worth less is not asked for [kg]."""


def paying(lift: Lift) -> tuple[Worth, ...]:
    """Facts of the machine that are worth telling at a lift, the best first.

    None of a machine whose figures are told, and none where hardly any member reaches. The hook is
    where it was told, so members that do not reach there are left out, as in the answer.
    """
    machine = lift.machine
    if not isinstance(machine, KnownMachine):
        return ()
    found = sampled(lift, machine.members)
    rows = np.flatnonzero(found.reaches)
    if len(rows) < 2:
        return ()
    ensemble = replace(
        machine.ensemble,
        latent=machine.ensemble.latent[rows],
        machine=some(machine.ensemble.machine, rows),
    )
    reaching = replace(
        found,
        allowed=found.allowed[:, rows],
        needed=found.needed[rows],
        off={name: each[rows] for name, each in found.off.items()},
    )
    worths = next_facts(ensemble, [reaching])
    return tuple(each for each in worths if each.key in FACTS and each.worth >= WORTH_TELLING)


def next_fact(lift: Lift) -> Decider | None:
    """The one that pays most, as advice."""
    for each in paying(lift):
        said = Remark("fact_pays", fact=each.question, worth=down(each.worth, "mass"))
        return Decider(option=each.key, worth=each.worth, said=said)
    return None
