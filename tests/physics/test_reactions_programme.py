"""Reactions against programmes that are written force by force and know nothing of lines.

The programme's unknowns are the contact forces and, where it is asked for, the load; its six
equations are Newton's and Euler's. Forces along the ground may be anything, but with an
oscillating axle its pin takes none along the machine, and the back supports do not push against
each other along it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np
import pytest
from scipy.optimize import linprog, nnls

from liftcalc.machines.files import load
from liftcalc.machines.supports import Stance
from liftcalc.physics.reactions import (
    Bound,
    Reaction,
    Wrench,
    axle_tyres,
    bounds_on,
    settle,
    wrench,
)
from liftcalc.physics.tipping import Line, Support, ring
from liftcalc.physics.wrench import WrenchFunctional, load_at_failure, moment_about
from liftcalc.site.site import Site
from tests.helpers import MACHINES, Posed, fixed_axle, some_pose

STANCES: tuple[Stance, ...] = ("wheels", "stabilisers", "stabilisers and bucket")
Measured = Callable[[str, int, float], None]
Vector = tuple[float, float, float]


def worst_force(support: Support, *, lines: Sequence[Line], wrench: Wrench) -> float:
    """The most that a support may carry by its bounds [N]: the worse of the ways it may be held."""
    moments = [moment_about(each) for each in lines]
    return max(
        min(-float(wrench.counted(bound.relief)) for bound in way)
        for way in bounds_on(support, lines=lines, moments=moments)
    )


def six(force: np.ndarray, at: np.ndarray) -> np.ndarray:
    return np.r_[force, np.cross(at, force)]


def place(contact: Support) -> np.ndarray:
    return np.array([contact.x, contact.y, contact.z])


def imbalance(reactions: tuple[Reaction, ...], pressed: np.ndarray) -> float:
    """The greatest of the six sums, in shares of the greatest that goes into them."""
    parts = [pressed] + [
        six(np.array([each.forward, each.left, each.up], float), place(each.contact))
        for each in reactions
    ]
    return float(np.max(np.abs(sum(parts))) / np.max(np.abs(parts)))


def bounded(support: Support, lines: tuple[Line, ...]) -> tuple[tuple[Bound, ...], ...]:
    return bounds_on(support, lines=lines, moments=[moment_about(each) for each in lines])


class Case(NamedTuple):
    """A machine in some pose with a load that it holds, on its contacts."""

    posed: Posed
    contacts: tuple[Support, ...]
    gravity: Vector
    load: float

    @property
    def own(self) -> Wrench:
        whole = self.posed.standing.whole
        return wrench(mass=whole.mass, x=whole.x, y=whole.y, z=whole.z, gravity=self.gravity)

    def loaded(self, mass: float) -> Wrench:
        x, y, z = self.posed.load
        return self.own + wrench(mass=mass, x=x, y=y, z=z, gravity=self.gravity)

    def pressed(self, mass: float) -> np.ndarray:
        """The same by cross products, lump by lump."""
        down = np.array(self.gravity)
        lumps = [(each.mass, (each.x, each.y, each.z)) for each in self.posed.standing.lumps]
        return sum(
            six(m * down, np.array(at, float)) for m, at in [*lumps, (mass, self.posed.load)]
        )


def some_case(name: str, stance: Stance, rng: np.random.Generator) -> Case:
    """Now and then with a fixed front axle."""
    machine = load(name) if rng.integers(4) else fixed_axle(load(name))
    while True:
        posed = some_pose(machine, stance, rng)
        site = Site(slope=rng.uniform(0.0, 0.25), heading=rng.uniform(-math.pi, math.pi))
        x, y, z = (float(part) for part in site.gravity)
        tips = posed.tipping_load((x, y, z))
        if tips > 0:
            break
    contacts = tuple(
        Support(name=s.name, x=s.x, y=s.y, z=s.z, stiffness=rng.uniform(0.2, 5.0))
        for s in posed.standing.supports
    )
    return Case(posed, contacts, (x, y, z), rng.uniform(0, 1) * min(tips, 4000.0))


def cases(seed: int, each: int) -> list[Case]:
    rng = np.random.default_rng(seed)
    return [
        some_case(name, stance, rng) for name in MACHINES for stance in STANCES for _ in range(each)
    ]


class Programme:
    """Contact forces of one machine as columns; in units of its own weight."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.scale = float(np.abs(case.own.force[2]))
        pinned = any(each.z for each in case.contacts)
        against = -1.0 if case.gravity[0] > 0 else 1.0
        columns, self.bounds = [], []
        for contact in case.contacts:
            ways = [((0, 0, 1), (0.0, None)), ((0, 1, 0), (None, None))]
            if not pinned:
                ways.append(((1, 0, 0), (None, None)))
            elif not contact.z:
                ways.append(((against, 0, 0), (0.0, None)))
            for way, bound in ways:
                columns.append(six(np.array(way, float), place(contact)))
                self.bounds.append(bound)
        self.matrix = np.array(columns).T
        self.ups = [i for i, column in enumerate(columns) if column[2] == 1]

    def greatest(self, contact: int) -> float:
        """The greatest force up on a contact [N]."""
        cost = np.zeros(self.matrix.shape[1])
        cost[self.ups[contact]] = -1.0
        pressed = self.case.pressed(self.case.load) / self.scale
        found = linprog(cost, A_eq=self.matrix, b_eq=-pressed, bounds=self.bounds, method="highs")
        assert found.status == 0, found.message
        return float(found.x[self.ups[contact]]) * self.scale

    def least_load(self, contact: int, limit: float) -> float:
        """The least load with which a contact may carry the limit [kg]; infinity for none."""
        own = self.case.pressed(0.0) / self.scale
        unit = (self.case.pressed(1000.0) - self.case.pressed(0.0)) / self.scale
        bounds = [*self.bounds, (0.0, None)]
        bounds[self.ups[contact]] = (limit / self.scale, None)
        found = linprog(
            np.r_[np.zeros(self.matrix.shape[1]), 1.0],
            A_eq=np.column_stack([self.matrix, unit]),
            b_eq=-own,
            bounds=bounds,
            method="highs",
        )
        return float(found.x[-1]) * 1000.0 if found.status == 0 else math.inf


