"""Cases of the campaign, drawn by seed: what is typed, and the same as motion in the engine."""

from __future__ import annotations

import math
import shlex
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal, get_args

import numpy as np

from dynamics.model import Obstacle
from dynamics.runs import Move
from liftcalc.errors import InputError
from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.lift import Lift
from liftcalc.judgement.judge import judge
from liftcalc.machines.files import load, shipped_names
from liftcalc.machines.schema import Attachment, LiftPoint, Machine
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.usual import ranged

Kind = Literal["braking", "turning", "bump", "slewing", "lowering", "side slope"]
KINDS: tuple[Kind, ...] = get_args(Kind)

OF_MOTION = {"tipping", "ram", "grip", "least axle load", "traction"}
"""Kinds of criteria whose failing the engine would see."""
LEAST_LOAD = 100.0
"""A case that is allowed less is drawn again [kg]."""
WALK = (0.8, 1.5)
"""Walking pace [m/s]."""
USUAL = 1.1, 0.10
"""Pace and obstacle that a carry is taken to meet where nobody said [m/s, m]; a third of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A case: what is typed, what happens, and what the tool makes of it.

    ``allowed`` is the heaviest log of the answer, ``by_motion`` that of the criteria that the
    engine can see [kg]; ``governs`` which of those sets it; ``slips`` is the ground's friction.
    """

    kind: Kind
    number: int
    typed: tuple[tuple[str, str], ...]
    move: Move
    allowed: float
    by_motion: float
    governs: str
    slips: float

    @property
    def lift(self) -> Lift:
        """The lift as read, at the careful end of all that is not typed."""
        return ranged(request(dict(self.typed))).read.lift

    @property
    def held(self) -> str:
        """How the load is held."""
        return "hung" if self.lift.point.hold == "hangs" else "held"

    @property
    def command(self) -> str:
        """The command line that asks the tool about it."""
        words = ["liftcalc", "check", dict(self.typed)["machine"]]
        for name, value in self.typed:
            if name != "machine":
                words += [f"--{name.replace('_', '-')}"] + ([value] if value != "yes" else [])
        return shlex.join(words)


def request(typed: dict[str, str]) -> LiftRequest:
    """The request that is typed."""
    given = {name: True if value == "yes" else value for name, value in typed.items()}
    return LiftRequest(**given)  # type: ignore[arg-type]


@lru_cache(maxsize=8)
def shipped(name: str) -> Machine:
    """A shipped machine."""
    return load(name)


def heaviest(answer: Answer, *, of_motion: bool) -> tuple[float, str]:
    """Heaviest log of an answer [kg], and what sets it; of what the engine sees, or of all."""
    counted = [e for e in answer.criteria if not of_motion or e.kind in OF_MOTION]
    least = min(counted, key=lambda each: each.heaviest_log)
    return max(0.0, least.heaviest_log), least.title


def at_rest(end: str, *, hangs: bool, travels: bool) -> dict[str, str]:
    """That nothing moves but what a case types beside this: else the tool takes the usual."""
    typed = {"wind": "0 m/s"}
    if hangs:
        typed["swing"] = "0 deg"
    if end == "back":
        typed["slew_speed"] = "0 deg/s"
    if travels:
        typed |= {"braking": "0 m/s2", "turn_radius": "1000 m", "sinkage": "0 cm"}
    return typed


