"""Check one lift: every criterion, the allowed load, what governs, and the doubts."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from liftcalc.errors import Fault, InputError, PoseError
from liftcalc.evaluation.answer import Answer, Criterion, CriterionKind
from liftcalc.evaluation.evaluator import Evaluator
from liftcalc.evaluation.ground_forces import ground_forces
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.log_position import ground_rise, lowest
from liftcalc.evaluation.plane_forms import Case, Rule
from liftcalc.evaluation.possible import allowed_by
from liftcalc.evaluation.rams import plane_gravity
from liftcalc.evaluation.reached import CriterionCapacity, LineCapacity, Reached
from liftcalc.evaluation.turning import back_limits
from liftcalc.evaluation.warnings import assumed_values, unchecked, warnings_of
from liftcalc.factors import FULL_SHARE, ONCE, RAM_SHARE, TIPPING_SHARE, CapacityFactor
from liftcalc.machines.arm import Arm
from liftcalc.machines.assembly import MachineState, end_masses, total_mass
from liftcalc.machines.joint_limits import refuse
from liftcalc.physics import formulas
from liftcalc.physics.worked import Worked, work
from liftcalc.physics.wrench import load_at_failure, load_at_tipping
from liftcalc.remarks import Phrase, down, near
from liftcalc.site.clearance import Clearance


def _pose(evaluator: Evaluator) -> Arm:
    """The lifting end, or a ``PoseError`` with everything in the way."""
    lift = evaluator.lift
    if lift.end == "back" and lift.reach is None:
        raise InputError(
            Fault(field="reach", given="nothing", wanted="the reach from the slew axis")
        )
    arm = evaluator.pose(lift.reach, lift.height)
    turning = back_limits(lift, slew=lift.slew) if lift.end == "back" else ()
    refuse((*turning, *arm.stops), end=lift.end)
    reach = evaluator.reach(arm)
    if lift.end == "front" and lift.reach is not None and lift.reach > reach + 0.05:
        raise PoseError(
            Fault(
                field="reach of the front end",
                given=Phrase("{reach} ahead of the front axle", reach=near(lift.reach, "length")),
                wanted=Phrase(
                    "at most {reach} at a height of {height}",
                    reach=down(reach, "length"),
                    height=near(lift.height, "length"),
                ),
                fix="the arms decide the reach at a height: drive nearer, or leave reach out",
            )
        )
    return arm


def reach(lift: Lift) -> Reached:
    """Pose the machine for a lift and find what tipping, every ram and the ground would allow."""
    evaluator = Evaluator(lift)
    return _reached(evaluator, _pose(evaluator))


def _reached(evaluator: Evaluator, arm: Arm) -> Reached:
    """What tipping, every ram and the ground would allow a posed machine.

    What cannot be known (fuel, which side a carried log lies to, how far it rolls back) is tried
    every way, and the way that allows least is the one reached; where a ram allows the same in
    several, the one that tips soonest. What ground and wheels ask takes the worst of all ways each.
    """
    lift, fixed, lean = evaluator.lift, evaluator.fixed, evaluator.lean(arm)
    rams = tuple(zip(*evaluator.rams(arm, lean), strict=True))
    sides = sorted({lift.side_room, -lift.side_room}, reverse=True)
    tipping = TIPPING_SHARE[lift.duty].value / lift.load_factor("tipping").value
    holding, found = RAM_SHARE.value / lift.load_factor("ram", lean=lean).value, []
    for number, at in enumerate(evaluator.places(arm)):
        holds = holding * min(ram.capacity for ram in rams[number])
        for side in sides:
            for state in range(len(fixed.states)):
                lines = _lines(evaluator, arm, lean, Case(at, side, state))
                tips = tipping * min(line.tipping_load for line in lines)
                (load,) = evaluator.loads((at,), side)
                # Left and right are often alike but for rounding: of equals the right is told.
                worth = round(min(holds, tips), 6), round(tips, 6)
                found.append((worth, number, state, side, load, lines))
    _, number, state, _, load, lines = min(found, key=lambda each: each[:4])
    ends = end_masses(arm.lumps, evaluator.plane)
    lumps = (*fixed.states[state], *ends)
    return Reached(
        arm=arm,
        other=fixed.other,
        fixed=fixed,
        standing=MachineState(lumps=lumps, supports=fixed.supports, lines=fixed.lines),
        asked=evaluator.plane.point(arm.lift_at),
        load=load,
        gravity=evaluator.gravity,
        reach=float(evaluator.reach(arm)),
        lines=lines,
        rams=rams[number],
        lean=float(lean),
        linear=_linear(evaluator, arm, lean),
        wholes=tuple(total_mass((each, *ends)) for each in fixed.masses),
        loads=tuple(dict.fromkeys(each[4] for each in found)),
        gravity_worked=evaluator.gravity_worked,
        leaning=lift.leaning(reach=evaluator.reach(arm)),
        forces=lift.level_forces,
        plane_gravity=plane_gravity(arm, gravity=evaluator.gravity, slew=evaluator.slew),
    )


def _lines(evaluator: Evaluator, arm: Arm, lean: float, case: Case) -> tuple[LineCapacity, ...]:
    """Every tipping line in one case."""
    made = []
    for line, rule in zip(evaluator.fixed.lines, evaluator.rules, strict=False):
        (holding, takes, _), (form,) = *evaluator.held(rule, arm, lean, case), rule.forms
        load = load_at_tipping(holding_moment=holding, load_unit_moment=takes)
        made.append(LineCapacity(line, form.functional, holding, takes, load))
    return tuple(made)


def _linear(evaluator: Evaluator, arm: Arm, lean: float) -> tuple[CriterionCapacity, ...]:
    """What ground and wheels ask, tipping lines apart: for each criterion the way that fails."""
    found: dict[int, CriterionCapacity] = {}
    tipping = len(evaluator.fixed.lines)
    for rule in evaluator.rules[tipping:]:
        key, way = id(rule.criterion), _way(rule)
        held = evaluator.held(rule, arm, lean)
        holding, per_kilogram, _ = zip(*held, strict=True)
        fails = load_at_failure(holding=holding, per_kilogram=per_kilogram)
        if key not in found or not fails >= found[key].capacity:
            found[key] = CriterionCapacity(rule.criterion, way, held, float(fails))
    return tuple(found.values())


def _way(rule: Rule) -> int:
    """Which of its criterion's ways a rule is."""
    return next(
        number
        for number, way in enumerate(rule.criterion.ways)
        if all(term[0] is form.functional for term, form in zip(way, rule.forms, strict=True))
    )


