"""The machine as posed for a lift, and what tipping, rams, ground and wheels would allow it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from liftcalc.evaluation.lean import Lean
from liftcalc.evaluation.linear_criteria import LinearCriterion
from liftcalc.evaluation.plane_forms import Held
from liftcalc.evaluation.rams import RamCapacity
from liftcalc.machines.arm import Arm
from liftcalc.machines.assembly import FixedPart, MachineState, PointMass
from liftcalc.physics.joints import moment_per_kilogram
from liftcalc.physics.tipping import Line
from liftcalc.physics.worked import Worked
from liftcalc.physics.wrench import LevelForce, Vector, WrenchFunctional, load_at_tipping, pushed


class LineCapacity(NamedTuple):
    """A tipping line, the moment that holds the machine and the load that tips it [N.m, kg].

    ``load_unit_moment`` is of one kilogram of load, swung as far as the request says; ``moment`` is
    the functional of both.
    """

    line: Line
    moment: WrenchFunctional
    holding_moment: float
    load_unit_moment: float
    tipping_load: float


class Term(NamedTuple):
    """One number of a way that fails: its functional and constant, what it came to, and with what.

    ``machine`` is the mass of the machine in the state that is worst for it [kg] and what each
    kilogram of that counts for; ``load`` where the load is worst for it [m]; ``pushed`` what each
    level force counts for.
    """

    functional: WrenchFunctional
    constant: float
    held: Held
    machine: tuple[float, float]
    load: Vector
    pushed: tuple[float, ...]

    @property
    def fails(self) -> float:
        """Load at which this number alone goes below zero [kg]."""
        holding, per_kilogram = float(self.held.holding), float(self.held.per_kilogram)
        return float(load_at_tipping(holding_moment=holding, load_unit_moment=per_kilogram))


class CriterionCapacity(NamedTuple):
    """A linear criterion on a posed machine, and the load at which it fails [kg].

    ``way`` is the number of the way that fails first, ``held`` what its functionals came to.
    """

    criterion: LinearCriterion
    way: int
    held: tuple[Held, ...]
    capacity: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Reached:
    """The machine as posed for the lift: both ends, the load, gravity and the capacities.

    ``load`` is where the log's weight acts in the machine frame [m]; ``asked`` is the lift point
    itself; ``reach`` is what the lift point has [m]; ``lean`` how far the load may lean [rad].
    ``linear`` are what ground and wheels ask, each with the load at which it fails [kg];
    they take the worst of ``wholes``, the machine as one mass in every state it may be in, and of
    ``loads``, everywhere the load may lie [m]. ``fixed`` is all that the pose does not move;
    ``plane_gravity`` is gravity in the plane of the end, outward and up [m/s²]; ``forces`` are the
    level ones that no mass scales.
    """

    arm: Arm
    other: Arm
    fixed: FixedPart
    standing: MachineState
    asked: Vector
    load: Vector
    gravity: Vector
    plane_gravity: tuple[float, float]
    gravity_worked: Worked
    reach: float
    lines: tuple[LineCapacity, ...]
    rams: tuple[RamCapacity, ...]
    lean: float
    leaning: Lean
    linear: tuple[CriterionCapacity, ...]
    wholes: tuple[PointMass, ...]
    loads: tuple[Vector, ...]
    forces: tuple[LevelForce, ...]

    def parts(self, line: LineCapacity) -> tuple[tuple[str, float, float], ...]:
        """Of a line's holding moment every mass, its name, and what a kilogram of it counts for."""
        return tuple(
            (each.name, each.mass, self._counts(line.moment, each)) for each in self.standing.lumps
        )

    def link_parts(self, ram: RamCapacity) -> tuple[tuple[str, float, float], ...]:
        """Of the links' moment on a ram every mass, its name, and what a kilogram counts for."""
        pivot, (gravity_u, gravity_w) = ram.joint.pivot, self.plane_gravity
        return tuple(
            (
                each.name,
                each.mass,
                moment_per_kilogram(
                    at=each.at, pivot=pivot, gravity_u=gravity_u, gravity_w=gravity_w
                ),
            )
            for each in ram.joint.lumps
        )

    def terms(self, capacity: CriterionCapacity) -> tuple[Term, ...]:
        """The numbers of the way that fails first, each with its worst state and load."""
        found = []
        terms = capacity.criterion.ways[capacity.way]
        gravity = capacity.criterion.gravity or self.gravity
        for (functional, constant), held in zip(terms, capacity.held, strict=True):
            holds = [each.mass * self._counts(functional, each, gravity) for each in self.wholes]
            whole = self.wholes[holds.index(min(holds))]
            hangs = [
                functional.unit(x=x, y=y, z=z, gravity=gravity, swing=self.lean)
                for x, y, z in self.loads
            ]
            load = self.loads[hangs.index(min(hangs))]
            machine = (whole.mass, self._counts(functional, whole, gravity))
            push = pushed(self.forces, functional, self.loads, aside=capacity.criterion.side_pull)
            found.append(Term(functional, float(constant), held, machine, load, push))
        return tuple(found)

    def _counts(
        self, functional: WrenchFunctional, mass: PointMass, gravity: Vector | None = None
    ) -> float:
        under = gravity or self.gravity
        return float(functional.unit(x=mass.x, y=mass.y, z=mass.z, gravity=under))
