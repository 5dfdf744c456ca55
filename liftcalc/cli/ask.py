"""``liftcalc ask``: a question turned round, its answer, and what would buy more."""

from __future__ import annotations

from typing import Any

import typer

from liftcalc.cli import options
from liftcalc.documents import document
from liftcalc.evaluation.answer import NAMED_ONLY
from liftcalc.factors import CAUTION
from liftcalc.machines.lookup import named
from liftcalc.questions.registry import QuestionAnswer, tell
from liftcalc.questions.remedies import Remedy
from liftcalc.questions.search import InverseAnswer, Outcome
from liftcalc.remarks import Remark, worded
from liftcalc.reports.text import (
    NOTHING_MORE,
    ONE_AT_A_TIME,
    WIDTH,
    details_in_words,
    finite,
    listed,
    not_checked,
    wrapped,
)
from liftcalc.reports.words import said_record, text, texts
from liftcalc.requests.fields_of_commands import QUESTIONS, QuestionRequest
from liftcalc.requests.question import Question, parse_question
from liftcalc.units import System, show


@options.takes(QuestionRequest)
def ask(
    request: QuestionRequest, as_json: options.Json = False, units: options.Units = "metric"
) -> None:
    """Ask the other way round: how far, how high, how long, how steep, where, what would help.

    What is asked for need not be given. 'steepest' takes the worst heading unless --uphill says
    one; 'carry' is of the front end on the move. Exit status 1: there is none; 3: something has to
    be told first.
    """
    system, read = options.understood(units, parse_question, request)
    told = tell(read)
    if as_json:
        typer.echo(document("ask", record(read, told, system)))
    else:
        options.say(table(read, told, system))
    options.leave(
        options.careful_standing(
            found=all(each.value is not None for each in told.turned),
            waits=any(each.code not in NAMED_ONLY for each in unchecked_of(told)),
        )
    )


def table(question: Question, told: QuestionAnswer, system: System) -> list[str]:
    """The answer for people."""
    lift = question.read.lift
    lines = [
        f"{named(lift.machine)}: {lift.end} end, {lift.tool.name}, {lift.point.name}",
        f"  {QUESTIONS[question.name]}",
    ]
    for each in told.turned:
        lines += ["", *_turned(each, system)]
    lines += ["", *(f"  {line}" for line in wrapped(CAUTION)), "", *_more(told.more, system)]
    lines += ["", "Understood"]
    lines += [f"  {name:<{WIDTH}}{echo}" for name, echo in question.read.echoes]
    doubts = texts(_doubts(told), system)
    lines += ["", "Warnings", *listed(doubts)] if doubts else []
    unsaid = not_checked(unchecked_of(told), system)
    return [*lines, "", *unsaid[:-1]] if unsaid else lines


def _turned(turned: InverseAnswer, system: System) -> list[str]:
    value = (
        "none" if turned.value is None else show(turned.value, turned.kind, system, turned.rounding)
    )
    question, stopped_by = texts((turned.question, turned.stopped_by), system)
    lines = [f"  {question}: {value}", f"  stopped by: {stopped_by}"]
    if turned.beyond is not None and turned.beyond_value is not None:
        how = "where it cannot stand" if turned.beyond.answer is None else "not"
        beyond = show(turned.beyond_value, turned.kind, system, places=3)
        lines.append(f"  checked: so there, but {how} at {beyond}")
    lines += [f"  {name}: {value}" for name, value in details_in_words(turned, system)]
    return [*lines, *listed(texts(turned.notes, system))]


def _more(more: tuple[Remedy, ...], system: System) -> list[str]:
    if not more:
        return [NOTHING_MORE]
    lines = [ONE_AT_A_TIME]
    for each in more:
        worth = "-" if each.worth is None else show(each.worth, "mass", system, "down")
        enough = "within the limits" if each.after.passes else "not enough alone"
        enough = "" if each.worth is None else enough
        name, must = texts((each.name, each.must), system)
        lines.append(f"  {worth:>10}  {name}{f' ({enough})' if enough else ''}")
        lines += [f"{'':14}{line}" for line in wrapped(f"if {must}", 80)]
    return lines


def _doubts(told: QuestionAnswer) -> tuple[Remark, ...]:
    """Warnings of the forward check at the answer."""
    for each in told.turned:
        if each.at is not None and each.at.answer is not None:
            return each.at.answer.warnings
    return ()


def unchecked_of(told: QuestionAnswer) -> tuple[Remark, ...]:
    """What was not said and so not checked at the answer."""
    answers = (each.at.answer for each in told.turned if each.at is not None)
    return tuple(dict.fromkeys(said for each in answers if each for said in each.unchecked))


def record(question: Question, told: QuestionAnswer, system: System) -> dict[str, Any]:
    """The answer as plain data in SI; what there is not is null."""
    return {
        "question": question.name,
        "practice": question.read.lift.machine.invented,
        "answers": [_record(each, system) for each in told.turned],
        "more": [_remedy(each, system) for each in told.more],
        **said_record(system, unchecked=unchecked_of(told), warnings=_doubts(told)),
        "understood": dict(question.read.echoes),
        "caution": CAUTION,
    }


def _record(turned: InverseAnswer, system: System) -> dict[str, Any]:
    return {
        "question": text(turned.question, system),
        "value": turned.value,
        "kind": turned.kind,
        "stopped_by": text(turned.stopped_by, system),
        "at": outcome_record(turned.at, system),
        "beyond_value": turned.beyond_value,
        "beyond": outcome_record(turned.beyond, system),
        "details": {text(each.name): each.figure.value for each in turned.details},
        **said_record(system, notes=turned.notes),
    }


def _remedy(each: Remedy, system: System) -> dict[str, Any]:
    return {
        "name": text(each.name, system),
        "worth_kg": each.worth,
        "passes": each.after.passes,
        "must_be_true": text(each.must, system),
        "after": outcome_record(each.after, system),
    }


def outcome_record(outcome: Outcome | None, system: System) -> dict[str, Any] | None:
    """A forward check in brief."""
    if outcome is None:
        return None
    lift, answer = outcome.lift, outcome.answer
    return {
        "passes": outcome.passes,
        "stopped_by": text(outcome.stopped_by, system),
        "faults": [str(worded(each, system)) for each in outcome.faults],
        "height_m": lift.height,
        "reach_m": answer.reached.reach if answer else lift.reach,
        "slew_rad": lift.slew,
        "planning_kg": lift.log.mass_planning,
        "allowed_kg": finite(answer.allowed) if answer else None,
        "heaviest_log_kg": finite(answer.heaviest_log) if answer else None,
        "utilisation": finite(answer.utilisation) if answer else None,
    }