def test_the_worst_force_is_that_of_the_programme(measured: Measured) -> None:
    checked, worst, apart = 0, 0.0, 0
    for case in cases(1, 25):
        programme = Programme(case)
        pressed, lines = case.loaded(case.load), case.posed.standing.lines
        settled = settle(case.contacts, wrench=pressed)
        for i, contact in enumerate(case.contacts):
            most = worst_force(contact, lines=lines, wrench=pressed)
            worst = max(worst, abs(most - programme.greatest(i)) / programme.scale)
            checked += 1
            apart += most - settled[i].up > 1e-6 * programme.scale
    measured("worst force on a support, by a programme of contact forces", checked, worst)
    assert worst < 1e-8
    # On three supports on level ground nothing is left open; that alone would prove little.
    assert apart > checked / 2


def test_the_load_at_the_limit_is_that_of_the_programme(measured: Measured) -> None:
    rng = np.random.default_rng(2)
    worst, finite, endless = 0.0, 0, 0
    for case in cases(3, 25):
        programme = Programme(case)
        whole, tips = case.posed.standing.whole, case.posed.tipping_load(case.gravity)
        for i, contact in enumerate(case.contacts):
            limit = rng.uniform(0.1, 0.9) * programme.scale
            x, y, z = case.posed.load
            ours = min(
                load_at_failure(
                    holding=[
                        limit * each.lever
                        - whole.mass
                        * each.moment.unit(x=whole.x, y=whole.y, z=whole.z, gravity=case.gravity)
                        for each in way
                    ],
                    per_kilogram=[
                        -each.moment.unit(x=x, y=y, z=z, gravity=case.gravity) for each in way
                    ],
                )
                for way in bounded(contact, case.posed.standing.lines)
            )
            theirs = programme.least_load(i, limit)
            if ours < tips:
                worst = max(worst, abs(ours - theirs) * 9.8 / programme.scale)
                finite += ours > 0
            else:
                # The machine tips before; past that the programme may only find more.
                assert theirs >= tips * (1 - 1e-9)
                endless += 1
    measured("load at a support's limit, by a programme of contact forces", finite, worst)
    assert worst < 1e-8
    assert finite > 200
    assert endless > 100


def test_settled_forces_are_in_equilibrium_and_never_beyond_the_worst(measured: Measured) -> None:
    worst, count = 0.0, 0
    for case in cases(4, 40):
        pressed = case.loaded(case.load)
        reactions = settle(case.contacts, wrench=pressed)
        worst = max(worst, imbalance(reactions, case.pressed(case.load)))
        count += 1
        for each in reactions:
            most = worst_force(each.contact, lines=case.posed.standing.lines, wrench=pressed)
            assert 0 <= each.up <= most + 1e-9 * abs(pressed.force[2])
            assert not each.contact.z or each.forward == 0
    measured("six sums of forces and moments of a settled machine", count, worst)
    assert worst < 1e-9


