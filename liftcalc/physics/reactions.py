"""Reactions of the ground on a rigid machine, for one pose or many.

Supports stand where they stand; what presses on them, the wrench of all weights, may be arrays.
A support at a height is the pin of an axle whose wheels roll freely: it takes no force along the
machine.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from liftcalc.physics import formulas
from liftcalc.physics.functions import Real, is_zero, minimum
from liftcalc.physics.tipping import Line, Support
from liftcalc.physics.worked import Worked, work
from liftcalc.physics.wrench import Vector, WrenchFunctional

ROUNDING = 1e-9
"""Share of the weight by which rounding may make a support pull before the machine tips."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrench:
    """A force [N] and its moment about the origin of the machine frame [N.m], along x, y, z."""

    force: Vector
    moment: Vector

    def __add__(self, other: Wrench) -> Wrench:
        return Wrench(force=_sum(self.force, other.force), moment=_sum(self.moment, other.moment))

    def counted(self, form: WrenchFunctional) -> Real:
        """A number that is linear in the forces on the machine."""
        return sum(
            unit * part
            for unit, part in zip(
                (*form.force, *form.moment), (*self.force, *self.moment), strict=True
            )
        )


def _sum(one: Vector, two: Vector) -> Vector:
    return one[0] + two[0], one[1] + two[1], one[2] + two[2]


def wrench(*, mass: Real, x: Real, y: Real, z: Real, gravity: Vector) -> Wrench:
    """What a mass [kg] at a point [m] presses with, under an effective gravity [m/s²]."""
    f_x, f_y, f_z = force = (mass * gravity[0], mass * gravity[1], mass * gravity[2])
    return Wrench(force=force, moment=(y * f_z - z * f_y, z * f_x - x * f_z, x * f_y - y * f_x))


@dataclass(frozen=True, slots=True, kw_only=True)
class Reaction:
    """Force of the ground on the machine at a contact [N]."""

    contact: Support
    forward: Real
    left: Real
    up: Real
    worked: tuple[Worked, ...] = ()


def settle(contacts: Sequence[Support], *, wrench: Wrench) -> tuple[Reaction, ...]:
    """Forces of the ground on a machine that settles on its contacts as a rigid body.

    Supports are springs that push and do not pull. Their forces and the wrench add up to nothing,
    all six sums.

    Parameters
    ----------
    contacts : sequence of Support
        Three or more, not all on one line: all at height zero, or two at height zero with equal x
        and the pin of an oscillating axle.
    wrench : Wrench
        Of all weights, the load with them.

    Returns
    -------
    tuple of Reaction
        One for each contact, in order; NaN where the machine tips. Along the ground each holds in
        proportion to what it carries, and what turns the machine in plan is held so that it takes
        the least friction; a pin takes no force along the machine. How the ground really gives is
        not known: on four contacts or more see `bounds_on` for the most that one may carry.

    Raises
    ------
    ValueError
        When the contacts are none of these.
    """
    raised = [each for each in contacts if each.z != 0]
    if not raised:
        return _on_ground(contacts, wrench=wrench)
    back = [each for each in contacts if each.z == 0]
    if len(raised) != 1 or len(back) != 2 or back[0].x != back[1].x or back[0].y == back[1].y:
        raise ValueError(
            "supports: one may be a pin above the ground, with two others on the ground, side by "
            f"side; given {[(each.name, each.x, each.y, each.z) for each in contacts]}"
        )
    left, right = sorted(back, key=lambda each: -each.y)
    found = {each.contact: each for each in _under_pin(left, right, raised[0], wrench=wrench)}
    return tuple(found[each] for each in contacts)


