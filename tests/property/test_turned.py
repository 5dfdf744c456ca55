"""Worse inputs never raise the answer of a question turned round, nor lower what is needed."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift
from liftcalc.questions.ballast import needed_ballast
from liftcalc.questions.carry_height import carry_height, deepest_ruts, on_the_move, turn_speeds
from liftcalc.questions.farthest import greatest_height, greatest_reach
from liftcalc.questions.longest import longest_piece
from liftcalc.questions.pads import holds, needed_pad
from liftcalc.questions.pressure import needed_pressure
from liftcalc.questions.remedies import remedies
from liftcalc.questions.search import tried
from liftcalc.questions.steepest import steepest_slope
from liftcalc.site.ground import ground
from liftcalc.timber.log import weigh
from tests.helpers import MACHINES, altered, lift, span
from tests.helpers import load as machine_of

seeds = st.integers(0, 10_000)
more = st.floats(1.02, 1.5)
few = settings(max_examples=settings().max_examples * 3 // 10)


def some(seed: int, *, end: str = "back", **only) -> Lift:
    """A lift that a machine can pose for, with a log about as heavy as it can take."""
    rng = np.random.default_rng(seed)
    machine = machine_of(MACHINES[seed % len(MACHINES)])
    tools = [a for a in machine.attachment if a.end == end]
    tool = tools[rng.integers(len(tools))]
    small = rng.uniform(0.4, 0.9)
    request = {"tool": tool.name, "height": span(machine) * rng.uniform(0.15, 0.5)}
    if end == "back":
        request |= {
            "reach": span(machine) * rng.uniform(0.5, 0.9),
            "slew": rng.uniform(-1, 1) * machine.back.slew_limit,
        }
    log = {
        "species": "european larch",
        "length": f"{2 + 4 * rng.random():.3f} m",
        "butt": f"{55 * small:.2f} cm",
        "mid": f"{48 * small:.2f} cm",
        "top": f"{42 * small:.2f} cm",
    }
    made = lift(machine, end=end, log=log, **{**request, **only})
    assume(tried(made).answer is not None)
    return made


def heavier(asked: Lift, times: float) -> Lift:
    return replace(asked, log=replace(asked.log, mass_planning=times * asked.log.mass_planning))


def weaker(asked: Lift, times: float) -> Lift:
    book = float(asked.machine.hydraulics.working_pressure)
    return replace(asked, machine=altered(asked.machine, hydraulics__working_pressure=book / times))


def unsteadier(asked: Lift, times: float) -> Lift:
    return replace(asked, swing=0.1 * (times - 1))


def slipperier(asked: Lift, times: float) -> Lift:
    return replace(asked, motion=replace(asked.motion, friction=asked.friction / times))


WORSE = [heavier, weaker, unsteadier, slipperier]


def at_most(worse: float | None, better: float | None) -> bool:
    """No answer at all is the worst of an answer that should be large."""
    return worse is None or (better is not None and worse <= better + 1e-9)


@pytest.mark.parametrize("change", WORSE)
@pytest.mark.parametrize("ask", [greatest_reach, greatest_height, steepest_slope])
@given(seed=seeds, times=more)
@few
def test_what_should_be_large_never_grows(ask, change, seed, times):
    asked = some(seed)
    assert at_most(ask(change(asked, times)).value, ask(asked).value)


@pytest.mark.parametrize("keep", ["butt", "top"])
@given(seed=seeds, times=more)
@few
def test_a_weaker_machine_never_lifts_a_longer_piece(keep, seed, times):
    asked = some(seed)
    worse = longest_piece(weaker(asked, times), keep=keep).value
    assert at_most(worse, longest_piece(asked, keep=keep).value)


@given(seed=seeds, times=more)
@few
def test_a_wetter_log_never_gives_a_longer_piece(seed, times):
    asked = some(seed)
    dry = replace(asked.measure, moisture=0.5)
    wet = replace(asked.measure, moisture=0.5 * times)
    found = []
    for measure in (dry, wet):
        changed = replace(asked, measure=measure, log=weigh(measure))
        found.append(longest_piece(changed, keep="top").value)
    assert at_most(found[1], found[0])


@given(seed=seeds, times=more)
@few
def test_what_is_needed_never_falls_for_a_heavier_log(seed, times):
    asked = some(seed)
    for need in (needed_pressure, needed_ballast):
        light, heavy = need(asked).value, need(heavier(asked, times)).value
        assert light is not None or heavy is None
        assert heavy is None or light <= heavy
    clay = ground("firm clay")
    light, heavy = (needed_pad(x, ground=clay).value for x in (asked, heavier(asked, times)))
    assert at_most(light, heavy) if heavy is not None else True


@given(seed=seeds, swing=st.floats(0.0, 0.1), pressed=st.booleans())
@few
def test_a_mat_as_large_as_answered_holds_and_one_a_centimetre_less_does_not(seed, swing, pressed):
    asked = some(seed, swing=swing)
    if pressed:
        asked = replace(asked, stance="stabilisers and bucket")
        assume(tried(asked).answer is not None)
    for name in ("soft clay", "stiff clay"):
        named = ground(name)
        side = needed_pad(asked, ground=named).value
        if side is None:
            assert not holds(tried(replace(asked, ground=named, mat=4.0)))
            continue
        assert holds(tried(replace(asked, ground=named, mat=side)))
        assert not holds(tried(replace(asked, ground=named, mat=side - 0.01)))
    soft, stiff = (needed_pad(asked, ground=ground(x)).value for x in ("soft clay", "stiff clay"))
    assert at_most(stiff, soft) if soft is not None else True


@given(seed=seeds, times=more)
@settings(max_examples=settings().max_examples // 8)
def test_on_the_move_worse_is_never_lower_nor_faster_nor_deeper(seed, times):
    asked = on_the_move(some(seed, end="front", height=1.2))
    low = carry_height(asked)
    for change in (heavier, slipperier):
        worse = carry_height(change(asked, times))
        assert at_most(low.value, worse.value) if worse.value is not None else True
    if low.value is None:
        assert not low.at.passes
        return
    there = low.at.lift
    assert check(there).passes
    for change in (heavier, unsteadier):
        usual, worse = turn_speeds(there), turn_speeds(change(there, times))
        assert at_most(worse.planned, usual.planned)
        assert worse.rollover <= usual.rollover
    for change in (heavier, slipperier):
        assert at_most(deepest_ruts(change(there, times)), deepest_ruts(there))


@given(seed=seeds, end=st.sampled_from(["front", "back"]))
@few
def test_every_answer_passes_at_its_value_and_not_beyond(seed, end):
    asked = some(seed, end=end)
    answers = [greatest_height(asked), steepest_slope(asked), longest_piece(asked, keep="butt")]
    if end == "back":
        answers.append(greatest_reach(asked))
    answers.append(needed_ballast(asked))
    for answer in answers:
        if answer.value is None:
            assert not answer.at.passes
            continue
        assert check(answer.at.lift).passes
        if answer.beyond is not None:
            assert not tried(answer.beyond.lift).passes


@given(seed=seeds, end=st.sampled_from(["front", "back"]))
@few
def test_no_remedy_is_worth_more_than_the_check_says(seed, end):
    asked = some(seed, end=end)
    base = check(asked).heaviest_log - asked.log.mass_planning
    for each in remedies(asked):
        if each.worth is not None:
            after = check(each.after.lift)
            gain = after.heaviest_log - each.after.lift.log.mass_planning - base
            assert 1 <= each.worth <= gain + 1e-6


def test_left_and_right_have_the_same_reach_where_the_machine_is_symmetric():
    machine = altered(machine_of("standard-centre-mount"), carried__1__at__1=0.0)
    sides = [
        greatest_reach(lift(machine, tool="lifting hook", slew=slew)).value
        for slew in (math.radians(60), -math.radians(60))
    ]
    assert sides[0] == sides[1]