def test_the_machine_settles_until_its_least_tipping_load_and_not_beyond() -> None:
    """Every stance, any slope: the springs know no line, and part where the worst line does."""
    at_pin = 0
    for case in cases(5, 25):
        lines = case.posed.lines(case.gravity)
        tips = min(float(each.tipping_load) for each in lines)
        if not tips < 1e5:
            continue
        before = settle(case.contacts, wrench=case.loaded(tips * (1 - 1e-6)))
        assert all(each.up >= 0 for each in before)
        after = settle(case.contacts, wrench=case.loaded(tips * (1 + 1e-6) + 1e-3))
        assert all(math.isnan(part) for r in after for part in (r.forward, r.left, r.up))
        line = min(lines, key=lambda each: float(each.tipping_load)).line
        if "pin" not in line.name:
            continue
        at_pin += 1
        # Over a side line to the pin: the far support has just nothing, the near one holds all
        # the force along the machine.
        just = settle(case.contacts, wrench=case.loaded(tips))
        pressed = case.loaded(tips)
        near, far = sorted(
            (each for each in just if not each.contact.z),
            key=lambda each: each.contact.name not in line.name,
        )
        weight = abs(pressed.force[2])
        assert abs(pressed.counted(moment_about(line))) < 1e-9 * weight
        assert far.up == pytest.approx(0.0, abs=1e-9 * weight)
        assert near.forward == pytest.approx(-pressed.force[0], abs=1e-9 * weight)
        assert far.forward == pytest.approx(0.0, abs=1e-9 * weight)
    assert at_pin > 30


def test_tyres_of_the_axle_hold_it_up_and_keep_it_from_turning() -> None:
    """The axle as a body of its own: what its tyres and its pin give it adds up to nothing."""
    checked = 0
    for case in cases(6, 8):
        track = float(case.posed.machine.wheels.front_track)
        for pin in settle(case.contacts, wrench=case.loaded(case.load)):
            if not pin.contact.z:
                continue
            on_ground = [np.array([pin.contact.x, s * track / 2, 0.0]) for s in (1, -1)]
            tyres = axle_tyres(pin, track=track).steps
            total = -six(np.array([0.0, pin.left, pin.up], float), place(pin.contact))
            for at, up in zip(on_ground, tyres, strict=True):
                total = total + six(np.array([0.0, pin.left / 2, up], float), at)
            # Not in plan: the pin's bearings hold that.
            assert total[:5] == pytest.approx(0.0, abs=1e-9 * abs(case.own.force[2]))
            checked += 1
    assert checked > 30


def some_springs(rng: np.random.Generator) -> tuple[Support, ...]:
    count = int(rng.integers(3, 8))
    return tuple(
        Support(name=str(i), x=x, y=y, stiffness=math.exp(rng.normal()))
        for i, (x, y) in enumerate(rng.uniform(-3, 3, (count, 2)))
    )


def some_weights(rng: np.random.Generator) -> tuple[Wrench, np.ndarray]:
    """Three weights, one of them leaning its own way."""
    pressed, sums = None, np.zeros(6)
    for leans in (False, False, True):
        down = rng.normal(0.0, 0.5, 3) * leans + [0.4, -0.7, -9.7]
        mass, at = rng.uniform(100, 3000), rng.uniform((-2, -2, 0), (2, 2, 3))
        x, y, z = at
        one = wrench(mass=mass, x=x, y=y, z=z, gravity=tuple(down))
        pressed = one if pressed is None else pressed + one
        sums += six(mass * down, at)
    assert pressed is not None
    return pressed, sums


def least_energy(contacts: tuple[Support, ...], sums: np.ndarray) -> np.ndarray | None:
    """Forces up with the least energy in the springs, none of them pulling; None where it tips.

    A least distance programme, by the way of C. L. Lawson and R. J. Hanson, Solving Least Squares
    Problems, chapter 23: non-negative least squares of its dual.
    """
    soft = np.sqrt([each.stiffness for each in contacts])
    equations = np.array([[1.0, each.x, each.y] for each in contacts]).T * soft
    wanted = np.array([-sums[2], sums[4], -sums[3]])
    start = np.linalg.lstsq(equations, wanted, rcond=None)[0]
    free = np.linalg.svd(equations)[2][3:].T
    size = np.linalg.norm(start)
    dual = np.vstack([free.T, -start / size])
    aim = np.r_[np.zeros(free.shape[1]), 1.0]
    rest = dual @ nnls(dual, aim)[0] - aim
    if np.linalg.norm(rest) < 1e-9:
        return None
    return soft * (start - size * free @ (rest[:-1] / rest[-1]))


