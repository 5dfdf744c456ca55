"""Check one lift: every criterion, the allowed load, what governs, and the doubts."""

from __future__ import annotations

import math
from dataclasses import replace

from liftcalc.errors import Fault, InputError, PoseError
from liftcalc.evaluation.answer import Answer, Criterion, Reached
from liftcalc.evaluation.capacity import line_capacity, plane_gravity, ram_capacity
from liftcalc.evaluation.clearances import allowed_by, clearances
from liftcalc.evaluation.ground_forces import ground_forces
from liftcalc.evaluation.lift import Lift, back_limits
from liftcalc.evaluation.linear_criteria import criterion_capacity, linear_criteria
from liftcalc.evaluation.log_position import LogPosition, below, ground_rise, lowest
from liftcalc.evaluation.rated_chart import plate_loads
from liftcalc.evaluation.ratings import rated
from liftcalc.evaluation.warnings import assumed_values, unchecked, warnings_of
from liftcalc.factors import FULL_SHARE, RAM_SHARE, TIPPING_SHARE, CapacityFactor
from liftcalc.machines.arm import Arm
from liftcalc.machines.assembly import pressed_front, stand, travel_back, travel_front
from liftcalc.machines.back_arm import reach_back
from liftcalc.machines.front_arm import reach_front
from liftcalc.machines.joint_limits import refuse
from liftcalc.physics import formulas


def _pose(lift: Lift) -> tuple[Arm, Arm]:
    """The lifting end and the other one, or a ``PoseError`` with everything in the way."""
    radius = lift.log.largest_diameter / 2
    if lift.end == "back":
        if lift.reach is None:
            raise InputError(
                Fault(field="reach", given="nothing", wanted="the reach from the slew axis")
            )
        arm = reach_back(
            lift.machine,
            tool=lift.tool,
            point=lift.point,
            reach=lift.reach,
            height=lift.height,
            curl=lift.curl,
            radius=radius,
        )
        refuse((*back_limits(lift, slew=lift.slew), *arm.stops), end="back")
        pressed = lift.stance == "stabilisers and bucket"
        other = (pressed_front if pressed else travel_front)(lift.machine, lift.other_tool)
        return arm, other
    arm = reach_front(
        lift.machine,
        tool=lift.tool,
        point=lift.point,
        height=lift.height,
        tilt=lift.tilt,
        radius=radius,
    )
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
    """Pose the machine for a lift and find what tipping, every ram and the ground would allow.

    What cannot be known (fuel, which side a carried log lies to, how far it rolls back) is tried
    every way, and the way that allows least is the one reached; where a ram allows the same in
    several, the one that tips soonest. Demands of the ground take the worst of all ways each.
    """
    arm, other = _pose(lift)
    gravity = lift.site.gravity
    front, back = (other, arm) if lift.end == "back" else (arm, other)
    distance = float(lift.reach or 0.0) if lift.end == "back" else _front_reach(lift, arm)
    lean = float(lift.lean(reach=distance))
    gravity_u, gravity_w = plane_gravity(arm, gravity=gravity, slew=lift.slew)
    # With full tanks and empty; what is summed up of a machine is summed once.
    states = [
        stand(
            lift.machine,
            front=front,
            back=back,
            slew=lift.slew if lift.end == "back" else 0.0,
            sideshift=lift.sideshift,
            stance=lift.stance,
            operator=lift.operator,
            full=full,
        )
        for full in (True, False)
    ]
    wholes = [each.whole for each in states]
    share, found = TIPPING_SHARE[lift.duty].value, []
    for number, at in enumerate(arm.load_places):
        rams = tuple(
            ram_capacity(
                joint,
                load_at=at,
                gravity_u=gravity_u,
                gravity_w=gravity_w,
                hydraulics=lift.machine.hydraulics,
                gauge=lift.gauge,
                swing=lean,
                hung=lift.hung,
            )
            for joint in arm.joints
        )
        holds = RAM_SHARE.value * min(float(ram.capacity) for ram in rams)
        x, y, z = lift.in_machine(at)
        for state, whole in enumerate(wholes):
            for side in sorted({lift.side_room, -lift.side_room}, reverse=True):
                load = (x, y + side, z)
                lines = tuple(
                    line_capacity(
                        line, whole=whole, load=load, gravity=gravity, swing=lean, hung=lift.hung
                    )
                    for line in states[state].lines
                )
                tips = share * min(float(line.tipping_load) for line in lines)
                found.append(((min(holds, tips), tips), number, state, side, load, lines, rams))
    *_, state, _, load, lines, rams = min(found, key=lambda each: each[:4])
    loads = tuple(dict.fromkeys(each[4] for each in found))
    asks = tuple(
        criterion_capacity(
            each, wholes=wholes, loads=loads, gravity=gravity, lean=lean, hung=lift.hung
        )
        for each in linear_criteria(lift, states[state], gravity=gravity)
    )
    return Reached(
        arm=arm,
        other=other,
        standing=states[state],
        asked=lift.in_machine(arm.lift_at),
        load=load,
        gravity=gravity,
        reach=distance,
        lines=lines,
        rams=rams,
        lean=lean,
        linear_criteria=asks,
        wholes=tuple(wholes),
        loads=loads,
    )


