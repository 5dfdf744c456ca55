"""A piece of a log: what would have been taped of it after a cross-cut."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Literal

from liftcalc.errors import InputError
from liftcalc.remarks import Phrase, down, up
from liftcalc.timber.log import weigh
from liftcalc.timber.measure import NOTHING, Extra, Extras, LogMeasure

Keep = Literal["butt", "top"]
"""Which piece is kept after the cut."""


def section_area(measure: LogMeasure, *, at: float) -> float:
    """Square of the diameter at a place along a log [m²].

    Parameters
    ----------
    measure : LogMeasure
        With both ends taped.
    at : float
        From the butt [m].

    Notes
    -----
    Areas run straight between the places that were taped, as in Smalian's rule; with three
    diameters the parabola of Newton's rule is taken where it lies above. A piece is then never
    less than its share of the whole by the rule that the whole was weighed with: overstates the
    load.
    """
    assert measure.butt is not None
    assert measure.top is not None
    butt, top = measure.butt**2, measure.top**2
    share = at / measure.length
    if measure.middle is None:
        return butt + (top - butt) * share
    middle = measure.middle**2
    parabola = (
        butt * (1 - share) * (1 - 2 * share)
        + middle * 4 * share * (1 - share)
        - top * share * (1 - 2 * share)
    )
    inner, outer, along = (butt, middle, 2 * share) if share < 0.5 else (middle, top, 2 * share - 1)
    return max(parabola, inner + (outer - inner) * along)


def piece(measure: LogMeasure, *, keep: Keep, length: float) -> LogMeasure:
    """The piece of a log that a cross-cut leaves, as if taped afterwards.

    Parameters
    ----------
    measure : LogMeasure
        The whole log.
    keep : Keep
        The piece at the butt or the one at the top.
    length : float
        Of the piece [m], at most the log's own.

    Returns
    -------
    LogMeasure
        Ice and mud given as a share stay the same share; as a mass they stay whole, since they
        may all lie here. A root plate goes with the butt, limbs stay whole with either piece.
        Overstates the load.

    Raises
    ------
    InputError
        When only the middle was taped: how a log tapers is then not known, and a butt piece is
        heavier than the middle says. When the length is longer than the log, or not that of one.
    """
    if measure.butt is None or measure.top is None:
        raise InputError.of(
            field="butt and top",
            given="nothing",
            understood="only mid",
            wanted="the diameters of both ends, to know what a piece of the log weighs",
            fix="tape both ends",
        )
    if length > measure.length:
        raise InputError.of(
            field="length of the piece",
            given=Phrase("{length}", length=up(length, "length")),
            wanted=Phrase("at most the log's {length}", length=down(measure.length, "length")),
        )
    if length == measure.length:
        return measure
    start = 0.0 if keep == "butt" else measure.length - length
    butt, middle, top = (
        math.sqrt(section_area(measure, at=start + share * length)) for share in (0.0, 0.5, 1.0)
    )
    # A log that bulges is thickest inside: its piece is taken that thick at the butt.
    butt = max(butt, top, middle)
    return replace(
        measure,
        length=length,
        butt=butt,
        middle=None if measure.middle is None else middle,
        top=top,
        extras=_extras(measure, keep),
    )


def _extras(measure: LogMeasure, keep: Keep) -> Extras:
    whole = weigh(measure).mass_planning

    def all_of(extra: Extra) -> Extra:
        return Extra(mass=extra.mass + extra.share * whole)

    return replace(
        measure.extras,
        root_plate=all_of(measure.extras.root_plate) if keep == "butt" else NOTHING,
        limbs=all_of(measure.extras.limbs),
    )
