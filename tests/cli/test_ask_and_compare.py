"""`compare` and `ask` on the command line: JSON that the check gives again, faults, words."""

from __future__ import annotations

import json
import shlex
import subprocess
import sys

import pytest
import typer
from typer.testing import CliRunner

from liftcalc.cli.ask import ask
from liftcalc.cli.check import check
from liftcalc.cli.compare import compare
from liftcalc.errors import InputError
from liftcalc.factors import CAUTION
from liftcalc.requests.fields_of_commands import QUESTIONS
from liftcalc.units import SPACE
from tests.helpers import ANSWERED, plain

app = typer.Typer()
for command in (check, ask, compare):
    app.command()(command)

LOG = [
    "--species",
    "European larch",
    "--length",
    "4.2 m",
    "--butt",
    "55 cm",
    "--mid",
    "49 cm",
    "--top",
    "44 cm",
]
BACK = [
    "--end",
    "back",
    "--reach",
    "3.8 m",
    "--height",
    "2 m",
    "--slew",
    "80 deg",
    "--attachment",
    "lifting hook",
]
CLEAR = ["--sling-length", "2.3 m", "--hangs-level", "--devices", "fitted", "--breakout", "1"]
BACK += CLEAR
GROUND = ["--ground", "firm clay"]
PLACES = [
    "--pick-height",
    "0.1 m",
    "--pick-reach",
    "3.5 m",
    "--set-height",
    "1.2 m",
    "--set-reach",
    "3 m",
    "--set-slew",
    "75 deg",
    "--back-attachment",
    "lifting hook",
]


def run(*words: str):
    return CliRunner().invoke(app, list(words))


def told(*words: str) -> dict:
    done = run(*words, "--json")
    assert done.exit_code in ANSWERED, done.output
    return json.loads(done.output)


def faults(*words: str) -> list[str]:
    done = run(*words)
    assert isinstance(done.exception, InputError), done.output
    return sorted(each.field for each in done.exception.faults)


def option(name: str, value: float, unit: str) -> list[str]:
    return [f"--{name}", f"{value:.9f} {unit}"]


def passes(*words: str) -> bool:
    return told("check", "standard-sideshift", *LOG, *words)["answer"]["passes"]


@pytest.mark.parametrize("question", QUESTIONS)
def test_every_question_is_answered_in_words_and_as_json(question):
    words = ["ask", question, "standard-sideshift", *LOG, *BACK, "--ground", "rock"]
    made = told(*words)
    assert made["question"] == question
    assert made["caution"] == CAUTION
    shown = run(*words)
    assert shown.exit_code in ANSWERED
    assert QUESTIONS[question] in shown.output
    assert "What would buy more" in shown.output
    assert " ".join(CAUTION.split()) in " ".join(shown.output.split())


def test_the_farthest_reach_needs_no_reach_and_check_agrees_with_it():
    words = ["--end", "back", "--height", "2 m", "--slew", "80 deg", "--attachment", "lifting hook"]
    words += CLEAR
    made = told("ask", "farthest", "standard-sideshift", *LOG, *words)
    (answer,) = made["answers"]
    assert "reach" not in made["understood"]
    assert passes(*words, *option("reach", answer["value"], "m"))
    assert not passes(*words, *option("reach", answer["beyond_value"], "m"))


def test_the_highest_lift_needs_no_height_and_check_agrees_with_it():
    words = ["--end", "front", "--attachment", "pallet forks"]
    made = told("ask", "highest", "standard-sideshift", *LOG, *words)
    (answer,) = made["answers"]
    assert "height" not in made["understood"]
    assert passes(*words, *option("height", answer["value"], "m"))


