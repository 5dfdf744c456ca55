"""Worse inputs never raise the answer.

For every valid machine, pose and log: when one input gets worse, the allowed load and the heaviest
log never rise and the utilisation never falls. What is truly monotone is stated case by case; a
slope, for one, may help a line, and a cosine helps every ram a little.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift
from liftcalc.machines.files import load
from liftcalc.machines.supports import Stance
from liftcalc.rigging.sling import Sling
from liftcalc.site.site import Site
from tests.circumstances import beset
from tests.helpers import LARCH, MACHINES, altered, lift, near, some_pose, span, tried

more = st.floats(0.02, 0.6)
seeds = st.integers(0, 10_000)
STANCES: tuple[Stance, ...] = ("wheels", "stabilisers", "stabilisers and bucket")


def some_lift(seed: int, **only: Any) -> Lift:
    """A lift of a log by a machine near one of the shipped ones, anywhere it can stand."""
    rng = np.random.default_rng(seed)
    machine = near(seed % 48)
    end = only.pop("end", None) or rng.choice(["back", "front"])
    tools = [a for a in machine.attachment if a.end == end]
    tool = tools[rng.integers(len(tools))]
    request: dict[str, Any] = {
        "tool": tool.name,
        "point": tool.lift_point[rng.integers(len(tool.lift_point))].name,
        "site": Site(slope=rng.uniform(0, 0.15), heading=rng.uniform(-math.pi, math.pi)),
    }
    if end == "back":
        request |= {
            "reach": span(machine) * rng.uniform(0.35, 0.95),
            "height": span(machine) * rng.uniform(0.1, 0.8),
            "slew": rng.uniform(-1, 1) * machine.back.slew_limit,
            "sideshift": rng.uniform(-1, 1) * machine.back.sideshift_limit,
            "stance": STANCES[rng.integers(3)],
            "curl": rng.uniform(0, 1),
            "other": "wide front shovel",
        }
    else:
        request |= {
            "height": span(machine) * rng.uniform(0.05, 0.7),
            "tilt": rng.uniform(-0.2, 0.5),
            "travelling": bool(rng.integers(2)),
        }
    small = rng.uniform(0.4, 1.2)
    log = {
        "species": rng.choice(["european larch", "european beech", "norway spruce"]),
        "length": f"{2 + 4 * rng.random():.3f} m",
        "butt": f"{50 * small:.2f} cm",
        "mid": f"{45 * small:.2f} cm",
        "top": f"{40 * small:.2f} cm",
    }
    return lift(machine, end=str(end), log=only.pop("log", log), **{**request, **only})


def worse(base: Lift, changed: Callable[[], Lift]) -> tuple[Answer, Answer]:
    """Answers before and after, or an example that Hypothesis leaves aside."""
    before = tried(lambda: check(base))
    assume(before is not None)
    after = tried(lambda: check(changed()))
    assume(after is not None)
    return before, after


def no_better(before: Answer, after: Answer) -> None:
    slack = 1 + 1e-12
    assert after.allowed <= before.allowed * slack
    assert after.heaviest_log <= before.heaviest_log * slack
    assert after.utilisation >= before.utilisation / slack
    assert not (after.passes and not before.passes)


def relogged(base: Lift, seed: int, **change: str) -> Lift:
    """The same lift of another log."""
    other = lift(base.machine, log={**LARCH, **change})
    return replace(base, measure=other.measure, log=other.log)


@given(seeds, st.floats(1.5, 7.0), more)
def test_a_longer_log(seed: int, length: float, further: float) -> None:
    base = relogged(some_lift(seed), seed, length=f"{length:.4f} m")
    no_better(*worse(base, lambda: relogged(base, seed, length=f"{length * (1 + further):.4f} m")))


@given(seeds, st.floats(15.0, 50.0), more)
def test_a_thicker_log(seed: int, butt: float, further: float) -> None:
    def thick(k: float) -> dict[str, str]:
        sizes = (butt * k, 0.9 * butt * k, 0.8 * butt * k)
        return {
            part: f"{size:.4f} cm" for part, size in zip(("butt", "mid", "top"), sizes, strict=True)
        }

    base = relogged(some_lift(seed), seed, **thick(1.0))
    no_better(*worse(base, lambda: relogged(base, seed, **thick(1 + further))))


@given(seeds)
def test_a_log_soaked_through(seed: int) -> None:
    base = relogged(some_lift(seed), seed)
    no_better(*worse(base, lambda: relogged(base, seed, moisture="soaked")))


@given(seeds, st.floats(500.0, 6000.0), more)
def test_a_log_of_more_planning_mass_carried_on_the_move(
    seed: int, mass: float, further: float
) -> None:
    """The load factor falls with the load carried, so this is not plain from its use."""
    base = some_lift(seed, end="front", travelling=True)
    one = replace(base, log=replace(base.log, mass_planning=mass))
    two = replace(base, log=replace(base.log, mass_planning=mass * (1 + further)))
    no_better(*worse(one, lambda: two))


@given(seeds, more)
def test_heavier_rigging(seed: int, further: float) -> None:
    base = some_lift(seed)
    heavier = Sling(mass=base.sling.mass * (1 + 20 * further))
    no_better(*worse(base, lambda: replace(base, sling=heavier)))


@given(seeds, st.floats(0.3, 1.1), more)
def test_a_lower_gauge_reading(seed: int, share: float, further: float) -> None:
    base = some_lift(seed)
    book = float(base.machine.hydraulics.working_pressure)
    before, after = worse(
        replace(base, gauge=share * book), lambda: replace(base, gauge=share * book * (1 - further))
    )
    no_better(before, after)
    unread = check(base)
    no_better(unread, before)


@given(seeds, st.floats(100.0, 4000.0), more)
def test_a_lower_plate(seed: int, plate: float, further: float) -> None:
    base = some_lift(seed)
    before, after = worse(
        replace(base, plate=plate), lambda: replace(base, plate=plate * (1 - further))
    )
    no_better(before, after)
    no_better(check(base), before)
    assert before.allowed <= plate


@given(seeds, st.floats(0.0, 0.2), more)
def test_more_swing(seed: int, swing: float, further: float) -> None:
    base = some_lift(seed)
    no_better(
        *worse(replace(base, swing=swing), lambda: replace(base, swing=swing + 0.3 * further))
    )


def each_holds(asked: Lift, answer: Answer) -> dict[tuple[str, str], float]:
    """What each kind of criterion holds by itself, whichever line or support is the least [kg].

    Of a log that rolls rams and lines are those of one place, on a journey all is of one way: what
    they hold together is what counts there.
    """
    if len(answer.reached.arm.load_places) > 1 or len(asked.ways) > 1:
        return {}
    held: dict[tuple[str, str], float] = {}
    for each in answer.criteria:
        name = each.kind, "" if each.kind == "tipping" else each.title
        held[name] = min(held.get(name, math.inf), each.capacity)
    return held


@pytest.mark.parametrize("seed", range(200))
def test_more_wind(seed: int) -> None:
    """Of the answer, every criterion and every foot; half with all that may bear on a lift."""
    base = some_lift(seed)
    if seed % 2:
        base = beset(base, np.random.default_rng(seed))
    before = tried(lambda: check(base))
    for wind in (0.01, 3.0, 12.0, 30.0):
        after = tried(lambda wind=wind: check(replace(base, wind=wind)))
        assert (after is None) == (before is None)
        if before is None or after is None:
            return
        no_better(before, after)
        held = each_holds(base, after)
        for name, capacity in each_holds(base, before).items():
            assert held[name] <= capacity * (1 + 1e-12), name
        feet = zip(before.ground_forces.feet, after.ground_forces.feet, strict=True)
        assert len(base.ways) > 1 or all(two.worst >= one.worst / (1 + 1e-12) for one, two in feet)
        before = after


@given(seeds, st.floats(0.0, 0.5), more)
def test_farther_off_its_balance(seed: int, aside: float, further: float) -> None:
    base = some_lift(seed, end="front")
    no_better(
        *worse(replace(base, off_centre=aside), lambda: replace(base, off_centre=aside + further))
    )


@pytest.mark.parametrize(
    ("key", "share"),
    [
        ("hydraulics__efficiency", 0.3),
        ("hydraulics__working_pressure", 0.5),
        ("back__boom_ram__bore", 0.1),
        ("front__lift_ram__bore", 0.1),
        ("back__dipper_ram__bore", 0.1),
    ],
)
@given(seeds, st.floats(0.1, 1.0))
def test_weaker_hydraulics(key: str, share: float, seed: int, much: float) -> None:
    base = some_lift(seed)
    figure: Any = base.machine
    for part in key.split("__"):
        figure = getattr(figure, part)
    weaker = altered(base.machine, **{key: float(figure) * (1 - share * much)})
    no_better(*worse(base, lambda: replace(base, machine=weaker)))


@given(seeds, more)
def test_narrower_pads(seed: int, further: float) -> None:
    base = some_lift(seed, end="back")
    spread = float(base.machine.stabilisers.pad_spread)
    narrow = altered(base.machine, stabilisers__pad_spread=spread * (1 - further))
    no_better(*worse(base, lambda: replace(base, machine=narrow)))


@given(seeds, more)
def test_a_narrower_rear_track(seed: int, further: float) -> None:
    base = some_lift(seed, end="front")
    track = float(base.machine.wheels.rear_track)
    narrow = altered(base.machine, wheels__rear_track=track * (1 - further))
    no_better(*worse(base, lambda: replace(base, machine=narrow)))


@given(seeds, st.floats(100.0, 3000.0), more)
def test_a_lower_working_load_limit(seed: int, wll: float, further: float) -> None:
    base = some_lift(seed)

    def rated(limit: float) -> Lift:
        return replace(base, point=base.point.model_copy(update={"wll": limit}))

    no_better(*worse(rated(wll), lambda: rated(wll * (1 - further))))


@given(seeds)
def test_stabilisers_up(seed: int) -> None:
    """Over the back and to the sides: the machine on its tyres, all else alike.

    Grip is left out: pads may well slide where the tyres of a whole machine would hold.
    """
    base = some_lift(seed, end="back", stance="stabilisers")
    before, after = worse(base, lambda: replace(base, stance="wheels"))

    def allowed(answer: Answer) -> float:
        return min(each.allowed for each in answer.criteria if not each.name.startswith("grip on"))

    assert allowed(after) <= allowed(before) * (1 + 1e-12)


@given(seeds)
def test_moving_off_with_the_load(seed: int) -> None:
    base = some_lift(seed, end="front", travelling=False)
    no_better(*worse(base, lambda: replace(base, travelling=True)))


@given(seeds, st.floats(0.0, 3.0), st.floats(0.1, 3.0))
def test_harder_braking_with_the_load_in_front(seed: int, slow: float, more_of_it: float) -> None:
    """Tipping over the front axle only: another line may gain."""
    base = some_lift(seed, end="front", travelling=True)
    base = replace(base, site=Site(acceleration_forward=-slow))
    before, after = worse(
        base, lambda: replace(base, site=Site(acceleration_forward=-slow - more_of_it))
    )

    def over_front(answer: Answer) -> float:
        return next(
            float(each.tipping_load)
            for each in answer.reached.lines
            if each.line.name == "over the front axle"
        )

    assert over_front(after) <= over_front(before) * (1 + 1e-12)


@given(seeds, st.floats(0.05, 0.5))
def test_a_longer_reach_straight_back(seed: int, out: float) -> None:
    """Tipping over both stabilisers at the same height, on the level.

    Farther out the load's lever grows by all of it; boom and dipper may tuck in a little as they
    stretch, but weigh far less than the load that tips.
    """
    base = some_lift(seed, end="back", slew=0.0, sideshift=0.0, stance="stabilisers", site=Site())
    before, after = worse(base, lambda: replace(base, reach=(base.reach or 0.0) + out))

    def over_back(answer: Answer) -> float:
        return next(
            float(each.tipping_load)
            for each in answer.reached.lines
            if each.line.name == "over both stabilisers"
        )

    assert over_back(after) <= over_back(before) * (1 + 1e-12)


@given(
    seeds,
    st.sampled_from(STANCES),
    st.tuples(st.floats(0.0, 0.25), st.floats(0.01, 0.25)),
    st.tuples(st.floats(0, 2 * math.pi), st.floats(0, math.pi)),
)
def test_a_steeper_slope_has_a_heading_that_is_worse(
    seed: int, stance: Stance, slopes: tuple[float, float], turns: tuple[float, float]
) -> None:
    """Tipping, whatever the pose: no slope is safer than the worst heading of a steeper one.

    Proved exactly and not by trying headings. Gravity's direction is a point of the disc of radius
    tan(slope), and the poses that hold a load make a convex set of such points: so on any chord of
    the steeper slope's circle the point between is at least as good as the worse end.

    For a ram there is no such rule: tilted square to its plane gravity loses a cosine, so a ram
    may hold 1/cos(slope) as much. This is true, and smaller than any share taken off.
    """
    (slope, further), (heading, chord) = slopes, turns
    rng = np.random.default_rng(seed)
    posed = some_pose(load(MACHINES[seed % len(MACHINES)]), stance, rng)
    here = math.tan(slope) * np.array([math.cos(heading), math.sin(heading)])
    along = np.array([math.cos(chord), math.sin(chord)])
    steep = slope + further
    half = float(here @ along)
    root = math.sqrt(half**2 - float(here @ here) + math.tan(steep) ** 2)
    ends = [here + (-half + sign * root) * along for sign in (1, -1)]

    def tips(slope: float, heading: float) -> float:
        gravity = Site(slope=slope, heading=heading).gravity
        return posed.tipping_load(tuple(float(part) for part in gravity))

    worst = min(tips(steep, math.atan2(end[1], end[0])) for end in ends)
    assert worst <= tips(slope, heading) * (1 + 1e-9)


@given(seeds, st.floats(1.0, 6.0), st.floats(0.1, 2.0))
def test_farther_out_on_a_chart(seed: int, reach: float, out: float) -> None:
    """A machine's chart, row by row: a longer reach never finds a higher load."""
    from liftcalc.evaluation.rated_chart import plate_limits
    from liftcalc.machines.schema import Plate
    from tests.helpers import like

    base = some_lift(seed, end="back")
    number = base.machine.weights.total
    rng = np.random.default_rng(seed)
    rows = [(r, 2000 - 250 * r + 50 * rng.random()) for r in (2.0, 3.0, 4.0, 5.0)]
    plates = tuple(
        Plate(end="back", load=like(number, kg), reach=like(number, r), rated_with=base.tool.name)
        for r, kg in rows
    )
    charted = replace(base, machine=base.machine.model_copy(update={"plate": plates}))

    def allowed(distance: float) -> float:
        return min(float(each.allowed(distance)) for each in plate_limits(charted))

    assert allowed(reach + out) <= allowed(reach)
    # Between two rows the farther counts, beyond the last nothing.
    exact = dict(rows)
    for r, kg in exact.items():
        assert allowed(r) == pytest.approx(kg)
        if r > 2.0:
            assert allowed(r - 0.5) == pytest.approx(kg)
    assert allowed(5.01) == 0.0
