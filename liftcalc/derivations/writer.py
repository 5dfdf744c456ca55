"""Write ``physics/written.py``, ``physics/working.json`` and ``docs/nomenclature.md``.

Run ``python -m liftcalc.derivations.writer`` to write them, with ``--check`` to compare with
what stands there.
"""

from __future__ import annotations

import json
import sys
import textwrap
from pathlib import Path

import sympy as sp
from sympy.printing.latex import LatexPrinter
from sympy.printing.numpy import NumPyPrinter
from sympy.printing.str import StrPrinter

from liftcalc.derivations import ground, journey, mechanics, rams, rigging, timber, weighing
from liftcalc.derivations.formula import Formula, Word

FORMULAS: tuple[Formula, ...] = (
    *timber.FORMULAS,
    *mechanics.FORMULAS,
    *rams.FORMULAS,
    *ground.FORMULAS,
    *rigging.FORMULAS,
    *journey.FORMULAS,
    *weighing.FORMULAS,
)

ROOT = Path(__file__).parents[2]
OUTPUTS = {
    "written": Path(__file__).parents[1] / "physics" / "written.py",
    "working": Path(__file__).parents[1] / "physics" / "working.json",
    "nomenclature": ROOT / "docs" / "nomenclature.md",
}
OPEN, CLOSE = "‹", "›"  # around a word in a worked step: the slot takes a letter or a number

HEADER = '''"""Closed forms of the model, written from ``liftcalc.derivations``; do not edit.

Every function takes SI scalars or arrays that broadcast, by keyword, and returns a named tuple
of all its steps, the result last. ``make generated`` writes this file anew.
"""
# ruff: noqa: E501

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

Real = Any  # a float or an array of floats; numpy broadcasts
'''


class _Code(NumPyPrinter):
    """numpy code with ``np.`` and plain square roots."""

    def __init__(self) -> None:
        super().__init__({"fully_qualified_modules": True})

    def _as_ordered_terms(self, expr: sp.Expr, order: str | None = None) -> list[sp.Expr]:
        """What is added before what is taken away: a leading minus is one operation more."""
        terms: list[sp.Expr] = super()._as_ordered_terms(expr, order=order)
        return sorted(terms, key=lambda term: bool(term.could_extract_minus_sign()))

    def _print_Max(self, expr: sp.Expr) -> str:
        return self._nested("np.maximum", expr)

    def _print_Min(self, expr: sp.Expr) -> str:
        return self._nested("np.minimum", expr)

    def _nested(self, function: str, expr: sp.Expr) -> str:
        """Two arguments at a time, so that scalars and arrays broadcast."""
        *rest, last = (self._print(argument) for argument in expr.args)
        for argument in reversed(rest):
            last = f"{function}({argument}, {last})"
        return str(last)

    def text(self, expression: sp.Expr) -> str:
        return str(self.doprint(expression)).replace("numpy.", "np.")


class _Latex(LatexPrinter):
    """LaTeX with a slot for every word."""

    def _print_Symbol(self, expr: sp.Symbol, style: str = "plain") -> str:
        return f"{OPEN}{expr.name}{CLOSE}"


_TYPESET = (
    ("**2", "²"), ("**3", "³"), ("*", "·"), ("sqrt(", "√("), ("atan2(", "angle("),
    ("Min(", "least("), ("Max(", "greatest("),
)  # fmt: skip


class _Plain(StrPrinter):
    """One line of plain text with a slot for every word."""

    def _print_Symbol(self, expr: sp.Symbol) -> str:
        return f"{OPEN}{expr.name}{CLOSE}"

    def _print_Pi(self, expr: sp.Expr) -> str:
        return "π"

    def text(self, expression: sp.Expr) -> str:
        line = str(self.doprint(expression))
        for old, new in _TYPESET:
            line = line.replace(old, new)
        return line


def words(formulas: tuple[Formula, ...]) -> dict[str, Word]:
    """Every word by name; one name may have one letter, unit and meaning only."""
    table: dict[str, Word] = {}
    for formula in formulas:
        for word in (*formula.given, *(step.word for step in formula.steps)):
            if table.setdefault(word.name, word) != word:
                raise ValueError(f"{formula.name}: the word {word.name} is defined twice")
    return table


