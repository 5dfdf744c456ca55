"""Elementary functions that take floats, arrays and sympy's symbols alike.

A float, of whatever class, goes through ``math`` and gives NaN where ``math`` would raise; an array
goes through numpy, what holds symbols through sympy. Either is imported only when something of its
own comes along, so that a formula costs the start-up neither.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

Real = Any  # a float, an array of floats that broadcasts, or a sympy expression
_NUMBER = (float, int)
_IN_SYMPY = {"maximum": "Max", "minimum": "Min"}


def _numbers(a: Real, b: Real) -> bool:
    return isinstance(a, _NUMBER) and isinstance(b, _NUMBER)


def _symbolic(*values: Real) -> bool:
    return any(hasattr(value, "free_symbols") for value in values)


def _elsewhere(name: str, *values: Real) -> Real:
    """A function of numpy or sympy, whichever the values belong to that are not all floats."""
    if _symbolic(*values):
        import sympy  # noqa: PLC0415 - for working and proofs only

        return getattr(sympy, _IN_SYMPY.get(name, name))(*values)
    import numpy as np  # noqa: PLC0415 - floats do without

    return getattr(np, name)(*values)


def _function(name: str) -> Callable[[Real], Real]:
    on_float = getattr(math, name)

    def function(x: Real) -> Real:
        if x.__class__ is not float and not isinstance(x, _NUMBER):
            return _elsewhere(name, x)
        try:
            return on_float(x)
        except ValueError:  # outside its domain
            return math.nan

    function.__name__ = function.__qualname__ = name
    return function


sqrt, sin, cos, tan, asin, atan, exp = map(
    _function, ("sqrt", "sin", "cos", "tan", "asin", "atan", "exp")
)


def atan2(y: Real, x: Real) -> Real:
    """Angle of the point (x, y) from the first axis, within half a turn [rad]."""
    if y.__class__ is x.__class__ is float or _numbers(y, x):
        return math.atan2(y, x)
    return _elsewhere("atan2", y, x)


def power(x: Real, exponent: float) -> Real:
    """A number to a broken power; NaN where it is below zero."""
    return math.nan if isinstance(x, _NUMBER) and x < 0 else x**exponent


def hypot(x: Real, y: Real) -> Real:
    """Length of the vector (x, y)."""
    if y.__class__ is x.__class__ is float or _numbers(y, x):
        return math.hypot(x, y)
    return _elsewhere("hypot", x, y)


def maximum(a: Real, b: Real) -> Real:
    """The greater of two; NaN where either is."""
    if a.__class__ is b.__class__ is float or _numbers(a, b):
        return a if a >= b or math.isnan(a) else b
    return _elsewhere("maximum", a, b)


def minimum(a: Real, b: Real) -> Real:
    """The lesser of two; NaN where either is."""
    if a.__class__ is b.__class__ is float or _numbers(a, b):
        return a if a <= b or math.isnan(a) else b
    return _elsewhere("minimum", a, b)


def is_zero(x: Real) -> bool:
    """Whether a number, or every number of an array, is zero."""
    if x.__class__ is float or not hasattr(x, "any"):
        return bool(x == 0)
    return not x.any()


def ratio(over: Real, under: Real) -> Real:
    """One over the other where little may be left to divide by: infinite then, or NaN."""
    try:
        return over / under
    except ZeroDivisionError:
        return over * math.copysign(math.inf, under)


def circle_area(diameter: Real) -> Real:
    """Area of a circle; π is sympy's own beside a symbol."""
    return pi_beside(diameter) * diameter**2 / 4


def circumference(diameter: Real) -> Real:
    """Length round a circle."""
    return pi_beside(diameter) * diameter


def circle_diameter(area: Real) -> Real:
    """Diameter of the circle of an area."""
    return sqrt(4 * area / pi_beside(area))


def pi_beside(beside: Real) -> Real:
    """π beside a number: sympy's own beside a symbol."""
    if beside.__class__ is float or not _symbolic(beside):
        return math.pi
    import sympy  # noqa: PLC0415 - for working and proofs only

    return sympy.pi
