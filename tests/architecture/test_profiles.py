"""What is drawn at random: the same in every check, never the same in a search."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import settings

ROOT = Path(__file__).parents[2]
A_TEST = """
from hypothesis import given, settings, strategies as st

drawn = []

@given(st.integers(0, 10**12))
def test_draws(number):
    drawn.append(number)

def test_says():
    print("DRAWN", len(drawn), settings().derandomize, sum(drawn))
"""


@pytest.mark.parametrize(
    ("more", "count", "same"), [((), 40, True), (("--hypothesis-profile=long",), 400, False)]
)
def test_a_check_draws_the_same_and_a_search_does_not(tmp_path, more, count, same):
    (tmp_path / "conftest.py").write_text((ROOT / "tests" / "conftest.py").read_text())
    (tmp_path / "test_it.py").write_text(A_TEST)

    def run() -> list[str]:
        command = [sys.executable, "-m", "pytest", "-s", "-q", "-p", "no:cacheprovider", *more, "."]
        done = subprocess.run(command, capture_output=True, text=True, check=True, cwd=tmp_path)
        return re.findall(r"DRAWN (\d+) (\w+) (\d+)", done.stdout)[0]

    one, other = run(), run()
    assert int(one[0]) >= count * 0.9
    assert one[1] == str(same)
    assert (one == other) is same


def test_only_the_search_asks_for_the_long_profile():
    rules = (ROOT / "Makefile").read_text(encoding="utf-8").split("\n\n")
    asked = [rule.split(":")[0] for rule in rules if "--hypothesis-profile" in rule]
    assert asked == ["search"]
    assert settings.get_profile("house").derandomize
    assert not settings.get_profile("long").derandomize
