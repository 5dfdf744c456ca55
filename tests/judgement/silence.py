"""Telling never hurts, silence never helps, worse inputs never raise an answer: by drawn lifts.

    python -m tests.judgement.silence --pairs 20000    writes build/silence.json

A pair is a lift without one option and the same lift with a value of that option's usual range; or
a lift and the same one with one input made worse.
"""

from __future__ import annotations

import argparse
import contextlib
import json
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from multiprocessing import Pool
from pathlib import Path
from random import Random
from typing import Any

from liftcalc import units
from liftcalc.errors import InputError
from liftcalc.evaluation.lift import Lift
from liftcalc.evaluation.warnings import OPTION_OF
from liftcalc.judgement import judge as judging
from liftcalc.requests.fields import LiftRequest, fields_of
from liftcalc.requests.lift import parse_lift
from liftcalc.requests.sections import Situation
from liftcalc.requests.table import field_of
from liftcalc.requests.usual import USUAL, ranged
from tests.drawn_machines import BACK, FRONT, machine_files
from tests.drawn_requests import GROUNDS, Draw, lift

Options = dict[str, str]
RANK = {"fails": 0, "open": 1, "holds": 2}
MOST = 1e5
SLACK = 1e-6
"""Rounding of texts, in kilograms and as a share."""

ELSEWHERE = {
    "machine", "end", "attachment", "lift-point", "stance", "travelling", "lifted", "species",
    "length", "height", "underside", "reach", "uphill", "leg-spread", "sling-kind", "sling-size",
    "edge-depth", "rules",
}  # fmt: skip
"""Not left out alone: needed, another lift without it, or only said together with another."""
NO_RANGE = {"plate", "tilt", "curl", "sling", "root-plate", "limbs", "bark", "sling-wll"}
"""What a machine may lack, a pose as usual for what is fitted, or what is there or is not."""
TOGETHER = {"slope": ("slope", "uphill"), "edge": ("edge", "edge-depth")}
"""Options that are said or left out with another."""
USUALLY: dict[str, tuple[str, ...]] = {
    # Up to what a sound machine has.
    "creep": ("0 mm/min", "10 mm/min"), "play": ("0 mm", "10 mm"), "faults": ("none",),
    "stabiliser-creep": ("0 mm/min", "1 mm/min"),
    "moisture": ("fresh", "part-dry"), "ice": ("0 kg",), "slew": ("0 deg",), "sideshift": ("0 m",),
    "ground": GROUNDS, "slope": ("0 deg", "0.3 deg", "0.57 deg"), "levelled": ("",),
    "hangs-level": ("",), "mat": ("0.7 m", "1.2 m"), "proved": ("40 kN", "80 kN"),
    "hook-wll": ("none", "2 t", "5 t"), "shackle-wll": ("none", "2 t", "5 t"),
    "hitch-wll": ("2 t", "5 t"), "ground-end": ("top", "butt"), "wires": ("none", "60 m"),
    "edge": ("none",), "people": ("none", "30 m"), "empty-seat": ("",),
    "accelerate-forward": ("0 m/s2",), "accelerate-left": ("0 m/s2",),
}  # fmt: skip
"""What people mean by an option that the table of usual ranges does not have."""

WORSE: dict[str, float] = {
    "mud": 1.5, "ice": 1.5, "mat": 0.8, "rigging-mass": 2,
    "sling-wll": 0.8, "hook-wll": 0.8, "shackle-wll": 0.8, "hitch-wll": 0.8, "plate": 0.8,
    "breakout": 1.3, "drag-friction": 1.3, "wires": 0.8, "edge": 0.8, "edge-depth": 1.3,
    "people": 0.8, "speed": 1.4, "turn-radius": 0.8, "sinkage": 1.4, "pressure": 0.9, "swing": 1.5,
    "off-centre": 1.5, "slew-speed": 1.4, "slew-stop": 0.7, "wind": 1.3, "braking": 1.3,
}  # fmt: skip
"""Options that are worse one way whatever the lift, and a factor that makes them so.

Not a slope: nose uphill it helps a load at the front. Not root plate or limbs: they move the
balance point toward an end that may lie on the ground.
"""
WITH = {"friction": "ground", "proved": "ground"}
"""What is named and asked for with another: grip and proof with the name of the ground."""
FACTS = {
    "mat", "proved", "mass", "levelled", "sideshift", "slew", "moisture", "ice", "butt", "mid",
    "top",
}  # fmt: skip
"""What is there or is not, is echoed, or is a doubt of the log: not named as a range."""

