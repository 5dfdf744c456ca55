"""The house: what may be loaded, what must be fresh, what every file keeps to."""

from __future__ import annotations

import ast
import inspect
import re
import subprocess
import sys
from pathlib import Path

import pytest

from liftcalc.sources import SOURCES

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "liftcalc"
FILES = sorted(PACKAGE.rglob("*.py"))

HEAVY = {"numpy", "pint", "sympy", "matplotlib", "streamlit", "scipy", "pydantic", "typer"}
FOR_AN_ANSWER = {"numpy", "pydantic", "typer"}


def loaded(code: str) -> set[str]:
    """Heavy packages that a piece of code loads in a fresh interpreter."""
    asked = f"{code}\nimport sys\nprint('LOADED', *sorted({HEAVY!r} & set(sys.modules)))"
    done = subprocess.run(
        [sys.executable, "-c", asked], capture_output=True, text=True, check=True, cwd=ROOT
    )
    return set(done.stdout.rsplit("LOADED", 1)[1].split())


@pytest.mark.parametrize(
    "more", ["", "dir(liftcalc); liftcalc.__version__; liftcalc.InputError; liftcalc.CAUTION"]
)
def test_importing_the_package_loads_nothing_heavy(more):
    assert loaded(f"import liftcalc; {more}") == set()


def test_formulas_on_floats_load_nothing_heavy():
    code = "from liftcalc.physics import formulas; formulas.legs(included_angle=1.0)"
    assert loaded(code) == set()


@pytest.mark.parametrize("words", [["demo"], ["demo", "--json"], ["demo", "--working"]])
def test_an_answer_loads_only_what_it_computes_with(words):
    code = (
        f"import sys; sys.argv = ['liftcalc', *{words!r}]\n"
        "from liftcalc.cli.main import main\n"
        "try:\n    main()\nexcept SystemExit as end:\n    assert not end.code"
    )
    algebra = {"sympy"} if "--working" in words else set()
    assert loaded(code) <= FOR_AN_ANSWER | algebra


def test_only_the_working_loads_the_algebra_of_the_formulas():
    imports = re.compile(
        r"^(import|from) (sympy|liftcalc\.(physics\.algebra|working\.typeset))", re.M
    )
    assert {p.name for p in FILES if imports.search(p.read_text(encoding="utf-8"))} == {
        "algebra.py",
        "typeset.py",
    }


def test_every_source_is_used_and_every_key_is_known():
    text = "\n".join(
        path.read_text(encoding="utf-8") for path in FILES if path.name != "sources.py"
    )
    assert [key for key in SOURCES if key not in text] == []
    ruled = (PACKAGE / "factors.py").read_text() + (PACKAGE / "evaluation" / "check.py").read_text()
    used = re.findall(r'source="([a-z0-9_]+)"', ruled)
    assert len(used) > 5
    assert [key for key in used if key not in SOURCES] == []


def test_no_file_is_over_400_lines_and_no_function_over_60():
    lines = {path: path.read_text(encoding="utf-8") for path in FILES}
    long = {path.name for path, text in lines.items() if len(text.splitlines()) > 400}
    long |= {
        f"{path.name}: {node.name}"
        for path, text in lines.items()
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.FunctionDef) and node.end_lineno - node.lineno >= 60
    }
    assert long == set()


def test_nobody_uses_pyplot():
    imports = re.compile(r"^\s*(import matplotlib\.pyplot|from matplotlib import .*pyplot)", re.M)
    assert [p for p in FILES if imports.search(p.read_text(encoding="utf-8"))] == []


def public_functions(path: Path):
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in tree.body:
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            yield node


@pytest.mark.parametrize("path", sorted((PACKAGE / "physics").glob("*.py")), ids=lambda p: p.name)
def test_physical_arguments_are_keyword_only(path):
    """One leading argument may be a thing (a line, a linkage); numbers go by name."""
    for function in public_functions(path):
        if path.name in {"worked.py", "formula.py", "functions.py"}:
            continue  # they take a formula, its steps, or a number as ``math`` does
        positional = [
            argument.arg
            for argument in function.args.args
            if "Real" in ast.unparse(argument.annotation or ast.Constant(""))
            or "float" in ast.unparse(argument.annotation or ast.Constant(""))
        ]
        assert positional == [], (path.name, function.name)


def test_public_functions_of_physics_say_their_units():
    from liftcalc.physics import joints, plane, tipping

    for module in (plane, joints, tipping):
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_"):
                doc = inspect.getdoc(function) or ""
                assert "[" in doc or name in {"hull", "ring", "some_of"}, name


def test_shipped_machines_go_into_the_wheel():
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    assert '"machines" = "liftcalc/shipped_machines"' in text


def test_nothing_names_an_index_or_a_path_of_some_machine():
    listed = subprocess.run(
        ["git", "ls-files"], capture_output=True, text=True, check=True, cwd=ROOT
    ).stdout.split("\n")
    pattern = re.compile(
        r"--(extra-)?index-url|https?://[^ )\"']*(pypi|pythonhosted)|/(home|root)/"
    )
    hits = [
        name
        for name in listed
        if name
        and name != "tests/architecture/test_rooms.py"
        and (ROOT / name).suffix in {".py", ".md", ".toml", ".txt", ".json", ""}
        and (ROOT / name).is_file()
        and pattern.search((ROOT / name).read_text(encoding="utf-8", errors="ignore"))
    ]
    assert hits == []
