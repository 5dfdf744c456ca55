"""Moments, gravity and tipping."""

FORMULAS = ()
