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
from liftcalc.remarks import Figure, Remark, Words, near
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.lift import parse_lift
from liftcalc.requests.reader import read_text
from liftcalc.requests.table import field_of
from liftcalc.requests.usual import careful_lift

HEIGHTS = (3.0, 2.5, 2.0)
"""Of the lift point over the back, in the lifts that stand for all [m]: the first that it can lift
at; common practice, no source."""
RAISED, CARRIED = 1.5, 0.8
"""Height of what the front end lifts standing, and carries [m]; common practice, no source."""
FAR = 0.5
"""Share of the most it lifts over the back anywhere, down to which it is used farther out [-]."""
YARD: dict[str, Any] = {
    "species": "unknown hardwood",
    "length": "2.5 m",
    "mid": "30 cm",
    "ground": "concrete",
    "slope": "0 deg",
    "breakout": "1",
    "wires": "none",
    "edge": "none",
    "people": "none",
}
"""A log and a place that decide little beside the machine."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualLift:
    """A lift that stands for many, what a sound machine is allowed in it [kg], and why no more."""

    name: Remark
    request: LiftRequest
    allowed: float
    governs: Words


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
    """An item, what of it would be told of a worn machine, and what that would cost."""

    item: Item
    told: str | Figure
    costs: tuple[Cost, ...]

    @property
    def barred(self) -> tuple[Cost, ...]:
        """The lifts that are none any more."""
        return tuple(each for each in self.costs if each.barred)

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
        Cost(lift=each, allowed=_allowed(replace(each.request, **worn))[0]) for each in lifts
    )
    row = field_of(LiftRequest, item.field)
    value, _ = read_text(row, told)
    kind: Any = "thickness" if row.kind == "length" else row.kind
    figure = near(value, kind) if isinstance(value, float) else told
    return Finding(item=item, told=figure, costs=costs)


def _allowed(request: LiftRequest) -> tuple[float, Words]:
    """Allowed at the lift point with all that is not said at its careful end [kg], and by what."""
    try:
        answer = check(careful_lift(request).lift)
    except PoseError:
        return 0.0, ""
    return max(answer.allowed, 0.0), answer.governs


def _lift(name: Remark, request: LiftRequest) -> UsualLift:
    allowed, governs = _allowed(request)
    return UsualLift(name=name, request=request, allowed=allowed, governs=governs)


def _sound(request: LiftRequest, machine: Machine) -> LiftRequest:
    """The lift by a machine that nothing is wrong with."""
    book = f"{float(machine.hydraulics.working_pressure) / 1e5:.6f} bar"
    blank: dict[str, Any] = {"creep": "", "play": "", "stabiliser_creep": ""}
    return replace(request, pressure=book, devices="fitted", faults="none", **blank)


def _own(known: Machine, machine: str, file: str, request: LiftRequest) -> UsualLift:
    request = _sound(replace(request, machine=machine), known)
    height = near(parse_lift(request).lift.height, "length")
    name = Remark("usual_own", file=file, end=request.end, height=height)
    return _lift(name, request)


def _usual(known: Machine, machine: str) -> Iterator[UsualLift]:
    """Over the back and to a side, far out; in front; and on the move."""
    base = _sound(LiftRequest(machine=machine, **YARD), known)
    aside = math.degrees(min(math.pi / 2, float(known.back.slew_limit)))
    for slew in (0.0, aside):
        back = replace(base, end="back", reach="2 m", slew=f"{slew:.1f} deg")
        if place := _place(back):
            reach, height = place
            name = Remark(
                "usual_side" if slew else "usual_back",
                reach=near(reach, "length"),
                height=near(height, "length"),
            )
            yield _lift(name, replace(back, reach=_metres(reach), height=_metres(height)))
    front = replace(base, end="front", height=_metres(RAISED))
    yield _lift(Remark("usual_front", height=near(RAISED, "length")), front)
    carried = replace(front, height=_metres(CARRIED), travelling=True)
    yield _lift(Remark("usual_carried"), carried)


def _metres(value: float) -> str:
    return f"{value:.2f} m"


def _place(back: LiftRequest) -> tuple[float, float] | None:
    """Farthest out at a height where it lifts ``FAR`` of the most it lifts there [m]."""
    reaches = np.arange(5, 100) / 10
    for height in HEIGHTS:
        lift = careful_lift(replace(back, height=_metres(height))).lift
        found = sweep(
            lift, reach=reaches, height=np.full(reaches.size, height), slew=np.array([lift.slew])
        )
        loads = np.nan_to_num(found.allowed[:, 0])
        if loads.max() > 0:
            return float(reaches[loads >= FAR * loads.max()].max()), height
    return None