def criterion(
    lift: Lift, *, name: str, capacity: float, share: CapacityFactor, where: str = ""
) -> Criterion:
    """A criterion with its allowed load and utilisation."""
    allowed = formulas.allowed_load(capacity=capacity, share=share.value).allowed
    if math.isinf(allowed):
        heaviest, use = math.inf, 0.0
    elif allowed <= lift.rigging:
        heaviest, use = (allowed - lift.rigging) / lift.per_log, math.inf
    else:
        used = formulas.utilisation(
            allowed=allowed,
            rigging_mass=lift.rigging,
            load_factor=lift.per_log,
            planning_mass=lift.log.mass_planning,
        )
        heaviest, use = used.heaviest_log, used.utilisation
    return Criterion(
        name=name,
        where=where,
        capacity=float(capacity),
        share=share,
        allowed=float(allowed),
        heaviest_log=float(heaviest),
        utilisation=float(use),
    )


def check(lift: Lift) -> Answer:
    """Check one lift.

    Parameters
    ----------
    lift : Lift

    Returns
    -------
    Answer
        Every criterion has its own share; the least allowed load is the answer. On a journey it is
        that of the way to brake and turn which allows least. What was not said is not checked, and
        the answer names it.

    Raises
    ------
    PoseError
        When a link or ram cannot take the pose.
    InputError
        When the stance does not go with the attachment, or the sling not with the log.
    """
    worst = min(
        (_check(way) for way in lift.ways),
        key=lambda each: (each.heaviest_log, each.allowed, -each.utilisation),
    )
    # A way holds its journey in its site; what was said of it stands in the lift as asked.
    return replace(worst, unchecked=unchecked(lift))


def _check(lift: Lift) -> Answer:
    """Check one lift on a site that holds all its motion."""
    reached, log = reach(lift), below(lift)
    level, tipped = lowest(lift, log, asked=reached.asked[2], load_at=reached.arm.load_at)
    rise = float(ground_rise(lift, log, x=reached.asked[0], y=reached.asked[1]))
    made = (*_loads(lift, reached, log), *_clear(lift, reached, log, float(level)))
    if math.isnan(level + tipped) or any(math.isnan(each.capacity) for each in made):
        raise PoseError(
            Fault(
                field="pose",
                given="a place where a linkage cannot close",
                wanted="a pose that the machine can take",
                fix="choose another height, reach or tilt",
            )
        )
    aboard = frozenset(lump.name for lump in reached.standing.lumps)
    answer = Answer(
        lift=lift,
        reached=reached,
        load_factor=lift.load_factor,
        criteria=made,
        hang=log.hang,
        lowest=float(level) - rise,
        lowest_tipped=float(tipped) - rise,
        ground_rise=rise,
        ground_forces=ground_forces(
            lift,
            reached.standing,
            load=reached.load,
            lean=reached.lean,
            gravity=reached.gravity,
            wholes=reached.wholes,
            loads=reached.loads,
        ),
        unchecked=(),
        warnings=(),
        assumed=assumed_values(lift, aboard=aboard),
    )
    return replace(answer, warnings=warnings_of(answer))


def _loads(lift: Lift, reached: Reached, log: LogPosition) -> list[Criterion]:
    """Criteria that a load decides: tipping, rams, ground and wheels, ratings, plate."""
    least = min(reached.lines, key=lambda each: float(each.tipping_load))
    made = [
        criterion(
            lift,
            name="tipping",
            where=least.line.name,
            capacity=float(least.tipping_load),
            share=TIPPING_SHARE[lift.duty],
        )
    ]
    made += [
        criterion(lift, name=ram.joint.name, capacity=float(ram.capacity), share=RAM_SHARE)
        for ram in reached.rams
    ]
    made += [
        criterion(
            lift,
            name=each.demand.name,
            where=each.demand.where,
            capacity=each.capacity,
            share=each.demand.share,
        )
        for each in reached.linear_criteria
    ]
    for each in rated(lift, log):
        share = CapacityFactor(value=1.0, source=each.source, why=each.why)
        one = criterion(lift, name=each.name, where=each.where, capacity=each.capacity, share=share)
        made.append(replace(one, worked=each.worked))
    made += [
        criterion(lift, name="plate", where=where, capacity=load, share=FULL_SHARE)
        for where, load in plate_loads(lift, reached.reach)
    ]
    return made


def _clear(lift: Lift, reached: Reached, log: LogPosition, level: float) -> list[Criterion]:
    """Criteria that no load decides: distances to keep."""
    made = []
    for each in clearances(
        lift,
        log,
        arm=reached.arm,
        reach=reached.reach,
        height=float(reached.asked[2]),
        lean=reached.lean,
        lowest=level,
    ):
        share = CapacityFactor(value=1.0, source=each.source, why=each.said)
        one = criterion(
            lift,
            name=each.name,
            where=f"({each.where})",
            capacity=float(allowed_by(each)),
            share=share,
        )
        has, needs = float(each.has), float(each.needs)
        used = needs / has if has > 0 else math.inf
        distance = f"needs {math.ceil(100 * needs - 1e-9) / 100:.2f} m"
        left = "any distance" if math.isinf(has) else f"{math.floor(100 * has) / 100:.2f} m"
        said = f"{each.name}: {distance}, has {left}"
        made.append(replace(one, said=said, clearance=each, utilisation=used))
    return made
