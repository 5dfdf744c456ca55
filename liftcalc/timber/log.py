"""What a log weighs and where it balances, with every step and every doubt."""

from __future__ import annotations

from dataclasses import dataclass, replace

from liftcalc.physics import formulas
from liftcalc.physics.worked import Worked, work
from liftcalc.remarks import Remark, near, up
from liftcalc.shown import Shown
from liftcalc.timber.density import Notes, bark_mass_of, densities_of
from liftcalc.timber.measure import Extra, Extras, LogMeasure, State
from liftcalc.timber.table import Confidence, Kind

__all__ = ["Extra", "Extras", "LogEstimate", "LogMeasure", "State", "weigh"]

DIAMETER_ERROR = 0.01
"""One sigma of a taped diameter [m]: rounding, bark ridges, ovality. Common practice, no source."""

SHAPE_SPREAD = {"three": 0.0, "ends": 0.05, "middle": 0.10}
"""One sigma of the volume by way of measuring [-], from memory, no source read: none for Newton's
rule, which fits all usual forms; a bulge for two ends; a flared butt for the middle alone."""

DENSITY_SPREAD: dict[Kind, float] = {"hardwood": 0.10, "softwood": 0.15}
"""One sigma of green density between logs of a species [-]. Common practice, no source; softwoods
vary more since dry heartwood and wet sapwood share the log in any proportion."""

DISTRUST: dict[Confidence, float] = {"A": 1.0, "B": 1.0, "C": 1.25, "D": 1.5}
"""Factor on the density's spread by confidence of the species' row [-]; a judgement of this
project, no source."""

