"""The learner's file: only ever added to, robust against half lines, and nothing else in it."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest

from liftcalc.errors import InputError
from liftcalc.machines.files import shipped_folder
from liftcalc.school.exercise import pose
from liftcalc.school.files import lesson
from liftcalc.school.marking import mark
from liftcalc.school.record import COLUMNS, MARK, Attempt, attempt, csv_of, keep, kept

NOW = datetime(2026, 3, 1, 8, 0, tzinfo=UTC)


def some(number: int = 0, **other: object) -> Attempt:
    made = Attempt(
        at=NOW + timedelta(minutes=number),
        lesson="side-slope",
        skill="slope",
        drill=True,
        seed=number,
        machine="compact-centre-mount",
        given="1700",
        key="1480",
        unit="kg",
        error=0.1386,
        score=0.5,
        unsafe=True,
    )
    return replace(made, **other)


def test_what_is_kept_comes_back(tmp_path: Path) -> None:
    path = tmp_path / "anna.jsonl"
    assert kept(path).attempts == ()
    wanted = [some(), some(1, error=None, given="It rises “é”", unit=""), some(2, unsafe=False)]
    keep(path, wanted[0])
    keep(path, wanted[1:])
    assert kept(path).attempts == tuple(wanted)
    assert kept(path).unread == ()


def test_an_exercise_is_kept_without_any_path(tmp_path: Path) -> None:
    machine = tmp_path / "secret-folder" / "mine.toml"
    machine.parent.mkdir()
    machine.write_text((shipped_folder() / "small-tractor.toml").read_text(encoding="utf-8"))
    made = pose(lesson("side-slope"), seed=3, machine=str(machine))
    here = datetime(2026, 3, 1, 9, 0, tzinfo=timezone(timedelta(hours=1)))
    one = attempt(made, mark(made, "900 kg"), at=here)
    path = tmp_path / "record.jsonl"
    keep(path, one)
    text = path.read_text(encoding="utf-8")
    assert "secret-folder" not in text
    assert set(json.loads(text)) == {MARK, *COLUMNS}
    (back,) = kept(path).attempts
    assert back == one
    assert back.at == NOW
    assert (back.given, back.unit, back.skill) == ("900", "kg", "slope")
    with pytest.raises(InputError, match="time zone"):
        attempt(made, mark(made, "900 kg"), at=datetime(2026, 3, 1))


def test_a_line_cut_short_loses_only_itself(tmp_path: Path) -> None:
    path = tmp_path / "record.jsonl"
    keep(path, [some(0), some(1)])
    whole = path.read_bytes()
    for cut in range(1, len(whole)):
        path.write_bytes(whole[:cut])
        keep(path, some(2))
        found = kept(path)
        assert found.attempts[-1] == some(2)
        assert len(found.attempts) + len(found.unread) in {2, 3}
        assert path.read_bytes().startswith(whole[:cut])


def test_what_is_not_an_attempt_is_passed_over_and_told(tmp_path: Path) -> None:
    path = tmp_path / "record.jsonl"
    keep(path, some())
    good = json.loads(path.read_text(encoding="utf-8"))
    bad = [
        {**good, MARK: 2},
        {**good, "score": 7},
        {**good, "score": True},
        {**good, "seed": "x"},
        {**good, "at": "2026-03-01T08:00:00"},
        {**good, "at": "never"},
        {**good, "given": ["x"]},
        {**good, "given": "x" * 5000},
        {key: good[key] for key in good if key != "lesson"},
        [1],
        "text",
        5,
        None,
        {**good, "error": "much"},
    ]
    lines = [json.dumps(each) for each in bad] + [
        json.dumps(good).replace("0.1386", "NaN"),
        json.dumps(good).replace("0.5", "Infinity"),
        "{",
        "[" * 3000,
        "\x00\x01",
    ]
    with path.open("a", encoding="utf-8") as file:
        file.write("\n".join(lines) + "\n\n")
    with path.open("ab") as file:
        file.write(b"\xff\xfe\n")
    keep(path, some(1))
    found = kept(path)
    assert found.attempts == (some(0), some(1))
    assert len(found.unread) == len(lines) + 1
    assert all(each.startswith("line ") for each in found.unread)


def test_another_kind_of_file_is_left_as_it_is(tmp_path: Path) -> None:
    for text in ("name = 'my machine'\n", '{"other": 1}\n', "x", "{}"):
        path = tmp_path / "mine.toml"
        path.write_text(text, encoding="utf-8")
        with pytest.raises(InputError, match="another kind"):
            keep(path, some())
        assert path.read_text(encoding="utf-8") == text
    for place in (tmp_path, tmp_path / "no" / "folder.jsonl"):
        with pytest.raises(InputError):
            keep(place, some())
    with pytest.raises(InputError):
        kept(tmp_path)


def test_as_csv(tmp_path: Path) -> None:
    text = csv_of([some(), some(1, given='=1+1, "and"', error=None, unit="")])
    rows = list(csv.reader(io.StringIO(text)))
    assert rows[0] == list(COLUMNS)
    assert rows[1][COLUMNS.index("given")] == "1700"
    assert rows[1][COLUMNS.index("unsafe")] == "yes"
    assert rows[2][COLUMNS.index("given")] == '\'=1+1, "and"'
    assert rows[2][COLUMNS.index("error")] == ""
    assert all(len(row) == len(COLUMNS) for row in rows)
