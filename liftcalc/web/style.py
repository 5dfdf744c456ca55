"""The pages' own small style sheet, for day and night.

``light-dark`` follows the page's theme; a browser without it gets the light shade of both text
and ground, which still read well together.
"""

from __future__ import annotations

from importlib.resources import files

from liftcalc.web.theme import variables

CSS = (
    "<style>"
    + variables()
    + files("liftcalc.web").joinpath("pages.css").read_text(encoding="utf-8")
    + "</style>"
)
