"""What many tests need: a lift in one line, machines altered in one line, random poses."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

import numpy as np

from liftcalc.errors import InputError, PoseError
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.rams import ram_capacity as of_ram
from liftcalc.evaluation.rams import ram_force
from liftcalc.evaluation.reached import LineCapacity
from liftcalc.machines.arm import Arm, Joint
from liftcalc.machines.assembly import (
    MachineState,
    PointMass,
    assemble,
    back_point,
    front_point,
    pressed_front,
    travel_back,
    travel_front,
)
from liftcalc.machines.back_arm import back_arm
from liftcalc.machines.files import load, shipped_names
from liftcalc.machines.front_arm import front_arm
from liftcalc.machines.lookup import attachment, lift_point
from liftcalc.machines.number import Number
from liftcalc.machines.schema import Attachment, Hydraulics, LiftPoint, Machine, Table
from liftcalc.machines.supports import Stance
from liftcalc.machines.validation import sound as sound_machine
from liftcalc.physics.tipping import Line
from liftcalc.physics.wrench import load_at_tipping, moment_about
from liftcalc.remarks import Words
from liftcalc.reports.words import text
from liftcalc.requests.fields import LogRequest
from liftcalc.requests.log import parse_log
from liftcalc.timber.log import weigh
from liftcalc.units import SPACE

MACHINES = tuple(shipped_names())

LARCH = {
    "species": "european larch",
    "length": "4.8 m",
    "butt": "52 cm",
    "mid": "46 cm",
    "top": "41 cm",
}
"""A log for tests; what it weighs is proved elsewhere."""


ANSWERED = {0, 1, 3}
"""Exit status of a command that answered: it holds, does not, or cannot be said yet."""

METRIC = re.compile(
    r"[0-9}]\s?(m|cm|mm|m²|m³|kg|t|N|kN|Nm|kN·m|Pa|kPa|bar|km/h|m/s|m/s²)(?![\w/²³·])"
)
"""A number, or the end of a value, and a metric unit."""


def plain(text: str) -> str:
    """A text with spaces that break, to be compared with words typed in a test."""
    return text.replace(SPACE, " ")


def told(said: Iterable[Words]) -> list[str]:
    """Remarks in words, with spaces that break."""
    return [plain(text(each)) for each in said]


@lru_cache(maxsize=256)
def _read(items: tuple[tuple[str, Any], ...]) -> Any:
    measure = parse_log(LogRequest(**dict(items))).measure
    return measure, weigh(measure)


def with_machine(asked: Lift, machine: Machine, **other: Any) -> Lift:
    """The same lift by another machine that has the same attachments."""
    tool = attachment(machine, end=asked.end, name=asked.tool.name)
    opposite = "front" if asked.end == "back" else "back"
    return replace(
        asked,
        machine=machine,
        tool=tool,
        point=lift_point(tool, name=asked.point.name),
        other_tool=attachment(machine, end=opposite, name=asked.other_tool.name),
        **other,
    )


def lift(
    machine: Machine | str = "standard-sideshift",
    *,
    end: str = "back",
    tool: str = "",
    point: str = "",
    other: str = "",
    log: dict[str, Any] | None = None,
    **request: Any,
) -> Lift:
    """A lift with sound defaults for what is not said; what a load does not decide is left out."""
    known = load(machine) if isinstance(machine, str) else machine
    fitted = attachment(known, end=end, name=tool)
    opposite = attachment(known, end="front" if end == "back" else "back", name=other)
    measure, weighed = _read(tuple(sorted((log or LARCH).items())))
    usual = (
        {"reach": 0.6 * span(known), "height": 0.25 * span(known)}
        if end == "back"
        else {"height": 0.25 * span(known), "stance": "wheels"}
    )
    return Lift(
        machine=known,
        end=end,
        tool=fitted,
        point=lift_point(fitted, name=point),
        other_tool=opposite,
        measure=measure,
        log=weighed,
        **{"loads_only": True, "exact": True, **usual, **request},
    )


def span(machine: Machine) -> float:
    """Foot pin to dipper nose with the back end straight [m]; what poses are scaled by."""
    return float(machine.back.boom.length + machine.back.dipper.length)


def rebuilt(table: Any, change: Callable[[str, Number], float], path: str = "") -> Any:
    """A machine with every figure changed by a function of its key; validated anew."""
    if isinstance(table, Number):
        return like(table, change(path, table))
    if isinstance(table, tuple):
        return tuple(rebuilt(each, change, f"{path}.{i}") for i, each in enumerate(table))
    if isinstance(table, Table):
        fields = type(table).model_fields
        return type(table)(
            **{
                key: rebuilt(getattr(table, key), change, f"{path}.{key}" if path else key)
                for key in fields
            }
        )
    return table


def like(number: Number, value: float) -> Number:
    """Another value with the same provenance."""
    return Number(
        float(value),
        kind=number.kind,
        source=number.source,
        text=f"{value:.6g} SI",
        tolerance=number.tolerance,
    )


def altered(machine: Machine, **values: float) -> Machine:
    """A machine with the figures at these keys changed; ``__`` stands for a dot."""
    wanted = {key.replace("__", "."): value for key, value in values.items()}
    used = set()

    def change(path: str, number: Number) -> float:
        if path not in wanted:
            return number
        used.add(path)
        return wanted[path]

    made = rebuilt(machine, change)
    assert used == set(wanted), f"no such keys: {set(wanted) - used}"
    return made


MASSES = {
    "mass", "total", "front_axle", "rear_axle", "legs_mass", "wll", "load", "front_axle_rating",
    "rear_axle_rating",
}  # fmt: skip
FORCES = {"jaw_force"}
PRESSURES = {"working_pressure", "holding_pressure"}
PURE = {
    "efficiency", "rocker_turn", "tilt", "boom_angle", "dipper_angle", "curl", "slew_limit",
    "usual_tilt", "usual_curl",
}  # fmt: skip


def dimension(path: str) -> str:
    """Whether a key of a machine file is a length, mass, force, pressure or pure number."""
    key = next(part for part in reversed(path.split(".")) if not part.isdigit())
    if key in MASSES:
        return "mass"
    if key in FORCES:
        return "force"
    if key in PRESSURES:
        return "pressure"
    return "pure" if key in PURE else "length"


def perturbed(machine: Machine, rng: np.random.Generator, share: float = 0.02) -> Machine:
    """A machine of the same kind, every length and mass off by up to a share of itself.

    It is valid: as a file it would be read, its linkages close and its travel pose can be taken.
    """
    while True:
        made = _off(machine, rng, share)
        if tried(lambda made=made: sound_machine(made, file="") or made):
            return made


@lru_cache(maxsize=48)
def near(number: int) -> Machine:
    """One of 48 valid machines near the shipped ones, by number."""
    return perturbed(load(MACHINES[number % len(MACHINES)]), np.random.default_rng(number))


def _off(machine: Machine, rng: np.random.Generator, share: float) -> Machine:
    made = rebuilt(
        machine,
        lambda path, number: (
            number
            if dimension(path) == "pure" or path.startswith("weights.total")
            else number * (1 + rng.uniform(-share, share))
        ),
    )
    weights = made.weights
    return altered(made, weights__total=weights.front_axle + weights.rear_axle)


def centred(machine: Machine) -> Machine:
    """The machine with nothing off its centre line."""
    return rebuilt(
        machine,
        lambda path, number: (
            0.0 if path.startswith("carried.") and path.endswith("at.1") else number
        ),
    )


@dataclass(frozen=True)
class Posed:
    """A machine standing in a random pose, with a place for the load."""

    machine: Machine
    stance: Stance
    front: Arm
    back: Arm
    slew: float
    sideshift: float
    standing: MachineState
    load: tuple[float, float, float]

    def lines(
        self, gravity: tuple[float, float, float], swing: float = 0.0
    ) -> tuple[LineCapacity, ...]:
        return tuple(
            line_capacity(
                line, whole=self.standing.whole, load=self.load, gravity=gravity, swing=swing
            )
            for line in self.standing.lines
        )

    def tipping_load(self, gravity: tuple[float, float, float], swing: float = 0.0) -> float:
        return min(float(each.tipping_load) for each in self.lines(gravity, swing))


def sound(arm: Arm) -> bool:
    """Whether the mechanism can stand so."""
    return not any(np.any(stop.violated) for stop in arm.stops)


def line_capacity(
    line: Line, *, whole: PointMass, load: Any, gravity: Any, swing: Any = 0.0, hung: float = 0.0
) -> LineCapacity:
    """A tipping line with a load at a place, the machine as one mass."""
    moment, (x, y, z) = moment_about(line), load
    takes = moment.unit(x=x, y=y, z=z, gravity=gravity, swing=swing)
    holding = whole.mass * moment.unit(x=whole.x, y=whole.y, z=whole.z, gravity=gravity)
    holding = holding + hung * (takes - moment.unit(x=x, y=y, z=z, gravity=gravity))
    tips = load_at_tipping(holding_moment=holding, load_unit_moment=takes)
    return LineCapacity(line, moment, holding, takes, tips)


def ram_capacity(joint: Joint, *, hydraulics: Hydraulics, gauge: Any = None, **at: Any) -> Any:
    """A ram's capacity at its own force."""
    force = ram_force(joint, hydraulics=hydraulics, gauge=gauge)
    return of_ram(joint, force=force, **at)


