"""The facts of one's own machine as they stand on its page, and that machine on all pages."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import streamlit as st

from liftcalc.errors import InputError
from liftcalc.family.fact import Told
from liftcalc.family.facts import FACTS
from liftcalc.family.facts_file import CHOICES, facts_of, known
from liftcalc.family.files import is_of_facts
from liftcalc.family.kind import CLASSES
from liftcalc.family.known import KnownMachine
from liftcalc.machines.files import InHand, table_of
from liftcalc.web import state

PREFIX = "machine/"
CLASS = f"{PREFIX}class"
NOTICE = f"{PREFIX}notice"
LAST = f"{PREFIX}last"
CHANGED = f"{PREFIX}changed"
"""Key of the facts that were told, changed or taken back last."""
FILE = "my-machine.toml"
ROWS = 6
"""How often a fact of the hook may be told."""
Raw = dict[str, Any]


def key_of(fact: str, row: int = 0) -> str:
    """Key of the field in which a fact is typed; one of the hook has several."""
    return f"{PREFIX}{fact}/{row}"


def typed(fact: str) -> list[str]:
    """What is typed of a fact, row by row."""
    rows = range(ROWS if FACTS[fact].asks else 1)
    every = (str(st.session_state.get(key_of(fact, row)) or "").strip() for row in rows)
    return [each for each in every if each]


def raw() -> Raw:
    """The file of facts that the page stands for; empty while no class is chosen."""
    found: Raw = {"class": st.session_state.get(CLASS)}
    for name in CHOICES if found["class"] else ():
        built = st.session_state.get(f"{PREFIX}{name}")
        if built != getattr(CLASSES[found["class"]], name):
            found[name] = built
    for fact in FACTS:
        if rows := typed(fact):
            found[fact] = rows if len(rows) > 1 else rows[0]
    return {name: value for name, value in found.items() if value}


def machine(facts: Raw) -> KnownMachine:
    """The machine that facts tell: the same one as long as they stay as they are.

    Raises ``InputError`` as ``facts_of`` and ``known``.
    """
    before = st.session_state.get(LAST)
    if before is not None and before[0] == facts:
        made: KnownMachine = before[1]
        return made
    made = known(facts_of(facts, file=FILE))
    if before is not None:
        keys = (key for key in FACTS if facts.get(key) != before[0].get(key))
        st.session_state[CHANGED] = tuple(keys)
    made = made.model_copy(update={"title": f"Your machine, known by {made.known_by}"})
    st.session_state[LAST] = (facts, made)
    if state.kept().own is not None:
        state.kept().own = InHand(made)
    return made


def use(made: KnownMachine) -> None:
    """In a callback: the machine of all pages of this visit, whatever is told of it later."""
    state.kept().own = InHand(made)
    state.kept().words["machine"] = state.OWN


def choose(name: str) -> None:
    """In a callback: the class that the machine is nearest to, built as usual for it."""
    st.session_state[CLASS] = name
    for each in CHOICES:
        st.session_state.pop(f"{PREFIX}{each}", None)


def take(name: str, told: Iterable[Told]) -> None:
    """In a callback: lengths from a picture of a machine of a class, as typed text."""
    if CLASS not in st.session_state:
        choose(name)
    for each in told:
        off = "" if each.tolerance is None else f" ± {1000 * each.tolerance:.0f} mm"
        st.session_state[key_of(each.key)] = f"{each.value:.3f} m{off}"


def open_file(key: str) -> None:
    """In a callback: the facts of a file in place of those told; a notice where it cannot be."""
    file = st.session_state[key]
    if file is None:
        return
    try:
        found = table_of(file.getvalue(), file=file.name)
        if not is_of_facts(found):
            raise InputError.of(
                field="file",
                given=f'"{file.name}", a file of all figures',
                wanted="a file of facts",
                fix=f'choose "{state.OWN_FILE}" on another page',
            )
        facts_of(found, file=file.name)
    except InputError as error:
        st.session_state[NOTICE] = error.faults
        return
    for each in list(st.session_state):
        if str(each).startswith(PREFIX):
            del st.session_state[each]
    st.session_state[CLASS] = found["class"]
    for name in CHOICES:
        if name in found:
            st.session_state[f"{PREFIX}{name}"] = found[name]
    for fact in (name for name in FACTS if name in found):
        rows = found[fact] if isinstance(found[fact], list) else [found[fact]]
        for number, text in enumerate(rows[:ROWS]):
            st.session_state[key_of(fact, number)] = text


def in_use() -> bool:
    """Whether the other pages offer the machine."""
    return state.kept().own is not None
