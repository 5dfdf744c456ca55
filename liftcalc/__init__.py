"""Tipping and hydraulic lifting calculator for loader-backhoes that move timber."""

__version__ = "0.1.0"
