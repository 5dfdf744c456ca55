"""A photograph as least squares: what is known of it, against camera, points and planes.

The camera is a pinhole of unknown place, direction, focal length and distortion (``camera``); every
point lies in a plane of its own across the machine, known only within a tolerance
(``picture_points``). Scale comes from the taped lengths alone, what is level from the ground under
tyres, pads and attachments.
"""

from __future__ import annotations

import math
from typing import Any, NamedTuple

import numpy as np

from liftcalc.family.camera import FILM_DIAGONAL, Camera, project
from liftcalc.family.photograph import Photograph
from liftcalc.family.picture_points import NEEDED, POINTS, Aside, usual_aside
from liftcalc.machines.number import plain

LOADER, BACK, SLEW = 0.06, 0.03, math.radians(0.6)
"""Standard deviations of what all pins of an end lie aside together: loader arms nearer or farther
apart, a back end not quite in the middle [m] and not quite straight back [rad]; judgement."""
KNOWN = 11
"""Unknowns of which something is known beforehand: eight of the camera, three of the ends."""
REAR_AXLE = 0.001
"""The rear hub is where x begins, within [m]."""
UNDER_HUB = 0.03
"""Standard deviation of where one sees a tyre's lowest point from below its hub [m]; judgement."""
ABREAST = 0.015
"""Standard deviation of two pads from being level with each other fore and aft [m]; judgement."""


class Usual(NamedTuple):
    """What a figure of a photograph is usually, and its standard deviation."""

    value: float
    sigma: float


USUAL = Camera(
    log_distance=Usual(math.log(12.5), 0.35),
    looks_at=Usual(0.0, 3.0),
    height=Usual(1.0, 0.3),
    yaw=Usual(0.0, math.radians(7.0)),
    pitch=Usual(0.0, math.radians(4.0)),
    roll=Usual(0.0, math.radians(2.0)),
    log_focal=Usual(math.log(32.0 / FILM_DIAGONAL), 0.5),
    bulge=Usual(0.0, 0.015),
)
"""A photograph from 8 to 20 m at hub height, square to the machine and level as one sees it, by a
phone's wide or middle lens, most of whose distortion the phone mends. All judgement (no source)."""


