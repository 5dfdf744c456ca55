"""Remarks put into words, in either system of units: nowhere else has an answer sentences."""

from __future__ import annotations

import math
from collections.abc import Iterable
from string import Formatter
from typing import Any

from liftcalc.remarks import Figure, Phrase, Remark, Words
from liftcalc.reports.words_of_condition import CONDITION
from liftcalc.reports.words_of_lifts import LIFTS
from liftcalc.reports.words_of_logs import LOGS
from liftcalc.reports.words_of_questions import QUESTIONS
from liftcalc.units import System

WORDS: dict[str, str] = {**LIFTS, **LOGS, **QUESTIONS, **CONDITION}
"""By code, what is said; values stand in braces. After a colon a figure has the number of its
places, a name or remark ``A`` for a capital, several what stands between them. After a bar stands
where to find it out and how to give it, which ``brief`` words leave out."""


class _Wording(Formatter):
    def __init__(self, system: System, *, brief: bool) -> None:
        self.system, self.brief = system, brief

    def format_field(self, value: Any, spec: str) -> str:
        if isinstance(value, Figure):
            return value.words(self.system, int(spec) if spec else None)
        if isinstance(value, tuple):
            return (spec or ", ").join(self.format_field(each, "") for each in value)
        if isinstance(value, str | Remark):
            said = text(value, self.system, brief=self.brief)
            return said[:1].upper() + said[1:] if spec == "A" else said
        return format(value, spec)


def text(said: Words, system: System = "metric", *, brief: bool = False) -> str:
    """The words of a remark; a name stands for itself."""
    if isinstance(said, str):
        return said.words(system) if isinstance(said, Phrase) else said
    words, _, more = WORDS[said.code].partition("|")
    whole = words if brief else words + more
    return _Wording(system, brief=brief).vformat(whole, (), dict(said.values))


def sentence(said: Words, system: System = "metric") -> str:
    """The words with a capital and a full stop, whatever they have already."""
    words = text(said, system).removesuffix(".")
    return f"{words[:1].upper()}{words[1:]}."


def texts(said: Iterable[Words], system: System = "metric") -> list[str]:
    """The words of several."""
    return [text(each, system) for each in said]


def said_record(system: System, **said: Iterable[Remark]) -> dict[str, Any]:
    """Remarks as plain data, by what they are: as texts, and all of them as codes in SI."""
    kept = {name: tuple(each) for name, each in said.items()}
    return {
        **{name: texts(each, system) for name, each in kept.items()},
        "remarks": {
            name: [_coded(one, system) | {"text": text(one, system)} for one in each]
            for name, each in kept.items()
        },
    }


def _coded(said: Any, system: System) -> Any:
    """A remark as its code and values, a figure as its value; what is without end is null."""
    if isinstance(said, Remark):
        return {
            "code": said.code,
            "values": {name: _coded(each, system) for name, each in said.values},
        }
    if isinstance(said, tuple):
        return [_coded(each, system) for each in said]
    if isinstance(said, Figure):
        return said.value if math.isfinite(said.value) else None
    return text(said, system) if isinstance(said, str) else said
