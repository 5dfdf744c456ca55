"""What a lesson may ask of an answer, by name: numbers with their unsafe side, and parts."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.ground_forces import SupportForce
from liftcalc.questions.farthest import greatest_reach
from liftcalc.units import Kind, Rounding, System, show

Side = Literal["over", "under", "neither"]
"""The unsafe side of an error: a capacity guessed over, a load or force guessed under."""

Option = tuple[str, float]
"""A part by name, and how much it can take: the least gives out first."""

_ROUNDED: dict[Side, Rounding] = {"over": "down", "under": "up", "neither": "near"}


def rounded(unsafe: Side) -> Rounding:
    """Capacities are rounded down, loads up."""
    return _ROUNDED[unsafe]


class UnfitError(Exception):
    """This scene has no such quantity, or no value worth asking for; another scene is drawn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """A number of an answer [SI]: how it is read and shown, and its unsafe side."""

    kind: Kind
    unsafe: Side
    read: Callable[[Answer], float]

    def of(self, answer: Answer) -> float:
        """The number; ``UnfitError`` where it is NaN, zero or infinite."""
        value = float(self.read(answer))
        if not (math.isfinite(value) and value > 0):
            raise UnfitError("what is asked is nothing or endless")
        return value

    def shown(self, value: float, system: System) -> str:
        """The number for people: capacities rounded down, loads up."""
        return show(value, self.kind, system, rounded(self.unsafe))


def _line(answer: Answer) -> float:
    return min(float(each.tipping_load) for each in answer.reached.lines)


def _ram(name: str) -> Callable[[Answer], float]:
    def read(answer: Answer) -> float:
        for each in answer.reached.rams:
            if each.joint.name == name:
                return float(each.capacity)
        raise UnfitError(f"there is no {name}")

    return read


def _pads(answer: Answer) -> list[SupportForce]:
    found = [each for each in _standing(answer) if each.kind == "pad"]
    if not found:
        raise UnfitError("no pad is down")
    return found


def _standing(answer: Answer) -> tuple[SupportForce, ...]:
    """The feet of a machine that does not tip."""
    if not answer.ground_forces.stands:
        raise UnfitError("the machine tips under the log")
    return answer.ground_forces.feet


def _sling(answer: Answer) -> float:
    found = [each.capacity for each in answer.criteria if each.kind == "sling"]
    if not found:
        raise UnfitError("nothing is known of the sling")
    return min(found)


def _farthest(answer: Answer) -> float:
    lift = answer.lift
    value = float(greatest_reach(lift).value or math.nan)
    if answer.passes and lift.reach is not None and value < lift.reach:
        # The hook hangs beyond a gap in what the arm reaches, so no "as far as" would be true.
        raise UnfitError("the reaches at this height have a gap")
    return value


MEASURES: dict[str, Measure] = {
    "tipping load": Measure(kind="mass", unsafe="over", read=_line),
    "ram load": Measure(
        kind="mass", unsafe="over", read=lambda a: min(float(x.capacity) for x in a.reached.rams)
    ),
    **{
        f"{name} load": Measure(kind="mass", unsafe="over", read=_ram(name))
        for name in ("boom ram", "dipper ram", "bucket ram", "lift rams", "tilt rams")
    },
    "allowed load": Measure(kind="mass", unsafe="over", read=lambda a: a.allowed),
    "heaviest log": Measure(kind="mass", unsafe="over", read=lambda a: a.heaviest_log),
    "sling load": Measure(kind="mass", unsafe="over", read=_sling),
    "farthest reach": Measure(kind="length", unsafe="over", read=_farthest),
    "log mass": Measure(kind="mass", unsafe="under", read=lambda a: a.lift.log.mass_planning),
    "likely mass": Measure(kind="mass", unsafe="under", read=lambda a: a.lift.log.mass_likely),
    "hook load": Measure(kind="mass", unsafe="under", read=lambda a: a.lift.needed),
    "pad force": Measure(
        kind="force", unsafe="under", read=lambda a: max(x.worst for x in _pads(a))
    ),
    "pad pressure": Measure(
        kind="bearing", unsafe="under", read=lambda a: max(x.pressure or 0.0 for x in _pads(a))
    ),
    "balance point": Measure(
        kind="length", unsafe="neither", read=lambda a: a.lift.log.cog_from_butt
    ),
}
"""Numbers that can be asked, by name."""

PLACES = frozenset({"balance point", "farthest reach"})
"""Numbers that are places on the drawing: near is meant in metres, not in a ratio."""


def _stops(answer: Answer) -> list[Option]:
    return [(each.title, each.heaviest_log) for each in answer.criteria]


def _lines(answer: Answer) -> list[Option]:
    return [(each.line.name, float(each.tipping_load)) for each in answer.reached.lines]


def _rams(answer: Answer) -> list[Option]:
    return [(each.joint.name, float(each.capacity)) for each in answer.reached.rams]


def _feet(answer: Answer) -> list[Option]:
    # The one that carries most gives out first.
    return [(each.name, 1 / max(each.worst, 1e-9)) for each in _standing(answer)]


PARTS_OF: dict[str, Callable[[Answer], list[Option]]] = {
    "what stops it": _stops,
    "which line": _lines,
    "which ram": _rams,
    "which foot": _feet,
}
"""Parts that can be asked for, by name."""

OTHERS = ("what is missing", "chart load", "which may go ahead")
"""What else can be asked: of a list, of an invented chart, of cards."""


def part(asks: str, answer: Answer) -> str:
    """The part that gives out first."""
    return min(PARTS_OF[asks](answer), key=lambda each: each[1])[0]
