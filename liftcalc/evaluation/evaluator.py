"""The one evaluator: criteria over machine states, poses, gravities and loads.

A lift is prepared once, as an ``Evaluator``: what does not move, what the ground and the wheels
ask, what is rated. Then the end that lifts is posed, once for a check or a million times for a
map, and every criterion says what it would allow. A slope of a question may be an array, and so
may the figures of a machine: whatever broadcasts is answered at once.

A moment about a line, or any other number linear in the forces, is linear in the place of a mass;
every mass of the end that lifts lies in its plane. So each such number is linear in how far outward
and how high the mass is, with one factor for each slew, and the rest of the machine is a constant.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection
from dataclasses import replace
from functools import cached_property, partial, reduce
from typing import NamedTuple, Self

import numpy as np

from liftcalc.errors import InputError
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.members import (
    CAREFUL,
    OF_A_QUARTER,
    Floats,
    Grid,
    UsedMore,
    ends,
    filled,
    grid_of,
    in_column,
    span,
    used_more,
)
from liftcalc.evaluation.plane_forms import Rule
from liftcalc.evaluation.posed_lift import COUNT, PosedLift
from liftcalc.evaluation.possible import allowed_by
from liftcalc.evaluation.tolerances import at_their_ends, by_machine, with_tolerances
from liftcalc.factors import RAM_SHARE
from liftcalc.family.known import KnownMachine
from liftcalc.machines.arm import Arm
from liftcalc.physics.functions import Real, minimum
from liftcalc.physics.plane import Point

Told = Callable[["Evaluator", Arm], list[Real]]
"""What some criteria allow on a posed machine [kg]."""


class Evaluator(PosedLift):
    """A posed lift that says what every criterion allows, and which allows least."""

    _sampled: tuple[Arm, Floats] | None = None
    """The pose whose samples were asked for last, and they."""

    @cached_property
    def beside(self) -> tuple[tuple[Evaluator | None, ...], ...]:
        """For each figure with a tolerance the machine with it at both ends; None: none can be."""
        return tuple(
            tuple(self._changed(lift) for lift in ends) for ends in at_their_ends(self.lift)
        )

    @cached_property
    def known(self) -> KnownMachine | None:
        """The machine, where it is known by facts and may be any of the members they leave."""
        machine = self.lift.machine
        return machine if isinstance(machine, KnownMachine) and not self.lift.exact else None

    @cached_property
    def members(self) -> Evaluator | None:
        """The lift by all members at once, for a single pose."""
        return self._changed(by_machine(self.lift, self.known.members)) if self.known else None

    @cached_property
    def used_more(self) -> UsedMore:
        """What a kilogram uses more by all that the machine may be: for many poses at once.

        The most of the first, the middle and the last slew, and on the steepest of several slopes.
        """
        grid = grid_of(self.lift.machine, self.lift.end)
        slews, pick = np.unique(self.slew), np.fmin if "machine" in self.lift.hopeful else np.fmax
        some = (float(slews[at]) for at in {0, len(slews) // 2, len(slews) - 1})
        lift = replace(self.lift, site=self.lift.site.steepest)
        found = [Evaluator(lift, slew=slew)._used_more(grid) for slew in some]
        return UsedMore(grid, filled(reduce(pick, found)), "machine" in self.lift.hopeful)

    def _used_more(self, grid: Grid) -> Floats:
        """The same at every place of a grid (C, I, J), at one slew; NaN where it does not reach."""
        assert self.known is not None
        reach, height = grid.places
        many = self._changed(by_machine(self.lift, in_column(self.known.members)))
        with np.errstate(invalid="ignore", divide="ignore"):
            arm = self.pose(reach, height)
            told = np.array([np.broadcast_to(load, height.shape) for load in _loads(self, arm)])
            beyond = reduce(np.logical_or, [stop.violated for stop in arm.stops])
            told[:, np.broadcast_to(beyond, height.shape)] = np.nan
            loads = _by(many, arm, _loads, reaching=True) or [0.0] * len(told)
            samples = np.array(np.broadcast_arrays(*loads, np.empty((1, len(height))))[:-1])
            by_place = zip(told.T, np.moveaxis(samples, -1, 0), strict=True)
            found = [self._ended(one, each, share=OF_A_QUARTER) for one, each in by_place]
            return used_more(told, np.array(found).T).reshape(len(told), *grid.shape)

    def _ended(self, told: Floats, samples: Floats, *, share: float = CAREFUL) -> Floats:
        """What criteria allow (C,) at the end of samples of all that the machine may be [kg]."""
        hopeful = "machine" in self.lift.hopeful
        found = ends(samples, hopeful=hopeful, share=share)
        return np.asarray((np.maximum if hopeful else np.minimum)(told, found))

    @property
    def doubted(self) -> bool:
        """Whether the machine is in doubt, by tolerances of its figures or by what nobody told."""
        return bool(self.known or self.beside)

    def _changed(self, lift: Lift) -> Evaluator | None:
        try:
            made = Evaluator(lift, slew=self.slew)
        except InputError:
            return None
        alike = [each.title for each in made.rules] == [each.title for each in self.rules]
        return made if alike else None

    def _careful(self, arm: Arm, of: Told) -> list[Real]:
        """What some criteria allow with what is not known of the machine in it [kg]."""
        told = of(self, arm)
        if not self.doubted:
            return told
        if self.known:
            return self._by_members(told, arm, of)
        with np.errstate(invalid="ignore", divide="ignore"):
            pairs = ([_by(each, arm, of) for each in pair] for pair in self.beside)
            return with_tolerances(told, pairs, hopeful="machine" in self.lift.hopeful)

    def _by_members(self, told: list[Real], arm: Arm, of: Told) -> list[Real]:
        """What some criteria allow at the end of all that the machine may be [kg]."""
        first = len(self.rules) if of is Evaluator._told else 0
        if all(np.ndim(each) == 0 for each in told):
            # All criteria together: which members are at the end is decided by all of them.
            every = self._ended(np.array(_loads(self, arm), dtype=float), self.samples(arm))
            return list(every[first : first + len(told)])
        at = arm.lift_at
        return [
            self.used_more.taken_off(number, load, reach=at.u, height=at.w)
            for number, load in enumerate(told, first)
        ]

    def samples(self, arm: Arm) -> Floats:
        """What criteria allow to all members (C, N) [kg]; NaN where one does not reach there."""
        if self._sampled is None or self._sampled[0] is not arm:
            self._sampled = arm, self._samples(arm)
        return self._sampled[1]

    def _samples(self, arm: Arm) -> Floats:
        with np.errstate(invalid="ignore", divide="ignore"):
            found = _by(self.members, arm, _loads, reaching=True)
        if found is None:
            return np.zeros((len(_loads(self, arm)), 1))
        return np.array(np.broadcast_arrays(*found), dtype=float)

    def at_slews(self, rows: slice) -> Self:
        """The same at some rows of its slews."""
        if self.known:
            _ = self.used_more  # at all slews, before some of them are left
        some = super().at_slews(rows)
        if some is not self:
            some.beside = tuple(
                tuple(each and each.at_slews(rows) for each in ends) for ends in self.beside
            )
        return some

    @cached_property
    def titles(self) -> tuple[tuple[str, str], ...]:
        """Kinds and titles of all criteria, in the order that ``least`` counts."""
        arm = self.pose(np.ones(1), np.ones(1))  # any place: only the names of its parts count
        rules = ((rule.criterion.kind, rule.title) for rule in self.rules)
        rams = (("ram", joint.name) for joint in arm.joints)
        rated = ((each.kind, f"{each.name} ({each.where})") for each in self.ratings)
        plates = (("plate", "plate") for _ in self.plates)
        lean = self.lean(arm)
        kept = (*self.clearances(arm, lean), *self.stops(arm, lean))
        return (*rules, *rams, *rated, *plates, *((each.kind, each.title) for each in kept))

    def least(
        self, arm: Arm, *, flat: Least | None = None, kinds: Collection[str] | None = None
    ) -> Least:
        """The least allowed load over all criteria, and which of them sets it.

        Parameters
        ----------
        arm : Arm
            The lifting end, posed.
        flat : Least, optional
            What ``flat`` gave for the arm, where it is known: on level ground no slew changes it.
        kinds : collection, optional
            Only linear criteria of these kinds, and nothing else.
        """
        lean = self.lean(arm)
        load, which = (np.inf, 0) if kinds else flat or self.flat(arm, lean)
        rules = self._careful(arm, Evaluator._rules) if self.doubted else None
        for number, rule in enumerate(self.rules):
            if kinds and rule.criterion.kind not in kinds:
                continue
            if not rules and self._idle(rule, arm):
                continue
            allowed = rules[number] if rules else self._rule(rule, arm)
            which = np.where(allowed < load, COUNT(number), which)
            load = np.minimum(load, allowed)
        if kinds:
            return Least(load, which)
        stops = self.stops(arm, lean)
        for number, each in enumerate(stops, len(self.titles) - len(stops)):
            allowed = allowed_by(each) / self.lift.load_factor(each.kind).value
            which = np.where(allowed < load, COUNT(number), which)
            load = np.minimum(load, allowed)
        return Least(load, which)

    def _idle(self, rule: Rule, arm: Arm) -> bool:
        """Whether the rule surely holds at all places and slews, and no load takes from it."""
        if self.lift.unsteady or arm.lift_at.u.__class__ is float:
            return False
        masses = arm.joints[0].carried
        return any(
            _lowest(
                form.out,
                masses.first.u,
                form.carried(masses._replace(first=Point(0.0, masses.first.w))) + form.rest,
            )
            > 0
            and all(
                _lowest(form.out, at.u, form.above(at.w) - abs(form.left) * self.lift.side_room)
                >= 0
                for at in self.places(arm)
            )
            for form in rule.forms
        )

    def flat(self, arm: Arm, lean: Real) -> Least:
        """Least allowed load of all that is not linear: rams, ratings, plate, distances."""
        numbers = range(len(self.rules), 10**4)
        loads = [
            *self._careful(arm, Evaluator._told),
            *(allowed_by(each) for each in self.clearances(arm, lean)),
        ]
        load: Real = loads[0]
        which: Real = COUNT(numbers[0])
        for number, each in zip(numbers[1:], loads[1:], strict=False):
            which = np.where(each < load, COUNT(number), which)
            load = np.minimum(load, each)
        return Least(load, which)

    def _rule(self, rule: Rule, arm: Arm) -> Real:
        """What a rule allows, figures as they are told [kg]."""
        counts = self.lift.load_factor(rule.criterion.kind).value
        return rule.criterion.factor.value / counts * self.fails(rule, arm, self.lean(arm))

    def _rules(self, arm: Arm) -> list[Real]:
        """What every rule allows, figures as they are told [kg]."""
        return [self._rule(rule, arm) for rule in self.rules]

    def _told(self, arm: Arm) -> list[Real]:
        """What rams, ratings and plate allow, figures as they are told [kg]."""
        lean = self.lean(arm)
        counts, loads = partial(self.lift.load_factor, lean=lean), []
        for each in self.rams(arm, lean):
            held = RAM_SHARE.value / counts("ram").value
            loads.append(held * reduce(minimum, [place.capacity for place in each]))
        loads += [each.capacity / counts(each.kind).value for each in self.ratings]
        plate = counts("plate").value
        return loads + [each.allowed(self.reach(arm)) / plate for each in self.plates]

    def kept(self, arm: Arm) -> list[tuple[Real, Real]]:
        """By ``titles`` what is allowed with figures as told, and with their tolerances [kg].

        Distances are not in it: a figure's tolerance moves no log.
        """

        return list(zip(_loads(self, arm), self._careful(arm, _loads), strict=True))

    def most(self, arm: Arm) -> float:
        """What the most favourable of all that the machine may be is allowed [kg]."""
        lean = self.lean(arm)
        kept = [float(allowed_by(each)) for each in self.clearances(arm, lean)]
        for each in self.stops(arm, lean):
            kept.append(float(allowed_by(each)) / self.lift.load_factor(each.kind).value)
        return min(span(self.samples(arm))[1], *kept, math.inf)


def _loads(each: Evaluator, arm: Arm) -> list[Real]:
    """By ``titles`` what is allowed with figures as they are told [kg]."""
    return each._rules(arm) + each._told(arm)


class Least(NamedTuple):
    """A least allowed load [kg], NaN where a pose cannot be taken, and which criterion sets it."""

    load: Real
    which: Real


def _by(each: Evaluator | None, arm: Arm, of: Told, *, reaching: bool = False) -> list[Real] | None:
    """What another machine is allowed, its hook at the same place [kg]; None where none can be.

    Where only machines that reach there are asked for, NaN for one that does not.
    """
    if each is None:
        return None
    try:
        posed = each.pose(arm.lift_at.u, arm.lift_at.w)
        loads = of(each, posed)
    except (InputError, ValueError):
        return None
    if not reaching:
        return loads
    beyond: Real = reduce(np.logical_or, [stop.violated for stop in posed.stops])
    return [np.where(beyond, np.nan, load)[()] for load in loads]


def _lowest(slope: Real, along: Real, fixed: Real) -> Real:
    """No more than the least of slope·along + fixed over all rows and places."""
    low, high = along.min(), along.max()
    return np.min(np.minimum(slope * low, slope * high)) + np.min(fixed)
