"""What each thing found on a walk round would cost a machine, at the lifts it is used for."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from liftcalc.errors import InputError, PoseError
from liftcalc.evaluation.check import check
from liftcalc.evaluation.condition import ITEMS, Item
from liftcalc.evaluation.sweep import sweep
from liftcalc.machines.files import load
from liftcalc.machines.schema import Machine
from liftcalc.remarks import Remark, near
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.lift import parse_lift
from liftcalc.requests.reader import read_text
from liftcalc.requests.table import field_of
from liftcalc.requests.usual import careful_lift

HEIGHT = 3.0
"""Of the lift point over the back, in the lifts that stand for all [m]; common practice."""
RAISED, CARRIED = 1.5, 0.8
"""Height of what the front end lifts standing, and carries [m]; common practice, no source."""
FAR = 0.5
"""Share of the most it lifts over the back anywhere, down to which it is used farther out [-]."""
YARD: dict[str, Any] = {
    "species": "unknown hardwood",
    "length": "2.5 m",
    "mid": "30 cm",
    "ground": "hard standing",
    "slope": "0 deg",
    "breakout": "1",
    "wires": "none",
    "edge": "none",
    "people": "none",
}
"""A log and a place that decide little beside the machine."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualLift:
    """A lift that stands for many, and what a sound machine is allowed in it [kg]."""

    name: Remark
    request: LiftRequest
    allowed: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What an item, worn as it is told, would leave of a lift [kg]."""

    lift: UsualLift
    allowed: float

    @property
    def lost(self) -> float:
        """What it takes off [kg]; no less than nothing."""
        return max(self.lift.allowed - self.allowed, 0.0)

    @property
    def barred(self) -> bool:
        """Whether nothing is left of a lift that there was."""
        return self.allowed <= 0 < self.lift.allowed


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """An item, as it would be told of a worn machine, and what that would cost."""

    item: Item
    told: str
    costs: tuple[Cost, ...]

    @property
    def barred(self) -> tuple[Cost, ...]:
        """The lifts that are none any more."""
        return tuple(each for each in self.costs if each.barred)

    @property
    def worst(self) -> Cost:
        """Where it costs most of those that are left, or of all where none is."""
        left = [each for each in self.costs if not each.barred]
        return max(left or self.costs, key=lambda each: each.lost)

    @property
    def dear(self) -> tuple[int, float]:
        """What to sort by: kinds of lift it takes, then kilograms."""
        return len(self.barred), sum(each.lost for each in self.costs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Walkround:
    """What to look at on a machine, dearest first."""

    machine: Machine
    lifts: tuple[UsualLift, ...]
    findings: tuple[Finding, ...]


def walkround(machine: str, *, own: Sequence[tuple[str, LiftRequest]] = ()) -> Walkround:
    """What to look at on a machine, each with what it would cost, dearest first.

    Parameters
    ----------
    machine : str
        Its name or file.
    own : sequence of pairs
        Lifts to reckon with in place of those that stand for all, by the names of their files.

    Returns
    -------
    Walkround
        Every item alone, as the table of items has it of a worn machine; several together cost
        more. A sound machine has the file's pressure and its warning devices.

    Raises
    ------
    InputError
        Where no lift can be made of the machine, or one of its own is refused.
    """
    known = load(machine)
    made = [_own(known, machine, name, each) for name, each in own] or [*_usual(known, machine)]
    lifts = tuple(each for each in made if each.allowed > 0)
    if not lifts:
        raise InputError.of(
            field="lift" if own else "machine",
            given=", ".join(name for name, _ in own) or f'"{machine}"',
            wanted="a lift in which a sound machine is allowed something",
        )
    found = [_finding(item, known, lifts) for item in ITEMS if item.asked(known)]
    found.sort(key=lambda each: each.dear, reverse=True)
    return Walkround(machine=known, lifts=lifts, findings=tuple(found))


def _finding(item: Item, machine: Machine, lifts: Sequence[UsualLift]) -> Finding:
    told = item.told(machine)
    worn: dict[str, Any] = {item.field: told}
    costs = tuple(
        Cost(lift=each, allowed=_allowed(replace(each.request, **worn))) for each in lifts
    )
    _, echo = read_text(field_of(LiftRequest, item.field), told)
    return Finding(item=item, told=echo, costs=costs)


def _allowed(request: LiftRequest) -> float:
    """Allowed at the lift point with all that is not said at its careful end [kg]."""
    try:
        return max(check(careful_lift(request).lift).allowed, 0.0)
    except PoseError:
        return 0.0


def _sound(request: LiftRequest, machine: Machine) -> LiftRequest:
    """The lift by a machine that nothing is wrong with."""
    book = f"{float(machine.hydraulics.working_pressure) / 1e5:.6f} bar"
    blank: dict[str, Any] = {"creep": "", "play": "", "stabiliser_creep": ""}
    return replace(request, pressure=book, devices="fitted", faults="none", **blank)


def _own(known: Machine, machine: str, file: str, request: LiftRequest) -> UsualLift:
    request = _sound(replace(request, machine=machine), known)
    height = near(parse_lift(request).lift.height, "length")
    name = Remark("usual_own", file=file, end=request.end, height=height)
    return UsualLift(name=name, request=request, allowed=_allowed(request))


def _usual(known: Machine, machine: str) -> Iterator[UsualLift]:
    """Over the back as near as it lifts most and as far as half of that; in front; on the move."""
    base = _sound(LiftRequest(machine=machine, **YARD), known)
    slew = min(math.pi / 2, float(known.back.slew_limit))
    back = replace(
        base, end="back", height=_metres(HEIGHT), reach="2 m", slew=f"{math.degrees(slew):.1f} deg"
    )
    for reach in _reaches(back):
        name = Remark("usual_back", reach=near(reach, "length"), height=near(HEIGHT, "length"))
        request = replace(back, reach=_metres(reach))
        yield UsualLift(name=name, request=request, allowed=_allowed(request))
    front = replace(base, end="front", height=_metres(RAISED))
    name = Remark("usual_front", height=near(RAISED, "length"))
    yield UsualLift(name=name, request=front, allowed=_allowed(front))
    carried = replace(front, height=_metres(CARRIED), travelling=True)
    yield UsualLift(name=Remark("usual_carried"), request=carried, allowed=_allowed(carried))


def _metres(value: float) -> str:
    return f"{value:.2f} m"


def _reaches(back: LiftRequest) -> tuple[float, ...]:
    """Where it lifts most, and farthest out where it lifts ``FAR`` of that, to a decimetre [m]."""
    lift = careful_lift(back).lift
    places = np.arange(5, 100) / 10
    loads = sweep(lift, reach=places, height=np.full(places.size, HEIGHT)).allowed[:, 0]
    loads = np.nan_to_num(loads)
    if not loads.max() > 0:
        return ()
    far = places[loads >= FAR * loads.max()].max()
    return tuple(dict.fromkeys((float(places[loads.argmax()]), float(far))))
