"""An arm of two links on two rams, every link and ram with its own weight.

J. Petrović and J. Mattila, Mechanism and Machine Theory (2022), doi
10.1016/j.mechmachtheory.2021.104680: geometry and masses from the authors' supplement, rams'
forces from its closed form; g = 9.8066 m/s². The supplement's geometry has six digits, so the
forces are held to 1e-5 of themselves.

Links, lever arms and balances of moments come from the package; the weight of a ram itself, which
the package counts with the links, is added here by the turning of the ram.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import pytest

from liftcalc.physics import formulas
from liftcalc.physics.joints import moment_per_kilogram, stall
from liftcalc.physics.plane import Point, direction, distance, place
from tests.published.printed import Printed

SOURCE = "Petrović & Mattila, Mech. Mach. Theory 2022"
G = 9.8066
BARREL, BARREL_OUT = 17.36282, 0.35781210  # mass, centre from the base pin
ROD, ROD_BACK = 10.34519, 0.18714003  # mass, centre short of the rod pin

ORIGIN = Point(0.0, 0.0)
LIFT_BASE, LIFT_PIN = Point(0.374261, -0.935000), Point(0.373313, -0.045757)
TILT_BASE, TILT_PIVOT = Point(0.473313, -0.039495), Point(1.596872, 0.100002)
TILT_PIN = Point(0.296280, -0.087786)
LIFT_LUMPS = ((25.52660, Point(0.252349, 0.102075)), (54.58703, Point(0.999382, 0.132068)))
TILT_LUMPS = ((33.92850, Point(0.657387, 0.088902)), (9.26136, Point(0.975299, 0.277471)))
SLIDING = (6.73060, Point(0.394500, 0.140605))
PAYLOAD = (570.18877, Point(1.849155, 0.154873))
SLIDE = (1.0, 0.000929)


@dataclass(frozen=True)
class Ram:
    """A ram of the paper as it stands, base pin fixed, rod pin on the link that turns."""

    pivot: Point
    base: Point
    pin: Point

    @property
    def geometry(self) -> formulas.RamGeometry:
        return formulas.ram_geometry(
            pivot_u=self.pivot.u,
            pivot_w=self.pivot.w,
            base_pin_u=self.base.u,
            base_pin_w=self.base.w,
            rod_pin_u=self.pin.u,
            rod_pin_w=self.pin.w,
        )

    def lumps(self) -> tuple[tuple[float, Point], ...]:
        """Where barrel and rod have their centres."""
        angle = direction(start=self.base, end=self.pin)
        length = distance(start=self.base, end=self.pin)
        return tuple(
            (mass, place(origin=self.base, angle=angle, at=Point(out, 0.0)))
            for mass, out in ((BARREL, BARREL_OUT), (ROD, length - ROD_BACK))
        )

    def own_moment(self) -> float:
        """What the ram's own weight adds to the moment of the link as it turns, base fixed.

        The barrel turns about the base pin with the ram; the rod's centre also slides out with
        the rod pin. Both by the speeds of one radian a second of the link.
        """
        *_, length, arm = self.geometry
        out = ((self.pin.u - self.base.u) / length, (self.pin.w - self.base.w) / length)
        speed = (-(self.pin.w - self.pivot.w), self.pin.u - self.pivot.u)
        turning = (out[0] * speed[1] - out[1] * speed[0]) / length
        rises = (
            (BARREL, BARREL_OUT * turning * out[0]),
            (ROD, (length - ROD_BACK) * turning * out[0] + arm * out[1]),
        )
        return sum(-G * mass * rise for mass, rise in rises)


def turning(parts: tuple[tuple[float, Point], ...], pivot: Point) -> float:
    return sum(
        mass * moment_per_kilogram(at=at, pivot=pivot, gravity_u=0.0, gravity_w=-G)
        for mass, at in parts
    )


@dataclass(frozen=True)
class Stood:
    """The arm in a pose: moment and ram of both joints."""

    lift: Ram
    tilt: Ram
    lift_moment: float
    tilt_moment: float
    payload: Point


def assemble(first: float, second: float, out: float) -> Stood:
    one, two = math.radians(first), math.radians(first + second)
    pivot = place(origin=ORIGIN, angle=one, at=TILT_PIVOT)

    def on_first(at: Point) -> Point:
        return place(origin=ORIGIN, angle=one, at=at)

    def on_second(at: Point, slide: float = 0.0) -> Point:
        slid = Point(at.u + slide * SLIDE[0], at.w + slide * SLIDE[1])
        return place(origin=pivot, angle=two, at=slid)

    lift = Ram(pivot=ORIGIN, base=LIFT_BASE, pin=on_first(LIFT_PIN))
    tilt = Ram(pivot=pivot, base=on_first(TILT_BASE), pin=on_second(TILT_PIN))
    payload = on_second(PAYLOAD[1], out)
    beyond = (
        *((mass, on_second(at)) for mass, at in TILT_LUMPS),
        (SLIDING[0], on_second(SLIDING[1], out)),
        (PAYLOAD[0], payload),
    )
    near = (*((mass, on_first(at)) for mass, at in LIFT_LUMPS), *tilt.lumps())
    return Stood(
        lift=lift,
        tilt=tilt,
        lift_moment=turning((*near, *beyond), ORIGIN) + lift.own_moment(),
        tilt_moment=turning(beyond, pivot) + tilt.own_moment(),
        payload=payload,
    )


def printed(text: str) -> Printed:
    return Printed(text, source=SOURCE, relative=1e-5, reason="geometry printed to six digits")


@pytest.mark.parametrize(
    ("out", "lift_force", "tilt_force"),
    [(1.0, "67682.383", "69621.890"), (0.0, "54548.860", "46307.320")],
)
def test_forces_of_both_rams(out: float, lift_force: str, tilt_force: str):
    """Lift and tilt ram at 0° and −30°, slide out and in, N."""
    stood = assemble(0.0, -30.0, out)
    assert -stood.lift_moment / stood.lift.geometry.moment_arm == printed(lift_force)
    assert -stood.tilt_moment / stood.tilt.geometry.moment_arm == printed(tilt_force)


def test_the_printed_force_is_the_one_that_stalls_with_the_payload():
    """Lift ram with just the printed push: the payload of the paper, kg."""
    stood = assemble(0.0, -30.0, 1.0)
    unit = moment_per_kilogram(at=stood.payload, pivot=ORIGIN, gravity_u=0.0, gravity_w=-G)
    stalls, _ = stall(
        push=67682.383,
        pull=0.0,
        moment_arm=stood.lift.geometry.moment_arm,
        links_moment=stood.lift_moment - PAYLOAD[0] * unit,
        joint_unit_moment=unit,
    )
    assert float(stalls) == Printed(
        "570.18877", source=SOURCE, relative=2e-5, reason="geometry printed to six digits"
    )
