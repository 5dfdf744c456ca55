"""What chain, sling, hook, shackle and hitch may carry."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import Literal, get_args

from liftcalc.errors import Fault, raise_any
from liftcalc.physics import formulas
from liftcalc.physics.worked import Worked, work
from liftcalc.remarks import Remark, near
from liftcalc.rigging.sling import sound

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
    (0.006, 1120.0, 1600.0), (0.007, 1500.0, 2120.0), (0.008, 2000.0, 2800.0),
    (0.010, 3150.0, 4250.0), (0.013, 5300.0, 7500.0), (0.016, 8000.0, 11200.0),
    (0.018, 10000.0, 14000.0), (0.020, 12500.0, 17000.0), (0.022, 15000.0, 21200.0),
    (0.026, 21200.0, 30000.0), (0.032, 31500.0, 45000.0),
)  # fmt: skip
"""Size [m] of grade 8 chain, working load limit of one leg and of two up to 90° apart [kg].

Source: en_818_4, from memory.
"""

UNIFORM = 1.4
"""Straight legs that two legs, or the parts of a basket, count for up to 90° between them [-].

Beyond, up to 120°, they count for one; source: uniform rating of EN 818-4 and EN 1492, from memory.
Two legs at a smaller angle could hold more by statics: they are marked, and used, by this.
"""

_OR_TAG = "or read the tag and give sling-wll"
_HOW_TO_SIZE = (
    "measure the thickness of the bar of a link, or of the rope, with a calliper and give "
    f"sling-size; {_OR_TAG}"
)
_ASKS = {
    "hook_wll": Remark("unsaid_hook"),
    "shackle_wll": Remark("unsaid_shackle"),
    "hitch_wll": Remark("unsaid_hitch"),
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
        Working load limit on the tag [kg]: of one straight leg, of two legs that of the whole
        sling up to 90° between them.
    hook_wll, shackle_wll, hitch_wll : float or None
        Working load limit of each [kg]; None where nobody said, infinite where there is none of
        it, zero where it is there and bears no mark.

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
                above=None if field.name in _ASKS else 0.0,
                least=0.0,
            )
        faults += _unknown_limit(self)
        raise_any(faults)


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
                fix=f"a size says nothing without the kind; {_OR_TAG}",
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
    why: tuple[Remark, ...]
    worked: tuple[Worked, ...] = ()


def single_leg(gear: Gear, *, legs: int = 1) -> Leg | None:
    """Working load limit of one straight leg of a sling of one or two.

    Returns
    -------
    Leg or None
        The least of what the size gives, the row of EN 818-4 for grade 80 chain (that of the next
        size made, so that a thinner chain never carries more), and the tag: of two legs what the
        whole sling's tag leaves for each. None where nothing was said of kind, size and tag. Of
        sound gear: overstates what worn, kinked, knotted or cut gear carries.
    """
    found: list[Leg] = []
    if gear.kind in SIZE_RULE and gear.size is not None:
        worked = work(
            f"one straight leg of {gear.kind}, {1000 * gear.size:.3g} mm",
            formulas.sized_leg,
            gear_size=gear.size,
            size_rule=SIZE_RULE[gear.kind],
        )
        why = [Remark("by_size", kind=gear.kind, size=near(gear.size, "thickness"))]
        if gear.kind == "chain grade 30":
            # Common practice, no source; the doggers' guide gives its limit all the same.
            why.append(Remark("not_for_lifting"))
        found.append(
            Leg(wll=worked.result, source="queensland_doggers", why=tuple(why), worked=(worked,))
        )
        row = _row(gear)
        if row is not None:
            by_row = Remark("by_row", kind=gear.kind, size=near(row[0], "thickness"))
            found.append(Leg(wll=row[1], source="en_818_4", why=(by_row,), worked=(worked,)))
    if gear.wll is not None and legs == 1:
        found.append(Leg(wll=gear.wll, source="tag", why=(Remark("by_tag"),)))
    elif gear.wll is not None:
        worked = work(
            "one straight leg, by the tag of the whole sling",
            formulas.tagged_leg,
            sling_tag=gear.wll,
            uniform_factor=uniform(gear),
        )
        found.append(
            Leg(wll=worked.result, source="tag", why=(Remark("by_tag_of_whole"),), worked=(worked,))
        )
    return min(found, key=lambda each: each.wll, default=None)


def _row(gear: Gear) -> tuple[float, float, float] | None:
    """The row of EN 818-4 for grade 80 chain of a size, or of the next size made."""
    if gear.kind != "chain grade 80" or gear.size is None:
        return None
    return next((row for row in EN_818_4_ROWS if gear.size <= row[0] * (1 + 1e-9)), None)


def uniform(gear: Gear) -> float:
    """Straight legs that two of this gear count for up to 90° apart [-]: the rule, or its row."""
    row = _row(gear)
    return UNIFORM if row is None else min(UNIFORM, row[2] / row[1])


def missing(gear: Gear) -> tuple[Remark, ...]:
    """What was not said of the rigging and so is not checked."""
    sling = [] if single_leg(gear) else [Remark("unsaid_sling")]
    if gear.hook_wll == gear.shackle_wll == math.inf:
        sling.append(Remark("unsaid_joint"))
    return (*sling, *(said for name, said in _ASKS.items() if getattr(gear, name) is None))
