"""Proof of the ground by the machine itself: what each pad, or for a lift with the front end from
its wheels each front tyre, can be made to press, and what for.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np

from liftcalc.errors import InputError
from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check, reach
from liftcalc.evaluation.ground_forces import SupportForce
from liftcalc.evaluation.lift import Lift
from liftcalc.factors import RAM_SHARE, TIPPING_SHARE
from liftcalc.machines.number import plain
from liftcalc.machines.supports import Stance
from liftcalc.physics.reactions import Reaction, axle_tyres, settle, wrench
from liftcalc.questions.search import last_before_failure
from liftcalc.site.ground import PROOF_FACTOR
from liftcalc.site.motion import Motion

STEP = math.radians(5)
"""Slews tried, apart [rad]."""
MOST = 10_000_000
"""More than any foot of such a machine presses with, in the newtons by which that is sought."""
STEP_OF_FORCE = 100.0
"""What a proof presses is told in steps of this, and no more of it is taken [N]."""
MINUTES = 5
"""How long a pad has to stand without sinking; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProvedPad:
    """One pad or tyre: the slew [rad] at which it is pressed most, with what [N], what that allows,
    and the most that the lift puts on it [N].
    """

    name: str
    slew: float
    proved: float
    allowed: float
    needed: float

    @property
    def holds(self) -> bool:
        """Whether what it proves is enough for the lift."""
        return self.needed <= self.allowed


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """What a proof with this mass of earth at the lift point [kg] would show, pad by pad."""

    earth: float
    reach: float
    height: float
    pads: tuple[ProvedPad, ...]

    @property
    def holds(self) -> bool:
        """Whether what every foot has been under is enough for each: what the check goes by."""
        return all(pad.needed <= self.proved / PROOF_FACTOR for pad in self.pads)

    @property
    def proved(self) -> float:
        """Force that every pad has been under [N]."""
        return min(pad.proved for pad in self.pads)


def proof(lift: Lift, *, earth: float = 0.0) -> Proof:
    """What slewing the back end over each pad, or loading the front tyres, would prove there.

    Parameters
    ----------
    lift : Lift
        Of the back end on its stabilisers, or of the front end standing on its wheels; its reach
        and height are those of the proof.
    earth : float
        Mass at the lift point during the proof [kg]; zero is the empty boom.

    Returns
    -------
    Proof
        The forces are those of three supports, which need no stiffness to be known: the front
        wheels on the ground, no bucket pressed. Understates: of tanks full and empty the less, of
        the two front tyres the less. No slew counts at which the earth would be more than may be
        lifted there.

    Raises
    ------
    InputError
        When the lift is of neither kind, or the end does not get there.
    """
    if lift.travelling or (lift.end == "back") is (lift.stance == "wheels"):
        raise InputError.of(
            field="stance",
            given=f"the {lift.end} end, {'moving' if lift.travelling else f'on {lift.stance}'}",
            wanted="the back end on its stabilisers, or the front end standing on its wheels: what "
            "stands there is what is proved",
        )
    asked = check(lift)
    stands: Stance = "stabilisers" if lift.end == "back" else "wheels"
    still = replace(lift, stance=stands, motion=Motion(), swing=0.0, ground=None, proved=None)
    limit = plain(lift.machine.back.slew_limit) if lift.end == "back" else 0.0
    slews = np.arange(0.0, limit + 1e-9, STEP)
    found = [
        (float(slew), forces)
        for slew in (*-slews[:0:-1], *slews)
        if (forces := _pressed(replace(still, slew=float(slew)), earth)) is not None
    ]
    if not found:
        raise InputError.of(
            field="earth",
            given=f"{earth:.0f} kg",
            wanted="what the machine may lift there at some slew",
            fix="take less earth, or prove it nearer",
        )
    pads = tuple(_pad(lift, foot, found, number) for number, foot in enumerate(_pads(asked)))
    reached = asked.reached.reach
    return Proof(earth=earth, reach=reached, height=lift.height, pads=pads)


def _pads(answer: Answer) -> list[SupportForce]:
    kind = "pad" if answer.lift.end == "back" else "front tyre"
    return [foot for foot in answer.ground_forces.feet if foot.kind == kind]


def _pad(
    lift: Lift, foot: SupportForce, found: list[tuple[float, tuple[float, ...]]], number: int
) -> ProvedPad:
    slew, forces = max(found, key=lambda each: each[1][number])
    pressed = STEP_OF_FORCE * math.floor(forces[number] / STEP_OF_FORCE)
    return ProvedPad(
        name=foot.name,
        slew=slew,
        proved=pressed,
        allowed=pressed / PROOF_FACTOR,
        needed=_asks(lift, foot),
    )


def _asks(lift: Lift, foot: SupportForce) -> float:
    """Least that must be allowed under a foot for the lift to be held there [N].

    By the check itself: jolts and the doubt of the machine's figures count as they do there.
    """

    def lacks(newtons: int) -> bool:
        answer = check(replace(lift, proved=newtons * PROOF_FACTOR))
        return any(
            not each.utilisation <= 1 for each in answer.criteria if each.title.endswith(foot.name)
        )

    short = last_before_failure(lacks, most=MOST, stride=max(1, round(foot.worst)))
    return math.inf if short == MOST else short + 1.0


def _pressed(lift: Lift, earth: float) -> tuple[float, ...] | None:
    """What both press with [N], of all tanks the least; None where it may not stand so."""
    try:
        posed = reach(lift)
    except InputError:
        return None
    tips = TIPPING_SHARE[lift.duty].value * min(float(each.tipping_load) for each in posed.lines)
    holds = RAM_SHARE.value * min(float(each.capacity) for each in posed.rams)
    if not earth <= min(tips, holds, float(lift.point.wll)):
        return None
    x, y, z = posed.load
    loaded = wrench(mass=earth, x=x, y=y, z=z, gravity=posed.gravity)
    least = [math.inf, math.inf]
    for whole in posed.wholes:
        alone = wrench(mass=whole.mass, x=whole.x, y=whole.y, z=whole.z, gravity=posed.gravity)
        settled = settle(posed.fixed.supports, wrench=alone + loaded)
        ups = _presses(lift, settled)
        least = [min(pair) for pair in zip(least, ups, strict=True)]
    return tuple(least) if all(math.isfinite(each) for each in least) else None


def _presses(lift: Lift, settled: Iterable[Reaction]) -> list[float]:
    """What both pads, or both front tyres, press with [N]; of the tyres each with the less."""
    if lift.end == "back":
        return [float(each.up) for each in settled if each.contact.kind == "pad"]
    track = plain(lift.machine.wheels.front_track)
    ups = [
        up
        for each in settled
        for up in (
            axle_tyres(each, track=track).steps
            if each.contact.kind == "axle pin"
            else (each.up,) * (each.contact.kind == "front tyre")
        )
    ]
    return [float(min(ups))] * 2
