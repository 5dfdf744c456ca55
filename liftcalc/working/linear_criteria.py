"""The worked steps of what ground and wheels ask: pads, axles, grip, traction."""

from __future__ import annotations

import math
from dataclasses import dataclass

from liftcalc.evaluation.answer import Answer, Criterion
from liftcalc.evaluation.linear_criteria import CriterionCapacity, Held
from liftcalc.factors import AXLE_SHARE
from liftcalc.machines.assembly import PointMass
from liftcalc.physics import formulas
from liftcalc.physics.worked import work
from liftcalc.physics.wrench import WrenchFunctional
from liftcalc.working.rows import (
    Row,
    Section,
    allowed_rows,
    bracketed,
    figure,
    floats,
    measured,
    plain_row,
    rows_of,
)
from liftcalc.working.tipping import leaning_rows

WORST = "the machine in the state, of all it may be in, that is worst for this"


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """One number of the way that fails: its form and constant, what it came to, and with what."""

    form: WrenchFunctional
    constant: float
    held: Held
    whole: PointMass
    load: tuple[float, float, float]

    @property
    def lever(self) -> float:
        """Of a form that is a moment about a line over a lever: that lever [m]."""
        return 1.0 / math.hypot(*floats(self.form.moment))

    @property
    def fails(self) -> float:
        """Load at which this number alone goes below zero [kg]."""
        holding, each = float(self.held.holding), float(self.held.per_kilogram)
        return math.inf if each >= 0 else max(holding, 0.0) / -each


def _terms(answer: Answer, capacity: CriterionCapacity) -> list[Term]:
    """The numbers of the way that fails first, told by what they came to."""
    reached = answer.reached
    gravity, lean = reached.gravity, reached.lean

    def alone(form: WrenchFunctional, whole: PointMass) -> float:
        return float(whole.mass * form.unit(x=whole.x, y=whole.y, z=whole.z, gravity=gravity))

    def loaded(form: WrenchFunctional, at: tuple[float, float, float]) -> float:
        return float(form.unit(x=at[0], y=at[1], z=at[2], gravity=gravity, swing=lean))

    places = [floats(each) for each in reached.loads]
    best: tuple[float, list[Term]] = (math.inf, [])
    for way in capacity.demand.ways:
        terms = []
        for (form, constant), held in zip(way, capacity.way, strict=True):
            whole = min(reached.wholes, key=lambda each: alone(form, each))
            load = min(places, key=lambda each: loaded(form, each))
            terms.append(Term(form=form, constant=constant, held=held, whole=whole, load=load))
        off = sum(
            abs(loaded(each.form, each.load) - float(each.held.per_kilogram)) for each in terms
        ) + sum(
            abs(alone(each.form, each.whole) + each.constant - float(each.held.holding))
            for each in terms
        )
        if off < best[0]:
            best = (off, terms)
    return best[1]


def demand_section(answer: Answer, criterion: Criterion, capacity: CriterionCapacity) -> Section:
    """What holds without a load, what a kilogram of it takes, and where nothing is left."""
    terms = _terms(answer, capacity)
    term = max(terms, key=lambda each: each.fails)
    if criterion.name in {"ground", "axle rating"}:
        rows = _limit_rows(answer, criterion, term)
    else:
        rows = _left_rows(answer, criterion, capacity, term)
    among = f", the least of {len(terms)} lines" if len(terms) > 1 else ""
    title = f"{criterion.title[:1].upper()}{criterion.title[1:]}{among}"
    return Section(
        title=title, rows=rows + allowed_rows(answer, criterion), source="equilibrium of moments"
    )


def _limit_rows(answer: Answer, criterion: Criterion, term: Term) -> tuple[Row, ...]:
    """A support or an axle against the most it may carry."""
    lever, gravity = term.lever, floats(answer.reached.gravity)
    rows: tuple[Row, ...] = (_limit_row(answer, criterion, term.constant),)
    holding = (term.constant - float(term.held.holding)) * lever
    rows += _machine_rows(term, gravity, times=-lever, unit="N·m", whole=holding)
    per_kilogram = -float(term.held.per_kilogram) * lever
    rows += _kilogram_rows(answer, term, times=-lever, unit="N·m/kg")
    if 0 < criterion.capacity < math.inf:
        return rows + rows_of(
            work(
                criterion.title,
                formulas.force_limit_load,
                holding_moment=holding,
                load_unit_moment=per_kilogram,
                support_lever=lever,
                force_limit=term.constant,
            )
        )
    return (*rows, _no_load_row(criterion))


def _limit_row(answer: Answer, criterion: Criterion, most: float) -> Row:
    ground, shown = answer.lift.ground, f"{figure(most)} N"
    if criterion.name == "ground" and ground is not None and ground.allowed is not None:
        return plain_row(
            "greatest force allowed on it",
            f"{figure(ground.allowed)} · {figure(most / ground.allowed)}",
            shown,
            letters=r"N_{\max} = p \cdot A",
            why=f"pressure presumed of {ground.name} [Pa] times the area that bears [m²]",
        )
    return plain_row(
        "greatest force allowed on it",
        f"9.80665 · {figure(most / 9.80665)}",
        shown,
        letters=r"N_{\max} = g \cdot m",
        why="the rating as a weight",
    )


