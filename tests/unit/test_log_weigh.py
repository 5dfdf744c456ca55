"""A log on a scale: the gauge against virtual work, slips and cells by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from liftcalc.errors import InputError
from liftcalc.evaluation.evaluator import Evaluator
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.weighing import by_gauge, by_load_cell, by_slip
from liftcalc.machines.arm import Arm
from liftcalc.machines.back_arm import back_arm
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.lift import parse_lift
from liftcalc.timber.measure import Weighed
from liftcalc.units import G0
from tests.helpers import like

POSE = LiftRequest(
    machine="standard-sideshift",
    end="back",
    attachment="lifting hook",
    species="European larch",
    length="3 m",
    mid="30 cm",
    height="1.5 m",
    reach="3.5 m",
    rigging_mass="15 kg",
)


def lift(**said: str) -> Lift:
    return parse_lift(replace(POSE, **said)).lift


def pressure(posed: Lift, mass: float) -> float:
    """Pressure that bears links and load by virtual work: work of the oil is energy gained."""

    def turned(by: float) -> Arm:
        evaluator = Evaluator(posed)
        arm = evaluator.pose(posed.reach, posed.height)
        boom, dipper = arm.lumps[0].frame.angle, arm.lumps[1].frame
        hand_turn = math.atan2(dipper.sine, dipper.cosine) - _forearm_turn(posed)
        return back_arm(
            posed.machine,
            tool=posed.tool,
            point=posed.point,
            boom_angle=boom + by,
            dipper_angle=hand_turn + by,
            curl=posed.curl,
        )

    def energy(arm: Arm) -> float:
        links = sum(float(each.mass) * float(each.at.w) for each in arm.lumps)
        return G0 * (links + (mass + posed.rigging) * float(arm.load_at.w))

    step = 1e-5
    low, high = turned(-step), turned(step)
    joint = low.joints[0]
    longer = float(high.joints[0].ram_length) - float(joint.ram_length)
    area = math.pi / 4 * float(joint.ram.bore) ** 2
    if longer < 0:  # it pulls up
        area -= math.pi / 4 * float(joint.ram.rod) ** 2
    return (energy(high) - energy(low)) / abs(longer) / area / joint.ram.count


def _forearm_turn(posed: Lift) -> float:
    """From the dipper's own axis to the line from knuckle to lift point [rad]."""
    out = float(posed.machine.back.dipper.length) + float(posed.point.at[0])
    return math.atan2(float(posed.point.at[1]), out)


@pytest.mark.parametrize("reach", ["2.8 m", "3.5 m", "4.4 m"])
@pytest.mark.parametrize("mass", [200.0, 640.0])
def test_the_gauge_gives_the_mass_back(reach: str, mass: float) -> None:
    posed = lift(reach=reach)
    bears = pressure(posed, mass)
    made = by_gauge(posed, up=1.08 * bears, down=0.92 * bears).weighed
    assert made.mass == pytest.approx(mass, rel=2e-3)
    assert made.tolerance > 0.02 * mass


def test_a_known_weight_takes_out_what_the_books_have_wrong() -> None:
    posed = lift()
    machine = posed.machine
    ram = machine.back.boom_ram
    worn = ram.model_copy(update={"bore": like(ram.bore, 0.985 * float(ram.bore))})
    wrong = machine.model_copy(update={"back": machine.back.model_copy(update={"boom_ram": worn})})
    read = [pressure(posed, mass) for mass in (640.0, 500.0)]
    booked = replace(posed, machine=wrong)
    plain = by_gauge(booked, up=read[0], down=read[0]).weighed
    known = (Weighed(mass=500.0, tolerance=5.0), read[1], read[1])
    calibrated = by_gauge(booked, up=read[0], down=read[0], known=known).weighed
    assert abs(calibrated.mass - 640) < abs(plain.mass - 640)
    for each in (plain, calibrated):
        assert abs(each.mass - 640) <= each.tolerance
    assert calibrated.tolerance < plain.tolerance


def test_more_friction_is_more_doubt_and_the_same_mass() -> None:
    bears = pressure(lift(), 640.0)
    little, much = (
        by_gauge(lift(), up=(1 + each) * bears, down=(1 - each) * bears).weighed
        for each in (0.02, 0.2)
    )
    assert much.mass == pytest.approx(little.mass)
    assert much.tolerance > little.tolerance


@pytest.mark.parametrize(("up", "down"), [(1e6, 2e6), (0.0, 0.0), (math.nan, 1e6), (1e5, 1e5)])
def test_pressures_of_no_load_are_refused(up: float, down: float) -> None:
    with pytest.raises(InputError):
        by_gauge(lift(), up=up, down=down)


def test_slip_and_cell_by_hand() -> None:
    slip = by_slip(loaded=4300.0, empty=3660.0).weighed
    assert (slip.mass, slip.tolerance) == pytest.approx((640.0, 28.284), abs=1e-3)
    cell = by_load_cell(reading=655.0, rigging=15.0).weighed
    assert (cell.mass, cell.tolerance) == pytest.approx((640.0, 13.1))
