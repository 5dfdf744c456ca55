"""What `--json` prints is what `docs/json.md` says, and a refusal is JSON as well."""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest

import liftcalc
from liftcalc.cli.main import COMMANDS, main
from liftcalc.documents import VERSIONS, document
from liftcalc.machines.files import load, shipped_names
from tests.helpers import ANSWERED

DOCS = Path(__file__).parents[2] / "docs" / "json.md"
CLEAR = ["--hangs-level", "--devices", "fitted", "--breakout", "1"]
LOG = ["--species", "European larch", "--length", "4.2 m", "--butt", "55 cm", "--top", "44 cm"]
BACK = ["standard-sideshift", "--end", "back", "--attachment", "lifting hook"]
AT = ["--reach", "3.8 m", "--height", "3.1 m"]
FRONT = ["standard-sideshift", "--end", "front"]
PLACES = ["--pick-height", "0 m", "--pick-reach", "4 m", "--set-height", "1.5 m"]
COARSE = ["--reach-step", "1 m", "--height-step", "1 m", "--slew-step", "45 deg"]
TOLD = [
    *("--ground", "firm clay", "--sling-kind", "chain grade 80", "--sling-size", "10 mm"),
    *("--wires", "9 m", "--rules", "uk", "--wires-on", "wood poles", "--people", "none"),
]
REAL: dict[str, list[list[str]]] = {
    "machines": [["machines"]],
    "log": [["log", *LOG, "--working"]],
    "check": [
        ["demo", "--working"],
        ["check", *BACK, *AT, *LOG, "--evidence"],
        ["check", *BACK, *AT, *LOG, *TOLD, "--working", "--evidence", "--root-plate", "9 t"],
        ["check", *BACK, *AT, *LOG, "--evidence", "--wind", "30 km/h"],
        ["check", *FRONT, "--height", "1.5 m", *LOG, "--evidence", "--travelling"],
        ["check", *BACK, *AT, *LOG, "--ground", "peat", "--lifted", "drawn"],
    ],
    "compare": [
        ["compare", "standard-sideshift", *PLACES, *LOG],
        [
            "compare",
            "standard-sideshift",
            *PLACES,
            *LOG,
            "--set-reach",
            "12 m",
            "--bunk-width",
            "2 m",
        ],
    ],
    "ask": [
        ["ask", "farthest", *BACK, "--height", "3 m", *LOG, *CLEAR],
        ["ask", "longest", *BACK, "--height", "3 m", "--reach", "9 m", *LOG],
        ["ask", "more", *BACK, *AT, *LOG],
        [
            *("ask", "carry", *FRONT, *LOG, "--attachment", "pallet forks"),
            *("--ground", "hard standing", "--braking", "0.4 m/s2", "--speed", "3 km/h"),
        ],
    ],
    "limits": [
        ["limits", *BACK, *COARSE],
        ["limits", *FRONT, *LOG, "--height-step", "1 m", "--attachment", "pallet forks"],
    ],
    "walkround": [["machine", "walkround", "small-tractor"]],
    "proof": [["ground", "proof", *BACK, *AT, "--slew", "20 deg", *LOG]],
    "weigh": [["log", "weigh", "--loaded", "4300 kg", "--empty", "3660 kg"]],
    "refusal": [["check", "standrd", "--end", "bak", "--reach", "4 kg"], ["demo", "--fool"]],
}
"""Commands whose documents, read together, hold every key."""


class Node(NamedTuple):
    """A place in a document, and what stands there."""

    path: str
    value: Any


class Row(NamedTuple):
    """A row of the tables: a key, its unit, what is said of it."""

    key: str
    unit: str
    words: str

    def fits(self, path: str) -> bool:
        plain = re.escape(self.key).replace(r"\*", r"[^.\[\]]+")
        return re.fullmatch(plain, path) is not None


def printed(words: list[str], monkeypatch, capsys) -> tuple[dict[str, Any], int]:
    """The document that a command prints, and its exit status."""
    monkeypatch.setattr(sys, "argv", ["liftcalc", *words, "--json"])
    status = 0
    try:
        main()
    except SystemExit as end:
        status = int(end.code or 0)
    out, err = capsys.readouterr()
    assert err == ""
    return json.loads(out), status


def nodes(value: Any, path: str = "") -> Iterator[Node]:
    """Every place of a document, lists and tables too."""
    if path:
        yield Node(path, value)
    if isinstance(value, dict):
        for key, each in value.items():
            yield from nodes(each, f"{path}.{key}" if path else key)
    elif isinstance(value, list):
        for each in value:
            yield from nodes(each, f"{path}[]")