def _under_pin(
    left: Support, right: Support, pin: Support, *, wrench: Wrench
) -> tuple[Reaction, Reaction, Reaction]:
    """Two contacts on the ground and a pin: springs do not matter."""
    # numpy's numbers, that do not raise where nothing is left to divide by.
    f_x, f_y, f_z, m_x, m_y, m_z = (np.float64(each) for each in (*wrench.force, *wrench.moment))
    with np.errstate(divide="ignore", invalid="ignore"):
        worked = work(
            "three supports",
            formulas.three_supports,
            force_x=f_x,
            force_y=f_y,
            force_z=f_z,
            moment_x=m_x,
            moment_y=m_y,
            moment_z=m_z,
            back_x=left.x,
            left_y=left.y,
            right_y=right.y,
            pin_x=pin.x,
            pin_height=pin.z,
        )
        got = worked.steps
        least = minimum(minimum(got.left_up, got.right_up), got.pin_up)
        # Without a positive factor no sharing of the force along the machine holds the roll.
        stands = (least >= ROUNDING * f_z) & (got.roll_factor > 0) & (got.back_up > 0)
        share = got.left_up / got.back_up

    def push(support: Support, up: Real, forward: Real, sideways: Real) -> Reaction:
        if np.ndim(up) == 0:
            f, s, u = (forward, sideways, max(up, 0.0)) if stands else 3 * (np.nan,)
        else:
            f, s, u = (np.where(stands, each, np.nan) for each in (forward, sideways, up))
            u = np.maximum(u, 0.0)
        return Reaction(contact=support, forward=f, left=s, up=u, worked=(worked,))

    return (
        push(left, got.left_up, -f_x * share, got.back_left * share),
        push(right, got.right_up, -f_x * (1 - share), got.back_left * (1 - share)),
        push(pin, got.pin_up, 0.0 * f_x, got.pin_left),
    )


def _on_ground(contacts: Sequence[Support], *, wrench: Wrench) -> tuple[Reaction, ...]:
    """Supports all on the ground."""
    (f_x, f_y, f_z), (m_x, m_y, m_z) = wrench.force, wrench.moment
    weight = np.array(np.broadcast_arrays(-f_z, m_y, -m_x), dtype=float)
    up = _springs(contacts, weight=weight)
    x, y = (
        np.array([getattr(each, axis) for each in contacts]).reshape(-1, *(1,) * np.ndim(weight[0]))
        for axis in "xy"
    )
    with np.errstate(divide="ignore", invalid="ignore"):
        share = up / weight[0]
        middle_x, middle_y = (share * x).sum(axis=0), (share * y).sum(axis=0)
        off_x, off_y = x - middle_x, y - middle_y
        # What is left to turn the machine in plan; none if all weights pull the same way.
        residue = m_z + middle_y * f_x - middle_x * f_y
        polar = (share * (off_x**2 + off_y**2)).sum(axis=0)
        twist = np.where(polar > ROUNDING, -residue / polar, 0.0)
        forward, left = share * (-f_x - twist * off_y), share * (-f_y + twist * off_x)
    return tuple(
        Reaction(contact=contact, forward=forward[i][()], left=left[i][()], up=up[i][()])
        for i, contact in enumerate(contacts)
    )


def _springs(contacts: Sequence[Support], *, weight: NDArray[Any]) -> NDArray[Any]:
    """Forces up, a row for each contact; NaN where the machine tips.

    ``weight`` has three rows: force down, and what the forces up must give times x and times y.
    With the contacts that bear known, the springs are linear. Of all sets of bearing contacts the
    right one is that whose forces all push while its other contacts have all lifted.
    """
    up = np.full((len(contacts), *weight.shape[1:]), np.nan)
    wrong = np.full(weight.shape[1:], np.inf)
    for bears, per_weight in _bearing_sets(tuple(contacts)):
        force = np.tensordot(per_weight, weight, 1)
        rows = bears.reshape(-1, *(1,) * (weight.ndim - 1))
        breach = np.where(rows, -force, force).max(axis=0)
        better = breach < wrong
        up = np.where(better, np.where(rows, np.maximum(force, 0.0), 0.0), up)
        wrong = np.where(better, breach, wrong)
    return np.where(wrong <= ROUNDING * weight[0], up, np.nan)


