"""`liftcalc limits`: maps as text, files whole or not at all, faults in words."""

from __future__ import annotations

import json
import math
import re
import subprocess
import sys
from dataclasses import replace

import pytest

from liftcalc.factors import CAUTION
from liftcalc.maps.export import table_of
from liftcalc.maps.find import find_limits
from liftcalc.maps.limits import ON_GROUND, limits_back
from liftcalc.maps.warnings import limits_warnings
from liftcalc.reports.map_words import map_name, share_words
from liftcalc.requests.fields_of_commands import LimitsRequest
from liftcalc.requests.limits import parse_limits
from liftcalc.rigging.gear import Gear
from liftcalc.rigging.lift_mode import LiftMode
from liftcalc.rigging.sling import Sling
from liftcalc.site.ground import ground
from liftcalc.site.hazards import Hazards
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from tests.exported import read_csv, read_json
from tests.helpers import ANSWERED, lift, told

LOG = ["--species", "European larch", "--length", "4.2 m", "--mid", "49 cm"]
BACK = ["standard-sideshift", "--end", "back", "--attachment", "lifting hook", "--slew", "40 deg"]
BACK += ["--sling-length", "2.3 m", "--hangs-level", "--devices", "fitted"]
FRONT = ["standard-centre-mount", "--end", "front"]
ONE = [*FRONT, "--attachment", "pallet forks"]


def run(*words: str, code: str = "") -> subprocess.CompletedProcess[str]:
    start = ["-c", code] if code else ["-m", "liftcalc.cli.main"]
    return subprocess.run(
        [sys.executable, *start, "limits", *words], capture_output=True, text=True, check=False
    )


def plain(text: str) -> str:
    return " ".join(text.split())


def test_the_back_end_as_text():
    done = run(*BACK, *LOG)
    assert done.returncode in ANSWERED, done.stderr
    said = plain(done.stdout)
    for words in (
        CAUTION,
        "Reach by height, slewed 40° to the left",
        "Slew by reach",
        "This log, to plan on",
        "lift point (hook on the dipper nose)",
        "not within reach",
        "Left and right are",
        "invented class",
    ):
        assert words in said
    assert max(map(len, done.stdout.splitlines())) <= 160


def test_letters_in_the_map_are_in_its_legend():
    lines = run(*BACK).stdout.splitlines()
    start = next(i for i, line in enumerate(lines) if line.startswith("Reach by height"))
    end = next(i for i, line in enumerate(lines) if line.startswith("Slew by reach"))
    part = "\n".join(lines[start:end])
    used = set(re.findall(r"\d+([a-z])[~ \n]", part))
    legend = set(re.findall(r"^  ([a-z])   \S", part, re.MULTILINE))
    assert used
    assert used == legend
    assert set(re.findall(r" \((\d)\)(?= |$)", part, re.MULTILINE)) == set(
        re.findall(r"^  \((\d)\) not within", part, re.MULTILINE)
    )


def test_without_a_log_the_output_says_what_stands_in_for_one():
    assert "no log was given; for one that hangs" in plain(run(*BACK).stdout)
    said = plain(run(*ONE).stdout)
    assert "a stand-in 4 m long and 50 cm thick" in said
    assert "this log" not in said


def test_every_front_attachment_is_mapped_when_none_is_named():
    said = run(*FRONT, "--units", "imperial").stdout
    for name in ("wide front shovel", "pallet forks", "front lifting hook"):
        assert name in said
    assert "[lb]" in said
    assert "[kg]" not in said
    assert CAUTION in plain(said)


def test_files_are_written_and_hold_the_same_grid(tmp_path):
    names = [tmp_path / f"map.{kind}" for kind in ("svg", "png", "pdf", "csv", "json")]
    free = ("--breakout", "1", "--hangs-level", "--devices", "fitted")
    done = run(*BACK, *LOG, *free, *(word for name in names for word in ("--save", str(name))))
    assert done.returncode in ANSWERED, done.stderr
    assert sorted(each.name for each in tmp_path.iterdir()) == sorted(n.name for n in names)
    assert b"Nobody under" in names[0].read_bytes()
    table = read_csv(names[3].read_text())
    printed = read_json(run(*BACK, *LOG, *free, "--json").stdout)
    assert printed == read_json(names[4].read_text())
    assert set(printed) == {"side", "plan"}
    assert printed["side"].rows + printed["plan"].rows == table.rows
    assert {each.log_passes for each in table.rows} >= {"yes", "no", ON_GROUND}


