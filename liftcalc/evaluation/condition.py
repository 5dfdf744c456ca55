"""A walk round the machine: every item, how it is told, and the lifts it bars.

What an item takes off a figure of the machine is in ``machines.condition``; what it bars is a
clearance that allows nothing. All of it is judgement where no source is named.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.factors import WARNING_MASS, WARNING_MOMENT
from liftcalc.machines.condition import (
    BARE_FOOT,
    HELD_AT_MOST_CREEP,
    MOST_CREEP,
    MOST_PLAY,
    MOST_SUNK,
    SOFT_TYRE_DROP,
    SOFT_TYRE_SHARE,
    SOUND_CREEP,
    SOUND_PLAY,
    Defect,
)
from liftcalc.machines.schema import Machine
from liftcalc.physics.functions import Real, atan, is_zero
from liftcalc.remarks import Remark, down, near, up
from liftcalc.site.clearance import Clearance, Measured

STANDS_BY_BRAKE = 0.02
"""Slope on which a machine with weak brakes still stands on its wheels [-]; judgement."""

Bar = Callable[[Lift], Clearance | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing to look at.

    Attributes
    ----------
    do, tells, rule : Remark
        What to do, what that tells, and what is counted for it.
    field : str
        The field of a lift by which it is told.
    worn : str or function of the machine
        As it would be told of a worn machine: what its cost is reckoned with.
    bar : function of a lift, optional
        What it bars, kept or not; None where it has no say.
    asked : function of the machine
        Whether the machine has the thing at all.
    source : str
        Key of ``SOURCES``.
    """

    do: Remark
    tells: Remark
    rule: Remark
    field: str
    worn: str | Callable[[Machine], str]
    bar: Bar | None = None
    asked: Callable[[Machine], bool] = lambda _: True
    source: str = "practice"

    def told(self, machine: Machine) -> str:
        """As it would be told of this machine, worn."""
        return self.worn if isinstance(self.worn, str) else self.worn(machine)


def _kept(
    name: str, why: Remark, *, needs: Real = 1.0, has: float = 0.0, unit: Measured = "yes"
) -> Clearance:
    return Clearance(
        name=name,
        where="on the day",
        needs=needs,
        has=has,
        source="practice",
        said=why,
        kind="condition" if unit == "yes" else "wear",
        unit=unit,
        firm=True,
    )


def _by_word(
    fault: Defect,
    *,
    do: Remark,
    tells: Remark,
    rule: Remark,
    kept: str = "",
    why: Remark | None = None,
    bars: Callable[[Lift], bool] = lambda _: True,
    bar: Bar | None = None,
    asked: Callable[[Machine], bool] = lambda _: True,
) -> Item:
    """An item told by a word, which bars the lifts of ``bars`` where it was found.

    ``kept`` names what then is not so, and ``why`` says it; without, only ``bar`` has a say.
    """

    def found(lift: Lift) -> Clearance | None:
        if why is None or not (lift.condition.has(fault) and bars(lift)):
            return None
        return _kept(kept, why)

    return Item(
        do=do,
        tells=tells,
        rule=rule,
        field="faults",
        worn=fault,
        bar=bar or (found if why else None),
        asked=asked,
    )


def _creeps(lift: Lift) -> Clearance | None:
    creep = lift.condition.creep
    if creep <= SOUND_CREEP:
        return None
    return _kept(
        "creep of the hook", Remark("bars_creep"), needs=creep, has=MOST_CREEP, unit="creep"
    )


def _has_play(lift: Lift) -> Clearance | None:
    play = lift.condition.stray
    if not play:
        return None
    return _kept(
        "play at the nose", Remark("bars_play"), needs=play, has=MOST_PLAY, unit="thickness"
    )


def _sinks(lift: Lift) -> Clearance | None:
    if lift.stance == "wheels" or not lift.condition.sunk:
        return None
    return _kept(
        "sinking of a stabiliser in five minutes",
        Remark("bars_sinking"),
        needs=lift.condition.sunk,
        has=MOST_SUNK,
        unit="thickness",
    )


def _weak_brake(lift: Lift) -> Clearance | None:
    if not lift.condition.has("weak brake") or lift.stance != "wheels":
        return None
    if lift.travelling:
        return _kept("brakes that hold", Remark("bars_weak_brake"))
    return _kept(
        "slope that weak brakes hold on",
        Remark("bars_weak_brake"),
        needs=lift.site.slope,
        has=math.atan(STANDS_BY_BRAKE),
        unit="slope",
    )


def bars(lift: Lift) -> tuple[Clearance, ...]:
    """All that the machine's condition has a say in, kept or not."""
    found = (item.bar(lift) for item in ITEMS if item.bar is not None)
    return tuple(each for each in found if each is not None)


def condition_unsaid(lift: Lift) -> tuple[Remark, ...]:
    """That nobody told what a walk round found; a machine then counts as sound."""
    return () if lift.condition.faults is not None else (Remark("unsaid_condition"),)


def condition_warnings(lift: Lift) -> list[Remark]:
    """What of the machine's condition lowers figures."""
    found, said = lift.condition, []
    if found.ram_share < 1:
        said.append(Remark("rams_creep", share=down(found.ram_share, "ratio")))
    if found.stray:
        said.append(Remark("hangs_off", by=up(found.stray, "thickness")))
    if not is_zero(lift.sunk):
        said.append(Remark("comes_to_lean", lean=up(np.max(atan(lift.sunk)), "slope")))
    if lift.tyre_share < 1:
        said.append(Remark("soft_axles", share=down(lift.tyre_share, "ratio")))
    if found.has("missing pad") and lift.stance != "wheels":
        said.append(Remark("bare_foot", side=near(BARE_FOOT, "length")))
    return said


