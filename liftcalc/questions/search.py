"""Forward checks as a question turned round meets them: does it pass, and if not, what stops it.

A search never jumps over a place that fails: it walks outward from one that passes, stops at the
first that does not, and gives back the last before it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from liftcalc.errors import Fault, InputError
from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift
from liftcalc.remarks import Figure, Remark, Words
from liftcalc.shown import Shown
from liftcalc.units import Kind, Rounding


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """A lift tried: its answer, or the faults where the machine cannot stand so."""

    lift: Lift
    answer: Answer | None
    faults: tuple[Fault, ...] = ()

    @property
    def passes(self) -> bool:
        """Whether the pose can be taken and every criterion allows the log."""
        return self.answer is not None and self.answer.passes

    @property
    def stopped_by(self) -> Words:
        """The criterion that sets the allowed load, or what of the mechanism is in the way."""
        if self.answer is not None:
            return self.answer.governs
        return self.faults[0].field

    @property
    def margin(self) -> float:
        """Heaviest log allowed less this log's planning mass [kg]; −inf without a pose."""
        if self.answer is None:
            return -math.inf
        return self.answer.heaviest_log - self.lift.log.mass_planning


def tried(lift: Lift) -> Outcome:
    """Check a lift; a pose that cannot be taken is an outcome, not an error."""
    try:
        return Outcome(lift=lift, answer=check(lift))
    except InputError as error:
        return Outcome(lift=lift, answer=None, faults=error.faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class Detail:
    """One more figure of an answer."""

    name: Remark
    figure: Figure


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class InverseAnswer(Shown):
    """The answer to a question turned round.

    Attributes
    ----------
    question : Remark
        What was asked for.
    value : float or None
        Already rounded to the safe side [SI]; None where nothing passes.
    kind, rounding
        What the value is, and to which side it was rounded.
    stopped_by : str or Remark
        The criterion, or the part of the mechanism, that is met just beyond the value, or that
        stops the lift as asked when there is no value.
    at, beyond : Outcome or None
        The forward check at the value, which passes, and just beyond it, which does not. ``at`` is
        the lift as asked when there is no value.
    beyond_value : float or None
        Where ``beyond`` was tried [SI].
    details, notes
        Other figures, and what must be known with the value.
    """

    question: Remark
    value: float | None
    kind: Kind
    rounding: Rounding
    stopped_by: Words
    at: Outcome | None = None
    beyond: Outcome | None = None
    beyond_value: float | None = None
    details: tuple[Detail, ...] = ()
    notes: tuple[Remark, ...] = ()


def passing_run(passing: NDArray[np.bool_], *, start: int) -> tuple[int, int] | None:
    """First and last of the unbroken run of True that holds ``start``, or None outside one."""
    if not passing[start]:
        return None
    broken = np.flatnonzero(~passing)
    before, after = broken[broken < start], broken[broken > start]
    first = int(before[-1]) + 1 if before.size else 0
    last = int(after[0]) - 1 if after.size else passing.size - 1
    return first, last


def last_before_failure(passes: Callable[[int], bool], *, most: int, stride: int) -> int:
    """Last step that passes before the first that was found to fail.

    Parameters
    ----------
    passes : callable
        Whether a whole-numbered step passes.
    most : int
        Last step there is.
    stride : int
        Steps between two probes on the way out; between the last that passed and the first that
        failed the edge is halved down to one step.

    Returns
    -------
    int
        −1 where step 0 already fails. The step after the one returned fails, unless it is
        ``most``. A failure narrower than a stride may lie before it where ``passes`` is not
        monotone.
    """
    good, probe = -1, 0
    while passes(probe):
        good = probe
        if probe == most:
            return most
        probe = min(probe + stride, most)
    bad = probe
    while bad - good > 1:
        middle = (good + bad) // 2
        if passes(middle):
            good = middle
        else:
            bad = middle
    return good
