"""Machines of the family from their figures: linkages close since rams are sized to their ends.

A ram is as long, closed and open, as the angles between which it moves its link ask for. So no
length can be drawn that does not fit; a few members remain whose ram could not be built, or whose
linkage passes dead centre in between, and ``closing`` tells them.
"""

from __future__ import annotations

import math

import numpy as np

from liftcalc.family.figures import Figures, Floats, figures
from liftcalc.family.kind import MachineKind
from liftcalc.family.parameters import STANDARD_MASS
from liftcalc.family.sizing import boom_bore
from liftcalc.machines.schema import (
    Attachment,
    Back,
    Front,
    LiftPoint,
    LinkRam,
    Machine,
    Stabilisers,
    TiltRam,
    Wheels,
)
from liftcalc.physics.functions import Real
from liftcalc.physics.joints import tilt_from_angle
from liftcalc.physics.plane import Point, distance, place

WITHIN_STROKE = np.radians(2.0)
"""How far boom and front tool are carried short of the end of a stroke [rad]; common practice."""
CARRIED_FOLD = np.radians(-127.0)
"""How far the dipper is folded to the boom in travel [rad]; common practice, no source."""
EDGE_BELOW_HINGE = 0.075
"""Of a front bucket on the ground, as a share of the loader arm [-]: all shipped ones have it."""
TOOL_GROWTH = 3.5
"""Power of the size that the weight of tools grows with [-]; judgement."""


def members(kind: MachineKind, latent: Floats) -> Machine:
    """Machines of a kind as one whose figures are arrays.

    Parameters
    ----------
    kind : MachineKind
    latent : (N, k) array
        Variates, see ``figures``.

    Returns
    -------
    Machine
        Not validated: see ``closing.closes`` for those that can be. What no parameter says
        (names, outlines, ratings of lift points) is as in the shipped machine of the class.
    """
    return built(kind, figures(kind, latent))


def built(kind: MachineKind, f: Figures) -> Machine:
    """The machines that have these figures; see ``members``."""
    pattern = kind.pattern
    wheels, stabilisers = _wheels(pattern, f), _stabilisers(pattern, f)
    front = _front(pattern, f)
    back = _back(kind, f)
    total = f["total"]
    weights = pattern.weights.model_copy(
        update={
            "total": total,
            "front_axle": f["front_share"] * total,
            "rear_axle": (1 - f["front_share"]) * total,
        }
    )
    hydraulics = pattern.hydraulics.model_copy(
        update={"working_pressure": f["pressure"], "efficiency": f["efficiency"]}
    )
    return pattern.model_copy(
        update={
            "weights": weights,
            "wheels": wheels,
            "chassis": pattern.chassis.model_copy(update={"cog_height": f["cog_height"]}),
            "stabilisers": stabilisers,
            "hydraulics": hydraulics,
            "front": front,
            "back": back,
            "attachment": tuple(_tool(each, pattern, kind, f) for each in pattern.attachment),
        }
    )


def _wheels(pattern: Machine, f: Figures) -> Wheels:
    rear, total = f["rear_radius"], f["total"]
    old = pattern.wheels
    front = f["front_radius"] * rear
    marks = {
        key: tuple(each * (now / then) for each in mark or ())
        for key, mark, now, then in (
            ("front_footprint", old.front_footprint, front, old.front_radius),
            ("rear_footprint", old.rear_footprint, rear, old.rear_radius),
        )
    }
    return old.model_copy(
        update={
            "wheelbase": f["wheelbase"],
            "rear_track": f["rear_track"],
            "front_track": f["front_track"] * f["rear_track"],
            "axle_pin_height": f["axle_pin_height"],
            "rear_radius": rear,
            "front_radius": front,
            "front_axle_rating": f["front_rating"] * total,
            "rear_axle_rating": f["rear_rating"] * total,
            **marks,
        }
    )


def _stabilisers(pattern: Machine, f: Figures) -> Stabilisers:
    return pattern.stabilisers.model_copy(
        update={
            "x": -f["pads_behind"],
            "pad_spread": f["pad_spread"],
            "pad_length": f["pad_length"],
            "pad_width": f["pad_width"] * f["pad_length"],
            "legs_mass": f["legs"] * f["total"],
            "legs_height": pattern.stabilisers.legs_height * (f["size"] / _size(pattern)),
        }
    )


