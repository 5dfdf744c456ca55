"""A scene drawn from a seed: the words of a lesson become a ``LiftRequest``."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import asdict, replace
from random import Random
from typing import Any

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check
from liftcalc.family.files import load
from liftcalc.machines.files import shipped_names
from liftcalc.machines.schema import Attachment, LiftPoint
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.lift import parse_lift
from liftcalc.school.lesson import Lesson, Words
from liftcalc.school.quantities import UnfitError

QUANTITY = re.compile(r"^\s*([+-]?\d+(?:\.\d+)?)\s*(\D.*?)?\s*$")
"""A number and its unit, as lesson files write them."""
HOLDS = ("slung", "hangs", "cradled", "gripped")
"""How a lift point may hold the log: slung in a chain or sling, hanging anyhow, or fast."""


def scene(lesson: Lesson, *, machine: str | None, rng: Random) -> LiftRequest:
    """The words of a lesson's scene on a machine."""
    drawn = dict(lesson.scene)
    named = machine
    if named is None:
        named = rng.choice(drawn["machine"].options if "machine" in drawn else shipped_names())
    drawn.pop("machine", None)
    asked = changed(LiftRequest(machine=named, end="back"), drawn.items(), rng=rng)
    return _holding(asked, lesson.hold, rng=rng) if lesson.hold else asked


def loads_of(asked: LiftRequest) -> Answer:
    """The model's answer to a scene, as the lessons teach it: by what a load decides."""
    return check(replace(parse_lift(asked).lift, loads_only=True, exact=True))


def answered(asked: LiftRequest) -> Answer:
    """The model's answer to a scene, if it is one worth showing."""
    answer = loads_of(asked)
    if answer.allowed <= 0:
        raise UnfitError("nothing can be lifted there")
    if answer.lowest < 0:
        raise UnfitError("the log would be in the ground")
    return answer


def changed(asked: LiftRequest, words: Iterable[tuple[str, Words]], *, rng: Random) -> LiftRequest:
    """A scene with some of its words changed."""
    said: dict[str, Any] = {}
    arm: float | None = None
    # The end comes first: shares of the arm depend on it.
    for name, each in sorted(words, key=lambda pair: pair[0] != "end"):
        if each.of_arm and arm is None:
            arm = arm_of(replace(asked, **said))
        had = getattr(asked, name)
        text = drawn_text(each, arm=arm or math.nan, now=str(had), rng=rng)
        said[name] = (text == "yes") if isinstance(had, bool) else text
    return replace(asked, **said)


def drawn_text(words: Words, *, arm: float, now: str, rng: Random) -> str:
    """One word drawn; ``now`` is what the scene has, to which it may be added."""
    if words.options:
        return rng.choice(words.options)
    steps = round((words.most - words.least) / words.step) if words.step else 0
    value = words.least + words.step * rng.randint(0, steps)
    unit = words.unit
    if words.of_arm:
        value, unit = round(value * arm, 2), "m"
    if words.change == "set":
        return written(value, unit)
    found = QUANTITY.match(now)
    if not found:
        raise UnfitError(f'"{now}" is nothing that can be added to')
    number, had = float(found[1]), found[2] or ""
    if words.change == "times":
        return written(number * value, had)
    if had != unit:
        raise UnfitError(f'"{unit}" cannot be added to "{now}"')
    return written(number + value, had)


def written(value: float, unit: str) -> str:
    """A number with its unit as a person would type it."""
    return f"{round(value, 4):g} {unit}".strip()


def arm_of(asked: LiftRequest) -> float:
    """Length of the end that lifts, stretched straight [m]."""
    machine = load(asked.machine)
    if asked.end == "front":
        return float(machine.front.arm.length)
    return float(machine.back.boom.length + machine.back.dipper.length)


def _holding(asked: LiftRequest, hold: str, *, rng: Random) -> LiftRequest:
    """The scene with any of the machine's attachments whose lift point holds the log so."""
    tools = [each for each in load(asked.machine).attachment if each.end == asked.end]
    points = ((tool, point) for tool in tools for point in tool.lift_point)
    fitting = [each for each in points if _holds(hold, *each)]
    if not fitting:
        raise UnfitError(f"the machine has nothing at its {asked.end} end by which a log is {hold}")
    tool, point = rng.choice(fitting)
    return replace(asked, attachment=tool.name, lift_point=point.name)


def _holds(hold: str, tool: Attachment, point: LiftPoint) -> bool:
    if hold == "slung":
        return point.hold == "hangs" and tool.mount != "hangs"
    return point.hold == hold


FIELDS: dict[str, Any] = asdict(LiftRequest())
"""Every word a scene may have, with what it is when it is not said."""
