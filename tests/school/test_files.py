"""A lesson is one file: a new one needs no code, a wrong one is refused by file and key."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from liftcalc.errors import InputError
from liftcalc.machines.files import shipped_folder
from liftcalc.school.exercise import pose
from liftcalc.school.files import lesson, lessons, load_lesson, shipped
from liftcalc.school.lesson import PARTS
from liftcalc.school.lesson_check import main, prove
from liftcalc.school.marking import mark

NEW = """
part = "reach, height and rams"
order = 9
title = "Closer"
aim = "Feel what coming closer buys."
drill = true
story = "{A machine}. The log hangs {reach} out, slewed {slew}. It would tip at {tipping load}."
do = "Engine off, attachment on the ground. Pace the reach."

[scene]
end = "back"
hold = "slung"
species = ["European ash", "Sycamore"]
length = "2.6 m"
butt = "28 cm"
mid = "26 cm"
top = "24 cm"
reach = { least = "82 % of arm", most = "88 % of arm", step = "1 % of arm" }
height = "56 % of arm"
slew = ["0 deg", "20 deg", "-20 deg", "50 deg", "-50 deg"]

[move]
text = "The machine comes closer: {after reach}."
reach = { add = "-0.3 m" }

[question]
kind = "number"
asks = "tipping load"
of = "after"
text = "What would it tip at now?"

[[explain]]
when = "rises"
text = "It rises to {answer}, {change of tipping load} more."

