"""Slings, shares of a log, grip."""

from __future__ import annotations

from liftcalc.derivations.formula import Formula

FORMULAS: tuple[Formula, ...] = ()
