"""A record in a notebook: the verdict first, the caution always, then what it was drawn from.

Styles stand on their elements and drawings are images, so that nothing reaches the page around it.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import singledispatch
from html import escape

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check
from liftcalc.evaluation.warnings import unchecked
from liftcalc.factors import CAUTION, NOT_CHECKED
from liftcalc.figures.plan import plan
from liftcalc.figures.side import side
from liftcalc.figures.svg import image, svg
from liftcalc.maps.limits import BackLimits, FrontLimits
from liftcalc.maps.warnings import limits_warnings
from liftcalc.questions.compare import Comparison, EndResult, doubts_of, unchecked_of
from liftcalc.questions.registry import QuestionAnswer
from liftcalc.questions.search import InverseAnswer
from liftcalc.remarks import Words
from liftcalc.reports.line import line
from liftcalc.reports.text import PLAN_ON, details_in_words, verdict_sentences
from liftcalc.reports.words import text
from liftcalc.timber.log import LogEstimate
from liftcalc.units import show

Pairs = Iterable[tuple[str, str]]
WIDTH = 'style="max-width:30em;width:100%"'


@singledispatch
def card(_: object) -> str | None:
    """The record as HTML; None where its line says everything."""
    return None


def _card(
    verdict: str,
    *,
    facts: Pairs = (),
    unsaid: Iterable[Words] = (),
    doubts: Iterable[Words] = (),
    pictures: Iterable[str] = (),
) -> str:
    rows = "".join(
        f'<tr><th style="text-align:left">{escape(name)}</th>'
        f'<td style="text-align:left">{escape(value)}</td></tr>'
        for name, value in facts
    )
    return (
        f"<div><p><strong>{escape(verdict)}</strong></p><p><em>{escape(CAUTION)}</em></p>"
        f"<table>{rows}</table>{_listed(NOT_CHECKED, unsaid)}"
        f"{''.join(pictures)}{_listed('Warnings', doubts)}</div>"
    )


def _listed(title: str, said: Iterable[Words]) -> str:
    items = "".join(f"<li>{escape(text(each))}</li>" for each in said)
    return f"<p>{escape(title)}</p><ul>{items}</ul>" if items else ""


def _drawn(answer: Answer | None) -> str:
    """The side view of an answer."""
    if answer is None:
        return ""
    scene = side(answer)
    return image(svg(scene).encode(), scene.about, WIDTH)


@card.register
def _(answer: Answer) -> str:
    above = plan(answer)
    return _card(
        " ".join(verdict_sentences(answer, "metric")),
        facts=(
            ("allowed at the lift point", show(answer.allowed, "mass", rounding="down")),
            ("heaviest log here", show(answer.heaviest_log, "mass", rounding="down")),
            (PLAN_ON, show(answer.lift.log.mass_planning, "mass", rounding="up")),
            ("stopped first by", answer.governs),
        ),
        unsaid=answer.unchecked,
        doubts=answer.warnings,
        pictures=(_drawn(answer), image(svg(above).encode(), above.about, WIDTH)),
    )


@card.register
def _(found: Comparison) -> str:
    return _card(
        text(found.reason),
        facts=[(f"{each.end} end", _share(each)) for each in found.ends],
        unsaid=unchecked_of(found),
        doubts=doubts_of(found),
        pictures=[_drawn(each.worse.outcome.answer) for each in found.ends],
    )


def _share(end: EndResult) -> str:
    allowed = show(end.allowed, "mass", rounding="down")
    stopped_by = text(end.worse.outcome.stopped_by)
    return f"allowed {allowed} at its worse place, stopped first by {stopped_by}"


@card.register
def _(turned: InverseAnswer) -> str:
    return _found((turned,), ())


@card.register
def _(told: QuestionAnswer) -> str:
    return _found(told.turned, [(str(each.name), str(each.must)) for each in told.more])


def _found(turned: tuple[InverseAnswer, ...], more: Pairs) -> str:
    answers = [each.at.answer for each in turned if each.at and each.at.answer]
    details = [pair for one in turned for pair in details_in_words(one)]
    return _card(
        "; ".join(line(each) for each in turned) or "What would buy more",
        facts=[*details, *((f"would buy more: {name}", f"if {must}") for name, must in more)],
        unsaid=dict.fromkeys(said for each in answers for said in each.unchecked),
        doubts=dict.fromkeys(
            [
                *(said for each in turned for said in each.notes),
                *(said for each in answers for said in each.warnings),
            ]
        ),
        pictures=[_drawn(each) for each in answers],
    )


@card.register
def _(estimate: LogEstimate) -> str:
    return _card(line(estimate), doubts=estimate.doubts)


@card.register
def _(limits: BackLimits) -> str:
    return _card(
        line(limits),
        unsaid=unchecked(limits.lift),
        doubts=limits_warnings(*limits.maps),
        pictures=_maps(limits),
    )


@card.register
def _(limits: FrontLimits) -> str:
    return _card(
        line(limits),
        unsaid=unchecked(limits.lift),
        doubts=limits_warnings(limits),
        pictures=_maps(limits),
    )


def _maps(limits: BackLimits | FrontLimits) -> list[str]:
    """Maps as they are printed; none without what draws them."""
    try:
        from liftcalc.figures.curves import curves  # noqa: PLC0415 - matplotlib may not be there
        from liftcalc.figures.limit_maps import limit_maps  # noqa: PLC0415
        from liftcalc.figures.saving import picture  # noqa: PLC0415
    except ModuleNotFoundError:
        return ["<p>matplotlib draws the maps: pip install 'liftcalc[figures]'</p>"]
    figure = (
        curves((limits,))
        if isinstance(limits, FrontLimits)
        else limit_maps(limits, check(limits.lift))
    )
    return [image(picture(figure, "svg"), line(limits), WIDTH)]
