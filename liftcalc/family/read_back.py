"""The parameters of a machine that is known: what ``member`` builds a machine from, read back."""

from __future__ import annotations

from liftcalc.family.doing import boom_lift
from liftcalc.family.figures import Figures
from liftcalc.family.member import EDGE_BELOW_HINGE, TOOL_GROWTH
from liftcalc.family.parameters import STANDARD_MASS
from liftcalc.machines.lookup import attachment
from liftcalc.machines.number import plain
from liftcalc.machines.schema import LinkRam, Machine, TiltRam
from liftcalc.physics.functions import Real, sin
from liftcalc.physics.joints import link_angle, tilt_from_ram
from liftcalc.physics.plane import Point


def figures_of(machine: Machine, *, pattern: Machine) -> Figures:
    """Figures of a machine by the names of the parameters, in SI; ``pattern`` shows its tools.

    Exact for a machine that the family can build; of another what does not fit is left out: where
    it is carried, pins of a bucket linkage with two unlike levers, tools of other shape.
    """
    return {
        **_whole(machine),
        **_front(machine, pattern),
        **_boom(machine),
        **_dipper(machine, pattern),
    }


def _whole(machine: Machine) -> dict[str, Real]:
    total, wheels, legs = machine.weights.total, machine.wheels, machine.stabilisers
    axles = machine.weights.front_axle + machine.weights.rear_axle
    found = {
        "total": plain(total),
        "size": (total / STANDARD_MASS) ** (1 / 3),
        "front_share": machine.weights.front_axle / axles,
        "cog_height": plain(machine.chassis.cog_height),
        "wheelbase": plain(wheels.wheelbase),
        "rear_track": plain(wheels.rear_track),
        "front_track": wheels.front_track / wheels.rear_track,
        "axle_pin_height": plain(wheels.axle_pin_height),
        "rear_radius": plain(wheels.rear_radius),
        "front_radius": wheels.front_radius / wheels.rear_radius,
        "pads_behind": -legs.x,
        "pad_spread": plain(legs.pad_spread),
        "pad_length": plain(legs.pad_length),
        "pad_width": legs.pad_width / legs.pad_length,
        "legs": legs.legs_mass / total,
        "pressure": plain(machine.hydraulics.working_pressure),
        "efficiency": plain(machine.hydraulics.efficiency),
    }
    for which in ("front", "rear"):
        rating = getattr(wheels, f"{which}_axle_rating")
        if rating is not None:
            found[f"{which}_rating"] = rating / total
    return found


def _ends(ram: LinkRam, pivot: Point) -> tuple[Real, Real]:
    """Angles of its link with a ram closed and open [rad]."""
    base, rod = Point(*map(plain, ram.base)), Point(*map(plain, ram.rod_pin))
    closed, open_ = (
        link_angle(ram_length=plain(each), pivot=pivot, base_pin=base, rod_pin=rod, side=ram.side)
        for each in (ram.closed, ram.open)
    )
    return closed, open_


def _linkage(prefix: str, ram: TiltRam, length: Real, ends: tuple[str, str]) -> dict[str, Real]:
    bar = ram.four_bar(pivot=Point(plain(length), 0.0))
    closed, open_ = (tilt_from_ram(bar, ram_length=plain(x)).angle for x in (ram.closed, ram.open))
    return {
        f"{prefix}_base_along": ram.base[0] / length,
        f"{prefix}_base_up": ram.base[1] / length,
        f"{prefix}_rocker_before": 1 - ram.rocker_pivot[0] / length,
        f"{prefix}_rocker_up": ram.rocker_pivot[1] / length,
        f"{prefix}_link": ram.link_length / length,
        f"{prefix}_pin_along": ram.link_pin[0] / length,
        f"{prefix}_pin_up": ram.link_pin[1] / length,
        f"{prefix}_bore": plain(ram.bore),
        f"{prefix}_rod": ram.rod / ram.bore,
        ends[0]: closed,
        ends[1]: open_,
    }


