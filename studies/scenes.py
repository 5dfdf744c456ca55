"""Pictures of machines by another camera: homogeneous matrices and a lens of two terms.

Nothing here is shared with the camera that is fitted. A scene is a machine in a pose, both
attachments on the ground, its points moved as machines differ, and a phone somewhere beside it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np

from liftcalc.family.photograph import Click, Photograph, TapedLength
from liftcalc.family.picture_points import NEEDED, POINTS, pins_of, usual_aside
from liftcalc.machines.arm import Arm
from liftcalc.machines.back_arm import back_arm
from liftcalc.machines.files import load, shipped_names
from liftcalc.machines.front_arm import front_arm
from liftcalc.machines.lookup import attachment
from liftcalc.machines.number import plain
from liftcalc.machines.schema import EndName, Machine
from liftcalc.physics.plane import Point

TAPED = (("shovel tip", "bucket tooth"), ("foot pin", "knuckle"), ("arm pivot", "hinge pin"))
SEEN = {*NEEDED, "near pad", "far pad", *sum(TAPED, ())}
"""What nobody hides: whoever takes the picture is told to have it in sight."""
HIDDEN = 0.15
"""Share of the other points that something stands before."""
WIDTH, HEIGHT, MARGIN = 4000, 3000, 60
LENSES = (23.0, 26.0, 35.0, 48.0, 52.0, 70.0)
"""Focal lengths of phones, and of the middle cut out of them [mm, of a 36 × 24 mm frame]."""
FILLS = 0.6
"""Least share of the picture's width that the machine takes, as its owner is told."""

Spots = dict[str, Any]
"""Points by name, each as homogeneous coordinates: x, aside, up [m] and one."""


class Errors(NamedTuple):
    """Standard deviations of clicks [px] and tape [m]; whether all that is not known varies."""

    click: float = 3.0
    tape: float = 0.010
    unknown: float = 1.0


AS_TOLD = Errors()
EXACT = Errors(0.0, 0.0, 0.0)
"""Nothing errs but what the fit cannot know: place, direction and focal length of the camera."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """A picture, and x and z of every point of the machine in it [m]."""

    photograph: Photograph
    truth: dict[str, tuple[float, float]]
    camera: Viewer


class Viewer(NamedTuple):
    """A camera as matrices: space to lens, focal length and middle [px], and terms of the lens."""

    view: Any
    focal: float
    middle: Any
    lens: tuple[float, float]
    distance: float

    def sees(self, at: Any) -> Any:
        """Pixels of a homogeneous point."""
        x, y, depth, _ = self.view @ at
        flat = np.array([x, y]) / depth
        r2 = float(flat @ flat)
        bent = 1.0 + self.lens[0] * r2 + self.lens[1] * r2 * r2
        return self.middle + self.focal * bent * flat


def scene(seed: int, errors: Errors = AS_TOLD) -> Scene:
    """A picture drawn at random."""
    random = np.random.default_rng(seed)
    names = shipped_names()
    machine = load(names[seed % len(names)])
    truth = _as_machines_differ(points_of(machine, random), random)
    spots = in_space(machine, truth, random, errors.unknown)
    camera = camera_for(spots, random, errors.unknown)
    hidden = [name not in SEEN and random.random() < HIDDEN for name in spots]
    clicks = []
    for name, gone in zip(spots, hidden, strict=True):
        u, v = camera.sees(spots[name]) + random.normal(0.0, errors.click, 2)
        if not gone:
            clicks.append(Click(point=name, u=u, v=v))
    lengths = [math.dist(truth[a], truth[b]) + random.normal(0.0, errors.tape) for a, b in TAPED]
    photograph = Photograph(
        width=WIDTH,
        height=HEIGHT,
        clicks=tuple(clicks),
        lengths=tuple(
            TapedLength(first=a, second=b, length=length)
            for (a, b), length in zip(TAPED, lengths, strict=True)
        ),
        nearest=machine,
    )
    return Scene(photograph=photograph, truth=truth, camera=camera)


def points_of(machine: Machine, random: Any) -> dict[str, tuple[float, float]]:
    """Every point of a machine with both attachments on the ground, in its frame [m]."""
    wheels, legs = machine.wheels, machine.stabilisers
    base, pad = plain(wheels.wheelbase), plain(legs.x) - plain(legs.pad_length) / 2
    found = {
        "rear hub": (0.0, 0.97 * plain(wheels.rear_radius)),
        "front hub": (base, 0.97 * plain(wheels.front_radius)),
        "rear tyre": (0.0, 0.0),
        "front tyre": (base, 0.0),
        "near pad": (pad, 0.0),
        "far pad": (pad, 0.0),
    }
    front, tip = _lowered(machine, "front", random)
    back, tooth = _lowered(machine, "back", random)
    axis = plain(machine.back.slew_axis_x)
    found |= {name: (at.u, at.w) for name, at in (front | {"shovel tip": tip}).items()}
    found |= {name: (axis - at.u, at.w) for name, at in (back | {"bucket tooth": tooth}).items()}
    return found


def _lowered(machine: Machine, end: EndName, random: Any) -> tuple[dict[str, Point], Point]:
    """Pins of an end whose attachment's lowest corner is on the ground, and that corner."""
    tool = attachment(machine, end=end)
    for _ in range(1000):
        tilt, dipper, curl = random.uniform((-0.2, -2.2, 0.1), (0.4, -0.7, 0.9))
        low, high = (-1.2, 0.3) if end == "front" else (-0.9, 1.2)
        for _ in range(40):
            angle = (low + high) / 2
            posed: dict[str, Any] = {"tool": tool, "point": tool.lift_point[0]}
            if end == "front":
                arm = front_arm(machine, arm_angle=angle, tilt=tilt, **posed)
            else:
                arm = back_arm(machine, boom_angle=angle, dipper_angle=dipper, curl=curl, **posed)
            lowest = _lowest(arm)
            low, high = (angle, high) if lowest.w < 0 else (low, angle)
        if abs(lowest.w) < 1e-6 and not any(bool(each.violated) for each in arm.stops):
            return pins_of(arm), lowest
    raise ValueError(f"no pose of the {end} end of {machine.name} was found")