[[explain]]
when = "falls"
text = "It falls."
"""


def write(folder: Path, text: str, name: str = "closer.toml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def test_a_new_lesson_needs_no_change_of_code(tmp_path: Path) -> None:
    taught = load_lesson(write(tmp_path, NEW))
    assert lesson(str(tmp_path / "closer.toml")) == taught
    assert taught.id == taught.skill == "closer"
    for seed in range(40):
        made = pose(taught, seed=seed)
        assert made.key is not None
        assert made.key.start is not None
        assert made.key.value > made.key.start
        assert made.explanation[0].startswith("It rises to ")
        assert mark(made, made.key.value).right


def test_a_lesson_is_proved_by_a_command(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([str(write(tmp_path, NEW)), "small-tractor"]) == 0
    assert "100 of 100 seeds posed" in capsys.readouterr().out
    fixed = NEW.replace(
        '{ least = "82 % of arm", most = "88 % of arm", step = "1 % of arm" }', '"86 % of arm"'
    ).replace('["0 deg", "20 deg", "-20 deg", "50 deg", "-50 deg"]', '"0 deg"')
    # The same scene over and over is no practice.
    assert not prove(load_lesson(write(tmp_path, fixed)), machine="small-tractor").sound
    nowhere = NEW.replace('height = "56 % of arm"', 'height = "300 % of arm"')
    proof = prove(load_lesson(write(tmp_path, nowhere)), seeds=1)
    assert (proof.posed, len(proof.faults), proof.sound) == (0, 1, False)
    assert main([]) == main([str(tmp_path / "absent.toml")]) == 2


def test_a_machine_of_the_users_own(tmp_path: Path) -> None:
    """Every lesson suits a copy of a shipped machine with another name, by its path."""
    text = (shipped_folder() / "compact-centre-mount.toml").read_text(encoding="utf-8")
    text = text.replace('name = "compact-centre-mount"', 'name = "the-old-one"')
    text = text.replace('title = "Compact loader-backhoe, centre mount"', 'title = "The old one"')
    text = text.replace("invented = true", "invented = false").replace("195 bar", "150 bar")
    path = write(tmp_path, text, "mine.toml")
    for taught in lessons():
        made = pose(taught, seed=1, machine=str(path))
        assert made.machine == "the-old-one"
        assert made.before.lift.machine.title == "The old one"
        assert (
            "{a machine}" not in taught.story.lower() or "our machine (The old one)" in made.story
        )


def test_every_lesson_suits_every_shipped_machine() -> None:
    for path in sorted(shipped_folder().glob("*.toml")):
        for taught in lessons():
            assert pose(taught, seed=2, machine=path.stem).machine == path.stem


def test_a_machine_that_no_scene_suits_is_told(tmp_path: Path) -> None:
    text = NEW.replace('height = "56 % of arm"', 'height = "300 % of arm"')
    with pytest.raises(InputError) as refused:
        pose(load_lesson(write(tmp_path, text)), seed=0)
    (fault,) = refused.value.faults
    assert fault.file == "closer.toml"
    assert "200 scenes drawn" in fault.understood


def test_four_parts_and_at_least_fourteen_lessons() -> None:
    found = lessons()
    assert len(found) >= 14
    assert len({each.id for each in found}) == len(found) == len(shipped())
    for part in PARTS:
        assert sum(each.part == part for each in found) >= 3
        orders = [each.order for each in found if each.part == part]
        assert orders == sorted(set(orders))
    assert sum(each.drill for each in found) >= 10


def test_what_is_done_at_the_machine_is_done_with_everything_safe() -> None:
    for each in lessons():
        start = each.do.lower()
        by_hand = not any(word in start for word in ("hook", "pad", "jaw", "ram", "chart"))
        assert "engine off" in start or by_hand, each.id
        # Nothing is done with a load or with the engine running.
        assert "start the engine" not in start
        assert "lift the log" not in start


@dataclass(frozen=True)
class Wrong:
    """What is changed in a sound file, the key that is then at fault, and words of the fault."""

    old: str
    new: str
    key: str
    words: str


ARM_STEP = 'step = "1 % of arm"'
WRONG = {
    "not toml": Wrong("[scene]", "[scene", "", "TOML"),
    "no part": Wrong('part = "reach, height and rams"', "", "part", "nothing"),
    "a part of its own": Wrong("reach, height and rams", "magic", "part", "one of"),
    "unknown key": Wrong("[scene]", "[extra]\n[scene]", "extra", "not known"),
    "unknown word": Wrong("length =", "lenght =", "scene.lenght", "no lift"),
    "a number for a text": Wrong('butt = "28 cm"', "butt = 28", "scene.butt", "a text"),
    "nan": Wrong('"-0.3 m"', '"nan m"', "move.reach", "numbers with a unit"),
    "endless range": Wrong(ARM_STEP, 'step = "0 % of arm"', "scene.reach", "step"),
    "tiny step": Wrong(ARM_STEP, 'step = "0.0000001 % of arm"', "scene.reach", "1000"),
    "mixed units": Wrong('least = "82 % of arm"', 'least = "3 m"', "scene.reach", "same unit"),
    "unknown measure": Wrong('asks = "tipping load"', 'asks = "luck"', "question.asks", "one of"),
    "unknown slot": Wrong("{reach} out", "{rich} out", "story", "slot"),
    "tells the answer": Wrong("{after reach}", "{answer}", "move.text", "tells the answer"),
    "code in a slot": Wrong("{reach} out", "{reach.__class__} out", "story", "slot"),
    "no move": Wrong('reach = { add = "-0.3 m" }', "", "move", "nothing"),
    "control characters": Wrong("Closer", "Clo\\u001b[31mser", "title", "control"),
    "too long": Wrong("Closer", "x" * 2000, "title", "letters"),
    "another file": Wrong("[scene]", '[scene]\nmachine = "../x.toml"', "scene.machine", "some of"),
    "half of nothing": Wrong(
        'of = "after"', 'of = "after"\nhalf = "0 %"', "question.half", "share"
    ),
    "a list for a text": Wrong('title = "Closer"', "title = [{ a = 1 }]", "title", "a text"),
    "a sentence for never": Wrong('"falls"', '"never"', "explain[1].when", "one of"),
    "drag of no place": Wrong('kind = "number"', 'kind = "drag"', "question.asks", "a place"),
    "unbalanced braces": Wrong("{reach} out", "{reach out", "story", "braces"),
}


@pytest.mark.parametrize("name", WRONG)
def test_a_wrong_file_is_refused_by_file_and_key(name: str, tmp_path: Path) -> None:
    wrong = WRONG[name]
    text = NEW.replace(wrong.old, wrong.new)
    assert text != NEW
    with pytest.raises(InputError) as refused:
        load_lesson(write(tmp_path, text))
    faults = refused.value.faults
    assert all(fault.file == "closer.toml" for fault in faults)
    told = str(refused.value)
    assert any(each.key == wrong.key and wrong.words in str(each) for each in faults), told
    assert "\x1b" not in told


def test_a_lesson_explains_itself(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="at least one"):
        load_lesson(write(tmp_path, NEW[: NEW.index("[[explain]]")]))


def test_all_faults_are_told_at_once(tmp_path: Path) -> None:
    text = NEW.replace('length = "2.6 m"', 'lenght = "2.6 m"').replace("{reach} out", "{rich} out")
    with pytest.raises(InputError) as refused:
        load_lesson(write(tmp_path, text))
    assert {fault.key for fault in refused.value.faults} == {"scene.lenght", "story"}


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    write(tmp_path, "x" * 200_000, "huge.toml")
    (tmp_path / "bytes.toml").write_bytes(b"\xff\xfe\x00")
    write(tmp_path, "a = " + "[" * 5000, "deep.toml")
    for name in ("huge.toml", "bytes.toml", "deep.toml", "absent.toml"):
        with pytest.raises(InputError) as refused:
            load_lesson(tmp_path / name)
        assert name in str(refused.value)


def test_a_near_name_is_suggested() -> None:
    with pytest.raises(InputError, match="did you mean side-slope"):
        lesson("side-slop")
    assert lesson("Side Slope").id == "side-slope"
