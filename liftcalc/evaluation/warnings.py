"""What the answer has to say against itself: warnings, what was assumed, what was not said."""

from __future__ import annotations

import math

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.caps import speed_of_stop
from liftcalc.evaluation.condition import condition_unsaid, condition_warnings
from liftcalc.evaluation.ground_forces import GroundForces
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.log_position import room_to_machine
from liftcalc.evaluation.members import known_remarks
from liftcalc.factors import LEVEL_LIMIT, WARNING_MASS, WARNING_MOMENT
from liftcalc.family.known import KnownMachine
from liftcalc.machines.files import kinds
from liftcalc.machines.remembered import remembered
from liftcalc.machines.schema import Machine
from liftcalc.physics.joints import stall
from liftcalc.physics.wrench import load_at_tipping
from liftcalc.remarks import Remark, down, near, up
from liftcalc.rigging.gear import missing as gear_missing
from liftcalc.rigging.lift_mode import hook_from_ground_end, moves
from liftcalc.site.hazards import LOW_WIRES
from liftcalc.site.hazards import missing as hazards_missing


def needs_load_warning(*, mass: float, moment: float) -> bool:
    """Whether EN 474-4 asks for an overload warning and a boom-lowering control device.

    Parameters
    ----------
    mass : float
        Rated object-handling mass [kg]: above 1000 kg they are needed.
    moment : float
        Rated object-handling moment [N.m]: at or above 40 000 N·m they are needed. The clause
        says "or"; the moment at the limit itself is taken as needing them.
    """
    return mass > WARNING_MASS or moment >= WARNING_MOMENT


def used_numbers(lift: Lift) -> tuple[tuple[str, str], ...]:
    """Key and kind of every figure of the machine that this lift rests on."""
    used: tuple[tuple[str, str], ...] = _used(lift.machine, lift.tool.name, lift.other_tool.name)
    return used


@remembered(maxsize=64)
def _used(machine: Machine, *fitted: str) -> tuple[tuple[str, str], ...]:
    return tuple(
        (key, kind)
        for key, kind in kinds(machine)
        if not key.startswith("attachment[")
        or any(key.startswith(f"attachment[{name}]") for name in fitted)
    )


def assumed_values(lift: Lift, *, aboard: frozenset[str]) -> tuple[Remark, ...]:
    """Everything not measured or given that the answer rests on.

    ``aboard`` names the lumps the answer was found with.
    """
    tanks = tuple(
        Remark("tank_aboard" if each.name in aboard else "tank_used_up", name=each.name)
        for each in lift.machine.carried
        if each.used_up
    )
    return (*lift.assumed, *tanks, *lift.log.assumed, *_assumed_figures(lift))


def _assumed_figures(lift: Lift) -> tuple[Remark, ...]:
    found: tuple[Remark, ...] = _assumed(lift.machine, lift.tool.name, lift.other_tool.name)
    return found


@remembered(maxsize=64)
def _assumed(machine: Machine, *fitted: str) -> tuple[Remark, ...]:
    return tuple(
        Remark("machine_figure", key=key)
        for key, kind in _used(machine, *fitted)
        if kind == "assumed"
    )


def machine_warnings(lift: Lift) -> list[Remark]:
    """What is not known of the machine: its plate, and the figures nobody measured."""
    said = []
    if not _plated(lift):
        said.append(Remark("no_plate"))
    used, assumed = used_numbers(lift), len(_assumed_figures(lift))
    if lift.machine.invented:
        said.append(Remark("invented", machine=lift.machine.title))
    if isinstance(lift.machine, KnownMachine):
        said += known_remarks(lift.machine)
    elif assumed:
        said.append(Remark("figures_assumed", count=assumed, of=len(used)))
    if lift.gauge is not None and lift.gauge > lift.machine.hydraulics.working_pressure:
        said.append(Remark("gauge_above_book"))
    return [*said, *condition_warnings(lift)]


def _plated(lift: Lift) -> bool:
    """Whether a plate or chart value is known for the end."""
    return lift.plate is not None or any(row.end == lift.end for row in lift.machine.plate)


