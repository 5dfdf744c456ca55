"""Forces of the ground as bars, and what each foot bears on, to scale."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from liftcalc.evaluation.answer import Answer
from liftcalc.evaluation.ground_forces import GroundForces, SupportForce
from liftcalc.figures.scene import Mark, Spot, box, line, text_width
from liftcalc.remarks import Remark
from liftcalc.reports.words import text
from liftcalc.units import G0, POUND, SPACE, System, show

HALF = 0.4
"""Half the width of a bar [em]."""
SYSTEMS: tuple[System, ...] = ("metric", "imperial")
GAUGE = 5.2
"""Width of the stroke that is as long as a round force, with its words [em]."""
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500)
LIGHT = 1.0
"""Up to this a foot is said to be light, as rounding leaves it [N]."""
TIPS = text(Remark("tips"))


def greatest_force(ground_forces: GroundForces) -> float:
    """The greatest of all forces, settled or worst [N]; 1 N where there is none."""
    return max(
        (each for foot in ground_forces.feet for each in (foot.force, foot.worst)), default=1.0
    )


def bar(
    foot: SupportForce, *, base: Spot, per_newton: float, half: float, up: float = 1.0
) -> list[Mark]:
    """A bar for one foot, up or down from a base: settled force filled, worst force outlined."""
    x, z = base

    def upright(force: float) -> tuple[Spot, Spot]:
        low, high = sorted((z, z + up * per_newton * force))
        return (x - half, low), (x + half, high)

    made: list[Mark] = [box("worst force", *upright(foot.worst), foot.name)]
    if foot.force > LIGHT:
        made.append(box("force", *upright(foot.force), foot.name))
    return made


def ruler(force: float, *, base: Spot, per_newton: float, em: float) -> list[Mark]:
    """A stroke as long as a force, with its ends ticked."""
    (x, z), tall = base, force * per_newton
    return [
        line("scale", (x, z), (x, z + tall), name="ruler"),
        *(
            line("scale", (x - 0.3 * em, up), (x + 0.3 * em, up), name="tick")
            for up in (z, z + tall)
        ),
    ]


def round_force(most: float, system: System) -> tuple[float, str]:
    """The greatest round force up to 0.8 of the longest bar [N], and its words."""
    one = 1000.0 if system == "metric" else 100 * POUND * G0
    count = max((n for n in STEPS if n * one <= 0.8 * most), default=STEPS[0])
    return count * one, show(count * one, "force", system, places=0)


def bare(force: float, system: System) -> str:
    """A force, rounded up, without its unit."""
    return show(force, "force", system, "up").rpartition(SPACE)[0]


def side_words(foot: SupportForce, system: System) -> list[str]:
    """What a foot carries, with the side it is on: settled, and worst where that is more."""
    return _words(foot, system, before=foot.name.split()[0] + " ")


def all_words(foot: SupportForce, system: System) -> list[str]:
    """What a foot carries, with its unit, and what it presses with."""
    first, *more = _words(foot, system)
    unit = "" if first == "light" else f" {unit_of_force(system)}"
    pressure = pressure_words(foot, system)
    return [first + unit, *more, *([pressure] if pressure else [])]


def column_width(
    foot: SupportForce, em: float, words: Callable[[SupportForce, System], list[str]]
) -> float:
    """Width of a column of words [m], the same in both unit systems, so the drawing is too."""
    said = [text for system in SYSTEMS for text in words(foot, system)]
    return 0.6 * em + max(text_width(text, "small", em) for text in said)


def _words(foot: SupportForce, system: System, *, before: str = "") -> list[str]:
    said = [before + ("light" if foot.force <= LIGHT else bare(foot.force, system))]
    if foot.worst > max(foot.force, LIGHT) * 1.005:
        said.append(f"worst {bare(foot.worst, system)}")
    return said


def unit_of_force(system: System) -> str:
    """The unit in which forces are shown."""
    return "kN" if system == "metric" else "lbf"


def pressure_words(foot: SupportForce, system: System) -> str:
    """The worst pressure under a foot; empty where the file does not say what it bears on."""
    if foot.pressure is None or not math.isfinite(foot.pressure):
        return ""
    return show(foot.pressure, "bearing", system, "up")


def spread(wanted: Sequence[tuple[float, float]], *, left: float, right: float) -> list[float]:
    """Middles of columns, each as near as can be to where it belongs, in order, without overlap.

    ``wanted`` are middles and widths [m]. Columns that would overlap stand side by side round the
    mean of where they want to be: the nearest they can all be.
    """
    starts = [sum(wide for _, wide in wanted[:number]) for number in range(len(wanted))]
    groups: list[list[float]] = []
    for (at, wide), start in zip(wanted, starts, strict=True):
        groups.append([at - wide / 2 - start])
        while len(groups) > 1 and _mean(groups[-2]) > _mean(groups[-1]):
            groups[-2:] = [groups[-2] + groups[-1]]
    shifts = [_mean(group) for group in groups for _ in group]
    most = right - sum(wide for _, wide in wanted)
    return [
        max(left, min(most, shift)) + start + wide / 2
        for shift, start, (_, wide) in zip(shifts, starts, wanted, strict=True)
    ]


def _mean(numbers: list[float]) -> float:
    return sum(numbers) / len(numbers)


def bearing_marks(answer: Answer) -> list[Mark]:
    """What every foot bears on, from above: pad, mat, tyre mark or edge of a bucket; to scale."""
    made: list[Mark] = []
    for foot in answer.ground_forces.feet:
        size = bearing_size(answer, foot)
        if size is None:
            continue
        mat = foot.kind == "pad" and answer.lift.mat is not None
        made.append(_rectangle("mat" if mat else "bearing", foot, *size))
    return made


def plate_marks(answer: Answer) -> list[Mark]:
    """Square plates as large as the named ground needs under each foot, dashed in the drawing."""
    return [
        _rectangle("plate", foot, math.sqrt(foot.needed), math.sqrt(foot.needed))
        for foot in answer.ground_forces.feet
        if foot.needed is not None and math.isfinite(foot.needed) and foot.needed > 0
    ]


def bearing_size(answer: Answer, foot: SupportForce) -> Spot | None:
    """Length and width of what a foot bears on [m]; None where the file does not say it."""
    lift = answer.lift
    legs, wheels = lift.machine.stabilisers, lift.machine.wheels
    if foot.kind == "pad":
        if lift.mat is not None:
            return lift.mat, lift.mat
        return float(legs.pad_length), float(legs.pad_width)
    if foot.kind == "corner":
        long = lift.other_tool.contact_length
        return None if long is None else (float(long), float(lift.other_tool.width) / 2)
    size = wheels.rear_footprint if foot.kind == "rear tyre" else wheels.front_footprint
    return None if size is None else (float(size[0]), float(size[1]))


def _rectangle(role: str, foot: SupportForce, long: float, wide: float) -> Mark:
    x, y, _ = foot.at
    # Half of the bucket's edge lies inward of each of its corners.
    inward = -math.copysign(wide / 2, y) if foot.kind == "corner" and role == "bearing" else 0.0
    low, high = (x - long / 2, y + inward - wide / 2), (x + long / 2, y + inward + wide / 2)
    if role == "mat":
        return box("mat", low, high, foot.name)
    return box("plate" if role == "plate" else "bearing", low, high, foot.name)
