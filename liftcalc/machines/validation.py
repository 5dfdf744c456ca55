"""Whether a machine that reads well can also exist: its linkages close, its weights make sense."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from liftcalc.errors import Fault, InputError, raise_any
from liftcalc.machines.arm import Arm, angle_range
from liftcalc.machines.assembly import chassis, travel_back, travel_front
from liftcalc.machines.schema import LinkRam, Machine, TiltRam
from liftcalc.physics.joints import FourBar, tilt_from_angle, tilt_from_ram
from liftcalc.physics.plane import Point

_SAMPLES = 41


def sound(machine: Machine, *, file: str) -> None:
    """Raise one ``InputError`` with everything about a machine that cannot be.

    Looked at: every ram closes its triangle or four-bar over its whole stroke and never passes
    dead centre; the travel pose is within the strokes; the weights leave a chassis; pin, centre of
    gravity and tyre marks are of a size that can be; names of attachments are not used twice.
    """
    faults = [
        *_links(machine, file),
        *_tilts(machine, file),
        *_sizes(machine, file),
        *_names(machine, file),
    ]
    if not faults:
        faults += _travel(machine, file)
    if not faults:
        try:
            chassis(machine)
        except InputError as error:
            faults += [replace(fault, file=file) for fault in error.faults]
    raise_any(faults)


def _links(machine: Machine, file: str) -> Iterator[Fault]:
    back, front = machine.back, machine.front
    zero = Point(0.0, 0.0)
    rams: tuple[tuple[str, LinkRam, Point], ...] = (
        ("back.boom_ram", back.boom_ram, Point(*back.foot_pin)),
        ("back.dipper_ram", back.dipper_ram, Point(back.boom.length, 0.0)),
        ("front.lift_ram", front.lift_ram, Point(*front.arm_pivot)),
    )
    for key, ram, pivot in rams:
        base, tip = Point(*ram.base), Point(*ram.rod_pin)
        near = float(np.hypot(base.u - pivot.u, base.w - pivot.w))
        far = float(np.hypot(tip.u - zero.u, tip.w - zero.w))
        if np.any(np.isnan(angle_range(ram, pivot=pivot, base_pin=base))):
            yield Fault(
                field="linkage that cannot close",
                given=f"a ram of {ram.closed:.2f} to {ram.open:.2f} m between pins "
                f"{near:.2f} m and {far:.2f} m from the joint",
                wanted=f"lengths between {abs(near - far):.2f} and {near + far:.2f} m",
                fix="check both pins and both lengths",
                file=file,
                key=key,
            )


def _tilts(machine: Machine, file: str) -> Iterator[Fault]:
    ends: tuple[tuple[str, TiltRam, float], ...] = (
        ("back.bucket_ram", machine.back.bucket_ram, machine.back.dipper.length),
        ("front.tilt_ram", machine.front.tilt_ram, machine.front.arm.length),
    )
    for key, ram, length in ends:
        fault = _tilt_fault(ram, ram.four_bar(pivot=Point(length, 0.0)))
        if fault:
            given, wanted, fix = fault
            yield Fault(
                field="linkage that cannot close",
                given=given,
                wanted=wanted,
                fix=fix,
                file=file,
                key=key,
            )


def _tilt_fault(ram: TiltRam, bar: FourBar) -> tuple[str, str, str] | None:
    """What is wrong with a four-bar over its stroke: given, wanted, fix."""
    lengths = np.linspace(float(ram.closed), float(ram.open), _SAMPLES)
    tilt = tilt_from_ram(bar, ram_length=lengths)
    open_at = np.isnan(tilt.angle) | np.isnan(tilt.moment_arm)
    if open_at.any():
        first = lengths[int(np.argmax(open_at))]
        return (
            f"rocker and link that do not meet with the ram {first:.2f} m long",
            f"a linkage that closes from {ram.closed:.2f} to {ram.open:.2f} m",
            "check rocker_pivot, the two rocker radii, link_length and link_pin",
        )
    if np.ptp(np.sign(tilt.moment_arm)) != 0:
        return (
            "a linkage that passes dead centre within the stroke",
            "an attachment that turns one way as the ram lengthens",
            "check link_side, lengthens and the stroke",
        )
    again = tilt_from_angle(bar, angle=tilt.angle).ram_length
    if not np.allclose(again, lengths, atol=1e-6, rtol=0):
        return (
            "a linkage that could stand two ways at one angle",
            "one ram length for each angle of the attachment",
            "check link_side and lengthens",
        )
    return None


def _travel(machine: Machine, file: str) -> Iterator[Fault]:
    fitted = {tool.name: tool for tool in machine.attachment}
    arms: tuple[Arm, ...] = (
        travel_front(machine, fitted[machine.fitted.front]),
        travel_back(machine, fitted[machine.fitted.back]),
    )
    for arm in arms:
        turned = list(_turned_over(arm, file))
        yield from turned
        for stop in arm.stops if not turned else ():
            if np.any(stop.violated):
                yield Fault(
                    field=f"travel pose, {stop.name}",
                    given=f"{float(stop.needs):.2f} m needed",
                    wanted=f"{stop.least:.2f} to {stop.most:.2f} m",
                    fix="state the pose the machine was weighed in",
                    file=file,
                    key=f"{arm.end}.travel",
                )


_KEYS = {"boom ram": "boom_ram", "dipper ram": "dipper_ram", "lift rams": "lift_ram"}


def _turned_over(arm: Arm, file: str) -> Iterator[Fault]:
    """Rams whose pins, in the travel pose, turn their link the other way than the file says."""
    for joint in arm.joints:
        if isinstance(joint.ram, LinkRam) and joint.ram.side * float(joint.moment_arm) < 0:
            turns = "down" if joint.ram.lengthens == "up" else "up"
            yield Fault(
                field="lengthens",
                given=f'"{joint.ram.lengthens}"',
                wanted=f'"{turns}", the way its pins turn the link in the travel pose',
                fix="turn it round, or check both pins and the travel pose",
                file=file,
                key=f"{arm.end}.{_KEYS[joint.name]}.lengthens",
            )


def _sizes(machine: Machine, file: str) -> Iterator[Fault]:
    """Figures that no machine can have, and that would make it seem steadier than it is."""
    wheels = machine.wheels
    bounds = [
        (
            "wheels.axle_pin_height",
            wheels.axle_pin_height,
            0.0,
            2 * wheels.front_radius,
            "a pin no higher than the front tyre",
        ),
        (
            "chassis.cog_height",
            machine.chassis.cog_height,
            0.5 * wheels.rear_radius,
            3.0,
            "a centre of gravity between half the rear tyre's radius and 3 m",
        ),
    ]
    for which, size, radius in (
        ("front", wheels.front_footprint, wheels.front_radius),
        ("rear", wheels.rear_footprint, wheels.rear_radius),
    ):
        if size is not None:
            bounds += [
                (
                    f"wheels.{which}_footprint",
                    each,
                    0.0,
                    2 * radius,
                    "the mark of a tyre, no longer or wider than the tyre",
                )
                for each in size
            ]
    for key, value, low, high, wanted in bounds:
        if not low <= value <= high:
            yield Fault(
                field=key.rpartition(".")[2].replace("_", " "),
                given=value.text,
                wanted=wanted,
                fix="measure again, and check the unit",
                file=file,
                key=key,
            )


def _names(machine: Machine, file: str) -> Iterator[Fault]:
    names = [tool.name.lower() for tool in machine.attachment]
    for name in sorted({each for each in names if names.count(each) > 1}):
        yield Fault(
            field="attachment",
            given=f'"{name}" more than once',
            wanted="a name for each",
            file=file,
            key="attachment",
        )
