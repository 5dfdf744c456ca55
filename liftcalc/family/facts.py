"""What a person can know of a machine: one table of facts, in the order in which they pay."""

from __future__ import annotations

from collections.abc import Iterable

from liftcalc.errors import InputError, did_you_mean
from liftcalc.family import doing
from liftcalc.family.fact import (
    WEIGHBRIDGE,
    Fact,
    Told,
    Trouble,
    balanced,
    boom_gauge,
    bore_of,
    figure,
    front_axle,
    hung,
    lift_gauge,
    on_scales,
    pin_to_pin,
    printed,
    rated,
    rod_of,
    stalled,
    stroke_end,
    taped,
)
from liftcalc.family.points import RAMS

GAUGE = "a gauge of the usual class, and friction of the pins"


def _rating(end: str) -> Fact:
    return figure(
        f"{end}_axle_rating",
        f"rating of the {end} axle or its two tyres, the smaller",
        "mass",
        lambda m: getattr(m.wheels, f"{end}_axle_rating"),
        share=0.005,
        reason="as stamped",
        trouble="papers",
    )


_PLATE = (
    figure(
        "total",
        "weight of the whole machine, of plate or papers",
        "mass",
        lambda m: m.weights.total,
        share=0.03,
        reason="of a plate: another bucket, another cab",
        trouble="papers",
    ),
    rated("back"),
    rated("front"),
    figure(
        "working_pressure",
        "working pressure of the main relief valve",
        "pressure",
        lambda m: m.hydraulics.working_pressure,
        share=0.05,
        reason="set by somebody since",
        trouble="papers",
    ),
    _rating("front"),
    _rating("rear"),
    bore_of("boom ram"),
    bore_of("dipper ram"),
    bore_of("lift ram"),
    bore_of("bucket ram"),
    bore_of("tilt ram"),
)
_BROCHURE = (
    printed("dig_depth", "greatest digging depth", "length", doing.dig_depth, 0.025),
    printed(
        "reach_on_ground",
        "reach on the ground, from the slew axis",
        "length",
        doing.reach_on_ground,
        0.02,
    ),
    printed(
        "nose_height",
        "highest nose pin, boom up and dipper stretched",
        "length",
        doing.highest_nose,
        0.025,
    ),
    printed(
        "hinge_height", "height of the front hinge pin, arms up", "length", doing.hinge_height, 0.01
    ),
    printed(
        "loader_lift",
        "what the loader lifts to full height, at the hinge pin",
        "mass",
        doing.loader_lift,
        0.10,
    ),
    printed(
        "dipper_lift",
        "what the dipper's end lifts at full reach, no bucket",
        "mass",
        doing.lift_at_full_reach,
        0.10,
    ),
    printed("bucket_force", "breakout force of the bucket", "force", doing.bucket_force, 0.10),
    printed("dipper_force", "breakout force of the dipper", "force", doing.dipper_force, 0.10),
)
_TAPED = (
    taped("wheelbase", "wheelbase, hub to hub along the ground", lambda m: m.wheels.wheelbase),
    taped("pad_spread", "across the pads, middle to middle", lambda m: m.stabilisers.pad_spread),
    taped("pads_behind", "pads behind the rear hub, along the ground", lambda m: -m.stabilisers.x),
    taped(
        "slew_axis_behind",
        "slew axis behind the rear hub, along the ground",
        lambda m: -m.back.slew_axis_x,
    ),
    taped("rear_track", "rear wheels, middle to middle", lambda m: m.wheels.rear_track),
    taped("front_track", "front wheels, middle to middle", lambda m: m.wheels.front_track),
    taped("rear_hub", "height of the rear hub", lambda m: m.wheels.rear_radius, "rear hub"),
    taped("front_hub", "height of the front hub", lambda m: m.wheels.front_radius, "front hub"),
    taped(
        "axle_pin_height",
        "height of the pin that the front axle swings on",
        lambda m: m.wheels.axle_pin_height,
    ),
    taped("pad_length", "length of a pad", lambda m: m.stabilisers.pad_length),
    taped("pad_width", "width of a pad", lambda m: m.stabilisers.pad_width),
    taped("sideshift", "sideshift, middle to one side", lambda m: m.back.sideshift_limit),
    taped("foot_pin_height", "height of the foot pin", lambda m: m.back.foot_pin[1], "foot pin"),
    taped(
        "foot_pin_out", "foot pin behind the slew axis", lambda m: m.back.foot_pin[0], "foot pin"
    ),
    taped(
        "boom_ram_base_height",
        "height of the boom ram's pin on the kingpost",
        lambda m: m.back.boom_ram.base[1],
        "boom ram base",
    ),
    taped(
        "arm_pivot_height",
        "height of the loader pivot",
        lambda m: m.front.arm_pivot[1],
        "arm pivot",
    ),
    taped(
        "arm_pivot_ahead",
        "loader pivot ahead of the rear hub, along the ground",
        lambda m: m.front.arm_pivot[0],
        "rear hub",
        "arm pivot",
    ),
    taped(
        "lift_ram_base_height",
        "height of the lift ram's pin on the chassis",
        lambda m: m.front.lift_ram.base[1],
        "lift ram base",
    ),
)
_PIN_TO_PIN = (
    pin_to_pin("boom_length", "foot pin on the boom", "knuckle"),
    pin_to_pin("dipper_length", "knuckle on the dipper", "nose pin"),
    pin_to_pin("arm_length", "arm pivot on the arm", "hinge pin"),
    pin_to_pin("foot_to_boom_ram_base", "foot pin", "boom ram base"),
    pin_to_pin("foot_to_boom_ram_pin", "foot pin on the boom", "boom ram pin"),
    pin_to_pin("knuckle_to_boom_ram_pin", "knuckle", "boom ram pin"),
    pin_to_pin("knuckle_to_dipper_ram_base", "knuckle", "dipper ram base"),
    pin_to_pin("foot_to_dipper_ram_base", "foot pin on the boom", "dipper ram base"),
    pin_to_pin("knuckle_to_dipper_ram_pin", "knuckle on the dipper", "dipper ram pin"),
    pin_to_pin("nose_to_dipper_ram_pin", "nose pin", "dipper ram pin"),
    pin_to_pin("pivot_to_lift_ram_base", "arm pivot", "lift ram base"),
    pin_to_pin("pivot_to_lift_ram_pin", "arm pivot on the arm", "lift ram pin"),
    pin_to_pin("hinge_to_lift_ram_pin", "hinge pin", "lift ram pin"),
    pin_to_pin("nose_to_lever_pivot", "nose pin", "lever pivot"),
    pin_to_pin("nose_to_bucket_ram_base", "nose pin", "bucket ram base"),
    pin_to_pin("hinge_to_bell_crank", "hinge pin", "bell-crank pivot"),
    pin_to_pin("hinge_to_tilt_ram_base", "hinge pin", "tilt ram base"),
    *(stroke_end(name, "closed") for name in RAMS),
    *(stroke_end(name, "open") for name in RAMS),
    *(rod_of(name) for name in RAMS),
)
_WEIGHED = (
    on_scales(
        "total_weighed",
        "whole machine on the weighbridge, as it travels",
        lambda m: m.weights.total,
    ),
    on_scales(
        "front_axle", "front axle on the weighbridge, as it travels", lambda m: m.weights.front_axle
    ),
    on_scales(
        "rear_axle", "rear axle on the weighbridge, as it travels", lambda m: m.weights.rear_axle
    ),
    hung(
        "front_axle_stretched",
        "front axle on the weighbridge, the bare back end stretched straight out",
        front_axle,
        tolerance=WEIGHBRIDGE,
        share=0.005,
        reason="one step of a weighbridge, the hook's place taped",
        trouble="weighbridge",
    ),
)
_TRIED = (
    figure(
        "relief_gauge",
        "pressure on the gauge with a ram held at the end of its stroke",
        "pressure",
        lambda m: m.hydraulics.working_pressure,
        share=0.03,
        reason="a gauge of the usual class",
        trouble="trial",
    ),
    stalled("back"),
    balanced("back"),
    stalled("front"),
    balanced("front"),
    hung(
        "boom_gauge",
        "pressure in the boom ram as it holds a known weight on the back hook",
        boom_gauge,
        unit="pressure",
        asks=("reach", "height", "load"),
        share=0.035,
        reason=GAUGE,
    ),
    hung(
        "lift_gauge",
        "pressure in the lift rams as they hold a known weight on the front hook",
        lift_gauge,
        unit="pressure",
        asks=("height", "load"),
        share=0.035,
        reason=GAUGE,
    ),
)
FACTS: dict[str, Fact] = {
    each.key: each
    for each in (*_PLATE, *_BROCHURE, *_WEIGHED[:3], *_TAPED, *_TRIED, *_WEIGHED[3:], *_PIN_TO_PIN)
}
"""All facts by their keys, in the order in which they pay for their trouble: judgement."""

GROUPS: dict[Trouble, str] = {
    "papers": "From plate and papers",
    "weighbridge": "On a weighbridge",
    "tape": "With a tape",
    "trial": "Tried in the yard",
    "pins": "With a tape, from pin to pin",
}
"""What facts take to find out, in words, in the order in which they first pay."""


def fact(key: str) -> Fact:
    """A fact by its key; raises ``InputError`` for an unknown one."""
    found = FACTS.get(key)
    if found is None:
        raise InputError.of(
            field="fact",
            given=f'"{key}"',
            wanted="a fact that can be told of a machine",
            fix=did_you_mean(key, FACTS, most=2) or "'liftcalc machine facts' lists them",
        )
    return found


def complete(told: Iterable[Told]) -> tuple[Told, ...]:
    """Facts as told; raises ``InputError`` with every one that lacks what it asks for."""
    told = tuple(told)
    lacking = [
        (each.key, name)
        for each in told
        for name in fact(each.key).asks
        if getattr(each, name) is None
    ]
    if lacking:
        raise InputError(
            [
                InputError.of(
                    field=name, given="nothing", wanted=f"the {name} of {key}", fix="tell it too"
                ).faults[0]
                for key, name in lacking
            ]
        )
    return told
