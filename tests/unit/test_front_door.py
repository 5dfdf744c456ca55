"""The front door: numbers, quantities and texts come to one answer, and every fault is said."""

from __future__ import annotations

import ast
import doctest
import importlib.metadata
import inspect
import math
import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Any

import numpy as np
import pint
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from pydantic import ValidationError

import liftcalc
from liftcalc import units
from liftcalc.machines import files
from liftcalc.machines.files import shipped_folder
from liftcalc.machines.remembered import remembered
from liftcalc.requests.fields import LiftRequest, LogRequest
from liftcalc.requests.fields_of_commands import CompareRequest, LimitsRequest, QuestionRequest
from liftcalc.requests.given import UNITS, in_si
from liftcalc.requests.reader import read_text
from liftcalc.requests.table import rows

ROOT = Path(__file__).parents[2]
Q = pint.UnitRegistry().Quantity
LOG: dict[str, Any] = {
    "species": "European larch", "length": 4.2, "butt": 0.55, "mid": 0.49, "top": 0.44,
}  # fmt: skip
BACK: dict[str, Any] = {
    "machine": "standard-sideshift", "end": "back", "attachment": "lifting hook", **LOG,
}  # fmt: skip
LIFT: dict[str, Any] = {**BACK, "reach": 3.8, "height": 3.1, "slew": 0.75}
TAKEN = {
    liftcalc.check: LiftRequest,
    liftcalc.sweep: LiftRequest,
    liftcalc.limits: LimitsRequest,
    liftcalc.compare: CompareRequest,
    liftcalc.ask: QuestionRequest,
    liftcalc.weigh_log: LogRequest,
}


def fresh(code: str) -> str:
    """What a piece of code prints in a fresh interpreter."""
    return subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT
    ).stdout.strip()


def faults(function: Any, **given: Any) -> dict[str, str]:
    """Field and words of every fault."""
    with pytest.raises(liftcalc.InputError) as caught:
        function(**given)
    return {each.field: str(each) for each in caught.value.faults}


def test_every_name_is_there_and_says_what_it_is():
    for name in liftcalc.__all__:
        assert name in dir(liftcalc)
        found = getattr(liftcalc, name)
        assert name.isupper() or name == "__version__" or inspect.getdoc(found), name
    with pytest.raises(AttributeError, match="no attribute 'chek'"):
        liftcalc.chek  # noqa: B018


def test_a_type_checker_sees_the_names_that_there_are():
    tree = ast.parse((ROOT / "liftcalc" / "__init__.py").read_text("utf-8"))
    block = next(each for each in tree.body if isinstance(each, ast.If))
    seen = {
        alias.asname or alias.name: (each.module, alias.name)
        for each in block.body
        if isinstance(each, ast.ImportFrom)
        for alias in each.names
    }
    assert {*seen, "__version__"} == {*liftcalc.__all__}
    for name, (module, inside) in seen.items():
        if name != "machines":  # the room, see there
            assert getattr(importlib.import_module(module), inside) is getattr(liftcalc, name)


@pytest.mark.parametrize(
    "first", ["", "from liftcalc.machines.files import load", "liftcalc.check", "liftcalc.Machine"]
)
def test_machines_answers_whatever_was_loaded_before(first):
    assert "standard-sideshift" in fresh(f"import liftcalc\n{first}\nprint(liftcalc.machines())")


def test_the_version_is_stated_once():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    assert project["project"]["dynamic"] == ["version"]
    assert project["tool"]["hatch"]["version"]["path"] == "liftcalc/__init__.py"
    assert importlib.metadata.version("liftcalc") == liftcalc.__version__


def test_python_m_liftcalc_is_the_command_line():
    done = subprocess.run(
        [sys.executable, "-m", "liftcalc", "--version"], capture_output=True, text=True, check=True
    )
    assert done.stdout == f"liftcalc {liftcalc.__version__}\n"


def test_the_examples_of_the_documentation_run():
    run = doctest.testfile(str(ROOT / "docs" / "python.md"), module_relative=False)
    assert run.attempted > 20
    assert run.failed == 0


@pytest.mark.parametrize("function", TAKEN, ids=lambda each: each.__name__)
def test_a_function_says_all_that_it_takes(function):
    told = inspect.signature(function).parameters
    for row in rows(TAKEN[function]):
        assert row.name in told
        assert function.__doc__.count(f"\n{row.name} : ") == 1


