"""Distances between pins of a photograph, as facts that narrow the family."""

from __future__ import annotations

from typing import Any

import numpy as np

from liftcalc.family.fact import Fact, Told
from liftcalc.family.facts import FACTS
from liftcalc.family.photograph_fit import PhotographFit
from liftcalc.family.points import POINTS


def told_by(fitted: PhotographFit) -> tuple[Told, ...]:
    """Every distance between two pins of one part that a photograph tells [m].

    Errors of one picture go together (its scale, its yaw, a pin that ends two distances), but facts
    are taken one by one. So each variance is the fit's times the greatest eigenvalue of the
    correlations between all of them: no sum or difference of these facts is then taken for surer
    than the picture makes it. That understates how sure each is alone, by some six tenths.
    """
    names = [each.point for each in fitted.points]
    found: list[Told] = []
    slopes = []
    for key, ends in _distances():
        if set(ends) <= set(names):
            first, second = (np.array((fitted[end].x, fitted[end].z)) for end in ends)
            length = float(np.hypot(*(second - first)))
            slope = np.zeros((len(names), 2))
            slope[names.index(ends[1])] = (second - first) / length
            slope[names.index(ends[0])] = (first - second) / length
            slopes.append(slope.ravel())
            found.append(Told(key=key, value=length))
    if not found:
        return ()
    sigma = _as_if_apart(np.array(slopes) @ fitted.covariance @ np.array(slopes).T)
    return tuple(
        Told(key=each.key, value=each.value, tolerance=float(off))
        for each, off in zip(found, sigma, strict=True)
    )


def _distances() -> list[tuple[str, tuple[str, str]]]:
    """Facts that are distances of pins on one part, and the two points of a picture."""
    return [(key, _ends(each)) for key, each in FACTS.items() if _of_one_part(each)]


def _of_one_part(each: Fact) -> bool:
    # What is taped along the ground is no distance of pins, and ends of a stroke lie on two parts:
    # a picture shows a ram as it stands.
    parts = {POINTS[name].part for name in each.at}
    return each.trouble == "pins" and len(each.at) == 2 and len(parts) == 1


def _ends(each: Fact) -> tuple[str, str]:
    """A joint has two names, one on either part; a picture shows one."""
    first, second = (name.split(" on the ")[0] for name in each.at)
    return first, second


def _as_if_apart(covariance: Any) -> Any:
    """Standard deviations that, taken as independent, are nowhere surer than a covariance."""
    sigma = np.sqrt(np.diag(covariance))
    together = np.linalg.eigvalsh(covariance / np.outer(sigma, sigma))[-1]
    return sigma * np.sqrt(max(1.0, float(together)))
