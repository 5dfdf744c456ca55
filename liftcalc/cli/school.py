"""``liftcalc school``: the course, one lesson, the drills, and a summary for an instructor."""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from random import Random
from typing import Annotated

import typer

from liftcalc.cli import options
from liftcalc.errors import InputError
from liftcalc.files import drawing, kind_of, write_all
from liftcalc.reports.school_text import course, exercise_lines, marked_lines, prompt, summary_lines
from liftcalc.reports.text import wrapped
from liftcalc.school.exercise import Exercise, pose
from liftcalc.school.files import lesson as find
from liftcalc.school.files import lessons
from liftcalc.school.lesson import CAUTION, Lesson
from liftcalc.school.marking import Marked, mark
from liftcalc.school.practice import judgement, next_drill
from liftcalc.school.record import Attempt, attempt, csv_of, keep, kept
from liftcalc.units import System

NOT_KEPT = "Nothing of this is kept: name a file with --record to keep it."
SEEDS = 1_000_000

RecordFile = Annotated[
    str, typer.Option("--record", help="Your own file to keep attempts in; none: nothing is kept.")
]
MachineFile = Annotated[
    str, typer.Option("--machine", help="A shipped machine's name, or your own .toml file.")
]
Answers = Annotated[
    str, typer.Option(help="Predictions set apart by ';' instead of typed ones, for scripts.")
]
Working = Annotated[bool, typer.Option(help="Whether the worked figures are printed.")]

school = typer.Typer(
    help="Predict, move, see, explain: what stops the machine, and how far off the guess was.",
    rich_markup_mode=None,
)


@school.callback(invoke_without_command=True)
def listed(context: typer.Context) -> None:
    """List the course; with a command, run a lesson, drills or a summary."""
    if context.invoked_subcommand is None:
        options.say(course(lessons()))


@school.command("lesson")
def one_lesson(
    name: Annotated[str, typer.Argument(help="As listed by 'liftcalc school', or a .toml file.")],
    seed: Annotated[int | None, typer.Option(help="The same seed, the same exercise.")] = None,
    machine: MachineFile = "",
    record: RecordFile = "",
    answers: Answers = "",
    working: Working = True,
    units: options.Units = "metric",
) -> None:
    """Run one lesson: the prediction first."""
    system = options.system_of(units)
    lesson = find(name)
    drawn = Random().randrange(SEEDS) if seed is None else seed
    told = _Told(record=record, answers=answers, working=working, system=system)
    exercise = pose(lesson, seed=drawn, machine=machine or None, system=system)
    told.run(iter([exercise]))


@school.command("drill")
def drills(
    record: RecordFile = "",
    machine: MachineFile = "",
    rounds: Annotated[int, typer.Option(min=1, max=200, help="How many.")] = 5,
    seed: Annotated[int | None, typer.Option(help="To draw the same drills again.")] = None,
    answers: Answers = "",
    working: Working = False,
    units: options.Units = "metric",
) -> None:
    """Drills one after another: what errs, and what errs on the unsafe side, comes back first.

    Spaced by boxes after Leitner: what is known rests longer, what is missed comes again.
    """
    system = options.system_of(units)
    told = _Told(record=record, answers=answers, working=working, system=system)
    random = Random() if seed is None else Random(seed)
    told.run(_drilled(told, machine or None, rounds, random))


@school.command("summary")
def summary(
    record: Annotated[str, typer.Option("--record", help="The file of attempts.")],
    save: Annotated[str, typer.Option(help="A .pdf of one page, or a .csv of all attempts.")] = "",
) -> None:
    """For an instructor: where judgement errs. No qualification, and no certificate."""
    kind = kind_of(save, ("pdf", "csv")) if save else ""
    found = kept(record)
    if not found.attempts:
        raise InputError.of(
            field="record",
            given=f'"{record}"',
            understood="; ".join(found.unread[:3]) or "no such file, or an empty one",
            wanted="a file that 'liftcalc school' has kept attempts in",
        )
    now = datetime.now(UTC)
    if kind == "csv":
        write_all([(save, csv_of(found.attempts).encode())])
    elif kind:
        with drawing(kind):
            # Slow to load, rarely wanted.
            from liftcalc.figures.saving import picture  # noqa: PLC0415
            from liftcalc.figures.school_summary import summary_page  # noqa: PLC0415

            page = summary_page(found.attempts, now=now, record=Path(record).name)
            write_all([(save, picture(page, kind))])
    options.say(summary_lines(found, judgement(found.attempts), now=now))
    if save:
        typer.echo(f"\nSaved: {save}")


