"""A fact that a person can know of a machine, and the kinds there are of them.

Each fact is a question with where to measure, and a function that says what any machine would
answer. Told with its tolerance it is a likelihood: see ``posterior``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from liftcalc.family import doing
from liftcalc.family.points import POINTS, RAMS, between
from liftcalc.machines.number import plain
from liftcalc.machines.schema import EndName, Machine
from liftcalc.physics.functions import Real
from liftcalc.units import Kind

Trouble = Literal["papers", "tape", "pins", "weighbridge", "trial"]
"""What a fact takes: papers, a tape, a tape and a clean pin, a weighbridge, a known weight."""

TAPE = 0.010
"""What a tape between two pins is out by [m]; common practice, no source."""
WEIGHBRIDGE = 20.0
"""One step of a weighbridge [kg]; common practice, no source."""
PIN_BY_PIN = "a tape between the middles of two pins"
HANGS = 0.03
"""What the place of a hook is out by, taped to a plumb line [m]; common practice, no source."""
BOTTOM = 0.02
"""Share of a figure that a fact keeps in doubt beside its tolerance, where it is more than a
length: the family is simpler than a machine [-]; judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A fact as it was told, in SI.

    ``reach`` and ``height`` say where the hook was [m], ``load`` what hung on it [kg], where the
    fact asks for it; ``tolerance`` is that of the value, the fact's own where None.
    """

    key: str
    value: float
    tolerance: float | None = None
    reach: float | None = None
    height: float | None = None
    load: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A fact that a person can have.

    Attributes
    ----------
    key, question : str
        What the code calls it, and what is asked.
    unit : Kind
        Of the answer.
    tolerance, share : float
        Standard deviation of the answer [SI], and as a share of it [-]; their root sum of squares
        counts. A told tolerance replaces the first.
    reason : str
        Why so much.
    trouble : Trouble
        What it takes to find out.
    at : tuple of two str
        From where to where, by names of ``points.POINTS``; empty where it is not a distance.
    asks : tuple of str
        What else has to be told: reach, height, load.
    predict : callable
        What machines would answer; ``off`` is how many standard deviations the hook hung off the
        place that was told.
    """

    key: str
    question: str
    unit: Kind
    tolerance: float
    reason: str
    trouble: Trouble
    predict: Callable[[Machine, Told, Real], Real]
    share: float = 0.0
    at: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()


def figure(
    key: str,
    question: str,
    unit: Kind,
    get: Callable[[Machine], Real],
    *,
    tolerance: float = 0.0,
    share: float = 0.0,
    reason: str,
    trouble: Trouble,
    at: tuple[str, ...] = (),
) -> Fact:
    """A fact that is one figure, or one thing done, whatever hangs where."""
    return Fact(
        key=key,
        question=question,
        unit=unit,
        tolerance=tolerance,
        share=share,
        reason=reason,
        trouble=trouble,
        at=at,
        predict=lambda machine, _told, _off: plain(get(machine)),
    )


def taped(key: str, question: str, get: Callable[[Machine], Real], *at: str) -> Fact:
    """A length along the ground or above it."""
    return figure(
        key,
        question,
        "length",
        get,
        tolerance=TAPE,
        reason="a tape held by hand",
        trouble="tape",
        at=at,
    )


def pin_to_pin(key: str, one: str, other: str) -> Fact:
    """A distance between two pins of one part."""
    return figure(
        key,
        f"from the {one} to the {other}",
        "length",
        lambda machine: between(machine, one, other),
        tolerance=TAPE,
        reason=PIN_BY_PIN,
        trouble="pins",
        at=(one, other),
    )


def stroke_end(name: str, end: Literal["closed", "open"]) -> Fact:
    """Length of a ram at an end of its stroke."""
    words = "fully in" if end == "closed" else "fully out"
    return figure(
        f"{name.replace(' ', '_')}_{end}",
        f"{name}, pin to pin, {words}",
        "length",
        lambda machine: getattr(RAMS[name](machine), end),
        tolerance=TAPE,
        reason=PIN_BY_PIN,
        trouble="pins",
        at=tuple(each for each in (f"{name} base", f"{name} pin") if each in POINTS),
    )


def bore_of(name: str) -> Fact:
    """The bore of a ram."""
    return figure(
        f"{name.replace(' ', '_')}_bore",
        f"{name}, bore: of the piston, which seals are bought by, and not of the barrel outside",
        "length",
        lambda machine: RAMS[name](machine).bore,
        tolerance=0.002,
        reason="stamped, from a seal kit, or barrel less two walls",
        trouble="papers",
    )


