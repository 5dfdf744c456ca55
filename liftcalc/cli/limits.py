"""``liftcalc limits``: where an end can lift, as text, pictures and tables."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated

import typer

from liftcalc.cli import options
from liftcalc.errors import Gather, InputError
from liftcalc.evaluation.answer import NAMED_ONLY
from liftcalc.evaluation.warnings import unchecked
from liftcalc.files import drawing, kind_of, write_all
from liftcalc.maps.find import find_limits
from liftcalc.maps.limits import BackLimits, FrontLimits, LimitMap
from liftcalc.reports.limits_text import table_back, table_front
from liftcalc.reports.map_words import map_name
from liftcalc.requests.fields_of_commands import LimitsRequest
from liftcalc.requests.limits import ParsedLimits, parse_limits
from liftcalc.units import System

PICTURES = ("svg", "png", "pdf")
KINDS = (*PICTURES, "csv", "json")
VIEWS = {"back": ("side", "plan", "steps"), "front": ("curve", "steps")}
"""What a file may show alone of each end; when nothing is said it holds every map."""


@options.takes(LimitsRequest)
def limits(
    request: LimitsRequest,
    save: Annotated[
        list[str] | None,
        typer.Option(help="File to write, .svg .png .pdf .csv or .json; may be said again."),
    ] = None,
    view: Annotated[
        str,
        typer.Option(
            help="Show 'side' or 'plan' (back) or 'curve' (front) alone, or 'steps' to a load."
        ),
    ] = "",
    as_json: options.Json = False,
    units: options.Units = "metric",
) -> None:
    """Map where an end can lift: allowed loads, what stops it first, what cannot be reached.

    Exit status 1: nowhere; 3: something has to be told first.
    """
    gather = Gather()
    system: System = "metric"
    with gather:
        system = options.system_of(units)
    read: ParsedLimits | None = None
    with gather:
        read = parse_limits(request)
    kinds = []
    for name in save or []:
        with gather:
            kinds.append((name, kind_of(name, KINDS)))
    if read is not None:
        with gather:
            view = _view(view, read.reads[0].lift.end)
    gather.raise_any()
    assert read is not None  # what could not be read has raised
    found = find_limits(read)
    write_all([(name, _file(kind, view, read, found, system=system)) for name, kind in kinds])
    if as_json:
        typer.echo(_json(read, found), nl=False)
    else:
        lines = (
            table_back(found, read, system)
            if isinstance(found, BackLimits)
            else table_front(found, read, system)
        )
        options.say([*lines, *(["", *(f"Wrote {name}" for name, _ in kinds)] if kinds else [])])
    maps = _maps(found)
    options.leave(
        options.careful_standing(
            found=any(_some(each) for each in maps),
            waits=any(
                said.code not in NAMED_ONLY for each in maps for said in unchecked(each.lift)
            ),
        )
    )


def _some(made: LimitMap | FrontLimits) -> bool:
    """Whether this log may be lifted anywhere; where none was given, whether any load may."""
    return bool((made.passes if made.for_log else made.allowed > 0).any())


def _maps(found: BackLimits | tuple[FrontLimits, ...]) -> tuple[LimitMap | FrontLimits, ...]:
    return found.maps if isinstance(found, BackLimits) else found


def _view(text: str, end: str) -> str:
    plain = text.strip().lower()
    if not plain or plain in VIEWS[end]:
        return plain
    raise InputError.of(
        field="view",
        given=f'"{text}"',
        wanted=f"one of {', '.join(VIEWS[end])} for a lift at the {end} end",
    )


def _json(read: ParsedLimits, found: BackLimits | tuple[FrontLimits, ...]) -> str:
    from liftcalc.maps.export import json_text, table_of  # noqa: PLC0415 - not for the table

    return json_text(
        {
            each.view if each.view != "curve" else map_name(each, "metric"): table_of(
                each, echoes=read.echoes(each.lift)
            )
            for each in _maps(found)
        }
    )


def _file(
    kind: str,
    view: str,
    read: ParsedLimits,
    found: BackLimits | tuple[FrontLimits, ...],
    *,
    system: System,
) -> bytes:
    """A file of a kind, whole."""
    if kind == "json":
        return _json(read, found).encode()
    if kind == "csv":
        return _csv(view, read, found).encode()
    with drawing(kind):
        from liftcalc.figures.saving import picture  # noqa: PLC0415 - matplotlib is for pictures

        return picture(_figure(view, found, system), kind)


def _csv(view: str, read: ParsedLimits, found: BackLimits | tuple[FrontLimits, ...]) -> str:
    from liftcalc.maps.export import csv_text, table_of  # noqa: PLC0415 - not for the table

    if view == "steps":
        raise InputError.of(field="view", given='"steps"', wanted="a map or curve for a .csv file")
    if isinstance(found, BackLimits):
        maps = [each for each in found.maps if view in ("", each.view)]
        return csv_text(table_of(*maps, echoes=read.echoes(found.lift)))
    one = _one(found, ".csv file")
    return csv_text(table_of(one, echoes=read.echoes(one.lift)))


def _one(found: tuple[FrontLimits, ...], what: str) -> FrontLimits:
    if len(found) == 1:
        return found[0]
    names = ", ".join(dict.fromkeys(each.lift.tool.name for each in found))
    raise InputError.of(
        field="attachment", given="nothing", wanted=f"one attachment for a {what}: {names}"
    )


def _figure(view: str, found: BackLimits | tuple[FrontLimits, ...], system: System):  # type: ignore[no-untyped-def]
    # Typed loosely: to name the type would load matplotlib.
    from liftcalc.evaluation.check import check  # noqa: PLC0415 - a pose is only for pictures
    from liftcalc.figures.curves import curves  # noqa: PLC0415
    from liftcalc.figures.limit_maps import limit_maps  # noqa: PLC0415
    from liftcalc.figures.waterfall import waterfall  # noqa: PLC0415

    if isinstance(found, BackLimits):
        answer = check(found.lift)
        if view == "steps":
            return waterfall(answer, for_log=found.for_log, system=system)
        return limit_maps(found, answer, view=view, system=system)
    if view == "steps":
        one = _one(found, "picture of steps")
        return waterfall(check(replace(one.lift, reach=None)), for_log=one.for_log, system=system)
    return curves(found, system=system)