@lru_cache(maxsize=256)
def _bearing_sets(
    contacts: tuple[Support, ...],
) -> tuple[tuple[NDArray[np.bool_], NDArray[Any]], ...]:
    """Every set of supports that can bear alone, three or more, not on one line.

    With each set, the forces up for a unit of weight and of its moments: with the supports that
    bear known, the springs are linear.
    """
    places = np.array([[1.0, each.x, each.y] for each in contacts])
    springs = np.array([each.stiffness for each in contacts])
    found = []
    for count in range(len(places), 2, -1):
        for chosen in combinations(range(len(places)), count):
            if np.linalg.matrix_rank(places[list(chosen)]) == 3:
                bears = np.isin(np.arange(len(places)), chosen)
                stiff = places.T @ (places * np.where(bears, springs, 0.0)[:, np.newaxis])
                found.append((bears, springs[:, np.newaxis] * (places @ np.linalg.inv(stiff))))
    if not found:
        raise ValueError("supports: three or more are needed that are not on one line")
    return tuple(found)


def axle_tyres(pin: Reaction, *, track: float) -> Worked:
    """Forces up on the left and right tyre of an axle that oscillates under its pin [N].

    One below zero means that the axle turns against its stop, which is not credited. Exact for an
    axle without weight of its own: as that is low and in the middle, each tyre has half of it.
    """
    return work(
        "front tyres",
        formulas.axle_tyres,
        pin_up=pin.up,
        pin_left=pin.left,
        pin_height=pin.contact.z,
        front_track=track,
    )


class Bound(NamedTuple):
    """A line that the machine may tip over, across from a support, and so what bounds its force.

    ``moment`` is what presses on the support, about the line [N.m], and ``lever`` that of a unit
    force of the ground up at the support [m]: the support carries no more than one over the other.
    ``relief`` is that bound with its sign turned [N]: added to a limit, it is what is left of it.
    """

    line: Line
    lever: Real
    moment: WrenchFunctional
    relief: WrenchFunctional


def bounds_on(
    support: Support, *, lines: Sequence[Line], moments: Sequence[WrenchFunctional]
) -> tuple[tuple[Bound, ...], ...]:
    """What a support may carry at most, over all reactions in equilibrium.

    Parameters
    ----------
    support : Support
    lines, moments : sequences
        All tipping lines of the machine, and the moment about each.

    Returns
    -------
    tuple of tuple of Bound
        One or two ways of holding the force along the machine; in each the support carries at most
        the least of the bounds, and of the ways the worse counts. A second way is there at a back
        support of a machine whose front axle oscillates: there the support holds all the force
        along the machine, in the first none. No stiffness of ground or machine can give more;
        overstates wherever the ground shares the load more evenly.
    """
    none: list[Bound] = []
    all_of_it: list[Bound] = []
    holds_along = False
    at = {"x": support.x, "y": support.y, "z": support.z}
    for line, moment in zip(lines, moments, strict=True):
        lever = moment.unit(**at, gravity=(0.0, 0.0, -1.0))
        if np.all(lever < ROUNDING):  # a line through the support, or under its pin
            continue
        none.append(_bound(line, lever, moment))
        # The ground's answer to a unit of force forward, at the support; wheels at a pin roll.
        along = moment.unit(**at, gravity=(-1.0, 0.0, 0.0)) if is_zero(support.z) else 0.0
        holds_along = holds_along or not is_zero(along)
        pressed = moment.plus(WrenchFunctional(force=(along, 0.0, 0.0)))
        all_of_it.append(_bound(line, lever, pressed))
    return (tuple(none), tuple(all_of_it)) if holds_along else (tuple(none),)


def _bound(line: Line, lever: Real, moment: WrenchFunctional) -> Bound:
    return Bound(line, lever, moment, WrenchFunctional().plus(moment, -1.0 / lever))