def _size(pattern: Machine) -> float:
    return math.pow(pattern.weights.total / STANDARD_MASS, 1 / 3)


def _ram(ram: LinkRam, *, pivot: Point, angles: tuple[Real, Real], **changed: Real) -> LinkRam:
    """A ram that moves its link between two angles, closed and open [rad]."""
    base, rod = Point(*changed["base"]), Point(*changed["rod_pin"])
    closed, open_ = (
        distance(start=base, end=place(origin=pivot, angle=each, at=rod)) for each in angles
    )
    return ram.model_copy(update={**changed, "closed": closed, "open": open_})


def _tilt_ram(ram: TiltRam, *, pivot: Point, angles: tuple[Real, Real], **changed: Real) -> TiltRam:
    """A ram that turns its attachment between two angles, closed and open [rad]."""
    made = ram.model_copy(update=changed)
    bar = made.four_bar(pivot=pivot)
    closed, open_ = (tilt_from_angle(bar, angle=each).ram_length for each in angles)
    return made.model_copy(update={"closed": closed, "open": open_})


def _front(pattern: Machine, f: Figures) -> Front:
    old, length = pattern.front, f["arm_length"]
    pivot = Point(f["arm_pivot_ahead"] * f["wheelbase"], f["arm_pivot_height"])
    heights = (EDGE_BELOW_HINGE * length - f["digs_below"], f["hinge_height"])
    with np.errstate(invalid="ignore"):
        low, high = (np.arcsin((each - pivot.w) / length) for each in heights)
    arm = old.arm.model_copy(
        update={
            "length": length,
            "mass": f["arm_mass"] * f["total"],
            "cog": (f["arm_cog_along"] * length, f["arm_cog_up"] * length),
        }
    )
    lift = _ram(
        old.lift_ram,
        pivot=pivot,
        angles=(low, high),
        base=(pivot.u + f["lift_base_ahead"] * length, pivot.w - f["lift_base_below"] * length),
        rod_pin=(f["lift_pin_along"] * length, f["lift_pin_up"] * length),
        bore=f["lift_bore"],
        rod=f["lift_rod"] * f["lift_bore"],
    )
    tilt = _tilt_ram(
        old.tilt_ram,
        pivot=Point(length, 0.0),
        angles=(f["rolled_back"], f["dumped"]),
        base=(f["tilt_base_along"] * length, f["tilt_base_up"] * length),
        rocker_pivot=((1 - f["tilt_rocker_before"]) * length, f["tilt_rocker_up"] * length),
        rocker_ram_radius=f["tilt_ram_radius"] * length,
        rocker_pin_radius=f["tilt_pin_radius"] * length,
        rocker_turn=f["tilt_turn"],
        link_length=f["tilt_link"] * length,
        link_pin=(f["tilt_pin_along"] * length, f["tilt_pin_up"] * length),
        bore=f["tilt_bore"],
        rod=f["tilt_rod"] * f["tilt_bore"],
    )
    height = old.travel.pin_height * (f["size"] / _size(pattern))
    with np.errstate(invalid="ignore"):
        carried = np.arcsin((height - pivot.w) / length)
    tilt_carried = f["rolled_back"] - WITHIN_STROKE + carried
    travel = old.travel.model_copy(update={"pin_height": height, "tilt": tilt_carried})
    return old.model_copy(
        update={
            "arm_pivot": tuple(pivot),
            "arm": arm,
            "lift_ram": lift,
            "tilt_ram": tilt,
            "travel": travel,
        }
    )


def _back(kind: MachineKind, f: Figures) -> Back:
    old, total = kind.pattern.back, f["total"]
    axis = -f["pads_behind"] - f["slew_behind"]
    foot, boom = Point(f["foot_out"], f["foot_height"]), f["boom_length"]
    highest = f["boom_highest"]
    carriage = old.carriage.model_copy(
        update={"mass": f["carriage"] * total, "x": axis - 0.02, "z": 1.22 * foot.w}
    )
    travel = old.travel.model_copy(
        update={
            "boom_angle": highest - WITHIN_STROKE,
            "dipper_angle": highest - WITHIN_STROKE + CARRIED_FOLD,
        }
    )
    boom_link = old.boom.model_copy(
        update={
            "length": boom,
            "mass": f["boom_mass"],
            "cog": (f["boom_cog_along"] * boom, f["boom_cog_up"] * boom),
        }
    )
    return old.model_copy(
        update={
            "slew_axis_x": axis,
            "sideshift_limit": f.get("sideshift_limit", old.sideshift_limit * 0.0),
            "foot_pin": tuple(foot),
            "carriage": carriage,
            "boom": boom_link,
            "boom_ram": _boom_ram(kind, f, foot),
            "travel": travel,
            **_dipper(old, f),
        }
    )


