"""The ground under the machine and the motion of the machine: one effective gravity."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from liftcalc.physics import formulas
from liftcalc.physics.functions import Real, hypot
from liftcalc.physics.worked import Worked, work


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """Slope, its heading and the machine's own acceleration.

    ``slope`` [rad] with ``heading`` the uphill direction in the machine frame [rad] (0 nose
    uphill, +90° left side uphill); accelerations along the machine's axes [m/s²]: braking is
    negative forward, a left turn positive left. Any may be an array. ``levelled`` says that the
    machine itself was brought level on its stabilisers or on packing.
    """

    slope: Real = 0.0
    heading: Real = 0.0
    acceleration_forward: Real = 0.0
    acceleration_left: Real = 0.0
    levelled: bool = False

    @property
    def steepest(self) -> Site:
        """The site itself, or of several in arrays the steepest."""
        figures = (self.slope, self.heading, self.acceleration_forward, self.acceleration_left)
        if all(np.ndim(each) == 0 for each in figures):
            return self
        slopes, *others = np.broadcast_arrays(*figures)
        at = int(np.argmax(np.abs(slopes)))
        slope, heading, forward, left = (float(each.flat[at]) for each in (slopes, *others))
        return Site(
            slope=slope,
            heading=heading,
            acceleration_forward=forward,
            acceleration_left=left,
            levelled=self.levelled,
        )

    @property
    def acceleration(self) -> Real:
        """Size of the machine's own acceleration [m/s²]."""
        return hypot(self.acceleration_forward, self.acceleration_left)

    @property
    def leans(self) -> bool:
        """Whether the machine stands on a slope without having been levelled."""
        return bool(np.any(np.asarray(self.slope) != 0)) and not self.levelled

    def rise(self, *, x: Real, y: Real) -> Real:
        """How much higher than under the frame's origin the ground is at a place [m]; exact."""
        uphill = x * np.cos(self.heading) + y * np.sin(self.heading)
        return np.tan(self.slope) * uphill

    @property
    def gravity_worked(self) -> Worked:
        """Effective gravity in the machine frame [m/s²], as worked."""
        return work(
            "ground",
            formulas.effective_gravity,
            slope=0.0 if self.levelled else self.slope,
            heading=self.heading,
            acceleration_x=self.acceleration_forward,
            acceleration_y=self.acceleration_left,
            acceleration_z=0.0,
        )

    @property
    def gravity(self) -> tuple[Real, Real, Real]:
        """Effective gravity in the machine frame [m/s²]."""
        x, y, z = self.gravity_worked.steps
        return x, y, z
