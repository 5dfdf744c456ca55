"""What a form is made of: texts and choices, nothing read and nothing computed.

Which of them a lift has, and in what order, is in ``inputs``.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

import streamlit as st

from liftcalc.errors import Fault
from liftcalc.machines.schema import Attachment, LiftPoint, Machine
from liftcalc.requests.fields import LiftRequest
from liftcalc.web import html, state
from liftcalc.web.fields import FIELDS

NOT_SAID = ""
"""The choice of leaving it to the usual way, which the answer then lists as assumed."""
NEEDED = {
    "length", "height/front", "height/back", "reach/back", "leg_spread", "pick_height",
    "pick_reach", "set_height",
}  # fmt: skip
"""What must be said, where it is asked for."""
_CHOSEN = {
    "machine", "end", "attachment", "lift-point", "other-attachment", "front-attachment",
    "back-attachment", "front-lift-point", "back-lift-point", "stance", "front-stance",
    "back-stance", "sling", "bark", "ground", "sling-kind", "lifted", "ground-end", "surface",
    "rules", "wires-on",
}  # fmt: skip
"""Options that are chosen from a list: there is nothing to read back."""


@dataclass(slots=True)
class Form:
    """What is typed, and the place under each input for what was understood of it.

    ``said`` holds what is on the page and nothing else, so that nothing unseen is in an answer.
    A field's ``word`` is its name in ``state``, where that is another. ``told`` is what stands in
    each place: when only a part of the page is drawn anew the rest is left alone.
    """

    said: dict[str, Any] = field(default_factory=dict)
    slots: dict[str, tuple[Any, str]] = field(default_factory=dict)
    told: dict[str, tuple[Any, str]] = field(default_factory=dict)
    end: str = "back"
    machine: Machine | None = None
    tool: Attachment | None = None
    point: LiftPoint | None = None

    def _slot(self, name: str, how: str = "") -> None:
        self.slots[FIELDS[name].option] = (st.empty(), how or FIELDS[name].how)

    def text(self, name: str, *, word: str = "", how: str = "", slot: bool = True) -> None:
        """A typed quantity; without a slot the page writes under it."""
        word = word or name
        self.said[name] = state.kept().words[word] = st.text_input(
            FIELDS[name].label,
            key=state.prepare(word),
            placeholder="needed" if word in NEEDED else "may stay empty",
        )
        if slot:
            self._slot(name, how)

    def texts(self, *names: str) -> None:
        """Typed quantities, one below the other."""
        for name in names:
            self.text(name)

    def pick(
        self,
        name: str,
        options: Iterable[str],
        *,
        start: str = "",
        word: str = "",
        free: bool = False,
        words: Any = str,
    ) -> str:
        """A choice; a free one may also be typed."""
        word, listed = word or name, list(options)
        if not free:
            listed = state.choices(word, listed, start=start)
        elif state.kept().words[word] not in ("", *listed):
            listed.append(state.kept().words[word])
        key = state.prepare(word, listed)
        if free and st.session_state[key] == "":
            st.session_state[key] = None
        chosen = st.selectbox(
            FIELDS[name].label,
            listed,
            key=key,
            index=None if free else 0,
            accept_new_options=free,
            format_func=words,
        )
        self._slot(name)
        self.said[name] = state.kept().words[word] = chosen or ""
        return str(self.said[name])

    def tick(self, name: str) -> bool:
        """A yes or no."""
        ticked = st.checkbox(FIELDS[name].label, key=state.prepare(name))
        self.said[name] = state.kept().words[name] = ticked
        self._slot(name)
        return bool(ticked)

    def far(self, name: str) -> bool:
        """Whether there is such a thing near, and then how far it is; true where it is."""
        there = self.pick(f"{name}_said", NEARNESS, words=lambda way: NEARNESS.get(way, way))
        del self.said[f"{name}_said"]
        self.said[name] = "none" if there == "none" else ""
        if there == state.FAR:
            self.text(name)
        return there == state.FAR

    def asked(self) -> LiftRequest:
        """Everything said."""
        return LiftRequest(**self.said)

    def understood(self, echoes: Iterable[tuple[str, str]]) -> None:
        """Under each input how to measure it, and what was read."""
        known = dict(echoes)
        for option, (_, how) in self.slots.items():
            typed = option.replace("-", "_") in self.said and option in known
            echo = known[option] if typed and option not in _CHOSEN else ""
            self._tell(option, html.help_line(FIELDS[option.replace("-", "_")], how, echo))

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
                lines[option] = lines.get(option, "") + html.fault_line(fault)
        for option, line in lines.items():
            self._tell(option, line)

    def _options(self, fault: Fault) -> Iterator[str]:
        """The inputs that a fault is about; of two ends, the one in which it was given."""
        for part in re.split(r" and | or ", fault.field):
            option = part.strip().replace(" ", "-").removesuffix("-distance")
            option = option.removesuffix("-file")
            ends = [f"{end}-{option}" for end in ("front", "back")]
            if option in self.slots:
                yield option
            yield from (
                each
                for each in ends
                if each in self.slots and f'"{self.said[each.replace("-", "_")]}"' in fault.given
            )


NEARNESS = {NOT_SAID: "not said", "none": "none here", state.FAR: "this far away"}


@contextmanager
def folded(title: str, *names: str) -> Iterator[None]:
    """What most lifts need not say, behind a title that tells what is said of it.

    Open where something in it was changed since the lift was opened: the title changes with what
    is said, and a fold with a new title would otherwise close under the hand.
    """
    words = state.kept().words
    said = [_brief(name, words[name]) for name in names if _is_said(name, words[name])]
    shown = ", ".join(said[:2]) + (f" and {len(said) - 2} more" if len(said) > 2 else "")
    with st.expander(f"{title}: {plain(shown)}" if said else title, expanded=state.changed(names)):
        yield


def _is_said(name: str, word: Any) -> bool:
    return word not in ("", False, {"bark": "over", "moisture": "fresh"}.get(name))


_TELLING = {"sling", "sling_kind", "lifted", "surface"}
"""Fields whose word says by itself what it is about."""


def _brief(name: str, word: Any) -> str:
    """A field and its word, short enough for a title."""
    label = FIELDS[name.split("/", maxsplit=1)[0]].label.lower()
    told = NEARNESS.get(word, word) if name.endswith("_said") else word
    text = label if word is True else told if name in _TELLING else f"{label} {told}"
    return text if len(text) <= 40 else f"{text[:39]}…"


_MARKDOWN = re.compile(r"([\\`*_{}\[\]()#+\-.!$<>|~:&])")


def plain(text: str) -> str:
    """Text that Markdown leaves alone."""
    return _MARKDOWN.sub(r"\\\1", " ".join(text.split()))
