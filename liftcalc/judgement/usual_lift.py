"""One usual lift, the same for all machines of a class: what facts are worth is told by it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from liftcalc.errors import InputError
from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift
from liftcalc.family.doing import back_hook
from liftcalc.family.kind import MachineKind
from liftcalc.family.known import KnownMachine
from liftcalc.machines.files import InHand
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.lift import parse_lift
from liftcalc.requests.limits import STAND_IN

OUT = 0.85
"""How far out the hook of the usual lift is, as a share of boom and dipper [-]; judgement."""
HEIGHT = 1.0
"""How high it is [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualLift:
    """What a machine is allowed at the usual lift: with its hook at a reach and a height [m, kg].

    Straight back on its stabilisers, level, on ground that bears; ``low`` and ``high`` are the ends
    of all that the machine may be.
    """

    reach: float
    height: float
    low: float
    high: float


def usual_reach(kind: MachineKind) -> float:
    """How far out the hook of a class's usual lift is, to a decimetre [m]."""
    back = kind.pattern.back
    return round(float(back.foot_pin[0]) + OUT * float(back.boom.length + back.dipper.length), 1)


def usual_lift(machine: KnownMachine) -> Lift:
    """The usual lift by a machine, as far as loads decide it."""
    tool, log = back_hook(machine), dict[str, Any](STAND_IN)
    request = LiftRequest(
        machine=InHand(machine),
        end="back",
        attachment=tool.name,
        reach=f"{usual_reach(machine.ensemble.kind)} m",
        height=f"{HEIGHT} m",
        **log,
    )
    return replace(parse_lift(request).lift, loads_only=True)


def allowed_there(machine: KnownMachine) -> UsualLift | None:
    """What a machine is allowed at the usual lift; None where it does not reach so far."""
    lift = usual_lift(machine)
    try:
        answer = check(lift)
    except InputError:
        return None
    reach = usual_reach(machine.ensemble.kind)
    high = answer.allowed if answer.most is None else max(answer.most, answer.allowed)
    return UsualLift(reach=reach, height=HEIGHT, low=answer.allowed, high=high)
