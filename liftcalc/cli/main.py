"""The command line: commands by name, and faults said in plain words with exit status 2.

A cold start imports only the command that is asked for; help imports them all. Who asks for JSON is
refused in JSON.
"""

from __future__ import annotations

import shlex
import sys
from importlib import import_module
from itertools import pairwise
from typing import Annotated, Any

import typer

from liftcalc import __version__
from liftcalc.documents import refusal
from liftcalc.errors import Fault, InputError
from liftcalc.remarks import worded
from liftcalc.units import System

HELP = (
    "What a log weighs, whether this loader-backhoe can lift it there, and what stops it first. "
    "The machine's own plate or chart, local rules and a competent person come first."
)
COMMANDS: dict[str, tuple[str, str]] = {
    "demo": ("check", "demo"),
    "check": ("check", "check"),
    "compare": ("compare", "compare"),
    "limits": ("limits", "limits"),
    "ask": ("ask", "ask"),
    "log": ("log", "log"),
    "machines": ("machines", "machines"),
}
"""Module of this room and function of every command, in the order of the help."""
VERSION = "--version"
WEIGH = "log weigh"
PROOF = "ground proof"
USAGE_ERROR: Any = typer.BadParameter.__base__
"""What typer raises for a word that is no option: only its heir is shown by name."""


def command_line(asked: str = "") -> typer.Typer:
    """The command line with the one command that is asked for, or with all of them."""
    app = typer.Typer(
        name="liftcalc",
        help=HELP,
        add_completion=False,
        pretty_exceptions_enable=False,
        no_args_is_help=True,
        rich_markup_mode=None,
    )
    app.callback()(_whole)
    if asked == "school":
        _school(app)
        return app
    if asked == WEIGH:
        _weigh(app)
        return app
    if asked == PROOF:
        _proof(app)
        return app
    names = [] if asked == VERSION else [asked] if asked in COMMANDS else COMMANDS
    for name in names:
        module, function = COMMANDS[name]
        app.command(name)(getattr(import_module(f"liftcalc.cli.{module}"), function))
    if names is COMMANDS:
        machine = typer.Typer(help="One machine file.", no_args_is_help=True, rich_markup_mode=None)
        machine.command("check")(import_module("liftcalc.cli.machines").machine_check)
        machine.command("new")(import_module("liftcalc.cli.machine_new").machine_new)
        machine.command("facts")(import_module("liftcalc.cli.machine_new").machine_facts)
        machine.command("weigh")(import_module("liftcalc.cli.weigh").machine_weigh)
        machine.command("sheet")(import_module("liftcalc.cli.machine_sheet").machine_sheet)
        walk = import_module("liftcalc.cli.walkround").machine_walkround
        machine.command("walkround")(walk)
        app.add_typer(machine, name="machine")
        _proof(app)
        _school(app)
        app.command("app")(pages)
    return app


def _weigh(app: typer.Typer) -> None:
    """``log weigh``, beside which ``log`` itself need not load the machines."""
    log = typer.Typer(help="One log.", no_args_is_help=True, rich_markup_mode=None)
    log.command("weigh")(import_module("liftcalc.cli.log_weigh").log_weigh)
    app.add_typer(log, name="log")


def _proof(app: typer.Typer) -> None:
    ground = typer.Typer(help="The ground.", no_args_is_help=True, rich_markup_mode=None)
    ground.command("proof")(import_module("liftcalc.cli.ground").ground_proof)
    app.add_typer(ground, name="ground")


def _school(app: typer.Typer) -> None:
    app.add_typer(import_module("liftcalc.cli.school").school, name="school")


def _say_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"liftcalc {__version__}")
        raise typer.Exit


def _whole(
    _: Annotated[
        bool, typer.Option(VERSION, is_eager=True, callback=_say_version, help="Say which this is.")
    ] = False,
) -> None:
    pass


def pages(
    port: Annotated[int | None, typer.Option(help="Port to serve on; free choice if none.")] = None,
) -> None:
    """Open the pages in a browser; served to this computer only."""
    from liftcalc.web.serve import serve  # noqa: PLC0415 - streamlit is for the pages only

    raise typer.Exit(serve(port))


def _system(words: list[str]) -> System:
    """The system of units that a command line asks for; metric where it asks for none."""
    for word, after in pairwise([*words, ""]):
        name, joined, text = word.partition("=")
        if name == "--units":
            said = text if joined else after
            return "imperial" if said.strip().casefold() == "imperial" else "metric"
    return "metric"


def main() -> None:
    """Run the command line; a refusal ends it with status 2, told in JSON who asked for JSON."""
    words = sys.argv[1:]
    as_json = not {"--json", "--evidence"}.isdisjoint(words)
    try:
        two = " ".join(words[:2])
        asked = two if two in (WEIGH, PROOF) else words[0] if words else ""
        left = command_line(asked)(standalone_mode=not as_json)
    except InputError as error:
        faults = tuple(worded(each, _system(words)) for each in error.faults)
        if as_json:
            print(refusal(faults))
        else:
            print(f"liftcalc: {InputError(faults)}", file=sys.stderr)
        sys.exit(2)
    except USAGE_ERROR as error:
        fault = Fault(
            field="command line",
            given=shlex.join(words),
            understood=error.format_message(),
            wanted=f"what '{error.ctx.command_path if error.ctx else 'liftcalc'} --help' lists",
        )
        print(refusal((fault,)))
        sys.exit(2)
    sys.exit(left if isinstance(left, int) else 0)


if __name__ == "__main__":
    main()