def criterion(
    lift: Lift,
    kind: CriterionKind,
    *,
    name: str,
    capacity: float,
    share: CapacityFactor,
    load_factor: CapacityFactor | None = None,
    tolerance_share: float = 1.0,
    where: str = "",
    worked: tuple[Worked, ...] = (),
) -> Criterion:
    """A criterion with its allowed load and utilisation; its load factor is that of its kind."""
    counts = load_factor or lift.load_factor(kind)
    shared = work(
        name,
        formulas.allowed_load,
        capacity=capacity,
        share=share.value,
        tolerance_share=tolerance_share,
        load_factor=counts.value,
    )
    worked, allowed = (*worked, shared), shared.steps.allowed
    if math.isinf(allowed):
        heaviest, use = math.inf, 0.0
    elif allowed <= lift.rigging:
        heaviest, use = (allowed - lift.rigging) / lift.pull.share, math.inf
    else:
        used = work(
            name,
            formulas.utilisation,
            allowed=allowed,
            rigging_mass=lift.rigging,
            pull_share=lift.pull.share,
            planning_mass=lift.log.mass_planning,
        )
        worked = (*worked, used)
        heaviest, use = used.steps.heaviest_log, used.steps.utilisation
    return Criterion(
        kind=kind,
        name=name,
        where=where,
        capacity=float(capacity),
        share=share,
        load_factor=counts,
        tolerance_share=tolerance_share,
        allowed=float(allowed),
        heaviest_log=float(heaviest),
        utilisation=float(use),
        worked=worked,
    )


def check(lift: Lift) -> Answer:
    """Check one lift.

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
        When stance and attachment, or sling and log, do not go together.
    """
    found = [_check(way) for way in lift.ways]
    worst = found[0]
    if len(found) > 1:
        worst = min(found, key=lambda each: each.borne)
    # A way holds its journey in its site; what was said of it stands in the lift as asked.
    answer = replace(worst, unchecked=unchecked(lift), journey=lift.journey)
    return replace(answer, warnings=warnings_of(answer))


def _check(lift: Lift) -> Answer:
    """Check one lift on a site that holds all its motion."""
    evaluator = Evaluator(lift)
    arm = _pose(evaluator)
    reached, log = _reached(evaluator, arm), evaluator.log
    level, tipped = lowest(lift, log, asked=arm.lift_at.w, load_at=arm.load_at)
    rise = float(ground_rise(lift, log, x=reached.asked[0], y=reached.asked[1]))
    made = (*_loads(evaluator, reached), *_clear(evaluator, reached))
    if evaluator.doubted:
        made = _with_tolerances(evaluator, reached, made)
    if math.isnan(level + tipped) or any(math.isnan(each.capacity) for each in made):
        raise PoseError.of(
            field="pose",
            given="a place where a linkage cannot close",
            wanted="a pose that the machine can take",
            fix="choose another height, reach or tilt",
        )
    aboard = frozenset(lump.name for lump in reached.standing.lumps)
    return Answer(
        lift=lift,
        reached=reached,
        criteria=made,
        hang=log.hang,
        lowest=float(level) - rise,
        lowest_tipped=float(tipped) - rise,
        ground_rise=rise,
        keep_out=evaluator.keep_out(arm, reached.lean),
        ground_forces=ground_forces(evaluator, reached),
        unchecked=(),
        warnings=(),
        assumed=assumed_values(lift, aboard=aboard),
        most=evaluator.most(arm) if evaluator.known else None,
    )


