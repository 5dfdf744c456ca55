"""`school` on the command line: every lesson by piped answers, drills, a record, a summary."""

from __future__ import annotations

import csv
import io
import json
import subprocess
import sys
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner

from liftcalc.cli import school as school_cli
from liftcalc.cli.school import school
from liftcalc.errors import InputError
from liftcalc.school.animation import STEPS, steps
from liftcalc.school.exercise import Exercise, pose
from liftcalc.school.files import lesson, lessons
from liftcalc.school.lesson import CAUTION, PARTS
from liftcalc.school.record import COLUMNS, kept
from liftcalc.working.lesson import lesson_sections
from liftcalc.working.rows import figure

SEED, MACHINE = 5, "standard-sideshift"
IDS = [each.id for each in lessons()]


def app() -> typer.Typer:
    made = typer.Typer()
    made.add_typer(school, name="school")
    made.callback()(lambda: None)
    return made


def run(*words: str, typed: str = ""):
    return CliRunner().invoke(app(), ["school", *words], input=typed)


def flat(text: str) -> str:
    """Without the ends of lines, which fall where they may, after a hyphen too."""
    return " ".join(text.split()).replace("- ", "-")


def posed(name: str, system: str = "metric") -> Exercise:
    return pose(lesson(name), seed=SEED, machine=MACHINE, system=system)


def right(exercise: Exercise) -> str:
    """The engine's own key, as a person would type it."""
    if exercise.key is None:
        number = next(n for n, each in enumerate(exercise.choices) if each.right)
        return "abcd"[number]
    return f"{exercise.key.value / exercise.key.factor:.9g}"


def wrong(exercise: Exercise) -> str:
    if exercise.key is None:
        number = next(n for n, each in enumerate(exercise.choices) if not each.right)
        return "ABCD"[number]
    return f"{2.2 * exercise.key.value / exercise.key.factor:.9g}"


def one(name: str, answer: str, *more: str):
    return run("lesson", name, "--seed", str(SEED), "--machine", MACHINE, *more, typed=answer)


@pytest.mark.parametrize("units", ["metric", "imperial"])
@pytest.mark.parametrize("name", IDS)
def test_the_key_gives_full_score_and_the_reasons(name, units):
    exercise = posed(name, units)
    done = one(name, right(exercise) + "\n", "--units", units)
    assert done.exit_code == 0, done.output
    said = flat(done.output)
    assert "+ Right" in said
    assert "score 1.00 of 1" in said
    told, after = said.split("Your prediction", 1)
    for each in (*exercise.explanation, exercise.do):
        assert flat(each) in after
        assert flat(each) not in told
    assert flat(CAUTION) in after
    assert school_cli.NOT_KEPT in said


@pytest.mark.parametrize("name", IDS)
def test_another_answer_is_told_to_be_wrong(name):
    exercise = posed(name)
    said = flat(one(name, wrong(exercise) + "\n").output)
    assert "+ Right" not in said
    assert "score 1.00" not in said
    key = exercise.key
    chosen = next((each for each in exercise.choices if not each.right), None)
    unsafe = chosen.unsafe if chosen is not None else bool(key and key.unsafe == "over")
    assert ("errs on the unsafe side" in said) == unsafe
    assert ("not on the unsafe side" in said) == (not unsafe)


@pytest.mark.parametrize("name", [each for each in IDS if posed(each).key is not None])
def test_the_key_is_not_told_before_the_prediction(name):
    exercise = posed(name)
    told = one(name, "").output
    assert "Stopped here." in told
    marked = one(name, right(exercise) + "\n").output
    shown = marked.split("Right: the model says ", 1)[1].split("\n")[0].rstrip(".")
    assert shown not in told, "before anything was guessed"


def test_the_working_is_that_of_the_case():
    exercise = posed("side-slope")
    said = one("side-slope", "-20 %\n").output
    # To five figures, as every worked step is printed.
    assert f"{exercise.key.value:.5g}" in said.split("Worked, in SI")[1]
    assert "Worked" not in one("side-slope", "-20 %\n", "--no-working").output


SEARCHED = {"farthest-reach"}
"""What is found by a search has no formula of its own."""


@pytest.mark.parametrize("name", [x for x in IDS if posed(x).key is not None and x not in SEARCHED])
def test_the_key_itself_stands_in_the_working(name):
    for seed in range(20):
        exercise = pose(lesson(name), seed=seed)
        rows = [row for each in lesson_sections(exercise) for row in each.rows]
        assert figure(exercise.key.value) in {row.result.split(" ")[0] for row in rows}, seed


def test_what_cannot_be_read_is_asked_again():
    said = one("side-slope", "2 m\n\nheavy\n-20 %\n").output
    assert "the unit is of the wrong kind" in said
    assert said.count("Your prediction") == 4
    assert "0 attempt" not in said


def test_answers_by_an_option_do_what_typed_ones_do():
    typed = one("side-slope", "-20 %\n").output
    given = one("side-slope", "", "--answers", "-20 %").output
    assert given.split("x You said")[1] == typed.split("x You said")[1]


def test_the_course_is_listed_in_its_parts():
    said = run().output
    places = [said.index(f"\n{part[0].upper()}{part[1:]}\n") for part in PARTS]
    assert places == sorted(places)
    assert all(f"  {name} " in said for name in IDS)


