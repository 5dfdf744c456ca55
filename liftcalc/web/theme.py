"""The shades of the pages, by day and by night: those of the drawings, and what goes with them.

The app is started with them as its theme; the style sheet and the tests of contrast use the same
table.
"""

from __future__ import annotations

from liftcalc.figures.styles import TONES

SHADES: dict[str, tuple[str, str]] = {
    "page": ("#f2f0e9", "#121517"),
    "paper": TONES["paper"],
    "ink": TONES["ink"],
    "soft": ("#525c62", "#b4bbbd"),
    "line": ("#c9cdca", "#454e53"),
    "good": ("#1d6b45", "#6fce9d"),
    "doubt": ("#8a5a00", "#f0bf57"),
    "warn": TONES["warn"],
    "bark": ("#6b4a2b", "#dcb482"),
    "focus": ("#0b62a8", "#7cc0ff"),
}
"""By day and by night. Words are in ink, soft, good, doubt, warn or bark, on page or paper: each
keeps 4.5:1 there."""
HEADINGS = "Georgia, 'Iowan Old Style', 'Liberation Serif', serif"
PLAIN = "'Segoe UI', Roboto, 'Helvetica Neue', 'Liberation Sans', Arial, sans-serif"


def theme() -> list[str]:
    """Options that start the app in these shades; fonts are those that a computer has."""
    asked: list[str] = []
    for number, shade in enumerate(("light", "dark")):
        told = {
            "primaryColor": SHADES["bark"][number],
            "backgroundColor": SHADES["page"][number],
            "secondaryBackgroundColor": SHADES["paper"][number],
            "textColor": SHADES["ink"][number],
            "linkColor": SHADES["focus"][number],
            "borderColor": SHADES["line"][number],
        }
        for name, value in told.items():
            asked += [f"--theme.{shade}.{name}", value]
    shared = {
        "font": PLAIN,
        "headingFont": HEADINGS,
        "baseRadius": "6px",
        "showWidgetBorder": "true",
    }
    for name, value in shared.items():
        asked += [f"--theme.{name}", value]
    return asked


def variables() -> str:
    """The shades as CSS variables; a browser without ``light-dark`` has the light ones of all."""
    plain = "".join(f"--lc-{name}:{light};" for name, (light, _) in SHADES.items())
    both = "".join(
        f"--lc-{name}:light-dark({light},{dark});" for name, (light, dark) in SHADES.items()
    )
    return f".stApp{{{plain}}}@supports(color:light-dark(#000,#fff)){{.stApp{{{both}}}}}"
