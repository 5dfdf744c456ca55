"""A worse condition of the machine never raises an answer, whatever the lift and the wear."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from liftcalc.machines.condition import DEFECTS, PER_MINUTE, Condition
from tests.property.test_safety import no_better, some_lift, worse

conditions = st.builds(
    Condition,
    creep=st.floats(0, 120 * PER_MINUTE),
    play=st.floats(0, 0.07),
    stabiliser_creep=st.floats(0, 12 * PER_MINUTE),
    faults=st.just(()) | st.tuples(st.sampled_from(DEFECTS)),
)


def worse_of(one: Condition, two: Condition) -> Condition:
    return Condition(
        creep=max(one.creep, two.creep),
        play=max(one.play, two.play),
        stabiliser_creep=max(one.stabiliser_creep, two.stabiliser_creep),
        faults=(*(one.faults or ()), *(two.faults or ())),
    )


@given(st.integers(0, 10_000), conditions, conditions)
def test_a_worse_condition(seed: int, one: Condition, two: Condition) -> None:
    base = replace(some_lift(seed), condition=one)
    no_better(*worse(base, lambda: replace(base, condition=worse_of(one, two))))


@given(st.integers(0, 10_000), conditions)
def test_any_condition_beside_a_sound_machine(seed: int, found: Condition) -> None:
    base = some_lift(seed)
    no_better(*worse(base, lambda: replace(base, condition=found)))
