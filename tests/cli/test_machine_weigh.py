"""`machine weigh`: faults all at once, careful rounding, lines that can be pasted."""

from __future__ import annotations

import math
import re
import tomllib

import pytest
import typer
from typer.testing import CliRunner

from liftcalc.cli.main import command_line
from liftcalc.cli.weigh import machine_weigh
from liftcalc.errors import InputError
from liftcalc.factors import CAUTION
from liftcalc.machines.files import load, parse, shipped_folder
from liftcalc.machines.weighing import Weighings, chassis_height, weighed
from liftcalc.physics import formulas
from tests.helpers import MACHINES, plain, travelling

app = typer.Typer()
app.command()(machine_weigh)

SIZES = ["--wheelbase", "2.1 m", "--front-radius", "42 cm", "--rear-radius", "70 cm"]
SCALE = [
    "--total",
    "7500 kg",
    "--front-level",
    "3035.714 kg",
    "--front-raised",
    "2732.606 kg",
    "--raised-by",
    "0.5 m",
]


def run(*words: str):
    return CliRunner().invoke(app, list(words))


def told(*words: str) -> str:
    done = run(*words)
    assert done.exit_code == 0, done.exception
    return done.output


def faults(*words: str) -> list[str]:
    done = run(*words)
    assert isinstance(done.exception, InputError), done.output
    return [each.field for each in done.exception.faults]


def shown(text: str, label: str) -> float:
    found = re.search(rf"{re.escape(label)} +([\d.]+) ", plain(text))
    assert found, text
    return float(found.group(1))


def test_every_fault_is_said_at_once():
    assert faults("--raised", "side", "--total", "heavy", *SIZES[:2]) == [
        "total",
        "front level",
        "front raised",
        "raised by",
        "front radius",
        "rear radius",
        "raised",
    ]


def test_figures_that_cannot_be_are_said_together():
    words = [
        "--total",
        "2000 kg",
        "--front-level",
        "3000 kg",
        "--front-raised",
        "2500 kg",
        "--raised-by",
        "2 cm",
        *SIZES,
    ]
    assert faults(*words) == ["front level", "front raised", "raised by"]


def test_the_axle_that_was_raised_must_be_lighter():
    """Nose up the front axle weighs less: the other way round the wrong axle was named."""
    assert faults(*SCALE, *SIZES, "--raised", "rear") == ["front raised"]
    with pytest.raises(InputError, match="heavier for it"):
        Weighings(
            total=7500.0,
            front_level=3000.0,
            front_raised=3300.0,
            raise_height=0.5,
            wheelbase=2.1,
            front_radius=0.42,
            rear_radius=0.7,
        )


@pytest.mark.parametrize(
    "name",
    [
        "total",
        "front_level",
        "front_raised",
        "raise_height",
        "wheelbase",
        "front_radius",
        "rear_radius",
    ],
)
def test_what_is_not_a_number_is_refused(name: str):
    sound = {
        "total": 7500.0,
        "front_level": 3035.7,
        "front_raised": 2732.6,
        "raise_height": 0.5,
        "wheelbase": 2.1,
        "front_radius": 0.42,
        "rear_radius": 0.7,
    }
    assert weighed(Weighings(**sound)).height > 0
    for value in (math.nan, math.inf, -1.0, 0.0):
        with pytest.raises(InputError):
            Weighings(**{**sound, name: value})


def test_a_height_no_machine_has_is_refused():
    """So light a front axle after so small a raise would put the weight on a mast."""
    words = [*SCALE[:4], "--front-raised", "1000 kg", "--raised-by", "0.5 m", *SIZES]
    assert faults(*words) == ["front raised"]


def test_heights_are_rounded_up_and_their_doubt_said():
    text = told(*SCALE, *SIZES)
    assert shown(text, "ahead of the rear axle") == 0.85
    assert shown(text, "behind the front axle") == 1.25
    assert 0.95 <= shown(text, "above the ground") <= 0.96
    # By hand, from d h / dR = x_f/(W sin θ) with x_f = 2.1071 m and θ = 13.555°: 20 kg are 24 mm.
    assert shown(text, "raised weighing out by 20 kg") == 2.4
    # Level, dh/dR = (L/W) cos θ/ sin θ: 20 kg are 23.2 mm, shown as 24.
    assert shown(text, "level weighing out by 20 kg") == 2.4
    assert shown(text, "height, all the worst way") >= 0.95 + 0.023 + 0.023
    assert CAUTION in text


def test_a_wrong_raise_moves_the_height_by_so_much():
    """A centimetre more or less, weighed anew by the forward form's own inverse."""
    text = told(*SCALE, *SIZES)

    def height(raised: float) -> float:
        return float(
            formulas.cog_by_weighing(
                wheelbase=2.1,
                front_radius=0.42,
                rear_radius=0.7,
                raise_height=raised,
                whole_mass=7500.0,
                front_level=3035.714,
                front_raised=2732.606,
            ).cog_up
        )

    most = max(abs(height(raised) - height(0.5)) for raised in (0.49, 0.51))
    assert most <= shown(text, "raise out by 1.0 cm") / 100 < most + 0.001
    exact = weighed(
        Weighings(
            total=7500.0,
            front_level=3035.714,
            front_raised=2732.606,
            raise_height=0.5,
            wheelbase=2.1,
            front_radius=0.42,
            rear_radius=0.7,
        )
    )
    assert exact.raise_moves == pytest.approx(most, rel=1e-12)
    assert exact.moves > most