def stance_warnings(lift: Lift) -> list[Remark]:
    """What the machine stands on, whatever the pose."""
    if lift.stance == "stabilisers and bucket":
        return [Remark("bucket_pressed")]
    return []


def slope_warnings(lift: Lift) -> list[Remark]:
    """How level the machine stands."""
    level = near(math.tan(LEVEL_LIMIT), "ratio")
    if lift.site.levelled:
        return [Remark("levelled", level=level)]
    # A slope that was only tried, since nobody told one, is no news of the ground.
    told = not lift.level_within and lift.site.slope > LEVEL_LIMIT
    return [Remark("slopes", level=level)] if told else []


def ground_remark(forces: GroundForces) -> Remark:
    """What the ground is allowed to carry under the foot that asks most of it."""
    ground, worst = forces.ground, forces.worst
    by_proof = worst.carries and (ground is None or not ground.presumed)
    if by_proof:
        return Remark("proved_there", foot=worst.name, force=down(worst.carries, "force"))
    if ground is None:
        return Remark("ground_unsaid")
    if not ground.presumed:
        return Remark("none_presumed", ground=ground.name)
    if worst.carries is None or math.isinf(worst.carries):
        return Remark("carries_all", ground=ground.name, foot=worst.name)
    force = down(worst.carries, "force")
    return Remark("ground_carries", ground=ground.name, foot=worst.name, force=force)


def device_warnings(*, mass: float, moment: float) -> list[Remark]:
    """What EN 474-4 asks for, of `needs_load_warning`, on a map of loads."""
    if not needs_load_warning(mass=mass, moment=moment):
        return []
    at, turning = down(WARNING_MASS, "mass"), down(WARNING_MOMENT, "moment")
    return [Remark("warning_device", mass=at, moment=turning)]


def _pose_doubts(answer: Answer) -> list[Remark]:
    lift, said = answer.lift, stance_warnings(answer.lift)
    if lift.reach is not None and lift.end == "front" and lift.reach < answer.reached.reach - 0.01:
        has, asked = (near(each, "length") for each in (answer.reached.reach, lift.reach))
        said.append(Remark("front_reach", has=has, asked=asked))
    if lift.sideshift:
        said.append(Remark("sideshifted"))
    if lift.point.hold == "hangs" and not lift.swings:
        said.append(_swing_cost(answer))
    if answer.ground_rise > 0:
        said.append(Remark("ground_rises", rise=up(answer.ground_rise, "length")))
    return said + slope_warnings(lift)


SWUNG = math.radians(5)
"""Swing of which it is told what it costs [rad]; common practice, no source."""


def _swing_cost(answer: Answer) -> Remark:
    """What swinging so would take off; every line holds less by what leans with the load."""
    reached, tool = answer.reached, answer.lift.tool
    hung = float(tool.mass) if tool.mount == "hangs" else 0.0
    x, y, z = reached.load
    tips = []
    for line in reached.lines:
        takes = line.moment.unit(x=x, y=y, z=z, gravity=reached.gravity, swing=SWUNG)
        holding = line.holding_moment + hung * (takes - line.load_unit_moment)
        tips.append(load_at_tipping(holding_moment=holding, load_unit_moment=takes))
    swung = min(tips)
    still = min(float(each.tipping_load) for each in reached.lines)
    # Nothing to lose where nothing tips, or where the machine tips with no load at all.
    lost = 1 - swung / still if 0 < still < math.inf else 0.0
    return Remark("hangs_still", swing=near(SWUNG, "angle"), cost=up(lost, "ratio"))


def _log_doubts(answer: Answer) -> list[Remark]:
    lift, said = answer.lift, list(answer.lift.log.doubts)
    if lift.point.hold == "hangs" and lift.taken.way == "whole":
        turned, _ = room_to_machine(lift, reach=answer.reached.reach)
        said += [Remark("turned_endwise")] if turned < 0 else []
    if lift.point.hold == "cradled":
        said.append(Remark("lies_loose"))
    return said


