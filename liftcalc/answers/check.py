"""Check one lift: every criterion, the allowed load, what governs, and the doubts."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from liftcalc.answers.answer import Answer, Criterion, Reached
from liftcalc.answers.capacity import (
    line_capacity,
    plane_gravity,
    ram_capacity,
)
from liftcalc.answers.doubts import assumed_values, warnings_of
from liftcalc.answers.lift import Lift, back_stops
from liftcalc.answers.plates import plate_loads
from liftcalc.errors import Fault, InputError, PoseError
from liftcalc.machines.arm import Arm
from liftcalc.machines.back_arm import reach_back
from liftcalc.machines.front_arm import reach_front
from liftcalc.machines.standing import (
    pressed_front,
    stand,
    travel_back,
    travel_front,
)
from liftcalc.machines.stops import refuse
from liftcalc.physics import written
from liftcalc.rigging.sling import BALANCE_MISS, Hang, hang
from liftcalc.rules import (
    FULL_SHARE,
    RAM_SHARE,
    TIPPING_SHARE,
    Share,
)


def _pose(lift: Lift) -> tuple[Arm, Arm]:
    """The lifting end and the other one, or a ``PoseError`` with everything in the way."""
    radius = lift.log.largest_diameter / 2
    if lift.end == "back":
        if lift.reach is None:
            raise InputError(
                Fault(field="reach", given="nothing", wanted="the reach from the slew axis")
            )
        arm = reach_back(
            lift.machine, tool=lift.tool, point=lift.point, reach=lift.reach, height=lift.height,
            curl=lift.curl, radius=radius,
        )  # fmt: skip
        refuse((*back_stops(lift, slew=lift.slew), *arm.stops), end="back")
        pressed = lift.stance == "stabilisers and bucket"
        other = (pressed_front if pressed else travel_front)(lift.machine, lift.other_tool)
        return arm, other
    arm = reach_front(
        lift.machine, tool=lift.tool, point=lift.point, height=lift.height, tilt=lift.tilt,
        radius=radius,
    )  # fmt: skip
    arm.refuse()
    return arm, travel_back(lift.machine, lift.other_tool)


def _front_reach(lift: Lift, arm: Arm) -> float:
    """Reach of the lift point ahead of the front axle; the arms decide it."""
    reach = float(arm.lift_at.u) - float(lift.machine.wheels.wheelbase)
    if lift.reach is not None and lift.reach > reach + 0.05:
        raise PoseError(
            Fault(
                field="reach of the front end",
                given=f"{lift.reach:.2f} m ahead of the front axle",
                wanted=f"at most {reach:.2f} m at a height of {lift.height:.2f} m",
                fix="the arms decide the reach at a height: drive nearer, or leave reach out",
            )
        )
    return reach


def reach(lift: Lift) -> Reached:
    """Pose the machine for a lift and find what tipping and every ram would allow.

    What cannot be known (fuel, which side a carried log lies to, how far it rolls back) is tried
    every way, and the way that allows least is the one reached; where a ram allows the same in
    several, the one that tips soonest.
    """
    arm, other = _pose(lift)
    gravity = lift.site.gravity
    front, back = (other, arm) if lift.end == "back" else (arm, other)
    distance = float(lift.reach or 0.0) if lift.end == "back" else _front_reach(lift, arm)
    gravity_u, gravity_w = plane_gravity(arm, gravity=gravity, slew=lift.slew)
    found = []
    for number, at in enumerate(arm.load_places):
        rams = tuple(
            ram_capacity(
                joint, load_at=at, gravity_u=gravity_u, gravity_w=gravity_w,
                hydraulics=lift.machine.hydraulics, gauge=lift.gauge, swing=lift.lean,
                hung=lift.hung,
            )
            for joint in arm.joints
        )  # fmt: skip
        holds = RAM_SHARE.value * min(float(ram.capacity) for ram in rams)
        for full, side in _doubtful(lift):
            standing = stand(
                lift.machine, front=front, back=back,
                slew=lift.slew if lift.end == "back" else 0.0, sideshift=lift.sideshift,
                stance=lift.stance, operator=lift.operator, full=full,
            )  # fmt: skip
            x, y, z = lift.in_machine(at)
            load = (x, y + side, z)
            lines = tuple(
                line_capacity(
                    line,
                    whole=standing.whole,
                    load=load,
                    gravity=gravity,
                    swing=lift.lean,
                    hung=lift.hung,
                )
                for line in standing.lines
            )
            tips = TIPPING_SHARE[lift.duty].value * min(float(line.tipping_load) for line in lines)
            least = (min(holds, tips), tips)
            found.append((least, number, not full, side, standing, load, lines, rams))
    *_, standing, load, lines, rams = min(found, key=lambda each: each[:4])
    return Reached(
        arm=arm, other=other, standing=standing, asked=lift.in_machine(arm.lift_at), load=load,
        gravity=gravity, reach=distance, lines=lines, rams=rams,
    )  # fmt: skip


def _doubtful(lift: Lift) -> list[tuple[bool, float]]:
    """What the machine and log may be like, unseen: tank full or not, log to either side [m]."""
    sides = sorted({lift.side_room, -lift.side_room}, reverse=True)
    return [(full, side) for full in (True, False) for side in sides]


def criterion(
    lift: Lift, load_factor: float, *, name: str, capacity: float, share: Share, where: str = ""
) -> Criterion:
    """A criterion with its allowed load and utilisation."""
    allowed = written.allowed_load(capacity=capacity, share=share.value).allowed
    if math.isinf(allowed):
        heaviest, use = math.inf, 0.0
    elif allowed <= lift.rigging:
        heaviest, use = (allowed - lift.rigging) / load_factor, math.inf
    else:
        used = written.utilisation(
            allowed=allowed, rigging_mass=lift.rigging, load_factor=load_factor,
            planning_mass=lift.log.mass_planning,
        )  # fmt: skip
        heaviest, use = used.heaviest_log, used.utilisation
    return Criterion(
        name=name, where=where, capacity=float(capacity), share=share, allowed=float(allowed),
        heaviest_log=float(heaviest), utilisation=float(use),
    )  # fmt: skip


def check(lift: Lift) -> Answer:
    """Check one lift.

    Parameters
    ----------
    lift : Lift

    Returns
    -------
    Answer
        Every criterion has its own share; the least allowed load is the answer. Not modelled
        here, and said in the warnings: ground under the pads, the chain or sling itself, overhead
        wires, people.

    Raises
    ------
    PoseError
        When a link or ram cannot take the pose.
    InputError
        When the stance does not go with the attachment or the sling is too short.
    """
    reached = reach(lift)
    factor = lift.load_factor
    least = min(reached.lines, key=lambda each: float(each.tipping_load))
    made = [
        criterion(
            lift, factor.value, name="tipping", where=least.line.name,
            capacity=float(least.tipping_load), share=TIPPING_SHARE[lift.duty],
        )
    ]  # fmt: skip
    made += [
        criterion(
            lift, factor.value, name=ram.joint.name, capacity=float(ram.capacity), share=RAM_SHARE
        )
        for ram in reached.rams
    ]
    made.append(
        criterion(
            lift, factor.value, name="lift point", where=f"({lift.point.name})",
            capacity=float(lift.point.wll), share=FULL_SHARE,
        )
    )  # fmt: skip
    made += [
        criterion(lift, factor.value, name="plate", where=where, capacity=load, share=FULL_SHARE)
        for where, load in plate_loads(lift, reached.reach)
    ]
    if any(math.isnan(each.capacity) for each in made):
        raise PoseError(
            Fault(
                field="pose",
                given="a place where a linkage cannot close",
                wanted="a pose that the machine can take",
                fix="choose another height, reach or tilt",
            )
        )
    hung, lowest, tipped = _lowest(lift, reached)
    aboard = frozenset(lump.name for lump in reached.standing.lumps)
    answer = Answer(
        lift=lift, reached=reached, load_factor=factor, criteria=tuple(made), hang=hung,
        lowest=lowest, lowest_tipped=tipped, warnings=(),
        assumed=assumed_values(lift, aboard=aboard),
    )  # fmt: skip
    return replace(answer, warnings=warnings_of(answer))


def _lowest(lift: Lift, reached: Reached) -> tuple[Hang | None, float, float]:
    """Height of the log's lowest point, level and off its balance [m]."""
    diameter = lift.log.largest_diameter
    if lift.point.hold != "hangs":
        low = float(reached.arm.load_at.w) - diameter / 2
        return None, low, low
    drop = float(lift.point.drop or 0.0)
    if lift.tool.mount == "hangs":
        low = float(reached.asked[2]) - drop - diameter
        # The grab is a pendulum from its pin: it leans until the balance point is under the pin.
        lean = math.atan2(BALANCE_MISS * lift.measure.length, drop + diameter / 2)
        far = max(lift.log.cog_from_butt, lift.measure.length - lift.log.cog_from_butt)
        return None, low, low - math.sin(lean) * far
    hung = hang(
        lift.sling, drop=drop, log_length=lift.measure.length,
        balance=lift.log.cog_from_butt, diameter=diameter,
        least_diameter=min(lift.log.butt_diameter, lift.log.middle_diameter, lift.log.top_diameter),
    )  # fmt: skip
    height = float(np.asarray(reached.asked[2]))
    return hung, height - hung.lowest_level, height - hung.lowest_tipped
