"""The functions of the front door: what a person has goes in, answers come out.

Every argument is named as the option of the command line is, with underscores, and is a number in
SI base units (m, kg, Pa, rad, s, V), a quantity of pint, or a text such as ``"4.2 m"``; a flag is a
bool. Nothing is read here: all goes through the reader of the command line, which refuses what it
does not understand, every fault in one ``InputError``. ``docs/python.md`` has examples.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any, TypeVar

import numpy as np
from numpy.typing import ArrayLike, NDArray

from liftcalc.errors import Gather, InputError
from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.sweep import Sweep
from liftcalc.evaluation.sweep import sweep as _sweep
from liftcalc.family.files import load
from liftcalc.judgement.judge import judged
from liftcalc.machines.schema import Machine
from liftcalc.maps.find import find_limits
from liftcalc.maps.limits import BackLimits, FrontLimits
from liftcalc.questions.compare import Comparison, compared
from liftcalc.questions.registry import QuestionAnswer, tell
from liftcalc.requests.compare import parse_compare
from liftcalc.requests.demo import DEMO
from liftcalc.requests.fields import LiftRequest, LogRequest
from liftcalc.requests.fields_of_commands import CompareRequest, LimitsRequest, QuestionRequest
from liftcalc.requests.given import UNITS, magnitude, takes, written
from liftcalc.requests.limits import parse_limits
from liftcalc.requests.log import parse_log
from liftcalc.requests.question import parse_question
from liftcalc.requests.usual import careful_lift, ranged
from liftcalc.timber.log import LogEstimate, weigh

Request = TypeVar("Request")
Parsed = TypeVar("Parsed")


def _read(
    parse: Callable[[Request], Parsed],
    record: type[Request],
    given: Mapping[str, Any],
    gather: Gather | None = None,
) -> Parsed:
    """What a request says that is filled from what was given; with every fault there is."""
    gather = gather or Gather()
    texts = written(record, given, gather)
    try:
        parsed = parse(record(**texts))
    except InputError as error:
        # What could not even be written has its fault; that it is missing need not be told again.
        refused = {each.field.replace("_", "-") for each in gather.faults}
        more = (each for each in error.faults if each.field not in refused)
        raise type(error)([*gather.faults, *more]) from None
    gather.raise_any()
    return parsed


@takes(LiftRequest)
def check(machine: str | Path | Machine = "", **given: Any) -> Answer:
    """Check one lift: the load allowed, what stops it first, and this log against it.

    Parameters
    ----------
    machine : str, Path or Machine
        Name of a shipped machine, path of a file, or what ``load_machine`` gave.

    Returns
    -------
    Answer
        Loads in kg, rounded nowhere: round capacities down and loads up.

    Raises
    ------
    InputError
        With every fault of every argument; ``PoseError`` where the machine cannot stand so.
    """
    return judged(_read(ranged, LiftRequest, {"machine": machine, **given}))


def demo() -> Answer:
    """Check the embedded demo: a windblown larch with the back end."""
    return judged(ranged(DEMO))


@takes(LiftRequest)
def sweep(
    machine: str | Path | Machine = "",
    *,
    height: ArrayLike | None = None,
    reach: ArrayLike | None = None,
    slew: ArrayLike | None = None,
    **given: Any,
) -> Sweep:
    """Allowed load at many places at once.

    Parameters
    ----------
    machine : str, Path or Machine
        As for ``check``.
    height : array_like
        Of the lift point [m], or a quantity.
    reach : array_like
        Of the lift point; places are made of both as numpy broadcasts them. At the front end the
        arms decide the reach, and it is not given.
    slew : array_like
        Every place is tried at each of them [rad]; straight back if not given. Back end only.

    Returns
    -------
    Sweep
        Arrays of places by slews: NaN where the pose cannot be taken. ``to_frame()`` makes a
        DataFrame of it.

    Raises
    ------
    InputError
        With every fault of every argument.
    """
    gather, arrays = Gather(), {}
    front = str(given.get("end", "")).strip().lower() == "front"
    needed = ("height",) if front else ("height", "reach")
    for name, value in (("height", height), ("reach", reach), ("slew", slew)):
        with gather:
            arrays[name] = _array(name, value, needed=name in needed, barred=front)
    given = {"machine": machine, **given, **dict.fromkeys(needed, "1 m")}
    lift = _read(careful_lift, LiftRequest, given, gather).lift
    try:
        out, up = np.broadcast_arrays(arrays["reach"], arrays["height"])
    except ValueError as error:
        wanted = "arrays of one shape, or of shapes that go together"
        raise InputError.of(field="reach and height", given=str(error), wanted=wanted) from None
    return _sweep(lift, reach=out.ravel(), height=up.ravel(), slew=arrays["slew"].ravel())


def _array(name: str, given: Any, *, needed: bool, barred: bool) -> NDArray[np.float64]:
    """An argument as an array in SI; one zero stands for what need not be given."""
    unit, pint_unit = UNITS["angle" if name == "slew" else "length"]
    if given is None and not needed:
        return np.zeros(1)
    wanted = f"numbers in {unit}, or a quantity"
    if barred and not needed:
        wanted = "nothing for the front end"
    elif given is not None:
        of_pint = hasattr(given, "to_root_units")
        with suppress(ValueError):  # of rows that differ in length
            numbers = np.atleast_1d(magnitude(given, pint_unit) if of_pint else given)
            if numbers.dtype.kind in "fiu":
                return numbers.astype(float)
    said = "nothing" if given is None else f"{given!r:.60}"
    raise InputError.of(field=name, given=said, wanted=wanted)


@takes(LimitsRequest)
def limits(
    machine: str | Path | Machine = "", **given: Any
) -> BackLimits | tuple[FrontLimits, ...]:
    """Map where an end can lift: loads that hold anywhere in each cell, and what stops it first.

    Parameters
    ----------
    machine : str, Path or Machine
        As for ``check``. Place and log may be left out.

    Returns
    -------
    BackLimits or tuple of FrontLimits
        At the front one for each attachment and lift point, or for the one that is named.

    Raises
    ------
    InputError
        With every fault of every argument, or where nothing can be reached.
    """
    return find_limits(_read(parse_limits, LimitsRequest, {"machine": machine, **given}))


@takes(CompareRequest)
def compare(machine: str | Path | Machine = "", **given: Any) -> Comparison:
    """Compare front and back end for one log, from pick-up to set-down.

    Parameters
    ----------
    machine : str, Path or Machine
        As for ``check``.

    Returns
    -------
    Comparison
        Which end to take and why, and the check of each at both places.

    Raises
    ------
    InputError
        With every fault of every argument.
    """
    return compared(_read(parse_compare, CompareRequest, {"machine": machine, **given}))


@takes(QuestionRequest)
def ask(question: str, machine: str | Path | Machine = "", **given: Any) -> QuestionAnswer:
    """Ask the other way round: how far, how high, how long, how steep, what would buy more.

    Parameters
    ----------
    machine : str, Path or Machine
        As for ``check``. What is asked for need not be given.

    Returns
    -------
    QuestionAnswer
        Each answer rounded to the safe side, with the check there and just beyond.

    Raises
    ------
    InputError
        With every fault of every argument, or where the question does not go with the lift.
    """
    given = {"question": question, "machine": machine, **given}
    return tell(_read(parse_question, QuestionRequest, given))


@takes(LogRequest)
def weigh_log(**given: Any) -> LogEstimate:
    """Weigh a log from tape and species.

    Returns
    -------
    LogEstimate
        Low, likely and planning mass [kg]; the balance point from the butt [m].

    Raises
    ------
    InputError
        With every fault of every argument.
    """
    return weigh(_read(parse_log, LogRequest, given).measure)


load_machine = load
