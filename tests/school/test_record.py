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
from liftcalc.figures.saving import picture
from liftcalc.figures.school_summary import summary_page
from liftcalc.machines.files import shipped_folder
from liftcalc.reports.school_text import summary_lines
from liftcalc.school.exercise import pose
from liftcalc.school.files import lesson
from liftcalc.school.marking import mark
from liftcalc.school.practice import judgement
from liftcalc.school.record import COLUMNS, MARK, Attempt, attempt, csv_of, keep, kept, lines, read
from liftcalc.web.records import judgement_table

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
        {**good, "at": "9999-12-31T23:00:00+00:00"},
        {**good, "at": "0001-01-01T00:00:00+14:00"},
        {**good, "\x1b[2J": 1, "at": "\x1b[2J"},
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


EVIL = ("\x1b[2J", "\x07", "\ud800", "\u202e", "\r", "\n", "\x85", "\u2028", "\t", "\x9b31m")
TEXTS = ("lesson", "skill", "machine", "given", "key", "unit")


@pytest.mark.parametrize("evil", EVIL)
def test_whatever_a_record_says_its_summaries_are_plain_text(evil: str) -> None:
    """Read back from a file, as no learner wrote it: at the edges of every bound besides."""
    line = json.loads(lines([some()]))
    for name in TEXTS:
        line[name] = f"a{evil}=1+1"
    spoilt = [
        {**line, "at": at, "error": error, "score": 1.0, "unsafe": False}
        for at in ("2000-01-01T00:00:00+00:00", "2999-12-31T23:00:00+00:00")
        for error in (1e308, -1e308, 1e308, None)
    ]
    found = read("\n".join(json.dumps(each) for each in [*spoilt, {MARK: evil}]).encode())
    assert (len(found.attempts), len(found.unread)) == (len(spoilt), 1)
    told = summary_lines(found, judgement(found.attempts), now=NOW)
    table = csv_of(found.attempts)
    shown = [*told, *table.splitlines(), judgement_table(judgement(found.attempts), now=NOW)]
    picture(summary_page(found.attempts, now=NOW, record=f"{evil}.jsonl"), "pdf")
    assert all(each.isprintable() for each in shown)
    assert len(table.splitlines()) == len(spoilt) + 1
    assert not any(cell.startswith(tuple("=+@")) for cell in table.replace("\n", ",").split(","))


def test_an_attempt_kept_is_plain_too(tmp_path: Path) -> None:
    """What a learner typed goes into the file, and into a summary, without the file between."""
    made = pose(lesson("side-slope"), seed=3)
    typed = replace(mark(made, "900 kg"), given="9\ud800\r=1", error=1e9)
    one = attempt(made, typed, at=NOW)
    keep(tmp_path / "a.jsonl", one)
    assert kept(tmp_path / "a.jsonl").attempts == (one,)
    assert one.given == "9??=1"
    assert "\r" not in csv_of([replace(one, given="9\r=1")])


def test_a_summary_of_no_attempt_is_refused() -> None:
    with pytest.raises(InputError, match="no attempt"):
        summary_lines(read(b""), judgement(()), now=NOW)
    with pytest.raises(InputError, match="no attempt"):
        summary_page((), now=NOW)
