"""Run the campaign: ``python -m dynamics.campaign``; prints it, and writes ``build/dynamics.json``.

Every case is run with the load that the tool allows, which nothing may come of (a *false yes*
otherwise); with the load that only the criteria allow which the engine can see, since the others
often stop a lift sooner; and with a third more than that, of which something should come (a
*needless no* otherwise). Of every sixth case it is sought how much more it would have borne.
"""

from __future__ import annotations

import argparse
import json
import multiprocessing
import sys
import time
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import numpy as np

from dynamics.cases import KINDS, USUAL, Case, Kind, drawn, every
from dynamics.model import rig
from dynamics.runs import Outcome, run

COUNT, SEED = 660, 11
MORE = 4 / 3
"""A load that is refused by more than a third."""
SPARED = 6
"""Of every so many cases the spare load is sought."""
MOST_SPARE = 4.0
OUT = Path(__file__).parents[1] / "build" / "dynamics.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A case with what came of its loads; ``spare`` is the load at failure over that by motion."""

    case: Case
    at_allowed: Outcome | None
    at_motion: Outcome
    at_more: Outcome
    spare: float | None


def outcome(case: Case, load: float) -> Outcome:
    """What comes of a case with a log of a mass [kg]."""
    made = rig(case.lift, log=load, friction=case.slips, obstacle=case.move.obstacle)
    return run(made, case.move)


def spare(case: Case, at_motion: Outcome, at_more: Outcome) -> float:
    """Load at which something fails over the load by motion, within 3 %; no more than some."""
    low, high = 1.0, MOST_SPARE
    if at_motion.failed:
        low, high = 0.0, 1.0
    elif at_more.failed:
        high = MORE
    elif not outcome(case, high * case.by_motion).failed:
        return MOST_SPARE
    else:
        low = MORE
    while high - low > 0.03 * high:
        middle = (low + high) / 2
        if outcome(case, middle * case.by_motion).failed:
            high = middle
        else:
            low = middle
    return low


def judge(which: tuple[Kind, int, int]) -> Judged:
    """Draw a case and run it with its loads."""
    kind, number, seed = which
    case = drawn(kind, number, seed=seed)
    at_motion = outcome(case, case.by_motion)
    at_allowed: Outcome | None = at_motion
    if case.allowed < case.by_motion:
        at_allowed = outcome(case, case.allowed) if case.allowed > 0 else None
    at_more = outcome(case, MORE * case.by_motion)
    sought = spare(case, at_motion, at_more) if number % SPARED == 0 else None
    return Judged(
        case=case, at_allowed=at_allowed, at_motion=at_motion, at_more=at_more, spare=sought
    )


def quantiles(values: Iterable[float]) -> dict[str, float]:
    """Some quantiles of values; empty for none."""
    found = [*values]
    if not found:
        return {}
    shares = {"least": 0, "5 %": 5, "25 %": 25, "50 %": 50, "75 %": 75, "95 %": 95, "most": 100}
    return {name: round(float(np.percentile(found, at)), 3) for name, at in shares.items()}


def peaks(found: list[Judged]) -> dict[str, Any]:
    """Peaks of force over those at rest, of the ground, the axles and what holds the load."""
    return {
        part: quantiles(getattr(each.at_motion, part) for each in found)
        for part in ("ground", "axle", "gear")
    } | {"cases": len(found)}


def groups(found: list[Judged]) -> dict[str, list[Judged]]:
    """Cases by what happens in them, as finely as factors are wanted."""
    made: dict[str, list[Judged]] = {}
    for each in found:
        move, held = each.case.move, each.case.held
        if move.lowering:
            name = f"lowering stopped from {move.lowering:.1f} m/s"
        elif move.obstacle:
            usual = (abs(move.speed), move.obstacle.thickness) == USUAL
            name = "over 10 cm at 1.1 m/s" if usual else "over 10 to 15 cm at 0.8 to 1.5 m/s"
        elif move.slewing:
            name = "slewing"
        else:
            name = "turning" if move.turn_radius else "braking"
        made.setdefault(f"{name}, {held}", []).append(each)
    return dict(sorted(made.items()))


