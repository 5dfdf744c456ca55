"""What a machine is: files, links, poses.

The front door's ``liftcalc.machines()`` has the name of this room, so the room itself answers.
"""

import sys
from types import ModuleType


class _Room(ModuleType):
    def __call__(self) -> list[str]:
        """Names of the shipped machines, as ``liftcalc.load_machine`` takes them."""
        from liftcalc.machines.files import shipped_names  # noqa: PLC0415 - a room loads nothing

        return shipped_names()


sys.modules[__name__].__class__ = _Room
