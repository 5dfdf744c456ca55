"""Signs, sides and plain consequences, each worked by hand; and what an answer is made of."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from liftcalc.errors import InputError, PoseError
from liftcalc.evaluation.check import check
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.rams import plane_gravity, pressure_of
from liftcalc.evaluation.rated_chart import plate_limits
from liftcalc.factors import RAM_SHARE
from liftcalc.machines.arm import load_places
from liftcalc.machines.assembly import assemble, back_point, travel_back, travel_front
from liftcalc.machines.back_arm import reach_back
from liftcalc.machines.files import load
from liftcalc.machines.joint_limits import JointLimit
from liftcalc.machines.lookup import attachment
from liftcalc.machines.schema import Machine, Plate
from liftcalc.physics import formulas
from liftcalc.physics.joints import moment_per_kilogram, stall, swung_moments
from liftcalc.physics.plane import Point
from liftcalc.physics.tipping import Line, Support, hull, ring
from liftcalc.physics.wrench import load_at_tipping, moment_about
from liftcalc.remarks import Remark
from liftcalc.rigging.sling import Sling
from liftcalc.site.site import Site
from liftcalc.units import G0
from tests.helpers import MACHINES, altered, fixed_axle, lift, like, ram_capacity, rebuilt


def gravity(**where: float) -> tuple[float, float, float]:
    return tuple(float(part) for part in Site(**where).gravity)


@pytest.mark.parametrize(
    ("where", "wanted"),
    [
        ({}, (0.0, 0.0, -G0)),
        # Nose uphill: weight pulls back. Left side uphill: it pulls to the right.
        ({"slope": 0.3, "heading": 0.0}, (-G0 * math.sin(0.3), 0.0, -G0 * math.cos(0.3))),
        ({"slope": 0.3, "heading": math.pi / 2}, (0.0, -G0 * math.sin(0.3), -G0 * math.cos(0.3))),
        # Braking throws the load forward, a turn to the left throws it right.
        ({"acceleration_forward": -2.0}, (2.0, 0.0, -G0)),
        ({"acceleration_left": 1.5}, (0.0, -1.5, -G0)),
    ],
)
def test_effective_gravity(where: dict[str, float], wanted: tuple[float, float, float]) -> None:
    assert gravity(**where) == pytest.approx(wanted, abs=1e-12)


def test_a_load_leans_by_the_acceleration_over_gravity() -> None:
    x, _, z = gravity(acceleration_forward=1.0)
    assert math.atan2(x, z) == pytest.approx(math.atan2(-1.0, -G0))
    assert math.hypot(x, z) == pytest.approx(math.hypot(1.0, G0))


def test_back_end_in_the_machine_frame() -> None:
    """Straight back, then slewed to the left; the sideshift moves it to the left."""
    machine = load("standard-sideshift")
    at = Point(3.0, 1.2)
    axis = float(machine.back.slew_axis_x)
    assert back_point(machine, at, slew=0.0, sideshift=0.0) == pytest.approx((axis - 3, 0, 1.2))
    left = back_point(machine, at, slew=math.pi / 2, sideshift=0.4)
    assert left == pytest.approx((axis, 3.4, 1.2))


def test_gravity_in_the_plane_of_an_end() -> None:
    """Outward and up: straight back on a nose-up slope the weight pulls outward."""
    machine = load("standard-sideshift")
    arm = travel_back(machine, attachment(machine, end="back"))
    front = travel_front(machine, attachment(machine, end="front"))
    nose_up = gravity(slope=0.2)
    assert plane_gravity(arm, gravity=nose_up, slew=0.0)[0] == pytest.approx(G0 * math.sin(0.2))
    assert plane_gravity(front, gravity=nose_up, slew=0.0)[0] == pytest.approx(-G0 * math.sin(0.2))
    # Slewed to the left with the left side uphill, outward is uphill.
    across = gravity(slope=0.2, heading=math.pi / 2)
    turned = plane_gravity(arm, gravity=across, slew=math.pi / 2)
    assert turned == pytest.approx((-G0 * math.sin(0.2), -G0 * math.cos(0.2)))


@pytest.mark.parametrize("name", MACHINES)
def test_sloping_ground_is_worse_downhill(name: str) -> None:
    """The whole chain of signs: each side of the back end is worse where it hangs downhill."""
    machine = load(name)

    def tips(slew: float, heading: float) -> float:
        site = Site(slope=0.12, heading=heading)
        answer = check(lift(machine, slew=slew, site=site))
        return min(float(each.tipping_load) for each in answer.reached.lines)

    left_up, left_down = math.pi / 2, -math.pi / 2
    assert tips(1.2, left_down) < tips(1.2, left_up)
    assert tips(-1.2, left_up) < tips(-1.2, left_down)
    assert tips(0.0, 0.0) < tips(0.0, math.pi)


def corner(x: float, y: float) -> Support:
    return Support(name=f"{x},{y}", x=x, y=y, z=0.0)


def test_hull_goes_clockwise_and_leaves_out_what_is_inside() -> None:
    square = [corner(x, y) for x in (0.0, 2.0) for y in (-1.0, 1.0)]
    inside, on_a_side = corner(1.0, 0.1), corner(1.0, 1.0)
    for order in (square, square[::-1]):
        ringed = hull([inside, *order, on_a_side])
        assert {(p.x, p.y) for p in ringed} == {(p.x, p.y) for p in square}
        area = sum(
            a.x * b.y - b.x * a.y for a, b in zip(ringed, (*ringed[1:], ringed[0]), strict=True)
        )
        assert area / 2 == pytest.approx(-4.0)  # clockwise: twice the area is negative


def test_a_kilogram_inside_holds_and_outside_tips() -> None:
    lines = ring([corner(x, y) for x in (0.0, 2.0) for y in (-1.0, 1.0)])
    down = (0.0, 0.0, -G0)
    inside = [float(moment_about(line).unit(x=0.5, y=0.25, z=1.0, gravity=down)) for line in lines]
    # Distance from the point to each side, times its weight.
    assert sorted(inside) == pytest.approx(sorted(G0 * d for d in (0.5, 1.5, 0.75, 1.25)))
    outside = [float(moment_about(line).unit(x=-0.5, y=0.0, z=1.0, gravity=down)) for line in lines]
    assert min(outside) == pytest.approx(-0.5 * G0)


def test_loads_at_tipping_in_every_case() -> None:
    holding = np.array([100.0, 100.0, 100.0, -1.0, -1.0, 0.0, math.nan, 100.0])
    unit = np.array([-2.0, 3.0, 0.0, -2.0, 3.0, -1.0, -1.0, math.nan])
    found = load_at_tipping(holding_moment=holding, load_unit_moment=unit)
    np.testing.assert_array_equal(
        found, [50.0, math.inf, math.inf, 0.0, 0.0, 0.0, math.nan, math.nan]
    )


def test_loads_at_stall_in_every_case() -> None:
    """Push 1000 N, pull 600 N, arm 0.5 m: 500 N·m up, 300 down; links ask 100 down."""

    def stalls(**change: float) -> float:
        given = {
            "push": 1000.0,
            "pull": 600.0,
            "moment_arm": 0.5,
            "links_moment": -100.0,
            "joint_unit_moment": -10.0,
        }
        return float(stall(**{**given, **change})[0])

    assert stalls() == pytest.approx((500 - 100) / 10)
    # A load that turns the link up is held by the pull, and the links help to hold it down.
    assert stalls(joint_unit_moment=10.0) == pytest.approx((300 + 100) / 10)
    # On the other side of the joint the ram pulls to lift.
    assert stalls(moment_arm=-0.5) == pytest.approx((300 - 100) / 10)
    assert stalls(links_moment=-500.0) == 0.0
    assert stalls(links_moment=300.0, joint_unit_moment=-10.0) == 0.0
    assert stalls(joint_unit_moment=0.0) == math.inf
    assert math.isnan(stalls(moment_arm=math.nan))
    assert math.isnan(stalls(joint_unit_moment=math.nan))


def test_a_kilogram_out_on_the_arm_turns_it_down() -> None:
    at, pivot = Point(2.0, 1.0), Point(0.5, 0.2)
    assert moment_per_kilogram(at=at, pivot=pivot, gravity_u=0.0, gravity_w=-G0) == pytest.approx(
        -1.5 * G0
    )
    # Gravity leaning outward turns what is above the pivot down too.
    assert moment_per_kilogram(at=at, pivot=pivot, gravity_u=1.0, gravity_w=-G0) == pytest.approx(
        -1.5 * G0 - 0.8
    )


def test_pressure_to_count_on() -> None:
    machine = load("standard-sideshift")
    book = float(machine.hydraulics.working_pressure)
    plain = machine.back.dipper_ram
    relief = plain.model_copy(update={"holding_pressure": like(plain.bore, 1.2 * book)})

    def pressure(ram: Any, *, lifts: bool, gauge: float | None = None) -> float:
        return pressure_of(ram, machine.hydraulics, gauge=gauge, lifts=lifts)

    assert pressure(plain, lifts=False) == book
    assert pressure(relief, lifts=False) == pytest.approx(1.2 * book)
    # What lifts has no more than the pump gives; a gauge caps both and is never credited above.
    assert pressure(relief, lifts=True) == book
    assert pressure(relief, lifts=False, gauge=0.7 * book) == pytest.approx(0.7 * book)
    assert pressure(plain, lifts=True, gauge=1.5 * book) == book
    assert math.isnan(pressure(plain, lifts=True, gauge=math.nan))


def test_only_the_first_joint_lifts() -> None:
    machine = load("standard-sideshift")
    arm = reach_back(
        machine,
        tool=attachment(machine, end="back"),
        point=attachment(machine, end="back").lift_point[0],
        reach=3.0,
        height=1.5,
        curl=0.7,
    )
    relief = like(machine.weights.total, 3e7)
    for joint in arm.joints:
        strong = joint._replace(ram=joint.ram.model_copy(update={"holding_pressure": relief}))
        found = ram_capacity(
            strong, load_at=arm.load_at, gravity_u=0.0, gravity_w=-G0, hydraulics=machine.hydraulics
        )
        assert (found.pressure == 3e7) == (joint.name != "boom ram")


def test_more_swing_in_the_plane_of_an_end_takes_from_its_rams() -> None:
    """Outward by 10°: the moment of a weight that leans, by its own lever."""
    still, swung = check(lift()), check(lift(swing=math.radians(10)))
    boom = still.reached.arm.joints[0]
    at = still.reached.arm.load_at
    lean = math.radians(10)
    out, up = at.u - boom.pivot.u, at.w - boom.pivot.w
    levers = [G0 * (out * math.cos(a) + up * math.sin(a)) for a in np.linspace(-lean, lean, 4001)]
    ratio = max(levers) / (G0 * out)
    assert still.reached.rams[0].capacity / swung.reached.rams[0].capacity == pytest.approx(
        ratio, rel=1e-6
    )


def test_swing_beyond_level_is_never_better_than_level() -> None:
    """Level with the joint a load gets no worse by leaning either way; nor may it get better."""
    machine = load("standard-sideshift")
    foot = float(machine.back.foot_pin[1])
    still = check(lift(machine, height=foot, reach=4.0))
    swung = check(lift(machine, height=foot, reach=4.0, swing=0.3))
    assert swung.reached.rams[0].capacity <= still.reached.rams[0].capacity


@pytest.mark.parametrize("up", [0.0, 0.1, -0.1])
def test_swing_takes_the_worst_lean_and_not_only_the_greatest(up: float) -> None:
    """A load nearly level with the line: a weight square to its lever, whatever the swing."""
    line = ring([corner(0.0, 1.0), corner(0.0, -1.0), corner(2.0, 0.0)])
    rear = next(each for each in line if each.start.x == each.end.x == 0.0)

    def moment(swing: float) -> float:
        return float(
            moment_about(rear).unit(x=-3.0, y=0.4, z=up, gravity=(0.0, 0.0, -G0), swing=swing)
        )

    assert moment(0.0) == pytest.approx(-3 * G0)
    assert moment(0.3) == pytest.approx(-G0 * math.hypot(3.0, up))
    assert moment(0.6) == pytest.approx(moment(0.3))
    # Well above the line a lean of 0.1 outward counts in full.
    high = moment_about(rear).unit(x=-3.0, y=0.4, z=2.0, gravity=(0.0, 0.0, -G0), swing=0.1)
    assert float(high) == pytest.approx(-G0 * (3 * math.cos(0.1) + 2 * math.sin(0.1)))


def test_swing_in_the_plane_takes_the_worst_lean_too() -> None:
    """Least and greatest moment over every lean up to the swing, tried one by one."""
    rng = np.random.default_rng(8)
    for _ in range(50):
        at = Point(*rng.uniform(-4, 4, 2))
        lean, u, w = rng.uniform(0, 0.8), rng.uniform(-3, 3), -G0
        tried = []
        for a in np.linspace(-lean, lean, 2001):
            turned = complex(u, w) * complex(math.cos(a), math.sin(a))
            tried.append(at.u * turned.imag - at.w * turned.real)
        low, high = swung_moments(
            at=at, pivot=Point(0.0, 0.0), gravity_u=u, gravity_w=w, swing=lean
        )
        assert (float(low), float(high)) == pytest.approx((min(tried), max(tried)), abs=1e-5)


def test_standing_on_the_pads_of_the_file() -> None:
    machine = load("standard-sideshift")
    front = travel_front(machine, attachment(machine, end="front"))
    back = travel_back(machine, attachment(machine, end="back"))

    def on(stance: Any, of: Machine = machine) -> dict[str, tuple[float, float, float]]:
        standing = assemble(of, front=front, back=back, slew=0.0, sideshift=0.3, stance=stance)
        return {s.name: (s.x, s.y, s.z) for s in standing.supports}

    assert on("stabilisers") == {
        "left stabiliser": (-0.85, 1.15, 0.0),
        "right stabiliser": (-0.85, -1.15, 0.0),
        "front-axle pin": (2.15, 0.0, 0.55),
    }
    assert on("wheels") == {
        "left rear tyre": (0.0, 0.875, 0.0),
        "right rear tyre": (0.0, -0.875, 0.0),
        "front-axle pin": (2.15, 0.0, 0.55),
    }
    assert on("wheels", fixed_axle(machine))["left front tyre"] == (2.15, 0.925, 0.0)


def test_sideshift_moves_carriage_and_back_end_and_nothing_else() -> None:
    machine = load("standard-sideshift")
    front = travel_front(machine, attachment(machine, end="front"))
    back = travel_back(machine, attachment(machine, end="back"))

    def places(shift: float) -> dict[str, float]:
        standing = assemble(
            machine, front=front, back=back, slew=0.0, sideshift=shift, stance="wheels"
        )
        return {lump.name: float(lump.y) for lump in standing.lumps}

    still, moved = places(0.0), places(0.5)
    shifted = {name for name in still if moved[name] != still[name]}
    assert shifted == {"boom", "dipper", "digging bucket", "kingpost and carriage"}
    assert all(moved[name] - still[name] == pytest.approx(0.5) for name in shifted)


def test_whole_machine_weighs_what_the_weighbridge_said_and_what_sits_on_it() -> None:
    machine = load("standard-sideshift")
    front = travel_front(machine, attachment(machine, end="front"))
    back = travel_back(machine, attachment(machine, end="back"))

    def mass(**who: bool) -> float:
        return assemble(
            machine, front=front, back=back, slew=0.0, sideshift=0.0, stance="wheels", **who
        ).whole.mass

    assert mass(operator=False) == pytest.approx(8000)
    assert mass() == pytest.approx(8075)
    assert mass(full=False) == pytest.approx(8075 - 120)


def test_the_tank_is_full_or_empty_whichever_is_worse() -> None:
    """Ahead of the pads fuel holds the machine over the back; over the front it does not."""
    machine = load("standard-sideshift")
    over_back = check(lift(machine, slew=0.0))
    names = {lump.name for lump in over_back.reached.standing.lumps}
    assert "fuel" not in names
    kept = rebuilt(machine, lambda path, number: number)
    kept = kept.model_copy(
        update={"carried": tuple(c.model_copy(update={"used_up": False}) for c in kept.carried)}
    )
    full = check(lift(kept, slew=0.0))
    assert min(float(each.tipping_load) for each in over_back.reached.lines) < min(
        float(each.tipping_load) for each in full.reached.lines
    )


def test_a_log_off_its_balance_is_taken_to_the_worse_side() -> None:
    """Fuel on the left: the log lies left of the middle where that tips sooner."""
    machine = load("standard-sideshift")
    heavy_left = rebuilt(
        machine, lambda path, number: 900.0 if path == "carried.1.mass" else float(number)
    )
    for side in (1.0, -1.0):
        turned = rebuilt(
            heavy_left,
            lambda path, number, side=side: (
                side * abs(float(number)) if path == "carried.1.at.1" else float(number)
            ),
        )
        answer = check(lift(turned, end="front", tool="pallet forks", off_centre=0.5))
        lumps = {lump.name for lump in answer.reached.standing.lumps}
        if "fuel" in lumps:
            assert math.copysign(1.0, answer.reached.load[1]) == side
        else:
            assert abs(answer.reached.load[1]) == pytest.approx(0.5)
    plain = check(lift(machine, end="front", tool="pallet forks", off_centre=-0.5))
    same = check(lift(machine, end="front", tool="pallet forks", off_centre=0.5))
    assert plain.allowed == same.allowed
    assert plain.lift.side_room == same.lift.side_room == 0.5


@pytest.mark.parametrize(("radius", "out"), [(0.3, 0.56), (0.5, 0.56), (0.7, 0.76)])
def test_a_thick_log_on_the_forks_lies_against_the_heel(radius: float, out: float) -> None:
    """Load centre 0.56 m out, heel 0.06 m: the axis lies at the farther of the two, one radius up.

    Every other place it may roll to is nearer or lower, and is tried too.
    """
    forks = attachment(load("standard-sideshift"), end="front", name="pallet forks")
    point = forks.lift_point[0]
    places = load_places(point, radius=radius)
    assert places[0] == pytest.approx((out, -0.15 + radius))
    assert (out, -0.15) in [pytest.approx(each) for each in places]
    assert (0.56, -0.15 + radius) in [pytest.approx(each) for each in places]
    assert (0.56, -0.15) in [pytest.approx(each) for each in places]
    hook = attachment(load("standard-sideshift"), end="front", name="front lifting hook")
    assert load_places(hook.lift_point[0], radius=radius) == (pytest.approx((0.42, -0.05)),)


def test_a_thick_log_costs_the_lift_rams_its_lever() -> None:
    """Forks level: the rams' load falls as the lever of the log's axis grows, no other way."""
    base = lift(end="front", tool="pallet forks", tilt=0.0)

    def lever_and_load(radius: float) -> tuple[float, float]:
        log = replace(base.log, largest_diameter=2 * radius)
        reached = check(replace(base, log=log)).reached
        pivot = float(base.machine.front.arm_pivot[0])
        return float(reached.arm.load_at.u) - pivot, float(reached.rams[0].capacity)

    near, strong = lever_and_load(0.3)
    far, weak = lever_and_load(0.7)
    assert far - near == pytest.approx(0.20)
    assert weak / strong == pytest.approx(near / far)


def test_figures_of_a_criterion_by_hand() -> None:
    sling = Sling(mass=40.0)
    answer = check(lift(sling=sling))
    planning = answer.lift.log.mass_planning
    tips = min(float(each.tipping_load) for each in answer.reached.lines)
    tipping, boom = answer.criteria[0], answer.criteria[1]
    assert tipping.name == "tipping"
    assert tipping.capacity == pytest.approx(tips)
    assert tipping.allowed == pytest.approx(0.75 * tips)
    assert tipping.heaviest_log == pytest.approx(0.75 * tips - 40)
    assert tipping.utilisation == pytest.approx(planning / (0.75 * tips - 40))
    assert boom.allowed == pytest.approx(RAM_SHARE.value * answer.reached.rams[0].capacity)
    point = next(each for each in answer.criteria if each.name == "lift point")
    assert point.allowed == pytest.approx(float(answer.lift.point.wll))
    assert answer.allowed == min(each.allowed for each in answer.criteria)
    assert answer.utilisation == max(each.utilisation for each in answer.criteria)
    assert answer.governing.allowed == answer.allowed


def test_a_grip_needs_no_sling() -> None:
    gripped = lift(end="front", point="in the jaw", sling=Sling(mass=40.0))
    assert gripped.rigging == 0.0
    assert replace(gripped, point=lift().point).rigging == 40.0


@pytest.mark.parametrize(("share", "passes"), [(0.999, True), (1.001, False)])
def test_the_heaviest_log_is_where_the_answer_turns(share: float, passes: bool) -> None:
    base = lift()
    limit = check(base).heaviest_log
    log = replace(base.log, mass_planning=share * limit)
    answer = check(replace(base, log=log))
    assert answer.passes is passes
    assert answer.utilisation == pytest.approx(share, rel=0.02)
    assert str(answer.verdict).startswith("No") is not passes


def test_less_than_the_rigging_is_nothing() -> None:
    answer = check(lift(plate=10.0, sling=Sling(mass=15.0)))
    assert answer.utilisation == math.inf
    assert answer.heaviest_log == 0.0
    assert not answer.passes


def test_the_plate_always_caps_and_its_absence_is_said() -> None:
    without = check(lift())
    capped = check(lift(plate=200.0))
    assert Remark("no_plate") in without.warnings
    assert capped.allowed == 200.0
    assert capped.governs.startswith("plate")
    assert Remark("no_plate") not in capped.warnings


def test_plates_of_the_file() -> None:
    machine = load("standard-sideshift")
    number = machine.weights.total

    def plate(kg: float, *, end: str = "back", **more: Any) -> Plate:
        reach = {"reach": like(number, more["reach"])} if "reach" in more else {}
        return Plate(end=end, load=like(number, kg), rated_with=more.get("rated_with"), **reach)

    plates = (
        plate(900.0, rated_with="digging bucket"),
        plate(1000.0),
        plate(990.0, rated_with="lifting hook"),
        plate(800.0, reach=3.0, rated_with="digging bucket"),
        plate(900.0, reach=4.0),
        plate(100.0, end="front"),
    )
    base = lift(machine.model_copy(update={"plate": plates}), plate=700.0)
    bucket = float(base.tool.mass)
    hook = float(attachment(machine, end="back", name="lifting hook").mass)
    assert bucket > hook > 0
    assert allowed_by_plates(base, 3.0) == pytest.approx(
        sorted([700.0, 900.0, 1000.0 - bucket, 990.0 - (bucket - hook), 800.0])
    )
    assert min(allowed_by_plates(base, 3.01)) == 900.0 - bucket
    # What is fitted is lighter than what was rated: no more than the rating.
    hung = lift(base.machine, tool="lifting hook")
    assert allowed_by_plates(hung, 3.0) == pytest.approx(
        sorted([900.0, 1000.0 - hook, 990.0, 800.0])
    )
    assert min(allowed_by_plates(base, 4.01)) == 0.0


def allowed_by_plates(asked: Lift, reach: float) -> list[float]:
    return sorted(float(each.allowed(reach)) for each in plate_limits(asked))


def test_a_stop_that_is_not_a_number_is_broken() -> None:
    def violated(needs: Any) -> Any:
        return JointLimit(name="stroke", needs=needs, least=1.0, most=2.0).violated

    assert list(violated(np.array([0.999, 1.0, 1.5, 2.0, 2.001, math.nan]))) == [
        True,
        False,
        False,
        False,
        True,
        True,
    ]
    assert violated(math.nan)
    assert not violated(1.5)


@pytest.mark.parametrize(
    ("request_", "named"),
    [
        ({"reach": 9.0}, "reach"),
        ({"slew": math.radians(120)}, "slew"),
        ({"sideshift": 0.9}, "sideshift"),
        ({"reach": 9.0, "slew": 3.0}, "slew"),
        ({"end": "front", "height": 6.0}, "height"),
    ],
)
def test_poses_that_cannot_be(request_: dict[str, Any], named: str) -> None:
    with pytest.raises(PoseError, match=named):
        check(lift("standard-sideshift", **request_))


def test_every_stop_in_the_way_is_named_together() -> None:
    with pytest.raises(PoseError) as caught:
        check(lift(reach=9.0, slew=3.0, sideshift=0.9))
    assert len(caught.value.faults) == 3


def test_a_ram_beyond_its_stroke_is_named() -> None:
    with pytest.raises(PoseError, match="ram"):
        check(lift(reach=1.0, height=0.8))


def test_forks_cannot_be_pressed_on_the_ground() -> None:
    with pytest.raises(InputError, match="bucket"):
        check(lift(stance="stabilisers and bucket", other="pallet forks"))


def test_a_bucket_that_does_not_get_down_cannot_be_pressed() -> None:
    machine = load("standard-sideshift")
    stiff = altered(machine, front__lift_ram__closed=1.3)
    check(lift(machine, stance="stabilisers and bucket"))
    with pytest.raises(PoseError, match="lift rams"):
        check(lift(stiff, stance="stabilisers and bucket"))


def test_two_links_reach_what_they_are_asked_to_knuckle_up() -> None:
    found = formulas.two_link(target_u=2.0, target_w=0.5, first_length=1.6, second_length=1.2)
    elbow = 1.6 * complex(found.first_cosine, found.first_sine)
    tip = elbow + 1.2 * complex(found.second_cosine, found.second_sine)
    assert tip == pytest.approx(2.0 + 0.5j)
    assert (np.conj(2.0 + 0.5j) * elbow).imag > 0  # the knuckle lies above the line to the tip


@pytest.mark.parametrize("name", MACHINES)
def test_what_is_assumed_is_listed(name: str) -> None:
    """Only figures of what is fitted, all of them, and by key."""
    answer = check(lift(name))
    keys = [said["key"] for said in answer.assumed if said.code == "machine_figure"]
    assert "wheels.wheelbase" in keys
    assert "back.boom_ram.bore" in keys
    assert any("digging bucket" in key for key in keys)
    assert not any("pallet forks" in key for key in keys)
    measured = altered(load(name), wheels__wheelbase=load(name).wheels.wheelbase)
    assert check(lift(measured)).assumed == answer.assumed


def test_a_line_of_no_supports_is_not_needed() -> None:
    """Three supports in a row of their own make a triangle whichever way they are given."""
    three = [corner(0.0, 1.0), corner(0.0, -1.0), corner(2.0, 0.0)]
    for order in (three, three[::-1], [three[1], three[2], three[0]]):
        assert len(ring(order)) == 3
        assert all(isinstance(line, Line) for line in ring(order))
