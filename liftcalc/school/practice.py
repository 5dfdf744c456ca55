"""What to practise next, and where judgement errs.

Spacing is by boxes, after S. Leitner, So lernt man lernen (1972): what is known moves one box up
and rests longer, what is missed goes back to the first box. From memory; the days of each box, and
that an error on the unsafe side counts as missed however near it was, are choices of this course.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from random import Random

from liftcalc.errors import InputError
from liftcalc.school.files import lessons
from liftcalc.school.lesson import Lesson
from liftcalc.school.record import Attempt

BOX_DAYS = (0.0, 1.0, 3.0, 7.0, 21.0)
"""Days that a skill rests in each of five boxes before it is due again."""
KNOWN = 0.5
"""Score from which an attempt counts as known [-]."""
RECENT = 6
"""Attempts that say how a skill stands now."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drill:
    """The drill to do next: a lesson, a fresh seed, and why in plain words."""

    lesson: Lesson
    seed: int
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """How one skill stands.

    ``attempts`` counts them; ``score`` is their mean. ``bias`` is the mean of ln(given/true) [-]:
    above zero guesses are high; None where nothing was guessed in numbers. ``spread`` is the mean
    of its size. ``unsafe`` is the share of attempts on the unsafe side. ``trend`` is the mean score
    of the later half of the attempts less that of the earlier half; None of fewer than four.
    ``box`` is 1 to 5; ``due`` when it is to be practised again. ``said`` tells it in plain words.
    """

    skill: str
    attempts: int
    score: float
    bias: float | None
    spread: float | None
    unsafe: float
    trend: float | None
    box: int
    due: datetime
    said: str


def _boxed(attempts: Sequence[Attempt]) -> tuple[int, datetime]:
    """The box of a skill after its attempts, oldest first, and when it is due."""
    box, due = 1, attempts[0].at
    for each in attempts:
        if each.score < KNOWN or each.unsafe:
            box = 1
        elif each.at >= due:
            # Known again before it was due proves nothing more.
            box = min(box + 1, len(BOX_DAYS))
        else:
            continue
        due = each.at + timedelta(days=BOX_DAYS[box - 1])
    return box, due


def _by_skill(attempts: Sequence[Attempt]) -> dict[str, list[Attempt]]:
    found: dict[str, list[Attempt]] = {}
    for each in sorted(attempts, key=lambda one: one.at):
        found.setdefault(each.skill, []).append(each)
    return found


def span(attempts: Sequence[Attempt]) -> str:
    """How many attempts there are, and from which day to which; ``InputError`` for none."""
    if not attempts:
        raise InputError.of(field="record", given="no attempt", wanted="at least one")
    days = sorted(each.at.date() for each in attempts)
    return f"{len(attempts)} attempts from {days[0]} to {days[-1]}"


def judgement(attempts: Sequence[Attempt]) -> tuple[Judgement, ...]:
    """How every skill that was tried stands, the one that most needs practice first."""
    made = [_judged(skill, tried) for skill, tried in _by_skill(attempts).items()]
    return tuple(sorted(made, key=lambda each: (each.box, -each.unsafe, each.score, each.skill)))


def _mean(values: Sequence[float]) -> float:
    return math.fsum(values) / len(values)


def _judged(skill: str, tried: Sequence[Attempt]) -> Judgement:
    errors = [each.error for each in tried if each.error is not None]
    scores = [each.score for each in tried]
    half = len(tried) // 2
    bias = _mean(errors) if errors else None
    spread = _mean([abs(each) for each in errors]) if errors else None
    unsafe = _mean([float(each.unsafe) for each in tried])
    trend = _mean(scores[-half:]) - _mean(scores[:half]) if len(tried) >= 4 else None
    box, due = _boxed(tried)
    return Judgement(
        skill=skill,
        attempts=len(tried),
        score=_mean(scores),
        bias=bias,
        spread=spread,
        unsafe=unsafe,
        trend=trend,
        box=box,
        due=due,
        said=_said(count=len(tried), bias=bias, spread=spread, unsafe=unsafe, trend=trend),
    )


