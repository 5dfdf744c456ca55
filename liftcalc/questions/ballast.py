"""How much ballast would let this lift pass, and where?"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

from liftcalc.errors import InputError
from liftcalc.evaluation.answer import CriterionKind
from liftcalc.evaluation.lift import Lift
from liftcalc.machines.number import Number
from liftcalc.machines.schema import Carried, Machine
from liftcalc.questions.search import Detail, InverseAnswer, Outcome, last_before_failure, tried
from liftcalc.remarks import Remark, down, near, up

STEP = 10.0
"""Ballast is tried in steps of this mass [kg]."""
MOST_SHARE = 0.25
"""Most ballast that is tried, as a share of the machine's mass [-]; common practice, no source."""
BY_WEIGHT: tuple[CriterionKind, ...] = (
    "tipping",
    "grip",
    "least axle load",
    "traction",
    "lowering",
    "over an obstacle",
)
"""Criteria that weight in the right place can mend."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place for ballast in the machine frame: ahead of the rear axle, to the left, up [m]."""

    name: str
    x: float
    y: float
    z: float


def usual_spots(machine: Machine) -> tuple[Spot, ...]:
    """Where ballast is commonly bolted on or hung; common practice, no source.

    Ahead of the front axle, at either side between the axles, and behind the rear axle. Whether
    this machine has anything there to carry it is not known.
    """
    wheels = machine.wheels
    side = float(wheels.rear_track) / 2
    middle, low = float(wheels.wheelbase) / 2, float(wheels.rear_radius)
    return (
        Spot(
            name="on a frame ahead of the front axle",
            x=float(wheels.wheelbase + wheels.front_radius),
            y=0.0,
            z=low,
        ),
        Spot(name="at the left side between the axles", x=middle, y=side, z=low),
        Spot(name="at the right side between the axles", x=middle, y=-side, z=low),
        Spot(name="behind the rear axle", x=float(machine.stabilisers.x) / 2, y=0.0, z=low),
    )


def with_ballast(lift: Lift, *, mass: float, spot: Spot) -> Lift:
    """The same lift with this much more on the machine [kg]; the weighbridge did not see it."""

    def number(value: float, text: str) -> Number:
        return Number(value, kind="assumed", source="ballast that was asked about", text=text)

    at = tuple(number(each, f"{each:.2f} m") for each in (spot.x, spot.y, spot.z))
    lump = Carried(
        name=f"ballast {spot.name}", mass=number(mass, f"{mass:.0f} kg"), at=at, weighed=False
    )
    machine = lift.machine.model_copy(update={"carried": (*lift.machine.carried, lump)})
    return replace(lift, machine=machine)


def needed_ballast(lift: Lift, *, spots: tuple[Spot, ...] | None = None) -> InverseAnswer:
    """Least ballast with which a lift passes, at the best of some places.

    Parameters
    ----------
    lift : Lift
    spots : tuple of Spot or None
        Where it may go; None takes ``usual_spots``.

    Returns
    -------
    InverseAnswer
        Mass [kg], rounded up to 10 kg, zero where none is needed. None where a ram, a rating, the
        ground, a distance or the plate stops the lift, which no ballast moves, or where a quarter
        of the machine's mass is not enough. The frame that carries it is not in it.

    Raises
    ------
    InputError
        When the machine cannot stand so.
    """
    base = tried(lift)
    if base.answer is None:
        raise InputError(base.faults)
    answer = partial(InverseAnswer, question=Remark("ballast"), kind="mass", rounding="up", at=base)
    if base.passes:
        stops, notes = Remark("passes_as_is"), (Remark("no_ballast"),)
        return answer(value=0.0, stopped_by=stops, notes=notes)
    fixed = [
        each.title
        for each in base.answer.criteria
        if each.kind not in BY_WEIGHT and not each.utilisation <= 1
    ]
    if fixed:
        notes = (Remark("no_ballast_helps", by=tuple(fixed)),)
        return answer(value=None, stopped_by=fixed[0], notes=notes)
    found = [
        (least, spot)
        for spot in (usual_spots(lift.machine) if spots is None else spots)
        if (least := _least(lift, spot)) is not None
    ]
    if not found:
        most = MOST_SHARE * lift.machine.weights.total
        notes = (Remark("not_even_ballast", most=down(most, "mass")),)
        return answer(value=None, stopped_by=base.stopped_by, notes=notes)
    mass, spot = min(found, key=lambda each: each[0])
    less = mass - STEP
    beyond = tried(with_ballast(lift, mass=less, spot=spot)) if less > 0 else base
    return answer(
        value=mass,
        stopped_by=beyond.stopped_by,
        at=tried(with_ballast(lift, mass=mass, spot=spot)),
        beyond=beyond,
        beyond_value=less,
        details=_place(spot),
        notes=_notes(spot, [each for each in found if each[1] is not spot]),
    )


def _notes(spot: Spot, others: list[tuple[float, Spot]]) -> tuple[Remark, ...]:
    return (
        Remark("put_ballast", spot=spot.name),
        Remark("frame_unknown"),
        *(
            Remark("ballast_elsewhere", mass=up(mass, "mass"), spot=elsewhere.name)
            for mass, elsewhere in others
        ),
    )


def _place(spot: Spot) -> tuple[Detail, ...]:
    return (
        Detail(name=Remark("ahead_of_rear_axle"), figure=near(spot.x, "length")),
        Detail(name=Remark("left_of_middle"), figure=near(spot.y, "length")),
        Detail(name=Remark("above_ground"), figure=near(spot.z, "length")),
    )


def _least(lift: Lift, spot: Spot) -> float | None:
    """Least ballast there that makes the lift pass [kg], or None.

    Ballast that helps one line may unload another: it is added from nothing upward, and the search
    stops at the first that passes.
    """

    def loaded(step: int) -> Outcome:
        return tried(with_ballast(lift, mass=STEP * step, spot=spot))

    if not _helps(tried(lift), loaded(10)):
        return None
    most = int(MOST_SHARE * lift.machine.weights.total / STEP)
    last = last_before_failure(
        lambda k: k == 0 or not loaded(k).passes, most=most, stride=max(1, most // 20)
    )
    return None if last == most else STEP * (last + 1)


def _helps(base: Outcome, loaded: Outcome) -> bool:
    """Whether ballast mends anything of what stops the lift."""
    if base.answer is None or loaded.answer is None:
        return False
    return any(
        not one.utilisation <= 1 and (two.capacity > one.capacity or one.capacity == 0)
        for one, two in zip(base.answer.criteria, loaded.answer.criteria, strict=True)
    )
