"""What the answer has to say against itself: warnings, and what was assumed."""

from __future__ import annotations

import math

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.lift import Lift
from liftcalc.factors import LEVEL_LIMIT, WARNING_MASS, WARNING_MOMENT
from liftcalc.machines.files import kinds
from liftcalc.machines.schema import Machine, remembered
from liftcalc.physics.wrench import load_at_tipping
from liftcalc.rigging.gear import missing as gear_missing
from liftcalc.rigging.lift_mode import hook_from_ground_end, moves
from liftcalc.site.hazards import LOW_WIRES
from liftcalc.site.hazards import missing as hazards_missing
from liftcalc.units import G0


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


def assumed_values(lift: Lift, *, aboard: frozenset[str]) -> tuple[str, ...]:
    """Everything not measured or given that the answer rests on, by key or in words.

    ``aboard`` names the lumps the answer was found with.
    """
    tanks = tuple(
        f"{each.name} {'aboard' if each.name in aboard else 'used up'}, since it tips sooner so"
        for each in lift.machine.carried
        if each.used_up
    )
    machine = tuple(f"machine: {key}" for key, kind in used_numbers(lift) if kind == "assumed")
    return (*lift.assumed, *tanks, *lift.log.assumed, *machine)


def machine_warnings(lift: Lift) -> list[str]:
    """What is not known of the machine: its plate, and the figures nobody measured."""
    said = []
    if lift.plate is None and not any(row.end == lift.end for row in lift.machine.plate):
        said.append(
            "No plate or chart value was entered for this end: if the machine has one, it comes "
            "before this answer and may be lower."
        )
    used = used_numbers(lift)
    assumed = sum(kind == "assumed" for _, kind in used)
    if lift.machine.invented:
        said.append(
            f"{lift.machine.title} is an invented class, not your machine: measure yours before "
            "you trust a figure."
        )
    if assumed:
        said.append(f"{assumed} of the machine's {len(used)} figures are assumed, not measured.")
    if lift.gauge is not None and lift.gauge > lift.machine.hydraulics.working_pressure:
        said.append(
            "The gauge reads above the book pressure; the book's was used. A relief valve set too "
            "high is a fault to put right."
        )
    return said


def _pose_doubts(answer: Answer) -> list[str]:
    lift, said = answer.lift, []
    if lift.end == "back" and lift.stance == "wheels":
        said.append(
            "Lifting over the back without stabilisers: tyres give and the machine rocks. Put the "
            "stabilisers down."
        )
    if lift.end == "back" and lift.stance == "stabilisers and bucket":
        said.append("Counts only while the bucket is really pressed down and carries weight.")
    if lift.reach is not None and lift.end == "front" and lift.reach < answer.reached.reach - 0.01:
        said.append(
            f"At this height the arms put the lift point {answer.reached.reach:.2f} m ahead of "
            f"the front axle, not {lift.reach:.2f} m; the answer is for the farther."
        )
    if lift.sideshift:
        said.append("With the back end sideshifted, left and right are not alike.")
    if lift.point.hold == "hangs" and not lift.swings:
        said.append(_swing_cost(answer))
    if answer.ground_rise > 0:
        said.append(
            f"Heights are from the ground the machine stands on; under the log's uphill side it "
            f"may be {math.ceil(100 * answer.ground_rise) / 100:.2f} m higher, and the log so much "
            "nearer to it."
        )
    if lift.site.levelled:
        said.append("Counts only while the machine really stands level within 1 % on its pads.")
    elif lift.site.slope > LEVEL_LIMIT:
        said.append(
            "The ground slopes more than 1 %: ratings do not cover that, and a raised load across "
            "a slope is how machines go over. Level the machine."
        )
    return said


