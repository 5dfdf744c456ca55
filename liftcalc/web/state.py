"""What is kept of a visit: the words of the lift, whatever page asks for them.

Streamlit forgets a field that a page does not draw, and lets the value of one be set only before
it is drawn. So the words are kept here by name, apart from the fields; a page takes them into its
fields when it is turned to, and every run begins by taking back what was typed. The keys of the
fields carry a number that grows when another lift is opened: all fields are then made anew.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field, fields
from time import monotonic
from typing import Any, get_args

import streamlit as st

from liftcalc.errors import Fault, InputError
from liftcalc.machines.files import InHand, shipped_names
from liftcalc.machines.schema import EndName
from liftcalc.requests.demo import DEMO
from liftcalc.requests.fields import ENDS, LiftRequest, fields_of
from liftcalc.requests.fields_of_commands import CompareRequest, LimitsRequest, QuestionRequest
from liftcalc.requests.lift_file import from_parameters, parameters, read
from liftcalc.requests.reader import NONE
from liftcalc.requests.table import Field
from liftcalc.units import FOOT, System

KEPT = "kept"
LIFT = "lift/"
"""Start of the keys of the lift's fields."""
SYSTEM = "system"
UNITS = "units"
"""Parameter of the address that names the system of units."""
OWN_FILE = "my own machine file"
OWN = "my own machine"
"""The machine of the page "Your machine", once it was told to be used."""
OF_AN_END = frozenset(row.name for row in fields_of(LiftRequest) if row.each_end)
"""Fields of a lift that each end has for itself."""
NEAR = tuple(row.name for row in fields_of(LiftRequest) if row.look[0])
"""Fields that may be unsaid, nothing near, or a distance."""
FAR = "far"
NEARNESS = {"": "not said", "none": "none here", FAR: "this far away"}
_OPENING: dict[str, Any] = {
    **{
        row.name: row.default
        for record in (CompareRequest, LimitsRequest, QuestionRequest)
        for row in fields_of(record)
    },
    **{f"{name}/{end}": "" for name in OF_AN_END for end in ENDS},
    **{f"{name}_said": "" for name in NEAR},
    "path": "", "height/front": "1.5 m", "height/back": DEMO.height, "reach/back": DEMO.reach,
    "pick_height": "0.1 m", "pick_reach": "3.5 m", "set_height": "1.4 m",
}  # fmt: skip
"""What a page opens with where a lift does not say it."""


def words_of(asked: LiftRequest) -> dict[str, Any]:
    """The words of every field for a lift: those of an end as ``name/end``."""
    end, other = ("front", "back") if asked.end == "front" else ("back", "front")
    words = dict(_OPENING)
    for each in fields(LiftRequest):
        name, value = each.name, getattr(asked, each.name)
        words[f"{name}/{end}" if name in OF_AN_END else name] = value
    words[f"attachment/{other}"] = asked.other_attachment
    for name in NEAR:
        if words[name].strip().lower() in NONE:
            words[name], words[f"{name}_said"] = "", NONE[0]
        elif words[name].strip():
            words[f"{name}_said"] = FAR
    machine = asked.machine
    if machine.endswith(".toml") or "/" in machine or "\\" in machine:
        words["machine"], words["path"] = OWN_FILE, machine
    elif "-".join(machine.lower().split()) in shipped_names():
        words["machine"] = "-".join(machine.lower().split())
    return words


@dataclass(slots=True)
class Kept:
    """What is kept of one visit.

    ``words`` are those of every field, ``opening`` what they were when the lift was opened;
    ``drawn`` tells of each field when and with which choices it was drawn last; ``said`` is the
    last lift that a form made; ``loaded`` a lift just opened, until a form has taken it in.
    ``own`` is the machine of the page "Your machine", for all pages.
    ``whole`` tells that the last run of a page came to its end, ``ended`` when [s], ``first``
    that it was the page's first.
    """

    words: dict[str, Any] = field(default_factory=lambda: words_of(DEMO))
    opening: dict[str, Any] = field(default_factory=lambda: words_of(DEMO))
    generation: int = 0
    page: str = ""
    drawn: dict[str, tuple[str, tuple[str, ...]]] = field(default_factory=dict)
    said: LiftRequest = DEMO
    loaded: LiftRequest | None = None
    linked: bool = False
    notice: tuple[str, tuple[str, ...]] = ("", ())
    own: InHand | None = None
    whole: bool = True
    first: bool = False
    ended: float = 0.0

    def end(self) -> None:
        """The run of a page came to its end."""
        self.whole, self.ended = True, monotonic()


