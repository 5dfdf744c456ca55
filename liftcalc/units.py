"""Quantities at the door: text in, SI out, and back again for people.

The grammar is small on purpose: one number, one unit, and three written cases (feet and inches,
girth, ``1 in 10``). Spellings in daily use stand in ``unit_names``, so that a cold start does
not wait for pint; any other single word is asked of pint. A test holds every factor of the table
against pint. Nothing here guesses: a bare number, a comma, an expression, ``nan`` or an
ambiguous ``ton`` is refused with the reason.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Any, Literal

from liftcalc.errors import InputError
from liftcalc.unit_names import AMBIGUOUS, DEGREE, EXAMPLES, FOOT, G0, INCH, POUND, TABLE, Kind

__all__ = [
    "AMBIGUOUS",
    "EXAMPLES",
    "FOOT",
    "G0",
    "INCH",
    "POUND",
    "SPACE",
    "TABLE",
    "Kind",
    "Quantity",
    "Rounding",
    "System",
    "read",
    "show",
]

SPACE = "\u00a0"
"""Between thousands and before a unit: no line breaks there."""

_NUMBER = r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)"
_ONE = re.compile(rf"^({_NUMBER})\s*([^\d\s.,+\-*()][^\s,+*()]*)$")
_FEET = re.compile(
    r"^([+-]?\d+)\s*(?:ft|feet|foot|')\s*(?:(\d+)\s+)?(?:(\d+)/(\d+)|(\d+(?:\.\d*)?|\.\d+))"
    r"\s*(?:in|inch|inches|\"|'')$"
)
_INCHES = re.compile(r"^([+-]?\d+\s+)?(\d+)/(\d+)\s*(?:in|inch|inches|\")$")
_RISE = re.compile(rf"^1\s*(?:in|:)\s*({_NUMBER})$")
_PLAIN = str.maketrans({"′": "'", "’": "'", "″": '"', "”": '"', "−": "-", SPACE: " "})


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A value read from text: SI number, kind, the text given and what it was understood as."""

    value: float
    kind: Kind
    text: str
    echo: str


_UNKNOWN = '"{}" is not a unit known here'
_OTHER_KIND = "the unit is of the wrong kind"
_NOT_FINITE = "that is not a number one can lift with"


def wanted(kind: Kind) -> str:
    """What is wanted of a text that is to be a quantity."""
    return f"one {kind} with its unit, such as {EXAMPLES[kind]}"


def _refuse(text: str, kind: Kind, field: str, why: str, understood: str = "") -> InputError:
    return InputError.of(
        field=field, given=f'"{text}"', understood=understood, wanted=wanted(kind), fix=why
    )


def _kind_of(unit: str) -> str:
    """The kind a spelling of the table belongs to, or an empty string."""
    return next((kind for kind, table in TABLE.items() if unit in table), "")


def _factor(text: str, unit: str, kind: Kind, field: str) -> float:
    if unit in AMBIGUOUS:
        raise _refuse(text, kind, field, f'"{unit}" is not one unit: {AMBIGUOUS[unit]}')
    table = TABLE.get(kind, {})
    if unit in table:
        return table[unit]
    other = _kind_of(unit)
    if other:
        article = "an" if other[0] in "aeiou" else "a"
        raise _refuse(text, kind, field, _OTHER_KIND, f"{article} {other}")
    if not unit.isalpha():
        raise _refuse(text, kind, field, f'"{unit}" is not one unit known here')
    return _pint_factor(text, unit, kind, field)


_PINT_SI: dict[str, str] = {
    "length": "meter", "mass": "kilogram", "force": "newton", "moment": "newton*meter",
    "pressure": "pascal", "angle": "radian", "area": "meter**2", "volume": "meter**3",
    "density": "kilogram/meter**3", "acceleration": "meter/second**2", "speed": "meter/second",
}  # fmt: skip


def _pint_factor(text: str, unit: str, kind: Kind, field: str) -> float:
    """SI factor of a spelling outside the table, asked of pint; loaded only when needed."""
    if kind not in _PINT_SI:
        raise _refuse(text, kind, field, _UNKNOWN.format(unit))
    import pint  # noqa: PLC0415 - it takes a tenth of a second that most answers never need

    registry: Any = pint.UnitRegistry(autoconvert_offset_to_baseunit=False)
    try:
        asked = registry.Quantity(1.0, unit)
        factor = float(asked.to(_PINT_SI[kind]).magnitude)
    except pint.DimensionalityError:
        understood = f"a quantity in {asked.units}"
        why = _meant(unit, kind) or _OTHER_KIND
        raise _refuse(text, kind, field, why, understood) from None
    except Exception:  # pint raises many classes for words it cannot read; all mean the same here
        why = _meant(unit, kind) or _UNKNOWN.format(unit)
        raise _refuse(text, kind, field, why) from None
    if re.search(r"(?<!metric_)(?<!new)ton\b", str(asked.units)):
        # With any prefix: pint's kiloton is of short tons.
        raise _refuse(text, kind, field, f'"{unit}" is not one unit: {AMBIGUOUS["ton"]}')
    return factor


