"""What was measured of one log, checked when the record is made."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from typing import Literal, get_args

from liftcalc.errors import Fault, raise_any
from liftcalc.remarks import Phrase, near
from liftcalc.timber.table import Species

State = Literal["fresh", "part-dry", "soaked"]
"""``fresh``: as felled. ``part-dry``: half the water above fibre saturation gone; lowers the low
and the likely mass only, since drying cannot be seen from outside a log and rain undoes it.
``soaked``: saturated, as after lying in water."""

LONGEST, SHORTEST = 40.0, 0.1
"""Limits of a log's length [m]; beyond them the tape was misread."""

THICKEST, THINNEST = 3.0, 0.05
"""Limits of a log's diameter [m]; beyond them the tape was misread."""

MIDDLE_TOLERANCE = 0.05
"""How far the middle may lie outside its two ends, as a share of the butt [-]: a knot or a bend
does that, two readings changed about do more."""

WETTEST = 3.0
"""Greatest moisture that can be stated [-]; the table's wettest sapwood holds 2.5."""

GREATEST_ADDED, GREATEST_SHARE = 20_000.0, 3.0
"""Limits of one extra, as a mass [kg] and as a share of the log's own mass [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Extra:
    """Something carried by the log: a mass [kg], and a share of the log's own mass [-]."""

    mass: float = 0.0
    share: float = 0.0


NOTHING = Extra()


@dataclass(frozen=True, slots=True, kw_only=True)
class Extras:
    """What clings to a log or has been left on it.

    ``ice`` and ``mud`` lie along the log and do not move its balance point; ``limbs`` are taken
    the same way, though a crown moves it toward the top. ``root_plate`` sits at the butt and
    moves it there.
    """

    ice: Extra = NOTHING
    mud: Extra = NOTHING
    root_plate: Extra = NOTHING
    limbs: Extra = NOTHING

    def __iter__(self) -> Iterator[tuple[str, Extra]]:
        """Name and extra of each, with the name as an option is written."""
        for one in fields(self):
            yield one.name.replace("_", "-"), getattr(self, one.name)


NO_EXTRAS = Extras()


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """What a scale said of the log with all that sticks to it, and how far that may be out [kg]."""

    mass: float
    tolerance: float


