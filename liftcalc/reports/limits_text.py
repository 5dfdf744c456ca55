"""Limits as text: maps with a letter for what stops the lift first, and a legend."""

from __future__ import annotations

import math
from itertools import pairwise
from string import ascii_lowercase

import numpy as np

from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.warnings import unchecked
from liftcalc.factors import CAUTION
from liftcalc.machines.lookup import named
from liftcalc.maps.downsampling import Downsampled, downsampled
from liftcalc.maps.limits import ON_GROUND, BackLimits, Cells, FrontLimits, LimitMap
from liftcalc.maps.warnings import limits_warnings
from liftcalc.reports.map_words import alike_words, map_name, share_words
from liftcalc.reports.text import WIDTH, listed, log_words, machine_words, not_checked, wrapped
from liftcalc.reports.words import texts
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
    "round them it is not less. Squares with ~ are only reached in part"
)


LOAD_ALLOWED = "load allowed at the lift point"


def table_back(limits: BackLimits, read: ParsedLimits, system: System) -> list[str]:
    """Side and plan map for people; loads rounded down."""
    return [
        f"{named(limits.lift.machine)}: where the back end can lift",
        "",
        *_unchecked(system, limits.lift),
        *_head(limits.maps, system),
        "",
        _title(limits.side, system),
        "",
        *_map(limits.side, system),
        "",
        _title(limits.plan, system),
        *(f"  {line}" for line in wrapped(alike_words(limits, system))),
        "",
        *_map(limits.plan, system),
        "",
        *_foot(read, limits.maps, system),
    ]


def _title(limits: LimitMap, system: System) -> str:
    return f"{map_name(limits, system)}: {LOAD_ALLOWED} [{_units(system)[1]}]"


def table_front(limits: tuple[FrontLimits, ...], read: ParsedLimits, system: System) -> list[str]:
    """A curve in rows for each attachment."""
    lines = [f"{named(limits[0].lift.machine)}: where the front end can lift", ""]
    lines += _unchecked(system, *(each.lift for each in limits))
    lines += _head(limits, system)
    for each in limits:
        lines += ["", map_name(each, system), "", *_rows(each, system)]
    return [*lines, "", *_foot(read, limits, system)]


def _unchecked(system: System, *lifts: Lift) -> list[str]:
    """What was not said, on top: no figure below is a yes to it."""
    return not_checked(dict.fromkeys(one for each in lifts for one in unchecked(each)), system)


def _head(maps: tuple[LimitMap | FrontLimits, ...], system: System) -> list[str]:
    """For what the maps are, and in how much of each of them this log is allowed."""
    first = maps[0]
    lift, for_log = first.lift, first.for_log
    # At the front each attachment needs its own rigging.
    one = len({(each.lift.tool.name, each.lift.point.name) for each in maps}) == 1
    lines = [*wrapped(machine_words(lift, system, tool=one)), "", *wrapped(CAUTION), ""]
    if one or not for_log:
        lines += wrapped(log_words(lift, system, for_log=for_log))
    else:
        plan = show(lift.log.mass_planning, "mass", system, "up")
        lines.append(f"This log, to plan on {plan}:")
    if for_log:
        lines += listed(_share(each, system, alone=one) for each in maps)
    how = f"{HOW}{', or the log is off the ground in part of them only' if for_log else ''}."
    return [*(f"  {line}".rstrip() for line in lines), "", *(f"  {x}" for x in wrapped(how))]


def _share(limits: LimitMap | FrontLimits, system: System, *, alone: bool) -> str:
    need = show(limits.lift.needed, "mass", system, "up")
    needs = "" if alone else f"the log needs {need}; "
    return f"{map_name(limits, system)}: {needs}{share_words(limits)}"


def _map(limits: LimitMap, system: System) -> list[str]:
    """A map with what it counts along its left side upward, or from left to right by slew."""
    turned = limits.across == "slew"
    made = downsampled(limits, (limits.reach, limits.other), most=(COLUMNS, ROWS), turns=turned)
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
    return [*lines, "", *_legend(limits, made, letters, digits)]


def _rows(limits: FrontLimits, system: System) -> list[str]:
    """Height, the reach that follows, load, log and what governs."""
    made = downsampled(limits, (limits.height,), most=(ROWS,))
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
    return [*lines, "", *_legend(limits, made, letters, digits)]


def _letters(made: Downsampled) -> tuple[dict[int, str], dict[int, str]]:
    """A letter for each criterion that governs somewhere, a digit for each reason."""
    there = sorted({int(which) for which in made.governs.ravel() if which >= 0})
    why = sorted({int(which) for which in made.stopped[~made.on_ground] if which >= 0})
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
    if made.on_ground[at]:
        return "(g) "
    if which < 0:
        return f"({digits.get(int(made.stopped[at]), '?')}) "
    load = max(0, math.floor(made.allowed[at] / _units(system)[0] + 1e-7))
    return f"{load}{letters[which]}{'~' if made.part[at] else ' '}"


def _legend(
    limits: Cells, made: Downsampled, letters: dict[int, str], digits: dict[int, str]
) -> list[str]:
    return [
        *(f"  {letter:<4}{limits.criteria[which]}" for which, letter in letters.items()),
        *([f"  (g) {ON_GROUND}"] if made.on_ground.any() else []),
        *(
            f"  ({digit}) not within reach, all or in part: {limits.reasons[which].words}"
            for which, digit in digits.items()
        ),
    ]


def _foot(
    read: ParsedLimits, limits: tuple[LimitMap | FrontLimits, ...], system: System
) -> list[str]:
    """What was understood, assumed and left out."""
    first = read.reads[0]
    every = dict.fromkeys(pair for each in read.reads for pair in each.echoes)
    if len(read.reads) > 1:
        every = {p: None for p in every if p[0] not in ("attachment", "lift-point")}
    lines = ["Understood", *(f"  {name:<{WIDTH}}{echo}" for name, echo in every)]
    assumed = dict.fromkeys(x for each in read.reads for x in each.lift.assumed)
    lines += ["", "Warnings", *listed(texts(limits_warnings(*limits, unsaid=False), system))]
    missed = len(read.reads) - len(limits) if first.lift.end == "front" else 0
    if missed > 0:
        lines += listed([f"{missed} attachments cannot stand at this tilt at any height."])
    return [*lines, "", "Assumed", *listed(texts(assumed, system))]


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
