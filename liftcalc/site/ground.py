"""What named ground carries under pads and tyres: strengths by range, and users' own words."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import NamedTuple

from liftcalc.errors import InputError, did_you_mean
from liftcalc.physics import formulas
from liftcalc.physics.functions import Real, maximum, minimum
from liftcalc.physics.worked import Worked, work
from liftcalc.sources import Source

STRENGTHS = Source(
    citation="BS 5930, undrained strength of clay by what a thumb does to it, and angles of "
    "friction of sand and gravel by how densely they lie",
    standing="memory",
)
PRESUMED = Source(
    citation="a Canadian table for plan sets, rock and dense gravel; BS 8004, strong rock and "
    "dense gravel; IBC section 1806.2 has 192 to 575 kPa for footings on rock, margin and all",
    standing="seen",
)
BEARING = Source(
    citation="EN 1997-1 annex D; factor 2 after working-platform practice, 1.5 to 2",
    standing="memory",
)
PAD_RULE = Source(
    citation="quick rule of the Crane Industry Council of Australia and of the Queensland Mobile "
    "Crane Code of Practice 2006",
    standing="seen",
)
PAD_SHARE = 0.65
"""Share of machine and load that the worst pad is taken to carry [-]; source: ``PAD_RULE``."""
PROOF_FACTOR = 1.25
"""A pad that stood under a force may carry that over this [-]; common practice, no source."""


class Range(NamedTuple):
    """A careful and a favourable end of what is not known better."""

    careful: float
    favourable: float

    def end(self, hopeful: bool) -> float:
        """Either end."""
        return self.favourable if hopeful else self.careful


BEARING_FACTOR = Range(2.0, 1.0)
"""Factor on the pressure at which the ground gives way [-]; source: ``BEARING``."""
LOOSE_WEIGHT, MEDIUM_WEIGHT, DENSE_WEIGHT = Range(8e3, 17e3), Range(9e3, 18e3), Range(10e3, 19e3)
"""Weight of sand and gravel [N/m³]: water at the surface, or dry; from memory."""
DRY_WEIGHT = 16e3
"""The least of them where it was told to be dry [N/m³]; from memory."""
SOUND_STRENGTH, SOUND_ANGLE = 40e3, math.radians(35)
"""Of ground whose banks stand, at the careful end: firm clay, dense sand [Pa, rad]; practice."""
RUT_DEPTH = Range(0.10, 0.15)
"""Rut that a tyre may make [m]; common practice: forestry calls more than 0.1 m damage."""
CONE_SHARE = Range(10.0, 15.0)
"""Cone index over shear strength [-]; from memory: cone factors of soft to stiff clay."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """Ground by name, and what is known of its strength: one of three, by its careful and its
    favourable end.

    Attributes
    ----------
    friction : Range
        Of a tyre or a pad on it [-]; see ``FRICTION_SOURCE``.
    shear : Range or None
        Undrained shear strength of soil that holds its water [Pa].
    angle : Range or None
        Angle of friction of sand or gravel [rad].
    pressure : Range or None
        Presumed pressure, where no soil gives way [Pa].
    cone : Range or None
        Cone index near the surface [Pa], by which tyres make ruts; None: by ``shear``, or no rut.
    soil_weight : Range
        Of sand or gravel [N/m³].
    presumed : bool
        Whether anything is presumed of it: if not, nothing at all is allowed at the careful end.
    """

    name: str
    friction: Range
    shear: Range | None = None
    angle: Range | None = None
    pressure: Range | None = None
    cone: Range | None = None
    soil_weight: Range = LOOSE_WEIGHT
    presumed: bool = True

    @property
    def edge_depths(self) -> Range:
        """How many depths of an edge to keep away from it [-]; from memory.

        One on sound ground, two on loose or filled; where it may be either, favourable one.
        """
        sound = (self.shear or self.angle or self.pressure or Range(0, 0)).careful
        enough = SOUND_STRENGTH if self.shear else SOUND_ANGLE if self.angle else 0.0
        if self.presumed:
            return Range(1.0, 1.0) if sound >= enough else Range(2.0, 2.0)
        return Range(2.0, 1.0 if self.pressure else 2.0)

    def allowed(
        self, *, width: Real, length: Real, level_share: Real = 0.0, hopeful: bool = False
    ) -> Worked:
        """Pressure allowed under a pad [Pa], as worked.

        Parameters
        ----------
        width, length : float or array
            Of the pad or mat; either may be the lesser [m].
        level_share : float or array
            Force along the ground over the force on it [-].
        hopeful : bool
            Which end of the range.

        Notes
        -----
        Sources: ``STRENGTHS``, ``BEARING``, ``PRESUMED``. Understates a pad that has sunk in;
        overstates ground that was dug, or is nearer to an edge than that is deep.
        """
        ultimate = self._ultimate(width=width, length=length, share=level_share, hopeful=hopeful)
        factor = 1.0 if self.pressure is not None else BEARING_FACTOR.end(hopeful)
        if not (self.presumed or hopeful):
            ultimate = 0.0
        return work(
            self.name, formulas.pad_pressure, ultimate_pressure=ultimate, bearing_factor=factor
        )

    def needed(self, *, force: float, level_share: float, hopeful: bool) -> float | None:
        """Area of the square pad that is allowed to carry a force [m²]; None where none is."""
        of_a_metre = self.allowed(width=1.0, length=1.0, level_share=level_share, hopeful=hopeful)
        allowed = of_a_metre.result
        if not allowed > 0:
            return None
        # Under sand and gravel the pressure grows with the width.
        return float((force / allowed) ** (1.0 if self.angle is None else 2 / 3))

    def bearing(self, *, width: Real, length: Real, share: Real, hopeful: bool) -> Worked | None:
        """Pressure at which soil of it gives way [Pa], as worked; None where none does."""
        sides = {"pad_width": minimum(width, length), "pad_length": maximum(width, length)}
        sides["level_share"] = share
        if self.shear is not None:
            strength = self.shear.end(hopeful)
            return work(self.name, formulas.bearing_of_clay, shear_strength=strength, **sides)
        if self.angle is not None:
            angle, weight = self.angle.end(hopeful), self.soil_weight.end(hopeful)
            return work(
                self.name,
                formulas.bearing_of_sand,
                friction_angle=angle,
                soil_weight=weight,
                **sides,
            )
        return None

    def _ultimate(self, *, width: Real, length: Real, share: Real, hopeful: bool) -> Real:
        if self.pressure is not None:
            return self.pressure.end(hopeful)
        gives_way = self.bearing(width=width, length=length, share=share, hopeful=hopeful)
        return math.nan if gives_way is None else gives_way.steps.ultimate_pressure

    def tyre_load(
        self, *, width: Real, length: Real, diameter: Real, hopeful: bool = False
    ) -> Worked | None:
        """Force under which a tyre only makes a shallow rut [N]; None where it makes none.

        Parameters
        ----------
        width, length : float or array
            Of what bears on hard ground [m].
        diameter : float or array
            Of the tyre [m].
        hopeful : bool
            Which end of the ranges of strength and of the rut.
        """
        index = self._cone_index(hopeful)
        if math.isinf(index):
            return None
        return work(
            self.name,
            formulas.tyre_in_rut,
            cone_index=index,
            tyre_width=width,
            tyre_diameter=diameter,
            contact_length=length,
            rut_depth=RUT_DEPTH.end(hopeful),
        )

    def _cone_index(self, hopeful: bool) -> float:
        if not (self.presumed or hopeful):
            return 0.0
        if self.cone is not None:
            return self.cone.end(hopeful)
        if self.shear is not None:
            return CONE_SHARE.end(hopeful) * self.shear.end(hopeful)
        return math.inf


def _range(careful: float, favourable: float, unit: float = 1.0) -> Range:
    return Range(unit * careful, unit * favourable)


def _degrees(careful: float, favourable: float) -> Range:
    return Range(math.radians(careful), math.radians(favourable))


KPA, MPA = 1e3, 1e6
_WET = Range(0.15, 0.30)
_LOOSE_CONE, _DENSE_CONE = _range(0.3, 2.5, MPA), _range(2, 10, MPA)

# fmt: off
_GROUNDS: tuple[Ground, ...] = (
    # Favourable it is like the strongest of all.
    Ground(name="unknown", friction=Range(0.15, 0.80), pressure=Range(0, 10 * MPA), presumed=False),
    Ground(name="peat", friction=Range(0.15, 0.40), shear=_range(2, 20, KPA), presumed=False),
    Ground(name="fill", friction=Range(0.20, 0.40), angle=_degrees(28, 35),
        cone=_range(0.3, 5, MPA), presumed=False),
    Ground(name="mud", friction=_WET, shear=_range(2, 20, KPA), presumed=False),
    Ground(name="soft clay", friction=Range(0.20, 0.40), shear=_range(20, 40, KPA)),
    Ground(name="loose sand or gravel", friction=Range(0.20, 0.40), angle=_degrees(28, 30),
        cone=_LOOSE_CONE),
    Ground(name="firm clay", friction=Range(0.20, 0.40), shear=_range(40, 75, KPA)),
    Ground(name="medium sand or gravel", friction=Range(0.20, 0.50), angle=_degrees(30, 35),
        cone=_range(1, 5, MPA), soil_weight=MEDIUM_WEIGHT),
    Ground(name="stiff clay", friction=Range(0.20, 0.40), shear=_range(75, 150, KPA)),
    Ground(name="dense sand", friction=Range(0.30, 0.60), angle=_degrees(35, 40),
        cone=_DENSE_CONE, soil_weight=DENSE_WEIGHT),
    # BS 8002:1994, 30° + angularity + grading + density, sub-angular to well graded; from memory.
    Ground(name="dense gravel", friction=Range(0.35, 0.70), angle=_degrees(38, 44),
        cone=_DENSE_CONE, soil_weight=DENSE_WEIGHT),
    # A yard of rolled stone; a sound slab of 10 cm or more. Common practice, no source.
    Ground(name="hard standing", friction=Range(0.35, 0.70), pressure=_range(600, 2000, KPA)),
    Ground(name="concrete", friction=Range(0.35, 0.70), pressure=_range(2, 10, MPA)),
    Ground(name="rock", friction=Range(0.40, 0.80), pressure=_range(500, 10_000, KPA)),
)
# fmt: on
GROUNDS: tuple[Ground, ...] = (
    *_GROUNDS,
    *(
        replace(
            each,
            name=f"dry {each.name}",
            soil_weight=Range(DRY_WEIGHT, each.soil_weight.favourable),
        )
        for each in _GROUNDS
        if each.angle is not None and each.presumed
    ),
)
"""Sources: ``STRENGTHS`` and, of what does not give way, ``PRESUMED``.

