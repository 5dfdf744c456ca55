"""How large must the pads be on this ground?"""

from __future__ import annotations

import math
from dataclasses import replace

from liftcalc.errors import Fault, InputError
from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.linear_criteria import pad_area
from liftcalc.questions.search import Detail, InverseAnswer, Outcome, last_before_failure, tried
from liftcalc.site.ground import CAREFUL, FOUNDATIONS, PAD_RULE, Ground, worst_pad
from liftcalc.units import G0

PER_METRE = 100
"""Sides of a mat tried on a metre: one each centimetre."""
LARGEST = 400
"""Largest side that is tried, in centimetres: beyond it nobody carries a mat."""


def needed_pad(lift: Lift, *, ground: Ground) -> InverseAnswer:
    """Side of the square pad or mat that each stabiliser needs on named ground.

    Parameters
    ----------
    lift : Lift
        On its stabilisers; its own ground and mats do not matter.
    ground : Ground
        From ``bearing.ground``.

    Returns
    -------
    Turned
        Side [m], rounded up to a centimetre: with it the ground holds under both stabilisers, from
        no load up to this log with its load factor and rigging, whatever the stiffness of the
        ground; a centimetre less and it does not. None where no pressure may be presumed, or no
        mat of 4 m is enough. A table overstates ground that was dug, is wet or near an edge.

    Raises
    ------
    InputError
        When the machine stands on its wheels, or cannot stand so.
    """
    asked = replace(lift, ground=ground)
    own = tried(replace(asked, mat=None))
    if own.answer is None:
        raise InputError(own.faults)
    if lift.stance == "wheels":
        raise InputError(_on_tyres(own.answer, ground))
    question = f"side of a square pad or mat under each stabiliser on {ground.name}"
    forces = _forces(own.answer)
    if ground.allowed is None:
        return InverseAnswer(
            question=question,
            value=None,
            kind="length",
            rounding="up",
            stopped_by=f"no pressure may be presumed for {ground.name}",
            at=own,
            details=forces,
            notes=(
                "Have the ground measured, or move to firmer ground. Otherwise the largest mats "
                "there are and a test load, watched for sinking, before anybody trusts it.",
            ),
        )

    def matted(centimetres: int) -> Outcome:
        return tried(replace(asked, mat=centimetres / PER_METRE))

    most = LARGEST - 1
    short = last_before_failure(
        lambda step: not holds(matted(step + 1)), most=most, stride=LARGEST // 4
    )
    if short == most:
        return InverseAnswer(
            question=question,
            value=None,
            kind="length",
            rounding="up",
            stopped_by=matted(LARGEST).stopped_by,
            at=own,
            details=forces,
            notes=(f"Not even a mat of {LARGEST / PER_METRE:.0f} m is enough.",),
        )
    side, at = (short + 2) / PER_METRE, matted(short + 2)
    beyond = matted(short + 1) if short >= 0 else None
    return InverseAnswer(
        question=question,
        value=side,
        kind="length",
        rounding="up",
        stopped_by=_first_under(beyond) if beyond else "nothing: a centimetre is enough",
        at=at,
        beyond=beyond,
        beyond_value=(short + 1) / PER_METRE if beyond else None,
        details=(*forces, *_areas(asked, side)),
        notes=_notes(own, at, ground, side),
    )


def _under(outcome: Outcome) -> list[tuple[str, float]]:
    """Title and utilisation of the ground under each stabiliser."""
    return [
        (each.title, each.utilisation)
        for each in (outcome.answer.criteria if outcome.answer else ())
        if each.name == "ground" and "stabiliser" in each.where
    ]


def holds(outcome: Outcome) -> bool:
    """Whether the ground is known and allowed to carry what both stabilisers put on it."""
    under = _under(outcome)
    return bool(under) and all(use <= 1 for _, use in under)


def _first_under(outcome: Outcome) -> str:
    return max(_under(outcome), key=lambda each: each[1])[0]


def _forces(answer: Answer) -> tuple[Detail, ...]:
    """What comes on every pad and corner, and on the worst by the quick rule, to compare."""
    by_rule = G0 * worst_pad(
        machine=max(each.mass for each in answer.reached.wholes), load=answer.lift.needed
    )
    return (
        *(
            Detail(
                name=f"at most on the {foot.name}", value=foot.worst, kind="force", rounding="up"
            )
            for foot in answer.ground_forces.feet
            if not foot.tyre
        ),
        Detail(
            name="on the worst by the quick rule, to compare",
            value=by_rule,
            kind="force",
            rounding="up",
        ),
    )


def _areas(lift: Lift, side: float) -> tuple[Detail, ...]:
    own = pad_area(replace(lift, mat=None))
    return (
        Detail(name="area of that mat", value=side**2, kind="area", rounding="up"),
        Detail(name="area of the machine's own pad", value=own, kind="area", rounding="down"),
    )


def _notes(own: Outcome, at: Outcome, ground: Ground, side: float) -> tuple[str, ...]:
    allowed = (ground.allowed or 0.0) / 1000
    said = [
        "The machine's own pads are large enough."
        if holds(own)
        else f"The machine's own pads are too small: put mats of {side:.2f} m × {side:.2f} m under "
        "them, stiff enough to carry over their whole area.",
        f"{ground.name.capitalize()} is taken to carry {allowed:.1f} kPa: the least of "
        f"{CAREFUL.citation} and of foundation tables ({ground.tables}; {FOUNDATIONS.citation})"
        ". Dug, wet or sloping ground, and ground nearer to an edge than its depth, carries "
        "less.",
        f"The quick rule ({PAD_RULE.citation}) is meant for cranes on four outriggers; it is not "
        "used here.",
    ]
    if not at.passes:
        said.insert(
            1,
            f"With such mats the lift is still stopped, by {at.stopped_by}: this is a size, not "
            "a lift that passes.",
        )
    return tuple(said)


def _on_tyres(answer: Answer, ground: Ground) -> Fault:
    """Tyres sink until they bear on enough: what they press with is said, no size is."""
    tyres = [each for each in answer.ground_forces.feet if each.pressure is not None]
    said = "put the stabilisers down, or lay a roadway that is made for the axle"
    if tyres:
        most = max(tyres, key=lambda each: each.pressure or 0.0)
        carries = (
            "where nothing may be presumed"
            if ground.allowed is None
            else f"where {ground.name} is presumed to carry {math.floor(ground.allowed / 1000)} kPa"
        )
        said = (
            f"the {most.name} presses with up to {math.ceil((most.pressure or 0.0) / 1000)} kPa "
            f"{carries}; tyres sink until they bear on enough: {said}"
        )
    return Fault(
        field="stance",
        given="on its wheels",
        wanted="stabilisers down, to ask for the area under them",
        fix=said,
    )