TOLD = {
    "ground": "stiff clay", "mat": "0.8 m", "friction": "0.4", "wires": "none", "edge": "none",
    "people": "none", "slew-speed": "8 deg/s", "slew-stop": "2.5 s", "swing": "1 deg",
    "hook-wll": "5 t", "hitch-wll": "5 t",
    "shackle-wll": "none", "breakout": "1", "rigging-mass": "15 kg", "off-centre": "5 cm",
    "surface": "bark on", "drag-friction": "0.8", "speed": "3 km/h", "turn-radius": "12 m",
    "braking": "0.7 m/s2", "sinkage": "3 cm", "mud": "0 kg",
}  # fmt: skip
"""What a careful person tells, so that lifts are drawn of which many hold."""
HARD = {
    "slope", "uphill", "levelled", "wires", "rules", "wires-on", "wires-voltage", "edge",
    "edge-depth", "mat", "friction", "ground", "people", "slew-speed", "slew-stop", "plate",
    "lifted", "hook-at", "ground-end", "breakout", "swing", "limbs", "root-plate", "sling-kind",
    "sling-size", "sling-wll", "hook-wll", "shackle-wll", "hitch-wll", "slung-at", "sling",
    "leg-spread", "sling-length", "accelerate-forward", "accelerate-left", "speed", "braking",
    "sinkage", "turn-radius",
}  # fmt: skip
"""What is drawn so that it stops many lifts: left out of those that are told in full."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What was answered: spare load, heaviest log hoped for [kg], what is named or waited for."""

    standing: str
    spare: float
    hoped: float
    mass: float
    named: frozenset[str]
    waits: frozenset[str]


def request(machine: str, options: Options) -> LiftRequest:
    """The request of a machine and options as typed."""
    words = {name.replace("-", "_"): text or True for name, text in options.items()}
    return LiftRequest(machine=machine, **words)  # type: ignore[arg-type]


def verdict(machine: str, options: Options) -> Verdict | None:
    """The judgement of a lift, or nothing where it cannot be asked so."""
    return _verdict(machine, tuple(sorted(options.items())))


@lru_cache(maxsize=256)
def _verdict(machine: str, options: tuple[tuple[str, str], ...]) -> Verdict | None:
    try:
        answer, read = judging.judge(request(machine, dict(options)))
    except InputError:
        return None
    assert answer.judgement is not None
    mass = answer.lift.log.mass_planning
    taken = {each.field.replace("_", "-") for each in read.read.assumed}
    waits = {OPTION_OF[each.code] for each in answer.unchecked if each.code in OPTION_OF}
    return Verdict(
        standing=answer.judgement.standing,
        spare=min(answer.heaviest_log, MOST) - mass,
        hoped=min(answer.judgement.hoped, MOST),
        mass=mass,
        named=frozenset(taken | waits),
        waits=frozenset(waits),
    )


def applies(machine: str, options: Options, option: str) -> bool:
    """Whether an option is of such a lift."""
    asked = request(machine, options)
    lifted = parse_lift(asked).lift
    said = {row.name: getattr(asked, row.name) for row in fields_of(LiftRequest)}
    here = Situation(said=said | {"stance": lifted.stance}, tool=lifted.tool, point=lifted.point)
    return field_of(LiftRequest, option.replace("-", "_")).applies(here)


def told_in_full(machine: str, options: Options) -> Options:
    """A drawn lift with a thinner log, and all else told as a careful person tells it."""
    made = {name: text for name, text in options.items() if name not in HARD}
    for name in ("butt", "mid", "top"):
        if name in made:
            made[name] = f"{0.7 * units.read(made[name], 'diameter').value:.4f} m"
    if made.get("stance") == "wheels" and made["end"] == "back":
        del made["stance"]
    made |= {"slope": "0.4 deg", "uphill": "10 deg"}
    for name, text in TOLD.items():
        with contextlib.suppress(InputError):
            if name not in made and applies(machine, made, name):
                made[name] = text
    with contextlib.suppress(InputError):
        if applies(machine, made, "sling-kind"):
            made |= {"sling-kind": "chain grade 80", "sling-size": "13 mm"}
    return made