def height_of(name) -> float:
    """Of the first page of a PDF [pt]."""
    (box,) = re.findall(rb"/MediaBox \[ 0 0 [\d.]+ ([\d.]+) \]", name.read_bytes())
    return float(box)


def test_a_picture_holds_every_map_unless_one_view_is_asked_for(tmp_path):
    heights = {}
    for view in ("", "side", "plan"):
        names = [tmp_path / f"{view or 'all'}.{kind}" for kind in ("svg", "pdf")]
        chosen = ["--view", view] if view else []
        saved = [word for name in names for word in ("--save", str(name))]
        assert run(*BACK, *LOG, *chosen, *saved).returncode in ANSWERED
        drawn = names[0].read_text()
        assert ("Reach by height" in drawn) == (view in ("", "side"))
        assert ("Slew by reach" in drawn) == (view in ("", "plan"))
        heights[view] = height_of(names[1])
    assert heights[""] > 1.2 * max(heights["side"], heights["plan"])


def test_the_headline_tells_each_map_its_own_share():
    """Once it was 100 %, of the side map alone, over a plan map that mostly refused the log."""
    said = plain(run(*BACK, *LOG, "--height", "1.9 m").stdout)
    found = parse_limits(
        LimitsRequest(
            machine="standard-sideshift",
            end="back",
            attachment="lifting hook",
            slew="40 deg",
            height="1.9 m",
            species="European larch",
            length="4.2 m",
            mid="49 cm",
            sling_length="2.3 m",
            hangs_level=True,
            devices="fitted",
        )
    )
    limits = find_limits(found)
    for each in limits.maps:
        assert plain(f"{map_name(each, 'metric')}: {share_words(each)}") in said
    assert share_words(limits.side) != share_words(limits.plan)


def test_a_log_on_the_ground_is_a_letter_and_a_line_of_the_legend():
    with_log, without = (run(*BACK, *words).stdout for words in (LOG, []))
    assert "(g)" in with_log
    assert f"  (g) {ON_GROUND}" in with_log
    assert "(g)" not in without
    assert ON_GROUND not in without


@pytest.mark.parametrize(
    ("view", "words"),
    [("plan", "Slew by reach"), ("steps", "left for a log"), ("side", "Reach by height")],
)
def test_a_view_chooses_the_picture(tmp_path, view, words):
    name = tmp_path / "x.svg"
    assert run(*BACK, "--view", view, "--save", str(name)).returncode in ANSWERED
    assert words in name.read_text()


def test_a_front_curve_as_csv_has_the_reach_that_follows(tmp_path):
    name = tmp_path / "x.csv"
    assert run(*ONE, "--height-step", "0.25 m", "--save", str(name)).returncode in ANSWERED
    rows = [each for each in read_csv(name.read_text()).rows if each.allowed_kg is not None]
    assert len(rows) > 5
    assert all(each.reach_from_m < each.reach_to_m for each in rows)
    assert all(each.height_to_m - each.height_from_m == pytest.approx(0.25) for each in rows)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ([*BACK, "--save", "x.doc"], "a file name that ends in"),
        ([*BACK, "--view", "curve"], "one of side, plan, steps"),
        ([*BACK, "--reach-step", "3"], "the unit is missing"),
        ([*BACK, "--height", "9 m"], "beyond the straight arm"),
        ([*BACK, "--sideshift", "2 m"], "sideshift: given"),
        ([*BACK, "--species", "European larch"], "length"),
        ([*BACK, "--units", "cubits"], "metric or imperial"),
        ([*FRONT, "--slew", "20 deg"], "they move the back end"),
        (["no-such-machine", "--end", "back"], "no-such-machine"),
    ],
    ids=lambda w: " ".join(w) if isinstance(w, list) else "",
)
def test_faults_are_said_in_words(words, said):
    done = run(*words)
    assert done.returncode == 2
    assert said in done.stderr
    assert "Traceback" not in done.stderr
    assert done.stdout == ""


def test_several_faults_come_together():
    done = run(*BACK, "--units", "cubits", "--reach-step", "3", "--save", "x.doc")
    assert "3 things need putting right" in done.stderr


def test_nothing_is_written_when_one_file_cannot_be(tmp_path):
    good, bad = tmp_path / "a.csv", tmp_path / "none" / "b.json"
    good.write_text("kept")
    done = run(*BACK, "--save", str(good), "--save", str(bad))
    assert done.returncode == 2
    assert "a place that can be written to" in done.stderr
    assert good.read_text() == "kept"
    assert [each.name for each in tmp_path.iterdir()] == ["a.csv"]


