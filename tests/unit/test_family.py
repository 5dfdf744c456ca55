"""The family of machines: the shipped ones lie inside, and any member is a machine."""

from __future__ import annotations

import numpy as np
import pytest

from liftcalc.errors import InputError
from liftcalc.family.closing import clears_its_wheels, closes
from liftcalc.family.draw import draw, one, some
from liftcalc.family.figures import figures, latents
from liftcalc.family.kind import CLASSES, MachineKind, machine_kind
from liftcalc.family.member import members
from liftcalc.family.parameters import COMMON, PARAMETERS, parameters, variates
from liftcalc.family.read_back import figures_of
from liftcalc.machines.files import load, numbers
from liftcalc.machines.schema import Machine
from liftcalc.machines.validation import sound
from tests.helpers import MACHINES
from tests.unit.test_machine_classes import BANDS, pressing_on_bucket, pushing_down

KINDS = [machine_kind(name) for name in MACHINES]
CARRIED = ("front.travel.tilt", "back.travel.dipper_angle")
"""Where it is carried has no parameter: the family carries it so far short of a stroke's end."""


def test_every_shipped_machine_shows_a_class() -> None:
    assert set(CLASSES) == set(MACHINES)


@pytest.mark.parametrize("kind", KINDS, ids=MACHINES)
def test_a_shipped_machine_lies_inside(kind: MachineKind) -> None:
    """Every variate within 2.5 standard deviations, and from them the same machine again."""
    machine = load(kind.of.name)
    known = latents(kind, figures_of(machine, pattern=machine))
    assert np.max(np.abs(known)) < 2.5
    again = dict(numbers(one(members(kind, known[None]), 0)))
    for key, number in numbers(machine):
        near = 0.06 if key in CARRIED else 0.02 * abs(number) + 1e-3
        assert again[key] == pytest.approx(number, abs=near), key


@pytest.mark.parametrize("kind", KINDS, ids=MACHINES)
def test_members_are_machines_of_the_trade(kind: MachineKind) -> None:
    """What a file is asked, and what every loader-backhoe can: see ``test_machine_classes``."""
    drawn = draw(kind, count=10, seed=7)
    for row in range(10):
        machine = one(drawn.machine, row)
        sound(machine, file="member")
        assert pressing_on_bucket(machine) > 1.05
        assert pushing_down(machine) > 1


@pytest.mark.parametrize("kind", KINDS, ids=MACHINES)
def test_bands_of_common_practice_hold_most_members(kind: MachineKind) -> None:
    """The bands are from memory: half at least, and not as good as all."""
    machine, band = draw(kind, count=2000, seed=3).machine, BANDS[kind.of.name]
    for values, (low, high) in (
        (machine.weights.total / 1000, band.mass),
        (machine.hydraulics.working_pressure / 1e5, band.pressure),
        (machine.wheels.wheelbase, band.wheelbase),
    ):
        # The band of two of the wheelbases is narrower than two machines of one class differ.
        assert 0.5 < np.mean((values > low) & (values < high)) < 0.99
        assert low < np.median(values) < high


def test_what_cannot_be_is_what_a_file_is_refused_for() -> None:
    """A member that is left out either breaks a rule of files or does not clear its wheels.

    It is asked to with the back end folded; stretched, as the fact is tried of the shipped ones,
    the back end takes up to a fifth off the bucket.
    """
    kind = KINDS[0]
    latent = np.random.default_rng(5).standard_normal((60, variates(kind)))
    every = members(kind, latent)
    keeps = closes(every) & clears_its_wheels(every)
    assert 10 < np.sum(keeps) < 50
    assert all(refused(every, int(row), presses=1.25 * 1.05) for row in np.flatnonzero(~keeps))
    assert not any(refused(every, int(row)) for row in np.flatnonzero(keeps))


def refused(every: Machine, row: int, presses: float = 1.05) -> bool:
    try:
        machine = one(every, row)
        sound(machine, file="member")
        return pressing_on_bucket(machine) < presses
    except (InputError, ValueError, AssertionError):  # the last: its bucket does not go so low
        return True


def test_the_same_seed_gives_the_same_machines() -> None:
    first, again, other = (draw(KINDS[1], count=50, seed=seed) for seed in (4, 4, 5))
    assert np.array_equal(first.latent, again.latent)
    assert not np.array_equal(first.latent, other.latent)
    assert np.array_equal(
        some(first.machine, slice(3)).weights.total, again.machine.weights.total[:3]
    )


def test_large_machines_are_large_all_over() -> None:
    """What goes with size goes with it: correlations as of the table, and those of one group."""
    kind = KINDS[0]
    latent = np.random.default_rng(1).standard_normal((20000, variates(kind)))
    known = figures(kind, latent)

    def together(one: str, other: str) -> float:
        return float(np.corrcoef(np.log(known[one]), np.log(known[other]))[0, 1])

    # spreads of the logarithms: boom 1.47 x 0.08/3 and 0.04, total 0.08 and 0.04
    size = 0.08 / 3
    wanted = 1.47 * 3 * size**2 / (np.hypot(1.47 * size, 0.04) * np.hypot(3 * size, 0.04))
    assert together("boom_length", "total") == pytest.approx(wanted, abs=0.02)
    assert together("legs", "total") == pytest.approx(0.0, abs=0.03)
    assert together("boom_mass", "back_tools") > together("legs", "back_tools") + 0.1


def test_every_parameter_is_one_machine_figure_at_least() -> None:
    """No variate is idle: moved, each moves some figure of the machine."""
    for kind in KINDS:
        width = variates(kind)
        found = members(kind, np.vstack([np.zeros((1, width)), 0.5 * np.eye(width)]))
        moved = np.zeros(width, dtype=bool)
        for row in range(width):
            base, changed = (dict(_flat(some(found, at))) for at in (0, row + 1))
            moved[row] = any(base[key] != changed[key] for key in base)
        names = [*COMMON, *(each.key for each in parameters(kind))]
        assert moved.all(), [name for name, by in zip(names, moved, strict=True) if not by]


def _flat(table: object, path: str = "") -> list[tuple[str, float]]:
    if isinstance(table, float | np.floating):
        return [(path, float(table))]
    if isinstance(table, tuple):
        return [found for i, each in enumerate(table) for found in _flat(each, f"{path}.{i}")]
    if hasattr(type(table), "model_fields"):
        return [
            found
            for name in type(table).model_fields
            for found in _flat(getattr(table, name), f"{path}.{name}")
        ]
    return []


def test_parameters_are_told_in_words_once() -> None:
    for kind in KINDS:
        names = [each.key for each in parameters(kind)]
        assert len(names) == len(set(names))
    assert all(each.words and each.spread > 0 for each in PARAMETERS)


def test_an_unknown_class_is_refused_with_a_near_one() -> None:
    with pytest.raises(InputError, match="did you mean compact-centre-mount"):
        machine_kind("compact centre")