class PhotographModel:
    """A photograph as residuals of unknowns: camera, back end aside, and x, z, aside of points."""

    def __init__(self, photograph: Photograph) -> None:
        self.photograph = photograph
        self.names = photograph.points
        rows = {name: row for row, name in enumerate(self.names)}
        self.of_click = [rows[each.point] for each in photograph.clicks]
        self.clicked = np.array([(each.u, each.v) for each in photograph.clicks], float)
        self.clicked -= (photograph.width / 2, photograph.height / 2)
        middle = {name: self.clicked[self.of_click.index(rows[name])] for name in NEEDED}
        self.facing = 1.0 if middle["front hub"][0] > middle["rear hub"][0] else -1.0
        self.usual = np.array(_usual_of(photograph), float)
        known = {x.point: Aside(x.aside, x.sigma) for x in photograph.asides}
        planes = [
            known.get(name) or usual_aside(photograph.nearest, POINTS[name].plane)
            for name in self.names
        ]
        self.asides = np.array(planes, float)
        ground = [(rows[name], POINTS[name].ground) for name in self.names if POINTS[name].ground]
        self.on_ground, self.level = (np.array(each) for each in zip(*ground, strict=True))
        # What was measured itself lies where it does, whatever its end does.
        free = np.array([name not in known for name in self.names], float)
        self.loader = free * [POINTS[name].plane == "loader" for name in self.names]
        self.back = free * [POINTS[name].part == "back" for name in self.names]
        self.ends = np.array([(rows[x.first], rows[x.second]) for x in photograph.lengths])
        self.taped = np.array([(x.length, x.sigma) for x in photograph.lengths])
        self.slew_axis = plain(photograph.nearest.back.slew_axis_x)
        self.rear = rows["rear hub"]
        self.hubs, self.tyres = ([rows[name] for name in pair] for pair in (NEEDED[:2], NEEDED[2:]))
        self.twins = [rows[x] for x in ("near pad", "far pad") if x in rows]

    def start(self) -> Any:
        """A camera square to the machine at the scale of the taped lengths."""
        first, last = (self.clicked[[self.of_click.index(row) for row in x]] for x in self.ends.T)
        scale = float(np.median(np.hypot(*(first - last).T) / self.taped[:, 0]))
        camera = self.usual[:8, 0].copy()
        focal = math.exp(camera[6]) * self.photograph.diagonal
        # Half the miss is that of the distance and half that of the lens.
        miss = 0.5 * math.log(focal / scale / math.exp(camera[0]))
        camera[0], camera[6] = camera[0] + miss, camera[6] - miss
        at = [self.clicked[self.of_click.index(row)] for row in range(len(self.names))]
        x, z = ((np.array(at) - at[self.rear]) / scale * (self.facing, -1.0)).T
        ground = float(np.mean(z[self.on_ground]))
        camera[1] = -at[self.rear][0] / scale
        camera[4] = math.atan2(at[self.rear][1] / scale - 0.3, math.exp(camera[0]))
        return np.concatenate([camera, np.zeros(3), x, z - ground, self.asides[:, 0]])

    def residuals(self, unknowns: Any) -> Any:
        """Everything known, against the unknowns (..., n), over its standard deviation (..., m)."""
        known, (x, z, own) = unknowns[..., :KNOWN], self._of_points(unknowns)
        loader, back, slew = (unknowns[..., k : k + 1] for k in range(8, KNOWN))
        aside = own + self.loader * loader + self.back * (back - slew * (x - self.slew_axis))
        u, v = project(
            Camera(*(known[..., k : k + 1] for k in range(8))),
            right=self.facing * x,
            aside=aside,
            up=z,
            diagonal=self.photograph.diagonal,
        )
        (i, k), click = self.ends.T, self.photograph.click
        length = np.sqrt((x[..., i] - x[..., k]) ** 2 + (z[..., i] - z[..., k]) ** 2)
        parts = [
            (u[..., self.of_click] - self.clicked[:, 0]) / click,
            (v[..., self.of_click] - self.clicked[:, 1]) / click,
            (length - self.taped[:, 0]) / self.taped[:, 1],
            (known - self.usual[:, 0]) / self.usual[:, 1],
            (own - self.asides[:, 0]) / self.asides[:, 1],
            z[..., self.on_ground] / self.level,
            x[..., self.rear, None] / REAR_AXLE,
            (x[..., self.tyres] - x[..., self.hubs]) / UNDER_HUB,
        ]
        if len(self.twins) == 2:
            near, far = self.twins
            parts.append((x[..., near, None] - x[..., far, None]) / ABREAST)
        return np.concatenate(parts, axis=-1)

    def places(self, unknowns: Any) -> tuple[Any, Any]:
        """Forward and up of every point [m]."""
        x, z, _ = self._of_points(unknowns)
        return x, z

    def rows_of_places(self) -> list[int]:
        """Which unknowns are forward and up of every point in turn."""
        n = len(self.names)
        return [KNOWN + part * n + row for row in range(n) for part in (0, 1)]

    def seen_at(self, left: Any) -> Any:
        """Where the fit has every click, from the picture's upper left corner [px]."""
        off = left[: 2 * len(self.of_click)].reshape(2, -1).T
        corner = (self.photograph.width / 2, self.photograph.height / 2)
        return self.clicked + self.photograph.click * off + corner

    def _of_points(self, unknowns: Any) -> Any:
        return np.moveaxis(unknowns[..., KNOWN:].reshape(*unknowns.shape[:-1], 3, -1), -2, 0)


def _usual_of(photograph: Photograph) -> list[Usual]:
    usual = USUAL
    if photograph.focal_35mm is not None:
        usual = usual._replace(
            log_focal=Usual(math.log(photograph.focal_35mm / FILM_DIAGONAL), 0.05)
        )
    if photograph.paced is not None:
        usual = usual._replace(log_distance=Usual(math.log(photograph.paced), 0.10))
    return [*usual, *(Usual(0.0, each) for each in (LOADER, BACK, SLEW))]
