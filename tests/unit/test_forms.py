"""Numbers linear in the forces: by vectors, by hand, and against a search over loads."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftcalc.physics.tipping import Line, Support
from liftcalc.physics.wrench import WrenchFunctional, load_at_failure, moment_about

G = 9.80665
seeds = st.integers(0, 10**6)


def some(rng: np.random.Generator) -> tuple[float, float, float]:
    x, y, z = rng.normal(size=3)
    return float(x), float(y), float(z)


@given(seeds)
def test_a_form_counts_a_force_and_its_moment(seed: int) -> None:
    """By vectors: force · F + moment · (r × F)."""
    rng = np.random.default_rng(seed)
    form = WrenchFunctional(force=some(rng), moment=some(rng))
    at, gravity = some(rng), some(rng)
    wanted = np.dot(form.force, gravity) + np.dot(form.moment, np.cross(at, gravity))
    x, y, z = at
    assert form.unit(x=x, y=y, z=z, gravity=gravity) == pytest.approx(wanted, abs=1e-12)
    assert np.dot(form.per_force(x=x, y=y, z=z), gravity) == pytest.approx(wanted, abs=1e-12)
    linear = form.of_place(gravity)
    found = linear.x * x + linear.y * y + linear.z * z + linear.fixed
    assert found == pytest.approx(wanted, abs=1e-12)


@given(seeds, st.floats(-3, 3))
def test_forms_add(seed: int, times: float) -> None:
    rng = np.random.default_rng(seed)
    one, two = (WrenchFunctional(force=some(rng), moment=some(rng)) for _ in range(2))
    (x, y, z), gravity = some(rng), some(rng)
    parts = [each.unit(x=x, y=y, z=z, gravity=gravity) for each in (one, two)]
    both = one.plus(two, times).unit(x=x, y=y, z=z, gravity=gravity)
    assert both == pytest.approx(parts[0] + times * parts[1], abs=1e-10)


@given(seeds)
def test_the_form_of_a_line_is_its_moment(seed: int) -> None:
    """The one that tipping is told with, which has a derivation of its own."""
    rng = np.random.default_rng(seed)
    ends = [Support(name=name, x=x, y=y, z=z) for name in "ab" for x, y, z in [some(rng)]]
    line = Line(name="", start=ends[0], end=ends[1])
    (x, y, z), gravity = some(rng), some(rng)
    assert moment_about(line).unit(x=x, y=y, z=z, gravity=gravity) == pytest.approx(
        moment_about(line).unit(x=x, y=y, z=z, gravity=gravity), abs=1e-12
    )


def test_a_plank_on_two_trestles_by_hand() -> None:
    """Trestles at 0 and 4 m: of a kilogram at 1 m the one at 4 m carries a quarter."""
    left, right = (Support(name=side, x=0.0, y=y, z=0.0) for side, y in (("l", 1.0), ("r", -1.0)))
    form = moment_about(Line(name="over the near trestle", start=right, end=left))
    down = (0.0, 0.0, -G)
    over = form.unit(x=4.0, y=0.0, z=0.0, gravity=(0.0, 0.0, -1.0))
    carried = WrenchFunctional().plus(form, 1.0 / over)
    assert carried.unit(x=1.0, y=0.3, z=2.0, gravity=down) == pytest.approx(G / 4)
    assert carried.unit(x=4.0, y=0.0, z=0.0, gravity=down) == pytest.approx(G)
    assert carried.unit(x=-1.0, y=0.0, z=0.0, gravity=down) == pytest.approx(-G / 4)


@given(seeds, st.floats(0, 1.5))
def test_a_weight_that_leans_counts_as_its_worst_lean(seed: int, swing: float) -> None:
    """Against the weight turned every way up to the swing, and never above hanging still."""
    rng = np.random.default_rng(seed)
    form = WrenchFunctional(force=some(rng), moment=some(rng))
    (x, y, z), gravity = some(rng), np.array(some(rng))
    found = form.unit(x=x, y=y, z=z, gravity=tuple(gravity), swing=swing)
    per_force = np.array(form.per_force(x=x, y=y, z=z))
    size = np.linalg.norm(gravity)
    down = gravity / size
    side = np.cross(down, [1.0, 0, 0] if abs(down[0]) < 0.9 else [0, 1.0, 0])
    side /= np.linalg.norm(side)
    around = np.linspace(0, 2 * np.pi, 720)[:, np.newaxis]
    square = np.cos(around) * side + np.sin(around) * np.cross(down, side)
    turned = [
        size * ((np.cos(a) * down + np.sin(a) * square) @ per_force).min()
        for a in np.linspace(0, swing, 60)
    ]
    reach = float(np.linalg.norm(per_force) * size)
    assert found <= min(turned) + 1e-9 * reach
    assert found >= min(turned) - 1e-3 * reach
    assert form.unit(x=x, y=y, z=z, gravity=tuple(gravity), swing=swing + 0.1) <= found + 1e-12


@pytest.mark.parametrize(
    ("holding", "per_kilogram", "wanted"),
    [
        ((10.0,), (-2.0,), 5.0),
        ((10.0,), (2.0,), math.inf),
        ((-1.0,), (2.0,), 0.0),  # a load that would mend it is not credited
        ((10.0, 30.0), (-2.0, -3.0), 10.0),  # while either holds, all holds
        ((10.0, -30.0), (-2.0, -3.0), 5.0),
        ((10.0, 30.0), (-2.0, 3.0), math.inf),
        ((-1.0, -1.0), (-2.0, -3.0), 0.0),
        ((-6.0, 10.0), (1.0, -1.0), math.inf),  # mended at 6, before the other fails at 10
        ((-12.0, 10.0), (1.0, -1.0), 10.0),
        ((-1.0, -1.0), (5.0, 0.0), 0.0),  # both fail without a load, whatever it would mend
        ((10.0, 0.0), (0.0, 0.0), math.inf),
    ],
)
def test_the_load_at_which_all_numbers_are_negative(holding, per_kilogram, wanted) -> None:
    assert load_at_failure(holding=holding, per_kilogram=per_kilogram) == pytest.approx(wanted)


@given(seeds)
def test_that_load_is_the_first_that_a_search_finds(seed: int) -> None:
    rng = np.random.default_rng(seed)
    count = rng.integers(2, 5)
    holding, each = rng.uniform(-5, 10, count), rng.uniform(-3, 1.5, count)
    found = float(load_at_failure(holding=list(holding), per_kilogram=list(each)))
    loads = np.linspace(0.0, 60.0, 60_001)
    failed = loads[(holding[:, np.newaxis] + each[:, np.newaxis] * loads < 0).all(axis=0)]
    if failed.size:
        assert found == pytest.approx(failed[0], abs=1.1e-3)
    else:
        assert found > 60.0 or math.isinf(found)


@given(seeds)
def test_arrays_give_what_each_gives_alone_and_what_is_no_number_stays_none(seed: int) -> None:
    rng = np.random.default_rng(seed)
    holding, each = rng.uniform(-5, 10, (3, 7)), rng.uniform(-3, 1.5, (3, 7))
    holding[rng.integers(3), 2] = math.nan
    each[rng.integers(3), 4] = math.nan
    found = load_at_failure(holding=list(holding), per_kilogram=list(each))
    for i in range(7):
        one = load_at_failure(holding=list(holding[:, i]), per_kilogram=list(each[:, i]))
        assert one == pytest.approx(found[i], nan_ok=True)
    assert np.isnan(found[[2, 4]]).all()
    assert not np.isnan(np.delete(found, [2, 4])).any()