def test_every_kind_that_is_a_quantity_takes_numbers():
    """A unit typed and the same to pint are the SI unit of the table: their factor is one."""
    kinds = {row.kind for record in TAKEN.values() for row in rows(record)}
    assert {*UNITS} <= kinds
    quantities = {each for each in kinds if each in units.TABLE or each in units.EXAMPLES}
    assert quantities <= {*UNITS}
    for kind, (unit, pint_unit) in UNITS.items():
        if unit:
            alike = {
                "diameter": "length",
                "extra": "mass",
                "weighed": "mass",
                "slope": "angle",
            }.get(kind, kind)
            assert units.TABLE[alike][unit] == 1.0
            assert Q(1.0, pint_unit).to_base_units().magnitude == 1.0


@given(st.floats(min_value=-1e9, max_value=1e9), st.sampled_from(sorted(UNITS)))
def test_a_number_loses_no_digit(value, kind):
    assume(kind != "weighed" or 0 < value < 4e4)
    row = next(row for record in TAKEN.values() for row in rows(record) if row.kind == kind)
    free = row.__class__(section=row.section, kind=row.kind, label="", how="")
    read, _ = read_text(free, in_si(value, UNITS[kind][0]))
    assert getattr(read, "mass", read) == value


SAYINGS = {
    "numbers": {},
    "numpy": {"reach": np.float64(3.8), "height": np.array(3.1)[()], "slew": np.float64(0.75)},
    "texts": {"reach": "3.8 m", "height": "310 cm", "slew": "0.75 rad", "length": "4.2 m"},
    "quantities": {
        "reach": Q(3.8, "m"), "height": Q(3.1, "meter"), "slew": Q(0.75, "radian"),
        "butt": Q(55, "cm"), "length": Q(4.2, "m"),
    },
    "a machine": {"machine": liftcalc.load_machine("standard-sideshift")},
    "what is not said": {"plate": None, "levelled": False, "swing": ""},
}  # fmt: skip


@pytest.mark.parametrize("name", SAYINGS)
def test_however_it_is_said_it_is_one_answer(name):
    plain, other = liftcalc.check(**LIFT), liftcalc.check(**{**LIFT, **SAYINGS[name]})
    assert [each.title for each in other.criteria] == [each.title for each in plain.criteria]
    for one, two in zip(plain.criteria, other.criteria, strict=True):
        assert two.allowed == pytest.approx(one.allowed, rel=1e-12)
        assert two.utilisation == pytest.approx(one.utilisation, rel=1e-12)


def test_it_is_the_answer_of_the_command_line():
    from liftcalc.evaluation.check import check
    from liftcalc.requests.lift import parse_lift

    typed = parse_lift(
        LiftRequest(
            machine="standard-sideshift", end="back", attachment="lifting hook", reach="3.8 m",
            height="3.1 m", slew="40 deg", species="European larch", length="4.2 m", butt="55 cm",
            mid="49 cm", top="44 cm", slope="5 %", uphill="90 deg", mud="3 %", ground="firm clay",
            empty_seat=True,
        )
    )  # fmt: skip
    said = liftcalc.check(
        **BACK, reach=Q(12.467191601049869, "ft"), height=3.1, slew=Q(40, "deg"),
        slope=math.atan(0.05), uphill=math.pi / 2, mud=Q(3, "percent"), ground="firm clay",
        empty_seat=np.True_,
    )  # fmt: skip
    answer = check(typed.lift)
    assert said.governs == answer.governs
    assert said.allowed == pytest.approx(answer.allowed, rel=1e-9)
    assert said.utilisation == pytest.approx(answer.utilisation, rel=1e-9)
    assert said.lift.log.mass_planning == pytest.approx(answer.lift.log.mass_planning, rel=1e-9)


