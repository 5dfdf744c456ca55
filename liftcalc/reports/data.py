"""An answer as plain data in SI, and the evidence from which all of it can be computed again."""

from __future__ import annotations

from typing import Any

from liftcalc.evaluation.answer import Answer, Criterion, Decider, Judgement
from liftcalc.evaluation.ground_forces import SupportForce
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.log_position import log_position
from liftcalc.evaluation.rams import RamCapacity
from liftcalc.evaluation.reached import CriterionCapacity, LineCapacity
from liftcalc.factors import AXLE_SHARE, CAUTION
from liftcalc.physics.plane import Point
from liftcalc.physics.reactions import Reaction
from liftcalc.physics.worked import Worked
from liftcalc.physics.wrench import WrenchFunctional
from liftcalc.reports.text import finite
from liftcalc.reports.words import said_record, text
from liftcalc.requests.lift import ParsedLift
from liftcalc.site.motion import ROLLOVER_SHARE
from liftcalc.units import System


def record(
    answer: Answer, read: ParsedLift, *, evidence: bool, system: System = "metric"
) -> dict[str, Any]:
    """The answer as plain data in SI; what has no limit is null. Texts are in the system."""
    lift, log = answer.lift, answer.lift.log
    made: dict[str, Any] = {
        "log": {
            "volume_m3": log.volume,
            "mass_kg": {
                "low": log.mass_low,
                "likely": log.mass_likely,
                "planning": log.mass_planning,
            },
            "cog_from_butt_m": log.cog_from_butt,
        },
        "answer": {
            "allowed_kg": finite(answer.allowed),
            "allowed_most_kg": None if answer.most is None else finite(answer.most),
            "heaviest_log_kg": finite(answer.heaviest_log),
            "governs": text(answer.governs, system),
            "utilisation": finite(answer.utilisation),
            "verdict": text(answer.verdict, system),
            "passes": answer.passes,
            **judgement_record(answer.judgement, system),
            "load_factor": answer.load_factor.value,
            "share_of_log": lift.pull.share,
            "rigging_kg": lift.rigging,
            "lean_rad": float(answer.reached.lean),
            "reach_m": answer.reached.reach,
            "lift_point_height_m": lift.height,
            "lowest_point_m": answer.lowest,
            "lowest_point_off_balance_m": answer.lowest_tipped,
        },
        "criteria": [_criterion(each, system) for each in answer.criteria],
        "ground": ground_record(answer),
        **said_record(
            system, unchecked=answer.unchecked, warnings=answer.warnings, assumed=answer.assumed
        ),
        "understood": dict(read.echoes),
        "caution": CAUTION,
    }
    if evidence:
        made["evidence"] = _evidence(answer, asked=read.lift, system=system)
    return made


def judgement_record(made: Judgement | None, system: System) -> dict[str, Any]:
    """Verdict, whether it is for practice, and what would decide it; nothing where none judged."""
    if made is None:
        return {}
    return {
        "judgement": made.standing,
        "practice": made.practice,
        "hoped_kg": finite(made.hoped),
        "fails_by": made.fails_by and text(made.fails_by, system),
        "decider": _decider_record(made.decider, system),
        "next_fact": _decider_record(made.pays, system),
    }


def _decider_record(made: Decider | None, system: System) -> dict[str, Any] | None:
    if made is None:
        return None
    return {"option": made.option, "worth_kg": made.worth, "text": text(made.said, system)}


def _criterion(each: Criterion, system: System) -> dict[str, Any]:
    made = {
        "name": each.name,
        "where": text(each.where, system),
        "capacity_kg": finite(each.capacity),
        "factor": each.share.value,
        "load_factor": each.load_factor.value,
        "tolerance_share": each.tolerance_share,
        "allowed_kg": finite(each.allowed),
        "utilisation": finite(each.utilisation),
        "needed_kg": finite(each.utilisation * each.capacity),
        "why": text(each.share.why, system),
        "source": each.share.source,
        "said": "",
    }
    if each.clearance is not None:
        made["said"] = f"{each.name}: {text(each.clearance.room, system)}"
        unit = {
            "length": "m",
            "angle": "rad",
            "slope": "rad",
            "speed": "m_s",
            "slow speed": "m_s",
        }.get(each.clearance.unit)
        if unit:
            made[f"needs_{unit}"] = finite(float(each.clearance.needs))
            made[f"has_{unit}"] = finite(float(each.clearance.has))
    return made


