"""Facts of a machine, against the arms and the evaluator that do not know of facts."""

from __future__ import annotations

import numpy as np
import pytest

from liftcalc.errors import InputError
from liftcalc.evaluation.evaluator import Evaluator
from liftcalc.family.doing import TEETH, back_hook, front_hook
from liftcalc.family.draw import draw, some
from liftcalc.family.fact import Told
from liftcalc.family.facts import FACTS, complete, fact
from liftcalc.family.kind import machine_kind
from liftcalc.family.points import POINTS
from liftcalc.family.posterior import doubt
from liftcalc.machines.arm import angle_range
from liftcalc.machines.assembly import assemble, travel_front
from liftcalc.machines.back_arm import back_arm, reach_back
from liftcalc.machines.files import load
from liftcalc.machines.lookup import attachment
from liftcalc.machines.number import plain
from liftcalc.machines.schema import LinkRam, Machine
from liftcalc.physics.plane import Point
from tests.helpers import MACHINES, lift, span

ALL = [pytest.param(load(name), id=name) for name in MACHINES]


def asked(key: str, machine: Machine, load: float = 0.0) -> Told:
    far, high = 0.75 * span(machine), 0.15 * span(machine)
    return Told(key=key, value=0.0, reach=far, height=high, load=load)


def answer(key: str, machine: Machine, load: float = 0.0) -> float:
    return float(fact(key).predict(machine, asked(key, machine, load), 0.0))


def capacities(machine: Machine, end: str) -> dict[str, float]:
    """What each criterion would allow of a hook on the same place, before any share."""
    place = asked("", machine)
    tool = (back_hook if end == "back" else front_hook)(machine)
    where = (
        {"reach": place.reach, "stance": "stabilisers"} if end == "back" else {"stance": "wheels"}
    )
    made = lift(machine, end=end, tool=tool.name, height=place.height, curl=0.5, **where)
    evaluator = Evaluator(made)
    arm = evaluator.pose(made.reach, made.height)
    found = {rule.title: float(evaluator.fails(rule, arm, 0.0)) for rule in evaluator.rules}
    for joint, (ram, *_) in zip(arm.joints, evaluator.rams(arm, 0.0), strict=True):
        found[joint.name] = float(ram.capacity)
    return found


@pytest.mark.parametrize("machine", ALL)
def test_known_weights_are_what_the_evaluator_stalls_and_tips_at(machine: Machine) -> None:
    """The evaluator's fuel may be gone, which tips sooner: the fact has it aboard."""
    back, front = capacities(machine, "back"), capacities(machine, "front")
    rams = {"boom ram", "dipper ram", "bucket ram"} & set(back)
    assert answer("stall_back", machine) == pytest.approx(min(back[x] for x in rams), rel=1e-9)
    rams = {"lift rams", "tilt rams"}
    assert answer("stall_front", machine) == pytest.approx(min(front[x] for x in rams), rel=1e-9)
    empty = machine.model_copy(
        update={"carried": tuple(x.model_copy(update={"used_up": False}) for x in machine.carried)}
    )
    back, front = capacities(empty, "back"), capacities(empty, "front")
    assert answer("balance_back", machine) == pytest.approx(
        back["tipping over both stabilisers"], rel=1e-9
    )
    assert answer("balance_front", machine) == pytest.approx(
        front["tipping over the front axle"], rel=1e-9
    )


@pytest.mark.parametrize("machine", ALL)
def test_a_gauge_at_the_stalling_load_reads_the_working_pressure(machine: Machine) -> None:
    boom = capacities(machine, "back")["boom ram"]
    arms = capacities(machine, "front")["lift rams"]
    pressure = pytest.approx(machine.hydraulics.working_pressure, rel=1e-9)
    assert answer("boom_gauge", machine, boom) == pressure
    assert answer("lift_gauge", machine, arms) == pressure


@pytest.mark.parametrize("machine", ALL)
def test_front_axle_with_the_back_end_stretched(machine: Machine) -> None:
    place, tool = asked("", machine), back_hook(machine)
    back = reach_back(
        machine,
        tool=tool,
        point=tool.lift_point[0],
        reach=place.reach,
        height=place.height,
        curl=0.5,
    )
    front = travel_front(machine, attachment(machine, end="front"))
    stands = assemble(machine, front=front, back=back, slew=0.0, sideshift=0.0, stance="wheels")
    moment = sum(each.mass * each.x for each in stands.lumps)
    wanted = moment / machine.wheels.wheelbase
    assert answer("front_axle_stretched", machine) == pytest.approx(wanted, rel=1e-12)


