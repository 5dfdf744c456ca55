"""How far a load may lean, and of what that is the sum."""

from __future__ import annotations

from typing import NamedTuple

from liftcalc.physics.functions import Real
from liftcalc.physics.worked import Worked


class Lean(NamedTuple):
    """How far a load may lean [rad], and of what that is the sum.

    ``swing`` as said, ``shaken`` by the machine's own acceleration, by ``slewing``, and by the
    ``pull`` of a log that is skidded.
    """

    swing: Real
    shaken: Worked | None
    slewing: Worked | None
    pull: Real
    total: Real
