"""Limits as text: maps with a letter for what stops the lift first, and a legend."""

from __future__ import annotations

import math
from itertools import pairwise
from string import ascii_lowercase

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.warnings import unchecked
from liftcalc.factors import CAUTION
from liftcalc.maps.downsampling import Downsampled, coarse
from liftcalc.maps.limits import BackLimits, Cells, FrontLimits, LimitMap
from liftcalc.maps.warnings import limits_warnings
from liftcalc.reports.text import WIDTH, listed, log_words, machine_words, wrapped
from liftcalc.requests.limits import ParsedLimits
from liftcalc.units import FOOT, POUND, System, show

COLUMNS, ROWS = 14, 16
"""Larger cells in a map of text, at most."""
WIDE = 8
"""Width of a cell."""
LABEL, LABEL_SLEW = 16, 26
"""Width of what stands before a row."""

HOW = (
    "Each number holds anywhere inside its square, as far as that can be reached; between and "
    "round them it is not less. Squares with ~ are only reached in part."
)


def table_back(limits: BackLimits, read: ParsedLimits, system: System) -> list[str]:
    """Side and plan map for people; loads rounded down."""
    lift = limits.lift
    side = "left" if lift.slew > 0 else "right"
    where = (
        f"slewed {abs(math.degrees(lift.slew)):.0f}° to the {side}"
        if lift.slew
        else ("straight back")
    )
    even = (
        "Left and right are alike."
        if limits.alike
        else f"Left and right are NOT alike: {'; '.join(limits.uneven) or 'the machine is not'}."
    )
    return [
        f"{lift.machine.title}: where the back end can lift",
        "",
        *_unchecked(lift),
        *_head(limits.side, read, system),
        "",
        f"Reach by height, {where}: load allowed at the lift point [{_units(system)[1]}]",
        "",
        *_map(limits.side, system),
        "",
        f"Slew by reach, lift point {_length(limits.plan.at, system)} up: load allowed "
        f"[{_units(system)[1]}]",
        *(f"  {line}" for line in wrapped(even)),
        "",
        *_map(limits.plan, system),
        "",
        *_foot(read, (limits.side, limits.plan)),
    ]


def table_front(limits: tuple[FrontLimits, ...], read: ParsedLimits, system: System) -> list[str]:
    """A curve in rows for each attachment."""
    first = limits[0].lift
    lines = [f"{first.machine.title}: where the front end can lift", ""]
    lines += _unchecked(*(each.lift for each in limits))
    lines += _head(limits[0], read, system, tool=len(limits) == 1)
    for each in limits:
        lines += ["", f"{each.lift.tool.name}, {each.lift.point.name}"]
        if read.for_log:
            lines.append(f"  {_share(each, system)}")
        lines += ["", *_rows(each, system)]
    return [*lines, "", *_foot(read, limits)]


def _unchecked(*lifts: Lift) -> list[str]:
    """What was not said, on top: no figure below is a yes to it."""
    texts = dict.fromkeys(text for each in lifts for text in unchecked(each))
    return ["Not said, so not checked", *listed(texts), ""] if texts else []


def _head(limits: Cells, read: ParsedLimits, system: System, *, tool: bool = True) -> list[str]:
    said = machine_words(limits.lift, tool=tool)
    lines = [*wrapped(said), "", *wrapped(CAUTION), ""]
    if read.for_log:
        plan = show(limits.lift.log.mass_planning, "mass", system=system, rounding="up")
        lines.append(f"this log, to plan on {plan}")
        if limits.lift.end == "back":
            lines += wrapped(_share(limits, system))
    else:
        lines += wrapped(log_words(limits.lift, system, for_log=False))
    return [*(f"  {line}".rstrip() for line in lines), "", *(f"  {x}" for x in wrapped(HOW))]


def _share(limits: Cells, system: System) -> str:
    """How much of what can be reached allows the log."""
    reached = int((~np.isnan(limits.allowed)).sum())
    passed = int(limits.passes.sum())
    need = show(limits.lift.needed, "mass", system=system, rounding="up")
    return (
        f"The log needs {need} at the lift point, with rigging and load factor: allowed in "
        f"{math.floor(100 * passed / max(reached, 1))} % of the cells that can be reached."
    )


def _map(limits: LimitMap, system: System) -> list[str]:
    """A map with what it counts along its left side upward, or from left to right by slew."""
    turned = limits.across == "slew"
    made = coarse(limits, (limits.reach, limits.other), most=(COLUMNS, ROWS), turns=turned)
    letters, digits = _letters(made)
    unit, name = _length_unit(system)
    columns = [f"{low / unit:.1f}-{high / unit:.1f}" for low, high in _pairs(made.edges[0])]
    label = LABEL_SLEW if turned else LABEL
    head = f"  {'slew' if turned else f'height [{name}]':<{label}}" + "".join(
        f"{each:>{WIDE + 1}}" for each in columns
    )
    lines = [f"  {'':<{label}} reach [{name}]", head]
    for row in range(made.allowed.shape[1] - 1, -1, -1):
        low, high = _pairs(made.edges[1])[row]
        row_name = (
            f"{_turn(high)} to {_turn(low)}" if turned else f"{low / unit:.1f} to {high / unit:.1f}"
        )
        shown = "".join(
            f"{_cell(made, (column, row), letters, digits, system):>{WIDE + 1}}"
            for column in range(made.allowed.shape[0])
        )
        lines.append(f"  {row_name:<{label}}{shown}".rstrip())
    return [*lines, "", *_legend(limits, letters, digits)]


