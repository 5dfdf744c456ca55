"""Centre of gravity from two weighings."""

from __future__ import annotations

from liftcalc.derivations.formula import Formula

FORMULAS: tuple[Formula, ...] = ()
