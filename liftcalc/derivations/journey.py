"""Lean, swing, resistance and speed on the move."""

from __future__ import annotations

from liftcalc.derivations.formula import Formula

FORMULAS: tuple[Formula, ...] = ()
