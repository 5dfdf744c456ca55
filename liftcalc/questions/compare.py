"""Which end? The same log, pick-up and set-down for front and back, side by side."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from liftcalc.errors import InputError
from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.lift import Lift
from liftcalc.factors import LEVEL_LIMIT
from liftcalc.machines.schema import EndName
from liftcalc.questions.search import Outcome, tried
from liftcalc.questions.underside import with_underside
from liftcalc.requests.compare import EndPlan, Place, Room
from liftcalc.shown import Shown


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """One end at one place."""

    place: Place
    outcome: Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class EndResult:
    """What one end can do.

    Attributes
    ----------
    places : tuple of Tried
        Pick-up and set-down; the worse of them is the answer for the end.
    drives : bool
        Whether the machine has to drive with the log between them.
    blocked : str
        Why it cannot let go of the log inside the bunk; empty where it can or is not known.
    must, unknown : tuple of str
        What has to be true, and what has to be found out first.
    unchecked : tuple of str
        What was not said and so was checked at neither place, or not at one of them.
    """

    end: EndName
    places: tuple[Tried, Tried]
    drives: bool
    blocked: str
    must: tuple[str, ...]
    unknown: tuple[str, ...]
    unchecked: tuple[str, ...]

    @property
    def worse(self) -> Tried:
        """The place that decides."""
        return min(self.places, key=lambda each: (each.outcome.margin, -_use(each.outcome)))

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
        """Greatest utilisation of both places [-]; infinite where it cannot get there."""
        return max(_use(each.outcome) for each in self.places)

    @property
    def passes(self) -> bool:
        """Whether it can do both places and is not known to be unable to let go."""
        return all(each.outcome.passes for each in self.places) and not self.blocked


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class Comparison(Shown):
    """Both ends, the one to take (None: neither) and the reason in plain words."""

    front: EndResult
    back: EndResult
    choice: EndName | None
    reason: str

    @property
    def ends(self) -> tuple[EndResult, EndResult]:
        """Front and back."""
        return self.front, self.back


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
        the other the front end has to drive: both are then checked as carried on the move. The way
        between the places is not checked: it can be worse than either.
    """
    drives = (pick_up.reach, pick_up.slew) != (set_down.reach, set_down.slew)
    places = (pick_up, set_down)
    fronts = _result(front, places=places, bunk=bunk, drives=drives)
    backs = _result(back, places=places, bunk=bunk, drives=False)
    choice, reason = _recommended(fronts, backs)
    return Comparison(front=fronts, back=backs, choice=choice, reason=reason)


def _result(
    plan: EndPlan, *, places: tuple[Place, Place], bunk: Room | None, drives: bool
) -> EndResult:
    lift = plan.lift
    if drives:
        lift = replace(lift, travelling=True, stance="wheels")
    first, second = (Tried(place=place, outcome=_tried(lift, place)) for place in places)
    blocked, held, unknown = _letting_go(plan, bunk)
    answers = [each.outcome.answer for each in (first, second) if each.outcome.answer]
    return EndResult(
        end=lift.end,
        places=(first, second),
        drives=drives,
        blocked=blocked,
        must=(*_must(lift, drives), *_carries(answers), *_rigged(lift), *held),
        unknown=unknown,
        unchecked=tuple(dict.fromkeys(text for each in answers for text in each.unchecked)),
    )


def _tried(lift: Lift, place: Place) -> Outcome:
    back = lift.end == "back"
    there = replace(
        lift,
        reach=place.reach if back else None,
        slew=place.slew if back else 0.0,
        height=place.height,
    )
    try:
        return tried(with_underside(there, height=place.height))
    except InputError as error:
        return Outcome(lift=there, answer=None, faults=error.faults)


def _must(lift: Lift, drives: bool) -> tuple[str, ...]:
    """What of machine and ground has to be true."""
    said = []
    if lift.end == "front":
        said.append("the machine can drive up to the log at both places, on firm ground")
        if drives:
            said.append(
                "it drives from pick-up to set-down with the log on it (checked as carried on the "
                "move): low all the way, raised only at the end"
            )
    if lift.stance != "wheels":
        said.append("stabilisers down on ground that holds")
    elif lift.end == "back":
        said.append("standing on its tyres, the stabilisers not counted")
    if lift.end == "back":
        said.append(
            "front bucket pressed on the ground and carrying weight"
            if lift.stance == "stabilisers and bucket"
            else "front bucket need not be pressed down; it is not counted"
        )
        said.append("set up once where both places are within reach")
    said.append(
        f"ground no steeper than the {math.degrees(float(lift.site.slope)):.1f}° that was stated"
        if lift.site.slope > LEVEL_LIMIT
        else "ground level within 1 %"
    )
    return tuple(said)


