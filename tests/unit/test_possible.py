"""What makes a lift impossible stops it, whatever the log weighs, and a worse input never helps."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from liftcalc.errors import PoseError
from liftcalc.evaluation.answer import Answer, Criterion
from liftcalc.evaluation.check import check
from liftcalc.evaluation.log_position import room_to_machine
from liftcalc.evaluation.sweep import sweep
from liftcalc.machines.assembly import back_point
from liftcalc.machines.files import load
from liftcalc.physics.plane import Point
from liftcalc.rigging.lift_mode import LiftMode
from liftcalc.rigging.sling import Sling
from liftcalc.site.hazards import Hazards
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from liftcalc.units import G0
from tests.helpers import lift, told

SHORT = {"species": "norway spruce", "length": "2.6 m", "mid": "40 cm"}
"""A log that hangs nearly level wherever its balance point is looked for."""


def asked(**more: Any) -> Any:
    """A lift of a short log, well clear of everything, of which nothing is left out."""
    usual: dict[str, Any] = {"log": SHORT, "tool": "lifting hook", "reach": 3.6, "height": 3.0}
    return lift(**{**usual, "loads_only": False, **more})


def of(answer: Answer, kind: str) -> Criterion:
    (found,) = [each for each in answer.criteria if each.kind == kind]
    return found


def stops(answer: Answer, kind: str) -> bool:
    return any(each.kind == kind and not each.utilisation <= 1 for each in answer.criteria)


def test_a_lift_well_clear_of_everything_is_stopped_by_nothing_of_this():
    answer = check(asked(devices="fitted"))
    assert answer.passes
    assert all(each.allowed > 0 for each in answer.criteria)


def test_a_log_one_end_of_which_is_in_the_ground_is_not_lifted():
    hang = check(asked()).hang
    assert hang is not None
    just = hang.lowest_tipped
    assert not stops(check(asked(height=just + 0.02)), "off the ground")
    assert stops(check(asked(height=just - 0.02)), "off the ground")
    # Hanging level it would be clear there.
    assert hang.lowest_level < just - 0.02


def test_of_a_log_raised_by_one_end_only_the_lift_point_is_above_the_ground():
    drawn = LiftMode(way="drawn")
    assert not stops(check(asked(height=0.3, taken=drawn)), "off the ground")
    assert stops(check(asked(height=0.0, taken=drawn)), "off the ground")


@pytest.mark.parametrize(
    ("surface", "most"), [("bark on", 30), ("bark on, wet", 25.23), ("frosted", 6.72)]
)
def test_a_log_steeper_than_friction_holds_slides_out_of_its_choke(surface, most):
    # Half its pull over three quarters of a turn, times 0.2 or 0.05: 0.4712 and 0.1178.
    long = {"species": "norway spruce", "length": "8 m", "mid": "40 cm"}
    middle = check(asked(log=long)).lift.log.cog_from_butt
    for angle, slides in ((most - 1, False), (most + 1, True)):
        # A sling that leaves the top of the log: tan(angle) = miss / radius.
        at = middle + 0.2 * math.tan(math.radians(angle))
        slung = asked(log=long, sling=Sling(at=at, length=2.2), surface=surface)
        assert stops(check(slung), "choke") is slides
        assert check(slung).passes is False if slides else True


def test_a_choke_at_the_very_end_holds_nothing():
    ends = LiftMode(way="drawn", hook_at=2.55)
    assert stops(check(asked(height=0.8, taken=ends)), "sling on the log")
    assert not stops(check(asked(height=0.8, taken=replace(ends, hook_at=2.2))), "sling on the log")


def test_nothing_is_lifted_over_the_back_without_stabilisers():
    answer = check(asked(stance="wheels"))
    assert not answer.passes
    assert "put the stabilisers down" in told([of(answer, "stabilisers down").clearance.said])[0]


FORKS = {"end": "front", "tool": "pallet forks", "travelling": True, "stance": "wheels"}
OAK = {"species": "quercus robur", "length": "3 m", "mid": "63 cm"}


def test_a_raised_load_is_not_carried_across_a_slope():
    """Forks, 63 cm oak, 8 degrees across: at 2.5 m it was no, and at 3 m yes."""
    aslant = Site(slope=math.radians(8), heading=math.pi / 2)
    plain = {"log": OAK, "reach": None, "site": aslant, **FORKS}
    heaviest = [check(asked(**plain | {"height": up})).heaviest_log for up in (0.6, 1.1, 2.5, 3.0)]
    assert heaviest[2:] == [0.0, 0.0]
    assert heaviest == sorted(heaviest, reverse=True)


def test_on_the_move_a_wheel_over_an_obstacle_leaves_the_machine_standing():
    """The machine and its load as one body on its tilted base: moments by hand."""
    aslant = Site(slope=math.radians(5), heading=math.pi / 2)
    base = asked(**FORKS, log=OAK, height=0.6, reach=None, site=aslant)
    answer = check(base)
    (found,) = [each for each in answer.criteria if each.where == "(left wheel up)"]
    reached, steep = answer.reached, math.radians(5) / 0.7 + math.atan(0.15 / 1.75)
    down = np.array([0.0, -math.sin(steep), -math.cos(steep)]) * G0
    loads = []
    for line in answer.reached.fixed.lines:
        start = np.array([line.start.x, line.start.y, line.start.z], dtype=float)
        along = np.array([line.end.x, line.end.y, line.end.z], dtype=float) - start
        along /= np.linalg.norm(along)
        holds = min(
            each.mass * (np.cross(np.array([each.x, each.y, each.z]) - start, down) @ along)
            for each in reached.wholes
        )
        takes = min(np.cross(np.array(at) - start, down) @ along for at in reached.loads)
        if takes < 0:
            loads.append(holds / -takes)
    assert found.capacity == pytest.approx(min(loads), rel=1e-9)


@pytest.mark.parametrize(("surface", "steepest"), [("bark on", 30.0), ("frosted", 6.7)])
def test_a_choke_holds_an_end_that_is_raised_no_steeper_than_a_whole_log(surface, steepest):
    """The chain pulls plumb: of it sin α along the log and cos α across, as where all of it hangs.

    By the height of the hook over the ground, the sling as short as it can be, over how far along
    the log it is choked.
    """
    log = {"species": "european larch", "length": "4.2 m", "butt": "40 cm", "top": "40 cm"}
    steep = math.radians(steepest)
    low, high = 3.9 * math.sin(steep) - 0.02, 3.9 * math.sin(steep) + 1.2
    assert not stops(check(of_one_end(log, height=low, surface=surface)), "choke")
    steeper = of_one_end(log, height=high, surface=surface)
    assert stops(check(steeper), "choke")
    around = replace(steeper, sling=replace(steeper.sling, way="basket"))
    assert not stops(check(around), "choke")


def of_one_end(log, *, height, surface):
    """One end raised by the back hook, choked 3.9 m along in a short sling."""
    return asked(
        log=log,
        height=height,
        reach=3.5,
        surface=surface,
        sling=Sling(length=1.7),
        taken=LiftMode(way="one end", ground_end="butt", hook_at=3.9),
    )


def test_one_end_on_the_move_is_a_log_that_is_drawn():
    hook = {"end": "front", "tool": "front lifting hook", "stance": "wheels", "reach": None}
    log = {"species": "norway spruce", "length": "5 m", "mid": "30 cm"}
    there = {"log": log, "height": 1.4, "travelling": True, **hook}
    raised = check(asked(**there, taken=LiftMode(way="one end")))
    drawn = check(asked(**there, taken=LiftMode(way="drawn, one end up")))
    still = check(asked(**there | {"travelling": False}, taken=LiftMode(way="one end")))
    assert stops(raised, "told as drawn")
    assert not raised.passes
    loads = (
        {each.title: each.allowed for each in answer.criteria if each.clearance is None}
        for answer in (raised, drawn)
    )
    one, two = loads
    assert one == two
    assert drawn.lift.pull.lean > 0 == still.lift.pull.lean


def test_a_log_drawn_with_one_end_up_is_tried_as_it_pulls_most_and_least_down():
    base = asked(height=1.0, taken=LiftMode(way="drawn, one end up"))
    most, least = (each.pull for each in base.ways)
    assert most.along == least.along
    assert most.up > least.up
    ways = [check(replace(each, loads_only=True)) for each in base.ways]
    whole = check(replace(base, loads_only=True))
    assert whole.heaviest_log == min(each.heaviest_log for each in ways)
    found = sweep(
        replace(base, loads_only=True), reach=np.array([base.reach]), height=np.array([1.0])
    )
    heaviest = (found.allowed[0, 0] - base.rigging) / base.pull.share
    assert heaviest == pytest.approx(whole.heaviest_log)


def test_people_stay_outside_all_that_the_back_end_may_slew_over():
    """From straight back the hook may go to either side: farther by √2 times its reach."""
    near = check(asked(hazards=Hazards(people_distance=3.1)))
    assert stops(near, "people")
    needs = float(of(near, "people").clearance.needs)
    assert needs == pytest.approx(near.keep_out.result + math.sqrt(2) * 3.6)
    assert not stops(check(asked(hazards=Hazards(people_distance=needs))), "people")
    assert str(math.ceil(100 * needs) / 100) in told(near.warnings)[-3] + told(near.warnings)[-2]


def test_a_thicker_log_never_shrinks_the_circle():
    """Thicker at its butt alone it hangs lower; thicker all along, its sling is taken up more."""
    tapered = {"species": "norway spruce", "length": "2.6 m", "top": "30 cm"}
    for logs in (
        [tapered | {"butt": butt} for butt in ("32 cm", "60 cm")],
        [SHORT | {"mid": mid} for mid in ("30 cm", "50 cm")],
    ):
        thin, thick = (check(asked(log=log, sling=Sling(length=3.0))) for log in logs)
        falls = [each.keep_out.given["lowest_height"] for each in (thin, thick)]
        assert falls[1] >= falls[0]
        assert thick.lift.log.largest_diameter > thin.lift.log.largest_diameter


@given(reach=st.floats(0.2, 6), slew=st.floats(-1.57, 1.57), far=st.sampled_from(["2.6 m", "8 m"]))
def test_a_log_across_is_as_far_from_the_machine_as_its_nearest_point(reach, slew, far):
    base = asked(log=SHORT | {"length": far}, slew=slew)
    machine = base.machine
    legs, wheels = machine.stabilisers, machine.wheels
    half = max(legs.pad_spread + legs.pad_width, wheels.rear_track + wheels.rear_radius) / 2
    rear = min(legs.x - legs.pad_length / 2, -wheels.rear_radius)
    x, y, _ = back_point(machine, Point(reach, 0.0), slew=slew, sideshift=0.0)
    length = base.measure.length
    middle = base.log.cog_from_butt
    along = np.linspace(-1, 1, 20001) * max(middle, length - middle)
    off = np.hypot(
        np.maximum(rear - (x + along * math.sin(slew)), 0),
        np.maximum(np.abs(y + along * math.cos(slew)) - half, 0),
    )
    nearest = min(off.min(), reach - machine.back.foot_pin[0]) - base.log.largest_diameter / 2
    _, across = room_to_machine(base, reach=reach, slew=slew)
    assert across == pytest.approx(nearest, abs=1e-3)
    assert across <= nearest + 1e-9


def test_a_log_hung_too_near_meets_the_machine():
    assert stops(check(asked(reach=1.8, slew=math.radians(88), height=0.7)), "off the machine")
    assert not stops(check(asked(reach=3.6, slew=math.radians(88))), "off the machine")


def test_without_warning_devices_a_tonne_and_forty_kilonewton_metres_are_the_most():
    for reach in (2.8, 3.6, 4.3):
        found = of(check(asked(reach=reach, height=1.5)), "devices")
        assert found.allowed == pytest.approx(min(1000.0, 40_000 / (G0 * reach)))
    assert not [each for each in check(asked(devices="fitted")).criteria if each.kind == "devices"]


def test_legs_that_cannot_reach_do_not_level_and_pads_may_slide_when_level():
    def on(degrees: float, **more: Any) -> Answer:
        site = Site(slope=math.radians(degrees), heading=math.pi / 2, levelled=True)
        return check(asked(site=site, **more))

    assert not stops(on(4), "levelling travel")
    # 2.3 m over the pads at 10 degrees: 0.41 m, and the wheels have to come off.
    assert stops(on(10), "levelling travel")
    assert float(of(on(10), "levelling travel").clearance.needs) == pytest.approx(
        2.3 * math.tan(math.radians(10)) + 0.05
    )
    slippery = Motion(friction=0.15)
    assert stops(on(10, motion=slippery), "grip of levelled pads")
    assert not stops(on(8, motion=slippery), "grip of levelled pads")


def test_a_slew_that_holds_the_boom_uphill_holds_so_much_less_of_a_log():
    """Moment about the slew axis: the load's and the end's weight along the slope, by hand."""
    slope = math.radians(8)
    answer = check(asked(site=Site(slope=slope, heading=math.pi / 2), devices="fitted"))
    end = answer.reached.arm.joints[0].carried
    torque = 1.5 * 8000
    holds = torque - G0 * math.sin(slope) * end.first.u
    assert of(answer, "slew torque").capacity == pytest.approx(holds / (G0 * math.sin(slope) * 3.6))
    level = check(asked(devices="fitted"))
    assert not [each for each in level.criteria if each.kind == "slew torque"]


def test_lowering_faster_is_allowed_less_and_a_creep_as_much_as_standing():
    allowed = [
        of(check(asked(motion=Motion(lower_speed=speed))), "lowering").allowed
        for speed in (1e-6, 0.2, 0.6, 1.0)
    ]
    assert allowed == sorted(allowed, reverse=True)
    assert allowed[0] == pytest.approx(of(check(asked()), "tipping").capacity, rel=1e-4)
    # All of the load is thrown down by 2·v/(g·t); the arm takes more off.
    assert allowed[2] < allowed[0] / (1 + 2 * 0.6 / (G0 * 0.25)) * (1 + 1e-9)


def test_what_gives_first_at_a_log_that_is_held_is_said():
    said = {each.code for each in check(asked()).warnings}
    assert len(said & {"snag_tips", "snag_stalls"}) == 1
    strong = check(asked(reach=4.3, height=1.5))
    weak = check(replace(strong.lift, gauge=1e6))
    assert {each.code for each in weak.warnings} >= {"snag_stalls"}


@given(
    place=st.tuples(st.floats(1.5, 5.2), st.floats(0.3, 4.0), st.floats(-1.5, 1.5)),
    slope=st.sampled_from([0.0, 0.06, 0.15]),
    way=st.sampled_from(["whole", "one end", "drawn, one end up"]),
    lower=st.sampled_from([None, 0.2, 0.6]),
)
def test_many_poses_at_once_are_as_each_alone(place, slope, way, lower):
    reach, height, slew = place
    base = asked(
        reach=reach,
        height=height,
        slew=slew,
        taken=LiftMode(way=way),
        site=Site(slope=slope, heading=1.0),
        motion=Motion(lower_speed=lower),
        hazards=Hazards(people_distance=9.0),
    )
    found = sweep(base, reach=np.array([reach]), height=np.array([height]), slew=np.array([slew]))
    try:
        answer = check(base)
    except PoseError:
        assert math.isnan(found.allowed[0, 0])
        return
    heaviest = max(0.0, (found.allowed[0, 0] - base.rigging) / base.pull.share)
    assert heaviest == pytest.approx(answer.heaviest_log, rel=1e-9, abs=1e-6)


WORSE: dict[str, tuple[Any, Any]] = {
    "thicker": ({"log": SHORT}, {"log": SHORT | {"mid": "48 cm"}}),
    "longer": ({"log": SHORT}, {"log": SHORT | {"length": "3.4 m"}}),
    "steeper": ({"site": Site(slope=0.03, heading=1.0)}, {"site": Site(slope=0.09, heading=1.0)}),
    "people nearer": (
        {"hazards": Hazards(people_distance=14.0)},
        {"hazards": Hazards(people_distance=9.0)},
    ),
    "faster down": ({"motion": Motion(lower_speed=0.2)}, {"motion": Motion(lower_speed=0.8)}),
    "no devices": ({"devices": "fitted"}, {"devices": "none"}),
    "wet": ({"surface": "bark on"}, {"surface": "bark on, wet"}),
    "longer sling": ({"sling": Sling(length=2.4)}, {"sling": Sling(length=2.9)}),
    "swings": ({"swing": 0.0}, {"swing": 0.2}),
}


BETTER = {("thicker", "off the ground"), ("thicker", "choke"), ("longer", "sling on the log")}
"""What is truly better so: a thick log takes up more of its sling, and hangs nearer to level."""


@pytest.mark.parametrize("name", WORSE)
@given(reach=st.floats(1.2, 5.0), height=st.floats(0.5, 4.0), slew=st.floats(-1.5, 1.5))
def test_what_is_worse_never_makes_possible(name, reach, height, slew):
    better, worse = WORSE[name]
    if name == "thicker":
        better, worse = ({**each, "sling": Sling(length=2.6)} for each in (better, worse))
    try:
        one, two = (
            check(asked(**{"reach": reach, "height": height, "slew": slew, **each}))
            for each in (better, worse)
        )
    except PoseError:
        return
    rooms = [
        {
            each.title: float(each.clearance.has) - float(each.clearance.needs)
            for each in answer.criteria
            if each.clearance is not None and (name, each.kind) not in BETTER
        }
        for answer in (one, two)
    ]
    assert all(rooms[1][title] <= room + 1e-9 for title, room in rooms[0].items())
    was, now = (
        {
            each.title
            for each in answer.criteria
            if each.allowed > 0 and (name, each.kind) not in BETTER
        }
        for answer in (one, two)
    )
    assert now <= was | {each.title for each in two.criteria} - {
        each.title for each in one.criteria
    }


@pytest.mark.parametrize("name", ["standard-sideshift", "standard-centre-mount"])
def test_a_machine_file_may_say_travel_and_slew_torque(name):
    machine = load(name)
    legs = machine.stabilisers.model_copy(update={"travel": machine.wheels.front_radius})
    reaches = machine.model_copy(update={"stabilisers": legs})
    site = Site(slope=math.radians(6), heading=math.pi / 2, levelled=True)
    there = {"reach": 3.0, "height": 1.5, "site": site}
    assert stops(check(asked(machine=machine, **there)), "levelling travel")
    assert not stops(check(asked(machine=reaches, **there)), "levelling travel")
    strong = machine.back.model_copy(update={"slew_torque": machine.weights.total * 10})
    turned = {"site": Site(slope=math.radians(6), heading=math.pi / 2), "devices": "fitted"}
    weak, held = (
        of(check(asked(machine=each, **there | turned)), "slew torque").allowed
        for each in (machine, machine.model_copy(update={"back": strong}))
    )
    assert held > weak
