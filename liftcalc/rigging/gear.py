"""What chain, sling, hook, shackle and hitch may carry."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import Literal, get_args

from liftcalc.errors import Fault, InputError
from liftcalc.physics import formulas
from liftcalc.physics.worked import Worked, work
from liftcalc.rigging.sling import Sling, balance_miss, sound

GearKind = Literal["chain grade 80", "chain grade 30", "round sling", "wire rope", "fibre rope"]
GEAR_KINDS: tuple[GearKind, ...] = get_args(GearKind)

SIZE_RULE: dict[GearKind, float] = {
    "chain grade 80": 32.0,
    "chain grade 30": 9.0,
    "wire rope": 8.0,
    "fibre rope": 1.0,
}
"""Working load limit for a square millimetre of size² [kg/mm²]; source: queensland_doggers.

A round sling has none: only its label knows.
"""

EN_818_4_ROWS = (
    (0.006, 1120.0), (0.007, 1500.0), (0.008, 2000.0), (0.010, 3150.0), (0.013, 5300.0),
    (0.016, 8000.0),
)  # fmt: skip
"""Size [m] and working load limit [kg] of grade 8 chain; source: en_818_4, from memory."""

CHOKE_FACTOR = 0.8
"""Share of a straight leg that a choke leaves, chain and round sling [-]; source: asme_b30_9.

For an angle of choke over 120°, as a sling takes by itself; EN 818-4 has the same, from memory.
"""

ROPE_CHOKE_FACTOR = 0.7
"""The same for wire and fibre rope, and for gear of unsaid kind [-].

From memory, careful: tables for rope have 0.72 to 0.8.
"""

NOT_FOR_LIFTING = (
    "; chain of grade 30 is not made for lifting: only where nothing better is at hand"
)
"""Common practice, no source; the doggers' guide gives its limit all the same."""

WIDEST = math.radians(120)
"""Greatest angle between two legs or the two parts of a basket [rad]; queensland_doggers."""

