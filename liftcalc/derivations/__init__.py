"""Closed forms, stated once in sympy; writes the formulas of physics."""
