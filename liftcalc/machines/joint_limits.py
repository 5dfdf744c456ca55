"""Limits of a mechanism: what a pose needs, what there is, and what to say when it is passed."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple

import numpy as np

from liftcalc.errors import Fault, PoseError
from liftcalc.machines.number import plain
from liftcalc.machines.schema import LinkRam, Ram
from liftcalc.physics.functions import Real
from liftcalc.remarks import Phrase, near
from liftcalc.units import Kind

SLACK = 1e-9
"""Length by which a limit may seem passed from rounding alone [m]."""


ELSEWHERE = ("choose another height or reach",) * 2
"""What to do about most limits."""


class JointLimit(NamedTuple):
    """A limit of the mechanism: what is needed, and the least and most there is.

    ``short`` and ``long`` say in plain words what it means to need less than the least or more
    than the most, ``advice`` what to do in either case. Where any of the three numbers is an array
    ``violated`` is the mask of a grid.
    """

    name: str
    needs: Real
    least: Real = -math.inf
    most: Real = math.inf
    unit: str = "m"
    short: str = ""
    long: str = ""
    advice: tuple[str, str] = ("", "")

    @property
    def violated(self) -> Real:
        """Where the limit is passed, or cannot even be computed."""
        needs, low, high = self.needs, self.least - SLACK, self.most + SLACK
        single = low.__class__ is high.__class__ is float
        if single and needs.__class__ is float:
            return not low <= needs <= high
        # NaN is within nothing; a limit with one side is asked for that side only.
        if single and low == -math.inf:
            return np.logical_not(needs <= high)
        if single and high == math.inf:
            return np.logical_not(needs >= low)
        return np.logical_not((needs >= low) & (needs <= high))

    def fault(self, *, end: str) -> Fault:
        """What is wrong with a single pose."""
        kind: Kind = "angle" if self.unit == "rad" else "length"
        needs = float(np.asarray(self.needs).flat[0])
        open_linkage, over = math.isnan(needs), bool(needs > self.most)
        fix = (self.long if over else self.short, self.advice[over])
        ends = {
            name: near(each, kind, 3)
            for name, each in (("least", self.least), ("most", self.most))
            if math.isfinite(each)
        }
        return Fault(
            field=f"pose of the {end} end, {self.name}",
            given="a place where its linkage cannot close"
            if open_linkage
            else Phrase("{needs} needed", needs=near(needs, kind, 3)),
            wanted=Phrase(" to ".join(f"{{{name}}}" for name in ends), **ends),
            fix="; ".join(each for each in fix if each),
        )


def refuse(stops: Iterable[JointLimit], *, end: str) -> None:
    """Raise ``PoseError`` with every limit that a single pose breaks."""
    faults = [stop.fault(end=end) for stop in stops if np.any(stop.violated)]
    if faults:
        raise PoseError(faults)


FARTHER = {
    "boom ram": ("the boom does not go so low", "the boom does not go so high"),
    "dipper ram": ("the dipper does not fold so far in", "the dipper does not stretch so far out"),
    "lift rams": ("the arms do not go so low", "the arms do not go so high"),
}


def ram_limit(name: str, ram: Ram, length: Real) -> JointLimit:
    """The stroke of a ram as a limit of the pose."""
    down, up = FARTHER.get(name, ("it does not tilt so far",) * 2)
    if isinstance(ram, LinkRam) and ram.lengthens == "down":
        down, up = up, down
    return JointLimit(
        name=f"stroke of the {name}",
        needs=length,
        least=plain(ram.closed),
        most=plain(ram.open),
        short=down,
        long=up,
        advice=ELSEWHERE,
    )


def dead_centre(name: str, ram: LinkRam, moment_arm: Real) -> JointLimit:
    """The side of its dead centre on which a ram is built in, as a limit of its moment arm [m].

    A ram is as long on the other side, but no ram turns its link past dead centre.
    """
    up = ram.lengthens == "up"
    words = "its ram would have to pass dead centre"
    return JointLimit(
        name=f"dead centre of the {name}",
        needs=moment_arm,
        least=0.0 if up else -math.inf,
        most=math.inf if up else 0.0,
        short=words,
        long=words,
        advice=ELSEWHERE,
    )
