"""How well facts tell a machine: ``python -m studies.fit``; writes ``build/fit_study.json``.

Hidden machines, of the family and from outside it, are read as somebody would read them, at four
levels of telling. From what was told the allowed load of everyday lifts is answered, and held
against that of the hidden machine itself. Nothing of the tool is fitted to these seeds.
"""

from __future__ import annotations

import argparse
import json
import multiprocessing
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from liftcalc.errors import InputError
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.sampled import CAREFUL, FLOOR, sampled
from liftcalc.family.draw import draw, one
from liftcalc.family.kind import CLASSES, MachineKind, machine_kind
from liftcalc.family.posterior import posterior
from liftcalc.machines.schema import Machine
from liftcalc.requests.lift import LiftRequest, parse_lift
from studies.outside import drawn
from studies.readings import LEVELS, readings

SEED, INSIDE, OUTSIDE = 20261128, 200, 50
OF_THE_MACHINE = {"tipping", "ram", "axle rating"}
"""Kinds that the machine decides; what is stamped on a hook or chain is no doubt of the machine."""
HALF_WIDTHS = (0.35, 0.20, 0.10, 0.06)
"""Median half-widths promised, by level [-]."""
OUT = Path(__file__).parents[1] / "build" / "fit_study.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hidden:
    """A machine that nobody knows, its kind, and whether it is of the family."""

    machine: Machine
    kind: MachineKind
    inside: bool
    seed: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """One lift at one level: truth, and lower end, middle and upper end as answered [kg].

    ``careful`` is what the answer holds at.
    """

    inside: bool
    level: int
    lift: str
    truth: float
    low: float
    middle: float
    high: float
    careful: float


def everyday(kind: MachineKind) -> dict[str, Lift]:
    """Lifts of a log by the pattern of a kind: back end straight and to the side, and forks."""
    pattern = kind.pattern
    span = float(pattern.back.boom.length + pattern.back.dipper.length)
    base = {"species": "unknown hardwood", "length": "3 m", "mid": "30 cm", "machine": pattern.name}
    back = base | {"end": "back", "attachment": "lifting hook", "height": f"{0.22 * span:.2f} m"}
    front = base | {"end": "front", "attachment": "front lifting hook", "stance": "wheels"}
    asked = {
        "straight back": back | {"reach": f"{0.75 * span:.2f} m", "slew": "0 deg"},
        "to the side": back | {"reach": f"{0.6 * span:.2f} m", "slew": "70 deg"},
        "front": front | {"height": f"{0.3 * span:.2f} m"},
    }
    return {name: parse_lift(LiftRequest(**said)).lift for name, said in asked.items()}


def loads(lift: Lift, machine: Machine, floor: float = FLOOR) -> tuple[Any, float]:
    """Least allowed load of the machine's own criteria in every sample, and the careful end."""
    found = sampled(lift, machine, floor=floor)
    rows = [n for n, (kind, _) in enumerate(found.titles) if kind in OF_THE_MACHINE]
    each = np.where(np.isnan(found.allowed[rows]), 0.0, found.allowed[rows])
    least = np.where(found.reaches, each.min(axis=0), 0.0)
    lows = np.quantile(each, CAREFUL, axis=1, method="lower")
    return least, float(min(lows.min(), np.quantile(least, CAREFUL, method="lower")))


def outcomes(hidden: Hidden) -> list[Outcome]:
    """All lifts at all levels by one hidden machine."""
    found = []
    lifts = everyday(hidden.kind)
    truths = {
        name: float(loads(each, hidden.machine, floor=0.0)[0][0]) for name, each in lifts.items()
    }
    for level, told in enumerate(readings(hidden.machine, hidden.kind, hidden.seed)):
        try:
            ensemble = posterior(hidden.kind, told, seed=hidden.seed)
        except InputError as error:  # no answer: neither right nor wrong, but told
            print(f"refused, {LEVELS[level]}: {error}"[:120], file=sys.stderr)
            continue
        for name, lift in lifts.items():
            if truths[name] <= 0:  # it does not reach there: nobody would ask
                continue
            least, careful = loads(lift, ensemble.machine)
            low, middle, high = np.quantile(least, [CAREFUL, 0.5, 1 - CAREFUL])
            found.append(
                Outcome(
                    inside=hidden.inside,
                    level=level,
                    lift=name,
                    truth=truths[name],
                    low=float(low),
                    middle=float(middle),
                    high=float(high),
                    careful=careful,
                )
            )
    return found


