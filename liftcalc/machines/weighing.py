"""Where a machine's centre of gravity is, from weighing its axles level and with one raised."""

from __future__ import annotations

import math
from dataclasses import dataclass

from liftcalc.errors import Gather, InputError
from liftcalc.machines.assembly import PointMass, assemble, travel_back, travel_front
from liftcalc.machines.lookup import attachment
from liftcalc.machines.schema import Machine
from liftcalc.physics import formulas
from liftcalc.physics.worked import Worked, work

WEIGHING_SLIP = 20.0
"""What a weighing may be out by [kg]; common practice, no source: one step of a weighbridge."""

RAISE_SLIP = 0.01
"""What a raise measured by tape under a tyre may be out by [m]; common practice, no source."""

LEAST_RAISE = 0.1
"""Least raise that is reckoned with [m]: below it the slips drown the answer."""

HIGHEST = 3.0
"""Height that no loader-backhoe's centre of gravity reaches [m]; catches slips, not machines."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighings:
    """A machine weighed level, then with one axle raised; brakes off, free to roll.

    Attributes
    ----------
    total, front_level : float
        Whole machine, and its front axle when level [kg].
    front_raised : float
        Front axle when one axle is raised [kg].
    raise_height : float
        Front tyres above the rear tyres then [m]; negative when the rear axle was raised.
    wheelbase, front_radius, rear_radius : float
        Axle to axle, and each axle above the ground when level [m].

    Raises
    ------
    InputError
        With a fault for every figure that cannot be.
    """

    total: float
    front_level: float
    front_raised: float
    raise_height: float
    wheelbase: float
    front_radius: float
    rear_radius: float

    def __post_init__(self) -> None:
        gather = Gather()
        for name, unit in (
            ("total", "kg"),
            ("wheelbase", "m"),
            ("front_radius", "m"),
            ("rear_radius", "m"),
        ):
            with gather:
                self._above_zero(name, unit)
        for name in ("front_level", "front_raised"):
            with gather:
                self._part_of_total(name)
        with gather:
            self._can_be_raised_so()
        gather.raise_any()
        self._raised_axle_is_lighter()

    def _above_zero(self, name: str, unit: str) -> None:
        value = getattr(self, name)
        if not (value > 0 and math.isfinite(value)):
            raise InputError.of(
                field=name.replace("_", " "), given=f"{value:g} {unit}", wanted="a value above zero"
            )
        if name.endswith("radius") and value >= self.wheelbase / 2:
            raise InputError.of(
                field=name.replace("_", " "),
                given=f"{value:g} m, wheelbase {self.wheelbase:g} m",
                wanted="a radius below half the wheelbase",
                fix="measure from the ground up to the middle of the axle",
            )

    def _part_of_total(self, name: str) -> None:
        value = getattr(self, name)
        if not 0 < value < self.total:
            raise InputError.of(
                field=name.replace("_", " "),
                given=f"{value:g} kg of {self.total:g} kg",
                wanted="a part of the whole mass that leaves something on each axle",
                fix="weigh the front axle alone; both figures are of the front axle, whichever "
                "axle is raised",
            )

    def _can_be_raised_so(self) -> None:
        high = abs(self.raise_height)
        # Half the wheelbase is a pitch of 30°: nobody raises a machine farther to weigh it.
        if not LEAST_RAISE <= high <= self.wheelbase / 2:
            raise InputError.of(
                field="raised by",
                given=f"{self.raise_height:g} m",
                wanted=f"a raise between {LEAST_RAISE:g} m and half the wheelbase",
                fix="0.4 to 0.6 m is a good height: less drowns in what the scale is out by",
            )

    def _raised_axle_is_lighter(self) -> None:
        """So it is wherever the centre of gravity lies above the axles."""
        if (self.front_raised < self.front_level) != (self.raise_height > 0):
            raised, other = ("front", "rear") if self.raise_height > 0 else ("rear", "front")
            raise InputError.of(
                field="front raised",
                given=f"{self.front_raised:g} kg, level {self.front_level:g} kg",
                understood=f"the {raised} axle raised, and heavier for it",
                wanted="a raised axle that is lighter than level",
                fix=f"both figures are of the front axle: was it the {other} that was raised?",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """The whole machine's centre of gravity, as weighed.

    Attributes
    ----------
    ahead, behind : float
        Ahead of the rear axle; behind the front axle [m].
    height : float
        Above the ground, level [m].
    level_moves, raised_moves : float
        How much the height moves when the level or the raised weighing is out by
        ``WEIGHING_SLIP`` [m].
    raise_moves : float
        How much it moves when the raise is out by ``RAISE_SLIP`` [m].
    worked : Worked
    """

    ahead: float
    behind: float
    height: float
    level_moves: float
    raised_moves: float
    raise_moves: float
    worked: Worked

    @property
    def moves(self) -> float:
        """All three together, each the worst way [m]; overstates the doubt."""
        return self.level_moves + self.raised_moves + self.raise_moves


def _given(given: Weighings) -> dict[str, float]:
    return {
        "wheelbase": given.wheelbase,
        "front_radius": given.front_radius,
        "rear_radius": given.rear_radius,
        "raise_height": given.raise_height,
        "whole_mass": given.total,
        "front_level": given.front_level,
        "front_raised": given.front_raised,
    }


def weighed(given: Weighings) -> Weighed:
    """Centre of gravity of a machine from two weighings.

    Parameters
    ----------
    given : Weighings

    Returns
    -------
    Weighed

    Raises
    ------
    InputError
        When the height comes out as no machine's can.

    Notes
    -----
    Exact for tyres that squash alike in both weighings and unequal radii. The textbook form for
    equal radii may be ten per cent out on such a machine.
    """
    worked = work("centre of gravity by weighing", formulas.cog_by_weighing, **_given(given))
    found = worked.steps
    if not 0.0 < found.cog_up < HIGHEST:
        raise InputError.of(
            field="front raised",
            given=f"{given.front_raised:g} kg, level {given.front_level:g} kg",
            understood=f"a centre of gravity {found.cog_up:.2f} m above the ground",
            wanted=f"weighings that put it between the ground and {HIGHEST:g} m",
            fix="were the brakes off, and the arms and the back end the same both times?",
        )
    return Weighed(
        ahead=float(found.cog_ahead),
        behind=given.wheelbase - float(found.cog_ahead),
        height=float(found.cog_up),
        level_moves=_moves(given, "front_level", WEIGHING_SLIP),
        raised_moves=_moves(given, "front_raised", WEIGHING_SLIP),
        raise_moves=_moves(given, "raise_height", RAISE_SLIP),
        worked=worked,
    )


def _moves(given: Weighings, name: str, slip: float) -> float:
    """How far the height moves when one figure is out by a slip, the worse way [m]."""
    figures = _given(given)

    def height(by: float) -> float:
        off = {**figures, name: figures[name] + by}
        return float(formulas.cog_by_weighing(**off).cog_up)

    return max(abs(height(slip) - height(0.0)), abs(height(-slip) - height(0.0)))


def rest_of_machine(machine: Machine) -> tuple[PointMass, ...]:
    """All lumps but the chassis, as the machine is weighed: travel pose, nobody on board."""
    aboard = assemble(
        machine,
        front=travel_front(machine, attachment(machine, end="front")),
        back=travel_back(machine, attachment(machine, end="back")),
        slew=0.0,
        sideshift=0.0,
        stance="wheels",
    ).lumps
    left_out = {each.name for each in machine.carried if not each.weighed} | {"chassis"}
    return tuple(lump for lump in aboard if lump.name not in left_out)


def chassis_height(machine: Machine, *, total: float, height: float) -> Worked:
    """Height of the chassis that makes the whole machine's centre of gravity come out so [m].

    Parameters
    ----------
    machine : Machine
        Whose arms, back end, legs and carried things are taken off, in its travel pose.
    total, height : float
        Whole machine as weighed [kg], and its centre of gravity above the ground [m].

    Raises
    ------
    InputError
        When nothing is left for the chassis, or it would lie below the ground.

    Notes
    -----
    Exact; carries the errors of the file's other lumps. Links assumed too heavy or too high make
    the chassis come out too low, which overstates stability once they are lowered.
    """
    rest = rest_of_machine(machine)
    mass = float(sum(lump.mass for lump in rest))
    if mass < total:
        made = work(
            "height of the chassis",
            formulas.chassis_by_weighing,
            whole_mass=total,
            cog_up=height,
            rest_mass=mass,
            rest_moment=float(sum(lump.mass * lump.z for lump in rest)),
        )
        if 0 < made.result < HIGHEST:
            return made
        understood = f"a chassis {made.result:.2f} m above the ground"
    else:
        understood = f"parts of {mass:.0f} kg"
    raise InputError.of(
        field="machine",
        given=f"{machine.name}, weighed {total:g} kg, centre of gravity {height:.2f} m up",
        understood=understood,
        wanted="parts lighter than the whole, and a chassis between the ground and 3 m",
        fix="was it weighed in the file's travel pose? check the masses of its links",
    )
