"""Tipping and hydraulic lifting calculator for loader-backhoes that move timber."""