def _machine_rows(
    term: Term, gravity: tuple[float, float, float], *, times: float, unit: str, whole: float
) -> tuple[Row, ...]:
    """The machine's part of a number, and that number where more than its weight is in it."""
    mass = float(term.whole.mass)
    at = floats((term.whole.x, term.whole.y, term.whole.z))
    each = times * float(term.form.unit(x=at[0], y=at[1], z=at[2], gravity=gravity))
    rows: tuple[Row, ...] = (
        plain_row(
            "the machine alone",
            f"{figure(mass)} · {bracketed(each)}",
            f"{figure(mass * each)} {unit}",
            letters=r"M_0 = m \cdot k",
            why=WORST,
        ),
    )
    if not math.isclose(mass * each, whole, rel_tol=1e-9, abs_tol=1e-6):
        rows += (
            plain_row(
                "with what hangs leaning as the load does",
                "",
                f"{figure(whole)} {unit}",
                letters=r"M_0 + m_{\mathrm{hung}} \cdot (k_L - k)",
            ),
        )
    return rows


def _kilogram_rows(answer: Answer, term: Term, *, times: float, unit: str) -> tuple[Row, ...]:
    """What one kilogram of load counts for: its force, part by part, or leaning the worst way."""
    gravity, lean = floats(answer.reached.gravity), float(answer.reached.lean)
    x, y, z = term.load
    per_force = floats(term.form.per_force(x=x, y=y, z=z))
    if lean:
        # The least of the form is the most of what presses: told in the form's own sense.
        rows, whole = leaning_rows(per_force, gravity, lean, unit=unit.replace("N·m", "N"))
    else:
        whole = sum(p * g for p, g in zip(per_force, gravity, strict=True))
        rows = ()
    if lean and times == 1:
        return rows
    if lean:
        return (
            *rows,
            plain_row(
                "that as a moment",
                f"{bracketed(times)} · {bracketed(whole)}",
                f"{figure(times * whole)} {unit}",
                letters="k",
            ),
        )
    parts = " + ".join(
        f"{bracketed(times * p)}·{bracketed(g)}"
        for p, g in zip(per_force, gravity, strict=True)
        if p and g
    )
    return (
        plain_row(
            "one kilogram of load",
            parts,
            f"{figure(times * whole)} {unit}",
            letters=r"k = \sum p_i \cdot g_i",
            why="what a unit of force at the load counts for, times gravity, axis by axis",
        ),
    )


def _left_rows(
    answer: Answer, criterion: Criterion, capacity: CriterionCapacity, term: Term
) -> tuple[Row, ...]:
    """What is left of a grip, a pull or an axle's share, without and with the load."""
    gravity = floats(answer.reached.gravity)
    unit = "N·m" if criterion.name == "tipping" else "N"
    rows = _what_holds(answer, criterion, term)
    holding, per_kilogram = float(term.held.holding), float(term.held.per_kilogram)
    rows += _machine_rows(term, gravity, times=1.0, unit=unit, whole=holding)
    rows += _kilogram_rows(answer, term, times=1.0, unit=f"{unit}/kg")
    size, lean = math.hypot(*gravity), float(answer.reached.lean)
    if capacity.demand.pulled and lean:
        rows += (
            plain_row(
                "less its pull to the side",
                f"{bracketed(per_kilogram + size * math.sin(lean))} − "
                f"{figure(size)}·sin {figure(math.degrees(lean))}°",
                f"{figure(per_kilogram)} N/kg",
                letters=r"k_L - g\sin\alpha",
            ),
        )
    if not 0 < criterion.capacity < math.inf:
        return (*rows, _no_load_row(criterion))
    return (
        *rows,
        plain_row(
            "load at which nothing is left",
            f"{figure(holding)} / {figure(-per_kilogram)}",
            f"{figure(criterion.capacity)} kg",
            letters=r"m = M_0 / (-k)",
        ),
    )


def _what_holds(answer: Answer, criterion: Criterion, term: Term) -> tuple[Row, ...]:
    """In words and figures, what the number that must not go below zero is."""
    lift, friction = answer.lift, answer.lift.friction
    if criterion.name == "grip on the ground":
        return (
            plain_row(
                "friction on the ground",
                "",
                figure(friction),
                letters=r"\mu",
                why="what is left of the grip: friction times what presses on the wheels or pads "
                "that hold, less what pulls along the ground",
            ),
        )
    if criterion.name == "traction":
        resistance = work(
            "Traction",
            formulas.travel_resistance,
            sinkage=lift.motion.sinkage or 0.0,
            grade=math.tan(float(lift.site.slope)),
            travelling_mass=float(term.whole.mass),
        )
        return (
            *rows_of(resistance)[:1],
            plain_row(
                "friction on the ground",
                "",
                figure(friction),
                letters=r"\mu",
                why="what is left of the pull: friction times what presses on the driven wheels, "
                "less that share of the whole weight",
            ),
        )
    if criterion.name == "least axle load":
        return (
            plain_row(
                "share that the axle must keep",
                "",
                figure(AXLE_SHARE),
                letters=r"\sigma",
                why="what is left: the force on the axle, less that share of the whole weight",
            ),
        )
    return ()


def _no_load_row(criterion: Criterion) -> Row:
    words = "it fails with no load at all" if criterion.capacity <= 0 else "no load comes to it"
    return plain_row(words, "", measured(criterion.capacity, "kg"), letters="m")
