"""Prove that a change of the code changed no answer: write answers before it, compare after it.

    python -m tests.same_answers write FILE --count 3000 --seed 1
    python -m tests.same_answers compare FILE [--rows-may-be-lower]

Only the command line is talked to, in this process, so that the code within may change at will.
Every number of an answer is compared to 1e-9; of words, only those that name what governs. A
refusal must stay one, of the same fields. Differences that are meant stand in ``REASONED``, each
with its reason; any other makes the exit status 1.
"""

from __future__ import annotations

import argparse
import contextlib
import gzip
import io
import json
import math
import os
import re
import shlex
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import cache
from multiprocessing import Pool
from pathlib import Path
from typing import Any

import liftcalc
from liftcalc.units import SPACE
from tests.drawn_machines import machine_files
from tests.drawn_requests import requests

CLOSE = 1e-9
"""Of a number relative to itself, or to one near zero."""
WORDS = {"governs", "stopped_by", "recommended", "question", "log_passes"}
"""Keys whose texts are compared; all other texts are prose, which may be worded anew."""
CAPACITIES = {"capacity", "capacity_kg", "tipping_load"}
"""Keys of a row that say how much it bears."""
ECHOES = {"inputs", "understood"}
"""Keys of what was typed, not answered."""

ANSWERED = {None, 0, 1, 3}
"""Exit statuses of an answer: it holds, it fails, it is open; of a command that returns none."""

Answer = dict[str, Any]
"""Path to number, truth, None or one of ``WORDS``."""


@dataclass(frozen=True, kw_only=True)
class Reason:
    """A fault that was mended on purpose: which requests it changes, and in which paths.

    ``of`` is told the options of a request. Whatever the reason, what ``check`` allows may not rise
    but where ``may_rise`` says that it was too low before.
    """

    why: str
    of: Callable[[dict[str, str]], bool]
    paths: str = ".*"
    may_rise: bool = False


REASONED: tuple[Reason, ...] = (
    Reason(
        why="a place that a ram could only come to past its dead centre is none",
        of=lambda options: "height" in options and "reach" not in options,
        paths=r"(answers/0/at|more/[^/]*/after)/reach_m",
    ),
    Reason(
        why="two legs and a basket count by their uniform rating at most, and by the whole's tag",
        of=lambda options: options.get("sling") in {"two legs", "basket"},
    ),
    Reason(
        why="nothing is recommended where the log would meet the machine",
        of=lambda options: True,
        paths=r"more/(the (front|back) end|closer|lower|use the) .*",
    ),
    Reason(
        why="of criteria or ways of turning that allow the same, the first named is told",
        of=lambda options: options.get("end") == "front",
        paths=r"tables/.*/rows/.*/governs|(answers/0/at|more/.*/after)/stopped_by|ground/.*"
        r"|evidence/(gravity/y|site/acceleration_left|demands/.*/force/1)",
    ),
    Reason(
        why="a map says where the log is still on the ground",
        of=lambda options: True,
        paths=r"tables/.*/rows/.*/log_passes",
    ),
    Reason(
        why="an attachment that is none hides what follows from it",
        of=lambda options: "lifted" in options,
        paths="refusal",
    ),
)
"""Known differences, of which every one is told with the number of requests that it changed."""
RENAMED: dict[str, str] = {
    "a heavier chain or sling": "a heavier sling",
    "edge depth": "edge-depth",
    "edge distance": "edge",
    "lift point": "lift-point",
    "people distance": "people",
    "sling length": "sling-length",
    "slew stop": "slew-stop",
    "turn radius": "turn-radius",
    "wires distance": "wires",
    "wires voltage": "wires-voltage",
}
"""Names that are another now: of keys, rows, what governs and fields of faults; old to new."""


def resaid(text: str) -> str:
    """A machine file of before, its chart said as now.

    What was not taken off before is rated with the heaviest attachment: nothing comes off either.
    """
    heaviest = "log grab with rotator" if 'name = "small-tractor"' in text else "digging bucket"
    text = text.replace("includes_attachment = true\n", "")
    return text.replace("includes_attachment = false\n", f'rated_with = "{heaviest}"\n')


@cache
def command(name: str) -> Any:
    """One command of the command line, made ready once."""
    import typer

    from liftcalc.cli.main import command_line

    return typer.main.get_command(command_line(name))


