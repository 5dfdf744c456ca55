"""One lift as asked: the machine, the end, the log, the place, the ground. All in SI."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Literal

import numpy as np

from liftcalc.evaluation.lean import Lean
from liftcalc.evaluation.ways import every_way, turned
from liftcalc.factors import STUMP, CapacityFactor, Duty, load_factor
from liftcalc.machines.assembly import back_point, front_point
from liftcalc.machines.condition import SOFT_TYRE_DROP, Condition
from liftcalc.machines.number import plain
from liftcalc.machines.schema import Attachment, EndName, LiftPoint, Machine
from liftcalc.machines.supports import Stance
from liftcalc.physics import formulas
from liftcalc.physics.functions import Real, is_zero, maximum, minimum
from liftcalc.physics.plane import Point
from liftcalc.physics.worked import Worked, work
from liftcalc.physics.wrench import LevelForce
from liftcalc.remarks import Remark
from liftcalc.rigging.gear import Gear
from liftcalc.rigging.grip import Surface
from liftcalc.rigging.lift_mode import LiftMode, Pull, pull
from liftcalc.rigging.sling import Sling
from liftcalc.shown import Shown
from liftcalc.site.ground import Ground, ground
from liftcalc.site.hazards import Hazards
from liftcalc.site.motion import Motion, slewing
from liftcalc.site.site import Site
from liftcalc.site.wind import wind_on_log, wind_on_machine
from liftcalc.timber.log import LogEstimate, LogMeasure

Untyped = Literal["ground", "machine", "hanging quiet"]
"""Ranges that no request types; the last: whether a hung log swings when its slewing stops."""

OFF_CENTRE = 0.05
"""Share of its length by which a carried log may lie off its balance, to the worse side [-].

