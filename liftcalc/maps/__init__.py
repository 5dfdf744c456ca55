"""Regions of the allowed: maps whose every cell holds anywhere inside it."""
