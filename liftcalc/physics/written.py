"""Closed forms of the model, written from ``liftcalc.derivations``; do not edit.

Every function takes SI scalars or arrays that broadcast, by keyword, and returns a named tuple
of all its steps, the result last. ``make generated`` writes this file anew.
"""
# ruff: noqa: E501

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

Real = Any  # a float or an array of floats; numpy broadcasts


class NewtonVolume(NamedTuple):
    """Steps of `newton_volume`."""

    butt_area: Real
    middle_area: Real
    top_area: Real
    volume: Real


def newton_volume(*, butt_diameter: Real, middle_diameter: Real, top_diameter: Real, log_length: Real) -> NewtonVolume:
    """Volume of a log from three diameters.

    Parameters
    ----------
    butt_diameter : diameter at the butt [m]
    middle_diameter : diameter at mid length [m]
    top_diameter : diameter at the top end [m]
    log_length : length of the log [m]

    Returns
    -------
    NewtonVolume
        butt_area : section at the butt [m²]
        middle_area : section at mid length [m²]
        top_area : section at the top end [m²]
        volume : volume of the log [m³]

    Notes
    -----
    Source: Newton's (prismoidal) rule, any text on forest measurement.
    Error: exact for cylinder, cone, paraboloid and neiloid; of either sign on an uneven stem.
    """
    # section at the butt, taken as a circle
    butt_area = (1/4)*np.pi*butt_diameter**2
    # section at mid length
    middle_area = (1/4)*np.pi*middle_diameter**2
    # section at the top end
    top_area = (1/4)*np.pi*top_diameter**2
    # Newton's rule: exact where the section varies as a cubic of the length or less
    volume = (1/6)*log_length*(butt_area + 4*middle_area + top_area)
    return NewtonVolume(butt_area, middle_area, top_area, volume)