def _rows(limits: FrontLimits, system: System) -> list[str]:
    """Height, the reach that follows, load, log and what governs."""
    made = coarse(limits, (limits.height,), most=(ROWS,))
    letters, digits = _letters(made)
    unit, name = _length_unit(system)
    lines = [
        f"  {f'height [{name}]':<{LABEL}}{f'reach [{name}]':>{WIDE + 6}}"
        f"{f'allowed [{_units(system)[1]}]':>{WIDE + 8}}"
    ]
    for row in range(made.allowed.size - 1, -1, -1):
        low, high = _pairs(made.edges[0])[row]
        inside = (limits.height[:-1] >= low - 1e-9) & (limits.height[1:] <= high + 1e-9)
        inside &= ~np.isnan(limits.allowed)
        reach = "-"
        if inside.any():
            near, far = limits.reach_least[inside].min(), limits.reach_most[inside].max()
            reach = (
                f"{math.floor(near / unit * 100) / 100:.2f}-{math.ceil(far / unit * 100) / 100:.2f}"
            )
        shown = _cell(made, (row,), letters, digits, system)
        label = f"{low / unit:.1f} to {high / unit:.1f}"
        lines.append(f"  {label:<{LABEL}}{reach:>{WIDE + 6}}{shown:>{WIDE + 8}}".rstrip())
    return [*lines, "", *_legend(limits, letters, digits)]


def _letters(made: Downsampled) -> tuple[dict[int, str], dict[int, str]]:
    """A letter for each criterion that governs somewhere, a digit for each reason."""
    there = sorted({int(each) for each in made.governs.ravel() if each >= 0})
    why = sorted({int(each) for each in made.stopped.ravel() if each >= 0})
    return (
        {which: ascii_lowercase[n % 26] for n, which in enumerate(there)},
        {which: str(n) for n, which in enumerate(why, 1)},
    )


def _cell(
    made: Downsampled,
    at: tuple[int, ...],
    letters: dict[int, str],
    digits: dict[int, str],
    system: System,
) -> str:
    which = int(made.governs[at])
    if which < 0:
        return f"({digits.get(int(made.stopped[at]), '?')}) "
    load = max(0, math.floor(made.allowed[at] / _units(system)[0] + 1e-7))
    return f"{load}{letters[which]}{'~' if made.part[at] else ' '}"


def _legend(limits: Cells, letters: dict[int, str], digits: dict[int, str]) -> list[str]:
    lines = [f"  {letter:<4}{limits.criteria[which]}" for which, letter in letters.items()]
    lines += [
        f"  ({digit}) not within reach, all or in part: {limits.reasons[which].words}"
        for which, digit in digits.items()
    ]
    return lines


def _foot(read: ParsedLimits, limits: tuple[LimitMap | FrontLimits, ...]) -> list[str]:
    """What was understood, assumed and left out."""
    first = read.reads[0]
    every = dict.fromkeys(pair for each in read.reads for pair in each.echoes)
    if len(read.reads) > 1:
        every = {p: None for p in every if p[0] not in ("attachment", "lift-point")}
    lines = ["Understood", *(f"  {name:<{WIDTH}}{echo}" for name, echo in every)]
    assumed = dict.fromkeys(x for each in read.reads for x in each.lift.assumed)
    lines += ["", "Warnings", *listed(limits_warnings(*limits, unsaid=False))]
    missed = len(read.reads) - len(limits) if first.lift.end == "front" else 0
    if missed > 0:
        lines += listed([f"{missed} attachments cannot stand at this tilt at any height."])
    return [*lines, "", "Assumed", *listed(assumed)]


def _pairs(edges: object) -> list[tuple[float, float]]:
    values = [float(each) for each in np.asarray(edges)]
    return list(pairwise(values))


def _turn(angle: float) -> str:
    degrees = round(math.degrees(angle))
    return "0" if degrees == 0 else f"{abs(degrees)}° {'left' if degrees > 0 else 'right'}"


def _units(system: System) -> tuple[float, str]:
    return (1.0, "kg") if system == "metric" else (POUND, "lb")


def _length_unit(system: System) -> tuple[float, str]:
    return (1.0, "m") if system == "metric" else (FOOT, "ft")


def _length(value: float, system: System) -> str:
    unit, name = _length_unit(system)
    return f"{value / unit:.2f} {name}"
