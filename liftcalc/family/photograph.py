"""A side photograph of a machine, as it was clicked, and the lengths that were taped.

What is made of it is in ``photograph_fit``.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from liftcalc.errors import Fault, did_you_mean
from liftcalc.family.picture_points import NEEDED, POINTS
from liftcalc.machines.schema import Machine
from liftcalc.remarks import Phrase, near

CLICK = 3.0
"""Standard deviation of a click, each way [px]."""
APART = 10.0
"""Two points that are seen apart lie at least so far from each other [px]."""
FORESHORTENED = 2.0
"""By so much one taped length may look longer or shorter than another from 6 m or farther [-]."""
TAPE = 0.010
"""Standard deviation of a taped length [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Click:
    """A point clicked in a picture; the same may be clicked twice, and then is checked by itself.

    ``u`` to the right and ``v`` downward from the picture's upper left corner [px].
    """

    point: str
    u: float
    v: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TapedLength:
    """A length by tape between two points that are clicked, and its standard deviation [m].

    Along the machine and upward: what the one lies nearer to the camera is not in it.
    """

    first: str
    second: str
    length: float
    sigma: float = TAPE


@dataclass(frozen=True, slots=True, kw_only=True)
class PointAside:
    """A measured distance from the machine's middle toward the camera, and its deviation [m]."""

    point: str
    aside: float
    sigma: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Photograph:
    """A side picture of a machine, as it was clicked.

    Attributes
    ----------
    width, height : float
        Of the whole picture [px]; a picture cut at one side has lost its middle.
    clicks, lengths : tuple
    nearest : Machine
        The machine that is most like it: says how far aside its points usually lie.
    asides : tuple of PointAside
        What is known better.
    focal_35mm : float or None
        As the phone wrote it into the picture [mm]; taken within 5 %.
    paced : float or None
        Distance from the machine's middle, by paces or tape [m]; taken within 10 %.
    click : float
        Standard deviation of a click [px].
    """

    width: float
    height: float
    clicks: tuple[Click, ...]
    lengths: tuple[TapedLength, ...]
    nearest: Machine
    asides: tuple[PointAside, ...] = ()
    focal_35mm: float | None = None
    paced: float | None = None
    click: float = CLICK

    @property
    def points(self) -> tuple[str, ...]:
        """Names of what was clicked, each once."""
        return tuple(dict.fromkeys(each.point for each in self.clicks))

    @property
    def diagonal(self) -> float:
        """Of the picture [px]."""
        return math.hypot(self.width, self.height)


def faults(photograph: Photograph) -> Iterator[Fault]:
    """What keeps a photograph from being fitted."""
    clicked = photograph.points
    numbers = [photograph.width, photograph.height, photograph.click]
    if not all(math.isfinite(each) and each > 0 for each in numbers):
        yield Fault(field="picture", given="no size", wanted="its width and height in pixels")
    for words, told in (
        ("focal length", photograph.focal_35mm),
        ("distance of the camera", photograph.paced),
    ):
        if told is not None and not (math.isfinite(told) and told > 0):
            yield Fault(field=words, given=f"{told:g}", wanted="more than nothing, or nothing told")
    for name in dict.fromkeys((*clicked, *(each.point for each in photograph.asides))):
        if name not in POINTS:
            yield Fault(
                field="point",
                given=f'"{name}"',
                wanted="a point that is asked for",
                fix=did_you_mean(name, POINTS),
            )
    for each in photograph.clicks:
        if not (0 <= each.u <= photograph.width and 0 <= each.v <= photograph.height):
            yield Fault(
                field=each.point, given="a click beside the picture", wanted="one inside it"
            )
    for name in NEEDED:
        if name not in clicked:
            yield Fault(
                field=name,
                given="no click",
                wanted=f"a click: {POINTS[name].look_for}",
                fix="wheels and ground are what everything else is measured from",
            )
    yield from _of_lengths(photograph, clicked)


def _of_lengths(photograph: Photograph, clicked: tuple[str, ...]) -> Iterator[Fault]:
    if not photograph.lengths:
        yield Fault(
            field="taped lengths",
            given="none",
            wanted="at least one, better three",
            fix="a picture has no scale: tape the whole machine, the boom and the loader arm",
        )
    for each in photograph.lengths:
        words = f"{each.first} to {each.second}"
        if not (math.isfinite(each.length) and each.length > 0 and each.sigma > 0):
            yield Fault(field=words, given=f"{each.length} m", wanted="a length above zero")
        for name in (each.first, each.second):
            if name not in clicked:
                yield Fault(field=words, given=f"no click on {name}", wanted="both ends clicked")
        if each.first == each.second:
            yield Fault(field=words, given="one point twice", wanted="two points")


def slips_of_place(photograph: Photograph) -> Iterator[Fault]:
    """What in a photograph without other faults cannot be seen so from anywhere."""
    at = {each.point: (each.u, each.v) for each in photograph.clicks}
    for hub, tyre in zip(NEEDED[:2], NEEDED[2:], strict=True):
        if at[hub][1] >= at[tyre][1]:
            yield Fault(
                field=hub,
                given=f"a click below the {tyre}'s",
                wanted="a picture that stands upright, its wheels on the ground",
                fix="turn the picture, or click both again",
            )
    if math.dist(at["rear hub"], at["front hub"]) < APART:
        yield Fault(field="hubs", given="two clicks on one place", wanted="one on each wheel")
    scales = [math.dist(at[x.first], at[x.second]) / x.length for x in photograph.lengths]
    middle = sorted(scales)[len(scales) // 2]
    for each, scale in zip(photograph.lengths, scales, strict=True):
        words = f"{each.first} to {each.second}"
        if scale * each.length < APART:
            yield Fault(field=words, given="both ends clicked on one place", wanted="two places")
        elif middle and not 1.0 / FORESHORTENED < scale / middle < FORESHORTENED:
            likely = near(each.length * scale / middle, "length", 1)
            yield Fault(
                field=words,
                given=Phrase("{length}", length=near(each.length, "length")),
                wanted=Phrase("about {likely}, as the other lengths look", likely=likely),
                fix="look at the figure, its unit and both clicks",
            )