def _tools(machine: Machine, pattern: Machine, end: str) -> Real:
    """Weight of the tool that is fitted to that of the same tool on a machine as large."""
    name = getattr(machine.fitted, end)
    mine = attachment(machine, end=end, name=name)  # type: ignore[arg-type]
    usual = attachment(pattern, end=end, name=name)  # type: ignore[arg-type]
    grown = (machine.weights.total / pattern.weights.total) ** (TOOL_GROWTH / 3)
    return mine.mass / usual.mass / grown


def _front(machine: Machine, pattern: Machine) -> dict[str, Real]:
    front, total = machine.front, machine.weights.total
    length, ram = plain(front.arm.length), front.lift_ram
    pivot = Point(*map(plain, front.arm_pivot))
    low, high = _ends(ram, pivot)
    return {
        "arm_pivot_ahead": pivot.u / plain(machine.wheels.wheelbase),
        "arm_pivot_height": pivot.w,
        "arm_length": length,
        "arm_mass": front.arm.mass / total,
        "arm_cog_along": front.arm.cog[0] / length,
        "arm_cog_up": front.arm.cog[1] / length,
        "lift_base_ahead": (ram.base[0] - pivot.u) / length,
        "lift_base_below": (pivot.w - ram.base[1]) / length,
        "lift_pin_along": ram.rod_pin[0] / length,
        "lift_pin_up": ram.rod_pin[1] / length,
        "digs_below": EDGE_BELOW_HINGE * length - pivot.w - length * sin(low),
        "hinge_height": pivot.w + length * sin(high),
        "lift_bore": plain(ram.bore),
        "lift_rod": ram.rod / ram.bore,
        "tilt_ram_radius": front.tilt_ram.rocker_ram_radius / length,
        "tilt_pin_radius": front.tilt_ram.rocker_pin_radius / length,
        "tilt_turn": plain(front.tilt_ram.rocker_turn),
        "front_tools": _tools(machine, pattern, "front"),
        **_linkage("tilt", front.tilt_ram, length, ("rolled_back", "dumped")),
    }


def _boom(machine: Machine) -> dict[str, Real]:
    back, length = machine.back, plain(machine.back.boom.length)
    foot, ram = Point(*map(plain, back.foot_pin)), back.boom_ram
    ends = _ends(ram, foot)
    found = {
        "slew_behind": machine.stabilisers.x - back.slew_axis_x,
        "foot_out": foot.u,
        "foot_height": foot.w,
        "carriage": back.carriage.mass / machine.weights.total,
        "boom_length": length,
        "boom_mass": plain(back.boom.mass),
        "boom_cog_along": back.boom.cog[0] / length,
        "boom_cog_up": back.boom.cog[1] / length,
        "boom_base_out": (ram.base[0] - foot.u) / length,
        "boom_base_up": (ram.base[1] - foot.w) / length,
        "boom_pin_along": ram.rod_pin[0] / length,
        "boom_pin_up": ram.rod_pin[1] / length,
        "boom_lowest": min(ends),
        "boom_highest": max(ends),
        "boom_lift": boom_lift(machine),
        "boom_rod": ram.rod / ram.bore,
    }
    if back.sideshift_limit:
        found["sideshift_limit"] = plain(back.sideshift_limit)
    return found


def _dipper(machine: Machine, pattern: Machine) -> dict[str, Real]:
    back, boom = machine.back, plain(machine.back.boom.length)
    length, ram = plain(back.dipper.length), back.dipper_ram
    stretched, folded = _ends(ram, Point(boom, 0.0))
    return {
        "dipper_length": length / boom,
        "dipper_mass": plain(back.dipper.mass),
        "dipper_cog_along": back.dipper.cog[0] / length,
        "dipper_cog_up": back.dipper.cog[1] / length,
        "dipper_base_along": ram.base[0] / boom,
        "dipper_base_up": ram.base[1] / boom,
        "dipper_pin_back": -ram.rod_pin[0] / length,
        "dipper_pin_up": ram.rod_pin[1] / length,
        "folded": folded,
        "stretched": stretched,
        "dipper_bore": plain(ram.bore),
        "dipper_rod": ram.rod / ram.bore,
        "bucket_lever": back.bucket_ram.rocker_ram_radius / length,
        "back_tools": _tools(machine, pattern, "back"),
        **_linkage("bucket", back.bucket_ram, length, ("uncurled", "curled")),
    }