class Draw:
    """One case being drawn."""

    def __init__(self, rng: np.random.Generator) -> None:
        self.rng = rng

    def between(self, low: float, high: float) -> float:
        return float(self.rng.uniform(low, high))

    def one_of(self, *what: str) -> str:
        return str(what[int(self.rng.integers(len(what)))])

    def log(self) -> dict[str, str]:
        return {
            "species": self.one_of(
                "english oak", "european larch", "norway spruce", "european beech"
            ),
            "length": f"{self.between(2.0, 5.5):.1f} m",
            "mid": f"{self.between(24, 62):.0f} cm",
        }

    def fitted(self, machine: Machine, end: str) -> tuple[Attachment, LiftPoint]:
        every = [
            (tool, point)
            for tool in machine.attachment
            if tool.end == end
            for point in tool.lift_point
        ]
        return every[int(self.rng.integers(len(every)))]

    def ground(self, kind: Kind) -> dict[str, str]:
        steep = kind == "side slope"
        slope = self.between(3.0, 9.0) if steep else self.between(0.0, 2.0)
        uphill = self.between(-30, 30) + 90 * self.rng.choice([-1, 1])
        if not steep:
            uphill = self.between(-180, 180)
        return {
            "ground": "rock",
            "friction": f"{self.between(0.35, 0.8):.2f}",
            "slope": f"{slope:.1f} deg",
            "uphill": f"{uphill:.0f} deg",
        }

    def place(
        self, machine: Machine, end: str, point: LiftPoint, *, carried: bool
    ) -> dict[str, str]:
        hung = point.hold == "hangs"
        if end == "front":
            low, high = (1.2, 2.6) if hung else (0.3, 1.0 if carried else 2.6)
            return {"height": f"{self.between(low, high):.2f} m"}
        span = float(machine.back.boom.length + machine.back.dipper.length)
        return {
            "height": f"{self.between(1.2, 3.2):.2f} m",
            "reach": f"{self.between(0.4, 1.0) * span:.2f} m",
        }

    def travel(self, kind: Kind) -> tuple[dict[str, str], Move]:
        """A drive, braked, in a turn or over an obstacle."""
        what = kind if kind != "side slope" else self.one_of("braking", "turning", "bump")
        speed = self.between(*WALK)
        typed = {"travelling": "yes"}
        if what == "braking":
            speed, brake = self.between(0.8, 2.2), self.between(0.7, 2.5)
            typed |= {"braking": f"{brake:.2f} m/s2"}
            move = Move(speed=speed * self.rng.choice([-1, 1, 1]), braking=brake)
        elif what == "turning":
            speed, radius = self.between(1.0, 2.2), self.between(4.0, 10.0)
            typed |= {"turn_radius": f"{radius:.1f} m"}
            move = Move(speed=speed, turn_radius=radius * self.rng.choice([-1, 1]))
        else:
            thickness = self.between(0.10, 0.15)
            if self.rng.integers(3) == 0:
                speed, thickness = USUAL
            log = Obstacle(thickness=thickness, ahead=1.2, side=self.one_of("left", "right"))
            move = Move(speed=speed, obstacle=log)
        return typed | {"speed": f"{speed:.2f} m/s"}, move

    def slewing(self, machine: Machine) -> tuple[dict[str, str], Move]:
        """A slew outward that starts, goes on and stops where the lift is."""
        most = math.degrees(float(machine.back.slew_limit))
        at = self.between(25, most) * self.rng.choice([-1, 1])
        rate, stop = math.radians(self.between(10, 45)), self.between(0.7, 2.0)
        room = math.radians(1.6 * abs(at)) / rate - stop
        stop = stop if room > 0 else stop + 0.9 * room
        cruise = self.between(0.0, max(room, 0.0))
        move = Move(slewing=rate, slew_stop=stop, slew_cruise=cruise, way=float(np.sign(at)))
        typed = {
            "slew": f"{at:.0f} deg",
            "slew_speed": f"{math.degrees(rate):.1f} deg/s",
            "slew_stop": f"{stop:.2f} s",
        }
        return typed, move

    def lowering(self, end: str, machine: Machine) -> tuple[dict[str, str], Move]:
        """A load that comes down and is stopped."""
        move = Move(
            lowering=float(self.rng.choice([0.2, 0.4, 0.6])), lowering_stop=self.between(0.1, 0.4)
        )
        if end == "front":
            return {}, move
        most = math.degrees(float(machine.back.slew_limit))
        return {"slew": f"{self.between(-most, most):.0f} deg"}, move

    def asked(self, kind: Kind) -> tuple[dict[str, str], Move]:
        """A case of a kind: what is typed, and what happens."""
        machine = shipped(self.one_of(*shipped_names()))
        end = {"slewing": "back", "lowering": self.one_of("front", "back", "back")}.get(
            kind, "front"
        )
        if kind == "side slope":
            end = self.one_of("front", "back")
        tool, point = self.fitted(machine, end)
        if kind == "lowering":
            more, move = self.lowering(end, machine)
        elif end == "back":
            more, move = self.slewing(machine)
        else:
            more, move = self.travel(kind)
        stance = "wheels"
        if end == "back":
            stance = self.one_of("stabilisers", "stabilisers", "stabilisers and bucket", "wheels")
        hangs = point.hold == "hangs"
        typed = {
            "machine": machine.name,
            "end": end,
            "attachment": tool.name,
            "lift_point": point.name,
            "stance": stance,
            **self.place(machine, end, point, carried=bool(move.speed)),
            **self.log(),
            **self.ground(kind),
            **at_rest(end, hangs=hangs, travels="travelling" in more),
            **more,
        }
        if stance != "wheels":
            typed["mat"] = "0.9 m"
        if hangs and tool.mount != "hangs":
            typed |= {"sling_length": f"{self.between(1.0, 3.0):.1f} m"}
            typed |= {"sling": self.one_of("choked", "basket")}
        return typed, move


def judged(typed: dict[str, str], move: Move) -> tuple[float, float, str] | None:
    """What the tool allows on the way of a case: all criteria, those of motion, what governs.

    A slew goes through places that the end of it does not speak for: each is asked.
    """
    places = [typed]
    if move.slewing:
        end = math.radians(float(typed["slew"].split()[0]))
        steps = max(2, math.ceil(abs(move.slewed) / math.radians(12)))
        places = [
            typed | {"slew": f"{math.degrees(end - move.slewed * n / steps):.2f} deg"}
            for n in range(steps + 1)
        ]
    found = []
    for place in places:
        try:
            answer, _ = judge(request(place))
        except InputError:
            return None
        if answer.lowest < 0:
            return None
        found.append((heaviest(answer, of_motion=False)[0], *heaviest(answer, of_motion=True)))
    least, (by_motion, governs) = min(f[0] for f in found), min(f[1:] for f in found)
    return least, by_motion, governs


def drawn(kind: Kind, number: int, *, seed: int) -> Case:
    """The case of a number: always the same by its seed."""
    rng = np.random.default_rng([seed, KINDS.index(kind), number])
    while True:
        typed, move = Draw(rng).asked(kind)
        found = judged(typed, move)
        if found is None or found[1] < LEAST_LOAD or not math.isfinite(found[1]):
            continue
        return Case(
            kind=kind,
            number=number,
            typed=tuple(typed.items()),
            move=move,
            allowed=found[0],
            by_motion=found[1],
            governs=found[2],
            slips=float(typed["friction"]),
        )


def every(count: int, *, seed: int) -> Iterator[tuple[Kind, int, int]]:
    """Kind, number and seed of so many cases, all kinds in turn."""
    for number in range(count):
        yield KINDS[number % len(KINDS)], number // len(KINDS), seed