def _drilled(told: _Told, machine: str | None, rounds: int, random: Random) -> Iterator[Exercise]:
    """Exercises by what was marked so far; a lesson that does not suit the machine is passed."""
    among: list[Lesson] = [each for each in lessons() if each.drill]
    left = rounds
    while left:
        drill = next_drill(
            told.attempts, now=datetime.now(UTC), seed=random.randrange(SEEDS), among=among
        )
        try:
            posed = pose(drill.lesson, seed=drill.seed, machine=machine, system=told.system)
        except InputError:
            among.remove(drill.lesson)
            if not among:
                raise
            continue
        left -= 1
        typer.echo(f"[{rounds - left} of {rounds}] {drill.why}")
        yield posed


def _in_a_folder(record: str) -> None:
    """Refuse at once what could not be kept after the first attempt."""
    if not os.path.isdir(Path(record).parent):
        raise InputError.of(
            field="record",
            given=f'"{record}"',
            understood="no such folder",
            wanted="a file in a folder that is there",
        )


class _StoppedError(Exception):
    """The learner has had enough, or there is nothing more to read."""


class _Told:
    """Asks, marks, tells and keeps; every attempt is kept as soon as it is marked."""

    def __init__(self, *, record: str, answers: str, working: bool, system: System) -> None:
        self.record, self.working, self.system = record, working, system
        self.given = iter(answers.split(";")) if answers else None
        self.attempts: tuple[Attempt, ...] = ()
        self.done = 0
        if record:
            _in_a_folder(record)
            found = kept(record)
            self.attempts = found.attempts
            for each in found.unread:
                typer.echo(f"{record}: {each}")
            if found.unread and not found.attempts:
                raise InputError.of(
                    field="record",
                    given=f'"{record}"',
                    understood="no line of it is ours",
                    wanted="a record of this school, or a new file",
                    fix="name another file",
                )

    def run(self, exercises: Iterator[Exercise]) -> None:
        """Run them until they end, nothing is left to read, or the learner stops."""
        options.say(wrapped(CAUTION))
        typer.echo("")
        try:
            for number, exercise in enumerate(exercises):
                self._one(exercise, first=number == 0)
        except (_StoppedError, KeyboardInterrupt):
            typer.echo("\nStopped here.")
        count = f"{self.done} attempt{'' if self.done == 1 else 's'}"
        typer.echo(f"{count} kept in {self.record}." if self.record else NOT_KEPT)

    def _one(self, exercise: Exercise, *, first: bool) -> None:
        if not first:
            typer.echo("")
        options.say(exercise_lines(exercise, self.system))
        marked = self._marked(exercise)
        if self.record:
            keep(self.record, made := attempt(exercise, marked, at=datetime.now(UTC)))
            self.attempts = (*self.attempts, made)
        else:
            self.attempts = (*self.attempts, attempt(exercise, marked, at=datetime.now(UTC)))
        self.done += 1
        working = _working(exercise) if self.working else []
        options.say(marked_lines(exercise, marked, self.system, working=working))

    def _marked(self, exercise: Exercise) -> Marked:
        """Ask until a prediction can be read."""
        while True:
            typed = self._read(prompt(exercise))
            if typed.casefold() in {"q", "quit"}:
                raise _StoppedError
            if not typed:
                continue
            try:
                return mark(exercise, _choice(exercise, typed), system=self.system)
            except InputError as error:
                typer.echo(f"{error}\n")

    def _read(self, words: str) -> str:
        if self.given is not None:
            typed = next(self.given, None)
            if typed is None:
                raise _StoppedError
            typer.echo(f"{words}{typed.strip()}")
            return typed.strip()
        try:
            return input(words).strip()
        except EOFError:
            raise _StoppedError from None


def _choice(exercise: Exercise, typed: str) -> str:
    """A letter as the number of its choice; anything else as it was typed."""
    letter = typed.strip().rstrip(".)").casefold()
    if exercise.choices and len(letter) == 1 and "a" <= letter <= "z":
        return str(ord(letter) - ord("a") + 1)
    return typed


def _working(exercise: Exercise) -> list[str]:
    """The working of what a lesson asks."""
    from liftcalc.working.lesson import lesson_sections  # noqa: PLC0415 - only when asked for
    from liftcalc.working.text import section_lines  # noqa: PLC0415

    lines = ["", "Worked, in SI"]
    for section in lesson_sections(exercise):
        lines += ["", *(f"  {line}" for line in section_lines(section))]
    return lines