def _said(
    *, count: int, bias: float | None, spread: float | None, unsafe: float, trend: float | None
) -> str:
    told = [f"{count} attempt{'s' if count > 1 else ''}"]
    if bias is not None and spread is not None:
        way = "high" if bias > 0 else "low"
        told.append(
            f"guesses {100 * abs(math.expm1(bias)):.0f} % too {way} on the whole, "
            f"{100 * math.expm1(spread):.0f} % off on the mean"
        )
    wrong = round(unsafe * count)
    told.append(f"{wrong} of them on the unsafe side" if wrong else "none on the unsafe side")
    if trend is not None and abs(trend) >= 0.05:
        told.append("getting better" if trend > 0 else "getting worse")
    return "; ".join(told) + "."


def next_drill(
    attempts: Sequence[Attempt], *, now: datetime, seed: int, among: Sequence[Lesson] | None = None
) -> Drill:
    """The drill to do next.

    Skills in the first box come first, those that erred on the unsafe side before the others; then
    skills never tried, in the order of the course; then what is due of the other boxes, the lowest
    first; at last what is due soonest. The same skill does not come twice running while another one
    is wanted. ``now`` has its time zone, ``seed`` breaks ties and draws the drill's own, ``among``
    are the shipped drills where it is not said. Raises ``InputError`` when there is no lesson to
    choose from.
    """
    offered = [each for each in lessons() if each.drill] if among is None else list(among)
    if not offered:
        raise InputError.of(field="drill", given="no lessons", wanted="at least one")
    rng = Random(f"drill {seed}")
    tried = _by_skill(attempts)
    skills = list(dict.fromkeys(each.skill for each in offered))
    ranked = sorted(skills, key=lambda each: _rank(each, tried, skills, now))
    # Of attempts in the same second the one later in the list is the later.
    last = sorted(attempts, key=lambda each: each.at)[-1].skill if attempts else ""
    wanted = [each for each in ranked if _rank(each, tried, skills, now)[0] < _RESTS]
    others = [each for each in wanted if each != last]
    skill = (others or wanted or ranked)[0]
    lesson = _least_used([each for each in offered if each.skill == skill], attempts, rng)
    used = {each.seed for each in attempts if each.lesson == lesson.id}
    fresh = rng.randrange(1_000_000)
    while fresh in used:
        fresh = rng.randrange(1_000_000)
    return Drill(lesson=lesson, seed=fresh, why=_why(tried.get(skill), now))


_RESTS = 3
"""Rank of a skill that is not due."""


def _rank(
    skill: str, tried: dict[str, list[Attempt]], skills: list[str], now: datetime
) -> tuple[float, ...]:
    if skill not in tried:
        return (1, skills.index(skill))
    box, due = _boxed(tried[skill])
    recent = tried[skill][-RECENT:]
    unsafe, score = (
        _mean([float(each.unsafe) for each in recent]),
        _mean([each.score for each in recent]),
    )
    if box == 1:
        return (0, -unsafe, score)
    if due <= now:
        return (2, box, -unsafe, score)
    return (_RESTS, due.timestamp())


def _least_used(some: list[Lesson], attempts: Sequence[Attempt], rng: Random) -> Lesson:
    counts = {each.id: sum(a.lesson == each.id for a in attempts) for each in some}
    least = min(counts.values())
    return rng.choice([each for each in some if counts[each.id] == least])


def _why(tried: list[Attempt] | None, now: datetime) -> str:
    if not tried:
        return "You have not tried this yet."
    recent = tried[-RECENT:]
    box, due = _boxed(tried)
    if box == 1 and any(each.unsafe for each in recent):
        return "Your last guesses here erred on the unsafe side."
    if box == 1:
        return "Your last guess here was far off."
    if due <= now:
        return f"It has rested: box {box} of {len(BOX_DAYS)} is due."
    return "Nothing is due; this one is due soonest."