def ground_record(answer: Answer) -> dict[str, Any]:
    """Feet, reactions and what presses on them; forces are null where the machine tips."""
    ground_forces = answer.ground_forces
    ground = ground_forces.ground
    return {
        "name": None if ground is None else ground.name,
        "friction": answer.lift.friction,
        "load_kg": ground_forces.load,
        "load_factor": answer.lift.load_factor("ground under a pad").value,
        "stands": ground_forces.stands,
        "weights": {
            "force_N": [float(part) for part in ground_forces.weights.force],
            "moment_Nm": [float(part) for part in ground_forces.weights.moment],
        },
        "reactions": [_reaction(each) for each in ground_forces.reactions],
        "feet": [_foot(each) for each in ground_forces.feet],
    }


def _reaction(each: Reaction) -> dict[str, Any]:
    at = each.contact
    return {
        "name": at.name,
        "at_m": [float(at.x), float(at.y), float(at.z)],
        "force_N": [finite(float(part)) for part in (each.forward, each.left, each.up)],
    }


def _foot(each: SupportForce) -> dict[str, Any]:
    return {
        "name": each.name,
        "at_m": [float(part) for part in each.at],
        "settled_N": finite(each.force),
        "worst_N": finite(each.worst),
        "area_m2": each.area,
        "pressure_Pa": each.pressure,
        "allowed_N": None if each.carries is None else finite(each.carries),
        "needed_m2": each.needed,
    }


def _xyz(vector: Any) -> dict[str, float]:
    return dict(zip("xyz", (float(part) for part in vector), strict=True))


def _evidence(answer: Answer, *, asked: Lift, system: System) -> dict[str, Any]:
    """All that the answer was computed from; ``asked`` is the lift with its journey as said."""
    lift, reached = answer.lift, answer.reached
    return {
        "lumps": [
            {"name": lump.name, "mass": float(lump.mass), **_xyz((lump.x, lump.y, lump.z))}
            for lump in reached.standing.lumps
        ],
        "machine_states": [
            {"mass": float(whole.mass), **_xyz((whole.x, whole.y, whole.z))}
            for whole in reached.wholes
        ],
        "lift_point": _xyz(reached.load),
        "lift_point_asked": _xyz(reached.asked),
        "load_places": [_xyz(each) for each in reached.loads],
        "gravity": _xyz(reached.gravity),
        "site": _site(lift),
        "journey": _journey(asked),
        "lean": _lean(answer),
        "level_forces": [
            {"at": None if each.at is None else _xyz(each.at), "size": float(each.size)}
            for each in lift.level_forces
        ],
        "pushes": [_worked(each) for each in lift.pushes],
        "hung_mass": lift.hung,
        "log": _log(lift),
        "supports": [
            {"name": each.name, **_xyz((each.x, each.y, each.z))}
            for each in reached.standing.supports
        ],
        "lines": [_line(each) for each in reached.lines],
        "rams": [_ram(answer, each) for each in reached.rams],
        "demands": [_demand(each) for each in reached.linear],
        "wheels": _wheels(lift),
        "pull": [_worked(each) for each in lift.pull.worked],
        "keep_out": _worked(answer.keep_out),
        "criteria": [
            {
                "name": each.name,
                "where": text(each.where, system),
                "worked": [_worked(w) for w in each.worked],
            }
            for each in answer.criteria
        ],
    }


def _site(lift: Lift) -> dict[str, Any]:
    """The site that governed: on a journey with its braking and turning in it."""
    site = lift.site
    return {
        "slope": float(site.slope),
        "uphill": float(site.heading),
        "levelled": site.levelled,
        "acceleration_forward": float(site.acceleration_forward),
        "acceleration_left": float(site.acceleration_left),
        "braked": float(lift.braked),
    }


def _journey(lift: Lift) -> dict[str, Any]:
    """Motion as it was said, the machine's acceleration without it, and the rollover share."""
    motion, site = lift.motion, lift.site
    return {
        "speed": motion.speed,
        "turn_radius": motion.turn_radius,
        "braking": motion.braking,
        "rollover_share": ROLLOVER_SHARE,
        "wheelbase": float(lift.machine.wheels.wheelbase),
        "acceleration_forward_said": float(site.acceleration_forward),
        "acceleration_left_said": float(site.acceleration_left),
        "sinkage": motion.sinkage,
        "friction": lift.friction,
    }