def test_the_pressure_and_the_slope_are_those_of_the_check():
    near = [
        "--end",
        "back",
        "--reach",
        "3.4 m",
        "--height",
        "2 m",
        "--slew",
        "40 deg",
        "--attachment",
        "lifting hook",
        *CLEAR,
    ]
    (slope,) = told("ask", "steepest", "standard-sideshift", *LOG, *near)["answers"]
    for heading in range(-180, 180, 20):
        said = [*option("slope", slope["value"], "rad"), f"--uphill={heading} deg"]
        assert passes(*near, *said)
    (stated,) = told("ask", "steepest", "standard-sideshift", *LOG, *near, "--uphill=-90 deg")[
        "answers"
    ]
    beyond = [*option("slope", stated["beyond_value"], "rad"), "--uphill=-90 deg"]
    assert not passes(*near, *beyond)
    (bar,) = told("ask", "pressure", "standard-sideshift", *LOG, *near)["answers"]
    assert passes(*near, *option("pressure", bar["value"] / 1e5, "bar"))
    assert not passes(*near, *option("pressure", bar["value"] / 1e5 - 1, "bar"))


def test_the_carrying_height_is_one_that_check_passes_on_the_move():
    words = [
        "--end",
        "front",
        "--attachment",
        "pallet forks",
        "--speed",
        "3 km/h",
        "--turn-radius",
        "6 m",
        "--braking",
        "0.4 m/s2",
        "--ground",
        "hard standing",
    ]
    (answer,) = told("ask", "carry", "standard-sideshift", *LOG, *words)["answers"]
    made = told(
        "check",
        "standard-sideshift",
        *LOG,
        *words,
        "--travelling",
        *option("height", answer["value"], "m"),
    )["answer"]
    assert made["passes"]
    assert answer["details"]["allowed on the lift point there"] == made["allowed_kg"]
    assert any("In a turn of 6.0 m" in plain(each) for each in answer["notes"])
    assert faults("ask", "carry", "standard-sideshift", *LOG, *BACK, "--lifted", "drawn") == [
        "lifted"
    ]


def test_the_mat_is_one_on_which_check_has_the_ground_hold():
    (answer,) = told("ask", "pads", "standard-sideshift", *LOG, *BACK, *GROUND)["answers"]

    def ground(side: float) -> list[bool]:
        made = told("check", "standard-sideshift", *LOG, *BACK, *GROUND, *option("mat", side, "m"))
        under = [each for each in made["criteria"] if each["name"] == "ground"]
        assert len(under) == 2
        return [each["utilisation"] is not None and each["utilisation"] <= 1 for each in under]

    assert all(ground(answer["value"]))
    assert not all(ground(answer["beyond_value"]))


def test_the_chain_is_told_for_what_hangs_and_refused_for_what_is_held():
    (answer,) = told(
        "ask",
        "chain",
        "standard-sideshift",
        *LOG,
        *BACK,
        "--sling",
        "two legs",
        "--leg-spread",
        "1.2 m",
        "--sling-length",
        "3 m",
    )["answers"]
    places = answer["details"]
    assert (
        places["leg nearer the top, from the butt"] - places["leg nearer the butt, from the butt"]
    ) == pytest.approx(1.2)
    assert faults(
        "ask",
        "chain",
        "standard-sideshift",
        *LOG,
        "--end",
        "front",
        "--height",
        "1 m",
        "--attachment",
        "pallet forks",
    ) == ["lift-point"]


def test_one_piece_or_both():
    words = ["ask", "longest", "standard-sideshift", *LOG, *BACK]
    assert len(told(*words)["answers"]) == 2
    assert len(told(*words, "--keep", "top")["answers"]) == 1


def test_ballast_where_it_was_said():
    words = ["ask", "ballast", "standard-sideshift", *LOG, *BACK]
    at = ["--ballast-ahead", "1 m", "--ballast-left=-0.9 m", "--ballast-up", "0.7 m"]
    (answer,) = told(*words, *at)["answers"]
    assert answer["details"]["to the left of the middle"] == -0.9
    assert answer["at"]["passes"]
    assert not answer["beyond"]["passes"]
    assert faults(*words, *at[:2]) == ["ballast-left", "ballast-up"]


def test_faults_of_question_ground_and_log_are_told_together():
    assert faults("ask", "fartest", "standard-sideshift", *BACK) == [
        "butt and top",
        "length",
        "question",
        "species",
    ]
    assert faults("ask", "pads", "standard-sideshift", *LOG, *BACK) == ["ground"]
    assert faults("ask", "pads", "standard-sideshift", *LOG, *BACK, "--ground", "custard") == [
        "ground"
    ]
    assert faults(
        "ask", "farthest", "standard-sideshift", *LOG, "--end", "front", "--height", "1 m"
    ) == ["reach of the front end"]