Friction is of wet ground, with grass on it where grass grows, and twice that for dry
(friction_memory): low on purpose at the careful end. It overstates on ice, packed snow and frozen
or leaf-covered ground, where 0.1 or less is left: give the friction then. Not for how hard a log is
to drag: there a low friction flatters. Cone indices near the surface are from memory.
"""
_BY_NAME = {each.name: each for each in GROUNDS}

_WORDS: dict[str, tuple[str, ...]] = {
    "peat": (
        "bog", "turf", "moss", "moor", "swamp", "marsh", "fen", "forest floor", "woodland",
        "forest", "wood", "leaf litter", "heath",
    ),
    "mud": ("slurry", "silt", "wet field", "river bed", "mire"),
    "fill": (
        "track", "forest track", "farm track", "path", "made ground", "rubble", "hardcore",
        "made up", "ploughed", "dug", "yard",
    ),
    "unknown": (
        "frozen", "snow", "ice", "tarmac", "asphalt", "road", "verge", "don't know",
        "not sure",
    ),
    "soft clay": (
        "clay", "grass", "lawn", "field", "meadow", "pasture", "earth", "soil", "topsoil", "loam",
    ),
    "loose sand or gravel": ("sand", "gravel", "shingle", "beach", "stones", "loose sand",
        "loose gravel", "sand or gravel"),
    "dry loose sand or gravel": ("dry sand", "dry gravel"),
    "medium sand or gravel": ("medium sand", "medium gravel"),
    "concrete": ("slab", "concrete slab"),
    "rock": ("bedrock", "ledge"),
}  # fmt: skip
"""Users' own words, each led to the weaker guess; common practice, no source."""
WORDS = {word: name for name, words in _WORDS.items() for word in words}


