"""How far an end reaches, a pose to draw it in, and why a place cannot be reached."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from liftcalc.errors import PoseError
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.posed_lift import pose_of
from liftcalc.evaluation.sweep import Sweep, sweep
from liftcalc.maps.cell_bounds import Indices
from liftcalc.maps.unreachable import Reason, reasons_of
from liftcalc.remarks import Phrase, Remark, near

POSED_AT = 0.7
"""Share of the reachable places at which the machine is drawn when no place is asked for [-]."""


def span_back(lift: Lift) -> tuple[float, float]:
    """Farthest reach and highest place of a straight arm [m]; its rams may allow less."""
    span = pose_of(lift, np.ones(1), np.ones(1)).stops[0].most
    foot = lift.machine.back.foot_pin
    return float(foot[0]) + span, float(foot[1]) + span


def span_front(lift: Lift) -> tuple[float, float]:
    """Lowest and highest place of the lift point with the arms straight down and up [m]."""
    pin = pose_of(lift, None, np.zeros(1)).stops[0]
    up = float(np.asarray(pin.needs)[0])
    return pin.least - up, pin.most - up


def posed_back(lift: Lift) -> Lift:
    """The lift at a place that can be taken: as asked, or well out at its height."""
    if lift.reach is not None:
        return lift
    out, _ = span_back(lift)
    line = np.linspace(0.0, out, 400)
    height = np.full(line.size, lift.height)
    found = sweep(lift, reach=line, height=height, slew=lift.slew)
    good = line[~np.isnan(found.allowed[:, 0])]
    if not good.size:
        said, reasons = reasons_of(pose_of(lift, line, height), (found.stopped[:, 0],), skip=2)
        raise nothing_reached(lift, said, reasons)
    return replace(lift, reach=round(float(good[int(POSED_AT * (good.size - 1))]), 3))


def posed_front(lift: Lift, found: Sweep) -> Lift:
    """The lift at a height that can be taken: as asked, or well up."""
    good = found.height[~np.isnan(found.allowed[:, 0])]
    if good.size and good.min() <= lift.height <= good.max():
        return replace(lift, reach=None)
    at = float(good[int(POSED_AT * (good.size - 1))])
    return replace(lift, reach=None, height=at)


def nothing_reached(lift: Lift, said: Indices, reasons: tuple[Reason, ...]) -> PoseError:
    """The error that nothing can be reached, with the reasons, the commonest first."""
    counts = [(int((said == n).sum()), each.words) for n, each in enumerate(reasons)]
    why = "; ".join(dict.fromkeys(words for count, words in sorted(counts, reverse=True) if count))
    back = lift.end == "back"
    return PoseError.of(
        field="height" if back else f"{lift.tool.name} at this tilt",
        given=Phrase("{height}", height=near(lift.height, "length"))
        if back
        else f"{math.degrees(lift.tilt):.0f}°",
        wanted="a place that the machine can take" + (f" ({why})" if why else ""),
        fix=f"choose another {'height' if back else 'tilt'}",
    )


def uneven(lift: Lift) -> tuple[Remark, ...]:
    """What makes left and right differ."""
    said = []
    if lift.sideshift:
        side = "left" if lift.sideshift > 0 else "right"
        by = near(abs(lift.sideshift), "length")
        said.append(Remark("is_sideshifted", by=by, side=side))
    if lift.site.gravity[1] != 0:
        said.append(Remark("leans_sideways"))
    aside = [each.name for each in lift.machine.carried if float(each.at[1]) != 0]
    if aside:
        said.append(Remark("lies_aside", parts=tuple(aside)))
    return tuple(said)
