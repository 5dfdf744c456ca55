"""A sweep as a table: a row for each place at each slew, with pandas or without."""

from __future__ import annotations

import sys

import numpy as np
import pytest

from liftcalc.evaluation.sweep import sweep
from tests.helpers import lift


def swept():
    return sweep(
        lift(tool="lifting hook"), reach=[3.2, 9.0], height=[2.5, 2.5], slew=[0.0, 0.5, 1.0]
    )


def test_rows_are_places_by_slews():
    found = swept()
    columns = found.columns()
    assert {len(each) for each in columns.values()} == {6}
    assert columns["reach_m"].tolist() == [3.2, 3.2, 3.2, 9.0, 9.0, 9.0]
    assert columns["slew_rad"].tolist() == [0.0, 0.5, 1.0] * 2
    np.testing.assert_array_equal(columns["allowed_kg"].reshape(2, 3), found.allowed)
    np.testing.assert_array_equal(columns["passes"].reshape(2, 3), found.passes)
    assert columns["governs"][0] in found.criteria
    assert columns["stopped_by"][3] in found.stops
    assert (columns["governs"][3], columns["stopped_by"][0]) == ("", "")


def test_what_cannot_be_reached_does_not_pass():
    found = swept()
    assert np.isnan(found.allowed[1]).all()
    assert not found.passes[1].any()
    assert found.passes[0].all()


def test_a_frame_is_the_columns():
    frame = swept().to_frame()
    for name, column in swept().columns().items():
        np.testing.assert_array_equal(frame[name].to_numpy(), column)


def test_without_pandas_a_frame_is_refused_in_words(monkeypatch):
    monkeypatch.setitem(sys.modules, "pandas", None)
    with pytest.raises(ModuleNotFoundError, match=r"needs pandas.*columns\(\)"):
        swept().to_frame()
