"""The command line: the table, the working, faults; the evidence has a file of its own."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from liftcalc.factors import CAUTION
from tests.helpers import ANSWERED, plain

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
BACK = ["--end", "back", "--reach", "3.8 m", "--height", "3.1 m"]
FRONT = ["--end", "front", "--height", "1.5 m"]


def run(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "liftcalc.cli.main", *words],
        capture_output=True,
        text=True,
        check=False,
    )


def answer(*words: str) -> dict:
    done = run("check", *words, "--json", "--evidence")
    assert done.returncode in ANSWERED, done.stderr
    return json.loads(done.stdout)


@pytest.mark.parametrize("words", [BACK, FRONT], ids=["back", "front"])
def test_mass_of_the_lumps_is_that_of_the_weighbridge(words):
    """8000 kg weighed full; 75 kg of operator and 120 kg of fuel unless gone is worse."""
    end = "back" if "front" in words else "front"
    tool = {"back": "digging bucket", "front": "multi-purpose jaw bucket"}[end]
    got = answer("standard-sideshift", *words, *LOG, "--other-attachment", tool)
    names = {lump["name"] for lump in got["evidence"]["lumps"]}
    total = sum(lump["mass"] for lump in got["evidence"]["lumps"])
    weighed = 8000 + (75 if "operator" in names else 0) - (0 if "fuel" in names else 120)
    assert total == pytest.approx(weighed, abs=1e-6)
    assert any("since it tips sooner so" in each for each in got["assumed"])


FAULTS = {
    "wrong unit kind": (["--reach", "4 kg"], "understood as a mass"),
    "ambiguous unit": (["--plate", "1 ton"], "short ton"),
    "nan": (["--height", "nan m"], "not a number"),
    "negative": (["--reach", "-4 m"], "more than zero"),
    "bare number": (["--reach", "4"], "unit is missing"),
    "comma": (["--length", "4,2 m"], "no commas"),
    "butt smaller than top": (["--butt", "30 cm"], "change the two about"),
    "out of reach": (["--reach", "7.5 m"], "reach of boom and dipper"),
    "ram beyond stroke": (["--reach", "1.0 m", "--height", "1.0 m"], "stroke of the"),
    "unknown species": (["--species", "larrch"], "did you mean"),
    "unknown attachment": (["--attachment", "liftin hook"], "did you mean lifting hook"),
    "beyond slew": (["--slew", "120 deg"], "slew"),
    "beyond sideshift": (["--sideshift", "0.9 m"], "sideshift"),
    "slope without heading": (["--slope", "4 deg"], "uphill"),
    "bucket that cannot press": (
        ["--stance", "stabilisers and bucket", "--other-attachment", "pallet forks"], "pressed"),
    "sling too short": (["--sling-length", "1 m"], "round the log"),
    "unknown display": (["--units", "furlongs"], "metric"),
}  # fmt: skip


@pytest.mark.parametrize("name", FAULTS)
def test_bad_input_is_said_in_plain_words(name):
    extra, said = FAULTS[name]
    words = {}
    for key, value in zip([*BACK, *LOG][::2], [*BACK, *LOG][1::2], strict=True):
        words[key] = value
    words.update(dict(zip(extra[::2], extra[1::2], strict=True)))
    flat = [part for pair in words.items() for part in pair]
    done = run("check", "standard-sideshift", *flat)
    assert done.returncode == 2
    assert done.stdout == ""
    assert said in done.stderr
    assert "Traceback" not in done.stderr


def test_faults_are_listed_together():
    done = run(
        "check",
        "standrd",
        "--end",
        "bak",
        "--species",
        "larrch",
        "--length",
        "4",
        "--butt",
        "40 cm",
        "--top",
        "50 cm",
        "--reach",
        "4 ton",
        "--height",
        "nan",
    )
    assert done.returncode == 2
    for field in ("end:", "machine:", "species:", "length:", "butt:", "height:", "reach:"):
        assert field in done.stderr


def test_a_front_reach_farther_than_the_arms_is_refused_and_a_nearer_one_warned_of():
    far = run("check", "standard-sideshift", *FRONT, "--reach", "3 m", *LOG)
    assert far.returncode == 2
    assert "the arms decide" in far.stderr
    near = answer("standard-sideshift", *FRONT, "--reach", "0.5 m", *LOG)
    assert any("for the farther" in each for each in near["warnings"])
    assert near["answer"]["reach_m"] > 0.5


def test_malformed_and_contradictory_machine_files(tmp_path: Path):
    shipped = Path("machines/standard-sideshift.toml").read_text(encoding="utf-8")
    bad = {
        "torn": (shipped.replace("[weights]", "[weights", 1), "not TOML"),
        "axles": (shipped.replace('front_axle = "3200 kg"', 'front_axle = "4200 kg"'), "add up"),
        "open linkage": (
            shipped.replace('link_length = "0.36 m"', 'link_length = "0.1 m"'),
            "close",
        ),
    }
    for name, (text, said) in bad.items():
        assert text != shipped
        file = tmp_path / f"{name}.toml"
        file.write_text(text, encoding="utf-8")
        for command in (["machine", "check", str(file)], ["check", str(file), *BACK, *LOG]):
            done = run(*command)
            assert done.returncode == 2, (name, done.stdout)
            assert said in done.stderr, done.stderr
            assert file.name in done.stderr


def test_every_command_that_answers_carries_the_caution():
    for words in (
        ["demo"],
        ["demo", "--json"],
        ["check", "standard-sideshift", *BACK, *LOG],
        ["log", *LOG],
        ["log", *LOG, "--json"],
        ["machines"],
        ["machine", "check", "small-tractor"],
        # The figures of an ordinary weighing, level and with the front raised.
        [
            "machine",
            "weigh",
            "--total",
            "8000 kg",
            "--front-level",
            "3200 kg",
            "--front-raised",
            "3050 kg",
            "--raised-by",
            "0.5 m",
            "--wheelbase",
            "2.2 m",
            "--front-radius",
            "0.5 m",
            "--rear-radius",
            "0.7 m",
        ],
    ):
        done = run(*words)
        assert done.returncode in ANSWERED, done.stderr
        assert " ".join(CAUTION.split()) in " ".join(done.stdout.split())


def test_working_ends_in_the_figures_of_the_answer():
    got = answer("standard-sideshift", *BACK, *LOG)
    text = run("check", "standard-sideshift", *BACK, *LOG, "--working").stdout
    for each in got["criteria"]:
        if each["capacity_kg"] is None or "said" in each:
            continue  # no load comes to it, or decides it: its section says so in words
        assert f"= {each['capacity_kg']:.5g} kg"[:7] in text.replace(" kg", " kg")
    from liftcalc.working.rows import figure

    loads = [e for e in got["criteria"] if e["capacity_kg"] is not None and "said" not in e]
    for value in (
        got["log"]["mass_kg"]["planning"],
        got["log"]["volume_m3"],
        got["log"]["cog_from_butt_m"],
        *(each["allowed_kg"] for each in loads),
        *(each["utilisation"] for each in loads),
    ):
        assert f"= {figure(value)}" in text


def test_imperial_shows_pounds_and_feet():
    text = plain(run("check", "standard-sideshift", *BACK, *LOG, "--units", "imperial").stdout)
    assert " lb" in text
    assert " ft" in text
    assert "allowed at lift point" in text


SAID = [
    "--faults",
    "none",
    "--slew",
    "0 deg",
    "--ground",
    "firm clay",
    "--mat",
    "1 m",
    "--sling-kind",
    "chain grade 80",
    "--sling-size",
    "10 mm",
    "--hook-wll",
    "2 t",
    "--shackle-wll",
    "none",
    "--hitch-wll",
    "2 t",
    "--rules",
    "uk",
    "--wires",
    "14 m",
    "--wires-on",
    "wood poles",
    "--edge",
    "3 m",
    "--edge-depth",
    "1 m",
    "--people",
    "none",
    "--plate",
    "1.5 tonne",
]


def shown(*words: str) -> list[str]:
    done = run("check", "standard-sideshift", *words, *LOG)
    assert done.returncode in ANSWERED, done.stderr
    return plain(done.stdout).splitlines()


def test_what_was_not_said_stands_right_under_the_verdict():
    lines = shown(*BACK)
    start = lines.index("Not said, so not checked")
    assert start <= 9
    assert "cannot be said yet" in " ".join(lines[:start])
    before = " ".join(lines[start : lines.index("Warnings")])
    for words in ("what ground", "hook-wll", "overhead wires", "nearest person", "plate or chart"):
        assert words in " ".join(before.split())
    told = shown(*BACK, *SAID)
    assert "Not said, so not checked" not in told
    got = answer("standard-sideshift", *BACK, *SAID, *LOG)
    assert got["unchecked"] == []
    assert answer("standard-sideshift", *BACK, *LOG)["unchecked"]


def test_distances_are_told_as_distances_and_no_load_is_told_in_words():
    still = ("--swing", "0 deg", "--slew-speed", "0 deg/s", "--slew-stop", "1 s", "--wind", "0 m/s")
    words = (*BACK, *SAID, *still, "--attachment", "lifting hook")
    text = "\n".join(shown(*words))
    got = answer("standard-sideshift", *words, *LOG)
    wires = next(each for each in got["criteria"] if each["name"] == "overhead wires")
    assert wires["needs_m"] == 10
    assert wires["has_m"] == pytest.approx(14 - 3.8 - (4.2 - got["log"]["cog_from_butt_m"]))
    assert "needs 10.00 m, has 7.94 m" in text
    assert "needs 1.00 m, has 3.00 m" in text
    assert "has any" in text
    assert "of what was not said: overhead wires: needs 10.00 m, has 7.94 m." in text
    feet = "\n".join(shown(*words, "--units", "imperial"))
    assert "needs 32.81 ft, has 26.05 ft" in feet
    assert "fails with no load at all" in "\n".join(shown(*BACK, "--ground", "soft clay"))
    sloping = shown(*BACK, "--slope", "2 deg", "--uphill=0 deg")
    assert "no load here comes to it" in "\n".join(sloping)


def test_every_foot_is_told_with_its_pressure_and_the_plate_it_needs():
    lines = shown(*BACK, *SAID)
    ground = answer("standard-sideshift", *BACK, *SAID, *LOG)["ground"]
    for foot in ground["feet"]:
        (line,) = (each for each in lines if each.startswith(f"  {foot['name']} "))
        figures = [
            float(each)
            for each in line[40:].replace("kN", "").replace("kPa", "").split()
            if each.replace(".", "").isdigit()
        ]
        assert 0 <= figures[1] - foot["worst_N"] / 1e3 <= 0.1
        assert 0 <= figures[2] - foot["pressure_Pa"] / 1e3 <= 0.1
        if "stabiliser" in foot["name"]:
            assert 0 <= figures[3] - foot["needed_m2"] ** 0.5 <= 0.01


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_the_table_keeps_within_a_hundred_columns(units):
    for words in (
        [*BACK, *SAID],
        [*BACK, "--stance", "wheels", "--ground", "dense gravel"],
        [
            *FRONT,
            "--travelling",
            "--speed",
            "4 km/h",
            "--turn-radius",
            "6 m",
            "--ground",
            "rock",
            "--slope",
            "3 deg",
            "--uphill",
            "60 deg",
        ],
    ):
        lines = shown(*words, "--units", units)
        table = lines[: lines.index("Understood")]
        assert max(map(len, table)) <= 100, max(table, key=len)
