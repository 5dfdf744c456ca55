"""What makes a plain function a formula: its source, its error, and steps that can be read.

A formula takes its quantities by keyword and returns a named tuple of all its steps, the result
last. On numbers it is an ordinary function; ``physics.algebra`` runs the same function on symbols
to show and prove it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from threading import local
from typing import Any, TypeVar

from liftcalc.physics.functions import Real

_Function = TypeVar("_Function", bound=Callable[..., Any])


@dataclass(frozen=True, slots=True, kw_only=True)
class Formula:
    """A formula; ``error`` is the direction of error of its approximations."""

    function: Callable[..., Any]
    title: str
    source: str
    error: str


FORMULAS: dict[str, Formula] = {}
"""Every formula by the name of its function."""


def formula(*, source: str, error: str) -> Callable[[_Function], _Function]:
    """Register a function as a formula and return it as it is; its docstring is the title."""

    def register(function: _Function) -> _Function:
        title = (function.__doc__ or "").rstrip(".")
        function.__doc__ = f"{title}.\n\nSource: {source}.\nError: {error}."
        FORMULAS[function.__name__] = Formula(
            function=function, title=title, source=source, error=error
        )
        return function

    return register


class _Reader(local):
    """Who reads the steps of the formulas that this thread runs; mostly nobody."""

    hand_on: Callable[[Real, str], Real] | None = None


READER = _Reader()


def step(value: Real, why: str) -> Real:
    """A step of a formula and its reason: the value, or what a reader of steps hands on for it."""
    hand_on = READER.hand_on
    return value if hand_on is None else hand_on(value, why)