def some_tool(
    machine: Machine, end: str, rng: np.random.Generator, **only: Any
) -> tuple[Attachment, LiftPoint]:
    tools = [a for a in machine.attachment if a.end == end]
    if only.get("pressing"):
        tools = [a for a in tools if a.ground_contact is not None]
    tool = tools[rng.integers(len(tools))]
    return tool, tool.lift_point[rng.integers(len(tool.lift_point))]


def some_back(machine: Machine, rng: np.random.Generator) -> Arm:
    """The back end in a pose that its rams allow."""
    while True:
        tool, point = some_tool(machine, "back", rng)
        boom = rng.uniform(-0.6, 1.4)
        arm = back_arm(
            machine,
            tool=tool,
            point=point,
            boom_angle=boom,
            dipper_angle=boom - rng.uniform(0.1, 2.6),
            curl=rng.uniform(0, 1),
        )
        if sound(arm):
            return arm


def some_front(machine: Machine, rng: np.random.Generator, radius: float = 0.2) -> Arm:
    """The front end in a pose that its rams allow."""
    while True:
        tool, point = some_tool(machine, "front", rng)
        arm = front_arm(
            machine,
            tool=tool,
            point=point,
            arm_angle=rng.uniform(-0.7, 0.8),
            tilt=rng.uniform(-0.6, 0.9),
            radius=radius,
        )
        if sound(arm):
            return arm


