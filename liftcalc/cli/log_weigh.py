"""``liftcalc log weigh``: a log's mass from a slip, a load cell or the machine's own gauge."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping
from dataclasses import replace
from typing import Annotated, Any

import typer

from liftcalc.cli import options
from liftcalc.documents import document
from liftcalc.errors import Fault, Gather, InputError
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.weighing import Scaled, by_gauge, by_load_cell, by_slip
from liftcalc.factors import CAUTION, LEVEL_LIMIT
from liftcalc.requests.fields import LiftRequest
from liftcalc.requests.lift import parse_lift
from liftcalc.requests.reader import read_weighed
from liftcalc.units import Kind, read

STAND_IN = {"species": "unknown hardwood", "length": "3 m", "mid": "30 cm"}
"""A log where none is told: only what it weighs is asked."""

Loaded = Annotated[str, typer.Option(help="Slip: the vehicle with the log.")]
Empty = Annotated[str, typer.Option(help="Slip: the same vehicle without it.")]
Cell = Annotated[str, typer.Option(help="What a load cell above the rigging shows.")]
Up = Annotated[
    str, typer.Option(help="Gauge on the load side of the boom or lift ram, the log creeping up.")
]
Down = Annotated[str, typer.Option(help="The same, creeping down.")]
Known = Annotated[str, typer.Option(help="A known weight lifted in the same pose: 500 kg ± 5 kg.")]
KnownUp = Annotated[str, typer.Option(help="The gauge with the known weight, creeping up.")]
KnownDown = Annotated[str, typer.Option(help="The same, creeping down.")]


@options.takes(LiftRequest, may_lack=("machine",))
def log_weigh(
    request: LiftRequest,
    loaded: Loaded = "",
    empty: Empty = "",
    load_cell: Cell = "",
    gauge_up: Up = "",
    gauge_down: Down = "",
    known: Known = "",
    known_up: KnownUp = "",
    known_down: KnownDown = "",
    as_json: options.Json = False,
) -> None:
    """Weigh a log: by a slip, by a load cell, or by the machine's own gauge in a taped pose.

    By the gauge: level ground, stabilisers down, straight back, the log an inch off the ground;
    creep up, read; creep down, read. Tell the machine and the pose as for a check.
    """
    typed = {
        "loaded": loaded,
        "empty": empty,
        "load-cell": load_cell,
        "rigging-mass": request.rigging_mass,
        "gauge-up": gauge_up,
        "gauge-down": gauge_down,
        "known-up": known_up,
        "known-down": known_down,
    }
    way = _way(typed)
    values = _values(typed, (*way, *(("known-up", "known-down") if known else ())))
    if way == SLIP:
        made = by_slip(loaded=values["loaded"], empty=values["empty"])
    elif way == CELL:
        made = by_load_cell(reading=values["load-cell"], rigging=values.get("rigging-mass", 0.0))
    else:
        given: dict[str, Any] = {
            key: getattr(request, key) or text for key, text in STAND_IN.items()
        }
        scale = (
            (read_weighed(known, "known")[0], values["known-up"], values["known-down"])
            if known
            else None
        )
        lift = parse_lift(replace(request, **given)).lift
        _weighable(lift, values["gauge-up"])
        made = by_gauge(lift, up=values["gauge-up"], down=values["gauge-down"], known=scale)
    _tell(made, as_json=as_json)


def _weighable(lift: Lift, pressure: float) -> None:
    """Refuse what a gauge does not weigh: part of a log, a slope, more than the relief valve."""
    gather = Gather()
    relief = 1.1 * float(lift.machine.hydraulics.working_pressure)
    for field, wrong, wanted in (
        ("lifted", lift.taken.way != "whole", "all of the log, an inch clear of the ground"),
        ("slope", lift.site.slope > LEVEL_LIMIT, "level ground, within 1 %"),
        ("gauge-up", pressure > relief, f"no more than the machine's {relief / 1.1e5:.0f} bar"),
    ):
        if wrong:
            gather.faults.append(Fault(field=field, given="something else", wanted=wanted))
    gather.raise_any()


SLIP, CELL, GAUGE = ("loaded", "empty"), ("load-cell",), ("gauge-up", "gauge-down")
"""Ways to weigh, each by what has to be typed."""


def _way(typed: Mapping[str, str]) -> tuple[str, ...]:
    """The one way of which anything was typed."""
    said = [way for way in (SLIP, CELL, GAUGE) if any(typed[name] for name in way)]
    if len(said) == 1:
        return said[0]
    raise InputError.of(
        field="log weigh",
        given=" and ".join(each[0] for each in said) or "nothing",
        wanted="one way to weigh: " + "; ".join(" and ".join(each) for each in (SLIP, CELL, GAUGE)),
    )


def _values(typed: Mapping[str, str], needed: Collection[str]) -> dict[str, float]:
    """What was typed, in SI."""
    gather, values = Gather(), {}
    for name, text in typed.items():
        kind: Kind = "pressure" if name in PRESSURES else "mass"
        if text or name in needed:
            with gather:
                values[name] = read(text, kind, field=name).value
    gather.raise_any()
    return values


PRESSURES = {*GAUGE, "known-up", "known-down"}


def _tell(made: Scaled, *, as_json: bool) -> None:
    mass, within = made.weighed.mass, made.weighed.tolerance
    if not 0 <= within < mass:
        raise InputError.of(
            field="log weigh",
            given=f"{mass:.0f} kg ± {within:.0f} kg",
            wanted="a mass that its tolerance is less than",
            fix="weigh it another way",
        )
    # Rounding the mass to the kilogram is in the tolerance.
    within = math.ceil(within + abs(mass - round(mass)))
    option = f"{mass:.0f} kg ± {within:.0f} kg"
    if as_json:
        weighed = {"mass_kg": mass, "tolerance_kg": within, "option": option}
        typer.echo(document("weigh", {"weighed": weighed, "caution": CAUTION}))
        return
    typer.echo(f"It weighs {mass:.0f} kg, give or take {within:.0f} kg.")
    typer.echo(f"In a check: --mass '{option}'")
    typer.echo("")
    typer.echo(CAUTION)
