"""How a boom ram is sized: for what the dipper's end must lift at full reach, as makers size it.

So bores, pressures, pins and reach of members go together as they do on machines: a long boom has
a thick ram, and the lift at full reach differs far less than each of them would make it.
"""

from __future__ import annotations

import math

import numpy as np

from liftcalc.family.figures import Figures
from liftcalc.physics.functions import Real, atan2, cos, hypot, sin
from liftcalc.physics.plane import Point, turned
from liftcalc.units import G0


def boom_bore(f: Figures, *, base: Point, rod_pin: Point, pulls: bool) -> Real:
    """Bore of a boom ram that lifts ``f["boom_lift"]`` at the nose pin, stretched out level [m].

    Parameters
    ----------
    f : dict
        Figures of members, all but the bore.
    base, rod_pin : Point
        The ram's pins: from the foot pin, and in the boom's frame [m].
    pulls : bool
        Whether it lifts by pulling: its rod then takes from its area.
    """
    boom, dipper = f["boom_length"], f["dipper_length"] * f["boom_length"]
    out = f["stretched"]
    along, across = boom + dipper * cos(out), dipper * sin(out)
    stands = -atan2(across, along)
    on_boom = turned(origin=Point(0.0, 0.0), angle=stands)
    on_dipper = turned(origin=on_boom.along(boom), angle=stands + out)
    cog = on_boom.place(Point(f["boom_cog_along"] * boom, f["boom_cog_up"] * boom))
    outer = on_dipper.place(Point(f["dipper_cog_along"] * dipper, f["dipper_cog_up"] * dipper))
    reach = hypot(along, across)
    moment = G0 * (f["boom_mass"] * cog.u + f["dipper_mass"] * outer.u + f["boom_lift"] * reach)
    pin = on_boom.turn(rod_pin)
    arm = abs(base.u * pin.w - base.w * pin.u) / hypot(pin.u - base.u, pin.w - base.w)
    area = moment / (arm * f["pressure"] * f["efficiency"])
    share = 1 - f["boom_rod"] ** 2 if pulls else 1.0
    with np.errstate(invalid="ignore"):  # no machine at all: far off its family in every way
        return np.sqrt(4 / math.pi * area / share)