def taken_as(text: str) -> str:
    """What a text was understood as: said aloud where a word led to a weaker guess."""
    plain, known = " ".join(text.lower().replace("-", " ").split()), ground(text)
    return known.name if plain == known.name else f"{plain}: taken as {known.name}"


def ground(name: str) -> Ground:
    """Ground by name, or by a word of ``WORDS``.

    Raises ``InputError`` when the table has no such ground.
    """
    plain = " ".join(name.lower().replace("-", " ").split())
    found = _BY_NAME.get(WORDS.get(plain, plain))
    if found is not None:
        return found
    raise InputError.of(
        field="ground",
        given=f'"{name}"' if name.strip() else "nothing",
        wanted=f"one of {', '.join(_BY_NAME)}, or a plain word such as grass or track",
        fix=did_you_mean(plain, _BY_NAME) or 'if in doubt, "unknown"',
    )


def worst_pad(*, machine: float, load: float) -> float:
    """Mass on the worst pad by the quick rule [kg].

    Parameters
    ----------
    machine, load : float
        Masses [kg].

    Notes
    -----
    Source: ``PAD_RULE``. Meant for cranes on four outriggers with the load at working reach. Two
    stabilisers under a back end that hangs far out to one side can carry more than this share, so
    it may understate the worst pad. Only to compare: answers take the reactions themselves.
    """
    return PAD_SHARE * (machine + load)
