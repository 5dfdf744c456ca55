"""A lesson from the table of its file: everything wrong is told at once, by file and key."""

from __future__ import annotations

import math
import re
from typing import Any

from liftcalc.errors import InputError, printable
from liftcalc.machines.files import shipped_names
from liftcalc.school.lesson import (
    PARTS,
    QUESTION_KINDS,
    WHENS,
    Card,
    Good,
    Item,
    Lesson,
    Question,
    Sentence,
    Words,
)
from liftcalc.school.lesson_table import LessonTable, brief
from liftcalc.school.quantities import MEASURES, OTHERS, PARTS_OF, PLACES
from liftcalc.school.sampling import FIELDS, HOLDS, QUANTITY
from liftcalc.school.templates import CHART_SLOTS, LIST_SLOTS, SLOT, known_slot

TOP = (
    "part", "order", "title", "aim", "skill", "drill", "story", "do", "question", "scene", "move",
    "explain", "good", "card", "item",
)  # fmt: skip
STEPS = 1000
"""Steps of a range at most."""
_ARM = re.compile(r"^\s*([+-]?\d+(?:\.\d+)?)\s*%\s*of\s*arm\s*$")
_PERCENT = re.compile(r"^\s*(\d+(?:\.\d+)?)\s*%\s*$")
_METRES = re.compile(r"^\s*(\d+(?:\.\d+)?)\s*(m|cm)\s*$")


def lesson_of(raw: dict[str, Any], *, id: str, file: str) -> Lesson:  # noqa: A002
    """A lesson from its table.

    Raises ``InputError`` with a fault for every key that is wrong.
    """
    top = LessonTable(raw=raw, file=file, path="")
    top.only(TOP)
    question = _question(top.table("question"))
    scene, move = top.table("scene"), top.table("move")
    hold = scene.one_of("hold", HOLDS, default="")
    move_text = move.text("text") if move.raw else ""
    made = Lesson(
        id=id,
        part=next((each for each in PARTS if each == top.one_of("part", PARTS)), PARTS[0]),
        order=top.whole("order"),
        title=top.text("title"),
        aim=top.text("aim"),
        skill=top.text("skill", default="") or id,
        drill=top.truth("drill"),
        story=top.text("story"),
        question=question,
        scene=_words(scene, skip=("hold",)),
        move=_words(move, skip=("text",)),
        move_text=move_text,
        explain=tuple(_sentence(each) for each in top.tables("explain")),
        do=top.text("do"),
        good=_good(top.table("good")),
        hold=hold,
        cards=tuple(_card(each) for each in top.tables("card")),
        items=tuple(_item(each) for each in top.tables("item")),
        file=file,
    )
    _whole(top, made)
    if top.faults:
        raise InputError(top.faults)
    return made


def _question(table: LessonTable) -> Question:
    table.only(("kind", "asks", "of", "text", "tolerance", "half", "pick"))
    known = (*MEASURES, *PARTS_OF, *OTHERS)
    kind = table.one_of("kind", QUESTION_KINDS)
    asks = table.one_of("asks", known)
    of = table.one_of("of", ("before", "after"), default="before")
    pick = table.one_of("pick", ("most", "least", "go"), default="most")
    place = asks in PLACES
    if kind in {"number", "drag"} and asks not in MEASURES:
        table.fault("asks", given=f'"{asks}"', wanted=f"one of {', '.join(MEASURES)}")
    if kind == "drag" and asks in MEASURES and not place:
        table.fault("asks", given=f'"{asks}"', wanted=f"a place: {', '.join(sorted(PLACES))}")
    wanted = 'a length such as "10 cm"' if place else 'a share such as "5 %"'
    pattern = _METRES if place else _PERCENT
    tolerance = table.number(
        "tolerance", pattern, default="5 cm" if place else "5 %", wanted=wanted
    )
    half = table.number("half", pattern, default="20 cm" if place else "15 %", wanted=wanted)
    if not 0 < half <= 2 or tolerance > 1:
        table.fault("half", given=str(table.raw.get("half")), wanted=f"{wanted}, above zero")
    return Question(
        kind=next((each for each in QUESTION_KINDS if each == kind), "choose"),
        asks=asks,
        of="after" if of == "after" else "before",
        text=table.text("text"),
        tolerance=tolerance if place else math.log1p(tolerance),
        half=half if place else math.log1p(half),
        pick="go" if pick == "go" else "least" if pick == "least" else "most",
    )