def _swing_cost(answer: Answer) -> str:
    """What swinging 5° would take off; every line holds less by what leans with the load."""
    reached, tool = answer.reached, answer.lift.tool
    hung = float(tool.mass) if tool.mount == "hangs" else 0.0
    x, y, z = reached.load
    tips = []
    for line in reached.lines:
        takes = line.moment.unit(x=x, y=y, z=z, gravity=reached.gravity, swing=math.radians(5))
        holding = line.holding_moment + hung * (takes - line.load_unit_moment)
        tips.append(load_at_tipping(holding_moment=holding, load_unit_moment=takes))
    swung = min(tips)
    still = min(float(each.tipping_load) for each in reached.lines)
    # Nothing to lose where nothing tips, or where the machine tips with no load at all.
    lost = 100 * (1 - swung / still) if 0 < still < math.inf else 0.0
    return (
        f"The log is taken to hang still. Swinging 5° the wrong way would take {math.ceil(lost)} % "
        "off the tipping load."
    )


def _log_doubts(answer: Answer) -> list[str]:
    lift, said = answer.lift, list(answer.lift.log.doubts)
    if answer.lowest < 0:
        said.append(
            f"At this height the log would still be {-answer.lowest:.2f} m into the ground: it is "
            "not clear. Lift higher or use a shorter sling."
        )
    if answer.lowest_tipped < min(0.0, answer.lowest):
        said.append(
            "Hung a little off its balance point one end of the log still touches the ground at "
            f"this height ({-answer.lowest_tipped:.2f} m too low)."
        )
    if answer.hang is not None and answer.hang.angle > SLIDES_OUT and lift.taken.way == "whole":
        said.append(
            f"It hangs up to {math.degrees(answer.hang.angle):.0f}° off the level and can slide "
            "out of its sling: sling it nearer its balance point."
        )
    if lift.point.hold == "cradled":
        said.append("The log lies loose: secure it, and keep the attachment rolled back.")
    return said


def unchecked(lift: Lift) -> tuple[str, ...]:
    """What is not checked since it was not said, in words that follow "not said:"."""
    made = []
    if lift.plate is None and not any(row.end == lift.end for row in lift.machine.plate):
        made.append("what the machine's plate or chart allows here")
    if lift.ground is None:
        made.append("what ground the machine stands on")
    elif lift.ground.allowed is None:
        made.append(f"what pressure the {lift.ground.name} may carry: none may be presumed")
    elif lift.stance == "wheels":
        made.append(
            f"whether {lift.ground.name} carries the tyres: they are not counted out for it"
        )
    elif lift.stance == "stabilisers and bucket" and lift.other_tool.contact_length is None:
        made.append(
            f"what the ground carries under the {lift.other_tool.name} (its contact_length in the "
            "machine file)"
        )
    if lift.slung:
        made += gear_missing(lift.gear)
    elif lift.point.jaw_force is None and lift.point.hold != "cradled":
        made.append("how hard the jaw or grab presses on the log (the machine file's jaw_force)")
    if lift.site.levelled and lift.site.slope:
        made.append("whether the pads stand on steps or packing that cannot slide down the slope")
    if lift.travelling:
        made += _not_said_of_journey(lift)
    return (*made, *hazards_missing(lift.hazards))


def _not_said_of_journey(lift: Lift) -> list[str]:
    motion, wheels = lift.motion, lift.machine.wheels
    made = []
    if not motion.speed:
        made.append("how fast it travels and how tightly it turns")
    if not motion.braking:
        made.append("how hard it brakes")
    if motion.sinkage is None:
        made.append("how deep the tyres sink")
    if wheels.front_axle_rating is None or wheels.rear_axle_rating is None:
        made.append("what its axles and tyres are rated for (in the machine file)")
    return made


