"""The shape of a derivation: words, named steps, and proof.

A ``Formula`` is stated once, in sympy. ``writer`` turns it into a plain numpy function in
``physics/written.py`` and into worked steps in ``physics/working.json``. Nothing at run time
imports this room.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import sympy as sp


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """A quantity of the nomenclature: the word in code, the letter on paper, unit and meaning.

    ``letter`` is LaTeX. ``unit`` is SI as printed, ``"-"`` for a pure number.
    """

    name: str
    letter: str
    unit: str
    meaning: str

    @property
    def symbol(self) -> sp.Symbol:
        """The sympy symbol that stands for the word."""
        return sp.Symbol(self.name, real=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of a derivation: ``word`` = ``expression``, and why."""

    word: Word
    expression: sp.Expr
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Formula:
    """A closed form in named steps.

    ``name`` is the function to be written; ``given`` its keyword arguments; every step's word
    becomes a field of the returned tuple, the last one being the result. ``source`` and
    ``error`` (direction of error of the approximation) go into the docstring. ``proofs`` are
    expressions that must simplify to zero once all steps are put in: they are checked when
    written.
    """

    name: str
    title: str
    given: tuple[Word, ...]
    steps: tuple[Step, ...]
    source: str
    error: str
    proofs: tuple[sp.Expr, ...] = field(default=())

    def put_in(self, expression: sp.Expr) -> sp.Expr:
        """``expression`` with every step replaced until only given words stand."""
        for step in reversed(self.steps):
            expression = expression.subs(step.word.symbol, step.expression)
        return expression