GUESS_SPREAD = 0.30
"""One sigma of bark and of extras [-]; a judgement of this project, no source."""


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class LogEstimate(Shown):
    """The answer for one log.

    Attributes
    ----------
    measure : LogMeasure
        What it was made from.
    volume : float
        Over bark where measured over bark, else of the wood [m³].
    mass_low, mass_likely, mass_planning : float
        Lower 5 % value, likely value, and upper 95 % value to plan a lift on [kg].
    cog_from_butt : float
        Balance point of the log with what it carries, from the butt [m].
    butt_diameter, middle_diameter, top_diameter : float
        Measured, or as the rule used takes them [m].
    largest_diameter, least_diameter : float
        The greatest and the least of those [m].
    density_likely : float
        Of what was measured, at the stated moisture [kg/m³].
    density_densest : float
        What it cannot pass: saturated, at the upper basic gravity [kg/m³].
    worked : tuple of Worked
        Every formula used, in order.
    doubts, assumed : tuple of Remark
        Warnings, and what was taken without being measured.
    """

    measure: LogMeasure
    volume: float
    mass_low: float
    mass_likely: float
    mass_planning: float
    cog_from_butt: float
    butt_diameter: float
    middle_diameter: float
    top_diameter: float
    largest_diameter: float
    least_diameter: float
    density_likely: float
    density_densest: float
    worked: tuple[Worked, ...]
    doubts: tuple[Remark, ...]
    assumed: tuple[Remark, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shape:
    volume: float
    balance: float
    spread: float
    butt: float
    middle: float
    top: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Masses:
    low: float
    likely: float
    planning: float
    stem: float
    density_likely: float
    density_densest: float


def weigh(measure: LogMeasure) -> LogEstimate:
    """Volume, mass and balance point of a log.

    Parameters
    ----------
    measure : LogMeasure
        As taped; it is valid, since it checks itself.

    Returns
    -------
    LogEstimate
        The planning mass is the greater of the upper 95 % value and of the highest density that
        the species' sources give, and never more than the upper volume saturated. It never falls
        when an input gets worse.
    """
    notes = Notes()
    shape = _shape(measure, notes)
    masses = _weighed(measure, _masses(measure, shape, notes), notes)
    return LogEstimate(
        measure=measure,
        volume=shape.volume,
        mass_low=masses.low,
        mass_likely=masses.likely,
        mass_planning=masses.planning,
        cog_from_butt=_balance(measure, shape, masses, notes),
        butt_diameter=shape.butt,
        middle_diameter=shape.middle,
        top_diameter=shape.top,
        largest_diameter=max(shape.butt, shape.middle, shape.top),
        least_diameter=min(shape.butt, shape.middle, shape.top),
        density_likely=masses.density_likely,
        density_densest=masses.density_densest,
        worked=tuple(notes.worked),
        doubts=tuple(notes.doubts),
        assumed=tuple(notes.assumed),
    )


def _masses(measure: LogMeasure, shape: _Shape, notes: Notes) -> _Masses:
    """Low, likely and planning mass, with bark and extras."""
    densities = densities_of(measure, notes)
    given = {
        "volume": shape.volume,
        "bark_mass": bark_mass_of(measure, shape.volume, notes),
        "added_share": sum(extra.share for _, extra in measure.extras),
        "added_mass": sum(extra.mass for _, extra in measure.extras),
    }
    _species_doubts(measure, notes)
    spreads = _spreads(measure, shape, notes)
    if given["added_share"] or given["added_mass"]:
        notes.doubts.append(Remark("carries"))
    likely = work("likely mass", formulas.likely_log, likely_density=densities.likely, **given)
    low = work("low mass", formulas.low_log, likely_density=densities.likely, **given, **spreads)
    planning = work(
        "planning mass",
        formulas.planning_log,
        likely_density=densities.planning,
        high_density=densities.high,
        densest_density=densities.densest,
        **given,
        **spreads,
    )
    return _Masses(
        low=notes.work(low),
        likely=notes.work(likely),
        planning=notes.work(planning),
        stem=float(likely.steps.stem_mass),
        density_likely=densities.likely,
        density_densest=densities.densest,
    )


def _weighed(measure: LogMeasure, taped: _Masses, notes: Notes) -> _Masses:
    """What the scale said, where it was weighed; a weight that no such log has is doubted."""
    if measure.weighed is None:
        return taped
    scale = measure.weighed
    done = work(
        "weighed", formulas.weighed_log, scale_reading=scale.mass, scale_tolerance=scale.tolerance
    )
    notes.work(done)
    if scale.mass + scale.tolerance < taped.low or scale.mass - scale.tolerance > taped.planning:
        notes.doubts.append(
            Remark(
                "weighs_otherwise",
                mass=near(scale.mass, "mass"),
                low=near(taped.low, "mass"),
                high=near(taped.planning, "mass"),
            )
        )
    steps = done.steps
    return replace(
        taped, low=steps.low_mass, likely=steps.likely_mass, planning=steps.planning_mass
    )


def _shape(measure: LogMeasure, notes: Notes) -> _Shape:
    """Volume and balance point by the best rule that the diameters allow."""
    butt, middle, top, length = measure.butt, measure.middle, measure.top, measure.length
    notes.assumed.append(Remark("round_and_even"))
    if butt is None or top is None:
        assert middle is not None  # a measure has the middle or both ends
        notes.doubts.append(Remark("only_middle"))
        way, butt, top = "middle", middle, middle
        only = {"middle_diameter": middle, "log_length": length}
        volume = work("volume", formulas.middle_volume, **only)
        balance = work("balance point", formulas.middle_balance_point, log_length=length)
    elif middle is None:
        notes.assumed.append(Remark("two_ends"))
        way, middle = "ends", (butt + top) / 2
        ends = {"butt_diameter": butt, "top_diameter": top, "log_length": length}
        volume = work("volume", formulas.two_end_volume, **ends)
        balance = work("balance point", formulas.two_end_balance_point, **ends)
    else:
        way = "three"
        three = {
            "butt_diameter": butt,
            "middle_diameter": middle,
            "top_diameter": top,
            "log_length": length,
        }
        volume = work("volume", formulas.newton_volume, **three)
        balance = work("balance point", formulas.balance_point, **three)
    return _Shape(
        volume=notes.work(volume),
        balance=notes.work(balance),
        spread=SHAPE_SPREAD[way],
        butt=butt,
        middle=middle,
        top=top,
    )


def _spreads(measure: LogMeasure, shape: _Shape, notes: Notes) -> dict[str, float]:
    """One sigma of volume, density and guesses, as the formulas take them."""
    species = measure.species
    density = DENSITY_SPREAD[species.kind] * DISTRUST[species.confidence]
    error, rule = up(DIAMETER_ERROR, "diameter"), up(shape.spread, "ratio")
    notes.assumed.append(
        Remark("diameters_and_rule_right", error=error, rule=rule)
        if shape.spread
        else Remark("diameters_right", error=error)
    )
    notes.assumed.append(
        Remark(
            "density_varies",
            kind=species.kind,
            spread=near(density, "ratio"),
            confidence=species.confidence,
        )
    )
    volume = work(
        "spread of the volume",
        formulas.volume_doubt,
        volume=shape.volume,
        log_length=measure.length,
        diameter_error=DIAMETER_ERROR,
        shape_spread=shape.spread,
    )
    return {
        "volume_spread": notes.work(volume),
        "density_spread": density,
        "guess_spread": GUESS_SPREAD,
    }


def _balance(measure: LogMeasure, shape: _Shape, masses: _Masses, notes: Notes) -> float:
    """Balance point with the root plate; ice and mud lie along the log and do not move it."""
    if measure.extras.limbs != Extra():
        notes.doubts.append(Remark("limbs"))
    plate = measure.extras.root_plate
    if plate == Extra():
        return shape.balance
    plate_mass = masses.stem * plate.share + plate.mass
    notes.doubts.append(Remark("root_plate"))
    return notes.work(
        work(
            "balance point with the root plate",
            formulas.root_plate_balance,
            trunk_mass=masses.likely - plate_mass,
            balance_from_butt=shape.balance,
            root_plate_mass=plate_mass,
        )
    )


def _species_doubts(measure: LogMeasure, notes: Notes) -> None:
    species = measure.species
    gravity, moisture = species.basic_gravity, species.moisture
    notes.assumed.append(Remark("basic_gravity", gravity=gravity.value, source=gravity.source))
    if measure.moisture in ("fresh", "part-dry"):
        told = near(moisture.value, "ratio")
        notes.assumed.append(Remark("fresh_moisture", moisture=told, source=moisture.source))
    if species.confidence in ("C", "D"):
        notes.doubts.append(
            Remark(
                "few_sources" if species.confidence == "C" else "borrowed",
                species=species.name,
                confidence=species.confidence,
            )
        )
        if species.alternatives:
            notes.doubts.append(Remark("other_sources", sources=species.alternatives))
    if species.notes:
        notes.doubts.append(Remark("note", species=species.name, note=species.notes))
