"""The command line: commands by name, and faults said in plain words with exit status 2.

A cold start imports only the command that is asked for; help imports them all.
"""

from __future__ import annotations

import sys
from importlib import import_module
from typing import Annotated

import typer

from liftcalc.errors import LiftcalcError

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
    if asked == "school":
        _school(app)
        app.callback()(_alone)
        return app
    for name in [asked] if asked in COMMANDS else COMMANDS:
        module, function = COMMANDS[name]
        app.command(name)(getattr(import_module(f"liftcalc.cli.{module}"), function))
    if asked not in COMMANDS:
        machine = typer.Typer(help="One machine file.", no_args_is_help=True, rich_markup_mode=None)
        machine.command("check")(import_module("liftcalc.cli.machines").machine_check)
        machine.command("weigh")(import_module("liftcalc.cli.weigh").machine_weigh)
        app.add_typer(machine, name="machine")
        _school(app)
        app.command("app")(pages)
    else:
        app.callback()(_alone)
    return app


def _school(app: typer.Typer) -> None:
    app.add_typer(import_module("liftcalc.cli.school").school, name="school")


def _alone() -> None:
    """Keep a single command a command: without this it would be the whole program."""


def pages(
    port: Annotated[int | None, typer.Option(help="Port to serve on; free choice if none.")] = None,
) -> None:
    """Open the pages in a browser; served to this computer only."""
    from liftcalc.web.serve import serve  # noqa: PLC0415 - streamlit is for the pages only

    raise typer.Exit(serve(port))


def main() -> None:
    """Run the command line."""
    try:
        command_line(sys.argv[1] if len(sys.argv) > 1 else "")()
    except LiftcalcError as error:
        print(f"liftcalc: {error}", file=sys.stderr)
        sys.exit(2)


if __name__ == "__main__":
    main()
