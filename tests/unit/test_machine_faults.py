"""A machine file that is wrong says so: which key, what was given, what would be right."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from liftcalc.errors import Fault, InputError
from liftcalc.machines.files import load, parse, shipped_folder
from liftcalc.machines.lookup import attachment, lift_point
from liftcalc.machines.validation import sound
from tests.helpers import MACHINES

SIDESHIFT = (shipped_folder() / "standard-sideshift.toml").read_text(encoding="utf-8")


def edited(*changes: tuple[str, str]) -> str:
    """The file with the first line that starts so, under the table named, replaced."""
    lines = SIDESHIFT.splitlines()
    for key, line in changes:
        table, _, name = key.rpartition(".")
        inside, done = not table, False
        for number, text in enumerate(lines):
            if text.startswith("["):
                inside = text.split("]")[0].strip("[]") == table
            elif inside and re.match(rf"{name}\s*=", text) and not done:
                lines[number], done = line, True
        assert done, key
    return "\n".join(lines)


def faults(text: str) -> tuple[Fault, ...]:
    with pytest.raises(InputError) as caught:
        sound(parse(text, file="mine.toml"), file="mine.toml")
    assert all(fault.file == "mine.toml" for fault in caught.value.faults)
    return caught.value.faults


@pytest.mark.parametrize(
    ("key", "line", "said"),
    [
        ("wheels.wheelbase", 'wheelbase = "2.15 kg"', "wrong kind"),
        ("wheels.wheelbase", 'wheelbase = "2,15 m"', "no commas"),
        ("wheels.wheelbase", 'wheelbase = "nan m"', "not a number one can lift with"),
        ("wheels.wheelbase", 'wheelbase = "inf m"', "not a number one can lift with"),
        ("wheels.wheelbase", 'wheelbase = "-2.15 m"', "between 1 mm and 12 m"),
        ("wheels.wheelbase", "wheelbase = 2.15", "in quotes"),
        ("wheels.wheelbase", "wheelbase = nan", "in quotes"),
        ("wheels.wheelbase", 'wheelbase = "2.15"', "the unit is missing"),
        ("wheels.wheelbase", 'wheelbase = "about two metres"', "in quotes"),
        ("wheels.wheelbase", 'wheelbase = "215 m"', "between 1 mm and 12 m"),
        ("weights.total", 'total = "8 ton"', "short ton"),
        ("weights.total", 'total = "8 T"', "tonne"),
        ("hydraulics.working_pressure", 'working_pressure = "220 kg"', "wrong kind"),
        ("hydraulics.working_pressure", 'working_pressure = "220 kPa"', "10 bar"),
        ("hydraulics.efficiency", 'efficiency = "190 %"', "between 0.3 and 1"),
        ("stabilisers.legs_mass", 'legs_mass = "-260 kg"', "between 0 and 40 t"),
        ("back.slew_limit", 'slew_limit = "90 m"', "wrong kind"),
        ("front.arm_pivot", 'arm_pivot = ["1 m"]', "list of 2"),
        ("front.arm_pivot", 'arm_pivot = "1 m"', "list of 2"),
        ("wheels.front_axle_oscillates", 'front_axle_oscillates = "perhaps"', "bool"),
        ("back.boom_ram.lengthens", 'lengthens = "sideways"', "'up' or 'down'"),
        ("front.lift_ram.count", "count = 9", "4"),
    ],
)
def test_one_figure_that_is_wrong(key: str, line: str, said: str) -> None:
    found = faults(edited((key, line)))
    assert len(found) == 1
    assert found[0].key == key
    assert said in str(found[0])
    assert "mine.toml" in str(found[0])


def test_no_text_of_a_file_steers_a_terminal() -> None:
    """Escape codes, bidirectional marks and ends of lines in every text of a file."""
    evil = r"\u001b[2J\u202e\u0085"

    def spoilt(keys: str) -> str:
        return re.sub(rf'(?m)^({keys}) = "', lambda found: found[0] + evil, SIDESHIFT)

    machine = parse(spoilt("name|title|note|source|front|back"), file="mine.toml")
    texts = [machine.title, machine.note, machine.wheels.wheelbase.source, machine.fitted.front]
    texts += [tool.name for tool in machine.attachment]
    assert all("?[2J" in each for each in texts[:3])
    assert all(each.isprintable() for each in texts)
    # What is wrong is told just as plainly.
    assert all(str(fault).isprintable() for fault in faults(spoilt(r"\w+")))


def test_points_of_a_pair_are_named() -> None:
    found = faults(edited(("front.arm_pivot", 'arm_pivot = ["1 m", "1.68 kg"]')))
    assert found[0].key.startswith("front.arm_pivot")
    assert "1.68 kg" in found[0].given


def test_text_that_is_not_toml() -> None:
    found = faults("name = ")
    assert "TOML" in str(found[0])
    found = faults(SIDESHIFT.replace("[wheels]", "[wheels"))
    assert "line" in found[0].understood


def test_unknown_key_is_not_let_pass() -> None:
    found = faults(edited(("wheels.wheelbase", 'wheelbase = "2.15 m"\nwheelbse = "2.15 m"')))
    assert found[0].key == "wheels.wheelbse"
    assert "spelling" in found[0].fix


def test_missing_key() -> None:
    found = faults(edited(("wheels.wheelbase", "")))
    assert found[0].key == "wheels.wheelbase"
    assert "missing" in str(found[0]) or "add it" in str(found[0])


@pytest.mark.parametrize("word", ["kind", "source"])
def test_figures_must_say_where_they_come_from(word: str) -> None:
    """Without a default at the top every figure that lacks it is listed."""
    found = faults(edited((word, "")))
    keys = {fault.key for fault in found}
    assert len(found) > 100
    assert {"wheels.wheelbase", "back.boom.length"} <= keys
    assert all(word in str(fault) for fault in found)


def test_a_kind_that_does_not_exist() -> None:
    line = 'wheelbase = { value = "2.15 m", kind = "guessed" }'
    found = faults(edited(("wheels.wheelbase", line)))
    assert "published, measured, assumed, derived" in str(found[0])


def test_a_tolerance_is_read_and_must_be_of_the_kind() -> None:
    line = 'wheelbase = { value = "2.15 m", tolerance = "%s", kind = "measured", source = "tape" }'
    machine = parse(edited(("wheels.wheelbase", line % "20 mm")), file="mine.toml")
    number = machine.wheels.wheelbase
    assert (float(number), number.tolerance) == pytest.approx((2.15, 0.02))
    assert (number.kind, number.source) == ("measured", "tape")
    for wrong in ("20 kg", "-20 mm", "nan mm"):
        assert faults(edited(("wheels.wheelbase", line % wrong)))[0].key == "wheels.wheelbase"


def test_axles_that_contradict_the_total() -> None:
    found = faults(edited(("weights.front_axle", 'front_axle = "4200 kg"')))
    assert "1000 kg apart" in str(found[0])
    # Within the tolerances given they may differ: scales do.
    parse(edited(("weights.front_axle", 'front_axle = "3300 kg"')), file="mine.toml")


def test_parts_heavier_than_the_whole() -> None:
    found = faults(
        edited(
            ("weights.total", 'total = "2500 kg"'),
            ("weights.front_axle", 'front_axle = "1000 kg"'),
            ("weights.rear_axle", 'rear_axle = "1500 kg"'),
        )
    )
    assert "lighter than the whole" in str(found[0])


def test_rod_as_thick_as_the_bore() -> None:
    found = faults(edited(("back.boom_ram.rod", 'rod = "130 mm"')))
    assert found[0].key == "back.boom_ram"
    assert "swapped" in found[0].fix


@pytest.mark.parametrize("opened", ["1.2 m", "2.6 m"])
def test_a_stroke_that_no_ram_has(opened: str) -> None:
    found = faults(edited(("back.boom_ram.open", f'open = "{opened}"')))
    assert found[0].key == "back.boom_ram"
    assert "below twice" in found[0].wanted


@pytest.mark.parametrize(
    ("key", "line"),
    [
        ("back.boom_ram.base", 'base = ["-3 m", "1.043 m"]'),
        ("back.dipper_ram.rod_pin", 'rod_pin = ["-3.5 m", "0.13 m"]'),
        ("front.lift_ram.rod_pin", 'rod_pin = ["0.2 m", "0 m"]'),
        ("back.bucket_ram.link_length", 'link_length = "0.1 m"'),
        ("front.tilt_ram.rocker_ram_radius", 'rocker_ram_radius = "0.05 m"'),
    ],
)
def test_a_linkage_that_cannot_close(key: str, line: str) -> None:
    found = faults(edited((key, line)))
    assert any(fault.key.startswith(key.rpartition(".")[0]) for fault in found)
    assert any("cannot close" in fault.field for fault in found)


def test_a_file_whose_linkage_cannot_close_is_not_loaded(tmp_path: Path) -> None:
    mine = tmp_path / "mine.toml"
    mine.write_text(edited(("back.bucket_ram.link_length", 'link_length = "0.1 m"')), "utf-8")
    with pytest.raises(InputError, match="cannot close"):
        load(str(mine))


@pytest.mark.parametrize("name", MACHINES)
@pytest.mark.parametrize("word", ["lengthens", "link_side"])
def test_no_word_of_a_linkage_can_be_turned_round_unnoticed(name: str, word: str) -> None:
    """Every ram of a sound file in turn: a word that nothing tests would be worse than none."""
    text = (shipped_folder() / f"{name}.toml").read_text(encoding="utf-8")
    other = {"up": "down", "down": "up", "left": "right", "right": "left"}
    said = list(re.finditer(rf'(?m)^{word} = "(\w+)"', text))
    assert len(said) == {"lengthens": 5, "link_side": 2}[word]
    for each in said:
        found = faults(text[: each.start(1)] + other[each[1]] + text[each.end(1) :])
        assert all(fault.key.startswith(("back", "front")) for fault in found)
        table = text[: each.start()].rpartition("\n[")[2].split("]")[0]
        if table.rpartition(".")[2] in {"boom_ram", "dipper_ram", "lift_ram"}:
            assert [fault.key for fault in found] == [f"{table}.lengthens"]
            assert f'wanted "{each[1]}"' in str(found[0])


def test_one_wrong_figure_in_a_list_is_one_fault() -> None:
    found = faults(SIDESHIFT.replace('wll = "1000 kg"', 'wll = "1000 m"', 1))
    assert [fault.key for fault in found] == ["attachment.4.lift_point.0.wll"]


def test_a_list_that_is_really_too_short_is_said() -> None:
    start = SIDESHIFT.index("[[attachment.lift_point]]")
    end = SIDESHIFT.index("[[attachment]]", start)
    found = faults(SIDESHIFT[:start] + SIDESHIFT[end:])
    assert [fault.key for fault in found] == ["attachment.0.lift_point"]


PLATE = '\n[[plate]]\nend = "back"\nload = "900 kg"\n'


@pytest.mark.parametrize("said", ["true", "false"])
def test_a_key_that_was_read_both_ways_is_refused_with_what_to_write(said: str) -> None:
    """Old files had it either way; neither may now be read as allowing more."""
    (fault,) = faults(f"{SIDESHIFT}{PLATE}includes_attachment = {said}\n")
    assert fault.key == "plate.0"
    assert "rated_with" in fault.wanted
    assert "comes off" in fault.fix


def test_a_plate_is_rated_with_an_attachment_of_its_own_end() -> None:
    parse(f'{SIDESHIFT}{PLATE}rated_with = "lifting hook"\n', file="mine.toml")
    for name in ("pallet forks", "snow plough"):
        (fault,) = faults(f'{SIDESHIFT}{PLATE}rated_with = "{name}"\n')
        assert f'rated_with = "{name}"' in str(fault)


def test_the_chart_of_the_manual_is_read() -> None:
    """As ``docs/machine-file.md`` shows it."""
    text = (shipped_folder().parent / "docs" / "machine-file.md").read_text(encoding="utf-8")
    shown = next(part for part in text.split("```toml\n") if part.startswith("[[plate]]"))
    rows = parse(f"{SIDESHIFT}\n{shown.split('```')[0]}", file="mine.toml").plate
    assert [row.rated_with for row in rows] == ["digging bucket", "digging bucket", None]


def test_fitted_attachment_that_is_not_there() -> None:
    found = faults(edited(("fitted.front", 'front = "snow plough"')))
    assert "snow plough" in str(found[0])


def test_several_faults_are_listed_together() -> None:
    found = faults(
        edited(
            ("wheels.wheelbase", 'wheelbase = "2.15 kg"'),
            ("hydraulics.efficiency", 'efficiency = "190 %"'),
            ("back.boom_ram.rod", 'rod = "nan mm"'),
            ("stabilisers.pad_spread", ""),
        )
    )
    assert {fault.key for fault in found} == {
        "wheels.wheelbase",
        "hydraulics.efficiency",
        "back.boom_ram.rod",
        "stabilisers.pad_spread",
    }


def test_unknown_machine_is_refused_with_suggestions(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="standard-sideshift"):
        load("standard-sidesift")
    with pytest.raises(InputError, match="did you mean"):
        load("compact centre")
    with pytest.raises(InputError):
        load(str(tmp_path / "none.toml"))
    bad = tmp_path / "bad.toml"
    bad.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(InputError, match=r"bad\.toml"):
        load(str(bad))


def test_a_users_own_file_is_read_by_its_path_and_again_when_it_changes(tmp_path: Path) -> None:
    mine = tmp_path / "mine.toml"
    mine.write_text(SIDESHIFT, encoding="utf-8")
    assert load(str(mine)).wheels.wheelbase == pytest.approx(2.15)
    mine.write_text(edited(("wheels.wheelbase", 'wheelbase = "7 ft"')), encoding="utf-8")
    assert load(str(mine)).wheels.wheelbase == pytest.approx(7 * 0.3048)


def test_unknown_attachment_and_lift_point() -> None:
    machine = load("standard-sideshift")
    with pytest.raises(InputError, match="pallet forks"):
        attachment(machine, end="front", name="palet fork")
    with pytest.raises(InputError, match="fits the front end"):
        attachment(machine, end="back", name="pallet forks")
    with pytest.raises(InputError, match="eye on the bucket"):
        lift_point(attachment(machine, end="back"), name="hook")


@pytest.mark.parametrize("name", MACHINES)
def test_every_attachment_of_the_trade_is_there(name: str) -> None:
    machine = load(name)
    assert {a.name for a in machine.attachment if a.end == "back"} >= {
        "digging bucket",
        "lifting hook",
        "log grab with rotator",
    }
    assert {a.name for a in machine.attachment if a.end == "front"} >= {
        "wide front shovel",
        "multi-purpose jaw bucket",
        "pallet forks",
        "front lifting hook",
    }
    holds = {p.hold for a in machine.attachment for p in a.lift_point}
    assert holds == {"hangs", "cradled", "gripped"}
    for tool in machine.attachment:
        assert tool.lift_point
        for point in tool.lift_point:
            assert point.wll.kind in ("assumed", "published", "measured", "derived")
            assert math.isfinite(point.wll)
