"""The species table: one record a species, every value with its source and confidence.

``species.csv`` is read once, when first asked for. Confidence letters: A several agreeing
sources or a large test; B one good test; C few trees, or sources that disagree; D surrogate
species, or from memory. A value never stands higher than its row, and a value whose source is a
surrogate species or memory is set lower than its row's letter.
"""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Literal

Kind = Literal["hardwood", "softwood"]
Confidence = Literal["A", "B", "C", "D"]

CAREFUL_SHARE = 0.95
"""Share of the table's species that a careful value of an unknown species is not below [-]."""

UNKNOWN_GRAVITY_SPREAD = 0.14
"""One sigma of the basic gravity of an unknown species [-]: the widest of the table."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sourced:
    """A number, where it comes from and how far it is trusted."""

    value: float
    source: str
    confidence: Confidence


@dataclass(frozen=True, slots=True, kw_only=True)
class Bark:
    """Bark of a species: volume over wood volume [-], basic gravity [-], moisture [-]."""

    share: float
    gravity: float
    moisture: float
    source: str
    confidence: Confidence
    surrogate: bool

    @property
    def mass_over_wood_volume(self) -> float:
        """Bark that goes with one cubic metre of wood, for ranking only [kg/m³]."""
        return self.share * 1000 * self.gravity * (1 + self.moisture)


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """What is known of one species, fresh felled.

    Attributes
    ----------
    name, botanical, region : str
        As in the table; an unknown species has no botanical name.
    kind : {"hardwood", "softwood"}
        Sets the spread of the density.
    basic_gravity : Sourced
        Dry mass over green volume, water being 1 [-].
    gravity_spread : float
        One sigma of the basic gravity, as a share of it [-].
    moisture : Sourced
        Water over dry mass, fresh [-].
    bark : Bark or None
        None where no source is known.
    high_moisture : Sourced or None
        A higher moisture that the planning mass must cover [-].
    high_density : Sourced or None
        A higher green density that it must cover [kg/m³].
    confidence : {"A", "B", "C", "D"}
        Of the row as a whole.
    alternatives, notes : str
        What other sources say, and what the compiler of the row noted.
    """

    name: str
    botanical: str
    region: str
    kind: Kind
    basic_gravity: Sourced
    gravity_spread: float
    moisture: Sourced
    bark: Bark | None
    high_moisture: Sourced | None
    high_density: Sourced | None
    confidence: Confidence
    alternatives: str
    notes: str

    def __str__(self) -> str:
        """Name, botanical name and region: what tells it from every other row."""
        return f"{self.name} ({self.botanical}; {self.region})" if self.botanical else self.name


def _worse(letter: Confidence, at_best: Confidence) -> Confidence:
    return max(letter, at_best)


def _trust(source: str, row: Confidence) -> Confidence:
    """The letter of one value: its row's, or lower for what is borrowed or recalled."""
    words = source.casefold()
    if "memory" in words or "no source" in words:
        return "D"
    if "surrogate" in words or words.startswith("as "):
        return _worse(row, "C")
    return row


def _share(text: str) -> float | None:
    """Percent as printed, to a share."""
    return float(text) / 100 if text else None


def _bark(row: dict[str, str], letter: Confidence) -> Bark | None:
    share = _share(row["bark_pct_of_wood_volume"])
    moisture = _share(row["bark_mc_pct"])
    if share is None or moisture is None or not row["bark_sg"]:
        return None
    source = row["bark_source"]
    return Bark(
        share=share,
        gravity=float(row["bark_sg"]),
        moisture=moisture,
        source=source,
        confidence=_trust(source, letter),
        surrogate="SURROGATE" in source,
    )


def _high(row: dict[str, str], key: str, scale: float, letter: Confidence) -> Sourced | None:
    if not row[key]:
        return None
    source = row["high_source"]
    return Sourced(value=float(row[key]) * scale, source=source, confidence=_trust(source, letter))


def _species(row: dict[str, str]) -> Species:
    letter: Confidence = next(c for c in ("A", "B", "C", "D") if c == row["confidence"])
    kind: Kind = "softwood" if row["kind"] == "softwood" else "hardwood"
    return Species(
        name=row["common_name"],
        botanical=row["botanical_name"],
        region=row["region"],
        kind=kind,
        basic_gravity=Sourced(
            value=float(row["basic_sg"]),
            source=row["sg_source"],
            confidence=_trust(row["sg_source"], letter),
        ),
        gravity_spread=float(row["cov_sg_pct"]) / 100,
        moisture=Sourced(
            value=float(row["mc_green_pct"]) / 100,
            source=row["mc_source"],
            confidence=_trust(row["mc_source"], letter),
        ),
        bark=_bark(row, letter),
        high_moisture=_high(row, "high_mc_pct", 0.01, letter),
        high_density=_high(row, "high_density_kg_m3", 1.0, letter),
        confidence=letter,
        alternatives=row["sg_alternatives"],
        notes=row["notes"],
    )


@cache
def table() -> tuple[Species, ...]:
    """The species of the table, in its order."""
    path = Path(__file__).with_name("species.csv")
    with path.open(encoding="utf-8", newline="") as file:
        return tuple(_species(row) for row in csv.DictReader(file))


def _careful(values: list[float]) -> float:
    """The value that ``CAREFUL_SHARE`` of the list does not pass: the nearest rank, upward."""
    ranked = sorted(values)
    return ranked[math.ceil(CAREFUL_SHARE * len(ranked)) - 1]


def heaviest_bark(kind: Kind) -> Bark:
    """The bark of the table, of this kind of tree, that adds most mass to its wood."""
    barks = [row.bark for row in table() if row.kind == kind and row.bark is not None]
    return max(barks, key=lambda bark: bark.mass_over_wood_volume)


def _unknown(kind: Kind) -> Species:
    """A species one may choose when the tree is not known, with careful densities.

    The basic gravity, and apart from it the green density, are those that 95 % of the table's
    species of this kind do not pass; the moisture is what joins the two. The likely mass is thus
    already a high one, which overstates nineteen species in twenty.
    """
    rows = [row for row in table() if row.kind == kind]
    gravity = _careful([row.basic_gravity.value for row in rows])
    green = _careful([row.basic_gravity.value * (1 + row.moisture.value) for row in rows])
    rule = f"not passed by 95 % of the {len(rows)} {kind} rows of the table"
    return Species(
        name=f"Unknown {kind}",
        botanical="",
        region="any",
        kind=kind,
        basic_gravity=Sourced(value=gravity, source=rule, confidence="D"),
        gravity_spread=UNKNOWN_GRAVITY_SPREAD,
        moisture=Sourced(
            value=green / gravity - 1, source=f"gives the green density {rule}", confidence="D"
        ),
        bark=None,
        high_moisture=None,
        high_density=None,
        confidence="D",
        alternatives="",
        notes="Careful values for any species of its kind: name the tree for a closer figure",
    )


@cache
def all_species() -> tuple[Species, ...]:
    """Every species one may choose: the table's, then unknown hardwood and unknown softwood."""
    return (*table(), _unknown("hardwood"), _unknown("softwood"))