def test_a_low_raise_is_told_to_go_higher():
    """Twenty kilograms weigh more against a small pitch."""
    low = formulas.weighing_of_cog(
        wheelbase=2.1,
        front_radius=0.42,
        rear_radius=0.7,
        raise_height=0.12,
        whole_mass=7500.0,
        cog_ahead=0.85,
        cog_up=0.95,
    )
    words = [
        "--total",
        "7500 kg",
        "--front-level",
        "3035.714 kg",
        "--front-raised",
        f"{low.front_raised:.6f} kg",
        "--raised-by",
        "12 cm",
        *SIZES,
    ]
    assert "raise the axle higher" in told(*words)
    assert "raise the axle higher" not in told(*SCALE, *SIZES)


def whole_of(name: str) -> tuple[float, float, float]:
    """Mass, place ahead of the rear axle and height of a shipped machine as it is weighed."""
    lumps = travelling(load(name)).lumps
    mass = sum(lump.mass for lump in lumps)
    return mass, *(
        float(sum(lump.mass * getattr(lump, axis) for lump in lumps)) / mass for axis in "xz"
    )


def scale_words(name: str, raised: float) -> list[str]:
    """What the scale would say of a shipped machine, as one would type it."""
    machine, (mass, ahead, up) = load(name), whole_of(name)
    wheels = machine.wheels
    found = formulas.weighing_of_cog(
        wheelbase=wheels.wheelbase,
        front_radius=wheels.front_radius,
        rear_radius=wheels.rear_radius,
        raise_height=raised,
        whole_mass=mass,
        cog_ahead=ahead,
        cog_up=up,
    )
    return [
        name,
        "--front-raised",
        f"{found.front_raised:.6f} kg",
        "--raised-by",
        f"{abs(raised):.6f} m",
        "--raised",
        "front" if raised > 0 else "rear",
    ]


@pytest.mark.parametrize("name", MACHINES)
@pytest.mark.parametrize("raised", [0.4, -0.4])
def test_a_weighed_file_gives_its_own_chassis_back(name: str, raised: float):
    """Everything but the raised weighing from the file: the chassis comes out as it says."""
    text = told(*scale_words(name, raised))
    pasted = tomllib.loads(text[text.index("[chassis]") : text.index(CAUTION)])["chassis"]
    stated = float(load(name).chassis.cog_height)
    assert stated - 1e-6 <= float(pasted["cog_height"]["value"].removesuffix(" m")) < stated + 0.011
    machine, (mass, _, up) = load(name), whole_of(name)
    found = chassis_height(machine, total=mass, height=up)
    assert found.result == pytest.approx(stated, rel=1e-9)


def test_the_pasted_height_is_rounded_up():
    text = told("standard-sideshift", *SCALE, *SIZES)
    pasted = tomllib.loads(text[text.index("[chassis]") : text.index(CAUTION)])["chassis"]
    found = weighed(
        Weighings(
            total=7500.0,
            front_level=3035.714,
            front_raised=2732.606,
            raise_height=0.5,
            wheelbase=2.1,
            front_radius=0.42,
            rear_radius=0.7,
        )
    )
    exact = chassis_height(load("standard-sideshift"), total=7500.0, height=found.height).result
    assert exact < float(pasted["cog_height"]["value"].removesuffix(" m")) < exact + 0.01
    # The doubt of the whole falls on the chassis alone, which is lighter.
    assert float(pasted["cog_height"]["tolerance"].removesuffix(" m")) > found.moves


def test_a_higher_machine_has_a_higher_chassis():
    machine, (mass, _, up) = load("small-tractor"), whole_of("small-tractor")
    low, high = (
        chassis_height(machine, total=mass, height=up + more).result for more in (0.0, 0.1)
    )
    assert high - low > 0.1


def test_pasted_lines_make_a_sound_file():
    """The lines put in place of those with their keys, as the answer says."""
    name = "standard-sideshift"
    machine, (mass, ahead, _) = load(name), whole_of(name)
    wheels = machine.wheels
    level = mass * ahead / wheels.wheelbase
    text = told(
        *scale_words(name, 0.5),
        "--total",
        f"{mass:.6f} kg",
        "--front-level",
        f"{level:.6f} kg",
        "--rear-radius",
        f"{float(wheels.rear_radius):.6f} m",
    )
    made = (shipped_folder() / f"{name}.toml").read_text(encoding="utf-8")
    for line in text[text.index("[weights]") : text.index(CAUTION)].splitlines():
        if " = {" in line:
            key = line.partition(" ")[0]
            made, count = re.subn(rf"(?m)^{key} = .*$", line, made)
            assert count == 1, key
    again = parse(made, file="pasted")
    assert again.chassis.cog_height.kind == "measured"
    assert again.chassis.cog_height.tolerance > 0
    assert again.weights.rear_axle.kind == "derived"
    assert float(again.chassis.cog_height) >= float(machine.chassis.cog_height) - 1e-6


def test_nothing_is_pasted_that_was_not_typed():
    text = told(*scale_words("small-tractor", 0.4))
    assert "[weights]" not in text
    assert "[wheels]" not in text


def test_without_a_file_there_is_no_chassis():
    text = told(*SCALE, *SIZES)
    assert "[chassis]" not in text
    assert "Name the machine's file" in text


def test_too_heavy_parts_are_refused():
    """A machine file whose links weigh more than the whole machine on the scale."""
    with pytest.raises(InputError, match="parts lighter than the whole"):
        chassis_height(load("standard-sideshift"), total=2000.0, height=1.0)


def test_the_working_shows_what_was_computed():
    text = told(*scale_words("small-tractor", 0.4), "--working")
    assert "Working, in SI" in text
    assert "z_c" in text or "cog_up" in text or "centre of gravity" in text.split("Working")[1]


def test_the_command_line_knows_it():
    done = CliRunner().invoke(command_line("machine"), ["machine", "weigh", "--help"])
    assert done.exit_code == 0, done.exception
    assert "--raised-by" in done.output
