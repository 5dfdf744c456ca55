"""The first screen of an answer: verdict, four figures, the caution, and what was not said."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from liftcalc.answers.answer import Answer
from liftcalc.figures.words import worth_words
from liftcalc.units import Rounding, System, show
from liftcalc.web import blocks

FIELD_OF = (
    ("plate or chart", "plate"),
    ("what ground", "ground"),
    ("what pressure the", "ground"),
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

    face = blocks.standing_of(answer)
    figures = [
        ("Allowed load at the lift point", kilos(answer.allowed, "down")),
        ("Heaviest log here", kilos(answer.heaviest_log, "down")),
        ("This log, to plan on", kilos(answer.lift.log.mass_planning, "up")),
        ("Would stop it first", f"{answer.governs}, {blocks.used(answer.governing)}"),
    ]
    return blocks.told(
        "close" if doubts and face == "ok" else face,
        verdict_words(answer, system), figures,
        "".join(f'<p class="lc-fault">{escape(each)}</p>' for each in doubts)
        + unsaid(answer.unchecked),
    )  # fmt: skip


def verdict_words(answer: Answer, system: System) -> str:
    """The verdict; a distance that is not kept in the units of the page."""
    first = answer.governing
    if answer.allowed <= 0 and first.clearance is not None:
        return f"No: {first.name}: {worth_words(first, system)}"
    return answer.verdict


def unsaid(texts: Iterable[str]) -> str:
    """What was not said, each leading to its field."""
    items = "".join(f"<li>{_leading(each)}</li>" for each in texts)
    if not items:
        return ""
    return f'<div class="lc-unsaid"><p>Not said, so not checked</p><ul>{items}</ul></div>'


def _leading(text: str) -> str:
    """Its words up to where they name the command line's options, as a link to the field."""
    said = text.partition(" (")[0] if text.endswith(")") else text
    field = next((field for words, field in FIELD_OF if words in text), "")
    shown = escape(said[:1].upper() + said[1:])
    return f'<a href="#field-{field}">{shown}</a>' if field else shown
