"""Worse inputs never make a log lighter to plan on; scalars and arrays take one way."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from liftcalc.errors import InputError
from liftcalc.physics import formulas
from liftcalc.timber.log import Extra, Extras, LogEstimate, LogMeasure, weigh
from liftcalc.timber.species import all_species

SLACK = 1 - 1e-12  # the order of a few floating-point operations

species = st.sampled_from(all_species())
lengths = st.floats(0.1, 39.0)
states = st.sampled_from(["fresh", "part-dry", "soaked"])
moistures = st.one_of(states, st.floats(0.0, 3.0))
extra = st.builds(Extra, mass=st.floats(0, 2000), share=st.floats(0, 1))
extras = st.builds(Extras, ice=extra, mud=extra, root_plate=extra, limbs=extra)


@st.composite
def measures(draw) -> LogMeasure:
    top = draw(st.floats(0.05, 2.5))
    butt = draw(st.floats(top, min(2.9, 3 * top)))
    middle = top + draw(st.floats(0, 1)) * (butt - top)
    taken = draw(st.sampled_from(["three", "ends", "middle"]))
    return LogMeasure(
        species=draw(species),
        length=draw(lengths),
        butt=None if taken == "middle" else butt,
        middle=None if taken == "ends" else middle,
        top=None if taken == "middle" else top,
        over_bark=draw(st.booleans()),
        moisture=draw(moistures),
        extras=draw(extras),
    )


def planning(measure: LogMeasure, **changed: object) -> float:
    return weigh(dataclasses.replace(measure, **changed)).mass_planning


@given(measures())
def test_low_likely_planning_stand_in_order_and_are_numbers(measure):
    ours = weigh(measure)
    assert 0 < ours.mass_low <= ours.mass_likely <= ours.mass_planning < math.inf
    assert ours.density_likely <= ours.density_densest


@given(measures())
def test_the_balance_point_is_in_the_butt_half_of_the_log(measure):
    ours = weigh(measure)
    half = measure.length / 2
    # Whatever the middle, since the butt is not smaller than the top.
    assert 0 < ours.cog_from_butt <= half * (1 + 1e-12)


@given(measures(), st.floats(1.0, 1.4), st.sampled_from(["butt", "middle", "top", "length"]))
def test_larger_is_never_lighter(measure, factor, name):
    size = getattr(measure, name)
    if size is None:
        return
    try:
        larger = planning(measure, **{name: size * factor})
    except InputError:
        return  # no longer one log, or beyond the tape's limits
    assert larger >= planning(measure) * SLACK


@given(measures(), st.floats(0, 3), st.floats(0, 3))
def test_a_higher_measured_moisture_is_never_lighter(measure, one, other):
    drier, wetter = sorted((one, other))
    assert planning(measure, moisture=wetter) >= planning(measure, moisture=drier) * SLACK


@given(measures())
def test_the_states_of_moisture_stand_in_order(measure):
    dry, fresh, soaked = (planning(measure, moisture=s) for s in ("part-dry", "fresh", "soaked"))
    assert dry == fresh  # drying is never credited when planning
    assert soaked >= fresh * SLACK
    likely = [
        weigh(dataclasses.replace(measure, moisture=s)).mass_likely
        for s in ("part-dry", "fresh", "soaked")
    ]
    assert likely == sorted(likely)


@given(measures(), st.sampled_from(["A", "B", "C"]))
def test_a_lower_confidence_is_never_lighter(measure, letter):
    order = ["A", "B", "C", "D"]
    worse = order[order.index(letter) + 1]
    better_row = dataclasses.replace(measure.species, confidence=letter)
    worse_row = dataclasses.replace(measure.species, confidence=worse)
    assert planning(measure, species=worse_row) >= planning(measure, species=better_row) * SLACK


@given(measures(), st.sampled_from(["ice", "mud", "root_plate", "limbs"]), extra)
def test_more_to_carry_is_never_lighter(measure, name, added):
    had = getattr(measure.extras, name)
    more = Extra(mass=had.mass + added.mass, share=had.share + added.share)
    heavier = dataclasses.replace(measure.extras, **{name: more})
    assert planning(measure, extras=heavier) >= planning(measure) * SLACK


@given(measures(), extra)
def test_a_root_plate_moves_the_balance_point_to_the_butt_and_mud_does_not(measure, added):
    bare = weigh(dataclasses.replace(measure, extras=Extras()))
    muddy = weigh(dataclasses.replace(measure, extras=Extras(mud=added, ice=added)))
    rooted = weigh(dataclasses.replace(measure, extras=Extras(root_plate=added)))
    assert muddy.cog_from_butt == bare.cog_from_butt
    assert rooted.cog_from_butt * SLACK <= bare.cog_from_butt
    if added.mass > 1 or added.share > 0.01:
        assert rooted.cog_from_butt < bare.cog_from_butt


@given(measures())
def test_the_planning_mass_is_never_beyond_the_upper_volume_saturated(measure):
    bare = dataclasses.replace(measure, extras=Extras(), over_bark=True)
    ours = weigh(bare)
    upper = next(w for w in ours.worked if w.formula == "planning_log").steps.upper_volume
    assert ours.mass_planning <= upper * ours.density_densest * (1 + 1e-12)


def _scaled(measure: LogMeasure, factor: float) -> LogEstimate:
    sizes = {
        name: getattr(measure, name) and getattr(measure, name) * factor
        for name in ("butt", "middle", "top", "length")
    }
    return weigh(dataclasses.replace(measure, **sizes))


@given(measures())
def test_half_the_size_is_an_eighth_of_the_volume_and_half_the_balance(measure):
    whole = dataclasses.replace(measure, extras=Extras())
    try:
        small = _scaled(whole, 0.5)
    except InputError:
        return
    large = weigh(whole)
    assert small.volume == pytest.approx(large.volume / 8, rel=1e-12)
    assert small.mass_likely == pytest.approx(large.mass_likely / 8, rel=1e-12)
    assert small.cog_from_butt == pytest.approx(large.cog_from_butt / 2, rel=1e-12)


FORMULAS = {
    formulas.newton_volume: ("butt_diameter", "middle_diameter", "top_diameter", "log_length"),
    formulas.two_end_volume: ("butt_diameter", "top_diameter", "log_length"),
    formulas.middle_volume: ("middle_diameter", "log_length"),
    formulas.balance_point: ("butt_diameter", "middle_diameter", "top_diameter", "log_length"),
    formulas.two_end_balance_point: ("butt_diameter", "top_diameter", "log_length"),
    formulas.middle_balance_point: ("log_length",),
    formulas.saturated_density: ("basic_gravity",),
    formulas.wood_density: ("basic_gravity", "moisture"),
    formulas.densest_wood: ("basic_gravity", "gravity_spread"),
    formulas.bark_under: ("volume", "bark_share", "bark_gravity", "bark_moisture"),
    formulas.over_bark_blend: ("wood_density", "bark_share", "bark_gravity", "bark_moisture"),
    formulas.volume_doubt: ("volume", "log_length", "diameter_error", "shape_spread"),
    formulas.likely_log: ("volume", "likely_density", "bark_mass", "added_share", "added_mass"),
    formulas.low_log: (
        "volume", "likely_density", "bark_mass", "added_share", "added_mass", "volume_spread",
        "density_spread", "guess_spread",
    ),
    formulas.planning_log: (
        "volume", "likely_density", "high_density", "densest_density", "bark_mass",
        "added_share", "added_mass", "volume_spread", "density_spread", "guess_spread",
    ),
    formulas.root_plate_balance: ("trunk_mass", "balance_from_butt", "root_plate_mass"),
    formulas.one_end_lifted: (
        "log_mass", "balance_from_ground_end", "hook_from_ground_end", "breakout_factor",
    ),
}  # fmt: skip


@pytest.mark.parametrize("formula", FORMULAS, ids=lambda formula: formula.__name__)
def test_arrays_give_what_scalars_give_one_by_one(formula):
    names = FORMULAS[formula]
    grid = np.random.default_rng(7).uniform(0.05, 0.9, size=(len(names), 4, 5))
    given_arrays = dict(zip(names, grid, strict=True))
    together = formula(**given_arrays)
    for at in np.ndindex(4, 5):
        alone = formula(**{name: float(array[at]) for name, array in given_arrays.items()})
        for whole, single in zip(together, alone, strict=True):
            assert np.broadcast_to(whole, (4, 5))[at] == pytest.approx(float(single), rel=1e-13)


@pytest.mark.parametrize("formula", FORMULAS, ids=lambda formula: formula.__name__)
def test_one_array_among_scalars_broadcasts(formula):
    for varied in FORMULAS[formula]:
        ours = dict.fromkeys(FORMULAS[formula], 0.5) | {varied: np.array([0.2, 0.4, 0.6])}
        assert np.broadcast_to(formula(**ours)[-1], (3,)).shape == (3,)


@settings(max_examples=settings().max_examples * 5 // 4)
@given(st.floats(0.1, 2.0), st.floats(0, 1), st.floats(1.0, 20.0))
def test_two_ends_are_never_lighter_than_cone_or_neiloid(butt, share, length):
    """By slices of the solids themselves, 2000 discs each."""
    top = butt * share
    along = (np.arange(2000) + 0.5) / 2000
    cone = butt + (top - butt) * along
    neiloid = (butt ** (2 / 3) + (top ** (2 / 3) - butt ** (2 / 3)) * along) ** 1.5
    ours = formulas.two_end_volume(butt_diameter=butt, top_diameter=top, log_length=length).volume
    for diameters in (cone, neiloid):
        discs = float(np.sum(np.pi / 4 * diameters**2) * length / 2000)
        assert ours >= discs * (1 - 1e-6)


@settings(max_examples=settings().max_examples * 5 // 4)
@given(st.floats(0.1, 2.0), st.floats(0, 1), st.floats(1.0, 20.0), st.sampled_from([0.5, 1.0]))
def test_balance_point_of_solids_by_slices(butt, share, length, power):
    """A paraboloid's diameter goes as the line's root, a cone's as the line."""
    top = butt * share
    line = 1 / power
    ends = butt**line, top**line

    def diameter(t):
        return (ends[0] + (ends[1] - ends[0]) * t) ** power

    along = (np.arange(4000) + 0.5) / 4000
    section = diameter(along) ** 2
    slices = float(np.sum(along * section) / np.sum(section)) * length
    ours = formulas.balance_point(
        butt_diameter=butt,
        middle_diameter=float(diameter(0.5)),
        top_diameter=top,
        log_length=length,
    )
    assert ours.balance_from_butt == pytest.approx(slices, rel=1e-6)


def test_the_neiloids_balance_point_errs_as_its_docstring_says():
    """A neiloid that runs to a point: truly 0.2 of the length from its butt, by slices."""
    along = (np.arange(4000) + 0.5) / 4000
    section = (1 - along) ** 3
    slices = float(np.sum(along * section) / np.sum(section))
    ours = formulas.balance_point(
        butt_diameter=1.0, middle_diameter=0.5**1.5, top_diameter=0.0, log_length=1.0
    )
    assert slices == pytest.approx(0.2, rel=1e-5)
    assert slices - ours.balance_from_butt == pytest.approx(0.033, abs=0.0005)
