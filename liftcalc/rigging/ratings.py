"""What chain, sling, hook, shackle and hitch may carry, as they are slung."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from liftcalc.errors import InputError, raise_any
from liftcalc.physics import formulas
from liftcalc.physics.worked import Worked, work
from liftcalc.remarks import Phrase, Remark, Words, down, near, up
from liftcalc.rigging.gear import UNIFORM, Gear, Leg, single_leg, uniform
from liftcalc.rigging.sling import Sling, balance_miss, sound

UNIFORM_TO = math.radians(90) * (1 + 1e-9)
"""Angle up to which the uniform rating counts two legs for more than one [rad]."""
PARALLEL = math.radians(12)
"""Angle up to which the parts of a basket are parallel, and both count [rad]; EN 1492, memory."""

CHOKE_FACTOR = 0.8
"""Share of a straight leg that a choke leaves, chain and round sling [-]; source: asme_b30_9.

For an angle of choke over 120°, as a sling takes by itself; EN 818-4 has the same, from memory.
"""

ROPE_CHOKE_FACTOR = 0.7
"""The same for wire and fibre rope, and for gear of unsaid kind [-].

From memory, careful: tables for rope have 0.72 to 0.8.
"""

ROPE_BEND = 0.8
"""Share of a rope that is left where a basket bends it round a log; also of unsaid kind [-].

From memory, careful: tables for wire rope have 0.85 at six times its thickness, 0.9 at ten and all
of it at 25.
"""

UNBENT = ("chain grade 80", "chain grade 30", "round sling")
"""Kinds that neither a choke's bend nor a basket's costs more than said."""

WIDEST = math.radians(120)
"""Greatest angle between two legs or the two parts of a basket [rad]; queensland_doggers."""

RatingKind = Literal["lift point", "sling", "hook", "shackle", "hitch", "jaw"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rating:
    """What one part of the rigging may carry.

    Attributes
    ----------
    kind : RatingKind
        What is rated.
    name : str
        As it is told.
    where : str
        Which and how slung, for brackets after the name.
    capacity : float
        Mass that may hang below the hook [kg]; a working load limit, all of it may be used.
    source : str
        Key of ``sources.SOURCES``.
    why : Remark
        With what it rests on.
    worked : tuple of Worked
        Every formula used, in order.
    """

    kind: RatingKind
    name: str
    where: str
    capacity: float
    source: str
    why: Words
    worked: tuple[Worked, ...] = ()


def ratings(
    gear: Gear,
    *,
    sling: Sling,
    log_length: float,
    balance: float,
    diameter: float,
    whole: bool = True,
) -> tuple[Rating, ...]:
    """What every part of the rigging may carry, of which something is known.

    Parameters
    ----------
    gear : Gear
    sling : Sling
        How the log is slung.
    log_length, balance, diameter : float
        Length, balance point from the butt and largest diameter of the log [m].
    whole : bool
        Whether all of the log is lifted; where not, one leg of two is taken to carry it alone.

    Returns
    -------
    tuple of Rating
        Sling first. What was not said yields none, see ``missing``. Hook, shackle and hitch are
        taken to carry all that hangs; hook and shackle may also stand on one of two legs, which
        pulls by more where it leans far.

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
    raise_any(faults)
    legs = None
    if sling.way == "two legs":
        legs = _legs(sling, log_length=log_length, balance=balance, diameter=diameter, whole=whole)
        hung = _two_legs(gear, legs)
    elif sling.way == "basket":
        hung = _basket(gear, sling, diameter=diameter)
    else:
        hung = _one_leg(gear, sling)
    # A hitch is on the machine: no leg pulls at it alone.
    parts: tuple[tuple[RatingKind, float | None, _Legs | None], ...] = (
        ("hook", gear.hook_wll, legs),
        ("shackle", gear.shackle_wll, legs),
        ("hitch", gear.hitch_wll, None),
    )
    known = ((kind, limit, alone) for kind, limit, alone in parts if limit not in (None, math.inf))
    return (*hung, *(_part(kind, limit, alone) for kind, limit, alone in known))


def _part(kind: RatingKind, limit: float, legs: _Legs | None) -> Rating:
    """A hook, shackle or hitch: all that hangs, or the worse leg where that pulls by more."""
    why = Remark("marked_for_all" if limit else "not_marked")
    if legs is not None:
        worked = work(
            f"{kind} on the leg that carries more",
            formulas.part_on_leg,
            part_limit=limit,
            larger_share=legs.share,
            included_angle=legs.angle,
        )
        if worked.result < limit * (1 - 1e-9):
            return Rating(
                kind=kind,
                name=kind,
                where="on the worse leg",
                capacity=worked.result,
                source="tag",
                why=Remark("marked_for_leg", legs=legs.said),
                worked=(*legs.worked, worked),
            )
    where = "carries all that hangs"
    return Rating(kind=kind, name=kind, where=where, capacity=limit, source="tag", why=why)


def _choke(gear: Gear) -> tuple[float, Remark]:
    """What a choke leaves [-], and that as a remark."""
    if gear.kind in UNBENT:
        factor, source = CHOKE_FACTOR, "ASME B30.9"
    else:
        factor, source = ROPE_CHOKE_FACTOR, "from memory"
    return factor, Remark("choke_leaves", share=down(factor, "ratio"), source=source)


