"""How near a prediction came, and whether it erred on the unsafe side."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from liftcalc import units
from liftcalc.errors import InputError
from liftcalc.school.exercise import Exercise
from liftcalc.school.quantities import rounded
from liftcalc.school.question_builder import Choice, Key
from liftcalc.units import Kind, System, show

UNSAFE = " That errs on the unsafe side."
_BARE = re.compile(r"^\s*\d+(?:\.\d*)?\s*$|^\s*\.\d+\s*$")
_GROUPED = re.compile(r"(?<=\d)[ \u00a0\u202f](?=\d{3}(?!\d))")
_CHANGE = re.compile(r"^\s*([+-]?\d+(?:\.\d+)?)\s*(?:%|percent)\s*$")


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked:
    """A prediction as marked.

    ``score`` is 0 to 1; ``right`` whether it counts as right; ``unsafe`` whether it erred on the
    unsafe side by more than the tolerance. ``error`` is ln(given/true) [-] of a number, None of a
    choice or place. ``given`` and ``key`` are texts to keep: of a number without its ``unit``.
    ``said`` is what to tell the learner.
    """

    score: float
    right: bool
    unsafe: bool
    error: float | None
    given: str
    key: str
    unit: str
    said: str


def score_of(error: float, *, tolerance: float, half: float) -> float:
    """Score of an error [-]; all three are logarithms of a ratio [-], or lengths [m].

    1 within the tolerance, then half as much for every ``half`` farther off: a nearer guess never
    scores lower. A rule of this course, no source.
    """
    return float(2.0 ** (-max(0.0, abs(error) - tolerance) / half))


def mark(exercise: Exercise, given: str | float, *, system: System = "metric") -> Marked:
    """Mark a prediction.

    Of a choice ``given`` is its text, or its number counted from 1. Of a number or a place it is
    text with its unit, a bare number in it being in ``exercise.key.unit``, or a float [SI]. Where
    the value before the move was told, a change such as "-20 %" is read as such. Raises
    ``InputError`` when it is none of the choices, or no number above zero.
    """
    if exercise.key is None:
        return _choice(exercise.choices, given)
    value = _read(exercise.key, given)
    return _number(exercise.key, value, system)


def _choice(choices: tuple[Choice, ...], given: str | float) -> Marked:
    text = _plain(str(given))
    found = [each for each in choices if _plain(each.text) == text]
    if not found and re.fullmatch(r"\d{1,3}", text.removesuffix(".0")):
        number = int(float(text))
        found = list(choices[number - 1 : number]) if number > 0 else []
    if not found:
        raise InputError.of(
            field="choice",
            given=f'"{text[:60]}"',
            wanted=f"a number from 1 to {len(choices)}, or the text of a choice",
        )
    taken = found[0]
    right = next(each for each in choices if each.right)
    if taken.right:
        said = f"Right: {_open(right)}."
    else:
        said = f"Not so. You chose: {_open(taken)}. The model says: {_open(right)}."
        if taken.unsafe:
            said += UNSAFE
    return Marked(
        score=float(taken.right),
        right=taken.right,
        unsafe=taken.unsafe,
        error=None,
        given=taken.text,
        key=right.text,
        unit="",
        said=said,
    )


def _plain(text: str) -> str:
    """A choice as typed: of any case, whatever spaces it is shown with."""
    return " ".join(text.split()).casefold()


def _open(choice: Choice) -> str:
    """A choice as it goes into a sentence: without the full stop that a card ends in."""
    return choice.text.rstrip(".")


def _read(key: Key, given: str | float) -> float:
    """What was given [SI]."""
    if isinstance(given, str):
        # Thousands may be set apart as the pages show them.
        text = _GROUPED.sub("", given.replace("−", "-"))
        if key.start is not None and (change := _CHANGE.match(text)):
            value = key.start * (1 + float(change[1]) / 100)
        elif _BARE.match(bare := text.strip().removesuffix(key.unit)):
            value = float(bare) * key.factor
        else:
            kind: Kind = "pressure" if key.kind == "bearing" else key.kind
            value = units.read(text, kind, field="guess").value
    else:
        value = float(given)
    least = -1e-12 if key.place else 1e-12
    if not (math.isfinite(value) and value >= least):
        fall = ', or a change above "-100 %"' if key.start is not None else ""
        raise InputError.of(field="guess", given=f'"{given}"', wanted=f"a number above zero{fall}")
    return value


def _number(key: Key, value: float, system: System) -> Marked:
    error = value - key.value if key.place else math.log(value / key.value)
    beyond = abs(error) > key.tolerance
    unsafe = beyond and key.unsafe == ("over" if error > 0 else "under")
    true = show(key.value, key.kind, system, rounded(key.unsafe))
    told = show(value, key.kind, system)
    if beyond:
        size = show(abs(error), "length", system) if key.place else _off(value / key.value)
        side = f"{size} {_direction(key, error)}"
        said = f"You said {told}; the model says {true}: {side}."
        if unsafe:
            said += UNSAFE
    else:
        said = f"Right: the model says {true}."
    return Marked(
        score=score_of(error, tolerance=key.tolerance, half=key.half),
        right=not beyond,
        unsafe=unsafe,
        error=None if key.place else error,
        given=f"{value / key.factor:.6g}",
        key=f"{key.value / key.factor:.6g}",
        unit=key.unit,
        said=said,
    )


def _direction(key: Key, error: float) -> str:
    if key.place:
        return "too far" if error > 0 else "too near"
    return "too high" if error > 0 else "too low"


def _off(ratio: float) -> str:
    """How far a guess is off, said the same way for too high and too low."""
    if ratio >= 2 or ratio <= 0.5:
        return f"{max(ratio, 1 / ratio):.1f} times"
    return f"{100 * abs(ratio - 1):.0f} %"