TRAPS = {
    "an angle is no number": ("slew", Q(4, "m"), "wanted one angle"),
    "a hertz is no radian a second": ("slew_speed", Q(0.1, "hertz"), "hertz"),
    "a percentage is no angle": ("slew", Q(40, "percent"), "wanted one angle"),
    "an angle is no share": ("breakout", Q(90, "degree"), "wrong kind"),
    "pint's ton is the short one": ("plate", Q(1.2, "ton"), "907 kg"),
    "nan": ("height", math.nan, "not a number one can lift with"),
    "infinity": ("wires", math.inf, "not a number one can lift with"),
    "a flag is no number": ("reach", True, "given True"),
    "a number is no flag": ("levelled", 1, "True or False"),
    "a text is no flag": ("levelled", "yes", "True or False"),
    "a number is no name": ("species", 3, "given 3"),
    "an array is no number": ("height", np.array([1.0, 2.0]), "a number in m"),
    "nor is a quantity of them": ("height", Q([1.0, 2.0], "m"), "a number in m"),
    "bare numbers in texts stay refused": ("reach", "3.8", "unit is missing"),
}


@pytest.mark.parametrize("name", TRAPS)
def test_what_could_be_taken_for_something_else_is_refused(name):
    field, value, words = TRAPS[name]
    said = faults(liftcalc.check, **{**LIFT, field: value})
    assert [*said] == [field]
    assert words in said[field]


def test_a_slope_in_percent_is_a_rise():
    answer = liftcalc.check(**LIFT, slope=Q(100 * math.tan(0.1), "percent"), uphill=0.0)
    assert float(answer.lift.site.slope) == pytest.approx(0.1, rel=1e-12)


def test_every_fault_is_said_at_once_under_the_name_of_its_argument():
    said = faults(
        liftcalc.check,
        machine="standrd", end="bak", raech=4, height=Q(4, "kg"), reach=True, sling_wll="1 ton",
        **LOG,
    )  # fmt: skip
    assert {*said} == {"machine", "end", "raech", "height", "reach", "sling_wll"}
    assert "did you mean reach?" in said["raech"]


def test_questions_limits_and_comparisons_gather_faults_alike():
    assert {*faults(liftcalc.ask, question="farhest", **{**BACK, "butt": 9, "height": []})} == {
        "question", "butt", "height", "reach",
    }  # fmt: skip
    assert {*faults(liftcalc.limits, machine="x", end="back", reach_step="1", slew=True)} == {
        "machine", "reach_step", "slew",
    }  # fmt: skip
    assert {
        *faults(liftcalc.compare, machine="small-tractor", pick_height=99, pick_reach=2, **LOG)
    } == {"pick_height", "set_height"}
    assert {*faults(liftcalc.weigh_log, species="larrch", length=4, butt=0.3, top="4")} == {
        "species", "top",
    }  # fmt: skip


def test_an_altered_machine_is_validated_as_a_file_is():
    machine = liftcalc.load_machine("standard-sideshift")
    twice = machine.model_copy(update={"attachment": (*machine.attachment, machine.attachment[0])})
    with pytest.raises(liftcalc.InputError, match=machine.attachment[0].name):
        liftcalc.check(**{**LIFT, "machine": twice})


def test_a_sweep_is_the_check_at_every_place():
    reach, height, slew = np.array([3.2, 3.8, 9.0]), np.array([2.5, 3.1]), [0.0, 0.75]
    swept = liftcalc.sweep(**BACK, reach=reach[:, np.newaxis], height=height, slew=slew)
    assert swept.allowed.shape == (6, 2)
    reached = 0
    for place, (out, up) in enumerate(zip(swept.reach, swept.height, strict=True)):
        for turn, angle in enumerate(swept.slew):
            found = swept.allowed[place, turn]
            try:
                answer = liftcalc.check(**{**LIFT, "reach": out, "height": up, "slew": angle})
            except liftcalc.PoseError:
                assert math.isnan(found)
                assert not swept.passes[place, turn]
                continue
            reached += 1
            assert found == pytest.approx(answer.allowed, rel=1e-9)
            assert swept.passes[place, turn] == answer.passes
            assert (
                swept.criteria[swept.governs[place, turn]]
                == min(answer.criteria, key=lambda each: each.allowed).title
            )
    assert 0 < reached < 12


def test_quantities_are_swept_like_numbers_and_no_number_is_nowhere():
    plain = liftcalc.sweep(**BACK, reach=[3.2, 3.8, math.nan], height=2.5, slew=math.radians(40))
    other = liftcalc.sweep(
        **BACK,
        reach=Q([320, 380, math.nan], "cm"),
        height=Q(8.202099737532809, "ft"),
        slew=Q(40, "degree"),
    )
    np.testing.assert_allclose(other.allowed, plain.allowed, rtol=1e-12)
    assert math.isnan(plain.allowed[2, 0])
    assert not plain.passes[2, 0]