def test_a_table_of_several_attachments_asks_for_one(tmp_path):
    done = run(*FRONT, "--save", str(tmp_path / "a.csv"))
    assert done.returncode == 2
    assert "one attachment for a .csv file" in done.stderr
    assert not list(tmp_path.iterdir())


HEAVY = ("matplotlib", "sympy", "streamlit", "pint", "scipy")


def test_a_plain_answer_and_a_table_load_nothing_heavy(tmp_path):
    code = (
        "import sys\nfrom liftcalc.cli.main import main\n"
        "try:\n    main()\nexcept SystemExit as done:\n    assert done.code in {0, 1, 3}\n"
        f"print([m for m in {HEAVY!r} if m in sys.modules], file=sys.stderr)"
    )
    done = run(*BACK, "--save", str(tmp_path / "a.csv"), code=code)
    assert done.stderr.strip().endswith("[]"), done.stderr


def test_json_is_plain_and_carries_the_caution():
    made = json.loads(run(*ONE, "--json").stdout)
    assert made["caution"] == CAUTION
    assert list(made["tables"]) == ["pallet forks, on the forks"]


def test_what_was_not_said_stands_over_the_map():
    for words in (BACK, ONE):
        done = run(*words)
        head = done.stdout[: done.stdout.index("This is advice")]
        assert "Not said, so not checked" in head
        assert "what ground" in plain(head)
        assert done.stdout.count("what ground the machine stands on") == 1


CHANGES = {
    "swing": {"swing": 0.1},
    "ground": {"ground": ground("firm clay")},
    "mat": {"mat": 1.0},
    "gear": {"gear": Gear(kind="chain grade 80", size=0.01)},
    "hook": {"gear": Gear(hook_wll=2000.0)},
    "no shackle": {"gear": Gear(shackle_wll=math.inf)},
    "sling": {"sling": Sling(length=3.3)},
    "slung off balance": {"sling": Sling(at=1.1)},
    "one end": {"taken": LiftMode(way="one end")},
    "breakout": {"taken": LiftMode(breakout=1.4)},
    "slewing": {"motion": Motion(slew_speed=0.2, slew_stop=1.0)},
    "friction": {"motion": Motion(friction=0.3)},
    "sinkage": {"motion": Motion(sinkage=0.1)},
    "wires": {"hazards": Hazards(rules="uk", wires_distance=20.0)},
    "no wires": {"hazards": Hazards(rules="uk", wires_distance=math.inf)},
    "edge": {"hazards": Hazards(edge_distance=3.0, edge_depth=1.0)},
    "people": {"hazards": Hazards(people_distance=9.0)},
    "levelled": {"site": Site(slope=0.05, levelled=True)},
}


def test_all_that_a_map_rests_on_is_at_its_head():
    """Change any one thing and the head of the file changes with it, whatever was typed."""
    asked = lift("standard-sideshift", tool="lifting hook")
    made = limits_back(asked).side
    plainly = table_of(made).inputs
    assert plainly == table_of(replace(made, lift=asked)).inputs
    heads = {
        name: table_of(replace(made, lift=replace(asked, **change))).inputs
        for name, change in CHANGES.items()
    }
    for name, head in heads.items():
        assert head != plainly, name
    assert len(set(heads.values())) == len(heads)
    assert ("not said, so not checked", "what ground the machine stands on") in plainly
    assert ("ground", "not said") in plainly
    assert ("shackle_wll_kg", "none there") in heads["no shackle"]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({}, "Whether the ground holds is not in these figures"),
        (CHANGES["ground"], "carries less"),
        (CHANGES["ground"] | CHANGES["mat"], "stiff enough"),
        (CHANGES["wires"], "their height is never counted"),
        ({}, "taken to lie free"),
        ({"taken": LiftMode(way="drawn")}, "dig in, roll or slide"),
    ],
)
def test_a_map_says_its_doubts(change, said):
    asked = replace(lift("standard-sideshift", tool="lifting hook"), **change)
    made = replace(limits_back(lift("standard-sideshift", tool="lifting hook")).side, lift=asked)
    assert said in " ".join(told(limits_warnings(made)))


@pytest.mark.parametrize(
    ("more", "status"), [(["--mass", "100 kg ± 1 kg"], 3), (["--mass", "30 t ± 1 kg"], 1)]
)
def test_a_map_ends_as_a_check_does(more: list[str], status: int):
    """3: somewhere, but something has to be told; 1: nowhere."""
    steps = ["--reach-step", "0.8 m", "--height-step", "0.8 m", "--slew-step", "45 deg"]
    done = run(*BACK, *LOG, *more, *steps)
    assert done.returncode == status, done.stdout