def ends(ram: LinkRam, pivot: Point) -> tuple[float, float]:
    return angle_range(ram, pivot=pivot, base_pin=Point(*map(float, ram.base)))


@pytest.mark.parametrize("machine", ALL)
def test_brochure_figures_are_the_extremes_of_all_poses(machine: Machine) -> None:
    """Every pose that the strokes allow, tried one by one, with a bucket in line."""
    back, front = machine.back, machine.front
    low, high = ends(back.boom_ram, Point(*map(float, back.foot_pin)))
    folded, out = ends(back.dipper_ram, Point(float(back.boom.length), 0.0))
    boom = np.linspace(low, high, 1201)[:, None]
    dipper = boom + np.linspace(folded, out, 1201)[None, :]
    foot, first, second = map(plain, (back.foot_pin[1], back.boom.length, back.dipper.length))
    nose = foot + first * np.sin(boom) + second * np.sin(dipper)
    teeth = nose + TEETH * second * np.sin(dipper)
    along = back.foot_pin[0] + first * np.cos(boom) + (1 + TEETH) * second * np.cos(dipper)
    assert answer("dig_depth", machine) == pytest.approx(-teeth.min(), abs=1e-3)
    on_ground = along[np.abs(teeth) < 0.01].max()
    assert answer("reach_on_ground", machine) == pytest.approx(on_ground, abs=0.02)
    assert answer("nose_height", machine) == pytest.approx(nose[-1, -1], abs=1e-9)
    _, up = ends(front.lift_ram, Point(*map(float, front.arm_pivot)))
    wanted = front.arm_pivot[1] + front.arm.length * np.sin(up)
    assert answer("hinge_height", machine) == pytest.approx(wanted, abs=1e-9)


@pytest.mark.parametrize("machine", ALL)
def test_breakout_forces_by_virtual_work(machine: Machine) -> None:
    """Force of the ram times its speed is the force at the teeth times theirs."""
    tool = attachment(machine, end="back", name="digging bucket")
    curl = np.linspace(0.001, 0.999, 4001)
    arm = back_arm(
        machine, tool=tool, point=tool.lift_point[0], boom_angle=0.3, dipper_angle=-0.8, curl=curl
    )
    hydraulics, ram = machine.hydraulics, machine.back.bucket_ram
    push = np.pi / 4 * ram.bore**2 * hydraulics.working_pressure * hydraulics.efficiency
    turned = np.unwrap(arm.tool_angle)
    speed = np.abs(np.diff(turned) / np.diff(curl) / (ram.open - ram.closed))
    found = push / speed.min() / (TEETH * machine.back.dipper.length)
    # Nine places of the stroke are looked at: the best between them is missed by a little.
    assert answer("bucket_force", machine) == pytest.approx(found, rel=0.02)


@pytest.mark.parametrize("key", FACTS)
def test_machines_in_arrays_answer_as_each_alone(key: str) -> None:
    kind = machine_kind("standard-centre-mount")
    machine = draw(kind, count=4, seed=2).machine
    told = asked(key, load("standard-centre-mount"), load=400.0)
    found = np.broadcast_to(fact(key).predict(machine, told, 0.0), (4,))
    alone = [float(fact(key).predict(some(machine, row), told, 0.0)) for row in range(4)]
    assert found == pytest.approx(alone, rel=1e-9)


def test_every_fact_moves_with_the_machine_and_says_why_it_is_in_doubt() -> None:
    """No answer is the same for all machines; a distance names points that can be drawn."""
    machine = draw(machine_kind("standard-sideshift"), count=50, seed=2).machine
    for key, each in FACTS.items():
        told = asked(key, load("standard-sideshift"), load=400.0)
        assert np.nanstd(each.predict(machine, told, 0.0)) > 0, key
        assert each.reason
        assert each.question
        assert doubt(Told(key=key, value=1000.0)) > 0
        assert set(each.at) <= set(POINTS)


def test_a_hook_farther_out_than_told_is_answered_as_farther_out() -> None:
    machine = load("standard-sideshift")
    near, far = (fact("stall_back").predict(machine, asked("", machine), off) for off in (0.0, 2.0))
    assert far < near


def test_a_fact_without_its_place_is_refused_with_all_that_lacks() -> None:
    with pytest.raises(InputError) as caught:
        complete((Told(key="boom_gauge", value=1e7, reach=3.0), Told(key="rated_front", value=1.0)))
    assert [each.field for each in caught.value.faults] == ["height", "load", "height"]
    with pytest.raises(InputError, match="did you mean wheelbase"):
        complete((Told(key="weelbase", value=2.0),))