def _words(table: LessonTable, *, skip: tuple[str, ...]) -> tuple[tuple[str, Words], ...]:
    made = []
    for key, value in table.raw.items():
        if key in skip:
            continue
        if key not in FIELDS:
            table.fault(
                key,
                given="a word that no lift has",
                wanted=f"one of {', '.join(FIELDS)}",
                fix="check the spelling",
            )
            continue
        words = _word(table, key, value)
        if words is not None:
            made.append((key, words))
    return tuple(made)


def _word(table: LessonTable, key: str, value: Any) -> Words | None:
    """A word: a text, a list of texts, a range, or one of these added or multiplied."""
    if isinstance(FIELDS[key], bool):
        if isinstance(value, bool):
            return Words(options=("yes" if value else "",))
        table.fault(key, given=brief(value), wanted="true or false")
        return None
    if isinstance(value, dict) and len(value) == 1 and ({"add", "times"} & set(value)):
        ((how, inner),) = value.items()
        return _relative(table, key, how, inner)
    if isinstance(value, dict):
        return _range(table, key, value)
    return _options(table, key, [value] if isinstance(value, str) else value)


def _options(table: LessonTable, key: str, options: Any) -> Words | None:
    """Texts to choose from; a single share of the arm is a number."""
    if not (isinstance(options, list) and options and all(isinstance(x, str) for x in options)):
        table.fault(
            key,
            given=brief(options),
            wanted="a text, a list of texts, { least, most, step }, { add } or { times }",
        )
        return None
    if len(options) == 1 and _ARM.match(options[0]):
        return _range(table, key, {"least": options[0], "most": options[0]})
    if any(len(each) > 100 or printable(each) != each for each in options):
        table.fault(key, given=brief(options), wanted="short texts without control characters")
    elif key == "machine" and not set(options) <= set(shipped_names()):
        table.fault(key, given=brief(options), wanted=f"some of {', '.join(shipped_names())}")
    return Words(options=tuple(options))


def _relative(table: LessonTable, key: str, how: str, inner: Any) -> Words | None:
    """What is added to a word of the scene, or multiplies it: a text or a range."""
    spread = inner if isinstance(inner, dict) else {"least": inner, "most": inner}
    made = _range(table, key, spread)
    if made is None:
        return None
    if how == "times" and (made.unit or made.of_arm or made.least <= 0):
        table.fault(key, given=brief(inner), wanted='a plain number above zero, such as "1.1"')
        return None
    return Words(
        least=made.least,
        most=made.most,
        step=made.step,
        unit=made.unit,
        of_arm=made.of_arm,
        change="add" if how == "add" else "times",
    )


def _range(table: LessonTable, key: str, value: dict[str, Any]) -> Words | None:
    """Numbers from least to most in whole steps, all with one unit."""
    if not {"least", "most"} <= set(value) <= {"least", "most", "step"}:
        table.fault(key, given=", ".join(value), wanted="least, most and step")
        return None
    least, most = value["least"], value["most"]
    read = [_number(each) for each in (least, most, value.get("step", least))]
    if any(each is None for each in read):
        table.fault(
            key, given=brief(value), wanted='numbers with a unit, such as "3 m" or "70 % of arm"'
        )
        return None
    (low, unit, arm), (high, *_), (step, *_) = (each for each in read if each is not None)
    if len({each[1:] for each in read if each is not None}) > 1:
        table.fault(key, given=brief(value), wanted="the same unit in least, most and step")
        return None
    if low == high:
        return Words(least=low, most=high, step=0.0, unit=unit, of_arm=arm)
    if not (low < high and step > 0 and (high - low) / step <= STEPS and "step" in value):
        table.fault(
            key,
            given=brief(value),
            wanted=f"least below most, and a step above zero that goes in at most {STEPS} times",
        )
        return None
    return Words(least=low, most=high, step=step, unit=unit, of_arm=arm)


