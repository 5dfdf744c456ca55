"""What every formula keeps to: alike on floats, arrays and symbols, and told in full."""

from __future__ import annotations

import math
import random
import re
from importlib import import_module
from threading import Thread

import numpy as np
import pytest
import sympy as sp

from liftcalc.machines.number import Number
from liftcalc.physics import formulas, functions
from liftcalc.physics.algebra import given, letter, lines
from liftcalc.physics.formula import FORMULAS, READER
from liftcalc.physics.nomenclature import WORDS
from tests import write_nomenclature

every_formula = pytest.mark.parametrize("name", FORMULAS)


def draws(name: str, count: int = 60) -> dict[str, np.ndarray]:
    """Values for the words of a formula: mostly modest and above nothing, some below."""
    drawn, words = random.Random(name), given(name)
    low = [0.05 if place % 3 else -1.5 for place in range(count)]
    return {word: np.array([drawn.uniform(least, 1.5) for least in low]) for word in words}


@every_formula
def test_floats_arrays_and_symbols_give_the_same_steps(name):
    formula, values = FORMULAS[name].function, draws(name)
    with np.errstate(invalid="ignore", divide="ignore"):
        on_arrays = formula(**values)
        known = dict(values)
        for line in lines(name):
            letters = [letter(word) for word in known]
            of = sp.lambdify(letters, line.expression, "numpy")
            known[line.word] = of(*known.values())
    some = 0
    for place in range(60):
        on_floats = formula(**{word: float(value[place]) for word, value in values.items()})
        assert type(on_floats) is type(on_arrays)
        for word in on_floats._fields:
            got = getattr(on_floats, word)
            assert isinstance(got, float | int)
            assert not isinstance(got, np.generic)
            some += not math.isnan(got)
            for other in (getattr(on_arrays, word), known[word]):
                there = np.broadcast_to(other, 60)[place]
                assert got == pytest.approx(there, rel=1e-12, abs=1e-12, nan_ok=True), word
    assert some > 100 or len(on_floats) == 1


@every_formula
def test_a_formula_tells_its_title_source_error_and_every_reason(name):
    formula = FORMULAS[name]
    assert getattr(formulas, name) is formula.function
    for text in (formula.title, formula.source, formula.error):
        assert text in (formula.function.__doc__ or "")
        assert len(text) > 4
        assert not text.endswith(".")
    assert all(len(line.why) > 7 for line in lines(name))
    for room, of in re.findall(r"`physics\.(\w+)\.(\w+)`", formula.error):
        assert hasattr(import_module(f"liftcalc.physics.{room}"), of)


@every_formula
def test_every_word_of_a_formula_has_letter_unit_and_meaning(name):
    for word in (*given(name), *(line.word for line in lines(name))):
        assert all(WORDS[word])


def test_every_word_is_one_of_a_formula():
    used = {word for name in FORMULAS for word in given(name)}
    used |= {line.word for name in FORMULAS for line in lines(name)}
    assert set(WORDS) - used == set()


def test_a_word_stands_once_and_the_page_is_as_the_table():
    rows = [line.split("|")[1] for line in write_nomenclature.page().splitlines()[6:]]
    assert len(rows) == len(set(rows)) == len(WORDS)
    assert write_nomenclature.PAGE.read_text(encoding="utf-8") == write_nomenclature.page()


@every_formula
def test_arguments_go_by_name(name):
    code = FORMULAS[name].function.__code__
    assert code.co_argcount == code.co_posonlyargcount == 0


def test_a_formula_that_does_not_return_its_steps_in_order_is_refused(monkeypatch):
    def crossed(*, bore, rod, count, pressure, efficiency):
        bore_area, ring_area, push, pull = formulas.ram_force(
            bore=bore, rod=rod, count=count, pressure=pressure, efficiency=efficiency
        )
        return formulas.RamForce(bore_area, ring_area, pull, push)

    named = type(FORMULAS["ram_force"])(function=crossed, title="x", source="x", error="x")
    monkeypatch.setitem(FORMULAS, "crossed", named)
    with pytest.raises(ValueError, match="crossed returns"):
        lines("crossed")


