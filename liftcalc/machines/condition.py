"""The machine on the day: what a walk round it found, and how much of its figures that leaves.

Every figure here is judgement from common practice, without a source; each is meant to be careful.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

Defect = Literal[
    "cracked weld",
    "worn eye",
    "back hose",
    "front hose",
    "stabiliser hose",
    "loose clamp",
    "missing pad",
    "soft tyre",
    "cut tyre",
    "weak brake",
    "slack steering",
]
"""What is there or is not, by the words it is told in."""
DEFECTS: tuple[Defect, ...] = get_args(Defect)

PER_MINUTE = 0.001 / 60
"""A millimetre a minute [m/s]."""

SOUND_CREEP, MOST_CREEP = 10 * PER_MINUTE, 100 * PER_MINUTE
"""Creep of the hook with a load that a sound end may have, and past which none is hung [m/s]."""
HELD_AT_MOST_CREEP = 0.5
"""Share of their force that rams are counted for at the most creep [-], in proportion before."""

SOUND_PLAY, MOST_PLAY = 0.010, 0.060
"""Play at the nose that a sound end may have, and past which nothing is lifted with it [m]."""

SOUND_SINKING = 1 * PER_MINUTE
"""Creep of a stabiliser that is no news [m/s]."""
LASTS = 300.0
"""What a lift lasts from the wheels off the ground to the log down [s]."""
MOST_SUNK = 0.05
"""How far a stabiliser may sink in that time [m]: then the wheels touch again."""

SOFT_TYRE_SHARE = 0.7
"""Share of its rating that an axle keeps with a soft tyre [-]."""
SOFT_TYRE_DROP = 0.05
"""How much lower the machine stands on a soft tyre [m]."""

BARE_FOOT = 0.12
"""Side of what a stabiliser without its pad stands on [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """What was found of a machine; as it is made, a sound one of which nobody said so.

    Attributes
    ----------
    creep : float
        How fast the hook comes down with a load on it and nobody at the levers [m/s].
    play : float
        How far the nose moves, up and down or to the sides, before anything resists [m].
    stabiliser_creep : float
        How fast a stabiliser gives way under the machine [m/s].
    faults : tuple of Defect or None
        What is there of all that is there or is not; None where nobody said.
    """

    creep: float = 0.0
    play: float = 0.0
    stabiliser_creep: float = 0.0
    faults: tuple[Defect, ...] | None = None

    def has(self, *some: Defect) -> bool:
        """Whether any of some faults was found."""
        return self.faults is not None and not set(some).isdisjoint(self.faults)

    @property
    def ram_share(self) -> float:
        """Share of their force that rams are counted for [-].

        Oil that leaks past a piston or a valve is lost to holding, not to pressure: judgement,
        which understates what a ram can raise.
        """
        beyond = (self.creep - SOUND_CREEP) / (MOST_CREEP - SOUND_CREEP)
        return 1 - (1 - HELD_AT_MOST_CREEP) * min(max(beyond, 0.0), 1.0)

    @property
    def stray(self) -> float:
        """How far off its place, out, in and to either side, play lets the load hang [m].

        All of the play each way, where half would be its middle: overstates.
        """
        return self.play if self.play > SOUND_PLAY else 0.0

    @property
    def sunk(self) -> float:
        """How far one stabiliser sinks while a lift lasts [m]; the other is taken to stay."""
        return self.stabiliser_creep * LASTS if self.stabiliser_creep > SOUND_SINKING else 0.0

    @property
    def tyre_share(self) -> float:
        """Share of its rating that an axle keeps, whichever tyre is soft [-]."""
        return SOFT_TYRE_SHARE if self.has("soft tyre") else 1.0
