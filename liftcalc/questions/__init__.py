"""Inverse questions: how far, how steep, how long, what would help, which end."""
