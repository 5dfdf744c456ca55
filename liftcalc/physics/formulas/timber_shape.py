"""Volume and balance point of a log."""

from __future__ import annotations

from collections import namedtuple

from liftcalc.physics.formula import formula, step
from liftcalc.physics.functions import Real, circle_area

NewtonVolume = namedtuple("NewtonVolume", "butt_area middle_area top_area volume")
TwoEndVolume = namedtuple("TwoEndVolume", "butt_area top_area volume")
MiddleVolume = namedtuple("MiddleVolume", "middle_area volume")
BalancePoint = namedtuple("BalancePoint", "butt_area middle_area top_area balance_from_butt")
TwoEndBalancePoint = namedtuple(
    "TwoEndBalancePoint", "middle_diameter butt_area middle_area top_area balance_from_butt"
)
MiddleBalancePoint = namedtuple("MiddleBalancePoint", "balance_from_butt")
RootPlateBalance = namedtuple("RootPlateBalance", "balance_with_plate")


def _butt(diameter: Real) -> Real:
    return step(circle_area(diameter), "section at the butt, taken as a circle")


def _middle(diameter: Real) -> Real:
    return step(circle_area(diameter), "section at mid length")


def _top(diameter: Real) -> Real:
    return step(circle_area(diameter), "section at the top end")


@formula(
    source="Newton's (prismoidal) rule, any text on forest measurement",
    error="exact for cylinder, cone, paraboloid and neiloid; of either sign on an uneven stem",
)
def newton_volume(
    *, butt_diameter: Real, middle_diameter: Real, top_diameter: Real, log_length: Real
) -> NewtonVolume:
    """Volume of a log from three diameters."""
    butt, middle, top = _butt(butt_diameter), _middle(middle_diameter), _top(top_diameter)
    volume = step(
        log_length * (butt + 4 * middle + top) / 6,
        "Newton's rule: exact where the section varies as a cubic of the length or less",
    )
    return NewtonVolume(butt, middle, top, volume)


@formula(
    source="Smalian's rule, any text on forest measurement",
    error="exact for a paraboloid; overstates a cone by π·L·(d_0 − d_1)²/24 and a neiloid (flared "
    "butt) by more; understates only a log that bulges beyond a paraboloid between its ends",
)
def two_end_volume(*, butt_diameter: Real, top_diameter: Real, log_length: Real) -> TwoEndVolume:
    """Volume of a log from its two ends."""
    butt, top = _butt(butt_diameter), _top(top_diameter)
    volume = step(
        log_length * (butt + top) / 2,
        "Smalian's rule: the mean of the end sections along the whole length",
    )
    return TwoEndVolume(butt, top, volume)


@formula(
    source="Huber's rule, any text on forest measurement",
    error="exact for a paraboloid; understates a cone by π·L·(d_0 − d_1)²/48 and a flared butt by "
    "more, so a spread of its own must go with it",
)
def middle_volume(*, middle_diameter: Real, log_length: Real) -> MiddleVolume:
    """Volume of a log from its middle."""
    middle = _middle(middle_diameter)
    volume = step(log_length * middle, "Huber's rule: the middle section along the whole length")
    return MiddleVolume(middle, volume)


@formula(
    source="first moment of area by Simpson's rule",
    error="exact for cylinder, paraboloid and cone of even density; puts the balance point of a "
    "neiloid too near the butt, by 0.033 of the length for one that runs to a point and by less "
    "when cut short; wetter sapwood or a denser butt is not counted",
)
def balance_point(
    *, butt_diameter: Real, middle_diameter: Real, top_diameter: Real, log_length: Real
) -> BalancePoint:
    """Balance point of a log from three diameters."""
    butt, middle, top = _butt(butt_diameter), _middle(middle_diameter), _top(top_diameter)
    balance = step(
        log_length * (2 * middle + top) / (butt + 4 * middle + top),
        "Simpson's rule on the first moment of the section, over the volume",
    )
    return BalancePoint(butt, middle, top, balance)


@formula(
    source="first moment of a cone frustum",
    error="exact for a cone frustum of even density; a flared butt balances nearer the butt, a log "
    "that bulges in the middle nearer its middle",
)
def two_end_balance_point(
    *, butt_diameter: Real, top_diameter: Real, log_length: Real
) -> TwoEndBalancePoint:
    """Balance point of a log from its two ends."""
    middle_diameter = step((butt_diameter + top_diameter) / 2, "straight taper between the ends")
    found = balance_point(
        butt_diameter=butt_diameter,
        middle_diameter=middle_diameter,
        top_diameter=top_diameter,
        log_length=log_length,
    )
    return TwoEndBalancePoint(middle_diameter, *found)


@formula(source="symmetry of a cylinder", error="too far from the butt for every log that tapers")
def middle_balance_point(*, log_length: Real) -> MiddleBalancePoint:
    """Balance point of a log from its middle alone."""
    return MiddleBalancePoint(step(log_length / 2, "without taper the log balances at mid length"))


@formula(
    source="statics",
    error="too far from the butt: the plate's own centre lies beyond the butt face",
)
def root_plate_balance(
    *, trunk_mass: Real, balance_from_butt: Real, root_plate_mass: Real
) -> RootPlateBalance:
    """Balance point of a log with its root plate."""
    balance_with_plate = step(
        trunk_mass * balance_from_butt / (trunk_mass + root_plate_mass),
        "moments about the butt, the plate taken at the butt face",
    )
    return RootPlateBalance(balance_with_plate)
