"""An answer in one system of units says nothing in the other, in words or as data."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from typer.main import get_command

from liftcalc.cli.main import command_line, main
from liftcalc.errors import InputError
from tests.drawn_machines import machine_files
from tests.drawn_requests import requests
from tests.helpers import METRIC, plain

TYPED = {"inputs", "understood", "check"}
"""Keys of what was typed, or is to be: it stays in the units in which it was."""
SIZED = re.compile(r"one straight leg of (chain grade \d+|wire rope|fibre rope), [\d.]+ mm")
"""Gear by its nominal size, which is its name in trade."""
ROW = re.compile(r" *[a-z-]+ {3,}")
"""A row of what was understood, in words."""
REFUSABLE = [each for each in requests(200, 12) if each[0] == "check"]
SOME = [each for each in requests(45, 11) if each[0] != "log"]


@pytest.fixture(scope="module")
def machines(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    folder: Path = tmp_path_factory.mktemp("machines")
    for name, text in machine_files().items():
        (folder / f"{name[1:]}.toml").write_text(text, encoding="utf-8")
    return {name: str(folder / f"{name[1:]}.toml") for name in machine_files()}


def answered(words: list[str], machines: dict[str, str]) -> str:
    """What is told in imperial; nothing if the request is refused."""
    made = CliRunner().invoke(
        get_command(command_line(words[0])),
        [*(machines.get(each, each) for each in words), "--units", "imperial"],
        prog_name="liftcalc",
    )
    refused = made.exit_code == 2 or isinstance(made.exception, InputError)
    return "" if refused else plain(made.stdout)


def texts(made: Any, under: str = "") -> Iterator[str]:
    """Every text of plain data, but for what was typed."""
    if isinstance(made, str):
        yield made
    elif isinstance(made, dict):
        yield from (each for key in made.keys() - TYPED for each in texts(made[key], key))
    elif isinstance(made, list):
        yield from (each for one in made for each in texts(one, under))


@pytest.mark.parametrize("words", SOME, ids=lambda words: f"{words[0]} {words[1]}")
def test_an_imperial_answer_has_no_metric_unit(words: list[str], machines: dict[str, str]) -> None:
    lines = answered(
        [each for each in words if each not in ("--json", "--evidence")], machines
    ).splitlines()
    assert [each for each in lines if METRIC.search(each) and not ROW.match(each)] == []
    if data := answered(words, machines):
        assert [
            each for each in texts(json.loads(data)) if METRIC.search(SIZED.sub("", plain(each)))
        ] == []


def test_most_of_them_are_answered(machines: dict[str, str]) -> None:
    some = SOME[::4]
    assert sum(bool(answered(each, machines)) for each in some) > len(some) / 2


QUOTED = re.compile(r'"[^"]*"|such as [^;]*')
"""What was typed, and examples of what may be."""


@pytest.mark.parametrize("form", [[], ["--json"]], ids=["words", "data"])
def test_an_imperial_refusal_has_no_metric_unit(
    form: list[str],
    machines: dict[str, str],
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """What the mechanism and the sling need, in feet; what was typed stays as it was."""
    told = 0
    for words in REFUSABLE:
        asked = [machines.get(each, each) for each in words if each not in ("--json", "--evidence")]
        monkeypatch.setattr("sys.argv", ["liftcalc", *asked, "--units=Imperial", *form])
        try:
            main()
            status = 0
        except SystemExit as ended:
            status = ended.code
        said = capsys.readouterr()
        if status != 2:
            continue
        told_as = "; ".join(texts(json.loads(said.out))) if form else said.err
        left = QUOTED.sub("", plain(told_as))
        assert not METRIC.search(left), left
        told += " ft" in left
    assert told >= 5
