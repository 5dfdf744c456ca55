"""What machines of the family differ in: for each its median, its spread, and what it goes with.

Medians are those of an 8 t machine of common practice; ``exponent`` says how they grow with size,
the cube root of the mass. All is judgement, drawn round the class bands of common practice (no
source): measured machines would narrow it, and until then spreads are wide rather than narrow.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Literal, NamedTuple

import numpy as np

from liftcalc.family.kind import MachineKind
from liftcalc.physics.functions import Real

STANDARD_MASS = 7900.0
"""Mass of the machine whose size is one [kg]."""

Group = Literal["", "heaviness", "strength"]
GOES_WITH = 0.5
"""Correlation of a parameter with what it shares with its group [-]; judgement."""


class Parameter(NamedTuple):
    """A figure in which machines differ.

    Attributes
    ----------
    key, words : str
        What the code and what a person calls it.
    median : float
        At size one [SI].
    exponent : float
        Power of the size it grows with [-].
    spread : float
        Standard deviation, of its logarithm unless ``plain`` [- or SI].
    plain : bool
        Whether it spreads evenly about the median: shares, places and angles that may be zero.
    group : str
        What it shares with others beside size: "heaviness" of steel, "strength" of rams.
    only : str
        The mount, or the side of the boom ram, of machines that have it.
    """

    key: str
    words: str
    median: float
    exponent: float
    spread: float
    plain: bool = False
    group: Group = ""
    only: str = ""

    def value(self, *, size: Real, latent: Real, shared: Real) -> Real:
        """The figure of machines of a size, ``latent`` standard deviations off its median."""
        off = latent
        if self.group:
            off = math.sqrt(1 - GOES_WITH**2) * latent + GOES_WITH * shared
        if self.plain:
            return self.median + self.spread * off
        return self.median * np.exp(self.exponent * size + self.spread * off)

    def latent(self, value: Real, *, size: Real) -> Real:
        """How many standard deviations a figure lies off its median, nothing shared with others."""
        if self.plain:
            off = (value - self.median) / self.spread
        else:
            off = (np.log(value / self.median) - self.exponent * size) / self.spread
        return off / math.sqrt(1 - GOES_WITH**2) if self.group else off


def _sized(
    name: str, words: str, median: float, exponent: float, spread: float, **more: str
) -> Parameter:
    """A figure that grows with the machine."""
    return Parameter(name, words, median, exponent, spread, **more)  # type: ignore[arg-type]


def _share(name: str, words: str, median: float, spread: float, **more: str) -> Parameter:
    """A share or an angle, the same for all sizes."""
    return Parameter(name, words, median, 0.0, spread, plain=True, **more)  # type: ignore[arg-type]


def _turn(name: str, words: str, degrees: float, spread: float, **more: str) -> Parameter:
    return _share(name, words, math.radians(degrees), math.radians(spread), **more)


BY_RAM, BY_MOUNT = ("above", "below"), ("sideshift", "centre mount")


def _either(
    make: Callable[..., Parameter],
    name: str,
    words: str,
    by: tuple[str, str],
    *figures: tuple[float, ...],
    **more: str,
) -> tuple[Parameter, ...]:
    """A figure that differs by how the machine is built: its figures for each of two ways."""
    return tuple(
        make(name, words, *each, only=only, **more) for only, each in zip(by, figures, strict=True)
    )


MASS: dict[str, str] = {"group": "heaviness"}
BORE: dict[str, str] = {"group": "strength"}
WHOLE = (
    _sized("total", "weight of the whole machine", 7900.0, 3.0, 0.04),
    _share("front_share", "share of it on the front axle", 0.40, 0.022),
    _sized("cog_height", "height of the chassis' centre of gravity", 0.98, 0.7, 0.06),
    _sized("wheelbase", "wheelbase", 2.15, 0.68, 0.025),
    _sized("rear_track", "rear track", 1.75, 1.05, 0.05),
    _share("front_track", "front track to rear track", 1.04, 0.04),
    _sized("axle_pin_height", "height of the front axle's pin", 0.55, 0.9, 0.08),
    _sized("rear_radius", "height of the rear hub", 0.70, 0.9, 0.05),
    _share("front_radius", "height of the front hub to that of the rear", 0.70, 0.05),
    _sized("front_rating", "front axle rating to weight", 0.80, 0.0, 0.07),
    _sized("rear_rating", "rear axle rating to weight", 0.95, 0.0, 0.07),
    _sized("pads_behind", "stabiliser pads behind the rear axle", 0.83, 0.5, 0.08),
    *_either(
        _sized, "pad_spread", "across the pads", BY_MOUNT, (2.30, 1.0, 0.04), (3.40, 1.5, 0.05)
    ),
    _sized("pad_length", "length of a pad", 0.42, 1.25, 0.10),
    _sized("pad_width", "width of a pad to its length", 0.85, 0.0, 0.08),
    _sized("legs", "weight of the legs to that of the machine", 0.0365, 0.0, 0.15),
    _sized("pressure", "working pressure", 222e5, 0.9, 0.06),
    _share("efficiency", "share of the pressure that reaches the pins", 0.90, 0.025),
)
FRONT = (
    _share("arm_pivot_ahead", "loader pivot ahead of the rear axle to wheelbase", 0.48, 0.04),
    _sized("arm_pivot_height", "height of the loader pivot", 1.68, 1.1, 0.05),
    _sized("arm_length", "loader arm, pivot to hinge pin", 2.40, 1.13, 0.045),
    _sized(
        "arm_mass", "weight of the loader arms to that of the machine", 0.053, 0.0, 0.18, **MASS
    ),
    _share("arm_cog_along", "centre of gravity along the arm", 0.48, 0.04),
    _share("arm_cog_up", "centre of gravity above the arm", 0.034, 0.02),
    _share("lift_base_ahead", "lift ram's base ahead of the pivot", 0.008, 0.025),
    _share("lift_base_below", "lift ram's base below the pivot", 0.18, 0.018),
    _share("lift_pin_along", "lift ram's pin along the arm", 0.545, 0.025),
    _share("lift_pin_up", "lift ram's pin above the arm", 0.0, 0.015),
    _sized("digs_below", "how far the front bucket goes below the ground", 0.048, 0.3, 0.20),
    _sized("hinge_height", "height of the hinge pin, arms up", 3.43, 1.08, 0.03),
    _sized("lift_bore", "bore of the lift rams", 0.098, 1.4, 0.05, **BORE),
    _share("lift_rod", "rod to bore of the lift rams", 0.55, 0.05),
    _share("tilt_base_along", "tilt ram's base along the arm", 0.3125, 0.015),
    _share("tilt_base_up", "tilt ram's base above the arm", 0.146, 0.012),
    _share("tilt_rocker_before", "bell-crank pivot before the hinge pin", 0.125, 0.008),
    _share("tilt_rocker_up", "bell-crank pivot above the arm", 0.021, 0.006),
    _sized("tilt_ram_radius", "bell-crank, pivot to ram", 0.175, 0.0, 0.04),
    _sized("tilt_pin_radius", "bell-crank, pivot to link", 0.20, 0.0, 0.03),
    _turn("tilt_turn", "bell-crank, angle between its pins", 9.0, 3.0),
    _sized("tilt_link", "tilt link", 0.20, 0.0, 0.03),
    _share("tilt_pin_along", "link pin of the front tool ahead of its hinge", 0.0083, 0.006),
    _sized("tilt_pin_up", "link pin of the front tool above its hinge", 0.125, 0.0, 0.04),
    _turn("rolled_back", "front tool to the arm, rolled back", 61.5, 2.5),
    _turn("dumped", "front tool to the arm, dumped", -100.0, 5.0),
    _sized("tilt_bore", "bore of the tilt rams", 0.080, 1.45, 0.06, **BORE),
    _share("tilt_rod", "rod to bore of the tilt rams", 0.57, 0.04),
    _sized("front_tools", "weight of the front tools to the usual", 1.0, 0.0, 0.15, **MASS),
)
BOOM = (
    _sized("slew_behind", "slew axis behind the pads", 0.165, 0.9, 0.20),
    _sized("sideshift_limit", "sideshift, each way", 0.55, 1.0, 0.10, only="sideshift"),
    _sized("foot_out", "boom foot pin behind the slew axis", 0.15, 1.4, 0.15),
    _sized("foot_height", "height of the boom foot pin", 0.62, 1.0, 0.07),
    *_either(_sized, "carriage", "weight of the kingpost to the machine's", BY_MOUNT,
             (0.0475, 0.0, 0.15), (0.031, 0.0, 0.15), **MASS),
    _sized("boom_length", "boom, foot pin to knuckle", 2.70, 1.47, 0.04),
    _sized("boom_mass", "weight of the boom", 430.0, 4.0, 0.18, **MASS),
    _share("boom_cog_along", "centre of gravity along the boom", 0.463, 0.04),
    _share("boom_cog_up", "centre of gravity above the boom", 0.052, 0.02),
    *_either(_share, "boom_base_out", "boom ram's base behind the foot pin", BY_RAM,
             (-0.057, 0.03), (0.074, 0.025)),
    *_either(_share, "boom_base_up", "boom ram's base above the foot pin", BY_RAM,
             (0.157, 0.015), (-0.126, 0.015)),
    *_either(_share, "boom_pin_along", "boom ram's pin along the boom", BY_RAM,
             (0.593, 0.03), (0.556, 0.03)),
    *_either(_share, "boom_pin_up", "boom ram's pin above the boom", BY_RAM,
             (0.037, 0.015), (-0.022, 0.015)),
    *_either(_turn, "boom_lowest", "boom at its lowest", BY_RAM, (-48.5, 6.0), (-44.3, 6.0)),
    *_either(_turn, "boom_highest", "boom at its highest", BY_RAM, (67.4, 4.0), (64.2, 4.0)),
    _sized("boom_lift", "what the dipper's end lifts at full reach", 1450.0, 3.5, 0.095, **BORE),
    _share("boom_rod", "rod to bore of the boom ram", 0.53, 0.05),
)  # fmt: skip
DIPPER = (
    _share("dipper_length", "dipper, knuckle to nose pin, to boom", 0.648, 0.03),
    _sized("dipper_mass", "weight of the dipper", 260.0, 4.0, 0.18, **MASS),
    _share("dipper_cog_along", "centre of gravity along the dipper", 0.354, 0.04),
    _share("dipper_cog_up", "centre of gravity above the dipper", 0.029, 0.02),
    _share("dipper_base_along", "dipper ram's base along the boom", 0.333, 0.02),
    _share("dipper_base_up", "dipper ram's base above the boom", 0.148, 0.015),
    _share("dipper_pin_back", "dipper ram's pin behind the knuckle", 0.286, 0.022),
    _share("dipper_pin_up", "dipper ram's pin above the dipper", 0.0745, 0.015),
    _turn("folded", "dipper to the boom, folded in", -143.8, 4.5),
    _turn("stretched", "dipper to the boom, stretched out", -15.4, 4.0),
    _sized("dipper_bore", "bore of the dipper ram", 0.115, 1.5, 0.05, **BORE),
    _share("dipper_rod", "rod to bore of the dipper ram", 0.545, 0.05),
    _share("bucket_base_along", "bucket ram's base along the dipper", 0.143, 0.012),
    _share("bucket_base_up", "bucket ram's base above the dipper", 0.171, 0.015),
    _share("bucket_rocker_before", "tipping lever's pivot before the nose pin", 0.189, 0.010),
    _share("bucket_rocker_up", "tipping lever's pivot above the dipper", 0.017, 0.008),
    _sized("bucket_lever", "tipping lever", 0.2286, 0.0, 0.03),
    _sized("bucket_link", "bucket link", 0.206, 0.0, 0.03),
    _share("bucket_pin_along", "link pin of the bucket ahead of its hinge", -0.046, 0.010),
    _sized("bucket_pin_up", "link pin of the bucket above its hinge", 0.1714, 0.0, 0.04),
    _turn("uncurled", "bucket to the dipper, uncurled", 30.0, 4.5),
    _turn("curled", "bucket to the dipper, curled", -117.0, 7.0),
    _sized("bucket_bore", "bore of the bucket ram", 0.095, 1.5, 0.06, **BORE),
    _share("bucket_rod", "rod to bore of the bucket ram", 0.58, 0.04),
    _sized("back_tools", "weight of the back tools to the usual", 1.0, 0.0, 0.15, **MASS),
)
PARAMETERS = (*WHOLE, *FRONT, *BOOM, *DIPPER)
COMMON = ("size", "heaviness", "strength")
"""What comes first among the variates: shared by many parameters."""


def parameters(kind: MachineKind) -> tuple[Parameter, ...]:
    """The parameters of machines of a kind: each has a variate, after those in common."""
    return tuple(each for each in PARAMETERS if each.only in {"", kind.mount, kind.boom_ram})


def variates(kind: MachineKind) -> int:
    """How many figures a machine of the kind is drawn from."""
    return len(COMMON) + len(parameters(kind))


def size_of(kind: MachineKind, latent: Real) -> Real:
    """Logarithm of the size of machines, ``latent`` standard deviations off that of the class."""
    return (math.log(kind.of.mass / STANDARD_MASS) + kind.of.spread * latent) / 3.0
