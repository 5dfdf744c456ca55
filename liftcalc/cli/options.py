"""Options of commands: those of the table of fields, and those of how an answer is printed."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Annotated, Any, TypeVar, cast, get_args, get_type_hints

import typer

from liftcalc.errors import Gather, InputError
from liftcalc.requests.fields import fields_of
from liftcalc.requests.table import Field
from liftcalc.units import System

if TYPE_CHECKING:  # a log is weighed without machines
    from liftcalc.evaluation.answer import Standing

Record = TypeVar("Record")
Read = TypeVar("Read")
Json = Annotated[bool, typer.Option("--json", help="Print the answer as JSON, in SI.")]
Working = Annotated[bool, typer.Option("--working", help="Print the worked steps as well.")]
Units = Annotated[str, typer.Option(help="'metric' or 'imperial', for what is shown.")]


def system_of(text: str) -> System:
    """The system of units asked for, or an ``InputError``."""
    for system in get_args(System):
        if text.strip().casefold() == system:
            return cast(System, system)
    raise InputError.of(
        field="units",
        given=f'"{text}"',
        wanted="metric or imperial",
        fix="it only sets how answers are shown; what you type carries its own units",
    )


LEAVES = {"holds": 0, "fails": 1, "open": 3}
"""Exit status of a verdict; 2 is a request that could not be read."""


def leave(standing: Standing) -> None:
    """End with the status that tells holds, fails and open apart."""
    if LEAVES[standing]:
        raise typer.Exit(LEAVES[standing])


def careful_standing(*, found: bool, waits: bool) -> Standing:
    """How an answer ends that was sought at the careful end of all that is not known.

    It fails where nothing was found there, and is open while something has to be told.
    """
    return "fails" if not found else "open" if waits else "holds"


def understood(units: str, parse: Callable[[Record], Read], request: Record) -> tuple[System, Read]:
    """The system of units and a request as it was read; every fault at once."""
    gather = Gather()
    with gather:
        system = system_of(units)
    with gather:
        read = parse(request)
    gather.raise_any()
    return system, read


def say(lines: Iterable[str]) -> None:
    """Print lines."""
    for line in lines:
        typer.echo(line)


def takes(
    record: type, *, may_lack: tuple[str, ...] = ()
) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Give a command an option for every field of a record of ``requests.fields``.

    The command's first parameter becomes the record; its others stay as they are. Fields that
    ``may_lack`` stand in the command without their name and may be left out.
    """
    parameters = [_parameter(each, each.name in may_lack) for each in fields_of(record)]

    def decorate(command: Callable[..., None]) -> Callable[..., None]:
        hints = get_type_hints(command, include_extras=True)
        _, *others = inspect.signature(command).parameters.values()
        own = [
            each.replace(annotation=hints[each.name], kind=inspect.Parameter.KEYWORD_ONLY)
            for each in others
        ]

        def run(**given: Any) -> None:
            texts = {each.name: given.pop(each.name) for each in parameters}
            command(record(**{name: text for name, text in texts.items() if text}), **given)

        every = [*parameters, *own]
        run.__name__, run.__doc__ = command.__name__, command.__doc__
        run.__annotations__ = {each.name: each.annotation for each in every}
        # typer reads parameters from here; a callable has no such attribute for a type checker.
        run.__signature__ = inspect.Signature(every)  # type: ignore[attr-defined]
        return run

    return decorate


def _parameter(row: Field, may_lack: bool) -> inspect.Parameter:
    """A row of the table as typer reads one."""
    default: Any = row.default
    if row.argument:
        annotation: Any = Annotated[str, typer.Argument(help=help_of(row))]
        default = "" if may_lack else inspect.Parameter.empty
    elif row.kind == "flag":
        annotation = Annotated[bool, typer.Option(f"--{row.option}", help=help_of(row))]
    else:
        annotation = Annotated[str, typer.Option(help=help_of(row))]
    return inspect.Parameter(
        row.name, inspect.Parameter.KEYWORD_ONLY, default=default, annotation=annotation
    )


def help_of(row: Field) -> str:
    """What ``--help`` says of a field."""
    listed = "; ".join(
        f"{name}: {row.shown[name]}" if name in row.shown else f"'{name}'" for name in row.options
    )
    only = ", ".join(each.words for each in row.conditions)
    return " ".join(
        part
        for part in (f"{row.label}.", row.advice, listed and f"{listed}.", only and f"Only {only}.")
        if part
    )
