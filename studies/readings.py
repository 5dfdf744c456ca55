"""What somebody would read off a hidden machine, with the slips of each instrument.

Slips are those that the study promises (weighbridge 20 kg, tape 10 mm, gauge 3 %, pose 2°, pins of
a photo 20 mm), and not those that the facts allow for.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from liftcalc.family.fact import Told
from liftcalc.family.facts import FACTS
from liftcalc.family.kind import MachineKind
from liftcalc.machines.assembly import assemble, total_mass, travel_front
from liftcalc.machines.back_arm import back_arm
from liftcalc.machines.lookup import attachment
from liftcalc.machines.schema import Machine

LEVELS = (
    "class only",
    "plate and brochure",
    "tape and weighbridge",
    "known weight, gauge and photo",
)
PLATE = ("total", "rated_back", "rated_front", "working_pressure", "front_axle_rating",
         "rear_axle_rating", "dig_depth", "reach_on_ground", "nose_height", "hinge_height",
         "loader_lift", "dipper_lift", "bucket_force", "dipper_force")  # fmt: skip
WEIGHED = ("total_weighed", "front_axle", "rear_axle", "front_axle_stretched")
TAPED = (
    "wheelbase", "pad_spread", "pads_behind", "slew_axis_behind", "rear_track", "front_track",
    "rear_hub", "front_hub", "axle_pin_height", "foot_pin_height", "foot_pin_out",
    "arm_pivot_height", "arm_pivot_ahead", "boom_length", "dipper_length", "arm_length",
    "boom_ram_closed", "boom_ram_open", "dipper_ram_closed", "dipper_ram_open",
    "lift_ram_closed", "lift_ram_open", "foot_to_boom_ram_base", "foot_to_boom_ram_pin",
    "knuckle_to_boom_ram_pin",
)  # fmt: skip
BORES = ("boom_ram_bore", "dipper_ram_bore", "lift_ram_bore")
RODS = ("boom_ram_rod", "dipper_ram_rod", "lift_ram_rod")
PHOTO = (
    "boom_ram_base_height", "lift_ram_base_height", "knuckle_to_dipper_ram_base",
    "foot_to_dipper_ram_base", "knuckle_to_dipper_ram_pin", "nose_to_dipper_ram_pin",
    "pivot_to_lift_ram_base", "pivot_to_lift_ram_pin", "hinge_to_lift_ram_pin",
    "hinge_to_bell_crank", "hinge_to_tilt_ram_base",
)  # fmt: skip
TRIED = (
    "relief_gauge",
    "stall_back",
    "balance_back",
    "stall_front",
    "balance_front",
    "boom_gauge",
    "lift_gauge",
)
PINS = 0.020 * math.sqrt(2.0)
"""Distance of two pins of a photo, each 20 mm off along it [m]."""
POSE = math.radians(2.0)


class Reader:
    """Reads a hidden machine; every slip drawn from one generator."""

    def __init__(self, machine: Machine, kind: MachineKind, random: np.random.Generator) -> None:
        self.machine, self.random = machine, random
        back = kind.pattern.back
        span = float(back.boom.length + back.dipper.length)
        # Where the hook hangs for trials: round numbers of the class, not of this machine.
        self.reach, self.height = round(0.75 * span, 1), round(0.12 * span, 1)

    def off(self, deviation: float) -> float:
        return float(deviation * self.random.standard_normal())

    def exact(self, key: str, *, load: float | None = None, slips: bool = False) -> float:
        """What the machine answers, its hook where it was told or about there."""
        asked = Told(
            key=key,
            value=0.0,
            reach=self.reach + (self.off(0.03) if slips else 0.0),
            height=self.height + (self.off(0.05) if slips else 0.0),
            load=load,
        )
        return float(FACTS[key].predict(self.machine, asked, 0.0))

    def told(
        self, key: str, value: float, *, tolerance: float | None = None, load: float | None = None
    ) -> Told:
        place = FACTS[key].asks
        return Told(
            key=key,
            value=value,
            tolerance=tolerance,
            reach=self.reach if "reach" in place else None,
            height=self.height if "height" in place else None,
            load=load,
        )

    def carried(self) -> tuple[float, float]:
        """Total and front axle as it travels, the back end two degrees or so off its pose [kg]."""
        machine, tool = self.machine, attachment(self.machine, end="back")
        travel = machine.back.travel
        front = travel_front(machine, attachment(machine, end="front"))

        def axle(boom: float, fold: float) -> float:
            back = back_arm(
                machine,
                tool=tool,
                point=tool.lift_point[0],
                boom_angle=float(travel.boom_angle) + boom,
                dipper_angle=float(travel.dipper_angle) + boom + fold,
                curl=float(travel.curl),
            )
            state = assemble(machine, front=front, back=back, slew=0.0, sideshift=0.0,
                             stance="wheels", operator=False)  # fmt: skip
            whole = total_mass(state.lumps)
            return float(whole.mass * whole.x / machine.wheels.wheelbase)

        moved = axle(self.off(POSE), self.off(POSE)) - axle(0.0, 0.0)
        return float(machine.weights.total), float(machine.weights.front_axle) + moved


def _plate(r: Reader) -> list[Told]:
    slips = {"total": 0.02, "working_pressure": 0.04, "front_axle_rating": 0.0,
             "rear_axle_rating": 0.0, "hinge_height": 0.008}  # fmt: skip
    strong = ("rated_back", "rated_front", "loader_lift", "dipper_lift", "bucket_force",
              "dipper_force")  # fmt: skip
    found = []
    for key in PLATE:
        value = r.exact(key) * (1 + r.off(slips.get(key, 0.06 if key in strong else 0.015)))
        found.append(r.told(key, value))
    return [each for each in found if math.isfinite(each.value) and each.value > 0]


def _taped(r: Reader) -> list[Told]:
    total, front = r.carried()
    weights = {"total_weighed": total, "front_axle": front, "rear_axle": total - front,
               "front_axle_stretched": r.exact("front_axle_stretched", slips=True)}  # fmt: skip
    found = [r.told(key, weights[key] + r.off(20.0)) for key in WEIGHED]
    found += [r.told(key, r.exact(key) + r.off(0.010)) for key in TAPED]
    found += [r.told(key, r.exact(key) + r.off(0.0015)) for key in BORES]
    found += [r.told(key, r.exact(key) + r.off(0.0007)) for key in RODS]
    return [each for each in found if math.isfinite(each.value)]


def _tried(r: Reader) -> list[Told]:
    found = [r.told(key, r.exact(key) + r.off(PINS), tolerance=PINS) for key in PHOTO]
    load = 50.0 * round(0.5 * r.exact("stall_back") / 50.0) if r.exact("stall_back") > 100 else 50.0
    loads = {"boom_gauge": load, "lift_gauge": load}
    for key in TRIED:
        value = r.exact(key, load=loads.get(key), slips=key != "relief_gauge")
        slip = 0.03 if "gauge" in key else 0.02
        value = value * (1 + r.off(slip)) + (0.0 if "gauge" in key else r.off(20.0))
        found.append(r.told(key, value, load=loads.get(key)))
    return [each for each in found if math.isfinite(each.value) and each.value > 0]


_ADDED: tuple[Callable[[Reader], list[Told]], ...] = (lambda _: [], _plate, _taped, _tried)


def readings(machine: Machine, kind: MachineKind, seed: int) -> list[list[Told]]:
    """What is told at each of ``LEVELS``: each tells what those before it told as well."""
    reader = Reader(machine, kind, np.random.default_rng(seed))
    found: list[list[Told]] = []
    for add in _ADDED:
        found.append([*(found[-1] if found else []), *add(reader)])
    return found
