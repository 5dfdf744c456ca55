"""Readings that all others contradict: data snooping (Baarda, 1968)."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

UNLIKELY = 4.0
"""Residual over its own standard deviation beyond which a reading is named: of sixty readings by
chance one picture in two hundred and fifty has one (data snooping, Baarda 1968)."""
SHOWS = 0.03
"""Share of an error that must show in what is left over before anything is said of it [-]."""


class Slip(NamedTuple):
    """How unlikely a reading is, and what the others would add to it, in its own deviations."""

    unlikely: float
    by: Any


def slip(left: Any, shows: Any) -> Slip:
    """A reading of one number or several against all other readings.

    Parameters
    ----------
    left : array (n,)
        What is left over of it by the fit, over its standard deviation.
    shows : array (n, n)
        How much of an error of it shows in that: its block of 1 − J (JᵀJ)⁻¹ Jᵀ.

    Returns
    -------
    Slip
        Where nothing else says anything of the reading, nothing is unlikely: a slip stays hidden.
    """
    shown, ways = np.linalg.eigh(shows)
    seen = shown > SHOWS
    if not seen.any():
        return Slip(0.0, np.zeros(len(left)))
    along = (ways.T @ left)[seen]
    unlikely = float(np.max(np.abs(along) / np.sqrt(shown[seen])))
    return Slip(unlikely, ways[:, seen] @ (along / shown[seen]))
