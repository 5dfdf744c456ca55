"""The command line: commands by name, and faults said in plain words with exit status 2."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from liftcalc.cli.check import check, demo
from liftcalc.cli.log import log
from liftcalc.cli.machines import machine_check, machines
from liftcalc.errors import LiftcalcError

app = typer.Typer(
    name="liftcalc",
    help="What a log weighs, whether this loader-backhoe can lift it there, and what stops it "
    "first. The machine's own plate or chart, local rules and a competent person come first.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)
machine_app = typer.Typer(help="One machine file.", no_args_is_help=True, rich_markup_mode=None)
app.command()(check)
app.command()(demo)
app.command()(log)
app.command()(machines)
machine_app.command("check")(machine_check)
app.add_typer(machine_app, name="machine")


@app.command("app")
def pages(
    port: Annotated[int | None, typer.Option(help="Port to serve on; free choice if none.")] = None,
) -> None:
    """Open the pages in a browser; served to this computer only."""
    try:
        from liftcalc.web.serve import serve  # noqa: PLC0415 - streamlit is for the pages only
    except ModuleNotFoundError as error:
        typer.echo(f"The pages need more: pip install 'liftcalc[app]' ({error.name} is missing).",
                   err=True)  # fmt: skip
        raise typer.Exit(2) from None
    raise typer.Exit(serve(port))


def main() -> None:
    """Run the command line."""
    try:
        app()
    except LiftcalcError as error:
        print(f"liftcalc: {error}", file=sys.stderr)
        sys.exit(2)


if __name__ == "__main__":
    main()
