"""Nonlinear least squares: the method of Levenberg and Marquardt with exact derivatives."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

import numpy as np

STEP = 1e-30
"""Imaginary step of the derivatives: so small that its square is nothing."""
MOST_STEPS = 200
CONVERGED = 1e-10
"""Share by which a step may still lower the sum of squares when the search ends."""


class LeastSquares(NamedTuple):
    """Where the sum of squares is least: the unknowns, what is left over, and its derivatives."""

    unknowns: Any
    residuals: Any
    jacobian: Any


def least_squares(residuals: Callable[[Any], Any], start: Any) -> LeastSquares:
    """The unknowns with the least sum of squared residuals, near where the search starts.

    Parameters
    ----------
    residuals : function
        Of unknowns (..., n) to residuals (..., m), each divided by its standard deviation. It is
        called with complex unknowns, so it may use analytic functions only: no ``abs``.
    start : array
        Unknowns (n,).

    Returns
    -------
    LeastSquares
        With derivatives (m, n) by the complex step, exact to rounding (Squire and Trapp, SIAM
        Review 40 (1998) 110). The minimum is a local one.
    """
    unknowns = np.asarray(start, float)
    left, slopes = _linearised(residuals, unknowns)
    damping = 1e-3
    for _ in range(MOST_STEPS):
        square = slopes.T @ slopes
        scale = damping * np.diag(np.diag(square))
        trial = unknowns - np.linalg.solve(square + scale, slopes.T @ left)
        with np.errstate(all="ignore"):
            after = residuals(trial)
        gain = 1.0 - float(after @ after) / max(float(left @ left), 1e-300)
        if not gain > 0.0:  # also where a residual is not a number
            damping *= 4.0
            if damping > 1e12:
                break
            continue
        unknowns, damping = trial, damping / 8.0
        left, slopes = _linearised(residuals, unknowns)
        if gain < CONVERGED:
            break
    return LeastSquares(unknowns, left, slopes)


def _linearised(residuals: Callable[[Any], Any], at: Any) -> tuple[Any, Any]:
    steps = at + 1j * STEP * np.eye(len(at))
    return residuals(at), residuals(steps).imag.T / STEP
