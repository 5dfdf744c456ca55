"""Statics as a linear programme: the greatest load for which contact forces exist.

Written from Newton and Euler for each body alone, force by force, with no lines, hulls or
tipping: every contact may push but not pull, and the solver finds the greatest load for which all
bodies are in equilibrium.

Where every support is at one height any friction is allowed: forces along the ground then have no
moment about any line of the ground, and ask nothing of the normal forces. With an oscillating
front axle, axle and chassis are two bodies joined by a pin along x. Its tyres may push sideways
and the pin may carry what it likes but a moment about its own axis. Contact forces along the
machine are then left out, so gravity may have no part along it: else chassis and axle hold each
other by friction that no path of loading would build up, and the programme overstates the load.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import linprog

Vector = tuple[float, float, float]
CEILING = 1e7
"""A load beyond this is called endless [kg]."""


@dataclass(frozen=True)
class Contact:
    """A place where the ground pushes on a body: 0 chassis, 1 front axle."""

    at: Vector
    body: int = 0


@dataclass(frozen=True)
class Scene:
    """Masses and load on the chassis, contacts, and the pin of an oscillating axle if any."""

    masses: Sequence[tuple[float, Vector]]
    load: Vector
    gravity: Vector
    contacts: Sequence[Contact]
    pin: Vector | None = None
    load_gravity: Vector | None = None
    """What pulls the load, where that is not gravity: a load that swings [m/s²]."""

    def _columns(self) -> tuple[np.ndarray, list[tuple[float | None, float | None]]]:
        """One column a unit force or moment: six equations a body."""
        bodies = 1 if self.pin is None else 2
        columns, bounds = [], []

        def push(force: Vector, at: Vector, body: int, sign: float = 1.0) -> np.ndarray:
            column = np.zeros(6 * bodies)
            column[6 * body : 6 * body + 3] = sign * np.array(force)
            column[6 * body + 3 : 6 * body + 6] = sign * np.cross(at, force)
            return column

        along_ground = [(0, 1, 0)] if self.pin is not None else [(1, 0, 0), (0, 1, 0)]
        for contact in self.contacts:
            columns.append(push((0, 0, 1), contact.at, contact.body))
            bounds.append((0.0, None))
            for force in along_ground:
                columns.append(push(force, contact.at, contact.body))
                bounds.append((None, None))
        if self.pin is not None:
            for axis in np.eye(3):
                force = tuple(axis)
                columns.append(push(force, self.pin, 0) + push(force, self.pin, 1, -1.0))
                bounds.append((None, None))
            for axis in np.eye(3)[1:]:
                column = np.zeros(12)
                column[3:6], column[9:12] = axis, -axis
                columns.append(column)
                bounds.append((None, None))
        return np.array(columns).T, bounds

    def _weight(self, mass: float, at: Vector, gravity: Vector, rows: int) -> np.ndarray:
        weight = np.zeros(rows)
        weight[:3] = mass * np.array(gravity)
        weight[3:6] = np.cross(at, weight[:3])
        return weight

    def stands_empty(self) -> bool:
        """Whether any contact forces hold it without its load."""
        return self._solve(0.0) is not None

    def greatest_load(self) -> float:
        """The greatest load that contact forces can hold [kg]; 0 where it falls empty."""
        if not self.stands_empty():
            return 0.0
        found = self._solve(None)
        assert found is not None
        return found if found < 0.99 * CEILING else np.inf

    def _solve(self, fixed: float | None) -> float | None:
        matrix, bounds = self._columns()
        rows = matrix.shape[0]
        total = sum(mass for mass, _ in self.masses)
        own = sum(self._weight(mass, at, self.gravity, rows) for mass, at in self.masses)
        pull = self._weight(1.0, self.load, self.load_gravity or self.gravity, rows)
        # In units of the machine's own weight, so that the solver's tolerance is a relative one.
        scale = total * 9.8
        equal = np.column_stack([matrix, pull * total / scale])
        most = CEILING / total if fixed is None else fixed / total
        least = 0.0 if fixed is None else fixed / total
        answer = linprog(
            np.r_[np.zeros(matrix.shape[1]), -1.0],
            A_eq=equal,
            b_eq=-own / scale,
            bounds=[*bounds, (least, most)],
            method="highs-ds",
            options={
                "presolve": False,
                "primal_feasibility_tolerance": 1e-10,
                "dual_feasibility_tolerance": 1e-10,
            },
        )
        return float(answer.x[-1] * total) if answer.status == 0 else None
