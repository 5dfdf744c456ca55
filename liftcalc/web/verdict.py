"""The first screen of an answer: verdict, four figures, the caution, and what was not said."""

from __future__ import annotations

from collections.abc import Container, Iterable
from html import escape

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.warnings import OPTION_OF
from liftcalc.factors import NOT_CHECKED
from liftcalc.remarks import Remark
from liftcalc.reports.text import PLAN_ON, verdict_sentences
from liftcalc.reports.words import text
from liftcalc.requests.fields import ENDS
from liftcalc.units import Rounding, System, show
from liftcalc.web import html

FIELD_OF = OPTION_OF | {f"unsaid_{each}": f"{each}-said" for each in ("wires", "edge", "people")}
"""What was not said, and the field in which it is said."""


def verdict_block(answer: Answer, system: System, *, doubts: tuple[str, ...] = ()) -> str:
    """Verdict, the figures behind it and the caution in one block; then what was not said.

    ``doubts`` are of the page itself: with one of them nothing is ticked.
    """

    def kilos(value: float, rounding: Rounding) -> str:
        return show(value, "mass", system, rounding)

    face = html.standing_of(answer)
    figures = [
        (html.ALLOWED, kilos(answer.allowed, "down")),
        ("Heaviest log here", kilos(answer.heaviest_log, "down")),
        (PLAN_ON.capitalize(), kilos(answer.lift.log.mass_planning, "up")),
        ("Would stop it first", f"{text(answer.governs, system)}, {html.used(answer.governing)}"),
    ]
    verdict, *why = verdict_sentences(answer, system)
    return html.told(
        "close" if doubts and face == "ok" else face,
        verdict,
        figures,
        "".join(f'<p class="lc-fault">{escape(each)}</p>' for each in doubts)
        + unsaid(answer.unchecked, system),
        why,
    )


def unsaid(said: Iterable[Remark], system: System, there: Container[str] | None = None) -> str:
    """What was not said, each leading to its field; of two ends to the end's own.

    ``there`` are the options the page has fields for, where it may lack some: what it has no field
    for leads nowhere.
    """
    items = "".join(f"<li>{_leading(each, system, there)}</li>" for each in said)
    if not items:
        return ""
    return f'<div class="lc-unsaid"><p>{NOT_CHECKED}</p><ul>{items}</ul></div>'


def _leading(said: Remark, system: System, there: Container[str] | None) -> str:
    """Its words, as a link to the field."""
    words = text(said, system, brief=True)
    of_end = said.code == "of_end"
    field = FIELD_OF[said["what"].code if of_end else said.code]
    if there is not None and field not in there:
        # Said of one end, or of both alike: then the first of the two fields.
        ends = (said["end"],) if of_end else ENDS
        field = next((f"{each}-{field}" for each in ends if f"{each}-{field}" in there), "")
    shown = escape(words[:1].upper() + words[1:])
    return f'<a href="#field-{field}">{shown}</a>' if field else shown
