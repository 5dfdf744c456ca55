"""Loader-backhoes that are no members of the family: put together another way, and farther apart.

A draughtsman's way. Pins are put where a scale drawing has them; rams are bought, with bores of a
series and strokes by fives of centimetres, closed as long as their stroke and what a barrel needs
beside it; links weigh so much a metre; every figure is drawn evenly between two ends that lie well
beyond what most members have. They are of their class: weight and pressure lie within its band or
just beyond. Nothing of ``liftcalc.family`` is used.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from liftcalc.errors import InputError
from liftcalc.machines.arm import angle_range, spot
from liftcalc.machines.files import load
from liftcalc.machines.number import Number
from liftcalc.machines.schema import Machine, Table
from liftcalc.machines.validation import sound
from liftcalc.physics.plane import Point

BORES = np.array([40, 45, 50, 55, 60, 63, 65, 70, 75, 80, 85, 90, 95, 100, 105, 110, 115, 120, 125,
                  130, 140, 150]) / 1000  # fmt: skip
TONNES = {
    "small-tractor": (2.3, 3.7),
    "compact-centre-mount": (4.2, 6.3),
    "standard-centre-mount": (6.8, 8.8),
    "standard-sideshift": (7.2, 8.8),
}


class Drawing:
    """One machine on the drawing board: figures in SI, evenly drawn."""

    def __init__(self, random: np.random.Generator, pattern: Machine) -> None:
        self.random, self.pattern = random, pattern
        low, high = TONNES[pattern.name]
        self.mass = 1000 * self.between(low, high)
        # Length for length with the pattern, on which tools too were drawn.
        self.scale = (self.mass / pattern.weights.total) ** (1 / 3) * self.between(0.95, 1.05)

    def between(self, low: float, high: float) -> float:
        return float(self.random.uniform(low, high))

    def near(self, usual: float, share: float) -> float:
        """A length of the pattern, scaled, and off by at most a share."""
        return float(usual) * self.scale * self.between(1 - share, 1 + share)

    def spot(self, pair: Any, room: float) -> tuple[float, float]:
        """A pin of the pattern, scaled, and anywhere within a square of so much room [m]."""
        room = room * self.scale
        u, w = (float(x) * self.scale for x in pair)
        return u + self.between(-room, room), w + self.between(-room, room)

    def bought(self, ram: Any, *, strong: float) -> dict[str, float]:
        """Bore and rod from the shelf, near what the pattern has for machines of its size."""
        wanted = float(ram.bore) * self.scale**1.3 * strong * self.between(0.94, 1.07)
        bore = float(BORES[np.argmin(np.abs(BORES - wanted))])
        return {"bore": bore, "rod": round(bore * self.between(0.45, 0.62), 3)}

    def stroke(self, ram: Any, least: float = 0.12) -> dict[str, float]:
        """A ram of a stroke by fives of centimetres, and as long beside it as a barrel needs."""
        stroke = 0.05 * round(float(ram.open - ram.closed) * self.scale / 0.05)
        beside = float(2 * ram.closed - ram.open) * self.scale * self.between(0.97, 1.03)
        closed = stroke + max(beside, least)
        return {"closed": closed, "open": closed + stroke}

    def link(self, link: Any, length: float) -> dict[str, Any]:
        """A box girder: so much a metre, heavier toward its inner pin or its middle."""
        metre = float(link.mass / link.length) * self.scale**2 * self.between(0.7, 1.4)
        along = float(link.cog[0] / link.length) * self.between(0.88, 1.12)
        up = float(link.cog[1]) * self.scale * self.between(0.2, 2.0)
        return {"length": length, "mass": metre * length, "cog": (along * length, up)}

    def tilt(self, ram: Any, *, room: float, turn: float, strong: float) -> dict[str, Any]:
        changed = {
            "base": self.spot(ram.base, room),
            "rocker_pivot": self.spot(ram.rocker_pivot, room / 2),
            "rocker_ram_radius": self.near(ram.rocker_ram_radius, 0.06),
            "rocker_pin_radius": self.near(ram.rocker_pin_radius, 0.06),
            "rocker_turn": float(ram.rocker_turn) + self.between(-turn, turn),
            "link_length": self.near(ram.link_length, 0.06),
            "link_pin": self.spot(ram.link_pin, room / 2),
        }
        return changed | self.bought(ram, strong=strong) | self.stroke(ram)


def _chassis(d: Drawing) -> dict[str, Any]:
    p, scale = d.pattern, d.scale
    front = d.mass * d.between(0.35, 0.45)
    wheels = p.wheels
    rear = d.near(wheels.rear_radius, 0.10)
    rating = {
        f"{which}_axle_rating": 100 * round(getattr(wheels, f"{which}_axle_rating") / 100
                                            * d.mass / p.weights.total * d.between(0.87, 1.15))
        for which in ("front", "rear")
    }  # fmt: skip
    legs = p.stabilisers
    return {
        "weights": {"total": d.mass, "front_axle": front, "rear_axle": d.mass - front},
        "wheels": {
            "wheelbase": d.near(wheels.wheelbase, 0.07),
            "rear_track": d.near(wheels.rear_track, 0.10),
            "front_track": d.near(wheels.front_track, 0.10),
            "axle_pin_height": d.near(wheels.axle_pin_height, 0.2),
            "front_radius": rear * d.between(0.58, 0.85),
            "rear_radius": rear,
            **rating,
        },
        "chassis": {"cog_height": d.near(p.chassis.cog_height, 0.12)},
        "stabilisers": {
            "x": d.near(legs.x, 0.18),
            "pad_spread": d.near(legs.pad_spread, 0.10),
            "pad_length": d.near(legs.pad_length, 0.2),
            "pad_width": d.near(legs.pad_width, 0.2),
            "legs_mass": float(legs.legs_mass) * scale**3 * d.between(0.6, 1.5),
        },
        "hydraulics": {
            "working_pressure": 5e5
            * round(float(p.hydraulics.working_pressure) * d.between(0.89, 1.11) / 5e5),
            "efficiency": d.between(0.84, 0.95),
        },
    }


def _front(d: Drawing, strong: float) -> dict[str, Any]:
    front = d.pattern.front
    pivot = d.spot(front.arm_pivot, 0.12)
    # The ram's foot is drawn from the pivot, and not from the ground.
    base = [float(front.lift_ram.base[i] - front.arm_pivot[i]) for i in (0, 1)]
    foot = d.spot(base, 0.06)
    lift = {
        "base": (pivot[0] + foot[0], pivot[1] + foot[1]),
        "rod_pin": d.spot(front.lift_ram.rod_pin, 0.06),
    }
    return {
        "arm_pivot": pivot,
        "arm": d.link(front.arm, d.near(front.arm.length, 0.06)),
        "lift_ram": lift | d.bought(front.lift_ram, strong=strong) | d.stroke(front.lift_ram),
        "tilt_ram": d.tilt(front.tilt_ram, room=0.03, turn=0.05, strong=strong),
        "travel": {"pin_height": d.near(front.travel.pin_height, 0.15), "tilt": 0.0},
    }


def _back(d: Drawing, strong: float, axis: float) -> dict[str, Any]:
    back = d.pattern.back
    foot = d.spot(back.foot_pin, 0.06)
    boom, dipper = d.near(back.boom.length, 0.08), d.near(back.dipper.length, 0.14)
    base = [float(back.boom_ram.base[i] - back.foot_pin[i]) for i in (0, 1)]
    at = d.spot(base, 0.05)
    boom_ram = {
        "base": (foot[0] + at[0], foot[1] + at[1]),
        "rod_pin": d.spot(back.boom_ram.rod_pin, 0.09),
    }
    dipper_ram = {
        "base": d.spot(back.dipper_ram.base, 0.08),
        "rod_pin": d.spot(back.dipper_ram.rod_pin, 0.05),
    }
    limit = float(back.sideshift_limit)
    return {
        "slew_axis_x": axis,
        "sideshift_limit": limit and d.near(limit, 0.25),
        "foot_pin": foot,
        "carriage": {
            "mass": float(back.carriage.mass) * d.scale**3 * d.between(0.6, 1.5),
            "x": axis + d.between(-0.08, 0.05),
            "z": d.near(back.carriage.z, 0.15),
        },
        "boom": d.link(back.boom, boom),
        "boom_ram": boom_ram | d.bought(back.boom_ram, strong=strong) | d.stroke(back.boom_ram),
        "dipper": d.link(back.dipper, dipper),
        "dipper_ram": dipper_ram
        | d.bought(back.dipper_ram, strong=strong)
        | d.stroke(back.dipper_ram),
        "bucket_ram": d.tilt(back.bucket_ram, room=0.03, turn=0.0, strong=strong),
    }


def _drawn(d: Drawing) -> dict[str, Any]:
    strong = d.between(0.92, 1.10)
    made = _chassis(d)
    axis = made["stabilisers"]["x"] - d.near(
        d.pattern.stabilisers.x - d.pattern.back.slew_axis_x, 0.5
    )
    return made | {"front": _front(d, strong), "back": _back(d, strong, axis)}


def _changed(table: Any, changes: dict[str, Any]) -> Any:
    """A table with its figures changed, deep down."""
    return table.model_copy(
        update={
            key: _changed(getattr(table, key), each) if isinstance(each, dict) else _number(each)
            for key, each in changes.items()
        }
    )


def _number(value: Any) -> Any:
    if isinstance(value, tuple):
        return tuple(map(_number, value))
    return Number(value, kind="assumed", source="drawn for a study", text=f"{value:.5g} (SI)")


def _scaled_tools(d: Drawing) -> tuple[Any, ...]:
    return tuple(
        _changed(
            tool,
            {
                "mass": float(tool.mass) * d.scale**3 * d.between(0.75, 1.3),
                "cog": tuple(float(each) * d.scale for each in tool.cog),
            },
        )
        for tool in d.pattern.attachment
    )


def _carried(machine: Machine, random: np.random.Generator) -> Machine:
    """As it is carried: the boom all but up, the front tool rolled back as far as it goes."""
    front, back = machine.front, machine.back
    ends = angle_range(back.boom_ram, pivot=spot(back.foot_pin), base_pin=spot(back.boom_ram.base))
    boom = ends[1] - random.uniform(0.01, 0.06)
    fold = boom + random.uniform(math.radians(-132), math.radians(-112))
    made = machine.model_copy(
        update={"back": _changed(back, {"travel": {"boom_angle": boom, "dipper_angle": fold}})}
    )
    for degrees in range(50, 4, -3):
        tilt = _changed(front, {"travel": {"tilt": math.radians(degrees)}})
        try:
            found = made.model_copy(update={"front": tilt})
            sound(found, file="drawn")
            return found
        except InputError as error:
            if not all(each.key == "front.travel" for each in error.faults):
                raise
    raise InputError.of(field="travel", given="no pose", wanted="one within the strokes")


def _within(ends: tuple[float, float], *asked: tuple[float, float]) -> bool:
    return all(
        math.radians(low) < end < math.radians(high)
        for end, (low, high) in zip(ends, asked, strict=True)
    )


def _useful(machine: Machine) -> bool:
    """Whether boom, dipper, arms and tools go about as far as those of any machine do."""
    back, front = machine.back, machine.front
    boom = angle_range(back.boom_ram, pivot=spot(back.foot_pin), base_pin=spot(back.boom_ram.base))
    dipper = angle_range(
        back.dipper_ram,
        pivot=Point(float(back.boom.length), 0.0),
        base_pin=spot(back.dipper_ram.base),
    )
    arms = angle_range(
        front.lift_ram, pivot=spot(front.arm_pivot), base_pin=spot(front.lift_ram.base)
    )
    return (
        _within(boom, (-65, -30), (50, 80))
        and _within(dipper, (-160, -120), (-32, -3))
        and _within(arms, (-48, -34), (36, 56))
    )


def drawn(random: np.random.Generator, name: str) -> Machine:
    """A machine near a class that is no member of the family; drawn again until it is sound."""
    pattern = load(name)
    while True:
        d = Drawing(random, pattern)
        machine = _changed(pattern, _drawn(d)).model_copy(update={"attachment": _scaled_tools(d)})
        try:
            if not _useful(machine):
                continue
            found = _carried(machine, random)
            return Machine.model_validate(_read(found))
        except (InputError, ValueError):
            continue


def _read(table: Any) -> Any:
    if isinstance(table, tuple):
        return tuple(map(_read, table))
    if isinstance(table, Table):
        return {name: _read(getattr(table, name)) for name in type(table).model_fields}
    return table
