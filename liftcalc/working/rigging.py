"""The worked steps of ratings, grip and distances."""

from __future__ import annotations

import math

from liftcalc.evaluation.answer import Answer, Criterion
from liftcalc.evaluation.log_position import below
from liftcalc.physics import formulas
from liftcalc.physics.worked import Worked, work
from liftcalc.site.hazards import Clearance
from liftcalc.sources import SOURCES
from liftcalc.working.rows import Row, Section, allowed_rows, figure, measured, plain_row, rows_of


def rated_section(answer: Answer, criterion: Criterion) -> Section:
    """A rating: how it was found, where it was computed, and what is left for the log."""
    rows = tuple(row for worked in criterion.worked for row in rows_of(worked))
    return Section(title=_title(criterion), rows=rows + allowed_rows(answer, criterion))


def distance_section(answer: Answer, criterion: Criterion, clearance: Clearance) -> Section:
    """A distance to keep: what reaches out, what is left, what is needed."""
    needs, has = float(clearance.needs), float(clearance.has)
    rows: tuple[Row, ...] = ()
    hazards = answer.lift.hazards
    reaching = _reaching(answer, criterion)
    if reaching is not None:
        rows += rows_of(reaching)
    if criterion.name == "overhead wires" and reaching is not None:
        said = float(hazards.wires_distance or 0.0)
        rows += (
            plain_row(
                "distance that is left",
                f"{figure(said)} − {figure(reaching.result)}",
                measured(has, "m"),
                letters=r"d - x_{\max}",
                why="along the ground to below the wires; their height is not counted",
            ),
        )
    else:
        rows += (plain_row("distance that there is", "", measured(has, "m"), letters="d"),)
    rows += (
        plain_row(
            "distance that is needed",
            "",
            f"{figure(needs)} m",
            letters=r"d_{\min}",
            why=f"{clearance.said} ({SOURCES[clearance.source].citation})",
        ),
    )
    if has > 0:
        rows += (
            plain_row(
                "share of it that is used",
                "" if math.isinf(has) else f"{figure(needs)} / {figure(has)}",
                figure(criterion.utilisation),
                letters=r"d_{\min} / d",
                why="more than 1: the distance is not kept",
            ),
        )
    return Section(title=_title(criterion), rows=rows)


def _reaching(answer: Answer, criterion: Criterion) -> Worked | None:
    """How far the log comes out, by the formula that the distance was found with."""
    log, lean = below(answer.lift), min(abs(float(answer.reached.lean)), math.pi / 2)
    out = {
        "far_end": max(float(log.far_end), 0.0),
        "hanging_drop": max(float(log.middle), 0.0),
        "lean": lean,
    }
    if criterion.name == "overhead wires":
        return work(
            "How far the log comes",
            formulas.farthest_point,
            hook_reach=max(float(answer.reached.reach), 0.0),
            **out,
        )
    if criterion.name == "people":
        return work(
            "Circle to keep out of",
            formulas.exclusion_radius,
            lowest_height=max(float(answer.lowest), 0.0),
            **out,
        )
    return None


def _title(criterion: Criterion) -> str:
    return f"{criterion.title[:1].upper()}{criterion.title[1:]}"
