"""The ground under the machine and the motion of the machine: one effective gravity."""

from __future__ import annotations

from dataclasses import dataclass

from liftcalc.physics import written
from liftcalc.physics.plane import Real


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """Slope, its heading and the machine's own acceleration.

    ``slope`` [rad] with ``heading`` the uphill direction in the machine frame [rad] (0 nose
    uphill, +90° left side uphill); accelerations along the machine's axes [m/s²]: braking is
    negative forward, a left turn positive left. Any may be an array.
    """

    slope: Real = 0.0
    heading: Real = 0.0
    acceleration_forward: Real = 0.0
    acceleration_left: Real = 0.0

    @property
    def gravity(self) -> tuple[Real, Real, Real]:
        """Effective gravity in the machine frame [m/s²]."""
        found = written.effective_gravity(
            slope=self.slope,
            heading=self.heading,
            acceleration_x=self.acceleration_forward,
            acceleration_y=self.acceleration_left,
            acceleration_z=0.0,
        )
        return found.gravity_x, found.gravity_y, found.gravity_z