def _carries(answers: list[Answer]) -> tuple[str, ...]:
    """What the ground has to carry under the worst pad of both places."""
    feet = [foot for each in answers for foot in each.ground_forces.feet if not foot.tyre]
    if not feet:
        return ()
    worst = max(feet, key=lambda each: each.worst)
    ground = answers[0].ground_forces.ground
    if worst.needed is None or ground is None:
        return (
            f"ground that carries {math.ceil(worst.worst / 100) / 10:.1f} kN under the "
            f"{worst.name}",
        )
    side = math.ceil(100 * math.sqrt(max(each.needed or 0.0 for each in feet))) / 100
    return (f"{ground.name} under every pad, and a pad or stiff mat {side:.2f} m square at least",)


def _rigged(lift: Lift) -> tuple[str, ...]:
    """What chain, hook and hitch have to be good for."""
    if not lift.slung:
        return ()
    times = math.ceil(100 * lift.per_log - 1e-9) / 100
    return (
        f"chain or sling, hook and all between may carry {times:.2f} times the log, slung as it is",
    )


def _letting_go(plan: EndPlan, bunk: Room | None) -> tuple[str, tuple[str, ...], tuple[str, ...]]:
    """Why it cannot let go inside the bunk, what must be true, what is not known."""
    tool, point = plan.lift.tool, plan.lift.point
    opens = point.hold == "gripped" or tool.mount == "hangs"
    if point.hold == "cradled":
        return (
            "",
            ("the log can roll off or be drawn off at the set-down",),
            ((f"room to tip or draw back the {tool.name} at the bunk",) if bunk else ()),
        )
    if not opens:
        return "", ("the log rests before anybody unhooks the sling",), ()
    if bunk is None:
        return "", (f"the {tool.name} has room to open where it sets down",), ()
    blocked: list[str] = []
    must: list[str] = []
    unknown: list[str] = []
    for across, needs, there in (
        ("width", plan.opened.width, bunk.width),
        ("height", plan.opened.height, bunk.height),
    ):
        if needs is None:
            unknown.append(f"how much {across} the {tool.name} takes up when open")
        if there is None:
            unknown.append(f"the bunk's clear {across}")
        if needs is None or there is None:
            continue
        fits = f"open it takes {needs:.2f} m of {across}, the bunk has {there:.2f} m"
        (must if needs < there else blocked).append(fits)
    return "; ".join(blocked), tuple(must), tuple(unknown)


def _recommended(front: EndResult, back: EndResult) -> tuple[EndName | None, str]:
    good = [each for each in (back, front) if each.passes]
    if not good:
        return None, f"Neither: the front end {_why(front)}; the back end {_why(back)}."
    # On a tie the back end, which stands still on its stabilisers.
    best = min(good, key=lambda each: each.utilisation)
    other = front if best is back else back
    against = (
        f"the {other.end} end would use {_share(other)}"
        if other.passes
        else f"the {other.end} end {_why(other)}"
    )
    drive = " It has to drive with the log." if best.drives else ""
    provided = " First find out whether it can let go there." if best.unknown else ""
    told = " All that only as far as it was told." if best.unchecked else ""
    return best.end, (
        f"The {best.end} end, since it uses {_share(best)} of what it may, and {against}."
        f"{drive}{provided}{told}"
    )


def _share(end: EndResult) -> str:
    return f"{math.ceil(100 * end.utilisation - 1e-9)} %"


def _why(end: EndResult) -> str:
    """Why an end does not do."""
    worse = end.worse
    where, outcome = worse.place.name, worse.outcome
    if outcome.answer is None:
        fault = outcome.faults[0]
        return f"cannot be done at {where} ({fault.field}{f': {fault.fix}' if fault.fix else ''})"
    if not outcome.passes:
        first = outcome.answer.governing
        if outcome.answer.allowed <= 0 and first.said:
            return f"cannot be done at {where} ({first.said})"
        lacks = max(1, math.ceil(-outcome.margin))
        return f"lacks {lacks} kg at {where}, stopped by {outcome.stopped_by}"
    return f"cannot let go inside the bunk ({end.blocked})"


def unchecked_of(found: Comparison) -> tuple[str, ...]:
    """What was not said and so not checked, each once, with the end it is about where not both."""
    every = dict.fromkeys(text for end in found.ends for text in end.unchecked)
    return tuple(
        text
        if all(text in end.unchecked for end in found.ends)
        else f"{next(end.end for end in found.ends if text in end.unchecked)} end: {text}"
        for text in every
    )


def doubts_of(found: Comparison) -> tuple[str, ...]:
    """Warnings of every forward check, each once, with the ends it is about where not both."""
    said: dict[str, list[str]] = {}
    for end in found.ends:
        for each in end.places:
            for text in each.outcome.answer.warnings if each.outcome.answer else ():
                where = said.setdefault(text, [])
                if end.end not in where:
                    where.append(end.end)
    between = "Only the two places are checked: the way between them can be worse than either."
    return (
        between,
        *(
            text if len(where) == 2 else f"{where[0].capitalize()} end: {text}"
            for text, where in said.items()
        ),
    )
