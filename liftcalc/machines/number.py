"""Numbers that know where they come from.

A ``Number`` is a float in SI that carries its kind, source and tolerance, so that a machine read
from a file can be computed with directly and still say what each figure rests on.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Annotated, Any, Literal, get_args

from pydantic import BeforeValidator
from pydantic_core import PydanticCustomError

from liftcalc import units
from liftcalc.errors import InputError

Provenance = Literal["published", "measured", "assumed", "derived"]
PROVENANCES: tuple[str, ...] = get_args(Provenance)


class Number(float):
    """A float in SI with its kind, source, tolerance [SI] and the text it was read from."""

    __slots__ = ("kind", "source", "text", "tolerance")

    kind: str
    source: str
    text: str
    tolerance: float

    def __new__(
        cls, value: float, *, kind: str, source: str, text: str = "", tolerance: float = 0.0
    ) -> Number:
        """A number of this value and provenance."""
        made = super().__new__(cls, value)
        made.kind, made.source, made.text, made.tolerance = kind, source, text, tolerance
        return made

    def __reduce__(self) -> tuple[Any, ...]:
        """Pickle and copy with the provenance kept."""
        return (_again, (float(self), self.kind, self.source, self.text, self.tolerance))


def plain(figure: float) -> float:
    """A figure as a plain float, over which no time is lost; an array of figures stays one."""
    return float(figure) if isinstance(figure, float) else figure


def _again(value: float, kind: str, source: str, text: str, tolerance: float) -> Number:
    return Number(value, kind=kind, source=source, text=text, tolerance=tolerance)


def _fault(given: object, wanted: str, fix: str, understood: str = "") -> PydanticCustomError:
    return PydanticCustomError(
        "liftcalc",
        "given {given}; wanted {wanted}; {fix}",
        {"given": str(given), "wanted": wanted, "fix": fix, "understood": understood},
    )


def read_number(given: object, kind: units.Kind) -> Number:
    """A ``Number`` from what a machine file holds after its defaults were spread."""
    if isinstance(given, Number):
        return given
    wanted = units.wanted(kind)
    if not isinstance(given, Mapping):
        raise _fault(repr(given), wanted, "write it as text with its unit, in quotes")
    unknown = set(given) - {"value", "kind", "source", "tolerance"}
    if unknown:
        raise _fault(sorted(unknown), "value, kind, source, tolerance", "take the others out")
    if given.get("kind") not in PROVENANCES:
        raise _fault(
            f"kind {given.get('kind')!r}",
            f"one of {', '.join(PROVENANCES)}",
            "say of the number, or once at the top of its table, where it comes from",
        )
    if not given.get("source"):
        raise _fault("no source", "a source", "say who measured or published it, or why assumed")
    text = given.get("value")
    try:
        value = units.read(text if isinstance(text, str) else repr(text), kind)
        tolerance = (
            units.read(str(given["tolerance"]), kind).value if given.get("tolerance") else 0.0
        )
    except InputError as error:
        fault = error.faults[0]
        raise _fault(fault.given, fault.wanted, fault.fix, fault.understood) from None
    if tolerance < 0:
        raise _fault(given["tolerance"], "a tolerance above zero", "drop the minus sign")
    return Number(
        value.value,
        kind=str(given["kind"]),
        source=str(given["source"]),
        text=value.echo,
        tolerance=tolerance,
    )


def _reader(kind: units.Kind, low: float, high: float, bounds: str) -> Callable[[object], Number]:
    def read(given: object) -> Number:
        number = read_number(given, kind)
        if not low <= number <= high:
            raise _fault(number.text, bounds, "check the digits and the unit")
        return number

    return read


def _size(given: object) -> tuple[Number, ...]:
    """Length and width of something, both above zero."""
    pair = _pair("length", 2)(given)
    for each in pair:
        if not 1e-3 <= each <= _WIDEST:
            raise _fault(each.text, "two lengths between 1 mm and 12 m", "check the unit")
    return pair


def _pair(kind: units.Kind, size: int) -> Callable[[object], tuple[Number, ...]]:
    def read(given: object) -> tuple[Number, ...]:
        if not isinstance(given, list | tuple) or len(given) != size:
            raise _fault(repr(given), f"a list of {size} {kind}s", 'such as ["1.2 m", "0.4 m"]')
        return tuple(read_number(each, kind) for each in given)

    return read


def _number(kind: units.Kind, low: float, high: float, bounds: str) -> Any:
    return Annotated[Any, BeforeValidator(_reader(kind, low, high, bounds))]


# Bounds are those of anything one may call a loader-backhoe: they catch slips, not machines.
_WIDEST = 12.0
Length: Any = _number("length", 1e-3, _WIDEST, "a length between 1 mm and 12 m")
Offset: Any = _number("length", -12.0, 12.0, "a length between −12 m and 12 m")
Bore: Any = _number("length", 0.015, 0.4, "a diameter between 15 mm and 400 mm")
Mass: Any = _number("mass", 0.1, 40_000.0, "a mass between 0.1 kg and 40 t")
NoMass: Any = _number("mass", 0.0, 40_000.0, "a mass between 0 and 40 t")
Pressure: Any = _number("pressure", 1e6, 5e7, "a pressure between 10 bar and 500 bar")
Force: Any = _number("force", 1.0, 1e6, "a force between 1 N and 1000 kN")
Torque: Any = _number("moment", 100.0, 1e6, "a torque between 0.1 and 1000 kN·m")
Angle: Any = _number("angle", -6.3, 6.3, "an angle between −360° and 360°")
Ratio: Any = _number("ratio", 0.0, 1.0, "a share between 0 and 1")
Efficiency: Any = _number("ratio", 0.3, 1.0, "an efficiency between 0.3 and 1")
Size: Any = Annotated[Any, BeforeValidator(_size)]
Spot2: Any = Annotated[Any, BeforeValidator(_pair("length", 2))]
Spot3: Any = Annotated[Any, BeforeValidator(_pair("length", 3))]
