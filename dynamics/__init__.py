"""The dynamic campaign: lifts that the tool allows, set in motion in a physics engine."""
