"""Everything that can bear on a lift beside machine, pose and log, drawn at random."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.machines.schema import Attachment, Machine
from liftcalc.rigging.gear import GEAR_KINDS, Gear
from liftcalc.rigging.grip import SURFACES
from liftcalc.rigging.lift_mode import WAYS, LiftMode
from liftcalc.rigging.sling import Sling
from liftcalc.site.ground import GROUNDS
from liftcalc.site.hazards import Hazards
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from tests.helpers import like


def beset(base: Lift, rng: np.random.Generator) -> Lift:
    """A lift with ground, slope, journey, rigging, hazards and machine of any kind.

    The ratings of lift point and plate are often so high that something else governs.
    """
    made = replace(
        base,
        machine=_odd(base.machine, rng),
        ground=_any(rng, GROUNDS),
        other_tool=_other(base.other_tool, rng),
        mat=_any(rng, (0.4, 0.8, 1.5, 3.0)),
        site=_slope(rng),
        motion=_motion(base, rng),
        surface=SURFACES[rng.integers(len(SURFACES))],
        hazards=_hazards(rng),
        swing=rng.choice([0.0, 0.0, rng.uniform(0, 0.3)]),
        sling=_sling(base, rng),
        gear=_gear(rng),
        operator=bool(rng.integers(2)),
    )
    if base.point.hold == "hangs" and base.tool.mount != "hangs" and rng.integers(2):
        made = replace(
            made,
            taken=LiftMode(
                way=WAYS[rng.integers(len(WAYS))],
                ground_end=rng.choice(["butt", "top"]),
                breakout=rng.choice([1.0, rng.uniform(1, 3)]),
                drag_friction=rng.uniform(0.4, 1.2),
            ),
        )
    if rng.integers(3):
        strong = made.point.model_copy(update={"wll": like(made.machine.weights.total, 3e4)})
        made = replace(made, point=strong)
    return made


def _any(rng: np.random.Generator, what: Any) -> Any:
    """One of some things, or now and then none."""
    return None if rng.random() < 0.25 else what[rng.integers(len(what))]


def _odd(machine: Machine, rng: np.random.Generator) -> Machine:
    """A front axle that does not oscillate, brakes on all wheels, ratings or marks not given."""
    wheels: dict[str, Any] = {
        "front_axle_oscillates": bool(rng.random() < 0.7),
        "braked": rng.choice(["rear", "all"]),
        "driven": rng.choice(["rear", "all"]),
    }
    for name in ("front_axle_rating", "rear_axle_rating"):
        kind = rng.integers(3)
        if kind == 0:
            wheels[name] = None
        elif kind == 1:
            total = machine.weights.total
            wheels[name] = like(total, float(total) * rng.uniform(0.4, 1.2))
    for name in ("front_footprint", "rear_footprint"):
        if rng.random() < 0.3:
            wheels[name] = None
    made: dict[str, Any] = {"wheels": machine.wheels.model_copy(update=wheels)}
    return machine.model_copy(update=made)


def _other(tool: Attachment, rng: np.random.Generator) -> Attachment:
    """A bucket at the other end, with and without the length that bears on the ground."""
    length = like(tool.mass, rng.uniform(0.2, 1.0)) if rng.integers(3) else None
    return (
        tool if tool.ground_contact is None else tool.model_copy(update={"contact_length": length})
    )


def _slope(rng: np.random.Generator) -> Site:
    return Site(
        slope=rng.choice([0.0, rng.uniform(0, 0.2)]),
        heading=rng.uniform(-math.pi, math.pi),
        levelled=bool(rng.random() < 0.2),
    )


def _motion(base: Lift, rng: np.random.Generator) -> Motion:
    told: dict[str, Any] = {"friction": rng.choice([None, rng.uniform(0.1, 0.8), 0.8])}
    if base.travelling and rng.integers(4):
        told |= {
            "speed": rng.uniform(0.2, 3.0),
            "turn_radius": _any(rng, (4.0, 8.0, 20.0)),
            "braking": rng.choice([0.0, rng.uniform(0.2, 3.0)]),
            "sinkage": _any(rng, (0.0, 0.05, 0.15)),
        }
    if base.end == "back" and rng.integers(2):
        told |= {"slew_speed": rng.uniform(0.05, 0.5), "slew_stop": rng.uniform(0.5, 3.0)}
    return Motion(**told)


def _sling(base: Lift, rng: np.random.Generator) -> Sling:
    way = rng.choice(["choked", "two legs", "basket", "single"])
    return Sling(
        way=way,
        length=rng.uniform(2.5, 5.0),
        mass=rng.uniform(0, 40),
        spread=rng.uniform(0.2, 0.9) if way in ("two legs", "basket") else 0.0,
        at=rng.choice([None, base.log.cog_from_butt + rng.uniform(-0.1, 0.1)]),
    )


def _gear(rng: np.random.Generator) -> Gear:
    kind = GEAR_KINDS[rng.integers(len(GEAR_KINDS))]
    limits = (None, math.inf, 800.0, 2000.0, 5000.0)
    told: dict[str, Any] = {
        name: limits[rng.integers(len(limits))] for name in ("hook_wll", "shackle_wll", "hitch_wll")
    }
    sized = kind != "round sling"
    if rng.integers(3):
        told |= {
            "kind": kind,
            "size": rng.uniform(0.006, 0.03) if sized else None,
            "wll": rng.choice([None, 1500.0, 4000.0]) if sized else 3000.0,
        }
    return Gear(**told)


def _hazards(rng: np.random.Generator) -> Hazards:
    wires = rng.choice([None, math.inf, rng.uniform(5, 30)])
    edge = rng.choice([None, rng.uniform(0, 4)])
    return Hazards(
        rules=rng.choice(["uk", "us"]),
        wires_distance=wires,
        wires_voltage=None if wires is None else rng.choice([None, 11e3, 400e3]),
        wires_on=None if wires is None else rng.choice([None, "steel towers", "wood poles"]),
        edge_distance=edge,
        edge_depth=None if edge is None else rng.uniform(0, 3),
        people_distance=rng.choice([None, math.inf, rng.uniform(2, 15)]),
    )
