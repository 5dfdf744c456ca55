"""Density of the log as measured: by moisture, with its bark, and the most it can be."""

from __future__ import annotations

from dataclasses import dataclass, field

from liftcalc.physics import formulas
from liftcalc.physics.worked import Worked, work
from liftcalc.remarks import Remark, near
from liftcalc.timber.measure import LogMeasure
from liftcalc.timber.table import Bark, Sourced, heaviest_bark

FIBRE_SATURATION = 0.30
"""Moisture below which no water is left in the pores [-]; Wood Handbook, chapter 4."""


@dataclass(slots=True, kw_only=True)
class Notes:
    """Steps, doubts and assumptions gathered on the way."""

    worked: list[Worked] = field(default_factory=list)
    doubts: list[Remark] = field(default_factory=list)
    assumed: list[Remark] = field(default_factory=list)

    def work(self, done: Worked) -> float:
        """Keep one use of a formula and give its result."""
        self.worked.append(done)
        return done.result


@dataclass(frozen=True, slots=True, kw_only=True)
class Densities:
    """Likely, to plan on, highest reported and densest possible [kg/m³]."""

    likely: float
    planning: float
    high: float
    densest: float


def _at_moisture(label: str, measure: LogMeasure, moisture: float, notes: Notes) -> float:
    gravity = measure.species.basic_gravity.value
    return notes.work(work(label, formulas.wood_density, basic_gravity=gravity, moisture=moisture))


def _by_moisture(measure: LogMeasure, notes: Notes) -> tuple[float, float]:
    """Likely density of the wood, and the one to plan on."""
    species, state = measure.species, measure.moisture
    fresh = species.moisture.value
    if state == "soaked":
        soaked = work(
            "density soaked", formulas.saturated_density, basic_gravity=species.basic_gravity.value
        )
        return (notes.work(soaked),) * 2
    if state == "fresh":
        return (_at_moisture("density fresh", measure, fresh, notes),) * 2
    if state != "part-dry":
        _measured_moisture_doubts(measure, float(state), notes)
        likely = _at_moisture("density", measure, float(state), notes)
        if state >= fresh:
            return likely, likely
        # One reading is not the whole log, and rain undoes it.
        return likely, _at_moisture("density fresh, to plan on", measure, fresh, notes)
    notes.doubts.append(Remark("part_dry"))
    halfway = (FIBRE_SATURATION + fresh) / 2  # no row of the table is below fibre saturation
    likely = _at_moisture("density part-dry", measure, halfway, notes)
    return likely, _at_moisture("density fresh, to plan on", measure, fresh, notes)


def densities_of(measure: LogMeasure, notes: Notes) -> Densities:
    """Likely density, the one planned on, the highest reported and the densest possible."""
    species = measure.species
    likely, planning = _by_moisture(measure, notes)
    high = max(planning, _reported(measure, notes))
    densest = notes.work(
        work(
            "densest this wood can be",
            formulas.densest_wood,
            basic_gravity=species.basic_gravity.value,
            gravity_spread=species.gravity_spread,
        )
    )
    bark = species.bark
    if not measure.over_bark or bark is None:
        return Densities(likely=likely, planning=planning, high=high, densest=densest)
    names = {densest: "densest", high: "highest reported", planning: "planned on", likely: "likely"}
    whole = {each: _over_bark(names[each], each, bark, notes) for each in reversed(names)}
    return Densities(
        likely=whole[likely], planning=whole[planning], high=whole[high], densest=whole[densest]
    )


def _measured_moisture_doubts(measure: LogMeasure, moisture: float, notes: Notes) -> None:
    gravity = measure.species.basic_gravity.value
    ceiling = float(formulas.saturated_density(basic_gravity=gravity).moisture_ceiling)
    told, fresh = near(moisture, "ratio"), measure.species.moisture.value
    if moisture > ceiling:
        notes.doubts.append(Remark("above_ceiling", moisture=told, ceiling=near(ceiling, "ratio")))
    if moisture < fresh:
        notes.doubts.append(Remark("measured_moisture", moisture=told, fresh=near(fresh, "ratio")))


def _reported(measure: LogMeasure, notes: Notes) -> float:
    """The highest density that the species' sources give [kg/m³], or 0."""
    species = measure.species
    found = 0.0
    reasons: list[Sourced] = []
    if species.high_moisture is not None:
        found = _at_moisture(
            "density at the highest moisture reported", measure, species.high_moisture.value, notes
        )
        reasons.append(species.high_moisture)
    if species.high_density is not None:
        found = max(found, species.high_density.value)
        reasons.append(species.high_density)
    for reason in reasons:
        notes.doubts.append(Remark("higher_figure", source=reason.source))
    return found


def _over_bark(name: str, density: float, bark: Bark, notes: Notes) -> float:
    return notes.work(
        work(
            f"density with its bark, {name}",
            formulas.over_bark_blend,
            wood_density=density,
            bark_share=bark.share,
            bark_gravity=bark.gravity,
            bark_moisture=bark.moisture,
        )
    )


def bark_mass_of(measure: LogMeasure, volume: float, notes: Notes) -> float:
    """Mass of the bark that the measured volume leaves out; the doubts about bark."""
    bark = measure.species.bark
    if measure.over_bark:
        if bark is None:
            notes.assumed.append(Remark("bark_as_wood"))
            return 0.0
        notes.assumed.append(Remark("over_bark"))
    elif bark is None:
        bark = heaviest_bark(measure.species.kind)
        notes.doubts.append(Remark("heaviest_bark", kind=measure.species.kind))
    if bark.surrogate:
        notes.doubts.append(Remark("related_bark", source=bark.source))
    if measure.over_bark:
        return 0.0
    notes.assumed.append(Remark("under_bark"))
    return notes.work(
        work(
            "bark",
            formulas.bark_under,
            volume=volume,
            bark_share=bark.share,
            bark_gravity=bark.gravity,
            bark_moisture=bark.moisture,
        )
    )