def rod_of(name: str) -> Fact:
    """The rod of a ram."""
    return figure(
        f"{name.replace(' ', '_')}_rod",
        f"{name}, thickness of the rod",
        "length",
        lambda machine: RAMS[name](machine).rod,
        tolerance=0.001,
        reason="a caliper on the bright rod",
        trouble="tape",
    )


def _place(told: Told, off: Real) -> tuple[Real, float]:
    assert told.height is not None
    return (told.reach or 0.0) + HANGS * off, told.height


def hung(
    key: str,
    question: str,
    predict: Callable[[Machine, Told, Real], Real],
    *,
    unit: Kind = "mass",
    asks: tuple[str, ...] = ("reach", "height"),
    tolerance: float = 0.0,
    share: float = BOTTOM,
    reason: str,
    trouble: Trouble = "trial",
) -> Fact:
    """A fact of the hook at a place."""
    return Fact(
        key=key,
        question=question,
        unit=unit,
        tolerance=tolerance,
        share=share,
        reason=reason,
        trouble=trouble,
        asks=asks,
        predict=predict,
    )


def rated(end: EndName) -> Fact:
    """A row of the plate or chart."""

    def predict(machine: Machine, told: Told, _off: Real) -> Real:
        reach, height = _place(told, 0.0)
        return doing.rated_load(machine, end=end, reach=reach, height=height)

    return hung(
        f"rated_{end}",
        f"rated load of the {end} end on the plate or chart, with reach and height of the hook",
        predict,
        share=0.08,
        asks=("reach", "height") if end == "back" else ("height",),
        reason="rounded down, and seldom said for which tool, tank and ground",
        trouble="papers",
    )


def balanced(end: EndName) -> Fact:
    """A known weight that lightens the far wheels."""

    def predict(machine: Machine, told: Told, off: Real) -> Real:
        reach, height = _place(told, off)
        return doing.tipping_load(machine, end=end, reach=reach, height=height)

    where = (
        "straight back on the stabilisers, the front wheels"
        if end == "back"
        else "straight ahead on wheels, the rear wheels"
    )
    return hung(
        f"balance_{end}",
        f"a known weight on the {end} hook, a hand above the ground: {where} just go light at "
        "which reach",
        predict,
        asks=("reach", "height") if end == "back" else ("height",),
        tolerance=WEIGHBRIDGE,
        reason="the weight as weighed; going light is felt within a hand's breadth of reach",
    )


def stalled(end: EndName) -> Fact:
    """A known weight that the rams do not lift."""

    def predict(machine: Machine, told: Told, off: Real) -> Real:
        reach, height = _place(told, off)
        return doing.stalling_load(machine, end=end, reach=reach, height=height)

    return hung(
        f"stall_{end}",
        f"a known weight on the {end} hook that the rams just do not lift, a hand above the ground",
        predict,
        asks=("reach", "height") if end == "back" else ("height",),
        share=0.03,
        reason="what a stiff joint holds is lost as it lifts",
    )


def front_axle(machine: Machine, told: Told, off: Real) -> Real:
    """What the front axle carries with the back end stretched."""
    reach, height = _place(told, off)
    return doing.front_axle_load(machine, reach=reach, height=height)


def boom_gauge(machine: Machine, told: Told, off: Real) -> Real:
    """Pressure in the boom ram under a known weight."""
    reach, height = _place(told, off)
    return doing.boom_pressure(machine, reach=reach, height=height, load=told.load or 0.0)


def lift_gauge(machine: Machine, told: Told, off: Real) -> Real:
    """Pressure in the lift rams under a known weight."""
    _, height = _place(told, off)
    return doing.lift_pressure(machine, height=height, load=told.load or 0.0)


def on_scales(key: str, question: str, get: Callable[[Machine], Real]) -> Fact:
    """A weight on a weighbridge."""
    return figure(
        key,
        question,
        "mass",
        get,
        tolerance=WEIGHBRIDGE,
        share=0.002,
        reason="one step of a weighbridge, and how full the tank is",
        trouble="weighbridge",
    )


def printed(
    key: str, question: str, unit: Kind, get: Callable[[Machine], Real], share: float
) -> Fact:
    """A figure of a brochure."""
    return figure(
        key,
        question,
        unit,
        get,
        share=share,
        reason="of a brochure: another bucket, other tyres, rounded",
        trouble="papers",
    )