def between(careful: str, favourable: str) -> list[str]:
    """Both ends of a range and the middle of it."""
    ends = [careful, favourable]
    numbers = [text.partition(" ") for text in ends]
    with contextlib.suppress(ValueError):
        low, high = (float(number) for number, _, _ in numbers)
        units_of = {unit for (_, _, unit), value in zip(numbers, (low, high), strict=True) if value}
        if len(units_of) == 1:
            return [*ends, f"{(low + high) / 2:.4f} {units_of.pop()}".strip()]
    return ends


def values(machine: str, silent: Options, option: str) -> list[str]:
    """Texts of the usual range of an option that a lift does not say."""
    if option in USUALLY:
        return list(USUALLY[option])
    if option == "other-attachment":
        return ["none", *(FRONT if silent["end"] == "back" else BACK)]
    with contextlib.suppress(InputError):
        return by_lift(ranged(request(machine, silent)).told.lift, option)
    return []


def by_lift(told: Lift, option: str) -> list[str]:
    """Texts of a usual range that depends on the lift as far as it is told."""
    usual = USUAL.get(option.replace("-", "_"))
    if usual is not None:
        ends = (usual.careful, usual.favourable)
        return between(*(end if isinstance(end, str) else end(told) for end in ends))
    likely = told.log.mass_likely
    return {
        "slung-at": [f"{told.log.cog_from_butt:.4f} m"],
        "mass": [f"{likely:.1f} kg ± {0.03 * likely:.1f} kg"],
        "friction": [f"{value:.4f}" for value in told.stands_on.friction],
    }.get(option, [])


def silences(machine: str, options: Options, option: str) -> Iterator[tuple[Options, Options]]:
    """A lift without an option, and with each value of its usual range; of a diameter as taped."""
    with contextlib.suppress(InputError):
        if not applies(machine, options, option):
            return
    group = TOGETHER.get(option, (option,))
    silent = {name: text for name, text in options.items() if name not in group}
    if option in ("butt", "mid", "top"):
        if option in options:
            yield silent, options
        return
    for text in values(machine, silent, option):
        told = silent | {option: text}
        if option == "slope":
            for uphill in ("0 deg", "90 deg", "180 deg", "-90 deg"):
                yield silent, told | {"uphill": uphill}
        else:
            yield silent, told


def worsened(options: Options, option: str) -> Options | None:
    """A lift with one input made worse; thicker by a tenth for a diameter."""
    if option in ("butt", "mid", "top"):
        names = [name for name in ("butt", "mid", "top") if name in options]
        made = {name: units.read(options[name], "diameter").value * 1.1 for name in names}
        return options | {name: f"{value:.5f} m" for name, value in made.items()}
    text, by = options.get(option, ""), WORSE.get(option)
    if by is None or text in ("", "none"):
        return None
    kind: Any = row_kinds()[option]
    if kind == "ratio":
        return options | {option: f"{float(text) * by:.5f}"}
    if kind == "extra":
        number, _, unit = text.partition(" ")
        return options | {option: f"{float(number) * by:.4f} {unit}"}
    value = units.read(text, kind).value * by
    return options | {option: f"{value:.6f} {SI[kind]}"}


SI = {
    "length": "m", "mass": "kg", "angle": "rad", "slope": "rad", "speed": "m/s", "pressure": "Pa",
    "acceleration": "m/s2", "turn rate": "rad/s", "time": "s",
}  # fmt: skip


