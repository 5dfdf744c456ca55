"""Ground by name and by users' own words, and both ends of what it carries."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from liftcalc.errors import InputError
from liftcalc.evaluation.check import check
from liftcalc.site.ground import GROUNDS, WORDS, ground
from liftcalc.site.site import Site
from tests.helpers import lift

LIGHT = {"species": "european larch", "length": "2 m", "butt": "20 cm", "top": "18 cm"}
SIDES = [(0.2, 0.3), (0.4, 0.35), (1.0, 1.0)]


@pytest.mark.parametrize("each", GROUNDS, ids=lambda each: each.name)
@pytest.mark.parametrize("sides", SIDES)
def test_the_careful_end_is_never_above_the_favourable_one(each, sides):
    width, length = sides
    careful, hopeful = (
        each.allowed(width=width, length=length, hopeful=end).result for end in (False, True)
    )
    assert 0 <= careful < hopeful
    assert (careful > 0) == each.presumed


@pytest.mark.parametrize("each", GROUNDS, ids=lambda each: each.name)
@pytest.mark.parametrize("hopeful", [False, True])
def test_a_larger_pad_and_an_upright_force_never_carry_less(each, hopeful):
    sizes = np.linspace(0.1, 3.0, 40)
    forces = each.allowed(width=sizes, length=0.5, hopeful=hopeful).steps.pad_pressure * sizes * 0.5
    assert (np.diff(forces * np.ones(40)) >= -1e-9).all()
    leaning = [
        each.allowed(width=0.5, length=0.5, level_share=share, hopeful=hopeful).result
        for share in np.linspace(0, 1, 30)
    ]
    assert (np.diff(leaning) <= 0).all()


@pytest.mark.parametrize("word", WORDS)
def test_a_word_leads_to_ground_that_is_not_firm(word):
    """Only concrete, and rock by another name, may be called hard."""
    named = ground(word.upper())
    hard = {"bedrock", "ledge", "concrete", "slab", "concrete slab"}
    assert named.name not in {"rock", "hard standing"} or word in hard
    assert "dense" not in named.name
    assert "stiff" not in named.name


@pytest.mark.parametrize(
    ("word", "name"),
    [
        ("gravel", "loose sand or gravel"),
        ("sand", "loose sand or gravel"),
        ("forest floor", "peat"),
        ("tarmac", "unknown"),
        ("frozen", "unknown"),
        ("track", "fill"),
        ("clay", "soft clay"),
        ("slab", "concrete"),
    ],
)
def test_the_weaker_guess_is_taken(word, name):
    assert ground(word).name == name


def test_no_misspelling_is_guessed_at():
    with pytest.raises(InputError, match="did you mean firm clay"):
        ground("fim clay")


@pytest.mark.parametrize("name", ["peat", "mud", "fill", "unknown"])
@pytest.mark.parametrize("end", ["front", "back"])
def test_where_nothing_is_presumed_neither_mats_nor_tyres_hold(name, end):
    more = {"mat": 2.0} if end == "back" else {}
    answer = check(lift(end=end, log=LIGHT, ground=ground(name), **more))
    assert not answer.passes
    assert answer.governing.kind.startswith("ground under a")


def test_a_small_log_on_firm_clay_with_bare_pads_is_open():
    """The engineer's: 100 kg at 4 m straight back."""
    asked = lift(log=LIGHT, reach=4.0, slew=0.0, ground=ground("firm clay"))
    assert not check(asked).passes
    assert check(replace(asked, hopeful=frozenset({"ground"}))).passes


@pytest.mark.parametrize("slope", [0.0, 0.06])
@pytest.mark.parametrize("heading", [0.0, 1.2, 3.1])
def test_the_criterion_of_a_tyre_is_at_the_force_told_on_it(slope, heading):
    """Load at which it fails, put on: the worst tyre then carries what it may.

    On a slope the criterion overstates the push to the side a little: it adds what only comes in
    different ways of holding the machine.
    """
    site = Site(slope=slope, heading=heading)
    asked = lift(
        end="front", tool="pallet forks", log=LIGHT, ground=ground("stiff clay"), site=site
    )
    asked = replace(asked, off_centre=0.0)
    found = [each for each in check(asked).criteria if each.kind == "ground under a tyre"]
    first = next(each for each in found if "front" in each.where)
    hangs = first.capacity / asked.load_factor(first.kind).value
    mass = (hangs - asked.rigging) / asked.pull.share
    log = replace(asked.log, mass_planning=mass)
    there = check(replace(asked, log=log)).ground_forces.feet
    worst = max((each for each in there if "front" in each.name), key=lambda each: each.worst)
    assert worst.worst <= worst.carries * (1 + 1e-9)
    assert worst.worst >= worst.carries * (0.995 if slope else 1 - 1e-9)


def test_forces_and_criteria_agree_whether_ground_carries():
    for name in ("soft clay", "stiff clay", "dense gravel", "rock"):
        asked = lift(log=LIGHT, ground=ground(name), mat=0.5)
        answer = check(asked)
        under = {
            each.where: each.utilisation <= 1 for each in answer.criteria if each.name == "ground"
        }
        for foot in answer.ground_forces.feet:
            if not foot.tyre:
                assert under[f"under the {foot.name}"] != foot.sinks
