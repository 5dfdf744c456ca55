"""The command line: the answer as JSON, computed again from its evidence alone; faults; tables."""

from __future__ import annotations

import json
import math
import subprocess
import sys
from pathlib import Path

import pytest

from liftcalc.rules import CAUTION

LOG = ["--species", "European larch", "--length", "4.2 m", "--butt", "55 cm", "--mid", "49 cm",
       "--top", "44 cm"]  # fmt: skip
BACK = ["--end", "back", "--reach", "3.8 m", "--height", "3.1 m"]
FRONT = ["--end", "front", "--height", "1.5 m"]


def run(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "liftcalc.cli.main", *words],
        capture_output=True, text=True, check=False,
    )  # fmt: skip


def answer(*words: str) -> dict:
    done = run("check", *words, "--json", "--evidence")
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def cross(a, b):
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def dot(a, b):
    return sum(x * y for x, y in zip(a, b, strict=True))


def minus(a, b):
    return tuple(x - y for x, y in zip(a, b, strict=True))


def xyz(record):
    return record["x"], record["y"], record["z"]


CASES = [
    ("standard-sideshift", *BACK, "--slew", "75 deg", "--attachment", "lifting hook"),
    ("standard-sideshift", *BACK, "--slew", "-30 deg", "--sideshift", "0.4 m", "--slope", "4 deg",
     "--uphill", "120 deg"),
    ("standard-centre-mount", "--end", "back", "--reach", "3.2 m", "--height", "2.6 m",
     "--stance", "stabilisers+bucket", "--attachment",
     "log grab with rotator", "--slope", "1 in 12", "--uphill", "0 deg"),
    ("compact-centre-mount", "--end", "back", "--reach", "2.6 m", "--height", "5 ft 2 in",
     "--stance", "wheels"),
    ("standard-sideshift", *FRONT, "--attachment", "pallet forks", "--slope", "5 %", "--uphill",
     "90 deg"),
    ("small-tractor", "--end", "front", "--height", "0.9 m", "--attachment", "front lifting hook",
     "--accelerate-forward", "-1.5 m/s2"),
    ("standard-centre-mount", *FRONT, "--travelling", "--attachment", "multi-purpose jaw bucket"),
]  # fmt: skip


@pytest.mark.parametrize("words", CASES, ids=lambda w: f"{w[0]} {w[2]} {len(w)}")
def test_an_engineer_computes_every_capacity_again(words):
    """From the evidence alone: moments about each line, and virtual work of each ram."""
    got = answer(*words, *LOG)
    evidence = got["evidence"]
    gravity, load = xyz(evidence["gravity"]), xyz(evidence["lift_point"])
    lumps = [(lump["mass"], xyz(lump)) for lump in evidence["lumps"]]
    for line in evidence["lines"]:
        start, end = line["start"], line["end"]
        along = minus(end, start)
        unit = tuple(part / math.hypot(*along) for part in along)
        moment = sum(m * dot(cross(minus(at, start), gravity), unit) for m, at in lumps)
        per_kg = dot(cross(minus(load, start), gravity), unit)
        if per_kg < 0 < moment:
            assert line["tipping_load"] == pytest.approx(moment / -per_kg, rel=1e-9)
        else:
            assert line["tipping_load"] == (None if moment > 0 else 0.0)
    for ram in evidence["rams"]:
        pivot, base, rod = ram["pivot"], ram["base_pin"], ram["rod_pin"]
        assert ram["length"] == pytest.approx(math.dist(base, rod), rel=1e-12)
        # Square to the plane of the end: through the joint's three points, or the machine's side.
        out = minus((load[0], load[1], 0.0), (pivot[0], pivot[1], 0.0))
        if "front" in words:
            axis = (0.0, 1.0, 0.0)
            out = (1.0, 0.0, 0.0)
        else:
            size = math.hypot(*out)
            out = tuple(part / size for part in out)
            axis = cross((0.0, 0.0, 1.0), out)
        # Turning up carries `out` toward z: the moment about -axis.
        up = tuple(-part for part in axis)
        carried = [lump for lump in evidence["lumps"] if lump["name"] in ram["carries"]]
        links = sum(
            lump["mass"] * dot(cross(minus(xyz(lump), pivot), gravity), up) for lump in carried
        )
        assert ram["links_moment"] == pytest.approx(links, rel=1e-9, abs=1e-6)
        # The plane's own load: a log carried off the middle does not twist the ram.
        in_plane = tuple(
            p + dot(minus(load, pivot), out) * o for p, o in zip(pivot, out, strict=True)
        )
        in_plane = (in_plane[0], in_plane[1], load[2])
        per_kg = dot(cross(minus(in_plane, pivot), gravity), up)
        assert ram["load_moment_per_kg"] == pytest.approx(per_kg, rel=1e-9, abs=1e-9)
        if "bucket" not in ram["name"] and "tilt" not in ram["name"]:
            line_of_ram = tuple(part / ram["length"] for part in minus(rod, base))
            arm = dot(cross(minus(rod, pivot), line_of_ram), up)
            assert ram["moment_arm"] == pytest.approx(arm, rel=1e-9, abs=1e-12)
        area = math.pi / 4 * ram["bore"] ** 2
        ring = area - math.pi / 4 * ram["rod"] ** 2
        each = ram["count"] * ram["pressure"] * ram["efficiency"]
        sides = (each * area * ram["moment_arm"], -each * ring * ram["moment_arm"])
        upward, downward = max(sides), -min(sides)
        if upward + links <= 0 or downward - links <= 0:
            expected = 0.0
        else:
            expected = (upward + links) / -per_kg if per_kg < 0 else (downward - links) / per_kg
        assert ram["capacity"] == pytest.approx(expected, rel=1e-9)
    by_name = {each["name"]: each for each in got["criteria"]}
    tips = [line["tipping_load"] for line in evidence["lines"]]
    assert by_name["tipping"]["capacity_kg"] == min(t for t in tips if t is not None)


