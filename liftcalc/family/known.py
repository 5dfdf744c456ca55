"""A machine known by facts: the nearest to all that it may be, and all those with it."""

from __future__ import annotations

from typing import Any, Self

from pydantic import PrivateAttr

from liftcalc.family.posterior import Ensemble
from liftcalc.family.unlikely_fact import UnlikelyFact
from liftcalc.machines.schema import Machine


class KnownMachine(Machine):
    """One machine to draw and to pose, and the members of its family that agree with its facts.

    Whoever evaluates it asks all of them: what it does is known as far as they agree.
    """

    _ensemble: Ensemble = PrivateAttr()
    _slips: tuple[UnlikelyFact, ...] = PrivateAttr(default=())
    _members: Machine = PrivateAttr()

    @classmethod
    def of(cls, ensemble: Ensemble, slips: tuple[UnlikelyFact, ...] = (), **named: Any) -> Self:
        """The machine of an ensemble; ``named`` are its name, its title and what else it says."""
        typical = ensemble.typical
        own = {name: getattr(typical, name) for name in Machine.model_fields}
        made = cls.model_construct(**(own | named))
        made._ensemble, made._slips = ensemble, slips
        made._members = ensemble.machine.model_copy(update=named)
        return made

    @property
    def known_by(self) -> str:
        """How many facts tell of it, in words."""
        count = len(self._ensemble.told)
        return f"{count} fact{'' if count == 1 else 's'}" if count else "its class alone"

    @property
    def ensemble(self) -> Ensemble:
        """What it was told by, and what that left."""
        return self._ensemble

    @property
    def slips(self) -> tuple[UnlikelyFact, ...]:
        """Facts that hardly any machine of the class would give."""
        return self._slips

    @property
    def members(self) -> Machine:
        """All that it may be, as one machine whose figures are arrays."""
        return self._members

    def model_copy(self, *, update: Any = None, deep: bool = False) -> Self:
        """A copy; what changes on the machine changes on all that it may be."""
        made = super().model_copy(update=update, deep=deep)
        made._members = self._members.model_copy(update=update)
        return made

    def __eq__(self, other: object) -> bool:
        return self is other

    __hash__ = object.__hash__