def _by_front(lift: Lift) -> bool:
    """Lifted or pressed down by the front end."""
    return lift.end == "front" or lift.stance == "stabilisers and bucket"


def _of_book(machine: Machine) -> str:
    """Four fifths of the file's pressure."""
    return f"{0.8 * float(machine.hydraulics.working_pressure) / 1e5:.0f} bar"


def _shifts(machine: Machine) -> bool:
    return float(machine.back.sideshift_limit) > 0


NO_BACK_END, NO_CARRYING = Remark("rule_no_back_end"), Remark("rule_no_carrying")
BURSTS, REPLACE = Remark("tells_hose"), Remark("bars_hose")

ITEMS = (
    _by_word(
        "cracked weld",
        do=Remark("do_welds"),
        tells=Remark("tells_welds"),
        rule=Remark("rule_welds"),
        kept="welds without cracks",
        why=Remark("bars_cracked_weld"),
    ),
    _by_word(
        "worn eye",
        do=Remark("do_eye"),
        tells=Remark("tells_eye"),
        rule=Remark("rule_eye"),
        kept="a sound eye to lift from",
        why=Remark("bars_worn_eye"),
        bars=lambda lift: lift.point.hold == "hangs",
    ),
    _by_word(
        "back hose",
        do=Remark("do_back_hoses"),
        tells=BURSTS,
        rule=NO_BACK_END,
        kept="sound hoses at the back end",
        why=REPLACE,
        bars=lambda lift: lift.end == "back",
    ),
    _by_word(
        "front hose",
        do=Remark("do_front_hoses"),
        tells=BURSTS,
        rule=Remark("rule_front_hoses"),
        kept="sound hoses at the front end",
        why=REPLACE,
        bars=_by_front,
    ),
    _by_word(
        "stabiliser hose",
        do=Remark("do_stabiliser_hoses"),
        tells=BURSTS,
        rule=Remark("rule_stabiliser_hoses"),
        kept="sound hoses of the stabilisers",
        why=REPLACE,
        bars=lambda lift: lift.stance != "wheels",
    ),
    Item(
        do=Remark("do_pressure"),
        tells=Remark("tells_pressure"),
        rule=Remark("rule_pressure"),
        field="pressure",
        worn=_of_book,
    ),
    Item(
        do=Remark("do_creep"),
        tells=Remark("tells_creep"),
        rule=Remark(
            "rule_creep",
            sound=near(SOUND_CREEP, "creep"),
            share=near(HELD_AT_MOST_CREEP, "ratio"),
            most=near(MOST_CREEP, "creep"),
        ),
        field="creep",
        worn="40 mm/min",
        bar=_creeps,
    ),
    Item(
        do=Remark("do_play"),
        tells=Remark("tells_play"),
        rule=Remark(
            "rule_play", sound=near(SOUND_PLAY, "thickness"), most=near(MOST_PLAY, "thickness")
        ),
        field="play",
        worn="30 mm",
        bar=_has_play,
    ),
    Item(
        do=Remark("do_stabilisers"),
        tells=Remark("tells_stabilisers"),
        rule=Remark("rule_stabilisers", most=near(MOST_SUNK, "thickness")),
        field="stabiliser_creep",
        worn="5 mm/min",
        bar=_sinks,
    ),
    _by_word(
        "missing pad",
        do=Remark("do_pads"),
        tells=Remark("tells_pads"),
        rule=Remark("rule_pads", side=near(BARE_FOOT, "length")),
    ),
    _by_word(
        "loose clamp",
        do=Remark("do_clamps"),
        tells=Remark("tells_clamps"),
        rule=NO_BACK_END,
        kept="clamps that hold",
        why=Remark("bars_loose_clamp"),
        bars=lambda lift: lift.end == "back",
        asked=_shifts,
    ),
    _by_word(
        "soft tyre",
        do=Remark("do_soft_tyres"),
        tells=Remark("tells_soft_tyres"),
        rule=Remark(
            "rule_soft_tyres",
            share=near(SOFT_TYRE_SHARE, "ratio"),
            drop=near(SOFT_TYRE_DROP, "thickness"),
        ),
        kept="hard tyres to carry on",
        why=Remark("bars_soft_tyre"),
        bars=lambda lift: lift.travelling,
    ),
    _by_word(
        "cut tyre",
        do=Remark("do_cut_tyres"),
        tells=Remark("tells_cut_tyres"),
        rule=Remark("rule_cut_tyres"),
        kept="tyres without deep cuts",
        why=Remark("bars_cut_tyre"),
        bars=lambda lift: lift.on_tyres,
    ),
    _by_word(
        "weak brake",
        do=Remark("do_brakes"),
        tells=Remark("tells_brakes"),
        rule=Remark("rule_brakes", slope=near(STANDS_BY_BRAKE, "ratio")),
        bar=_weak_brake,
    ),
    _by_word(
        "slack steering",
        do=Remark("do_steering"),
        tells=Remark("tells_steering"),
        rule=NO_CARRYING,
        kept="steering without slack",
        why=Remark("bars_slack_steering"),
        bars=lambda lift: lift.travelling,
    ),
    Item(
        do=Remark("do_devices"),
        tells=Remark("tells_devices"),
        rule=Remark(
            "rule_devices", mass=down(WARNING_MASS, "mass"), moment=down(WARNING_MOMENT, "moment")
        ),
        field="devices",
        worn="none",
        source="en_474_4",
    ),
)
"""All of it, in the order of a walk round."""