UNTOLD_TOLERANCE = 0.05
"""Tolerance of a weighing of which none was told [-]; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogMeasure:
    """One log as taped at the stump.

    Attributes
    ----------
    species : Species
        From ``species.find``.
    length : float
        Butt to top [m].
    butt, middle, top : float or None
        Diameters [m]. Enough are: all three; butt and top; middle alone.
    over_bark : bool
        Whether they were taken over the bark.
    moisture : State or float
        A state, or water over dry mass as measured [-].
    extras : Extras
        What the log carries.
    weighed : Weighed or None
        What it weighed; then neither species nor tape is asked for its mass.

    Raises
    ------
    InputError
        With every fault of the measure.
    """

    species: Species
    length: float
    butt: float | None = None
    middle: float | None = None
    top: float | None = None
    over_bark: bool = True
    moisture: State | float = "fresh"
    extras: Extras = NO_EXTRAS
    weighed: Weighed | None = None

    def __post_init__(self) -> None:
        """Check the measure as a whole."""
        faults = measure_faults(
            length=self.length,
            butt=self.butt,
            middle=self.middle,
            top=self.top,
            moisture=self.moisture,
            extras=self.extras,
        )
        raise_any(faults)


def measure_faults(
    *,
    length: float | None,
    butt: float | None,
    middle: float | None,
    top: float | None,
    moisture: State | float | None,
    extras: Extras,
    said: Mapping[str, str] | None = None,
    unread: frozenset[str] = frozenset(),
) -> list[Fault]:
    """Everything wrong with a measure.

    ``said`` has the user's own words by field; ``unread`` names the fields that were given but
    could not be read, which are thus not missing.
    """
    words = dict(said or {})
    diameters = {"butt": butt, "mid": middle, "top": top}
    faults: list[Fault] = []
    if length is not None:
        faults += _outside("length", length, SHORTEST, LONGEST, words)
    for field, value in diameters.items():
        if value is not None:
            faults += _outside(field, value, THINNEST, THICKEST, words)
    if not faults:
        faults += _order(butt=butt, middle=middle, top=top, said=words)
    faults += _missing({field for field, value in diameters.items() if value is not None} | unread)
    faults += _moisture_faults(moisture, words)
    for field, extra in extras:
        faults += _extra_faults(field, extra, words)
    return faults


def _given(field: str, value: float, said: Mapping[str, str]) -> str:
    return f'"{said[field]}"' if field in said else _length(value)


def _length(value: float) -> str:
    if not math.isfinite(value):
        return f"{value:g}"
    return Phrase("{value}", value=near(value, "length", 3))


def _outside(
    field: str, value: float, least: float, most: float, said: Mapping[str, str]
) -> list[Fault]:
    """A fault where a length is no number, not above zero, or not that of a log."""
    if least <= value <= most:
        return []
    if not math.isfinite(value) or value <= 0:
        fix = "a log has sizes above zero"
    else:
        fix = "check the unit and read the tape again"
    return [
        Fault(
            field=field,
            given=_given(field, value, said),
            understood=_length(value),
            wanted=Phrase(
                "from {least} to {most}", least=near(least, "length"), most=near(most, "length")
            ),
            fix=fix,
        )
    ]


def _order(
    *, butt: float | None, middle: float | None, top: float | None, said: Mapping[str, str]
) -> list[Fault]:
    """Faults where the diameters cannot be those of one log in that order."""
    if butt is None or top is None:
        return []
    if butt < top:
        return [
            Fault(
                field="butt",
                given=_given("butt", butt, said),
                understood=Phrase(
                    "{butt}, smaller than the top's {top}",
                    butt=near(butt, "diameter"),
                    top=near(top, "diameter"),
                ),
                wanted="the diameter of the thick end as butt, of the thin end as top",
                fix="change the two about",
            )
        ]
    slack = MIDDLE_TOLERANCE * butt
    if middle is None or top - slack <= middle <= butt + slack:
        return []
    end, how = ("butt", "thicker") if middle > butt else ("top", "thinner")
    return [
        Fault(
            field="mid",
            given=_given("mid", middle, said),
            understood=Phrase(
                "{middle}, {how} than both ends", middle=near(middle, "diameter"), how=how
            ),
            wanted=Phrase(
                "between the top's {top} and the butt's {butt}, give or take {slack}",
                top=near(top, "diameter"),
                butt=near(butt, "diameter"),
                slack=near(slack, "diameter"),
            ),
            fix=f"two readings may have changed places; this one may be the {end}",
        )
    ]


def _missing(have: set[str]) -> list[Fault]:
    """A fault where the diameters given are not enough for a volume."""
    if have in ({"mid"}, {"butt", "top"}, {"butt", "mid", "top"}):
        return []
    lacking = [end for end in ("butt", "top") if end not in have]
    fix = f"add {' and '.join(lacking)}" if have else "tape at least the middle"
    if "mid" in have:
        fix += ", or give the middle alone"
    return [
        Fault(
            field=" and ".join(lacking),
            given="nothing",
            understood=f"only {' and '.join(sorted(have))}" if have else "no diameter at all",
            wanted="butt, mid and top (best), butt and top, or mid alone",
            fix=fix,
        )
    ]


def _moisture_faults(moisture: State | float | None, said: Mapping[str, str]) -> list[Fault]:
    if moisture is None or moisture in get_args(State):
        return []
    if not isinstance(moisture, str) and 0 <= moisture <= WETTEST:
        return []
    given = moisture if isinstance(moisture, str) else f"{100 * moisture:.4g} %"
    return [
        Fault(
            field="moisture",
            given=f'"{said.get("moisture", given)}"',
            wanted="fresh, part-dry or soaked, or water over dry mass from 0 % to "
            f"{100 * WETTEST:.0f} %",
            fix="moisture of fresh wood is mostly 45 % to 160 % of its dry mass",
        )
    ]


def _extra_faults(field: str, extra: Extra, said: Mapping[str, str]) -> list[Fault]:
    if 0 <= extra.mass <= GREATEST_ADDED and 0 <= extra.share <= GREATEST_SHARE:
        return []
    given = f"{extra.mass:.4g} kg and {100 * extra.share:.4g} %"
    return [
        Fault(
            field=field,
            given=f'"{said.get(field, given)}"',
            wanted=f"a mass from 0 kg to {GREATEST_ADDED:.0f} kg, or from 0 % to "
            f"{100 * GREATEST_SHARE:.0f} % of the log's own mass",
            fix="leave it out where there is none",
        )
    ]
