"""Which end? The same log, pick-up and set-down for front and back, side by side."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from liftcalc.errors import InputError
from liftcalc.evaluation.answer import Answer, Decider, Judgement, Standing
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.underside import with_underside
from liftcalc.factors import LEVEL_LIMIT
from liftcalc.judgement.judge import judged
from liftcalc.machines.schema import EndName
from liftcalc.questions.search import Outcome, tried
from liftcalc.remarks import Figure, Remark, down, near, up
from liftcalc.requests.compare import EndPlan, ParsedCompare, Place, Room, apart
from liftcalc.requests.usual import Ranged
from liftcalc.shown import Shown


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """One end at one place."""

    place: Place
    outcome: Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class EndResult:
    """What one end can do at pick-up and set-down, the worse of which is its answer.

    ``drives`` is whether the machine has to drive with the log between them; ``blocked`` why it
    cannot let go of the log inside the bunk, empty where it can or is not known; ``must`` and
    ``unknown`` what has to be true and what has to be found out first; ``unchecked`` what was not
    said and so was checked at neither place, or not at one of them. ``places`` has beside the two
    the worst on the slew between, where it is worse than either.
    """

    end: EndName
    places: tuple[Tried, ...]
    drives: bool
    blocked: tuple[Remark, ...]
    must: tuple[Remark, ...]
    unknown: tuple[Remark, ...]
    unchecked: tuple[Remark, ...]

    @property
    def worse(self) -> Tried:
        """The place that decides."""
        return min(self.places, key=lambda each: _rank(each.outcome))

    @property
    def allowed(self) -> float:
        """Least allowed load on the lift point [kg]; zero where it cannot get there."""
        return min(
            each.outcome.answer.allowed if each.outcome.answer else 0.0 for each in self.places
        )

    @property
    def margin(self) -> float:
        """Heaviest log allowed less this one [kg]; −inf where it cannot get there."""
        return self.worse.outcome.margin

    @property
    def utilisation(self) -> float:
        """Greatest utilisation of all places [-]; infinite where it cannot get there."""
        return max(_use(each.outcome) for each in self.places)

    @property
    def passes(self) -> bool:
        """Whether it can do both places and is not known to be unable to let go."""
        return all(each.outcome.passes for each in self.places) and not self.blocked

    @property
    def standing(self) -> Standing:
        """The verdict of the worse place."""
        found = [each.outcome.answer for each in self.places]
        if self.blocked or None in found:
            return "fails"
        judged = [each.judgement.standing for each in found if each and each.judgement]
        if not judged:
            return "holds" if self.passes else "fails"
        return min(judged, key=("fails", "open", "holds").index)

    @property
    def decider(self) -> Decider | None:
        """What decides the place that is open."""
        found = (each.outcome.answer for each in self.places)
        deciders = (each.judgement.decider for each in found if each and each.judgement)
        return next((each for each in deciders if each), None)


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class Comparison(Shown):
    """Both ends, the one to take (None: neither) and the reason."""

    front: EndResult
    back: EndResult
    choice: EndName | None
    reason: Remark

    @property
    def ends(self) -> tuple[EndResult, EndResult]:
        """Front and back."""
        return self.front, self.back

    @property
    def judgement(self) -> Judgement:
        """The verdict: of the end to take; where none is, of the one that may be."""
        best = max(self.ends, key=lambda each: ("fails", "open", "holds").index(each.standing))
        answers = [each.outcome.answer for each in best.places if each.outcome.answer]
        hoped = [each.judgement.hoped for each in answers if each.judgement]
        return Judgement(
            standing=best.standing,
            practice=best.places[0].outcome.lift.machine.invented,
            hoped=min(hoped, default=0.0),
            decider=best.decider if best.standing == "open" else None,
        )


def _use(outcome: Outcome) -> float:
    return math.inf if outcome.answer is None else outcome.answer.utilisation


def compare(
    *, front: EndPlan, back: EndPlan, pick_up: Place, set_down: Place, bunk: Room | None = None
) -> Comparison:
    """Compare both ends for the same log at the same two places.

    Parameters
    ----------
    front, back : EndPlan
        The same log, machine and ground; their own places do not matter.
    pick_up, set_down : Place
        Of the log. How high each end's lift point must be follows from how it holds the log.
    bunk : Room or None
        Inside of the trailer where it is set down; None where it is set down in the open.

    Returns
    -------
    Comparison
        The answer for an end is the worse of its two places. Where the places are not one above
        the other the front end has to drive: both are then checked as carried on the move. Between
        the places the back end is checked at every slew, reach and height in step with it; a place
        on that way that the arm cannot take is gone round. Other ways can be worse.
    """
    places = (pick_up, set_down)
    fronts = _result(front, places=places, bunk=bunk, drives=apart(*places))
    backs = _result(back, places=places, bunk=bunk, drives=False)
    choice, reason = _recommended(fronts, backs)
    return Comparison(front=fronts, back=backs, choice=choice, reason=reason)


def compared(read: ParsedCompare) -> Comparison:
    """A comparison as it was read."""
    return compare(
        front=read.front,
        back=read.back,
        pick_up=read.pick_up,
        set_down=read.set_down,
        bunk=read.bunk,
    )


def _result(
    plan: EndPlan, *, places: tuple[Place, Place], bunk: Room | None, drives: bool
) -> EndResult:
    lift = plan.lift
    if drives:
        lift = replace(lift, travelling=True, stance="wheels")
    first, second = (
        Tried(place=place, outcome=_tried(plan.ranges, lift, place)) for place in places
    )
    found = (first, second, *_between(plan, lift, places))
    blocked, held, unknown = _letting_go(plan, bunk)
    answers = [each.outcome.answer for each in found if each.outcome.answer]
    return EndResult(
        end=lift.end,
        places=found,
        drives=drives,
        blocked=blocked,
        must=(*_must(lift, drives), *_carries(answers), *_rigged(lift), *held),
        unknown=unknown,
        unchecked=tuple(dict.fromkeys(said for each in answers for said in each.unchecked)),
    )


TURN = math.radians(10)
"""Widest step of slew between two places at which a lift is checked [rad]."""


def _between(plan: EndPlan, lift: Lift, places: tuple[Place, Place]) -> tuple[Tried, ...]:
    """The worst place on the slew between the two of a back end; none where it does not slew."""
    one, two = places
    steps = math.ceil(abs(two.slew - one.slew) / TURN) if lift.end == "back" else 0
    way = [
        Place(
            name="between",
            height=one.height + share * (two.height - one.height),
            reach=one.reach + share * (two.reach - one.reach),
            slew=one.slew + share * (two.slew - one.slew),
        )
        for share in (step / steps for step in range(1, steps))
    ]
    found = [Tried(place=each, outcome=_tried(None, lift, each)) for each in way]
    taken = [each for each in found if each.outcome.answer is not None]
    if not taken:
        return ()
    ends = [_tried(None, lift, each) for each in places]
    worst = min(taken, key=lambda each: _rank(each.outcome))
    if any(_rank(each) <= _rank(worst.outcome) for each in ends):
        return ()
    return (Tried(place=worst.place, outcome=_tried(plan.ranges, lift, worst.place)),)


def _rank(outcome: Outcome) -> tuple[float, float]:
    """The worse an outcome, the less."""
    return outcome.margin, -_use(outcome)


def _tried(ranges: Ranged | None, lift: Lift, place: Place) -> Outcome:
    """The lift at a place; judged, where it was read from a request."""

    def there(each: Lift) -> Lift:
        back = lift.end == "back"
        moved = replace(
            each,
            reach=place.reach if back else None,
            slew=place.slew if back else 0.0,
            height=place.height,
            travelling=lift.travelling,
            stance=lift.stance,
        )
        return with_underside(moved, height=place.height)

    try:
        if ranges is None:
            return tried(there(lift))
        answer = judged(ranges, there)
        return Outcome(lift=answer.lift, answer=answer)
    except InputError as error:
        return Outcome(lift=lift, answer=None, faults=error.faults)


def _must(lift: Lift, drives: bool) -> list[Remark]:
    """What of machine and ground has to be true."""
    said = []
    if lift.end == "front":
        said.append(Remark("must_drive_up"))
        said += [Remark("must_drive_low")] if drives else []
    if lift.stance != "wheels":
        said.append(Remark("must_hold_pads"))
    elif lift.end == "back":
        said.append(Remark("must_hold_tyres"))
    if lift.end == "back":
        pressed = lift.stance == "stabilisers and bucket"
        said.append(Remark("must_press_bucket" if pressed else "bucket_uncounted"))
        said.append(Remark("must_reach_both"))
    slope = lift.site.slope
    if slope > LEVEL_LIMIT:
        return [*said, Remark("must_slope", slope=near(slope, "slope"))]
    return [*said, Remark("must_level", level=near(math.tan(LEVEL_LIMIT), "ratio"))]


def _carries(answers: list[Answer]) -> list[Remark]:
    """What the ground has to carry under the worst pad of both places."""
    feet = [foot for each in answers for foot in each.ground_forces.feet if not foot.tyre]
    if not feet:
        return []
    worst = max(feet, key=lambda each: each.worst)
    ground = answers[0].ground_forces.ground
    if worst.needed is None or ground is None:
        return [Remark("must_carry", force=up(worst.worst, "force"), foot=worst.name)]
    side = math.sqrt(max(each.needed or 0.0 for each in feet))
    return [Remark("must_have_pads", ground=ground.name, side=up(side, "length"))]


def _rigged(lift: Lift) -> list[Remark]:
    """What chain, hook and hitch have to be good for."""
    if not lift.slung:
        return []
    times = lift.pull.share * lift.load_factor("sling").value
    return [Remark("must_carry_log", times=math.ceil(100 * times - 1e-9) / 100)]


def _letting_go(
    plan: EndPlan, bunk: Room | None
) -> tuple[tuple[Remark, ...], list[Remark], tuple[Remark, ...]]:
    """Why it cannot let go inside the bunk, what must be true, what is not known."""
    tool, point = plan.lift.tool, plan.lift.point
    if point.hold == "cradled":
        tipped = (Remark("room_to_tip", tool=tool.name),) if bunk else ()
        return (), [Remark("must_roll_off")], tipped
    if point.hold != "gripped" and tool.mount != "hangs":
        return (), [Remark("must_rest")], ()
    if bunk is None:
        return (), [Remark("must_open", tool=tool.name)], ()
    fits: dict[bool, list[Remark]] = {True: [], False: []}
    unknown = []
    for across, needs, there in (
        ("width", plan.opened.width, bunk.width),
        ("height", plan.opened.height, bunk.height),
    ):
        if needs is None:
            unknown.append(Remark("room_of_tool", across=across, tool=tool.name))
        if there is None:
            unknown.append(Remark("room_of_bunk", across=across))
        if needs is not None and there is not None:
            needed, has = up(needs, "length"), down(there, "length")
            fits[needs < there].append(Remark("open", across=across, needs=needed, has=has))
    return tuple(fits[False]), fits[True], tuple(unknown)


def _recommended(front: EndResult, back: EndResult) -> tuple[EndName | None, Remark]:
    good = [each for each in (back, front) if each.standing == "holds"]
    if not good:
        for each in (back, front):
            if each.standing == "open" and each.decider is not None:
                return None, Remark("cannot_say", end=each.end, said=each.decider.said)
        return None, Remark("neither", front=_why(front), back=_why(back))
    # On a tie the back end, which stands still on its stabilisers.
    best = min(good, key=lambda each: each.utilisation)
    other = front if best is back else back
    if other.standing == "open":
        against = Remark("is_open")
    else:
        against = Remark("would_use", share=_share(other)) if other.passes else _why(other)
    said = [Remark("take", end=best.end, share=_share(best), other=other.end, against=against)]
    said += [Remark("has_to_drive")] if best.drives else []
    said += [Remark("find_out_first")] if best.unknown else []
    said += [Remark("only_as_told")] if best.unchecked else []
    return best.end, Remark("in_turn", said=tuple(said))


def _share(end: EndResult) -> Figure:
    return up(end.utilisation, "ratio")


def _why(end: EndResult) -> Remark:
    """Why an end does not do."""
    place, outcome = end.worse.place.name, end.worse.outcome
    if outcome.answer is None:
        fault = outcome.faults[0]
        why = (fault.field, fault.fix) if fault.fix else (fault.field,)
        return Remark("no_pose", place=place, why=why)
    if not outcome.passes:
        first = outcome.answer.governing
        if outcome.answer.allowed <= 0 and first.clearance is not None:
            return Remark("no_room", place=place, name=first.name, room=first.clearance.room)
        lacks = up(max(1.0, -outcome.margin), "mass")
        return Remark("lacks", mass=lacks, place=place, by=outcome.stopped_by)
    return Remark("cannot_let_go", why=end.blocked)


def unchecked_of(found: Comparison) -> tuple[Remark, ...]:
    """What was not said and so not checked, each once, with the end it is about where not both."""
    return _of_ends((end.end, said) for end in found.ends for said in end.unchecked)


def doubts_of(found: Comparison) -> tuple[Remark, ...]:
    """Warnings of every forward check, each once, with the end it is about where not both."""
    every = (
        (end.end, said)
        for end in found.ends
        for each in end.places
        for said in (each.outcome.answer.warnings if each.outcome.answer else ())
    )
    return (Remark("way_between"), *_of_ends(every))


def _of_ends(said: Iterable[tuple[EndName, Remark]]) -> tuple[Remark, ...]:
    """Each once; what is of one end only, with that end."""
    ends: dict[Remark, set[EndName]] = {}
    for end, each in said:
        ends.setdefault(each, set()).add(end)
    return tuple(
        each if len(of) == 2 else Remark("of_end", end=min(of), what=each)
        for each, of in ends.items()
    )
