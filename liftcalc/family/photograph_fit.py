"""A machine from a side photograph: where its pins are, and how surely.

Camera, points and planes are fitted together (``photograph_model``). What is sure of a point is its
covariance by the fit, widened where clicks and lengths do not agree.

Direction of error: what the model leaves out (lens of the fifth order, a machine that leans on its
tyres) shows where readings do not agree, and then widens every tolerance. What no length and no
ground checks does not show: see ``PlacedPoint.checked``.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np

from liftcalc.errors import Fault, InputError, raise_any
from liftcalc.family.camera import Camera
from liftcalc.family.least_squares import least_squares
from liftcalc.family.photograph import Photograph, faults, slips_of_place
from liftcalc.family.photograph_model import PhotographModel
from liftcalc.family.picture_points import POINTS
from liftcalc.family.slips import UNLIKELY, slip
from liftcalc.remarks import Phrase, near

LEAST_DISTANCE, MOST_OFF_SQUARE = 8.0, math.radians(12.0)
"""From nearer, or farther round [m, rad], planes shift more than is allowed for; judgement."""
ALIKE = 0.9
"""Readings nearly as unlikely as the worst are named with it: all else cannot tell which."""
CHECKED = 0.1
"""Share of a click's error that must show before it counts as checked [-]."""
OR_ELSE = "if you did, a taped length is wrong"
LEAST_SCALE = 150.0
"""Fewest pixels to a metre: with fewer a click is 20 mm off, which is all that is promised."""


class PlacedPoint(NamedTuple):
    """A point in the machine's frame: forward of the rear axle and above the ground [m].

    ``sigma_x`` and ``sigma_z`` are standard deviations [m]; ``checked`` says whether a slip of its
    click would show.
    """

    point: str
    x: float
    z: float
    sigma_x: float
    sigma_z: float
    checked: bool


class FittedLength(NamedTuple):
    """A distance between two points and its standard deviation [m]."""

    value: float
    sigma: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PhotographFit:
    """What a photograph tells.

    Attributes
    ----------
    points : tuple of PlacedPoint
    covariance : array (2n, 2n)
        Of x and z of every point in turn [m2].
    camera : Camera
        As fitted; rightward is as the picture shows the machine.
    seen_at : array (clicks, 2)
        Where the fit has each click [px].
    misfit : float
        Sum of squares over its degrees of freedom [-]; above one it has widened the covariance.
    doubts : tuple of Fault
        What is wrong with the picture or a click; without any the fit is as good as it says.
    """

    points: tuple[PlacedPoint, ...]
    covariance: Any
    camera: Camera
    seen_at: Any
    misfit: float
    doubts: tuple[Fault, ...]

    def __getitem__(self, name: str) -> PlacedPoint:
        """A point by name; ``KeyError`` where it was not clicked."""
        return {each.point: each for each in self.points}[name]

    def pixels_to_a_metre(self, diagonal: float) -> float:
        """Scale in the machine's middle plane, for a picture of such a diagonal [px]."""
        return diagonal * math.exp(self.camera.log_focal) / self.camera.distance

    def between(self, first: str, second: str) -> FittedLength:
        """Distance between two points, square across the machine left out [m]."""
        names = [each.point for each in self.points]
        i, k = names.index(first), names.index(second)
        gap = np.array([self[second].x - self[first].x, self[second].z - self[first].z])
        length = float(np.hypot(*gap))
        slope = np.zeros(2 * len(names))
        slope[2 * i : 2 * i + 2], slope[2 * k : 2 * k + 2] = -gap / length, gap / length
        return FittedLength(length, math.sqrt(float(slope @ self.covariance @ slope)))


