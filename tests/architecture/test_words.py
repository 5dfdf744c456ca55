"""An answer is data before it is words: codes, worded once, and nobody decides by prose."""

from __future__ import annotations

import ast
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from string import Formatter
from typing import NamedTuple

import pytest

from liftcalc.remarks import Figure, Remark
from liftcalc.reports.words import WORDS, text
from liftcalc.units import Kind, System
from tests.helpers import METRIC

PACKAGE = Path(__file__).parents[2] / "liftcalc"
SOURCES = {
    path: ast.parse(path.read_text(encoding="utf-8")) for path in sorted(PACKAGE.rglob("*.py"))
}
WORDED = sorted((PACKAGE / "reports").glob("words*.py"))


class Made(NamedTuple):
    """A place where a remark is made: its codes, and the names of its values."""

    where: str
    codes: tuple[str, ...]
    values: frozenset[str]


def constants(node: ast.expr) -> tuple[str, ...]:
    """The texts that an expression may be; none where it is no choice between texts."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return (node.value,)
    if isinstance(node, ast.IfExp):
        return (*constants(node.body), *constants(node.orelse))
    return ()


def made() -> Iterator[Made]:
    for path, tree in SOURCES.items():
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Remark":
                yield Made(
                    where=f"{path.relative_to(PACKAGE)}:{node.lineno}",
                    codes=constants(node.args[0]),
                    values=frozenset(str(each.arg) for each in node.keywords),
                )


MADE = [*made()]


def slots(template: str) -> list[tuple[str, str]]:
    """Name and format of every value of a template."""
    return [(name, spec or "") for _, name, spec, _ in Formatter().parse(template) if name]


@pytest.mark.parametrize("each", MADE, ids=lambda each: each.where)
def test_every_remark_has_words_that_take_exactly_its_values(each: Made):
    assert each.codes, "made with a code that nobody can look up"
    for code in each.codes:
        assert code in WORDS
        wanted = {name for name, _ in slots(WORDS[code])}
        # Of two codes made in one place either may leave out a value, not both.
        assert wanted <= each.values
    taken = {name for code in each.codes for name, _ in slots(WORDS[code])}
    assert taken == each.values


def test_every_sentence_is_said_by_somebody():
    assert set(WORDS) - {code for each in MADE for code in each.codes} == set()


def filled(code: str, kind: Kind, system: System) -> str:
    """The words of a code, with a figure of a kind wherever there may be one."""
    values = {}
    for name, spec in slots(WORDS[code]):
        if spec == "A":
            values[name] = "some name"
        elif spec and not spec.isdigit() and spec[-1] in "fg":
            values[name] = 1.25
        elif spec and not spec.isdigit():
            values[name] = ("one", "two")
        else:
            values[name] = Figure(1234.5, kind, "up")
    return text(Remark(code, **values), system)


@pytest.mark.parametrize("code", WORDS)
def test_a_code_is_worded_in_both_systems_and_has_no_unit_of_its_own(code: str):
    for kind in ("mass", "length", "force", "bearing", "speed"):
        metric, imperial = (filled(code, kind, system) for system in ("metric", "imperial"))
        assert not METRIC.search(imperial.replace("\u00a0", " ")), imperial
        plain = {spec for _, spec in slots(WORDS[code]) if not spec or spec.isdigit()}
        assert (metric != imperial) is bool(plain)


def sentences(said: str) -> list[str]:
    """The parts of a text that say something by themselves, without their values."""
    plain = re.sub(r"\{[^}]*\}", "…", said)
    return [each for each in re.split(r"[.:;] |\.$|\|", plain) if len(each.split()) > 4]


def test_no_sentence_of_the_tables_stands_elsewhere():
    told = Counter(each for said in WORDS.values() for each in sentences(said))
    assert [each for each, times in told.items() if times > 1] == []
    others = [
        said for path, tree in SOURCES.items() if path not in WORDED for said in _spoken(tree)
    ]
    for sentence in told:
        longest = max(sentence.split("…"), key=len).strip()
        # Shorter ones are phrases, such as "how deep the tyres sink".
        if len(longest.split()) > 5:
            assert [each for each in others if longest in each] == [], longest


def _texts(node: ast.AST) -> list[str]:
    """The fixed texts of a constant or an f-string."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return [node.value]
    if isinstance(node, ast.JoinedStr):
        return [str(each.value) for each in node.values if isinstance(each, ast.Constant)]
    return []


def _spoken(tree: ast.AST) -> Iterator[str]:
    """The texts of a file, but for what is told to whoever reads the source."""
    told = {id(each.value) for each in ast.walk(tree) if isinstance(each, ast.Expr)}
    parts = {
        id(part)
        for each in ast.walk(tree)
        if isinstance(each, ast.JoinedStr)
        for part in ast.walk(each)
        if part is not each
    }
    for each in ast.walk(tree):
        if id(each) not in told and id(each) not in parts:
            yield "{}".join(_texts(each))


def _sentences(said: str) -> list[str]:
    """Its sentences of six words or more: shorter ones are phrases, "ahead of the rear axle"."""
    cut = re.split(r"[.:;]\s+|</?\w[^>]*>|\n", re.sub(r"\{[^}]*\}", "{}", said))
    plain = [each.strip(" .:;,").casefold() for each in cut]
    return [each for each in plain if len(re.findall(r"[^\W\d_][\w’'-]*", each)) > 5]


def test_a_sentence_is_found_in_whatever_holds_it():
    tree = ast.parse(
        '"""Not this one, it is for who reads."""\nf(f"Now: it hangs in a {way} of rope.")'
    )
    assert [each for said in _spoken(tree) for each in _sentences(said)] == [
        "it hangs in a {} of rope"
    ]


def test_no_sentence_stands_twice():
    """But for rows of the table of fields: what is asked of each end is asked in the same words."""
    counted = Counter(
        each
        for path, tree in SOURCES.items()
        if not path.name.startswith("fields")
        for said in _spoken(tree)
        for each in _sentences(said)
    )
    assert [each for each, times in counted.items() if times > 1] == []
