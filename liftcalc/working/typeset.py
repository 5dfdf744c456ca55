"""The steps of a formula as they are printed, with a slot for every word; loads sympy."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

import sympy as sp
from sympy.printing.latex import LatexPrinter
from sympy.printing.str import StrPrinter

from liftcalc.physics.algebra import lines

_TYPED = {
    "**2": "²", "**3": "³", "*": "·", "sqrt(": "√(", "atan2(": "angle(", "Min(": "least(",
    "Max(": "greatest(",
}  # fmt: skip


class Printed(NamedTuple):
    """One step: LaTeX and plain text, in which a word stands as ``‹word›``."""

    word: str
    why: str
    latex: str
    text: str


def slot(word: sp.Symbol) -> str:
    """Where the letter or the number of a word is put in."""
    return f"‹{word.name}›"


class _Latex(LatexPrinter):
    def _print_Symbol(self, expr: sp.Symbol, style: str = "plain") -> str:
        return slot(expr)


class _Plain(StrPrinter):
    def _print_Symbol(self, expr: sp.Symbol) -> str:
        return slot(expr)

    def _print_Pi(self, expr: sp.Expr) -> str:
        return "π"


@cache
def printed(formula: str) -> tuple[Printed, ...]:
    """The steps of a formula by its name."""
    latex = _Latex({"order": "none", "mul_symbol": "dot", "full_prec": False})
    plain = _Plain({"order": "none", "full_prec": False})
    return tuple(
        Printed(line.word, line.why, latex.doprint(line.expression), _typed(plain, line.expression))
        for line in lines(formula)
    )


def _typed(plain: _Plain, expression: sp.Expr) -> str:
    text = str(plain.doprint(expression))
    for typed, said in _TYPED.items():
        text = text.replace(typed, said)
    return text