def _number(text: Any) -> tuple[float, str, bool] | None:
    """A number, its unit, and whether it is a share of the arm."""
    if not isinstance(text, str) or len(text) > 40:
        return None
    if found := _ARM.match(text):
        return float(found[1]) / 100, "", True
    if found := QUANTITY.match(text):
        return float(found[1]), found[2] or "", False
    return None


def _sentence(table: LessonTable) -> Sentence:
    table.only(("when", "text"))
    when = table.one_of("when", WHENS, default="always")
    return Sentence(
        when=next((each for each in WHENS if each == when), "always"), text=table.text("text")
    )


def _good(table: LessonTable) -> Good:
    table.only(("change", "lead", "governs", "governs_after"))
    share = 'a share such as "5 %"'
    return Good(
        change=table.number("change", _PERCENT, default="3 %", wanted=share),
        lead=table.number("lead", _PERCENT, default="5 %", wanted=share),
        governs=table.names("governs"),
        governs_after=table.names("governs_after"),
    )


def _card(table: LessonTable) -> Card:
    return Card(text=table.text("text"), words=_words(table, skip=("text",)))


def _item(table: LessonTable) -> Item:
    table.only(("name", "because"))
    return Item(name=table.text("name"), because=table.text("because"))


def _whole(top: LessonTable, lesson: Lesson) -> None:
    """What must hold of a lesson as a whole."""
    question = lesson.question
    asks_way = question.kind == "choose" and question.asks in MEASURES and not lesson.cards
    if (question.of == "after" or asks_way) and not lesson.move:
        top.fault("move", given="nothing", wanted="what is moved, since the question is of that")
    if lesson.move and not lesson.move_text:
        top.fault("move.text", given="nothing", wanted="what is moved, in words")
    if not lesson.explain:
        top.fault("explain", given="nothing", wanted="at least one [[explain]]")
    if question.pick == "go" and question.asks != "which may go ahead":
        top.fault("question.asks", given=f'"{question.asks}"', wanted='"which may go ahead"')
    if question.asks == "which may go ahead" and (question.pick != "go" or not lesson.cards):
        top.fault("question.pick", given=f'"{question.pick}"', wanted='"go", and [[card]] tables')
    for key, count in (("card", len(lesson.cards)), ("item", len(lesson.items))):
        if 0 < count < 3:
            top.fault(key, given=f"{count} of them", wanted="at least three")
    if question.asks == "what is missing" and not lesson.items:
        top.fault("item", given="nothing", wanted="at least three [[item]]")
    if question.kind != "choose" and (lesson.cards or lesson.items):
        top.fault("question.kind", given=f'"{question.kind}"', wanted='"choose", of cards or items')
    _slots(top, lesson)


def _slots(top: LessonTable, lesson: Lesson) -> None:
    """Faults for slots that cannot be filled, or that tell the answer before it is asked."""
    texts = [("story", lesson.story), ("question.text", lesson.question.text)]
    early = [*texts, ("move.text", lesson.move_text)]
    texts = [*early, *((f"card[{n}].text", each.text) for n, each in enumerate(lesson.cards))]
    texts += [(f"explain[{n}].text", each.text) for n, each in enumerate(lesson.explain)]
    for key, text in texts:
        for name in SLOT.findall(text):
            ours = (name in LIST_SLOTS and not lesson.items) or (
                name in CHART_SLOTS and lesson.question.asks != "chart load"
            )
            moved = name.startswith(("after ", "change of ")) and not lesson.move
            if ours or moved or not known_slot(name):
                top.fault(
                    key,
                    given=f"the slot {{{brief(name)}}}",
                    wanted="a word of the scene, a measure, or either after the move",
                    fix="docs/school.md lists them",
                )
    told = {"answer", *LIST_SLOTS}
    if lesson.question.asks in {*MEASURES, *PARTS_OF} and not lesson.cards:
        asked = lesson.question.asks
        told |= {asked if lesson.question.of == "before" else f"after {asked}"}
        told |= {f"change of {asked}"}
    for key, text in early:
        for name in SLOT.findall(text):
            if name in told:
                top.fault(
                    key,
                    given=f"the slot {{{name}}}",
                    wanted="nothing that tells the answer",
                    fix="say it in an [[explain]]",
                )
        if "{" in SLOT.sub("", text) or "}" in SLOT.sub("", text):
            top.fault(key, given=brief(text), wanted="braces only round the name of a slot")