def _one_leg(gear: Gear, sling: Sling) -> list[Rating]:
    leg = single_leg(gear)
    if leg is None:
        return []
    choked = sling.way == "choked"
    factor, choke = _choke(gear) if choked else (1.0, None)
    worked = work(
        f"one {sling.way} sling" if choked else "one straight leg",
        formulas.slung_leg,
        single_leg=leg.wll,
        mode_factor=factor,
    )
    return [_rating(gear, sling.way, leg, (choke,) if choke else (), worked)]


def _rating(gear: Gear, where: str, leg: Leg, why: tuple[Remark, ...], *worked: Worked) -> Rating:
    return Rating(
        kind="sling",
        name="sling",
        where=f"{gear.kind or 'sling of unsaid kind'}, {where}",
        capacity=worked[-1].result,
        source=leg.source,
        why=Remark("and_so", each=(*leg.why, *why)),
        worked=(*leg.worked, *worked),
    )


def _basket(gear: Gear, sling: Sling, *, diameter: float) -> list[Rating]:
    _refuse_wide_basket(sling, diameter=diameter)
    leg = single_leg(gear)
    if leg is None:
        return []
    opened = work(
        "how far a basket opens",
        formulas.basket_angle,
        sling_length=sling.length,
        largest_diameter=diameter,
    )
    angle = 2 * opened.result
    bend = 1.0 if gear.kind in UNBENT else ROPE_BEND
    worked = work(
        "one sling as a basket",
        formulas.basket,
        single_leg=leg.wll,
        basket_half_angle=opened.result,
        uniform_factor=2.0 if angle <= PARALLEL else UNIFORM if angle <= UNIFORM_TO else 1.0,
        bend_factor=bend,
    )
    why = [Remark("basket_parts", angle=up(angle, "angle")), _together(), Remark("slides_endwise")]
    if bend < 1:
        why.append(Remark("bent_rope", share=down(bend, "ratio")))
    return [_rating(gear, "basket", leg, tuple(why), opened, worked)]


def _together() -> Remark:
    """How two legs, or the parts of a basket, count."""
    return Remark("uniform", times=UNIFORM, most=near(UNIFORM_TO, "angle"))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Legs:
    """Two legs as they hang: angle between them [rad], share of the worse, said, worked."""

    angle: float
    share: float
    said: Remark
    worked: tuple[Worked, ...]


def _legs(
    sling: Sling, *, log_length: float, balance: float, diameter: float, whole: bool
) -> _Legs:
    share, worked = _larger_share(sling, log_length=log_length, balance=balance)
    _refuse_wide_legs(sling, diameter=diameter)
    if not whole:
        said = Remark("one_of_two_legs")
        return _Legs(angle=0.0, share=1.0, said=said, worked=())
    opened = work(
        "angle between two legs",
        formulas.leg_angle,
        sling_length=sling.length,
        largest_diameter=diameter,
        leg_spread=sling.spread,
    )
    said = Remark("legs_apart", angle=up(opened.result, "angle"), share=up(share, "ratio"))
    return _Legs(angle=opened.result, share=share, said=said, worked=(*worked, opened))


def _two_legs(gear: Gear, legs: _Legs) -> list[Rating]:
    leg = single_leg(gear, legs=2)
    if leg is None:
        return []
    factor, choke = _choke(gear)
    worked = work(
        "two legs, each choked round the log",
        formulas.two_legs,
        single_leg=leg.wll,
        mode_factor=factor,
        included_angle=legs.angle,
        larger_share=legs.share,
        uniform_factor=uniform(gear) if legs.angle <= UNIFORM_TO else 1.0,
    )
    why = (choke, legs.said, _together())
    return [_rating(gear, "two choked legs", leg, why, *legs.worked, worked)]


def _larger_share(
    sling: Sling, *, log_length: float, balance: float
) -> tuple[float, tuple[Worked, ...]]:
    """Share of the worse leg [-], with its working."""
    miss = balance_miss(sling, log_length=log_length, balance=balance)
    if sling.at is not None and miss >= sling.spread / 2:
        raise InputError.of(
            field="slung-at",
            given=Phrase(
                "{at} from the butt with legs {spread} apart",
                at=near(sling.at, "length"),
                spread=near(sling.spread, "length"),
            ),
            understood=Phrase(
                "both legs on one side of the balance point at {balance}: the log would tip out "
                "of them",
                balance=near(balance, "length"),
            ),
            wanted=Phrase(
                "the middle between the legs less than {half} from it",
                half=down(sling.spread / 2, "length"),
            ),
            fix="move the legs until the balance point is between them, or spread them more",
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
    nearer = "bring them within {widest} or " if free > 0.05 else ""
    raise InputError.of(
        field="leg-spread",
        given=Phrase(
            "{spread} with legs of {length}, of which once round the log leaves {free}",
            spread=up(sling.spread, "length"),
            length=down(sling.length, "length"),
            free=down(max(free, 0.0), "length"),
        ),
        wanted="at most 120° between the legs",
        fix=Phrase(
            nearer + "use legs of at least {needed}",
            widest=down(widest, "length"),
            needed=up(needed, "length"),
        ),
    )


def _refuse_wide_basket(sling: Sling, *, diameter: float) -> None:
    needed = diameter * (5 * math.pi / 6 + 1 / math.tan(WIDEST / 2))
    if sling.length >= needed:
        return
    raise InputError.of(
        field="sling-length",
        given=Phrase(
            "{length} as a basket under a log of {diameter}",
            length=down(sling.length, "length"),
            diameter=up(diameter, "diameter"),
        ),
        wanted="at most 120° between its two parts",
        fix=Phrase("use a sling of at least {needed}", needed=up(needed, "length")),
    )
