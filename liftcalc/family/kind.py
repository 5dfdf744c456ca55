"""What of a machine one sees at a glance and no tape tells: its class and how it is built."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from liftcalc.errors import InputError, did_you_mean
from liftcalc.machines.files import load
from liftcalc.machines.schema import Machine

Mount = Literal["centre mount", "sideshift"]
BoomRam = Literal["above", "below"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MachineClass:
    """A class of the trade: its usual mass [kg], its band as a spread [-], and how it is built.

    ``mass`` is the middle of the band of common practice, ``spread`` the standard deviation of its
    logarithm: the band, from memory, is taken to hold nearly all members, and
    six real machines of seven, which lie farther out: see ``posterior.FARTHER``.
    """

    name: str
    mass: float
    spread: float
    mount: Mount
    boom_ram: BoomRam


CLASSES = {
    each.name: each
    for each in (
        MachineClass(
            name="compact-centre-mount",
            mass=5250.0,
            spread=0.08,
            mount="centre mount",
            boom_ram="above",
        ),
        MachineClass(
            name="standard-sideshift", mass=8000.0, spread=0.04, mount="sideshift", boom_ram="above"
        ),
        MachineClass(
            name="standard-centre-mount",
            mass=7750.0,
            spread=0.055,
            mount="centre mount",
            boom_ram="below",
        ),
        MachineClass(
            name="small-tractor", mass=3000.0, spread=0.095, mount="centre mount", boom_ram="below"
        ),
    )
}
"""By the name of the shipped machine that shows the class; bands of common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MachineKind:
    """The class of a machine, how its back end is mounted, and on which side the boom ram lies.

    These stay as they are told: no machine lies between two of them.
    """

    of: MachineClass
    mount: Mount
    boom_ram: BoomRam

    @property
    def pattern(self) -> Machine:
        """The shipped machine of the class, for what the family leaves as it is."""
        return load(self.of.name)


def machine_kind(
    name: str, *, mount: Mount | None = None, boom_ram: BoomRam | None = None
) -> MachineKind:
    """The kind of a class by name, as usual for it where nothing else is said.

    Raises ``InputError`` for an unknown class.
    """
    found = CLASSES.get("-".join(name.lower().replace(",", " ").split()))
    if found is None:
        raise InputError.of(
            field="class",
            given=f'"{name}"',
            wanted=f"one of {', '.join(CLASSES)}",
            fix=did_you_mean(name, CLASSES) or "choose the one most like your machine",
        )
    return MachineKind(of=found, mount=mount or found.mount, boom_ram=boom_ram or found.boom_ram)