def _with_tolerances(
    evaluator: Evaluator, reached: Reached, made: tuple[Criterion, ...]
) -> tuple[Criterion, ...]:
    """The criteria with what tolerances of the machine's figures take off each."""
    found = evaluator.kept(reached.arm)
    kept: dict[str, tuple[float, ...]] = {}
    for (_, title), (told, careful) in zip(evaluator.titles, found, strict=False):
        before = kept.get(title, (math.inf, math.inf))
        kept[title] = min(before[0], float(told)), min(before[1], float(careful))
    # Another line may tip first then: the one that does as told keeps its name.
    lines = found[: len(reached.lines)]
    kept[made[0].title] = tuple(float(min(each[of] for each in lines)) for of in (0, 1))
    return tuple(_kept(evaluator.lift, each, kept) for each in made)


def _kept(lift: Lift, each: Criterion, kept: Mapping[str, tuple[float, ...]]) -> Criterion:
    title = "plate" if each.kind == "plate" else each.title
    told, careful = kept.get(title, (math.inf, math.inf))
    if each.clearance is not None or told == careful or told <= 0:
        return each
    endless = math.isinf(told)
    own = tuple(one for one in each.worked if one.formula not in ("allowed_load", "utilisation"))
    return criterion(
        lift,
        each.kind,
        name=each.name,
        where=each.where,
        # What no load comes to as told may have a load at the ends of tolerances.
        capacity=careful * each.load_factor.value / each.share.value if endless else each.capacity,
        share=each.share,
        load_factor=each.load_factor,
        tolerance_share=1.0 if endless else careful / told,
        worked=() if endless else own,
    )


def _loads(evaluator: Evaluator, reached: Reached) -> list[Criterion]:
    """Criteria that a load decides: tipping, rams, ground and wheels, ratings, plate."""
    lift = evaluator.lift
    least = min(reached.lines, key=lambda each: each.tipping_load)
    made = [
        criterion(
            lift,
            "tipping",
            name="tipping",
            where=least.line.name,
            capacity=least.tipping_load,
            share=TIPPING_SHARE[lift.duty],
            worked=_tips(least),
        )
    ]
    made += [
        criterion(
            lift,
            "ram",
            name=ram.joint.name,
            capacity=ram.capacity,
            share=RAM_SHARE,
            load_factor=lift.load_factor("ram", lean=reached.lean),
            worked=ram.worked,
        )
        for ram in reached.rams
    ]
    made += [
        criterion(
            lift,
            each.criterion.kind,
            name=each.criterion.name,
            where=each.criterion.where,
            capacity=each.capacity,
            share=each.criterion.factor,
        )
        for each in reached.linear
    ]
    return made + _rated(evaluator, reached)


def _rated(evaluator: Evaluator, reached: Reached) -> list[Criterion]:
    """Criteria that somebody rated: lift point, rigging and jaw, plate."""
    lift = evaluator.lift
    made = [
        criterion(
            lift,
            each.kind,
            name=each.name,
            where=f"({each.where})",
            capacity=each.capacity,
            share=CapacityFactor(value=1.0, source=each.source, why=each.why),
            load_factor=lift.load_factor(each.kind, lean=reached.lean),
            worked=each.worked,
        )
        for each in evaluator.ratings
    ]
    made += [
        criterion(
            lift,
            "plate",
            name="plate",
            where=each.where(reached.reach),
            capacity=float(each.allowed(reached.reach)),
            share=FULL_SHARE,
        )
        for each in evaluator.plates
    ]
    return made


def _tips(line: LineCapacity) -> tuple[Worked, ...]:
    """How the tipping load was found, where there is one."""
    if not 0 < line.tipping_load < math.inf:
        return ()
    return (
        work(
            "tipping load",
            formulas.tipping_load,
            holding_moment=line.holding_moment,
            load_unit_moment=line.load_unit_moment,
        ),
    )


def _clear(evaluator: Evaluator, reached: Reached) -> list[Criterion]:
    """What must be kept whatever the load weighs, and what caps it beside its rating."""
    made, (arm, lean) = [], (reached.arm, reached.lean)
    for each in (*evaluator.clearances(arm, lean), *evaluator.stops(arm, lean)):
        clearance = each if isinstance(each, Clearance) else None
        one = criterion(
            evaluator.lift,
            each.kind,
            name=each.name,
            where=f"({each.where})",
            capacity=float(allowed_by(each)),
            share=each.share,
            load_factor=ONCE if clearance else None,
            worked=clearance.worked if clearance else (),
        )
        if clearance:
            one = replace(one, clearance=clearance, utilisation=clearance.used)
        made.append(one)
    return made
