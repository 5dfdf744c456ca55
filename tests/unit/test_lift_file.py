"""A lift in a file and in a link: the same words come back, and what is wrong is refused whole."""

from __future__ import annotations

import tomllib
from contextlib import suppress
from dataclasses import fields, replace
from pathlib import Path
from urllib.parse import parse_qsl, urlencode

import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftcalc.errors import InputError
from liftcalc.factors import CAUTION
from liftcalc.machines.files import shipped_names
from liftcalc.requests import lift_file
from liftcalc.requests.demo import DEMO
from liftcalc.requests.fields import LiftRequest
from tests.cli.test_check import answer, run

WORDS = st.text(max_size=lift_file.LONGEST)
ASKED = st.builds(
    LiftRequest,
    **{
        each.name: st.booleans()
        if isinstance(each.default, bool)
        else st.just(each.default) | WORDS
        for each in fields(LiftRequest)
    },
)


def refused(text: str) -> str:
    with pytest.raises(InputError) as told:
        lift_file.read(text)
    return str(told.value)


@given(ASKED)
def test_a_file_gives_back_every_word(asked: LiftRequest) -> None:
    assert lift_file.read(lift_file.write(asked)) == asked


@given(ASKED, st.sampled_from(shipped_names()))
def test_an_address_gives_back_every_word(asked: LiftRequest, machine: str) -> None:
    asked = replace(asked, machine=machine)
    address = urlencode(lift_file.parameters(asked))
    assert lift_file.from_parameters(dict(parse_qsl(address, keep_blank_values=True))) == asked


def test_the_file_is_plain_and_holds_only_what_was_said() -> None:
    text = lift_file.write(DEMO)
    assert all(word in text.replace("\n# ", " ") for word in CAUTION.split(". "))
    table = tomllib.loads(text)
    assert table.pop(lift_file.MARK) == lift_file.VERSION
    assert table["length"] == DEMO.length
    assert "travelling" not in table
    assert all(each != "" for each in table.values())
    # As a person would write it: one thing a line, nothing nested.
    assert len(text.splitlines()) < 40


def test_every_fault_is_told_at_once() -> None:
    said = refused('lift-file = 1\nlenght = "4 m"\nbutt = 55\ntravelling = "yes"\nmid = [1]\n')
    assert said.startswith("4 things")
    assert "did you mean length?" in said
    assert 'butt: given 55; wanted text in quotation marks, such as butt = "…"' in said
    assert "true or false" in said


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "nothing"),
        ('length = "4 m"', "was it saved by liftcalc?"),
        ("lift-file = 2", "newer liftcalc"),
        ("lift-file = true", "given True"),
        ("lift-file = 0", "given 0"),
        ("<script>alert(1)</script>", "not TOML"),
        ("lift-file = 1\nlength = ", "not TOML"),
        ('lift-file = 1\nlength = "4 m"\nlength = "5 m"', "not TOML"),
        (f"lift-file = 1\na = {'9' * 5000}", "cannot be read"),
        (f"lift-file = 1\na = {'[' * 20_000}", "cannot be read"),
        ("#" * (lift_file.MOST + 1), "at most"),
        (f'lift-file = 1\nlength = "{"9" * 501}"', "501 characters"),
        ("lift-file = 1\n" + "\n".join(f"a{n} = 1" for n in range(5000)), "5000 names"),
    ],
)
def test_what_is_no_lift_is_refused_in_words(text: str, told: str) -> None:
    said = refused(text)
    assert told in said
    assert len(said) < 500


@given(st.text(max_size=200))
def test_any_text_is_read_or_refused(text: str) -> None:
    for each in (text, f"lift-file = 1\n{text}"):
        # Anything else that is raised is a failure.
        with suppress(InputError):
            assert isinstance(lift_file.read(each), LiftRequest)


def test_a_link_never_names_a_file_of_this_computer(tmp_path: Path) -> None:
    own = tmp_path / "mine.toml"
    own.write_text("kept to myself", "utf-8")
    for name in (str(own), "/etc/passwd", "../machines/small-tractor.toml", "small-tractor.toml"):
        with pytest.raises(InputError) as told:
            lift_file.from_parameters({"machine": name, "length": "4 m"})
        assert "a link" in str(told.value)
        assert "kept to myself" not in str(told.value)
        with pytest.raises(InputError):
            lift_file.parameters(LiftRequest(machine=name))


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({"lenght": "4 m"}, "did you mean length?"),
        ({"<script>alert(1)</script>": "1"}, "not known"),
        ({"length": "9" * 2_000_000}, "2000000 characters"),
        ({"travelling": "true"}, "wanted yes"),
        ({"utm": "x" * 5000}, "leave it out"),
        ({"k" * 5000: "x"}, "leave it out"),
        ({f"k{n}": "x" for n in range(1000)}, "1000 names"),
    ],
)
def test_a_hostile_link_is_refused_in_few_words(given: dict[str, str], told: str) -> None:
    with pytest.raises(InputError) as error:
        lift_file.from_parameters(given)
    assert told in str(error.value)
    assert len(str(error.value)) < 500


@pytest.fixture
def saved(tmp_path: Path) -> str:
    path = tmp_path / "larch.lift.toml"
    path.write_text(lift_file.write(DEMO), "utf-8")
    return str(path)


def test_check_answers_a_saved_lift_as_it_answers_the_same_words(saved: str) -> None:
    from_file, demo = run("check", "--lift", saved), run("demo")
    assert from_file.returncode == demo.returncode
    assert demo.returncode in {0, 1, 3}
    assert demo.stdout.endswith(from_file.stdout)


def test_what_is_given_beside_the_file_comes_first(saved: str) -> None:
    plain = answer("--lift", saved)["understood"]
    other = answer("--lift", saved, "--length", "4.5 m", "--slew", "")["understood"]
    assert plain["length"] != other["length"] == "4.5 m"
    assert "slew" in plain
    assert "slew" not in other
    assert {name: plain[name] for name in ("butt", "reach")}.items() <= other.items()
    place = ("--reach", "2.4 m", "--height", "1.5 m")
    smaller = answer("small-tractor", "--lift", saved, *place)["understood"]
    assert smaller["machine"] != plain["machine"]


def test_a_word_as_nobody_would_say_it_still_comes_first(tmp_path: Path) -> None:
    """Given as it would be without saying it: over the bark, where the file has under."""
    path = tmp_path / "under.lift.toml"
    path.write_text(lift_file.write(replace(DEMO, bark="under")), "utf-8")
    over, under = answer("--lift", str(path), "--bark", "over"), answer("--lift", str(path))
    assert over["log"] != under["log"]


@pytest.mark.parametrize("name", ["nowhere.lift.toml", "", "."])
def test_a_file_that_cannot_be_read_is_told(name: str, tmp_path: Path) -> None:
    with pytest.raises(InputError, match="lift file"):
        lift_file.load_lift(str(tmp_path / name) if name else str(tmp_path))
    raw = tmp_path / "raw.lift.toml"
    raw.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(InputError, match="UTF-8"):
        lift_file.load_lift(str(raw))
