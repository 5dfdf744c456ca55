"""Formulas on symbols: their lines, as the working shows them and the proofs need them.

Only the working and the tests import this room's sympy.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import sympy as sp

from liftcalc.physics.formula import FORMULAS, READER
from liftcalc.physics.functions import Real


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One step of a formula: ``word`` = ``expression``, in words given or of lines before."""

    word: str
    expression: sp.Expr
    why: str


def letter(word: str) -> sp.Symbol:
    """The symbol that stands for a word."""
    return sp.Symbol(word, real=True)


def given(name: str) -> tuple[str, ...]:
    """The words that a formula takes."""
    code = FORMULAS[name].function.__code__
    return tuple(code.co_varnames[: code.co_kwonlyargcount])


@cache
def lines(name: str) -> tuple[Line, ...]:
    """The steps of a formula, each in letters.

    Raises ``ValueError`` when what the formula returns is not its steps, all of them, in order.
    """
    function, letters = FORMULAS[name].function, {word: letter(word) for word in given(name)}
    words, taken = function(**letters)._fields, list[Line]()

    def hand_on(value: Real, why: str) -> sp.Symbol:
        word = words[len(taken)]
        taken.append(Line(word=word, expression=sp.sympify(value), why=why))
        return letter(word)

    READER.hand_on = hand_on
    try:
        returned = tuple(function(**letters))
    finally:
        READER.hand_on = None
    if returned != tuple(letter(word) for word in words):
        raise ValueError(f"{name} returns {returned}; its steps are {words}, in this order")
    return tuple(taken)