def documented() -> dict[str, list[Row]]:
    """The rows of the tables by document; those of every document are repeated in each."""
    preface, *parts = re.split(r"^## liftcalc\.", DOCS.read_text("utf-8"), flags=re.M)
    return {part.split("\n", 1)[0].strip(): rows(preface + part) for part in parts}


def rows(text: str) -> list[Row]:
    made: list[Row] = []
    for line in text.splitlines():
        if not line.startswith("| `"):
            continue
        cells = [each.strip() for each in line.strip("|").split("|")]
        key = ""
        for each in re.findall(r"`([^`]+)`", cells[0]):
            key = key.rsplit(".", 1)[0] + each if each.startswith(".") else each
            made.append(Row(key, cells[1], cells[2]))
    named = [each for each in made if not each.key.startswith("<")]
    return [
        *named,
        *(
            part._replace(key=part.key.replace(tag, each.key))
            for tag, words in (("<brief>", "a check in brief"), ("<judgement>", "a judgement"))
            for each in named
            if words in each.words
            for part in made
            if part.key.startswith(tag)
        ),
    ]


def test_every_command_and_document_is_here():
    assert set(REAL) == set(VERSIONS) == set(documented())
    said = {words[0] for each in REAL.values() for words in each}
    assert said == {*COMMANDS, "ground", "machine"}


@pytest.mark.parametrize("name", REAL)
def test_a_document_holds_what_is_documented(name, monkeypatch, capsys):
    table, seen = documented()[name], set()
    for words in REAL[name]:
        made, status = printed(words, monkeypatch, capsys)
        assert status in ({2} if name == "refusal" else ANSWERED), made
        assert made["schema"] == {"name": f"liftcalc.{name}", "version": VERSIONS[name]}
        assert ("caution" in made) is (name != "refusal")
        for path, value in nodes(made):
            fitting = [each for each in table if each.fits(path)]
            seen.update(each.key for each in fitting)
            if isinstance(value, dict | list):
                continue
            assert fitting, f"{path} of {words} is not in {DOCS.name}"
            if value is None:
                assert any("null" in each.words for each in fitting), (path, "null is not said")
            elif isinstance(value, float | int) and not isinstance(value, bool):
                assert any(each.unit for each in fitting), (path, "no unit is said")
    unseen = {each.key for each in table} - seen - {"caution"}
    assert unseen == set(), "documented, but in no document"


def test_a_refusal_in_json_holds_every_fault(monkeypatch, capsys):
    made, status = printed(["check", "standrd", "--end", "bak", *LOG], monkeypatch, capsys)
    assert status == 2
    by_field = {each["field"]: each for each in made["faults"]}
    assert {"machine", "end", "height", "reach"} <= set(by_field)
    assert by_field["end"] == {
        "field": "end",
        "given": '"bak"',
        "understood": None,
        "wanted": "one of front, back",
        "fix": "did you mean back?",
        "file": None,
        "key": None,
    }


def test_without_json_a_refusal_is_words(monkeypatch, capsys):
    monkeypatch.setattr(sys, "argv", ["liftcalc", "check", "standrd"])
    with pytest.raises(SystemExit) as end:
        main()
    out, err = capsys.readouterr()
    assert (end.value.code, out) == (2, "")
    assert err.startswith("liftcalc: ")


def test_no_document_holds_what_json_has_not():
    with pytest.raises(ValueError, match="not JSON compliant"):
        document("check", {"allowed_kg": float("inf")})


def test_machines_are_all_there_with_what_they_lift_with(monkeypatch, capsys):
    made, _ = printed(["machines"], monkeypatch, capsys)
    assert [each["name"] for each in made["machines"]] == shipped_names()
    for each in made["machines"]:
        machine = load(each["name"])
        told = {
            (tool["end"], tool["name"], point["name"]): point["wll_kg"]
            for tool in each["attachments"]
            for point in tool["lift_points"]
        }
        assert told == {
            (tool.end, tool.name, point.name): point.wll
            for tool in machine.attachment
            for point in tool.lift_point
        }
        fitted = {tool["end"]: tool["name"] for tool in each["attachments"] if tool["fitted"]}
        assert fitted == {"front": machine.fitted.front, "back": machine.fitted.back}


def test_the_version_is_said(monkeypatch, capsys):
    monkeypatch.setattr(sys, "argv", ["liftcalc", "--version"])
    with pytest.raises(SystemExit) as end:
        main()
    assert (end.value.code or 0, capsys.readouterr().out) == (
        0,
        f"liftcalc {liftcalc.__version__}\n",
    )
