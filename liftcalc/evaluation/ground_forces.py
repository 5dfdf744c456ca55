"""What the ground carries under a planned load: forces, pressures and the plates they need."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.linear_criteria import bearing_area
from liftcalc.machines.assembly import MachineState, PointMass
from liftcalc.physics.reactions import (
    Contact,
    Reaction,
    Wrench,
    axle_tyres,
    carried,
    settle,
    wrench,
)
from liftcalc.physics.wrench import WrenchFunctional
from liftcalc.site.ground import Ground

Spot = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class SupportForce:
    """One pad, tyre or corner.

    ``force`` is what a rigid machine on equally stiff ground puts on it, ``worst`` the most that
    any stiffness of the ground could [N]; the worst is planned with. ``area`` is what it bears on
    [m²] and ``pressure`` the worst over that area [Pa], None where the file does not say;
    ``needed`` is the area that the named ground asks for [m²], None where none may be presumed.
    A tyre on soft ground sinks until it bears on more: its pressure is overstated there.
    """

    name: str
    at: Spot
    force: float
    worst: float
    area: float | None
    pressure: float | None
    needed: float | None

    @property
    def tyre(self) -> bool:
        """Whether it is a tyre, which gives and spreads."""
        return "tyre" in self.name


@dataclass(frozen=True, slots=True, kw_only=True)
class GroundForces:
    """All feet under a load [kg] on the lift point.

    ``weights`` is what presses on the ground and ``reactions`` what the ground answers: their six
    sums are nothing. Where the machine tips under the load the forces are not numbers.
    """

    load: float
    ground: Ground | None
    weights: Wrench
    reactions: tuple[Reaction, ...]
    feet: tuple[SupportForce, ...]

    @property
    def stands(self) -> bool:
        """Whether there are forces of the ground that hold the machine and its load."""
        return all(math.isfinite(each.force) for each in self.feet)

    @property
    def worst(self) -> SupportForce:
        """The foot that is asked most of: of pads and corners by pressure, else by force."""
        still = [each for each in self.feet if not each.tyre and each.pressure is not None]
        return (
            max(still, key=lambda each: each.pressure or 0.0)
            if still
            else max(self.feet, key=lambda each: each.worst)
        )


def ground_forces(
    lift: Lift,
    standing: MachineState,
    *,
    load: Spot,
    lean: float,
    gravity: Spot,
    wholes: Sequence[PointMass],
    loads: Sequence[Spot],
) -> GroundForces:
    """What the ground carries with the planned load on the lift point.

    Parameters
    ----------
    lift : Lift
    standing : Standing
        The machine as posed.
    load : three floats
        Where the load's weight acts [m].
    lean : float
        Of the load [rad]: the worst way for each foot's worst force; the settled forces are of a
        load that hangs still.
    gravity : three floats
        Effective gravity [m/s²].
    wholes, loads : sequences
        The machine as one mass, and where the load may lie, in every state that is not known: each
        foot's worst force takes the worst of them, the settled forces only the state posed.
    """
    whole, mass = standing.whole, lift.needed
    weights = wrench(mass=whole.mass, x=whole.x, y=whole.y, z=whole.z, gravity=gravity) + wrench(
        mass=mass, x=load[0], y=load[1], z=load[2], gravity=gravity
    )
    contacts = [Contact(name=each.name, x=each.x, y=each.y, z=each.z) for each in standing.supports]
    reactions = settle(contacts, wrench=weights)
    feet: list[SupportForce] = []

    def most(form: WrenchFunctional) -> float:
        """A form with machine, load and its lean as they make it greatest."""
        still = max(
            float(each.mass * form.unit(x=each.x, y=each.y, z=each.z, gravity=gravity))
            for each in wholes
        )
        away = WrenchFunctional().plus(form, -1.0)
        return still - mass * min(
            float(away.unit(x=x, y=y, z=z, gravity=gravity, swing=lean)) for x, y, z in loads
        )

    for support, reaction in zip(standing.supports, reactions, strict=True):
        ways = carried(support, lines=standing.lines)
        worst = max(0.0, *(min(most(each.force) for each in way) for way in ways))
        at = (float(support.x), float(support.y), float(support.z))
        if support.z:
            feet += _tyres(lift, standing, reaction, worst=worst, along=weights.force[0])
        else:
            feet.append(_foot(lift, support.name, at, float(reaction.up), worst))
    return GroundForces(
        load=mass, ground=lift.ground, weights=weights, reactions=reactions, feet=tuple(feet)
    )


def _tyres(
    lift: Lift, standing: MachineState, pin: Reaction, *, worst: float, along: float
) -> list[SupportForce]:
    """The two tyres of an axle that oscillates: they share what its pin carries.

    The ground's push to the side reaches the machine at the pin's height and so turns the axle onto
    one tyre. All the force ``along`` the machine [N] on one back support makes that push greater.
    """
    track, at = float(lift.machine.wheels.front_track), pin.contact
    back = [each for each in standing.supports if not each.z]
    wide = max(each.y for each in back) - min(each.y for each in back)
    left, right = axle_tyres(pin, track=track)
    uneven = abs(left - right) / 2 + abs(along) * wide * at.z / ((at.x - back[0].x) * track)
    spare = float(uneven) if math.isfinite(uneven) else 0.0
    return [
        _foot(lift, f"{side} front tyre", (at.x, y, 0.0), float(up), worst / 2 + spare)
        for side, y, up in (("left", track / 2, left), ("right", -track / 2, right))
    ]


def _foot(lift: Lift, name: str, at: Spot, force: float, worst: float) -> SupportForce:
    area = bearing_area(lift, name)
    allowed = lift.ground.allowed if lift.ground else None
    return SupportForce(
        name=name,
        at=at,
        force=force,
        worst=worst,
        area=area,
        pressure=None if area is None else worst / area,
        needed=None if allowed is None else worst / allowed,
    )
