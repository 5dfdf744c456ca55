"""Rams and linkages."""

FORMULAS = ()
