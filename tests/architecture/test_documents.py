"""What the documents name is there: files, rooms, classes, modules, targets and commands."""

from __future__ import annotations

import itertools
import re
from importlib import import_module
from pathlib import Path

import pytest

from tests.architecture.test_rooms import FILES, PACKAGE, ROOT

DOCUMENTS = [ROOT / "DEVELOPERS.md", ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
# What is dotted in json.md are keys and schemas: tests/cli/test_json.py holds them.
MODULES_NAMED = [path for path in DOCUMENTS if path.name != "json.md"]
ROOMS = {path.stem for path in PACKAGE.iterdir() if not path.name.startswith("_")}
ROOTS = (ROOT, PACKAGE, ROOT / "docs")

CODE = re.compile(r"```.*?```|`[^`\n]+`", re.S)
A_PATH = re.compile(r"(?<![\w./<-])(?!path/to/)(?:[a-z]\w*/[\w{},*./]*|\w+\.py)(?![\w/])")
DOTTED = re.compile(r"`((?:liftcalc\.)?[a-z_]+(?:\.\w+)+)(?:\(\))?`")
A_CLASS = re.compile(r"`([A-Z][a-z]+\w*)(?:\.\w+)?`")
LINK = re.compile(r"\]\((?!https?:|#)([^)#]+)")


def spread(path: str) -> list[str]:
    """A path with every choice of its braces."""
    parts = [part.split(",") for part in re.split(r"[{}]", path)]
    return ["".join(each) for each in itertools.product(*parts)]


def missing(text: str) -> list[str]:
    """Paths in code of a document that are nowhere."""
    code = " ".join(CODE.findall(text))
    found = {each.rstrip(".") for path in A_PATH.findall(code) for each in spread(path)}
    return sorted(each for each in found if not any(any(root.glob(each)) for root in ROOTS))


def is_there(name: str) -> bool:
    """Whether a dotted name is a module of the package, or something in one."""
    parts = name.removeprefix("liftcalc.").split(".")
    for count in range(len(parts), -1, -1):
        try:
            found = import_module(".".join(["liftcalc", *parts[:count]]))
        except ModuleNotFoundError:
            continue
        for part in parts[count:]:
            if not hasattr(found, part):
                return False
            found = getattr(found, part)
        return True
    return False


@pytest.mark.parametrize("path", DOCUMENTS, ids=lambda path: path.name)
def test_paths_and_links_lead_somewhere(path: Path):
    text = path.read_text(encoding="utf-8")
    assert missing(text) == []
    assert [link for link in LINK.findall(text) if not (path.parent / link).exists()] == []


@pytest.mark.parametrize("path", MODULES_NAMED, ids=lambda path: path.name)
def test_dotted_names_can_be_imported(path: Path):
    # A field of a record may be dotted too; a module starts with a room.
    names = DOTTED.findall(path.read_text(encoding="utf-8"))
    ours = [name for name in names if name.split(".")[0] in ROOMS | {"liftcalc"}]
    assert [name for name in ours if not name.endswith(".py") and not is_there(name)] == []


def test_classes_that_developers_are_told_of_are_there():
    code = "\n".join(path.read_text(encoding="utf-8") for path in FILES)
    named = A_CLASS.findall((ROOT / "DEVELOPERS.md").read_text(encoding="utf-8"))
    assert len(named) > 5
    assert [name for name in named if not re.search(rf"^class {name}\b", code, re.M)] == []


def test_targets_that_are_named_can_be_made():
    targets = set(re.findall(r"^([a-z-]+):", (ROOT / "Makefile").read_text(), re.M))
    text = "\n".join(path.read_text(encoding="utf-8") for path in DOCUMENTS)
    named = {name for code in CODE.findall(text) for name in re.findall(r"\bmake ([a-z-]+)", code)}
    assert {"demo", "test"} <= named <= targets


def test_what_is_not_there_is_found_out():
    assert missing("`answers/door.py` `web/{check,gone}.py` `nothing.py` `units.py`") == [
        "answers/door.py",
        "nothing.py",
        "web/gone.py",
    ]
    assert is_there("questions.remedies.KINDS")
    assert is_there("liftcalc.check")
    assert not is_there("questions.remedies.NONE")
    assert not is_there("answers.door")


def test_decisions_have_a_number_of_their_own_a_date_a_status_and_alternatives():
    notes = sorted((ROOT / "docs" / "decisions").glob("*.md"))
    numbers = [int(path.name[:4]) for path in notes]
    assert numbers == sorted(set(numbers))
    for path, number in zip(notes, numbers, strict=True):
        text = path.read_text(encoding="utf-8")
        assert text.startswith(f"# {number}. "), path.name
        assert re.search(r"^Date: \d{4}-\d\d-\d\d\b.*?\bStatus: \w", text, re.M | re.S), path.name
        assert re.search(r"^(Alternatives|Considered|Left aside):", text, re.M), path.name