@pytest.mark.parametrize("words", CASES, ids=lambda w: f"{w[0]} {w[2]} {len(w)}")
def test_the_least_allowed_load_is_the_answer(words):
    got = answer(*words, *LOG, "--plate", "1.4 tonne")
    allowed = [each["allowed_kg"] for each in got["criteria"]]
    assert got["answer"]["allowed_kg"] == min(allowed) <= 1400
    names = [f"{each['name']} {each['where']}".strip() for each in got["criteria"]]
    assert got["answer"]["governs"] == names[allowed.index(min(allowed))]
    planning = got["log"]["mass_kg"]["planning"]
    for each in got["criteria"]:
        assert each["allowed_kg"] == pytest.approx(each["capacity_kg"] * each["factor"], rel=1e-12)
        used = (
            got["answer"]["load_factor"]
            * planning
            / (each["allowed_kg"] - got["answer"]["rigging_kg"])
        )
        assert each["utilisation"] == pytest.approx(used, rel=1e-12)
    assert got["answer"]["passes"] == (got["answer"]["utilisation"] <= 1)
    assert got["caution"] == CAUTION


@pytest.mark.parametrize("words", [BACK, FRONT], ids=["back", "front"])
def test_mass_of_the_lumps_is_that_of_the_weighbridge(words):
    """8000 kg weighed full, 75 kg of operator, and 120 kg of fuel unless gone is worse."""
    got = answer("standard-sideshift", *words, *LOG)
    names = {lump["name"] for lump in got["evidence"]["lumps"]}
    total = sum(lump["mass"] for lump in got["evidence"]["lumps"])
    weighed = 8000 + 75 - (0 if "fuel" in names else 120)
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
    done = run("check", "standrd", "--end", "bak", "--species", "larrch", "--length", "4", "--butt",
               "40 cm", "--top", "50 cm", "--reach", "4 ton", "--height", "nan")  # fmt: skip
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
            shipped.replace('link_length = "0.36 m"', 'link_length = "0.1 m"'), "close"),
    }  # fmt: skip
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
    ):
        done = run(*words)
        assert done.returncode == 0, done.stderr
        assert " ".join(CAUTION.split()) in " ".join(done.stdout.split())


def test_working_ends_in_the_figures_of_the_answer():
    got = answer("standard-sideshift", *BACK, *LOG)
    text = run("check", "standard-sideshift", *BACK, *LOG, "--working").stdout
    for each in got["criteria"]:
        assert f"= {each['capacity_kg']:.5g} kg"[:7] in text.replace(" kg", " kg")
    from liftcalc.working.steps import figure

    for value in (
        got["log"]["mass_kg"]["planning"],
        got["log"]["volume_m3"],
        got["log"]["cog_from_butt_m"],
        *(each["allowed_kg"] for each in got["criteria"]),
        *(each["utilisation"] for each in got["criteria"]),
    ):
        assert f"= {figure(value)}" in text


def test_imperial_shows_pounds_and_feet():
    text = run("check", "standard-sideshift", *BACK, *LOG, "--units", "imperial").stdout
    assert " lb" in text
    assert " ft" in text
    assert "allowed at lift point" in text
