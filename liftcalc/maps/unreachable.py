"""Why a place cannot be taken: which stop of the mechanism is passed, and on which side."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from liftcalc.machines.arm import Arm
from liftcalc.machines.joint_limits import JointLimit

Indices = NDArray[np.int16]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """The stop that is passed, by its name, and what that means in plain words."""

    stop: str
    words: str


def reasons_of(
    arm: Arm, stopped: tuple[Indices, ...], *, skip: int = 0, gone: NDArray[np.bool_] | None = None
) -> tuple[Indices, tuple[Reason, ...]]:
    """The reason at each place of an arm, as an index into the tuple returned with it.

    Parameters
    ----------
    arm : Arm
        At (N,) places.
    stopped : tuple of one (N,) array
        What a sweep found; the arm's own stops are counted after ``skip`` others.
    gone : (N,) array, optional
        Places that are to have a reason though they can be taken: that of the nearest that
        cannot.

    Returns
    -------
    (N,) array, tuple of Reason
        −1 where the place can be taken.
    """
    said = np.full(stopped[0].shape, -1, dtype=np.int16)
    reasons: list[Reason] = []
    for number, stop in enumerate(arm.stops):
        here = stopped[0] == number + skip
        if not here.any():
            continue
        needs = np.broadcast_to(np.asarray(stop.needs, dtype=float), here.shape)
        for side, where in (
            ("short", here & (needs < stop.least)),
            ("long", here & (needs > stop.most)),
            ("open", here & np.isnan(needs)),
        ):
            if where.any():
                said[where] = len(reasons)
                reasons.append(Reason(stop=stop.name, words=_words(stop, side)))
    if gone is not None and reasons:
        known = np.flatnonzero(said >= 0)
        for at in np.flatnonzero(gone & (said < 0)):
            said[at] = said[known[np.argmin(np.abs(known - at))]]
    return said, tuple(reasons)


def _words(stop: JointLimit, side: str) -> str:
    """A stop's own words, without the advice that goes with one pose."""
    if side == "open":
        return "its linkage cannot close"
    return stop.long if side == "long" else stop.short