def prove(formula: Formula) -> None:
    """Check that steps use only what stands before them, and that every proof is zero."""
    known = {word.name for word in formula.given}
    for step in formula.steps:
        used = {str(symbol) for symbol in step.expression.free_symbols}
        if not used <= known:
            raise ValueError(f"{formula.name}: {step.word.name} uses {sorted(used - known)}")
        known.add(step.word.name)
    for proof in formula.proofs:
        left = sp.simplify(sp.nsimplify(formula.put_in(proof), rational=True))
        if left != 0:
            raise ValueError(f"{formula.name}: a proof leaves {left}")


def _class_name(name: str) -> str:
    return "".join(part.capitalize() for part in name.split("_"))


def _word_lines(listed: tuple[Word, ...]) -> list[str]:
    return [f"    {word.name} : {word.meaning} [{word.unit}]" for word in listed]


def function_code(formula: Formula) -> str:
    """The named tuple and the function of one formula."""
    code = _Code()
    results = tuple(step.word for step in formula.steps)
    kind = _class_name(formula.name)
    lines = [f"class {kind}(NamedTuple):", f'    """Steps of `{formula.name}`."""', ""]
    lines += [f"    {word.name}: Real" for word in results]
    arguments = ", ".join(f"{word.name}: Real" for word in formula.given)
    lines += ["", "", f"def {formula.name}(*, {arguments}) -> {kind}:"]
    doc = [f'"""{formula.title}.', "", "Parameters", "----------"]
    doc += [line.strip() for line in _word_lines(formula.given)]
    doc += ["", "Returns", "-------", f"{kind}"]
    doc += _word_lines(results)
    doc += ["", "Notes", "-----"]
    doc += textwrap.wrap(f"Source: {formula.source}.", 92)
    doc += [*textwrap.wrap(f"Error: {formula.error}.", 92), '"""']
    lines += [f"    {line}".rstrip() for line in doc]
    for step in formula.steps:
        lines += [f"    # {line}" for line in textwrap.wrap(step.why, 90)]
        lines.append(f"    {step.word.name} = {code.text(step.expression)}")
    lines.append(f"    return {kind}({', '.join(word.name for word in results)})")
    return "\n".join(lines)


def working_entry(formula: Formula) -> dict[str, object]:
    """The worked steps of one formula, as slots."""
    latex, plain = _Latex({"order": "none", "mul_symbol": "dot"}), _Plain({"order": "none"})
    return {
        "title": formula.title,
        "source": formula.source,
        "error": formula.error,
        "given": [word.name for word in formula.given],
        "steps": [
            {
                "word": step.word.name,
                "why": step.why,
                "latex": latex.doprint(step.expression),
                "text": plain.text(step.expression),
            }
            for step in formula.steps
        ],
    }


def nomenclature(table: dict[str, Word]) -> str:
    """The nomenclature page."""
    rows = [f"| `{w.name}` | ${w.letter}$ | {w.unit} | {w.meaning} |" for w in table.values()]
    head = (
        "# Nomenclature\n\nWritten from the derivations; do not edit. SI throughout. Frame and "
        "signs: x forward, y left, z up, origin on the ground midway between the rear tyre "
        "contacts; slew 0 is straight back, positive toward the machine's left.\n\n"
        "| word in code | letter | unit | meaning |\n|---|---|---|---|\n"
    )
    return head + "\n".join(rows) + "\n"


def write() -> dict[Path, str]:
    """Everything that should stand, by path."""
    table = words(FORMULAS)
    for formula in FORMULAS:
        prove(formula)
    code = HEADER + "".join(f"\n\n{function_code(formula)}\n" for formula in FORMULAS)
    working = {
        "words": {
            w.name: {"letter": w.letter, "unit": w.unit, "meaning": w.meaning}
            for w in table.values()
        },
        "formulas": {formula.name: working_entry(formula) for formula in FORMULAS},
    }
    return {
        OUTPUTS["written"]: code,
        OUTPUTS["working"]: json.dumps(working, ensure_ascii=False, indent=1) + "\n",
        OUTPUTS["nomenclature"]: nomenclature(table),
    }


def main() -> int:
    """Write the files, or with ``--check`` say which are stale."""
    stale = [
        path
        for path, text in write().items()
        if not path.exists() or path.read_text(encoding="utf-8") != text
    ]
    if "--check" in sys.argv:
        for path in stale:
            print(f"stale: {path.relative_to(ROOT)}; run make generated")
        return 1 if stale else 0
    for path, text in write().items():
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    print(f"{len(stale)} of {len(OUTPUTS)} files were stale and are written anew")
    return 0


if __name__ == "__main__":
    sys.exit(main())
