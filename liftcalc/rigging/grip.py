"""What a jaw or grab holds by friction alone."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, get_args

from liftcalc.errors import raise_any
from liftcalc.physics import formulas
from liftcalc.physics.worked import Worked, work
from liftcalc.rigging.sling import sound

Surface = Literal["bark on", "bark on, wet", "peeled", "peeled, wet", "frosted"]
SURFACES: tuple[Surface, ...] = get_args(Surface)

FRICTION: dict[Surface, float] = {
    "bark on": 0.30,
    "bark on, wet": 0.20,
    "peeled": 0.15,
    "peeled, wet": 0.10,
    "frosted": 0.05,
}
"""Friction of steel jaws on a log [-].

From memory, careful: no source read. Steel on dry wood is given as 0.2 to 0.6; a log fresh from
its bark is as slippery as soap, and loose bark comes off with the jaw. Teeth are not credited.
"""

GRIP_SAFETY = 2.0
"""Hold that is asked for over the need [-]; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Grip:
    """What a grip holds.

    ``held`` is the log that it may hold, safety counted [kg], infinite where no weight lies on the
    grip; ``share`` the share of the weight that only friction holds [-]; ``worked`` the working,
    empty where nothing had to be computed.
    """

    held: float
    share: float
    worked: tuple[Worked, ...] = ()


def along_share(*, lean: float) -> float:
    """Share of a log's weight that acts along it [-].

    For a grab whose tines close under the log: across the log they carry it, along it only
    friction does.

    Parameters
    ----------
    lean : float
        The log off the level, either way [rad].

    Raises
    ------
    InputError
        When it is no number.
    """
    faults = sound("lean of the log", lean, unit="rad", least=-math.inf)
    raise_any(faults)
    # Beyond upright there is no more than all of it.
    return math.sin(min(abs(lean), math.pi / 2))


def load_held(
    *, jaw_force: float, friction: float, safety: float = GRIP_SAFETY, share: float = 1.0
) -> Grip:
    """Log that the grip of two jaws may hold.

    Parameters
    ----------
    jaw_force : float
        Of each jaw on the log [N].
    friction : float
        Of jaw and log [-].
    safety : float
        Hold asked for over the need, at least 1 [-].
    share : float
        Of the weight that only friction holds [-]: 1 where the log hangs in the jaws,
        ``along_share`` where tines close under it.

    Returns
    -------
    Grip

    Raises
    ------
    InputError
        For figures that are none or out of their bounds.
    """
    _refuse(jaw_force=jaw_force, friction=friction, safety=safety, share=share)
    if share == 0:
        return Grip(held=math.inf, share=0.0)
    worked = work(
        "log that the grip may hold",
        formulas.jaw_load,
        jaw_force=jaw_force,
        jaw_friction=friction,
        grip_safety=safety,
        gripped_share=share,
    )
    return Grip(held=worked.result, share=share, worked=(worked,))


def _refuse(
    *, jaw_force: float, friction: float, safety: float = GRIP_SAFETY, share: float = 1.0
) -> None:
    faults = [
        *sound("jaw-force", jaw_force, unit="N", least=0.0),
        *sound("grip-friction", friction, unit="-", least=0.0),
        *sound("grip-safety", safety, unit="-", least=1.0),
        *sound("share on the grip", share, unit="-", least=0.0, below=1.0 + 1e-12),
    ]
    raise_any(faults)