def kept() -> Kept:
    """What is kept of this visit."""
    if KEPT not in st.session_state:
        st.session_state[KEPT] = Kept()
    found = st.session_state[KEPT]
    assert isinstance(found, Kept)
    return found


UNSURE = 1.0
"""So soon after a page was first drawn nobody has begun to type in it [s]."""


def start(page: str) -> None:
    """Begin a run of a page: take in what was typed; in a new visit, what the address says."""
    new = KEPT not in st.session_state
    now = kept()
    lost = now.first and monotonic() - now.ended < UNSURE
    now.first = new or now.page != page
    now.page = page
    if lost or not now.whole:
        # A run that was broken off may not have reached the browser, nor a first one that this
        # run follows at once, before it was sent: every field is set again.
        now.drawn.clear()
    now.whole = False
    take()
    if new:
        _read_address()


def take() -> None:
    """Take in what was typed."""
    now = kept()
    for name in now.words:
        if key(name) in st.session_state:
            value = st.session_state[key(name)]
            now.words[name] = "" if value is None else value


def key(name: str) -> str:
    """Key of a field."""
    return f"{LIFT}{kept().generation}/{name}"


def prepare(name: str, choices: Iterable[str] = ()) -> str:
    """Key of a field that is about to be drawn; it holds its word then.

    Nothing is set while the field stays as it is: setting it would throw away what is being typed.
    """
    now, named = kept(), key(name)
    drawn = (now.page, tuple(choices))
    if named not in st.session_state or now.drawn.get(named) != drawn:
        st.session_state[named] = now.words[name]
    now.drawn[named] = drawn
    return named


def choices(name: str, listed: list[str], *, start: str) -> list[str]:
    """What may be chosen, with the word that stands among it.

    A word that was opened and is not in the list is offered as it is, to be refused beside its
    field. Where the list has changed since, as with another machine, it gives way to ``start``.
    """
    now = kept()
    word, before = now.words[name], now.drawn.get(key(name))
    if word in listed:
        return listed
    if word and (before is None or before[1] == (*listed, word)):
        return [*listed, word]
    now.words[name] = start if start in listed else listed[0]
    return listed


def changed(names: Iterable[str]) -> bool:
    """Whether any of the words is another than when the lift was opened."""
    now = kept()
    return any(now.words[name] != now.opening[name] for name in names)


def end() -> EndName:
    """The end whose fields a page shows."""
    return "front" if kept().words["end"] == "front" else "back"


def word_of(row: Field, lifting: EndName | None = None) -> str:
    """Name of a field's word; where each end has its own, with the end."""
    name = row.of or row.name
    return f"{name}/{end_of(row, lifting)}" if name in OF_AN_END else name


def end_of(row: Field, lifting: EndName | None = None) -> EndName:
    """The end that a field is of; that which lifts is the one shown where it is not given."""
    if row.end in ("front", "back"):
        return "front" if row.end == "front" else "back"
    lifts = lifting or end()
    if row.end == "other":
        return "front" if lifts == "back" else "back"
    return lifts


def texts(record: type, side: EndName) -> dict[str, Any]:
    """The words of a record as they stand, as those of a lift of one end."""
    words, rows, lifting = kept().words, fields_of(record), end()
    made = {row.name: words[word_of(row, lifting)] for row in rows}
    made |= {row.of: made[row.name] for row in rows if row.end == side} | {"end": side}
    return made | {name: words[f"{name}_said"] for name in NEAR}


def asked() -> LiftRequest:
    """The lift as it was last said on any page."""
    return kept().said


def say(said: LiftRequest) -> None:
    """Take the lift that a form made; a link in the address bar follows it."""
    now = kept()
    now.said = said
    if now.loaded is not None:
        left = tuple(
            each.name.replace("_", "-")
            for each in fields(LiftRequest)
            if getattr(now.loaded, each.name) not in (each.default, getattr(said, each.name), *NONE)
            and each.name != "machine"
        )
        if left:
            now.notice = ("Left out, since it does not go with this lift:", left)
        now.loaded = None
    if now.linked:
        link()