def _boom_ram(kind: MachineKind, f: Figures, foot: Point) -> LinkRam:
    """The boom ram: above the boom it pushes it down, below it up."""
    boom, above = f["boom_length"], kind.boom_ram == "above"
    ends = (f["boom_highest"], f["boom_lowest"])
    base = Point(f["boom_base_out"] * boom, f["boom_base_up"] * boom)
    rod_pin = Point(f["boom_pin_along"] * boom, f["boom_pin_up"] * boom)
    bore = boom_bore(f, base=base, rod_pin=rod_pin, pulls=above)
    return _ram(
        kind.pattern.back.boom_ram.model_copy(update={"lengthens": "down" if above else "up"}),
        pivot=foot,
        angles=ends if above else (ends[1], ends[0]),
        base=(foot.u + base.u, foot.w + base.w),
        rod_pin=tuple(rod_pin),
        bore=bore,
        rod=f["boom_rod"] * bore,
    )


def _dipper(old: Back, f: Figures) -> dict[str, object]:
    """The dipper with its ram and the bucket's linkage."""
    boom = f["boom_length"]
    length = f["dipper_length"] * boom
    dipper = old.dipper.model_copy(
        update={
            "length": length,
            "mass": f["dipper_mass"],
            "cog": (f["dipper_cog_along"] * length, f["dipper_cog_up"] * length),
        }
    )
    ram = _ram(
        old.dipper_ram,
        pivot=Point(boom, 0.0),
        angles=(f["stretched"], f["folded"]),
        base=(f["dipper_base_along"] * boom, f["dipper_base_up"] * boom),
        rod_pin=(-f["dipper_pin_back"] * length, f["dipper_pin_up"] * length),
        bore=f["dipper_bore"],
        rod=f["dipper_rod"] * f["dipper_bore"],
    )
    bucket = _tilt_ram(
        old.bucket_ram,
        pivot=Point(length, 0.0),
        angles=(f["uncurled"], f["curled"]),
        base=(f["bucket_base_along"] * length, f["bucket_base_up"] * length),
        rocker_pivot=((1 - f["bucket_rocker_before"]) * length, f["bucket_rocker_up"] * length),
        rocker_ram_radius=f["bucket_lever"] * length,
        rocker_pin_radius=f["bucket_lever"] * length,
        link_length=f["bucket_link"] * length,
        link_pin=(f["bucket_pin_along"] * length, f["bucket_pin_up"] * length),
        bore=f["bucket_bore"],
        rod=f["bucket_rod"] * f["bucket_bore"],
    )
    return {"dipper": dipper, "dipper_ram": ram, "bucket_ram": bucket}


def _tool(tool: Attachment, pattern: Machine, kind: MachineKind, f: Figures) -> Attachment:
    """A tool as large as its end: its weight grows with the machine, its lift points move out."""
    if tool.end == "front":
        grown, mass = f["arm_length"] / pattern.front.arm.length, f["front_tools"]
    else:
        length = f["dipper_length"] * f["boom_length"]
        grown, mass = length / pattern.back.dipper.length, f["back_tools"]
    points = tuple(_lift_point(each, grown) for each in tool.lift_point)
    contact = tool.ground_contact
    return tool.model_copy(
        update={
            "mass": tool.mass * mass * (f["size"] / _size(pattern)) ** TOOL_GROWTH,
            "cog": tuple(each * grown for each in tool.cog),
            "ground_contact": None if contact is None else tuple(each * grown for each in contact),
            "lift_point": points,
        }
    )


def _lift_point(point: LiftPoint, grown: Real) -> LiftPoint:
    heel = None if point.heel is None else point.heel * grown
    return point.model_copy(update={"at": tuple(each * grown for each in point.at), "heel": heel})
