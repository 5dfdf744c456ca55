"""Equations of motion stepped in time, for tests that want an oracle without a formula."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np


def stepped(
    motion: Callable[[float, np.ndarray], np.ndarray], start: np.ndarray, step: float, count: int
) -> np.ndarray:
    """Runge–Kutta of the fourth order: the states at every step."""
    states = [start]
    for number in range(count):
        now, at = states[-1], number * step
        one = motion(at, now)
        two = motion(at + step / 2, now + step / 2 * one)
        three = motion(at + step / 2, now + step / 2 * two)
        four = motion(at + step, now + step * three)
        states.append(now + step / 6 * (one + 2 * two + 2 * three + four))
    return np.array(states)