_HOW_TO_SIZE = (
    "measure the thickness of the bar of a link, or of the rope, with a calliper and give "
    "sling-size; or read the tag and give sling-wll"
)
_ASKS = {
    "hook_wll": "the working load limit of the hook (it stands on the hook)",
    "shackle_wll": "the working load limit of the shackle, if there is one (it stands on its bow)",
    "hitch_wll": "the working load limit of the eye or hitch on the machine that the hook hangs in",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Gear:
    """What the log hangs in.

    Attributes
    ----------
    kind : GearKind or None
        None where nobody said.
    size : float or None
        Diameter of a chain's bar or of a rope [m].
    wll : float or None
        Working load limit on the tag, of a single straight leg [kg].
    hook_wll, shackle_wll, hitch_wll : float or None
        Working load limit of each [kg]; None where nobody said, infinite where there is none.

    Raises
    ------
    InputError
        For sizes or limits that are no numbers above zero, and for a kind whose limit can be found
        neither from a size nor from a tag.
    """

    kind: GearKind | None = None
    size: float | None = None
    wll: float | None = None
    hook_wll: float | None = None
    shackle_wll: float | None = None
    hitch_wll: float | None = None

    def __post_init__(self) -> None:
        """Check the gear as a whole."""
        faults: list[Fault] = []
        for field in fields(self):
            value = getattr(self, field.name)
            if field.name == "kind" or value is None:
                continue
            if field.name in _ASKS and value == math.inf:
                continue
            option = {"size": "sling-size", "wll": "sling-wll"}.get(field.name)
            faults += sound(
                option or field.name.replace("_", "-"),
                value,
                unit="m" if option == "sling-size" else "kg",
                above=0.0,
            )
        faults += _unknown_limit(self)
        if faults:
            raise InputError(faults)


def _unknown_limit(gear: Gear) -> list[Fault]:
    """A fault where a kind or a size was given and no limit follows from it."""
    if gear.wll is not None:
        return []
    if gear.kind is None and gear.size is not None:
        return [
            Fault(
                field="sling-kind",
                given="nothing, only a size",
                wanted=f"one of {', '.join(GEAR_KINDS)}",
                fix="a size says nothing without the kind; or read the tag and give sling-wll",
            )
        ]
    if gear.kind == "round sling":
        return [
            Fault(
                field="sling-wll",
                given="nothing",
                wanted="the working load limit on the round sling's label, straight",
                fix="read it on the sewn-in label; a sling without a label is not to be used",
            )
        ]
    if gear.kind is not None and gear.size is None:
        return [
            Fault(
                field="sling-size or sling-wll",
                given=f"nothing for the {gear.kind}",
                wanted="its thickness or its working load limit",
                fix=_HOW_TO_SIZE,
            )
        ]
    return []


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """Working load limit of one straight leg [kg], its source key, why, and its working."""

    wll: float
    source: str
    why: str
    worked: tuple[Worked, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rating:
    """What one part of the rigging may carry.

    Attributes
    ----------
    name : str
        "sling", "hook", "shackle" or "hitch".
    where : str
        Which and how slung, for brackets after the name.
    capacity : float
        Mass that may hang below the hook [kg]; a working load limit, all of it may be used.
    source : str
        Key of ``sources.SOURCES``.
    why : str
        In plain words, with what it rests on.
    worked : tuple of Worked
        Every formula used, in order.
    """

    name: str
    where: str
    capacity: float
    source: str
    why: str
    worked: tuple[Worked, ...] = ()


def single_leg(gear: Gear) -> Leg | None:
    """Working load limit of one straight leg.

    Returns
    -------
    Leg or None
        The least of what the size gives, the row of EN 818-4 for grade 80 chain (that of the next
        size made, so that a thinner chain never carries more), and the tag. None where nothing
        was said of kind, size and tag. Of sound gear: overstates what worn, kinked, knotted or
        cut gear carries.
    """
    found: list[Leg] = []
    if gear.kind in SIZE_RULE and gear.size is not None:
        worked = work(
            f"one straight leg of {gear.kind}, {1000 * gear.size:.3g} mm",
            formulas.sized_leg,
            gear_size=gear.size,
            size_rule=SIZE_RULE[gear.kind],
        )
        why = f"{gear.kind} of {1000 * gear.size:.3g} mm, by the doggers' rule of size"
        why += NOT_FOR_LIFTING if gear.kind == "chain grade 30" else ""
        found.append(Leg(wll=worked.result, source="queensland_doggers", why=why, worked=(worked,)))
        if gear.kind == "chain grade 80":
            found += [
                Leg(
                    wll=row,
                    source="en_818_4",
                    worked=(worked,),
                    why=f"{gear.kind}, {1000 * size:.0f} mm in EN 818-4 (from memory)",
                )
                for size, row in EN_818_4_ROWS
                if gear.size <= size * (1 + 1e-9)
            ]
    if gear.wll is not None:
        found.append(Leg(wll=gear.wll, source="tag", why="as its tag says"))
    if not found:
        return None
    return min(found, key=lambda each: each.wll)


def missing(gear: Gear) -> tuple[str, ...]:
    """What was not said of the rigging and so is not checked, in words to ask for it."""
    asked = []
    if single_leg(gear) is None:
        asked.append(
            "kind and size of the chain or sling, or the working load limit on its tag "
            "(sling-kind, sling-size, sling-wll)"
        )
    asked += [
        f"{words} ({name.replace('_', '-')})"
        for name, words in _ASKS.items()
        if getattr(gear, name) is None
    ]
    return tuple(asked)


def ratings(
    gear: Gear, *, sling: Sling, log_length: float, balance: float, diameter: float
) -> tuple[Rating, ...]:
    """What every part of the rigging may carry, of which something is known.

    Parameters
    ----------
    gear : Gear
    sling : Sling
        How the log is slung.
    log_length, balance, diameter : float
        Length, balance point from the butt and largest diameter of the log [m].

    Returns
    -------
    tuple of Rating
        Sling first. What was not said yields none, see ``missing``. Hook, shackle and hitch are
        taken to carry all that hangs, also where a shackle is on one leg of two: understates.

    Raises
    ------
    InputError
        When two legs or a basket would open beyond 120°, when the balance point is not between
        two legs, and for lengths that are none.
    """
    faults = [
        *sound("length", log_length, unit="m", above=0.0),
        *sound("balance", balance, unit="m", above=0.0, below=log_length),
        *sound("largest diameter", diameter, unit="m", above=0.0),
    ]
    if faults:
        raise InputError(faults)
    leg = single_leg(gear)
    made = []
    if sling.way == "two legs":
        share, by_share = _larger_share(sling, log_length=log_length, balance=balance)
        _refuse_wide_legs(sling, diameter=diameter)
        if leg is not None:
            made.append(_two_legs(gear, leg, sling, diameter, share=share, by_share=by_share))
    elif sling.way == "basket":
        _refuse_wide_basket(sling, diameter=diameter)
        if leg is not None:
            made.append(_basket(gear, leg, sling, diameter))
    elif leg is not None:
        made.append(_one_leg(gear, leg, sling))
    made += [
        Rating(
            name=name,
            where="carries all that hangs",
            capacity=value,
            source="tag",
            why="as marked on it; all that hangs below the machine is taken to hang on it",
        )
        for name, value in (
            ("hook", gear.hook_wll),
            ("shackle", gear.shackle_wll),
            ("hitch", gear.hitch_wll),
        )
        if value is not None and value != math.inf
    ]
    return tuple(made)


def _choke(gear: Gear) -> tuple[float, str]:
    """What a choke leaves [-], and that in words."""
    if gear.kind in ("chain grade 80", "chain grade 30", "round sling"):
        factor, source = CHOKE_FACTOR, "ASME B30.9"
    else:
        factor, source = ROPE_CHOKE_FACTOR, "from memory"
    return factor, (
        f"a choke leaves {factor:.0%} of it ({source}): let it find its own angle, never beat it "
        "down"
    )


def _called(gear: Gear) -> str:
    return gear.kind or "sling of unsaid kind"


def _one_leg(gear: Gear, leg: Leg, sling: Sling) -> Rating:
    choked = sling.way == "choked"
    factor, choke = _choke(gear) if choked else (1.0, "")
    worked = work(
        f"one {sling.way} sling" if choked else "one straight leg",
        formulas.slung_leg,
        single_leg=leg.wll,
        mode_factor=factor,
    )
    why = f"{leg.why}; {choke}" if choked else leg.why
    return Rating(
        name="sling",
        where=f"{_called(gear)}, {sling.way}",
        capacity=worked.result,
        source=leg.source,
        why=why,
        worked=(*leg.worked, worked),
    )


def _basket(gear: Gear, leg: Leg, sling: Sling, diameter: float) -> Rating:
    worked = work(
        "one sling as a basket",
        formulas.basket,
        single_leg=leg.wll,
        sling_length=sling.length,
        largest_diameter=diameter,
    )
    angle = 2 * math.degrees(worked.steps.basket_half_angle)
    why = (
        f"{leg.why}; two parts, at most {angle:.0f}° apart; a log in one basket slides out endwise "
        "when it tips"
    )
    if "rope" in _called(gear):
        why += "; rope round a log thinner than 25 times the rope holds less"
    return Rating(
        name="sling",
        where=f"{_called(gear)}, basket",
        capacity=worked.result,
        source=leg.source,
        why=why,
        worked=(*leg.worked, worked),
    )


def _two_legs(
    gear: Gear,
    leg: Leg,
    sling: Sling,
    diameter: float,
    *,
    share: float,
    by_share: tuple[Worked, ...],
) -> Rating:
    factor, choke = _choke(gear)
    worked = work(
        "two legs, each choked round the log",
        formulas.two_legs,
        single_leg=leg.wll,
        mode_factor=factor,
        sling_length=sling.length,
        largest_diameter=diameter,
        leg_spread=sling.spread,
        larger_share=share,
    )
    angle = math.degrees(worked.steps.included_angle)
    why = (
        f"{leg.why}; {choke}; legs {angle:.0f}° apart, the worse one carries {share:.0%} of the log"
    )
    return Rating(
        name="sling",
        where=f"{_called(gear)}, two choked legs",
        capacity=worked.result,
        source=leg.source,
        why=why,
        worked=(*leg.worked, *by_share, worked),
    )


def _larger_share(
    sling: Sling, *, log_length: float, balance: float
) -> tuple[float, tuple[Worked, ...]]:
    """Share of the worse leg [-], with its working."""
    miss = balance_miss(sling, log_length=log_length, balance=balance)
    if sling.at is not None and miss >= sling.spread / 2:
        raise InputError(
            Fault(
                field="slung-at",
                given=f"{sling.at:.2f} m from the butt with legs {sling.spread:.2f} m apart",
                understood=f"both legs on one side of the balance point at {balance:.2f} m: the "
                "log would tip out of them",
                wanted=f"the middle between the legs less than {sling.spread / 2:.2f} m from it",
                fix="move the legs until the balance point is between them, or spread them more",
            )
        )
    if sling.spread <= 0:
        return 1.0, ()
    worked = work(
        "share of the worse leg", formulas.leg_shares, leg_spread=sling.spread, balance_miss=miss
    )
    return worked.result, (worked,)


def _refuse_wide_legs(sling: Sling, *, diameter: float) -> None:
    free = sling.length - math.pi * diameter
    widest = 2 * free * math.sin(WIDEST / 2)
    if free > 0 and sling.spread <= widest:
        return
    needed = sling.spread / (2 * math.sin(WIDEST / 2)) + math.pi * diameter
    nearer = f"bring them within {math.floor(100 * widest) / 100:.2f} m or " if free > 0.05 else ""
    raise InputError(
        Fault(
            field="leg-spread",
            given=f"{sling.spread:.2f} m with legs of {sling.length:.2f} m, of which once round "
            f"the log leaves {max(free, 0.0):.2f} m",
            wanted="at most 120° between the legs",
            fix=f"{nearer}use legs of at least {math.ceil(100 * needed) / 100:.2f} m",
        )
    )


def _refuse_wide_basket(sling: Sling, *, diameter: float) -> None:
    needed = diameter * (5 * math.pi / 6 + 1 / math.tan(WIDEST / 2))
    if sling.length >= needed:
        return
    raise InputError(
        Fault(
            field="sling-length",
            given=f"{sling.length:.2f} m as a basket under a log of {100 * diameter:.0f} cm",
            wanted="at most 120° between its two parts",
            fix=f"use a sling of at least {math.ceil(100 * needed) / 100:.2f} m",
        )
    )
