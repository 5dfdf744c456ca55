"""How large must the pads be on this ground?"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import partial

from liftcalc.errors import Fault, InputError
from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.linear_criteria import pad_area
from liftcalc.questions.search import Detail, InverseAnswer, Outcome, last_before_failure, tried
from liftcalc.remarks import Remark, down, up
from liftcalc.site.ground import BEARING, PAD_RULE, PRESUMED, Ground, worst_pad
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
        From ``site.ground.ground``.

    Returns
    -------
    InverseAnswer
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
    forces = _forces(own.answer)
    answer = partial(
        InverseAnswer,
        question=Remark("pads", ground=ground.name),
        kind="length",
        rounding="up",
        at=own,
        details=forces,
    )
    if not ground.presumed:
        stops = Remark("none_presumed", ground=ground.name)
        return answer(value=None, stopped_by=stops, notes=(Remark("prove_it"),))

    most = LARGEST - 1
    short = last_before_failure(
        lambda step: not holds(_matted(asked, step + 1)), most=most, stride=LARGEST // 4
    )
    if short == most:
        notes = (Remark("not_even_mat", side=down(LARGEST / PER_METRE, "length")),)
        return answer(value=None, stopped_by=_matted(asked, LARGEST).stopped_by, notes=notes)
    side, at = (short + 2) / PER_METRE, _matted(asked, short + 2)
    beyond = _matted(asked, short + 1) if short >= 0 else None
    return answer(
        value=side,
        stopped_by=_first_under(beyond) if beyond else Remark("any_pad"),
        at=at,
        beyond=beyond,
        beyond_value=(short + 1) / PER_METRE if beyond else None,
        details=(*forces, *_areas(asked, side)),
        notes=_notes(own, at, ground, side),
    )


def _matted(lift: Lift, centimetres: int) -> Outcome:
    """The lift with square mats of this side."""
    return tried(replace(lift, mat=centimetres / PER_METRE))


def _under(outcome: Outcome) -> list[tuple[str, float]]:
    """Title and utilisation of the ground under each stabiliser."""
    return [
        (each.title, each.utilisation)
        for each in (outcome.answer.criteria if outcome.answer else ())
        if each.kind == "ground under a pad"
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
            Detail(name=Remark("most_on", foot=foot.name), figure=up(foot.worst, "force"))
            for foot in answer.ground_forces.feet
            if not foot.tyre
        ),
        Detail(name=Remark("by_quick_rule"), figure=up(by_rule, "force")),
    )


def _areas(lift: Lift, side: float) -> tuple[Detail, ...]:
    own = pad_area(replace(lift, mat=None))
    return (
        Detail(name=Remark("mat_area"), figure=up(side**2, "area")),
        Detail(name=Remark("own_area"), figure=down(own, "area")),
    )


def _notes(own: Outcome, at: Outcome, ground: Ground, side: float) -> tuple[Remark, ...]:
    allowed = ground.allowed(width=side, length=side)
    own_pads = Remark("own_pads_do") if holds(own) else Remark("mats", side=up(side, "length"))
    return (
        own_pads,
        *([] if at.passes else [Remark("size_only", by=at.stopped_by)]),
        Remark(
            "taken_to_carry",
            ground=ground.name,
            carries=down(allowed.result, "bearing"),
            source=(PRESUMED if ground.pressure is not None else BEARING).citation,
        ),
        Remark("carries_less"),
        Remark("quick_rule", source=PAD_RULE.citation),
    )


def _on_tyres(answer: Answer, ground: Ground) -> Fault:
    """Tyres sink until they bear on enough: what they press with is said, no size is."""
    tyres = [each for each in answer.ground_forces.feet if each.pressure is not None]
    said = "put the stabilisers down, or lay a roadway that is made for the axle"
    if tyres:
        most = max(tyres, key=lambda each: each.pressure or 0.0)
        carries = (
            ("and sinks" if most.sinks else f"and {ground.name} is taken to carry it")
            if ground.presumed
            else "where nothing may be presumed"
        )
        said = (
            f"the {most.name} presses with up to {math.ceil((most.pressure or 0.0) / 1000)} kPa "
            f"{carries}: {said}"
        )
    return Fault(
        field="stance",
        given="on its wheels",
        wanted="stabilisers down, to ask for the area under them",
        fix=said,
    )