def _meant(unit: str, kind: Kind) -> str:
    """A hint where only capitals differ from a spelling of the table, or an empty string."""
    alike = [known for known in TABLE.get(kind, {}) if known.casefold() == unit.casefold()]
    return f'capitals matter in units: did you mean "{alike[0]}"' if alike else ""


def _inches(whole: str | None, top: str | None, bottom: str | None, plain: str | None) -> float:
    """Inches from their parts; NaN where the parts do not make one number below twelve."""
    if (bottom and not int(bottom)) or (whole and plain):
        return math.nan
    fraction = int(top) / int(bottom) if top and bottom else float(plain or 0)
    inches = float(whole or 0) + fraction
    return inches if inches < 12 else math.nan


def _written_length(body: str) -> tuple[float, str] | None:
    """Feet and inches, and fractions of an inch: SI value and echo, or None."""
    if found := _FEET.match(body):
        feet, *parts = found.groups()
        inches = _inches(*parts)
        sign = -1 if feet.startswith("-") else 1
        value = int(feet) * FOOT + sign * inches * INCH
        echo = f"{feet} ft {inches:g} in = {value:.4g} m"
    elif found := _INCHES.match(body):
        whole, top, bottom = found.groups()
        sign = -1 if (whole or "").startswith("-") else 1
        value = math.nan
        if int(bottom):
            value = (float(whole or 0) + sign * int(top) / int(bottom)) * INCH
        echo = f"{body} = {value:.4g} m"
    else:
        return None
    return None if math.isnan(value) else (value, echo)


def read(text: str, kind: Kind, *, field: str = "value") -> Quantity:
    """Read one quantity written by a person.

    Parameters
    ----------
    text : str
        One number and one unit. Lengths may be feet and inches; a diameter may be a girth
        (``"girth 1.6 m"``), read as a circle: never smaller than the true section, so it
        overstates the load; a slope may be ``"1 in 12"``; a ratio may be a bare number.
    kind : Kind
        What is wanted.
    field : str
        The name to use in an error message.

    Returns
    -------
    Quantity
        SI value and an echo of what was understood.

    Raises
    ------
    InputError
        With one ``Fault`` that says what was given, understood and wanted.
    """
    if not isinstance(text, str):
        raise _refuse(str(text), kind, field, "write it as text with its unit")
    body = " ".join(text.translate(_PLAIN).split())
    if kind == "diameter":
        return _read_diameter(text, body, field)
    if not body:
        raise _refuse(text, kind, field, "nothing was given")
    if "," in body:
        raise _refuse(text, kind, field, "write the decimal point as a point, no commas")
    if re.match(r"^[+-]?(nan|inf|infinity)\b", body, re.IGNORECASE):
        raise _refuse(text, kind, field, _NOT_FINITE)
    if kind == "slope":
        return _read_slope(text, body, field)
    if kind == "length" and (written := _written_length(body)):
        return Quantity(value=written[0], kind=kind, text=text, echo=written[1])
    if re.fullmatch(_NUMBER, body):
        if kind == "ratio":
            return Quantity(value=float(body), kind=kind, text=text, echo=body)
        raise _refuse(text, kind, field, "the unit is missing")
    found = _ONE.match(body)
    if not found:
        raise _refuse(text, kind, field, "only one number and one unit can be read")
    number, unit = found.groups()
    value = float(number) * _factor(text, unit, kind, field)
    if not math.isfinite(value):
        raise _refuse(text, kind, field, _NOT_FINITE)
    return Quantity(value=value, kind=kind, text=text, echo=f"{number} {unit}")


def _read_diameter(text: str, body: str, field: str) -> Quantity:
    girth = re.match(r"^(?:girth\s+(.+)|(.+)\s+girth)$", body, re.IGNORECASE)
    try:
        inner = read(next(p for p in girth.groups() if p) if girth else body, "length", field=field)
    except InputError as error:
        first = error.faults[0]
        raise InputError.of(
            field=field,
            given=f'"{text}"',
            understood=first.understood,
            wanted=wanted("diameter"),
            fix=first.fix,
        ) from None
    if not girth:
        return Quantity(value=inner.value, kind="diameter", text=text, echo=inner.echo)
    value = inner.value / math.pi
    return Quantity(
        value=value,
        kind="diameter",
        text=text,
        echo=f"girth {inner.echo}, so {value * 100:.1f} cm across",
    )


def _read_slope(text: str, body: str, field: str) -> Quantity:
    if found := _RISE.match(body):
        run = float(found.group(1))
        if run <= 0:
            raise _refuse(text, "slope", field, "the run must be above zero")
        value = math.atan(1 / run)
    elif body.endswith(("%", "percent")):
        ratio = read(body, "ratio", field=field).value
        value = math.atan(ratio)
    else:
        try:
            value = read(body, "angle", field=field).value
        except InputError as error:
            first = error.faults[0]
            raise _refuse(text, "slope", field, first.fix, first.understood) from None
    return Quantity(
        value=value,
        kind="slope",
        text=text,
        echo=f"{value / DEGREE:.2f}° ({100 * math.tan(value):.1f} %)",
    )


