"""Texts of a lesson with their slots filled from the answers."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import cast, get_args

from liftcalc import units
from liftcalc.evaluation.answer import Answer
from liftcalc.factors import RAM_SHARE, TIPPING_SHARE
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.table import field_of
from liftcalc.school.quantities import MEASURES, PARTS_OF, UnfitError, part
from liftcalc.school.sampling import FIELDS
from liftcalc.site.ground import GROUNDS, ground
from liftcalc.units import System, show

SLOT = re.compile(r"\{([^{}]*)\}")
EXTRA = ("answer", "A machine", "a machine")
"""Slots that are no measure and no word of the scene, beside those of charts and lists."""
SHARES: dict[str, Callable[[Answer], float]] = {
    "tipping share": lambda answer: TIPPING_SHARE[answer.lift.duty].value,
    "ram share": lambda answer: RAM_SHARE.value,
}
"""Shares of a capacity that the model uses, by slot."""
LIST_SLOTS = ("missing", "because")
CHART_SLOTS = ("chart reach", "nearer row", "farther row", "nearer load")


def known_slot(name: str) -> bool:
    """Whether a slot can be filled."""
    if name in (*EXTRA, *LIST_SLOTS, *CHART_SLOTS):
        return True
    if name.startswith("change of "):
        return name.removeprefix("change of ") in MEASURES
    if name.startswith("ground "):
        return any(each.name == name.removeprefix("ground ") and each.presumed for each in GROUNDS)
    plain = name.removeprefix("after ")
    return plain in {*SHARES, *MEASURES, *PARTS_OF} or plain.replace(" ", "_") in FIELDS


@dataclass(frozen=True, slots=True, kw_only=True)
class Filler:
    """What slots are filled from."""

    asked: LiftRequest
    asked_after: LiftRequest | None
    before: Answer
    after: Answer | None
    system: System
    extra: dict[str, str] = field(default_factory=dict)

    def fill(self, text: str) -> str:
        """The text with every slot filled."""
        return SLOT.sub(lambda found: self._slot(found[1]), text)

    def _slot(self, name: str) -> str:
        if name in self.extra:
            return self.extra[name]
        if name in {"A machine", "a machine"}:
            return _machine(self.before, capital=name[0] == "A")
        if name.startswith("ground "):
            under = ground(name.removeprefix("ground ")).allowed(width=1.0, length=1.0)
            carried = under.result
            return show(carried, "bearing", self.system, "down")
        if name.startswith("change of "):
            return self._change(name.removeprefix("change of "))
        asked, answer = self.asked, self.before
        if name.startswith("after "):
            if self.asked_after is None or self.after is None:
                raise UnfitError("nothing is moved")
            asked, answer = self.asked_after, self.after
        return self._told(name.removeprefix("after "), asked, answer)

    def _told(self, name: str, asked: LiftRequest, answer: Answer) -> str:
        """A measure, a part, a share or a word of the scene."""
        if name in MEASURES:
            measure = MEASURES[name]
            return measure.shown(measure.of(answer), self.system)
        if name in PARTS_OF:
            return part(name, answer)
        if name in SHARES:
            return f"{100 * SHARES[name](answer):.0f} %"
        return word(asked, name.replace(" ", "_"), self.system)

    def _change(self, name: str) -> str:
        """By how much a measure changes, without its sign: the sentence says which way."""
        if self.after is None:
            raise UnfitError("nothing is moved")
        measure = MEASURES[name]
        share = abs(measure.of(self.after) / measure.of(self.before) - 1)
        return f"{100 * share:.0f} %" if share >= 0.095 else f"{100 * share:.1f} %"


def _machine(answer: Answer, *, capital: bool) -> str:
    """An invented class by its kind, the user's own machine by its name."""
    machine = answer.lift.machine
    if not machine.invented:
        return f"{'Y' if capital else 'y'}our machine ({machine.title})"
    return f"{'A' if capital else 'a'} {machine.title[0].lower()}{machine.title[1:]}"


_UPHILL = {0: "the nose", 90: "the left side", 180: "the tail", -90: "the right side"}


def word(asked: LiftRequest, name: str, system: System) -> str:
    """A word of the scene: metric as it was drawn, angles of the machine in words."""
    value = getattr(asked, name)
    if isinstance(value, bool):
        return "yes" if value else "no"
    text = str(value)
    kind = cast("units.Kind", field_of(LiftRequest, name).kind)
    if not text or kind not in get_args(units.Kind):
        return text
    read = units.read(text, kind).value
    degrees = round(math.degrees(read), 6)
    if name == "uphill":
        return _UPHILL.get(round(degrees), f"{degrees:g}°")
    if name == "slew":
        side = "left" if degrees > 0 else "right"
        return f"{abs(degrees):g}° to the {side}" if degrees else "straight back"
    if system == "imperial" and show(1.0, kind) != show(1.0, kind, system):
        return show(read, kind, system)
    return text.replace(" deg/s", "° a second").replace(" deg", "°").replace("m/s2", "m/s²")