def test_springs_settle_with_the_least_energy(measured: Measured) -> None:
    rng = np.random.default_rng(7)
    worst, unbalanced, stood, fell, lifted = 0.0, 0.0, 0, 0, 0
    for _ in range(600):
        contacts = some_springs(rng)
        pressed, sums = some_weights(rng)
        reactions = settle(contacts, wrench=pressed)
        theirs = least_energy(contacts, sums)
        if theirs is None:
            assert all(math.isnan(each.up) for each in reactions)
            fell += 1
            continue
        ours = np.array([each.up for each in reactions])
        worst = max(worst, float(np.max(np.abs(ours - theirs))) / -sums[2])
        unbalanced = max(unbalanced, imbalance(reactions, sums))
        lines = ring(contacts)
        for each in reactions:
            most = worst_force(each.contact, lines=lines, wrench=pressed)
            assert each.up <= most - sums[2] * 1e-9
        stood += 1
        lifted += bool(np.any(ours == 0))
    measured("forces on springs that do not pull, by least energy", stood, worst)
    measured("six sums on any contacts, with a load that leans", stood, unbalanced)
    assert worst < 1e-8
    assert unbalanced < 1e-9
    assert min(stood, fell, lifted) > 100


def test_many_poses_at_once_are_each_as_one_by_one() -> None:
    rng = np.random.default_rng(8)
    pin = (
        Support(name="left", x=0.2, y=0.9),
        Support(name="right", x=0.2, y=-0.7),
        Support(name="pin", x=2.2, y=0.0, z=0.5),
    )
    for contacts in (some_springs(rng), some_springs(rng), some_springs(rng), pin):
        masses, (x, y, z) = rng.uniform(100, 3000, 200), rng.uniform(-2, 3, (3, 200))
        x[17] = np.nan
        down = (0.5, -0.3, -9.6)
        fixed = wrench(mass=1500.0, x=0.6, y=0.1, z=1.0, gravity=down)
        many = settle(contacts, wrench=fixed + wrench(mass=masses, x=x, y=y, z=z, gravity=down))
        for i in range(200):
            one = settle(
                contacts,
                wrench=fixed + wrench(mass=masses[i], x=x[i], y=y[i], z=z[i], gravity=down),
            )
            for each, alone in zip(many, one, strict=True):
                for part in ("forward", "left", "up"):
                    assert np.broadcast_to(getattr(each, part), 200)[i] == pytest.approx(
                        getattr(alone, part), rel=1e-9, abs=1e-6, nan_ok=True
                    )
        assert all(math.isnan(each.up[17]) for each in many)
        assert 20 < sum(math.isfinite(up) for up in many[0].up) < 200


def test_a_load_that_swings_presses_most_over_every_lean() -> None:
    """Leans tried one by one, by cross products: none presses more than ours, and one as much.

    Both for a support that holds none of the force along the machine and for one that holds all.
    """
    rng = np.random.default_rng(9)
    all_of_it = 0
    for case in cases(10, 3):
        lean = rng.uniform(0.02, 0.4)
        down = np.array(case.gravity)
        size = float(np.linalg.norm(down))
        one = np.cross(down, [1.0, 0.0, 0.0])
        one /= np.linalg.norm(one)
        two = np.cross(down, one) / size
        angle, turn = np.meshgrid(np.linspace(0, lean, 9), np.linspace(0, 2 * math.pi, 72))
        angle, turn = (each.reshape(-1, 1) for each in (angle, turn))
        pulls = np.cos(angle) * down + np.sin(angle) * size * (
            np.cos(turn) * one + np.sin(turn) * two
        )
        x, y, z = case.posed.load
        for contact in case.contacts:
            for holds, way in enumerate(bounded(contact, case.posed.standing.lines)):
                answers = -holds * pulls * [1.0, 0.0, 0.0]
                for bound in way:
                    start, end = (
                        np.array([p.x, p.y, p.z]) for p in (bound.line.start, bound.line.end)
                    )
                    moments = np.cross(np.array([x, y, z]) - start, pulls)
                    moments += np.cross(place(contact) - start, answers)
                    tried = float(np.max(moments @ (end - start) / np.linalg.norm(end - start)))
                    away = WrenchFunctional().plus(bound.moment, -1.0)
                    ours = -away.unit(x=x, y=y, z=z, gravity=case.gravity, swing=lean)
                    assert tried <= ours + 1e-9
                    # Turns of 5° miss the worst by at most 2.5°: cos 2.5° of the sideways part.
                    assert ours <= tried + 0.01 * size
                all_of_it += holds
    assert all_of_it > 10