def told(each: Judged, load: float, came: Outcome) -> dict[str, Any]:
    """A case that came out badly, so that it can be looked at again."""
    case = each.case
    return {
        "case": f"{case.kind} {case.number}",
        "command": case.command,
        "load": round(load, 1),
        "failed": came.failed,
        "governs": case.governs,
        "move": {name: value for name, value in asdict(case.move).items() if value},
        "outcome": {
            name: round(value, 3) for name, value in asdict(came).items() if type(value) is float
        },
    }


def counts(found: list[Judged]) -> dict[str, Any]:
    """What a set of cases came to."""
    ends = [dict(each.case.typed) for each in found]
    return {
        "cases": len(found),
        "allowed_nothing": sum(each.at_allowed is None for each in found),
        "false_yes": sum(bool(each.at_allowed and each.at_allowed.failed) for each in found),
        "false_yes_by_motion": sum(bool(each.at_motion.failed) for each in found),
        "needless_no": sum(not each.at_more.failed for each in found),
        "slid": sum(each.at_motion.slid > 0.3 for each in found),
        "hung": sum(each.case.held == "hung" for each in found),
        "back": sum(each["end"] == "back" for each in ends),
        "on_wheels": sum(each["stance"] == "wheels" for each in ends),
        "spare": quantiles(each.spare for each in found if each.spare is not None),
    }


def summed(found: list[Judged], *, seed: int) -> dict[str, Any]:
    """The result as data."""
    return {
        "seed": seed,
        **counts(found),
        "kinds": {kind: counts([e for e in found if e.case.kind == kind]) for kind in KINDS},
        "governed_by": {
            title: counts([e for e in found if e.case.governs.split()[0] == title])
            for title in sorted({e.case.governs.split()[0] for e in found})
        },
        "peaks": {name: peaks(some) for name, some in groups(found).items()},
        "false_yes_cases": [
            told(e, e.case.allowed, e.at_allowed)
            for e in found
            if e.at_allowed and e.at_allowed.failed
        ],
        "false_yes_by_motion_cases": [
            told(e, e.case.by_motion, e.at_motion) for e in found if e.at_motion.failed
        ],
    }


def campaign(count: int, *, seed: int, processes: int | None = None) -> list[Judged]:
    """All cases, as many at a time as there are processors."""
    with multiprocessing.get_context("spawn").Pool(processes) as pool:
        found = []
        for each in pool.imap(judge, every(count, seed=seed), chunksize=6):
            found.append(each)
            if len(found) % 60 == 0:
                print(f"{len(found)} of {count}", file=sys.stderr, flush=True)
    return found


def printed(result: dict[str, Any], took: float) -> None:
    """The result in lines."""
    print(f"{result['cases']} cases in {took:.0f} s; false yes {result['false_yes']}, ", end="")
    print(f"by motion alone {result['false_yes_by_motion']}; needless no {result['needless_no']}")
    for kind, of in result["kinds"].items():
        print(
            f"  {kind:11} {of['cases']:4} false yes {of['false_yes']:3} by motion "
            f"{of['false_yes_by_motion']:3} needless no {of['needless_no']:3} "
            f"allowed nothing {of['allowed_nothing']:3} spare {of['spare'].get('50 %')}"
        )
    print("spare load:", result["spare"])
    for name, of in result["peaks"].items():
        parts = "; ".join(
            f"{part} {of[part]['50 %']:.2f} {of[part]['95 %']:.2f} {of[part]['most']:.2f}"
            for part in ("ground", "axle", "gear")
        )
        print(f"  {name:36} {of['cases']:4}  median, 95 %, most: {parts}")
    for each in result["false_yes_cases"]:
        print(f"FALSE YES {each['case']}: {each['failed']} at {each['load']} kg: {each['command']}")


def main() -> int:
    """Run, print, write; 1 where the tool said yes to what failed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cases", type=int, default=COUNT)
    parser.add_argument("--seed", type=int, default=SEED)
    asked = parser.parse_args()
    began = time.monotonic()
    result = summed(campaign(asked.cases, seed=asked.seed), seed=asked.seed)
    printed(result, time.monotonic() - began)
    OUT.parent.mkdir(exist_ok=True)
    OUT.write_text(json.dumps(result, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    return 1 if result["false_yes"] else 0


if __name__ == "__main__":
    raise SystemExit(main())