SWEEPS = {
    "nothing to sweep": ({"height": None, "reach": None}, {"height", "reach"}),
    "a mass": ({"reach": Q([1.0], "kg")}, {"reach"}),
    "no numbers": (
        {"slew": ["left"], "reach": [True], "height": "2.5"},
        {"slew", "reach", "height"},
    ),
    "ragged": ({"reach": [[1.0], 2.0]}, {"reach"}),
    "shapes apart": ({"reach": [1, 2], "height": [1, 2, 3]}, {"reach and height"}),
    "and the rest": ({"reach": "far", "raech": 1, "end": "bak"}, {"reach", "raech", "end"}),
    "at the front": ({"end": "front", "attachment": "", "slew": 0.2}, {"reach", "slew"}),
}


@pytest.mark.parametrize("name", SWEEPS)
def test_a_sweep_says_every_fault(name):
    other, fields = SWEEPS[name]
    given = {**BACK, "reach": [3.0], "height": [2.0], **other}
    assert {*faults(liftcalc.sweep, **given)} == fields


def test_a_sweep_of_the_front_end_needs_heights_alone():
    swept = liftcalc.sweep("standard-sideshift", end="front", height=[1.0, 2.0, 99.0], **LOG)
    assert np.isnan(swept.allowed[:, 0]).tolist() == [False, False, True]


def test_a_machine_is_a_name_a_path_or_a_machine_and_nothing_else(tmp_path):
    shipped = shipped_folder() / "standard-sideshift.toml"
    own = tmp_path / "own.toml"
    own.write_bytes(shipped.read_bytes())
    here = liftcalc.check(**LIFT).allowed
    assert liftcalc.check(**{**LIFT, "machine": own}).allowed == here
    assert liftcalc.load_machine(own).name == liftcalc.load_machine(str(own)).name
    for wrong in (3, None, b"standard-sideshift", ["standard-sideshift"], tmp_path):
        assert [*faults(liftcalc.load_machine, name=wrong)] == ["machine"]
        if wrong is not None:
            assert [*faults(liftcalc.check, **{**LIFT, "machine": wrong})] == ["machine"]


def test_a_machine_at_hand_is_validated_once_and_an_altered_one_again(monkeypatch):
    validated = []
    monkeypatch.setattr(files, "_sound", remembered(8)(lambda m, file: validated.append(m)))
    machine = liftcalc.load_machine("standard-sideshift")
    for _ in range(3):
        liftcalc.check(**{**LIFT, "machine": machine})
    assert validated == [machine]
    liftcalc.check(**{**LIFT, "machine": machine.model_copy(update={"note": "altered"})})
    assert len(validated) == 2
    with pytest.raises(ValidationError):
        machine.note = "changed in place"


@pytest.mark.parametrize("far", [1e150, 1e200, 1e308, math.inf, math.nan])
def test_a_sweep_beyond_all_numbers_is_not_reached_and_says_nothing(far, recwarn):
    back = {**BACK, "slew": [0.0, 0.5]}
    found = liftcalc.sweep(**back, reach=[3.8, far, 3.8], height=[2.0, 2.0, far])
    assert np.isfinite(found.allowed[0]).all()
    assert np.isnan(found.allowed[1:]).all()
    front = {**BACK, "end": "front", "attachment": "pallet forks"}
    assert np.isnan(liftcalc.sweep(**front, height=[1.0, far]).allowed[1:]).all()
    assert not recwarn.list


def test_a_fault_of_a_lift_names_what_can_be_said():
    """Faults found far from the reader, by records of their own, are named as arguments too."""
    known = {each.name for each in rows(LiftRequest)}
    wrong: list[dict[str, Any]] = [
        {"edge_depth": 2.0},
        {"edge": 2.0},
        {"wires": 20.0},
        {"wires": 20.0, "rules": "us", "wires_voltage": 1.1e6},
        {"lift_point": "no such"},
        {"sling": "choked", "sling_length": 0.5},
    ]
    for each in wrong:
        assert faults(liftcalc.check, **LIFT, **each).keys() <= known, each
