"""What may be clicked in a picture of a machine: what each point is, and how far aside it lies.

Nobody can tell from one picture how far from the machine's middle a point lies, so each has a usual
distance aside with its tolerance, from the tracks and pads of the machine that is nearest. Both are
judgement (no source): hubs and tyres by the width of a wheel, loader arms between the front wheels'
inner sides, the back end by the width of a boom with the heads of its pins.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from liftcalc.family.points import POINTS as TAPED_POINTS
from liftcalc.machines.arm import Arm
from liftcalc.machines.number import plain
from liftcalc.machines.schema import EndName, Machine
from liftcalc.physics.plane import Point

Part = Literal["wheels", "front", "back"]
Plane = Literal[
    "rear hub",
    "front hub",
    "rear tyre",
    "front tyre",
    "near pad",
    "far pad",
    "shovel",
    "loader",
    "boom",
    "bucket",
]


class PicturePoint(NamedTuple):
    """Something that can be seen and clicked.

    Attributes
    ----------
    name : str
        As it is asked for.
    look_for : str
        What to click.
    part : str
        Of the machine: "back" swings with the slew.
    plane : str
        Along the machine, in which it lies.
    ground : float or None
        Standard deviation from the level of the ground [m]; None for what is off the ground.
    """

    name: str
    look_for: str
    part: Part
    plane: Plane
    ground: float | None = None


UNDER_TYRES = 0.005
"""Standard deviation of the ground under one tyre from that of all [m]; judgement."""
LEVEL = 0.02
"""The same of hard ground that looks level, as far as an attachment reaches [m]; judgement."""


def _pin(name: str, part: Part, plane: Plane, look_for: str = "") -> PicturePoint:
    """A pin, in the words in which a tape asks for it where it does."""
    return PicturePoint(name, look_for or TAPED_POINTS[name].words, part, plane)


_ROWS = (
    _pin("rear hub", "wheels", "rear hub"),
    _pin("front hub", "wheels", "front hub"),
    PicturePoint("rear tyre", "its lowest point", "wheels", "rear tyre", UNDER_TYRES),
    PicturePoint("front tyre", "its lowest point", "wheels", "front tyre", UNDER_TYRES),
    PicturePoint("near pad", "its rear lower corner, outer side", "wheels", "near pad", LEVEL),
    PicturePoint("far pad", "its rear lower corner, inner side", "wheels", "far pad", LEVEL),
    PicturePoint("shovel tip", "its near corner on the ground", "front", "shovel", LEVEL),
    PicturePoint("bucket tooth", "the near one, on the ground", "back", "bucket", LEVEL),
    _pin("arm pivot", "front", "loader"),
    _pin("hinge pin", "front", "loader"),
    _pin("lift ram base", "front", "loader"),
    _pin("lift ram pin", "front", "loader"),
    _pin("tilt ram base", "front", "loader"),
    _pin("tilt ram pin", "front", "loader", "tilt ram's pin on the bell-crank"),
    _pin("bell-crank pivot", "front", "loader"),
    _pin("bell-crank pin", "front", "loader", "pin from bell-crank to link"),
    _pin("front link pin", "front", "loader", "pin from link to front tool"),
    _pin("foot pin", "back", "boom"),
    _pin("boom ram base", "back", "boom"),
    _pin("boom ram pin", "back", "boom"),
    _pin("knuckle", "back", "boom"),
    _pin("dipper ram base", "back", "boom"),
    _pin("dipper ram pin", "back", "boom"),
    _pin("nose pin", "back", "boom"),
    _pin("bucket ram base", "back", "boom"),
    _pin("bucket ram pin", "back", "boom", "bucket ram's pin on the lever"),
    _pin("lever pivot", "back", "boom"),
    _pin("lever pin", "back", "boom", "pin from lever to link"),
    _pin("bucket link pin", "back", "boom", "pin from link to bucket"),
)
POINTS = {each.name: each for each in _ROWS}
"""Every point by its name, in the order in which they are asked for."""

NEEDED = ("rear hub", "front hub", "rear tyre", "front tyre")
"""Without these there is nothing to refer the others to."""


class Aside(NamedTuple):
    """Distance from the machine's middle toward the camera, and its standard deviation [m]."""

    value: float
    sigma: float


def usual_aside(machine: Machine, plane: Plane) -> Aside:
    """How far aside points of a plane lie on a machine like this [m]; judgement."""
    rear, front = plain(machine.wheels.rear_track) / 2, plain(machine.wheels.front_track) / 2
    pad = plain(machine.stabilisers.pad_spread) / 2
    half_pad = plain(machine.stabilisers.pad_width) / 2
    known: dict[Plane, Aside] = {
        "rear hub": Aside(rear + 0.08, 0.06),
        "front hub": Aside(front + 0.08, 0.06),
        "rear tyre": Aside(rear + 0.16, 0.06),
        "front tyre": Aside(front + 0.12, 0.06),
        "near pad": Aside(pad + half_pad, 0.06),
        "far pad": Aside(half_pad - pad, 0.06),
        "shovel": Aside(_half_width(machine, "front"), 0.06),
        "loader": Aside(0.65 * front, 0.025),
        "boom": Aside(0.14, 0.03),
        "bucket": Aside(_half_width(machine, "back"), 0.06),
    }
    return known[plane]


def _half_width(machine: Machine, end: EndName) -> float:
    fitted = getattr(machine.fitted, end)
    return next(plain(x.width) / 2 for x in machine.attachment if (x.end, x.name) == (end, fitted))


_PINS = {
    "front": (
        ("arm pivot", "lift ram base", "lift ram pin", "hinge pin", "tilt ram base"),
        ("bell-crank pivot", "tilt ram pin", "bell-crank pin", "front link pin"),
    ),
    "back": (
        (
            "foot pin",
            "boom ram base",
            "boom ram pin",
            "knuckle",
            "dipper ram base",
            "dipper ram pin",
            "nose pin",
            "bucket ram base",
        ),
        ("lever pivot", "bucket ram pin", "lever pin", "bucket link pin"),
    ),
}


def pins_of(arm: Arm) -> dict[str, Point]:
    """The pins of an end in a pose, with an attachment on its pins, in its plane [m]."""
    *links, tilt = arm.joints
    at = [pin for each in links for pin in (each.pivot, each.base_pin, each.rod_pin)]
    linkage = next(each for each in arm.drawn if each.link == "linkage")
    names, linkage_names = _PINS[arm.end]
    found = dict(zip(names, (*at, tilt.pivot, tilt.base_pin), strict=True))
    return found | dict(zip(linkage_names, linkage.points, strict=True))
