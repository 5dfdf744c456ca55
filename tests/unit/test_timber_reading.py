"""A log from typed words, and ``liftcalc log``."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest
import typer
from typer.testing import CliRunner

from liftcalc.cli.log import log
from liftcalc.errors import InputError
from liftcalc.factors import CAUTION
from liftcalc.requests.fields import LogRequest
from liftcalc.requests.log import ParsedLog, parse_log
from liftcalc.timber.log import Extra, weigh
from tests.helpers import plain

LOG = {"species": "english oak", "length": "4.2 m", "butt": "62 cm", "mid": "55cm", "top": "19 in"}


def read_log(**texts: str) -> ParsedLog:
    return parse_log(LogRequest(**texts))


def test_words_become_a_measure():
    ours = read_log(
        **LOG,
        bark="Under Bark",
        moisture="Part dry",
        ice="40 kg",
        mud="3%",
        root_plate="10 %",
        limbs="220 lb",
    ).measure
    assert ours.species.name == "English / sessile oak"
    assert (ours.length, ours.butt, ours.middle) == (4.2, 0.62, 0.55)
    assert ours.top == pytest.approx(0.4826)
    assert (ours.over_bark, ours.moisture) == (False, "part-dry")
    assert (ours.extras.ice, ours.extras.mud) == (Extra(mass=40.0), Extra(share=0.03))
    assert ours.extras.root_plate == Extra(share=0.1)
    assert ours.extras.limbs.mass == pytest.approx(99.79, abs=0.005)


def test_feet_and_a_girth():
    ours = read_log(species="yew", length="13 ft 6 in", mid="girth 5 ft 8 in").measure
    assert ours.length == pytest.approx(4.1148)
    assert ours.middle == pytest.approx(0.549784, abs=1e-6)


def test_moisture_as_a_share():
    assert read_log(**LOG, moisture="85 %").measure.moisture == pytest.approx(0.85)
    assert read_log(**LOG, moisture="1.1").measure.moisture == pytest.approx(1.1)


def test_what_was_understood_is_echoed_in_order():
    echoes = read_log(**LOG | {"top": "girth 150 cm"}, moisture="85 %", mud="5 %").echoes
    assert echoes == (
        ("species", "English / sessile oak (Quercus robur / Q. petraea; British Isles / Europe)"),
        ("length", "4.2 m"),
        ("butt", "62 cm"),
        ("mid", "55 cm"),
        ("top", "girth 150 cm, so 47.7 cm across"),
        ("bark", "measured over bark"),
        ("moisture", "85 % of dry mass"),
        ("mud", "5 % of the log's own mass"),
    )


def test_every_fault_of_every_field_at_once():
    with pytest.raises(InputError) as caught:
        read_log(
            species="oak",
            length="12 ton",
            butt="nan",
            mid="5,5 cm",
            top="40",
            bark="off",
            moisture="wet",
            ice="3",
            mud="-3 kg",
            root_plate="400 %",
            limbs="2 m",
        )
    fields = [fault.field for fault in caught.value.faults]
    assert len(fields) == 11
    assert set(fields) == {
        "species",
        "length",
        "butt",
        "mid",
        "top",
        "bark",
        "moisture",
        "ice",
        "mud",
        "root-plate",
        "limbs",
    }


def test_faults_of_the_tape_and_of_the_log_come_together():
    with pytest.raises(InputError) as caught:
        read_log(species="oak", length="4 m", butt="40 cm", top="50 cm")
    assert [fault.field for fault in caught.value.faults] == ["species", "butt"]
    assert caught.value.faults[1].given == '"40 cm"'
    assert "smaller than the top" in caught.value.faults[1].understood


def test_a_field_that_could_not_be_read_is_not_called_missing():
    with pytest.raises(InputError) as caught:
        read_log(species="yew", length="4 m", butt="60 cm", top="forty")
    assert [fault.field for fault in caught.value.faults] == ["top"]


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"butt": "-62 cm"}, "sizes above zero"),
        ({"moisture": "85"}, "0 % to 300 %"),
        ({"moisture": "wet"}, "use one of those"),
        ({"mud": "3"}, "share of the log's own mass"),
        ({"bark": "none"}, "one of over, under"),
        ({"length": "420 m"}, "from 0.10 m to 40.00 m"),
    ],
)
def test_refusals_say_the_way_out(changed, words):
    with pytest.raises(InputError) as caught:
        read_log(**LOG | changed)
    assert words in plain(str(caught.value))


app = typer.Typer()
app.command()(log)

OPTIONS = [word for name, text in LOG.items() for word in (f"--{name}", text)]


def run(*options):
    return CliRunner().invoke(app, [*OPTIONS, *options])


def test_the_table_for_people():
    done = run("--root-plate", "80 kg")
    assert done.exit_code == 0
    ours = weigh(read_log(**LOG, root_plate="80 kg").measure)
    shown = done.stdout
    assert f"{ours.volume:.3f}"[:4] in shown
    assert "Quercus robur" in shown
    assert "PLANNING MASS" in shown
    assert "root plate is taken at the butt face" in shown
    assert shown.rstrip().endswith(CAUTION)


def test_masses_are_rounded_to_the_careful_side():
    ours = weigh(read_log(**LOG).measure)
    lines = {line.strip()[:13]: line for line in run().stdout.splitlines()}
    planning = int("".join(c for c in lines["PLANNING MASS"] if c.isdigit()))
    low = int("".join(c for c in lines["low mass"[:13].ljust(13)] if c.isdigit()))
    assert ours.mass_planning <= planning < ours.mass_planning + 1
    assert ours.mass_low - 1 < low <= ours.mass_low


def test_imperial_is_only_how_it_is_shown():
    assert "ft³" in run("--units", "imperial").stdout
    metric, imperial = (
        json.loads(run("--units", each, "--json").stdout) for each in ("metric", "imperial")
    )
    texts = ("warnings", "assumed", "remarks")
    assert any(metric[each] != imperial[each] for each in texts)
    for made in (metric, imperial):
        codes = [said.pop("text") for each in made["remarks"].values() for said in each]
        assert codes == [*made.pop("warnings"), *made.pop("assumed")]
    assert metric == imperial


def test_json():
    answer = json.loads(run("--json", "--moisture", "soaked").stdout)
    ours = weigh(read_log(**LOG, moisture="soaked").measure)
    assert answer["log"] == {
        "volume_m3": ours.volume,
        "mass_kg": {
            "low": ours.mass_low,
            "likely": ours.mass_likely,
            "planning": ours.mass_planning,
        },
        "cog_from_butt_m": ours.cog_from_butt,
    }
    assert answer["warnings"] == [str(each) for each in ours.doubts]
    assert answer["assumed"] == [str(each) for each in ours.assumed]
    assert answer["caution"] == CAUTION
    assert "working" not in answer


def test_working_shows_a_step_for_every_figure():
    ours = weigh(read_log(**LOG).measure)
    shown = run("--working").stdout
    for done in ours.worked:
        assert done.label.lower() in shown.lower()
    for value in (ours.volume, ours.mass_likely, ours.mass_planning, ours.cog_from_butt):
        assert f"{value:.5g}" in shown
    assert json.loads(run("--working", "--json").stdout)["working"]


def test_faults_reach_the_caller_together():
    done = run("--units", "furlongs", "--bark", "off")
    assert isinstance(done.exception, InputError)
    assert [fault.field for fault in done.exception.faults] == ["units", "bark"]


def test_weighing_a_log_loads_no_slow_room():
    code = (
        "import sys; from liftcalc.cli.log import log; "
        "from liftcalc.requests.fields import LogRequest; "
        "from liftcalc.requests.log import parse_log; from liftcalc.timber.log import weigh; "
        "yew = LogRequest(species='yew', length='13 ft 6 in', mid='girth 1.6 m'); "
        "weigh(parse_log(yew).measure); "
        "print(*[m for m in ('pint', 'sympy', 'matplotlib', 'streamlit', 'pydantic', 'scipy') "
        "if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == []
