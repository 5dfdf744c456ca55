"""Telling never hurts, silence never helps, worse inputs never raise an answer.

A few hundred pairs; ``python -m tests.judgement.silence`` tries as many as one likes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

import pytest

from liftcalc.judgement import judge
from tests.judgement.silence import (
    ELSEWHERE,
    NO_RANGE,
    USUALLY,
    Pair,
    found,
    machines_in_files,
    pairs_of,
    row_kinds,
)
from tests.judgement.silence import USUAL as RANGES

LIFTS = 60
EVERY = 6
"""Of the pairs of a drawn lift every sixth is tried, another sixth of each."""
DIAMETERS = {"butt", "mid", "top"}
OF_THE_LIFT = {"slung-at", "mass", "friction", "other-attachment"}
"""What has its usual values by the lift."""


def test_every_option_is_left_out_or_has_a_reason_not_to_be():
    ranged = {name.replace("_", "-") for name in RANGES}
    here = ranged | set(USUALLY) | DIAMETERS | OF_THE_LIFT
    assert set(row_kinds()) <= here | ELSEWHERE | NO_RANGE
    assert not here & (ELSEWHERE | NO_RANGE)


@pytest.fixture(scope="module")
def pairs() -> Iterator[list[Pair]]:
    with machines_in_files() as machines:
        yield [
            pair
            for number in range(LIFTS)
            for place, pair in enumerate(pairs_of(1, number, machines))
            if place % EVERY == number % EVERY
        ]


def test_silence_is_never_better_and_a_worse_input_never_raises_an_answer(
    pairs: list[Pair], monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(judge, "_decider", lambda *_: None)  # what decides is not asked here
    tried: Counter[str] = Counter()
    for pair in pairs:
        wrong = found(pair)
        if wrong is None:
            continue
        tried[pair.sort] += 1
        assert not wrong, f"{pair.option}: {wrong}, {pair}"
    assert tried["silence"] > 300
    assert tried["worse"] > 50


def test_a_silence_that_helps_would_be_found(pairs: list[Pair]):
    """Turned about, a pair whose answers differ is one of a silence that helps."""
    helped = 0
    for pair in pairs[:240]:
        turned = Pair(
            sort="silence",
            option=pair.option,
            machine=pair.machine,
            first=pair.second,
            second=pair.first,
        )
        helped += bool(found(turned))
    assert helped > 10
