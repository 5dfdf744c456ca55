"""The ground, the slope and the motion."""
