"""Distances between pins of a photograph, as facts that narrow the family."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

import numpy as np

from liftcalc.errors import Fault
from liftcalc.family.draw import draw
from liftcalc.family.fact import Fact, Told
from liftcalc.family.facts import FACTS, fact
from liftcalc.family.kind import MachineKind
from liftcalc.family.photograph_fit import PhotographFit
from liftcalc.family.points import POINTS
from liftcalc.family.posterior import FARTHER
from liftcalc.family.slips import UNLIKELY
from liftcalc.remarks import Phrase, near

MEMBERS = 400
"""Of the family, to see how long a distance usually is."""


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


def unlikely(fitted: PhotographFit, kind: MachineKind) -> Iterator[Fault]:
    """Distances that hardly any machine of a kind has: of two clicks one is on another point.

    Finds a pin that was taken for another where nothing in the picture checks it. Members of the
    family and the told distance are both in doubt; a machine may yet be so, so it only asks.
    """
    usual = _usual(kind)
    for each in told_by(fitted):
        middle, spread = usual[each.key]
        off = math.hypot(FARTHER * spread, (each.tolerance or 0.0) / each.value)
        if abs(math.log(each.value) - middle) > UNLIKELY * off:
            low, high = (
                near(math.exp(middle + way * 2.0 * FARTHER * spread), "length") for way in (-1, 1)
            )
            yield Fault(
                field=" to ".join(_ends(fact(each.key))),
                given=Phrase("{length}", length=near(each.value, "length")),
                wanted=Phrase("{low} to {high}, as most such machines have", low=low, high=high),
                fix="look whether both clicks are on the pins that are meant",
            )


@lru_cache(maxsize=16)
def _usual(kind: MachineKind) -> dict[str, tuple[float, float]]:
    """Mean and standard deviation of the logarithm of every distance over a kind [ln m]."""
    machines = draw(kind, count=MEMBERS, seed=0).machine
    found = {}
    for key, _ in _distances():
        logarithms = np.log(fact(key).predict(machines, Told(key=key, value=0.0), 0.0))
        found[key] = (float(np.mean(logarithms)), float(np.std(logarithms)))
    return found


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