def _ground_doubts(answer: Answer) -> list[str]:
    lift, feet, said = answer.lift, answer.ground_forces, []
    worst, ground = feet.worst, lift.ground
    if not feet.stands:
        said.append("With this log and its load factor the machine tips: no ground force holds it.")
    if ground is None or ground.allowed is None:
        said.append(
            f"On this ground no pressure may be presumed. Under the {worst.name} up to "
            f"{math.ceil(worst.worst / 100) / 10:.1f} kN come down: have the ground measured or "
            "move to firmer; else the largest mats there are and a test load, watched for sinking."
        )
        return said
    pressing = [
        each
        for each in feet.feet
        if each.tyre and each.pressure is not None and each.pressure > ground.allowed
    ]
    if pressing:
        most = max(each.pressure or 0.0 for each in pressing)
        said.append(
            f"Tyres press with up to {math.ceil(most / 1000)} kPa where {ground.name} is presumed "
            f"to carry {math.floor(ground.allowed / 1000)}: they sink until they bear on more, "
            "and the machine leans with them. Tyres are not counted out for it."
        )
    said.append(
        f"{ground.name.capitalize()} is presumed to carry {math.floor(ground.allowed / 1000)} kPa; "
        "dug, wet or sloping ground, and ground nearer to an edge than its depth, carries less."
    )
    if lift.mat is not None:
        said.append("Mats count over their whole area only if they are stiff enough for it.")
    return said


def _journey_doubts(answer: Answer) -> list[str]:
    lift, said = answer.lift, []
    if lift.site.acceleration:
        said.append(
            "Of all ways to brake and turn, the figures are those of the one that allows least; a "
            "limit that does not stop it first may be lower in another."
        )
    if lift.hazards.wires_distance is not None and math.isfinite(lift.hazards.wires_distance):
        said.append(LOW_WIRES)
    if lift.taken.way != "whole":
        said += _taken_doubts(answer)
    if lift.taken.breakout == 1.0:
        said.append(
            "The log is taken to lie free. Bedded, frozen in or caught it can pull many times as "
            "hard at first; no figure is standard."
        )
    return said


LIGHT_DRAG = 0.5
"""Least friction that drawn logs are reported with [-]; from memory."""
SLIDES_OUT = math.radians(30)
"""Off the level past which a log may slide out of its choke [rad]; common practice, no source."""


def _taken_doubts(answer: Answer) -> list[str]:
    lift = answer.lift
    if lift.taken.skidded:
        said = [
            "Drawn, the log can dig in, roll or slide downhill into the machine. Rope and chain "
            "whip when they part: nobody within the length of rope and log, in line or beside."
        ]
        if lift.taken.drag_friction < LIGHT_DRAG:
            said.append(
                f"A friction of {lift.taken.drag_friction:g} is less than logs are drawn with on "
                "any ground that is reported (from memory, 0.5 to 0.8)."
            )
        return said
    hook = hook_from_ground_end(lift.taken, log_length=lift.measure.length)
    # The log's own thickness raises nothing: it lay on the ground with its top so high.
    below_hook = (answer.hang.to_top if answer.hang else 0.0) + lift.log.largest_diameter
    raised = min(max(lift.height - below_hook, 0.0), 0.9 * hook)
    if raised == 0:
        return ["At this height the sling hangs slack: nothing is raised yet."]
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


def _held_doubts(lift: Lift) -> list[str]:
    """What must be said of wheels that hold the machine on a slope."""
    wheels = lift.machine.wheels
    if not (lift.site.leans and wheels.front_axle_oscillates):
        return []
    if "all" in {wheels.braked, wheels.driven}:
        return []
    return [
        "The front wheels are taken to roll freely. Chock and brake the rear ones, not the front: "
        "nose downhill, a machine held at its front wheels goes over its side sooner than this."
    ]


def _people(answer: Answer) -> str:
    return (
        f"Everybody stays {math.ceil(10 * answer.keep_out.result) / 10:.1f} m away from the point "
        "below the hook, and out of the way a log rolls."
    )


def warnings_of(answer: Answer) -> tuple[str, ...]:
    """Every warning of an answer, gravest first."""
    lift = answer.lift
    moment = max(answer.allowed, lift.log.mass_planning) * G0 * answer.reached.reach
    said = _ground_doubts(answer) + _pose_doubts(answer) + machine_warnings(lift)
    if needs_load_warning(mass=max(answer.allowed, lift.log.mass_planning), moment=moment):
        said.append(
            "Above 1000 kg or 40 kN·m of object handling EN 474-4 asks for an overload warning "
            "and boom-lowering control. Does this machine have them?"
        )
    said += _held_doubts(lift)
    return (*said, *_journey_doubts(answer), *_log_doubts(answer), _people(answer))
