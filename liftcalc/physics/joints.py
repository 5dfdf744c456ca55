"""What a joint's ram can carry, and where its stroke lets the link stand."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from liftcalc.physics import formulas
from liftcalc.physics.functions import Real, atan2, cos, hypot, is_zero, minimum, sin
from liftcalc.physics.plane import ORIGIN, Point, crossing, direction, distance, place, side_of
from liftcalc.physics.worked import Worked, work
from liftcalc.physics.wrench import LEAST, leaned


def weight_moment(
    *, mass: Real, first: Point, pivot: Point, gravity_u: Real, gravity_w: Real
) -> Real:
    """Moment of weights about a joint, positive turning up [N.m].

    Parameters
    ----------
    mass : float or array
        Of all of them [kg].
    first : Point
        Their first moments, the sum of mass times place [kg.m].
    pivot : Point
        The joint [m].
    gravity_u, gravity_w : float or array
        Effective gravity in the plane of the end [m/s2].

    Returns
    -------
    float or array
        (Σmu − Σm·c_u)·g_w − (Σmw − Σm·c_w)·g_u. Exact; what acts square to the plane does not
        load the ram.
    """
    moment = (first.u - mass * pivot.u) * gravity_w
    if gravity_u.__class__ is float and gravity_u == 0:
        return moment  # on level ground heights do not count
    return moment - (first.w - mass * pivot.w) * gravity_u


def moment_per_kilogram(*, at: Point, pivot: Point, gravity_u: Real, gravity_w: Real) -> Real:
    """Moment about a joint of one kilogram at a place [m], positive turning up [N.m/kg]."""
    return weight_moment(mass=1.0, first=at, pivot=pivot, gravity_u=gravity_u, gravity_w=gravity_w)


def swung_moments(
    *, at: Point, pivot: Point, gravity_u: Real, gravity_w: Real, swing: Real
) -> tuple[Real, Real]:
    """Least and greatest moment about a joint of one kilogram that may swing [N.m/kg].

    Parameters
    ----------
    at, pivot : Point
        Where the load hangs, and the joint [m].
    gravity_u, gravity_w : float or array
        Effective gravity in the plane of the end [m/s2].
    swing : float or array
        Greatest lean of the load's weight in the plane, either way [rad].

    Returns
    -------
    tuple of float or array
        Over every lean up to the greatest, so that more swing never helps. Exact in the plane.
    """
    still = moment_per_kilogram(at=at, pivot=pivot, gravity_u=gravity_u, gravity_w=gravity_w)
    if is_zero(swing):
        return still, still
    square = abs(moment_per_kilogram(at=at, pivot=pivot, gravity_u=-gravity_w, gravity_w=gravity_u))
    most = hypot(still, square)
    low = leaned(still=still, square=square, most=most, swing=swing)
    return low, -leaned(still=-still, square=square, most=most, swing=swing)


def stall(
    *, push: Real, pull: Real, moment_arm: Real, links_moment: Real, joint_unit_moment: Real
) -> tuple[Real, Worked]:
    """Greatest load a joint can carry, from zero upward [kg], and how it was found.

    Parameters
    ----------
    push, pull : float or array
        Greatest push and pull of the rams at the joint [N].
    moment_arm : float or array
        dℓ/dθ of the ram [m].
    links_moment : float or array
        Moment of the links' weight about the joint, positive turning up [N.m].
    joint_unit_moment : float or array
        Moment about the joint of one kilogram of load [N.m/kg].

    Returns
    -------
    float or array, Worked
        Zero where the ram cannot hold even the empty links, in either direction; infinity where
        the load passes through the joint; NaN where the pose is unreachable. Pin friction is not
        credited. A stiff joint would hold more and lift less: the source of error has either sign.
    """
    single = joint_unit_moment.__class__ is float and moment_arm.__class__ is float
    with np.errstate(divide="ignore", invalid="ignore"):
        worked = work(
            "load that the joint can carry",
            formulas.joint_load,
            push=push,
            pull=pull,
            moment_arm=moment_arm,
            links_moment=links_moment,
            # The least moment there is stands for none: the load is then endless.
            joint_unit_moment=(joint_unit_moment or LEAST) if single else joint_unit_moment,
        )
    steps = worked.steps
    if single:
        falls = steps.upward_left <= 0 or steps.downward_left <= 0
        return (0.0 * joint_unit_moment + 0.0 if falls else steps.joint_load), worked
    if np.min(steps.upward_left) > 0 and np.min(steps.downward_left) > 0:
        return steps.joint_load, worked
    falls = minimum(steps.upward_left, steps.downward_left) <= 0
    # Nothing, yet NaN where the pose is unreachable: hence the difference and not a plain zero.
    nothing = joint_unit_moment - joint_unit_moment
    return np.where(falls, nothing, steps.joint_load)[()], worked


def link_angle(
    *, ram_length: Real, pivot: Point, base_pin: Point, rod_pin: Point, side: float
) -> Real:
    """Angle of a link driven by a ram of this length [rad]; NaN where it cannot close.

    Parameters
    ----------
    ram_length : float or array
        Pin to pin [m].
    pivot, base_pin : Point
        Joint and ram base, both in the frame the angle is measured in [m].
    rod_pin : Point
        Pin of the rod in the link's own frame, origin at the joint [m].
    side : float
        +1 when the link turns up as the ram lengthens, −1 when it turns down [-].
    """
    pin = crossing(
        first=pivot,
        first_radius=distance(start=ORIGIN, end=rod_pin),
        second=base_pin,
        second_radius=ram_length,
        side=side,
    )
    turned = direction(start=pivot, end=pin) - direction(start=ORIGIN, end=rod_pin)
    return atan2(sin(turned), cos(turned))


class Tilt(NamedTuple):
    """The attachment's four-bar as it stands; points in the frame of the link it hangs on [m]."""

    ram_length: Real
    angle: Real
    ram_pin: Point
    rocker_pin: Point
    link_pin: Point
    moment_arm: Real
    worked: tuple[Worked, ...] = ()


