"""The table of what may be typed: every row is read, bounded, offered and explained."""

from __future__ import annotations

import math
from dataclasses import fields, replace
from importlib import import_module
from typing import Any, get_args

import pytest
import typer

from liftcalc.errors import InputError
from liftcalc.evaluation.lift import Lift
from liftcalc.machines.condition import Condition
from liftcalc.machines.schema import EndName
from liftcalc.machines.supports import Stance
from liftcalc.requests.demo import DEMO
from liftcalc.requests.fields import ENDS, STANCES, LiftRequest, LogRequest, fields_of, names_of
from liftcalc.requests.fields_of_commands import CompareRequest, LimitsRequest, QuestionRequest
from liftcalc.requests.lift import parse_lift
from liftcalc.requests.reader import FieldReader, read_text
from liftcalc.requests.table import Field, field_of
from liftcalc.rigging.gear import Gear
from liftcalc.rigging.lift_mode import LiftMode
from liftcalc.rigging.sling import Sling
from liftcalc.site.hazards import Hazards
from liftcalc.site.motion import Motion
from liftcalc.site.site import Site
from liftcalc.units import EXAMPLES
from tests.write_options import PAGE, page

RECORDS = {
    "log": LogRequest,
    "check": LiftRequest,
    "limits": LimitsRequest,
    "ask": QuestionRequest,
    "compare": CompareRequest,
}
ROWS = [
    pytest.param(each, id=f"{name}-{each.option}")
    for name, record in RECORDS.items()
    for each in fields_of(record)
]
LATER = ("attachment", "lift point")
NONSENSE = "no such thing"


def test_options_are_those_of_the_rooms_below():
    assert get_args(EndName) == ENDS
    assert get_args(Stance) == STANCES


@pytest.mark.parametrize("row", ROWS)
def test_a_row_is_explained_and_its_own_example_is_accepted(row: Field):
    assert row.label
    assert row.advice.endswith((".", "?"))
    assert set(row.shown) <= set(row.options)
    assert set(row.only_back) <= set(row.options)
    assert row.usual in ("", *row.options)
    example = row.example or EXAMPLES.get(row.kind, "").split('"')[1:2]
    for text in [row.example] if row.example else list(example):
        read_text(row, text)
    for text in row.options:
        if row.kind != "flag":
            read_text(row, text)


@pytest.mark.parametrize("row", ROWS)
def test_a_quantity_is_refused_beyond_its_bounds(row: Field):
    if row.low == row.high:
        return
    unit = {
        "length": "m", "mass": "kg", "force": "N", "angle": "rad", "slope": "rad", "pressure": "Pa",
        "acceleration": "m/s2", "speed": "m/s", "ratio": "", "turn rate": "rad/s", "time": "s",
        "voltage": "V", "creep": "m/s",
    }[row.kind]  # fmt: skip
    span = row.high - row.low
    for value in (row.low + 1e-6 * span, row.high - 1e-6 * span):
        assert read_text(row, f"{value:.12f} {unit}")[0] == pytest.approx(value, abs=1e-9)
    beyond = [row.high + 1e-3 * span, row.low - 1e-3 * span, *([0.0] if row.low > 0 else [])]
    for value in beyond:
        with pytest.raises(InputError) as caught:
            read_text(row, f"{value:.12f} {unit}")
        assert caught.value.faults[0].field == row.option
    if row.none:
        assert read_text(row, "None") == (math.inf, "none")


@pytest.mark.parametrize("record", RECORDS.values())
def test_every_field_is_read_and_all_faults_come_together(record: type[Any]):
    texts = {each.name: NONSENSE for each in fields_of(record) if each.kind not in ("flag", *LATER)}
    reader = FieldReader(record(**texts))
    told = {fault.field for fault in reader.gather.faults}
    assert told >= {name.replace("_", "-") for name in texts}


def test_a_lift_is_refused_for_any_of_its_fields():
    """Whoever adds a row cannot forget to have it read."""
    for row in fields_of(LiftRequest):
        if row.kind == "flag":
            continue
        with pytest.raises(InputError) as caught:
            parse_lift(replace(DEMO, **{row.name: NONSENSE}))
        told = {fault.field.replace(" ", "-") for fault in caught.value.faults}
        assert row.option in told or (row.of or row.name) in told, row.name


def test_every_field_goes_into_the_lift_and_takes_there_what_is_usual():
    """A row that goes nowhere would be read and forgotten."""
    records = {
        "lift": Lift, "site": Site, "motion": Motion, "hazards": Hazards, "gear": Gear,
        "sling": Sling, "taken": LiftMode, "condition": Condition,
    }  # fmt: skip
    by_hand = {"machine", "end", "attachment", "lift_point", "other_attachment", "stance"}
    by_hand |= {"empty_seat", "underside", *names_of(LogRequest)}
    for row in fields_of(LiftRequest):
        record, name = row.target
        assert (record in records) is (row.name not in by_hand), row.name
        if record in records:
            (there,) = [each for each in fields(records[record]) if each.name == name]
            assert not row.usual or there.default == row.usual


@pytest.mark.parametrize("name", RECORDS)
def test_a_command_offers_every_field_and_says_how_to_type_it(name: str):
    module = {"compare": "compare", "limits": "limits", "ask": "ask", "log": "log"}
    function = getattr(import_module(f"liftcalc.cli.{module.get(name, 'check')}"), name)
    app = typer.Typer()
    app.command()(function)
    command = typer.main.get_command(app)
    offered = {each.name: each for each in command.params}
    for row in fields_of(RECORDS[name]):
        help_said = offered[row.name].help
        assert row.label in help_said
        assert all(f"'{each}'" in help_said or each in row.shown for each in row.options)
        if not row.argument:
            assert f"--{row.option}" in offered[row.name].opts


def test_what_a_comparison_has_of_one_end_is_a_field_of_a_lift():
    for row in fields_of(CompareRequest):
        if row.of:
            lifted = field_of(LiftRequest, row.of)
            assert (row.kind, row.low, row.high) == (lifted.kind, lifted.low, lifted.high)
            assert row.name == f"{row.end}_{row.of}"
    shared = set(names_of(CompareRequest)) & set(names_of(LiftRequest))
    assert len(shared) > 40
    assert all(field_of(CompareRequest, n) == field_of(LiftRequest, n) for n in shared)


def test_the_page_of_options_is_as_the_table_has_it():
    assert PAGE.read_text(encoding="utf-8") == page()


def test_a_record_is_only_texts_and_flags():
    for record in RECORDS.values():
        assert {type(each.default) for each in fields(record)} <= {str, bool}
