"""Your machine: the class it is nearest to, then any facts, and what it may lift as they come."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache, partial
from html import escape
from typing import Any

import streamlit as st

from liftcalc.errors import Fault, InputError
from liftcalc.evaluation.members import seen_remark, slip_remark
from liftcalc.family.fact import Fact
from liftcalc.family.facts import FACTS
from liftcalc.family.facts_file import CHOICES, facts_of, seen, written
from liftcalc.family.kind import CLASSES, MachineKind
from liftcalc.family.known import KnownMachine
from liftcalc.family.telling import example
from liftcalc.figures.measuring import Group, Item, View, asked, measuring, spans
from liftcalc.figures.picture_guide import picture_guide
from liftcalc.figures.scene import WIDE, Scene
from liftcalc.figures.svg import svg
from liftcalc.judgement.doubt import Worth
from liftcalc.judgement.next_fact import paying
from liftcalc.judgement.usual_lift import UsualLift, allowed_there, usual_lift
from liftcalc.machines.files import load
from liftcalc.machines.remembered import remembered
from liftcalc.machines.schema import EndName
from liftcalc.reports.words import text
from liftcalc.requests.fields import ENDS
from liftcalc.units import System, show
from liftcalc.web import html, own_machine
from liftcalc.web.form import plain
from liftcalc.web.lesson import plainly
from liftcalc.web.page_frame import PRESSED, opened, save_button

TITLE = "Your machine"
HOW_BUILT = {"mount": "How the back end is mounted", "boom_ram": "Where the boom ram lies"}
BUILT = {"above": "above the boom", "below": "below the boom"}
MOST_NEXT = 3
"""Facts that are named as those that pay most."""
NOT_YOURS = "Nothing is told of yours yet: this is any machine of the class."
NOT_THERE = "does not reach there"


@dataclass(slots=True)
class Fields:
    """The fields of the page: the place under each, by the key of its fact and its row."""

    slots: dict[str, list[Any]] = field(default_factory=dict)

    def tell(self, fact: str, line: str, row: int = 0) -> None:
        """Write under a field of a fact; where it is not drawn, nowhere."""
        rows = self.slots.get(fact, [])
        if rows:
            rows[min(row, len(rows) - 1)].html(line)


def page() -> None:
    """Draw the page."""
    system = opened(TITLE, "")
    plainly(lambda: _page(system))


def _page(system: System) -> None:
    if faults := st.session_state.pop(own_machine.NOTICE, None):
        st.html("".join(html.fault_line(each, system) for each in faults))
    name = st.session_state.get(own_machine.CLASS)
    if name is None:
        st.html('<h2 class="lc-place">Which is it nearest to? All drawn to one scale.</h2>')
        _classes("")
        _files(None)
        return
    left, right = st.columns([7, 5], gap="large")
    with left:
        answer, files = st.container(), st.container()
    with right:
        groups = asked(load(name))
        fields = _fields(name, groups)
    made = None
    with answer:
        try:
            facts = own_machine.raw()
            made = own_machine.machine(facts)
            _answered(made, groups, system)
            _beside(made, facts, fields, system)
        except InputError as error:
            st.html(html.faults_block(map(_named, error.faults), system))
            for fault in error.faults:
                fields.tell(fault.key or fault.field, html.fault_line(fault, system))
    with files:
        _files(made)


def _beside(made: KnownMachine, facts: own_machine.Raw, fields: Fields, system: System) -> None:
    """Under the fact told last what is allowed now; under an unlikely one why, and what to see."""
    now = "; ".join(
        f"{_place(end, each, system)}: {_range(each, system)}" for end, each in _there(made).items()
    )
    for best, end in _pays(made)[:1]:
        worth = show(best.worth, "mass", system, "down")
        now += f". Next best: {best.question}, worth about {worth} at the {end}"
    for key in st.session_state.get(own_machine.CHANGED, ()):
        fields.tell(key, f'<p class="lc-help">{escape(now)}.</p>')
    for slip in made.slips:
        look = seen_remark(seen(facts_of(facts, file=own_machine.FILE), slip))
        words = f"{text(slip_remark(slip), system)} {text(look, system)}"
        fields.tell(slip.told.key, f'<p class="lc-fault">! {escape(words)}</p>')


def _named(fault: Fault) -> Fault:
    """A fault in the words of its field."""
    fact = FACTS.get(fault.key or fault.field)
    return fault if fact is None else replace(fault, field=fact.question)


def _classes(chosen: str) -> None:
    """The classes, drawn to one scale, to choose from."""
    drawings = _drawings()
    columns = [*st.columns(2), *st.columns(2)]
    for column, name in zip(columns, CLASSES, strict=True):
        with column:
            pattern = load(name)
            st.html(html.picture(drawings[name], pattern.title))
            st.button(
                pattern.title,
                key=f"{PRESSED}{own_machine.CLASS}/{name}",
                on_click=own_machine.choose,
                args=(name,),
                width="stretch",
                type="primary" if name == chosen else "secondary",
            )
            mass = show(CLASSES[name].mass, "mass", "metric")
            st.html(f'<p class="lc-help">{escape(f"{pattern.note} About {mass}.")}</p>')


@cache
def _drawings() -> dict[str, bytes]:
    """All classes at the scale of the longest, as SVG."""
    scenes = {name: picture_guide(load(name)).scene for name in CLASSES}
    wide = max(each.right - each.left for each in scenes.values())
    high = max(each.top for each in scenes.values())
    return {
        name: svg(
            replace(
                each,
                left=(each.left + each.right - wide) / 2,
                right=(each.left + each.right + wide) / 2,
                top=high,
                em=wide / WIDE,
            )
        ).encode()
        for name, each in scenes.items()
    }


def _fields(name: str, groups: Iterable[Group]) -> Fields:
    """How it is built, and every fact, by what it takes to find out."""
    pattern = load(name)
    with st.expander(f"Nearest: {plain(pattern.title)}"):
        for key, label in HOW_BUILT.items():
            usual = getattr(CLASSES[name], key)
            st.session_state.setdefault(f"{own_machine.PREFIX}{key}", usual)
            st.selectbox(
                label,
                CHOICES[key],
                key=f"{own_machine.PREFIX}{key}",
                format_func=lambda each: BUILT.get(each, each),
            )
        _classes(name)
    st.html('<h2 class="lc-place" id="the-lift">What you know of it</h2>')
    st.html(
        '<p class="lc-help">Any of these, with its unit; skip the others. '
        "Pins may also be clicked, on the page “From a picture”.</p>"
    )
    fields = Fields()
    for number, group in enumerate(groups):
        with st.expander(group.title, expanded=number == 0):
            _group(name, group, fields)
    return fields


def _group(name: str, group: Group, fields: Fields) -> None:
    key = f"{own_machine.PREFIX}rest/{group.title}"
    if any(own_machine.typed(each.fact.key) for each in group.rest):
        st.session_state.setdefault(key, True)
    rest = group.rest if st.session_state.get(key) else []
    items = tuple((each.fact.key, each.number) for each in (*group.first, *rest))
    for drawing in _where(name, items):
        st.html(drawing)
    for each in group.first:
        _field(each, fields)
    if group.rest:
        st.toggle(f"{len(group.rest)} more that pay less", key=key)
    for each in rest:
        _field(each, fields)


@cache
def _where(name: str, numbered: tuple[tuple[str, str], ...]) -> list[str]:
    """Drawings of where facts are measured, each with its number, as HTML; none where none is."""
    machine, numbers = load(name), dict(numbered)
    where = spans(machine)
    views = {where[key].view for key in numbers if key in where}
    return [_drawn(measuring(machine, numbers, view=view)) for view in sorted(views, reverse=True)]


def _drawn(scene: Scene) -> str:
    return html.picture(svg(scene).encode(), scene.about)


def _field(item: Item, fields: Fields) -> None:
    """A fact; one of the hook has a row more than are told."""
    fact = item.fact
    rows = min(len(own_machine.typed(fact.key)) + 1, own_machine.ROWS) if fact.asks else 1
    for row in range(rows):
        st.text_input(
            _numbered(item.number, fact) + (f": row {row + 1}" if row else ""),
            key=own_machine.key_of(fact.key, row),
            placeholder=f"such as {example(fact)}",
        )
        fields.slots.setdefault(fact.key, []).append(st.empty())


def _numbered(number: str, fact: Fact) -> str:
    return f"{number} · {fact.question[0].upper()}{fact.question[1:]}"


def _answered(made: KnownMachine, groups: Iterable[Group], system: System) -> None:
    """What the machine is allowed now, and what would pay next."""
    there, pays = _there(made), _pays(made)
    numbers = {x.fact.key: x.number for group in groups for x in (*group.first, *group.rest)}
    why = [text(slip_remark(each), system) for each in made.slips]
    why += [] if made.ensemble.told else [NOT_YOURS]
    st.html(
        html.told(
            "no" if made.slips else "close",
            f"Allowed at its hooks, known by {made.known_by}",
            [(_place(end, each, system), _range(each, system)) for end, each in there.items()],
            _next(pays, numbers, system),
            why,
            jump="Tell more",
        )
    )
    st.html(_drawn(_scene(made, {each.key: numbers[each.key] for each, _ in pays[:MOST_NEXT]})))


def _scene(made: KnownMachine, numbers: Mapping[str, str]) -> Scene:
    """The machine as far as it is known, and where to measure what pays next."""
    where = spans(made)
    view: View = next((where[key].view for key in numbers if key in where), "side")
    return measuring(made, numbers, view=view)


@remembered(maxsize=8)
def _there(made: KnownMachine) -> dict[EndName, UsualLift | None]:
    """What the machine is allowed at the usual lift of each end."""
    return {end: allowed_there(made, end=end) for end in ENDS}


@remembered(maxsize=8)
def _pays(made: KnownMachine) -> list[tuple[Worth, EndName]]:
    """Facts that pay, each at the end where it pays most, the best first."""
    best: dict[str, tuple[Worth, EndName]] = {}
    for end in ENDS:
        for each in paying(usual_lift(made, end=end)):
            if each.key not in best or each.worth > best[each.key][0].worth:
                best[each.key] = (each, end)
    return sorted(best.values(), key=lambda each: -each[0].worth)


def _place(end: EndName, there: UsualLift | None, system: System) -> str:
    if there is None:
        return f"At the {end}"
    height = show(there.height, "length", system)
    out = "" if there.reach is None else f"{show(there.reach, 'length', system)} out, "
    return f"Hook at the {end}, {out}{height} up"


def _range(there: UsualLift | None, system: System) -> str:
    if there is None:
        return NOT_THERE
    low, high = (show(each, "mass", system, "down") for each in (there.low, there.high))
    return low if low == high else f"between {low} and {high}"


def _next(pays: list[tuple[Worth, EndName]], numbers: Mapping[str, str], system: System) -> str:
    """What to tell next, with what it is worth."""
    if not pays:
        return ""
    rows = "".join(
        f'<tr><th scope="row">{escape(_numbered(numbers[each.key], FACTS[each.key]))}</th>'
        f"<td>{escape(show(each.worth, 'mass', system, 'down'))}"
        f"<small>at the {end}</small></td></tr>"
        for each, end in pays[:MOST_NEXT]
        if each.key in numbers
    )
    return html.table(("Pays most to tell next", "Worth about"), rows)


def _files(made: KnownMachine | None) -> None:
    """Use the machine on all pages, save it, open another; a sheet to print."""
    if made is not None:
        st.button(
            "Use this machine",
            key=f"{PRESSED}machine/use",
            on_click=own_machine.use,
            args=(made,),
            type="primary",
        )
        if own_machine.in_use():
            st.markdown("In use: the other pages offer it, with all that you tell of it.")
        facts = written(own_machine.raw())
        save_button("Save", facts, own_machine.FILE, "save-machine")
        save_button(
            "A sheet to print (PDF)",
            partial(_sheet, made.ensemble.kind),
            "what-to-measure.pdf",
            "save-measuring",
        )
    with st.expander("Open a machine that was saved"):
        key = f"{PRESSED}machine/open"
        st.file_uploader(
            "Open a machine",
            type="toml",
            key=key,
            max_upload_size=1,
            on_change=own_machine.open_file,
            args=(key,),
        )


def _sheet(kind: MachineKind) -> bytes:
    """The measuring sheet of a class, made when its button is pressed."""
    from liftcalc.figures.measuring_sheet import measuring_sheet  # noqa: PLC0415 - slow to load
    from liftcalc.figures.saving import picture  # noqa: PLC0415

    return picture(measuring_sheet(kind.pattern), "pdf")
