"""What the ground carries under a planned load: forces, pressures and the plates they need."""

from __future__ import annotations

import math
from dataclasses import dataclass

from liftcalc.evaluation.evaluator import Evaluator
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.linear_criteria import carries, foot_of, level_share
from liftcalc.evaluation.reached import Reached
from liftcalc.machines.number import plain
from liftcalc.physics import formulas
from liftcalc.physics.functions import hypot
from liftcalc.physics.reactions import Bound, Reaction, Wrench, axle_tyres, settle, wrench
from liftcalc.physics.tipping import Support, SupportKind
from liftcalc.physics.worked import Worked, work
from liftcalc.physics.wrench import Vector, WrenchFunctional, pushed
from liftcalc.site.ground import Ground

Spot = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class SupportForce:
    """One pad, tyre or corner.

    ``force`` is what a rigid machine on equally stiff ground puts on it, ``worst`` the most that
    any stiffness of the ground could [N]; the worst is planned with. ``area`` is what it bears on
    [m²] and ``pressure`` the worst over that area [Pa], None where the file does not say.
    ``carries`` is the force that the ground is allowed to carry there [N], None where nobody said
    the ground and infinite where nothing limits it; ``allowing`` how that was found.
    ``needed`` is the area of the square plate that would carry it [m²], None where none would or
    where it is a tyre.
    ``greatest`` is how the worst was found, about the line of that label, ``settled`` how the
    force on a tyre of an axle that oscillates was. A tyre on soft ground
    sinks until it bears on more: its pressure is overstated there.
    """

    name: str
    kind: SupportKind
    at: Spot
    force: float
    worst: float
    area: float | None
    pressure: float | None
    carries: float | None
    needed: float | None
    allowing: tuple[Worked, ...] = ()
    greatest: Worked | None = None
    settled: Worked | None = None

    @property
    def tyre(self) -> bool:
        """Whether it is a tyre, which gives and spreads."""
        return self.kind in ("front tyre", "rear tyre")

    @property
    def allowed(self) -> float | None:
        """Pressure that the ground is allowed to carry there [Pa]; None where it is not known."""
        if self.area is None or self.carries is None or math.isinf(self.carries):
            return None
        return self.carries / self.area

    @property
    def sinks(self) -> bool:
        """Whether the ground is not allowed to carry what the foot puts on it."""
        return self.carries is not None and not self.worst <= self.carries


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


def ground_forces(evaluator: Evaluator, reached: Reached) -> GroundForces:
    """What the ground carries with the planned load on the lift point, jolts counted.

    The settled forces are of the state posed, with a load that hangs still and no level force; each
    support's worst force takes the worst of all that is not known, of the load's lean and of level
    forces.
    """
    lift, gravity, (x, y, z) = evaluator.lift, reached.gravity, reached.load
    whole = reached.standing.whole
    mass = lift.needed * lift.load_factor("ground under a pad").value
    weights = wrench(mass=whole.mass, x=whole.x, y=whole.y, z=whole.z, gravity=gravity)
    weights += wrench(mass=mass, x=x, y=y, z=z, gravity=gravity)
    supports = evaluator.fixed.supports
    reactions = settle(supports, wrench=weights)
    feet: list[SupportForce] = []
    for support, ways, reaction in zip(supports, evaluator.fixed.bounds, reactions, strict=True):
        greatest = _greatest(ways, reached, mass)
        if support.kind == "axle pin":
            worst = max(0.0, greatest.result)
            feet += _tyres(evaluator, reached, reaction, worst=worst, along=weights.force[0])
        else:
            feet.append(_foot(lift, support, reaction.up, greatest, gravity=gravity))
    return GroundForces(
        load=mass, ground=lift.ground, weights=weights, reactions=reactions, feet=tuple(feet)
    )


def _greatest(ways: tuple[tuple[Bound, ...], ...], reached: Reached, load: float) -> Worked:
    """The greatest force on a support: the least bound of a way, of the ways the worse."""

    def most(bound: Bound) -> Worked:
        """What presses on it, with machine, load and its lean as they make it greatest."""
        moment, gravity = bound.moment, reached.gravity
        away = WrenchFunctional().plus(moment, -1.0)
        still = max(
            each.mass * moment.unit(x=each.x, y=each.y, z=each.z, gravity=gravity)
            for each in reached.wholes
        )
        least = min(
            away.unit(x=x, y=y, z=z, gravity=gravity, swing=reached.lean)
            for x, y, z in reached.loads
        )
        pushes = pushed(reached.forces, moment, reached.loads)
        return work(
            bound.line.name,
            formulas.support_force,
            pressing_moment=still - load * least - sum(pushes),
            support_lever=bound.lever,
        )

    return max(
        (min((most(bound) for bound in way), key=lambda each: each.result) for way in ways),
        key=lambda each: each.result,
    )


def _tyres(
    evaluator: Evaluator, reached: Reached, pin: Reaction, *, worst: float, along: float
) -> list[SupportForce]:
    """The two tyres of an axle that oscillates: they share what its pin carries.

    The ground's push to the side reaches the machine at the pin's height and so turns the axle onto
    one tyre. All the force ``along`` the machine [N] on one back support makes that push greater,
    and level forces do, from any side.
    """
    lift, at = evaluator.lift, pin.contact
    track = plain(lift.machine.wheels.front_track)
    left_back, right_back = evaluator.fixed.supports[:2]
    wide = left_back.y - right_back.y
    tyres = axle_tyres(pin, track=track)
    left, right = tyres.steps
    turns = abs(along) * wide
    for force in reached.forces:
        levers = (hypot(x - left_back.x, y) for x, y, _ in force.places(reached.loads))
        turns += force.size * (wide + max(levers))
    uneven = abs(left - right) / 2 + turns * at.z / ((at.x - left_back.x) * track)
    spare = uneven if math.isfinite(uneven) else 0.0
    return [
        _foot(
            lift,
            Support(f"{side} front tyre", at.x, y, 0.0, "front tyre"),
            up,
            worst=worst / 2 + spare,
            settled=tyres,
            gravity=evaluator.gravity,
        )
        for side, y, up in (("left", track / 2, left), ("right", -track / 2, right))
    ]


def _foot(
    lift: Lift,
    support: Support,
    force: float,
    greatest: Worked | None = None,
    *,
    gravity: Vector,
    worst: float | None = None,
    settled: Worked | None = None,
) -> SupportForce:
    foot = foot_of(lift, support)
    area = None if foot is None else float(foot.area)
    allowed, allowing = carries(lift, support, gravity=gravity)
    most = max(0.0, greatest.result) if greatest is not None else worst or 0.0
    return SupportForce(
        name=support.name,
        kind=support.kind,
        at=(support.x, support.y, support.z),
        force=float(force),
        worst=most,
        area=area,
        greatest=greatest,
        settled=settled,
        pressure=None if area is None else most / area,
        carries=float(allowed) if lift.ground is not None or allowing else None,
        needed=_needed(lift, support, most, gravity),
        allowing=allowing,
    )


def _needed(lift: Lift, support: Support, force: float, gravity: Vector) -> float | None:
    if lift.ground is None or support.kind not in ("pad", "corner"):
        return None
    return lift.ground.needed(
        force=force, level_share=float(level_share(gravity)), hopeful="ground" in lift.hopeful
    )
