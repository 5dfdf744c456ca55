"""The worked steps of an answer: the formulas that were used, with letters and with numbers.

Every row is a step of ``physics.formulas``, called again with the numbers of the answer, or a sum
or product of them in plain figures; tests hold that the results are those of the answer.
"""

from __future__ import annotations

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.lift import Lift
from liftcalc.working.criteria import criterion_section
from liftcalc.working.ground_forces import ground_sections
from liftcalc.working.journey import gravity_section, lean_section, pull_sections, turn_section
from liftcalc.working.rows import Row, Section, figure, section_of

__all__ = ["Row", "Section", "figure", "section_of", "worked_out"]


def worked_out(answer: Answer, *, asked: Lift | None = None) -> tuple[Section, ...]:
    """The working of every figure in the answer, log first.

    ``asked`` is the lift with its journey as it was said: in the answer that is part of the site
    already, so without it no turn is worked.
    """
    log = answer.lift.log
    made: list[Section | None] = [section_of(worked) for worked in log.worked]
    hang = answer.hang
    if hang is not None and hang.worked is not None:
        made.append(section_of(hang.worked))
    made += pull_sections(answer)
    if asked is not None:
        made.append(turn_section(answer, asked))
    made += [gravity_section(answer), lean_section(answer)]
    made += [section_of(worked) for worked in answer.lift.pushes]
    made += [criterion_section(answer, each) for each in answer.criteria]
    made += ground_sections(answer)
    return tuple(each for each in made if each is not None)