def machines(*, inside: int, outside: int, seed: int) -> list[Hidden]:
    """Hidden machines, every class as often."""
    found, names = [], sorted(CLASSES)
    for number, name in enumerate(names):
        kind = machine_kind(name)
        count = len(range(number, inside, len(names)))
        many = draw(kind, count=count, seed=seed + number).machine
        found += [
            Hidden(machine=one(many, row), kind=kind, inside=True, seed=seed + 10 * row + number)
            for row in range(count)
        ]
    random = np.random.default_rng(seed + 99)
    for number in range(outside):
        kind = machine_kind(names[number % len(names)])
        machine = drawn(random, kind.of.name)
        found.append(Hidden(machine=machine, kind=kind, inside=False, seed=seed + 5000 + number))
    return found


def summary(found: Sequence[Outcome]) -> dict[str, Any]:
    """Shares and widths of some outcomes; ``careful`` is how much of the truth is answered."""
    holds = [each.low <= each.truth <= each.high for each in found]
    widths = [(each.high - each.low) / 2 / each.middle for each in found if each.middle > 0]
    over = [each.careful > each.truth for each in found]
    return {
        "coverage": round(float(np.mean(holds)), 4),
        "half_width": round(float(np.median(widths)), 4),
        "optimistic": round(float(np.mean(over)), 4),
        "careful": round(float(np.mean([each.careful / each.truth for each in found])), 4),
        "lifts": len(found),
    }


def table(found: Sequence[Outcome]) -> list[dict[str, Any]]:
    """A row for each level, inside and outside, and by lift within it."""
    rows = []
    for inside in (True, False):
        for level, words in enumerate(LEVELS):
            here = [each for each in found if each.inside == inside and each.level == level]
            if not here:
                continue
            row = {"level": words, "from": "inside" if inside else "outside"} | summary(here)
            row["by_lift"] = {
                name: summary([each for each in here if each.lift == name])
                for name in dict.fromkeys(each.lift for each in here)
            }
            rows.append(row | {"held": kept(row, level)})
    return rows


def kept(row: dict[str, Any], level: int) -> dict[str, bool]:
    """Which promises a row keeps."""
    inside = row["from"] == "inside"
    return {
        "coverage": 0.85 <= row["coverage"] <= 0.97 if inside else row["coverage"] >= 0.80,
        "half_width": row["half_width"] <= HALF_WIDTHS[level],
        "optimistic": row["optimistic"] <= (0.05 if inside else 0.07),
    }


def main() -> int:
    """Run the study; 1 where a promise is broken."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--inside", type=int, default=INSIDE)
    parser.add_argument("--outside", type=int, default=OUTSIDE)
    parser.add_argument("--seed", type=int, default=SEED)
    asked = parser.parse_args()
    began = time.monotonic()
    hidden = machines(inside=asked.inside, outside=asked.outside, seed=asked.seed)
    with multiprocessing.get_context("fork").Pool(2) as pool:
        found = [each for some in pool.imap(outcomes, hidden, chunksize=4) for each in some]
    rows = table(found)
    for row in rows:
        broken = [name for name, holds in row["held"].items() if not holds]
        print(
            f"{row['from']:8} {row['level']:30} covers {row['coverage']:.3f}  "
            f"half-width {row['half_width']:.3f}  optimistic {row['optimistic']:.3f}  "
            f"careful end {row['careful']:.3f} of the truth"
            + (f"  BROKEN: {', '.join(broken)}" if broken else "")
        )
        for name, each in row["by_lift"].items():
            print(f"    {name:14} {each}")
    OUT.parent.mkdir(exist_ok=True)
    OUT.write_text(json.dumps(rows, indent=1) + "\n", encoding="utf-8")
    print(f"{len(hidden)} machines, {time.monotonic() - began:.0f} s")
    return int(any(not all(row["held"].values()) for row in rows))


if __name__ == "__main__":
    sys.exit(main())