def fit_photograph(photograph: Photograph) -> PhotographFit:
    """Fit camera and points to a photograph.

    Raises ``InputError`` with everything that lacks or cannot be. What can be fitted but is poor is
    told in ``doubts``.
    """
    raise_any(faults(photograph))
    raise_any(slips_of_place(photograph))
    model = PhotographModel(photograph)
    try:
        with np.errstate(all="ignore"):
            found = least_squares(model.residuals, model.start())
            slopes, left = found.jacobian, found.residuals
            covariance = np.linalg.inv(slopes.T @ slopes)
    except np.linalg.LinAlgError:
        covariance = np.array([math.nan])
    if not (np.isfinite(covariance).all() and np.all(np.diag(covariance) > 0.0)):
        raise InputError.of(
            field="picture",
            given="clicks and lengths that no camera could see together",
            wanted="points clicked where they are",
            fix="look at the lengths and at every click",
        )
    misfit = float(left @ left) / (len(left) - len(found.unknowns))
    # What shows in its own residual of an error of each reading.
    shows = np.eye(len(left)) - slopes @ covariance @ slopes.T
    covariance *= max(1.0, misfit)
    camera = Camera(*map(float, found.unknowns[:8]))
    x, z = model.places(found.unknowns)
    rows = model.rows_of_places()
    placed = covariance[np.ix_(rows, rows)]
    sigma = np.sqrt(np.diag(placed)).reshape(-1, 2).T
    columns = (model.names, x.tolist(), z.tolist(), *sigma.tolist(), _checked(model, shows))
    return PhotographFit(
        points=tuple(map(PlacedPoint, *columns)),
        covariance=placed,
        camera=camera,
        seen_at=model.seen_at(left),
        misfit=misfit,
        doubts=(
            *_contradicted(photograph, left, shows),
            *_poor(
                photograph, camera, np.sqrt(np.diag(covariance)), model.facing * float(np.mean(x))
            ),
        ),
    )


def _checked(model: PhotographModel, shows: Any) -> list[bool]:
    """Of each point, whether a slip of a click on it would show, whichever way it went."""
    clicks = len(model.of_click)
    least = [min(shows[k, k], shows[clicks + k, clicks + k]) for k in range(clicks)]
    return [
        any(share > CHECKED for share, of in zip(least, model.of_click, strict=True) if of == row)
        for row in range(len(model.names))
    ]


def _contradicted(photograph: Photograph, left: Any, shows: Any) -> Iterator[Fault]:
    """Readings that do not agree with all the others: the worst, and those as bad as it."""
    clicks = len(photograph.clicks)
    rows = [[k, clicks + k] for k in range(clicks)]
    rows += [[2 * clicks + k] for k in range(len(photograph.lengths))]
    slips = [slip(left[each], shows[np.ix_(each, each)]) for each in rows]
    least = max(UNLIKELY, ALIKE * max(each.unlikely for each in slips))
    for each, click in zip(slips, photograph.clicks, strict=False):
        if each.unlikely > least:
            yield Fault(
                field=click.point,
                given=f"a click {photograph.click * np.hypot.reduce(each.by):.0f} px from where "
                "all else has it",
                wanted=f"a click on it: {POINTS[click.point].look_for}",
                fix="look there again",
            )
    for each, taped in zip(slips[clicks:], photograph.lengths, strict=True):
        if each.unlikely > least:
            likely = taped.length + float(each.by[0]) * taped.sigma
            yield Fault(
                field=f"{taped.first} to {taped.second}",
                given=Phrase("{length}", length=near(taped.length, "length")),
                wanted=Phrase("about {likely}, by all else", likely=near(likely, "length")),
                fix="tape it again",
            )


def _poor(photograph: Photograph, camera: Camera, sigma: Any, middle: float) -> Iterator[Fault]:
    """What is wrong with where the picture was taken from.

    ``sigma`` is of the camera's own figures; ``middle`` is the machine's, toward the picture's
    right [m].
    """
    if camera.distance * math.exp(sigma[0]) < LEAST_DISTANCE:
        yield Fault(
            field="picture",
            given=Phrase("taken from about {far}", far=near(camera.distance, "length", 1)),
            wanted=Phrase("at least {far}", far=near(LEAST_DISTANCE, "length", 1)),
            fix=f"go farther back and zoom in; {OR_ELSE}",
        )
    off_square = math.atan2(camera.stands_at - middle, camera.distance)
    if abs(off_square) - sigma[3] > MOST_OFF_SQUARE:
        yield Fault(
            field="picture",
            given=f"taken from {math.degrees(abs(off_square)):.0f}° off square",
            wanted=f"at most {math.degrees(MOST_OFF_SQUARE):.0f}°",
            fix=f"walk to the {'left' if off_square > 0 else 'right'} till you face its middle; "
            + OR_ELSE,
        )
    scale = photograph.diagonal * math.exp(camera.log_focal) / camera.distance
    if scale < LEAST_SCALE:
        yield Fault(
            field="picture",
            given=Phrase(
                "a machine so small that a click is {off} off",
                off=near(photograph.click / scale, "length"),
            ),
            wanted="a machine that fills the picture",
            fix="zoom in with the lens; to cut a picture out of a larger one does not help",
        )