def link() -> None:
    """Put the lift into the address bar; nothing of it where a link cannot carry it."""
    now = kept()
    try:
        wanted = parameters(now.said)
    except InputError:
        wanted = {}
    now.linked = bool(wanted)
    units = {UNITS: st.query_params[UNITS]} if UNITS in st.query_params else {}
    if st.query_params.to_dict() != {**wanted, **units}:
        st.query_params.from_dict({**wanted, **units})


def open_text(text: str | bytes, *, file: str = "") -> None:
    """Open the lift of a file's text, in a callback; what is wrong with it becomes the notice."""
    try:
        _open(read(text, file=file))
    except InputError as error:
        _refuse("That file was not opened:", error.faults)


def place(
    *, reach: float | None = None, height: float | None = None, slew: float | None = None
) -> None:
    """Set the place of the lift point [m, rad], in a callback: the fields hold it as typed text.

    At the front end the arms decide the reach: without one the field is emptied. Only the back end
    slews.
    """
    shown = system()
    if height is not None:
        _set(f"height/{end()}", _length(height, shown))
    if reach is not None:
        _set(f"reach/{end()}", _length(reach, shown))
    elif end() == "front":
        _set("reach/front", "")
    if slew is not None and end() == "back":
        # Toward straight back: the end of the slew must not be overstepped.
        hundredths = math.trunc(math.degrees(slew) * 100 + math.copysign(1e-6, slew))
        _set("slew", f"{_trimmed(hundredths / 100, 2)} deg")


def place_words() -> dict[str, str]:
    """The words of the place as they stand, where a page draws their fields after it reads them."""
    words, side = kept().words, end()
    take()
    found = {name: words[f"{name}/{side}"] for name in ("height", "reach")}
    return found | ({"slew": words["slew"]} if side == "back" else {})


def system() -> System:
    """The system of units that the pages show."""
    return "imperial" if st.session_state.get(SYSTEM) == "imperial" else "metric"


def remember_units(system: System) -> None:
    """Keep the choice of units in the address, where a bookmark and a new visit find it."""
    if system == "imperial":
        if st.query_params.get(UNITS) != system:
            st.query_params[UNITS] = system
    elif UNITS in st.query_params:
        del st.query_params[UNITS]


def _set(name: str, word: str) -> None:
    kept().words[name] = word
    st.session_state[key(name)] = word


def _length(metres: float, system: System) -> str:
    """To the centimetre; finer only at the end of a reach, which a rounding could overstep."""
    if system == "imperial":
        return f"{_trimmed(metres / FOOT, 3)} ft"
    whole = round(metres, 2)
    return f"{whole:.2f} m" if abs(whole - metres) < 1e-6 else f"{_trimmed(metres, 4)} m"


def _trimmed(value: float, places: int) -> str:
    text = f"{value + 0.0:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _open(asked: LiftRequest) -> None:
    now = kept()
    now.words, now.opening = words_of(asked), words_of(asked)
    now.generation += 1
    now.drawn.clear()
    now.said = now.loaded = asked
    now.notice = ("", ())


def _refuse(words: str, faults: Iterable[Fault]) -> None:
    kept().notice = (words, tuple(str(each) for each in faults))


def _read_address() -> None:
    """Open the lift of the address, if it holds one."""
    given = {name: st.query_params.get_all(name) for name in st.query_params}
    units = given.pop(UNITS, [])
    faults: list[Fault] = []
    if units and units[-1] in get_args(System):
        st.session_state[SYSTEM] = units[-1]
    elif units:
        faults.append(Fault(field=UNITS, given=f'"{units[-1][:60]}"', wanted="metric or imperial"))
    faults += [
        Fault(field=name[:60], given=f"{len(each)} times", wanted="each name once")
        for name, each in given.items()
        if len(each) > 1
    ]
    asked = None
    try:
        asked = from_parameters({name: each[-1] for name, each in given.items()}) if given else None
    except InputError as error:
        faults += error.faults
    if faults:
        _refuse(
            "That link was not opened. This is a lift of our own invention, not the link’s:", faults
        )
    elif asked is not None:
        _open(asked)
        kept().linked = True
