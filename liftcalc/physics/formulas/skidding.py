"""Logs of which one end is lifted, or that are drawn over the ground; the grip of jaws."""

from __future__ import annotations

from collections import namedtuple

from liftcalc.physics.formula import formula, step
from liftcalc.physics.functions import Real, atan2, cos, sin, sqrt, tan
from liftcalc.units import G0

OneEndLifted = namedtuple("OneEndLifted", "hook_share hook_mass")
TrailedLog = namedtuple("TrailedLog", "resting_share up_share along_share")
HookPull = namedtuple("HookPull", "pull_share pull_lean")
JawHold = namedtuple("JawHold", "grip_hold")
JawLoad = namedtuple("JawLoad", "grip_hold held_load")

FRICTION = "no edge or tooth is credited; overstates where jaws press on a knot or on loose bark"


@formula(
    source="statics",
    error="exact for a thin log; thickness moves it either way by about radius over length as the "
    "log rises; no breakout factor is standard",
)
def one_end_lifted(
    *,
    log_mass: Real,
    balance_from_ground_end: Real,
    hook_from_ground_end: Real,
    breakout_factor: Real,
) -> OneEndLifted:
    """What the hook carries when one end is lifted."""
    hook_share = step(
        balance_from_ground_end / hook_from_ground_end,
        "moments about the end on the ground; the angle of the log cancels",
    )
    hook_mass = step(log_mass * hook_share * breakout_factor, "and what frees it from its bed")
    return OneEndLifted(hook_share, hook_mass)


@formula(
    source="statics of a body on two points; Coulomb friction",
    error="exact for a thin log at a steady speed; ground that is ploughed up adds to the friction",
)
def trailed_log(
    *, hook_share: Real, drag_friction: Real, slope: Real, rise_angle: Real
) -> TrailedLog:
    """Pull on the hook of a log drawn uphill over the ground."""
    resting_share = step(
        (1 - hook_share)
        * (cos(slope) - tan(rise_angle) * sin(slope))
        / (1 + drag_friction * tan(rise_angle)),
        "moments about the hook; the drag lifts what lies below a raised hook",
    )
    up_share = step(cos(slope) - resting_share, "the hook carries what the ground does not")
    along_share = step(
        drag_friction * resting_share + sin(slope),
        "friction of what rests, and what the slope asks",
    )
    return TrailedLog(resting_share, up_share, along_share)


@formula(source="statics", error="exact for the parts given")
def hook_pull(*, up_share: Real, along_share: Real) -> HookPull:
    """Size and lean of the pull on the hook."""
    pull_share = step(sqrt(up_share**2 + along_share**2), "both parts together")
    pull_lean = step(atan2(along_share, up_share), "its direction")
    return HookPull(pull_share, pull_lean)


@formula(source="Coulomb friction", error=FRICTION)
def jaw_hold(*, jaw_force: Real, jaw_friction: Real) -> JawHold:
    """What friction between two jaws holds."""
    grip_hold = step(
        2 * jaw_friction * jaw_force, "two sides press, each holds its force times the friction"
    )
    return JawHold(grip_hold)


@formula(source="Coulomb friction; standard gravity, CGPM 1901", error=FRICTION)
def jaw_load(
    *, jaw_force: Real, jaw_friction: Real, grip_safety: Real, gripped_share: Real
) -> JawLoad:
    """Log that the grip of two jaws may hold."""
    (grip_hold,) = jaw_hold(jaw_force=jaw_force, jaw_friction=jaw_friction)
    held_load = step(
        grip_hold / (grip_safety * G0 * gripped_share),
        "a reserve for what shakes, and only the weight that lies on the grip",
    )
    return JawLoad(grip_hold, held_load)