OPTION_OF = {
    "unsaid_slew": "slew",
    "unsaid_mass": "mass",
    "unsaid_plate": "plate",
    "unsaid_ground": "ground",
    "unsaid_pressure": "ground",
    "unsaid_tyres": "ground",
    "unsaid_contact": "machine",
    "unsaid_packing": "levelled",
    "unsaid_sling": "sling-kind",
    "unsaid_hook": "hook-wll",
    "unsaid_joint": "hook-wll",
    "unsaid_shackle": "shackle-wll",
    "unsaid_hitch": "hitch-wll",
    "unsaid_speed": "speed",
    "unsaid_braking": "braking",
    "unsaid_sinkage": "sinkage",
    "unsaid_wires": "wires",
    "unsaid_edge": "edge",
    "unsaid_people": "people",
    "unsaid_jaw": "machine",
    "unsaid_axles": "machine",
    "unsaid_condition": "faults",
}
"""What was not said, and the option by which it is."""


def unchecked(lift: Lift) -> tuple[Remark, ...]:
    """What is not checked since it was not said."""
    made = [] if _plated(lift) else [Remark("unsaid_plate")]
    if lift.proof is not None and lift.stance != "stabilisers and bucket":
        pass  # what stands on pads or tyres asks nothing more of ground proved under them
    elif lift.ground is None:
        made.append(Remark("unsaid_ground"))
    elif not lift.ground.presumed:
        made.append(Remark("unsaid_pressure", ground=lift.ground.name))
    elif lift.stance == "wheels" and None in (
        lift.machine.wheels.front_footprint,
        lift.machine.wheels.rear_footprint,
    ):
        made.append(Remark("unsaid_tyres"))
    elif lift.stance == "stabilisers and bucket" and lift.other_tool.contact_length is None:
        made.append(Remark("unsaid_contact", tool=lift.other_tool.name))
    if lift.slung:
        made += gear_missing(lift.gear)
    elif lift.point.jaw_force is None and lift.point.hold != "cradled":
        made.append(Remark("unsaid_jaw"))
    if lift.site.levelled and lift.site.slope:
        made.append(Remark("unsaid_packing"))
    if lift.travelling:
        made += _not_said_of_journey(lift)
    return (*made, *condition_unsaid(lift), *hazards_missing(lift.hazards))


def _not_said_of_journey(lift: Lift) -> list[Remark]:
    motion, wheels = lift.motion, lift.machine.wheels
    made = []
    if not motion.speed:
        made.append(Remark("unsaid_speed"))
    if not motion.braking:
        made.append(Remark("unsaid_braking"))
    if motion.sinkage is None:
        made.append(Remark("unsaid_sinkage"))
    if wheels.front_axle_rating is None or wheels.rear_axle_rating is None:
        made.append(Remark("unsaid_axles"))
    return made


def _ground_doubts(answer: Answer) -> list[Remark]:
    lift, feet = answer.lift, answer.ground_forces
    said = [] if feet.stands else [Remark("tips")]
    worst, ground = feet.worst, lift.ground
    if lift.proof is not None:
        return [*said, ground_remark(feet), Remark("proved_lapses")]
    if ground is None or not ground.presumed:
        force = up(worst.worst, "force")
        return [*said, Remark("nothing_presumed", foot=worst.name, force=force)]
    said += [ground_remark(feet), Remark("carries_less")]
    return said if lift.mat is None else [*said, Remark("mats_stiff")]


def journey_warnings(lift: Lift) -> list[Remark]:
    """What wires, and a log that is pulled, may do against every figure."""
    wires, said = lift.hazards.wires_distance, []
    if wires is not None and math.isfinite(wires):
        said.append(Remark("low_wires", height=down(LOW_WIRES, "length")))
    if lift.taken.breakout == 1.0:
        said.append(Remark("lies_free"))
    if lift.taken.skidded:
        said.append(Remark("drawn"))
    return said


LIGHT_DRAG = 0.5
"""Least friction that drawn logs are reported with [-]; from memory."""


