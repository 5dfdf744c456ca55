"""A pinhole camera beside a machine: where points of the machine come out in its picture.

The frame is the machine's own, seen from the side the camera stands on: x forward, ``aside`` from
the middle plane toward the camera, z up. A picture in which the machine's front points left is the
mirror image of one in which it points right, so x is turned over and nothing else.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

FILM_DIAGONAL = 43.267
"""Of the 36 × 24 mm frame by which focal lengths of phones are told [mm]."""


class Camera(NamedTuple):
    """A camera; its fields are the unknowns of the fit, so that all are of order one.

    Attributes
    ----------
    log_distance : float or array
        Natural logarithm of the distance from the machine's middle plane [ln m].
    looks_at : float or array
        Where the optical axis meets the middle plane, toward the picture's right [m].
    height : float or array
        Of the lens above the ground [m].
    yaw, pitch, roll : float or array
        Of the optical axis to the right and upward; of the camera clockwise about it [rad].
    log_focal : float or array
        Natural logarithm of the focal length in diagonals of the picture [-].
    bulge : float or array
        Radial distortion: by this share a corner lies farther out than without it [-].
    """

    log_distance: Any
    looks_at: Any
    height: Any
    yaw: Any
    pitch: Any
    roll: Any
    log_focal: Any
    bulge: Any

    @property
    def distance(self) -> float:
        """From the middle plane [m]."""
        return float(np.exp(self.log_distance))

    @property
    def focal_35mm(self) -> float:
        """Focal length as phones tell it [mm, of a 36 × 24 mm frame]."""
        return float(np.exp(self.log_focal)) * FILM_DIAGONAL

    @property
    def stands_at(self) -> Any:
        """Where the lens is along the machine, toward the picture's right [m]."""
        return self.looks_at - np.exp(self.log_distance) * np.sin(self.yaw) / np.cos(self.yaw)


def project(camera: Camera, *, right: Any, aside: Any, up: Any, diagonal: float) -> Any:
    """Where points come out, from the picture's middle: to the right and downward [px].

    Parameters
    ----------
    camera : Camera
        Its fields may be arrays that broadcast against the points.
    right, aside, up : array
        Along the machine toward the picture's right; from its middle plane toward the camera;
        above the ground [m].
    diagonal : float
        Of the picture [px].

    Returns
    -------
    tuple of array
        Pixels are taken as square and the optical axis as through the picture's middle: in a phone
        it misses by a per cent of the width, which yaw and pitch take up but for some 0.1 % of
        scale. Distortion is of the third order (one term, Brown 1966); what is of the fifth is not
        modelled and is left to the tolerance of the clicks.
    """
    along, above = np.sin(camera.yaw), np.sin(camera.pitch)
    straight, level = np.cos(camera.yaw), np.cos(camera.pitch)
    # From the lens to the point, in the frame of the machine.
    x = right - camera.stands_at
    y, z = np.exp(camera.log_distance) - aside, up - camera.height
    out = x * straight - y * along
    ahead = x * along + y * straight
    depth = ahead * level + z * above
    rise = z * level - ahead * above
    focal = np.exp(camera.log_focal)
    u, v = focal * out / depth, -focal * rise / depth
    cosine, sine = np.cos(camera.roll), np.sin(camera.roll)
    u, v = u * cosine + v * sine, v * cosine - u * sine
    # The half diagonal is 1/2 in these units.
    stretch = diagonal * (1.0 + 4.0 * camera.bulge * (u * u + v * v))
    return u * stretch, v * stretch
