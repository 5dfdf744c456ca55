"""The first screen of an answer: verdict, four figures, the caution, and what was not said."""

from __future__ import annotations

from collections.abc import Container, Iterable
from html import escape

from liftcalc.evaluation.answer import Answer
from liftcalc.figures.text import worth_words
from liftcalc.requests.fields import ENDS
from liftcalc.units import Rounding, System, show
from liftcalc.web import html

FIELD_OF = (
    ("plate or chart", "plate"),
    ("what ground", "ground"),
    ("what pressure the", "ground"),
    ("carries the tyres", "ground"),
    ("the ground carries under", "machine"),
    ("whether the pads stand", "levelled"),
    ("chain or sling", "sling-kind"),
    ("limit of the hook", "hook-wll"),
    ("limit of the shackle", "shackle-wll"),
    ("eye or hitch", "hitch-wll"),
    ("how fast it travels", "speed"),
    ("how hard it brakes", "braking"),
    ("how deep the tyres", "sinkage"),
    ("overhead wires", "wires-said"),
    ("bank edge", "edge-said"),
    ("nearest person", "people-said"),
    ("how hard the jaw", "machine"),
    ("axles and tyres", "machine"),
)
"""What was not said, by words in it, and the field in which it is said."""


def verdict_block(answer: Answer, system: System, *, doubts: tuple[str, ...] = ()) -> str:
    """Verdict, the figures behind it and the caution in one block; then what was not said.

    ``doubts`` are of the page itself: with one of them nothing is ticked.
    """

    def kilos(value: float, rounding: Rounding) -> str:
        return show(value, "mass", system=system, rounding=rounding)

    face = html.standing_of(answer)
    figures = [
        ("Allowed load at the lift point", kilos(answer.allowed, "down")),
        ("Heaviest log here", kilos(answer.heaviest_log, "down")),
        ("This log, to plan on", kilos(answer.lift.log.mass_planning, "up")),
        ("Would stop it first", f"{answer.governs}, {html.used(answer.governing)}"),
    ]
    return html.told(
        "close" if doubts and face == "ok" else face,
        verdict_words(answer, system),
        figures,
        "".join(f'<p class="lc-fault">{escape(each)}</p>' for each in doubts)
        + unsaid(answer.unchecked),
    )


def verdict_words(answer: Answer, system: System) -> str:
    """The verdict; a distance that is not kept in the units of the page."""
    first = answer.governing
    if answer.allowed <= 0 and first.clearance is not None:
        return f"No: {first.name}: {worth_words(first, system)}"
    return answer.verdict


def unsaid(texts: Iterable[str], there: Container[str] | None = None) -> str:
    """What was not said, each leading to its field; of two ends to the end's own.

    ``there`` are the options the page has fields for, where it may lack some: what it has no field
    for leads nowhere.
    """
    items = "".join(f"<li>{_leading(each, there)}</li>" for each in texts)
    if not items:
        return ""
    return f'<div class="lc-unsaid"><p>Not said, so not checked</p><ul>{items}</ul></div>'


def _leading(text: str, there: Container[str] | None) -> str:
    """Its words up to where they name the command line's options, as a link to the field."""
    said = text.partition(" (")[0] if text.endswith(")") else text
    field = next((field for words, field in FIELD_OF if words in text), "")
    if there is not None and field not in there:
        # Said of one end, or of both alike: then the first of the two fields.
        ends = [each for each in ENDS if text.startswith(f"{each} end: ")] or ENDS
        field = next((f"{each}-{field}" for each in ends if f"{each}-{field}" in there), "")
    shown = escape(said[:1].upper() + said[1:])
    return f'<a href="#field-{field}">{shown}</a>' if field else shown