def test_drills_are_kept_line_by_line_and_half_a_line_is_passed_over(tmp_path):
    record = tmp_path / "mine.jsonl"
    words = ("drill", "--record", str(record), "--rounds", "3", "--seed", "4", "--machine", MACHINE)
    first = run(*words, typed="1\n1\n")
    assert first.exit_code == 0
    assert "Stopped here." in first.output
    assert f"2 attempts kept in {record}." in first.output
    with record.open("a", encoding="utf-8") as file:
        file.write('{"liftcalc school": 1, "at": "20')
    again = run(*words, typed="1\n")
    assert "line 3 was passed over" in again.output
    found = kept(record)
    assert len(found.attempts) == 3
    assert len(found.unread) == 1


def test_control_c_keeps_what_was_done(tmp_path, monkeypatch):
    record = tmp_path / "mine.jsonl"
    typed = iter(["1"])

    def read(_: str) -> str:
        try:
            return next(typed)
        except StopIteration:
            raise KeyboardInterrupt from None

    monkeypatch.setattr("builtins.input", read)
    done = run("drill", "--record", str(record), "--machine", MACHINE)
    assert done.exit_code == 0
    assert f"1 attempt kept in {record}." in done.output
    assert len(kept(record).attempts) == 1


def test_nothing_is_kept_without_a_file(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert school_cli.NOT_KEPT in run("drill", "--rounds", "1", typed="1\n").output
    assert list(tmp_path.iterdir()) == []


def test_a_file_of_another_kind_is_left_alone(tmp_path):
    other = tmp_path / "letter.txt"
    other.write_text("Dear Sir\n", "utf-8")
    done = run("drill", "--record", str(other), typed="1\n")
    assert isinstance(done.exception, InputError)
    assert "name another file" in str(done.exception)
    assert other.read_text("utf-8") == "Dear Sir\n"


def test_a_folder_that_is_not_there_is_told_before_anything_is_asked(tmp_path):
    done = run("drill", "--record", str(tmp_path / "no" / "mine.jsonl"), typed="1\n")
    assert "no such folder" in str(done.exception)
    assert "Your prediction" not in done.output


@pytest.mark.parametrize("name", [each for each in IDS if posed(each).after is not None])
def test_the_move_goes_from_before_to_after_without_a_jump(name):
    exercise = posed(name)
    made = steps(exercise)
    assert made[0].answer == exercise.before
    assert made[-1].answer == exercise.after
    assert len(made) in {2, STEPS}
    if len(made) == 2:
        assert name == "soaked", "only a word has no steps"


def practised(folder: Path) -> Path:
    record = folder / "mine.jsonl"
    run("drill", "--record", str(record), "--rounds", "12", "--machine", MACHINE, typed="1 \n" * 12)
    assert len(kept(record).attempts) == 12
    return record


def test_a_summary_says_what_it_is_not(tmp_path):
    record = practised(tmp_path)
    table, page = tmp_path / "all.csv", tmp_path / "page.pdf"
    said = run("summary", "--record", str(record), "--save", str(table)).output
    assert "not a qualification, and no certificate is issued" in flat(said)
    assert flat(CAUTION) in flat(said)
    rows = list(csv.reader(io.StringIO(table.read_text("utf-8"))))
    assert tuple(rows[0]) == COLUMNS
    assert len(rows) == 13
    assert all(len(row) == len(COLUMNS) for row in rows)
    assert run("summary", "--record", str(record), "--save", str(page)).exit_code == 0
    assert page.read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize(
    ("command", "kind"), [("school summary", "pdf"), ("limits", "pdf"), ("limits", "png")]
)
def test_a_picture_that_cannot_be_drawn_is_refused_in_words(command, kind, tmp_path):
    """Whatever command saves one, without the parts that draw: no traceback and no file."""
    if command == "limits":
        words = ["limits", "compact-centre-mount", "--end", "back", "--height", "1 m"]
    else:
        words = [*command.split(), "--record", str(practised(tmp_path))]
    save = tmp_path / f"page.{kind}"
    code = (
        f"import sys; sys.argv = {['liftcalc', *words, '--save', str(save)]}\n"
        "sys.modules['matplotlib'] = None\n"
        "from liftcalc.cli.main import main\nmain()"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout) == (2, "")
    assert f"given a .{kind} file; wanted matplotlib" in done.stderr
    assert "liftcalc[figures]" in done.stderr
    assert not save.exists()


def test_a_summary_of_nothing_is_refused(tmp_path):
    done = run("summary", "--record", str(tmp_path / "none.jsonl"))
    assert isinstance(done.exception, InputError)
    done = run("summary", "--record", str(tmp_path / "none.jsonl"), "--save", "page.doc")
    assert ".pdf, .csv" in str(done.exception)


@pytest.mark.parametrize(("word", "slow"), [("--no-working", []), ("--working", ["sympy"])])
def test_the_command_itself_runs_and_loads_nothing_slow_but_for_its_working(word, slow):
    code = (
        "import sys\n"
        f"sys.argv = ['liftcalc', 'school', 'lesson', 'which-line', '--seed', '1', '{word}']\n"
        "from liftcalc.cli.main import main\n"
        "try:\n    main()\nexcept SystemExit as end:\n    assert not end.code\n"
        "import json; print('LOADED', json.dumps(sorted("
        "{'sympy', 'matplotlib', 'streamlit', 'scipy'} & set(sys.modules))))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], input="a\n", capture_output=True, text=True, check=True
    )
    assert json.loads(done.stdout.rsplit("LOADED", 1)[1]) == slow
    assert "score" in done.stdout