def _taken_doubts(answer: Answer) -> list[Remark]:
    """Of a log that is not lifted whole."""
    lift = answer.lift
    if lift.taken.way == "whole":
        return []
    if lift.taken.skidded:
        friction = lift.taken.drag_friction
        return [Remark("light_drag", friction=friction)] if friction < LIGHT_DRAG else []
    hook = hook_from_ground_end(lift.taken, log_length=lift.measure.length)
    # The log's own thickness raises nothing: it lay on the ground with its top so high.
    below_hook = (answer.hang.to_top if answer.hang else 0.0) + lift.log.largest_diameter
    raised = min(max(lift.height - below_hook, 0.0), 0.9 * hook)
    if raised == 0:
        return [Remark("slack")]
    return list(
        moves(
            lift.taken,
            log_length=lift.measure.length,
            cog_from_butt=lift.log.cog_from_butt,
            diameter=lift.log.largest_diameter,
            raised=raised,
            mass=lift.log.mass_planning,
        ).said
    )


def _held_doubts(lift: Lift) -> list[Remark]:
    """What must be said of wheels that hold the machine on a slope."""
    wheels = lift.machine.wheels
    rolls = lift.site.leans and wheels.front_axle_oscillates
    return [Remark("front_rolls")] if rolls and "all" not in {wheels.braked, wheels.driven} else []


def _snag(answer: Answer) -> list[Remark]:
    """Which gives first where the log is held fast: the machine, or the rams that raise it.

    The rams as strong as they may be: nothing lost in them.
    """
    reached = answer.reached
    if answer.lift.point.hold != "hangs":
        return []
    tips = min(float(line.tipping_load) for line in reached.lines)
    whole = float(answer.lift.machine.hydraulics.efficiency)
    stalls = min(
        (
            float(
                stall(
                    push=ram.push / whole,
                    pull=ram.pull / whole,
                    moment_arm=ram.joint.moment_arm,
                    links_moment=ram.links_moment,
                    joint_unit_moment=ram.load_unit_moment,
                )[0]
            )
            for ram in reached.rams
            if ram.joint.moves
        ),
        default=math.inf,
    )
    if stalls < tips:
        return [Remark("snag_stalls", at=up(stalls, "mass"))]
    return [Remark("snag_tips", at=down(tips, "mass"))]


def _lowered(answer: Answer) -> list[Remark]:
    """How fast the log may be lowered, so that a lever let go lifts no support."""
    lift, reached = answer.lift, answer.reached
    if lift.travelling or lift.point.hold != "hangs" or not answer.passes:
        return []
    mass = lift.rigging + lift.pull.share * lift.log.mass_planning
    links, shares = {each.name for each in reached.arm.lumps}, []
    for line in reached.lines:
        load = mass * float(line.load_unit_moment)
        arm = sum(m * min(each, 0.0) for name, m, each in reached.parts(line) if name in links)
        left = float(line.holding_moment) + load
        shares.append(left / -(load + arm) if load + arm < 0 else math.inf)
    speed = speed_of_stop(max(min(shares), 0.0))
    return [Remark("lower_slowly", by=down(min(speed, FASTEST), "length"))]


FASTEST = 0.5
"""Lowering faster than which is never advised [m/s]; common practice, no source."""


def _people(answer: Answer) -> Remark:
    radius = up(answer.stay_away, "length")
    if answer.lift.end == "front":
        return Remark("people_ahead", radius=radius)
    return Remark("people", radius=radius)


def warnings_of(answer: Answer) -> tuple[Remark, ...]:
    """Every warning of an answer, gravest first."""
    lift = answer.lift
    return (
        *_ground_doubts(answer),
        *_pose_doubts(answer),
        *machine_warnings(lift),
        *_held_doubts(lift),
        *_snag(answer),
        *_lowered(answer),
        *([Remark("all_ways")] if lift.site.acceleration else []),
        *journey_warnings(lift),
        *_taken_doubts(answer),
        *_log_doubts(answer),
        _people(answer),
        *([] if lift.stance == "wheels" else [Remark("legs_unknown")]),
        Remark("not_modelled"),
    )
