"""A person's own files: whatever stands behind a name is read within bounds or refused."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from liftcalc.errors import InputError
from liftcalc.files import DEEPEST, read_file, read_toml, write_all

DOORS = """
import json, resource, signal, sys
from datetime import UTC, datetime
from liftcalc.errors import InputError
from liftcalc.machines.files import load
from liftcalc.requests.lift_file import load_lift
from liftcalc.school.files import lesson
from liftcalc.school.record import Attempt, keep, kept

# One attempt more is not read but added, which opens the file too.
one = Attempt(
    at=datetime(2026, 3, 1, tzinfo=UTC), lesson="a", skill="a", drill=True, seed=1, machine="a",
    given="1", key="1", unit="kg", error=None, score=1.0, unsafe=False,
)
doors = {"machine": load, "lift": load_lift, "lesson": lesson, "record": kept,
         "added": lambda name: keep(name, one)}
def waited(*_):
    raise TimeoutError
signal.signal(signal.SIGALRM, waited)
resource.setrlimit(resource.RLIMIT_AS, (2_000_000_000, 2_000_000_000))
for name in json.loads(sys.stdin.read()):
    for door, opened in doors.items():
        signal.alarm(5)  # of a file that never ends nobody may wait for the end
        try:
            print(json.dumps([name, door, repr(opened(name))]))
        except InputError as refused:
            print(json.dumps([name, door, str(refused)]))
        except BaseException as broken:
            print(json.dumps([name, door, f"BROKEN {broken!r}"]))
"""


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no devices on this system")
def test_every_door_refuses_what_is_no_ordinary_file(tmp_path: Path) -> None:
    pipe, folder = tmp_path / "pipe.toml", tmp_path / "folder.toml"
    os.mkfifo(pipe)
    folder.mkdir()
    device = tmp_path / "zero.toml"
    device.symlink_to("/dev/zero")
    huge = tmp_path / "huge.toml"
    with huge.open("wb") as file:
        file.truncate(10**10)
    names = [str(each) for each in (pipe, folder, device, huge)]
    names += [f"{tmp_path}/{'x' * 300}.toml", f"{'x' * 300}.toml", f"{tmp_path}/\0.toml"]
    done = subprocess.run(
        [sys.executable, "-c", DOORS],
        input=json.dumps(names),
        capture_output=True,
        text=True,
        check=True,
    )
    told = [json.loads(line) for line in done.stdout.splitlines()]
    assert len(told) == 5 * len(names), done.stderr
    for name, door, said in told:
        assert "wanted" in said, (name, door, said)
        assert "BROKEN" not in said, (name, door, said)


def test_no_more_is_read_than_is_allowed(tmp_path: Path) -> None:
    path = tmp_path / "a"
    for size, most in ((10, 10), (0, 10)):
        path.write_bytes(b"x" * size)
        assert read_file(path, field="f", wanted="w", most=most) == b"x" * size
    path.write_bytes(b"x" * 11)
    with pytest.raises(InputError, match="more than"):
        read_file(path, field="f", wanted="w", most=10)
    with pytest.raises(InputError, match="no such file"):
        read_file(tmp_path / "b", field="f", wanted="w")
    assert read_file(tmp_path / "b", field="f", wanted="w", absent=b"none") == b"none"


@pytest.mark.parametrize(
    "text",
    [
        "a = ",
        f"a = {'9' * 5000}",
        f"a = {'[' * 20_000}",
        ".".join("a" * (DEEPEST + 1)) + " = 1",
        ".".join("a" * 2_000) + " = 1",
        b"\xff\xfe\x00",
    ],
)
def test_what_is_no_toml_is_refused(text: str | bytes) -> None:
    with pytest.raises(InputError, match="not TOML"):
        read_toml(text, field="f", wanted="w")


def test_toml_as_people_write_it() -> None:
    assert read_toml(b"\xef\xbb\xbf[a.b]\nc = [1, [2]]", field="f", wanted="w") == {
        "a": {"b": {"c": [1, [2]]}}
    }


@pytest.mark.parametrize("name", ["a\0b.csv", "\ud800.csv", "x" * 300])
def test_a_name_that_no_file_can_have_is_refused(name: str, tmp_path: Path) -> None:
    with pytest.raises(InputError, match="save"):
        write_all([(str(tmp_path / name), b"")])
    assert list(tmp_path.iterdir()) == []