class FourBar(NamedTuple):
    """Fixed sizes of the attachment's four-bar, in the frame of the link that carries it [m].

    The ram pushes the rocker at ``ram_radius``; the rocker's other pin, at ``pin_radius`` and
    ``pin_turn`` [rad] further round, pulls a link of ``link_length`` to the attachment's own pin
    ``link_pin`` (in the attachment's frame, origin at ``pivot``). ``ram_side`` is +1 when the
    rocker turns up (anticlockwise) as the ram lengthens; ``link_side`` is +1 when the
    attachment's pin lies left of the line from rocker pin to pivot.
    """

    ram_base: Point
    rocker_pivot: Point
    ram_radius: float
    pin_radius: float
    pin_turn: float
    link_length: float
    pivot: Point
    link_pin: Point
    ram_side: float
    link_side: float


def _tilt(bar: FourBar, ram_pin: Point, rocker_pin: Point, link_pin: Point) -> Tilt:
    with np.errstate(invalid="ignore", divide="ignore"):
        ram = work(
            "ram on its rocker",
            formulas.ram_geometry,
            pivot_u=bar.rocker_pivot.u,
            pivot_w=bar.rocker_pivot.w,
            base_pin_u=bar.ram_base.u,
            base_pin_w=bar.ram_base.w,
            rod_pin_u=ram_pin.u,
            rod_pin_w=ram_pin.w,
        )
        ratio = work(
            "four-bar",
            formulas.four_bar_ratio,
            pivot_u=bar.pivot.u,
            pivot_w=bar.pivot.w,
            crank_pivot_u=bar.rocker_pivot.u,
            crank_pivot_w=bar.rocker_pivot.w,
            crank_pin_u=rocker_pin.u,
            crank_pin_w=rocker_pin.w,
            link_pin_u=link_pin.u,
            link_pin_w=link_pin.w,
        )
    angle = direction(start=bar.pivot, end=link_pin) - direction(start=ORIGIN, end=bar.link_pin)
    return Tilt(
        ram_length=ram.steps.ram_length,
        angle=atan2(sin(angle), cos(angle)),
        ram_pin=ram_pin,
        rocker_pin=rocker_pin,
        link_pin=link_pin,
        moment_arm=ram.steps.moment_arm * ratio.steps.velocity_ratio,
        worked=(ram, ratio),
    )


def tilt_from_ram(bar: FourBar, *, ram_length: Real) -> Tilt:
    """The four-bar at a ram length [m]; NaN where it cannot close. Exact for rigid links."""
    ram_pin = crossing(
        first=bar.rocker_pivot,
        first_radius=bar.ram_radius,
        second=bar.ram_base,
        second_radius=ram_length,
        side=bar.ram_side,
    )
    turn = direction(start=bar.rocker_pivot, end=ram_pin) + bar.pin_turn
    rocker_pin = place(origin=bar.rocker_pivot, angle=turn, at=Point(bar.pin_radius, 0.0))
    link_pin = crossing(
        first=rocker_pin,
        first_radius=bar.link_length,
        second=bar.pivot,
        second_radius=distance(start=ORIGIN, end=bar.link_pin),
        side=bar.link_side,
    )
    return _tilt(bar, ram_pin, rocker_pin, link_pin)


def tilt_from_angle(bar: FourBar, *, angle: Real) -> Tilt:
    """The four-bar with its attachment at an angle to the link that carries it [rad].

    Of the two ways the rocker could close, the one on the assembled side is taken; NaN where the
    linkage cannot reach the angle.
    """
    link_pin = place(origin=bar.pivot, angle=angle, at=bar.link_pin)
    best: Tilt | None = None
    for side in (1.0, -1.0):
        rocker_pin = crossing(
            first=bar.rocker_pivot,
            first_radius=bar.pin_radius,
            second=link_pin,
            second_radius=bar.link_length,
            side=side,
        )
        turn = direction(start=bar.rocker_pivot, end=rocker_pin) - bar.pin_turn
        ram_pin = place(origin=bar.rocker_pivot, angle=turn, at=Point(bar.ram_radius, 0.0))
        right = (side_of(point=link_pin, start=rocker_pin, end=bar.pivot) == bar.link_side) & (
            side_of(point=ram_pin, start=bar.rocker_pivot, end=bar.ram_base) == bar.ram_side
        )
        found = _tilt(bar, ram_pin, rocker_pin, link_pin)
        if found.ram_length.__class__ is float:
            if right:
                return found
            continue
        masked = _where(right, found, NOWHERE)
        best = masked if best is None else _where(~np.isnan(best.ram_length), best, masked)
    return best or NOWHERE


NOWHERE = Tilt(math.nan, math.nan, *3 * (Point(math.nan, math.nan),), math.nan)
"""A four-bar that cannot close."""


def _where(keep: Real, one: Tilt, other: Tilt) -> Tilt:
    """Field by field, ``one`` where ``keep``, else the other."""

    def pick(mine: Real, theirs: Real) -> Real:
        picked: Real = np.where(keep, mine, theirs)
        return picked[()]

    return Tilt(
        *(
            Point(pick(mine.u, theirs.u), pick(mine.w, theirs.w))
            if isinstance(mine, Point)
            else pick(mine, theirs)
            for mine, theirs in zip(one[:-1], other[:-1], strict=True)
        )
    )
