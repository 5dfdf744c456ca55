"""One lift as asked: the machine, the end, the log, the place, the ground. All in SI."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from liftcalc.machines.schema import Attachment, EndName, LiftPoint, Machine
from liftcalc.machines.standing import Stance, back_point, front_point
from liftcalc.machines.stops import Stop
from liftcalc.physics.plane import Point, Real
from liftcalc.rigging.sling import Sling
from liftcalc.rules import STANDING_LOAD_FACTOR, TRAVELLING_LOAD_FACTOR, Duty, Share
from liftcalc.site.ground import Site
from liftcalc.timber.log import LogEstimate, LogMeasure

OFF_CENTRE = 0.05
"""Share of its length by which a carried log may lie off its balance [-].

Common practice, no source. Taken to whichever side tips the machine sooner.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lift:
    """A lift of one log by one end, at one place.

    Attributes
    ----------
    machine, end, tool, point
        The machine, the end that lifts, what is fitted there and where on it the load is taken.
    other_tool
        What is fitted at the other end.
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
    swing : float
        Lean of a hanging load [rad].
    gauge : float or None
        Pressure read on the machine [Pa]; replaces the book's, never above it.
    plate : float or None
        Rated load for this lift from the machine's own plate or chart [kg].
    off_centre : float or None
        How far a cradled or gripped log lies off its balance point [m].
    assumed : tuple of str
        What was not given and was taken as said.
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
    sling: Sling = field(default_factory=Sling)
    gauge: float | None = None
    plate: float | None = None
    operator: bool = True
    off_centre: float | None = None
    assumed: tuple[str, ...] = ()

    @property
    def duty(self) -> Duty:
        """How the machine holds the load; decides the share of the tipping load."""
        if self.travelling:
            return "travelling"
        if self.end == "back" and self.stance != "wheels":
            return "stabilisers"
        return "standing"

    @property
    def load_factor(self) -> Share:
        """What the log pulls for what it weighs."""
        return TRAVELLING_LOAD_FACTOR if self.travelling else STANDING_LOAD_FACTOR

    @property
    def needed(self) -> float:
        """What the lift point must be allowed for this log to pass [kg]."""
        return self.rigging + self.load_factor.value * self.log.mass_planning

    def in_machine(self, at: Point) -> tuple[Real, Real, Real]:
        """A point of the lifting end's plane in the machine frame [m]."""
        if self.end == "front":
            return front_point(at)
        return back_point(self.machine, at, slew=self.slew, sideshift=self.sideshift)

    @property
    def rigging(self) -> float:
        """Mass that hangs on the lift point beside the log [kg]."""
        return self.sling.mass if self.point.hold == "hangs" else 0.0

    @property
    def lean(self) -> float:
        """How far the load may swing [rad]; only a hanging one does."""
        return self.swing if self.point.hold == "hangs" else 0.0

    @property
    def hung(self) -> float:
        """Mass of an attachment that swings with its load [kg]; none when nothing swings."""
        return float(self.tool.mass) if self.tool.mount == "hangs" and self.lean else 0.0

    @property
    def side_room(self) -> float:
        """How far sideways a carried log's weight may lie [m]; a hanging one finds its place."""
        if self.point.hold == "hangs":
            return 0.0
        if self.off_centre is not None:
            return abs(self.off_centre)
        return OFF_CENTRE * self.measure.length


def back_stops(lift: Lift, *, slew: Real) -> tuple[Stop, ...]:
    """Limits of the back end's slew and sideshift."""
    back = lift.machine.back
    return (
        Stop(name="slew", needs=np.abs(slew), least=0.0, most=back.slew_limit, unit="rad"),
        Stop(name="sideshift", needs=abs(lift.sideshift), least=0.0,
             most=max(float(back.sideshift_limit), 0.0)),
    )  # fmt: skip
