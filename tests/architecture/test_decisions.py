"""Nobody decides by prose: what is told apart has a kind, a code or a field of its own."""

from __future__ import annotations

import ast
from collections.abc import Iterator

import pytest

from tests.architecture.test_words import PACKAGE, SOURCES

PROSE = {
    *("name", "title", "label", "where", "why", "about", "what", "said", "words", "text"),
    *("governs", "stopped_by", "stop", "verdict", "reason", "advice", "criteria", "titles"),
}
"""Attributes, and names of variables, that hold what is read by people."""
TELLING = {"startswith", "endswith", "removeprefix", "removesuffix", "partition", "find", "index"}
TURNING = {"lower", "casefold", "strip", "title", "words"}
"""Calls whose outcome is as much prose as what they are called on."""
ANSWERS = {*("evaluation", "figures", "maps", "physics", "questions", "reports", "site", "working")}
"""Rooms where a bare variable of such a name is prose; elsewhere it may be a field's own name."""


def prose(node: ast.AST, *, bare: bool) -> bool:
    """Whether an expression is what people read, or a part of it."""
    if isinstance(node, ast.Name):
        return bare and node.id in PROSE
    if isinstance(node, ast.Attribute):
        return node.attr in PROSE
    if isinstance(node, ast.Subscript) and not fixed(node.slice):
        return prose(node.value, bare=bare)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
        return node.func.attr in TURNING and prose(node.func.value, bare=bare)
    return isinstance(node, ast.Call) and getattr(node.func, "id", "") == "str"


def fixed(node: ast.AST) -> bool:
    """Whether an expression is a text, or several, that stand in the source or in a table of it."""
    if isinstance(node, ast.Set | ast.Tuple | ast.List):
        return bool(node.elts) and all(fixed(each) for each in node.elts)
    if isinstance(node, ast.Name):
        return node.id.isupper()
    return isinstance(node, ast.JoinedStr) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value != ""
    )


def decides(node: ast.AST, *, bare: bool) -> bool:
    """Whether an expression tells things apart by what people read."""
    match node:
        case ast.Call(func=ast.Attribute(value=value, attr=attr), args=args):
            return attr in TELLING and prose(value, bare=bare) and any(map(fixed, args))
        case ast.Compare(left=left, comparators=comparators):
            sides = [left, *comparators]
            return any(map(fixed, sides)) and any(prose(each, bare=bare) for each in sides)
        case ast.Subscript(value=value, slice=key):
            return fixed(value) and prose(key, bare=bare)
        case ast.Match(subject=subject):
            return prose(subject, bare=bare)
    return False


def found() -> Iterator[tuple[str, str]]:
    for path, tree in SOURCES.items():
        file = path.relative_to(PACKAGE)
        for node in ast.walk(tree):
            if decides(node, bare=file.parts[0] in ANSWERS):
                yield str(file), ast.unparse(node)


OWN_NAMES = {
    "questions and formulas are asked for by their names, which are fixed": {
        ("cli/ask.py", "QUESTIONS[question.name]"),
        (
            "questions/registry.py",
            "question.name in ('farthest', 'highest', 'steepest', 'longest', 'carry')",
        ),
        ("physics/algebra.py", "FORMULAS[name]"),
    },
    "names of a record's own fields, of options and of keys of a file": {
        ("machines/validation.py", "_KEYS[joint.name]"),
        ("rigging/gear.py", "field.name == 'kind'"),
        ("rigging/gear.py", "field.name in _ASKS"),
        ("site/motion.py", "_WORDS[name]"),
        ("site/motion.py", "name == 'friction'"),
        ("site/motion.py", "name in _ABOVE_ZERO"),
        ("web/state.py", "each.name != 'machine'"),
        ("web/own_machine.py", "str(each).startswith(PREFIX)"),
        ("api.py", "str(given.get('end', '')).strip().lower() == 'front'"),
    },
    "marks of a drawing, named for whoever draws on": {
        ("figures/log_along.py", "m.name not in ('round', 'under', 'log')"),
        ("figures/side.py", "mark.name == 'arc'"),
    },
    "reserved in a machine's file: what a machine carries and its measured weight may hold": {
        ("figures/chassis.py", "each.name == 'operator'")
    },
    "other people's enumerations": {
        ("cli/check.py", "source.name == 'COMMANDLINE'"),
        ("web/serve.py", "os.name == 'posix'"),
    },
}
"""What looks like it and is not, with the reason why."""


def test_nothing_is_decided_by_what_people_read():
    exceptions = {each for places in OWN_NAMES.values() for each in places}
    places = set(found())
    assert places - exceptions == set(), "give it a kind, a code or a field to decide by"
    assert exceptions - places == set(), "no longer there: take it off the list"


@pytest.mark.parametrize(
    "said",
    [
        "lift.taken.name.startswith('drawn')",
        "'stabiliser' in support.name",
        "criterion.name in IRRELEVANT",
        "NAMELESS[stop.name]",
        "answer.governs == 'sling'",
        "str(each.said).endswith('not checked')",
        "stop.words().partition(';')",
        "title.lower() in {'tipping', 'sling'}",
    ],
)
def test_it_would_be_found(said: str):
    assert decides(ast.parse(said, mode="eval").body, bare=True)