def some_pose(machine: Machine, stance: Stance, rng: np.random.Generator) -> Posed:
    """Both ends anyhow, the load at either of them, or anywhere near the machine."""
    back = some_back(machine, rng)
    if stance == "stabilisers and bucket":
        front = pressed_front(machine, some_tool(machine, "front", rng, pressing=True)[0])
    else:
        front = some_front(machine, rng)
    slew = float(rng.uniform(-1, 1) * machine.back.slew_limit)
    shift = float(rng.uniform(-1, 1) * machine.back.sideshift_limit)
    at = rng.integers(3) if stance != "stabilisers and bucket" else 1 + rng.integers(2)
    if at == 0:
        x, y, z = front_point(front.load_at)
        place = (float(x), float(y) + rng.uniform(-0.3, 0.3), float(z))
    elif at == 1:
        x, y, z = back_point(machine, back.load_at, slew=slew, sideshift=shift)
        place = (float(x), float(y), float(z))
    else:
        place = (rng.uniform(-6, 5), rng.uniform(-5, 5), rng.uniform(-1.5, 5))
    return Posed(
        machine=machine,
        stance=stance,
        front=front,
        back=back,
        slew=slew,
        sideshift=shift,
        standing=assemble(
            machine,
            front=front,
            back=back,
            slew=slew,
            sideshift=shift,
            stance=stance,
            operator=bool(rng.integers(2)),
        ),
        load=place,
    )


def travelling(machine: Machine) -> MachineState:
    """The machine folded up as it was weighed."""
    return assemble(
        machine,
        front=travel_front(machine, attachment(machine, end="front")),
        back=travel_back(machine, attachment(machine, end="back")),
        slew=0.0,
        sideshift=0.0,
        stance="wheels",
        operator=False,
    )


def tried(make: Callable[[], Any]) -> Any:
    """What a call gives, or None where the machine cannot stand so."""
    try:
        return make()
    except (PoseError, InputError):
        return None


def fixed_axle(machine: Machine) -> Machine:
    """The same machine with a front axle that does not oscillate."""
    wheels = machine.wheels.model_copy(update={"front_axle_oscillates": False})
    return machine.model_copy(update={"wheels": wheels})


def unrated(machine: Machine) -> Machine:
    """The same machine without ratings of its axles, which would govern before it tips."""
    wheels = machine.wheels.model_copy(update={"front_axle_rating": None, "rear_axle_rating": None})
    return machine.model_copy(update={"wheels": wheels})


def headings(count: int) -> Iterator[float]:
    return (2 * math.pi * i / count for i in range(count))
