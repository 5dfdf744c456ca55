"""The answer to one lift, as records: criteria, the machine as reached, verdict and doubts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from liftcalc.evaluation.caps import CapKind
from liftcalc.evaluation.clearances import swept
from liftcalc.evaluation.ground_forces import GroundForces
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.linear_criteria import LinearKind
from liftcalc.evaluation.reached import Reached
from liftcalc.factors import CLOSE, CapacityFactor
from liftcalc.physics.worked import Worked
from liftcalc.remarks import Phrase, Remark
from liftcalc.rigging.ratings import RatingKind
from liftcalc.rigging.sling import Hang
from liftcalc.shown import Shown
from liftcalc.site.clearance import Clearance, ClearanceKind

CriterionKind = LinearKind | RatingKind | ClearanceKind | CapKind | Literal["ram", "plate"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Criterion:
    """One thing that can stop the lift.

    ``capacity`` is the load [kg] on the lift point at which it happens, ``allowed`` the share of
    it that may be used over the load factor, which counts the jolt that no share holds;
    ``heaviest_log`` is what that leaves for a log after rigging, ``utilisation`` what this log asks
    of it. ``where`` says which line or part. A criterion that is a distance has its ``clearance``.
    ``tolerance_share`` is what tolerances of the machine's figures leave of the capacity [-], more
    than all of it at their favourable end; ``worked`` is how all that was found, in order.
    """

    kind: CriterionKind
    name: str
    where: str
    capacity: float
    share: CapacityFactor
    load_factor: CapacityFactor
    allowed: float
    heaviest_log: float
    utilisation: float
    tolerance_share: float = 1.0
    clearance: Clearance | None = None
    worked: tuple[Worked, ...] = ()

    @property
    def title(self) -> str:
        """Name and place in one phrase."""
        if not self.where:
            return self.name
        return Phrase("{name} {where}", name=self.name, where=self.where)


Standing = Literal["holds", "fails", "open"]
"""It holds at the careful end of all that is not known; fails even at the favourable; or between.
"""
_VERDICTS: dict[Standing, Remark] = {
    "holds": Remark("it_holds"),
    "fails": Remark("it_fails"),
    "open": Remark("it_is_open"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Decider:
    """What most likely decides a lift that cannot be judged yet.

    ``option`` is the field to tell or measure, ``worth`` what its doubt costs [kg], ``said`` the
    advice.
    """

    option: str
    worth: float
    said: Remark


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """How a lift of which not all is known is judged.

    ``practice`` says that the machine is invented: no real lift is answered by it. ``hoped`` is
    what the heaviest log would be at the favourable end of every range [kg]; ``decider`` is there
    while it is open, and ``fails_by`` where it fails: why it does even at that end. ``pays`` is the
    fact of the machine that it would pay most to tell next, where it is known by facts.
    """

    standing: Standing
    practice: bool
    hoped: float
    decider: Decider | None = None
    pays: Decider | None = None
    fails_by: Remark | None = None

    @property
    def verdict(self) -> Remark:
        """The verdict in a sentence."""
        said = _VERDICTS[self.standing]
        return Remark("for_practice", said=said) if self.practice else said


NAMED_ONLY = frozenset({"unsaid_plate", "unsaid_axles", "unsaid_packing", "unsaid_condition"})
"""What is only named: a machine may lack it, levelling is judged by its travel and grip, and a
machine of which nobody tells a fault is taken as sound."""

_WITH_NO_LOAD: dict[CriterionKind, Remark] = {
    "tipping": Remark("tips_empty"),
    "over an obstacle": Remark("tips_empty"),
    "ground under a pad": Remark("sinks_empty"),
    "ground under a corner": Remark("sinks_empty"),
    "ground under a tyre": Remark("sinks_empty"),
    "axle rating": Remark("overloaded_empty"),
    "grip": Remark("slides_empty"),
    "least axle load": Remark("light_empty"),
    "traction": Remark("stuck_empty"),
    "plate": Remark("no_rated_load"),
}
"""What a criterion that fails with no load at all says; the others hold nothing."""


def _refused(by: Criterion, *, rigging: float) -> Remark:
    """Why a criterion that is not met refuses the lift."""
    if by.clearance is not None:
        return Remark("not_clear", name=by.name, room=by.clearance.room)
    if by.allowed <= 0:
        return _WITH_NO_LOAD.get(by.kind) or Remark("holds_nothing", part=by.name)
    return Remark("rigging_too_heavy" if by.allowed <= rigging else "too_heavy")


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class Answer(Shown):
    """The answer to one lift.

    ``allowed`` [kg] is the least allowed load over all criteria; ``governs`` the criterion that
    sets it. ``heaviest_log`` [kg] is the heaviest planning mass that would pass. ``lowest`` and
    ``lowest_tipped`` are the heights [m] of the log's lowest point, hanging level and hanging off
    its balance; ``ground_rise`` is what the ground below the hook has risen from the wheels to
    there under a machine that was levelled, taken off both. ``keep_out`` is the circle round the
    point below the hook that people stay out of [m], as worked. ``ground_forces`` is what the
    ground carries under the planned load; ``unchecked`` names what could not be checked,
    since it was not said. ``judgement`` is there where a request was judged, silence and all: the
    answer is then that of the careful end. ``most`` [kg] is what the most favourable of all that a
    machine known by facts may be would be allowed, the rest of the lift as it is.
    """

    lift: Lift
    reached: Reached
    criteria: tuple[Criterion, ...]
    hang: Hang | None
    lowest: float
    lowest_tipped: float
    ground_rise: float
    keep_out: Worked
    ground_forces: GroundForces
    unchecked: tuple[Remark, ...]
    warnings: tuple[Remark, ...]
    assumed: tuple[Remark, ...]
    journey: tuple[Worked, ...] = ()
    judgement: Judgement | None = None
    most: float | None = None

    @property
    def stay_away(self) -> float:
        """How far everybody stays from the point below the hook, wherever it is slewed to [m]."""
        beyond = swept(self.lift, slew=self.lift.slew, reach=self.reached.reach)
        return float(self.keep_out.result) + float(beyond)

    @property
    def waits_for(self) -> tuple[Remark, ...]:
        """What was not said and has no usual range: while it is not, no lift holds."""
        return tuple(each for each in self.unchecked if each.code not in NAMED_ONLY)

    @property
    def governing(self) -> Criterion:
        """The criterion that leaves least for a log; on a tie, the one that allows least."""
        return min(self.criteria, key=lambda c: (c.heaviest_log, c.allowed))

    @property
    def governs(self) -> str:
        """Name of the criterion that sets the allowed load."""
        return self.governing.title

    @property
    def load_factor(self) -> CapacityFactor:
        """What a load counts for in the criterion that governs."""
        return self.governing.load_factor

    @property
    def allowed(self) -> float:
        """Least allowed load on the lift point [kg]."""
        return min(criterion.allowed for criterion in self.criteria)

    @property
    def heaviest_log(self) -> float:
        """Heaviest planning mass of a log that every criterion allows here [kg]; never below 0."""
        return max(0.0, min(criterion.heaviest_log for criterion in self.criteria))

    @property
    def utilisation(self) -> float:
        """Greatest utilisation over all criteria [-]; infinite when nothing is allowed."""
        return max(criterion.utilisation for criterion in self.criteria)

    @property
    def borne(self) -> tuple[float, ...]:
        """By what two ways of a lift are ordered: the less, the worse.

        Where a distance allows nothing at all, what loads say beside it.
        """
        loads = min(each.heaviest_log for each in self.criteria if each.clearance is None)
        return self.heaviest_log, self.allowed, loads, -self.utilisation

    @property
    def verdict(self) -> Remark:
        """What the criterion that governs says of the lift, and the one that is most used."""
        if self.refused is not None:
            return Remark("no", why=self.refused)
        first, most = self.governing, self._most_used
        if first.utilisation > CLOSE:
            return Remark("only_just", told=self.told)
        # A distance that is kept allows any load: it does not govern, however close it is.
        if most.utilisation > CLOSE and most.clearance is not None:
            return Remark("close_to", told=self.told, name=most.name, room=most.clearance.room)
        return Remark("within", told=self.told)

    @property
    def refused(self) -> Remark | None:
        """Why it is not within the limits; nothing where it is."""
        if self.passes:
            return None
        by = self.governing if self.allowed <= 0 else self._most_used
        return _refused(by, rigging=self.lift.rigging)

    @property
    def _most_used(self) -> Criterion:
        return max(self.criteria, key=lambda each: each.utilisation)

    @property
    def told(self) -> Remark:
        """What a verdict that is no refusal is bound to."""
        return Remark("as_told" if self.unchecked else "told")

    @property
    def passes(self) -> bool:
        """Whether every criterion allows the log's planning mass: within the limits, no verdict."""
        return self.allowed > 0 and self.utilisation <= 1