def _lean(answer: Answer) -> dict[str, Any]:
    """How far the load may lean [rad], and all that it is the sum of."""
    lift = answer.lift
    return {
        "whole": float(answer.reached.lean),
        "swing_said": lift.swing,
        "slew_speed": lift.motion.slew_speed,
        "slew_stop": lift.motion.slew_stop,
        "settled": "hanging quiet" in lift.hopeful,
        "hook_reach": float(answer.reached.reach),
        "drawn": lift.pull.lean,
    }


def _log(lift: Lift) -> dict[str, Any]:
    log, low = lift.log, log_position(lift)
    return {
        "length": lift.measure.length,
        "largest_diameter": log.largest_diameter,
        "cog_from_butt": log.cog_from_butt,
        "far_end": float(low.far_end),
        "middle_below_lift_point": float(low.middle),
    }


def _line(each: LineCapacity) -> dict[str, Any]:
    start, end = each.line.start, each.line.end
    return {
        "name": each.line.name,
        "start": [start.x, start.y, start.z],
        "end": [end.x, end.y, end.z],
        "holding_moment": float(each.holding_moment),
        "load_moment_per_kg": float(each.load_unit_moment),
        "tipping_load": finite(float(each.tipping_load)),
    }


def _ram(answer: Answer, each: RamCapacity) -> dict[str, Any]:
    lift, joint = answer.lift, each.joint

    def stand(at: Point) -> list[float]:
        return [float(part) for part in lift.in_machine(at)]

    return {
        "name": joint.name,
        "pivot": stand(joint.pivot),
        "base_pin": stand(joint.base_pin),
        "rod_pin": stand(joint.rod_pin),
        "bore": float(joint.ram.bore),
        "rod": float(joint.ram.rod),
        "count": joint.ram.count,
        "pressure": each.pressure,
        "efficiency": float(lift.machine.hydraulics.efficiency),
        "length": float(joint.ram_length),
        "moment_arm": float(joint.moment_arm),
        "links_moment": float(each.links_moment),
        "load_moment_per_kg": float(each.load_unit_moment),
        "push": float(each.push),
        "pull": float(each.pull),
        "carries": [lump.name for lump in joint.lumps],
        "capacity": finite(float(each.capacity)),
    }


def _demand(each: CriterionCapacity) -> dict[str, Any]:
    """A demand's numbers, and what they are in the way that fails first.

    A number is ``force · F + moment · M + constant``; a way fails when all of its are negative.
    """
    demand = each.criterion
    return {
        "name": demand.name,
        "where": demand.where,
        "pulled_sideways": demand.side_pull,
        "ways": [[_number(form, constant) for form, constant in way] for way in demand.ways],
        "fails_first": [
            {name: float(value) for name, value in one._asdict().items()} for one in each.held
        ],
        "capacity": finite(float(each.capacity)),
    }


def _number(form: WrenchFunctional, constant: float) -> dict[str, Any]:
    return {
        "force": [float(part) for part in form.force],
        "moment": [float(part) for part in form.moment],
        "constant": float(constant),
    }


def _wheels(lift: Lift) -> dict[str, Any]:
    wheels, site = lift.machine.wheels, lift.site
    front, rear = wheels.front_axle_rating, wheels.rear_axle_rating
    return {
        "front_axle_rating": None if front is None else float(front),
        "rear_axle_rating": None if rear is None else float(rear),
        "braked": wheels.braked,
        "driven": wheels.driven,
        "least_axle_share": AXLE_SHARE,
        "stance": lift.stance,
        "travelling": lift.travelling,
        "slope_travelled": float(site.slope),
    }


def _worked(each: Worked) -> dict[str, Any]:
    """One use of a formula of ``liftcalc.physics.formulas``: what went in and every step."""
    return {
        "label": each.label,
        "formula": each.formula,
        "given": {name: finite(float(value)) for name, value in each.given.items()},
        "steps": {name: finite(float(value)) for name, value in each.steps._asdict().items()},
    }
