"""A machine described in a conversation or in one line: files, slips, ranges, what pays next."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from typer.testing import CliRunner

from liftcalc.cli.main import command_line
from liftcalc.errors import InputError
from liftcalc.family.files import load
from liftcalc.family.known import KnownMachine
from tests.architecture.test_rooms import ROOT
from tests.helpers import ANSWERED, plain

app = command_line()


@pytest.fixture(autouse=True)
def in_a_folder_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def said(*words: str, typed: str = "") -> str:
    done = CliRunner().invoke(app, ["machine", *words], input=typed)
    assert done.exit_code == 0, done.exception
    return plain(done.output)


def machine() -> KnownMachine:
    found = load("my.toml")
    assert isinstance(found, KnownMachine)
    return found


def ranges(output: str) -> list[tuple[int, int]]:
    found = re.findall(r"up: ([\d ]+) kg \(may be up to ([\d ]+) kg\)", output)
    return [tuple(int(each.replace(" ", "")) for each in pair) for pair in found]  # type: ignore[misc]


def test_a_conversation_tells_after_each_answer_what_it_made_of_it() -> None:
    """Class, mount, ram; skipped, told, not understood, told anew; and the end at any time."""
    typed = "2\n\n\n7400 kg\n\n\n0.21\n210 bar\ndone\n"
    output = said("new", "my.toml", typed=typed)
    assert [each.key for each in machine().ensemble.told] == ["total", "working_pressure"]
    assert "the unit is missing" in output
    assert len(ranges(output)) == 4  # class alone, two facts, and at the end
    assert all(low <= high for low, high in ranges(output))
    assert "what pays next" in output


def test_facts_narrow_the_range() -> None:
    """From the class alone to a row of the chart: the careful end and the range itself."""
    typed = "2\n\n\n\n1150 kg ± 20 kg, reach 3.9 m, height 1 m\n\ndone\n"
    (low, high), *_, (last_low, last_high) = ranges(said("new", "my.toml", typed=typed))
    assert last_high - last_low < 0.6 * (high - low)


@pytest.mark.parametrize("typed", ["", "2\n", "2\ncentre mount\nbelow\n", "2\n\n\n7400 kg\n"])
def test_it_may_end_at_any_time_with_a_file_that_can_be_used(typed: str) -> None:
    done = CliRunner().invoke(app, ["machine", "new", "my.toml"], input=typed)
    if not typed:
        assert isinstance(done.exception, InputError)
        assert not Path("my.toml").exists()
        return
    assert done.exit_code == 0, done.exception
    kind = machine().ensemble.kind
    assert kind.of.name == "standard-sideshift"
    assert (kind.mount, kind.boom_ram) == (
        ("centre mount", "below") if "below" in typed else ("sideshift", "above")
    )


def test_a_file_of_facts_goes_on_and_one_of_figures_is_left_alone() -> None:
    said("new", "my.toml", "--class", "small-tractor", "--fact", "total=3000 kg")
    said("new", "my.toml", typed="\n\n\n\ndone\n")
    said("new", "my.toml", "--fact", "wheelbase=1.6 m")
    assert [each.key for each in machine().ensemble.told] == ["total", "wheelbase"]
    figures = (ROOT / "machines" / "small-tractor.toml").read_text("utf-8")
    Path("my.toml").write_text(figures, "utf-8")
    done = CliRunner().invoke(app, ["machine", "new", "my.toml", "--fact", "total=3000 kg"])
    assert "a file of all figures" in str(done.exception)
    assert Path("my.toml").read_text("utf-8") == figures


def test_rows_of_a_chart_are_told_one_after_another() -> None:
    rows = ["900 kg, reach 3 m, height 1 m", "650 kg, reach 4 m, height 1 m"]
    said("new", "my.toml", "--class", "standard-sideshift", "--fact", f"rated_back={rows[0]}")
    said("new", "my.toml", typed=f"\n{rows[1]}\n\ndone\n")
    assert [each.value for each in machine().ensemble.told if each.key == "rated_back"] == [
        900,
        650,
    ]
    assert [float(each.load) for each in machine().plate] == [900, 650]


def test_a_slip_is_named_with_what_was_likely_meant() -> None:
    """In the conversation it can be typed anew; in a file nothing holds by it."""
    typed = "2\n\n\n7400 kg\n\n\n3000 bar\n210 bar\ndone\n"
    output = said("new", "my.toml", typed=typed)
    assert "psi for bar" in output
    assert machine().ensemble.told[-1].value == pytest.approx(210e5)
    assert machine().slips == ()
    output = said("new", "my.toml", "--fact", "pad_spread=3.2 m")
    assert "3.20 m is unlikely in this class" in output
    assert [each.told.key for each in machine().slips] == ["pad_spread"]
    Path("my.toml").write_text(
        'class = "standard-sideshift"\npad_spread = "3.2 m ± 1 cm"\n', "utf-8"
    )
    assert machine().slips == ()


def test_facts_that_no_machine_has_are_refused_with_the_likely_slip() -> None:
    done = CliRunner().invoke(
        app,
        ["machine", "new", "my.toml", "--class", "standard-sideshift",
         "--fact", "boom_length=40 m", "--fact", "boom_ram_open=3.5 m"],
    )  # fmt: skip
    assert isinstance(done.exception, InputError)
    for fault in done.exception.faults:
        assert fault.field in {"boom_length", "boom_ram_open"}
        assert "such as" in fault.wanted
    assert not Path("my.toml").exists()


def test_facts_are_listed_and_ranked() -> None:
    listed = said("facts")
    assert "boom_ram_bore: boom ram, bore" in listed
    assert "± 10 mm" in listed
    said("new", "my.toml", "--class", "standard-sideshift", "--fact", "total=7400 kg")
    worths = [int(each) for each in re.findall(r" (\d+) kg  ", said("facts", "my.toml"))]
    assert worths == sorted(worths, reverse=True)
    assert worths[0] > 20


def test_what_the_readme_says_of_ones_own_machine_runs() -> None:
    """Its commands one after another, and in five typed facts at most."""
    text = (ROOT / "README.md").read_text("utf-8")
    section = text.split("## Your own machine in five minutes")[1].split("\n## ")[0]
    block = section.split("```")[1].replace("\\\n", " ")
    commands = [shlex.split(line, comments=True) for line in block.strip().splitlines()]
    assert len(commands) >= 4
    for command in commands:
        assert command[0] == "liftcalc"
        done = CliRunner().invoke(app, command[1:])
        assert done.exit_code in ANSWERED, (command, done.exception)
    assert "By what is known of this machine" in plain(done.output)
    assert sum(word == "--fact" for word in commands[0]) <= 5