@cache
def row_kinds() -> dict[str, str]:
    """Kind of every option."""
    return {row.option: row.kind for row in fields_of(LiftRequest)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two lifts to compare: ``first`` must not be better than ``second``."""

    sort: str
    option: str
    machine: str
    first: Options
    second: Options


def pairs_of(seed: int, number: int, machines: dict[str, str]) -> Iterator[Pair]:
    """Pairs of one drawn lift: every option left out, every input made worse."""
    draw = Draw(Random(f"silence {seed} {number}"))
    named, options = lift(draw)
    machine = machines.get(named, named)
    if number % 2:
        options = told_in_full(machine, options)
    for option in row_kinds():
        if option not in ELSEWHERE | NO_RANGE:
            for silent, told in silences(machine, options, option):
                yield Pair(
                    sort="silence", option=option, machine=machine, first=silent, second=told
                )
        worse = worsened(options, option) if option in options else None
        if worse is not None:
            yield Pair(sort="worse", option=option, machine=machine, first=worse, second=options)


def found(pair: Pair) -> tuple[str, ...] | None:
    """What is wrong with a pair; nothing where one of them cannot be asked."""
    first, second = (verdict(pair.machine, each) for each in (pair.first, pair.second))
    if first is None or second is None:
        return None
    wrong = []

    def above(one: float, other: float) -> bool:
        return not one <= other + SLACK * max(1.0, abs(other))

    by = {pair.option, WITH.get(pair.option, pair.option)}
    # What it waits for has no range.
    if not by & first.waits and above(first.spare, second.spare):
        wrong.append("more is allowed")
    if pair.sort == "worse":
        if RANK[first.standing] > RANK[second.standing]:
            wrong.append("a better verdict")
        # Of a lift that holds nobody asks what is hoped for: it is not sought to its end.
        # A thicker log may mend a light axle or fill a jaw: beyond its own mass it is never better.
        hopes = (each.hoped - each.mass for each in (first, second))
        if second.standing != "holds" and above(*hopes):
            wrong.append("more is hoped for")
    if pair.sort == "silence":
        if first.standing == "holds" and second.standing != "holds":
            wrong.append("silence holds")
        if pair.option not in FACTS:
            if first.standing == "fails" and second.standing != "fails":
                wrong.append("refused in vain")
            if first.standing != "holds" and above(second.hoped, first.hoped):
                wrong.append("less is hoped for")
            moves = above(abs(first.spare - second.spare), 0.0)
            if moves and not by & first.named:
                wrong.append("named nowhere")
    return tuple(wrong)


def tried(task: tuple[int, int, int, dict[str, str]]) -> list[tuple[Pair, tuple[str, ...]]]:
    """One in so many pairs of a drawn lift that could be asked, and what is wrong with each."""
    judging._decider = lambda *_: None  # type: ignore[assignment]  # what decides is not asked here
    every, seed, number, machines = task
    pairs = list(pairs_of(seed, number, machines))[number % every :: every]
    made = ((pair, found(pair)) for pair in pairs)
    return [(pair, wrong) for pair, wrong in made if wrong is not None]


@contextlib.contextmanager
def machines_in_files() -> Iterator[dict[str, str]]:
    """Paths of the altered machines by the word that stands for each."""
    with tempfile.TemporaryDirectory() as folder:
        paths = {}
        for number, (name, text) in enumerate(machine_files().items()):
            file = Path(folder) / f"machine{number}.toml"
            file.write_text(text, encoding="utf-8")
            paths[name] = str(file)
        yield paths


def main() -> int:
    """Try so many pairs; write and tell what was found."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--pairs", type=int, default=20_000)
    asked.add_argument("--seed", type=int, default=11)
    asked.add_argument("--jobs", type=int, default=2)
    asked.add_argument("--show", type=int, default=5)
    asked.add_argument("--every", type=int, default=3, help="one in so many pairs of each lift")
    given = asked.parse_args()
    counts, by_option = Counter[str](), Counter[str]()
    wrong: dict[str, list[Pair]] = {}
    lifts = 0
    with machines_in_files() as machines, Pool(given.jobs) as pool:
        tasks = ((given.every, given.seed, number, machines) for number in range(10**6))
        for made in pool.imap(tried, tasks):
            lifts += 1
            for pair, faults in made:
                counts[pair.sort] += 1
                by_option[f"{pair.sort}: {pair.option}"] += 1
                for fault in faults:
                    wrong.setdefault(f"{fault}: {pair.option}", []).append(pair)
            if counts["silence"] >= given.pairs:
                pool.terminate()
                break
    record = {
        "lifts": lifts,
        "seed": given.seed,
        "every": given.every,
        "pairs": counts["silence"],
        "worse_pairs": counts["worse"],
        "wrong": {name: len(pairs) for name, pairs in sorted(wrong.items())},
        "by_option": dict(sorted(by_option.items())),
    }
    file = Path("build/silence.json")
    file.parent.mkdir(exist_ok=True)
    file.write_text(json.dumps(record, indent=1) + "\n", encoding="utf-8")
    print(json.dumps({name: record[name] for name in ("lifts", "pairs", "worse_pairs", "wrong")}))
    for name, pairs in sorted(wrong.items()):
        for pair in pairs[: given.show]:
            gone = {k: v for k, v in pair.first.items() if pair.second.get(k) != v}
            there = {k: v for k, v in pair.second.items() if pair.first.get(k) != v}
            print(f"{name}: {gone} not worse than {there} of {pair.machine} {pair.second}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
