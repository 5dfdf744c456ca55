"""A usual lift of each end, alike for machines of a class: what facts are worth is told by it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from liftcalc.errors import InputError
from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift
from liftcalc.family.doing import back_hook, front_hook
from liftcalc.family.known import KnownMachine
from liftcalc.machines.files import InHand
from liftcalc.machines.schema import EndName
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.lift import parse_lift
from liftcalc.requests.limits import STAND_IN

OUT = 0.85
"""How far out the hook of the usual lift is, as a share of boom and dipper [-]; judgement."""
HEIGHT = 1.0
"""How high it is [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualLift:
    """What a machine is allowed at the usual lift of an end: its hook at a place [m, kg].

    Straight, level, on ground that bears; at the back on its stabilisers, at the front on its
    wheels, where the arms decide the reach (None). ``low`` and ``high`` are the ends of all that
    the machine may be.
    """

    end: EndName
    reach: float | None
    height: float
    low: float
    high: float


def usual_reach(machine: KnownMachine) -> float:
    """How far out the hook of the usual lift at the back is, to a decimetre [m].

    Alike for machines of a class, but no farther than the machine's own chart goes, which rates
    nothing beyond.
    """
    back = machine.ensemble.kind.pattern.back
    usual = round(float(back.foot_pin[0]) + OUT * float(back.boom.length + back.dipper.length), 1)
    rows = [float(row.reach) for row in machine.plate if row.end == "back" and row.reach]
    return min(usual, max(rows, default=usual))


def usual_lift(machine: KnownMachine, *, end: EndName = "back") -> Lift:
    """The usual lift of an end by a machine, as far as loads decide it."""
    tool = back_hook(machine) if end == "back" else front_hook(machine)
    log = dict[str, Any](STAND_IN)
    request = LiftRequest(
        machine=InHand(machine),
        end=end,
        attachment=tool.name,
        reach=f"{usual_reach(machine)} m" if end == "back" else "",
        height=f"{HEIGHT} m",
        **log,
    )
    return replace(parse_lift(request).lift, loads_only=True)


def allowed_there(machine: KnownMachine, *, end: EndName = "back") -> UsualLift | None:
    """What a machine is allowed at the usual lift; None where it does not reach so far."""
    lift = usual_lift(machine, end=end)
    try:
        answer = check(lift)
    except InputError:
        return None
    high = answer.allowed if answer.most is None else max(answer.most, answer.allowed)
    return UsualLift(end=end, reach=lift.reach, height=HEIGHT, low=answer.allowed, high=high)