def test_each_place_of_a_comparison_is_a_check_that_can_be_run():
    made = told("compare", "standard-sideshift", *LOG, *PLACES)
    count = 0
    for name, end in made["ends"].items():
        worst = []
        for place in end["places"].values():
            words = shlex.split(place["check"])
            assert words[:2] == ["liftcalc", "check"]
            again = told(*words[1:])["answer"]
            assert again["allowed_kg"] == pytest.approx(place["allowed_kg"], rel=1e-5)
            assert again["governs"] == place["stopped_by"]
            assert again["lowest_point_m"] == pytest.approx(place["underside_m"], abs=1e-5)
            worst.append(again["allowed_kg"])
            count += 1
        assert end["allowed_kg"] == pytest.approx(min(worst), rel=1e-5)
        assert end["drives"] is (name == "front")
    assert count == 4
    assert made["recommended"] is None  # ground, gear and what is near were not said
    assert made["answer"]["judgement"] == "open"


def test_a_comparison_in_words_with_its_commands():
    done = run("compare", "standard-sideshift", *LOG, *PLACES, "--bunk-width", "2 m", "--working")
    assert done.exit_code in ANSWERED, done.output
    for part in (
        "front end",
        "back end",
        "at pick-up",
        "at set-down",
        "To find out first",
        "liftcalc check standard-sideshift",
        "counts only if",
    ):
        assert part in done.output
    assert " ".join(CAUTION.split()) in " ".join(done.output.split())
    pounds = run("compare", "standard-sideshift", *LOG, *PLACES, "--units", "imperial").output
    assert f"{SPACE}lb" in pounds
    assert f"{SPACE}kg" not in pounds.split("Warnings", maxsplit=1)[0].replace(
        pounds.split("this log", maxsplit=1)[0], ""
    )


def test_faults_of_a_comparison():
    assert faults("compare", "standard-sideshift", *LOG) == [
        "pick-height",
        "pick-reach",
        "set-height",
    ]
    assert "machine" in " ".join(faults("compare", "no-such-machine", *LOG, *PLACES))


@pytest.mark.parametrize("words", [["ask", "fartest", "standard-sideshift"], ["compare", "none"]])
def test_faults_end_in_status_two_and_say_what_was_wanted(words):
    done = subprocess.run(
        [sys.executable, "-m", "liftcalc.cli.main", *words],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert "wanted" in done.stderr
    assert not done.stdout


TOLD = ["--slew", "0 deg", "--height", "2.4 m", *CLEAR, "--sling-kind", "chain grade 80",
        "--sling-size", "13 mm", "--hook-wll", "5 t", "--shackle-wll", "none", "--hitch-wll", "5 t",
        "--ground", "concrete", "--attachment", "lifting hook", "--end", "back"]  # fmt: skip


@pytest.mark.parametrize(
    ("more", "status"),
    [([], 0), (["--ground", ""], 3), (["--mass", "30 t ± 1 kg"], 1)],
    ids=["found", "to be told", "none"],
)
def test_a_question_ends_as_a_check_does(more: list[str], status: int):
    """0: an answer, and nothing to be told; 3: one that waits for something; 1: there is none."""
    near = ["--wires", "none", "--edge", "none", "--people", "none"]
    done = run("ask", "farthest", "standard-sideshift", *LOG, *TOLD, *near, *more)
    assert done.exit_code == status, done.output
    assert ("what ground" in done.output) is (status == 3)


def test_no_lift_point_that_is_asked_for_is_in_the_ground():
    """Of a log too heavy anywhere the height named is that of a hook above the ground."""
    words = ["--end", "back", "--reach", "3 m", "--slew", "0 deg", "--attachment", "lifting hook"]
    made = told("ask", "highest", "standard-sideshift", *LOG, *words, "--mass", "30 t ± 1 kg")
    (answer,) = made["answers"]
    assert answer["value"] is None
    assert answer["at"]["height_m"] >= 0
