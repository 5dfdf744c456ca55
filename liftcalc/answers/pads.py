"""How large must the pads be on this ground?"""

from __future__ import annotations

import math

from liftcalc.answers.lift import Lift
from liftcalc.answers.search import Detail, Turned, tried
from liftcalc.errors import Fault, InputError
from liftcalc.site.bearing import CAREFUL, FOUNDATIONS, PAD_RULE, Ground, worst_pad
from liftcalc.units import G0


def needed_pad(lift: Lift, *, ground: Ground) -> Turned:
    """Area that each pad needs on named ground, by the quick rule.

    Parameters
    ----------
    lift : Lift
        On its stabilisers.
    ground : Ground
        From ``bearing.ground``.

    Returns
    -------
    Turned
        Area of one pad or mat [m²], rounded up to 0.01 m²; None where no pressure may be
        presumed. The load counts with its load factor and rigging. The rule may understate the
        worst pad of a back end that lifts far out to one side; so may any table its ground.

    Raises
    ------
    InputError
        When the machine does not stand on its stabilisers.
    """
    if lift.stance == "wheels":
        raise InputError(
            Fault(
                field="stance",
                given="on its wheels",
                wanted="stabilisers down, to ask for the area under them",
                fix="tyres on soft ground are not computed yet",
            )
        )
    question = f"area under each stabiliser on {ground.name}"
    force = G0 * worst_pad(machine=machine_mass(lift), load=lift.needed)
    pad = float(lift.machine.stabilisers.pad_length * lift.machine.stabilisers.pad_width)
    carried = Detail(name="on the worst pad by the rule", value=force, kind="force", rounding="up")
    own = Detail(name="area of the machine's own pad", value=pad, kind="area", rounding="down")
    allowed = ground.allowed
    if allowed is None:
        return Turned(
            question=question, value=None, kind="area", rounding="up",
            stopped_by=f"no pressure may be presumed for {ground.name}", at=tried(lift),
            details=(carried, own),
            notes=(
                "Have the ground measured, or move to firmer ground. Otherwise the largest mats "
                "there are and a test load, watched for sinking, before anybody trusts it.",
            ),
        )  # fmt: skip
    area = math.ceil(100 * force / allowed - 1e-9) / 100
    side = math.ceil(100 * math.sqrt(area) - 1e-9) / 100
    verdict = (
        "The machine's own pads are large enough by this rule."
        if pad >= force / allowed
        else f"The machine's own pads are too small: put mats of {side:.2f} m × {side:.2f} m under "
        "them, stiff enough to carry over their whole area."
    )
    return Turned(
        question=question, value=area, kind="area", rounding="up",
        stopped_by=f"pressure on {ground.name}", at=tried(lift),
        details=(
            carried, own,
            Detail(name="side of a square mat", value=side, kind="length", rounding="up"),
        ),
        notes=(
            verdict,
            f"By a rule of thumb ({PAD_RULE.citation}). What each pad really carries in this pose "
            "is not computed yet, and far out to one side it can be more.",
            f"{ground.name.capitalize()} is taken to carry {allowed / 1000:.1f} kPa: the least of "
            f"{CAREFUL.citation} and of foundation tables ({ground.tables}; {FOUNDATIONS.citation})"
            ". Dug, wet or sloping ground, and ground nearer to an edge than its depth, carries "
            "less.",
        ),
    )  # fmt: skip


def machine_mass(lift: Lift) -> float:
    """Mass of the machine as it stands for the lift, tanks full [kg]."""
    machine = lift.machine
    fitted = {lift.tool.end: lift.tool, lift.other_tool.end: lift.other_tool}
    swap = 0.0
    for tool in machine.attachment:
        if tool.name == getattr(machine.fitted, tool.end):
            swap += float(fitted[tool.end].mass) - float(tool.mass)
    aboard = sum(
        float(each.mass)
        for each in machine.carried
        if not each.weighed and (lift.operator or each.name != "operator")
    )
    return float(machine.weights.total) + swap + aboard
