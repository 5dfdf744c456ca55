"""Proof of the ground by the machine itself."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from liftcalc.errors import InputError
from liftcalc.evaluation.check import check
from liftcalc.machines.number import plain
from liftcalc.questions.proof import proof
from liftcalc.questions.remedies import with_other_end
from liftcalc.site.ground import ground
from liftcalc.units import G0
from tests.helpers import lift

LIGHT = {"species": "european larch", "length": "2 m", "butt": "20 cm", "top": "18 cm"}


def asked(**more):
    return lift(tool="lifting hook", log=LIGHT, reach=4.0, slew=0.5, **more)


def pads(answer):
    return [each for each in answer.criteria if each.kind == "ground under a pad"]


def test_the_force_is_that_of_the_moments_about_the_other_pad():
    """By hand: moments about the line of the pads, then about the other pad, of all masses."""
    base = asked()
    made = proof(base, earth=200.0)
    for number, pad in enumerate(made.pads):
        there = check(replace(base, stance="stabilisers", slew=pad.slew)).reached
        legs, wheels = base.machine.stabilisers, base.machine.wheels
        at, spread = plain(legs.x), plain(legs.pad_spread)
        least = math.inf
        for whole in there.wholes:
            masses = [(whole.mass, whole.x, whole.y), (200.0, there.load[0], there.load[1])]
            total = sum(mass for mass, _, _ in masses)
            front = sum(mass * (x - at) for mass, x, _ in masses) / (plain(wheels.wheelbase) - at)
            aside = sum(mass * y for mass, _, y in masses) / spread
            up = (total - front) / 2 + (aside if number == 0 else -aside)
            least = min(least, up)
        assert pad.proved <= G0 * least * (1 + 1e-9) < pad.proved + 100.0  # told in steps


@pytest.mark.parametrize("name", [None, "peat", "mud", "unknown", "firm clay", "rock"])
def test_a_proved_force_counts_on_any_ground_where_it_is_more(name):
    base = asked(ground=name and ground(name))
    proved = replace(base, proved=60e3)
    for one, two in zip(pads(check(proved)), pads(check(base)) or [None] * 2, strict=True):
        assert two is None or one.capacity >= two.capacity
    forces = [f for f in check(proved).ground_forces.feet if f.kind == "pad"]
    assert all(each.carries >= 60e3 / 1.25 * (1 - 1e-12) for each in forces)
    assert [f.carries for f in forces if name == "peat"] == ([48e3] * 2 if name == "peat" else [])


def test_more_proof_never_allows_less_and_no_proof_nothing_on_peat():
    base = asked(ground=ground("peat"))
    assert not check(base).passes
    found = [
        min(each.capacity for each in pads(check(replace(base, proved=force))))
        for force in (1e3, 1e4, 3e4, 5e4, 9e4)
    ]
    assert found == sorted(found)
    assert found[-1] > found[0]


def test_what_is_proved_enough_passes_and_no_tyre_is_proved_by_it():
    base = asked(ground=ground("peat"), mat=0.8)
    made = proof(base, earth=600.0)
    again = check(replace(base, proved=made.proved))
    for pad, criterion in zip(made.pads, pads(again), strict=True):
        if made.proved / 1.25 >= pad.needed:
            assert criterion.utilisation <= 1 + 1e-9
    wheels = lift(end="front", log=LIGHT, ground=ground("peat"), proved=1e6, travelling=True)
    assert not check(wheels).passes


@pytest.mark.parametrize("earth", [0.0, 150.0, 300.0, 450.0, 600.0, 900.0])
@pytest.mark.parametrize("slew", [0.0, 1.2])
def test_a_proof_says_enough_where_the_check_that_it_leads_to_does(earth, slew):
    """Tolerances of the machine's figures and jolts included."""
    base = replace(asked(ground=ground("peat"), exact=False), slew=slew)
    made = proof(base, earth=earth)
    again = check(replace(base, proved=made.proved))
    assert made.holds is all(each.utilisation <= 1 for each in pads(again))


def test_what_stands_is_proved_and_not_with_more_earth_than_may_be_lifted():
    for elsewhere in ({"end": "front", "travelling": True}, {"stance": "wheels", "reach": 4.0}):
        with pytest.raises(InputError, match="back end on its stabilisers"):
            proof(lift(log=LIGHT, **elsewhere))
    with pytest.raises(InputError, match="less earth"):
        proof(asked(), earth=20_000.0)


def standing(**more):
    return lift(end="front", tool="pallet forks", log=LIGHT, height=0.6, **more)


def tyres(answer):
    return [each for each in answer.criteria if each.kind == "ground under a tyre"]


def test_the_front_tyres_press_with_the_moments_about_the_rear_axle():
    """By hand: what a machine on its wheels, its log ahead of it, puts on each front tyre."""
    base = standing()
    made, there = proof(base, earth=500.0), check(base).reached
    base_of = plain(base.machine.wheels.wheelbase)
    least = min(
        (whole.mass * whole.x + 500.0 * there.load[0]) / base_of / 2 for whole in there.wholes
    )
    assert [pad.name for pad in made.pads] == ["left front tyre", "right front tyre"]
    for pad in made.pads:
        # The machine may lean: the lighter of both tyres is proved.
        assert pad.proved <= G0 * least * (1 + 1e-6)
        assert pad.proved == pytest.approx(G0 * least, rel=0.03)


@pytest.mark.parametrize("name", [None, "firm clay", "loose sand or gravel", "peat"])
def test_tyres_that_stood_there_are_proved_as_pads_are(name):
    base = standing(ground=name and ground(name))
    made = proof(base, earth=1500.0)
    assert made.holds
    again = check(replace(base, proved=made.proved))
    assert {each.where for each in tyres(again)} == {"under the front tyres"}
    assert all(each.utilisation <= 1 + 1e-9 for each in tyres(again))
    found = [
        min(each.capacity for each in tyres(check(replace(base, proved=force))))
        for force in (1e3, 1e4, 3e4, 5e4)
    ]
    assert found == sorted(found)
    assert found[0] < found[-1]


def test_what_pads_proved_says_nothing_of_tyres_on_the_move_or_at_the_other_end():
    assert standing(proved=6e4).proof == "front tyre"
    assert standing(proved=6e4, travelling=True).proof is None
    assert asked(proved=6e4).proof == "pad"
    assert asked(proved=6e4, stance="wheels").proof is None
    point = asked().other_tool.lift_point[0]
    assert with_other_end(asked(proved=6e4), point).proved is None
