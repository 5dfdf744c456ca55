"""Asking for many poses at once gives what asking for each alone gives."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftcalc.answers.check import check
from liftcalc.answers.sweep import sweep
from liftcalc.errors import PoseError
from liftcalc.machines.schema import Plate
from tests.helpers import like, span, tried
from tests.property.test_safety import some_lift


def alone(base: Any, **at: float) -> tuple[float, str]:
    """Allowed load and what governs; NaN where the pose cannot be taken."""
    try:
        answer = check(replace(base, **at))
    except PoseError:
        return math.nan, ""
    return answer.allowed, min(answer.criteria, key=lambda c: c.allowed).name


@given(st.integers(0, 10_000))
def test_a_sweep_is_the_checks_one_by_one(seed: int) -> None:
    base = some_lift(seed)
    rng = np.random.default_rng(seed)
    size = span(base.machine)
    number = base.machine.weights.total
    plates = tuple(
        Plate(end=base.end, load=like(number, kg), reach=like(number, out * size))
        for out, kg in ((0.5, 1500.0), (0.8, 900.0))
    )
    if rng.integers(2):
        base = replace(base, machine=base.machine.model_copy(update={"plate": plates}))
    base = replace(
        base, swing=rng.choice([0.0, 0.1]), gauge=rng.choice([None, 1.5e7]),
        plate=rng.choice([None, 800.0]),
    )  # fmt: skip
    if rng.integers(2):
        # So strong a lift point that tipping governs, and a log well off its balance.
        strong = base.point.model_copy(update={"wll": like(number, 3e4)})
        base = replace(base, point=strong, plate=None, off_centre=rng.uniform(-0.8, 0.8))
    height = size * rng.uniform(-0.1, 0.9, 5)
    if base.end == "front":
        found = tried(lambda: sweep(base, height=height))
        assert found is not None
        wanted = [alone(base, height=float(h)) for h in height]
        got = found.allowed[:, 0]
        np.testing.assert_allclose(got, [each for each, _ in wanted], rtol=1e-9, atol=1e-9)
        return
    reach, slew = size * rng.uniform(0.2, 1.0, 5), np.array([-1.0, 0.0, 0.7])
    found = tried(lambda: sweep(base, reach=reach, height=height, slew=slew))
    if found is None:
        # Refused as a whole, for what no reach would mend: the other end, or the sling.
        assert tried(lambda: check(replace(base, reach=0.6 * size, height=0.25 * size))) is None
        return
    for i, (out, up) in enumerate(zip(reach, height, strict=True)):
        for j, turn in enumerate(slew):
            allowed, governs = alone(base, reach=float(out), height=float(up), slew=float(turn))
            assert found.allowed[i, j] == pytest.approx(allowed, rel=1e-9, abs=1e-9, nan_ok=True)
            assert (found.governs[i, j] < 0) == math.isnan(allowed)
            assert (found.stopped[i, j] >= 0) == math.isnan(allowed)
            if governs and allowed > 0:
                assert found.criteria[found.governs[i, j]].startswith(governs)