def run(words: list[str]) -> tuple[Answer | None, list[str]]:
    """The answer to a command line, or None and the fields of the faults it is refused for."""
    out, err = io.StringIO(), io.StringIO()
    faults: list[str] = []
    status: Any = 0
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            status = command(words[0]).main(args=words, prog_name="liftcalc", standalone_mode=False)
        except SystemExit as stopped:
            status = stopped.code
        except Exception as error:
            # A refusal names its fields; anything else is told by its kind, never taken as one.
            named = getattr(error, "faults", None)
            faults = (
                [f"{type(error).__name__}: {error}"] if named is None else [f.field for f in named]
            )
    if not faults and status in ANSWERED:
        return dict(flat(json.loads(out.getvalue()))), []
    return None, sorted(set(faults or said_faults(out.getvalue() + err.getvalue())))


def said_faults(text: str) -> list[str]:
    """The fields of a refusal that was printed: as data, or in words as ``field: given …``."""
    with contextlib.suppress(ValueError):
        made = json.loads(text)
        rows = made.get("faults") or made.get("errors") or []
        return [str(each["field"]) for each in rows]
    return re.findall(r"(?:^|\. |: )([\w -]+): given ", text, re.MULTILINE) or [text.strip()]


def flat(made: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Every number of plain data by its path; rows with a name go by it, not by place."""
    if isinstance(made, dict):
        if "columns" in made:
            rows = [dict(zip(made["columns"], each, strict=True)) for each in made["rows"]]
            made = {"rows": rows}
        for key, value in made.items():
            if key in ECHOES:
                continue
            if not isinstance(value, str) or key in WORDS:
                named = key.replace(SPACE, " ")  # a figure in a name, kept together or not
                yield from flat(value, f"{path}/{named}" if path else named)
    elif isinstance(made, list):
        seen: Counter[str] = Counter()
        for number, value in enumerate(made):
            name = str(number)
            if isinstance(value, str):
                continue
            if isinstance(value, dict) and "name" in value:
                name = f"{value['name']} {value.get('where') or ''}".strip().replace("/", "|")
                name = name.replace(SPACE, " ")
                seen[name] += 1
                name += f" #{seen[name]}" if seen[name] > 1 else ""
            yield from flat(value, f"{path}/{name}")
    else:
        yield path, made


def renamed(made: Answer | None) -> Answer | None:
    """An answer of before under the names of now."""
    if made is None or not RENAMED:
        return made
    return {
        "/".join(RENAMED.get(each, each) for each in path.split("/")): RENAMED.get(value, value)
        if isinstance(value, str)
        else value
        for path, value in made.items()
    }


def options_of(words: list[str]) -> dict[str, str]:
    """Option to text; a flag's text is empty."""
    pairs = (each[2:].partition("=") for each in words if each.startswith("--"))
    return {name: text for name, _, text in pairs}


def row_of(path: str) -> str:
    """The row of a criterion or of evidence that a path is of, or nothing."""
    found = re.match(r"(criteria|evidence/(?:lines|rams|demands|ratings))/[^/]*", path)
    return found[0] if found else ""


def same(before: Any, now: Any) -> bool:
    """Whether two values are one to within ``CLOSE``; NaN is never the same."""
    if any(isinstance(each, bool | str | None) for each in (before, now)):
        return type(before) is type(now) and before == now
    return math.isclose(before, now, rel_tol=CLOSE, abs_tol=CLOSE)


def tied(before: Answer, one: str, other: str) -> bool:
    """Whether two criteria that may govern were equal, so that either may be named."""
    rows = [before.get(f"criteria/{name}/allowed_kg") for name in (one, other)]
    return None not in rows and same(*rows)


def told_of_equals(before: Answer, now: Answer) -> Answer:
    """The answer with its tipping row under the line that is told now, if both tip at one load.

    One line's load is that of another where the load is in the middle, or the log to either side.
    """
    rows = [{row_of(path) for path in each if TIPPING.match(path)} for each in (before, now)]
    if [len(each) for each in rows] != [1, 1]:
        return before
    one, other = rows[0].pop(), rows[1].pop()
    if one == other or not same(before[f"{one}/capacity_kg"], now[f"{other}/capacity_kg"]):
        return before
    names = one.removeprefix("criteria/"), other.removeprefix("criteria/")
    governs = {"answer/governs": names[1]} if before.get("answer/governs") == names[0] else {}
    return {path.replace(one, other, 1): value for path, value in before.items()} | governs


TIPPING = re.compile("criteria/tipping ")


def mirrored(path: str, value: Any, now: Answer) -> bool:
    """Whether a number is now that of the other side: the log may lie to either, and lay there."""
    if not path.startswith(("evidence/lift_point/", "evidence/lines/", "ground/")):
        return False
    there = now.get(SIDE.sub(lambda side: OTHER_SIDE[side[0]], path), now.get(path))
    turned = -value if path.endswith(ACROSS) else value
    return same(turned, there)


ACROSS = ("/y", "/moment_Nm/0", "/moment_Nm/2", "/force_N/1")
"""What changes its sign on the other side."""
SIDE, OTHER_SIDE = re.compile("left|right"), {"left": "right", "right": "left"}


def lower(before: Any, now: Any) -> bool:
    """Whether a capacity is no higher; None is without limit."""
    return before is None or (now is not None and (now <= before or same(before, now)))


def no_better(path: str, before: Any, now: Any) -> bool:
    """Whether a figure of a row tells nothing better than before, as far as that can be told."""
    key = path.rsplit("/", 1)[-1]
    if key == "utilisation":
        return lower(now, before)
    return lower(before, now) if key in CAPACITIES or key == "allowed_kg" else True


def lowered_rows(before: Answer, now: Answer) -> set[str]:
    """Rows that stand at a worse state now: those may differ in how they came about."""
    made = set()
    for path, value in before.items():
        row = row_of(path)
        if not row or path not in now or path.rsplit("/", 1)[-1] not in CAPACITIES:
            continue
        if not same(value, now[path]) and lower(value, now[path]):
            made.add(row)
    names = {each.partition("/")[2] for each in made if each.startswith("criteria")}
    return made | {f"evidence/ratings/{name}" for name in names}


@dataclass
class Report:
    """What was compared, and what differs."""

    rows_may_be_lower: bool = False
    counts: Counter[str] = field(default_factory=Counter)
    names: Counter[str] = field(default_factory=Counter)
    reasons: Counter[str] = field(default_factory=Counter)
    wrong: list[tuple[list[str], list[str]]] = field(default_factory=list)

    def add(self, words: list[str], before: Any, now: Any) -> None:
        """Compare one request; either side is an answer and the fields of its faults."""
        self.counts[f"{words[0]} requests"] += 1
        (old, old_faults), (new, new_faults) = before, now
        old, old_faults = renamed(old), sorted(RENAMED.get(each, each) for each in old_faults)
        found: list[tuple[str, str]] = []
        if old is None or new is None:
            if (old is None) != (new is None):
                found = [("refusal", f"{old_faults or 'answered'} -> {new_faults or 'answered'}")]
            elif old_faults != new_faults:
                found = [("refusal", f"{old_faults} -> {new_faults}")]
            else:
                self.counts["both refuse"] += 1
        else:
            self.counts["both answer"] += 1
            found = list(self.differences(old, new))
        self.judge(words, found, old, new)

    def differences(self, old: Answer, new: Answer) -> Iterator[tuple[str, str]]:
        free = lowered_rows(old, new) if self.rows_may_be_lower else set()
        self.counts["rows that are lower"] += sum(each.startswith("criteria") for each in free)
        old = told_of_equals(old, new)
        for path, value in old.items():
            if path.endswith("/allowed_kg") and path.startswith("criteria/"):
                self.names[path.split("/")[1]] += 1
            if path not in new:
                if path.startswith("evidence/"):
                    self.counts["numbers of evidence that are gone"] += 1
                else:
                    yield path, f"{value!r} -> gone"
                continue
            self.counts["numbers"] += 1
            if same(value, new[path]):
                continue
            if mirrored(path, value, new):
                self.counts["numbers of the other side, of equals"] += 1
                continue
            if row_of(path) in free and no_better(path, value, new[path]):
                continue
            if path == "answer/governs" and tied(old, value, new[path]):
                self.counts["ties named otherwise"] += 1
                continue
            yield path, f"{value!r} -> {new[path]!r}"
        for path in new:
            if re.fullmatch("criteria/.*/allowed_kg", path) and path not in old:
                yield path, f"none -> {new[path]!r}"

    def judge(
        self, words: list[str], found: list[tuple[str, str]],
        old: Answer | None, new: Answer | None,
    ) -> None:  # fmt: skip
        """Leave out what is reasoned, keep what is not."""
        options, left = options_of(words), []
        used: set[str] = set()
        rises = old is not None and new is not None and not all(
            lower(old[path], new.get(path))
            for path in old if path in ("answer/allowed_kg", "answer/heaviest_log_kg")
        )  # fmt: skip
        for path, text in found:
            reason = next(
                (
                    each for each in REASONED
                    if each.of(options) and re.fullmatch(each.paths, path)
                    and (each.may_rise or not rises)
                ),
                None,
            )  # fmt: skip
            if reason is None:
                left.append(f"{path}: {text}")
            else:
                used.add(reason.why)
        self.reasons.update(used)
        if left:
            self.wrong.append((words, left))

    def tell(self, show: int) -> int:
        """Print it all; the exit status."""
        for name, number in sorted(self.counts.items()):
            print(f"{number:8d}  {name}")
        print("Rows of criteria compared, by name")
        for name, number in sorted(self.names.items()):
            print(f"{number:8d}  {name}")
        if REASONED:
            print("Requests that differ for a reason")
            for each in REASONED:
                print(f"{self.reasons[each.why]:8d}  {each.why}")
        for words, left in self.wrong[:show]:
            print(f"\nliftcalc {shlex.join(words)}")
            more = [f"and {len(left) - 12} more"] if len(left) > 12 else []
            print(*(f"    {each}" for each in [*left[:12], *more]), sep="\n")
        print(f"\n{len(self.wrong)} requests differ without a reason")
        return 1 if self.wrong else 0


@contextlib.contextmanager
def machines_at(texts: dict[str, str]) -> Iterator[Callable[[list[str]], list[str]]]:
    """Altered machines as files for a while; gives what puts their paths into a command line."""
    with tempfile.TemporaryDirectory() as folder:
        paths = {}
        for number, (name, text) in enumerate(texts.items()):
            paths[name] = str(Path(folder) / f"machine{number}.toml")
            Path(paths[name]).write_text(text, "utf-8")
        yield lambda words: [paths.get(each, each) for each in words]


def answers(
    asked: list[list[str]], texts: dict[str, str], jobs: int
) -> Iterator[tuple[Answer | None, list[str]]]:
    """The answers to command lines, in their order."""
    with machines_at(texts) as placed, Pool(jobs) as pool:
        yield from pool.imap(run, [placed(each) for each in asked], chunksize=16)


def write(file: Path, *, count: int, seed: int, jobs: int) -> int:
    """Write requests and their answers; tell what they cover."""
    texts, asked = machine_files(), requests(count, seed)
    there, governs, answered = Counter[str](), Counter[str](), Counter[str]()
    refused = Counter[str]()
    with gzip.open(file, "wt", encoding="utf-8", compresslevel=4) as out:
        out.write(json.dumps({"machines": texts}) + "\n")
        for words, (made, faults) in zip(asked, answers(asked, texts, jobs), strict=True):
            out.write(json.dumps([words, made, faults]) + "\n")
            kind = " ".join(words[:2]) if words[0] == "ask" else words[0]
            answered[kind] += made is not None
            answered[f"{kind} of"] += 1
            refused.update(f"{words[0]}: {each}" for each in faults)
            if made is not None and words[0] == "check":
                there.update(p.split("/")[1] for p in made if re.match("criteria/.*/allowed_kg", p))
                governs[made["answer/governs"]] += 1
    print(f"from {liftcalc.__file__}")
    for kind in (each for each in answered if not each.endswith(" of")):
        print(f"{kind}: {answered[kind]} of {answered[f'{kind} of']} answered")
    print("Refused for", *(f"{n:8d}  {name}" for name, n in refused.most_common(40)), sep="\n")
    print("Criteria: how often there, how often governing")
    for name in sorted(there | governs):
        print(f"{there[name]:8d}{governs[name]:8d}  {name}")
    return 0


def compare(file: Path, *, jobs: int, show: int, rows_may_be_lower: bool) -> int:
    """Ask everything in a file again and tell what differs."""
    with gzip.open(file, "rt", encoding="utf-8") as lines:
        texts = json.loads(next(lines))["machines"]
        texts = {name: resaid(text) for name, text in texts.items()}
        kept = [json.loads(each) for each in lines]
    report = Report(rows_may_be_lower=rows_may_be_lower)
    asked = [words for words, _, _ in kept]
    for (words, made, faults), now in zip(kept, answers(asked, texts, jobs), strict=True):
        report.add(words, (made, faults), now)
    print(f"compared with {liftcalc.__file__}")
    return report.tell(show)


def main() -> int:
    """Run the tool."""
    told = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    told.add_argument("mode", choices=("write", "compare"))
    told.add_argument("file", type=Path)
    told.add_argument("--count", type=int, default=3000)
    told.add_argument("--seed", type=int, default=1)
    told.add_argument("--jobs", type=int, default=os.cpu_count() or 1)
    told.add_argument("--show", type=int, default=20, help="how many that differ to print")
    told.add_argument("--rows-may-be-lower", action="store_true")
    given = told.parse_args()
    began = time.perf_counter()
    status = (
        write(given.file, count=given.count, seed=given.seed, jobs=given.jobs)
        if given.mode == "write"
        else compare(
            given.file, jobs=given.jobs, show=given.show, rows_may_be_lower=given.rows_may_be_lower
        )
    )
    print(f"{time.perf_counter() - began:.0f} s")
    return status


if __name__ == "__main__":
    sys.exit(main())
