"""Tipping in a rigid-body physics engine against tipping loads by lines; see `engine`."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest

from liftcalc.machines.supports import Stance
from liftcalc.site.site import Site
from tests.helpers import Posed, fixed_axle, near, some_pose, tried
from tests.physics.engine import Engine, Loading
from tests.physics.programme import Contact, Scene, Vector
from tests.physics.test_tipping_programme import scene

Measured = Callable[[str, int, float], None]

KINDS: dict[str, tuple[Stance, bool]] = {
    "wheels, oscillating axle": ("wheels", False),
    "wheels, fixed axle": ("wheels", True),
    "stabilisers, oscillating axle": ("stabilisers", False),
    "stabilisers, fixed axle": ("stabilisers", True),
    "stabilisers and bucket": ("stabilisers and bucket", False),
}
CHUNKS = 2
CASES = 40
"""Cases of a chunk; 400 in all."""
SLOPES = (0.0, 0.35)
"""Slopes are drawn from this range [rad], up to 20°, and one in five is level."""
LIGHTEST, HEAVIEST = 100.0, 20_000.0
"""Tipping loads outside these are drawn again [kg]: a hundredth of less takes long to tip it."""


def gravity(slope: float, heading: float) -> Vector:
    """Gravity seen from a machine on a slope, uphill at a heading from its nose to its left."""
    along, square = math.sin(slope), math.cos(slope)
    return tuple(
        -9.80665 * part for part in (along * math.cos(heading), along * math.sin(heading), square)
    )


@dataclass(frozen=True)
class Case:
    posed: Posed
    gravity: Vector
    ours: float

    @property
    def scene(self) -> Scene:
        return scene(self.posed, self.gravity)

    @property
    def governs(self) -> str:
        lines = self.posed.lines(self.gravity)
        return min(lines, key=lambda each: float(each.tipping_load)).line.name


def drawn(kind: str, seed: int, *, slopes: tuple[float, float] = SLOPES) -> Iterator[Case]:
    """Any machine near a shipped one, in any pose, sideshift and slew, on any slope."""
    rng = np.random.default_rng([list(KINDS).index(kind), seed])
    stance, fixed = KINDS[kind]
    while True:
        machine = near(int(rng.integers(48)))
        if fixed:
            machine = fixed_axle(machine)
        posed = tried(lambda machine=machine: some_pose(machine, stance, rng))
        if posed is None:
            continue
        slope = rng.uniform(*slopes) if rng.integers(5) else 0.0
        heading = rng.uniform(-math.pi, math.pi)
        ours = posed.tipping_load(Site(slope=slope, heading=heading).gravity)
        yield Case(posed, gravity(slope, heading), ours)


def share_at_tipping(case: Case, **how: Any) -> float | None:
    """Tip load of the engine as a share of ours; None where it runs away before it tips.

    A machine whose rear end is nearly lifted has nothing to hold it along a slope, whatever the
    friction, and rolls off on its front wheels. Where it is about to go over a side, the rear
    contact on that side is therefore held in plan, and tipping is what remains. Where it is about
    to go over the front axle both rear contacts lift, and none is left to hold it by. Nothing is
    held here by its front wheels: nose downhill that would tip a machine sooner.
    """
    found = Loading(case.scene, case.ours, **how)
    share = found.share_at_tipping()
    if not found.slides:
        return share
    side = case.governs.split()[0]
    if side not in ("left", "right"):
        before = found.under(0.99)
        assert before != "tips", case
        return share if before == "holds" else None
    held = case.scene.contacts[0 if side == "left" else 1]
    found = Loading(case.scene, case.ours, held=held, **how)
    share = found.share_at_tipping()
    assert not found.slides, case
    return share


@pytest.mark.parametrize("chunk", range(CHUNKS))
@pytest.mark.parametrize("kind", KINDS)
def test_tip_load_of_the_engine(kind: str, chunk: int, measured: Measured) -> None:
    """It holds 0.99 of our tipping load and not 1.02 of it, unless it runs away before."""
    off, ran_away = [], 0
    for case in drawn(kind, chunk):
        if not LIGHTEST < case.ours < HEAVIEST:
            continue
        share = share_at_tipping(case)
        if share is None:
            ran_away += 1
            continue
        told = f"{share:.4f} of {case.ours:.0f} kg {case.governs}, gravity {case.gravity}"
        assert 0.99 <= share <= 1.02, told
        off.append(share - 1.0)
        if len(off) == CASES:
            break
    # Nothing rolls where the front wheels do not.
    assert ran_away <= (CASES // 10 if "oscillating" in kind else 0)
    measured(f"tipping load, by a physics engine: {kind}", len(off), max(map(abs, off)))


@pytest.mark.parametrize("kind", KINDS)
def test_machines_that_tip_empty(kind: str) -> None:
    """Where our tipping load is nothing, no machine of the engine stands without any."""
    tipped = 0
    for case in drawn(kind, 9, slopes=(0.5, 0.9)):
        if case.ours == 0.0:
            engine = Engine(case.scene)
            found = engine.run(1.0, gravity=case.gravity)
            found = engine.run(3.0) if found == "holds" else found
            assert found == "tips" or (found == "slides" and "oscillating" in kind), case
            tipped += found == "tips"
        if tipped == 5:
            break


TRACK, BASE, AHEAD, HEIGHT = 1.6, 2.2, 0.9, 0.95
"""Rear track, wheelbase, centre of gravity ahead of the rear axle and up [m]."""


def tilt_table(pin: float | None, *, front_track: float = 1.85, rolls: bool = True) -> float:
    """Slope across which an empty machine goes over, by tilting gravity and waiting [°]."""
    ends = [(0.0, TRACK / 2, 0), (BASE, front_track / 2, int(pin is not None))]
    table = Scene(
        masses=[(7500.0, (AHEAD, 0.0, HEIGHT))],
        load=(AHEAD, 0.0, HEIGHT),
        gravity=gravity(0.0, 0.0),
        contacts=[Contact((x, side * y, 0.0), body) for x, y, body in ends for side in (1, -1)],
        pin=None if pin is None else (BASE, 0.0, pin),
    )
    engine = Engine(table, rolls=rolls)
    level = engine.keep()
    low, high = 15.0, 50.0
    while high - low > 0.01:
        middle = (low + high) / 2
        engine.back(level)
        found = "holds"
        # Gravity turns; between two of these it moves along the chord, which is shorter by 1e-4.
        for share in np.linspace(0.0, 1.0, 21)[1:]:
            if found == "holds":
                found = engine.run(0.05, gravity=gravity(math.radians(middle) * share, math.pi / 2))
        found = engine.run(3.0) if found == "holds" else found
        low, high = (middle, high) if found == "holds" else (low, middle)
    return (low + high) / 2


@pytest.mark.parametrize("pin", [0.0, 0.25, 0.5, HEIGHT])
def test_tilt_with_an_oscillating_axle(pin: float) -> None:
    """From moments about the line from a rear contact to the pin; 26.46° for a pin on the ground
    and 32.38° for one at 0.5 m. At the height of the centre of gravity it is s/2 over h.
    """
    closed = math.atan(TRACK / 2 * (BASE - AHEAD) / (BASE * HEIGHT - AHEAD * pin))
    assert tilt_table(pin) == pytest.approx(math.degrees(closed), rel=0.001)


def test_tilt_with_a_fixed_axle_is_half_the_track_over_the_height() -> None:
    closed = math.degrees(math.atan(TRACK / 2 / HEIGHT))
    assert tilt_table(None, front_track=TRACK) == pytest.approx(closed, rel=0.001)


def test_wheels_that_do_not_roll_wrongly_hold_the_axle() -> None:
    """Why the front tyres of the other tests roll: locked ones scrub and gain degrees."""
    assert tilt_table(0.5, rolls=False) > tilt_table(0.5) + 3.0