Common practice, no source."""


@dataclass(frozen=True, kw_only=True, repr=False)
class Lift(Shown):
    """A lift of one log by one end, at one place.

    Attributes
    ----------
    machine, end, tool, point
        The machine, the end that lifts, what is fitted there and where on it the load is taken.
    other_tool, others
        What is fitted at the other end, and what may be beside it where nobody said.
    measure, log
        The log as measured and as weighed.
    height : float
        Of the lift point above the ground [m].
    reach : float or None
        Of the lift point from the slew axis (back) or ahead of the front axle (front) [m]. At the
        front the arms decide it: given, it must not be farther than they put it.
    slew, sideshift : float
        Of the back end [rad, m].
    tilt : float
        Of a front attachment to the horizontal [rad].
    curl : float
        Share of the bucket ram's stroke [-].
    stance, travelling
        What the machine stands on, and whether it carries the load on the move.
    swing, wind : float
        Lean of a hanging load, and speed of a gust [rad, m/s].
    gauge : float or None
        Pressure read on the machine [Pa]; replaces the book's, never above it.
    plate : float or None
        Rated load for this lift from the machine's own plate or chart [kg].
    off_centre : float or None
        How far a cradled or gripped log lies off its balance point [m].
    sling, gear, taken
        How the log is slung, what with, and whether all of it is lifted.
    surface : Surface
        What of the log a jaw or grab presses on.
    ground : Ground or None
        What the machine stands on; None where nobody said.
    mat : float or None
        Side of a square mat under each pad [m].
    proved : float or None
        Force under which each pad, or each front tyre of a machine on its wheels, stood here and
        did not sink [N], and that is allowed less ``PROOF_FACTOR`` on any ground; not after rain,
        nor at another place or pad.
    motion, hazards
        How the machine moves, and what is near it.
    condition : Condition
        What a walk round the machine found.
    operator : bool or None
        Whether somebody sits in the seat; None is not known.
    level_within : float
        Slope that the ground may have unseen, whichever way [rad].
    devices, at_balance, loads_only
        Whether overload warning and boom-lowering control are fitted; whether the log was seen to
        hang level; whether only what a load decides is asked, as for a map of no log.
    hopeful : frozenset of str
        Which of those ranges are at their favourable end; else they are at the careful.
    braked : float
        Of the site's acceleration forward, what braking adds [m/s²]: it asks for no grip, since
        wheels that slide stop the machine later.
    stand_in, exact : bool
        Whether the log only stands in for one, and so is no load that is surely there; whether
        figures of the machine are taken as told, without their tolerances: in lessons.
    assumed : tuple of Remark
        What was not given, and was taken so.
    """

    machine: Machine
    end: EndName
    tool: Attachment
    point: LiftPoint
    other_tool: Attachment
    measure: LogMeasure
    log: LogEstimate
    height: float
    reach: float | None = None
    slew: float = 0.0
    sideshift: float = 0.0
    tilt: float = 0.0
    curl: float = 0.8
    stance: Stance = "stabilisers"
    travelling: bool = False
    site: Site = field(default_factory=Site)
    swing: float = 0.0
    wind: float = 0.0
    sling: Sling = field(default_factory=Sling)
    gauge: float | None = None
    plate: float | None = None
    operator: bool | None = True
    others: tuple[Attachment, ...] = ()
    level_within: float = 0.0
    off_centre: float | None = None
    gear: Gear = field(default_factory=Gear)
    taken: LiftMode = field(default_factory=LiftMode)
    surface: Surface = "bark on, wet"
    ground: Ground | None = None
    mat: float | None = None
    proved: float | None = None
    motion: Motion = field(default_factory=Motion)
    hazards: Hazards = field(default_factory=Hazards)
    condition: Condition = field(default_factory=Condition)
    devices: Literal["fitted", "none"] | None = None
    loads_only: bool = False
    at_balance: bool = False
    hopeful: frozenset[Untyped] = frozenset()
    braked: Real = 0.0
    stand_in: bool = False
    exact: bool = False
    assumed: tuple[Remark, ...] = ()

    @cached_property
    def duty(self) -> Duty:
        """How the machine holds the load; decides the share of the tipping load."""
        if self.travelling:
            return "travelling"
        if self.end == "back" and self.stance != "wheels":
            return "stabilisers"
        return "standing"

    @property
    def stump(self) -> float:
        """Height of what a front wheel climbs on the way [m]."""
        return STUMP["ground" in self.hopeful]

    def load_factor(self, kind: str, *, lean: Real = 0.0) -> CapacityFactor:
        """What hangs on the lift point counts for in a kind of criterion, for what it weighs.

        ``lean`` is how far it may lean at most [rad]; of that it swings all but its pull.
        """
        swing = 0.0 if is_zero(lean) else maximum(lean - self.pull.lean, 0.0)
        pulls = 1.0 if is_zero(swing) else formulas.swing_pull(swing=swing).swing_pull
        return load_factor(
            kind,
            duty=self.duty,
            speed=self.motion.speed,
            stump=self.stump,
            breakout=self.taken.breakout,
            swing_pull=pulls,
        )

    @cached_property
    def moved(self) -> LiftMode:
        """How the log is taken as the machine moves: one end up while it drives is drawn."""
        drawn = self.travelling and self.taken.way == "one end"
        return replace(self.taken, way="drawn, one end up") if drawn else self.taken

    @cached_property
    def pull(self) -> Pull:
        """What of the log's weight the lift point bears, and how far that leans."""
        return pull(
            self.moved,
            log_length=self.measure.length,
            cog_from_butt=self.log.cog_from_butt,
            diameter=self.log.largest_diameter,
            slope=float(np.max(self.site.slope)),
        )

    @cached_property
    def needed(self) -> float:
        """What hangs on the lift point, and must be allowed there for this log to pass [kg]."""
        return self.rigging + self.pull.share * self.log.mass_planning

    @property
    def surely(self) -> float:
        """Load that is surely there, at its least when it jolts [kg]: counted where it mends."""
        if self.stand_in or self.taken.way != "whole":
            return 0.0
        return (self.rigging + self.log.mass_low) / self.load_factor("least axle load").value

    @property
    def friction(self) -> float:
        """Grip of braked wheels or pads on the ground [-]."""
        if self.motion.friction is not None:
            return self.motion.friction
        return self.stands_on.friction.end("ground" in self.hopeful)

    @property
    def proof(self) -> Literal["pad", "front tyre"] | None:
        """What the ground was proved under; on the move it is not the same ground."""
        if self.proved is None or self.travelling:
            return None
        if self.stance != "wheels":
            return "pad"
        return "front tyre" if self.end == "front" else None

    @property
    def stands_on(self) -> Ground:
        """The ground, unknown where nobody said it."""
        return self.ground or ground("unknown")

    def in_machine(self, at: Point) -> tuple[Real, Real, Real]:
        """A point of the lifting end's plane in the machine frame [m]."""
        if self.end == "front":
            return front_point(at)
        return back_point(self.machine, at, slew=self.slew, sideshift=self.sideshift)

    @cached_property
    def rigging(self) -> float:
        """Mass that hangs on the lift point beside the log [kg]."""
        return self.sling.mass if self.point.hold == "hangs" else 0.0

    @property
    def slung(self) -> bool:
        """Whether the log hangs in a sling, and not in a grab."""
        return self.point.hold == "hangs" and self.tool.mount != "hangs"

    @cached_property
    def swings(self) -> bool:
        """Whether the load may lean out of the plumb line; only a hanging one does."""
        return self.point.hold == "hangs" and bool(
            self.swing
            or self.motion.slew_speed
            or not is_zero(self.site.acceleration)
            or self.pull.lean
        )

    @cached_property
    def level_forces(self) -> tuple[LevelForce, ...]:
        """Forces on the machine and its load that no mass scales, from any side."""
        if is_zero(self.wind):
            return ()
        wheels, front, back = self.machine.wheels, self.machine.front, self.machine.back
        on_machine = wind_on_machine(
            speed=self.wind,
            rear=-maximum(plain(wheels.rear_radius), -plain(back.slew_axis_x)),
            front=plain(wheels.wheelbase + wheels.front_radius),
            top=maximum(
                plain(front.arm_pivot[1] + front.arm.length),
                plain(back.foot_pin[1] + back.boom.length),
            ),
        )
        length, diameter = self.measure.length, self.log.largest_diameter
        return on_machine, wind_on_log(speed=self.wind, length=length, diameter=diameter)

    @cached_property
    def push_on_load(self) -> Real:
        """Size of all level forces on the load [N]."""
        return sum(each.size for each in self.level_forces if each.at is None)

    @cached_property
    def unsteady(self) -> bool:
        """Whether anything may push or pull level from any side."""
        return self.swings or bool(self.level_forces)

    @cached_property
    def blown(self) -> Worked | None:
        """How far level forces swing a hanging log at its lightest; None where they do not.

        Their moments are counted at the lift point, so this is only for what must be kept clear.
        """
        if is_zero(self.push_on_load) or self.point.hold != "hangs":
            return None
        acceleration = self.push_on_load / self.log.mass_low
        return work("blown aside", formulas.swing_from_rest, steady_acceleration=acceleration)

    @property
    def pushes(self) -> tuple[Worked, ...]:
        """How every level force was found, and how far they blow the log aside."""
        return (*(each.worked for each in self.level_forces), *filter(None, (self.blown,)))

    def leaning(self, *, reach: Real) -> Lean:
        """How far the load may lean at most, at a reach [rad]; at most a right angle.

        The swing that was said, that of slewing stopped at the worst moment (at the favourable end:
        once the load hangs quiet), as much again as the machine's own acceleration
        leans it (from rest it swings to twice that), and the pull of a log that is skidded: their
        sum, as if all came together. Overstates.
        """
        if not self.swings:
            return Lean(0.0, None, None, 0.0, 0.0)
        motion, shaken, turned = self.motion, None, None
        total: Real = self.swing + self.pull.lean
        if not is_zero(self.site.acceleration):
            shaken = work(
                "shaken", formulas.swing_from_rest, steady_acceleration=self.site.acceleration
            )
            total = total + shaken.steps.lean
        if motion.slew_speed and motion.slew_stop is not None and self.end == "back":
            turned = slewing(
                radius=reach,
                slew_speed=motion.slew_speed,
                slew_stop=motion.slew_stop,
                settled="hanging quiet" in self.hopeful,
            )
            total = total + turned.steps.slewing_swing
        return Lean(self.swing, shaken, turned, self.pull.lean, minimum(total, math.pi / 2))

    def lean(self, *, reach: Real) -> Real:
        """How far the load may lean at most, at a reach [rad]."""
        return self.leaning(reach=reach).total

    @property
    def hung(self) -> Real:
        """Mass of an attachment that swings with its load [kg]; none when nothing swings."""
        return plain(self.tool.mass) if self.tool.mount == "hangs" and self.swings else 0.0

    @property
    def journey(self) -> tuple[Worked, ...]:
        """What a turn asks of the machine to the side and along it; none where none was said."""
        return turned(self)

    @property
    def ways(self) -> tuple[Lift, ...]:
        """This lift with its journey put into its site, every way it may go: the worst counts."""
        return every_way(self)

    @property
    def side_room(self) -> float:
        """How far sideways the load's weight may lie [m].

        A hanging log finds its place but for play; a carried one lies off its balance as well.
        """
        stray = self.condition.stray
        if self.point.hold == "hangs":
            return stray
        if self.off_centre is not None:
            return abs(self.off_centre) + stray
        return OFF_CENTRE * self.measure.length + stray

    @property
    def on_tyres(self) -> bool:
        """Whether what is lifted comes on the tyres."""
        return self.end == "front" or self.stance == "wheels"

    @property
    def tyre_share(self) -> float:
        """Share of its rating that an axle keeps [-]; a soft tyre bears an idle axle as before."""
        return self.condition.tyre_share if self.on_tyres else 1.0

    @property
    def sunk(self) -> Real:
        """Slope that the machine may come to lean by as a tyre or stabiliser gives way [-]."""
        if self.stance != "wheels":
            return self.condition.sunk / plain(self.machine.stabilisers.pad_spread)
        if not self.condition.has("soft tyre"):
            return 0.0
        wheels = self.machine.wheels
        return SOFT_TYRE_DROP / minimum(plain(wheels.rear_track), plain(wheels.front_track))
