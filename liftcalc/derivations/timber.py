"""Everything stated of a log: shape, density, mass."""

from __future__ import annotations

from liftcalc.derivations import timber_density, timber_mass, timber_shape

FORMULAS = (*timber_shape.FORMULAS, *timber_density.FORMULAS, *timber_mass.FORMULAS)
