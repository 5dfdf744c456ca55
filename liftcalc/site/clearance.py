"""What must be kept of a lift, all or nothing, whatever the load weighs."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from liftcalc.factors import CapacityFactor
from liftcalc.physics.functions import Real
from liftcalc.physics.worked import Worked
from liftcalc.remarks import Remark, down, up

ClearanceKind = Literal[
    "wires",
    "edge",
    "people",
    "raised end",
    "off the ground",
    "choke",
    "sling on the log",
    "stabilisers down",
    "told as drawn",
    "carried low",
    "walking pace",
    "lowered slowly",
    "level enough",
    "off the machine",
    "levelling travel",
    "grip of levelled pads",
    "condition",
    "wear",
]

Measured = Literal[
    "length", "angle", "ratio", "speed", "slow speed", "slope", "creep", "thickness", "yes"
]
"""What is needed and what there is of it: a quantity, or only a yes."""


AT_MOST = frozenset(
    {"choke", "carried low", "walking pace", "lowered slowly", "level enough", "wear"}
)
"""What is kept by being little: of these ``has`` is the most there may be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Clearance:
    """Something that must be kept, such as a distance, and what there is of it.

    ``needs`` and ``has`` in SI by ``unit``, floats or arrays; ``has`` is what is left after all
    that reaches out, and may be below zero. ``source`` is a key of ``SOURCES``; ``said`` is why;
    ``worked`` how the one that is not just told was found. ``firm``: it is kept or it is not, and
    little left of it is as good as much.
    """

    name: str
    where: str
    needs: Real
    has: Real
    source: str
    said: Remark
    kind: ClearanceKind = "wires"
    worked: tuple[Worked, ...] = ()
    unit: Measured = "length"
    firm: bool = False

    @property
    def title(self) -> str:
        """Name and place in one phrase."""
        return f"{self.name} ({self.where})"

    @property
    def share(self) -> CapacityFactor:
        """All of it may be used, and why it must be kept."""
        return CapacityFactor(value=1.0, source=self.source, why=self.said)

    @property
    def room(self) -> Remark:
        """What is needed and what there is, of a single place."""
        if self.unit == "yes":
            return Remark("lacking")
        needs, has = up(self.needs, self.unit), down(self.has, self.unit)
        if has.value == math.inf:
            return Remark("any_room", needs=needs)
        if self.kind in AT_MOST:
            return Remark("at_most", is_=needs, most=has)
        return Remark("room", needs=needs, has=has)

    @property
    def met(self) -> Real:
        """Whether it is kept, bool or array; never where either is not a number."""
        return np.greater_equal(self.has, self.needs)

    @property
    def used(self) -> float:
        """Share of what there is that is needed, of a single place [-]; infinite: not kept."""
        if self.firm:
            return 0.0 if self.met else math.inf
        return float(self.needs) / float(self.has) if self.has > 0 else math.inf