def _lowest(arm: Arm) -> Point:
    frame = arm.carrier.carry(arm.fitted)
    corners = [frame.place(Point(plain(x), plain(y))) for x, y in arm.tool.outline]
    return min(corners, key=lambda at: float(at.w))


def _as_machines_differ(truth: dict[str, tuple[float, float]], random: Any) -> Any:
    """Places stretched along and upward, and pins of rams and linkages moved a little."""
    along, upward = random.uniform(0.92, 1.08, 2)
    found = {}
    for name, (x, z) in truth.items():
        off = (
            random.normal(0.0, 0.03, 2)
            if "ram" in name or ("lever" in name or "crank" in name)
            else (0.0, 0.0)
        )
        found[name] = (along * x + off[0], upward * z + off[1])
    return found


def in_space(machine: Machine, truth: Any, random: Any, unknown: float) -> Spots:
    """Points as far aside as nobody measured, on ground that is not quite level."""
    arms, carriage, slew = unknown * random.normal(0.0, (0.06, 0.03, math.radians(0.6)))
    axis = plain(machine.back.slew_axis_x)
    spots: Spots = {}
    for name, (x, z) in truth.items():
        point = POINTS[name]
        usual = usual_aside(machine, point.plane)
        aside = usual.value + unknown * random.normal(0.0, usual.sigma)
        if point.plane == "loader":
            aside += arms
        if point.part == "back":
            aside += carriage + slew * (axis - x)
        # Which spot of a round tyre is lowest, and whether both pads are abreast.
        along = {"rear tyre": 0.03, "front tyre": 0.03, "far pad": 0.015}.get(name, 0.0)
        off_x, off_z = unknown * random.normal(0.0, (along, point.ground or 0.0))
        spots[name] = np.array([x + off_x, aside, z + off_z, 1.0])
    return spots


def _turn(axis: int, angle: float) -> Any:
    """A homogeneous turn about an axis."""
    i, k = [(1, 2), (2, 0), (0, 1)][axis]
    made = np.eye(4)
    made[i, i] = made[k, k] = math.cos(angle)
    made[i, k], made[k, i] = -math.sin(angle), math.sin(angle)
    return made


def camera_for(spots: Spots, random: Any, unknown: float) -> Viewer:
    """A phone that sees all of the machine, large enough, from either side."""
    at = np.array(list(spots.values()))
    middle, height = (at[:, 0].min() + at[:, 0].max()) / 2, float(at[:, 2].mean())
    diagonal = math.hypot(WIDTH, HEIGHT)
    for _ in range(10_000):
        distance, yaw = random.uniform(8.0, 20.0), math.radians(random.uniform(-10.0, 10.0))
        focal = random.choice(LENSES) * diagonal / math.hypot(36.0, 24.0)
        side, eye_height = random.choice([-1.0, 1.0]), random.uniform(0.6, 1.4)
        # Front to the right, or mirrored; then from the lens; then right, down and ahead.
        mirror, move = np.diag([side, 1.0, 1.0, 1.0]), np.eye(4)
        eye_along = side * (middle + random.normal(0.0, 0.2)) + distance * math.tan(yaw)
        move[:3, 3] = -eye_along, -distance, -eye_height
        axes = np.array([[1, 0, 0, 0], [0, 0, -1, 0], [0, -1, 0, 0], [0, 0, 0, 1.0]])
        pitch = math.atan2(height + random.normal(0.0, 0.2) - eye_height, distance)
        roll = math.radians(random.uniform(-2.0, 2.0))
        turned = _turn(2, roll) @ _turn(0, -pitch) @ _turn(1, yaw) @ axes
        corner, share = unknown * random.uniform(-0.02, 0.02), random.uniform(0.6, 1.0)
        reach = diagonal / 2 / focal
        camera = Viewer(
            view=turned @ move @ mirror,
            focal=focal,
            middle=np.array([WIDTH, HEIGHT]) / 2 + unknown * random.normal(0.0, 0.004 * WIDTH, 2),
            lens=(share * corner / reach**2, (1.0 - share) * corner / reach**4),
            distance=distance,
        )
        seen = np.array([camera.sees(each) for each in at])
        inside = np.all((seen > MARGIN) & (seen < np.array([WIDTH, HEIGHT]) - MARGIN))
        if inside and np.ptp(seen[:, 0]) > FILLS * WIDTH:
            return camera
    raise ValueError("no camera was found that sees the machine")
