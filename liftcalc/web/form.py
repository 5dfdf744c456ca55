"""What a form is made of: the fields of a record, drawn row by row of the table.

Nothing is read here and nothing computed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field, replace
from itertools import groupby
from typing import Any

import streamlit as st

from liftcalc.errors import Fault, InputError
from liftcalc.family.files import load
from liftcalc.machines.files import shipped_names
from liftcalc.machines.lookup import BARE
from liftcalc.machines.schema import Attachment, EndName, LiftPoint, Machine
from liftcalc.requests.demo import DEMO
from liftcalc.requests.fields import ENDS, LiftRequest
from liftcalc.requests.fields_of_commands import CompareRequest
from liftcalc.requests.sections import Situation
from liftcalc.requests.table import Field
from liftcalc.timber.species import all_species
from liftcalc.web import html, state
from liftcalc.web.state import NEARNESS, OWN, OWN_FILE, end_of, word_of

CHOSEN = {"choice", "bark", "ground", "machine", "attachment", "lift point"}
"""Kinds that are chosen from a list: there is nothing to read back."""


@dataclass(slots=True)
class Form:
    """What is typed, and the place under each input for what was understood of it.

    ``said`` holds what is on the page and nothing else, so that nothing unseen is in an answer.
    ``slots`` has place and row of each option, ``told`` what stands in each place: when only a
    part of the page is drawn anew the rest is left alone. ``tools`` and ``points`` are what is
    fitted to an end and where the load is taken, where known.
    """

    record: type[Any] = LiftRequest
    said: dict[str, Any] = field(default_factory=dict)
    slots: dict[str, tuple[Any, Field]] = field(default_factory=dict)
    told: dict[str, tuple[Any, str]] = field(default_factory=dict)
    machine: Machine | None = None
    tools: dict[EndName, Attachment] = field(default_factory=dict)
    points: dict[EndName, LiftPoint] = field(default_factory=dict)

    def request(self) -> Any:
        """Everything said, as a record."""
        return self.record(**self.said)

    def group(self, rows: Sequence[Field]) -> None:
        """Fields that stand together; what is seldom said folds away."""
        for fold, some in groupby(rows, key=lambda row: row.section.fold):
            members = list(some)
            there = [row for row in members if self.applies(row)]
            if fold and there:
                with folded(fold, there):
                    self._lines(members)
            elif there:
                self._lines(members)

    def applies(self, row: Field) -> bool:
        """Whether a field means anything as things stand; with two ends, for either."""
        return not row.conditions or any(row.applies(each) for each in self._situations(row))

    def _situations(self, row: Field) -> Iterator[Situation]:
        both = self.record is CompareRequest
        for end in ENDS if both else (state.end(),):
            if row.end in ("", "other", end):
                yield Situation(
                    said=state.texts(self.record, end),
                    tool=self.tools.get(end),
                    point=self.points.get(end),
                )

    def _lines(self, rows: Sequence[Field]) -> None:
        """One below the other, but for those that stand beside each other."""
        lines: list[list[Field]] = []
        for row in rows:
            if row.beside and lines:
                lines[-1].append(row)
            else:
                lines.append([row])
        for line in lines:
            # Only now: what was drawn before may decide it.
            there = [row for row in line if self.applies(row)]
            if len(there) == 1:
                self.draw(there[0])
            elif there:
                for column, row in zip(st.columns(len(there)), there, strict=True):
                    with column:
                        self.draw(row)

    def draw(self, row: Field) -> None:
        """One field, as its kind is drawn."""
        end = end_of(row)
        match row.kind:
            case "machine":
                self._machine(row)
            case "attachment":
                self._attachment(row, end)
            case "lift point" if end in self.tools:
                points = {each.name: each for each in self.tools[end].lift_point}
                self.points.pop(end, None)
                if found := points.get(self.pick(row, points)):
                    self.points[end] = found
            case "lift point":
                pass
            case "flag":
                self.tick(row)
            case "species":
                self.pick(row, [each.name for each in all_species()], free=True)
            case "moisture":
                self.pick(row, row.options, free=True)
            case "faults":
                self.text(row)
            case _ if row.options:
                offered = [o for o in row.options if end == "back" or o not in row.only_back]
                may_stay = not (row.default or row.needed)
                self.pick(row, [""] * may_stay + offered, start=DEMO.end if row.needed else "")
            case _ if row.look[0]:
                self._far(row)
            case _:
                self.text(row)

    def _machine(self, row: Field) -> None:
        own = state.kept().own
        offered = [*([] if own is None else [OWN]), *shipped_names(), OWN_FILE]
        self.machine = None
        chosen = self.pick(row, offered, start=DEMO.machine)
        if chosen == OWN and own is not None:
            self.said[row.name] = own
        if chosen == OWN_FILE:
            self.said[row.name] = state.kept().words["path"] = st.text_input(
                "Path of the machine file",
                placeholder="such as my-machine.toml",
                key=state.prepare("path"),
            )
        # What is wrong with it is told with everything else.
        with suppress(InputError):
            self.machine = load(self.said[row.name])

    def _attachment(self, row: Field, end: EndName) -> None:
        """What is fitted to an end; unknown where what was opened names nothing of the machine."""
        self.tools.pop(end, None)
        if self.machine is None:
            return
        tools = {a.name: a for a in self.machine.attachment if a.end == end}
        start = getattr(self.machine.fitted, end)
        if end == DEMO.end and DEMO.attachment in tools:
            start = DEMO.attachment
        # What hangs at the end that does not lift may stay unsaid.
        other = row.end == "other"
        offered = ["", *tools, BARE] if other else list(tools)
        if found := tools.get(self.pick(row, offered, start="" if other else start)):
            self.tools[end] = found

    def _far(self, row: Field) -> None:
        """Whether there is such a thing near, and where there is, how far it is."""
        label, how = row.look
        there = replace(row, name=f"{row.name}_said", label=label, how=how, shown=NEARNESS)
        said = self.pick(there, NEARNESS)
        del self.said[there.name]
        self.said[row.name] = "none" if said == "none" else ""
        if said == state.FAR:
            self.text(row)

    def text(self, row: Field, *, slot: bool = True) -> None:
        """A typed quantity; without a slot the page writes under it."""
        word = word_of(row)
        needed = row.needed and any(row.needed.holds(each) for each in self._situations(row))
        self.said[row.name] = state.kept().words[word] = st.text_input(
            row.label, key=state.prepare(word), placeholder="needed" if needed else "may stay empty"
        )
        if slot:
            self._slot(row)

    def pick(
        self, row: Field, options: Iterable[str], *, start: str = "", free: bool = False
    ) -> str:
        """A choice; a free one may also be typed."""
        word, listed = word_of(row), list(options)
        if not free:
            listed = state.choices(word, listed, start=start)
        elif state.kept().words[word] not in ("", *listed):
            listed.append(state.kept().words[word])
        key = state.prepare(word, listed)
        if free and st.session_state[key] == "":
            st.session_state[key] = None
        chosen = st.selectbox(
            row.label,
            listed,
            key=key,
            index=None if free else 0,
            accept_new_options=free,
            format_func=lambda option: _shown(row, option),
        )
        self._slot(row)
        self.said[row.name] = state.kept().words[word] = chosen or ""
        return str(self.said[row.name])

    def tick(self, row: Field) -> None:
        """A yes or no."""
        ticked = st.checkbox(row.label, key=state.prepare(row.name))
        self.said[row.name] = state.kept().words[row.name] = ticked
        self._slot(row)

    def _slot(self, row: Field) -> None:
        self.slots[row.option] = (st.empty(), row)

    def understood(self, echoes: Iterable[tuple[str, str]]) -> None:
        """Under each input how to measure it, and what was read."""
        known = dict(echoes)
        for option, (_, row) in self.slots.items():
            typed = row.name in self.said and row.kind not in CHOSEN
            self._tell(option, html.help_line(row, known.get(option, "") if typed else ""))

    def _tell(self, option: str, line: str) -> None:
        """Write under an input, unless that stands there already."""
        now = self.slots[option][0], line
        if self.told.get(option) != now:
            now[0].html(line)
        self.told[option] = now

    def refused(self, faults: Iterable[Fault]) -> None:
        """Under each input how to measure it, or what is wrong with it."""
        self.understood(())
        lines: dict[str, str] = {}
        for fault in faults:
            for option in self._options(fault):
                lines[option] = lines.get(option, "") + html.fault_line(fault, state.system())
        for option, line in lines.items():
            self._tell(option, line)

    def _options(self, fault: Fault) -> Iterator[str]:
        """The inputs that a fault is about; of two ends, the one in which it was given."""
        for part in fault.options:
            option = part.strip().replace(" ", "-").removesuffix("-file")
            if option in self.slots:
                yield option
            for each in (f"{end}-{option}" for end in ENDS):
                if each in self.slots and f'"{self.said[self.slots[each][1].name]}"' in fault.given:
                    yield each


def _shown(row: Field, option: str) -> str:
    """An option in the words of a page."""
    if row.kind == "machine" and option in shipped_names():
        return load(option).title
    if option or "" in row.shown:
        return row.shown.get(option, option)
    return f"not said: {row.shown.get(row.usual, row.usual)}" if row.usual else "not said"


@contextmanager
def folded(title: str, rows: Sequence[Field]) -> Iterator[None]:
    """What most lifts need not say, behind a title that tells what is said of it.

    Open where something in it was changed since the lift was opened: the title changes with what
    is said, and a fold with a new title would otherwise close under the hand.
    """
    # What is fitted is always chosen: that it is says nothing.
    named = {_word_in_title(row): row for row in rows if row.kind != "attachment"}
    words = state.kept().words
    said = [
        _brief(row, words[name])
        for name, row in named.items()
        if words[name] not in ("", False, row.default)
    ]
    shown = ", ".join(said[:2]) + (f" and {len(said) - 2} more" if len(said) > 2 else "")
    with st.expander(f"{title}: {plain(shown)}" if said else title, expanded=state.changed(named)):
        yield


def _word_in_title(row: Field) -> str:
    return f"{row.name}_said" if row.look[0] else word_of(row)


def _brief(row: Field, word: Any) -> str:
    """A field and its word, short enough for a title."""
    label = (row.look[0] or row.label).lower()
    told = NEARNESS.get(word, word) if row.look[0] else word
    text = label if word is True else told if row.telling else f"{label} {told}"
    return text if len(text) <= 40 else f"{text[:39]}…"


_MARKDOWN = re.compile(r"([\\`*_{}\[\]()#+\-.!$<>|~:&])")


def plain(text: str) -> str:
    """Text that Markdown leaves alone."""
    return _MARKDOWN.sub(r"\\\1", " ".join(text.split()))
