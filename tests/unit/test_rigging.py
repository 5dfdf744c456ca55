"""Rigging against second ways: vector equilibrium, least energy, a loop laid round a log."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq, minimize

from liftcalc.errors import InputError
from liftcalc.physics import formulas
from liftcalc.rigging.gear import Gear, missing, single_leg
from liftcalc.rigging.grip import FRICTION, GRIP_SAFETY, along_share, load_held
from liftcalc.rigging.lift_mode import CHOKE_IN, STEEPEST_TRAIL, LiftMode, moves, pull
from liftcalc.rigging.ratings import ratings
from liftcalc.rigging.sling import BALANCE_MISS, Sling, hang, level_window, two_point_shares
from liftcalc.sources import SOURCES
from liftcalc.units import G0
from tests.helpers import told

LOG = {"log_length": 6.0, "balance": 2.7, "diameter": 0.4}


def rated(gear: Gear, sling: Sling, **log: float) -> float:
    """Capacity of the sling [kg]."""
    return ratings(gear, sling=sling, **(LOG | log))[0].capacity


# Legs


def tensions(mass: float, feet: tuple[float, float], hook: float) -> np.ndarray:
    """Pull along each leg by solving the balance of forces at the hook."""
    legs = np.array([[foot, -hook] for foot in feet]).T
    along = legs / np.linalg.norm(legs, axis=0)
    return np.linalg.solve(along, [0.0, -mass])


@pytest.mark.parametrize(
    ("degrees", "exact"), [(60, 1000 / math.sqrt(3)), (45, 1000 / math.sqrt(2)), (30, 1000.0)]
)
def test_a_thousand_on_two_equal_legs(degrees: int, exact: float) -> None:
    """Legs so many degrees above the horizontal; exact sines."""
    lean = math.radians(90 - degrees)
    worked = formulas.leg_tension(hung_mass=1000.0, leg_share=0.5, leg_lean=lean)
    assert float(worked.leg_tension) == pytest.approx(exact, rel=1e-12)
    assert 1000 / float(formulas.legs(included_angle=2 * lean)[-1]) == pytest.approx(exact)
    half = math.tan(lean)
    assert tensions(1000, (-half, half), 1.0) == pytest.approx([exact, exact])


@pytest.mark.parametrize("at", [2.7, 2.9, 3.2])
def test_the_worse_leg_never_has_more_than_a_choked_leg_may(at: float) -> None:
    """Legs and log turned as they hang by least energy, then the forces at the hook solved."""
    sling = Sling(way="two legs", length=4.0, spread=2.4, at=at)
    feet, centre = hung(sling, depth=0.2)
    legs = feet / np.linalg.norm(feet, axis=1)[:, None]
    assert centre[0] == pytest.approx(0, abs=1e-6)

    def worst(capacity: float) -> float:
        return float(max(np.linalg.solve(legs.T, [0.0, -capacity])))

    capacity = rated(Gear(wll=1400.0, kind="chain grade 80"), sling)
    assert worst(capacity) <= 800 * (1 + 1e-7)  # the minimum is found to about that
    # Without the uniform rating: exact where nothing is missed, then what the tipping gives back.
    free = sling.length - math.pi * LOG["diameter"]
    bare = formulas.two_legs(
        single_leg=1000.0,
        mode_factor=0.8,
        included_angle=2 * math.asin(1.2 / free),
        larger_share=0.5 + abs(at - LOG["balance"]) / 2.4,
        uniform_factor=math.inf,
    ).two_leg_capacity
    assert capacity <= bare * (1 + 1e-12)
    assert (800 * (1 - 1e-7) if at == 2.7 else 690) <= worst(bare) <= 800 * (1 + 1e-7)


def hung(sling: Sling, *, depth: float) -> tuple[np.ndarray, np.ndarray]:
    """Both feet and the balance point of a log in two legs where the balance point lies lowest."""
    free, half = sling.length - math.pi * LOG["diameter"], sling.spread / 2
    high = math.sqrt(free**2 - half**2)
    assert sling.at is not None
    miss = LOG["balance"] - sling.at

    def turned(angle: float) -> tuple[np.ndarray, np.ndarray]:
        c, s = math.cos(angle), math.sin(angle)
        turn = np.array([[c, -s], [s, c]])
        points = np.array([[-half, -high], [half, -high], [miss, -high - depth]]) @ turn.T
        return points[:2], points[2]

    found = minimize(lambda a: turned(a[0])[1][1], x0=[0.0], tol=1e-14)
    return turned(float(found.x[0]))


def test_two_legs_by_hand() -> None:
    """Grade 80 of 8 mm, EN row 2000 kg, legs that stand 90° apart, balance point met."""
    free = 2.0
    sling = Sling(
        way="two legs", length=free + math.pi * 0.4, spread=free * math.sqrt(2), at=LOG["balance"]
    )
    assert rated(Gear(kind="chain grade 80", size=0.008), sling) == pytest.approx(0.8 * 2000 * 1.4)
    missed = rated(
        Gear(kind="chain grade 80", size=0.008),
        Sling(way="two legs", length=sling.length, spread=sling.spread),
    )
    share = 0.5 + BALANCE_MISS * 6.0 / sling.spread
    assert missed == pytest.approx(0.8 * 2000 * math.sqrt(2) / (2 * share))


@pytest.mark.parametrize(
    ("gear", "near", "wide"),
    [
        # 7 mm: 1.4 · 1.5 t; 10 mm: the row of two legs, 4.25 t; both choked.
        (Gear(kind="chain grade 80", size=0.007), 1680.0, 1200.0),
        (Gear(kind="chain grade 80", size=0.010), 3400.0, 2520.0),
        (Gear(kind="round sling", wll=2800.0), 2240.0, 1600.0),
        # A tag of the whole sling that its chain is worth takes nothing from it.
        (Gear(kind="chain grade 80", size=0.010, wll=4250.0), 3400.0, 2520.0),
        (Gear(kind="chain grade 80", size=0.007, wll=2120.0), 1680.0, 1200.0),
        (Gear(kind="wire rope", size=0.010), 0.7 * 1.4 * 800, 0.7 * 800),
    ],
)
def test_two_legs_count_by_the_uniform_rating_at_most(gear: Gear, near: float, wide: float) -> None:
    """EN 818-4, from memory: 1.4 straight legs to a right angle between them, one beyond."""
    free = 2.0

    def at(degrees: float) -> float:
        spread = 2 * free * math.sin(math.radians(degrees / 2))
        length = free + math.pi * LOG["diameter"]
        return rated(gear, Sling(way="two legs", length=length, spread=spread, at=LOG["balance"]))

    assert [at(20), at(60), at(90)] == pytest.approx([near] * 3)
    assert at(90.1) == pytest.approx(wide)
    assert at(119.9) == pytest.approx(wide, rel=0.01)
    worse = [at(degrees) for degrees in np.linspace(10, 120, 111)[:-1]]
    assert worse == sorted(worse, reverse=True)


def test_one_of_two_legs_carries_the_end_of_a_log_alone() -> None:
    """The tag is still that of the whole sling: a leg of it has 1/1.4."""
    sling = Sling(way="two legs", length=4.0, spread=1.5)
    gear = Gear(kind="round sling", wll=1400.0, hook_wll=2000.0)
    raised = ratings(gear, sling=sling, whole=False, **LOG)
    assert [each.capacity for each in raised] == pytest.approx([800.0, 2000.0])


@pytest.mark.parametrize("at", [2.7, 3.0])
def test_a_part_on_a_leaning_leg_is_pulled_by_more_than_all_that_hangs(at: float) -> None:
    """Against the balance of forces at the hook, the log held level."""
    sling = Sling(way="two legs", length=2.4, spread=1.95, at=at)
    gear = Gear(hook_wll=2000.0, shackle_wll=1500.0, hitch_wll=1800.0)
    hook, shackle, hitch = ratings(gear, sling=sling, **LOG)
    share = 0.5 + abs(at - LOG["balance"]) / sling.spread
    half = math.asin(sling.spread / 2 / (sling.length - math.pi * LOG["diameter"]))
    pulled = share / math.cos(half)
    assert (pulled > 1) == (at == 3.0)
    assert hook.capacity == pytest.approx(2000.0 / max(pulled, 1.0))
    assert shackle.capacity == pytest.approx(1500.0 / max(pulled, 1.0))
    assert hitch.capacity == 1800.0
    assert (hook.where == "on the worse leg") == (pulled > 1)


def test_two_legs_at_one_place_are_one_leg() -> None:
    gear = Gear(kind="round sling", wll=1400.0)
    together = Sling(way="two legs", length=4.0, spread=0.0)
    assert rated(gear, together) == pytest.approx(800.0)
    near = Sling(way="two legs", length=4.0, spread=0.01)
    assert rated(gear, near) == pytest.approx(800.0, rel=1e-4)


@pytest.mark.parametrize("free", [1.155, 1.2])
def test_two_legs_never_beyond_120_degrees(free: float) -> None:
    gear = Gear(kind="round sling", wll=1400.0)
    length = free + math.pi * 0.4
    fits = Sling(way="two legs", length=length, spread=2.0, at=2.7)
    assert rated(gear, fits) == pytest.approx(800.0)
    short = Sling(way="two legs", length=length - 0.05, spread=2.0, at=2.7)
    if free == 1.155:
        with pytest.raises(InputError, match="120°"):
            rated(gear, short)
    # Also where nothing is known of the gear, and where a choke takes all of the leg.
    with pytest.raises(InputError, match="at least"):
        ratings(Gear(), sling=Sling(way="two legs", length=1.0, spread=0.5), **LOG)


def test_a_log_is_not_hung_outside_its_legs() -> None:
    with pytest.raises(InputError, match="tip out"):
        rated(Gear(wll=900.0), Sling(way="two legs", length=5.0, spread=1.0, at=2.2))


# Basket


@pytest.mark.parametrize("length", [1.3, 1.6, 2.0, 2.4, 4.0, 9.0])
def test_a_basket_never_opens_wider_than_taken(length: float) -> None:
    """A loop laid round a cylinder: two tangents to the hook and the arc below, added up."""
    radius = 0.2

    def loop(height: float) -> float:
        touch = math.acos(radius / height)  # from the plumb line up to where a part leaves the log
        return 2 * math.sqrt(height**2 - radius**2) + 2 * radius * (math.pi - touch)

    hook = brentq(lambda h: loop(h) - length, radius * 1.0001, 20.0)
    half = math.asin(radius / hook)
    (opened,) = formulas.basket_angle(sling_length=length, largest_diameter=0.4)
    assert opened >= half - 1e-12
    steps = formulas.basket(
        single_leg=1000.0, basket_half_angle=opened, uniform_factor=math.inf, bend_factor=1.0
    )
    assert float(steps.basket_capacity) <= 2000 * math.cos(half) + 1e-9
    careful = 0.96 if length >= 5 * 0.4 else 0.83
    assert float(steps.basket_capacity) >= careful * 2000 * math.cos(half)


def test_a_basket_of_120_degrees_is_the_last() -> None:
    gear = Gear(kind="round sling", wll=1000.0)
    just = 0.4 * (5 * math.pi / 6 + 1 / math.sqrt(3))  # exact loop at 60° either side
    assert rated(gear, Sling(way="basket", length=just + 1e-9)) == pytest.approx(1000.0)
    with pytest.raises(InputError, match=r"at least 1\.28\sm"):
        rated(gear, Sling(way="basket", length=just - 0.001))


def test_a_basket_counts_by_the_uniform_rating_at_most() -> None:
    """EN 1492, from memory: two legs where its parts hang parallel, 1.4 to a right angle, one."""
    sling = Gear(kind="round sling", wll=1000.0)

    def at(length: float, gear: Gear = sling) -> float:
        return rated(gear, Sling(way="basket", length=length))

    assert at(9.0) == pytest.approx(2000.0, rel=0.006)
    assert [at(2.0), at(4.0)] == pytest.approx([1400.0, 1400.0])
    assert at(1.4) == pytest.approx(1000.0)
    worse = [at(length) for length in np.linspace(9.0, 1.3, 200)]
    assert worse == sorted(worse, reverse=True)
    # Rope loses where it is bent round the log, and so may what nobody named.
    for gear in (Gear(kind="wire rope", wll=1000.0), Gear(wll=1000.0)):
        assert at(2.0, gear) == pytest.approx(0.8 * 1400.0)


# Gear


def test_the_lesser_of_rule_table_and_tag_counts() -> None:
    def limit(**gear: object) -> tuple[float, str]:
        leg = single_leg(Gear(**gear))
        assert leg is not None
        return leg.wll, leg.source

    assert limit(kind="chain grade 80", size=0.010) == (3150.0, "en_818_4")
    assert limit(kind="chain grade 80", size=0.009) == (pytest.approx(2592), "queensland_doggers")
    assert limit(kind="chain grade 80", size=0.020) == (12500.0, "en_818_4")
    assert limit(kind="chain grade 80", size=0.040) == (pytest.approx(51200), "queensland_doggers")
    assert limit(kind="chain grade 80", size=0.010, wll=2000.0) == (2000.0, "tag")
    assert limit(kind="chain grade 80", size=0.010, wll=5000.0) == (3150.0, "en_818_4")
    assert limit(kind="wire rope", size=0.010) == (pytest.approx(800), "queensland_doggers")
    assert limit(kind="fibre rope", size=0.020) == (pytest.approx(400), "queensland_doggers")
    assert limit(wll=700.0) == (700.0, "tag")
    assert single_leg(Gear(hook_wll=1000.0)) is None


def test_every_source_of_a_rating_is_known() -> None:
    full = Gear(
        kind="chain grade 80", size=0.009, hook_wll=2000.0, shackle_wll=1500.0, hitch_wll=1800.0
    )
    made = ratings(full, sling=Sling(length=4.0), **LOG)
    assert [each.name for each in made] == ["sling", "hook", "shackle", "hitch"]
    assert [each.capacity for each in made[1:]] == [2000.0, 1500.0, 1800.0]
    assert all(each.source in SOURCES for each in made)
    assert made[0].worked[-1].result == made[0].capacity
    assert missing(full) == ()


def test_what_was_not_said_is_asked_for_and_not_rated() -> None:
    assert ratings(Gear(), sling=Sling(length=4.0), **LOG) == ()
    asked = " ".join(told(missing(Gear())))
    for option in ("sling-kind", "sling-size", "sling-wll", "hook-wll", "shackle-wll", "hitch-wll"):
        assert option in asked
    assert len(missing(Gear(wll=1000.0))) == 3


@pytest.mark.parametrize(
    ("gear", "said"),
    [
        ({"kind": "chain grade 80"}, "sling-size or sling-wll"),
        ({"kind": "round sling", "size": 0.05}, "label"),
        ({"size": 0.010}, "sling-kind"),
        ({"wll": math.nan}, "sling-wll"),
        ({"wll": 0.0}, "sling-wll"),
        ({"kind": "wire rope", "size": math.nan}, "sling-size"),
        ({"wll": math.inf}, "sling-wll"),
        ({"hook_wll": -1.0}, "hook-wll"),
        ({"shackle_wll": -1.0}, "shackle-wll"),
    ],
)
def test_gear_that_cannot_be_rated_is_refused(gear: dict[str, object], said: str) -> None:
    with pytest.raises(InputError, match=said):
        Gear(**gear)


def test_a_part_that_is_not_there_is_not_rated_and_not_missed() -> None:
    bare = Gear(wll=900.0, hook_wll=2000.0, shackle_wll=math.inf, hitch_wll=math.inf)
    assert missing(bare) == ()
    made = ratings(bare, sling=Sling(length=4.0), **LOG)
    assert [each.name for each in made] == ["sling", "hook"]


def test_all_faults_of_gear_stand_together() -> None:
    with pytest.raises(InputError) as caught:
        Gear(wll=-1.0, hook_wll=math.nan, hitch_wll=-1.0)
    assert len(caught.value.faults) == 3


# Hanging


@pytest.mark.parametrize(("at", "length"), [(2.7, 2.5), (2.9, 2.5), (2.2, 3.0), (3.5, 4.0)])
def test_hang_angle_in_one_choke_by_least_energy(at: float, length: float) -> None:
    """Sling and log each free to turn: at rest the balance point lies as low as it can."""
    sling = Sling(length=length, at=at)
    free, miss = length - math.pi * 0.4, LOG["balance"] - at

    def height(turns: np.ndarray) -> float:
        swung, tipped = turns
        return -free * math.cos(swung) - 0.2 * math.cos(tipped) - miss * math.sin(tipped)

    found = minimize(height, x0=[0.1, 0.0], tol=1e-13)
    ours = hang(sling, drop=0.5, log_length=6.0, balance=2.7, diameter=0.4, least_diameter=0.4)
    assert ours.angle == pytest.approx(abs(found.x[1]), abs=1e-6)
    assert found.x[0] == pytest.approx(0, abs=1e-5)
    assert ours.worked is not None
    assert ours.worked.result == ours.angle


@pytest.mark.parametrize("at", [2.7, 2.5, 3.1])
def test_hang_angle_in_two_legs_by_least_energy(at: float) -> None:
    sling = Sling(way="two legs", length=4.0, spread=2.0, at=at)
    feet, centre = hung(sling, depth=0.2)
    tipped = math.atan2(*(feet[1] - feet[0])[::-1])
    ours = hang(sling, drop=0.5, log_length=6.0, balance=2.7, diameter=0.4, least_diameter=0.4)
    assert ours.angle == pytest.approx(abs(tipped), abs=1e-6)
    assert centre[0] == pytest.approx(0, abs=1e-6)


def test_legs_stand_about_the_place_they_are_said_to_hold() -> None:
    """Not about the balance point: both on the log, and the farther end dips."""
    log = {"log_length": 6.0, "balance": 2.7, "diameter": 0.4, "least_diameter": 0.4}
    sling = Sling(way="two legs", length=4.0, spread=2.2, at=2.3)
    ours = hang(sling, drop=0.5, **log)
    dips = ours.lowest_tipped - ours.lowest_level
    assert dips == pytest.approx((6.0 - 2.3) * math.sin(ours.angle))
    off = Sling(way="two legs", length=4.0, spread=2.2, at=1.0)
    with pytest.raises(InputError, match=r"less than 2\.00\sm"):
        hang(off, drop=0.5, **log)


@pytest.mark.parametrize("way", ["choked", "two legs"])
def test_a_log_slung_at_the_edge_of_its_window_hangs_at_its_angle(way: str) -> None:
    plain = Sling(way=way, length=4.0, spread=1.5 if way == "two legs" else 0.0)
    window = level_window(plain, **LOG)
    edge = Sling(way=way, length=4.0, spread=plain.spread, at=window.end)
    ours = hang(edge, drop=0.5, log_length=6.0, balance=2.7, diameter=0.4, least_diameter=0.4)
    assert ours.angle == pytest.approx(math.radians(5), rel=1e-9)
    assert window.usual == (way == "two legs")
    assert window.start == pytest.approx(2.7 - window.miss)


def test_a_basket_has_no_window() -> None:
    assert level_window(Sling(way="basket"), **LOG).miss == 0.0


# Taken


@pytest.mark.parametrize("degrees", [0, 10, 30, 60])
@pytest.mark.parametrize("end", ["butt", "top"])
def test_one_end_raised_by_vector_equilibrium(degrees: int, end: str) -> None:
    """Three equations of a thick log on its lower edge, hooked anywhere on its girth."""
    radius, length, butt = 0.2, 6.0, 2.7
    balance = butt if end == "butt" else length - butt
    angle = math.radians(degrees)
    turn = np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
    ours = pull(
        LiftMode(way="one end", ground_end=end, hook_at=5.6),
        log_length=length,
        cog_from_butt=butt,
        diameter=2 * radius,
    )
    thin = []
    for up in (0.0, radius, 2 * radius):
        for missed in (-BALANCE_MISS, 0.0, BALANCE_MISS):
            centre = turn @ [balance + missed * length, radius]
            hook = turn @ [5.6, up]
            # Unknown: push and friction of the ground, pull of the hook; moments about the edge.
            force = np.array([[1.0, 0.0, 1.0], [0.0, 1.0, 0.0], [0.0, 0.0, hook[0]]])
            ground, friction, share = np.linalg.solve(force, [1.0, 0.0, centre[0]])
            assert friction == 0
            assert share <= ours.share + 1e-12
            assert ground <= ours.resting + radius / 5.6 * math.tan(angle) + 1e-12
            thin.append(share)
    # Careful, not idle: with nothing missed and no thickness the rule itself.
    assert ours.share <= 1.2 * max(thin) if degrees < 60 else True
    rule = formulas.one_end_lifted(
        log_mass=1.0, balance_from_ground_end=balance, hook_from_ground_end=5.6, breakout_factor=1.0
    )
    centre, hook = turn @ [balance, 0.0], turn @ [5.6, 0.0]
    assert float(rule.hook_share) == pytest.approx(centre[0] / hook[0], rel=1e-12)


def test_one_end_by_default_is_choked_short_of_the_end() -> None:
    log = {"log_length": 6.0, "cog_from_butt": 2.7, "diameter": 0.4}
    ours = pull(LiftMode(way="one end"), **log)
    assert ours.share == pytest.approx((3.3 + 0.12 + 0.2) / (6.0 - CHOKE_IN))
    assert ours.lean == 0.0
    whole = pull(LiftMode(), **log)
    assert (whole.share, whole.lean, whole.resting) == (1.0, 0.0, 0.0)


def test_hooked_short_of_the_balance_point_the_whole_log_hangs() -> None:
    ours = pull(
        LiftMode(way="one end", hook_at=2.0), log_length=6.0, cog_from_butt=2.7, diameter=0.4
    )
    assert ours.share == 1.0


def dragged(
    *, lifted: float, friction: float, slope: float, angle: float, radius: float = 0.0
) -> tuple[float, float, float]:
    """Pull up, pull along, push of the ground: a log of unit length and weight up a slope."""
    turn = np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
    hook, centre = turn @ [1.0, 2 * radius], turn @ [lifted, radius]
    weight = np.array([-math.sin(slope), -math.cos(slope)])
    # Along, up, moments about where it rests: pull along, pull up, push of the ground.
    matrix = np.array([[1.0, 0.0, -friction], [0.0, 1.0, 1.0], [-hook[1], hook[0], 0.0]])
    moment = centre[0] * weight[1] - centre[1] * weight[0]
    along, up, ground = np.linalg.solve(matrix, [-weight[0], -weight[1], -moment])
    return float(up), float(along), float(ground)


@pytest.mark.parametrize("angle", [0.0, 0.1, 0.3])
@pytest.mark.parametrize("slope", [0.0, 0.2])
@pytest.mark.parametrize("friction", [0.3, 1.0])
@pytest.mark.parametrize("lifted", [0.0, 0.55])
def test_a_trailed_log_by_vector_equilibrium(
    lifted: float, friction: float, slope: float, angle: float
) -> None:
    steps = formulas.trailed_log(
        hook_share=lifted, drag_friction=friction, slope=slope, rise_angle=angle
    )
    up, along, ground = dragged(lifted=lifted, friction=friction, slope=slope, angle=angle)
    assert float(steps.up_share) == pytest.approx(up, abs=1e-12)
    assert float(steps.along_share) == pytest.approx(along, abs=1e-12)
    assert float(steps.resting_share) == pytest.approx(ground, abs=1e-12)


@pytest.mark.parametrize("friction", [0.0, 0.4, 1.0, 2.0])
@pytest.mark.parametrize("slope", [0.0, 0.15, 0.5])
def test_a_drawn_log_never_pulls_more_than_told(friction: float, slope: float) -> None:
    """Any trail up to the steepest, any slope up to the one asked, any miss, thick or thin."""
    length, butt, hook = 6.0, 2.7, 5.7
    ours = pull(
        LiftMode(way="drawn, one end up", drag_friction=friction),
        log_length=length,
        cog_from_butt=butt,
        diameter=0.4,
        slope=slope,
    )
    sizes = []
    for missed in (-0.02, 0.0, 0.02):
        lifted = (length - butt + missed * length) / hook
        for radius in (0.0, 0.2 / hook):
            # A thick log's hook stands higher than the line along its underside.
            steepest = STEEPEST_TRAIL - math.atan(2 * radius)
            for angle in np.linspace(0, steepest, 7):
                for each in np.linspace(0, slope, 4):
                    up, along, ground = dragged(
                        lifted=lifted, friction=friction, slope=each, angle=angle, radius=radius
                    )
                    assert up <= ours.up + 1e-12
                    assert along <= ours.along + 1e-12
                    assert ground <= ours.resting + 1e-12
                    sizes.append(math.hypot(up, along))
    assert max(sizes) <= ours.share
    assert ours.share <= 1.2 * max(sizes)
    assert ours.share == pytest.approx(math.hypot(ours.up, ours.along))
    assert ours.lean == pytest.approx(math.atan2(ours.along, ours.up))


def test_a_log_drawn_flat() -> None:
    """Level: friction alone. Uphill: μ·cos s + sin s. Steeper than the worst: as the worst."""
    log = {"log_length": 6.0, "cog_from_butt": 2.7, "diameter": 0.4}
    level = pull(LiftMode(way="drawn", drag_friction=0.7), **log)
    assert (level.share, level.up) == (pytest.approx(0.7), 0.0)
    assert level.lean == pytest.approx(math.pi / 2)
    up = pull(LiftMode(way="drawn", drag_friction=0.7), slope=0.3, **log)
    assert up.share == pytest.approx(0.7 * math.cos(0.3) + math.sin(0.3))
    assert pull(LiftMode(way="drawn", drag_friction=0.7), slope=-0.3, **log).share == level.share
    steep = pull(LiftMode(way="drawn", drag_friction=2.0), slope=1.2, **log)
    assert steep.share == pytest.approx(math.sqrt(5))


@pytest.mark.parametrize("raised", [0.0, 0.8, 3.0])
def test_the_hook_moves_as_on_a_circle(raised: float) -> None:
    found = moves(
        LiftMode(way="one end", hook_at=5.0),
        log_length=6.0,
        cog_from_butt=2.7,
        diameter=0.4,
        raised=raised,
        mass=900.0,
    )
    assert (5.0 - found.sideways) ** 2 + raised**2 == pytest.approx(25.0)
    words = " ".join(told(found.said))
    assert "top" in words
    assert f"{math.ceil(900 * (1 - (3.3 - 0.12) / 5.0))} kg" in words


@pytest.mark.parametrize(
    "taken",
    [
        {"breakout": 0.9},
        {"breakout": math.nan},
        {"drag_friction": math.nan},
        {"drag_friction": -0.1},
        {"hook_at": 0.0},
        {"hook_at": math.nan},
    ],
)
def test_a_way_of_taking_that_is_none_is_refused(taken: dict[str, float]) -> None:
    with pytest.raises(InputError):
        LiftMode(**taken)


def test_hooks_off_the_log_and_logs_upright_are_refused() -> None:
    log = {"log_length": 6.0, "cog_from_butt": 2.7, "diameter": 0.4}
    with pytest.raises(InputError, match="hook-at"):
        pull(LiftMode(way="one end", hook_at=6.1), **log)
    with pytest.raises(InputError, match="raised"):
        moves(LiftMode(way="one end", hook_at=5.0), raised=5.0, mass=900.0, **log)


# Grip


def test_a_block_between_two_jaws() -> None:
    """Two sides of 10 kN at 0.3: 6 kN; the log that may be held has its safety in reserve."""
    grip = load_held(jaw_force=10e3, friction=0.3)
    assert grip.held == pytest.approx(6000 / G0 / GRIP_SAFETY)


def test_only_the_weight_along_the_log_lies_on_closed_tines() -> None:
    share = along_share(lean=math.radians(30))
    assert share == pytest.approx(0.5)
    assert along_share(lean=-math.radians(30)) == share
    assert along_share(lean=2.0) == 1.0
    hanging = load_held(jaw_force=10e3, friction=0.3).held
    assert load_held(jaw_force=10e3, friction=0.3, share=share).held == pytest.approx(2 * hanging)
    level = load_held(jaw_force=10e3, friction=0.3, share=along_share(lean=0.0))
    assert math.isinf(level.held)


def test_wetter_barer_colder_is_never_grippier() -> None:
    assert list(FRICTION.values()) == sorted(FRICTION.values(), reverse=True)
    assert FRICTION["peeled"] < FRICTION["bark on"]


@pytest.mark.parametrize(
    "grip",
    [
        {"jaw_force": math.nan},
        {"jaw_force": -1.0},
        {"friction": math.nan},
        {"share": math.nan},
        {"share": 1.1},
        {"safety": math.nan},
        {"safety": 0.5},
        {"friction": math.inf},
    ],
)
def test_no_grip_by_figures_that_are_none(grip: dict[str, float]) -> None:
    with pytest.raises(InputError):
        load_held(**({"jaw_force": 1e4, "friction": 0.3} | grip))
    with pytest.raises(InputError):
        along_share(lean=math.nan)


# Carriers


@pytest.mark.parametrize(("one", "two"), [(0.0, 2.0), (3.0, 6.0), (2.7, 2.7), (math.nan, 5.0)])
def test_carriers_on_one_side_are_refused(one: float, two: float) -> None:
    with pytest.raises(InputError):
        two_point_shares(mass=900.0, balance=2.7, at_one=one, at_two=two)


def test_carriers_may_be_told_either_way_round() -> None:
    ours = two_point_shares(mass=900.0, balance=2.7, at_one=5.5, at_two=0.5).steps
    other = two_point_shares(mass=900.0, balance=2.7, at_one=0.5, at_two=5.5).steps
    assert ours[0] == pytest.approx(other[1])
    assert ours[0] == pytest.approx(900 * 2.2 / 5.0)