System = Literal["metric", "imperial"]
Rounding = Literal["near", "down", "up"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shown:
    """How one kind is written: places, what divides the SI value, and the unit after it."""

    places: int
    divisor: float
    unit: str


_BOTH: dict[Kind, _Shown] = {
    "angle": _Shown(places=1, divisor=DEGREE, unit="°"),
    "slope": _Shown(places=1, divisor=DEGREE, unit="°"),
    "ratio": _Shown(places=0, divisor=0.01, unit="%"),
    "turn rate": _Shown(places=1, divisor=DEGREE, unit="°/s"),
    "time": _Shown(places=1, divisor=1.0, unit="s"),
    "voltage": _Shown(places=1, divisor=1e3, unit="kV"),
}
_SHOWN: dict[System, dict[Kind, _Shown]] = {
    "metric": {
        **_BOTH,
        "length": _Shown(places=2, divisor=1.0, unit="m"),
        "diameter": _Shown(places=1, divisor=0.01, unit="cm"),
        "mass": _Shown(places=0, divisor=1.0, unit="kg"),
        "force": _Shown(places=1, divisor=1e3, unit="kN"),
        "moment": _Shown(places=2, divisor=1e3, unit="kN·m"),
        "pressure": _Shown(places=0, divisor=1e5, unit="bar"),
        "area": _Shown(places=2, divisor=1.0, unit="m²"),
        "volume": _Shown(places=3, divisor=1.0, unit="m³"),
        "density": _Shown(places=0, divisor=1.0, unit="kg/m³"),
        "acceleration": _Shown(places=2, divisor=1.0, unit="m/s²"),
        "speed": _Shown(places=1, divisor=TABLE["speed"]["km/h"], unit="km/h"),
        "bearing": _Shown(places=1, divisor=1e3, unit="kPa"),
        "thickness": _Shown(places=1, divisor=1e-3, unit="mm"),
        "creep": _Shown(places=0, divisor=TABLE["creep"]["mm/min"], unit="mm/min"),
        "slow speed": _Shown(places=2, divisor=1.0, unit="m/s"),
    },
    "imperial": {
        **_BOTH,
        "length": _Shown(places=2, divisor=FOOT, unit="ft"),
        "diameter": _Shown(places=1, divisor=INCH, unit="in"),
        "mass": _Shown(places=0, divisor=POUND, unit="lb"),
        "force": _Shown(places=0, divisor=POUND * G0, unit="lbf"),
        "moment": _Shown(places=0, divisor=POUND * G0 * FOOT, unit="lbf·ft"),
        "pressure": _Shown(places=0, divisor=TABLE["pressure"]["psi"], unit="psi"),
        "area": _Shown(places=1, divisor=FOOT**2, unit="ft²"),
        "volume": _Shown(places=1, divisor=FOOT**3, unit="ft³"),
        "density": _Shown(places=1, divisor=POUND / FOOT**3, unit="lb/ft³"),
        "acceleration": _Shown(places=2, divisor=FOOT, unit="ft/s²"),
        "speed": _Shown(places=1, divisor=TABLE["speed"]["mph"], unit="mph"),
        "bearing": _Shown(places=0, divisor=POUND * G0 / FOOT**2, unit="lbf/ft²"),
        "thickness": _Shown(places=2, divisor=INCH, unit="in"),
        "creep": _Shown(places=1, divisor=TABLE["creep"]["in/min"], unit="in/min"),
        "slow speed": _Shown(places=2, divisor=FOOT, unit="ft/s"),
    },
}


def _places(value: float, places: int, rounding: Rounding) -> str:
    scale = 10.0**places
    # The nudge keeps 0.29999999999999998 from being shown as 0.2 when rounding down: it is ten
    # million times finer than the last place shown.
    scaled = value * scale
    if rounding == "down":
        scaled = math.floor(scaled + 1e-7)
    elif rounding == "up":
        scaled = math.ceil(scaled - 1e-7)
    shown = round(scaled / scale, places) + 0.0  # + 0.0 turns a rounded −0.0 into 0.0
    return f"{shown:,.{places}f}".replace(",", SPACE)


def show(
    value: float,
    kind: Kind,
    system: System = "metric",
    rounding: Rounding = "near",
    *,
    places: int | None = None,
) -> str:
    """Write an SI value for people; capacities are shown with ``rounding="down"``, loads up.

    ``places`` after the point are those usual for the kind if not said. An infinite value is "no
    limit"; what is not a number, or is endless downward, is "no value".
    """
    if value == math.inf:
        return "no limit"
    if not math.isfinite(value):
        return "no value"
    how = _SHOWN[system][kind]
    number = _places(value / how.divisor, how.places if places is None else places, rounding)
    return number + ("" if how.unit.startswith("°") else SPACE) + how.unit