def test_steps_are_read_in_the_thread_that_reads_them_and_nowhere_else():
    got: list[float] = []
    READER.hand_on = lambda value, why: letter("read")
    try:
        other = Thread(target=lambda: got.append(formulas.legs(included_angle=0.0).leg_factor))
        other.start()
        other.join()
        assert formulas.legs(included_angle=0.0).leg_factor == letter("read")
    finally:
        READER.hand_on = None
    assert got == [2.0]


@pytest.mark.parametrize(("name", "outside"), [("sqrt", -1.0), ("asin", 1.5), ("sin", math.inf)])
def test_a_function_is_nan_outside_its_domain(name, outside):
    function = getattr(functions, name)
    for value in (outside, np.float64(outside), Number(outside, kind="assumed", source="test")):
        got = function(value)
        assert math.isnan(got)
        assert type(got) is float
    with np.errstate(invalid="ignore"):
        assert np.isnan(function(np.array([outside, outside]))).all()
    assert math.isnan(function(math.nan))


def test_the_greater_and_the_lesser_of_two_are_nan_where_either_is():
    values = (-2, 0.0, 3.5, math.inf, -math.inf, math.nan)
    for a in values:
        for b in values:
            for function, numpys in (
                (functions.maximum, np.maximum),
                (functions.minimum, np.minimum),
            ):
                assert np.array_equal(function(a, b), numpys(a, b), equal_nan=True)
                assert np.array_equal(function(np.array([a]), b), [numpys(a, b)], equal_nan=True)


def test_a_ratio_over_nothing_is_as_numpy_has_it():
    for over in (1.0, -2.0, 0.0, -0.0, math.inf, math.nan, 3):
        for under in (0.0, -0.0, 2.0, -math.inf, math.nan):
            with np.errstate(divide="ignore", invalid="ignore"):
                wanted = np.float64(over) / np.float64(under)
            assert np.array_equal(functions.ratio(over, under), wanted, equal_nan=True)


def test_a_formula_on_floats_that_come_to_nothing_is_infinite_or_nan_as_on_arrays():
    """What the machine or the log may bring about: a load at a joint, pins that meet, no volume."""
    cases = {
        "joint_load": {"joint_unit_moment": 0.0},
        "two_link": {"target_u": 0.0, "target_w": 0.0},
        "circle_crossing": {"second_u": 1.0, "second_w": 1.0},
        "ram_geometry": {"rod_pin_u": 1.0, "rod_pin_w": 1.0},
        "four_bar_ratio": {"link_pin_u": 1.0, "link_pin_w": 1.0},
        "three_supports": {"force_z": 0.0, "moment_y": 0.0},
        "volume_doubt": {"volume": 0.0},
        "cog_by_weighing": {"raise_height": 0.0},
    }
    for name, nothing in cases.items():
        words = dict.fromkeys(given(name), 1.0) | {"pin_x": 2.0, "left_y": 2.0} | nothing
        words = {word: value for word, value in words.items() if word in given(name)}
        with np.errstate(divide="ignore", invalid="ignore"):
            wanted = FORMULAS[name].function(**{w: np.array([v]) for w, v in words.items()})
        got = FORMULAS[name].function(**words)
        assert not all(map(math.isfinite, got)), name
        for one, other in zip(got, wanted, strict=True):
            assert np.array_equal(one, np.squeeze(other), equal_nan=True), name


def test_arrays_keep_their_shape():
    for shape in ((1,), (2, 3), ()):
        values = np.full(shape, 0.25)
        assert functions.sqrt(values).shape == shape
        assert functions.circle_area(values).shape == shape
    assert functions.maximum(np.zeros((2, 1)), np.ones(3)).shape == (2, 3)
